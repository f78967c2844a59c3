#include "core/larder/price_history.h"

#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::larder;
using quantity::Cost;
using quantity::Currency;
using quantity::Money;
using quantity::Rational;

namespace {

Pack pack(const char* amount, const char* day, double ml = 700, const char* currency = "EUR") {
    Pack made;
    made.price = *Money::fromText(amount, *Currency::fromCode(currency));
    made.forMl = ml;
    made.pricedOn = day;
    return made;
}

std::string priceOn(const std::vector<Pack>& packs, std::string_view day) {
    const Pack* held = packOn(packs, day);
    return held ? held->price.text() : "none";
}

const Currency kEuro = *Currency::fromCode("EUR");
const Currency kDollar = *Currency::fromCode("USD");
const Currency kYen = *Currency::fromCode("JPY");

} // namespace

TEST_CASE("Civil dates are days that exist", "[larder][cost]") {
    CHECK(isCivilDate("2026-11-02"));
    CHECK(isCivilDate("2024-02-29"));
    for (const char* bad : {"2026-02-29", "2026-13-01", "2026-00-10", "2026-1-02", "02.11.2026",
                            "2026-11-02 ", "", "2026/11/02", "-026-11-02"}) {
        CAPTURE(bad);
        CHECK_FALSE(isCivilDate(bad));
    }
}

TEST_CASE("A price holds from its day until the next", "[larder][cost]") {
    // Not in the order of their days, as people enter them.
    const std::vector<Pack> packs{pack("14.00", "2026-06-01"), pack("12.00", "2026-01-15"), pack("10.00", ""),
                                  pack("15.50", "2026-06-01")};
    CHECK(priceOn(packs, "2025-12-31") == "10.00"); // undated: held before
    CHECK(priceOn(packs, "2026-01-14") == "10.00");
    CHECK(priceOn(packs, "2026-01-15") == "12.00");
    CHECK(priceOn(packs, "2026-05-31") == "12.00");
    CHECK(priceOn(packs, "2026-06-01") == "15.50"); // two of one day: the later entered
    CHECK(priceOn(packs, "2030-01-01") == "15.50");
    CHECK(priceOn(packs, "someday") == "none");
    CHECK(priceOn({pack("12.00", "2026-01-15")}, "2026-01-14") == "none");
    CHECK(priceOn({}, "2026-01-14") == "none");
}

TEST_CASE("Steps of a price are told between comparable packs", "[larder][cost]") {
    const std::vector<Pack> packs{pack("14.00", "2026-01-01", 700), pack("20.00", "2026-03-01", 1000),
                                  pack("22.00", "2026-04-01", 1000), pack("30.00", "2026-05-01", 1000, "USD"),
                                  pack("24.00", "2026-06-01", 1000)};
    const auto steps = priceSteps(packs);
    // 14.00 for 700 ml and 20.00 for a litre are one price.
    REQUIRE(steps.size() == 1);
    CHECK(steps[0].day == "2026-04-01");
    CHECK(*relativeChange(steps[0]) == Approx(0.1));
    // What a pour of 50 ml cost before and after.
    CHECK(costOfAmount(steps[0].before, 50)->millionths == 1'000'000);
    CHECK(costOfAmount(steps[0].after, 50)->millionths == 1'100'000);
    CHECK_FALSE(relativeChange({"2026-01-01", *costRate(pack("0.00", "")), *costRate(pack("1.00", ""))}));
}

TEST_CASE("Another currency needs a dated rate", "[larder][cost]") {
    const std::vector<ExchangeRate> rates{{kEuro, kDollar, *Rational::fromText("1.08"), "2026-01-01"},
                                          {kEuro, kDollar, *Rational::fromText("1.25"), "2026-06-01"}};
    const Cost cost{1'000'000};
    CHECK(converted(cost, kEuro, kEuro, {}, "2026-01-01")->millionths == 1'000'000);
    CHECK(converted(cost, kEuro, kDollar, rates, "2026-05-31")->millionths == 1'080'000);
    CHECK(converted(cost, kEuro, kDollar, rates, "2026-06-01")->millionths == 1'250'000);
    CHECK(converted(cost, kDollar, kEuro, rates, "2026-06-01")->millionths == 800'000); // the other way round
    CHECK(converted(cost, kEuro, kDollar, rates, "2025-12-31").error() == CostProblem::CurrencyDiffers);
    CHECK(converted(cost, kEuro, kYen, rates, "2026-06-01").error() == CostProblem::CurrencyDiffers);
    CHECK(converted(cost, kEuro, kDollar, rates, "today").error() == CostProblem::CurrencyDiffers);
    // Half to even, once: 3 millionths at 1/2 are 2, at 5 they are 2 again.
    const std::vector<ExchangeRate> half{{kEuro, kDollar, *Rational::fromText("1/2"), "2026-01-01"}};
    CHECK(converted({3}, kEuro, kDollar, half, "2026-01-01")->millionths == 2);
    CHECK(converted({5}, kEuro, kDollar, half, "2026-01-01")->millionths == 2);
    const std::vector<ExchangeRate> none{{kEuro, kDollar, Rational(0), "2026-01-01"}};
    CHECK(converted(cost, kEuro, kDollar, none, "2026-01-01").error() == CostProblem::CurrencyDiffers);
}
