#include "ui/panels/drafts/standing.h"

#include "ui/dialogs/line_dialog.h"
#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/drawing_values.h"
#include "ui/panels/sheet_panel.h"
#include "ui/panels/trail_panel.h"
#include "ui/text/border.h"
#include "ui/text/revision_label.h"
#include "ui/widgets/spec_table.h"
#include "ui/widgets/status_line.h"

#include <QAction>

#include <algorithm>

namespace stillroom::ui {

namespace {

bool isWritable(MainWindow& window) {
    return window.desk().draft() != nullptr && !window.desk().book()->book().isReadOnly() &&
           window.page() == nullptr;
}

const history::Revision* chosen(MainWindow& window) {
    const auto id = window.chosenRevision();
    return id ? window.bench().history().revision(*id) : nullptr;
}

QString labelOf(MainWindow& window, const history::Revision& revision) {
    return revisionLabel(window.desk().draft()->drink().form, revision.number);
}

void publish(MainWindow& window) {
    const auto* revision = chosen(window);
    if (revision == nullptr) return;
    auto& desk = window.desk();
    const auto& history = window.bench().history();
    if (history.setAside(revision->id) != nullptr) {
        window.status().say(QObject::tr("%1 is set aside. Take it back with %2 before readers get it.")
                                .arg(labelOf(window, *revision))
                                .arg(Actions::keyText(Act::SetAside)));
        return;
    }
    const auto id = revision->id;
    const QString number = labelOf(window, *revision);
    const auto before = desk.draft()->drink().published;
    const bool off = before == id;
    const auto* earlier = before && !off ? history.revision(*before) : nullptr;
    const QString earlierNumber = earlier ? labelOf(window, *earlier) : QString();
    const bool done = desk.attempt([&] {
        auto drink = desk.book()->book().drink(desk.draft()->drink().id);
        if (!drink) return;
        drink->published = off ? std::nullopt : std::optional(id);
        desk.book()->saveDrink(*drink);
        desk.draft()->reloadDrink();
        desk.book()->reloadShelf();
    });
    if (!done) return;
    if (off)
        window.status().say(QObject::tr("%1 is no longer marked as published.").arg(number));
    else if (!earlierNumber.isEmpty())
        window.status().say(QObject::tr("Readers have %1 now. Cards with %2 are out of date.")
                                .arg(number)
                                .arg(earlierNumber));
    else
        window.status().say(QObject::tr("Readers have %1 now.").arg(number));
}

void asideRevision(MainWindow& window, base::RevisionId id, const QString& number, bool aside,
                   const QString& why) {
    auto& desk = window.desk();
    const bool done = desk.attempt([&] {
        desk.book()->book().setRevisionAside(id, aside, toCore(why));
        desk.draft()->reloadDrink();
    });
    if (!done) return;
    window.bench().trail().choose(id);
    window.status().say((aside ? QObject::tr("%1 is set aside; it stays on the trail. %2 takes it back.")
                               : QObject::tr("%1 is among the others again. %2 sets it aside."))
                            .arg(number)
                            .arg(Actions::keyText(Act::SetAside)));
}

void asideDraft(MainWindow& window, const history::Draft& draft) {
    auto& desk = window.desk();
    const bool inHand = desk.draft()->draft().id == draft.id;
    std::optional<base::DraftId> next; // the one saved last
    std::int64_t saved = -1;
    if (inHand && !draft.setAside)
        for (const auto& other : window.bench().history().otherDrafts())
            if (!other.draft.setAside && other.draft.saved.utcMs > saved) {
                next = other.draft.id;
                saved = other.draft.saved.utcMs;
            }
    if (inHand && !draft.setAside && !next) {
        window.status().say(
            QObject::tr("This is the only draft worked on: branch another with %1, or put the "
                        "drink in the bin.")
                .arg(Actions::keyText(Act::Branch)));
        return;
    }
    const QString name = draftName(draft);
    const bool aside = !draft.setAside;
    const bool done = desk.attempt([&] { desk.book()->book().setDraftAside(draft.id, aside); });
    if (!done) return;
    if (inHand) desk.draft()->reloadDraft();
    if (next)
        desk.openDraft(*next);
    else
        window.bench().history().reload();
    window.status().say((aside ? QObject::tr("“%1” is set aside and still there: %2.")
                               : QObject::tr("“%1” is worked on again: %2."))
                            .arg(name, Actions::keyText(Act::Drafts)));
}

void setAside(MainWindow& window) {
    if (!window.bench().sheet().table().finishEditing()) return;
    auto& history = window.bench().history();
    if (const auto other = window.bench().trail().chosenDraft(); other && !window.showsRevision()) {
        for (const auto& each : history.otherDrafts())
            if (each.draft.id == *other) {
                const auto draft = each.draft;
                asideDraft(window, draft);
                return;
            }
    }
    const auto* revision = chosen(window);
    if (revision == nullptr) {
        const auto draft = window.desk().draft()->draft();
        asideDraft(window, draft);
        return;
    }
    const auto id = revision->id;
    const QString number = labelOf(window, *revision);
    if (history.setAside(id) != nullptr) {
        asideRevision(window, id, number, false, {});
        return;
    }
    const auto& drink = window.desk().draft()->drink();
    if (drink.house == id || drink.published == id) {
        window.status().say(
            (drink.published == id
                 ? QObject::tr(
                       "Readers have %1: publish another, or take the mark off, before setting it aside.")
                 : QObject::tr("%1 is the house spec: make another the house spec, or take the mark off, "
                               "before setting it aside."))
                .arg(number));
        return;
    }
    LineDialog::Ask ask;
    ask.title = QObject::tr("Set %1 aside").arg(number);
    ask.about = QObject::tr("It stays on the trail with a slashed ring, and can be taken back.");
    ask.label = QObject::tr("&Why?");
    ask.example = QObject::tr("hid the smoke");
    ask.act = QObject::tr("Set aside");
    auto* dialog = new LineDialog(ask, &window);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    QObject::connect(dialog, &LineDialog::answered, &window, [&window, id, number](const QString& why) {
        asideRevision(window, id, number, true, why);
    });
    dialog->open();
}

void nameDraft(MainWindow& window) {
    auto* draft = window.desk().draft();
    if (draft == nullptr || !window.bench().sheet().table().finishEditing()) return;
    LineDialog::Ask ask;
    ask.title = QObject::tr("Name the draft");
    ask.about = QObject::tr("Several tries at one drink are told apart by their names.");
    ask.label = QObject::tr("&Name");
    ask.value = fromCore(draft->draft().name);
    ask.example = QObject::tr("with honey");
    ask.act = QObject::tr("Name it");
    auto* dialog = new LineDialog(ask, &window);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    QObject::connect(dialog, &LineDialog::answered, draft, [&window, draft](const QString& name) {
        if (window.desk().attempt([&] { draft->book().book().renameDraft(draft->draft().id, toCore(name)); }))
            draft->reloadDraft();
    });
    dialog->open();
}

void enable(MainWindow& window) {
    auto& actions = window.actions();
    const bool writable = isWritable(window);
    const auto* revision = writable ? chosen(window) : nullptr;
    const bool published = revision && window.desk().draft()->drink().published == revision->id;
    actions.at(Act::Publish)->setEnabled(revision != nullptr);
    actions.at(Act::Publish)
        ->setText(published ? QObject::tr("No longer &published") : QObject::tr("Mark as &published"));
    const bool house = revision && window.desk().draft()->drink().house == revision->id;
    actions.at(Act::MakeHouse)
        ->setText(house ? QObject::tr("No longer the &house spec") : QObject::tr("Make it the &house spec"));
    actions.at(Act::SetAside)->setEnabled(writable);
    actions.at(Act::NameDraft)->setEnabled(writable && !window.showsRevision());
}

} // namespace

void connectStanding(MainWindow& window) {
    const auto on = [&window](Act act, void (*slot)(MainWindow&)) {
        QObject::connect(window.actions().at(act), &QAction::triggered, &window,
                         [&window, slot] { slot(window); });
    };
    on(Act::Publish, publish);
    on(Act::SetAside, setAside);
    on(Act::NameDraft, nameDraft);
    QObject::connect(&window, &MainWindow::actionsUpdated, &window, [&window] { enable(window); });
    enable(window);
}

} // namespace stillroom::ui
