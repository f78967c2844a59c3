#include "core/physics/carbonation.h"
#include "core/physics/conversions/conversion_kit.h"

// Carbon dioxide, and degrees.
namespace stillroom::physics {

using quantity::Strength;
using quantity::Temperature;

namespace {

constexpr std::string_view kBeyondPressure =
    "Below it the air's pressure already holds more, above it the source ends at 10 bar.";

Outcome fizz(const GivenValues& given) {
    const Temperature t = given.celsius("t");
    const Strength abv = given.strength("abv");
    Answer answer;
    std::optional<Marked<GaugePressure>> pressure;
    std::optional<Marked<Fizz>> dissolved;
    if (given.has("volumes") || given.has("g_per_l")) {
        const bool volumes = given.has("volumes");
        const std::string_view key = volumes ? "volumes" : "g_per_l";
        const auto least = dissolvedAt(GaugePressure::fromBar(0), t, abv);
        const auto most = dissolvedAt(GaugePressure::fromBar(10), t, abv);
        if (!least || !most) return impossible("abv", "No figure was found for so strong a drink.");
        const double low = volumes ? least->value.volumes() : least->value.gPerL();
        const double high = volumes ? most->value.volumes() : most->value.gPerL();
        const double amount = withinWritten(given[key], low, high, 2);
        const Fizz wanted = volumes ? Fizz::fromVolumes(amount) : Fizz::fromGPerL(amount);
        if (amount == low || amount == high)
            pressure = Marked<GaugePressure>{GaugePressure::fromBar(amount == low ? 0 : 10), least->estimate};
        else
            pressure = pressureFor(wanted, t, abv);
        if (!pressure) return outside(key, low, high, kBeyondPressure);
        dissolved = Marked<Fizz>{wanted, pressure->estimate};
    } else {
        const auto gauge =
            given.has("bar") ? GaugePressure::fromBar(given["bar"]) : GaugePressure::fromPsi(given["psi"]);
        dissolved = dissolvedAt(gauge, t, abv);
        if (!dissolved)
            return impossible(given.has("bar") ? "bar" : "psi",
                              "The source ends at 10 bar, 40 °C, 30 % vol.");
        pressure = Marked<GaugePressure>{gauge, dissolved->estimate};
    }
    answer.put("volumes", dissolved->value.volumes(), dissolved->estimate);
    answer.put("g_per_l", dissolved->value.gPerL(), dissolved->estimate);
    answer.put("bar", pressure->value.bar(), pressure->estimate);
    answer.put("psi", pressure->value.psi(), pressure->estimate);
    answer.remark("Use only vessels made and tested for this pressure.");
    return answer;
}

Outcome degrees(const GivenValues& given) {
    Temperature t;
    if (given.has("celsius")) t = given.celsius("celsius");
    if (given.has("fahrenheit")) t = Temperature::fromFahrenheit(given["fahrenheit"]);
    if (given.has("kelvin"))
        t = Temperature::fromCelsius(given["kelvin"] - Temperature::fromCelsius(0).kelvin());
    return Answer().put("celsius", t.celsius()).put("fahrenheit", t.fahrenheit()).put("kelvin", t.kelvin());
}

} // namespace

std::vector<Conversion> fizzConversions() {
    using N = InputNeed;
    const double psi = GaugePressure::fromBar(10).psi();
    return {
        {"carbonation",
         "Dissolved carbon dioxide and the pressure that holds it",
         {{"volumes", "Volumes of gas", "volumes", N::OneOf, 0, 20},
          {"g_per_l", "Carbon dioxide", "g/l", N::OneOf, 0, 40},
          {"bar", "Regulator", "bar", N::OneOf, 0, 10},
          {"psi", "Regulator", "psi", N::OneOf, 0, psi},
          {"t", "Temperature of the liquid", "°C", N::Optional, 0, 40, false, 4},
          {"abv", "Strength", "% vol", N::Optional, 0, 30, false, 0}},
         {{"volumes", "Volumes of gas", "volumes", 2},
          {"g_per_l", "Carbon dioxide", "g/l", 2},
          {"bar", "Regulator, above the air's", "bar", 2},
          {"psi", "Regulator, above the air's", "psi", 1}},
         "R. F. Weiss, Mar. Chem. 2 (1974) 203; 1 volume is 1.977 g/l (IUPAC-NIST SRD 106)",
         "Pure gas over still water, given time: within 2 to 3 % of the CRC table. With alcohol an estimate; "
         "sugar "
         "lowers it a little and is not counted.",
         fizz},
        {"temperature",
         "Degrees Celsius, Fahrenheit and kelvin",
         {{"celsius", "Celsius", "°C", N::OneOf, -273.15, 10000},
          {"fahrenheit", "Fahrenheit", "°F", N::OneOf, -459.67, 18032},
          {"kelvin", "Kelvin", "K", N::OneOf, 0, 10273.15}},
         {{"celsius", "Celsius", "°C", 2},
          {"fahrenheit", "Fahrenheit", "°F", 2},
          {"kelvin", "Kelvin", "K", 2}},
         "By definition",
         "Exact.",
         degrees},
    };
}

} // namespace stillroom::physics
