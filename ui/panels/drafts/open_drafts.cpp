#include "ui/panels/drafts/open_drafts.h"

#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/drafts/bin_draft.h"
#include "ui/panels/drafts/draft_rows.h"
#include "ui/panels/sheet_panel.h"
#include "ui/panels/trail_panel.h"
#include "ui/text/revision_label.h"
#include "ui/widgets/spec_table.h"
#include "ui/widgets/status_line.h"

#include <QAction>

namespace stillroom::ui {

namespace {

bool isWritable(const MainWindow& window) {
    auto& desk = const_cast<MainWindow&>(window).desk();
    return desk.draft() != nullptr && !desk.book()->book().isReadOnly();
}

// What one would branch from: the revision chosen on the trail or open on the sheet, else what the draft
// stands on.
std::optional<base::RevisionId> revisionToBranch(MainWindow& window) {
    if (const auto chosen = window.chosenRevision()) return chosen;
    auto* draft = window.desk().draft();
    return draft ? draft->draft().basedOn : std::nullopt;
}

void branch(MainWindow& window) {
    const auto from = revisionToBranch(window);
    if (!from || !window.bench().sheet().table().finishEditing()) return;
    const auto* revision = window.bench().history().revision(*from);
    const int number = revision ? revision->number : 0;
    const auto form = window.desk().draft()->drink().form;
    if (!window.desk().branch(*from)) return;
    window.bench().sheet().table().setFocus(Qt::OtherFocusReason);
    window.status().say(QObject::tr("A further draft on %1. The one before is still there: %2.")
                            .arg(revisionLabel(form, number), Actions::keyText(Act::Drafts)));
}

void chooseDraft(MainWindow& window) {
    if (!window.desk().draft() || !window.bench().sheet().table().finishEditing()) return;
    auto choices = draftChoices(window.bench().history());
    std::vector<PickRow> rows;
    for (const auto& choice : choices)
        rows.push_back(choice.row);
    auto* dialog = new PickDialog(QObject::tr("Drafts of this drink"),
                                  choices.size() < 2
                                      ? QObject::tr("There is one draft. %1 branches another off a revision.")
                                            .arg(Actions::keyText(Act::Branch))
                                      : QString(),
                                  std::move(rows), &window);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    QObject::connect(dialog, &PickDialog::picked, &window, [&window, choices = std::move(choices)](int row) {
        window.desk().openDraft(choices[static_cast<std::size_t>(row)].draft);
    });
    dialog->open();
}

void enable(MainWindow& window) {
    auto& actions = window.actions();
    const bool writable = isWritable(window) && window.page() == nullptr;
    actions.at(Act::Branch)->setEnabled(writable && revisionToBranch(window).has_value());
    actions.at(Act::Drafts)->setEnabled(window.desk().draft() != nullptr && window.page() == nullptr);
}

} // namespace

void connectDrafts(MainWindow& window) {
    QObject::connect(window.actions().at(Act::Branch), &QAction::triggered, &window,
                     [&window] { branch(window); });
    QObject::connect(window.actions().at(Act::Drafts), &QAction::triggered, &window,
                     [&window] { chooseDraft(window); });
    QObject::connect(&window.bench().trail(), &TrailPanel::otherDraftActivated, &window,
                     [&window](base::DraftId draft) {
                         if (window.bench().sheet().table().finishEditing()) window.desk().openDraft(draft);
                     });
    QObject::connect(&window, &MainWindow::actionsUpdated, &window, [&window] { enable(window); });
    enable(window);
    connectBinDraft(window);
}

} // namespace stillroom::ui
