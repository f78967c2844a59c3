#include "core/larder/price_line.h"

#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::larder;

namespace {

Pack pack(std::int64_t minor, double ml, const char* on, const char* currency = "EUR") {
    Pack made;
    made.id = base::PackId::random();
    made.price = {minor, *quantity::Currency::fromCode(currency)};
    made.forMl = ml;
    made.pricedOn = on;
    return made;
}

Ingredient of(std::vector<Pack> packs) {
    Ingredient made;
    made.id = base::IngredientId::random();
    made.name = "gin";
    made.packs = std::move(packs);
    return made;
}

PriceLine lineOf(const Ingredient& ingredient, const std::vector<ExchangeRate>* rates = nullptr) {
    return priceLine(Larder::withoutHandbook(), ingredient,
                     {*quantity::Currency::fromCode("EUR"), {}, rates});
}

} // namespace

TEST_CASE("days are counted from 1970", "[price-line]") {
    CHECK(dayNumber("1970-01-01") == 0);
    CHECK(dayNumber("1970-03-01") == 59);
    CHECK(dayNumber("2000-03-01") - dayNumber("2000-02-28") == 2); // a leap year
    CHECK(dayNumber("2026-11-25") == 20782);
    CHECK(dayNumber("2026-02-30") == 0);
}

TEST_CASE("a price line goes by day and says by how much each step changed", "[price-line]") {
    const auto line = lineOf(
        of({pack(2450, 700, "2026-11-02"), pack(2310, 700, "2026-09-14"), pack(3500, 1000, "2026-11-20")}));
    REQUIRE(line.points.size() == 3);
    CHECK(line.leftOut == 0);
    CHECK(line.points[0].on == "2026-09-14");
    CHECK(line.points[0].price.major == Approx(3.30));
    CHECK(line.points[0].change == 0);
    CHECK(line.points[1].price.major == Approx(3.50));
    CHECK(line.points[1].change == Approx(0.20 / 3.30));
    CHECK(line.points[2].change == Approx(0.0).margin(1e-12)); // a larger pack, the same price
    CHECK(line.points[2].day - line.points[0].day == 67);
}

TEST_CASE("what cannot stand on a price line is counted and never drawn as another figure", "[price-line]") {
    Pack kilo = pack(900, 1, "2026-01-01");
    kilo.forMl.reset();
    kilo.forG = 1000;
    auto free = pack(0, 700, "2026-02-01");
    const auto mixed =
        of({kilo, free, pack(2000, 1000, "2026-03-01"), pack(2200, 1000, "2026-03-01"), pack(2000, 1000, ""),
            pack(1800, 1000, "2026-04-01", "GBP"), pack(1, 0, "2026-04-02")});
    auto line = lineOf(mixed);
    REQUIRE(line.points.size() == 2);
    CHECK(line.points[0].price.major == 0);
    CHECK(line.points[1].price.major == Approx(2.20)); // of two on one day the last given
    CHECK(line.points[1].change == 0);                 // it was free before
    CHECK(line.leftOut == 4);                          // by weight, without a day, pounds, an empty pack
    const std::vector<ExchangeRate> rates{{*quantity::Currency::fromCode("GBP"),
                                           *quantity::Currency::fromCode("EUR"),
                                           *quantity::Rational::make(6, 5), "2026-03-15"}};
    line = lineOf(mixed, &rates);
    REQUIRE(line.points.size() == 3);
    CHECK(line.points[2].price.major == Approx(2.16));
    CHECK(line.leftOut == 3);
}
