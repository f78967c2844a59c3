#include "core/physics/conversions/conversion_kit.h"
#include "core/physics/freezing.h"
#include "core/physics/water_activity.h"

// Freezing and keeping.
namespace stillroom::physics {

namespace {

Outcome freezingPoint(const GivenValues& given) {
    PlainLiquid plain;
    plain.strength = given.strength("abv");
    plain.sugarGPerL = given["sugar"];
    plain.acidGPerL = given["acid"];
    plain.saltGPerL = given["salt"];
    const auto mixture = perMl(plain);
    if (!mixture) return impossible("sugar", kDoesNotFit);
    const auto onset = freezing(*mixture);
    if (!onset) return impossible("abv", "There is no water in it, so no ice forms.");
    const auto t = given.celsius("t");
    const auto state = atTemperature(*mixture, t);
    const bool beyond = onset->estimate;
    Answer answer;
    answer.put("onset", onset->onset.celsius(), beyond);
    if (state) {
        answer.put("ice", 100 * state->iceShare, state->estimate);
        answer.put("liquid_abv", state->liquidStrength.percentVol(), state->estimate);
    }
    if (const auto least = strengthToStayLiquid(*mixture, t))
        answer.put("stays_liquid", least->percentVol(), true);
    if (state && state->state == ColdState::Liquid) answer.remark("It stays liquid there.");
    if (state && state->state == ColdState::Slush)
        answer.remark("It turns to slush there. Words for a share of ice have no source.");
    if (state && state->state == ColdState::Solid)
        answer.remark(
            "It turns solid there. Words for a share of ice have no source. A full bottle may burst.");
    return answer;
}

constexpr std::array<std::pair<std::string_view, Substance>, 6> kByMass{{{"sucrose", Substance::Sucrose},
                                                                         {"glucose", Substance::Glucose},
                                                                         {"fructose", Substance::Fructose},
                                                                         {"acid", Substance::Citric},
                                                                         {"salt", Substance::Salt},
                                                                         {"ethanol", Substance::Ethanol}}};

Outcome activity(const GivenValues& given) {
    Composition mixture;
    double water = 100;
    std::string_view largest = kByMass.front().first;
    for (const auto& [key, substance] : kByMass) {
        mixture[substance] = given[key];
        water -= given[key];
        if (given[key] > given[largest]) largest = key;
    }
    if (!(water > 0))
        return impossible(largest, "All together make 100 g or more of 100 g; some water must be left.");
    mixture[Substance::Water] = water;
    const auto a = waterActivity(mixture, given.celsius("t"));
    if (!a) return outside("t", 0, 40);
    return Answer()
        .put("water_activity", a->value, a->estimate)
        .put("water", water)
        .remark(
            "Whether something keeps is not told by this alone: acid, heat, cleanliness and local food law "
            "count. Where safety hangs on it, have it measured.");
}

} // namespace

std::vector<Conversion> coldConversions() {
    using N = InputNeed;
    const auto share = [](std::string_view key, std::string_view label) {
        return ConversionInput{key, label, "g/100 g", N::Optional, 0, 99, false, 0};
    };
    return {
        {"freezing",
         "When a mixture begins to freeze, and what a freezer makes of it",
         {{"abv", "Strength at 20 °C", "% vol", N::Optional, 0, 100, false, 0},
          {"sugar", "Sugar", "g/l", N::Optional, 0, kMostGPerL, false, 0},
          {"acid", "Acid, as citric", "g/l", N::Optional, 0, 300, false, 0},
          {"salt", "Salt", "g/l", N::Optional, 0, 250, false, 0},
          {"t", "Freezer", "°C", N::Optional, -45, 40, false, -18}},
         {{"onset", "Begins to freeze at", "°C", 1},
          {"ice", "Ice in the freezer, of the mass", "%", 0},
          {"liquid_abv", "Strength of what stays liquid", "% vol", 1},
          {"stays_liquid", "Strength that just stays liquid there", "% vol", 1}},
         "CRC Handbook, 102nd ed., freezing points after Wolf 1966; product rule of Ross 1975",
         "Published tables for ethanol differ by up to 1.2 K, so expect 0.5 K. At rest; a bottle can stand "
         "below "
         "its onset for a while. Solutes past their tables are marked.",
         freezingPoint},
        {"water_activity",
         "Water activity of a syrup or liqueur",
         {share("sucrose", "Sucrose"),
          share("glucose", "Glucose"),
          share("fructose", "Fructose"),
          share("acid", "Citric acid"),
          share("salt", "Salt"),
          share("ethanol", "Ethanol by mass"),
          {"t", "Temperature", "°C", N::Optional, 0, 40, false, 25}},
         {{"water_activity", "Water activity", "", 3}, {"water", "Water", "g/100 g", 1}},
         "Starzak and Peacock 1997 (sucrose), Norrish 1966 (glucose, fructose; constants from memory), Ross "
         "1975",
         "An estimate with anything but sugar, most of all with alcohol; the product is good to 0.01 to "
         "0.02.",
         activity},
    };
}

} // namespace stillroom::physics
