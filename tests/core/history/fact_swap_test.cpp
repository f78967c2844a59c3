#include "core/history/fact_swap.h"
#include "core/history/what_changed.h"
#include "tests/support/catch.h"

#include <map>
#include <random>

using namespace stillroom;
using history::RevisionFacts;
using larder::Fact;
using larder::FactState;
using larder::SourceKind;
using spec::Spec;

namespace {

const base::IngredientId kGin = base::IngredientId::derivedFrom("gin");
const base::IngredientId kSyrup = base::IngredientId::derivedFrom("syrup");

Spec drink() {
    Spec s;
    spec::Line gin, syrup;
    gin.name = "gin";
    gin.ingredient = kGin;
    syrup.name = "syrup";
    syrup.ingredient = kSyrup;
    s.lines = {gin, syrup};
    return s;
}

Fact label(double value) {
    return Fact::single(value, SourceKind::Label, "label");
}

FactState gin(double abv) {
    FactState state;
    state.abvPercent = label(abv);
    return state;
}

// 50 % and 66.7 % sugar by weight: densities at 20 °C of sucrose solutions, 1229.5 and 1334 kg/m³ (as
// core/physics gives them to the figure shown; the test needs the ratio only).
FactState syrup(double brix, double density) {
    FactState state;
    state.sugarGPerL = label(brix / 100 * density);
    state.densityKgPerM3 = label(density);
    return state;
}

class States {
  public:
    std::string put(const FactState& state) {
        const auto hash = state.hash();
        m_states[hash] = state;
        return hash;
    }
    history::StateOf lookup() const {
        return [this](const std::string& hash) -> const FactState* {
            const auto found = m_states.find(hash);
            return found == m_states.end() ? nullptr : &found->second;
        };
    }

  private:
    std::map<std::string, FactState> m_states;
};

} // namespace

TEST_CASE("other facts for the same line are a change of their own", "[diff]") {
    States states;
    RevisionFacts a, b;
    a.states = {{kGin, states.put(gin(47))}, {kSyrup, states.put(syrup(50, 1229.5))}};
    b.states = {{kGin, states.put(gin(43))}, {kSyrup, states.put(syrup(200.0 / 3, 1334))}};
    const Spec s = drink();
    CHECK(history::difference(s, s, quantity::HouseMeasures::defaults()).isEmpty());
    const auto swaps = history::factSwaps(s, a, s, b, states.lookup());
    REQUIRE(swaps.size() == 2);
    CHECK(history::inWords(swaps) == "gin 47 → 43 % vol; syrup now 2:1");
    CHECK(history::inWords(history::factSwaps(s, b, s, a, states.lookup())) ==
          "gin 43 → 47 % vol; syrup now 1:1");
    CHECK(history::factSwaps(s, a, s, a, states.lookup()).empty());
    const auto things = history::changedThings({}, s, s, swaps);
    REQUIRE(things.size() == 2);
    CHECK(things[0].kind == history::ThingKind::Facts);
    CHECK(things[0].name == "what is poured for gin");
}

TEST_CASE("who says a figure is no swap of facts", "[diff]") {
    States states;
    RevisionFacts a, b;
    FactState measured = gin(47);
    measured.abvPercent = Fact{47, 47, 47, SourceKind::Measured, "weighed", "2026-11-02"};
    a.states = {{kGin, states.put(gin(47))}};
    b.states = {{kGin, states.put(measured)}};
    CHECK(a.states != b.states);
    CHECK(history::factSwaps(drink(), a, drink(), b, states.lookup()).empty());
    FactState wider = gin(47);
    wider.abvPercent->low = 46;
    b.states = {{kGin, states.put(wider)}};
    CHECK(history::inWords(history::factSwaps(drink(), a, drink(), b, states.lookup())) == "gin range % vol");
}

TEST_CASE("another bottle lot or batch is told even where its figures are the same", "[diff]") {
    States states;
    RevisionFacts a, b;
    a.states = b.states = {{kGin, states.put(gin(47))}, {kSyrup, states.put(syrup(50, 1229.5))}};
    b.pours[kGin] = base::IngredientId::derivedFrom("another gin");
    a.lots[kSyrup] = base::LotId::derivedFrom("monday");
    b.lots[kSyrup] = base::LotId::derivedFrom("tuesday");
    CHECK(history::inWords(history::factSwaps(drink(), a, drink(), b, states.lookup())) ==
          "gin, another bottle; syrup, another lot");
    a.preparations[kSyrup] = base::RevisionId::derivedFrom("r1");
    // A draft names no revision of what it is made with: that alone says nothing.
    CHECK(history::factSwaps(drink(), a, drink(), b, states.lookup())[1].remade == false);
    b.preparations[kSyrup] = base::RevisionId::derivedFrom("r2");
    b.states[kGin] = states.put(gin(43));
    CHECK(history::inWords(history::factSwaps(drink(), a, drink(), b, states.lookup())) ==
          "gin, another bottle: 47 → 43 % vol; syrup remade");
}

TEST_CASE("an ingredient that one side lacks is no swap", "[diff]") {
    States states;
    RevisionFacts a, b;
    a.states = {{kGin, states.put(gin(47))}};
    b.states = {{kGin, states.put(gin(43))}, {kSyrup, states.put(syrup(50, 1229.5))}};
    Spec without = drink();
    without.lines.erase(without.lines.begin());
    CHECK(history::factSwaps(without, a, drink(), b, states.lookup()).empty());
    // A state that is not at hand: the ids differ and nothing more is known, so nothing is claimed.
    CHECK(history::factSwaps(drink(), a, drink(), b, {}).empty());
}

TEST_CASE("the facts a draft stands on come from the larder as a revision's would", "[diff]") {
    auto larder = larder::Larder::withoutHandbook();
    larder::Ingredient kind;
    kind.id = kGin;
    kind.name = "gin";
    kind.houseBottle = base::IngredientId::derivedFrom("bottle");
    larder::Ingredient bottle;
    bottle.id = *kind.houseBottle;
    bottle.sort = larder::IngredientSort::Bottle;
    bottle.kind = kGin;
    bottle.name = "London dry gin, 47 %";
    bottle.facts = gin(47);
    larder.put(kind);
    larder.put(bottle);
    const auto facts = history::factsOf(drink(), larder);
    CHECK(facts.states == std::map<base::IngredientId, std::string>{{kGin, gin(47).hash()}});
    CHECK(facts.pours == std::map<base::IngredientId, base::IngredientId>{{kGin, bottle.id}});
}

TEST_CASE("swaps of random facts are none from a spec to itself and mirrored from the other side",
          "[diff][property]") {
    std::mt19937 random(17);
    const auto below = [&](unsigned n) { return random() % n; };
    States states;
    std::vector<std::string> known;
    for (unsigned i = 0; i < 12; ++i) {
        FactState state = i % 3 == 0 ? gin(35.0 + i) : i % 3 == 1 ? syrup(50 + i, 1230 + i) : FactState{};
        if (i % 4 == 0) state.allergens = std::vector<std::string>{"milk"};
        if (i % 5 == 0) state.tags = {"raw_egg"};
        known.push_back(states.put(state));
    }
    const auto facts = [&] {
        RevisionFacts pinned;
        for (const auto& id : {kGin, kSyrup}) {
            if (below(8) == 0) continue; // nothing pinned
            pinned.states[id] = known[below(static_cast<unsigned>(known.size()))];
            if (below(3) == 0)
                pinned.pours[id] = base::IngredientId::derivedFrom("b" + std::to_string(below(3)));
            if (below(3) == 0) pinned.lots[id] = base::LotId::derivedFrom("l" + std::to_string(below(3)));
            if (below(3) == 0)
                pinned.preparations[id] = base::RevisionId::derivedFrom("r" + std::to_string(below(3)));
        }
        return pinned;
    };
    int differing = 0;
    for (int round = 0; round < 2000; ++round) {
        const RevisionFacts a = facts(), b = facts();
        CHECK(history::factSwaps(drink(), a, drink(), a, states.lookup()).empty());
        const auto there = history::factSwaps(drink(), a, drink(), b, states.lookup());
        const auto back = history::factSwaps(drink(), b, drink(), a, states.lookup());
        REQUIRE(there.size() == back.size());
        for (std::size_t i = 0; i < there.size(); ++i) {
            REQUIRE(there[i].ingredient == back[i].ingredient);
            REQUIRE(there[i].bottle == back[i].bottle);
            REQUIRE(there[i].lot == back[i].lot);
            REQUIRE(there[i].remade == back[i].remade);
            REQUIRE(there[i].changes.figures.size() == back[i].changes.figures.size());
            for (std::size_t f = 0; f < there[i].changes.figures.size(); ++f) {
                REQUIRE(there[i].changes.figures[f].before == back[i].changes.figures[f].after);
                REQUIRE(there[i].changes.figures[f].after == back[i].changes.figures[f].before);
            }
            REQUIRE(there[i].changes.words.size() == back[i].changes.words.size());
        }
        differing += there.empty() ? 0 : 1;
    }
    CHECK(differing > 1000);
}
