#include "core/spec/worker.h"

#include "core/spec/caution.h"

#include "core/spec/temperature.h"

#include <fmt/format.h>

#include <algorithm>

namespace stillroom::spec {

using larder::Fact;
using Op = WorkingStep::Op;

namespace {

std::string sourceOf(const Fact& fact) {
    const std::string_view kind = larder::sourceKindId(fact.sourceKind);
    return fact.source.empty() || fact.source == kind ? std::string(kind)
                                                      : fmt::format("{}: {}", kind, fact.source);
}

std::string boundLabel(const Working& working) {
    const Reading& reading = working.reading;
    if (working.more == More::Ph && reading.bound == Bound::Between)
        return fmt::format("Between {:.1f} and {:.1f}: how far its juice is buffered nobody stated; measure",
                           reading.value, reading.upper);
    if (working.more == More::Co2GPerL || working.more == More::Co2Volumes)
        return "At most: nothing lost in pouring, shaking or blending";
    if (working.more == More::Caffeine) return "At least: a line that states no caffeine brings none";
    switch (reading.bound) {
    case Bound::AtLeast:
        return "At least: what is not stated can only add to it";
    case Bound::AtMost:
        return "At most: what is not stated can only take from it";
    case Bound::Between:
        return fmt::format("Between {:.4g} and {:.4g}: every range tried at both ends", reading.value,
                           reading.upper);
    default:
        return "What is open moves it by less than the last digit shown";
    }
}

} // namespace

Worker::Worker(const Spec& spec, const Bindings& bindings, Quantity quantity, Stage stage)
    : m_spec(spec),
      m_bindings(bindings),
      m_data(bindings.data()),
      m_serves(std::max(spec.serves, 1)),
      m_s(static_cast<std::size_t>(stage)) {
    result.quantity = quantity;
    result.stage = stage;
    record(spec);
    const Readings readings = quantity == Quantity::Temperature ? evaluateWithTemperatures(spec, bindings)
                                                                : evaluate(spec, bindings);
    result.reading = readings[stage][quantity];
}

Worker::Worker(const Spec& spec, const Bindings& bindings, More more, Stage stage)
    : m_spec(spec),
      m_bindings(bindings),
      m_data(bindings.data()),
      m_serves(std::max(spec.serves, 1)),
      m_s(static_cast<std::size_t>(stage)) {
    result.more = more;
    result.stage = stage;
    record(spec);
    m_more = moreValues(spec, m_data, {}, stage, &m_whole);
    result.reading = moreReadings(spec, bindings, stage)[more];
}

void Worker::record(const Spec& spec) {
    m_pass = pass(spec, m_data, {}, &m_recorder);
    m_raw = rawReadings(m_pass, m_serves, m_data.rules->standardDrinkGrams);
}

void Worker::work() {
    const Bound bound = result.reading.bound;
    if (bound == Bound::NotApplicable || bound == Bound::Unknown) {
        addNotes();
        return;
    }
    if (result.more)
        moreSteps();
    else
        steps();
    settle();
    addNotes();
}

const Totals& Worker::totals() const {
    return m_pass.stages[m_s].totals;
}

double Worker::raw() const {
    return result.more ? m_more[static_cast<std::size_t>(*result.more)].value.value_or(0)
                       : m_raw[m_s][static_cast<std::size_t>(result.quantity)];
}

bool Worker::isHere(const Brought& one) const {
    return one.inDrink && (m_s == 2 || m_spec.lines[one.line].role == Role::Mixed);
}

const PreparedFacts& Worker::factsOf(std::size_t line) const {
    return line < m_data.lines.size() ? *m_data.lines[line].facts : nothingKnown();
}

std::string Worker::nameOf(std::size_t line) const {
    const Line& l = m_spec.lines[line];
    if (line < m_data.lines.size() && m_data.lines[line].poured != nullptr)
        return m_data.lines[line].poured->name;
    return l.name.empty() ? l.written : l.name;
}

std::string Worker::factSource(std::size_t line, std::optional<Fact> larder::FactState::*member) const {
    if (line >= m_data.lines.size() || m_data.lines[line].poured == nullptr)
        return "nothing in the larder answers; left out";
    const auto& fact = m_data.lines[line].poured->facts.*member;
    return fact ? sourceOf(*fact) : "not stated; left out";
}

WorkingStep& Worker::add(std::string label, std::string formula, Op op, double value, std::string unit,
                         int decimals) {
    WorkingStep step;
    step.label = std::move(label);
    step.formula = std::move(formula);
    step.op = op;
    step.result = value;
    step.unit = std::move(unit);
    step.decimals = decimals;
    result.steps.push_back(std::move(step));
    return result.steps.back();
}

void Worker::input(WorkingStep& step, std::string name, double value, std::string unit, std::string source,
                   std::string detail, int line) {
    step.inputs.push_back(
        {std::move(name), value, std::move(unit), std::move(source), std::move(detail), line, false});
}

void Worker::settle() {
    const Reading& reading = result.reading;
    if (result.steps.empty()) add("Stated", "", Op::Given, reading.value, unit(), 3);
    WorkingStep& last = result.steps.back();
    if (reading.bound == Bound::Exact && last.result == reading.value) {
        last.decimals = std::max(workingDecimals(result), last.decimals);
        return;
    }
    WorkingStep& step =
        add(boundLabel(result), "", Op::Bound, reading.value, unit(), workingDecimals(result));
    for (std::size_t i = 0; i < m_spec.lines.size(); ++i) {
        const std::uint64_t bit = std::uint64_t{1} << std::min<std::size_t>(i, 63);
        if ((reading.gapLines & bit) != 0)
            input(step, nameOf(i), 0, "", "lacks an amount or a fact", {}, static_cast<int>(i));
    }
}

std::string Worker::currency() const {
    return std::string(m_data.rules->currency.text());
}

std::string Worker::unit() const {
    return !result.more && result.quantity == Quantity::Cost ? currency() : std::string(workingUnit(result));
}

void Worker::addNotes() {
    const Reading& reading = result.reading;
    auto& notes = result.notes;
    if (reading.bound == Bound::NotApplicable) notes.emplace_back("Not applicable at this stage.");
    if (reading.bound == Bound::Unknown) notes.emplace_back("Not known: the spec leaves open what it needs.");
    if (!result.steps.empty())
        notes.push_back(
            fmt::format("Nothing is rounded on the way; shown to {} decimals.", workingDecimals(result)));
    for (std::size_t i = 0; i < m_spec.lines.size(); ++i) {
        const Line& line = m_spec.lines[i];
        if (line.optional || line.toTaste)
            notes.push_back(
                fmt::format("Left out: {} ({}).", nameOf(i), line.optional ? "optional" : "to taste"));
    }
    if (reading.estimate)
        notes.emplace_back("An estimate: a figure is assumed, or a formula is used outside its range.");
    addLossNotes();
    if (!result.more && result.quantity == Quantity::Temperature)
        notes.emplace_back("Heat from hand and room, evaporation and dissolving sugar are not counted.");
    if (result.more || result.quantity != Quantity::Temperature || m_s != 2) return;
    if (reading.bound == Bound::AtMost && !m_spec.glassGrams)
        notes.emplace_back(
            "The mug was not weighed: the heat it takes is not counted, so this is the most it "
            "can be.");
    addScaldNotes();
}

// The published band for serving and the scald figures, beside the temperature they hold for.
void Worker::addScaldNotes() {
    for (const Caution& caution : cautions(m_spec, m_bindings, evaluateWithTemperatures(m_spec, m_bindings)))
        if (caution.id == "served_hot" || caution.id == "scald_65" || caution.id == "scald_time")
            result.notes.push_back(fmt::format("{} ({})", caution.text, caution.source));
}

// Strength and what follows from ethanol, where heat or a flame takes some of it.
void Worker::addLossNotes() {
    if (result.more || m_s == 0) return;
    const Quantity q = result.quantity;
    if (q != Quantity::Strength && q != Quantity::Ethanol && q != Quantity::StandardDrinks) return;
    bool flame = false;
    bool heat = m_spec.method.technique == Technique::Hot || m_spec.method.technique == Technique::WaterBath;
    for (const Caution& caution :
         cautions(m_spec, m_bindings, evaluateWithTemperatures(m_spec, m_bindings))) {
        flame = flame || caution.id == "flame_service";
        heat =
            heat || caution.id == "heating_spirit" || caution.id == "served_hot" || caution.id == "scald_65";
    }
    if (!flame && !heat) return;
    result.notes.emplace_back(
        flame ? "Alcohol that burns off or evaporates is not modelled: this is the strength as if none were "
                "lost, so the most it can be."
              : "Alcohol that evaporates is not modelled: this is the strength as if none were lost, so the "
                "most it can be.");
}

} // namespace stillroom::spec
