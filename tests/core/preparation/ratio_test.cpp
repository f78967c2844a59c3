#include "core/preparation/ratio.h"

#include "tests/support/catch.h"

using namespace stillroom;
using preparation::RatioBasis;

TEST_CASE("a syrup by weight and by cup are two syrups", "[preparation][ratio]") {
    // Needs, 4 and 5: 50 Bx, 1.23 g/ml, 18.4 g; 66.7 Bx, 1.33 g/ml, 26.5 g; by cup 46 and 63 Bx.
    const auto one = preparation::outcomesOf("1:1");
    REQUIRE(one);
    CHECK(one->byWeight.brix.percent() == Approx(50));
    CHECK(one->byWeight.density.gPerMl() == Approx(1.23).margin(0.005));
    CHECK(one->byWeight.sugarPer30Ml.grams() == Approx(18.4).margin(0.05));
    CHECK(one->byCup.brix.percent() == Approx(46).margin(0.5));
    const auto two = preparation::outcomesOf("2 : 1");
    REQUIRE(two);
    CHECK(two->byWeight.brix.percent() == Approx(66.7).margin(0.05));
    CHECK(two->byWeight.density.gPerMl() == Approx(1.33).margin(0.005));
    CHECK(two->byWeight.sugarPer30Ml.grams() == Approx(26.5).margin(0.05));
    CHECK(two->byCup.brix.percent() == Approx(63).margin(0.5));
    // 7-8 % less sugar per ml, as the need says.
    const double less = 1 - two->byCup.sugarPer30Ml / two->byWeight.sugarPer30Ml;
    CHECK(less > 0.07);
    CHECK(less < 0.08);
    // Ratio 1.44: a rich syrup is not twice as sweet.
    CHECK(two->byWeight.sugarPer30Ml / one->byWeight.sugarPer30Ml == Approx(1.44).margin(0.005));
}

TEST_CASE("what is no ratio has no outcome", "[preparation][ratio]") {
    for (const auto* text : {"", "1", "0:1", "1:0", "-1:1", "1:1:1", "a:b", "nan:1", "1e9:1", ":"}) {
        INFO(text);
        CHECK_FALSE(preparation::outcomesOf(text));
    }
    CHECK(preparation::outcomesOf("1,5:1")->byWeight.brix.percent() == Approx(60));
    CHECK_FALSE(preparation::syrupOf(0, 1, RatioBasis::ByCup));
}
