#pragma once

#include "core/spec/more_readings.h"

#include <optional>
#include <string>
#include <vector>

// How a reading came about, step by step, recorded from the evaluation itself: the numbers are those the pass
// added up, and the last step ends in the reading.
namespace stillroom::spec {

struct WorkingInput {
    std::string name; // "aged rum", "ethanol", "volume"
    double value = 0;
    std::string unit;
    std::string source; // who says so: "label", "handbook: USDA SR28 …", "assumed"; may be empty
    std::string detail; // "60 ml × 0.3157 g/ml"; may be empty
    int line = -1;      // of the spec, when the input is one
    bool estimate = false;
};

struct WorkingStep {
    // How the result follows from the inputs' values, for whoever wants to check it.
    enum class Op : std::uint8_t {
        Given,   // the result is stated
        Sum,     // of all inputs, times factor
        Ratio,   // first over second, times factor
        Product, // of all inputs, times factor
        Formula, // by the named formula
        Bound,   // what the spec leaves open makes a bound of it; see label
    };
    std::string label;   // "Ethanol of the mixed lines"
    std::string formula; // "mass fraction → density: OIML R 22 (1975), at 20 °C"
    std::vector<WorkingInput> inputs;
    double factor = 1;
    double result = 0;
    std::string unit;
    int decimals = 3; // sensible to show; the number itself is not rounded
    Op op = Op::Formula;
    bool estimate = false;
};

struct Working {
    Quantity quantity = Quantity::Strength; // nothing of it holds when it is of a further reading
    std::optional<More> more = std::nullopt;
    Stage stage = Stage::Mixed;
    Reading reading;
    std::vector<WorkingStep> steps; // empty when there is nothing to read
    std::vector<std::string> notes; // rounding, what was left out, what is estimated and why
};

Working working(const Spec& spec, const Bindings& bindings, Quantity quantity, Stage stage);
Working working(const Spec& spec, const Bindings& bindings, More more, Stage stage);

std::string_view workingId(const Working& working); // of the quantity or the further reading
std::string_view workingUnit(const Working& working);
int workingDecimals(const Working& working);

// For the clipboard: plain text, one step a paragraph, every number with its unit.
std::string workingText(const Working& working);

} // namespace stillroom::spec
