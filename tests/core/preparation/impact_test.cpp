#include "core/preparation/edit_impact.h"

#include "core/preparation/recompute.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

#include <random>

using namespace stillroom;
using namespace stillroom::test;
using preparation::impact;
using preparation::ImpactSubject;
using preparation::Side;
using quantity::Rational;
using spec::Quantity;
using spec::Stage;

namespace {

base::IngredientId idOf(const std::string& name) {
    return base::IngredientId::derivedFrom(name);
}

Shelf bar() {
    Shelf shelf;
    shelf.putPriced("gin", {{40}, {0}, {0}}, 2100, 700)
        .putPriced("rum", {{40}, {0}, {0}}, 2800, 700)
        .putPriced("syrup", {{0}, {600}, {0}}, 300, 1000)
        .putPriced("foam", {{0}, {10}, {0}}, 300, 1000);
    return shelf;
}

template <class Change>
Side changed(const Side& side, const std::string& name, const Change& change) {
    Side after = side;
    auto ingredient = *side.larder.find(idOf(name));
    change(ingredient);
    after.larder.put(ingredient);
    return after;
}

std::vector<ImpactSubject> subjectsOf(const std::vector<spec::Spec>& specs) {
    std::vector<ImpactSubject> subjects;
    for (const auto& one : specs)
        subjects.push_back({&one, nullptr});
    return subjects;
}

} // namespace

TEST_CASE("An edited strength shows what it does to each drink, largest first", "[preparation][impact]") {
    const Side before{bar().larder, {}};
    const Side after = changed(before, "gin", [](auto& gin) { gin.facts.abvPercent = fact(50); });
    const std::vector<spec::Spec> specs{drink({line("rum", 60)}), drink({line("gin", 20), line("rum", 40)}),
                                        drink({line("gin", 45), line("syrup", 15)}),
                                        drink({line("rum", 60), line("gin", *Rational::make(1, 100))})};
    const auto found = impact(before, after, subjectsOf(specs));
    REQUIRE(found.changed.size() == 2);
    CHECK(found.complete);
    CHECK(found.changed[0].subject == 2);
    CHECK(found.changed[1].subject == 1);
    CHECK(found.untouched == 1);
    CHECK(found.tooSmallToSee == 1);
    CHECK(found.unchanged == 0);
    // List of needs: 45 ml at 40 against 50 % is 18.0 against 22.5 ml of ethanol, a quarter more.
    const auto& first = found.changed[0];
    CHECK(first.after[Quantity::Ethanol].value / first.before[Quantity::Ethanol].value ==
          Approx(1.25).epsilon(1e-3));
    CHECK(first.before ==
          spec::evaluate(specs[2], spec::Bindings(specs[2], before.larder, {}))[Stage::Served]);
    CHECK(first.after == spec::evaluate(specs[2], spec::Bindings(specs[2], after.larder, {}))[Stage::Served]);
}

TEST_CASE("A price of what a thing is got from reaches the drinks that pour it", "[preparation][impact]") {
    Shelf shelf = bar();
    auto lime = shelf.ingredient("lime");
    larder::Pack box;
    box.price = {800, {}};
    box.forPieces = 40;
    lime.packs = {box};
    shelf.larder.put(lime);
    auto juice = shelf.ingredient("lime juice");
    juice.facts = factsOf({{0}, {17}, {60}});
    juice.gotFrom = larder::GotFrom{lime.id, larder::PackUnit::Piece, larder::PackUnit::Ml, 30, 1};
    shelf.larder.put(juice);
    const Side before{shelf.larder, {}};
    const Side after = changed(before, "lime", [](auto& l) { l.packs[0].price.minor = 1200; });
    const std::vector<spec::Spec> specs{drink({line("lime juice", 30), line("gin", 50)}),
                                        drink({line("gin", 50)})};
    const auto found = impact(before, after, subjectsOf(specs));
    REQUIRE(found.changed.size() == 1);
    CHECK(found.changed[0].after[Quantity::Cost].value - found.changed[0].before[Quantity::Cost].value ==
          Approx(0.10).margin(1e-9));
    CHECK(found.untouched == 1);
}

TEST_CASE("An allergen gained comes before any number", "[preparation][impact]") {
    Shelf shelf = bar();
    for (const char* name : {"gin", "syrup", "foam", "rum"}) {
        auto known = *shelf.larder.find(idOf(name));
        known.facts.allergens = std::vector<std::string>{};
        shelf.larder.put(known);
    }
    const Side before{shelf.larder, {}};
    Side after =
        changed(before, "foam", [](auto& f) { f.facts.allergens = std::vector<std::string>{"eggs"}; });
    after = changed(after, "gin", [](auto& g) { g.facts.abvPercent = fact(60); });
    after = changed(after, "rum", [](auto& r) { r.facts.allergens.reset(); });
    const std::vector<spec::Spec> specs{
        drink({line("gin", 60)}), drink({line("syrup", 15), line("foam", 10)}), drink({line("rum", 15)})};
    const auto found = impact(before, after, subjectsOf(specs));
    REQUIRE(found.changed.size() == 3);
    CHECK(found.changed[0].subject == 1);
    CHECK(found.changed[0].allergensGained == std::vector<std::string>{"eggs"});
    CHECK(found.changed[1].subject == 0);
    // What is no longer stated is a change too, and never "none".
    CHECK(found.changed[2].subject == 2);
    CHECK(found.changed[2].unknownAllergensBefore == 0);
    CHECK(found.changed[2].unknownAllergensAfter == 1);
    const auto back = impact(after, before, subjectsOf(specs));
    CHECK(back.changed.at(0).allergensLost == std::vector<std::string>{"eggs"});
}

TEST_CASE("A kept revision's stored numbers are compared with today's facts", "[preparation][impact]") {
    const Side then{bar().larder, {}};
    const Side now = changed(then, "gin", [](auto& gin) { gin.facts.abvPercent = fact(50); });
    const auto spec = drink({line("gin", 45), line("syrup", 15)});
    const auto stored = spec::evaluate(spec, then.larder, {});
    const auto found = impact(now, now, {{&spec, &stored}, {&spec, nullptr}, {nullptr, nullptr}});
    REQUIRE(found.changed.size() == 1);
    CHECK(found.changed[0].before == stored[Stage::Served]);
    CHECK(found.changed[0].after[Quantity::Strength].value > stored[Stage::Served][Quantity::Strength].value);
    CHECK(found.untouched == 1);
    CHECK(found.unread == 1);
}

TEST_CASE("Many drinks give on several threads what they give one by one", "[preparation][impact]") {
    std::mt19937 random(11);
    const Side before{bar().larder, {}};
    const Side after = changed(before, "gin", [](auto& gin) { gin.packs[0].price.minor = 4200; });
    const std::vector<std::string> names{"gin", "rum", "syrup", "foam"};
    std::vector<spec::Spec> specs;
    std::vector<std::string> texts;
    for (int i = 0; i < 3000; ++i) {
        std::vector<spec::Line> lines;
        for (int l = 0; l < 3; ++l)
            lines.push_back(line(names[random() % names.size()], *Rational::make(random() % 200 + 1, 4)));
        specs.push_back(drink(lines));
        texts.push_back(specs.back().canonicalJson());
    }
    const auto read = preparation::readSpecs(texts);
    REQUIRE(read.size() == specs.size());
    for (std::size_t i = 0; i < specs.size(); ++i)
        REQUIRE(read[i] == specs[i]);
    const auto found = impact(before, after, subjectsOf(specs));
    std::size_t changed = 0;
    for (std::size_t i = 0; i < specs.size(); ++i)
        changed += impact(before, after, {{&specs[i], nullptr}}).changed.size();
    CHECK(found.changed.size() == changed);
    CHECK(found.changed.size() + found.tooSmallToSee + found.unchanged + found.untouched == specs.size());
    CHECK(std::is_sorted(found.changed.begin(), found.changed.end(),
                         [](const auto& a, const auto& b) { return a.size > b.size; }));

    const std::atomic<bool> cancelled = true;
    CHECK_FALSE(impact(before, after, subjectsOf(specs), &cancelled).complete);
    CHECK_FALSE(preparation::readSpecs({"not a spec"})[0]);
}

TEST_CASE("Other rules touch every drink", "[preparation][impact]") {
    Side before{bar().larder, {}};
    Side after = before;
    after.rules.measures.rinseRetainedMl.typical += 1;
    const std::vector<spec::Spec> specs{drink({line("gin", 45)})};
    const auto found = impact(before, after, subjectsOf(specs));
    CHECK(found.unchanged == 1);
    CHECK(found.untouched == 0);
}

TEST_CASE("A caution gained by an edit is told", "[preparation][impact]") {
    Side before{bar().larder, {}};
    const Side after = changed(before, "foam", [](auto& f) { f.facts.tags = {"raw_egg"}; });
    const auto change = preparation::cautionChange(before, after, drink({line("gin", 45), line("foam", 15)}));
    REQUIRE(change.gained.size() == 2); // and that acid and spirit do not make it safe
    CHECK(change.gained[0].id == "raw_egg");
    CHECK(change.lost.empty());
    CHECK(preparation::cautionChange(after, before, drink({line("foam", 15)})).lost.size() == 2);
}

// Need 29: a lot's own figures move the drinks that pour it.
TEST_CASE("A changed lot is in what an edit would do, of what is bought and of what is made",
          "[preparation][impact]") {
    Shelf shelf = bar();
    const auto lotOf = [&](const std::string& name) {
        auto ingredient = *shelf.larder.find(idOf(name));
        larder::Lot lot;
        lot.id = base::LotId::random();
        lot.ingredient = ingredient.id;
        lot.on = "2026-11-20";
        ingredient.lotInUse = lot.id;
        shelf.larder.put(ingredient);
        shelf.larder.put(lot);
        return lot;
    };
    auto made = *shelf.larder.find(idOf("foam"));
    made.sort = larder::IngredientSort::Preparation;
    made.madeBy = base::DrinkId::random();
    made.packs.clear();
    shelf.larder.put(made);
    const preparation::Specs specs{{idOf("foam"), drink({line("gin", 50), line("syrup", 50)})}};
    auto cask = lotOf("gin");
    auto batch = lotOf("foam");
    const Side now{preparation::recomputed(shelf.larder, specs, {}), {}};
    const std::vector<spec::Spec> drinks{drink({line("gin", 60)}), drink({line("foam", 60)})};
    const auto strength = [&](const preparation::EditImpact& found, std::size_t subject) {
        for (const auto& one : found.drinks.changed)
            if (one.subject == subject) return one.after[Quantity::Strength].value;
        return -1.0;
    };
    cask.abvPercent = fact(50);
    auto found = preparation::editImpact(now, {*now.larder.find(idOf("gin"))}, specs, subjectsOf(drinks),
                                         nullptr, {cask});
    CHECK(strength(found, 0) == Approx(50));
    CHECK(strength(found, 1) > 20); // by way of what is made of it: 19.9 of gin at 40 %
    batch.abvPercent = fact(12);
    found = preparation::editImpact(now, {*now.larder.find(idOf("foam"))}, specs, subjectsOf(drinks), nullptr,
                                    {batch});
    CHECK(found.drinks.changed.size() == 1);
    CHECK(strength(found, 1) == Approx(12));
}
