#include "core/store/empty_bin.h"
#include "tests/support/catch.h"
#include "tests/ui/desktop.h"
#include "ui/panels/bin/bin_page.h"
#include "ui/panels/bin/emptying.h"
#include "ui/panels/shelf_panel.h"
#include "ui/theme/banner.h"

#include <QFileInfo>
#include <QListWidget>
#include <QPushButton>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

constexpr auto kBoth = Qt::ControlModifier | Qt::ShiftModifier;

struct Binned : Desktop {
    base::DrinkId write(const char* name) {
        newDrink(QString::fromLatin1(name));
        Desktop::write({QStringLiteral("45 ml London dry gin"), QStringLiteral("20 ml lemon juice")});
        press(Qt::Key_Escape);
        keep(QStringLiteral("the idea"));
        return draft().drink().id;
    }
    void bin(base::DrinkId drink) {
        REQUIRE(window.desk().openDrink(drink));
        press(Qt::Key_Delete, kBoth);
    }
    BinPage& open() {
        press(Qt::Key_U, kBoth);
        auto* page = qobject_cast<BinPage*>(window.page());
        REQUIRE(page != nullptr);
        return *page;
    }
};

} // namespace

TEST_CASE("The bin lists what is in it, brings it back and is emptied into a book of its own", "[ui][bin]") {
    Binned desk;
    const auto skerry = desk.write("Ox Skerry");
    const auto quill = desk.write("Quill Point");
    const auto hallan = desk.write("Hallan Stack");
    {
        auto& page = desk.open();
        CHECK(page.list().count() == 0);
        CHECK_FALSE(page.empty().isEnabled());
        press(Qt::Key_Escape);
    }
    desk.bin(quill);
    desk.bin(hallan);
    REQUIRE(desk.window.desk().openDrink(skerry));
    {
        auto& page = desk.open();
        REQUIRE(page.list().count() == 2);
        CHECK(page.told() == QStringLiteral("2 drinks"));
        CHECK(page.list().item(0)->text().contains(QStringLiteral("1 revision")));
        page.list().setFocus();
        while (!page.list().currentItem()->text().startsWith(QStringLiteral("Quill Point")))
            press(Qt::Key_Down);
        press(Qt::Key_Return);
        REQUIRE(page.list().count() == 1);
        CHECK_FALSE(desk.window.desk().book()->summary(quill)->binned);
        page.empty().setFocus();
        press(Qt::Key_Space);
    }
    auto* dialog = desk.window.findChild<EmptyBinDialog*>();
    REQUIRE(dialog != nullptr);
    QApplication::setActiveWindow(dialog);
    // Leaving it is what Enter does; emptying is chosen.
    QTest::keyClick(dialog, Qt::Key_E, Qt::AltModifier);
    const auto emptied = [&]() -> BinPage* {
        auto* page = qobject_cast<BinPage*>(desk.window.page());
        return page && page->banner().isVisible() ? page : nullptr;
    };
    REQUIRE(QTest::qWaitFor([&] { return emptied() != nullptr; }, 30000));
    auto* page = emptied();
    CHECK(page->list().count() == 0);
    CHECK(page->banner().text().fact.contains(QStringLiteral("1 drink, 1 draft, 1 revision")));
    const QString backup = desk.path() + QStringLiteral("-before-emptying");
    CHECK(page->banner().text().consequence.contains(backup));
    REQUIRE(QFileInfo::exists(backup));
    // The book is whole without it, and the other one still has it.
    auto& book = desk.window.desk().book()->book();
    CHECK_FALSE(book.drink(hallan));
    CHECK(book.drink(quill));
    desk.window.desk().closeBook();
    CHECK(store::check(toCore(desk.path())).problems.empty());
    const base::SystemClock clock;
    const auto before = store::Workbook::open(toCore(backup), store::OpenMode::ReadOnly, clock);
    REQUIRE(before->drink(hallan));
    CHECK(before->revisions(hallan).size() == 1);
}

TEST_CASE("What is asked before emptying can be left and nothing is changed", "[ui][bin]") {
    Binned desk;
    const auto skerry = desk.write("Ox Skerry");
    const auto quill = desk.write("Quill Point");
    desk.bin(quill);
    REQUIRE(desk.window.desk().openDrink(skerry));
    auto& page = desk.open();
    page.empty().click();
    auto* dialog = desk.window.findChild<EmptyBinDialog*>();
    REQUIRE(dialog != nullptr);
    QApplication::setActiveWindow(dialog);
    QTest::keyClick(dialog, Qt::Key_Return); // the default is to leave it
    REQUIRE(QTest::qWaitFor([&] { return desk.window.findChild<EmptyBinDialog*>() == nullptr; }));
    CHECK(desk.window.desk().book()->book().drink(quill));
    CHECK_FALSE(QFileInfo::exists(desk.path() + QStringLiteral("-before-emptying")));
}
