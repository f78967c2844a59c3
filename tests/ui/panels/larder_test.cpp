#include "tests/support/catch.h"

#include "tests/ui/panels/open_larder.h"
#include "ui/panels/larder/entry_table.h"
#include "ui/panels/larder/facts_model.h"
#include "ui/panels/larder/impact_model.h"
#include "ui/panels/larder/impact_strip.h"
#include "ui/panels/larder/ingredient_sheet.h"
#include "ui/panels/larder/larder_list.h"
#include "ui/panels/larder/larder_page.h"
#include "ui/panels/larder/packs_model.h"
#include "ui/session/larder_edit.h"

#include <QLineEdit>
#include <QPushButton>
#include <QTableView>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;
using namespace Qt::Literals::StringLiterals;

TEST_CASE("A fact edited by keyboard shows what it does before it is accepted and is taken back",
          "[larder-page]") {
    OpenLarder bar;
    const QString before = bar.served(spec::Quantity::Strength);
    bar.choose(u"london dry"_s);
    REQUIRE(bar.edit().now().name == bar.gin().name);
    const double stated = bar.gin().facts.abvPercent->typical;
    bar.at(0, FactsModel::Value);
    bar.typeOver(u"57,5"_s);
    CHECK(bar.edit().now().facts.abvPercent->typical == 57.5);
    CHECK(bar.edit().now().facts.abvPercent->sourceKind == larder::SourceKind::Label);
    bar.waitForImpact();
    CHECK(bar.page->strip().isVisible());
    CHECK(bar.page->strip().model().rowCount() == 1);
    const auto row = [&](int column) { return bar.page->strip().model().index(0, column).data().toString(); };
    CHECK(row(ImpactModel::Name) == u"Quill Point"_s);
    CHECK(row(ImpactModel::Strength).startsWith(QString(before + u" → "_s)));
    // Nothing is written before it is accepted.
    CHECK(bar.gin().facts.abvPercent->typical == stated);
    CHECK(bar.served(spec::Quantity::Strength) == before);

    REQUIRE(bar.page->sheet().facts().hasFocus());
    press(Qt::Key_Return); // accepts
    CHECK(bar.gin().facts.abvPercent->typical == 57.5);
    CHECK_FALSE(bar.edit().isPending());
    CHECK_FALSE(bar.page->strip().isVisible());
    CHECK(bar.served(spec::Quantity::Strength) != before);

    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(bar.gin().facts.abvPercent->typical == stated);
    CHECK(bar.served(spec::Quantity::Strength) == before);
    press(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
    CHECK(bar.gin().facts.abvPercent->typical == 57.5);
}

TEST_CASE("What cannot be read stays as typed and holds the edit back", "[larder-page]") {
    OpenLarder bar;
    bar.choose(u"london dry"_s);
    bar.at(0, FactsModel::Value);
    bar.typeOver(u"forty"_s);
    auto* model = bar.page->sheet().facts().model();
    CHECK(model->index(0, FactsModel::Value).data().toString() == u"forty"_s);
    CHECK(model->index(0, FactsModel::Value).data(UnreadableRole).toBool());
    CHECK(bar.page->strip().doubts().contains(u"“forty”"_s));
    CHECK_FALSE(bar.page->strip().acceptButton().isEnabled());
    press(Qt::Key_Return, Qt::ControlModifier);
    CHECK(bar.edit().isPending());
    // Another ingredient and back: it is still there.
    const auto gin = bar.edit().chosen();
    bar.edit().choose(bar.window.desk().book()->larder().match("lemon juice").ingredient);
    CHECK_FALSE(bar.page->strip().isVisible());
    bar.edit().choose(gin);
    CHECK(model->index(0, FactsModel::Value).data().toString() == u"forty"_s);

    bar.page->sheet().facts().setFocus();
    bar.at(0, FactsModel::Value);
    bar.typeOver(u"101"_s);
    CHECK(bar.page->strip().doubts().contains(u"100"_s));
    CHECK_FALSE(bar.page->strip().acceptButton().isEnabled());
    press(Qt::Key_Escape);
    CHECK_FALSE(bar.edit().isPending());
    CHECK_FALSE(bar.page->strip().isVisible());
}

TEST_CASE("The filter finds the handbook's kinds and the list says what is not known", "[larder-page]") {
    OpenLarder bar;
    auto& list = bar.page->list();
    const int own = list.model().rowCount();
    CHECK(own == list.model().ownCount());
    press(Qt::Key_Slash);
    type(u"orgeat"_s);
    REQUIRE(list.model().rowCount() > 0);
    CHECK(list.model().row(0).name.contains(u"orgeat"_s, Qt::CaseInsensitive));
    CHECK_FALSE(list.model().row(0).listed.own);
    press(Qt::Key_Escape);
    CHECK(list.model().rowCount() == own);
}

TEST_CASE("A price is added in the last row and a price below zero is refused where it stands",
          "[larder-page]") {
    OpenLarder bar;
    bar.choose(u"london dry"_s);
    auto& packs = bar.page->sheet().packs();
    packs.setFocus();
    const auto put = [&](int row, int column, const QString& text) {
        // The table kept the keys since the last cell closed.
        REQUIRE(packs.hasFocus());
        packs.setCurrentIndex(packs.model()->index(row, column));
        for (const QChar letter : text)
            type(QString(letter));
        press(Qt::Key_Return);
        REQUIRE(QTest::qWaitFor([&] { return !packs.isEditing(); }));
    };
    REQUIRE(packs.model()->rowCount() == 1);
    put(0, PacksModel::Holds, u"700"_s);
    CHECK(packs.model()->index(0, PacksModel::Holds).data(UnreadableRole).toBool());
    CHECK(bar.page->strip().doubts().contains(u"of what?"_s));
    put(0, PacksModel::Holds, u"700 ml"_s);
    put(0, PacksModel::Price, u"-3"_s);
    REQUIRE(QTest::qWaitFor([&] { return bar.edit().now().packs.size() == 1; }));
    // The cell in hand is the price of the new pack: typing goes on without looking for it.
    CHECK(packs.hasFocus());
    CHECK(packs.currentIndex() == packs.model()->index(0, PacksModel::Price));
    CHECK(packs.model()->rowCount() == 2);
    CHECK(bar.page->strip().doubts().contains(u"below zero"_s));
    CHECK_FALSE(bar.edit().canAccept());
    put(0, PacksModel::Price, u"21,00"_s);
    CHECK(bar.edit().now().packs[0].price.minor == 2100);
    CHECK(packs.model()->index(0, PacksModel::Each).data().toString().startsWith(u"3.00"_s));
    bar.waitForImpact();
    press(Qt::Key_Return);
    CHECK(bar.gin().packs.size() == 1);
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(bar.gin().packs.empty());
}
