#pragma once

#include "core/physics/composition.h"
#include "core/physics/conversions/conversions.h"
#include "core/physics/marked.h"
#include "core/quantity/fraction.h"
#include "core/quantity/temperature.h"
#include "core/quantity/volume.h"

#include <string_view>
#include <vector>

namespace stillroom::physics {

// What the conversions are written with. Not for others.

using Outcome = tl::expected<Converted, ConversionProblem>;

// Values already checked against their inputs, with standing values for those not given.
class GivenValues {
  public:
    GivenValues(const Conversion& conversion, const ConversionValues& values)
        : m_conversion(conversion),
          m_values(values) {}
    bool has(std::string_view key) const { return m_values.find(key) != m_values.end(); }
    double operator[](std::string_view key) const;
    std::string_view word(std::string_view key) const;
    quantity::Temperature celsius(std::string_view key) const;
    quantity::Strength strength(std::string_view key) const;
    quantity::MassFraction percent(std::string_view key) const;
    quantity::Volume ml(std::string_view key) const;

  private:
    const Conversion& m_conversion;
    const ConversionValues& m_values;
};

class Answer {
  public:
    Answer& put(std::string_view key, double value, bool estimate = false,
                ValueBound bound = ValueBound::Exact) {
        m_converted.values.push_back({key, value, estimate, bound, {}});
        return *this;
    }
    template <class T>
    Answer& put(std::string_view key, const std::optional<T>& value, bool estimate = false) {
        return value ? put(key, *value, estimate) : *this;
    }
    Answer& in(std::string_view unit) { // of the value put last
        m_converted.values.back().unit = unit;
        return *this;
    }
    Answer& remark(std::string_view sentence) {
        m_converted.remarks.push_back(sentence);
        return *this;
    }
    operator Outcome() const { return m_converted; } // NOLINT: an answer is an outcome

  private:
    Converted m_converted;
};

tl::unexpected<ConversionProblem> impossible(std::string_view key, std::string_view advice);
tl::unexpected<ConversionProblem> outside(std::string_view key, std::optional<double> low,
                                          std::optional<double> high, std::string_view advice = {});

// Ethanol, sucrose, citric acid and salt in water, per ml at 20 °C.
struct PlainLiquid {
    quantity::Strength strength;
    double sugarGPerL = 0;
    double acidGPerL = 0;
    double saltGPerL = 0;
};
// nullopt when they do not fit into one litre.
std::optional<Composition> perMl(const PlainLiquid& liquid);
Composition times(const Composition& perMl, double ml);
Composition waterOf(double grams);
double waterGPerMl(); // at 20 °C

// Strong and sweet together: 0.1 to 0.3 % in volume, since nobody published a measured table (mixture.h).
bool isStrongAndSweet(const Composition& mixture);

inline constexpr std::string_view kDoesNotFit =
    "So much alcohol and sugar do not fit into one litre. Check both figures.";
inline constexpr double kMostMl = 1e7;     // ten cubic metres
inline constexpr double kMostGPerL = 1300; // no syrup holds more

std::vector<Conversion> strengthConversions();
std::vector<Conversion> syrupConversions();
std::vector<Conversion> mixingConversions();
std::vector<Conversion> coldConversions();
std::vector<Conversion> acidConversions();
std::vector<Conversion> fizzConversions();
std::vector<Conversion> measureConversions();
std::vector<Conversion> servingConversions();

} // namespace stillroom::physics
