#pragma once

#include <tl/expected.hpp>

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace stillroom::physics {

// The sums people do beside a recipe, each under a name, for the desk and for `stillroom convert`. A
// conversion only arranges what the rest of this folder computes; it has no formula of its own.

enum class InputNeed : std::uint8_t {
    Required,
    OneOf,    // Conversion::choose of these are given, and the others follow
    Optional, // `standing` is taken when it is not given
};

struct ConversionChoice {
    std::string_view id;
    std::string_view label;
};

// A number within [low, high] in `unit`, or one word of `choices`.
struct ConversionInput {
    std::string_view key;
    std::string_view label;
    std::string_view unit; // "" for a plain number or a word
    InputNeed need = InputNeed::Required;
    double low = 0;
    double high = 0;
    bool aboveLow = false; // `low` itself is not allowed
    std::optional<double> standing = std::nullopt;
    std::vector<ConversionChoice> choices = {};
    std::string_view standingChoice = {};
};

struct ConversionOutput {
    std::string_view key; // that of the input when it is the same thing
    std::string_view label;
    std::string_view unit;
    int decimals = 2;
    int significant = 0; // at least so many digits of a small figure, however many decimals that takes
};
int decimalsFor(const ConversionOutput& output, double value);

using ConversionValue = std::variant<double, std::string>;
using ConversionValues = std::map<std::string, ConversionValue, std::less<>>;

enum class ValueBound : std::uint8_t { Exact, AtLeast, AtMost };

struct ConvertedValue {
    std::string_view key;
    double value = 0;
    bool estimate = false; // a formula stretched, or a figure nobody measured
    ValueBound bound = ValueBound::Exact;
    std::string_view unit = {}; // where the inputs decide it; else that of the output
};

struct Converted {
    std::vector<ConvertedValue> values; // in the order of outputs; one that has no answer is left out
    std::vector<std::string> remarks;   // what the reader should know about this very result
};

enum class ConversionFault : std::uint8_t {
    UnknownInput, // no such key
    Missing,      // a required one, or too few of the OneOf inputs
    TooMany,      // more of the OneOf inputs than `choose`
    NotANumber,
    OtherUnit, // a number in a unit that does not fit
    NotAChoice,
    OutOfRange,
    Impossible, // each figure is fine and together they cannot be
};

struct ConversionProblem {
    ConversionFault fault = ConversionFault::Impossible;
    std::string key;           // which input; of TooMany the one too many, of Missing the first that would do
    std::string text;          // as typed, for NotANumber, OtherUnit and NotAChoice
    std::optional<double> low; // what would be allowed, when that is known
    std::optional<double> high; // likewise
    std::string advice;         // whole sentences, or empty
};

class GivenValues;

struct Conversion {
    std::string_view id;    // "strength"
    std::string_view title; // one line
    std::vector<ConversionInput> inputs;
    std::vector<ConversionOutput> outputs;
    std::string_view source;
    std::string_view limits; // where it ends and what it does not count
    tl::expected<Converted, ConversionProblem> (*compute)(const GivenValues&) = nullptr;
    std::size_t choose = 1; // how many of the OneOf inputs
    // More of them may be given, which then over-determine: the answer says by how much they contradict.
    bool mayContradict = false;

    const ConversionInput* input(std::string_view key) const;
    const ConversionInput* inputTyped(std::string_view key) const; // case aside
    const ConversionOutput* output(std::string_view key) const;
};

// In the order they are listed. The ids are stable.
const std::vector<Conversion>& conversions();
const Conversion* conversion(std::string_view id);        // nullptr when there is none
const Conversion* conversionTyped(std::string_view name); // case aside
std::string_view conversionNear(std::string_view name);   // for "did you mean"; empty when none is near

// Checks every value against its input, then computes. Numbers are in the input's unit.
tl::expected<Converted, ConversionProblem> convert(const Conversion& conversion,
                                                   const ConversionValues& values);

// Which input, what is wrong, what range is allowed and what to do, in one or two sentences. Inputs are
// called by their keys where a person types keys, by their labels where there are fields.
enum class InputNaming : std::uint8_t { Key, Label };
std::string problemText(const Conversion& conversion, const ConversionProblem& problem,
                        InputNaming naming = InputNaming::Key);
// "0 to 100 % vol", "above 0, up to 1000 ml"
std::string rangeText(const ConversionInput& input);

} // namespace stillroom::physics
