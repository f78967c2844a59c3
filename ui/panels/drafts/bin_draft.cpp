#include "ui/panels/drafts/bin_draft.h"

#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/drawing_values.h"
#include "ui/panels/sheet_panel.h"
#include "ui/panels/trail_panel.h"
#include "ui/widgets/spec_table.h"
#include "ui/widgets/status_line.h"

#include <QAction>

namespace stillroom::ui {

namespace {

// What is worked on when the draft in hand goes: the one saved last, one set aside only when there is no
// other.
std::optional<base::DraftId> nextInHand(const DrinkHistory& history) {
    const history::Draft* next = nullptr;
    for (const auto& other : history.otherDrafts()) {
        const auto& draft = other.draft;
        const bool better = next == nullptr || (next->setAside && !draft.setAside) ||
                            (next->setAside == draft.setAside && draft.saved.utcMs > next->saved.utcMs);
        if (better) next = &draft;
    }
    return next ? std::optional(next->id) : std::nullopt;
}

history::Draft draftMeant(MainWindow& window) {
    if (const auto chosen = window.bench().trail().chosenDraft(); chosen && !window.showsRevision())
        for (const auto& other : window.bench().history().otherDrafts())
            if (other.draft.id == *chosen) return other.draft;
    return window.desk().draft()->draft();
}

void binDraft(MainWindow& window) {
    auto& desk = window.desk();
    if (desk.draft() == nullptr || !window.bench().sheet().table().finishEditing()) return;
    const auto draft = draftMeant(window);
    const bool inHand = draft.id == desk.draft()->draft().id;
    const auto next = inHand ? nextInHand(window.bench().history()) : std::nullopt;
    if (inHand && !next) {
        window.status().say(
            QObject::tr(
                "This is the only draft: branch another with %1, or put the drink in the bin with %2.")
                .arg(Actions::keyText(Act::Branch), Actions::keyText(Act::BinDrink)));
        return;
    }
    const QString name = draftName(draft);
    if (next && !desk.openDraft(*next)) return;
    const bool done = desk.attempt([&] {
        desk.book()->book().binDraft(draft.id, true);
        desk.book()->reloadShelf();
    });
    if (!done) return;
    window.bench().history().reload();
    window.status().say(QObject::tr("“%1” is in the bin. %2 opens the bin and brings it back.")
                            .arg(name, Actions::keyText(Act::Bin)));
}

} // namespace

void connectBinDraft(MainWindow& window) {
    auto* action = window.actions().at(Act::BinDraft);
    QObject::connect(action, &QAction::triggered, &window, [&window] { binDraft(window); });
    const auto enable = [&window, action] {
        action->setEnabled(window.desk().draft() != nullptr && !window.desk().book()->book().isReadOnly() &&
                           window.page() == nullptr && !window.showsRevision());
    };
    QObject::connect(&window, &MainWindow::actionsUpdated, &window, enable);
    enable();
}

} // namespace stillroom::ui
