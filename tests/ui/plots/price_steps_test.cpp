#include "tests/support/catch.h"
#include "ui/plots/price_steps.h"
#include "ui/theme/theme.h"

using namespace stillroom::ui;
using namespace Qt::Literals::StringLiterals;

namespace {

PriceStepsValues three() {
    PriceStepsValues values;
    values.steps = {{100, 3.30, u"14 Sep"_s, u"3.30"_s, {}},
                    {150, 3.50, u"2 Nov"_s, u"3.50"_s, u"+6.1 %"_s},
                    {160, 3.40, u"12 Nov"_s, u"3.40"_s, u"−2.9 %"_s}};
    values.today = 200;
    values.per = u"€ / 100 ml"_s;
    return values;
}

} // namespace

TEST_CASE("Price steps stand to scale in days and money and hold until today", "[plots][price-steps]") {
    const auto look = Look::of(Mode::Light);
    const auto at = priceStepsGeometry(three(), QSizeF(600, 92), look);
    REQUIRE(at.starts.size() == 3);
    CHECK(at.low == 3.30);
    CHECK(at.high == 3.50);
    CHECK(at.starts[0].x() == Approx(at.field.left()));
    CHECK(at.starts[0].y() == Approx(at.field.bottom()));
    CHECK(at.starts[1].y() == Approx(at.field.top()));
    CHECK(at.starts[2].y() == Approx(at.field.center().y()));
    CHECK(at.starts[1].x() == Approx(at.field.center().x()));
    CHECK(at.now == Approx(at.field.right()));
    // A price dated after today ends the line.
    auto ahead = three();
    ahead.today = 120;
    CHECK(priceStepsGeometry(ahead, QSizeF(600, 92), look).now ==
          Approx(priceStepsGeometry(ahead, QSizeF(600, 92), look).starts[2].x()));
}

TEST_CASE("Prices that never moved and of one day are drawn without a scale of their own",
          "[plots][price-steps]") {
    const auto look = Look::of(Mode::Light);
    auto values = three();
    for (auto& step : values.steps) {
        step.worth = 0;
        step.day = 200;
    }
    const auto at = priceStepsGeometry(values, QSizeF(600, 92), look);
    for (const auto& start : at.starts) {
        CHECK(start.x() == Approx(at.field.left()));
        CHECK(start.y() == Approx(at.field.center().y()));
    }
    CHECK(priceStepsGeometry({}, QSizeF(600, 92), look).starts.empty());
}

TEST_CASE("Price steps are said in words with what stands on no line", "[plots][price-steps]") {
    PriceSteps plot;
    auto values = three();
    values.leftOut = u"One pack stands on no line."_s;
    plot.setValues(values);
    CHECK(
        plot.words() ==
        u"3.30 from 14 Sep; 3.50 from 2 Nov, +6.1 %; 3.40 from 12 Nov, −2.9 % in € / 100 ml. One pack stands on no line."_s);
    CHECK(plot.rows().size() == 4);
    CHECK(plot.rows()[2][2] == u"+6.1 %"_s);
}
