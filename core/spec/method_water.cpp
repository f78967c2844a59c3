#include "core/spec/method_water.h"

#include "core/physics/dilution.h"
#include "core/spec/heat_parts.h"
#include "core/spec/thermal_words.h"

#include <algorithm>
#include <iterator>
#include <string_view>

namespace stillroom::spec {

using physics::IceMethod;
using quantity::Strength;

namespace {

// Fixed figures for methods without a curve. Thrown: the middle of 0.25 to 0.45, common practice, no source.
// Whipped, that is shaken briefly with a little ice: the middle of 0.1 to 0.2, common practice, no source.
// Blended: 28.6-32.8 % vol before, 17.2-19.7 after (structure table, from memory: Arnold, Liquid
// Intelligence, 2014), so 0.66; honest only for a blender fed by weight.
constexpr double kThrownRatio = 0.35;
constexpr double kWhippedRatio = 0.15;
constexpr double kBlendedRatio = 0.66;
// Churned in the glass with crushed ice: the middle of 0.3 to 0.6, common practice, no source.
constexpr double kCrushedRatio = 0.45;

constexpr Strength kStrongestOnCurve = Strength::fromFraction(0.45);

Water fixedWater(double ratio) noexcept {
    return {ratio, WaterBasis::Fixed, true, true};
}

Water onCurve(IceMethod method, Strength before) noexcept {
    const auto marked = physics::dilutionRatio(method, before);
    return {marked.value, WaterBasis::Curve, true, marked.estimate};
}

bool says(std::string_view text, std::string_view word) noexcept {
    const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
    return std::search(text.begin(), text.end(), word.begin(), word.end(),
                       [&](char a, char b) { return lower(a) == b; }) != text.end();
}

bool isPouredHot(const Line& line) noexcept {
    constexpr double kHotC = 40;
    if (line.temperatureC) return *line.temperatureC >= kHotC;
    if (says(line.name, "boiling") || says(line.note, "boiling")) return true;
    if (!says(line.name, "hot ") && line.note != "hot") return false;
    constexpr std::string_view kDrinks[] = {"water", "coffee", "tea",   "chocolate", "cocoa",
                                            "milk",  "cider",  "juice", "wine",      "broth"};
    return std::any_of(std::begin(kDrinks), std::end(kDrinks),
                       [&line](std::string_view drink) { return says(line.name, drink); });
}

// Layers stay apart only where nothing floats about in them, unless its words have ice all the same.
bool isLayeredWithoutIce(const Spec& spec) noexcept {
    return says(spec.method.text, "layer") && !namesIce(spec.method.text) && !namesIce(spec.glass);
}

bool saysAnyOf(std::string_view text, std::initializer_list<std::string_view> words) noexcept {
    return std::any_of(words.begin(), words.end(),
                       [text](std::string_view word) { return says(text, word); });
}

// "Shake without ice", and no word of ice elsewhere.
bool isWithoutIce(const Method& method) noexcept {
    return method.ice.empty() && saysAnyOf(method.text, {"without ice", "no ice", "ohne eis", "sans glace",
                                                         "sin hielo", "senza ghiaccio", "zonder ijs"});
}

// What "build" is called in the languages the reader knows. "Mix", "pour" and "bottle" name no ice.
bool saysBuild(std::string_view text) noexcept {
    return saysAnyOf(text, {"build", "built", "swizzle", "churn", "bauen", "constru", "in glas", "im glas",
                            "verser", "top up", "highball"});
}

// "Build" is said of a tall drink over ice and of a hot drink in a warm mug. Without a word about ice, one of
// warmth decides; without either it is the usual drink over ice, as an estimate. Words that do not say it is
// built, and name no ice, add no water.
bool isBuiltWithoutIce(const Spec& spec) noexcept {
    if (!spec.method.ice.empty()) return false;
    const std::string& text = spec.method.text;
    if (!text.empty() && !saysBuild(text) && !namesIce(spec.glass)) return true;
    return says(text, "warm") || says(text, "hot") || says(text, "bottle") || isWithoutIce(spec.method) ||
           isLayeredWithoutIce(spec) || says(spec.glass, "warm") || says(spec.glass, "heatproof") ||
           std::any_of(spec.lines.begin(), spec.lines.end(), isPouredHot);
}

bool isOverCrushedIce(const Spec& spec) noexcept {
    for (const std::string* text : {&spec.method.ice, &spec.method.text, &spec.glass})
        for (const std::string_view word :
             {"crushed ice", "pebble ice", "swizzle", "of crushed", "ice, crushed"})
            if (says(*text, word)) return true;
    return says(spec.method.ice, "crushed") || says(spec.method.ice, "pebble");
}

Water built(const Spec& spec, Strength before) noexcept {
    if (isBuiltWithoutIce(spec)) return {};
    if (isOverCrushedIce(spec)) return fixedWater(kCrushedRatio);
    Water water = onCurve(IceMethod::Built, before);
    water.estimate = water.estimate || (spec.method.ice.empty() && !spec.method.text.empty());
    return water;
}

// Crushed ice in a measure packs to 0.5 to 0.55 g/ml: common practice, no source.
constexpr double kCrushedGPerMl = 0.525;

struct LineIce {
    double grams = 0;
    bool byVolume = false;
};

// Ice that stands among the lines with a weight ("200 g crushed ice") or a measure ("1 cup").
LineIce iceOfLines(const Spec& spec, const Bindings::Data& data) noexcept {
    LineIce ice;
    for (std::size_t i = 0; i < spec.lines.size(); ++i) {
        const Line& line = spec.lines[i];
        const Measured& poured = line.poured;
        if (!data.lines[i].ice || line.role != Role::Mixed || line.optional || !poured.measure ||
            poured.amount.kind == quantity::Amount::Kind::None)
            continue;
        const MeasureSize& size = data.sizes[static_cast<std::size_t>(*poured.measure)];
        const bool volume = size.dimension == quantity::Dimension::Volume;
        if (!(size.size > 0) || (!volume && size.dimension != quantity::Dimension::Mass)) continue;
        ice.grams += amountOf(poured, true) * size.size * (volume ? kCrushedGPerMl : 1);
        ice.byVolume |= volume;
    }
    return ice;
}

} // namespace

bool isStated(const Method& method) noexcept {
    return method.dilution && method.dilution->origin != DilutionOrigin::Predicted &&
           method.dilution->ratio >= 0;
}

Water statedWater(const DilutionEntry& entry) noexcept {
    const bool measured = entry.origin == DilutionOrigin::Measured;
    return {entry.ratio, measured ? WaterBasis::Measured : WaterBasis::Typed, true, false};
}

bool meetsIce(const Spec& spec) noexcept {
    const Method& method = spec.method;
    if (isWithoutIce(method)) return false;
    switch (method.technique) {
    case Technique::Build:
        return !isBuiltWithoutIce(spec);
    case Technique::Stir:
    case Technique::Shake:
    case Technique::Throw:
    case Technique::Blend:
        return true;
    case Technique::Whip:
        return !method.ice.empty();
    default:
        return false;
    }
}

Water predictedWater(const Spec& spec, Strength before, const Scenario& scenario,
                     Questions& questions) noexcept {
    const Method& method = spec.method;
    if (isWithoutIce(method)) return {};
    switch (method.technique) {
    case Technique::Stir:
        return onCurve(IceMethod::Stirred, before);
    case Technique::Shake:
        return onCurve(IceMethod::Shaken, before);
    case Technique::Build:
        return built(spec, before);
    case Technique::Throw:
        return fixedWater(kThrownRatio);
    case Technique::Blend:
        return fixedWater(kBlendedRatio);
    case Technique::Whip: // cream is whipped as well, and without ice
        return method.ice.empty() ? Water{} : fixedWater(kWhippedRatio);
    case Technique::WaterBath:
    case Technique::Hot:
    case Technique::Clarify:
    case Technique::Carbonate:
        return {};
    case Technique::None:
        break;
    }
    if (method.ice.empty()) return {0, WaterBasis::None, false, false};
    questions.unknownIce = true;
    const double most = physics::dilutionRatio(IceMethod::Shaken, kStrongestOnCurve).value;
    return {scenario.iceLarge ? most : 0, WaterBasis::UnknownIce, true, true};
}

// Only a shake comes near equilibrium with its ice (thermal, cooling_observations).
std::optional<Water> balancedWater(const Spec& spec, const HeatParts& parts, bool assumedStart,
                                   double beforeMl) noexcept {
    const IceOf ice = iceOf(spec);
    const auto vessel = vesselOf(spec);
    const auto chilled = physics::chill(
        parts.all(), ice.load, vessel ? std::span(&*vessel, 1) : std::span<const physics::HeatStore>());
    if (!chilled) return std::nullopt;
    const double grams = chilled->melted.grams() + chilled->surfaceWater.grams();
    Water water;
    // Below zero the drink froze onto its ice; that ice stays in the shaker and is no dilution.
    water.ratio = std::max(0.0, physics::dilutionFromWater(quantity::Mass::fromGrams(grams),
                                                           quantity::Volume::fromMl(beforeMl)));
    water.basis = WaterBasis::Balance;
    water.estimate = spec.method.technique != Technique::Shake || assumedStart || ice.assumed ||
                     chilled->estimate || grams < 0;
    water.chilledC = chilled->t.celsius();
    return water;
}

// Nothing is strained off a blended drink: what was weighed in is in the glass, as water or still as ice.
std::optional<Water> blendedWater(const Spec& spec, const Bindings::Data& data, double beforeMl) noexcept {
    if (spec.method.technique != Technique::Blend) return std::nullopt;
    const IceOf ice = iceOf(spec);
    LineIce all;
    if (ice.load.mass && ice.load.mass->grams() > 0)
        all.grams = ice.load.mass->grams();
    else
        all = iceOfLines(spec, data);
    if (!(all.grams > 0)) return std::nullopt;
    Water water;
    water.allIceG = all.grams;
    water.ratio =
        physics::dilutionFromWater(quantity::Mass::fromGrams(all.grams), quantity::Volume::fromMl(beforeMl));
    water.basis = WaterBasis::AllIce;
    water.estimate = all.byVolume;
    return water;
}

} // namespace stillroom::spec
