#include "core/physics/acid_ph.h"
#include "core/physics/carbonation.h"
#include "core/physics/sucrose_water.h"
#include "core/physics/titratable_acid.h"
#include "tests/reference/published.h"
#include "tests/support/catch.h"

#include <map>

using namespace stillroom;
using namespace stillroom::physics;
using quantity::Temperature;
using reference::Comparison;
using reference::dataset;

namespace {

constexpr const char* kFile = "acids";

const std::map<std::string, Substance> kAcids = {
    {"citric", Substance::Citric},
    {"malic", Substance::Malic},
    {"tartaric", Substance::Tartaric},
    {"lactic", Substance::Lactic},
    {"acetic", Substance::Acetic},
    {"succinic", Substance::Succinic},
    {"phosphoric", Substance::Phosphoric},
    {"phosphoric (to pH 8.2, about 2 of 3 protons)", Substance::Phosphoric}};

// One litre of solution, near enough: the acid's own volume is made up by less water.
Composition molar(Substance acid, double gPerMol, double molPerL, double mlPerGram) {
    Composition c;
    c[acid] = gPerMol * molPerL;
    c[Substance::Water] = 0.99820123 * (1000 - mlPerGram * c[acid]);
    return c;
}

double phOf(const Composition& c) {
    const auto ph = pH(c);
    REQUIRE(ph);
    return ph->value;
}

} // namespace

TEST_CASE("The pH of pure acids agrees with the published table", "[reference][acid]") {
    const std::map<std::string, std::pair<double, double>> molarMassAndVolume = {
        {"citric", {192.12, 0.5973}},
        {"phosphoric", {98.0, 0.4795}},
        {"lactic", {90.08, 0.7887}},
        {"acetic", {60.05, 0.8642}}};
    Comparison ph(kFile, "ph_of_pure_acids", "pH of 1, 10 and 100 mmol/l", 0.0105);
    for (const auto& row : dataset(kFile, "ph_of_pure_acids")["rows"]) {
        const auto name = row[0].get<std::string>();
        const auto [mass, volume] = molarMassAndVolume.at(name);
        for (const auto& [column, molPerL] : {std::pair{1, 1e-3}, {2, 1e-2}, {3, 1e-1}})
            ph.add(phOf(molar(kAcids.at(name), mass, molPerL, volume)), row[column], row.dump());
    }
    ph.check();
    const auto& check = dataset(kFile, "ph_method")["check"];
    Comparison strong(kFile, "ph_method", "pH of 0.25 mol/l citric acid", 0.0051);
    strong.add(phOf(molar(Substance::Citric, 192.12, check["citric_mol_L"], 0.5973)), check["pH_pure"]);
    strong.check();
}

// At half neutralisation the pH of a weak acid is its constant: the constants in use, read back.
TEST_CASE("Acid constants are the published ones", "[reference][acid]") {
    Comparison constants(kFile, "pka_25C", "pKa read back at half neutralisation", 0.02);
    for (const auto& row : dataset(kFile, "pka_25C")["rows"]) {
        const std::string name = row[0];
        const auto acid = kAcids.find(name.substr(0, name.find(' ')));
        if (acid == kAcids.end()) continue;  // ascorbic and carbonic: below
        if (row[2].get<int>() > 1) continue; // overlapping steps have no half point of their own
        const Composition c = molar(acid->second, row[1], 0.5, 0.8);
        const auto ph = pH(c, 0.25);
        REQUIRE(ph);
        constants.add(ph->value, row[3][0], row.dump());
    }
    constants.check();
    // For the others: the alkali of a titration to the pH midway between two constants is that many protons.
    Composition carbonic;
    carbonic[Substance::CarbonDioxide] = 44.0095 * 0.01;
    carbonic[Substance::Water] = 998;
    CHECK(*alkaliForPh(carbonic, 6.35) == Approx(0.005).epsilon(0.01));
    Composition ascorbic;
    ascorbic[Substance::Ascorbic] = 176.12 * 0.01;
    ascorbic[Substance::Water] = 998;
    CHECK(*alkaliForPh(ascorbic, 8) ==
          Approx(0.01).epsilon(0.01)); // one proton, as titratable acid counts it
}

TEST_CASE("Acids are exchanged by their published equivalents", "[reference][acid]") {
    Comparison factor(kFile, "titratable_acidity_equivalents", "g of acid per g of citric acid", 6e-5);
    for (const auto& row : dataset(kFile, "titratable_acidity_equivalents")["rows"]) {
        const auto acid = kAcids.find(row[0].get<std::string>());
        if (acid != kAcids.end()) factor.add(gramsPerGramCitric(acid->second), row[2], row.dump());
    }
    factor.check();
}

// Juices are buffered: with the published alkali of lemon and lime juice the measured citric acid comes out
// in the published range of pH, without it below.
TEST_CASE("Juices reach their published pH with their published alkali", "[reference][acid]") {
    const auto range = [](std::string_view food) {
        for (const auto& row : dataset(kFile, "juice_ph")["rows"])
            if (row[0].get<std::string>() == food) return std::pair<double, double>(row[1], row[2]);
        throw std::runtime_error("no such food");
    };
    Comparison beyond(kFile, "juice_ph", "pH outside the published range of juice", 0.125);
    for (const auto& row : dataset(kFile, "juice_citric_acid")["rows"]) {
        const std::string juice = row[0];
        if (juice.find(", fresh") == std::string::npos || juice.rfind("orange", 0) == 0) continue;
        const auto [low, high] = range(juice.substr(0, juice.find(',')) + " juice");
        Composition c;
        c[Substance::Citric] = row[1];
        c[Substance::Sucrose] = 20;
        c[Substance::Water] = 960;
        for (const double alkali : {0.02, 0.03, 0.04}) {
            const auto ph = pH(c, alkali);
            REQUIRE(ph);
            CHECK(ph->estimate);
            beyond.add(std::max({0.0, low - ph->value, ph->value - high}), 0, juice);
        }
        CHECK(pH(c)->value < low);
    }
    beyond.check();
    Comparison citric(kFile, "juice_citric_acid", "g/l of acid from 0.25 mol/l citric, lemon", 3.82);
    citric.add(0.25 * 192.12, 48.0);
    citric.check();
}

TEST_CASE("Carbon dioxide dissolves as published", "[reference][fizz]") {
    const auto volumes = [](double celsius, double bar) {
        const auto fizz = dissolvedAt(GaugePressure::fromBar(bar), Temperature::fromCelsius(celsius));
        REQUIRE(fizz);
        CHECK_FALSE(fizz->estimate);
        return fizz->value.volumes();
    };
    Comparison table(kFile, "co2_volumes_water_computed", "volumes of CO2 by t and pressure", 0.006);
    for (const auto& row : dataset(kFile, "co2_volumes_water_computed")["rows"]) {
        const double bars[] = {0, 1, 1.5, 2, 2.5, 3};
        for (std::size_t i = 0; i < std::size(bars); ++i)
            table.add(volumes(row[0], bars[i]), row[i + 1], row.dump());
    }
    table.check();
    Comparison bunsen(kFile, "co2_bunsen_measured", "share off the measured volumes at 1 atm", 0.006);
    for (const auto& row : dataset(kFile, "co2_bunsen_measured")["rows"])
        bunsen.add(volumes(row[0], 0) / row[1].get<double>(), 1, row.dump());
    bunsen.check();
    // Mole fractions at 100 kPa; CRC states 2 %, and 3 % is the difference at 0 °C.
    Comparison crc(kFile, "co2_crc_100kPa", "share off the CRC table, 5 to 40 C", 0.017);
    Comparison crcCold(kFile, "co2_crc_100kPa", "share off the CRC table at 0 C", 0.031);
    Comparison carroll(kFile, "co2_carroll", "share off Carroll et al., 5 to 40 C", 0.0215);
    const auto& c = dataset(kFile, "co2_carroll")["coefficients"];
    for (const auto& row : dataset(kFile, "co2_crc_100kPa")["rows"]) {
        const double t = row[0];
        const double molPerL = volumes(t, 0) / 22.2605 * (100 / 101.325);
        const double moleFraction =
            molPerL / (molPerL + waterDensity(Temperature::fromCelsius(t)).kgPerM3() / 18.015);
        (t == 0 ? crcCold : crc).add(moleFraction * 1000 / row[1].get<double>(), 1, row.dump());
        const double k = t + 273.15;
        const double henryMPa = std::exp(c[0].get<double>() + c[1].get<double>() / k +
                                         c[2].get<double>() / (k * k) + c[3].get<double>() / (k * k * k));
        if (t > 0) carroll.add(moleFraction / (0.1 / henryMPa), 1, row.dump());
    }
    crc.check();
    crcCold.check();
    carroll.check();
    Comparison one(kFile, "co2_volumes_conversion", "g/l in one volume", 0.00051);
    one.add(Fizz::fromVolumes(1).gPerL(), 1.977);
    one.check();
    // Beer and wine hold less than water: published constants, so that the estimate's direction is known.
    const double beer = 2.4;
    CHECK(volumes(6, 0) * 1.977 / 1.01325 > beer);
}
