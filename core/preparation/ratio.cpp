#include "core/preparation/ratio.h"

#include "core/larder/guarded_json.h"
#include "core/larder/larder.h"
#include "core/physics/sucrose_water.h"

#include <string>

namespace stillroom::preparation {

namespace {

std::optional<double> partFrom(std::string_view text) {
    std::string number;
    for (const char c : text)
        if (c != ' ') number += c == ',' ? '.' : c;
    return larder::doubleFromText(number);
}

// Of a kind as the handbook has it, or computes it.
SyrupReading readingOf(const larder::FactState& syrup) {
    SyrupReading reading;
    reading.density = quantity::Density::fromKgPerM3(syrup.densityKgPerM3->typical);
    reading.brix =
        quantity::MassFraction::fromFraction(syrup.sugarGPerL->typical / syrup.densityKgPerM3->typical);
    reading.sugarPer30Ml = quantity::Volume::fromMl(30) * reading.density * reading.brix.fraction();
    return reading;
}

std::optional<RatioOutcomes> outcomesByName(std::string_view text) {
    const auto words = larder::ratioWords(text);
    if (!words || words->rest.empty()) return std::nullopt;
    static const larder::Larder handbook;
    const auto* syrup = handbook.find(handbook.match(words->rest).ingredient);
    auto unsaid = *words;
    unsaid.basis = larder::SyrupBasis::Unsaid;
    const auto kinds = syrup != nullptr ? larder::ratioKinds(unsaid, *syrup) : std::nullopt;
    const auto* mass = kinds ? handbook.find(*kinds->mass) : nullptr;
    const auto* volume = kinds ? handbook.find(*kinds->volume) : nullptr;
    const auto isWhole = [](const larder::Ingredient* each) {
        return each != nullptr && each->facts.sugarGPerL && each->facts.densityKgPerM3;
    };
    if (!isWhole(mass) || !isWhole(volume)) return std::nullopt;
    return RatioOutcomes{readingOf(mass->facts), readingOf(volume->facts)};
}

} // namespace

std::string_view ratioBasisId(RatioBasis basis) {
    return basis == RatioBasis::ByWeight ? "by_weight" : "by_cup";
}

std::optional<SyrupReading> syrupOf(double sugarParts, double waterParts, RatioBasis basis) {
    constexpr double kMost = 1000;
    const auto sound = [](double part) { return part > 0 && part <= kMost; };
    if (!sound(sugarParts) || !sound(waterParts)) return std::nullopt;
    const bool cup = basis == RatioBasis::ByCup;
    const double waterGPerMl = physics::waterDensity(quantity::Temperature::fromCelsius(20)).gPerMl();
    const double sugar = sugarParts * (cup ? kGranulatedSugarGPerMl : 1);
    const double water = waterParts * (cup ? waterGPerMl : 1);
    SyrupReading reading;
    reading.brix = quantity::MassFraction::fromFraction(sugar / (sugar + water));
    reading.density = physics::sucroseWaterDensityAt20(reading.brix);
    reading.sugarPer30Ml = quantity::Volume::fromMl(30) * reading.density * reading.brix.fraction();
    return reading;
}

std::optional<RatioOutcomes> outcomesOf(std::string_view ratio) {
    const std::size_t colon = ratio.find(':');
    if (colon == std::string_view::npos || ratio.find(':', colon + 1) != std::string_view::npos)
        return std::nullopt;
    const auto sugar = partFrom(ratio.substr(0, colon));
    const auto water = partFrom(ratio.substr(colon + 1));
    if (!sugar || !water) return outcomesByName(ratio);
    const auto byWeight = syrupOf(*sugar, *water, RatioBasis::ByWeight);
    const auto byCup = syrupOf(*sugar, *water, RatioBasis::ByCup);
    if (!byWeight || !byCup) return std::nullopt;
    return RatioOutcomes{*byWeight, *byCup};
}

} // namespace stillroom::preparation
