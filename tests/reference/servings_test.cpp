#include "core/physics/dilution.h"
#include "core/physics/facts_to_masses.h"
#include "core/physics/food_energy.h"
#include "core/physics/mixture.h"
#include "tests/reference/published.h"
#include "tests/support/catch.h"

#include <map>

using namespace stillroom;
using namespace stillroom::physics;
using quantity::Strength;
using reference::Comparison;
using reference::dataset;

namespace {

constexpr const char* kFile = "servings";

Composition liquid(double ml, double percentVol, double sugarGPerL = 0) {
    LiquidFacts facts;
    facts.strength = Strength::fromPercentVol(percentVol);
    facts.gramsPerLitre[Substance::Sucrose] = sugarGPerL;
    const auto perMl = massesPerMl(facts);
    REQUIRE(perMl);
    Composition c;
    c.addScaled(perMl->perMl, ml);
    return c;
}

} // namespace

TEST_CASE("Energy factors are those of EU 1169/2011", "[reference][energy]") {
    const std::map<std::string, Substance> used = {
        {"carbohydrate (except polyols)", Substance::OtherCarbohydrate},
        {"protein", Substance::Protein},
        {"fat", Substance::Fat},
        {"alcohol (ethanol)", Substance::Ethanol},
        {"organic acid", Substance::Citric}};
    Comparison kj(kFile, "energy_factors", "kJ per gram", 0);
    Comparison kcal(kFile, "energy_factors", "kcal per gram", 0);
    for (const auto& row : dataset(kFile, "energy_factors")["per_gram"]) {
        const auto substance = used.find(row["nutrient"].get<std::string>());
        if (substance == used.end()) continue; // polyols, salatrims and fibre are not told apart
        Composition gram;
        gram[substance->second] = 1;
        kj.add(foodEnergy(gram).kj, row["kJ"], row.dump());
        kcal.add(foodEnergy(gram).kcal, row["kcal"], row.dump());
    }
    kj.check();
    kcal.check();
    const FoodEnergy liqueur = foodEnergy(liquid(100, 15, 100));
    const auto& published = dataset(kFile, "energy_example")["published"];
    Comparison example(kFile, "energy_example", "kJ and kcal of 100 ml liqueur", 0.5);
    example.add(liqueur.kcal, published["kcal"], "kcal");
    example.add(liqueur.kj, published["kJ"], "kJ");
    example.check();
}

TEST_CASE("Published standard drinks come out of volume and strength", "[reference][energy]") {
    struct Serve {
        double ml;
        double percentVol;
        double gramsEach; // 0: UK units, 10 ml of ethanol
    };
    // In the order of the rows, whose words say the same.
    const Serve serves[] = {{568, 5, 0},   {25, 40, 0},   {285, 4.8, 10}, {375, 3.5, 10},
                            {150, 13, 10}, {700, 40, 10}, {355, 5, 1}};
    const auto& rows = dataset(kFile, "standard_drink_examples")["rows"];
    REQUIRE(rows.size() == std::size(serves));
    Comparison drinks(kFile, "standard_drink_examples", "standard drinks, in tolerances of each row", 1);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const Composition c = liquid(serves[i].ml, serves[i].percentVol);
        const double ethanol = c[Substance::Ethanol];
        const double computed =
            serves[i].gramsEach > 0 ? ethanol / serves[i].gramsEach : ethanolVolumeAt20(c).ml() / 10;
        const double tolerance = rows[i]["tolerance"];
        drinks.add(computed / tolerance, rows[i]["answer"].get<double>() / tolerance, rows[i].dump());
    }
    drinks.check();
}

TEST_CASE("Dilution by technique agrees with the remembered table", "[reference][dilution]") {
    Comparison ratio(kFile, "dilution_table", "dilution ratio from 15 to 40 % vol", 0.00051);
    for (const auto& row : dataset(kFile, "dilution_table")["rows"]) {
        const auto strength = Strength::fromPercentVol(row["abv_pct"]);
        const auto stirred = dilutionRatio(IceMethod::Stirred, strength);
        const auto shaken = dilutionRatio(IceMethod::Shaken, strength);
        if (row["abv_pct"].get<double>() < 15) { // arithmetic only, outside the curves
            CHECK(stirred.estimate);
            CHECK(shaken.estimate);
            CHECK(stirred.value > row["stirred_ratio"].get<double>());
            continue;
        }
        ratio.add(stirred.value, row["stirred_ratio"], row.dump());
        ratio.add(shaken.value, row["shaken_ratio"], row.dump());
    }
    ratio.check();
    const auto& bases = dataset(kFile, "dilution_on_two_bases");
    Comparison share(kFile, "dilution_on_two_bases", "water over the finished drink", 5e-5);
    share.add(shareOfFinished(bases["of_start"]), bases["of_finish"]);
    share.check();
}

TEST_CASE("An old proportion comes out", "[reference][mixture]") {
    const auto& example = dataset(kFile, "old_proportion_example");
    Composition c = liquid(45, 40);
    c += liquid(105, 0); // 30 + 15 ml of other things without alcohol and 60 ml of water
    Comparison strength(kFile, "old_proportion_example", "% vol of 45 ml at 40 % in 150 ml", 0.1);
    strength.add(strengthAt20(c)->percentVol(), example["answer_abv_pct"]);
    strength.check();
}
