#include "core/physics/conversions/conversions.h"

#include "core/base/check.h"
#include "core/base/text.h"
#include "core/physics/conversions/conversion_kit.h"
#include "core/physics/facts_to_masses.h"
#include "core/physics/mixture.h"
#include "core/physics/sucrose_water.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace stillroom::physics {

using quantity::MassFraction;
using quantity::Strength;
using quantity::Temperature;
using quantity::Volume;

namespace {

std::vector<Conversion> all() {
    std::vector<Conversion> list;
    for (auto make : {strengthConversions, syrupConversions, mixingConversions, coldConversions,
                      acidConversions, fizzConversions, measureConversions, servingConversions})
        for (Conversion& conversion : make())
            list.push_back(std::move(conversion));
    return list;
}

bool isChoice(const ConversionInput& input, const std::string& word) {
    return std::any_of(input.choices.begin(), input.choices.end(),
                       [&](const ConversionChoice& choice) { return choice.id == word; });
}

std::optional<ConversionProblem> wrong(const ConversionInput& input, const ConversionValue& value) {
    const auto problem = [&](ConversionFault fault) {
        ConversionProblem p;
        p.fault = fault;
        p.key = input.key;
        return p;
    };
    if (!input.choices.empty()) {
        const auto* word = std::get_if<std::string>(&value);
        if (word && isChoice(input, *word)) return std::nullopt;
        auto p = problem(ConversionFault::NotAChoice);
        if (word) p.text = *word;
        return p;
    }
    const auto* number = std::get_if<double>(&value);
    if (!number || !std::isfinite(*number)) return problem(ConversionFault::NotANumber);
    const bool low = input.aboveLow ? *number > input.low : *number >= input.low;
    if (low && *number <= input.high) return std::nullopt;
    auto p = problem(ConversionFault::OutOfRange);
    p.low = input.low;
    p.high = input.high;
    return p;
}

std::optional<ConversionProblem> wrongSet(const Conversion& conversion, const ConversionValues& values) {
    ConversionProblem problem;
    std::size_t chosen = 0;
    for (const ConversionInput& input : conversion.inputs) {
        const bool given = values.find(input.key) != values.end();
        problem.key = input.key;
        problem.fault = ConversionFault::Missing;
        if (input.need == InputNeed::Required && !given) return problem;
        problem.fault = ConversionFault::TooMany;
        if (input.need == InputNeed::OneOf && given && ++chosen > conversion.choose) return problem;
    }
    for (const ConversionInput& input : conversion.inputs) {
        if (input.need != InputNeed::OneOf || chosen >= conversion.choose) continue;
        if (values.find(input.key) != values.end()) continue;
        problem.key = input.key;
        problem.fault = ConversionFault::Missing;
        return problem;
    }
    return std::nullopt;
}

std::string numberText(double value) {
    return base::shortestDecimal(std::round(value * 1e4) / 1e4);
}

std::string spanText(std::optional<double> low, std::optional<double> high, bool aboveLow,
                     std::string_view unit) {
    std::string text;
    if (low && aboveLow)
        text = fmt::format("above {}", numberText(*low));
    else if (low)
        text = high ? numberText(*low) : fmt::format("at least {}", numberText(*low));
    if (low && high)
        text += fmt::format("{} {}", aboveLow ? ", up to" : " to", numberText(*high));
    else if (high)
        text = fmt::format("at most {}", numberText(*high));
    return unit.empty() ? text : fmt::format("{} {}", text, unit);
}

std::string_view nameOf(const ConversionInput& input, InputNaming naming) {
    return naming == InputNaming::Key ? input.key : input.label;
}

// "reading, reading_proof or abv"
std::string alternatives(const Conversion& conversion, InputNaming naming) {
    std::vector<std::string_view> keys;
    for (const ConversionInput& input : conversion.inputs)
        if (input.need == InputNeed::OneOf) keys.push_back(nameOf(input, naming));
    std::string text;
    for (std::size_t i = 0; i < keys.size(); ++i)
        text += fmt::format("{}{}", i == 0 ? "" : i + 1 == keys.size() ? " or " : ", ", keys[i]);
    return text;
}

std::string choicesText(const ConversionInput& input) {
    std::string text;
    for (const ConversionChoice& choice : input.choices)
        text += fmt::format("{}{}", text.empty() ? "" : ", ", choice.id);
    return text;
}

std::string keysText(const Conversion& conversion) {
    std::string text;
    for (const ConversionInput& input : conversion.inputs)
        text += fmt::format("{}{}", text.empty() ? "" : ", ", input.key);
    return text;
}

std::string countText(const Conversion& conversion) {
    return conversion.choose == 1 ? "one" : fmt::format("{}", conversion.choose);
}

std::string missingText(const Conversion& conversion, const ConversionInput& input, InputNaming naming) {
    if (input.need == InputNeed::OneOf)
        return fmt::format("Give {} of {}; the rest follows.", countText(conversion),
                           alternatives(conversion, naming));
    const std::string range = input.choices.empty() ? rangeText(input) : choicesText(input);
    if (naming == InputNaming::Label) return fmt::format("{} is missing: {}.", input.label, range);
    return fmt::format("{} is missing: {}, {}.", input.key, input.label, range);
}

} // namespace

const ConversionInput* Conversion::input(std::string_view key) const {
    const auto found =
        std::find_if(inputs.begin(), inputs.end(), [&](const ConversionInput& i) { return i.key == key; });
    return found == inputs.end() ? nullptr : &*found;
}

const ConversionOutput* Conversion::output(std::string_view key) const {
    const auto found =
        std::find_if(outputs.begin(), outputs.end(), [&](const ConversionOutput& o) { return o.key == key; });
    return found == outputs.end() ? nullptr : &*found;
}

const std::vector<Conversion>& conversions() {
    static const std::vector<Conversion> list = all();
    return list;
}

const Conversion* conversion(std::string_view id) {
    for (const Conversion& c : conversions())
        if (c.id == id) return &c;
    return nullptr;
}

tl::expected<Converted, ConversionProblem> convert(const Conversion& conversion,
                                                   const ConversionValues& values) {
    for (const auto& [key, value] : values) {
        const ConversionInput* input = conversion.input(key);
        if (!input) {
            ConversionProblem problem;
            problem.fault = ConversionFault::UnknownInput;
            problem.key = key;
            return tl::unexpected(problem);
        }
        if (auto problem = wrong(*input, value)) return tl::unexpected(*problem);
    }
    if (auto problem = wrongSet(conversion, values)) return tl::unexpected(*problem);
    Outcome outcome = conversion.compute(GivenValues(conversion, values));
    if (!outcome) return outcome;
    Converted ordered;
    ordered.remarks = outcome->remarks;
    for (const ConversionOutput& output : conversion.outputs)
        for (const ConvertedValue& value : outcome->values)
            if (value.key == output.key && std::isfinite(value.value)) ordered.values.push_back(value);
    return ordered;
}

std::string rangeText(const ConversionInput& input) {
    return spanText(input.low, input.high, input.aboveLow, input.unit);
}

std::string problemText(const Conversion& conversion, const ConversionProblem& problem, InputNaming naming) {
    const ConversionInput* input = conversion.input(problem.key);
    if (!input) return fmt::format("There is no {} here; there is {}.", problem.key, keysText(conversion));
    const std::string key(nameOf(*input, naming));
    std::string text;
    switch (problem.fault) {
    case ConversionFault::UnknownInput:
    case ConversionFault::Missing:
        return missingText(conversion, *input, naming);
    case ConversionFault::TooMany:
        return fmt::format("{} is one too many: give {} of {}, and leave the rest empty.", key,
                           countText(conversion), alternatives(conversion, naming));
    case ConversionFault::NotANumber:
        text = problem.text.empty() ? fmt::format("{}: this is no number.", key)
                                    : fmt::format("{}: \"{}\" is no number.", key, problem.text);
        break;
    case ConversionFault::OtherUnit:
        text = fmt::format("{}: the unit of \"{}\" does not fit.", key, problem.text);
        break;
    case ConversionFault::NotAChoice:
        return fmt::format("{}: \"{}\" is none of {}.", key, problem.text, choicesText(*input));
    case ConversionFault::OutOfRange: {
        const bool above = input->aboveLow && problem.low == input->low;
        text = fmt::format("{} must be {}{}", key, spanText(problem.low, problem.high, above, input->unit),
                           problem.advice.empty() ? "." : " here.");
        break;
    }
    case ConversionFault::Impossible:
        text = fmt::format("{}:", key);
        break;
    }
    if (!problem.advice.empty()) return fmt::format("{} {}", text, problem.advice);
    if (problem.fault == ConversionFault::OutOfRange) return text;
    return fmt::format("{} Write {}.", text, rangeText(*input));
}

double GivenValues::operator[](std::string_view key) const {
    const auto found = m_values.find(key);
    if (found != m_values.end()) return std::get<double>(found->second);
    const ConversionInput* input = m_conversion.input(key);
    STILLROOM_CHECK(input && input->standing, return 0);
    return *input->standing;
}

std::string_view GivenValues::word(std::string_view key) const {
    const auto found = m_values.find(key);
    if (found != m_values.end()) return std::get<std::string>(found->second);
    const ConversionInput* input = m_conversion.input(key);
    STILLROOM_CHECK(input, return {});
    return input->standingChoice;
}

Temperature GivenValues::celsius(std::string_view key) const {
    return Temperature::fromCelsius((*this)[key]);
}
Strength GivenValues::strength(std::string_view key) const {
    return Strength::fromPercentVol((*this)[key]);
}
MassFraction GivenValues::percent(std::string_view key) const {
    return MassFraction::fromPercent((*this)[key]);
}
Volume GivenValues::ml(std::string_view key) const {
    return Volume::fromMl((*this)[key]);
}

tl::unexpected<ConversionProblem> impossible(std::string_view key, std::string_view advice) {
    ConversionProblem problem;
    problem.fault = ConversionFault::Impossible;
    problem.key = key;
    problem.advice = advice;
    return tl::unexpected(problem);
}

tl::unexpected<ConversionProblem> outside(std::string_view key, std::optional<double> low,
                                          std::optional<double> high, std::string_view advice) {
    ConversionProblem problem;
    problem.fault = ConversionFault::OutOfRange;
    problem.key = key;
    problem.low = low;
    problem.high = high;
    problem.advice = advice;
    return tl::unexpected(problem);
}

std::optional<Composition> perMl(const PlainLiquid& liquid) {
    LiquidFacts facts;
    facts.strength = liquid.strength;
    facts.gramsPerLitre[Substance::Sucrose] = liquid.sugarGPerL;
    facts.gramsPerLitre[Substance::Citric] = liquid.acidGPerL;
    facts.gramsPerLitre[Substance::Salt] = liquid.saltGPerL;
    const auto masses = massesPerMl(facts);
    if (!masses) return std::nullopt;
    return masses->perMl;
}

Composition times(const Composition& perMl, double ml) {
    Composition c;
    c.addScaled(perMl, ml);
    return c;
}

Composition waterOf(double grams) {
    Composition c;
    c[Substance::Water] = grams;
    return c;
}

double waterGPerMl() {
    return waterDensity(Temperature::fromCelsius(20)).gPerMl();
}

bool isStrongAndSweet(const Composition& mixture) {
    const auto strength = strengthAt20(mixture);
    if (!strength) return false;
    const double sugarGPerL = mixture.sugarGrams() / volumeAt20(mixture).litres();
    return strength->percentVol() > 0 && sugarGPerL > 0 && (strength->percentVol() > 20 || sugarGPerL > 150);
}

} // namespace stillroom::physics
