#include "core/preparation/spec_ratio.h"

#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using preparation::RatioBasis;
using quantity::Measure;

namespace {

// The handbook's granulated sugar and water: 845 g/l in the cup.
const larder::Larder& handbook() {
    static const larder::Larder larder;
    return larder;
}

spec::Line of(const std::string& name, int amount, Measure measure) {
    auto made = line(name, amount, measure);
    made.ingredient = handbook().match(name).ingredient;
    return made;
}

spec::Spec syrup(int sugar, int water, Measure measure) {
    return drink({of("white sugar", sugar, measure), of("water", water, measure)});
}

std::optional<preparation::SpecRatio> ratioOf(const spec::Spec& spec) {
    return preparation::ratioOf(spec, spec::Bindings(spec, handbook(), {}));
}

} // namespace

TEST_CASE("A ratio's basis is the measure its sugar is written in", "[ratio]") {
    const auto weighed = ratioOf(syrup(500, 500, Measure::G));
    REQUIRE(weighed);
    CHECK(weighed->basis == RatioBasis::ByWeight);
    CHECK(weighed->sweetParts == Approx(1));
    const auto cups = ratioOf(syrup(2, 1, Measure::CupUs));
    REQUIRE(cups);
    CHECK(cups->basis == RatioBasis::ByCup);
    CHECK(cups->sweetParts == Approx(2));
    const auto parts = ratioOf(syrup(2, 1, Measure::Part));
    REQUIRE(parts);
    CHECK(parts->basis == std::nullopt);
    // A bartender writes grams of sugar and millilitres of water.
    const auto mixed = ratioOf(drink({of("white sugar", 500, Measure::G), of("water", 500, Measure::Ml)}));
    REQUIRE(mixed);
    CHECK(mixed->basis == RatioBasis::ByWeight);
    CHECK(mixed->sweetParts == Approx(1 / 0.9982).epsilon(1e-4));
    CHECK_FALSE(ratioOf(drink({of("white sugar", 500, Measure::G)})));
    auto two = syrup(500, 500, Measure::G);
    two.lines.push_back(of("honey", 100, Measure::G));
    CHECK_FALSE(ratioOf(two));
    const auto honey = ratioOf(drink({of("honey", 300, Measure::G), of("water", 100, Measure::G)}));
    REQUIRE(honey);
    CHECK(honey->sweetParts == Approx(3));
}

TEST_CASE("The same ratio by cup and by weight is two syrups", "[ratio]") {
    // Needs, 5: 1:1 by cup is 46 Bx and 2:1 by cup 63 Bx, whole numbers; by weight 50 and 66.7, of which the
    // handbook's sugar, 998 g in the kilogram, gives 0.998.
    struct Row {
        int sugar;
        double byWeight, byCup;
    };
    for (const auto& [sugar, byWeight, byCup] : {Row{1, 50, 46}, Row{2, 66.7, 63}})
        for (const Measure measure : {Measure::G, Measure::Ml, Measure::CupUs, Measure::Part}) {
            const int scale = measure == Measure::G || measure == Measure::Ml ? 400 : 1;
            const auto spec = syrup(sugar * scale, scale, measure);
            const auto ratio = ratioOf(spec);
            REQUIRE(ratio);
            const auto both = preparation::outcomesOf(spec, *ratio, handbook(), {});
            REQUIRE(both.byWeight.brix);
            REQUIRE(both.byCup.brix);
            CHECK(*both.byWeight.brix == Approx(0.998 * byWeight).margin(0.05));
            CHECK(*both.byCup.brix == Approx(byCup).margin(0.5));
            // 7 to 8 % less sugar in the pour at 2:1.
            if (sugar == 2) {
                CHECK(*both.byCup.sugarGPerL / *both.byWeight.sugarGPerL == Approx(0.925).margin(0.008));
            }
        }
}

TEST_CASE("A basis chosen keeps the numbers and chosen again brings them back", "[ratio]") {
    const auto plain = syrup(500, 250, Measure::G);
    const auto cup = preparation::withBasis(plain, *ratioOf(plain), RatioBasis::ByCup, {});
    CHECK(cup.lines[0].poured.measure == Measure::Ml);
    CHECK(cup.lines[0].poured.amount.low == quantity::Rational(500));
    CHECK(ratioOf(cup)->basis == RatioBasis::ByCup);
    const auto back = preparation::withBasis(cup, *ratioOf(cup), RatioBasis::ByWeight, {});
    CHECK(back.lines[0].poured == plain.lines[0].poured);
    CHECK(back.lines[1].poured == plain.lines[1].poured);
    CHECK(preparation::withBasis(plain, *ratioOf(plain), RatioBasis::ByWeight, {}) == plain);
    const auto parts = syrup(2, 1, Measure::Part);
    const auto weighed = preparation::withBasis(parts, *ratioOf(parts), RatioBasis::ByWeight, {});
    CHECK(weighed.lines[0].poured.amount.low == quantity::Rational(200));
    CHECK(weighed.lines[0].poured.measure == Measure::G);
}
