#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using quantity::Measure;
using quantity::Rational;
using spec::Bound;
using spec::GapCode;
using spec::Quantity;
using spec::Stage;
using spec::Technique;

namespace {

Shelf shelf() {
    Shelf s;
    s.putPriced("gin", {{40}, {0}, {0}}, 2100, 700)
        .put("lemon juice", {{0}, {16}, {60}})
        .put("syrup", {{0}, {615}, {0}})
        .put("water", {{0}, {0}, {0}})
        .put("soda", {{0}, {0}, {0}})
        .put("tonic", {{0}, {85}, {5}})
        .put("overproof", {{63}, {0}, {0}})
        .put("unlabelled liqueur", {{24}, {}, {0}})
        .put("unlabelled spirit", {{}, {0}, {0}})
        .put("unlabelled juice", {{0}, {90}, {}});
    return s;
}

bool has(const std::vector<spec::Gap>& gaps, GapCode code, int line) {
    for (const auto& gap : gaps)
        if (gap.code == code && gap.line == line) return true;
    return false;
}

} // namespace

TEST_CASE("an unknown strength makes ethanol and strength at least", "[spec][bounds]") {
    const auto r = shelf().read(drink({line("gin", 30), line("unlabelled spirit", 30)}));
    const auto& m = r[Stage::Measured];
    CHECK(m[Quantity::Ethanol].bound == Bound::AtLeast);
    CHECK(m[Quantity::Ethanol].value == Approx(30 * 0.4 * 0.78924));
    CHECK(m[Quantity::Ethanol].gapLines == 2);
    CHECK(m[Quantity::Strength].bound == Bound::AtLeast);
    CHECK(m[Quantity::Strength].value == Approx(20).margin(0.2));
    CHECK(m[Quantity::StandardDrinks].bound == Bound::AtLeast);
    CHECK(m[Quantity::EnergyKj].bound == Bound::AtLeast);
    CHECK(m[Quantity::PouredVolume].bound == Bound::Exact);
    CHECK(m[Quantity::Volume].bound == Bound::Exact);
    CHECK(m[Quantity::Volume].estimate);
    CHECK(m[Quantity::Sugar].bound == Bound::Exact); // no sugar however strong it is
    CHECK(m[Quantity::Acid].bound == Bound::Exact);
}

TEST_CASE("an unknown sugar leaves the strength alone", "[spec][bounds]") {
    const auto r =
        shelf().read(drink({line("gin", 40), line("unlabelled liqueur", 20), line("lemon juice", 20)}));
    const auto& m = r[Stage::Measured];
    CHECK(m[Quantity::Sugar].bound == Bound::AtLeast);
    CHECK(m[Quantity::Sugar].gapLines == 2);
    CHECK(m[Quantity::Brix].bound == Bound::AtLeast);
    CHECK(m[Quantity::SugarAcidRatio].bound == Bound::AtLeast);
    CHECK(m[Quantity::SugarAcidRatio].value == Approx(16.0 / 60));
    CHECK(m[Quantity::Strength].bound == Bound::Exact);
    CHECK(m[Quantity::Ethanol].bound == Bound::Exact);
    CHECK(m[Quantity::Acid].bound == Bound::Exact);
    CHECK(m[Quantity::EnergyKcal].bound == Bound::AtLeast);
}

TEST_CASE("an unknown acid makes the ratio at most", "[spec][bounds]") {
    const auto r = shelf().read(drink({line("lemon juice", 20), line("unlabelled juice", 40)}));
    const auto& m = r[Stage::Measured];
    CHECK(m[Quantity::Acid].bound == Bound::AtLeast);
    CHECK(m[Quantity::Acid].value == Approx(2.0).margin(0.02)); // 1.2 g in 60 ml
    CHECK(m[Quantity::SugarAcidRatio].bound == Bound::AtMost);
    CHECK(m[Quantity::SugarAcidRatio].value == Approx((0.32 + 3.6) / 1.2));
}

TEST_CASE("sugar and acid both unknown leave the ratio unknown", "[spec][bounds]") {
    const auto r = shelf().read(
        drink({line("lemon juice", 20), line("unlabelled juice", 40), line("unlabelled liqueur", 20)}));
    CHECK(r[Stage::Measured][Quantity::SugarAcidRatio].bound == Bound::Unknown);
    CHECK(r[Stage::Measured][Quantity::SugarAcidRatio].gapLines == 6);
    // Nobody knows whether there is any acid: neither a ratio nor "no acid".
    const auto open = shelf().read(drink({line("gin", 20), line("unlabelled juice", 40)}));
    CHECK(open[Stage::Measured][Quantity::SugarAcidRatio].bound == Bound::Unknown);
}

TEST_CASE("an ingredient of which nothing is known keeps its volume and opens the rest", "[spec][bounds]") {
    const Shelf s = shelf();
    const auto d = drink({line("gin", 40), line("cloudberry thing", 20)});
    const auto r = s.read(d);
    const auto& m = r[Stage::Measured];
    CHECK(m[Quantity::PouredVolume].bound == Bound::Exact);
    CHECK(m[Quantity::PouredVolume].value == 60);
    CHECK(m[Quantity::Volume].bound == Bound::Exact);
    for (const auto q : {Quantity::Strength, Quantity::Ethanol, Quantity::Sugar, Quantity::Acid,
                         Quantity::EnergyKj, Quantity::Cost})
        CHECK(m[q].bound == Bound::AtLeast);
    CHECK(m[Quantity::Mass].bound != Bound::Exact);
    CHECK(has(s.gaps(d), GapCode::IngredientUnknown, 1));
    CHECK_FALSE(has(s.gaps(d), GapCode::StrengthUnknown, 1));
}

TEST_CASE("a missing fact too small to be seen leaves a reading exact", "[spec][bounds]") {
    const Shelf s = shelf();
    // A drop is 0.05 ml: at most 0.039 g of ethanol, 0.045 g of sugar in 250 ml.
    const auto d = drink({line("gin", 50), line("water", 200), line("unlabelled spirit", 1, Measure::Drop)});
    const auto r = s.read(d);
    CHECK(r[Stage::Measured][Quantity::Ethanol].bound == Bound::Exact);
    CHECK(r[Stage::Measured][Quantity::Strength].bound == Bound::Exact);
    CHECK_FALSE(has(s.gaps(d), GapCode::StrengthUnknown, 2));
    // Two dashes can be seen.
    const auto dashes = drink({line("gin", 50), line("unlabelled spirit", 2, Measure::Dash)});
    CHECK(s.read(dashes)[Stage::Measured][Quantity::Strength].bound == Bound::AtLeast);
    CHECK(has(s.gaps(dashes), GapCode::StrengthUnknown, 1));
}

TEST_CASE("an amount nobody stated bounds the strength on the side that is sure", "[spec][bounds]") {
    const Shelf s = shelf();
    const auto topped = drink({line("gin", 40), unstated("soda")});
    auto r = s.read(topped);
    CHECK(r[Stage::Measured][Quantity::Strength].bound == Bound::Exact);
    const auto& v = r[Stage::Served];
    CHECK(v[Quantity::Volume].bound == Bound::AtLeast);
    CHECK(v[Quantity::Volume].value == Approx(40));
    CHECK(v[Quantity::Strength].bound == Bound::AtMost);
    CHECK(v[Quantity::Strength].value == Approx(40));
    CHECK(v[Quantity::Ethanol].bound == Bound::Exact); // soda brings none
    CHECK(v[Quantity::Strength].gapLines == 2);
    CHECK(has(s.gaps(topped), GapCode::AmountNotStated, 1));

    r = s.read(drink({line("gin", 40), unstated("overproof", spec::Role::Floated)}));
    CHECK(r[Stage::Served][Quantity::Strength].bound == Bound::AtLeast);
    CHECK(r[Stage::Served][Quantity::Ethanol].bound == Bound::AtLeast);

    r = s.read(drink({line("gin", 40), unstated("unlabelled spirit")}));
    CHECK(r[Stage::Served][Quantity::Strength].bound == Bound::Unknown);

    r = s.read(drink({line("gin", 40), unstated("tonic")}));
    CHECK(r[Stage::Served][Quantity::Sugar].bound == Bound::AtLeast);
}

TEST_CASE("nothing but unstated amounts is unknown and never zero", "[spec][bounds]") {
    const auto r = shelf().read(drink({unstated("gin", spec::Role::Mixed)}));
    CHECK(r[Stage::Measured][Quantity::Strength].bound == Bound::Unknown);
    CHECK(r[Stage::Measured][Quantity::Volume].bound == Bound::AtLeast);
    CHECK(r[Stage::Measured][Quantity::Cost].bound == Bound::Unknown);
}

TEST_CASE("optional lines and lines to taste are out of the sums and named", "[spec][bounds]") {
    const Shelf s = shelf();
    auto d = drink({line("gin", 40), line("syrup", 10), unstated("lemon juice", spec::Role::Mixed)});
    d.lines[1].optional = true;
    d.lines[2].toTaste = true;
    const auto r = s.read(d);
    CHECK(r[Stage::Measured][Quantity::Volume].value == Approx(40));
    CHECK(r[Stage::Measured][Quantity::Volume].bound == Bound::Exact);
    CHECK(r[Stage::Measured][Quantity::Sugar].value == 0);
    CHECK(has(s.gaps(d), GapCode::OptionalLeftOut, 1));
    CHECK(has(s.gaps(d), GapCode::ToTasteLeftOut, 2));
    CHECK_FALSE(has(s.gaps(d), GapCode::AmountNotStated, 2));
}

TEST_CASE("a range reads between its ends", "[spec][bounds]") {
    const auto r = shelf().read(drink({line("gin", 40), ranged("syrup", 10, 20)}));
    const auto& m = r[Stage::Measured];
    CHECK(m[Quantity::PouredVolume].bound == Bound::Between);
    CHECK(m[Quantity::PouredVolume].value == 50);
    CHECK(m[Quantity::PouredVolume].upper == 60);
    CHECK(m[Quantity::Strength].bound == Bound::Between);
    CHECK(m[Quantity::Strength].value < m[Quantity::Strength].upper);
    CHECK(m[Quantity::Strength].value == Approx(1600 / 60.0).margin(0.3));
    CHECK(m[Quantity::Strength].upper == Approx(1600 / 50.0).margin(0.3));
    CHECK(m[Quantity::Ethanol].bound == Bound::Exact);
    // A tenth of a ml either way cannot be seen in the strength.
    const auto fine = shelf().read(drink({line("gin", 40), ranged("syrup", 10, *Rational::make(1001, 100))}));
    CHECK(fine[Stage::Measured][Quantity::Strength].bound == Bound::Exact);
}

TEST_CASE("two ranges against each other are read at every corner", "[spec][bounds]") {
    const auto r = shelf().read(drink({ranged("gin", 40, 50), ranged("water", 40, 50)}));
    // Weakest: 40 gin and 50 water; strongest: 50 and 40. Contraction adds up to 0.6.
    CHECK(r[Stage::Measured][Quantity::Strength].value == Approx(1600 / 90.0).margin(0.4));
    CHECK(r[Stage::Measured][Quantity::Strength].upper == Approx(2000 / 90.0).margin(0.4));
}

TEST_CASE("many ranges are bounded wider but never too narrow", "[spec][bounds]") {
    std::vector<spec::Line> lines, low, high;
    for (int i = 0; i < 8; ++i) {
        const char* name = i % 2 == 0 ? "gin" : "water";
        lines.push_back(ranged(name, 10, 12));
        low.push_back(line(name, i % 2 == 0 ? 10 : 12));
        high.push_back(line(name, i % 2 == 0 ? 12 : 10));
    }
    const auto r = shelf().read(drink(lines));
    const auto& strength = r[Stage::Measured][Quantity::Strength];
    CHECK(strength.bound == Bound::Between);
    CHECK(strength.value <= shelf().read(drink(low))[Stage::Measured][Quantity::Strength].value);
    CHECK(strength.upper >= shelf().read(drink(high))[Stage::Measured][Quantity::Strength].value);
    CHECK(strength.value > 10);
    CHECK(strength.upper < 30);
}

TEST_CASE("up to an amount means from nothing to that amount", "[spec][bounds]") {
    auto d = drink({line("gin", 40), line("syrup", 10)});
    d.lines[1].qualifier = spec::Qualifier::UpTo;
    const auto r = shelf().read(d);
    CHECK(r[Stage::Measured][Quantity::PouredVolume].value == 40);
    CHECK(r[Stage::Measured][Quantity::PouredVolume].upper == 50);
    CHECK(r[Stage::Measured][Quantity::Sugar].value == 0);
}

TEST_CASE("an unknown price makes the cost at least and no price makes it unknown", "[spec][bounds]") {
    const Shelf s = shelf();
    const auto d = drink({line("gin", 70), line("syrup", 10)});
    CHECK(s.read(d)[Stage::Served][Quantity::Cost].bound == Bound::AtLeast);
    CHECK(s.read(d)[Stage::Served][Quantity::Cost].value == Approx(2.10));
    CHECK(s.read(d)[Stage::Served][Quantity::Cost].gapLines == 2);
    CHECK(has(s.gaps(d), GapCode::PriceUnknown, 1));
    CHECK(s.read(drink({line("syrup", 10)}))[Stage::Served][Quantity::Cost].bound == Bound::Unknown);
    // Water from the tap costs less than half a cent, whoever asks.
    CHECK(s.read(drink({line("gin", 70), line("water", 70)}))[Stage::Served][Quantity::Cost].bound ==
          Bound::Exact);
}

TEST_CASE("a price in another currency is a gap", "[spec][bounds]") {
    Shelf s = shelf();
    auto foreign = s.ingredient("foreign rum");
    foreign.facts = factsOf({{40}, {0}, {0}});
    foreign.packs.push_back({{}, {2000, *quantity::Currency::fromCode("GBP")}, 700, {}, {}, ""});
    s.larder.put(foreign);
    const auto d = drink({line("gin", 70), line("foreign rum", 10)});
    CHECK(s.read(d)[Stage::Served][Quantity::Cost].bound == Bound::AtLeast);
    CHECK(has(s.gaps(d), GapCode::PriceCurrency, 1));
    CHECK_FALSE(has(s.gaps(d), GapCode::PriceUnknown, 1));
}

TEST_CASE("leaves and sprigs bring nothing and ask for their price alone", "[spec][bounds]") {
    Shelf s = shelf();
    const auto d =
        drink({line("gin", 40), line("mint", 6, Measure::Leaf), line("orange", 1, Measure::Slice)});
    auto r = s.read(d);
    CHECK(r[Stage::Served][Quantity::Strength].bound == Bound::Exact);
    CHECK(r[Stage::Served][Quantity::Cost].bound == Bound::AtLeast);
    for (const auto& gap : s.gaps(d))
        CHECK((gap.code == GapCode::PriceUnknown || gap.code == GapCode::IngredientUnknown));
    for (const char* name : {"mint", "orange"}) { // by-products of what is paid for already
        auto free = s.ingredient(name);
        larder::Pack pack;
        pack.price = {0, {}};
        pack.forPieces = 1;
        free.packs = {pack};
        s.larder.put(free);
    }
    r = s.read(d);
    CHECK(r[Stage::Served][Quantity::Cost].bound == Bound::Exact);
    CHECK(s.gaps(d).empty());
}

TEST_CASE("a counted thing without a size is a gap and cannot be strong", "[spec][bounds]") {
    const Shelf s = shelf();
    const auto d = drink({line("gin", 40), line("gooseberry", 3, std::nullopt)});
    const auto r = s.read(d);
    CHECK(r[Stage::Measured][Quantity::Volume].bound == Bound::AtLeast);
    CHECK(r[Stage::Measured][Quantity::Strength].bound == Bound::AtMost);
    CHECK(r[Stage::Measured][Quantity::Ethanol].bound == Bound::Exact);
    CHECK(has(s.gaps(d), GapCode::MeasureHasNoSize, 1));
}

TEST_CASE("a predicted dilution is open when the strength before it is", "[spec][bounds]") {
    const auto r = shelf().read(drink({line("gin", 30), line("unlabelled spirit", 30)}, Technique::Stir));
    CHECK(r[Stage::Mixed][Quantity::Dilution].bound == Bound::AtLeast);
    CHECK(r[Stage::Mixed][Quantity::Strength].bound == Bound::AtLeast);
    CHECK(r[Stage::Mixed][Quantity::Strength].value < r[Stage::Measured][Quantity::Strength].value);
}

TEST_CASE("a stated strength stands beside a sugar nobody knows", "[spec][bounds]") {
    Shelf s;
    s.put("gin", {50, {}, {}});
    const auto r = s.read(drink({line("gin", 60)}));
    const auto& m = r[Stage::Measured];
    CHECK(m[Quantity::Strength].bound == Bound::Exact);
    CHECK(m[Quantity::Strength].value == Approx(50));
    CHECK(m[Quantity::Ethanol].bound == Bound::Exact);
    CHECK(m[Quantity::Ethanol].value == Approx(23.6772)); // 60 × 0.50 × 0.78924 (OIML R 22)
    CHECK(m[Quantity::Sugar].bound == Bound::AtLeast);
    CHECK(m[Quantity::Acid].bound == Bound::AtLeast);
    // The strongest there is leaves next to no room.
    s.put("spirit", {96, {}, {}});
    const auto strong = s.read(drink({line("spirit", 10)}));
    CHECK(strong[Stage::Measured][Quantity::Ethanol].bound == Bound::Exact);
    CHECK(strong[Stage::Measured][Quantity::Strength].value == Approx(96));
}

TEST_CASE("parts without a target name their lines in what they leave open", "[spec][bounds]") {
    const auto r = shelf().read(drink({line("gin", 2, Measure::Part), line("syrup", 1, Measure::Part)}));
    for (const Quantity q : {Quantity::PouredVolume, Quantity::Volume, Quantity::Ethanol, Quantity::Mass,
                             Quantity::Cost, Quantity::StandardDrinks}) {
        INFO(spec::quantityId(q));
        CHECK(r[Stage::Measured][q].bound == Bound::Unknown);
        CHECK((r[Stage::Measured][q].gapLines & 3U) == 3);
    }
}
