#include "core/physics/conversions/conversions.h"

#include "core/base/check.h"
#include "core/base/text.h"
#include "core/physics/conversions/conversion_kit.h"
#include "core/physics/facts_to_masses.h"
#include "core/physics/mixture.h"
#include "core/physics/solubility.h"
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
        if (input.need == InputNeed::OneOf && given && ++chosen > conversion.choose &&
            !conversion.mayContradict)
            return problem;
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

// What is told as allowed is allowed: rounded into the range, never out of it.
std::optional<double> roundedInward(std::optional<double> value, int decimals, bool up) {
    if (!value) return value;
    const double scale = std::pow(10.0, decimals);
    const double nearest = std::round(*value * scale) / scale;
    if (std::abs(nearest - *value) < 1e-9 * std::max(1.0, std::abs(*value))) return nearest;
    return (up ? std::ceil(*value * scale) : std::floor(*value * scale)) / scale;
}

std::string spanText(std::optional<double> low, std::optional<double> high, bool aboveLow,
                     std::string_view unit, int decimals = 4) {
    low = roundedInward(low, decimals, true);
    high = roundedInward(high, decimals, false);
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

// The one that a mistyped word is nearest to, case aside; empty when none is near.
template <class List, class Name>
std::string_view closeTo(std::string_view word, const List& list, Name&& name) {
    const std::string typed = base::fold(word);
    std::size_t least = std::max<std::size_t>(typed.size() / 3, 1) + 1;
    std::string_view best;
    for (const auto& one : list) {
        const std::size_t distance = base::editDistance(typed, base::fold(name(one)), least);
        if (distance >= least) continue;
        least = distance;
        best = name(one);
    }
    return best;
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

const ConversionInput* Conversion::inputTyped(std::string_view key) const {
    if (const auto* exact = input(key)) return exact;
    const std::string folded = base::fold(key);
    const auto found = std::find_if(inputs.begin(), inputs.end(),
                                    [&](const ConversionInput& i) { return base::fold(i.key) == folded; });
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

const Conversion* conversionTyped(std::string_view name) {
    const std::string folded = base::fold(name);
    for (const Conversion& c : conversions())
        if (base::fold(c.id) == folded) return &c;
    return nullptr;
}

std::string_view conversionNear(std::string_view name) {
    return closeTo(name, conversions(), [](const Conversion& c) { return c.id; });
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

int decimalsFor(const ConversionOutput& output, double value) {
    if (output.significant == 0 || value == 0 || !std::isfinite(value)) return output.decimals;
    const int first = static_cast<int>(std::floor(std::log10(std::abs(value))));
    return std::clamp(output.significant - 1 - first, output.decimals, 12);
}

std::string rangeText(const ConversionInput& input) {
    return spanText(input.low, input.high, input.aboveLow, input.unit);
}

std::string problemText(const Conversion& conversion, const ConversionProblem& problem, InputNaming naming) {
    const ConversionInput* input = conversion.input(problem.key);
    if (!input) {
        const auto close =
            closeTo(problem.key, conversion.inputs, [](const ConversionInput& i) { return i.key; });
        if (!close.empty())
            return fmt::format("There is no {} here; did you mean {}? There is {}.", problem.key, close,
                               keysText(conversion));
        return fmt::format("There is no {} here; there is {}.", problem.key, keysText(conversion));
    }
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
        const ConversionOutput* like = conversion.output(problem.key);
        const bool own = problem.low == input->low && problem.high == input->high;
        const int decimals = own ? 4 : like ? like->decimals : 2;
        text = fmt::format("{} must be {}{}", key,
                           spanText(problem.low, problem.high, above, input->unit, decimals),
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

namespace {

constexpr double kMostBrixFraction = 0.85; // of SPS-4

std::string_view nameOf(Substance substance) {
    switch (substance) {
    case Substance::Salt:
        return "salt";
    case Substance::Citric:
        return "citric acid";
    case Substance::Glucose:
        return "glucose";
    case Substance::Fructose:
        return "fructose";
    default:
        return "sugar";
    }
}

} // namespace

std::optional<ConversionProblem> neverASolution(const Composition& mixture, std::string_view sugarKey,
                                                std::string_view acidKey) {
    const auto never = neverDissolved(mixture);
    if (!never) return std::nullopt;
    std::string_view key = sugarKey;
    if (never->substance == Substance::Salt) key = "salt";
    if (never->substance == Substance::Citric) key = acidKey;
    const auto ends = solubilityEnds(never->substance);
    return impossible(
               key,
               fmt::format("{:.1f} g of {} in 100 g with its water is more than ever dissolves: at {:.0f} "
                           "°C the most is {:.1f} g ({}).",
                           never->share.percent(), nameOf(never->substance), ends->warmest.celsius(),
                           never->most.percent(), ends->source))
        .value();
}

tl::expected<Composition, ConversionProblem> liquidPerMl(const PlainLiquid& liquid,
                                                         std::string_view sugarKey) {
    const auto mixture = perMl(liquid);
    if (!mixture) return impossible(sugarKey, kDoesNotFit);
    if (auto never = neverASolution(*mixture, sugarKey)) return tl::unexpected(*never);
    return *mixture;
}

std::string undissolvedRemark(const Composition& mixture, Temperature t) {
    const auto much = undissolvedAt(mixture, t);
    if (!much) return {};
    return fmt::format(
        "More {} than stays dissolved at {:.0f} °C: {:.1f} g in 100 g with its water, where {:.1f} "
        "g is the most ({}). Crystals will form in time.",
        nameOf(much->substance), t.celsius(), much->share.percent(), much->most.percent(),
        solubilityEnds(much->substance)->source);
}

double withinWritten(double value, double low, double high, int decimals) {
    const double digit = std::pow(10.0, -decimals);
    if (value < low && value >= low - digit) return low;
    if (value > high && value <= high + digit) return high;
    return value;
}

bool volumeIsEstimate(const Composition& mixture) {
    if (mixture.sugarGrams() > kMostBrixFraction * (mixture.sugarGrams() + mixture[Substance::Water]))
        return true;
    const auto strength = strengthAt20(mixture);
    if (!strength) return false;
    const double sugarGPerL = mixture.sugarGrams() / volumeAt20(mixture).litres();
    return strength->percentVol() > 0 && sugarGPerL > 0 && (strength->percentVol() > 20 || sugarGPerL > 150);
}

} // namespace stillroom::physics
