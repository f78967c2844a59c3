#include "ui/panels/larder/open_larder.h"

#include "ui/main_window.h"
#include "ui/panels/larder/larder_page.h"
#include "ui/session/larder_edit.h"
#include "ui/widgets/status_line.h"

#include <QAction>

namespace stillroom::ui {

namespace {

LarderPage* pageOf(const MainWindow& window) {
    return qobject_cast<LarderPage*>(window.page());
}

// While the larder is open its own steps are the ones that go back.
void enableActions(MainWindow& window) {
    const auto enable = [&window](Act act, bool enabled) { window.actions().at(act)->setEnabled(enabled); };
    auto* page = pageOf(window);
    enable(Act::Larder, window.desk().book() != nullptr);
    enable(Act::BinIngredient, page != nullptr && page->edit().hasChosen());
    if (page == nullptr) return; // the draft's, as the window says
    enable(Act::Undo, page->edit().undoStack().canUndo());
    enable(Act::Redo, page->edit().undoStack().canRedo());
}

void showLarder(MainWindow& window) {
    auto* book = window.desk().book();
    if (book == nullptr || pageOf(window) != nullptr) return;
    auto& edit = book->larderEdit();
    auto* page = new LarderPage(edit);
    QObject::connect(page, &LarderPage::closed, &window, &MainWindow::closePage);
    QObject::connect(page, &LarderPage::said, &window.status(), &StatusLine::say);
    QObject::connect(page, &LarderPage::drinkAsked, &window, [&window](base::DrinkId drink) {
        window.desk().openDrink(drink);
        window.closePage();
    });
    QObject::connect(&edit, &LarderEdit::failed, page,
                     [&window](const Sentence& sentence) { Q_EMIT window.desk().failed(sentence); });
    const auto enable = [&window] { enableActions(window); };
    QObject::connect(&edit, &LarderEdit::chosenChanged, page, enable);
    for (const auto signal : {&QUndoStack::canUndoChanged, &QUndoStack::canRedoChanged})
        QObject::connect(&edit.undoStack(), signal, page, enable);
    window.showPage(page);
}

} // namespace

void connectLarder(MainWindow& window) {
    const auto on = [&window](Act act, auto slot) {
        QObject::connect(window.actions().at(act), &QAction::triggered, &window, slot);
    };
    const auto inPage = [&window](auto call) {
        return [&window, call] {
            if (auto* page = pageOf(window)) call(page->edit());
        };
    };
    on(Act::Larder, [&window] { showLarder(window); });
    on(Act::Undo, inPage([](LarderEdit& edit) { edit.takeBack(); }));
    on(Act::Redo, inPage([](LarderEdit& edit) { edit.doAgain(); }));
    on(Act::BinIngredient, inPage([](LarderEdit& edit) { edit.bin(); }));
    const auto enable = [&window] { enableActions(window); };
    QObject::connect(&window, &MainWindow::actionsUpdated, &window, enable);
    QObject::connect(&window.desk(), &Desk::bookChanged, &window, enable);
    enable();
}

} // namespace stillroom::ui
