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
        if (!sentence.empty()) m_converted.remarks.emplace_back(sentence);
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
// The same, or why not: they do not fit, or there is more of one than even hot water dissolves. `sugarKey` is
// the input that states the sugar; acid and salt are called so.
tl::expected<Composition, ConversionProblem> liquidPerMl(const PlainLiquid& liquid,
                                                         std::string_view sugarKey = "sugar");
std::optional<ConversionProblem> neverASolution(const Composition& mixture, std::string_view sugarKey,
                                                std::string_view acidKey = "acid");
// "More salt than stays dissolved at 20 °C: …", or empty.
std::string undissolvedRemark(const Composition& mixture,
                              quantity::Temperature t = quantity::Temperature::fromCelsius(20));
Composition times(const Composition& perMl, double ml);
Composition waterOf(double grams);
double waterGPerMl(); // at 20 °C

// Strong and sweet together: 0.1 to 0.3 % in volume, since nobody published a measured table (mixture.h). Or
// more sugar in its water than SPS-4 goes to, 85 g/100 g.
bool volumeIsEstimate(const Composition& mixture);

// A figure as it is written, with so many decimals, may lie that little outside [low, high]: then the end of
// it.
double withinWritten(double value, double low, double high, int decimals);

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
