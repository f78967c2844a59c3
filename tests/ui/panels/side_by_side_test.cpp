#include "tests/support/catch.h"

#include "core/larder/larder.h"
#include "core/spec/evaluate.h"
#include "ui/panels/side_by_side/side_by_side_page.h"
#include "ui/panels/side_by_side/side_view.h"

#include <QApplication>
#include <QCheckBox>
#include <QClipboard>
#include <QTest>

using namespace stillroom;
using namespace stillroom::ui;
using namespace Qt::Literals::StringLiterals;

namespace {

spec::Line ml(const char* name, const char* amount, spec::Role role = spec::Role::Mixed) {
    spec::Line line;
    line.name = line.written = name;
    line.poured.amount = quantity::Amount::exact(*quantity::Rational::fromText(amount));
    line.poured.measure = quantity::Measure::Ml;
    line.role = role;
    const auto match = larder::Larder().match(name);
    if (!match.ingredient.isNull()) line.ingredient = match.ingredient;
    return line;
}

SideColumn column(const QString& label, std::vector<spec::Line> lines) {
    SideColumn column;
    column.label = label;
    column.spec.lines = std::move(lines);
    column.readings = spec::evaluate(column.spec, larder::Larder(), {});
    return column;
}

SideBySideValues three() {
    SideBySideValues values;
    values.drink = u"Ox Skerry"_s;
    values.columns = {column(u"r2"_s, {ml("London dry gin", "50"), ml("lemon juice", "22.5")}),
                      column(u"r4"_s, {ml("London dry gin", "45"), ml("lemon juice", "22.5"),
                                       ml("peated malt whisky", "10", spec::Role::Floated)}),
                      column(u"draft"_s, {ml("London dry gin", "45"), ml("lemon juice", "20"),
                                          ml("peated malt whisky", "10", spec::Role::Floated)})};
    values.columns.back().state = StateMark::Draft;
    values.base = 1;
    return values;
}

const SideRow& row(const SideTable& table, const QString& name) {
    for (const auto& row : table.rows)
        if (row.name == name) return row;
    FAIL("no row " << name.toStdString());
    throw 0;
}

} // namespace

TEST_CASE("Lines stand in one row each with the difference to the base", "[panels]") {
    const auto table = sideTable(three());
    const auto& gin = row(table, u"London dry gin"_s);
    REQUIRE(gin.cells.size() == 3);
    CHECK(gin.cells[0].number == u"50"_s);
    CHECK(gin.cells[0].difference == u"+5"_s);
    CHECK(gin.cells[0].change == SideChange::Up);
    CHECK(gin.cells[1].difference.isEmpty()); // the base is not compared with itself
    CHECK(gin.cells[2].difference == u"same"_s);
    const auto& lemon = row(table, u"lemon juice"_s);
    CHECK(lemon.cells[0].difference == u"same"_s);
    CHECK(lemon.cells[2].difference == u"\u22122.5"_s);
    const auto& malt = row(table, u"peated malt whisky"_s);
    CHECK(malt.note == u"floated"_s);
    CHECK(malt.cells[0].number == u"—"_s);
    CHECK(malt.cells[0].difference == u"not in it"_s);
    CHECK(malt.cells[2].difference == u"same"_s);
}

TEST_CASE("A line only another column has gets a row of its own", "[panels]") {
    auto values = three();
    values.base = 0;
    const auto table = sideTable(values);
    const auto& malt = row(table, u"peated malt whisky"_s);
    CHECK(malt.cells[0].number == u"—"_s);
    CHECK(malt.cells[1].difference == u"only here"_s);
    CHECK(malt.cells[2].difference == u"only here"_s); // the same addition twice is one row
    int rows = 0;
    for (const auto& each : table.rows)
        rows += each.kind == SideRowKind::Line ? 1 : 0;
    CHECK(rows == 3);
}

TEST_CASE("One change may be concluded from and several may not", "[panels]") {
    const auto table = sideTable(three());
    REQUIRE(table.findings.size() == 2);
    CHECK(table.findings[0].warning);
    CHECK(table.findings[0].fact == u"r2 to r4 changed two things at once:"_s);
    CHECK(table.findings[0].consequence.contains(u"London dry gin and peated malt whisky"_s));
    CHECK_FALSE(table.findings[1].warning);
    CHECK(table.findings[1].fact == u"r4 to draft: one thing changed, lemon juice."_s);
}

TEST_CASE("Readings differ by what is shown and a lost allergen is said", "[panels]") {
    auto values = three();
    values.columns[0].allergens = {u"eggs"_s};
    values.columns[1].allergensUnknown = {u"gentian liqueur"_s};
    const auto table = sideTable(values);
    const auto& strength = row(table, u"Strength"_s);
    CHECK(strength.cells[0].number != strength.cells[1].number);
    CHECK_FALSE(strength.cells[0].difference.isEmpty());
    CHECK(strength.cells[1].difference.isEmpty());
    CHECK(table.allergens.join(u' ').contains(u"r2 gains eggs over r4."_s));
    CHECK(table.allergens.join(u' ').contains(u"Not stated: gentian liqueur."_s));
}

TEST_CASE("Only the differences can be shown and what is shown is copied", "[panels]") {
    SideBySidePage page;
    page.resize(1440, 900);
    page.setValues(three());
    page.show();
    auto& view = page.view();
    const auto all = view.rows().size();
    QTest::keyClick(&view, Qt::Key_D);
    CHECK(view.rows().size() < all);
    CHECK(page.findChild<QCheckBox*>()->isChecked());
    QTest::keyClick(&view, Qt::Key_C, Qt::ControlModifier);
    CHECK(QGuiApplication::clipboard()->text() == view.tableText());
    CHECK(view.tableText().contains(u"+5"_s));
    for (const auto& each : view.rows())
        CHECK(each.size() == view.rows().front().size());
}

TEST_CASE("Left and right choose what the others are read against", "[panels]") {
    SideView view;
    view.resize(1000, 800);
    view.setValues(three());
    view.show();
    QTest::keyClick(&view, Qt::Key_Left);
    CHECK(view.values().base == 0);
    QTest::keyClick(&view, Qt::Key_Left);
    CHECK(view.values().base == 0);
    QTest::keyClick(&view, Qt::Key_Right);
    QTest::keyClick(&view, Qt::Key_Right);
    QTest::keyClick(&view, Qt::Key_Right);
    CHECK(view.values().base == 2);
    CHECK(view.words().contains(u"Read against draft."_s));
}

TEST_CASE("Numbers of a row end at one line whatever their digits", "[panels]") {
    const auto look = Look::of(Mode::Light);
    const auto values = three();
    const auto table = sideTable(values);
    const auto layout = sideLayout(values, table, 1200, false, look);
    REQUIRE(layout.tops.size() == table.rows.size());
    for (std::size_t i = 1; i < layout.tops.size(); ++i)
        CHECK(layout.tops[i] >= layout.tops[i - 1] + layout.heights[i - 1] - 1e-9);
    CHECK(layout.columnX(2) - layout.columnX(1) == Approx(layout.columnX(1) - layout.columnX(0)));
    CHECK(sideLayout(values, table, 1200, true, look).height < layout.height);
}

// Gentian liqueur of a kind whose sugar nobody states.
TEST_CASE("A bound stays one beside another and so does their difference", "[panels]") {
    auto values = three();
    const auto set = [&](std::size_t column, spec::Bound bound, double value, bool estimate = false) {
        auto& sugar = values.columns[column].readings[spec::Stage::Served][spec::Quantity::Sugar];
        sugar = {value, 0, bound, estimate, 0};
    };
    set(0, spec::Bound::Exact, 6.0);
    set(1, spec::Bound::AtLeast, 7.1);
    set(2, spec::Bound::AtLeast, 7.2);
    const auto table = sideTable(values);
    const auto& sugar = row(table, u"Sugar"_s);
    CHECK(sugar.cells[1].sign == u"≥"_s);
    CHECK(sugar.cells[0].difference == u"≤ \u22121.1"_s);
    CHECK(sugar.cells[0].change == SideChange::Down);
    CHECK(sugar.cells[2].difference == u"floor +0.1"_s); // neither sweeter nor drier for sure
    CHECK(sugar.cells[2].change == SideChange::Other);
    CHECK(sugar.cells[2].openDifference);

    set(0, spec::Bound::Exact, 6.0, true);
    set(1, spec::Bound::Exact, 7.1);
    set(2, spec::Bound::Exact, 7.1, true);
    const auto near = sideTable(values);
    const auto& estimated = row(near, u"Sugar"_s);
    CHECK(estimated.cells[0].sign == u"≈"_s);
    CHECK(estimated.cells[0].difference == u"≈ \u22121.1"_s);
    // What is copied has the signs too.
    bool copied = false;
    for (const auto& cells : sideRows(values, near, false))
        copied |= cells.contains(u"≈ 6.0"_s) && cells.contains(u"≈ \u22121.1"_s);
    CHECK(copied);
}
