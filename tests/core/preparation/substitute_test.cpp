#include "core/preparation/substitute.h"

#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace stillroom;
using namespace stillroom::test;
using preparation::Keep;
using preparation::SubstituteProblem;
using spec::Quantity;

namespace {

base::IngredientId idOf(const std::string& name) {
    return base::IngredientId::derivedFrom(name);
}

Shelf bar() {
    Shelf shelf;
    shelf.put("water", {{0}, {0}, {0}})
        .put("syrup 1:1", {{0}, {614.83}, {0}}) // sucrose-water: 50 and 66.67 Brix
        .put("syrup 2:1", {{0}, {884.6}, {0}})
        .put("spirit 40", {{40}, {0}, {0}})
        .put("spirit 50", {{50}, {0}, {0}})
        .put("lime juice", {{0}, {17}, {60}})
        .put("unlabelled liqueur", {{20}, {}, {0}});
    auto honey = shelf.ingredient("honey");
    // Needs, 28: 82 Bx, 1.42 g/ml, 1.16 g of sugar a ml; half fructose (handbook shares).
    honey.facts = factsOf({{0}, {1160}, {0}});
    honey.facts.densityKgPerM3 = fact(1420);
    honey.facts.sugarShares.parts = {{physics::Substance::Glucose, 0.45},
                                     {physics::Substance::Fructose, 0.55}};
    shelf.larder.put(honey);
    return shelf;
}

auto swapped(const Shelf& shelf, const spec::Spec& d, std::size_t line, const std::string& name, Keep keep) {
    return preparation::substituted(d, line, idOf(name), keep, shelf.larder, shelf.rules());
}

bool differs(const preparation::Substitution& s, Quantity quantity) {
    return std::any_of(s.changes.begin(), s.changes.end(),
                       [&](const preparation::Change& c) { return c.quantity == quantity; });
}

} // namespace

TEST_CASE("rich syrup for simple syrup with its water is the same drink", "[preparation][substitute]") {
    // Needs, 4: 30 ml of 1:1 is 20.85 ml of 2:1 and 9.22 g (9.24 ml) of water.
    const Shelf shelf = bar();
    const auto d = drink({line("spirit 40", 60), line("syrup 1:1", 30), line("lime juice", 30)});
    const auto swap = swapped(shelf, d, 1, "syrup 2:1", Keep::Sugar);
    REQUIRE(swap);
    CHECK(swap->amount == Approx(20.85).margin(0.01));
    CHECK(swap->waterAddedG == Approx(9.22).margin(0.01));
    REQUIRE(swap->spec.lines.size() == 4);
    CHECK(swap->spec.lines[2].name == "water");
    CHECK(swap->spec.lines[2].poured.amount.low.toDouble() == Approx(9.24).margin(0.01));
    CHECK_FALSE(differs(*swap, Quantity::Volume));
    CHECK_FALSE(differs(*swap, Quantity::Strength));
    CHECK_FALSE(differs(*swap, Quantity::Sugar));
    const auto back = swapped(shelf, swap->spec, 1, "syrup 1:1", Keep::Sugar);
    REQUIRE(back);
    CHECK(back->amount == Approx(30).margin(0.01));
    CHECK(back->waterTooMuchG == Approx(9.22).margin(0.01));
    CHECK(back->waterAddedG == 0);
}

TEST_CASE("honey for syrup by sugar or by sweetness", "[preparation][substitute]") {
    const Shelf shelf = bar();
    const auto d = drink({line("spirit 40", 60), line("syrup 1:1", 30), line("lime juice", 30)});
    const auto bySugar = swapped(shelf, d, 1, "honey", Keep::Sugar);
    REQUIRE(bySugar);
    CHECK(bySugar->amount == Approx(30 * 0.61483 / 1.16).margin(0.01));
    const auto bySweetness = swapped(shelf, d, 1, "honey", Keep::Sweetness);
    REQUIRE(bySweetness);
    CHECK(bySweetness->amount < bySugar->amount); // fructose tastes sweeter than sucrose
    CHECK(differs(*bySweetness, Quantity::Sugar));
    CHECK(bySugar->waterAddedG > 9);
}

TEST_CASE("one proof for another keeps the alcohol and makes up the water", "[preparation][substitute]") {
    // Needs, 42: 45 ml at 50 % hold 22.5 ml, as 56.25 ml at 40 % do.
    const Shelf shelf = bar();
    const auto d = drink({line("spirit 40", quantity::Rational::make(225, 4).value())});
    const auto swap = swapped(shelf, d, 0, "spirit 50", Keep::Ethanol);
    REQUIRE(swap);
    CHECK(swap->amount == Approx(45).margin(0.005));
    CHECK(swap->waterAddedG > 11);
    CHECK_FALSE(differs(*swap, Quantity::Strength));
    CHECK_FALSE(differs(*swap, Quantity::Ethanol));
    const auto stronger = swapped(shelf, drink({line("spirit 50", 45)}), 0, "spirit 40", Keep::Ethanol);
    CHECK(stronger->waterTooMuchG > 11);
    CHECK(differs(*stronger, Quantity::Volume));
}

TEST_CASE("what cannot be substituted is named", "[preparation][substitute]") {
    const Shelf shelf = bar();
    const auto d = drink({line("syrup 1:1", 30), unstated("lime juice")});
    const auto problem = [&](std::size_t at, const std::string& name, Keep keep) {
        const auto result = swapped(shelf, d, at, name, keep);
        REQUIRE_FALSE(result);
        return result.error();
    };
    CHECK(problem(9, "honey", Keep::Sugar) == SubstituteProblem::NoSuchLine);
    CHECK(problem(0, "moon dust", Keep::Sugar) == SubstituteProblem::NoSuchIngredient);
    CHECK(problem(1, "honey", Keep::Sugar) == SubstituteProblem::NoAmount);
    CHECK(problem(0, "unlabelled liqueur", Keep::Sugar) == SubstituteProblem::FactUnknown);
    CHECK(problem(0, "spirit 40", Keep::Sugar) == SubstituteProblem::NothingToKeep);
    CHECK(problem(0, "spirit 40", Keep::Ethanol) == SubstituteProblem::NothingToKeep);
}

TEST_CASE("what stands in for a line is of its own sort and no other", "[preparation][substitute]") {
    Shelf shelf = bar();
    auto sugar = shelf.ingredient("white sugar");
    sugar.facts.dry = true;
    sugar.facts.sugarGPerL = fact(998);
    shelf.larder.put(sugar);
    shelf.put("cordial liqueur", {{24}, {300}, {0}}).put("nut liqueur", {{28}, {250}, {0}});
    const auto d = drink({line("spirit 40", 60), line("syrup 1:1", 30), line("lime juice", 30),
                          line("unlabelled liqueur", 10), line("nut liqueur", 10)});
    const auto names = [&](std::size_t at) {
        std::vector<std::string> found;
        for (const auto& standIn : preparation::standInsFor(d, at, shelf.larder, shelf.rules()))
            found.push_back(shelf.larder.find(standIn.ingredient)->name);
        return found;
    };
    CHECK(names(0) == std::vector<std::string>{"spirit 50"});
    CHECK(names(1) == std::vector<std::string>{"honey", "syrup 2:1", "white sugar"});
    CHECK(names(2).empty()); // neither sweet nor strong
    CHECK(names(3).empty()); // nobody knows its sugar
    CHECK(names(4) == std::vector<std::string>{"cordial liqueur"});
    CHECK(names(9).empty());
    const auto sweet = preparation::standInsFor(d, 1, shelf.larder, shelf.rules());
    CHECK(sweet[0].keeps == std::vector<Keep>{Keep::Sugar, Keep::Sweetness});
    // Every one of them can really be poured instead, dry sugar with its water.
    for (const auto& standIn : sweet)
        for (const Keep keep : standIn.keeps) {
            const auto swap =
                preparation::substituted(d, 1, standIn.ingredient, keep, shelf.larder, shelf.rules());
            REQUIRE(swap);
            CHECK(swap->amount > 0);
            CHECK(swap->waterAddedG > 0);
        }
}

TEST_CASE("a stand-in names the allergens it brings and takes away", "[preparation][substitute]") {
    Shelf shelf = bar();
    auto put = [&](const std::string& name, std::optional<std::vector<std::string>> allergens) {
        auto made = shelf.ingredient(name);
        made.facts = factsOf({{24}, {300}, {0}});
        made.facts.allergens = std::move(allergens);
        shelf.larder.put(made);
    };
    put("plain liqueur", std::vector<std::string>{});
    put("cream liqueur", std::vector<std::string>{"milk"});
    put("almond liqueur", std::vector<std::string>{"nuts"});
    put("silent liqueur", std::nullopt);
    const auto change = [&](const std::string& from, const std::string& to) {
        const auto swap =
            swapped(shelf, drink({line(from, 20), line("spirit 40", 40)}), 0, to, Keep::Ethanol);
        REQUIRE(swap);
        return swap->allergens;
    };
    CHECK(change("plain liqueur", "cream liqueur") ==
          preparation::AllergenChange{{"milk"}, {}, false, false});
    CHECK(change("almond liqueur", "cream liqueur").lost == std::vector<std::string>{"nuts"});
    CHECK(change("cream liqueur", "plain liqueur").gained.empty());
    CHECK(change("plain liqueur", "silent liqueur") == preparation::AllergenChange{{}, {}, true, false});
    CHECK(change("silent liqueur", "plain liqueur") == preparation::AllergenChange{{}, {}, false, true});
}

TEST_CASE("a stand-in by acid keeps the acid and on the marks it is poured as the house measures",
          "[preparation][substitute]") {
    Shelf shelf = bar();
    shelf.put("lemon juice", {{0}, {25}, {50}});
    const auto d = drink({line("spirit 40", 60), line("syrup 1:1", 30), line("lime juice", 30)});
    const auto sour = swapped(shelf, d, 2, "lemon juice", Keep::Acid);
    REQUIRE(sour);
    CHECK(sour->amount == Approx(36)); // 30 x 60/50
    const auto offers = preparation::standInsFor(d, 2, shelf.larder, shelf.rules());
    REQUIRE_FALSE(offers.empty());
    CHECK(offers.front().ingredient == idOf("lemon juice"));
    CHECK(offers.front().keeps == std::vector<Keep>{Keep::Acid});
    CHECK_FALSE(swapped(shelf, d, 2, "spirit 50", Keep::Acid));

    const auto onMarks = [&](std::size_t at, const std::string& name, Keep keep, spec::Spec of) {
        return preparation::substituted(of, at, idOf(name), keep, shelf.larder, shelf.rules(),
                                        preparation::Amounts::AsMeasured, 0.1);
    };
    const auto poured = [](const preparation::Substitution& s, std::size_t at) {
        return s.spec.lines[at].poured.amount.low.toDouble();
    };
    // Marks of 2.5 ml: 36 is 35; 20.85 is 20, and 9.9 ml of water that lack then are 10.
    CHECK(poured(*onMarks(2, "lemon juice", Keep::Acid, d), 2) == 35);
    const auto rich = onMarks(1, "syrup 2:1", Keep::Sugar, d);
    CHECK(rich->amount == Approx(20.85).margin(0.01));
    CHECK(poured(*rich, 1) == 20);
    REQUIRE(rich->spec.lines.size() == 4);
    CHECK(poured(*rich, 2) == 10);
    // So little that a mark would be off by more than a tenth goes on finer ones: 2.085 ml is 2.
    auto dash = d;
    dash.lines[1] = line("syrup 1:1", 3);
    CHECK(poured(*onMarks(1, "syrup 2:1", Keep::Sugar, dash), 1) == 2);
    // In the ounces of the line: 0.695 fl oz is three quarters.
    auto ounces = d;
    ounces.lines[1] = line("syrup 1:1", 1);
    ounces.lines[1].poured.measure = quantity::Measure::FlozUs;
    const auto inOunces = onMarks(1, "syrup 2:1", Keep::Sugar, ounces);
    CHECK(inOunces->spec.lines[1].poured.measure == quantity::Measure::FlozUs);
    CHECK(poured(*inOunces, 1) == 0.75);
}
