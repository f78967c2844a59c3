#include "ui/panels/preparation/open_preparation.h"

#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/preparation/preparation_panel.h"
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

} // namespace

void connectPreparation(MainWindow& window) {
    auto& panel = window.bench().preparation();
    auto& actions = window.actions();
    QObject::connect(&panel, &PreparationPanel::said, &window.status(), &StatusLine::say);
    QObject::connect(&panel, &PreparationPanel::drinkActivated, &window,
                     [&window](base::DrinkId drink) { window.desk().openDrink(drink); });
    QObject::connect(&panel, &PreparationPanel::printAsked, actions.at(Act::PrintLabel), &QAction::trigger);
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
