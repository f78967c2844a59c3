#include "core/physics/mixture.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <random>

using namespace stillroom;
using namespace stillroom::test;
using quantity::Measure;
using quantity::Rational;
using spec::Bound;
using spec::Quantity;
using spec::Stage;
using spec::Technique;

namespace {

constexpr int kRounds = 300;
const char* const kNames[] = {"gin",         "overproof", "liqueur", "wine",
                              "lemon juice", "syrup",     "water",   "cream"};
const char* const kOpen[] = {"no strength", "no sugar", "no acid"};

Shelf shelf() {
    Shelf s;
    s.putPriced("gin", {{43}, {0}, {0}}, 2199, 700)
        .putPriced("overproof", {{63}, {0}, {0}}, 3150, 500)
        .putPriced("liqueur", {{24}, {320}, {0}}, 1899, 700)
        .putPriced("wine", {{16}, {150}, {4.5}}, 949, 750)
        .putPriced("lemon juice", {{0}, {16}, {60}}, 650, 1000)
        .putPriced("syrup", {{0}, {615}, {0}}, 120, 810)
        .putPriced("water", {{0}, {0}, {0}}, 1, 1000)
        .putPriced("cream", {{0}, {30}, {1}}, 399, 500)
        .put("no strength", {{}, {0}, {0}})
        .put("no sugar", {{20}, {}, {0}})
        .put("no acid", {{0}, {100}, {}});
    return s;
}

class Bar {
  public:
    explicit Bar(unsigned seed) : m_random(seed) {}
    int below(int n) { return static_cast<int>(m_random() % static_cast<unsigned>(n)); }
    spec::Spec drink(int most = 7) {
        spec::Spec d;
        const int n = 1 + below(most);
        for (int i = 0; i < n; ++i)
            d.lines.push_back(line(kNames[below(8)], *Rational::make(1 + below(400), 4), Measure::Ml,
                                   below(4) == 0 ? spec::Role::Topped : spec::Role::Mixed));
        constexpr Technique kTechniques[] = {Technique::None, Technique::Stir, Technique::Shake,
                                             Technique::Build, Technique::WaterBath};
        d.method.technique = kTechniques[below(5)];
        return d;
    }

  private:
    std::mt19937 m_random;
};

void checkAlike(const spec::Readings& a, const spec::Readings& b, double factor = 1) {
    for (std::size_t s = 0; s < spec::kStageCount; ++s)
        for (std::size_t q = 0; q < spec::kQuantityCount; ++q) {
            const auto quantity = static_cast<Quantity>(q);
            INFO(spec::stageId(static_cast<Stage>(s)) << " " << spec::quantityId(quantity));
            const double times = spec::isExtensive(quantity) ? factor : 1;
            CHECK(a.stages[s].of[q].bound == b.stages[s].of[q].bound);
            // A cost is rounded to a millionth a line: half of it, seven lines, up to seven times.
            // A temperature is a root, found to 1e-7 K.
            const double margin = quantity == Quantity::Cost          ? 3e-5
                                  : quantity == Quantity::Temperature ? 1e-5
                                                                      : 1e-12;
            CHECK(b.stages[s].of[q].value ==
                  Approx(a.stages[s].of[q].value * times).epsilon(1e-9).margin(margin));
        }
}

} // namespace

TEST_CASE("the order of lines does not matter", "[spec][property]") {
    const Shelf s = shelf();
    Bar bar(1);
    for (int i = 0; i < kRounds; ++i) {
        const auto d = bar.drink();
        auto turned = d;
        std::reverse(turned.lines.begin(), turned.lines.end());
        checkAlike(s.read(d), s.read(turned));
    }
}

TEST_CASE("scaling every amount scales sums and leaves concentrations", "[spec][property]") {
    const Shelf s = shelf();
    Bar bar(2);
    for (int i = 0; i < kRounds; ++i) {
        const auto d = bar.drink();
        auto large = d;
        for (auto& l : large.lines)
            l.poured.multiplier = 7;
        checkAlike(s.read(d), s.read(large), 7);
    }
}

TEST_CASE("splitting a line changes nothing", "[spec][property]") {
    const Shelf s = shelf();
    Bar bar(3);
    for (int i = 0; i < kRounds; ++i) {
        const auto d = bar.drink();
        auto split = d;
        auto half = split.lines[0];
        half.poured.amount = quantity::Amount::exact(*half.poured.amount.low.times(*Rational::make(1, 2)));
        split.lines[0] = half;
        split.lines.push_back(half);
        checkAlike(s.read(d), s.read(split));
    }
}

TEST_CASE("adding water never raises the strength", "[spec][property]") {
    const Shelf s = shelf();
    Bar bar(4);
    for (int i = 0; i < kRounds; ++i) {
        const auto d = bar.drink();
        auto thinner = d;
        thinner.lines.push_back(line("water", 1 + bar.below(50)));
        const auto before = s.read(d);
        const auto after = s.read(thinner);
        for (const auto stage : {Stage::Measured, Stage::Mixed, Stage::Served}) {
            const auto& strength = before[stage][Quantity::Strength];
            if (strength.bound == Bound::Exact)
                CHECK(after[stage][Quantity::Strength].value <= strength.value + 1e-12);
        }
    }
}

TEST_CASE("mass is conserved from stage to stage", "[spec][property]") {
    const Shelf s = shelf();
    Bar bar(5);
    for (int i = 0; i < kRounds; ++i) {
        const auto d = bar.drink();
        const spec::Bindings bindings(d, s.larder, s.rules());
        const auto r = spec::evaluate(d, bindings);
        double alone = 0;
        for (const auto& l : d.lines) {
            if (l.role != spec::Role::Mixed) continue;
            alone += s.read(drink({l}))[Stage::Measured][Quantity::Mass].value;
        }
        CHECK(r[Stage::Measured][Quantity::Mass].value == Approx(alone).margin(1e-9));
        const double ratio = r[Stage::Mixed][Quantity::Dilution].bound == Bound::Exact
                                 ? r[Stage::Mixed][Quantity::Dilution].value
                                 : 0;
        const double water = ratio * r[Stage::Measured][Quantity::Volume].value * 0.9982;
        CHECK(r[Stage::Mixed][Quantity::Mass].value == Approx(alone + water).margin(1e-9));
        CHECK(r[Stage::Mixed][Quantity::Ethanol].value == r[Stage::Measured][Quantity::Ethanol].value);
        // What the sums say is what the composition says.
        for (const auto stage : {Stage::Measured, Stage::Mixed, Stage::Served}) {
            const auto c = spec::compositionOf(d, bindings, stage);
            CHECK(c.totalGrams() == Approx(r[stage][Quantity::Mass].value).margin(1e-9));
            CHECK(physics::volumeAt20(c).ml() == Approx(r[stage][Quantity::Volume].value).margin(1e-9));
        }
    }
}

TEST_CASE("an unknown fact is never exact where it matters", "[spec][property]") {
    const Shelf s = shelf();
    Bar bar(6);
    for (int i = 0; i < kRounds; ++i) {
        auto d = bar.drink(4);
        d.method.technique = Technique::None;
        const int which = bar.below(3);
        d.lines.push_back(line(kOpen[which], 5 + bar.below(40)));
        const auto m = s.read(d)[Stage::Measured];
        const Quantity wants[] = {Quantity::Ethanol, Quantity::Sugar, Quantity::Acid};
        INFO(kOpen[which]);
        CHECK(m[wants[which]].bound == Bound::AtLeast);
        CHECK(m[wants[which]].gapLines != 0);
    }
}

TEST_CASE("whatever the missing fact is the bound holds", "[spec][property]") {
    const Shelf open = shelf();
    Bar bar(7);
    for (int i = 0; i < kRounds; ++i) {
        auto d = bar.drink(4);
        d.lines.push_back(line("no strength", 5 + bar.below(40)));
        d.lines.push_back(line("no sugar", 5 + bar.below(40)));
        const auto bounds = open.read(d);
        Shelf told = shelf();
        told.put("no strength", {{bar.below(96)}, {0}, {0}});
        told.put("no sugar", {{20}, {bar.below(700)}, {0}});
        const auto truth = told.read(d);
        for (std::size_t st = 0; st < spec::kStageCount; ++st)
            for (const auto q : {Quantity::Strength, Quantity::Ethanol, Quantity::Sugar, Quantity::Brix,
                                 Quantity::Volume, Quantity::EnergyKj, Quantity::Dilution}) {
                const auto& b = bounds.stages[st][q];
                const auto& t = truth.stages[st][q];
                if (t.bound != Bound::Exact) continue;
                INFO(spec::stageId(static_cast<Stage>(st)) << " " << spec::quantityId(q));
                // Inside a range of facts a curve may bend a little past both ends.
                const double slack = 0.01 * std::abs(t.value) + 1e-9;
                if (b.bound == Bound::AtLeast) CHECK(t.value >= b.value - slack);
                if (b.bound == Bound::AtMost) CHECK(t.value <= b.value + slack);
                if (b.bound == Bound::Exact && !b.estimate) CHECK(t.value == Approx(b.value).epsilon(0.01));
            }
    }
}

TEST_CASE("any amount inside a range reads inside the bounds", "[spec][property]") {
    const Shelf s = shelf();
    Bar bar(8);
    for (int i = 0; i < kRounds; ++i) {
        auto d = bar.drink(8);
        auto chosen = d;
        for (std::size_t l = 0; l < d.lines.size(); ++l) {
            const int low = 5 + bar.below(30);
            const int width = bar.below(20);
            d.lines[l].poured.amount = quantity::Amount::range(low, low + width);
            chosen.lines[l].poured.amount = quantity::Amount::exact(low + bar.below(width + 1));
        }
        const auto bounds = s.read(d);
        const auto truth = s.read(chosen);
        for (std::size_t st = 0; st < spec::kStageCount; ++st)
            for (std::size_t q = 0; q < spec::kQuantityCount; ++q) {
                const auto& b = bounds.stages[st].of[q];
                const auto& t = truth.stages[st].of[q];
                if (b.bound != Bound::Between || t.bound != Bound::Exact) continue;
                INFO(spec::stageId(static_cast<Stage>(st))
                     << " " << spec::quantityId(static_cast<Quantity>(q)));
                const double slack = 2e-3 * std::abs(t.value) + 1e-6;
                CHECK(t.value >= b.value - slack);
                CHECK(t.value <= b.upper + slack);
            }
    }
}

TEST_CASE("lines beyond the sixty-third share a bit and nothing breaks", "[spec][property]") {
    const Shelf s = shelf();
    spec::Spec d;
    for (int i = 0; i < 200; ++i)
        d.lines.push_back(line(i == 150 ? "no strength" : "gin", 1));
    const auto r = s.read(d);
    CHECK(r[Stage::Measured][Quantity::Ethanol].gapLines == std::uint64_t{1} << 63);
    CHECK(r[Stage::Measured][Quantity::PouredVolume].value == Approx(200));
}

TEST_CASE("a spec longer than its bindings reads the rest as unknown", "[spec][property]") {
    const Shelf s = shelf();
    auto d = drink({line("gin", 40)});
    const spec::Bindings bindings(d, s.larder, s.rules());
    d.lines.push_back(line("water", 40));
    const auto r = spec::evaluate(d, bindings);
    CHECK(r[Stage::Measured][Quantity::PouredVolume].value == 80);
    CHECK(r[Stage::Measured][Quantity::Ethanol].bound == Bound::AtLeast);
    CHECK_FALSE(spec::gaps(d, bindings).empty());
}
