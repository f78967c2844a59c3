#include "core/spec/spec.h"

#include "tests/support/catch.h"

#include <algorithm>
#include <string>

using namespace stillroom;
using quantity::Amount;
using quantity::Measure;
using quantity::Rational;
using spec::Spec;

namespace {

// One of everything a spec can hold.
Spec everything() {
    Spec s;
    spec::Line gin;
    gin.written = "2 × 25 ml London dry gin „Nr 1“";
    gin.name = "London dry gin";
    gin.ingredient = base::IngredientId::derivedFrom("gin");
    gin.poured = {Amount::exact(25), Measure::Ml, 2};
    gin.note = "cold \"from\" the freezer\n";
    spec::Line bitters;
    bitters.written = "2–3 dashes orange bitters, or 1 barspoon cherry liqueur";
    bitters.name = "orange bitters";
    bitters.poured = {Amount::range(2, 3), Measure::Dash, 1};
    bitters.alternatives = {{{Amount::exact(1), Measure::Barspoon, 1}, "cherry liqueur", std::nullopt},
                            {{}, "nothing", base::IngredientId::derivedFrom("none")}};
    bitters.optional = true;
    spec::Line rinse;
    rinse.name = "aniseed spirit";
    rinse.role = spec::Role::Rinse;
    rinse.poured = {Amount::exact(5), Measure::Ml, 1};
    rinse.retained = spec::Measured{Amount::exact(*Rational::make(3, 2)), Measure::Ml, 1};
    spec::Line lime;
    lime.name = "lime";
    lime.juiceOf = true;
    lime.qualifier = spec::Qualifier::Small;
    lime.poured = {Amount::exact(*Rational::make(1, 2)), std::nullopt, 1};
    spec::Line soda;
    soda.name = "soda";
    soda.role = spec::Role::Topped;
    soda.toTaste = true;
    s.lines = {gin, bitters, rinse, lime, soda};
    s.method.text = "Shake hard";
    s.method.technique = spec::Technique::Shake;
    s.method.dryShake = true;
    s.method.strained = false;
    s.method.seconds = Rational(12);
    s.method.dilution = spec::DilutionEntry{0.1 + 0.2, spec::DilutionOrigin::Measured, "weighed"};
    s.method.ice = "120 g of wet cubes";
    s.method.drinksPerShake = 2;
    s.glass = "low tumbler";
    s.glassProfile = "tumbler_low";
    s.garnish = "lime wheel";
    s.serves = 3;
    s.partTargetMl = 90.25;
    s.yieldMl = 1.0 / 3.0;
    spec::Step simmer{spec::StepKind::Simmer, 12.5, 98, 140, 11, 3, 7.25, 0.9, 480, 511, 0.5, 1, "gently"};
    spec::Step strain;
    strain.kind = spec::StepKind::Strain;
    s.steps = {simmer, strain};
    s.lines[4].beforeStep = 1;
    return s;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

} // namespace

TEST_CASE("a spec comes back from its JSON exactly as it was", "[spec]") {
    const Spec s = everything();
    const auto back = Spec::fromCanonicalJson(s.canonicalJson());
    REQUIRE(back);
    CHECK(*back == s);
    CHECK(back->canonicalJson() == s.canonicalJson());
    CHECK(Spec::fromCanonicalJson(Spec{}.canonicalJson()) == Spec{});
}

TEST_CASE("equal specs have equal JSON and a change of any field shows in it", "[spec]") {
    const std::string before = everything().canonicalJson();
    CHECK(before == everything().canonicalJson());
    const auto changes = [&](auto change) {
        Spec s = everything();
        change(s);
        return s.canonicalJson() != before;
    };
    CHECK(changes([](Spec& s) { s.lines[0].written += " "; }));
    CHECK(changes([](Spec& s) { s.lines[0].ingredient.reset(); }));
    CHECK(changes([](Spec& s) { s.lines[0].poured.multiplier = 3; }));
    CHECK(changes([](Spec& s) { s.lines[1].optional = false; }));
    CHECK(changes([](Spec& s) { s.lines[1].alternatives.pop_back(); }));
    CHECK(changes([](Spec& s) { s.lines[2].retained.reset(); }));
    CHECK(changes([](Spec& s) { s.lines[3].juiceOf = false; }));
    CHECK(changes([](Spec& s) { s.lines[3].qualifier = spec::Qualifier::None; }));
    CHECK(changes([](Spec& s) { s.lines[4].role = spec::Role::Floated; }));
    CHECK(changes([](Spec& s) { std::swap(s.lines[0], s.lines[1]); }));
    CHECK(changes([](Spec& s) { s.method.dilution->origin = spec::DilutionOrigin::Typed; }));
    CHECK(changes([](Spec& s) { s.method.drinksPerShake = 1; }));
    CHECK(changes([](Spec& s) { s.serves = 1; }));
    CHECK(changes([](Spec& s) { s.partTargetMl.reset(); }));
    CHECK(changes([](Spec& s) { s.yieldMl.reset(); }));
    CHECK(changes([](Spec& s) { s.lines[4].beforeStep = 2; }));
    CHECK(changes([](Spec& s) { s.steps.pop_back(); }));
    CHECK(changes([](Spec& s) { std::swap(s.steps[0], s.steps[1]); }));
    CHECK(changes([](Spec& s) { s.steps[0].gotG.reset(); }));
    CHECK(changes([](Spec& s) { s.steps[0].waterLostGPerMinute = 12; }));
}

TEST_CASE("amounts are written as exact text", "[spec]") {
    Spec s;
    spec::Line line;
    line.poured = {Amount::exact(*Rational::make(1, 3)), Measure::FlozUs, 1};
    s.lines = {line};
    CHECK(s.canonicalJson().find("\"1/3\"") != std::string::npos);
    CHECK(s.canonicalJson().find("\"floz_us\"") != std::string::npos);
}

TEST_CASE("a key that this program does not know is refused and not dropped", "[spec]") {
    const std::string json = everything().canonicalJson();
    CHECK_FALSE(Spec::fromCanonicalJson(replaced(json, "{\"garnish\"", "{\"frost\":1,\"garnish\"")));
    CHECK_FALSE(Spec::fromCanonicalJson(replaced(json, "\"technique\"", "\"spin\":1,\"technique\"")));
    CHECK_FALSE(Spec::fromCanonicalJson(replaced(json, "\"poured\":{", "\"poured\":{\"x\":1,")));
}

TEST_CASE("a spec with the wrong shape is refused", "[spec]") {
    const std::string json = everything().canonicalJson();
    CHECK_FALSE(Spec::fromCanonicalJson(""));
    CHECK_FALSE(Spec::fromCanonicalJson("null"));
    CHECK_FALSE(Spec::fromCanonicalJson("[]"));
    CHECK_FALSE(Spec::fromCanonicalJson("{}"));
    CHECK_FALSE(Spec::fromCanonicalJson(json.substr(0, json.size() - 1)));
    CHECK_FALSE(Spec::fromCanonicalJson(json + "x"));
    CHECK_FALSE(Spec::fromCanonicalJson(replaced(json, "\"serves\":3", "\"serves\":3.5")));
    CHECK_FALSE(Spec::fromCanonicalJson(replaced(json, "\"serves\":3", "\"serves\":99999999999")));
    CHECK_FALSE(Spec::fromCanonicalJson(replaced(json, "\"shake\"", "\"juggle\"")));
    CHECK_FALSE(Spec::fromCanonicalJson(replaced(json, "\"90.25\"", "\"inf\"")));
    CHECK_FALSE(Spec::fromCanonicalJson(replaced(json, "\"90.25\"", "90.25")));
    CHECK_FALSE(Spec::fromCanonicalJson(replaced(json, "\"1/2\"", "\"1/0\"")));
    CHECK_FALSE(Spec::fromCanonicalJson(replaced(json, "\"high\":\"3\",", "")));
}

TEST_CASE("nesting without end is refused", "[spec]") {
    const std::size_t deep = 200000;
    const std::string json = "{\"lines\":" + std::string(deep, '[') + std::string(deep, ']') + "}";
    CHECK_FALSE(Spec::fromCanonicalJson(json));
}

TEST_CASE("every id leads back to its value", "[spec]") {
    for (int i = 0; i < 5; ++i) {
        const auto role = static_cast<spec::Role>(i);
        CHECK(spec::roleFromId(spec::roleId(role)) == role);
    }
    for (int i = 0; i < 11; ++i) {
        const auto technique = static_cast<spec::Technique>(i);
        CHECK(spec::techniqueFromId(spec::techniqueId(technique)) == technique);
    }
    for (int i = 0; i < 14; ++i) {
        const auto step = static_cast<spec::StepKind>(i);
        CHECK(spec::stepKindFromId(spec::stepKindId(step)) == step);
    }
    for (int i = 0; i < 8; ++i) {
        const auto qualifier = static_cast<spec::Qualifier>(i);
        CHECK(spec::qualifierFromId(spec::qualifierId(qualifier)) == qualifier);
    }
    CHECK_FALSE(spec::roleFromId(""));
    CHECK_FALSE(spec::techniqueFromId("Shake"));
}
