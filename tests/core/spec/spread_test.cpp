#include "core/spec/spread.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using quantity::Measure;
using spec::Quantity;
using spec::Stage;
using spec::Technique;

namespace {

// Lime juice of 45.9 ± 6.9 g/l up to the trade's 60 (needs: acids.json, juice acidity).
Shelf shelf() {
    Shelf s;
    s.put("gin", {{45}, {0}, {0}}).put("syrup", {{0}, {614.8}, {0}}).put("bitters", {{44.7}, {40}, {0}});
    larder::Ingredient lime = s.ingredient("lime juice");
    lime.facts = factsOf({{0}, {17}, {60}});
    lime.facts.acidGPerL = larder::Fact{60, 46, 70, larder::SourceKind::Handbook, "the trade's figure"};
    s.larder.put(lime);
    return s;
}

spec::Spread spreadOf(const spec::Spec& d, Quantity q, Stage stage, const spec::SpreadAsk& ask = {}) {
    const Shelf s = shelf();
    return spec::spread(d, spec::Bindings(d, s.larder, s.rules()), q, stage, ask);
}

} // namespace

TEST_CASE("one ranged fact spreads a reading to its two ends", "[spec][spread]") {
    const auto d = drink({line("gin", 60), line("lime juice", 30), line("syrup", 20)});
    const auto s = spreadOf(d, Quantity::Acid, Stage::Measured);
    REQUIRE(s.applies);
    REQUIRE(s.sources.size() == 1);
    CHECK(s.sources[0].fact == "acid_g_per_l");
    CHECK(s.sources[0].lines == std::vector<int>{1});
    CHECK(s.central == s.reading.value);
    // Acid goes with the fact, but for the volume it takes.
    CHECK(s.low == Approx(s.central * 46 / 60).epsilon(0.005));
    CHECK(s.high == Approx(s.central * 70 / 60).epsilon(0.005));
}

TEST_CASE("the same liquid on two lines moves as one", "[spec][spread]") {
    const auto once =
        spreadOf(drink({line("gin", 60), line("lime juice", 30)}), Quantity::Acid, Stage::Measured);
    const auto twice = spreadOf(drink({line("gin", 60), line("lime juice", 10), line("lime juice", 20)}),
                                Quantity::Acid, Stage::Measured);
    REQUIRE(twice.sources.size() == 1);
    CHECK(twice.sources[0].lines == std::vector<int>{1, 2});
    CHECK(twice.low == Approx(once.low));
    CHECK(twice.high == Approx(once.high));
}

TEST_CASE("a barspoon of 2.5 to 5 ml spreads and what moves most comes first", "[spec][spread]") {
    const auto d = drink({line("gin", 60), line("lime juice", 5), line("syrup", 1, Measure::Barspoon)});
    const auto s = spreadOf(d, Quantity::Sugar, Stage::Measured);
    REQUIRE(s.sources.size() >= 2);
    CHECK(s.sources[0].fact == "measure:barspoon");
    CHECK(s.sources[0].lines == std::vector<int>{2});
    CHECK(s.sources[0].moves() >= s.sources[1].moves());
    CHECK(s.low < s.central);
    // Quadrature: more than the largest, no more than all together.
    double largest = 0;
    double all = 0;
    for (const auto& one : s.sources) {
        largest = std::max(largest, one.moves());
        all += one.moves();
    }
    const double widest = std::max(s.central - s.low, s.high - s.central);
    CHECK(widest >= largest * (1 - 1e-12));
    CHECK(widest <= all);
}

TEST_CASE("a predicted dilution may be asked to spread as well", "[spec][spread]") {
    const auto d = drink({line("gin", 60), line("syrup", 10)}, Technique::Stir);
    CHECK(spreadOf(d, Quantity::Strength, Stage::Mixed).sources.empty());
    const auto s = spreadOf(d, Quantity::Strength, Stage::Mixed, {true});
    REQUIRE(s.sources.size() == 1);
    CHECK(s.sources[0].fact == "dilution");
    CHECK(s.sources[0].high - s.sources[0].low == Approx(0.2));
    CHECK(s.low < s.central);
    CHECK(s.high > s.central);
    auto measured = d;
    measured.method.dilution = spec::DilutionEntry{0.4, spec::DilutionOrigin::Measured, ""};
    CHECK(spreadOf(measured, Quantity::Strength, Stage::Mixed, {true}).sources.empty());
}

TEST_CASE("what does not apply has no spread", "[spec][spread]") {
    CHECK_FALSE(spreadOf(drink({line("gin", 60)}), Quantity::Dilution, Stage::Measured).applies);
    CHECK_FALSE(spreadOf(drink({unstated("lime juice")}), Quantity::Acid, Stage::Served).applies);
}

TEST_CASE("a further reading spreads with its facts as the main ones do", "[spec][spread][more]") {
    Shelf s;
    s.put("gin", {{43}, {0}, {0}});
    larder::Ingredient lime = s.ingredient("lime juice");
    lime.facts = factsOf({{0}, {17}, {60}});
    lime.facts.acidGPerL->low = 46;
    lime.facts.acidGPerL->high = 70;
    s.larder.put(lime);
    const auto d = drink({line("gin", 50), line("lime juice", 25)}, spec::Technique::Shake);
    const spec::Bindings bindings(d, s.larder, s.rules());
    const auto onset = spec::spread(d, bindings, spec::More::FreezingOnset, spec::Stage::Measured);
    REQUIRE(onset.applies);
    REQUIRE(onset.sources.size() == 1);
    CHECK(onset.sources[0].fact == "acid_g_per_l");
    CHECK(onset.sources[0].atHigh < onset.central); // more acid, a lower onset
    CHECK(onset.sources[0].atLow > onset.central);
    CHECK(onset.low < onset.central);
    // By hand: the reading with the fact itself at its end.
    lime.facts.acidGPerL->low = lime.facts.acidGPerL->typical = lime.facts.acidGPerL->high = 70;
    s.larder.put(lime);
    const spec::Bindings sour(d, s.larder, s.rules());
    CHECK(onset.sources[0].atHigh ==
          Approx(spec::moreReadings(d, sour, spec::Stage::Measured)[spec::More::FreezingOnset].value)
              .margin(1e-9));
    CHECK_FALSE(spec::spread(d, sour, spec::More::Caffeine, spec::Stage::Measured).applies);
}
