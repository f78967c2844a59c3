#include "core/physics/blending.h"
#include "core/physics/bracketed_root.h"
#include "core/physics/conversions/conversion_kit.h"
#include "core/physics/mixture.h"
#include "core/physics/refraction.h"
#include "core/physics/sucrose_water.h"
#include "core/physics/water_activity.h"

#include <algorithm>
#include <array>
#include <cmath>

// Sugar in water, in every scale, and from one scale to another syrup.
namespace stillroom::physics {

using quantity::Density;
using quantity::MassFraction;
using quantity::Temperature;

namespace {

constexpr double kMostBrix = 85;
constexpr std::string_view kTooHeavy = "That is a syrup of 85 g/100 g, where the formula ends.";
constexpr std::string_view kSupersaturated =
    "More sugar than stays dissolved at 20 °C: crystals will form in time.";

double densityAt(double brixPercent) {
    return sucroseWaterDensityAt20(MassFraction::fromPercent(brixPercent)).kgPerM3();
}
double water() {
    return densityAt(0);
}
double sugarGPerL(double brixPercent) {
    return brixPercent / 100 * densityAt(brixPercent);
}

double brixOfParts(double sugarToWater) {
    return 100 * sugarToWater / (1 + sugarToWater);
}

// One scale of syrups: what it shows at a Brix, and with how many decimals that is written.
struct Scale {
    std::string_view key;
    int decimals;
    double (*at)(double brixPercent);
};
double indexAt(double b) {
    return refractiveIndex(MassFraction::fromPercent(b)).value_or(std::nan(""));
}
double partsAt(double b) {
    return b / (100 - b);
}
constexpr std::array<Scale, 7> kScales{
    {{"brix", 2, [](double b) { return b; }},
     {"density", 2, densityAt},
     {"relative_density", 4, [](double b) { return densityAt(b) / water(); }},
     {"refractive_index", 4, indexAt},
     {"baume", 2, [](double b) { return baume(Density::fromKgPerM3(densityAt(b))).value_or(0); }},
     {"sugar_g_per_l", 1, sugarGPerL},
     {"parts_weight", 3, partsAt}}};

// The ends of a scale as they are written: what the program shows it also takes.
double writtenLow(const Scale& scale) {
    const double digits = std::pow(10.0, scale.decimals);
    return std::floor(scale.at(0) * digits) / digits;
}
double writtenHigh(const Scale& scale) {
    const double digits = std::pow(10.0, scale.decimals);
    return std::ceil(scale.at(kMostBrix) * digits) / digits;
}
const Scale& scaleOf(std::string_view key) {
    return *std::find_if(kScales.begin(), kScales.end() - 1, [&](const Scale& s) { return s.key == key; });
}

double cupsPerPart(double cupDensity) {
    return waterGPerMl() / cupDensity;
}

// By the key that is given; nullopt when it lies outside what sugar and water do.
std::optional<double> brixGiven(const GivenValues& given, std::string_view& key) {
    for (const Scale& scale : kScales)
        if (given.has(scale.key)) key = scale.key;
    if (given.has("parts_cup")) {
        key = "parts_cup";
        const double most = partsAt(kMostBrix) * cupsPerPart(given["cup_density"]);
        return brixOfParts(withinWritten(given[key], 0, most, 3) / cupsPerPart(given["cup_density"]));
    }
    const Scale& scale = scaleOf(key);
    const double low = scale.at(0);
    const double high = scale.at(kMostBrix);
    const double value = withinWritten(given[key], low, high, scale.decimals);
    if (value == low) return 0.0;
    if (value == high) return kMostBrix;
    if (key == "brix") return value;
    if (key == "parts_weight") return brixOfParts(value);
    if (key == "refractive_index") {
        const auto b = brixFromRefractiveIndex(value);
        return b ? std::optional(b->percent()) : std::nullopt;
    }
    return bracketedRoot([&](double b) { return scale.at(b) - value; }, 0.0, kMostBrix, 1e-11);
}

std::string_view remarkOn(double brixPercent) {
    const auto most = sucroseSolubility(Temperature::fromCelsius(20));
    return most && brixPercent > most->percent() ? kSupersaturated : std::string_view{};
}

Outcome syrup(const GivenValues& given) {
    std::string_view key;
    auto b = brixGiven(given, key);
    if (!b || *b > kMostBrix + 1e-9) return impossible(key, kTooHeavy);
    b = std::min(*b, kMostBrix);
    const double rho = densityAt(*b);
    Answer answer;
    answer.put("brix", *b).put("density", rho).put("relative_density", rho / water());
    answer.put("refractive_index", refractiveIndex(MassFraction::fromPercent(*b)));
    answer.put("baume", baume(Density::fromKgPerM3(rho)));
    answer.put("sugar_g_per_l", sugarGPerL(*b));
    const double parts = *b / (100 - *b);
    answer.put("parts_weight", parts);
    answer.put("parts_cup", parts * waterGPerMl() / given["cup_density"], true);
    if (const auto remark = remarkOn(*b); !remark.empty()) answer.remark(remark);
    return answer;
}

Outcome swapSyrup(const GivenValues& given) {
    const double have = given["brix"];
    const double instead = given["instead"];
    const double volume = given["volume"];
    const double sugar = volume / 1000 * sugarGPerL(have);
    const double otherMl = sugar / sugarGPerL(instead) * 1000;
    const double water = volume / 1000 * densityAt(have) - otherMl / 1000 * densityAt(instead);
    Answer answer;
    answer.put("sugar_g", sugar)
        .put("volume_instead", otherMl)
        .put("mass_instead", otherMl / 1000 * densityAt(instead));
    answer.put("water_g", water).put("water_ml", water / waterGPerMl());
    if (water < 0)
        answer.remark("The syrup poured instead brings more water: leave that much out elsewhere.");
    return answer;
}

Outcome sugarToBrix(const GivenValues& given) {
    const double brixNow = given["brix"];
    const double grams = given.has("mass") ? given["mass"] : given["volume"] * densityAt(brixNow) / 1000;
    Composition liquid;
    liquid[Substance::Sucrose] = grams * brixNow / 100;
    liquid[Substance::Water] = grams - liquid[Substance::Sucrose];
    const MassFraction target = given.percent("target");
    const auto sugar = sugarToReach(liquid, target);
    const auto added = waterToReachBrix(liquid, target);
    if (!sugar && !added) return outside("target", 0.0, kMostBrix, "There is no sugar in it to be thinned.");
    Answer answer;
    const double sugarGrams = sugar ? sugar->grams() : 0;
    const double waterGrams = sugar ? 0 : added->grams();
    liquid[Substance::Sucrose] += sugarGrams;
    liquid[Substance::Water] += waterGrams;
    answer.put("sugar_g", sugarGrams).put("water_g", waterGrams).put("water_ml", waterGrams / waterGPerMl());
    answer.put("mass_after", liquid.totalGrams()).put("volume_after", volumeAt20(liquid).ml());
    if (const auto remark = remarkOn(target.percent()); !remark.empty()) answer.remark(remark);
    return answer;
}

Outcome saturation(const GivenValues& given) {
    const auto most = sucroseSolubility(given.celsius("t"));
    if (!most) return outside("t", 0, 100);
    Answer answer;
    answer.put("brix", most->percent());
    answer.put("parts_weight", most->fraction() / (1 - most->fraction()));
    return answer;
}

} // namespace

std::vector<Conversion> syrupConversions() {
    using N = InputNeed;
    constexpr double kLightestCup = 0.5; // g/ml
    const double mostByCup = std::ceil(partsAt(kMostBrix) * cupsPerPart(kLightestCup) * 1000) / 1000;
    const auto scale = [](std::string_view key, std::string_view label, std::string_view unit) {
        const Scale& s = scaleOf(key);
        return ConversionInput{key, label, unit, N::OneOf, writtenLow(s), writtenHigh(s)};
    };
    const ConversionInput brixNow{"brix", "Sugar it holds now", "°Bx", N::Optional, 0, kMostBrix, false, 0};
    return {
        {"syrup",
         "Sugar syrup in every scale",
         {scale("brix", "Sugar by mass", "°Bx"),
          scale("density", "Density at 20 °C", "kg/m³"),
          scale("relative_density", "Relative density 20/20", ""),
          scale("refractive_index", "Refractive index at 20 °C", ""),
          scale("baume", "Baumé", "°Bé"),
          scale("sugar_g_per_l", "Sugar", "g/l"),
          scale("parts_weight", "Sugar to 1 of water, by weight", "to 1"),
          {"parts_cup", "Sugar to 1 of water, by the cup", "to 1", N::OneOf, 0, mostByCup},
          {"cup_density", "A millilitre of sugar in the cup", "g/ml", N::Optional, kLightestCup, 1.2, false,
           0.845}},
         {{"brix", "Sugar by mass", "°Bx", 2},
          {"density", "Density at 20 °C", "kg/m³", 2},
          {"relative_density", "Relative density 20/20", "", 4},
          {"refractive_index", "Refractive index at 20 °C", "", 4},
          {"baume", "Baumé, modulus 145", "°Bé", 2},
          {"sugar_g_per_l", "Sugar", "g/l", 1},
          {"parts_weight", "Sugar to 1 of water, by weight", "to 1", 3},
          {"parts_cup", "Sugar to 1 of water, by the cup", "to 1", 3}},
         "ICUMSA SPS-4 (1998) for density, a fit to the ICUMSA 1974 scale for the index; USDA cup of "
         "granulated sugar, 200 g",
         "Sucrose in water at 20 °C. Other solutes and alcohol shift a refractometer. An unstated Baumé "
         "scale "
         "is good to 0.2. Caster and packed sugar fill a cup otherwise.",
         syrup},
        {"syrup_swap",
         "Pour one syrup instead of another, sugar and water kept",
         {{"volume", "Syrup in the recipe", "ml", N::Required, 0, kMostMl, true},
          {"brix", "The recipe's syrup", "°Bx", N::Optional, 1, kMostBrix, false, 50},
          {"instead", "The syrup at hand", "°Bx", N::Optional, 1, kMostBrix, false, 200.0 / 3}},
         {{"volume_instead", "Pour of the syrup at hand", "ml", 2},
          {"mass_instead", "or weigh of it", "g", 2},
          {"water_ml", "and water", "ml", 2},
          {"water_g", "or weigh of water", "g", 2},
          {"sugar_g", "Sugar in both", "g", 2}},
         "ICUMSA SPS-4 (1998)",
         "Sucrose and water. 50 °Bx is 1:1 by weight, 66.7 °Bx is 2:1 by weight.",
         swapSyrup},
        {"sugar_to_brix",
         "Sugar or water to bring a liquid to a Brix",
         {{"mass", "Liquid by weight", "g", N::OneOf, 0, kMostMl, true},
          {"volume", "Liquid by volume", "ml", N::OneOf, 0, kMostMl, true},
          {"target", "Brix wanted", "°Bx", N::Required, 0, kMostBrix, true},
          brixNow},
         {{"sugar_g", "Sugar to add", "g", 1},
          {"water_g", "Water to add", "g", 1},
          {"water_ml", "or by volume", "ml", 1},
          {"mass_after", "Makes", "g", 1},
          {"volume_after", "which is", "ml", 1}},
         "Balance of masses; volumes by ICUMSA SPS-4 (1998)",
         "Sucrose and water at 20 °C; a juice counts by its Brix, its acid is taken as sugar.",
         sugarToBrix},
        {"saturation",
         "The most sugar that stays dissolved at a temperature",
         {{"t", "Temperature", "°C", N::Required, 0, 100}},
         {{"brix", "Sugar by mass, at most", "°Bx", 2},
          {"parts_weight", "Sugar to 1 of water, by weight", "to 1", 3}},
         "Herzfeld 1892, as tabulated by Mohos 2010",
         "Sucrose alone. A newer scale lies 0.5 lower near 20 °C.",
         saturation},
    };
}

} // namespace stillroom::physics
