#include "tests/support/catch.h"
#include "tests/ui/panels/open_larder.h"
#include "ui/dialogs/first_run_page.h"
#include "ui/panels/shelf_panel.h"
#include "ui/panels/stock/stock_page.h"
#include "ui/panels/stock/stock_table.h"
#include "ui/panels/tasting/tasting_form.h"
#include "ui/panels/tasting/tasting_page.h"
#include "ui/theme/banner.h"

#include <QLabel>
#include <QListView>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

struct TwoDrinks : Desktop { // two drinks, and a book that is not there
    TwoDrinks() {
        newDrink(u"Quill Point"_s);
        write({u"45 ml London dry gin"_s});
        press(Qt::Key_Escape);
        newDrink(u"Ox Skerry"_s);
        write({u"22.5 ml lemon juice"_s});
        press(Qt::Key_Escape);
    }
    // As from the list of recent books.
    void openWhatIsGone() {
        CHECK_FALSE(window.desk().openBook(dir.filePath(u"gone.stillroom"_s)));
        REQUIRE(window.banner().isVisible());
        REQUIRE(window.banner().kind() == BannerKind::Error);
        QApplication::processEvents();
        CHECK(window.banner().isVisible()); // it waits for the person
    }
};

} // namespace

TEST_CASE("What went wrong leaves with the page it happened on", "[ui][banner]") {
    TwoDrinks desk;
    for (const auto& keys : {Qt::Key_L, Qt::Key_B, Qt::Key_F, Qt::Key_T, Qt::Key_U, Qt::Key_E}) {
        INFO(int(keys));
        desk.openWhatIsGone();
        press(keys, Qt::ControlModifier | Qt::ShiftModifier);
        REQUIRE(desk.window.page() != nullptr);
        CHECK_FALSE(desk.window.banner().isVisible());
        desk.openWhatIsGone();
        press(Qt::Key_Left, Qt::AltModifier); // back to the draft
        REQUIRE(desk.window.page() == nullptr);
        CHECK_FALSE(desk.window.banner().isVisible());
    }
}

TEST_CASE("What went wrong leaves when another drink is opened", "[ui][banner]") {
    TwoDrinks desk;
    desk.openWhatIsGone();
    const auto before = desk.draft().drink().id;
    auto& list = desk.window.bench().shelf().list();
    for (int row = 0; row < list.model()->rowCount() && desk.draft().drink().id == before; ++row)
        QTest::mouseClick(list.viewport(), Qt::LeftButton, {},
                          list.visualRect(list.model()->index(row, 0)).center());
    REQUIRE(desk.draft().drink().id != before);
    CHECK_FALSE(desk.window.banner().isVisible());
}

TEST_CASE("That a draft was not saved leaves once it is and no sooner", "[ui][banner]") {
    TwoDrinks desk;
    Q_EMIT desk.draft().saveFailed({u"The disk is full."_s, u"What you typed is in the window."_s, {}});
    QApplication::processEvents();
    REQUIRE(desk.window.banner().text().fact == u"The disk is full."_s);
    desk.table().editLastRow();
    desk.write({u"20 ml simple syrup"_s});
    CHECK_FALSE(desk.window.banner().isVisible());
    // Another failure has nothing to do with saving the draft.
    press(Qt::Key_Escape);
    desk.openWhatIsGone();
    desk.table().editLastRow();
    desk.write({u"10 ml water"_s});
    CHECK(desk.window.banner().isVisible());
}

TEST_CASE("That a book is open to read only stays on every page of it", "[ui][banner]") {
    TwoDrinks desk;
    const QString path = desk.path();
    desk.window.desk().closeBook();
    REQUIRE(desk.window.desk().openBook(path, store::OpenMode::ReadOnly));
    QApplication::processEvents();
    REQUIRE(desk.window.banner().kind() == BannerKind::Caution);
    press(Qt::Key_L, Qt::ControlModifier | Qt::ShiftModifier);
    CHECK(desk.window.banner().isVisible());
}

TEST_CASE("A refused count is said until another is taken", "[ui][banner][stock]") {
    TwoDrinks desk;
    press(Qt::Key_B, Qt::ControlModifier | Qt::ShiftModifier);
    auto* page = qobject_cast<StockPage*>(desk.window.page());
    REQUIRE(page != nullptr);
    const auto count = [&](const QString& text) {
        page->shelf().setFocus();
        page->shelf().goTo(0);
        for (const QChar letter : text)
            type(QString(letter));
        press(Qt::Key_Return);
        QApplication::processEvents();
    };
    count(u"9 parts"_s);
    CHECK(page->banner().isVisible());
    count(u"350 ml"_s);
    CHECK_FALSE(page->banner().isVisible());
}

TEST_CASE("A tasting that was not saved says why until it is written on", "[ui][banner][tasting]") {
    TwoDrinks desk;
    REQUIRE(desk.window.keepNow(u"the idea"_s));
    press(Qt::Key_T, Qt::ControlModifier);
    auto* page = qobject_cast<TastingPage*>(desk.window.page());
    REQUIRE(page != nullptr);
    press(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE(page->form().banner().isVisible());
    type(u"MK"_s);
    CHECK_FALSE(page->form().banner().isVisible());
    press(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE(page->form().banner().text().fact.contains(u"Nothing to save"_s));
    press(Qt::Key_7);
    CHECK_FALSE(page->form().banner().isVisible());
}

TEST_CASE("The first line that names nothing is said until it is written anew", "[ui][banner]") {
    MainWindow window;
    window.show();
    QApplication::setActiveWindow(&window);
    REQUIRE(QTest::qWaitFor([&] { return window.isActiveWindow(); }));
    const auto problem = [&] {
        for (auto* label : window.firstRun().findChildren<QLabel*>())
            if (label->isVisible() && label->text().contains(u"names nothing"_s)) return true;
        return false;
    };
    window.firstRun().line().setFocus();
    type(u"---"_s);
    press(Qt::Key_Return);
    REQUIRE(problem());
    type(u"x"_s);
    CHECK_FALSE(problem());
}
