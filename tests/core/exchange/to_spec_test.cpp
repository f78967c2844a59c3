#include "tests/support/catch.h"

#include "core/exchange/read_text.h"

using namespace stillroom;

namespace {

spec::Spec specOf(const std::string& text) {
    const exchange::ReadResult read = exchange::readText(text);
    REQUIRE(read.drinks.size() == 1);
    return exchange::toSpec(read.drinks.front(), larder::Larder());
}

} // namespace

TEST_CASE("A pasted text becomes a spec with roles and method", "[read]") {
    const spec::Spec spec = specOf("Low Water\n"
                                   "\n"
                                   "45 ml London dry gin\n"
                                   "juice of half a lime\n"
                                   "Absinthe, to rinse\n"
                                   "10 ml aged rum, floated\n"
                                   "Soda water, to top\n"
                                   "nobodyknowsberry cordial\n"
                                   "\n"
                                   "Method: Shake 12 seconds with ice, strain.\n"
                                   "Glass: highball, tall\n"
                                   "Garnish: lime wheel; mint\n"
                                   "Serves 2\n");
    REQUIRE(spec.lines.size() == 6);
    CHECK(spec.lines[0].written == "45 ml London dry gin");
    CHECK(spec.lines[0].ingredient);
    CHECK(spec.lines[1].juiceOf);
    CHECK(spec.lines[2].role == spec::Role::Rinse);
    CHECK(spec.lines[3].role == spec::Role::Floated);
    CHECK(spec.lines[4].role == spec::Role::Topped);
    CHECK(spec.lines[5].name == "nobodyknowsberry cordial");
    CHECK_FALSE(spec.lines[5].ingredient);
    CHECK(spec.method.technique == spec::Technique::Shake);
    CHECK(spec.method.seconds == quantity::Rational(12));
    CHECK(spec.glass == "highball, tall");
    CHECK(spec.garnish == "lime wheel; mint");
    CHECK(spec.serves == 2);
}

TEST_CASE("Refused lines stay out of a spec and fused ones become several", "[read]") {
    const spec::Spec spec = specOf("Two In One\n-2 oz gin\n2 oz gin, 1 oz lemon juice\n");
    REQUIRE(spec.lines.size() == 2);
    CHECK(spec.lines[0].name == "gin");
    CHECK(spec.lines[1].name == "lemon juice");
}

TEST_CASE("A British writer's ounces and an Australian's spoons are theirs", "[read]") {
    exchange::ReadOptions british;
    british.imperial = true;
    CHECK(exchange::readLine("2 oz gin", british).unit == "floz_imp");
    CHECK(exchange::readLine("2 US oz gin", british).unit == "floz_us");
    CHECK(exchange::readLine("1 pint stout", british).line.poured.measure == quantity::Measure::PintImp);
    exchange::ReadOptions australian;
    australian.region = "AU";
    CHECK(exchange::readLine("1 tbsp sugar", australian).line.poured.measure == quantity::Measure::TbspAu);
    CHECK(exchange::readLine("1 tbsp sugar").line.poured.measure == quantity::Measure::TbspUs);
}

TEST_CASE("Ounces of what could be poured or weighed are asked with both readings", "[read]") {
    const exchange::ReadLine sugar = exchange::readLine("4 oz sugar");
    CHECK(sugar.unit == "oz_mass");
    CHECK(sugar.unsure);
    REQUIRE(sugar.otherReadings.size() == 1);
    CHECK(sugar.otherReadings.front().poured.measure == quantity::Measure::FlozUs);
    CHECK_FALSE(exchange::readLine("4 oz (113 g) sugar").unsure);
    CHECK_FALSE(exchange::readLine("4 oz gin").unsure);
}

TEST_CASE("Odd barkeeping is warned about and never refused", "[read]") {
    for (const char* text : {"2 oz bitters", "5 oz mint", "40 dashes aromatic bitters"}) {
        CAPTURE(text);
        const exchange::ReadLine read = exchange::readLine(text);
        CHECK(read.kind == exchange::ReadKind::Ingredient);
        bool warned = false;
        for (const exchange::Doubt& doubt : read.doubts)
            warned |= doubt.code == exchange::DoubtCode::AmountAbsurd &&
                      doubt.weight == exchange::DoubtWeight::Warn;
        CHECK(warned);
    }
    const exchange::ReadResult strong =
        exchange::readText("Flood\n300 ml gin\n30 ml lemon juice\nShake with ice.\n");
    REQUIRE(strong.drinks.size() == 1);
    CHECK_FALSE(strong.drinks.front().doubts.empty());
}

TEST_CASE("What is said to go on top is floated and not mixed in", "[read]") {
    const spec::Spec spec =
        specOf("Tide Table\n\n25 ml aged rum\n25 ml coffee liqueur\n25 ml whipped cream, on top\n");
    REQUIRE(spec.lines.size() == 3);
    CHECK(spec.lines[2].role == spec::Role::Floated);
    CHECK(spec.lines[2].note == "on top");
}

// It is a letter to Unicode and an apostrophe to a reader; scanning it as the start of a word never ended.
TEST_CASE("A letter apostrophe that stands alone is a mark", "[read]") {
    for (const char* text : {"\xCA\xBC", "X\n\n45 ml gin \xCA\xBC\n", "\xCA\xBC 5 ml \xCA\xBC, \xCA\xBC"})
        CHECK(exchange::readText(text).drinks.size() <= 1);
    CHECK(specOf("X\n\n45 ml gin\n20 ml l\xCA\xBC"
                 "eau\n")
              .lines.size() == 2);
}

TEST_CASE("Weights before and after that a text tells are its measured dilution", "[read]") {
    const larder::Larder handbook;
    const auto told = [&handbook](const std::string& method) {
        const auto read = exchange::readText(
            "Weighed Light\n45 ml London dry gin\n22 ml lemon juice\n20 ml simple syrup\n" + method + "\n");
        REQUIRE(read.drinks.size() == 1);
        CHECK(read.drinks.front().subRecipes.empty());
        return exchange::toSpec(read.drinks.front(), handbook).method.dilution;
    };
    const auto before = told("Shake 12 seconds with ice, strain. Measured: 85 g before, 130 g after.");
    REQUIRE(before);
    CHECK(before->origin == spec::DilutionOrigin::Measured);
    // 45 g of water, 45.1 ml, to some 87 ml of drink.
    CHECK(before->ratio == Approx(0.52).margin(0.03));
    const auto turned = told("Shake with ice.\nAfter: 130 g; before it was 85 g.");
    REQUIRE(turned);
    CHECK(turned->ratio == before->ratio);
    const auto onALine = told("Shake with ice, strain.\nMeasured: 85 g before, 130 g after");
    REQUIRE(onALine);
    CHECK(onALine->ratio == before->ratio);
    CHECK_FALSE(told("Shake with 85 g of ice, rest before serving and after."));
    CHECK_FALSE(told("Shake with ice. 130 g before, 85 g after."));
    CHECK_FALSE(told("Shake with ice. 85 g before."));
}
