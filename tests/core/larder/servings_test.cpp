#include "core/larder/servings.h"

#include "tests/support/catch.h"

#include <set>

using namespace stillroom::larder;

namespace {

// g/ml at 20 °C: OIML R 22 (the file's own figure).
double grams(double ml, double percentVol) {
    return ml * percentVol / 100 * 0.78924;
}

double drinks(const char* country, double ml, double percentVol) {
    const StandardDrink* drink = standardDrinkOf(country);
    REQUIRE(drink != nullptr);
    REQUIRE(drink->grams);
    return grams(ml, percentVol) / *drink->grams;
}

} // namespace

// Grams: published country table after Kalinowski and Humphreys 2016, Addiction 111:1293.
TEST_CASE("Countries name their standard drinks", "[larder][servings]") {
    CHECK(standardDrinkOf("US")->grams == 14.0);
    CHECK(standardDrinkOf("AU")->grams == 10.0);
    CHECK(standardDrinkOf("JP")->grams == 20.0);
    CHECK(standardDrinkOf("GB")->grams == 7.89); // 10 ml
    CHECK(standardDrinkOf("GB")->called == "unit");
    CHECK(standardDrinkOf("US")->called == "standard drink");
    CHECK_FALSE(standardDrinkOf("DE")->grams); // several values in use
    CHECK_FALSE(standardDrinkOf("DE")->verified);
    CHECK(standardDrinkOf("WHO")->grams == 10.0);
    CHECK(standardDrinkOf("ZZ") == nullptr);
    std::set<std::string> codes;
    for (const StandardDrink& drink : standardDrinks()) {
        CAPTURE(drink.code);
        CHECK(codes.insert(drink.code).second);
        CHECK_FALSE(drink.source.empty());
        if (!drink.grams) CHECK_FALSE(drink.note.empty());
    }
}

TEST_CASE("Published examples of standard drinks come out", "[larder][servings]") {
    // National standard-drink pages, published in the United Kingdom
    CHECK(drinks("GB", 568, 5) == Approx(2.8).margin(0.05));
    CHECK(drinks("GB", 25, 40) == Approx(1.0).margin(0.001));
    // Australian Department of Health, standard drinks guide
    CHECK(drinks("AU", 285, 4.8) == Approx(1.1).margin(0.05));
    CHECK(drinks("AU", 375, 3.5) == Approx(1.0).margin(0.05));
    CHECK(drinks("AU", 150, 13) == Approx(1.5).margin(0.05));
    CHECK(drinks("AU", 700, 40) == Approx(22).margin(0.5));
    // NIAAA: 12 US fluid ounces of 5 % beer hold one US standard drink
    CHECK(drinks("US", 355, 5) == Approx(1.0).margin(0.05 / 14));
}

TEST_CASE("A list of standard drinks that is not whole is refused", "[larder][servings]") {
    CHECK_FALSE(standardDrinksFromJson("{}"));
    CHECK_FALSE(standardDrinksFromJson("no JSON"));
    const auto file = [](const std::string& entry) {
        return R"({"schema":"stillroom-servings/1","standard_drinks":[)" + entry + "]}";
    };
    CHECK(standardDrinksFromJson(file(R"({"code":"XX","name":"X","source":"s"})")));
    CHECK_FALSE(standardDrinksFromJson(file(R"({"code":"XX","name":"X"})")));
    CHECK_FALSE(standardDrinksFromJson(file(R"({"code":"XX","name":"X","source":"s","grams":"10"})")));
    CHECK_FALSE(standardDrinksFromJson(file(R"({"code":"XX","name":"X","source":"s","grams":0})")));
    CHECK_FALSE(standardDrinksFromJson(file("7")));
}
