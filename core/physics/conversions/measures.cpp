#include "core/physics/conversions/conversion_kit.h"
#include "core/physics/sucrose_water.h"
#include "core/quantity/house_measures.h"
#include "core/quantity/measure.h"

#include <cmath>

// Any measure to any other.
namespace stillroom::physics {

using quantity::Dimension;
using quantity::HouseMeasures;
using quantity::HouseSize;
using quantity::MassFraction;
using quantity::Measure;

namespace {

// In ml or g; the spread is that of a house measure.
struct Size {
    double typical = 0;
    double low = 0;
    double high = 0;
    bool byWeight = false;
    bool house = false;
};

// `typical` is 0 when the measure has no size.
Size sizeOf(Measure measure) {
    const auto& info = quantity::measureInfo(measure);
    const bool byWeight = info.dimension == Dimension::Mass;
    const auto& exact = byWeight ? info.exactMicrograms : info.exactMicrolitres;
    if (exact) {
        const double value = exact->toDouble() / (byWeight ? 1e6 : 1e3);
        return Size{value, value, value, byWeight, false};
    }
    const HouseMeasures& house = HouseMeasures::defaults();
    const auto& sizes = byWeight ? house.massesG : house.volumesMl;
    const auto found = sizes.find(measure);
    if (found == sizes.end() || !(found->second.low > 0)) return {};
    return Size{found->second.typical, found->second.low, found->second.high, byWeight, true};
}

std::vector<ConversionChoice> sizedMeasures() {
    std::vector<ConversionChoice> choices;
    for (const auto& info : quantity::measures()) {
        if (info.dimension != Dimension::Volume && info.dimension != Dimension::Mass) continue;
        if (sizeOf(info.measure).typical > 0) choices.push_back({info.id, info.shown});
    }
    return choices;
}

constexpr std::string_view kApart =
    "A weight and a volume are apart by a density: give density, or brix for a syrup.";
constexpr std::string_view kOunceOfWhich =
    "A weight and a volume are apart by a density: give density, or brix for a syrup. The ounce that is "
    "weighed is oz_mass.";

bool isFluidOunce(Measure measure) {
    return measure == Measure::FlozUs || measure == Measure::FlozImp;
}

Outcome measures(const GivenValues& given) {
    const auto fromMeasure = quantity::measureFromId(given.word("from"));
    const auto toMeasure = quantity::measureFromId(given.word("to"));
    const Size from = fromMeasure ? sizeOf(*fromMeasure) : Size{};
    const Size to = toMeasure ? sizeOf(*toMeasure) : Size{};
    if (!(from.typical > 0)) return impossible("from", "This measure has no size.");
    if (!(to.typical > 0)) return impossible("to", "This measure has no size.");
    if (given.has("density") && given.has("brix"))
        return impossible("brix",
                          "The density is given too, and each of them says how heavy it is: give one.");
    double factor = 1;
    if (from.byWeight != to.byWeight) {
        double gPerMl = 0;
        if (given.has("density"))
            gPerMl = given["density"] / 1000;
        else if (given.has("brix"))
            gPerMl = sucroseWaterDensityAt20(given.percent("brix")).gPerMl();
        else
            return impossible(
                "density", isFluidOunce(*fromMeasure) || isFluidOunce(*toMeasure) ? kOunceOfWhich : kApart);
        factor = from.byWeight ? 1 / gPerMl : gPerMl;
    }
    const double amount = given["amount"];
    const bool house = from.house || to.house;
    const std::string_view unit = quantity::measureInfo(*toMeasure).plural;
    Answer answer;
    answer.put("result", amount * from.typical / to.typical * factor, house).in(unit);
    // The millilitres between, where the answer is not in them.
    if (*toMeasure != Measure::Ml && !(from.byWeight && to.byWeight))
        answer.put("ml", amount * from.typical * (from.byWeight ? factor : 1), from.house);
    if (from.byWeight == to.byWeight && (given.has("density") || given.has("brix")))
        answer.remark(from.byWeight ? "Both are weights, so that no density counts."
                                    : "Both are volumes, so that no density counts.");
    if (house) {
        answer.put("low", amount * from.low / to.high * factor, true).in(unit);
        answer.put("high", amount * from.high / to.low * factor, true).in(unit);
        answer.remark(
            "A house measure is as large as the house makes it: the usual size is taken, and the spread is "
            "what houses differ by.");
    }
    return answer;
}

} // namespace

std::vector<Conversion> measureConversions() {
    using N = InputNeed;
    const auto choices = sizedMeasures();
    return {
        {"measures",
         "Any measure into any other",
         {{"amount", "Amount", "", N::Required, 0, 1e9},
          {"from", "Measure", "", N::Required, 0, 0, false, std::nullopt, choices},
          {"to", "Into", "", N::Optional, 0, 0, false, std::nullopt, choices, "ml"},
          {"density", "Density, from weight to volume", "kg/m³", N::Optional, 100, 3000, false, std::nullopt},
          {"brix", "or Brix of a syrup", "°Bx", N::Optional, 0, 85, false, std::nullopt}},
         {{"result", "Makes", "", 3, 4},
          {"low", "at the least", "", 3, 4},
          {"high", "at the most", "", 3, 4},
          {"ml", "in millilitres", "ml", 2, 4}},
         "NIST Handbook 44, App. C (US), Weights and Measures Act 1985 (imperial); house measures: common "
         "practice, "
         "no source, or as the handbook says",
         "Exact but for house measures: dash, barspoon, drop, splash, shot, jigger, pony, wineglass, pinch "
         "and the "
         "like. An ounce is poured (floz_us, floz_imp) or weighed (oz_mass): oz alone is taken as floz_us, "
         "and "
         "pint, quart, gallon, gill, cup and spoons as the US ones; the answer then says so.",
         measures},
    };
}

} // namespace stillroom::physics
