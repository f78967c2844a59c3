#include "core/spec/more_readings.h"

#include "core/larder/servings.h"
#include "core/physics/acid_ph.h"
#include "core/physics/carbonation.h"
#include "core/physics/mixture.h"
#include "core/physics/proof.h"
#include "core/physics/refraction.h"
#include "core/physics/sucrose_water.h"
#include "core/physics/sweetness.h"
#include "core/physics/titratable_acid.h"
#include "core/physics/water_activity.h"
#include "core/spec/heat_parts.h"
#include "core/spec/thermal_words.h"
#include "core/spec/tried.h"

#include <algorithm>
#include <cmath>

namespace stillroom::spec {

using physics::Composition;
using physics::Substance;
using quantity::Mass;
using quantity::Strength;
using quantity::Temperature;

namespace {

struct MoreInfo {
    std::string_view id, unit;
    int decimals;
    std::string_view source, note;
};

// In the order of More.
constexpr std::array<MoreInfo, kMoreCount> kMore{{
    {"freezing_onset", "°C", 1, "Ross 1975: activities multiply; freezing points CRC Handbook, 102nd ed.",
     "half_a_kelvin"},
    {"ph", "", 1, "charge balance of the acids at 25 °C (physics/acid_ph)", "juices_are_buffered"},
    {"sweetness", "g/100 ml", 1, "relative sweetness by mass (physics/sweetness)", "a_scale_not_a_measure"},
    {"sweetness_low", "g/100 ml", 1, "lowest published factors", "a_scale_not_a_measure"},
    {"sweetness_high", "g/100 ml", 1, "highest published factors", "a_scale_not_a_measure"},
    {"co2_g_per_l", "g/l", 1, "sum of the gas of all lines over the volume", "upper_bound"},
    {"co2_volumes", "volumes", 1, "1.977 g/l a volume (molar volume, IUPAC-NIST SRD 106)", "upper_bound"},
    {"water_activity", "", 3, "Starzak and Peacock 1997; Norrish 1966; Ross 1975", "estimate_only"},
    {"caffeine", "mg", 0, "facts of the lines", "lines_without_figure_left_out"},
    {"proof_us", "° US", 1, "27 CFR 30.11, by OIML R 22 at 60 °F", ""},
    {"proof_uk", "° UK", 1, "from memory: Sikes, Customs and Excise Act 1952", ""},
    {"contraction", "ml", 2, "OIML R 22, ICUMSA SPS-4: volumes apart less together", ""},
    {"relative_density", "", 4, "density over that of water at 20 °C (ICUMSA SPS-4)", ""},
    {"refractive_index", "", 4, "fit to ICUMSA 1974, sugar in water, 20 °C", "sugar_and_water_only"},
    {"baume", "°Bé", 1, "modulus 145 at 20 °C", ""},
}};

const MoreInfo& infoOf(More m) {
    return kMore[static_cast<std::size_t>(m)];
}

struct Value {
    std::optional<double> value;
    bool estimate = false;
};
using Values = std::array<Value, kMoreCount>;

// Potassium and the like of a juice, mol/l: the upper of what physics/acid_ph.h states. A mixture holds less.
constexpr double kWellBuffered = 0.04;
constexpr double kLeastAcidG = 0.005; // in 100 ml; below it a pH is that of the water
constexpr double kNoAlcohol = 0.005;

class ContractionParts : public LineListener {
  public:
    ContractionParts(const Spec& spec, const Bindings::Data& data, std::uint8_t atLargest, Stage stage)
        : m_spec(spec),
          m_data(data),
          m_atLargest(atLargest),
          m_stage(stage) {}
    void stays(std::size_t line, double units) override {
        if (m_stage != Stage::Served && m_spec.lines[line].role != Role::Mixed) return;
        if (line >= m_data.lines.size() || !(units > 0)) return;
        const PreparedFacts& facts = *m_data.lines[line].facts;
        Composition part;
        part.addScaled(unitComposition(facts, static_cast<std::uint8_t>(facts.unknown & m_atLargest)), units);
        parts.push_back(part);
    }
    std::vector<Composition> parts;

  private:
    const Spec& m_spec;
    const Bindings::Data& m_data;
    std::uint8_t m_atLargest;
    Stage m_stage;
};

std::optional<double> contractionMl(const Spec& spec, const Bindings::Data& data, const Scenario& scenario,
                                    Stage stage, const Composition& whole) {
    ContractionParts listener(spec, data, scenario.factsAtLargest, stage);
    pass(spec, data, scenario, &listener);
    if (listener.parts.empty()) return std::nullopt;
    double water = whole[Substance::Water];
    for (const Composition& part : listener.parts)
        water -= part[Substance::Water];
    Composition melt; // of the method
    melt[Substance::Water] = std::max(water, 0.0);
    listener.parts.push_back(melt);
    return physics::contractionAt20(listener.parts).ml();
}

void gas(const Composition& c, Values& v) {
    if (!(c[Substance::CarbonDioxide] > 0)) return;
    const auto fizz = physics::fizzAtMost(c);
    if (!fizz) return;
    v[static_cast<std::size_t>(More::Co2GPerL)] = {fizz->gPerL(), true};
    v[static_cast<std::size_t>(More::Co2Volumes)] = {fizz->volumes(), true};
}

// What a carbonated batch takes up at the pressure and temperature its method states, given time; nullopt
// when it states neither or one only, or outside the solubility's range.
std::optional<physics::Fizz> batchGas(const Spec& spec, const Composition& mixed) {
    const auto bar = barWritten(spec.method.text);
    const auto celsius = celsiusWritten(spec.method.text);
    const auto strength = physics::strengthAt20(mixed);
    if (!bar || !celsius || !strength) return std::nullopt;
    const auto fizz = physics::dissolvedAt(physics::GaugePressure::fromBar(*bar),
                                           Temperature::fromCelsius(*celsius), *strength);
    return fizz ? std::optional(fizz->value) : std::nullopt;
}

// The gas of the batch, spread over `whole`, with that of the other lines.
void gasOfBatch(const Spec& spec, const Composition& mixed, const Composition& whole, Values& v) {
    const double litres = physics::volumeAt20(whole).litres();
    const auto taken = batchGas(spec, mixed);
    std::optional<double> gPerL;
    if (taken && litres > 0)
        gPerL =
            (whole[Substance::CarbonDioxide] + taken->gPerL() * physics::volumeAt20(mixed).litres()) / litres;
    v[static_cast<std::size_t>(More::Co2GPerL)] = {gPerL, true};
    v[static_cast<std::size_t>(More::Co2Volumes)] = {
        gPerL ? std::optional(physics::Fizz::fromGPerL(*gPerL).volumes()) : std::nullopt, true};
}

Values valuesOf(const Composition& c, double serves) {
    Values v;
    const auto set = [&v](More m, std::optional<double> value, bool estimate) {
        v[static_cast<std::size_t>(m)] = {value, estimate};
    };
    const double ml = physics::volumeAt20(c).ml();
    if (!(ml > 0)) return v;
    if (const auto f = physics::freezing(c)) set(More::FreezingOnset, f->onset.celsius(), f->estimate);
    if (const auto aw = physics::waterActivity(c, Temperature::fromCelsius(25)))
        set(More::WaterActivity, aw->value, aw->estimate);
    if (100 * physics::titratableAcidAsCitric(c).grams() / ml >= kLeastAcidG)
        if (const auto ph = physics::pH(c)) set(More::Ph, ph->value, true);
    const auto sweet = physics::sucroseEquivalent(c);
    if (c.sugarGrams() > 0) {
        set(More::Sweetness, 100 * sweet.typical.grams() / ml, true);
        set(More::SweetnessLow, 100 * sweet.low.grams() / ml, true);
        set(More::SweetnessHigh, 100 * sweet.high.grams() / ml, true);
    }
    gas(c, v);
    if (c[Substance::Caffeine] > 0) set(More::Caffeine, 1000 * c[Substance::Caffeine] / serves, false);
    const Strength strength = physics::strengthAt20(c).value_or(Strength{});
    if (strength.fraction() > 0) {
        if (const auto us = physics::usProofOf(strength)) set(More::ProofUs, us->degrees(), false);
        if (const auto uk = physics::ukProofOf(strength)) set(More::ProofUk, uk->degrees(), false);
    }
    const auto density = physics::densityAt20(c);
    if (density) {
        set(More::RelativeDensity,
            density->kgPerM3() / physics::waterDensity(Temperature::fromCelsius(20)).kgPerM3(), false);
        if (const auto degrees = physics::baume(*density)) set(More::Baume, *degrees, false);
    }
    const double sugarAndWater = c.sugarGrams() + c[Substance::Water];
    if (strength.fraction() < kNoAlcohol && sugarAndWater > 0)
        if (const auto index = physics::refractiveIndex(
                quantity::MassFraction::fromFraction(c.sugarGrams() / sugarAndWater)))
            set(More::RefractiveIndex, *index, c.totalGrams() - sugarAndWater > 0.001 * c.totalGrams());
    return v;
}

double half(More m) {
    double value = 0.5;
    for (int i = 0; i < moreDecimals(m); ++i)
        value /= 10;
    return value;
}

// The pH of the acids alone is the least a drink can have; well buffered it is the most.
void boundPh(Reading& ph, const Composition& c) {
    if (ph.bound != Bound::Exact && ph.bound != Bound::Between) return;
    ph.estimate = true;
    const auto buffered = physics::pH(c, kWellBuffered);
    ph.bound = buffered && buffered->value >= ph.value ? Bound::Between : Bound::AtLeast;
    ph.upper = ph.bound == Bound::Between ? buffered->value : 0;
}

void boundOneWay(Reading& reading, Bound bound) {
    if (reading.bound == Bound::Between)
        reading.value = bound == Bound::AtMost ? reading.upper : reading.value;
    if (reading.bound == Bound::Exact || reading.bound == Bound::Between) {
        reading.bound = bound;
        reading.upper = 0;
    }
}

} // namespace

MoreStage moreReadings(const Spec& spec, const Bindings& bindings, Stage stage) {
    const Bindings::Data& data = bindings.data();
    const Questions open = pass(spec, data, {}).questions;
    const double serves = std::max(spec.serves, 1);
    const bool carbonated = spec.method.technique == Technique::Carbonate && stage != Stage::Measured;
    std::array<Tried, kMoreCount> plain, largest;
    const auto attempt = [&](const Scenario& scenario, std::array<Tried, kMoreCount>& into) {
        const Composition c = stageComposition(spec, data, scenario, stage);
        Values values = valuesOf(c, serves);
        if (carbonated) gasOfBatch(spec, stageComposition(spec, data, scenario, Stage::Mixed), c, values);
        if (const auto ml = contractionMl(spec, data, scenario, stage, c))
            values[static_cast<std::size_t>(More::Contraction)] = {*ml / serves, false};
        for (std::size_t i = 0; i < kMoreCount; ++i)
            into[i].take(values[i].value, values[i].estimate);
        return c;
    };
    Composition last;
    atRangeEnds(open, [&](const Scenario& scenario) { last = attempt(scenario, plain); });
    atLargestFacts(open, [&](const Scenario& scenario) { attempt(scenario, largest); });
    if (open.ranged > kCornerLines)
        for (Tried& tried : plain)
            tried.widen();
    const OpenLines& lines = stage == Stage::Served ? open.all : open.mixed;
    MoreStage result;
    for (std::size_t i = 0; i < kMoreCount; ++i)
        result.of[i] = readingOfTried(plain[i], largest[i], lines, half(static_cast<More>(i)));
    if (open.unknownIce && stage != Stage::Measured)
        for (Reading& reading : result.of)
            if (reading.bound != Bound::NotApplicable) reading = {};
    if (open.partsWithoutTarget) {
        result[More::Caffeine] = {};
        result[More::Contraction] = {};
    }
    if (carbonated) // gassed, and nobody said how: unknown, not none
        for (const More m : {More::Co2GPerL, More::Co2Volumes})
            if (result[m].bound == Bound::NotApplicable) result[m] = {};
    boundPh(result[More::Ph], last);
    boundOneWay(result[More::Co2GPerL], Bound::AtMost);
    boundOneWay(result[More::Co2Volumes], Bound::AtMost);
    boundOneWay(result[More::Caffeine], Bound::AtLeast);
    return result;
}

MoreReadings moreReadings(const Spec& spec, const Bindings& bindings) {
    MoreReadings all;
    for (std::size_t s = 0; s < kStageCount; ++s)
        all.stages[s] = moreReadings(spec, bindings, static_cast<Stage>(s));
    return all;
}

std::string_view moreId(More m) {
    return infoOf(m).id;
}
std::string_view moreUnit(More m) {
    return infoOf(m).unit;
}
int moreDecimals(More m) {
    return infoOf(m).decimals;
}
std::string_view moreSource(More m) {
    return infoOf(m).source;
}
std::string_view moreNote(More m) {
    return infoOf(m).note;
}

std::optional<physics::InFreezer> inFreezer(const Spec& spec, const Bindings& bindings, Stage stage,
                                            Temperature t) {
    const Questions open = pass(spec, bindings.data(), {}).questions;
    const OpenLines& lines = stage == Stage::Served ? open.all : open.mixed;
    if (lines.amount != 0 || lines.strength != 0) return std::nullopt;
    return physics::atTemperature(compositionOf(spec, bindings, stage), t);
}

std::string_view coldStateId(physics::ColdState state) {
    switch (state) {
    case physics::ColdState::Liquid:
        return "liquid";
    case physics::ColdState::Slush:
        return "slush";
    case physics::ColdState::Solid:
        return "solid";
    }
    return {};
}

std::vector<StandardDrinks> standardDrinksByCountry(const Readings& readings) {
    std::vector<StandardDrinks> list;
    const Reading& ethanol = readings[Stage::Served][Quantity::Ethanol];
    for (const larder::StandardDrink& country : larder::standardDrinks()) {
        if (!country.grams || !(*country.grams > 0)) continue;
        StandardDrinks one{country.code, country.called, *country.grams, ethanol};
        one.count.value /= *country.grams;
        one.count.upper /= *country.grams;
        list.push_back(one);
    }
    return list;
}

} // namespace stillroom::spec
