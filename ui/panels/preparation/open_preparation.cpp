#include "ui/panels/preparation/open_preparation.h"

#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/preparation/batch_dialog.h"
#include "ui/panels/preparation/preparation_panel.h"
#include "ui/panels/sheet_panel.h"
#include "ui/text/border.h"
#include "ui/text/preparation_words.h"
#include "ui/widgets/spec_table.h"
#include "ui/widgets/status_line.h"

#include <QAction>

namespace stillroom::ui {

namespace {

// Says why when there is no preparation on the bench.
DraftSession* preparationInHand(MainWindow& window) {
    auto* draft = window.desk().draft();
    if (draft != nullptr && !window.page() && draft->drink().form == history::DrinkForm::Preparation)
        return draft;
    window.status().say(MainWindow::tr("Open a preparation first: this is done with what is made here."));
    return nullptr;
}

void makeBatch(MainWindow& window) {
    auto* draft = preparationInHand(window);
    if (draft == nullptr || !window.bench().sheet().table().finishEditing()) return;
    // A new preparation comes into the larder when that is read anew.
    if (!window.bench().preparation().record().ingredient)
        window.desk().attempt([&] { draft->book().reloadLarder(); });
    const auto& now = draft->now();
    const auto& record = window.bench().preparation().record();
    if (!now.made || !record.ingredient) {
        window.status().say(MainWindow::tr("There is nothing in it yet to make a batch of."));
        return;
    }
    BatchAsk ask;
    ask.ingredient = *record.ingredient;
    ask.name = now.words.name.empty() ? MainWindow::tr("A preparation") : fromCore(now.words.name);
    ask.spec = now.spec;
    ask.bindings = &draft->bindings();
    ask.made = *now.made;
    ask.keeping = now.keeping;
    if (draft->base() && draft->base()->spec == now.spec) ask.madeFrom = draft->base()->id;
    ask.parts = preparation::partDates(now.spec, draft->bindings(), draft->book().larder(), record.specs);
    ask.scaleStep = quantity::Mass::fromGrams(draft->book().settings().scaleStepG);
    ask.today = civilDay(draft->book().clock().now());
    ask.writable = !draft->book().book().isReadOnly() && !window.showsRevision();
    auto* dialog = new BatchDialog(std::move(ask), &window);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    QObject::connect(dialog, &BatchDialog::lotAsked, &window, [&window](const larder::Lot& lot, bool inUse) {
        if (window.desk().attempt([&] { window.desk().book()->saveLot(lot, inUse); }))
            window.status().say(MainWindow::tr("Noted: made %1.").arg(fromCore(lot.on)));
    });
    QObject::connect(dialog, &BatchDialog::specAsked, draft, [draft](const spec::Spec& spec) {
        draft->apply(spec, MainWindow::tr("Another batch size"));
    });
    dialog->open();
}

} // namespace

void connectPreparation(MainWindow& window) {
    auto& panel = window.bench().preparation();
    auto& actions = window.actions();
    QObject::connect(&panel, &PreparationPanel::said, &window.status(), &StatusLine::say);
    QObject::connect(&panel, &PreparationPanel::drinkActivated, &window,
                     [&window](base::DrinkId drink) { window.desk().openDrink(drink); });
    QObject::connect(&panel, &PreparationPanel::printAsked, actions.at(Act::PrintLabel), &QAction::trigger);
    QObject::connect(actions.at(Act::MakeBatch), &QAction::triggered, &window,
                     [&window] { makeBatch(window); });
    QObject::connect(actions.at(Act::PrintLabel), &QAction::triggered, &window, [&window, &panel] {
        const auto* draft = preparationInHand(window);
        if (draft == nullptr) return;
        if (draft->now().made)
            panel.printLabel();
        else
            window.status().say(MainWindow::tr("There is nothing in it yet to put on a label."));
    });
}

} // namespace stillroom::ui
