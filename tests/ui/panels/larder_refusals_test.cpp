// What cannot be is named beside the field it stands in, holds the edit back and loses nothing.
#include "tests/support/catch.h"

#include "tests/ui/panels/kitchen.h"
#include "tests/ui/panels/open_larder.h"
#include "ui/panels/larder/facts_model.h"
#include "ui/panels/larder/impact_strip.h"
#include "ui/panels/larder/packs_model.h"
#include "ui/panels/larder/terms_form.h"
#include "ui/theme/banner.h"

#include <QPushButton>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

struct Refused : OpenLarder {
    Refused() { choose(u"london dry"_s); }
    IngredientSheet& sheet() { return page->sheet(); }
    bool isFramed(EntryTable& table, int row, int column) {
        return table.model()->index(row, column).data(UnreadableRole).toBool();
    }
    QString shown(EntryTable& table, int row, int column) {
        return table.model()->index(row, column).data().toString();
    }
    void put(EntryTable& table, int row, int column, const QString& text) {
        QApplication::setActiveWindow(&window);
        table.setFocus(Qt::TabFocusReason);
        table.setCurrentIndex(table.model()->index(row, column));
        for (const QChar letter : text)
            type(QString(letter));
        press(Qt::Key_Return);
        REQUIRE(QTest::qWaitFor([&] { return !table.isEditing(); }));
        QApplication::processEvents();
    }
    void priced(const QString& holds, const QString& price) {
        put(sheet().packs(), 0, PacksModel::Holds, holds);
        put(sheet().packs(), 0, PacksModel::Price, price);
        REQUIRE(QTest::qWaitFor([&] { return edit().now().packs.size() == 1; }));
    }
    void isHeldBack(const larder::Ingredient& stored) {
        CHECK_FALSE(page->strip().acceptButton().isEnabled());
        press(Qt::Key_Return, Qt::ControlModifier);
        CHECK(edit().isPending());
        CHECK(gin() == stored);
    }
};

} // namespace

TEST_CASE("A price below zero and a pack of a million litres are named under the packs",
          "[larder-page][refusals]") {
    Refused bar;
    const auto stored = bar.gin();
    bar.priced(u"700 ml"_s, u"-3"_s);
    CHECK(bar.sheet().packsWords().contains(u"below zero"_s));
    CHECK(bar.isFramed(bar.sheet().packs(), 0, PacksModel::Price));
    CHECK_FALSE(bar.isFramed(bar.sheet().packs(), 0, PacksModel::Holds));
    CHECK(bar.shown(bar.sheet().packs(), 0, PacksModel::Price) == u"-3.00"_s); // as it was typed
    bar.isHeldBack(stored);
    bar.put(bar.sheet().packs(), 0, PacksModel::Price, u"24"_s);
    CHECK(bar.sheet().packsWords().isEmpty());
    bar.put(bar.sheet().packs(), 0, PacksModel::Holds, u"1000000000 ml"_s);
    CHECK(bar.sheet().packsWords().contains(u"million litres"_s));
    CHECK(bar.isFramed(bar.sheet().packs(), 0, PacksModel::Holds));
    bar.isHeldBack(stored);
    press(Qt::Key_Escape);
    CHECK_FALSE(bar.edit().isPending());
    CHECK(bar.sheet().packsWords().isEmpty());
    CHECK(bar.gin() == stored);
}

TEST_CASE("A yield of nothing is named beside the waste", "[larder-page][refusals]") {
    Refused bar;
    const auto stored = bar.gin();
    auto& terms = bar.sheet().terms();
    bar.fill(terms.lost(), u"100"_s);
    CHECK(terms.wordsBeside(terms.lost()).contains(u"Nothing usable"_s));
    CHECK(terms.lost().isUnreadable()); // framed
    CHECK(terms.lost().text().startsWith(u"100"_s));
    bar.isHeldBack(stored);
    bar.fill(terms.lost(), u"10"_s);
    CHECK_FALSE(terms.lost().isUnreadable());
    CHECK_FALSE(terms.wordsBeside(terms.lost()).contains(u"Nothing usable"_s));
    CHECK(bar.page->strip().acceptButton().isEnabled());
}

TEST_CASE("A figure that cannot be is named under the facts", "[larder-page][refusals]") {
    Refused bar;
    const auto stored = bar.gin();
    bar.put(bar.sheet().facts(), 0, FactsModel::Value, u"101"_s);
    CHECK(bar.sheet().factsWords().contains(u"100 is the most"_s));
    CHECK(bar.isFramed(bar.sheet().facts(), 0, FactsModel::Value));
    bar.isHeldBack(stored);
    bar.put(bar.sheet().facts(), 0, FactsModel::Value, u"forty"_s);
    CHECK(bar.sheet().factsWords().contains(u"“forty” is no number"_s));
    CHECK(bar.shown(bar.sheet().facts(), 0, FactsModel::Value) == u"forty"_s);
    bar.isHeldBack(stored);
}

TEST_CASE("Another currency without a rate is named under the packs", "[larder-page][refusals]") {
    Refused bar;
    bar.priced(u"700 ml"_s, u"21"_s);
    bar.put(bar.sheet().packs(), 0, PacksModel::Currency, u"USD"_s);
    CHECK(bar.sheet().packsWords().contains(u"in USD"_s));
    CHECK(bar.edit().now().packs[0].price.minor == 2100);
    // It may be kept: the drinks say that their cost lacks it.
    CHECK(bar.page->strip().acceptButton().isEnabled());
    press(Qt::Key_Escape);
}

TEST_CASE("What would be poured of itself is named beside the name", "[larder-page][refusals]") {
    Refused bar;
    press(Qt::Key_Escape);
    press(Qt::Key_Escape);
    REQUIRE(QTest::qWaitFor([&] { return bar.window.page() == nullptr; }));
    bar.trigger(Act::NewPreparation);
    type(u"Juniper syrup"_s);
    press(Qt::Key_Return);
    press(Qt::Key_Return);
    bar.write({u"100 ml London dry gin"_s, u"100 ml simple syrup"_s});
    press(Qt::Key_Escape);
    bar.keep(u"first"_s);
    press(Qt::Key_L, Qt::ControlModifier | Qt::ShiftModifier);
    bar.page = qobject_cast<LarderPage*>(bar.window.page());
    REQUIRE(bar.page != nullptr);
    bar.choose(u"london dry"_s);
    auto& terms = bar.sheet().terms();
    bar.fill(terms.pours(), u"Juniper syrup"_s);
    REQUIRE(QTest::qWaitFor([&] { return terms.wordsBeside(terms.pours()).contains(u"made of itself"_s); }));
    CHECK(terms.wordsBeside(terms.pours()).contains(u"Juniper syrup → "_s));
    CHECK(terms.pours().isUnreadable());
    CHECK(terms.pours().text() == u"Juniper syrup"_s);
    CHECK_FALSE(bar.page->strip().acceptButton().isEnabled());
}

TEST_CASE("A preparation poured into itself says its path and is not taken", "[ui][preparation][refusals]") {
    Kitchen kitchen;
    kitchen.keep(u"first"_s);
    const auto kept = kitchen.draft().base()->id;
    kitchen.table().editLastRow();
    kitchen.write({u"100 g Heather syrup"_s});
    press(Qt::Key_Escape);
    QApplication::processEvents();
    press(Qt::Key_S, Qt::ControlModifier);
    if (auto* dialog = kitchen.window.findChild<KeepDialog*>()) {
        QApplication::setActiveWindow(dialog);
        dialog->reason().setFocus();
        type(u"a circle"_s);
        press(Qt::Key_Return);
        QApplication::processEvents();
        QApplication::setActiveWindow(&kitchen.window);
    }
    CHECK(kitchen.draft().base()->id == kept);
    CHECK(kitchen.draft().spec().lines.size() == 2); // the line that would close the circle is refused
    const auto& text = kitchen.window.banner().text();
    INFO(text.fact.toStdString() << " " << text.consequence.toStdString());
    CHECK(kitchen.window.banner().isVisible());
    CHECK(QString(text.fact + text.consequence).contains(u"Heather syrup"_s));
    // Mended and kept, it is said no more.
    press(Qt::Key_Z, Qt::ControlModifier);
    kitchen.table().editLastRow();
    kitchen.write({u"5 g salt"_s});
    press(Qt::Key_Escape);
    kitchen.keep(u"salted"_s);
    CHECK(kitchen.draft().base()->id != kept);
    CHECK_FALSE(kitchen.window.banner().isVisible());
}
