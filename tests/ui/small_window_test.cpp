#include "tests/support/catch.h"
#include "tests/ui/desktop.h"
#include "ui/plots/balance_map.h"
#include "ui/plots/glass_drawing.h"
#include "ui/widgets/choice_tabs.h"

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

TEST_CASE("At 1024 by 700 with the shelf open no column and no drawing is cut", "[ui][small]") {
    Desktop desktop;
    desktop.newDrink(QStringLiteral("Ox Skerry"));
    desktop.write({QStringLiteral("45 ml London dry gin"), QStringLiteral("20 ml lemon juice"),
                   QStringLiteral("20 ml simple syrup")});
    press(Qt::Key_Escape);
    desktop.keep(QStringLiteral("the idea"));
    desktop.window.resize(1024, 700);
    QApplication::processEvents();
    auto& bench = desktop.window.bench();
    if (!bench.isShelfShown()) press(Qt::Key_F9);
    REQUIRE(bench.isShelfShown());
    QApplication::processEvents();

    auto& gauges = bench.gauges();
    auto& table = gauges.table();
    CHECK(table.columnViewportPosition(ReadingsModel::Since) + table.columnWidth(ReadingsModel::Since) <=
          table.viewport()->width());
    const auto whole = [&] {
        for (const auto* plot : gauges.findChildren<PlotWidget*>())
            if (plot->isVisible() &&
                plot->mapTo(&gauges, QPoint(plot->width(), 0)).x() > gauges.viewport()->width())
                return false;
        return true;
    };
    auto* tabs = gauges.findChild<ChoiceTabs*>();
    auto* glass = gauges.findChild<GlassDrawing*>();
    auto* map = gauges.findChild<BalanceMap*>();
    REQUIRE(tabs != nullptr);
    REQUIRE(tabs->isVisible());
    CHECK(glass->isVisible());
    CHECK_FALSE(map->isVisible());
    CHECK(whole());
    QTest::mouseClick(tabs, Qt::LeftButton, {}, tabs->tabRect(1).center());
    QApplication::processEvents();
    CHECK_FALSE(glass->isVisible());
    CHECK(map->isVisible());
    CHECK(whole());
    // With the shelf folded both have room.
    press(Qt::Key_F9);
    QApplication::processEvents();
    CHECK(glass->isVisible());
    CHECK(map->isVisible());
    CHECK_FALSE(tabs->isVisible());
    CHECK(whole());
}
