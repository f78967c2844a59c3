#include "tests/support/catch.h"
#include "tests/ui/desktop.h"
#include "ui/dialogs/line_dialog.h"
#include "ui/dialogs/pick_dialog.h"
#include "ui/models/shelf_model.h"
#include "ui/panels/bin/bin_page.h"
#include "ui/panels/lineage/lineage_dialog.h"
#include "ui/panels/sheet_head.h"
#include "ui/panels/shelf_panel.h"
#include "ui/panels/side_by_side/side_by_side_page.h"
#include "ui/panels/side_by_side/side_view.h"
#include "ui/panels/trail_panel.h"
#include "ui/widgets/status_line.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListView>
#include <QListWidget>
#include <QPushButton>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

constexpr auto kBoth = Qt::ControlModifier | Qt::ShiftModifier;

// Two revisions of Ox Skerry: gin 45, then 50.
struct Standing : Desktop {
    Standing() {
        newDrink(QStringLiteral("Ox Skerry"));
        write({QStringLiteral("45 ml London dry gin"), QStringLiteral("20 ml lemon juice"),
               QStringLiteral("20 ml simple syrup")});
        press(Qt::Key_Escape);
        keep(QStringLiteral("the idea"));
        setAmount(0, "50");
        keep(QStringLiteral("more gin"));
        skerry = draft().drink().id;
    }
    void setAmount(int row, const char* amount) {
        table().editCell(row, SpecModel::Amount);
        type(QString::fromLatin1(amount));
        press(Qt::Key_Return);
        press(Qt::Key_Escape);
    }
    TrailPanel& trail() { return window.bench().trail(); }
    void stand(int mark) {
        trail().setFocus();
        trail().setCursor(mark);
    }
    const TrailMark& mark(int at) { return trail().values().marks[static_cast<std::size_t>(at)]; }
    void answer(const QString& text) {
        auto* dialog = window.findChild<LineDialog*>();
        REQUIRE(dialog != nullptr);
        QApplication::setActiveWindow(dialog);
        dialog->line().setFocus();
        QTest::keyClicks(&dialog->line(), text);
        QTest::keyClick(&dialog->line(), Qt::Key_Return);
        REQUIRE(QTest::qWaitFor([this] { return window.findChild<LineDialog*>() == nullptr; }));
        QApplication::setActiveWindow(&window);
    }
    QString sheetState() {
        QStringList all;
        for (const auto* label : window.bench().sheet().head().findChildren<QLabel*>())
            if (label->isVisible()) all << label->text();
        return all.join(QLatin1Char('|'));
    }
    base::DrinkId skerry;
};

} // namespace

TEST_CASE("A revision is set aside with its reason and taken back", "[ui][history][standing]") {
    Standing desk;
    desk.stand(0);
    press(Qt::Key_X, kBoth);
    desk.answer(QStringLiteral("hid the smoke"));
    CHECK(desk.mark(0).state == StateMark::SetAside);
    CHECK(trailReason(desk.mark(0)) == QStringLiteral("set aside: hid the smoke"));
    auto& book = desk.window.desk().book()->book();
    REQUIRE(book.setAside(desk.skerry).size() == 1);
    CHECK(book.setAside(desk.skerry)[0].why == "hid the smoke");
    // What it was kept for stands in the book unchanged.
    CHECK(book.revisions(desk.skerry)[0].reason == "the idea");

    desk.stand(0);
    press(Qt::Key_X, kBoth);
    CHECK(desk.mark(0).state == StateMark::Kept);
    CHECK(desk.mark(0).reason == QStringLiteral("the idea"));
    CHECK(book.setAside(desk.skerry).empty());
}

TEST_CASE("What the bar pours or readers have is not set aside unawares", "[ui][history][standing]") {
    Standing desk;
    desk.stand(0);
    press(Qt::Key_H, Qt::ControlModifier);
    desk.stand(0);
    press(Qt::Key_X, kBoth);
    CHECK(desk.window.findChild<LineDialog*>() == nullptr);
    CHECK(desk.window.status().message().contains(QStringLiteral("r1 is the house spec")));
    CHECK(desk.mark(0).state == StateMark::House);
}

TEST_CASE("Published is marked, moved on and taken off, and the older one is out of date",
          "[ui][history][standing]") {
    Standing desk;
    desk.stand(0);
    press(Qt::Key_H, Qt::ControlModifier); // house
    desk.stand(0);
    press(Qt::Key_H, kBoth);
    CHECK(desk.mark(0).state == StateMark::Published);
    CHECK(trailStanding(desk.mark(0)) == QStringLiteral("published, house"));
    CHECK(desk.window.desk().book()->summary(desk.skerry)->hasPublished);

    desk.stand(1);
    press(Qt::Key_H, kBoth);
    CHECK(desk.mark(0).state == StateMark::House);
    CHECK(desk.mark(1).state == StateMark::Published);
    CHECK(desk.window.status().message().contains(QStringLiteral("Cards with r1 are out of date")));
    // The older one, open as it was, says what readers have by now.
    desk.stand(0);
    press(Qt::Key_Return);
    REQUIRE(desk.window.showsRevision());
    CHECK(desk.sheetState().contains(QStringLiteral("readers have r2")));
    press(Qt::Key_Left, Qt::AltModifier);

    desk.stand(1);
    press(Qt::Key_H, kBoth);
    CHECK(desk.mark(1).state == StateMark::Kept);
    CHECK_FALSE(desk.window.desk().book()->book().drink(desk.skerry)->published);
}

TEST_CASE("The house mark is taken off by the key that set it", "[ui][history][standing]") {
    Standing desk;
    desk.stand(0);
    press(Qt::Key_H, Qt::ControlModifier);
    CHECK(desk.mark(0).state == StateMark::House);
    CHECK(desk.window.status().message().contains(QStringLiteral("r1 is the house spec")));
    desk.stand(0);
    CHECK(desk.window.actions().at(Act::MakeHouse)->text().contains(QStringLiteral("No longer")));
    press(Qt::Key_H, Qt::ControlModifier);
    CHECK(desk.mark(0).state == StateMark::Kept);
    CHECK_FALSE(desk.window.desk().book()->book().drink(desk.skerry)->house);
    CHECK_FALSE(desk.window.desk().book()->summary(desk.skerry)->hasHouse);
    // Without the mark it can be set aside.
    desk.stand(0);
    press(Qt::Key_X, kBoth);
    desk.answer(QStringLiteral("hid the smoke"));
    CHECK(desk.mark(0).state == StateMark::SetAside);
}

TEST_CASE("A draft goes into the bin and the bin gives it back", "[ui][history][standing]") {
    Standing desk;
    const auto first = desk.draft().draft().id;
    press(Qt::Key_Y, kBoth); // the only one stays
    CHECK(desk.draft().draft().id == first);
    CHECK(desk.window.status().message().contains(QStringLiteral("only draft")));

    desk.stand(0);
    press(Qt::Key_B, Qt::ControlModifier);
    desk.setAmount(0, "40");
    const auto second = desk.draft().draft().id;
    REQUIRE(second != first);
    const auto written = desk.draft().spec();
    press(Qt::Key_Y, kBoth); // the one in hand: the other is in hand now
    CHECK(desk.draft().draft().id == first);
    auto& book = desk.window.desk().book()->book();
    CHECK(book.drafts(desk.skerry).size() == 1);
    for (const auto& mark : desk.trail().values().marks)
        CHECK_FALSE(mark.changed.contains(QStringLiteral("40")));

    press(Qt::Key_U, kBoth);
    auto* page = qobject_cast<BinPage*>(desk.window.page());
    REQUIRE(page != nullptr);
    REQUIRE(page->list().count() == 1);
    CHECK(page->told() == QStringLiteral("1 draft"));
    press(Qt::Key_Return);
    press(Qt::Key_Escape);
    REQUIRE(book.drafts(desk.skerry).size() == 2);
    CHECK(book.draft(second)->spec == written);
    // It is on the trail again, and can be gone to and binned from there while another is in hand.
    REQUIRE(desk.trail().values().marks.size() == 4);
    CHECK(desk.mark(2).changed.contains(QStringLiteral("40")));
    desk.stand(2);
    press(Qt::Key_Y, kBoth);
    CHECK(desk.draft().draft().id == first);
    CHECK(book.drafts(desk.skerry).size() == 1);
}

TEST_CASE("A draft is named, set aside for another and worked on again", "[ui][history][standing]") {
    Standing desk;
    desk.setAmount(1, "25");
    const auto first = desk.draft().draft().id;
    // The only draft cannot be set aside.
    desk.stand(2);
    press(Qt::Key_X, kBoth);
    CHECK(desk.window.status().message().contains(QStringLiteral("only draft")));

    desk.stand(0);
    press(Qt::Key_B, Qt::ControlModifier);
    const auto second = desk.draft().draft().id;
    REQUIRE(second != first);
    desk.setAmount(2, "15");
    press(Qt::Key_F2, Qt::ShiftModifier);
    desk.answer(QStringLiteral("with honey"));
    CHECK(desk.draft().draft().name == "with honey");
    CHECK(desk.sheetState().contains(QStringLiteral("“with honey”, draft on r1")));
    CHECK(desk.trail().values().marks.back().number == QStringLiteral("with honey"));

    desk.trail().setFocus();
    desk.trail().setCursor(static_cast<int>(desk.trail().values().marks.size()) - 1);
    press(Qt::Key_X, kBoth);
    CHECK(desk.draft().draft().id == first);
    CHECK(desk.window.desk().book()->book().draft(second)->setAside);
    const auto& marks = desk.trail().values().marks;
    const auto aside = std::find_if(marks.begin(), marks.end(), [](const TrailMark& mark) {
        return mark.number == QStringLiteral("with honey");
    });
    REQUIRE(aside != marks.end());
    CHECK(aside->state == StateMark::SetAside);

    desk.stand(static_cast<int>(aside - marks.begin()));
    press(Qt::Key_X, kBoth);
    CHECK_FALSE(desk.window.desk().book()->book().draft(second)->setAside);
}

TEST_CASE("Where a drink comes from stands on its sheet and in what is copied and can be undone",
          "[ui][history][standing]") {
    Standing desk;
    // Quill Point comes after Ox Skerry, its first revision.
    desk.trigger(Act::NewDrink);
    type(QStringLiteral("Quill Point"));
    press(Qt::Key_Return);
    press(Qt::Key_Return);
    desk.write({QStringLiteral("60 ml navy rum"), QStringLiteral("20 ml lemon juice")});
    press(Qt::Key_Escape);
    const auto quill = desk.draft().drink().id;
    press(Qt::Key_W, kBoth);
    auto* dialog = desk.window.findChild<LineageDialog*>();
    REQUIRE(dialog != nullptr);
    QApplication::setActiveWindow(dialog);
    dialog->choose().setFocus();
    QTest::keyClick(&dialog->choose(), Qt::Key_Space);
    auto* pick = dialog->findChild<PickDialog*>();
    REQUIRE(pick != nullptr);
    QApplication::setActiveWindow(pick);
    CHECK(pick->list().count() == 1); // not itself
    QTest::keyClicks(&pick->filter(), QStringLiteral("skerry"));
    QTest::keyClick(&pick->filter(), Qt::Key_Return);
    QApplication::setActiveWindow(dialog);
    REQUIRE(dialog->revision().count() == 3);
    dialog->revision().setFocus();
    QTest::keyClick(&dialog->revision(), Qt::Key_End); // the oldest
    QTest::keyClicks(&dialog->person(), QStringLiteral("M. Halloran"));
    QTest::keyClicks(&dialog->year(), QStringLiteral("1931"));
    QTest::keyClicks(&dialog->thanks(), QStringLiteral("with thanks to the morning shift"));
    QTest::keyClicks(&dialog->tags(), QStringLiteral("winter, Winter, low strength"));
    const QString credit =
        QStringLiteral("after Ox Skerry, r1; after M. Halloran, 1931; with thanks to the morning shift");
    CHECK(dialog->printed().endsWith(credit));
    QTest::keyClick(&dialog->tags(), Qt::Key_Return);
    REQUIRE(QTest::qWaitFor([&] { return desk.window.findChild<LineageDialog*>() == nullptr; }));
    QApplication::setActiveWindow(&desk.window);

    auto& book = desk.window.desk().book()->book();
    CHECK(book.drink(quill)->after.drink == desk.skerry);
    CHECK(book.drink(quill)->tags == std::vector<std::string>{"winter", "low strength"});
    auto& head = desk.window.bench().sheet().head();
    CHECK(head.credit() == credit);

    // One step, taken back and done again.
    desk.table().setFocus();
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(head.credit().isEmpty());
    CHECK(book.drink(quill)->after.isEmpty());
    press(Qt::Key_Z, kBoth);
    CHECK(head.credit() == credit);

    // It is in the copied table.
    desk.keep(QStringLiteral("the idea"));
    desk.setAmount(0, "50");
    press(Qt::Key_D, Qt::ControlModifier);
    auto* page = qobject_cast<SideBySidePage*>(desk.window.page());
    REQUIRE(page != nullptr);
    CHECK(page->view().tableText().contains(credit));
    press(Qt::Key_Left, Qt::AltModifier);

    // When the bar goes on to another revision, the sheet says so.
    REQUIRE(desk.window.desk().openDrink(desk.skerry));
    desk.stand(1);
    press(Qt::Key_H, Qt::ControlModifier);
    REQUIRE(desk.window.desk().openDrink(quill));
    CHECK(head.credit().endsWith(QStringLiteral("(that one has moved on to r2)")));

    // And the other cannot come after this one.
    REQUIRE(desk.window.desk().openDrink(desk.skerry));
    press(Qt::Key_W, kBoth);
    dialog = desk.window.findChild<LineageDialog*>();
    REQUIRE(dialog != nullptr);
    QApplication::setActiveWindow(dialog);
    dialog->choose().setFocus();
    QTest::keyClick(&dialog->choose(), Qt::Key_Space);
    pick = dialog->findChild<PickDialog*>();
    REQUIRE(pick != nullptr);
    QApplication::setActiveWindow(pick);
    QTest::keyClick(&pick->filter(), Qt::Key_Return);
    QStringList said;
    for (const auto* label : dialog->findChildren<QLabel*>())
        said << label->text();
    CHECK(said.join(QLatin1Char('|')).contains(QStringLiteral("Quill Point comes after this one already")));
    CHECK_FALSE(dialog->none().isEnabled());
    QTest::keyClick(dialog, Qt::Key_Escape);
}
