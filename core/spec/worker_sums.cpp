#include "core/spec/worker.h"

#include "core/physics/dilution.h"
#include "core/physics/ethanol_water.h"
#include "core/spec/bounds.h"

#include <fmt/format.h>

#include <algorithm>

namespace stillroom::spec {

using larder::Fact;
using Op = WorkingStep::Op;

namespace {

constexpr const char* kR22 = "density of ethanol + water at 20 °C: OIML R 22 (1975)";
constexpr const char* kSps4 = "apparent volume of sugar in the water present: ICUMSA SPS-4 (1998)";
constexpr const char* kApparent = "apparent volumes per gram: CRC Handbook, others from memory";

} // namespace

void Worker::sumOfLines(const std::string& label, const std::string& formula,
                        double (*perUnit)(const Totals&), double whole, const char* unit,
                        std::optional<Fact> larder::FactState::*member, double water) {
    WorkingStep& step = add(label, formula, Op::Sum, whole, unit, 3);
    for (const Brought& one : m_recorder.lines) {
        if (!isHere(one) || !(one.units > 0)) continue;
        const PreparedFacts& facts = factsOf(one.line);
        const double each = perUnit(facts.totals[0]);
        if (each == 0) continue;
        const char* of = facts.dry ? "g" : "ml";
        input(step, nameOf(one.line), one.units * each, unit,
              member == nullptr ? std::string() : factSource(one.line, member),
              fmt::format("{:.4g} {} × {:.5g} {}/{}", one.units, of, each, unit, of),
              static_cast<int>(one.line));
    }
    if (water >= 0 && m_s > 0) input(step, "water of the method", water, unit);
}

double Worker::methodWaterG() const {
    if (!(m_pass.dilution > 0)) return 0;
    return physics::waterFromDilution(m_pass.dilution, quantity::Volume::fromMl(m_pass.volumeMl[0])).grams();
}

void Worker::ethanol() {
    sumOfLines(
        "Ethanol", "ml × % vol × 0.78924 g/ml: OIML R 22, ethanol at 20 °C",
        [](const Totals& t) { return t.ethanolG; }, totals().ethanolG, "g", &larder::FactState::abvPercent);
}

void Worker::sugar() {
    sumOfLines(
        "Sugar", "mono- and disaccharides, g/l of each line", [](const Totals& t) { return t.sugarG; },
        totals().sugarG, "g", &larder::FactState::sugarGPerL);
}

void Worker::acid() {
    sumOfLines(
        "Acid", "titratable, as anhydrous citric acid, g/l of each line",
        [](const Totals& t) { return t.acidG; }, totals().acidG, "g", &larder::FactState::acidGPerL);
}

void Worker::water() {
    sumOfLines(
        "Water", "what fills each line up to its volume", [](const Totals& t) { return t.waterG; },
        totals().waterG, "g", nullptr, methodWaterG());
}

void Worker::mass() {
    sumOfLines(
        "Mass", "all substances of all lines", [](const Totals& t) { return t.massG; }, totals().massG, "g",
        nullptr, methodWaterG());
}

void Worker::volume() {
    ethanol();
    water();
    sugar();
    volumeOf(totals(), m_pass.volumeMl[m_s], "Volume at 20 °C");
}

void Worker::volumeOf(const Totals& t, double ml, const std::string& label) {
    const VolumeOfTotals terms = volumeTerms(t);
    if (terms.densityKgPerM3 > 0) {
        WorkingStep& share =
            add("Share of ethanol in ethanol + water", "by mass", Op::Ratio, terms.ethanolShare, "g/g", 5);
        input(share, "ethanol", t.ethanolG, "g");
        input(share, "ethanol and water", t.ethanolG + t.waterG, "g");
        WorkingStep& density = add("Their density", kR22, Op::Formula, terms.densityKgPerM3, "kg/m³", 2);
        input(density, "share of ethanol", terms.ethanolShare, "g/g");
        WorkingStep& both =
            add("Their volume", "mass over density", Op::Ratio, terms.ethanolWaterMl, "ml", 3);
        input(both, "ethanol and water", t.ethanolG + t.waterG, "g");
        input(both, "density", terms.densityKgPerM3, "kg/m³");
        both.factor = 1000;
    }
    if (terms.sugarMl > 0) {
        WorkingStep& sugars = add("What the sugar adds", kSps4, Op::Formula, terms.sugarMl, "ml", 3);
        input(sugars, "sugar", t.sugarG, "g");
        input(sugars, "water", t.waterG, "g");
    }
    WorkingStep& sum = add(label, "contraction is in it", Op::Sum, ml, "ml", 3);
    input(sum, "ethanol and water", terms.ethanolWaterMl, "ml");
    input(sum, "sugar", terms.sugarMl, "ml");
    input(sum, "other solutes", terms.soluteMl, "ml", kApparent);
}

} // namespace stillroom::spec
