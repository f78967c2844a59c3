#include "core/preparation/recompute.h"

#include "core/preparation/preparation.h"
#include "core/spec/caution.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace stillroom;
using namespace stillroom::test;
using preparation::Specs;
using quantity::Measure;
using spec::Quantity;
using spec::Stage;

namespace {

base::IngredientId idOf(const std::string& name) {
    return base::IngredientId::derivedFrom(name);
}

larder::Pack byWeight(std::int64_t cents, double grams, const std::string& day = {}) {
    larder::Pack pack;
    pack.id = base::PackId::derivedFrom(std::to_string(cents) + day);
    pack.price = {cents, {}};
    pack.forG = grams;
    pack.pricedOn = day;
    return pack;
}

// A spiced purée syrup, simmered and strained, goes into a cream, and the cream into a drink.
struct Kitchen {
    Shelf shelf;
    Specs specs;
    spec::Spec nightcap;

    Kitchen() {
        shelf.put("water", {{0}, {0}, {0}}).putPriced("gin", {{47}, {0}, {0}}, 2100, 700);
        shelf.putDry("sugar", 1000, 0, 0.85);
        auto sugar = *shelf.larder.find(idOf("sugar"));
        sugar.packs = {byWeight(120, 1000)};
        sugar.facts.allergens = std::vector<std::string>{};
        shelf.larder.put(sugar);
        auto puree = shelf.ingredient("orchard puree");
        puree.facts = factsOf({{0}, {60}, {2}});
        puree.facts.densityKgPerM3 = fact(1050);
        puree.facts.allergens = std::vector<std::string>{};
        puree.packs = {byWeight(400, 1000)};
        shelf.larder.put(puree);
        auto cream = shelf.ingredient("cream");
        cream.facts = factsOf({{0}, {30}, {0}});
        cream.facts.allergens = std::vector<std::string>{"milk"};
        cream.packs = {{{}, {300, {}}, 1000, {}, {}, ""}};
        shelf.larder.put(cream);
        add("spiced syrup", syrup());
        spec::Spec spiced = drink({line("spiced syrup", 200), line("cream", 300)});
        spiced.yieldMl = 500;
        add("spiced cream", spiced);
        nightcap = drink({line("gin", 50), line("spiced cream", 25)}, spec::Technique::Shake);
    }
    static spec::Spec syrup() {
        auto made = drink(
            {line("sugar", 500, Measure::G), line("water", 500), line("orchard puree", 250, Measure::G)});
        spec::Step simmer;
        simmer.kind = spec::StepKind::Simmer;
        simmer.waterLostG = 60;
        spec::Step strain;
        strain.kind = spec::StepKind::Strain;
        strain.gotMl = 800;
        made.steps = {simmer, strain};
        return made;
    }
    void add(const std::string& name, const spec::Spec& spec) {
        auto made = shelf.ingredient(name);
        made.sort = larder::IngredientSort::Preparation;
        made.madeBy = base::DrinkId::derivedFrom(name);
        shelf.larder.put(made);
        specs[made.id] = spec;
    }
    void price(const std::string& name, std::vector<larder::Pack> packs) {
        auto changed = *shelf.larder.find(idOf(name));
        changed.packs = std::move(packs);
        shelf.larder.put(changed);
    }
    double cost(const larder::Larder& larder) const {
        const auto reading = spec::evaluate(nightcap, larder, {})[Stage::Served][Quantity::Cost];
        REQUIRE(reading.bound == spec::Bound::Exact);
        return reading.value;
    }
};

} // namespace

TEST_CASE("A price at the bottom of nested preparations flows to the top", "[preparation][recompute]") {
    Kitchen kitchen;
    const auto larder = preparation::recomputed(kitchen.shelf.larder, kitchen.specs, {});
    // Syrup: 500 g sugar at 1.20 the kilo 0.60, 250 g puree at 4.00 the kilo 1.00; 1.60 for 800 ml got.
    // Cream: 200 ml of it 0.40, 300 ml cream at 3.00 the litre 0.90; 1.30 for 500 ml.
    // Drink: 25 ml of that 0.065, 50 ml of 700 at 21.00 1.50.
    CHECK(larder.find(idOf("spiced syrup"))->packs.at(0).price.minor == 160);
    CHECK(*larder.find(idOf("spiced syrup"))->packs.at(0).forMl == Approx(800).margin(1e-6));
    CHECK(larder.find(idOf("spiced cream"))->packs.at(0).price.minor == 130);
    CHECK(kitchen.cost(larder) == Approx(1.565).margin(1e-6));

    // The puree doubles: 2.60 a batch, 0.65 in the cream, 1.55 for that, 0.0775 in the drink.
    kitchen.shelf.larder = larder;
    kitchen.price("orchard puree", {byWeight(800, 1000)});
    const auto dearer =
        preparation::recomputed(kitchen.shelf.larder, kitchen.specs, {}, std::set{idOf("orchard puree")});
    CHECK(dearer.find(idOf("spiced cream"))->packs.at(0).price.minor == 155);
    CHECK(kitchen.cost(dearer) == Approx(1.5775).margin(1e-6));
    // The same as working everything out anew.
    const auto anew = preparation::recomputed(kitchen.shelf.larder, kitchen.specs, {});
    for (const auto& [id, spec] : kitchen.specs) {
        CHECK(dearer.find(id)->facts == anew.find(id)->facts);
        CHECK(dearer.find(id)->packs == anew.find(id)->packs);
    }
}

TEST_CASE("Sugar of a nested drink is that of its parts to a thousandth", "[preparation][recompute]") {
    const Kitchen kitchen;
    const auto larder = preparation::recomputed(kitchen.shelf.larder, kitchen.specs, {});
    // In the pot: 500 g sugar, and 250 g puree at 1.05 g/ml and 60 g/l: 14.286 g. 500 g water by volume is
    // 499.1 g at 0.9982; its own sum of masses, less 60 g simmered off, fills V ml; 800 of them are got.
    const double sugar = 500 + 250 / 1050.0 * 60;
    const auto* syrup = larder.find(idOf("spiced syrup"));
    const auto* whole = larder.find(idOf("spiced cream"));
    REQUIRE(syrup->facts.sugarGPerL);
    REQUIRE(whole->facts.sugarGPerL);
    const double perLitre = syrup->facts.sugarGPerL->typical;
    const auto pot =
        preparation::make(kitchen.specs.at(idOf("spiced syrup")),
                          spec::Bindings(kitchen.specs.at(idOf("spiced syrup")), larder, {}), {});
    REQUIRE(pot);
    const auto& simmered = pot->process.steps.at(0);
    CHECK(perLitre == Approx(1000 * sugar / simmered.volume.ml()).epsilon(1e-3));
    // 200 ml of syrup and 300 ml of cream at 30 g/l in 500 ml.
    CHECK(whole->facts.sugarGPerL->typical == Approx((0.2 * perLitre + 0.3 * 30) / 0.5).epsilon(1e-3));
}

TEST_CASE("Allergens arrive from two levels down and what is not stated stays so",
          "[preparation][recompute]") {
    Kitchen kitchen;
    const auto larder = preparation::recomputed(kitchen.shelf.larder, kitchen.specs, {});
    const spec::Bindings bindings(kitchen.nightcap, larder, {});
    const auto summary = spec::allergens(kitchen.nightcap, bindings);
    CHECK(summary.contains == std::vector<std::string>{"milk"});
    // Nobody stated the gin's or the water's: the gin's line, and the cream's through its syrup.
    CHECK(summary.unknownLines == std::vector<int>{0, 1});
}

TEST_CASE("A drink is costed at the prices its preparations had on a day", "[preparation][recompute]") {
    Kitchen kitchen;
    kitchen.price("orchard puree", {byWeight(400, 1000, "2026-01-01"), byWeight(800, 1000, "2026-07-01")});
    const auto on = [&](const std::string& day) {
        return preparation::costOn(kitchen.nightcap, kitchen.shelf.larder, kitchen.specs, {}, day);
    };
    CHECK(on("2026-06-30").value == Approx(1.565).margin(1e-6));
    CHECK(on("2026-07-01").value == Approx(1.5775).margin(1e-6));
    CHECK(on("2025-12-31").bound == spec::Bound::AtLeast);
}

TEST_CASE("A typed price of what is made here stays and a circle keeps what it had",
          "[preparation][recompute]") {
    Kitchen kitchen;
    kitchen.price("spiced syrup", {{base::PackId::derivedFrom("typed"), {1000, {}}, 1000, {}, {}, ""}});
    auto larder = preparation::recomputed(kitchen.shelf.larder, kitchen.specs, {});
    CHECK(larder.find(idOf("spiced syrup"))->packs.at(0).price.minor == 1000);
    CHECK(larder.find(idOf("spiced cream"))->packs.at(0).price.minor == 290); // 2.00 and 0.90

    auto circular = Kitchen::syrup();
    circular.lines.push_back(line("spiced cream", 10));
    kitchen.specs[idOf("spiced syrup")] = circular;
    const auto before = *larder.find(idOf("spiced cream"));
    larder = preparation::recomputed(larder, kitchen.specs, {});
    CHECK(*larder.find(idOf("spiced cream")) == before);
}
