#include "core/exchange/ingredient_json.h"
#include "tests/support/catch.h"

#include <string>

using namespace stillroom;
using exchange::larderFileFromJson;

namespace {

std::string fileWith(const std::string& entry) {
    return R"({"ingredients": [)" + entry + "]}";
}

std::string problem(const std::string& text) {
    const auto entries = larderFileFromJson(text);
    return entries ? std::string("(read)") : entries.error();
}

} // namespace

TEST_CASE("a larder file states facts and leaves the rest unknown", "[ingredient-json]") {
    const auto entries = larderFileFromJson(fileWith(R"({"name": "gin", "abv_percent": 47, "sugar_g_per_l": 0,
        "price": {"amount": "12.50", "currency": "EUR", "for_ml": 700}})"));
    REQUIRE(entries);
    REQUIRE(entries->size() == 1);
    const larder::Ingredient& gin = entries->front().ingredient;
    REQUIRE(gin.facts.abvPercent);
    CHECK(gin.facts.abvPercent->typical == 47.0);
    REQUIRE(gin.facts.sugarGPerL);
    CHECK(gin.facts.sugarGPerL->typical == 0.0);
    CHECK_FALSE(gin.facts.acidGPerL.has_value());
    CHECK_FALSE(gin.facts.densityKgPerM3.has_value());
    CHECK_FALSE(gin.facts.allergens.has_value());
    REQUIRE(gin.packs.size() == 1);
    CHECK(gin.packs[0].price.minor == 1250);
    CHECK(gin.packs[0].forMl == 700.0);
}

TEST_CASE("a larder file with a slip in it is refused whole", "[ingredient-json]") {
    CHECK(problem("") == "not JSON");
    CHECK(problem("{}") == "needs {\"ingredients\": [ … ]}");
    CHECK(problem(fileWith("{}")) == "ingredient 1: an ingredient needs a \"name\"");
    CHECK(problem(fileWith(R"({"name": "gin", "abv": 47})")) == "ingredient 1: gin: unknown key \"abv\"");
    CHECK(problem(fileWith(R"({"name": "gin", "abv_percent": 140})")) ==
          "ingredient 1: gin: \"abv_percent\" must lie between 0 and 100");
    CHECK(problem(fileWith(R"({"name": "gin", "abv_percent": -1})")) ==
          "ingredient 1: gin: \"abv_percent\" must lie between 0 and 100");
    CHECK(problem(fileWith(R"({"name": "gin", "abv_percent": "47"})")) ==
          "ingredient 1: gin: \"abv_percent\" must be a number");
    CHECK(problem(fileWith(
              R"({"name": "gin", "price": {"amount": "12.505", "currency": "EUR", "for_ml": 1}})")) ==
          "ingredient 1: gin: \"12.505\" is not an amount of EUR");
    CHECK(problem(
              fileWith(R"({"name": "gin", "price": {"amount": "12.50", "currency": "ABC", "for_ml": 1}})")) ==
          "ingredient 1: gin: \"ABC\" is not a currency of ISO 4217");
    CHECK(problem(
              fileWith(R"({"name": "gin", "price": {"amount": "12.50", "currency": "EUR", "for_ml": 0}})")) ==
          "ingredient 1: gin: \"price\" needs one of for_ml, for_g, for_pieces, above 0");
    CHECK(problem(std::string(200000, '[')) == "not JSON");
}

TEST_CASE("an entry takes the place of the handbook kind of its name", "[ingredient-json]") {
    larder::Larder larder;
    const auto entries = larderFileFromJson(fileWith(
        R"({"name": "London dry gin", "abv_percent": 51}, {"name": "zzyx water", "abv_percent": 0})"));
    REQUIRE(entries);
    exchange::putOver(larder, *entries);
    const larder::NameMatch gin = larder.match("London dry gin");
    const larder::Ingredient* found = larder.find(gin.ingredient);
    REQUIRE(found);
    REQUIRE(found->facts.abvPercent);
    CHECK(found->facts.abvPercent->typical == 51.0);
    CHECK_FALSE(found->facts.sugarGPerL.has_value()); // the handbook knows it; the entry replaces it whole
    CHECK(found->facts.group == "spirit");
    const larder::Ingredient* water = larder.find(larder.match("zzyx water").ingredient);
    REQUIRE(water);
    CHECK(water->name == "zzyx water");
}
