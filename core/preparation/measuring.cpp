#include "core/preparation/measuring.h"

#include "core/physics/conversions/conversion_kit.h"
#include "core/preparation/recompute.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace stillroom::preparation {

using larder::Fact;
using physics::Answer;
using physics::Conversion;
using physics::GivenValues;
using physics::Outcome;
using quantity::Mass;
using quantity::Strength;
using quantity::Temperature;
using quantity::Volume;
using N = physics::InputNeed;

namespace {

constexpr double kMostMl = 1e5; // a hundred litres are no sample
constexpr double kMostG = 2e5;

WeighedLiqueur weighedOf(const GivenValues& given) {
    WeighedLiqueur m;
    m.volume = given.ml("volume");
    m.net = Mass::fromGrams(given["net"]);
    m.t = given.celsius("t");
    m.label = given.strength("abv");
    m.volumeError = given.ml("volume_off");
    m.scaleError = Mass::fromGrams(0.5 * given["scale"]);
    m.labelError = given.strength("abv_off");
    return m;
}

Refracted refractedOf(const GivenValues& given) {
    return {given["brix"], given.strength("abv"), given["brix_off"], given.strength("abv_off")};
}

Floated floatedOf(const GivenValues& given) {
    return {given["brix"], given.celsius("t"), given["brix_off"]};
}

Titrated titratedOf(const GivenValues& given) {
    return {given.ml("sample"), given.ml("base"), given["strength"], given.ml("sample_off"),
            given.ml("base_off")};
}

double bandOf(const Fact& fact) {
    return std::max(fact.high - fact.typical, fact.typical - fact.low);
}

std::string_view keyOf(ErrorOf of) {
    switch (of) {
    case ErrorOf::Scale:
        return "by_scale";
    case ErrorOf::Volume:
        return "by_volume";
    case ErrorOf::Label:
        return "by_label";
    case ErrorOf::Reading:
        return "by_reading";
    case ErrorOf::Model:
        return "by_model";
    }
    return {};
}

Answer answerOf(std::string_view key, const Fact& fact, const std::vector<ErrorShare>& shares) {
    Answer answer;
    answer.put(key, fact.typical).put("band", bandOf(fact));
    for (const ErrorShare& share : shares)
        answer.put(keyOf(share.of), share.by);
    return answer;
}

Outcome weighed(const GivenValues& given) {
    const auto m = weighedOf(given);
    const auto fact = sugarFromWeighing(m, {});
    if (fact) return answerOf("sugar", *fact, errorShares(m));
    // Which way it cannot be: the same liquid without any sugar would be heavier than this one, or not.
    const double perMl = m.net.grams() / m.volume.ml();
    constexpr double kWater = 1; // no spirit is denser
    return perMl < kWater ? physics::impossible("net", "Lighter than its spirit without any sugar. Is the "
                                                       "vessel's own weight taken off, and the strength "
                                                       "right?")
                          : physics::impossible("net", "Heavier than any sugar makes it. Is the vessel's own "
                                                       "weight taken off?");
}

Outcome refractometer(const GivenValues& given) {
    const auto m = refractedOf(given);
    if (const auto fact = sugarFromRefractometer(m, {})) return answerOf("sugar", *fact, errorShares(m));
    return physics::impossible("brix", "The alcohol alone bends light more than that, or so much alcohol and "
                                       "sugar is beyond the published tables (50 g of alcohol in 100 g). "
                                       "Check the strength, or weigh it.");
}

Outcome hydrometer(const GivenValues& given) {
    const auto found = brixFromHydrometer(floatedOf(given), {});
    if (!found)
        return physics::impossible("brix", "Beyond what the published tables of sugar in water hold.");
    return Answer()
        .put("sugar", found->sugarGPerL.typical)
        .put("band", bandOf(found->sugarGPerL))
        .put("brix_true", found->brix.percent());
}

Outcome shake(const GivenValues& given) {
    const double water = given["after"] - given["before"];
    if (water < 0)
        return physics::impossible("after", "Lighter than before. A drink takes water up and loses none, so "
                                            "one of the two is a slip.");
    return Answer().put("water", water).put("band", given["scale"] * 0.5 * std::sqrt(2.0));
}

Outcome titration(const GivenValues& given) {
    const auto m = titratedOf(given);
    const auto fact = acidFromTitration(m, {});
    if (!fact) return physics::impossible("sample", "No acid comes of these figures.");
    if (fact->typical > physics::kMostGPerL)
        return physics::impossible("base", "That is more acid than a litre holds. Check the sample.");
    return answerOf("acid", *fact, errorShares(m)).put("acid_100", fact->typical / 10);
}

Outcome squeezed(const GivenValues& given) {
    const double pieces = given["pieces"];
    if (pieces != std::floor(pieces)) return physics::impossible("pieces", "Whole fruit are counted.");
    const double each = given["got"] / pieces;
    if (given.has("least") && given["least"] > each)
        return physics::outside("least", 0, each, "The least of them gives no more than the mean.");
    if (given.has("most") && given["most"] < each)
        return physics::outside("most", each, std::nullopt, "The best of them gives no less than the mean.");
    Answer answer;
    answer.put("yield", each);
    if (given.has("least") || given.has("most"))
        answer.put("low", given.has("least") ? given["least"] : each)
            .put("high", given.has("most") ? given["most"] : each);
    else
        answer.put("band", given["got_off"] / pieces);
    return answer;
}

Fact squeezedFact(const GivenValues& given, const std::string& on) {
    auto fact = *yieldOfFruit(given.ml("got"), static_cast<int>(given["pieces"]), given.ml("got_off"), on);
    if (given.has("least") || given.has("most")) {
        fact.low = given.has("least") ? given["least"] : fact.typical;
        fact.high = given.has("most") ? given["most"] : fact.typical;
    }
    return fact;
}

physics::ConversionInput scaleInput() {
    return {"scale", "The scale tells apart", "g", N::Optional, 0, 100, true, 0.1};
}
physics::ConversionInput labelInput() {
    return {"abv", "Strength on the label", "% vol", N::Required, 0, 97};
}
physics::ConversionInput labelOff() {
    return {"abv_off", "The label may be off by", "% vol", N::Optional, 0, 5, false, 0.3};
}
physics::ConversionInput readingOff() {
    return {"brix_off", "The reading may be off by", "°Bx", N::Optional, 0, 10, false, 0.2};
}
physics::ConversionOutput band(std::string_view unit, int decimals) {
    return {"band", "Give or take", unit, decimals};
}
physics::ConversionOutput part(std::string_view key, std::string_view label, std::string_view unit,
                               int decimals) {
    return {key, label, unit, decimals};
}

std::vector<Measuring> all() {
    std::vector<Measuring> list;
    list.push_back(
        {{"weighed",
          "Sugar of a liqueur, by weighing",
          {{"volume", "Volume", "ml", N::Required, 0, kMostMl, true},
           {"net", "Its weight, without the vessel", "g", N::Required, 0, kMostG, true},
           labelInput(),
           {"t", "Its temperature", "°C", N::Optional, -20, 60, false, 20.0},
           {"volume_off", "The volume may be off by", "ml", N::Optional, 0, kMostMl, false, 0.1},
           scaleInput(),
           labelOff()},
          {{"sugar", "Sugar", "g/l", 0},
           band("g/l", 1),
           part("by_scale", "of which by the scale", "g/l", 1),
           part("by_volume", "by the volume", "g/l", 1),
           part("by_label", "by the label's strength", "g/l", 1),
           part("by_model", "by the densities", "g/l", 1)},
          "OIML R 22 and ICUMSA SPS-4 by volumes; the label's 0.3 % vol: Regulation (EU) 1169/2011, "
          "Annex XII",
          "Sucrose and nothing else dissolved: acid, glycerol and extract count as sugar. The errors "
          "are added as squares.",
          weighed},
         Finds::Sugar});
    list.push_back({{"refractometer",
                     "Sugar of a liqueur or syrup, by refractometer",
                     {{"brix", "Refractometer reads, at 20 °C", "°Bx", N::Required, 0, 85},
                      labelInput(),
                      readingOff(),
                      labelOff()},
                     {{"sugar", "Sugar", "g/l", 0},
                      band("g/l", 1),
                      part("by_reading", "of which by the reading", "g/l", 1),
                      part("by_label", "by the strength", "g/l", 1),
                      part("by_model", "by the correction for alcohol", "g/l", 1)},
                     "CRC Handbook, refractive index of ethanol and of sucrose in water, 20 °C",
                     "That alcohol and sugar bend light side by side is an assumption, good to about 1 °Bx. "
                     "Up to 50 g of "
                     "alcohol in 100 g. A syrup without alcohol is 0 % vol.",
                     refractometer},
                    Finds::Sugar});
    list.push_back(
        {{"hydrometer",
          "Brix and sugar of a syrup, by hydrometer",
          {{"brix", "Hydrometer reads", "°Bx", N::Required, 0, 85},
           {"t", "Temperature of the syrup", "°C", N::Required, 0, 100},
           readingOff()},
          {{"sugar", "Sugar, at 20 °C", "g/l", 0}, band("g/l", 1), {"brix_true", "Brix", "g/100 g", 1}},
          "ICUMSA SPS-4; glass widens by 25 millionths a kelvin",
          "A hydrometer made for 20 °C, in a syrup without alcohol. Alcohol makes it read low.",
          hydrometer},
         Finds::Sugar});
    list.push_back(
        {{"shake",
          "Water of a shake or a stir, by weighing before and after",
          {{"before", "Weight before ice", "g", N::Required, 0, kMostG, true},
           {"after", "Weight strained", "g", N::Required, 0, kMostG, true},
           scaleInput()},
          {{"water", "Water taken up", "g", 1}, band("g", 1)},
          "the difference of two weighings",
          "The drink alone both times, the vessel taken off: the water goes by what was in the tin. What "
          "stays on the ice is lost to the second weighing and makes this too small.",
          shake},
         Finds::Dilution});
    list.push_back({{"titration",
                     "Acid, by titration",
                     {{"sample", "Sample", "ml", N::Required, 0, kMostMl, true},
                      {"base", "Base it took, to pH 8.2", "ml", N::Required, 0, kMostMl},
                      {"strength", "Strength of the base", "mol/l", N::Optional, 0, 20, true, 0.1},
                      {"sample_off", "The sample may be off by", "ml", N::Optional, 0, 100, false, 0.05},
                      {"base_off", "The base may be off by", "ml", N::Optional, 0, 100, false, 0.1}},
                     {{"acid", "Acid, as citric", "g/l", 1},
                      band("g/l", 1),
                      part("by_volume", "of which by the sample", "g/l", 1),
                      part("by_reading", "by the base", "g/l", 1),
                      {"acid_100", "the same", "g/100 ml", 2}},
                     "64.041 g of anhydrous citric acid for a mole of base",
                     "A base with one OH, as sodium hydroxide is. It is caustic: eyes and hands covered.",
                     titration},
                    Finds::Acid});
    list.push_back({{"squeezed",
                     "Juice of a fruit, by squeezing",
                     {{"got", "Juice, strained", "ml", N::Required, 0, kMostMl, true},
                      {"pieces", "Fruit squeezed", "", N::Required, 1, 10000},
                      {"least", "The least one gave", "ml", N::Optional, 0, kMostMl, false},
                      {"most", "The best one gave", "ml", N::Optional, 0, kMostMl, false},
                      {"got_off", "The juice may be off by", "ml", N::Optional, 0, kMostMl, false, 5.0}},
                     {{"yield", "Juice of one", "ml", 1},
                      band("ml", 1),
                      {"low", "the least", "ml", 1},
                      {"high", "the best", "ml", 1}},
                     "one divided by the other",
                     "Fruit differ by the day: a lime gives 15 to 60 ml. Of one bowl only the mean is known, "
                     "unless the least and the best were measured by themselves.",
                     squeezed},
                    Finds::Yield});
    return list;
}

} // namespace

const std::vector<Measuring>& measurings() {
    static const std::vector<Measuring> list = all();
    return list;
}

Measuring measuringFor(const Measuring& measuring, const larder::FactState& facts, Mass scaleStep) {
    Measuring own = measuring;
    const auto& abv = facts.abvPercent;
    for (auto& input : own.form.inputs) {
        if (input.key == "scale" && scaleStep.grams() > input.low && scaleStep.grams() <= input.high)
            input.standing = scaleStep.grams();
        if (!abv || facts.dry || !(abv->typical >= 0 && abv->typical <= 97)) continue;
        if (input.key == "abv") {
            input.need = N::Optional;
            input.standing = abv->typical;
        }
        // A strength known no better than its range, be it wider than a label's.
        if (input.key == "abv_off")
            input.standing = std::min(std::max(*input.standing, 0.5 * (abv->high - abv->low)), input.high);
    }
    return own;
}

std::optional<Fact> factMeasured(const Measuring& measuring, const physics::ConversionValues& values,
                                 const std::string& on) {
    if (!physics::convert(measuring.form, values)) return std::nullopt;
    const GivenValues given(measuring.form, values);
    const auto id = measuring.form.id;
    if (id == "weighed") return sugarFromWeighing(weighedOf(given), on);
    if (id == "refractometer") return sugarFromRefractometer(refractedOf(given), on);
    if (id == "hydrometer") return brixFromHydrometer(floatedOf(given), on)->sugarGPerL;
    if (id == "titration") return acidFromTitration(titratedOf(given), on);
    if (id == "squeezed") return squeezedFact(given, on);
    return std::nullopt;
}

std::optional<ShakeWeighed> shakeWeighed(const Measuring& measuring, const physics::ConversionValues& values,
                                         const spec::Spec& spec, const spec::Bindings& bindings) {
    if (measuring.finds != Finds::Dilution || !physics::convert(measuring.form, values)) return std::nullopt;
    const GivenValues given(measuring.form, values);
    const auto ratio = [&](double before, double after) {
        return spec::dilutionFromWeights(spec, bindings, Mass::fromGrams(before), Mass::fromGrams(after));
    };
    const double before = given["before"];
    const double after = given["after"];
    auto entry = ratio(before, after);
    if (!entry) return std::nullopt;
    ShakeWeighed found;
    found.entry = *entry;
    found.served = Mass::fromGrams(after / std::max(spec.serves, 1));
    const double off = 0.5 * given["scale"];
    const auto further = ratio(before, after + off);
    const auto lighter = ratio(before - off, after);
    const double byAfter = further ? further->ratio - entry->ratio : 0;
    const double byBefore = lighter ? lighter->ratio - entry->ratio : byAfter;
    found.band = std::hypot(byAfter, byBefore);
    return found;
}

base::IngredientId measuredOn(Finds finds, base::IngredientId chosen, const larder::Larder& larder) {
    const auto* known = larder.find(chosen);
    if (known == nullptr) return chosen;
    if (finds == Finds::Yield) {
        if (known->gotFrom) return chosen;
        for (const auto* got : larder.gotFrom(chosen))
            if (got->gotFrom->unit == larder::PackUnit::Ml) return got->id;
        return chosen;
    }
    if (known->houseBottle && larder.find(*known->houseBottle) != nullptr) return *known->houseBottle;
    return chosen;
}

namespace {

// The lot that takes a figure of the day.
larder::Lot lotInHand(const larder::Ingredient& of, const larder::Larder& larder, const std::string& on,
                      std::optional<larder::Lot>& before) {
    if (of.lotInUse)
        for (const auto& lot : larder.lots(of.id))
            if (lot.id == *of.lotInUse) {
                before = lot;
                return lot;
            }
    larder::Lot fresh;
    fresh.id = base::LotId::random();
    fresh.ingredient = of.id;
    fresh.on = on;
    return fresh;
}

} // namespace

std::optional<MeasuredKeep> keepMeasured(Finds finds, const Fact& fact, base::IngredientId ingredient,
                                         const larder::Larder& larder) {
    const auto* known = larder.find(ingredient);
    if (known == nullptr || finds == Finds::Dilution) return std::nullopt;
    MeasuredKeep keep;
    keep.before = *known;
    // What making it cost is worked out, never stored: a stored price would stand for a typed one.
    std::erase_if(keep.before.packs,
                  [&](const larder::Pack& pack) { return isCostOfMaking(pack, ingredient); });
    keep.after = keep.before;
    if (finds == Finds::Yield) {
        larder::Lot lot;
        lot.id = base::LotId::random();
        lot.ingredient = ingredient;
        lot.on = fact.on;
        lot.note = fmt::format("{}: {:.1f} ml each", fact.source, fact.typical);
        if (fact.high > fact.low) lot.note += fmt::format(" ({:.1f} to {:.1f})", fact.low, fact.high);
        keep.lotAfter = lot;
        const auto perUnit = quantity::Rational::make(std::llround(fact.typical * 100), 100);
        auto& from = keep.after.gotFrom;
        const bool byPiece =
            from && from->ofUnit == larder::PackUnit::Piece && from->unit == larder::PackUnit::Ml;
        if (byPiece && perUnit && !perUnit->isZero()) from->perUnit = *perUnit;
        return keep;
    }
    if (known->madeBy) {
        auto lot = lotInHand(*known, larder, fact.on, keep.lotBefore);
        (finds == Finds::Sugar ? lot.sugarGPerL : lot.acidGPerL) = fact;
        keep.lotAfter = lot;
        keep.after.lotInUse = lot.id;
        return keep;
    }
    (finds == Finds::Sugar ? keep.after.facts.sugarGPerL : keep.after.facts.acidGPerL) = fact;
    return keep;
}

} // namespace stillroom::preparation
