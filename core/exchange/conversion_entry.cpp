#include "core/exchange/conversion_entry.h"

#include "core/base/text.h"
#include "core/exchange/clean_text.h"
#include "core/exchange/measure_words.h"
#include "core/exchange/number_reader.h"
#include "core/physics/carbonation.h"
#include "core/quantity/temperature.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <utility>

namespace stillroom::exchange {

namespace {

using physics::Conversion;
using physics::ConversionFault;
using physics::ConversionInput;
using physics::ConversionProblem;
using physics::ConversionValue;
using physics::ConversionValues;
using quantity::Temperature;

constexpr std::size_t kLongestEntry = 80;

tl::unexpected<ConversionProblem> refused(const ConversionInput& input, ConversionFault fault,
                                          std::string_view text, std::string_view advice = {}) {
    ConversionProblem problem;
    problem.fault = fault;
    problem.key = input.key;
    problem.text = base::elided(base::withoutControls(text), kLongestEntry);
    problem.advice = advice;
    return tl::unexpected(problem);
}

// "g / 100 ml." -> "g/100ml"; "kg/m³" -> "kg/m3"
std::string squeezed(std::string_view unit) {
    std::string text = base::toLower(base::toNfkc(unit));
    text.erase(std::remove(text.begin(), text.end(), ' '), text.end());
    while (!text.empty() && text.back() == '.')
        text.pop_back();
    return text;
}

struct Spelling {
    std::string_view unit; // squeezed, of the input
    std::string_view written;
    double factor; // into the input's unit
};

const double kPsi = physics::GaugePressure::fromPsi(1).bar();

const std::vector<Spelling>& spellings() {
    static const std::vector<Spelling> list{
        {"%vol", "%", 1},
        {"%vol", "vol%", 1},
        {"%vol", "abv", 1},
        {"%vol", "%abv", 1},
        {"%vol", "percent", 1},
        {"°proof", "proof", 1},
        {"°proof", "°", 1},
        {"%mass", "%", 1},
        {"%mass", "wt%", 1},
        {"%mass", "%w/w", 1},
        {"%mass", "g/100g", 1},
        {"kg/m3", "g/l", 1},
        {"kg/m3", "g/ml", 1000},
        {"kg/m3", "g/cm3", 1000},
        {"kg/m3", "kg/l", 1000},
        {"g/ml", "g/cm3", 1},
        {"g/ml", "kg/l", 1},
        {"g/ml", "kg/m3", 0.001},
        {"g/l", "kg/m3", 1},
        {"g/l", "g/100ml", 10},
        {"g/l", "g/dl", 10},
        {"g/l", "mg/l", 0.001},
        {"g/100g", "%", 1},
        {"g/100g", "g/kg", 0.1},
        {"°bx", "bx", 1},
        {"°bx", "brix", 1},
        {"°bx", "°brix", 1},
        {"°bx", "%", 1},
        {"°bx", "g/100g", 1},
        {"°bé", "bé", 1},
        {"°bé", "be", 1},
        {"°bé", "°be", 1},
        {"°bé", "baumé", 1},
        {"°bé", "baume", 1},
        {"bar", "mbar", 0.001},
        {"bar", "kpa", 0.01},
        {"bar", "psi", kPsi},
        {"psi", "bar", 1 / kPsi},
        {"psi", "kpa", 0.01 / kPsi},
        {"volumes", "vol", 1},
        {"volumes", "vols", 1},
        {"volumes", "volume", 1},
        {"volumes", "v", 1},
        {"%", "percent", 1},
        {"mol/l", "m", 1},
        {"mol/l", "mmol/l", 0.001},
        {"to1", ":1", 1},
    };
    return list;
}

std::optional<Temperature> temperatureIn(std::string_view unit, double value) {
    if (unit == "°c" || unit == "c" || unit == "celsius") return Temperature::fromCelsius(value);
    if (unit == "°f" || unit == "f" || unit == "fahrenheit") return Temperature::fromFahrenheit(value);
    if (unit == "k" || unit == "kelvin")
        return Temperature::fromCelsius(value - Temperature::fromCelsius(0).kelvin());
    return std::nullopt;
}

// A word that more than one measure goes by, where nothing beside it says which.
struct Assumption {
    quantity::Measure taken;
    std::string_view says;
};
constexpr std::array<Assumption, 8> kAssumed{
    {{quantity::Measure::FlozUs,
      "The ounce is taken as the US fluid ounce, 29.57 ml. The imperial one is floz_imp, "
      "28.41 ml; one by weight is oz_mass, 28.35 g."},
     {quantity::Measure::PintUs,
      "The pint is taken as the US one, 473.18 ml. The imperial one is pint_imp, 568.26 ml."},
     {quantity::Measure::QuartUs,
      "The quart is taken as the US one, 946.35 ml. The imperial one is quart_imp, 1136.52 ml."},
     {quantity::Measure::GallonUs,
      "The gallon is taken as the US one, 3785.41 ml. The imperial one is gallon_imp, 4546.09 ml."},
     {quantity::Measure::GillUs,
      "The gill is taken as the US one, 118.29 ml. The imperial one is gill_imp, 142.07 ml."},
     {quantity::Measure::CupUs,
      "The cup is taken as the US one, 236.59 ml. The metric one is cup_metric, 250 ml."},
     {quantity::Measure::TspUs,
      "The teaspoon is taken as the US one, 4.93 ml. The metric one is tsp_metric, 5 ml."},
     {quantity::Measure::TbspUs,
      "The tablespoon is taken as the US one, 14.79 ml. The metric one is tbsp_metric, "
      "15 ml; the Australian one is tbsp_au, 20 ml."}}};
constexpr std::string_view kOunceByWeight = "The ounce is taken by weight, 28.35 g.";

// The measure that `unit` at `at` was taken for, and whether its country was said.
struct TakenMeasure {
    quantity::Measure measure;
    bool countrySaid = false;
};
std::optional<TakenMeasure> takenMeasure(const TokenLine& line, std::size_t at, bool byWeight) {
    const auto word = readUnit(line, at);
    if (!word || word->next != line.size()) return std::nullopt;
    const auto measure = measureOf(*word, byWeight, {});
    if (!measure) return std::nullopt;
    return TakenMeasure{*measure, word->system != UnitSystem::Unsaid};
}

std::string_view assumptionOf(const std::optional<TakenMeasure>& taken, bool byWeight) {
    if (!taken || taken->countrySaid) return {};
    if (byWeight) return taken->measure == quantity::Measure::OzMass ? kOunceByWeight : std::string_view{};
    for (const Assumption& one : kAssumed)
        if (one.taken == taken->measure) return one.says;
    return {};
}

// Exact measures only: a dash in a field of millilitres would hide how large it was taken.
std::optional<double> sizeIn(std::string_view unit, const TokenLine& line, std::size_t at) {
    const auto word = readUnit(line, at);
    if (!word || word->next != line.size()) return std::nullopt;
    const auto measure = measureOf(*word, unit == "g", {});
    if (!measure) return std::nullopt;
    const auto& info = quantity::measureInfo(*measure);
    const auto& exact = unit == "g" ? info.exactMicrograms : info.exactMicrolitres;
    if (!exact) return std::nullopt;
    return exact->toDouble() / (unit == "g" ? 1e6 : 1e3);
}

// "1e9", "2.5E-3 l": a number with an exponent, and where it ends.
std::optional<std::pair<double, std::size_t>> withExponent(std::string_view text) {
    double value = 0;
    const auto [end, error] =
        std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::scientific);
    if (error != std::errc{} || !std::isfinite(value)) return std::nullopt;
    const auto next = static_cast<std::size_t>(end - text.data());
    const bool apart = next == text.size() || text[next] == ' ';
    return apart ? std::optional(std::pair(value, next)) : std::nullopt;
}

// The number in the input's unit; nullopt when what stands behind it is another sort of unit.
std::optional<double> inUnitOf(const ConversionInput& input, double number, const TokenLine& line,
                               std::size_t at) {
    if (at >= line.size()) return number;
    const std::string wanted = squeezed(input.unit);
    const std::string written = squeezed(line.slice(at, line.size()));
    if (written.empty() || written == wanted) return number;
    if (const auto asked = temperatureIn(wanted, 0)) {
        const auto t = temperatureIn(written, number);
        if (!t) return std::nullopt;
        if (wanted == "°f") return t->fahrenheit();
        return wanted == "k" ? t->kelvin() : t->celsius();
    }
    for (const Spelling& spelling : spellings())
        if (spelling.unit == wanted && spelling.written == written) return number * spelling.factor;
    if (wanted != "ml" && wanted != "g") return std::nullopt;
    const auto size = sizeIn(wanted, line, at);
    return size ? std::optional(number * *size) : std::nullopt;
}

bool fits(const ConversionInput& input, double value) {
    return (input.aboveLow ? value > input.low : value >= input.low) && value <= input.high;
}

constexpr std::string_view kThousandsOrDecimals =
    "The comma could stand between thousands or before decimals; write it without, or with a point before "
    "decimals.";
constexpr std::string_view kCommaAndPoint =
    "A comma and a point stand in one number. Write nothing between thousands and one mark before decimals: "
    "1000.5.";
constexpr std::string_view kOneFigure = "Write one figure, not a range.";

// The number at the start of `line`, decided between thousands and decimals by what the input can be.
tl::expected<double, ConversionProblem> numberFor(const ConversionInput& input, const NumberRead& number,
                                                  double sign, const TokenLine& line) {
    const auto value = [&](const quantity::Rational& r) { return sign * r.toDouble(); };
    if (number.groupMark == GroupMark::Comma || number.groupMark == GroupMark::Point) {
        const auto grouped = inUnitOf(input, value(number.grouped), line, number.next);
        const auto decimal = inUnitOf(input, value(number.decimal), line, number.next);
        if (!grouped || !decimal) return value(number.decimal); // the unit is wrong anyhow
        const bool point = number.groupMark == GroupMark::Point;
        if (fits(input, *decimal) && (point || !fits(input, *grouped))) return value(number.decimal);
        if (fits(input, *grouped) && !fits(input, *decimal)) return value(number.grouped);
        if (point) return value(number.decimal);
        return refused(input, ConversionFault::NotANumber, line.text(), kThousandsOrDecimals);
    }
    if (mixesMarks(number)) return refused(input, ConversionFault::NotANumber, line.text(), kCommaAndPoint);
    if (number.slash && number.slash->second != 0)
        return sign * static_cast<double>(number.slash->first) / static_cast<double>(number.slash->second);
    if (number.amount.kind == quantity::Amount::Kind::Range)
        return refused(input, ConversionFault::NotANumber, line.text(), kOneFigure);
    for (const Doubt& doubt : number.doubts)
        if (doubt.weight == DoubtWeight::Ask && doubt.code != DoubtCode::CommaAmbiguous)
            return refused(input, ConversionFault::NotANumber, line.text(), kThousandsOrDecimals);
    return value(number.amount.low);
}

// "2:1": sugar to water by weight.
std::optional<double> ratio(const ConversionInput& input, const TokenLine& line) {
    if (input.unit != "°Bx" && input.unit != "to 1") return std::nullopt;
    const auto sugar = readNumber(line, 0);
    if (!sugar || sugar->refusal || mixesMarks(*sugar) || !line.at(sugar->next).isMark(":"))
        return std::nullopt;
    const auto water = readNumber(line, sugar->next + 1);
    if (!water || water->refusal || mixesMarks(*water) || water->next != line.size() ||
        !(water->amount.low.toDouble() > 0))
        return std::nullopt;
    const double a = sugar->amount.low.toDouble();
    const double b = water->amount.low.toDouble();
    return input.unit == "to 1" ? a / b : 100 * a / (a + b);
}

tl::expected<ConversionValue, ConversionProblem> choiceFor(const ConversionInput& input,
                                                           std::string_view text) {
    const std::string folded = base::fold(text);
    for (const physics::ConversionChoice& choice : input.choices)
        if (choice.id == text || base::fold(choice.id) == folded || base::fold(choice.label) == folded)
            return ConversionValue(std::string(choice.id));
    const TokenLine line(cleanLine(text).text);
    const auto word = readUnit(line, 0);
    const auto measure = word && word->next == line.size() ? measureOf(*word, false, {}) : std::nullopt;
    if (measure)
        for (const physics::ConversionChoice& choice : input.choices)
            if (choice.id == quantity::measureInfo(*measure).id)
                return ConversionValue(std::string(choice.id));
    return refused(input, ConversionFault::NotAChoice, text);
}

// "3 floz" of `measures`: the measure behind the amount, when `from` is not filled in.
void splitMeasure(const Conversion& conversion, TypedEntries& entries) {
    const auto amount = entries.find("amount");
    if (!conversion.input("from") || amount == entries.end()) return;
    if (const auto from = entries.find("from"); from != entries.end() && !from->second.empty()) return;
    const std::string clean = cleanLine(amount->second).text;
    if (const auto power = withExponent(clean)) {
        entries["from"] = base::trimmed(std::string_view(clean).substr(power->second));
        amount->second = clean.substr(0, power->second);
        return;
    }
    const TokenLine line(clean);
    const auto number = readNumber(line, 0);
    if (!number || number->refusal || number->next >= line.size()) return;
    entries["from"] = line.slice(number->next, line.size());
    amount->second = line.slice(0, number->next);
}

} // namespace

tl::expected<ConversionValue, ConversionProblem> readConversionEntry(const ConversionInput& input,
                                                                     std::string_view text) {
    if (text.size() > kLongestEntry) return refused(input, ConversionFault::NotANumber, text);
    std::string clean = cleanLine(text).text;
    const std::string shown = clean;
    if (!input.choices.empty()) return choiceFor(input, base::trimmed(clean));
    double sign = 1;
    for (const std::string_view minus : {"-", "−", "–", "+"})
        if (clean.compare(0, minus.size(), minus) == 0) {
            if (minus != "+") sign = -1;
            clean = clean.substr(minus.size());
            break;
        }
    if (const auto power = withExponent(clean)) {
        const TokenLine rest(std::string(base::trimmed(std::string_view(clean).substr(power->second))));
        const auto value = inUnitOf(input, sign * power->first, rest, 0);
        if (!value) return refused(input, ConversionFault::OtherUnit, shown);
        return ConversionValue(*value);
    }
    const TokenLine line(clean);
    if (const auto parts = ratio(input, line)) return ConversionValue(*parts);
    const auto number = readNumber(line, 0);
    if (!number || number->refusal || number->vague || number->article || !number->amount.isStated())
        return refused(input, ConversionFault::NotANumber, shown);
    const auto value = numberFor(input, *number, sign, line);
    if (!value) return tl::unexpected(value.error());
    const auto inUnit = inUnitOf(input, *value, line, number->next);
    if (!inUnit) return refused(input, ConversionFault::OtherUnit, shown);
    return ConversionValue(*inUnit);
}

tl::expected<ConversionValues, ConversionProblem> readConversionEntries(const Conversion& conversion,
                                                                        const TypedEntries& typed) {
    TypedEntries entries = typed;
    splitMeasure(conversion, entries);
    ConversionValues values;
    for (const auto& [key, text] : entries) {
        const ConversionInput* input = conversion.inputTyped(key);
        if (!input) {
            ConversionProblem problem;
            problem.fault = ConversionFault::UnknownInput;
            problem.key = base::elided(base::withoutControls(key), kLongestEntry);
            return tl::unexpected(problem);
        }
        if (base::trimmed(text).empty()) continue;
        auto value = readConversionEntry(*input, text);
        if (!value) return tl::unexpected(value.error());
        values.emplace(input->key, *value);
    }
    return values;
}

tl::expected<physics::Converted, ConversionProblem> convertTyped(const Conversion& conversion,
                                                                 const TypedEntries& entries) {
    const auto values = readConversionEntries(conversion, entries);
    if (!values) return tl::unexpected(values.error());
    auto converted = physics::convert(conversion, *values);
    if (converted)
        for (const std::string_view says : assumedMeasures(conversion, entries))
            converted->remarks.emplace_back(says);
    return converted;
}

std::vector<std::string_view> assumedMeasures(const Conversion& conversion, const TypedEntries& typed) {
    TypedEntries entries = typed;
    splitMeasure(conversion, entries);
    std::vector<std::string_view> list;
    for (const auto& [key, text] : entries) {
        const ConversionInput* input = conversion.inputTyped(key);
        if (!input || text.size() > kLongestEntry) continue;
        const TokenLine line(cleanLine(text).text);
        std::string_view says;
        if (!input->choices.empty()) {
            const bool idOfItsOwn = text == "floz_us";
            if (!idOfItsOwn) says = assumptionOf(takenMeasure(line, 0, false), false);
        } else if (input->unit == "ml" || input->unit == "g") {
            const bool byWeight = input->unit == "g";
            const auto number = readNumber(line, 0);
            if (number && number->next < line.size())
                says = assumptionOf(takenMeasure(line, number->next, byWeight), byWeight);
        }
        if (!says.empty() && std::find(list.begin(), list.end(), says) == list.end()) list.push_back(says);
    }
    return list;
}

} // namespace stillroom::exchange
