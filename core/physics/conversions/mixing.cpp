#include "core/physics/blending.h"
#include "core/physics/conversions/conversion_kit.h"
#include "core/physics/dilution.h"
#include "core/physics/mixture.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

// Pouring liquids together. By mass, contraction counted.
namespace stillroom::physics {

using quantity::Mass;
using quantity::Strength;
using quantity::Volume;

namespace {

// A liquid named by two inputs, per ml.
tl::expected<Composition, ConversionProblem> liquid(const GivenValues& given, std::string_view abv,
                                                    std::string_view sugar) {
    PlainLiquid plain;
    if (given.has(abv)) plain.strength = given.strength(abv);
    plain.sugarGPerL = given[sugar];
    return liquidPerMl(plain, sugar);
}

double contraction(const Composition& a, const Composition& b) {
    return contractionAt20(std::array<Composition, 2>{a, b}).ml();
}

Composition sum(Composition a, const Composition& b) {
    a += b;
    return a;
}

Outcome dilute(const GivenValues& given) {
    const auto each = liquid(given, "abv", "sugar");
    if (!each) return tl::unexpected(each.error());
    const double target = given["target"];
    if (!(target <= given["abv"]))
        return outside("target", std::nullopt, given["abv"],
                       "Water never makes a liquid stronger; blend it with a stronger one.");
    const auto waterPerMl = waterToReach(*each, given.strength("target"));
    if (!waterPerMl) return impossible("target", "No water brings it there. Give a strength above 0.");
    const double totalPerMl = volumeAt20(sum(*each, waterOf(waterPerMl->grams()))).ml();
    const double start = given.has("volume") ? given["volume"] : given["total"] / totalPerMl;
    const Composition before = times(*each, start);
    const Composition water = waterOf(waterPerMl->grams() * start);
    const double waterMl = water.totalGrams() / waterGPerMl();
    const bool estimate = volumeIsEstimate(before);
    Answer answer;
    answer.put("volume", start, estimate).put("mass", before.totalGrams(), estimate);
    answer.put("water_ml", waterMl, estimate).put("water_g", water.totalGrams(), estimate);
    answer.put("total", totalPerMl * start, estimate);
    answer.put("contraction", contraction(before, water), estimate);
    answer.put("water_by_sum", start * given["abv"] / target - start);
    answer.remark(undissolvedRemark(before));
    return answer;
}

Outcome blend(const GivenValues& given) {
    const auto first = liquid(given, "abv_1", "sugar_1");
    if (!first) return tl::unexpected(first.error());
    const auto second = liquid(given, "abv_2", "sugar_2");
    if (!second) return tl::unexpected(second.error());
    const auto b = blendToStrength(*first, *second, given.strength("target"), given.ml("volume"));
    const bool alike = given["abv_1"] == given["abv_2"];
    if (!b && alike && given["target"] == given["abv_1"])
        return impossible("target", "Both liquids have this strength already: any share of them makes it.");
    if (!b && alike)
        return impossible("target", fmt::format("Both liquids have {:.4g} % vol, and no share of them makes "
                                                "another strength.",
                                                given["abv_1"]));
    if (!b)
        return outside("target", std::min(given["abv_1"], given["abv_2"]),
                       std::max(given["abv_1"], given["abv_2"]), "A blend lies between its two liquids.");
    const Composition one = times(*first, b->first.ml());
    const Composition two = times(*second, b->second.ml());
    const bool estimate = volumeIsEstimate(b->mixture);
    Answer answer;
    answer.put("volume_1", b->first.ml(), estimate).put("mass_1", one.totalGrams(), estimate);
    answer.put("volume_2", b->second.ml(), estimate).put("mass_2", two.totalGrams(), estimate);
    answer.put("contraction", contraction(one, two), estimate);
    answer.put("sugar", b->mixture.sugarGrams() / given.ml("volume").litres(), estimate);
    answer.remark(undissolvedRemark(b->mixture));
    return answer;
}

Outcome mix(const GivenValues& given) {
    const auto first = liquid(given, "abv_1", "sugar_1");
    if (!first) return tl::unexpected(first.error());
    const auto second = liquid(given, "abv_2", "sugar_2");
    if (!second) return tl::unexpected(second.error());
    const Composition one = times(*first, given["volume_1"]);
    const Composition two = times(*second, given["volume_2"]);
    const Composition both = sum(one, two);
    const bool estimate = volumeIsEstimate(both);
    const double poured = given["volume_1"] + given["volume_2"];
    const double ethanol = given["volume_1"] * given["abv_1"] + given["volume_2"] * given["abv_2"];
    Answer answer;
    if (const auto abv = strengthAt20(both)) answer.put("abv", abv->percentVol(), estimate);
    answer.put("total", volumeAt20(both).ml(), estimate).put("contraction", contraction(one, two), estimate);
    answer.put("abv_by_sum", ethanol / poured).put("mass", both.totalGrams(), estimate);
    answer.put("sugar", both.sugarGrams() / volumeAt20(both).litres(), estimate);
    if (const auto rho = densityAt20(both)) answer.put("density", rho->kgPerM3(), estimate);
    answer.remark(undissolvedRemark(both));
    return answer;
}

// Dilution is kept as water over the volume before it; the other base is only ever shown.
Outcome dilutionShare(const GivenValues& given) {
    const Volume before = given.ml("volume");
    double ratio = 0;
    if (given.has("water_ml"))
        ratio = dilutionFromWater(Mass::fromGrams(given["water_ml"] * waterGPerMl()), before);
    else if (given.has("of_start"))
        ratio = given["of_start"] / 100;
    else
        ratio = given["of_finished"] / (100 - given["of_finished"]);
    const auto each = liquid(given, "abv", "sugar");
    if (!each) return tl::unexpected(each.error());
    const Mass water = waterFromDilution(ratio, before);
    const Composition after = sum(times(*each, before.ml()), waterOf(water.grams()));
    const bool estimate = volumeIsEstimate(after);
    Answer answer;
    answer.put("water_ml", water.grams() / waterGPerMl()).put("water_g", water.grams());
    answer.put("of_start", 100 * ratio).put("of_finished", 100 * shareOfFinished(ratio));
    if (!given.has("abv")) { // how much it shrinks hangs on the strength
        answer.put("total", before.ml() + water.grams() / waterGPerMl(), true, ValueBound::AtMost);
        answer.remark(
            "Without the strength before ice there is no strength after it, and what it makes is both "
            "volumes added, at most.");
    } else {
        answer.put("total", volumeAt20(after).ml(), estimate);
        if (const auto abv = strengthAt20(after)) answer.put("abv_after", abv->percentVol(), estimate);
    }
    answer.remark(undissolvedRemark(after));
    return answer;
}

} // namespace

std::vector<Conversion> mixingConversions() {
    using N = InputNeed;
    const auto sugar = [](std::string_view key, std::string_view label) {
        return ConversionInput{key, label, "g/l", N::Optional, 0, kMostGPerL, false, 0};
    };
    constexpr std::string_view kSource = "OIML R 22 and ICUMSA SPS-4 by volumes; masses are conserved";
    constexpr std::string_view kLimits = "Volumes at 20 °C. Sugar as sucrose; acid and the rest are not "
                                         "counted. A strong sweet liqueur is known "
                                         "to 0.1 to 0.3 % of its volume.";
    return {
        {"dilute",
         "Water to bring a liquid down to a strength",
         {{"volume", "Liquid there is", "ml", N::OneOf, 0, kMostMl, true},
          {"total", "Liquid wanted in the end", "ml", N::OneOf, 0, kMostMl, true},
          {"abv", "Its strength", "% vol", N::Required, 0, 100, true},
          {"target", "Strength wanted", "% vol", N::Required, 0, 100, true},
          sugar("sugar", "Its sugar")},
         {{"water_ml", "Water to add", "ml", 1},
          {"water_g", "or by weight", "g", 1},
          {"total", "Makes", "ml", 1},
          {"volume", "from", "ml", 1},
          {"mass", "which weighs", "g", 1},
          {"contraction", "Lost to contraction", "ml", 1},
          {"water_by_sum", "Water by adding volumes, contraction left out", "ml", 1}},
         kSource,
         kLimits,
         dilute},
        {"blend",
         "How much of two liquids makes a strength",
         {{"abv_1", "Strength of the first", "% vol", N::Required, 0, 100},
          {"abv_2", "Strength of the second", "% vol", N::Required, 0, 100},
          {"target", "Strength wanted", "% vol", N::Required, 0, 100},
          {"volume", "Volume wanted", "ml", N::Optional, 0, kMostMl, true, 1000},
          sugar("sugar_1", "Sugar of the first"),
          sugar("sugar_2", "Sugar of the second")},
         {{"volume_1", "Of the first", "ml", 1},
          {"mass_1", "or by weight", "g", 1},
          {"volume_2", "Of the second", "ml", 1},
          {"mass_2", "or by weight", "g", 1},
          {"contraction", "Lost to contraction", "ml", 1},
          {"sugar", "Sugar of the blend", "g/l", 1}},
         kSource,
         kLimits,
         blend},
        {"mix",
         "Strength and volume of two liquids poured together",
         {{"volume_1", "Of the first", "ml", N::Required, 0, kMostMl, true},
          {"abv_1", "its strength", "% vol", N::Required, 0, 100},
          {"volume_2", "Of the second", "ml", N::Required, 0, kMostMl, true},
          {"abv_2", "its strength", "% vol", N::Optional, 0, 100, false, 0},
          sugar("sugar_1", "Sugar of the first"),
          sugar("sugar_2", "Sugar of the second")},
         {{"abv", "Strength", "% vol", 2},
          {"total", "Makes", "ml", 1},
          {"contraction", "Lost to contraction", "ml", 1},
          {"abv_by_sum", "Strength by adding volumes", "% vol", 2},
          {"sugar", "Sugar", "g/l", 1},
          {"mass", "Weighs", "g", 1},
          {"density", "Density at 20 °C", "kg/m³", 2}},
         kSource,
         kLimits,
         mix},
        {"dilution_share",
         "Dilution said of the start, of the finished drink, or in ml",
         {{"volume", "Mixed lines before ice", "ml", N::Required, 0, kMostMl, true},
          {"abv", "Strength before ice", "% vol", N::Optional, 0, 100},
          {"water_ml", "Water gained", "ml", N::OneOf, 0, kMostMl},
          {"of_start", "Water, of the start", "%", N::OneOf, 0, 10000},
          {"of_finished", "Water, of the finished drink", "%", N::OneOf, 0, 99},
          sugar("sugar", "Sugar before ice")},
         {{"water_ml", "Water gained", "ml", 2},
          {"water_g", "or by weight", "g", 2},
          {"of_start", "of the start", "%", 1},
          {"of_finished", "of the finished drink", "%", 1},
          {"total", "Makes", "ml", 1},
          {"abv_after", "Strength after", "% vol", 2}},
         kSource,
         "The two bases differ: 25 % of the start is the same water as 20 % of the finished drink, which is "
         "counted as both volumes added, the trade's way. What it makes is less by contraction. At 20 °C.",
         dilutionShare},
    };
}

} // namespace stillroom::physics
