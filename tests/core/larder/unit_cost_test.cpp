#include "core/larder/unit_cost.h"

#include "tests/support/catch.h"

#include <cmath>
#include <numeric>

using namespace stillroom;
using namespace stillroom::larder;
using quantity::Cost;
using quantity::Currency;
using quantity::Money;
using quantity::Rational;

namespace {

Rational decimal(const char* text) {
    return *Rational::fromText(text);
}

Pack pack(const char* amount, std::optional<double> ml, const char* currency = "EUR") {
    Pack made;
    made.price = *Money::fromText(amount, *Currency::fromCode(currency));
    made.forMl = ml;
    return made;
}

std::string shown(Cost cost, const char* currency = "EUR") {
    return quantity::roundedToMoney(cost, *Currency::fromCode(currency)).text();
}

CostProblem problemOf(const Pack& bought, const PurchaseTerms& terms = {}) {
    const auto rate = costRate(bought, terms);
    REQUIRE_FALSE(rate);
    return rate.error();
}

} // namespace

TEST_CASE("A pour costs its share of the bottle exactly", "[larder][cost]") {
    const Rational usFluidOunce = decimal("29.5735295625"); // NIST Handbook 44, App. C
    // Trade page on beverage cost: a bottle of 22.00 for 25 fluid ounces is 0.88 an ounce.
    const auto rate = costRate(pack("22.00", 25 * 29.5735295625, "USD"));
    REQUIRE(rate);
    CHECK(shown(*costOfAmount(*rate, usFluidOunce), "USD") == "0.88");
    // Restaurant-consulting page, exact: 20.00 for 750 ml, a pour of two US fluid ounces costs 1.5773.
    const auto twenty = costRate(pack("20.00", 750, "USD"));
    REQUIRE(twenty);
    CHECK(costOfAmount(*twenty, *usFluidOunce.times(2))->major() == Approx(1.5773).margin(0.00005));
    // 750 ml at 30 dollars is 1.18 a fluid ounce, not the 1.20 of "25 ounces".
    const auto thirty = costRate(pack("30.00", 750, "USD"));
    REQUIRE(thirty);
    CHECK(shown(*costOfAmount(*thirty, usFluidOunce), "USD") == "1.18");
    // A case of 24 bottles at 24.00: one is 1.00.
    Pack crate = pack("24.00", std::nullopt);
    crate.forPieces = 24;
    CHECK(costOfAmount(*costRate(crate), 1)->millionths == 1'000'000);
    // The rest of a division is half-even: a third of a cent thrice is not a cent, and says so to the
    // millionth.
    const auto cent = costRate(pack("0.01", 3));
    CHECK(costOfAmount(*cent, 1)->millionths == 3333);
    CHECK(costOfAmount(*cent, 3)->millionths == 10000);
}

TEST_CASE("Currencies keep their own decimals", "[larder][cost]") {
    CHECK(costOfAmount(*costRate(pack("1500", 700, "JPY")), 70)->millionths == 150'000'000);
    CHECK(costOfAmount(*costRate(pack("1.234", 1000, "KWD")), 500)->millionths == 617'000);
}

TEST_CASE("Waste and yield raise what the usable part costs", "[larder][cost]") {
    // Yield: usable over bought; price over usable (cost-control textbooks).
    PurchaseTerms trimmed;
    trimmed.usableShare = decimal("0.8");
    const auto rate = costRate(pack("8.00", 1000), trimmed);
    REQUIRE(rate);
    CHECK(costOfAmount(*rate, 100)->millionths == 1'000'000); // 8.00 for 800 ml

    // 100 limes at 25.00, a tenth thrown away, 30 ml from each of the others: 2,700 ml.
    Pack limes = pack("25.00", std::nullopt);
    limes.forPieces = 100;
    PurchaseTerms squeezed;
    squeezed.usableShare = decimal("0.9");
    squeezed.yieldPerUnit = 30;
    squeezed.yieldUnit = PackUnit::Ml;
    const auto juice = costRate(limes, squeezed);
    REQUIRE(juice);
    CHECK(juice->unit == PackUnit::Ml);
    CHECK(juice->usable == Rational(2700));
    CHECK(costOfAmount(*juice, 27)->millionths == 250'000);
}

TEST_CASE("Tax in a price is taken out exactly", "[larder][cost]") {
    Pack taxed = pack("12.00", 700);
    taxed.taxPercent = 20;
    CHECK(costOfAmount(*costRate(taxed), 700)->millionths == 10'000'000);
    taxed = pack("108.88", 1000, "USD");
    taxed.taxPercent = decimal("8.875");
    CHECK(costOfAmount(*costRate(taxed), 1000)->millionths == 100'004'592);
}

TEST_CASE("Mass and volume meet only through a density", "[larder][cost]") {
    Pack sugar = pack("1.50", std::nullopt);
    sugar.forG = 1000;
    const auto rate = costRate(sugar);
    REQUIRE(rate);
    CHECK(costOfAmount(*rate, 50, PackUnit::Gram, std::nullopt)->millionths == 75'000);
    // 100 ml of granulated sugar at 0.845 g/ml (USDA SR26, NDB 19335: 200 g a cup) is 84.5 g.
    CHECK(costOfAmount(*rate, 100, PackUnit::Ml, decimal("0.845"))->millionths == 126'750);
    CHECK(costOfAmount(*rate, 100, PackUnit::Ml, std::nullopt).error() == CostProblem::UnitsDiffer);
    CHECK(costOfAmount(*rate, 100, PackUnit::Ml, Rational(0)).error() == CostProblem::UnitsDiffer);
    CHECK(costOfAmount(*rate, 1, PackUnit::Piece, Rational(1)).error() == CostProblem::UnitsDiffer);
    const auto bottle = costRate(pack("10.00", 1000));
    CHECK(costOfAmount(*bottle, 80, PackUnit::Gram, decimal("0.8"))->millionths == 1'000'000);
}

TEST_CASE("What is bought once is paid for once", "[larder][cost]") {
    // A lime for 0.25: all of it on the juice, or a fifth on the peel.
    const Cost lime{250'000};
    CHECK(*splitCost(lime, {1, 0}) == std::vector<Cost>{{250'000}, {0}});
    CHECK(*splitCost(lime, {decimal("4/5"), decimal("1/5")}) == std::vector<Cost>{{200'000}, {50'000}});
    // Thirds of a cent's hundredth: nothing is lost, the first takes what is over.
    const auto thirds = splitCost({100}, {decimal("1/3"), decimal("1/3"), decimal("1/3")});
    REQUIRE(thirds);
    CHECK(*thirds == std::vector<Cost>{{34}, {33}, {33}});
    const auto uneven = splitCost({7}, {decimal("1/2"), decimal("1/3"), decimal("1/6")});
    REQUIRE(uneven);
    CHECK(std::accumulate(uneven->begin(), uneven->end(), std::int64_t{0},
                          [](std::int64_t sum, Cost cost) { return sum + cost.millionths; }) == 7);
    CHECK(splitCost(lime, {decimal("1/2"), decimal("1/3")}).error() == CostProblem::BadShares);
    CHECK(splitCost(lime, {decimal("3/2"), decimal("-1/2")}).error() == CostProblem::BadShares);
    CHECK(splitCost(lime, {}).error() == CostProblem::BadShares);
}

TEST_CASE("A purchase that cannot be costed names what is wrong", "[larder][cost]") {
    CHECK(problemOf(pack("-1.00", 700)) == CostProblem::NegativePrice);
    CHECK(problemOf(pack("1.00", 0)) == CostProblem::SizeNotAbove0);
    CHECK(problemOf(pack("1.00", -5)) == CostProblem::SizeNotAbove0);
    CHECK(problemOf(pack("1.00", std::nan(""))) == CostProblem::SizeNotAbove0);
    CHECK(problemOf(pack("1.00", 1.1e9)) == CostProblem::SizeTooLarge);
    CHECK(problemOf(pack("1.00", std::nullopt)) == CostProblem::NoSize);
    Pack both = pack("1.00", 700);
    both.forG = 700;
    CHECK(problemOf(both) == CostProblem::NoSize);
    PurchaseTerms terms;
    terms.usableShare = 0;
    CHECK(problemOf(pack("1.00", 700), terms) == CostProblem::YieldNotAbove0);
    terms.usableShare = decimal("1.01");
    CHECK(problemOf(pack("1.00", 700), terms) == CostProblem::YieldAbove1);
    terms = {};
    terms.yieldPerUnit = 0;
    CHECK(problemOf(pack("1.00", 700), terms) == CostProblem::YieldNotAbove0);
    Pack taxed = pack("1.00", 700);
    taxed.taxPercent = -1;
    CHECK(problemOf(taxed) == CostProblem::BadTax);
    // 10^9 ml is a number, 10^9 ml of the dearest thing is still no wrap.
    Pack dear = pack("90000000000000.00", 1);
    CHECK(costOfAmount(*costRate(dear), 1'000'000'000).error() == CostProblem::TooLarge);
    CHECK(costProblemId(CostProblem::NoSize) == "no_size");
    CHECK(costProblemId(CostProblem::TooLarge) == "too_large");
}

TEST_CASE("A stored size is the decimal it was written as", "[larder][cost]") {
    CHECK(exactOf(0.7) == decimal("7/10"));
    CHECK(exactOf(22.5) == decimal("45/2"));
    CHECK(exactOf(750) == Rational(750));
    CHECK_FALSE(exactOf(std::nan("")));
    CHECK_FALSE(exactOf(1e300));
}
