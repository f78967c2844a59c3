#include "core/physics/mixture.h"
#include "core/preparation/preparation.h"
#include "core/spec/more_readings.h"
#include "tests/core/spec/builder.h"
#include "tests/reference/published.h"
#include "tests/support/catch.h"

#include <cmath>
#include <map>
#include <memory>

// The twelve worked drinks again, this time as a person would write them: as specs and preparations read
// through the larder. (worked_drinks_test.cpp takes every step of theirs in core/physics alone.) Their model
// counts every sugar as sucrose and every acid as citric, so they are stated so here.

using namespace stillroom;
using namespace stillroom::test;
using nlohmann::json;
using quantity::Measure;
using reference::Comparison;
using reference::document;
using spec::More;
using spec::Quantity;
using spec::Stage;
using spec::Technique;

namespace {

constexpr const char* kFile = "worked-drinks";

const json& example(std::string_view id) {
    for (const auto& one : document(kFile)["examples"]) {
        if (one["id"].get<std::string>() == id) return one;
        if (!one.contains("parts")) continue;
        for (const auto& part : one["parts"])
            if (part["id"].get<std::string>() == id) return part;
    }
    throw std::runtime_error("no worked drink " + std::string(id));
}

// Amounts are exact fractions; a millionth of a ml or g is finer than any tolerance here.
quantity::Rational exactly(double amount) {
    return *quantity::Rational::make(std::llround(amount * 1e6), 1'000'000);
}

// One drink written as a spec, and what of it was compared.
class Written {
  public:
    explicit Written(std::string id) : m_id(std::move(id)) {}

    void pour(const json& input, spec::Role role = spec::Role::Mixed) {
        const auto& given = input["given"];
        pour(input["name"], given["ml"],
             {given.value("abv", 0.0), 10 * given.value("sugar", 0.0), 10 * given.value("acid", 0.0)}, role);
    }
    void pour(const std::string& name, double ml, const Known& known, spec::Role role = spec::Role::Mixed) {
        shelf.put(name, known);
        drink.lines.push_back(line(name, exactly(ml), Measure::Ml, role));
    }
    void weigh(const std::string& name, double g, double sugarGPerKg, double acidGPerKg) {
        shelf.putDry(name, sugarGPerKg, acidGPerKg, 0.85);
        drink.lines.push_back(line(name, exactly(g), Measure::G));
    }
    void water(double g) {
        shelf.put("water", {{0}, {0}, {0}});
        drink.lines.push_back(line("water", exactly(g), Measure::G));
    }
    // A food of which the example states masses: as much of each in so many ml.
    void food(const std::string& name, double ml, const json& grams) {
        larder::Ingredient made = shelf.ingredient(name);
        made.facts = factsOf({0, 1000 * grams.value("sugar", 0.0) / ml, 0});
        made.facts.proteinGPerL = fact(1000 * grams.value("protein", 0.0) / ml);
        made.facts.fatGPerL = fact(1000 * grams.value("fat", 0.0) / ml);
        shelf.larder.put(made);
        drink.lines.push_back(line(name, exactly(ml)));
    }

    spec::Readings read() const { return shelf.read(drink); }
    preparation::Made made() const {
        const auto result = preparation::make(drink, spec::Bindings(drink, shelf.larder, shelf.rules()),
                                              preparation::yieldOf(drink));
        REQUIRE(result);
        return *result;
    }

    void compare(const std::string& quantity, double computed, double worked, const std::string& where) {
        double tolerance = document(kFile)["tolerance"][quantity];
        const bool large = (quantity == "mass_g" || quantity == "volume_mL") && worked > 200;
        if (large) tolerance = 1e-4 * worked;
        auto& slot = m_comparisons[quantity];
        if (!slot)
            slot = std::make_unique<Comparison>(kFile, m_id,
                                                m_id + " as a spec: " + quantity + ", in tolerances", 1.0);
        slot->add(computed / tolerance, worked / tolerance, where);
    }
    void stage(const spec::Readings& r, Stage stage, const json& worked, const std::string& where) {
        const spec::StageReadings& s = r[stage];
        for (const Quantity q : {Quantity::Volume, Quantity::Mass, Quantity::Density, Quantity::Strength,
                                 Quantity::Sugar, Quantity::Acid, Quantity::Brix})
            CHECK(s[q].bound == spec::Bound::Exact);
        const double serves = r.serves;
        compare("volume_mL", serves * s[Quantity::Volume].value, worked["volume_mL"], where);
        compare("mass_g", serves * s[Quantity::Mass].value, worked["mass_g"], where);
        compare("density_kg_m3", s[Quantity::Density].value, worked["density_kg_m3"], where);
        compare("abv_percent", s[Quantity::Strength].value, worked["abv_percent"], where);
        compare("sugar_g_100mL", s[Quantity::Sugar].value, worked["sugar_g_100mL"], where);
        compare("acid_g_100mL", s[Quantity::Acid].value, worked["acid_g_100mL"], where);
        compare("brix", s[Quantity::Brix].value, worked["brix_true_g_100g"], where);
        const auto more =
            spec::moreReadings(drink, spec::Bindings(drink, shelf.larder, shelf.rules()), stage);
        compare("freezing_C", more[More::FreezingOnset].value, worked["freezing"]["t_freeze_C"], where);
        if (worked.contains("contraction_mL") && stage == Stage::Measured && drink.lines.size() > 1 &&
            !m_dryParts)
            compare("volume_mL", serves * more[More::Contraction].value, worked["contraction_mL"],
                    where + " contraction");
    }
    void serve(const spec::StageReadings& s, const json& worked) {
        compare("mass_g", s[Quantity::Ethanol].value, worked["ethanol_g"], "per serve");
        compare("energy_kJ", s[Quantity::EnergyKj].value, worked["energy_kJ"], "per serve");
        compare("energy_kcal", s[Quantity::EnergyKcal].value, worked["energy_kcal"], "per serve");
        // The default house counts drinks of 10 g, as Australia does.
        compare("standard_drinks", s[Quantity::StandardDrinks].value, worked["au_standard_drinks"],
                "per serve");
    }
    // What a preparation gives: its facts against a worked state.
    void bottle(const preparation::Made& m, const json& worked, const std::string& where) {
        compare("volume_mL", m.yield.ml(), worked["volume_mL"], where);
        compare("mass_g", m.mass.grams(), worked["mass_g"], where);
        compare("density_kg_m3", m.facts.densityKgPerM3->typical, worked["density_kg_m3"], where);
        compare("abv_percent", m.facts.abvPercent->typical, worked["abv_percent"], where);
        compare("sugar_g_100mL", m.facts.sugarGPerL->typical / 10, worked["sugar_g_100mL"], where);
        compare("acid_g_100mL", m.facts.acidGPerL->typical / 10, worked["acid_g_100mL"], where);
    }
    // That facts made of a preparation read in a drink as the preparation itself.
    void pouredAgain(const preparation::Made& m, const json& worked) {
        Shelf other;
        larder::Ingredient house = other.ingredient("house made");
        house.facts = m.facts;
        other.larder.put(house);
        const auto d = test::drink({line("house made", exactly(m.yield.ml()))});
        const auto r = other.read(d)[Stage::Measured];
        compare("mass_g", r[Quantity::Mass].value, worked["mass_g"], "poured again");
        compare("abv_percent", r[Quantity::Strength].value, worked["abv_percent"], "poured again");
        compare("sugar_g_100mL", r[Quantity::Sugar].value, worked["sugar_g_100mL"], "poured again");
    }
    void check() const {
        for (const auto& [name, comparison] : m_comparisons)
            comparison->check();
    }

    Shelf shelf;
    spec::Spec drink;
    bool m_dryParts = false; // the example counts dry sugar as crystals, the program as dissolved

  private:
    std::string m_id;
    std::map<std::string, std::unique_ptr<Comparison>> m_comparisons;
};

} // namespace

TEST_CASE("W01 W02 W05 and W06 read as worked", "[reference][worked][worked_specs]") {
    const std::map<std::string, Technique> techniques{{"W01", Technique::Shake},
                                                      {"W02", Technique::Stir},
                                                      {"W05", Technique::Build},
                                                      {"W06", Technique::Shake}};
    for (const auto& [id, technique] : techniques) {
        const json& worked = example(id);
        Written w(id);
        for (const auto& input : worked["inputs"])
            w.pour(input);
        if (worked.contains("topped"))
            for (const auto& input : worked["topped"])
                w.pour(input, spec::Role::Topped);
        w.drink.method.technique = technique;
        const auto r = w.read();
        w.stage(r, Stage::Measured, worked["measured"], "measured");
        w.stage(r, Stage::Mixed, worked["mixed"], "mixed");
        if (worked.contains("served")) w.stage(r, Stage::Served, worked["served"], "served");
        w.compare("dilution_ratio", r[Stage::Mixed][Quantity::Dilution].value,
                  worked["dilution"]["dilution_ratio"], "dilution");
        w.serve(r[Stage::Served], worked["per_serve"]);
        w.check();
    }
}

TEST_CASE("W03 reads as worked and its temperatures come near", "[reference][worked][worked_specs]") {
    const json& worked = example("W03");
    Written w("W03");
    w.m_dryParts = true;
    const auto& inputs = worked["inputs"];
    w.pour(inputs[0]);
    w.pour(inputs[1]);
    w.weigh("white sugar", inputs[2]["given"]["masses"]["sugar"], 1000, 0);
    w.water(inputs[3]["given"]["masses"]["water"]); // weighed: 150 ml were measured at 85 °C
    w.drink.lines.back().temperatureC = 85;
    w.drink.method.technique = Technique::Hot;
    const auto r = w.read();
    w.stage(r, Stage::Measured, worked["measured"], "measured");
    w.stage(r, Stage::Served, worked["measured"], "served"); // nothing is added by a hot build
    w.serve(r[Stage::Served], worked["per_serve"]);
    w.check();
    // The example leaves out the heat of mixing and takes dry sugar's heat capacity for the dissolved one's;
    // the program counts the first and knows the second. Mixing spirit into much water warms it by about 1 K.
    const json& balance = worked["heat_balance"];
    CHECK(r[Stage::Mixed][Quantity::Temperature].value ==
          Approx(balance["t_before_cup_C"].get<double>()).margin(2.0));
    auto cup = w.drink;
    cup.glassGrams = 280;
    const auto inCup = w.shelf.read(cup)[Stage::Served][Quantity::Temperature];
    CHECK(inCup.estimate);
    CHECK(inCup.value == Approx(balance["t_after_cup_C"].get<double>()).margin(2.0));
}

TEST_CASE("W04 reads as worked", "[reference][worked][worked_specs]") {
    const json& worked = example("W04");
    Written w("W04");
    const auto& inputs = worked["inputs"];
    for (std::size_t i = 0; i < 3; ++i)
        w.pour(inputs[i]);
    w.food("egg white", inputs[3]["volume_mL"], inputs[3]["given"]["masses"]);
    w.drink.method.technique = Technique::Shake;
    w.drink.method.dryShake = true;
    const auto r = w.read();
    w.stage(r, Stage::Measured, worked["measured"], "measured");
    w.stage(r, Stage::Mixed, worked["mixed"], "mixed");
    w.compare("dilution_ratio", r[Stage::Mixed][Quantity::Dilution].value,
              worked["dilution"]["dilution_ratio"], "dilution");
    w.serve(r[Stage::Served], worked["per_serve"]);
    w.check();
}

TEST_CASE("W07 made as a preparation has the worked facts", "[reference][worked][worked_specs]") {
    for (const char* id : {"W07a", "W07b"}) {
        const json& worked = example(id);
        Written w(id);
        w.m_dryParts = true;
        w.weigh("sugar", worked["given"]["sugar_g"], 1000, 0);
        w.water(worked["given"]["water_g"]);
        w.stage(w.read(), Stage::Measured, worked["result"], "as a spec");
        const auto m = w.made();
        w.bottle(m, worked["result"], "bottled");
        w.pouredAgain(m, worked["result"]);
        w.check();
        const auto more = spec::moreReadings(
            w.drink, spec::Bindings(w.drink, w.shelf.larder, w.shelf.rules()), Stage::Measured);
        CHECK(more[More::WaterActivity].value ==
              Approx(worked["steps"]["water_activity_25C"].get<double>()).margin(6e-5));
    }
}

// The fruit is said by what it gives: its insoluble matter takes no part. What stays in it is a measured
// yield.
TEST_CASE("W08 made as an infusion has the worked facts", "[reference][worked][worked_specs]") {
    const json& worked = example("W08");
    Written w("W08");
    w.m_dryParts = true;
    w.pour("spirit", worked["given"]["spirit_mL"], {worked["given"]["abv"].get<double>(), 0, 0});
    const auto& gives = worked["steps"]["fruit_gives_g"];
    w.water(gives["water"]);
    w.weigh("fruit sugar", gives["sugar"], 1000, 0);
    w.weigh("fruit acid", gives["acid"], 0, 1000);
    w.stage(w.read(), Stage::Measured, worked["steps"]["pool"], "pool");
    w.drink.yieldMl = worked["yield_mL"].get<double>();
    const auto m = w.made();
    w.bottle(m, worked["result"], "drained");
    w.pouredAgain(m, worked["result"]);
    CHECK(m.yield.ml() * m.facts.abvPercent->typical / 100 ==
          Approx(worked["whole_batch"]["ethanol_mL"].get<double>()).margin(0.03));
    w.check();
}

// Curd that takes fat and casein with it cannot be said in a spec: only whole liquid is strained off. Milk
// enters as what stays of it, and the curd's liquid is a measured yield.
TEST_CASE("W09 made as a punch has the worked facts", "[reference][worked][worked_specs]") {
    const json& worked = example("W09");
    Written w("W09");
    for (const auto& input : worked["inputs"])
        w.pour(input);
    w.stage(w.read(), Stage::Measured, worked["base"], "base");
    const auto& milk = worked["steps"]["milk_masses_g"];
    const double wheyProtein = worked["steps"]["clear_liquid_before_loss_g"]["protein"];
    // Water and lactose at their worked volume, protein at 0.735 ml/g.
    physics::Composition whey;
    whey[physics::Substance::Water] = milk["water"];
    whey[physics::Substance::Sucrose] = milk["sugar"];
    whey[physics::Substance::Protein] = wheyProtein;
    w.food("milk less its curd", physics::volumeAt20(whey).ml(),
           {{"sugar", milk["sugar"]}, {"protein", wheyProtein}});
    w.stage(w.read(), Stage::Measured, worked["steps"]["clear_liquid_before_loss"], "clear");
    w.drink.yieldMl = worked["result"]["volume_mL"].get<double>();
    const auto m = w.made();
    w.bottle(m, worked["result"], "punch");
    w.pouredAgain(m, worked["result"]);
    // And served: an eighth of it in a glass.
    Shelf bar;
    larder::Ingredient punch = bar.ingredient("punch");
    punch.facts = m.facts;
    bar.larder.put(punch);
    w.serve(bar.read(test::drink({line("punch", exactly(worked["serve_volume_mL"]))}))[Stage::Served],
            worked["per_serve"]);
    w.check();
}

// Water to a strength is a sum of its own (waterToReach, blending); in the spec it is typed as dilution.
TEST_CASE("W10 reads as worked and stands in the freezer as worked", "[reference][worked][worked_specs]") {
    for (const char* id : {"W10a", "W10b"}) {
        const json& worked = example(id);
        Written w(id);
        for (const auto& input : worked["inputs"])
            w.pour(input);
        w.drink.serves = worked["given"]["serves"];
        const double before = worked["measured"]["volume_mL"];
        w.drink.method.technique = Technique::Build;
        w.drink.method.dilution =
            spec::DilutionEntry{worked["water_to_add"]["water_g"].get<double>() / 0.9982 / before,
                                spec::DilutionOrigin::Typed, ""};
        const auto r = w.read();
        w.stage(r, Stage::Measured, worked["measured"], "measured");
        w.stage(r, Stage::Mixed, worked["result"], "batch");
        w.compare("dilution_ratio", r[Stage::Mixed][Quantity::Dilution].value,
                  worked["water_to_add"]["dilution_ratio"], "water");
        CHECK(r[Stage::Mixed][Quantity::Strength].value ==
              Approx(worked["given"]["target_abv"].get<double>()).margin(0.001)); // 22 and 36 % vol exactly
        w.serve(r[Stage::Served], worked["per_serve"]);
        w.check();
        const auto cold =
            spec::inFreezer(w.drink, spec::Bindings(w.drink, w.shelf.larder, w.shelf.rules()), Stage::Mixed,
                            quantity::Temperature::fromCelsius(worked["given"]["freezer_C"]));
        REQUIRE(cold);
        const auto& freezer = worked["at_freezer"];
        if (std::string(id) == "W10b") { // 36.0 % vol, 2.2 g/l sugar
            CHECK(cold->state == physics::ColdState::Liquid);
            CHECK(cold->marginK == Approx(freezer["margin_K"].get<double>()).margin(0.05));
            CHECK(cold->ice.grams() == 0);
        } else { // 22.0 % vol, 6.2 g/l sugar: about a third ice
            CHECK(cold->state == physics::ColdState::Slush);
            CHECK(100 * cold->iceShare == Approx(freezer["ice_mass_percent"].get<double>()).margin(0.1));
            CHECK(cold->iceShare == Approx(1 / 3.0).margin(0.02));
            CHECK(cold->liquidStrength.percentVol() ==
                  Approx(freezer["liquid_abv_percent"].get<double>()).margin(0.05));
        }
    }
}

// How much of each is worked out by blendToStrength (worked_drinks_test.cpp); poured, it is this.
TEST_CASE("W11 reads as worked", "[reference][worked][worked_specs]") {
    const json& worked = example("W11");
    Written w("W11");
    w.pour("first", worked["steps"]["volume_first_mL"], {worked["given"]["abv_first"].get<double>(), 0, 0});
    w.pour("second", worked["steps"]["volume_second_mL"],
           {worked["given"]["abv_second"].get<double>(), 0, 0});
    const auto r = w.read();
    w.stage(r, Stage::Measured, worked["result"], "blend");
    w.compare("mass_g", r[Stage::Measured][Quantity::Ethanol].value, worked["whole_batch"]["ethanol_g"],
              "batch");
    w.check();
    // Energy has a tolerance for one serve; of 700 ml, with amounts printed to 0.01 ml, 1e-4 of the value.
    CHECK(r[Stage::Served][Quantity::EnergyKj].value ==
          Approx(worked["whole_batch"]["energy_kJ"].get<double>()).epsilon(1e-4));
}

TEST_CASE("W12 reads as worked", "[reference][worked][worked_specs]") {
    const json& worked = example("W12");
    const auto& given = worked["given"];
    Written w("W12");
    w.m_dryParts = true;
    w.pour("spirit", given["spirit_mL"], {given["abv"].get<double>(), 0, 0});
    w.food("cream", worked["steps"]["cream_volume_mL"], worked["steps"]["cream_masses_g"]);
    w.weigh("sugar", given["sugar_g"], 1000, 0);
    w.water(given["water_g"]);
    w.stage(w.read(), Stage::Measured, worked["result"], "liqueur");
    const auto m = w.made();
    w.bottle(m, worked["result"], "bottled");
    w.pouredAgain(m, worked["result"]);
    CHECK(m.facts.fatGPerL->typical / 10 ==
          Approx(worked["result"]["fat_g_100mL"].get<double>()).margin(0.005));
    CHECK(m.facts.proteinGPerL->typical / 10 ==
          Approx(worked["result"]["protein_g_100mL"].get<double>()).margin(0.005));
    CHECK((m.facts.abvPercent->typical >= 15) == worked["meets_15_percent_liqueur_floor"].get<bool>());
    CHECK(m.facts.group == "liqueur");
    Shelf bar;
    larder::Ingredient liqueur = bar.ingredient("cream liqueur");
    liqueur.facts = m.facts;
    bar.larder.put(liqueur);
    w.serve(bar.read(test::drink({line("cream liqueur", exactly(given["serve_mL"]))}))[Stage::Served],
            worked["per_serve"]);
    w.check();
}
