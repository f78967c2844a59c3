#include "core/spec/caution.h"

#include "core/larder/handbook.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace stillroom;
using namespace stillroom::spec;
using quantity::Amount;
using quantity::Measure;
using quantity::Rational;

namespace {

Line line(const char* handbookId, std::int64_t ml) {
    Line made;
    const larder::Ingredient* kind = larder::Handbook::builtIn().find(handbookId);
    INFO("kind " << handbookId);
    REQUIRE(kind != nullptr);
    made.name = kind->name;
    made.written = std::to_string(ml) + " ml " + kind->name;
    made.ingredient = kind->id;
    made.poured = {Amount::exact(Rational(ml)), Measure::Ml, Rational(1)};
    return made;
}

Line unknownLine(const char* name) {
    Line made;
    made.name = name;
    made.written = name;
    made.poured = {Amount::exact(Rational(30)), Measure::Ml, Rational(1)};
    return made;
}

struct Read {
    std::vector<Caution> cautions;
    AllergenSummary allergens;
    const Caution* find(const std::string& id) const {
        const auto found =
            std::find_if(cautions.begin(), cautions.end(), [&](const Caution& c) { return c.id == id; });
        return found == cautions.end() ? nullptr : &*found;
    }
    bool fires(const std::string& id) const { return find(id) != nullptr; }
};

Read read(const Spec& spec, const CautionContext& context = {}) {
    const larder::Larder larder;
    const Bindings bindings(spec, larder, HouseRules());
    const Readings readings = evaluate(spec, bindings);
    return {cautions(spec, bindings, readings, context), allergens(spec, bindings)};
}

} // namespace

TEST_CASE("A drink's computed values set its cautions off", "[spec][caution]") {
    Spec spec;
    spec.lines = {line("vodka", 90)};
    spec.method.technique = Technique::Stir;
    // 90 ml at 40 % vol is 36 ml of ethanol, 28.4 g: over 28 g (two US standard drinks, NIAAA) and 3.6 UK
    // units.
    CHECK(read(spec).fires("strong_total"));
    CHECK(read(spec).fires("strong_total_uk"));
    CHECK(read(spec).fires("pregnancy"));

    spec.serves = 2; // 14.2 g each
    CHECK_FALSE(read(spec).fires("strong_total"));
    CHECK_FALSE(read(spec).fires("strong_total_uk"));

    spec.serves = 1;
    spec.lines = {line("vodka", 60), line("soda_water", 400)};
    spec.lines[1].role = Role::Topped;
    spec.method.technique = Technique::Build;
    // 18.9 g in a tall glass of under 12 % vol stays silent, 30 ml more does not.
    CHECK_FALSE(read(spec).fires("hidden_strength"));
    spec.lines[0] = line("vodka", 90);
    CHECK(read(spec).fires("hidden_strength"));
}

TEST_CASE("A line nothing is known of leaves the strength a lower bound that can still warn",
          "[spec][caution]") {
    Spec spec;
    spec.lines = {line("vodka", 90), unknownLine("harbour bitter of the house")};
    spec.method.technique = Technique::Stir;
    CHECK(read(spec).fires("strong_total"));
    spec.lines = {line("water", 60), unknownLine("harbour bitter of the house")};
    CHECK_FALSE(read(spec).fires("strong_total"));
    CHECK_FALSE(read(spec).fires("pregnancy")); // not known to hold alcohol
}

TEST_CASE("Caffeine is counted from the lines that state it", "[spec][caution]") {
    Spec spec;
    spec.lines = {line("vodka", 40), line("espresso", 30)};
    spec.method.technique = Technique::Shake;
    // 30 ml of espresso at 2,120 mg/l is 64 mg: above the house threshold of 20, below 200.
    CHECK(read(spec).fires("caffeine_alcohol"));
    CHECK_FALSE(read(spec).fires("caffeine_dose"));
    spec.lines[1] = line("espresso", 95); // 201 mg
    CHECK(read(spec).fires("caffeine_dose"));
    spec.serves = 2;
    CHECK_FALSE(read(spec).fires("caffeine_dose"));
    spec.serves = 1;
    spec.lines = {line("vodka", 40), line("espresso", 5)};
    CHECK_FALSE(read(spec).fires("caffeine_alcohol")); // 11 mg
}

TEST_CASE("Spirits warmed in a water bath bring the caution for heated spirit", "[spec][caution]") {
    Spec spec;
    spec.lines = {line("rum_gold", 60), line("sugar_demerara", 5)};
    spec.lines[1].poured.measure = Measure::G;
    spec.method.technique = Technique::WaterBath;
    const Read warmed = read(spec);
    CHECK(warmed.fires("heating_spirit"));
    CHECK_FALSE(warmed.fires("infusion_law"));
    spec.method.technique = Technique::Stir;
    CHECK_FALSE(read(spec).fires("heating_spirit"));
}

TEST_CASE("Allergens are those of the lines and silence is not absence", "[spec][caution]") {
    Spec spec;
    spec.lines = {line("vodka", 40),       line("orgeat", 15),
                  line("egg_white", 30),   line("vermouth_dry", 10),
                  line("lemon_juice", 25), unknownLine("harbour bitter of the house")};
    const AllergenSummary summary = read(spec).allergens;
    CHECK(summary.contains == std::vector<std::string>{"eggs", "nuts", "sulphites"});
    // Vodka is an exempt distillate, and lemon juice is that alone: both state that there is none.
    CHECK(summary.unknownLines == std::vector<int>{5});
    CHECK(summary.exemptLines == std::vector<int>{0});
    CHECK(summary.containsUs == std::vector<std::string>{"eggs", "tree_nuts"});
    CHECK(summary.mayContainUs.empty());
    CHECK(summary.sulphitesUnmeasured);
    CHECK(read(Spec()).allergens.contains.empty());
    REQUIRE(euAllergens().size() == 14);
    CHECK(euAllergens().front().name == "cereals containing gluten");
}

TEST_CASE("A drink of plain water says only what holds for every glass", "[spec][caution]") {
    Spec spec;
    spec.lines = {line("water", 100)};
    const Read plain = read(spec);
    REQUIRE(plain.cautions.size() == 1);
    CHECK(plain.cautions.front().id == "glass_break");
    CHECK(plain.cautions.front().standing);
}

TEST_CASE("Optional lines and alternatives are warned of as well", "[spec][caution]") {
    Spec spec;
    spec.lines = {line("gin_london", 50), line("egg_white", 30)};
    spec.lines[1].optional = true;
    CHECK(read(spec).fires("raw_egg"));
    spec.lines = {line("gin_london", 50), line("simple_1_1_mass", 20)};
    Alternative alternative;
    alternative.name = "pistachio syrup";
    spec.lines[1].alternatives = {alternative};
    REQUIRE(read(spec).fires("nuts"));
    CHECK(read(spec).find("nuts")->lines == std::vector<int>{1});
}

TEST_CASE("standing notes hold whatever is open about the alcohol", "[spec][caution]") {
    const auto allStand = [](const Spec& spec) {
        const Read found = read(spec);
        for (const char* note : {"pregnancy", "driving", "minors", "medicines"}) {
            INFO(note);
            CHECK(found.fires(note));
        }
    };
    Spec parts;
    parts.lines = {line("gin_london", 2), line("lemon_juice", 1)};
    for (Line& each : parts.lines)
        each.poured.measure = Measure::Part;
    allStand(parts);
    CHECK_FALSE(read(parts).fires("strong_total")); // how much it is nobody knows

    Spec unstated;
    unstated.lines = {line("gin_london", 0)};
    unstated.lines[0].poured = {};
    allStand(unstated);

    Spec upTo;
    upTo.lines = {line("lemon_juice", 30), line("gin_london", 30)};
    upTo.lines[1].qualifier = Qualifier::UpTo;
    allStand(upTo);

    Spec none;
    none.lines = {line("lemon_juice", 1)};
    none.lines[0].poured.measure = Measure::Part;
    CHECK_FALSE(read(none).fires("pregnancy"));
}
