#include "core/physics/solubility.h"

#include "core/physics/water_activity.h"

#include <algorithm>
#include <array>
#include <span>

namespace stillroom::physics {

namespace {

using quantity::MassFraction;
using quantity::Temperature;

struct Row {
    double celsius;
    double massPercent;
};

// Salt Institute, "Solubility of salt at various temperatures": ice and brine end together at -21.11 °C.
constexpr std::array<Row, 13> kSalt{{{-21.11, 23.31},
                                     {-17.78, 23.83},
                                     {-12.22, 24.7},
                                     {-6.67, 25.53},
                                     {-1.1, 26.16},
                                     {0, 26.29},
                                     {10, 26.36},
                                     {21.11, 26.45},
                                     {37.78, 26.68},
                                     {51.67, 26.92},
                                     {65.56, 27.21},
                                     {79.44, 27.62},
                                     {100, 28.12}}};
// An encyclopedia's table; its own source was not seen.
constexpr std::array<Row, 10> kCitric{{{10, 54},
                                       {20, 59.2},
                                       {30, 64.3},
                                       {40, 68.6},
                                       {50, 70.9},
                                       {60, 73.5},
                                       {70, 76.2},
                                       {80, 78.8},
                                       {90, 81.4},
                                       {100, 84}}};
// Combs and Bele, as quoted in Lowe, Experimental Cookery: 20 and 63 °C. The last from memory.
constexpr std::array<Row, 3> kGlucose{{{20, 49.7}, {63, 73.7}, {91, 85}}};
// A page without a source says 375 g in 100 ml of water at 20 °C. The last from memory.
constexpr std::array<Row, 2> kFructose{{{20, 78.9}, {55, 88}}};

std::span<const Row> rowsOf(Substance substance) noexcept {
    switch (substance) {
    case Substance::Salt:
        return kSalt;
    case Substance::Citric:
        return kCitric;
    case Substance::Glucose:
        return kGlucose;
    case Substance::Fructose:
        return kFructose;
    default:
        return {};
    }
}

constexpr std::array<Substance, 5> kKnown{Substance::Sucrose, Substance::Glucose, Substance::Fructose,
                                          Substance::Citric, Substance::Salt};

// The first of which there is more than `most` allows.
template <class F>
std::optional<Undissolved> firstBeyond(const Composition& mixture, F&& most) noexcept {
    const double water = mixture[Substance::Water];
    for (const Substance substance : kKnown) {
        const double grams = mixture[substance];
        if (!(grams > 0) || !(water >= 0)) continue;
        const auto share = MassFraction::fromFraction(grams / (grams + water));
        const MassFraction limit = most(substance);
        if (share > limit) return Undissolved{substance, share, limit};
    }
    return std::nullopt;
}

} // namespace

std::optional<SolubilityEnds> solubilityEnds(Substance substance) noexcept {
    const auto celsius = [](double t) { return Temperature::fromCelsius(t); };
    if (substance == Substance::Sucrose)
        return SolubilityEnds{celsius(0), celsius(100), "Herzfeld 1892, as tabulated by Mohos 2010"};
    const auto rows = rowsOf(substance);
    if (rows.empty()) return std::nullopt;
    std::string_view source = "from memory";
    if (substance == Substance::Salt) source = "Salt Institute, solubility of salt";
    if (substance == Substance::Citric) source = "an encyclopedia's table";
    if (substance == Substance::Glucose) source = "Combs and Bele, as quoted in Lowe, Experimental Cookery";
    return SolubilityEnds{celsius(rows.front().celsius), celsius(rows.back().celsius), source};
}

std::optional<MassFraction> solubility(Substance substance, Temperature t) noexcept {
    if (substance == Substance::Sucrose) return sucroseSolubility(t);
    const auto rows = rowsOf(substance);
    const double at = t.celsius();
    if (rows.empty() || !(at >= rows.front().celsius && at <= rows.back().celsius)) return std::nullopt;
    std::size_t i = 1;
    while (i + 1 < rows.size() && rows[i].celsius < at)
        ++i;
    const Row& a = rows[i - 1];
    const Row& b = rows[i];
    const double share = (at - a.celsius) / (b.celsius - a.celsius);
    return MassFraction::fromPercent(a.massPercent + share * (b.massPercent - a.massPercent));
}

std::optional<Undissolved> undissolvedAt(const Composition& mixture, Temperature t) noexcept {
    return firstBeyond(mixture, [t](Substance s) {
        const auto ends = solubilityEnds(s);
        return *solubility(s, std::clamp(t, ends->coldest, ends->warmest));
    });
}

std::optional<Undissolved> neverDissolved(const Composition& mixture) noexcept {
    return firstBeyond(mixture, [](Substance s) { return *solubility(s, solubilityEnds(s)->warmest); });
}

} // namespace stillroom::physics
