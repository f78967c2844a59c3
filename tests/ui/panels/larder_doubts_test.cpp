// Facts that cannot be true together, or not under their name: said while they are typed.
#include "tests/ui/panels/open_larder.h"
#include "ui/dialogs/facts_dialog.h"
#include "ui/panels/larder/facts_model.h"
#include "ui/panels/larder/food_table_box.h"
#include "ui/theme/banner.h"
#include "ui/widgets/number_edit.h"

#include <QLineEdit>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

enum Row { Strength, Sugar, Acid, Density };

struct Doubter : OpenLarder {
    FactsModel& facts() { return *static_cast<FactsModel*>(page->sheet().facts().model()); }
    bool isMarked(int row) { return facts().index(row, FactsModel::Fact).data(DoubtRole).toBool(); }
    QString shown() {
        const auto& text = page->doubts().text();
        return page->doubts().isVisible() ? QString(text.fact + u' ' + text.consequence) : QString();
    }
    void open(int row) {
        QApplication::setActiveWindow(&window);
        page->sheet().facts().setFocus(Qt::TabFocusReason);
        at(row, FactsModel::Value);
    }
    void over(NumberEdit& field, const QString& text) {
        field.setFocus(Qt::TabFocusReason);
        field.selectAll();
        type(text);
    }
};

} // namespace

TEST_CASE("An extra dry at 40 g of sugar a litre is doubted with the key that makes it so",
          "[larder-page][doubts]") {
    Doubter bar;
    bar.choose(u"vermouth, dry"_s);
    press(Qt::Key_Escape);
    press(Qt::Key_Insert); // a bottle of it
    REQUIRE(bar.page->sheet().name().hasFocus());
    type(u"Extra dry of the harbour, 18 %"_s);
    press(Qt::Key_Return);
    bar.open(Row::Sugar);
    type(u"4"_s);
    CHECK(bar.shown().isEmpty());
    type(u"0"_s);
    REQUIRE(bar.page->sheet().facts().isEditing());
    CHECK(bar.edit().now().facts.sugarGPerL->typical != 40); // nothing is taken yet
    CHECK(bar.shown().contains(u"“extra dry” may hold less than 30 g/l of sugar; 40 g/l"_s));
    CHECK(bar.shown().contains(u"251/2014"_s));
    CHECK(bar.isMarked(Row::Sugar));
    CHECK_FALSE(bar.isMarked(Row::Strength));
    press(Qt::Key_Backspace);
    CHECK(bar.shown().isEmpty());
    CHECK_FALSE(bar.isMarked(Row::Sugar));
    type(u"0"_s);
    press(Qt::Key_Return);
    REQUIRE(QTest::qWaitFor([&] { return !bar.page->sheet().facts().isEditing(); }));
    CHECK(bar.shown().contains(u"40 g/l"_s));
    CHECK(bar.facts().index(Row::Sugar, 0).data(Qt::AccessibleTextRole).toString().contains(u"doubtful"_s));
    CHECK(bar.facts()
              .index(Row::Sugar, 0)
              .data(Qt::AccessibleDescriptionRole)
              .toString()
              .contains(u"30 g/l"_s));
    // Doubtful is not refused; stored, its row in the list is marked.
    press(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE_FALSE(bar.edit().isPending());
    auto& list = bar.page->list().model();
    CHECK(list.row(list.rowOf(bar.edit().chosen())).doubtful);
    CHECK(list.index(list.rowOf(bar.edit().chosen()), 0)
              .data(Qt::AccessibleTextRole)
              .toString()
              .contains(u"doubtful"_s));
    bar.choose(u"london dry"_s);
    CHECK(bar.shown().isEmpty());
}

TEST_CASE("F8 goes to what is doubtful or missing and on down the list", "[larder-page][doubts]") {
    Doubter bar;
    bar.choose(u"london dry"_s);
    auto odd = bar.gin();
    odd.facts.sugarGPerL = larder::Fact::single(300, larder::SourceKind::Label, "label");
    odd.facts.densityKgPerM3 = larder::Fact::single(940, larder::SourceKind::Label, "label");
    REQUIRE(bar.window.desk().attempt([&] { bar.window.desk().book()->saveIngredient(odd); }));
    CHECK(bar.shown().contains(u"cannot all be true"_s));
    bar.page->list().table().setFocus();
    for (const int row : {Row::Strength, Row::Sugar, Row::Density}) {
        press(Qt::Key_F8);
        CHECK(bar.page->sheet().facts().hasFocus());
        CHECK(bar.page->sheet().facts().currentIndex().row() == row);
        CHECK(bar.isMarked(row));
    }
}

TEST_CASE("A food table's coffee liqueur with the alcohol of an unsweetened spirit is caught",
          "[larder-page][doubts]") {
    // USDA SR28 NDB 14414, coffee liqueur, 53 proof: 21.7 g ethanol, 46.43 g sugars in 100 g, 34.8 g in a US
    // fluid ounce of 29.5735 ml: 32.4 % vol, where the label's 53 proof are 26.5.
    Doubter bar;
    bar.choose(u"coffee liqueur"_s);
    REQUIRE(bar.edit().now().facts.abvPercent->typical == 26.5);
    auto& box = bar.page->sheet().foodTable();
    REQUIRE(box.isVisible());
    for (int i = 0; i < 4 && !box.alcohol().hasFocus(); ++i) // beyond the facts, by Tab
        press(Qt::Key_Tab);
    REQUIRE(box.alcohol().hasFocus());
    type(u"21,7"_s);
    CHECK(box.words().contains(u"what 1 ml weighs"_s));
    press(Qt::Key_Return);
    REQUIRE(box.sugar().hasFocus());
    type(u"46.43"_s);
    press(Qt::Key_Return);
    REQUIRE(box.weighs().hasFocus());
    type(u"1.1767"_s);
    CHECK(box.isDoubtful());
    CHECK(box.words().contains(u"32.4"_s));
    CHECK(box.words().contains(u"26.5"_s));
    CHECK(box.words().contains(u"without any sugar"_s));
    CHECK(bar.isMarked(Row::Strength));
    CHECK_FALSE(bar.edit().isPending()); // it is a question, not an edit
    const auto stored = bar.edit().now();
    press(Qt::Key_Escape); // back to the list
    bar.choose(u"london dry"_s);
    CHECK_FALSE(box.isDoubtful());
    CHECK(box.alcohol().text().isEmpty());
    bar.over(box.alcohol(), u"39.9"_s);
    bar.over(box.weighs(), u"0.94"_s);
    CHECK(box.words().contains(u"% vol"_s));
    bar.over(box.weighs(), u"0"_s);
    CHECK(box.words().contains(u"No liquid"_s));
    press(Qt::Key_Escape);
    bar.choose(u"coffee liqueur"_s);
    CHECK(box.alcohol().text() == u"21,7"_s); // kept while the page is open
    CHECK(box.isDoubtful());
    CHECK(bar.edit().now() == stored);
    // Nothing to hold it against in juice, and nothing is shown.
    bar.choose(u"lemon juice"_s);
    CHECK_FALSE(box.isVisible());
}

TEST_CASE("The form at the bench says what is doubtful while it is typed", "[ui][doubts]") {
    Doubter bar;
    auto dry = bar.gin();
    dry.name = "Extra dry of the harbour";
    dry.facts.group = "aromatised wine";
    FactsDialog dialog(dry, bar.window.desk().book()->houseRules().currency);
    dialog.show();
    QApplication::setActiveWindow(&dialog);
    bar.over(dialog.sugar(), u"40"_s);
    CHECK(dialog.note().contains(u"“extra dry” may hold less than 30 g/l"_s));
    bar.over(dialog.sugar(), u"29"_s);
    CHECK(dialog.note().isEmpty());
}
