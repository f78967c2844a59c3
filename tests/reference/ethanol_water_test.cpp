#include "core/physics/ethanol_water.h"
#include "core/physics/hydrometer.h"
#include "core/physics/mixture.h"
#include "core/physics/proof.h"
#include "tests/reference/published.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::physics;
using quantity::Density;
using quantity::MassFraction;
using quantity::Strength;
using quantity::Temperature;
using reference::Comparison;
using reference::dataset;

namespace {

constexpr const char* kFile = "ethanol-water";

MassFraction massPercent(double percent) {
    return MassFraction::fromPercent(percent);
}
Temperature celsius(double t) {
    return Temperature::fromCelsius(t);
}

double rho(MassFraction p, Temperature t) {
    const auto density = ethanolWaterDensity(p, t);
    REQUIRE(density);
    return density->value.kgPerM3();
}

std::string at(const nlohmann::json& row) {
    return row.dump();
}

double waterAt60F() {
    return rho(massPercent(0), kSixtyFahrenheit);
}

double inAir(double inVacuo) {
    return inVacuo - 1.2;
} // for ratios the weights cancel

} // namespace

TEST_CASE("R 22 density agrees with values computed apart from this code", "[reference][ethanol]") {
    Comparison density(kFile, "formula_self_values", "density by mass fraction and t, kg/m3", 0.00051);
    for (const auto& row : dataset(kFile, "formula_self_values")["rows"])
        density.add(rho(massPercent(row[0]), celsius(row[1])), row[2], at(row));
    density.check();
}

TEST_CASE("Strength by density is right to 0.01 percent at every temperature of R 22",
          "[reference][ethanol]") {
    Comparison strength(kFile, "formula_self_values", "% vol by density and t, -20 to +40 C", 0.01);
    for (const auto& row : dataset(kFile, "formula_self_values")["rows"]) {
        const auto share = massFractionFromDensity(Density::fromKgPerM3(row[2]), celsius(row[1]));
        if (!share && row[0].get<double>() == 0)
            continue; // the printed density rounds to above that of water
        if (!share && row[0].get<double>() == 100) continue; // or to below that of ethanol
        REQUIRE(share);
        strength.add(strengthOf(share->value)->percentVol(), strengthOf(massPercent(row[0]))->percentVol(),
                     at(row));
    }
    strength.check();
}

TEST_CASE("Strength and density at 20 C agree with OIML R 22 Table IVa", "[reference][ethanol]") {
    Comparison density(kFile, "abv_density_20C", "density by % vol at 20 C, kg/m3", 0.0051);
    Comparison strength(kFile, "abv_density_20C", "% vol by density at 20 C", 0.01);
    for (const auto& row : dataset(kFile, "abv_density_20C")["rows"]) {
        const auto p = massFractionOf(Strength::fromPercentVol(row[0]));
        REQUIRE(p);
        density.add(rho(*p, celsius(20)), row[1], at(row));
        const auto back = massFractionFromDensity(Density::fromKgPerM3(row[1]), celsius(20));
        REQUIRE(back);
        strength.add(strengthOf(back->value)->percentVol(), row[0], at(row));
    }
    density.check();
    strength.check();
}

TEST_CASE("R 22 density agrees with Perry 7th ed. up to 12 g per 100 g", "[reference][ethanol]") {
    Comparison density(kFile, "perry_mass_density_20C", "density by mass %, kg/m3", 0.052);
    for (const auto& row : dataset(kFile, "perry_mass_density_20C")["rows"])
        density.add(rho(massPercent(row[0]), celsius(20)), row[1].get<double>() * 1000, at(row));
    density.check();
}

// The CRC column is printed to 0.1 kg/m3 and departs from R 22 above 44 % mass: the spread between sources.
TEST_CASE("R 22 density agrees with the CRC Handbook within the spread of the two", "[reference][ethanol]") {
    Comparison low(kFile, "crc_ethanol_20C", "density to 44 mass %, kg/m3", 0.12);
    Comparison all(kFile, "crc_ethanol_20C", "density to 100 mass %, kg/m3", 0.22);
    for (const auto& row : dataset(kFile, "crc_ethanol_20C")["rows"]) {
        const double computed = rho(massPercent(row[0]), celsius(20));
        const double published = row[1].get<double>() * 1000;
        if (row[0].get<double>() <= 44) low.add(computed, published, at(row));
        all.add(computed, published, at(row));
    }
    low.check();
    all.check();
}

TEST_CASE("Mass percent and specific gravity agree with the USP table at 60 F", "[reference][ethanol]") {
    Comparison mass(kFile, "usp_alcoholometric_15_56C", "mass % by % vol at 60 F", 0.0051);
    Comparison gravity(kFile, "usp_alcoholometric_15_56C", "specific gravity in air at 60/60 F", 1e-4);
    Comparison warmer(kFile, "usp_alcoholometric_15_56C", "specific gravity in air at 25/25 C", 1e-4);
    for (const auto& row : dataset(kFile, "usp_alcoholometric_15_56C")["rows"]) {
        const auto p = massFractionOf(UsProof::fromDegrees(2 * row[0].get<double>()));
        REQUIRE(p);
        mass.add(p->percent(), row[1], at(row));
        warmer.add(inAir(rho(*p, celsius(25))) / inAir(rho(massPercent(0), celsius(25))), row[2], at(row));
        gravity.add(inAir(rho(*p, kSixtyFahrenheit)) / inAir(waterAt60F()), row[3], at(row));
    }
    mass.check();
    gravity.check();
    warmer.check();
}

TEST_CASE("Strength by mass agrees with Lange 15th ed. within its rounding", "[reference][ethanol]") {
    constexpr double kWaterAt4C = 999.972;
    Comparison strength(kFile, "lange_mass_vol_sg", "% vol by mass % (printed to 0.1)", 0.11);
    Comparison density(kFile, "lange_mass_vol_sg", "density from specific gravity 20/4, kg/m3", 0.037);
    for (const auto& row : dataset(kFile, "lange_mass_vol_sg")["rows"]) {
        strength.add(strengthOf(massPercent(row[0]))->percentVol(), row[1], at(row));
        density.add(rho(massPercent(row[0]), celsius(20)), row[2].get<double>() * kWaterAt4C, at(row));
    }
    strength.check();
    density.check();
}

TEST_CASE("US proof is twice the volume at 60 F and a little more in % vol", "[reference][ethanol]") {
    Comparison gravity(kFile, "us_proof_definition", "specific gravity of ethanol in vacuum, 60/60 F", 1e-4);
    gravity.add(rho(massPercent(100), kSixtyFahrenheit) / waterAt60F(), 0.7939);
    gravity.check();
    Comparison strength(kFile, "us_proof_definition", "% vol at 20 C by proof", 0.00051);
    strength.add(strengthOf(UsProof::fromDegrees(100))->percentVol(), 50.061, "100 proof");
    strength.add(strengthOf(UsProof::fromDegrees(80))->percentVol(), 40.068, "80 proof");
    strength.check();
}

TEST_CASE("Proof by volume parts agrees with 27 CFR 30.66 Table 6", "[reference][ethanol]") {
    Comparison vacuum(kFile, "ttb_table_6", "specific gravity in vacuum at 60/60 F", 7.3e-5);
    Comparison air(kFile, "ttb_table_6", "specific gravity in air at 60/60 F", 8e-5);
    Comparison water(kFile, "ttb_table_6", "parts of water in 100 parts of spirit", 0.012);
    for (const auto& row : dataset(kFile, "ttb_table_6")["rows"]) {
        const auto p = massFractionOf(UsProof::fromDegrees(row[0]));
        REQUIRE(p);
        const double density = rho(*p, kSixtyFahrenheit);
        vacuum.add(density / waterAt60F(), row[4], at(row));
        air.add(inAir(density) / inAir(waterAt60F()), row[3], at(row));
        water.add(100 * (1 - p->fraction()) * density / waterAt60F(), row[2], at(row));
    }
    vacuum.check();
    air.check();
    water.check();
}

TEST_CASE("The weight of a gallon agrees with 27 CFR 30.65 Table 5", "[reference][ethanol]") {
    constexpr double kLbPerGallonPerKgPerM3 = 3.785411784e-3 / 0.45359237;
    Comparison weight(kFile, "ttb_table_5", "lb in air per US gallon at 60 F", 0.0006);
    for (const auto& row : dataset(kFile, "ttb_table_5")["rows"]) {
        const auto p = massFractionOf(UsProof::fromDegrees(row[0]));
        REQUIRE(p);
        const Density density = Density::fromKgPerM3(rho(*p, kSixtyFahrenheit));
        weight.add(apparentDensityInAir(density).kgPerM3() * kLbPerGallonPerKgPerM3, row[1], at(row));
    }
    weight.check();
}

TEST_CASE("Hydrometer readings are corrected as in 27 CFR 30.61 Table 1", "[reference][ethanol]") {
    Comparison proof(kFile, "ttb_table_1_temperature", "true proof by indication and t", 0.111);
    for (const auto& row : dataset(kFile, "ttb_table_1_temperature")["rows"]) {
        const auto corrected = trueProof(UsProof::fromDegrees(row[0]), Temperature::fromFahrenheit(row[1]));
        REQUIRE(corrected);
        proof.add(corrected->value.degrees(), row[2], at(row));
    }
    proof.check();
}

// The manual's arithmetic cuts digits (its own example 30.66a does so openly), so each example has the
// tolerance of the digits it prints.
TEST_CASE("The Gauging Manual's worked examples come out", "[reference][ethanol]") {
    constexpr const char* kId = "ttb_worked_examples";
    constexpr double kGallonM3 = 3.785411784e-3;
    constexpr double kPoundKg = 0.45359237;
    const auto massFractionAt = [](double degrees) { return *massFractionOf(UsProof::fromDegrees(degrees)); };

    Comparison indication(kFile, kId, "30.61 true proof of 193 at 75 F", 0.1);
    indication.add(trueProof(UsProof::fromDegrees(193), Temperature::fromFahrenheit(75))->value.degrees(),
                   189.5);
    indication.check();

    const Density of190 = Density::fromKgPerM3(rho(massFractionAt(190), kSixtyFahrenheit));
    const double gallonsPerPound = kPoundKg / apparentDensityInAir(of190).kgPerM3() / kGallonM3;
    Comparison gallons(kFile, kId, "30.64a wine gallons of 81,000 lb at 190 proof", 1.0);
    gallons.add(81000 * gallonsPerPound, 11921.6);
    gallons.check();
    Comparison proofGallons(kFile, kId, "30.64a proof gallons of 81,000 lb at 190 proof", 2.0);
    proofGallons.add(81000 * gallonsPerPound * 1.90, 22650.8);
    proofGallons.check();

    Comparison water(kFile, kId, "30.64b lb of water from 200 to 190 proof", 0.15);
    water.add(1000 * (massFractionAt(200).fraction() / massFractionAt(190).fraction() - 1), 82.03);
    water.check();

    const double massBefore = rho(massFractionAt(191), kSixtyFahrenheit) * 100;
    const double added = massBefore * (massFractionAt(191).fraction() / massFractionAt(188).fraction() - 1);
    Comparison waterGallons(kFile, kId, "30.66a gallons of water from 191 to 188 proof", 0.05);
    waterGallons.add(added / waterAt60F(), 1.84);
    waterGallons.check();
}

TEST_CASE("Contraction of ethanol and water comes out", "[reference][ethanol]") {
    Comparison volume(kFile, "contraction_computed", "ml of mixture", 0.00051);
    Comparison strength(kFile, "contraction_computed", "% vol of mixture", 0.00051);
    for (const auto& row : dataset(kFile, "contraction_computed")["rows"]) {
        Composition parts[2];
        parts[0][Substance::Ethanol] = row[0].get<double>() * 0.78924;
        parts[1][Substance::Water] = row[1].get<double>() * 0.9982012;
        Composition both = parts[0];
        both += parts[1];
        volume.add(volumeAt20(both).ml(), row[2], at(row));
        strength.add(strengthAt20(both)->percentVol(), row[4], at(row));
        CHECK(contractionAt20(parts).ml() == Approx(row[3].get<double>()).margin(0.0007));
    }
    volume.check();
    strength.check();

    // The page weighs its ethanol at 0.7945 g/ml, that of about 14 °C; at 15 °C its volume comes out, at 20
    // °C it is 192.93.
    Composition published;
    published[Substance::Ethanol] = 100 * rho(massPercent(100), celsius(15));
    published[Substance::Water] = 100 * rho(massPercent(0), celsius(15));
    Comparison litres(kFile, "contraction_published", "l from 100 l ethanol and 100 l water at 15 C", 0.02);
    const auto cool = volumeAt(published, celsius(15));
    REQUIRE(cool);
    litres.add(cool->value.litres(), 192.75);
    litres.check();
    Comparison massShare(kFile, "contraction_published", "mass %", 0.1);
    massShare.add(100 * 79.45 / 179.45, 44.2);
    massShare.check();
}

TEST_CASE("Single anchor values of OIML R 22 and OIV come out", "[reference][ethanol]") {
    Comparison density(kFile, "oiv_oiml_anchor_points", "density, kg/m3", 0.0051);
    for (const auto& point : dataset(kFile, "oiv_oiml_anchor_points")["points"])
        density.add(rho(massPercent(point["mass_percent"]), celsius(point["t_C"])), point["rho"],
                    point.dump());
    density.check();
}
