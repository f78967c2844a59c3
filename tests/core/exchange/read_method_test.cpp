#include "core/exchange/read_text.h"
#include "tests/support/catch.h"

#include <optional>

using namespace stillroom;
using exchange::readMethod;
using spec::Technique;

TEST_CASE("A method's words give its technique", "[read]") {
    const std::pair<const char*, Technique> cases[] = {
        {"Stir 30 seconds over ice, strain.", Technique::Stir},
        {"Shake 10 seconds with ice, strain over crushed ice.", Technique::Shake},
        {"Stir the sugar into the juice, add ice, shake, strain.", Technique::Shake},
        {"Build over ice. Top with soda and stir once.", Technique::Build},
        {"Build over a big cube and stir until cold.", Technique::Stir},
        {"Build hot in a warmed glass, stir until the sugar is gone. Float the cream.", Technique::Hot},
        {"Pour near-boiling water over the sugar, add the spirit.", Technique::Hot},
        {"Throw six times between tins with ice, strain.", Technique::Throw},
        {"Blend with ice until smooth.", Technique::Blend},
        {"Warm the bottle in a water bath at 55 °C, pour over ice cream.", Technique::WaterBath},
        {"Whip the cream softly.", Technique::Whip},
        {"Add the hot milk. Strain through a cloth bag until bright.", Technique::Clarify},
        {"Stir the purée cold, add the wine slowly.", Technique::Build},
        {"Alles mit Eis kräftig schütteln und abseihen.", Technique::Shake},
        {"Secouer avec des glaçons et passer.", Technique::Shake},
        {"", Technique::None}};
    for (const auto& [text, technique] : cases) {
        CAPTURE(text);
        CHECK(spec::techniqueId(readMethod(text).technique) == spec::techniqueId(technique));
        CHECK(readMethod(text).text == text);
    }
}

TEST_CASE("Seconds belong to the shake with ice and a dry shake is told apart", "[read]") {
    CHECK(readMethod("Shake 12 seconds with ice.").seconds == quantity::Rational(12));
    CHECK(readMethod("Stir for half a minute with ice.").seconds == quantity::Rational(30));
    const spec::Method twice =
        readMethod("Dry shake for 20 seconds, then shake 12 seconds with ice, strain.");
    CHECK(twice.dryShake);
    CHECK(twice.seconds == quantity::Rational(12));
    const spec::Method german = readMethod("Ohne Eis schütteln, dann mit Eis 10 Sekunden schütteln.");
    CHECK(german.dryShake);
    CHECK(german.seconds == quantity::Rational(10));
    CHECK_FALSE(readMethod("Stir with ice, steep 30 minutes.").dryShake);
}

TEST_CASE("Straining and ice are taken from the method's words", "[read]") {
    CHECK_FALSE(readMethod("Shake with crushed ice and pour unstrained.").strained);
    CHECK_FALSE(readMethod("Build over ice.").strained);
    CHECK(readMethod("Shake with ice.").strained);
    CHECK(readMethod("Blend with 120 g of wet cubes until smooth.").ice == "120 g of wet cubes");
    CHECK(readMethod("Build over a big cube.").ice == "big cube");
    CHECK(readMethod("Dry shake without ice.").ice.empty());
}

TEST_CASE("A dilution is taken from the method's words", "[read]") {
    const auto ratioOf = [](const char* text) {
        const spec::Method method = readMethod(text);
        return method.dilution ? std::optional(method.dilution->ratio) : std::nullopt;
    };
    CHECK(ratioOf("Stir to 22 % dilution.") == 0.22);
    CHECK(ratioOf("Build in the glass. No water is added.") == 0.0);
    CHECK(ratioOf("Stir without dilution in the freezer.") == 0.0);
    CHECK(ratioOf("Stir with ice.") == std::nullopt);
}
