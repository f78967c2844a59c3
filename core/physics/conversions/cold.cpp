#include "core/physics/conversions/conversion_kit.h"
#include "core/physics/freezing.h"
#include "core/physics/solubility.h"
#include "core/physics/water_activity.h"

#include <algorithm>
#include <array>

// Freezing and keeping.
namespace stillroom::physics {

using quantity::Temperature;

namespace {

// Ice and sugar crystals can form together from here down.
constexpr double kSugarCrystalsCelsius = -14;

// The most sugar, g/l, that stays dissolved at 20 °C beside all else.
double mostDissolvedGPerL(PlainLiquid plain) {
    const double most = sucroseSolubility(Temperature::fromCelsius(20))->fraction();
    double low = 0;
    double high = plain.sugarGPerL;
    while (high - low > 0.01) {
        plain.sugarGPerL = 0.5 * (low + high);
        const auto mixture = perMl(plain);
        const bool fits =
            mixture && mixture->sugarGrams() <= most * (mixture->sugarGrams() + (*mixture)[Substance::Water]);
        (fits ? low : high) = plain.sugarGPerL;
    }
    return low;
}

bool isBeyondSaturation(const Composition& mixture, double celsius) {
    return undissolvedAt(mixture, Temperature::fromCelsius(celsius)).has_value();
}

void remarkOnState(Answer& answer, const InFreezer& state, Temperature t) {
    const bool crystals = isBeyondSaturation(state.liquid, std::max(t.celsius(), 0.0)) ||
                          (state.liquid[Substance::Sucrose] > 0 && state.liquid[Substance::Ethanol] == 0 &&
                           t.celsius() < kSugarCrystalsCelsius);
    if (crystals)
        answer.remark(
            "What is left liquid there holds more sugar or salt than stays dissolved: it may set with "
            "crystals, which is not counted.");
    else if (state.state == ColdState::Liquid)
        answer.remark("It stays liquid there.");
    if (state.state == ColdState::Slush)
        answer.remark("It turns to slush there. Words for a share of ice have no source.");
    if (state.state == ColdState::Solid)
        answer.remark(
            "It turns solid there. Words for a share of ice have no source. A full bottle may burst.");
}

Outcome freezingPoint(const GivenValues& given) {
    PlainLiquid plain;
    plain.strength = given.strength("abv");
    plain.sugarGPerL = given["sugar"];
    plain.acidGPerL = given["acid"];
    plain.saltGPerL = given["salt"];
    const auto mixture = liquidPerMl(plain);
    if (!mixture) return tl::unexpected(mixture.error());
    if (isBeyondSaturation(*mixture, 20) && plain.sugarGPerL > mostDissolvedGPerL(plain))
        return outside("sugar", 0.0, mostDissolvedGPerL(plain),
                       undissolvedRemark(*mixture) + " Such a syrup has no freezing point of its own.");
    const auto onset = freezing(*mixture);
    if (!onset) return impossible("abv", "There is no water in it, so no ice forms.");
    const auto t = given.celsius("t");
    const auto state = atTemperature(*mixture, t);
    Answer answer;
    answer.put("onset", onset->onset.celsius(), onset->estimate);
    if (state) {
        answer.put("ice", 100 * state->iceShare, state->estimate);
        if (plain.strength.fraction() > 0)
            answer.put("liquid_abv", state->liquidStrength.percentVol(), state->estimate);
    }
    const auto least = strengthToStayLiquid(*mixture, t);
    if (least) answer.put("stays_liquid", least->percentVol(), true);
    if (isBeyondSaturation(*mixture, 0))
        answer.remark(
            "At 0 °C that is more sugar than stays dissolved (64.2 g in 100 g with its water, Herzfeld "
            "1892): what freezes there is an undercooled syrup, and crystals may come first.");
    if (least && plain.sugarGPerL + plain.acidGPerL + plain.saltGPerL > 0)
        answer.remark(
            "The strength that just stays liquid is reached by taking water out or in: sugar, acid and "
            "salt grow stronger or weaker along with the alcohol.");
    if (state) remarkOnState(answer, *state, t);
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
    if (const auto never = neverDissolved(mixture)) {
        const auto found = std::find_if(kByMass.begin(), kByMass.end(),
                                        [&](const auto& row) { return row.second == never->substance; });
        return tl::unexpected(*neverASolution(mixture, found->first));
    }
    const auto a = waterActivity(mixture, given.celsius("t"));
    if (!a) return outside("t", 0, 40);
    return Answer()
        .put("water_activity", a->value, a->estimate || undissolvedAt(mixture, given.celsius("t")))
        .put("water", water)
        .remark(undissolvedRemark(mixture, given.celsius("t")))
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
         "Published tables for ethanol differ: this one and Lange's Handbook by up to 1.5 K, most at 36 % "
         "vol. "
         "Below 20 % vol they agree to 0.8 K. At rest; a bottle can stand below its onset for a while. "
         "Solutes "
         "past their tables are marked: sucrose from 42 g in 100 g with its water, where the published "
         "freezing "
         "points end and an equation for water activity goes on.",
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
         "An estimate with anything but sucrose, most of all with alcohol, and beyond 42 g of sucrose in 100 "
         "g "
         "with its water; the product is good to 0.01 to 0.02.",
         activity},
    };
}

} // namespace stillroom::physics
