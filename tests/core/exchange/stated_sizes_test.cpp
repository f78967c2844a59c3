#include "tests/support/catch.h"

#include "core/exchange/read_text.h"
#include "core/spec/caution.h"
#include "core/spec/evaluate.h"

#include <algorithm>

using namespace stillroom;

namespace {

spec::Spec specOf(const std::string& line) {
    exchange::ReadRecipe recipe;
    recipe.lines.push_back(exchange::readLine(line));
    return exchange::toSpec(recipe, larder::Larder());
}

spec::Contribution brought(const std::string& line) {
    const spec::Spec spec = specOf(line);
    return spec::contributions(spec, {spec, larder::Larder(), spec::HouseRules{}}).front();
}

double ml(const std::string& line) {
    return brought(line).volumeMl.value;
}

} // namespace

TEST_CASE("What a line says a can or shot holds goes before the size of the house", "[read][stated]") {
    constexpr double kUsFloz = 29.5735295625; // NIST Handbook 44 App. C
    CHECK(ml("1 x 150 ml can tonic water") == Approx(150));
    CHECK(ml("2 x 150 ml cans tonic water") == Approx(300));
    CHECK(ml("1 can (12 oz) tonic water") == Approx(12 * kUsFloz));
    CHECK(ml("1 (375 ml) bottle dry red wine") == Approx(375));
    CHECK(ml("2 25 ml shots vodka") == Approx(50));
    CHECK(ml("1 barspoon (7 ml) maraschino") == Approx(7));
    CHECK(ml("2 barspoons (10 ml) maraschino") == Approx(10)); // the bracket states both
    CHECK(ml("1 jigger (50 ml) gin") == Approx(50));
    CHECK(ml("2 cans (150 ml each) tonic water") == Approx(300));
    CHECK(ml("2 oz (60 ml) gin") == Approx(2 * kUsFloz));
    CHECK_FALSE(specOf("2 oz (60 ml) gin").lines.front().sizeStated);
    const auto can = exchange::readLine("1 can (12-oz) tonic water");
    CHECK(can.unit == "can");
    CHECK(can.line.note == "12-oz");
    CHECK_FALSE(can.unsure);
}

TEST_CASE("A stated size and strength are kept in the canonical text of a spec", "[read][stated]") {
    for (const char* line : {"1 can (12 oz) tonic water", "20 ml vodka 60%", "30 ml gin"}) {
        const spec::Spec spec = specOf(line);
        CHECK(spec::Spec::fromCanonicalJson(spec.canonicalJson()) == spec);
    }
    CHECK(specOf("30 ml gin").canonicalJson().find("stated") == std::string::npos);
}

TEST_CASE("A strength in the line goes before that of the kind", "[read][stated]") {
    const auto ethanolMl = [](const std::string& line) { return brought(line).ethanolMl.value; };
    CHECK(ethanolMl("20 ml vodka 60%") == Approx(12.0).epsilon(1e-4));
    CHECK(ethanolMl("20 ml gin (57% vol)") == Approx(11.4).epsilon(1e-4));
    CHECK(ethanolMl("40 ml white rum 60%") == Approx(24.0).epsilon(1e-4));
    CHECK(ethanolMl("40 ml 100 proof rye") == Approx(20.0).epsilon(1e-4));
    CHECK(ethanolMl("40 ml 151-proof rum") == Approx(30.2).epsilon(1e-4));
    CHECK(specOf("20 ml rum 40 % vol").lines.front().abvStated == 40.0);
    CHECK(specOf("1 oz 151-proof rum").lines.front().abvStated == 75.5);
    for (const char* line : {"30 ml heavy cream 36 %", "30 ml tequila, 100% agave", "10 ml vinegar 6 % acid"})
        CHECK_FALSE(specOf(line).lines.front().abvStated);
}

TEST_CASE("The label of a bottle goes before the strength in a line", "[read][stated]") {
    spec::Spec spec = specOf("20 ml vodka 60%");
    larder::Larder larder;
    larder::Ingredient bottle = *larder.find(*spec.lines.front().ingredient);
    bottle.id = base::IngredientId::random();
    bottle.sort = larder::IngredientSort::Bottle;
    larder.put(bottle);
    spec.lines.front().ingredient = bottle.id;
    const spec::Bindings bindings(spec, larder, spec::HouseRules{});
    CHECK(bindings.poured(0)->facts.abvPercent->typical == Approx(40));
    const spec::Spec kind = specOf("20 ml vodka 60%");
    CHECK(spec::Bindings(kind, larder, spec::HouseRules{}).poured(0)->facts.abvPercent->source ==
          "as written");
}

TEST_CASE("A temperature in a name neither hides the thing nor is lost", "[read][stated]") {
    for (const char* line : {"120 ml hot water at 90 °C", "120 ml water 90°C", "120 ml hot water, 90 C",
                             "120 ml water (90 °C)"}) {
        INFO(line);
        const spec::Line read = specOf(line).lines.front();
        CHECK(read.ingredient);
        CHECK(read.temperatureC == 90.0);
        CHECK_FALSE(exchange::readLine(line).unsure);
    }
    CHECK_FALSE(specOf("1 c sugar").lines.front().temperatureC);
}

TEST_CASE("Imperial measures are known by their country before or in brackets after", "[read][stated]") {
    using quantity::Measure;
    CHECK(exchange::readLine("1 fl. oz. (UK) gin").line.poured.measure == Measure::FlozImp);
    CHECK(exchange::readLine("1 imp pint ale").line.poured.measure == Measure::PintImp);
    CHECK(exchange::readLine("1 UK pint ale").line.poured.measure == Measure::PintImp);
    CHECK(exchange::readLine("1 pint (imp.) ale").line.poured.measure == Measure::PintImp);
    CHECK(exchange::readLine("1 fl oz (US) gin").line.poured.measure == Measure::FlozUs);
}

TEST_CASE("A second name with lines of its own is asked about", "[read][stated]") {
    const auto asks = [](const std::string& text) {
        const auto read = exchange::readText(text);
        REQUIRE(read.drinks.size() == 1);
        return std::any_of(read.drinks.front().doubts.begin(), read.drinks.front().doubts.end(),
                           [](const exchange::Doubt& d) {
                               return d.code == exchange::DoubtCode::SeveralDrinks &&
                                      d.weight == exchange::DoubtWeight::Ask;
                           });
    };
    const std::string two =
        "Low Water\n2 oz gin\n1 oz lime juice\n\nHigh Water\n2 oz rum\n1 oz lemon juice\n";
    CHECK(exchange::readText(two).drinks.front().method.empty());
    CHECK(asks("Low Water\n2 oz gin\n1 oz lime juice\n\nHigh Water\n2 oz rum\n1 oz lemon juice\n"));
    CHECK_FALSE(asks("Low Water\n2 oz gin\n1 oz lime juice\n"));
    CHECK_FALSE(asks("Low Water\n2 oz gin\n1 oz ginger syrup\n\nGinger syrup\n100 g sugar\n100 g water\n"));
}

TEST_CASE("Prose is not an ingredient", "[read][stated]") {
    CHECK(exchange::readLine("hello world how are you").kind == exchange::ReadKind::Unread);
    CHECK(exchange::readLine("aromatic bitters").kind == exchange::ReadKind::Ingredient);
    CHECK(exchange::readLine("a good dry gin from the freezer").kind == exchange::ReadKind::Ingredient);
}

TEST_CASE("Dry ice and liquid nitrogen in a method are dangers", "[read][stated]") {
    for (const char* text : {"Drop in a piece of dry ice.", "Chill with liquid nitrogen."}) {
        spec::Spec spec = specOf("50 ml vodka");
        spec.method.text = text;
        const spec::Bindings bindings(spec, larder::Larder(), spec::HouseRules{});
        const auto cautions = spec::cautions(spec, bindings, spec::evaluate(spec, bindings));
        REQUIRE_FALSE(cautions.empty());
        CHECK(cautions.front().severity == spec::Severity::Danger);
    }
}

TEST_CASE("Every granular sugar is known by the spoon", "[read][stated]") {
    constexpr double kTspMl = 4.92892159375; // NIST Handbook 44 App. C
    for (const char* sugar : {"raw sugar", "superfine sugar", "brown sugar", "icing sugar", "maple sugar",
                              "coconut sugar", "muscovado", "demerara sugar"}) {
        INFO(sugar);
        const double grams = brought("2 tsp " + std::string(sugar)).sugarG.value;
        CHECK(grams > 2 * kTspMl * 0.4);
        CHECK(grams < 2 * kTspMl * 0.95);
    }
    // USDA SR26, NDB 19335: 4.2 g a teaspoon, rounded
    CHECK(brought("1 tsp superfine sugar").sugarG.value == Approx(4.2).epsilon(0.02));
}
