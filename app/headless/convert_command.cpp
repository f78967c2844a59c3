#include "app/headless/command.h"
#include "app/headless/json_out.h"
#include "app/headless/text_out.h"

#include "core/base/text.h"
#include "core/exchange/conversion_entry.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <ostream>

namespace stillroom::headless {

namespace {

using nlohmann::ordered_json;
using physics::Conversion;
using physics::ConversionInput;
using physics::ConversionOutput;
using physics::ConversionProblem;
using physics::Converted;
using physics::ConvertedValue;
using physics::InputNeed;

std::string_view needId(InputNeed need) {
    switch (need) {
    case InputNeed::Required:
        return "required";
    case InputNeed::OneOf:
        return "one_of";
    case InputNeed::Optional:
        break;
    }
    return "optional";
}

std::string_view boundId(physics::ValueBound bound) {
    switch (bound) {
    case physics::ValueBound::Exact:
        return "exact";
    case physics::ValueBound::AtLeast:
        return "at_least";
    case physics::ValueBound::AtMost:
        break;
    }
    return "at_most";
}

std::string_view faultId(physics::ConversionFault fault) {
    using physics::ConversionFault;
    switch (fault) {
    case ConversionFault::UnknownInput:
        return "unknown_input";
    case ConversionFault::Missing:
        return "missing";
    case ConversionFault::TooMany:
        return "too_many";
    case ConversionFault::NotANumber:
        return "not_a_number";
    case ConversionFault::OtherUnit:
        return "other_unit";
    case ConversionFault::NotAChoice:
        return "not_a_choice";
    case ConversionFault::OutOfRange:
        return "out_of_range";
    case ConversionFault::Impossible:
        break;
    }
    return "impossible";
}

// A figure with more than eight digits behind the point says nothing more, but when it is small itself.
double rounded(double value) {
    const double size = std::abs(value);
    const double scale = size > 0 && size < 1e-2 ? std::pow(10.0, 6 - std::floor(std::log10(size))) : 1e8;
    if (!std::isfinite(scale)) return 0;
    const double r = std::round(value * scale) / scale;
    return r == 0 ? 0 : r; // never -0
}

std::string shownNumber(double value, int decimals) {
    std::string text = fmt::format("{:.{}f}", value, decimals);
    const bool zero = text.find_first_not_of("-0.") == std::string::npos;
    return zero && text.front() == '-' ? text.substr(1) : text;
}

ordered_json inputJson(const ConversionInput& input) {
    ordered_json json{
        {"key", input.key}, {"label", input.label}, {"unit", input.unit}, {"need", needId(input.need)}};
    if (input.choices.empty()) {
        json["low"] = input.low;
        json["high"] = input.high;
        json["above_low"] = input.aboveLow;
        json["default"] = input.standing ? ordered_json(rounded(*input.standing)) : ordered_json(nullptr);
    } else {
        ordered_json choices = ordered_json::array();
        for (const auto& choice : input.choices)
            choices.push_back(choice.id);
        json["choices"] = choices;
        json["default"] =
            input.standingChoice.empty() ? ordered_json(nullptr) : ordered_json(input.standingChoice);
    }
    return json;
}

ordered_json conversionJson(const Conversion& conversion) {
    ordered_json inputs = ordered_json::array();
    for (const ConversionInput& input : conversion.inputs)
        inputs.push_back(inputJson(input));
    ordered_json outputs = ordered_json::array();
    for (const ConversionOutput& output : conversion.outputs)
        outputs.push_back({{"key", output.key},
                           {"label", output.label},
                           {"unit", output.unit},
                           {"decimals", output.decimals}});
    const bool anyOneOf = std::any_of(conversion.inputs.begin(), conversion.inputs.end(),
                                      [](const ConversionInput& i) { return i.need == InputNeed::OneOf; });
    return {{"name", conversion.id},
            {"title", conversion.title},
            {"one_of_count", anyOneOf ? conversion.choose : 0},
            {"inputs", inputs},
            {"outputs", outputs},
            {"source", conversion.source},
            {"limits", conversion.limits}};
}

std::string inputText(const Conversion& conversion, const ConversionInput& input) {
    std::string text = fmt::format("{}: {}", input.key, input.label);
    if (input.choices.empty()) {
        text += ", " + physics::rangeText(input);
        if (input.standing)
            text += fmt::format(", {} if not given", base::shortestDecimal(rounded(*input.standing)));
    } else {
        text += ":";
        for (const auto& choice : input.choices)
            text += fmt::format(" {}", choice.id);
        if (!input.standingChoice.empty()) text += fmt::format("; {} if not given", input.standingChoice);
    }
    if (input.need == InputNeed::OneOf)
        text += conversion.choose == 1 ? " (one of these)" : fmt::format(" ({} of these)", conversion.choose);
    else if (input.need == InputNeed::Optional && !input.standing && input.standingChoice.empty())
        text += " (may be left out)";
    return text;
}

void writeConversion(std::ostream& out, const Conversion& conversion) {
    out << conversion.id << "\n";
    writeParagraph(out, std::string(conversion.title) + ".", 2);
    out << "  Inputs:\n";
    for (const ConversionInput& input : conversion.inputs)
        writeParagraph(out, inputText(conversion, input), 4);
    std::string gives = "Gives:";
    for (const ConversionOutput& output : conversion.outputs)
        gives += fmt::format("{} {}{}", &output == &conversion.outputs.front() ? "" : ",", output.key,
                             output.unit.empty() ? "" : fmt::format(" ({})", output.unit));
    writeParagraph(out, gives + ".", 2);
    writeParagraph(out, "Source: " + std::string(conversion.source) + ".", 2);
    writeParagraph(out, "Limits: " + std::string(conversion.limits), 2);
}

int list(const Options& options, Streams& streams) {
    if (options.has("--json")) {
        ordered_json all = ordered_json::array();
        for (const Conversion& conversion : physics::conversions())
            all.push_back(conversionJson(conversion));
        writeJson(streams.out, {{"conversions", all}});
        return kDone;
    }
    for (const Conversion& conversion : physics::conversions()) {
        if (&conversion != &physics::conversions().front()) streams.out << "\n";
        writeConversion(streams.out, conversion);
    }
    return kDone;
}

std::string_view unitOf(const Conversion& conversion, const ConvertedValue& value) {
    if (!value.unit.empty()) return value.unit;
    const ConversionOutput* output = conversion.output(value.key);
    return output ? output->unit : std::string_view{};
}

void writeResult(std::ostream& out, const Conversion& conversion, const Converted& result) {
    std::vector<std::vector<std::string>> rows;
    for (const ConvertedValue& value : result.values) {
        const ConversionOutput* output = conversion.output(value.key);
        const std::string sign = value.bound == physics::ValueBound::AtLeast  ? "≥ "
                                 : value.bound == physics::ValueBound::AtMost ? "≤ "
                                 : value.estimate                             ? "≈ "
                                                                              : "";
        rows.push_back({std::string(output->label),
                        sign + shownNumber(value.value, physics::decimalsFor(*output, value.value)),
                        std::string(unitOf(conversion, value))});
    }
    std::size_t label = 0;
    std::size_t figure = 0;
    const auto width = [](const std::string& text) { // code points: every one here is one column wide
        return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
            return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
        }));
    };
    for (const auto& row : rows) {
        label = std::max(label, width(row[0]));
        figure = std::max(figure, width(row[1]));
    }
    for (const auto& row : rows)
        out << row[0] << std::string(label - width(row[0]) + 2 + figure - width(row[1]), ' ') << row[1]
            << (row[2].empty() ? "" : " ") << row[2] << "\n";
    for (const std::string& remark : result.remarks)
        writeParagraph(out, remark, 0);
    writeParagraph(out, "Source: " + std::string(conversion.source) + ".", 0);
    writeParagraph(out, std::string(conversion.limits), 0);
}

ordered_json resultJson(const Conversion& conversion, const physics::ConversionValues& taken,
                        const Converted& result) {
    ordered_json inputs = ordered_json::object();
    for (const ConversionInput& input : conversion.inputs) {
        const auto given = taken.find(input.key);
        if (given != taken.end()) {
            if (const auto* number = std::get_if<double>(&given->second))
                inputs[std::string(input.key)] = rounded(*number);
            else
                inputs[std::string(input.key)] = std::get<std::string>(given->second);
        } else if (input.need == InputNeed::Optional && input.standing) {
            inputs[std::string(input.key)] = rounded(*input.standing);
        } else if (input.need == InputNeed::Optional && !input.standingChoice.empty()) {
            inputs[std::string(input.key)] = input.standingChoice;
        }
    }
    ordered_json values = ordered_json::object();
    for (const ConvertedValue& value : result.values)
        values[std::string(value.key)] = {{"value", rounded(value.value)},
                                          {"unit", unitOf(conversion, value)},
                                          {"bound", boundId(value.bound)},
                                          {"estimate", value.estimate}};
    ordered_json remarks = ordered_json::array();
    for (const std::string& remark : result.remarks)
        remarks.push_back(remark);
    return {
        {"name", conversion.id},       {"inputs", inputs},           {"values", values}, {"remarks", remarks},
        {"source", conversion.source}, {"limits", conversion.limits}};
}

int wrongUsage(Streams& streams, const std::string& what) {
    streams.err << "stillroom convert: " << clean(what) << "\n"
                << "Usage: stillroom convert NAME key=value… [--json], or stillroom convert --list\n";
    return kWrongUsage;
}

int refuse(const Conversion& conversion, const ConversionProblem& problem, bool asJson, Streams& streams) {
    const std::string says = clean(physics::problemText(conversion, problem));
    if (asJson) {
        const auto number = [](const std::optional<double>& n) {
            return n ? ordered_json(rounded(*n)) : ordered_json(nullptr);
        };
        writeJson(streams.out, {{"name", conversion.id},
                                {"problem",
                                 {{"code", faultId(problem.fault)},
                                  {"key", problem.key},
                                  {"low", number(problem.low)},
                                  {"high", number(problem.high)},
                                  {"says", says}}}});
    }
    streams.err << "stillroom convert " << conversion.id << ": " << says << "\n";
    return kProblem;
}

} // namespace

int runConvert(const Options& options, Streams& streams) {
    if (options.has("--list")) {
        if (!options.plain.empty()) return wrongUsage(streams, "--list stands alone.");
        return list(options, streams);
    }
    if (options.plain.empty()) return wrongUsage(streams, "Which conversion? --list names each.");
    const std::string& name = options.plain.front();
    const Conversion* conversion = physics::conversionTyped(name);
    if (!conversion) {
        const std::string_view near = physics::conversionNear(name);
        const std::string meant = near.empty() ? "" : fmt::format(" did you mean {}?", near);
        return wrongUsage(streams,
                          fmt::format("There is no conversion \"{}\";{} --list names each.", name, meant));
    }
    exchange::TypedEntries entries;
    for (std::size_t i = 1; i < options.plain.size(); ++i) {
        const std::string& word = options.plain[i];
        const std::size_t equals = word.find('=');
        if (equals == std::string::npos || equals == 0)
            return wrongUsage(streams, "\"" + word + "\" is not of the form key=value.");
        const std::string typed = word.substr(0, equals);
        const ConversionInput* input = conversion->inputTyped(typed);
        const std::string key = input ? std::string(input->key) : typed;
        if (!entries.emplace(key, word.substr(equals + 1)).second)
            return wrongUsage(streams, key + " is given twice.");
    }
    const bool asJson = options.has("--json");
    const auto taken = exchange::readConversionEntries(*conversion, entries);
    if (!taken) return refuse(*conversion, taken.error(), asJson, streams);
    const auto result = exchange::convertTyped(*conversion, entries);
    if (!result) return refuse(*conversion, result.error(), asJson, streams);
    if (asJson)
        writeJson(streams.out, resultJson(*conversion, *taken, *result));
    else
        writeResult(streams.out, *conversion, *result);
    return kDone;
}

} // namespace stillroom::headless
