#include "core/spec/reading.h"

#include "tests/support/catch.h"

#include <set>

using namespace stillroom::spec;

TEST_CASE("the quantities of a reading have the keys and units of the headless output", "[spec][reading]") {
    const char* keys[] = {"poured_volume", "volume",    "strength",    "ethanol",
                          "sugar",         "brix",      "acid",        "sugar_acid_ratio",
                          "mass",          "density",   "dilution",    "temperature",
                          "cost",          "energy_kj", "energy_kcal", "standard_drinks"};
    for (std::size_t i = 0; i < kQuantityCount; ++i)
        CHECK(quantityId(static_cast<Quantity>(i)) == keys[i]);
    CHECK(quantityUnit(Quantity::Strength) == "% vol");
    CHECK(quantityUnit(Quantity::Density) == "kg/m³");
    CHECK(quantityUnit(Quantity::SugarAcidRatio).empty());
    CHECK(quantityDecimals(Quantity::Acid) == 2);
    CHECK(quantityDecimals(Quantity::Dilution) == 3);
}

TEST_CASE("only sums grow with the number of serves", "[spec][reading]") {
    std::set<Quantity> extensive;
    for (std::size_t i = 0; i < kQuantityCount; ++i)
        if (isExtensive(static_cast<Quantity>(i))) extensive.insert(static_cast<Quantity>(i));
    CHECK(extensive == std::set<Quantity>{Quantity::PouredVolume, Quantity::Volume, Quantity::Ethanol,
                                          Quantity::Mass, Quantity::Cost, Quantity::EnergyKj,
                                          Quantity::EnergyKcal, Quantity::StandardDrinks});
}

TEST_CASE("no two gaps stages or bounds share an id", "[spec][reading]") {
    std::set<std::string_view> gaps, bounds, stages;
    for (int i = 0; i < 14; ++i)
        gaps.insert(gapCodeId(static_cast<GapCode>(i)));
    for (int i = 0; i < 6; ++i)
        bounds.insert(boundId(static_cast<Bound>(i)));
    for (int i = 0; i < 3; ++i)
        stages.insert(stageId(static_cast<Stage>(i)));
    CHECK(gaps.size() == 14);
    CHECK(gaps.count("") == 0);
    CHECK(bounds.size() == 6);
    CHECK(stages.size() == 3);
}
