#include "core/physics/solubility.h"

#include "tests/support/catch.h"

using namespace stillroom::physics;
using namespace stillroom::quantity;

namespace {

Composition inWater(Substance substance, double percent) {
    Composition c;
    c[substance] = percent;
    c[Substance::Water] = 100 - percent;
    return c;
}

Temperature celsius(double t) {
    return Temperature::fromCelsius(t);
}

} // namespace

TEST_CASE("Saturation meets its published rows and rises with warmth", "[physics][solubility]") {
    // Herzfeld 1892; the Salt Institute's table of brine; an encyclopedia's of citric acid; Combs and Bele.
    CHECK(solubility(Substance::Sucrose, celsius(20))->percent() == Approx(67.09));
    CHECK(solubility(Substance::Salt, celsius(21.11))->percent() == Approx(26.45));
    CHECK(solubility(Substance::Salt, celsius(-21.11))->percent() == Approx(23.31));
    CHECK(solubility(Substance::Citric, celsius(20))->percent() == Approx(59.2));
    CHECK(solubility(Substance::Glucose, celsius(20))->percent() == Approx(49.7));
    for (const Substance s :
         {Substance::Sucrose, Substance::Glucose, Substance::Fructose, Substance::Citric, Substance::Salt}) {
        const auto ends = solubilityEnds(s);
        REQUIRE(ends);
        CHECK_FALSE(ends->source.empty());
        double last = 0;
        for (double t = ends->coldest.celsius(); t <= ends->warmest.celsius(); t += 0.5) {
            const auto most = solubility(s, celsius(t));
            REQUIRE(most);
            CHECK(most->percent() > last);
            last = most->percent();
        }
        CHECK_FALSE(solubility(s, ends->coldest.plusKelvin(-0.1)));
        CHECK_FALSE(solubility(s, ends->warmest.plusKelvin(0.1)));
    }
    CHECK_FALSE(solubilityEnds(Substance::Fat));
    CHECK_FALSE(solubility(Substance::Malic, celsius(20)));
}

TEST_CASE("What does not stay dissolved is named with what would", "[physics][solubility]") {
    CHECK_FALSE(undissolvedAt(inWater(Substance::Sucrose, 67), celsius(20)));
    const auto much = undissolvedAt(inWater(Substance::Sucrose, 67.2), celsius(20));
    REQUIRE(much);
    CHECK(much->substance == Substance::Sucrose);
    CHECK(much->share.percent() == Approx(67.2));
    CHECK(much->most.percent() == Approx(67.09));
    CHECK(undissolvedAt(inWater(Substance::Sucrose, 65), celsius(-20))); // held to 0 °C
    CHECK(undissolvedAt(inWater(Substance::Salt, 27), celsius(25))->substance == Substance::Salt);
    CHECK_FALSE(neverDissolved(inWater(Substance::Sucrose, 82)));
    CHECK(neverDissolved(inWater(Substance::Sucrose, 83)));
    CHECK(neverDissolved(inWater(Substance::Salt, 60)));
    CHECK(neverDissolved(inWater(Substance::Citric, 100 * 66.0 / 76)));
    CHECK_FALSE(undissolvedAt(Composition{}, celsius(20)));
}
