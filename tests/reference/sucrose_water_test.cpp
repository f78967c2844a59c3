#include "core/physics/sucrose_water.h"

#include "core/physics/hydrometer.h"
#include "core/physics/mixture.h"
#include "tests/reference/published.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::physics;
using quantity::Density;
using quantity::MassFraction;
using quantity::Temperature;
using reference::Comparison;
using reference::dataset;

namespace {

constexpr const char* kFile = "sucrose-water";

double rho(double massPercent, double celsius) {
    const auto density =
        sucroseWaterDensity(MassFraction::fromPercent(massPercent), Temperature::fromCelsius(celsius));
    REQUIRE(density);
    return density->value.kgPerM3();
}

double inAir(double inVacuo) {
    return inVacuo - 1.2;
}

double polynomial(const nlohmann::json& highestFirst, double x) {
    double sum = 0;
    for (const auto& coefficient : highestFirst)
        sum = sum * x + coefficient.get<double>();
    return sum;
}

} // namespace

TEST_CASE("SPS-4 density agrees with values computed apart from this code", "[reference][sucrose]") {
    Comparison density(kFile, "sps4_self_values", "syrup density by mass % and t, kg/m3", 0.0051);
    for (const auto& row : dataset(kFile, "sps4_self_values")["rows"])
        density.add(rho(row[0], row[1]), row[2], row.dump());
    density.check();
}

// CRC runs low above 60 g/100 g; SPS-4 is the standard and stands.
TEST_CASE("SPS-4 density agrees with the CRC Handbook within the spread of the two", "[reference][sucrose]") {
    Comparison low(kFile, "crc_sucrose_20C", "syrup density to 42 mass %, kg/m3", 0.105);
    Comparison middle(kFile, "crc_sucrose_20C", "syrup density to 50 mass %, kg/m3", 0.155);
    Comparison all(kFile, "crc_sucrose_20C", "syrup density to 84 mass %, kg/m3", 0.825);
    for (const auto& row : dataset(kFile, "crc_sucrose_20C")["rows"]) {
        const double computed = rho(row[0], 20);
        const double published = row[1].get<double>() * 1000;
        if (row[0].get<double>() <= 42) low.add(computed, published, row.dump());
        if (row[0].get<double>() <= 50) middle.add(computed, published, row.dump());
        all.add(computed, published, row.dump());
    }
    low.check();
    middle.check();
    all.check();
}

TEST_CASE("Relative density agrees with the Beet-Sugar Handbook", "[reference][sucrose]") {
    Comparison density(kFile, "relative_density_20_20", "1000 x relative density 20/20", 0.06);
    for (const auto& row : dataset(kFile, "relative_density_20_20")["rows"])
        density.add(1000 * rho(row[0], 20) / rho(0, 20), row[1], row.dump());
    density.check();
}

// Fits to the NBS C440 and ASBC tables, evaluated at the specific gravity in air that SPS-4 gives.
TEST_CASE("Brix and Plato from specific gravity agree with the published fits", "[reference][sucrose]") {
    const auto gravity = [](double percent) { return inAir(rho(percent, 20)) / inAir(rho(0, 20)); };
    Comparison brixFit(kFile, "brix_from_sg", "Brix by apparent gravity, 5 to 40", 0.023);
    Comparison platoFit(kFile, "plato_from_sg", "Plato by apparent gravity, 5 to 25", 0.0135);
    for (int percent = 5; percent <= 40; ++percent) {
        const auto density = Density::fromKgPerM3(rho(percent, 20));
        const auto computed = brixFromDensity(density, Temperature::fromCelsius(20));
        REQUIRE(computed);
        const double s = gravity(percent);
        brixFit.add(computed->value.percent(), polynomial(dataset(kFile, "brix_from_sg")["coefficients"], s));
        if (percent <= 25)
            platoFit.add(computed->value.percent(),
                         polynomial(dataset(kFile, "plato_from_sg")["coefficients"], s));
    }
    brixFit.check();
    platoFit.check();
}

// From memory, fallbacks elsewhere: here only a check that nothing is far off.
TEST_CASE("The remembered density formulas lie near SPS-4", "[reference][sucrose]") {
    Comparison lyle(kFile, "density_simple_lyle", "density by Lyle's formula, 0 to 80 Brix, kg/m3", 2.7);
    for (int b = 0; b <= 80; b += 5)
        lyle.add(rho(b, 20), 1000 * (1 + b * (b + 200.0) / 54000));
    lyle.check();
    Comparison gravity(kFile, "sg_from_brix", "specific gravity by Brix, 5 to 30", 0.00014);
    for (int b = 5; b <= 30; ++b)
        gravity.add(rho(b, 20) / rho(0, 20), 1 + b / (258.6 - 227.1 * b / 258.2));
    gravity.check();
}

TEST_CASE("The weight of a gallon of syrup agrees with NBS Circular C440", "[reference][sucrose]") {
    constexpr double kLbPerGallonPerKgPerM3 = 3.785411784e-3 / 0.45359237;
    Comparison weight(kFile, "nbs_c440_weight_per_gallon", "lb in air per US gallon at 20 C", 0.00081);
    for (const auto& row : dataset(kFile, "nbs_c440_weight_per_gallon")["rows"]) {
        const auto apparent = apparentDensityInAir(Density::fromKgPerM3(rho(row[0], 20)));
        weight.add(apparent.kgPerM3() * kLbPerGallonPerKgPerM3, row[1], row.dump());
    }
    weight.check();
}

TEST_CASE("Kitchen syrups by weight come out", "[reference][sucrose]") {
    Comparison brixes(kFile, "simple_syrups_computed", "Brix by parts", 0.00051);
    // A syrup's water is that of R 22, 0.0027 kg/m3 lighter at 20 °C than the water of SPS-4.
    Comparison density(kFile, "simple_syrups_computed", "syrup density by parts, kg/m3", 0.0078);
    Comparison sugar(kFile, "simple_syrups_computed", "sugar g/l by parts", 0.051);
    for (const auto& row : dataset(kFile, "simple_syrups_computed")["rows"]) {
        Composition syrup;
        syrup[Substance::Sucrose] = row[0];
        syrup[Substance::Water] = row[1];
        brixes.add(brix(syrup)->percent(), row[2], row.dump());
        density.add(densityAt20(syrup)->kgPerM3(), row[3], row.dump());
        sugar.add(1000 * syrup.sugarGrams() / volumeAt20(syrup).ml(), row[4], row.dump());
    }
    brixes.check();
    density.check();
    sugar.check();
}
