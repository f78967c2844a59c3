#include "core/spec/more_values.h"

#include "core/larder/servings.h"
#include "core/physics/acid_ph.h"
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
     "tables_differ"},
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

double half(More m) {
    double value = 0.5;
    for (int i = 0; i < moreDecimals(m); ++i)
        value /= 10;
    return value;
}

// The pH of the acids alone is the least a drink can have; well buffered it is the most.
void boundPh(Reading& ph, const Composition& c, double alkali) {
    if (ph.bound != Bound::Exact && ph.bound != Bound::Between) return;
    ph.estimate = true;
    if (!(alkali > 0)) return; // acid and water alone
    const auto buffered = physics::pH(c, alkali);
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
    const bool carbonated = spec.method.technique == Technique::Carbonate && stage != Stage::Measured;
    std::array<Tried, kMoreCount> plain, largest;
    const auto attempt = [&](const Scenario& scenario, std::array<Tried, kMoreCount>& into) {
        Composition c;
        const MoreValues values = moreValues(spec, data, scenario, stage, &c);
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
    boundPh(result[More::Ph], last, alkaliAtMost(spec, data, stage, last));
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

std::optional<Strength> strengthToStayLiquid(const Spec& spec, const Bindings& bindings, Stage stage,
                                             Temperature t) {
    const Questions open = pass(spec, bindings.data(), {}).questions;
    const OpenLines& lines = stage == Stage::Served ? open.all : open.mixed;
    if (lines.amount != 0 || lines.strength != 0) return std::nullopt;
    return physics::strengthToStayLiquid(compositionOf(spec, bindings, stage), t);
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
        StandardDrinks one{country.code, country.name, country.called, *country.grams, ethanol};
        one.count.value /= *country.grams;
        one.count.upper /= *country.grams;
        list.push_back(one);
    }
    return list;
}

FurtherReadings furtherReadings(const Spec& spec, const Bindings& bindings, const Readings& readings,
                                Temperature freezer) {
    FurtherReadings all;
    all.more = moreReadings(spec, bindings);
    all.freezer = freezer;
    const Questions open = pass(spec, bindings.data(), {}).questions;
    const bool solutesOpen = (open.all.sugar | open.all.acid) != 0;
    const bool solutesOpenMixed = (open.mixed.sugar | open.mixed.acid) != 0;
    for (std::size_t s = 0; s < kStageCount; ++s) {
        all.cold[s].state = inFreezer(spec, bindings, static_cast<Stage>(s), freezer);
        all.cold[s].staysLiquid = strengthToStayLiquid(spec, bindings, static_cast<Stage>(s), freezer);
        all.cold[s].atMost = s == static_cast<std::size_t>(Stage::Served) ? solutesOpen : solutesOpenMixed;
    }
    all.countries = standardDrinksByCountry(readings);
    return all;
}

} // namespace stillroom::spec
