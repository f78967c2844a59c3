#include "tests/support/catch.h"
#include "tests/ui/desktop.h"
#include "ui/panels/asks/ask_list.h"
#include "ui/panels/asks/asks_page.h"
#include "ui/panels/asks/course_charts.h"
#include "ui/panels/tasting/tasting_page.h"

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;
using namespace Qt::Literals::StringLiterals;

namespace {

struct AsksRoom : Desktop {
    AsksRoom() {
        newDrink(u"Ox Skerry"_s);
        write({u"45 ml London dry gin"_s, u"20 ml simple syrup"_s, u"20 ml lemon juice"_s});
        press(Qt::Key_Escape);
    }
    void taste(const QString& sweet, const QString& note) {
        press(Qt::Key_T, Qt::ControlModifier);
        REQUIRE(qobject_cast<TastingPage*>(window.page()) != nullptr);
        if (QApplication::focusWidget()->inherits("QComboBox") ||
            QApplication::focusWidget()->inherits("QLineEdit")) {
            type(u"MK"_s);
            press(Qt::Key_Return);
        }
        type(sweet);
        for (int i = 0; i < 7; ++i)
            press(Qt::Key_Return);
        type(note);
        press(Qt::Key_Return, Qt::ControlModifier);
        REQUIRE(window.page() == nullptr);
    }
    void change(int line, const QString& amount) {
        table().editCell(line, SpecModel::Amount);
        type(amount);
        press(Qt::Key_Return);
        press(Qt::Key_Escape);
    }
    AsksPage& asks() {
        press(Qt::Key_A, Qt::ControlModifier | Qt::ShiftModifier);
        auto* page = qobject_cast<AsksPage*>(window.page());
        REQUIRE(page != nullptr);
        return *page;
    }
};

} // namespace

TEST_CASE("Too sweet becomes a change of one line that one key takes and one takes back", "[ui][asks]") {
    AsksRoom room;
    room.keep(u"the idea"_s);
    room.taste(u"11"_s, u"Too sweet, else right."_s);
    const auto before = room.draft().spec();
    const auto strength = room.served(spec::Quantity::Strength);
    const int steps = room.draft().undoStack().count();
    auto& page = room.asks();
    REQUIRE(QApplication::focusWidget() == &page.list());
    REQUIRE(page.list().count() == 2);
    const auto table = page.list().tableText();
    CHECK(table.contains(u"1 of 1: too sweet"_s));
    CHECK(table.contains(u"simple syrup 20 → 17.5 ml"_s));
    CHECK(table.contains(u"lemon juice 20 → 22.5 ml"_s));
    // What it says it does is what the bench reads once it is taken.
    const auto effect = page.list().change(0)->effects.join(u";"_s);
    CHECK(effect.contains(u"strength "_s + strength));
    press(Qt::Key_Down);
    CHECK(page.list().current() == 1);
    CHECK(page.list().words().contains(u"stand against it"_s));
    press(Qt::Key_Up);
    press(Qt::Key_Return);
    CHECK(room.window.page() == nullptr);
    REQUIRE(room.draft().spec().lines.size() == 3);
    CHECK(room.draft().spec().lines[1].poured == ml(35, 2));
    CHECK(room.draft().undoStack().count() == steps + 1);
    CHECK(effect.contains(u"→ "_s + room.served(spec::Quantity::Strength)));
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(room.draft().spec() == before);
}

TEST_CASE("One thing changed between two scores is named and several are warned of", "[ui][asks]") {
    AsksRoom room;
    room.keep(u"the idea"_s);
    room.taste(u"12"_s, u"too sweet"_s);
    room.change(1, u"15 ml"_s);
    room.keep(u"less syrup"_s);
    room.taste(u"7"_s, u"fine"_s);
    room.change(1, u"17.5 ml"_s);
    room.change(2, u"25 ml"_s);
    room.keep(u"both"_s);
    room.taste(u"6"_s, u"not sweet enough"_s);
    auto& page = room.asks();
    const auto words = page.charts().words();
    CHECK(words.contains(u"r1 → r2: only this changed: simple syrup"_s));
    CHECK(words.contains(u"sweet 12.0 → 7.0"_s));
    CHECK(words.contains(u"r2 → r3: 2 things changed at once"_s));
    CHECK(page.list().tableText().contains(u"not sweet enough"_s));
    CHECK(page.charts().tableText().contains(u"r3\t6.0"_s));
    page.grab();
    press(Qt::Key_Tab);
    CHECK(QApplication::focusWidget() == &page.charts());
    press(Qt::Key_Escape);
    CHECK(room.window.page() == nullptr);
}

TEST_CASE("Nothing kept and nothing asked for are said as such", "[ui][asks]") {
    AsksRoom room;
    {
        auto& page = room.asks();
        CHECK(page.list().count() == 0);
        press(Qt::Key_Return); // nothing to take
        CHECK(room.window.page() == &page);
        page.grab();
        press(Qt::Key_Escape);
    }
    room.keep(u"the idea"_s);
    room.taste(u"9"_s, u"right"_s);
    room.change(0, u"50 ml"_s);
    auto& page = room.asks();
    CHECK(page.list().count() == 0);
    CHECK(page.list().words().contains(u"Nobody asks"_s));
    page.grab();
}
