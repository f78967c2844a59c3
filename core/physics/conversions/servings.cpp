#include "core/base/embedded.h"
#include "core/physics/conversions/conversion_kit.h"
#include "core/physics/ethanol_water.h"
#include "core/physics/food_energy.h"

#include <nlohmann/json.hpp>

#include <array>

// What is in a glass for the one who drinks it.
namespace stillroom::physics {

namespace {

using nlohmann::json;

struct Country {
    std::string_view key;
    std::string_view code;
    double grams = 0;
    double ml = 0; // of ethanol, where the country counts so
};

std::vector<Country> countries() {
    std::vector<Country> list{{"us", "US", 0, 0}, {"uk", "GB", 0, 0}, {"au", "AU", 0, 0},
                              {"ie", "IE", 0, 0}, {"ca", "CA", 0, 0}, {"jp", "JP", 0, 0}};
    const auto book = json::parse(base::embedded("handbook/servings.json"), nullptr, false);
    if (!book.is_object()) return list;
    for (const json& row : book.value("standard_drinks", json::array()))
        for (Country& country : list)
            if (row.value("code", "") == country.code) {
                country.grams = row.value("grams", 0.0);
                country.ml = row.value("ml_ethanol", 0.0);
            }
    return list;
}

Outcome standardDrinks(const GivenValues& given) {
    const double ethanolMl = given["volume"] * given["abv"] / 100;
    const double grams = ethanolMl * kEthanolKgPerM3At20 / 1000;
    static const std::vector<Country> list = countries();
    Answer answer;
    answer.put("ethanol_ml", ethanolMl).put("ethanol_g", grams);
    for (const Country& country : list) {
        if (country.ml > 0)
            answer.put(country.key, ethanolMl / country.ml);
        else if (country.grams > 0)
            answer.put(country.key, grams / country.grams);
    }
    return answer.remark("A count of alcohol, not a measure of what is safe: no amount is called so here.");
}

Outcome energy(const GivenValues& given) {
    PlainLiquid plain;
    plain.strength = given.strength("abv");
    plain.sugarGPerL = given["sugar"];
    plain.acidGPerL = given["acid"];
    const auto each = liquidPerMl(plain);
    if (!each) return tl::unexpected(each.error());
    const FoodEnergy sum = foodEnergy(times(*each, given["volume"]));
    return Answer().put("kj", sum.kj).put("kcal", sum.kcal).remark(undissolvedRemark(*each));
}

} // namespace

std::vector<Conversion> servingConversions() {
    using N = InputNeed;
    const ConversionInput volume{"volume", "Drink", "ml", N::Required, 0, kMostMl, true};
    const ConversionInput abv{"abv", "Strength", "% vol", N::Required, 0, 100};
    return {
        {"standard_drinks",
         "Alcohol in grams and in standard drinks",
         {volume, abv},
         {{"ethanol_g", "Alcohol", "g", 1},
          {"ethanol_ml", "Alcohol", "ml", 2},
          {"us", "United States, 14 g", "drinks", 2},
          {"uk", "United Kingdom, 10 ml", "units", 2},
          {"au", "Australia, 10 g", "drinks", 2},
          {"ie", "Ireland, 10 g", "drinks", 2},
          {"ca", "Canada, 13.45 g", "drinks", 2},
          {"jp", "Japan, 20 g", "drinks", 2}},
         "Published country table after Kalinowski and Humphreys 2016, Addiction 111:1293; OIML R 22 for "
         "789.24 g/l",
         "Water added or melted changes nothing.",
         standardDrinks},
        {"energy",
         "Energy of a drink",
         {volume,
          {"abv", "Strength", "% vol", N::Optional, 0, 100, false, 0},
          {"sugar", "Sugar", "g/l", N::Optional, 0, kMostGPerL, false, 0},
          {"acid", "Acid", "g/l", N::Optional, 0, 300, false, 0}},
         {{"kj", "Energy", "kJ", 0}, {"kcal", "Energy", "kcal", 0}},
         "Regulation (EU) No 1169/2011, Annex XIV",
         "kJ and kcal are two sums with their own factors, never converted into each other.",
         energy},
    };
}

} // namespace stillroom::physics
