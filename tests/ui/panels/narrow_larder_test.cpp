// The larder, and what is within reach, in the smallest window somebody works in: 1024 by 700.
#include "tests/ui/panels/open_larder.h"
#include "ui/delegates/wrapped_delegate.h"
#include "ui/panels/larder/facts_model.h"
#include "ui/panels/larder/impact_model.h"
#include "ui/panels/larder/impact_strip.h"
#include "ui/panels/stock/stock_page.h"
#include "ui/panels/stock/stock_table.h"
#include "ui/plots/plot_text.h"
#include "ui/theme/theme.h"

#include <QHeaderView>
#include <QPushButton>
#include <QScrollArea>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

struct Narrow : OpenLarder {
    Narrow() {
        window.resize(1024, 700);
        settle();
    }
    static void settle() {
        for (int i = 0; i < 3; ++i)
            QApplication::processEvents();
    }
    // Of the cell in hand, all that the person sees.
    bool isCellInSight() {
        auto& facts = page->sheet().facts();
        auto* port = page->findChild<QScrollArea*>()->viewport();
        const QRect cell = facts.visualRect(facts.currentIndex());
        const QRect seen(facts.viewport()->mapTo(port, cell.topLeft()), cell.size());
        return port->rect().contains(seen);
    }
};

// Every figure of the table stands whole inside the table.
void checkNothingCut(QTableView& table) {
    const auto& look = Theme::current().look();
    const auto& model = *table.model();
    for (int column = 0; column < model.columnCount(); ++column) {
        if (table.isColumnHidden(column)) continue;
        INFO(model.headerData(column, Qt::Horizontal).toString().toStdString());
        CHECK(table.columnViewportPosition(column) + table.columnWidth(column) <= table.viewport()->width());
        CHECK(textWidth(model.headerData(column, Qt::Horizontal).toString(), Type::Caption, look) +
                  look.px(16) <=
              table.columnWidth(column));
        for (int row = 0; column != ImpactModel::Name && row < model.rowCount(); ++row)
            CHECK(textWidth(model.index(row, column).data().toString(), Type::Control, look) + look.px(16) <=
                  table.columnWidth(column));
    }
}

} // namespace

TEST_CASE("The row one edits stays in sight above what the edit does", "[larder-page][narrow]") {
    Narrow bar;
    bar.choose(u"london dry"_s);
    const int last = bar.page->sheet().facts().model()->rowCount() - 1;
    for (int row = 0; row < last; ++row) {
        press(Qt::Key_Down);
        CHECK(bar.isCellInSight());
    }
    bar.typeOver(u"4,5"_s);
    bar.waitForImpact();
    Narrow::settle();
    REQUIRE(bar.page->strip().isVisible());
    CHECK(bar.page->strip().height() <= bar.page->height() / 2);
    CHECK(bar.isCellInSight());
    // And the first one, with every reading of the drink moved.
    press(Qt::Key_Home, Qt::ControlModifier);
    bar.at(0, FactsModel::Value);
    bar.typeOver(u"57,5"_s);
    bar.at(1, FactsModel::Value);
    bar.typeOver(u"310"_s);
    bar.waitForImpact();
    Narrow::settle();
    CHECK(bar.isCellInSight());
    auto& table = bar.page->strip().table();
    REQUIRE(bar.page->strip().model().rowCount() == 1);
    CHECK(table.isColumnHidden(ImpactModel::Allergens)); // none came, none went
    checkNothingCut(table);
    CHECK(bar.page->strip().acceptButton().visibleRegion().boundingRect() ==
          bar.page->strip().acceptButton().rect());
}

TEST_CASE("What is within reach has its names whole in a narrow window", "[stock][narrow]") {
    Narrow bar;
    const QString longest = u"Absinthe-type anise and wormwood spirit of the old house by the sea, 62 %"_s;
    auto thing = bar.gin();
    thing.id = base::IngredientId::random();
    thing.name = toCore(longest);
    REQUIRE(bar.window.desk().attempt([&] { bar.window.desk().book()->saveIngredient(thing); }));
    press(Qt::Key_B, Qt::ControlModifier | Qt::ShiftModifier);
    auto* page = qobject_cast<StockPage*>(bar.window.page());
    REQUIRE(page != nullptr);
    type(u"h"_s); // the drink's first line is there
    press(Qt::Key_F, Qt::AltModifier);
    type(u"wormwood"_s);
    Narrow::settle();
    const auto& look = Theme::current().look();
    auto& shelf = page->shelf();
    bool found = false;
    for (int row = 0; row < shelf.model()->rowCount(); ++row) {
        const QString name = shelf.model()->index(row, 0).data().toString();
        found = found || name == longest;
        const double needed = paragraphHeight(name, Type::Line, look, shelf.columnWidth(0) - 2 * look.px(4));
        CHECK(shelf.rowHeight(row) >= std::min(needed, 3 * look.lineHeight(Type::Line)));
    }
    CHECK(found);
    auto& wishes = page->wishes();
    for (int row = 0; row < wishes.model()->rowCount(); ++row)
        for (const int column : {0, 1})
            CHECK(wishes.rowHeight(row) >=
                  paragraphHeight(wishes.model()->index(row, column).data().toString(),
                                  column == 0 ? Type::Line : Type::Control, look,
                                  wishes.columnWidth(column) - 2 * look.px(4)));
}
