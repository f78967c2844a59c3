#include "core/physics/ethanol_water.h"

#include "core/physics/bracketed_root.h"
#include "core/physics/polynomial.h"
#include "core/physics/sucrose_water.h"

#include <algorithm>
#include <cmath>

namespace stillroom::physics {

namespace {

using quantity::Density;
using quantity::MassFraction;
using quantity::Strength;
using quantity::Temperature;

// OIML R 22, Annex of Council Directive 76/766/EEC (OJ L 262, 27.9.1976, p. 149). Some public copies
// carry typing errors (C_2,3 = -2.170575700563993, C_1,1 cut short); these are the legal values.
constexpr std::array<double, 12> kA = {998.20123,   -192.9769495, 389.1238958, -1668.103923,
                                       13522.15441, -88292.78388, 306287.4042, -613838.1234,
                                       747017.2998, -547846.1354, 223446.0334, -39032.85426};
constexpr std::array<double, 7> kB = {
    0, -0.20618513, -0.0052682542, 3.6130013e-05, -3.8957702e-07, 7.169354e-09, -9.9739231e-11};
constexpr std::array<double, 12> kC1 = {0,
                                        0.1693443461530087,
                                        -10.46914743455169,
                                        71.96353469546523,
                                        -704.7478054272792,
                                        3924.090430035045,
                                        -12101.64659068747,
                                        22486.46550400788,
                                        -26055.62982188164,
                                        18523.73922069467,
                                        -7420.201433430137,
                                        1285.617841998974};
constexpr std::array<double, 11> kC2 = {0,
                                        -0.0119301300505701,
                                        0.2517399633803461,
                                        -2.170575700536993,
                                        13.53034988843029,
                                        -50.29988758547014,
                                        109.635566657757,
                                        -142.2753946421155,
                                        108.043594285623,
                                        -44.14153236817392,
                                        7.442971530188783};
constexpr std::array<double, 10> kC3 = {0,
                                        -0.0006802995733503803,
                                        0.01876837790289664,
                                        -0.2002561813734156,
                                        1.02299296671922,
                                        -2.895696483903638,
                                        4.810060584300675,
                                        -4.672147440794683,
                                        2.458043105903461,
                                        -0.5411227621436812};
constexpr std::array<double, 5> kC4 = {0, 4.075376675622027e-06, -8.76305857347111e-06, 6.515031360099368e-06,
                                       -1.51578483698721e-06};
constexpr std::array<double, 3> kC5 = {0, -2.788074354782409e-08, 1.345612883493354e-08};

constexpr double kColdest = -20;
constexpr double kWarmest = 40;
constexpr double kColdestEstimate = -60;
constexpr double kWarmestEstimate = 110;

// Where the mixture begins to freeze, °C: A. Melinder, Properties of Secondary Working Fluids (IIR 2010),
// mass fraction 0…0.60; within 0.36 K of the CRC Handbook.
constexpr std::array<double, 6> kFreezingKelvin = {253.74, -95.4, -26.48, 385.1, -28.58, -1670};
constexpr double kFreezingMidShare = 0.292361;

bool belowFreezingCurve(double p, double celsius) noexcept {
    return p <= 0.60 && celsius + 273.15 < horner(kFreezingKelvin, p - kFreezingMidShare) - 0.36;
}

// The formula at one mass fraction as a polynomial in (t - 20 °C).
std::array<double, 7> inTemperature(double p) noexcept {
    return {horner(kA, p),
            kB[1] + horner(kC1, p),
            kB[2] + horner(kC2, p),
            kB[3] + horner(kC3, p),
            kB[4] + horner(kC4, p),
            kB[5] + horner(kC5, p),
            kB[6]};
}

double extrapolated(double p, double celsius) noexcept {
    const auto mixture = inTemperature(p);
    if (celsius < kColdest) {
        const double x = kColdest - 20;
        return horner(mixture, x) + hornerSlope(mixture, x) * (celsius - kColdest);
    }
    // Water is known up here; only what ethanol takes away from it has to be carried on.
    const double x = kWarmest - 20;
    const double excessSlope = hornerSlope(mixture, x) - hornerSlope(inTemperature(0), x);
    const double waterChange = waterDensity(Temperature::fromCelsius(celsius)).kgPerM3() -
                               waterDensity(Temperature::fromCelsius(kWarmest)).kgPerM3();
    return horner(mixture, x) + waterChange + excessSlope * (celsius - kWarmest);
}

} // namespace

Density ethanolWaterDensityAt20(MassFraction ethanol) noexcept {
    return Density::fromKgPerM3(horner(kA, ethanol.fraction()));
}

std::optional<Marked<Density>> ethanolWaterDensity(MassFraction ethanol, Temperature t) noexcept {
    const double p = ethanol.fraction();
    const double celsius = t.celsius();
    if (!(p >= 0 && p <= 1 && celsius >= kColdestEstimate && celsius <= kWarmestEstimate))
        return std::nullopt;
    if (celsius < kColdest || celsius > kWarmest)
        return Marked<Density>{Density::fromKgPerM3(extrapolated(p, celsius)), true};
    return Marked<Density>{Density::fromKgPerM3(horner(inTemperature(p), celsius - 20)),
                           belowFreezingCurve(p, celsius)};
}

std::optional<Strength> strengthOf(MassFraction ethanol) noexcept {
    const double p = ethanol.fraction();
    if (!(p >= 0 && p <= 1)) return std::nullopt;
    if (p == 1) return Strength::fromPercentVol(100);
    return Strength::fromFraction(p * horner(kA, p) / kEthanolKgPerM3At20);
}

std::optional<MassFraction> massFractionOf(Strength strength) noexcept {
    const double wanted = strength.fraction();
    if (!(wanted >= 0 && wanted <= 1)) return std::nullopt;
    // Newton from above: p·rho(p) rises all the way and bends little, so this cannot leave the bracket by
    // more than the clamp catches.
    double p = wanted;
    for (int i = 0; i < 50; ++i) {
        const double rho = horner(kA, p);
        const double miss = p * rho / kEthanolKgPerM3At20 - wanted;
        const double slope = (rho + p * hornerSlope(kA, p)) / kEthanolKgPerM3At20;
        const double next = std::clamp(p - miss / slope, 0.0, 1.0);
        if (std::abs(next - p) < 1e-15) return MassFraction::fromFraction(next);
        p = next;
    }
    return MassFraction::fromFraction(p);
}

std::optional<Marked<MassFraction>> massFractionFromDensity(Density density, Temperature t) noexcept {
    const auto water = ethanolWaterDensity(MassFraction::fromFraction(0), t);
    if (!water) return std::nullopt;
    const auto root = bracketedRoot(
        [&](double p) {
            return ethanolWaterDensity(MassFraction::fromFraction(p), t)->value.kgPerM3() - density.kgPerM3();
        },
        0.0, 1.0, 1e-13);
    if (!root) return std::nullopt;
    const auto share = MassFraction::fromFraction(*root);
    return Marked<MassFraction>{share, ethanolWaterDensity(share, t)->estimate};
}

} // namespace stillroom::physics
