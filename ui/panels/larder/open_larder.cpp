#include "ui/panels/larder/open_larder.h"

#include "ui/main_window.h"
#include "ui/panels/larder/larder_page.h"
#include "ui/session/larder_edit.h"
#include "ui/widgets/status_line.h"

#include <QAction>

namespace stillroom::ui {

void connectLarder(MainWindow& window) {
    QObject::connect(window.actions().at(Act::Larder), &QAction::triggered, &window, [&window] {
        auto* book = window.desk().book();
        if (book == nullptr || qobject_cast<LarderPage*>(window.page()) != nullptr) return;
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
        window.showPage(page);
    });
    const auto enable = [&window] {
        window.actions().at(Act::Larder)->setEnabled(window.desk().book() != nullptr);
    };
    QObject::connect(&window.desk(), &Desk::bookChanged, &window, enable);
    enable();
}

} // namespace stillroom::ui
