#include "tests/support/catch.h"

#include "core/base/clock.h"
#include "core/store/workbook.h"
#include "ui/panels/tasting/scale_entry.h"
#include "ui/panels/tasting/tasting_list.h"
#include "ui/panels/tasting/tasting_page.h"
#include "ui/panels/tasting/verdict_keys.h"

#include <QAccessible>
#include <QApplication>
#include <QPushButton>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

using namespace stillroom;
using namespace stillroom::ui;
using namespace Qt::Literals::StringLiterals;

namespace {

TastingSheet sheet() {
    TastingSheet sheet;
    sheet.drink = u"Ox Skerry"_s;
    sheet.revision = u"r4"_s;
    tasting::Person person;
    person.id = base::PersonId::derivedFrom("MK");
    person.initials = "MK";
    person.name = "Mara Kell";
    sheet.people = {person};
    sheet.taster = person.id;
    sheet.scales = sheet.shownScales = tasting::ScaleSet::defaults().scales;
    sheet.now = {1'764'000'000'000, 60};
    return sheet;
}

tasting::Scores fifteen(const std::vector<std::pair<const char*, int>>& scores) {
    tasting::Scores made;
    for (const auto& [scale, value] : scores)
        made.byScale[scale] = {value, tasting::ScaleKind::FifteenPoint};
    return made;
}

void type(const char* keys) {
    QTest::keyClicks(QApplication::focusWidget(), QString::fromUtf8(keys));
}

void press(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
    QTest::keyClick(QApplication::focusWidget(), key, modifiers);
}

} // namespace

TEST_CASE("A whole tasting goes in by keyboard alone", "[tasting][panels]") {
    TastingPage page;
    page.resize(1200, 800);
    page.show();
    QApplication::setActiveWindow(&page);
    page.setSheet(sheet());
    TastingInput saved;
    QObject::connect(&page, &TastingPage::saveRequested, &page,
                     [&](const TastingInput& input) { saved = input; });
    for (const char* score : {"9", "10", "8", "15", "0", "7", "11"}) {
        type(score);
        press(Qt::Key_Return);
    }
    type("Rounder, can do");
    press(Qt::Key_Return);
    type("keep the lemon");
    press(Qt::Key_Tab);
    type("c");
    type("honey 17.5");
    press(Qt::Key_Return, Qt::ControlModifier);
    CHECK(saved.person == sheet().taster);
    CHECK(saved.scores == fifteen({{"sweet", 9},
                                   {"sour", 10},
                                   {"strong", 8},
                                   {"bitter", 15},
                                   {"length", 0},
                                   {"texture", 7},
                                   {"aroma", 11}}));
    CHECK(saved.note == u"Rounder, can do\nkeep the lemon"_s);
    CHECK(saved.verdict == tasting::Verdict::Change);
    CHECK(saved.tryNext == u"honey 17.5"_s);
}

TEST_CASE("A score is what its digits say and never above fifteen", "[tasting][panels]") {
    ScaleEntry entry({"sweet", "sweet", tasting::ScaleKind::FifteenPoint});
    entry.show();
    QTest::keyClicks(&entry, u"1"_s);
    CHECK(entry.score() == 1);
    QTest::keyClicks(&entry, u"2"_s);
    CHECK(entry.score() == 12);
    QTest::keyClicks(&entry, u"7"_s); // 127 is none
    CHECK(entry.score() == 12);
    CHECK(entry.isRefusing());
    QTest::keyClick(&entry, Qt::Key_Backspace);
    CHECK_FALSE(entry.isRefusing());
    QTest::keyClicks(&entry, u"16"_s); // 16 is none: the 1 stands
    CHECK(entry.score() == 1);
    CHECK(entry.isRefusing());
    CHECK(entry.accessibleDescription() == u"0 to 15"_s);
    QTest::keyClicks(&entry, u"5"_s);
    CHECK(entry.score() == 15);
    CHECK_FALSE(entry.isRefusing());
    QTest::keyClick(&entry, Qt::Key_Left);
    CHECK(entry.score() == 14);
    entry.setScore(15);
    QTest::keyClick(&entry, Qt::Key_Right);
    CHECK(entry.score() == 15);
    entry.setScore(0);
    QTest::keyClick(&entry, Qt::Key_Left);
    CHECK(entry.score() == 0);
    QTest::keyClick(&entry, Qt::Key_Backspace);
    CHECK_FALSE(entry.score().has_value());

    QAccessible::setActive(true);
    auto* interface = QAccessible::queryAccessibleInterface(&entry);
    REQUIRE(interface != nullptr);
    REQUIRE(interface->valueInterface() != nullptr);
    CHECK(interface->valueInterface()->maximumValue().toInt() == 15);
    CHECK(interface->text(QAccessible::Name).contains(u"sweet"_s));
    QAccessible::setActive(false);
}

TEST_CASE("A note of several lines is saved from the note and decides no verdict", "[tasting][panels]") {
    TastingPage page;
    page.show();
    QApplication::setActiveWindow(&page);
    page.setSheet(sheet());
    TastingInput saved;
    QObject::connect(&page, &TastingPage::saveRequested, &page,
                     [&](const TastingInput& input) { saved = input; });
    for (int i = 0; i < 7; ++i)
        press(Qt::Key_Return);
    type("dry");
    press(Qt::Key_Return);
    type("keep cold");
    press(Qt::Key_Return);
    type("drop the mint");
    press(Qt::Key_Return, Qt::ControlModifier);
    CHECK(saved.note == u"dry\nkeep cold\ndrop the mint"_s);
    CHECK(saved.verdict == tasting::Verdict::None);
    CHECK(saved.tryNext.isEmpty());
}

TEST_CASE("An empty tasting and one without a taster are not saved", "[tasting][panels]") {
    TastingPage page;
    page.show();
    QApplication::setActiveWindow(&page);
    auto empty = sheet();
    page.setSheet(empty);
    QSignalSpy saves(&page, &TastingPage::saveRequested);
    press(Qt::Key_Return, Qt::ControlModifier);
    CHECK(saves.isEmpty());
    empty.taster.reset();
    page.setSheet(empty);
    press(Qt::Key_Return); // over the empty name
    type("7");
    press(Qt::Key_Return, Qt::ControlModifier);
    CHECK(saves.isEmpty());
    CHECK(page.input().scores == fifteen({{"sweet", 7}})); // kept on the page
}

TEST_CASE("Initials are read from what was typed", "[tasting][panels]") {
    CHECK(initialsFrom(u"mk"_s) == u"MK"_s);
    CHECK(initialsFrom(u"Mara Kell"_s) == u"MK"_s);
    CHECK(initialsFrom(u"mara"_s) == u"MA"_s);
    CHECK(initialsFrom(u"  "_s).isEmpty());
    CHECK(personFor(sheet().people, u"mara kell"_s) == sheet().taster);
    CHECK(personFor(sheet().people, u"MK"_s) == sheet().taster);
    CHECK_FALSE(personFor(sheet().people, u"TO"_s).has_value());
}

TEST_CASE("A tasting goes into the book and comes back on the sheet", "[tasting][panels]") {
    QTemporaryDir folder;
    base::FixedClock clock({1'764'000'000'000, 60});
    auto book = store::Workbook::create(folder.filePath(u"t.stillroom"_s).toStdString(), {}, clock);
    history::Drink drink;
    drink.name = "Quill Point";
    spec::Spec spec;
    spec::Line line;
    line.name = line.written = "lime juice";
    spec.lines = {line};
    const auto draft = book->addDrink(drink, spec);
    const auto kept = book->keep(draft.id, "first pour");
    REQUIRE(kept.has_value());

    TastingInput input;
    input.name = u"Mara Kell"_s;
    input.initials = initialsFrom(input.name);
    input.scores = fifteen({{"sweet", 9}, {"sour", 10}, {"bitter", 3}, {"aroma", 7}});
    input.note = u"sharp"_s;
    input.verdict = tasting::Verdict::Keep;
    saveTasting(*book, kept->id, input, clock.now());
    const auto read = loadTastingSheet(*book, kept->id, clock.now());
    REQUIRE(read.has_value());
    CHECK(read->drink == u"Quill Point"_s);
    REQUIRE(read->tastings.size() == 1);
    CHECK(read->tastings[0].initials == u"MK"_s);
    CHECK(read->tastings[0].scores == input.scores);
    CHECK(read->tastings[0].note == u"sharp"_s);
    CHECK(read->tastings[0].verdict == tasting::Verdict::Keep);
    REQUIRE(read->taster.has_value()); // whoever tasted last is proposed

    TastingList list;
    list.resize(500, 400);
    list.setSheet(*read);
    CHECK(list.words().contains(u"MK would keep it"_s));
    CHECK(list.tableText().contains(u"sharp"_s));
}
