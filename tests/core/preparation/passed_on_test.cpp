#include "core/preparation/label.h"
#include "core/preparation/part_keeping.h"
#include "core/preparation/preparation.h"
#include "core/preparation/recompute.h"
#include "core/spec/caution.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

#include <algorithm>

// What a preparation hands on to the things made of it, and what of that its own label says: need 8 (an
// allergen hidden in a component) and need 30 (batch life is that of the shortest component).

using namespace stillroom;
using namespace stillroom::test;
using preparation::Keeping;
using quantity::Measure;
using spec::StepKind;
using Names = std::vector<std::string>;

namespace {

// A larder with preparations, each made of what the larder has when it is added.
struct Stillroom {
    larder::Larder larder;
    preparation::Specs specs;
    spec::HouseRules rules;

    spec::Line pour(const std::string& name, std::int64_t amount, Measure measure = Measure::Ml) const {
        spec::Line made = line(name, amount, measure);
        made.ingredient = larder.match(name).ingredient;
        REQUIRE_FALSE(made.ingredient->isNull());
        return made;
    }
    void add(const std::string& name, const spec::Spec& made) {
        larder::Ingredient ingredient;
        ingredient.id = base::IngredientId::random();
        ingredient.sort = larder::IngredientSort::Preparation;
        ingredient.name = name;
        ingredient.madeBy = base::DrinkId::random();
        larder.put(ingredient);
        specs[ingredient.id] = made;
        larder = preparation::recomputed(larder, specs, rules);
    }
    const larder::FactState& facts(const std::string& name) const {
        return larder.find(larder.match(name).ingredient)->facts;
    }
    spec::AllergenSummary allergens(const spec::Spec& of) const {
        return spec::allergens(of, spec::Bindings(of, larder, rules));
    }
    std::vector<spec::Caution> cautions(const spec::Spec& of) const {
        const spec::Bindings bindings(of, larder, rules);
        return spec::cautions(of, bindings, spec::evaluate(of, bindings));
    }
    Keeping keeping(const std::string& name) const {
        const auto id = larder.match(name).ingredient;
        const spec::Spec& of = specs.at(id);
        const spec::Bindings bindings(of, larder, rules);
        return preparation::keepingOf(name, of, bindings, *preparation::make(of, bindings, {}), std::nullopt,
                                      preparation::partKeepings(of, bindings, larder, specs));
    }
    preparation::Label label(const std::string& name) const {
        const spec::Spec& of = specs.at(larder.match(name).ingredient);
        const spec::Bindings bindings(of, larder, rules);
        const auto made = preparation::make(of, bindings, {});
        REQUIRE(made);
        return preparation::labelOf(name, of, bindings, *made, "2026-11-06", keeping(name));
    }
};

bool fires(const std::vector<spec::Caution>& all, const std::string& id) {
    return std::any_of(all.begin(), all.end(), [&](const spec::Caution& each) { return each.id == id; });
}

bool has(const Names& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

} // namespace

TEST_CASE("an allergen that only the words of a preparation name is on its label and in its drinks",
          "[preparation][allergen]") {
    Stillroom here;
    auto washed = drink({here.pour("London dry gin", 500)});
    SECTION("in the method") {
        washed.method.text = "Fat-wash with peanut butter, freeze, strain.";
    }
    SECTION("in the note of a step") {
        washed.steps.emplace_back().kind = StepKind::FatWash;
        washed.steps[0].note = "through peanut butter";
    }
    SECTION("in a line that no ingredient is known for") {
        washed.lines.push_back(line("peanut butter", 120, Measure::G));
    }
    here.add("House wash", washed);
    CHECK(here.label("House wash").allergens == Names{"peanuts"});
    const auto poured = drink({here.pour("House wash", 60)});
    CHECK(here.allergens(poured).contains == Names{"peanuts"});
    CHECK(fires(here.cautions(poured), "peanut"));
    here.add("Second syrup", drink({here.pour("House wash", 60), here.pour("white sugar", 100, Measure::G)}));
    CHECK(here.allergens(drink({here.pour("Second syrup", 30)})).contains == Names{"peanuts"});
    CHECK(here.label("Second syrup").allergens == Names{"peanuts"});
}

TEST_CASE("a line of a preparation that nothing is known of leaves its allergens open",
          "[preparation][allergen]") {
    Stillroom here;
    here.add("Odd wash", drink({here.pour("London dry gin", 500), line("moon dust", 20, Measure::G)}));
    CHECK_FALSE(here.label("Odd wash").allergensComplete);
    CHECK(here.allergens(drink({here.pour("Odd wash", 60)})).unknownLines == std::vector<int>{0});
}

TEST_CASE("a danger named in a preparation reaches the drink", "[preparation][caution]") {
    const auto [words, caution] =
        GENERATE(table<std::string, std::string>({{"cinchona bark", "cinchona_home"},
                                                  {"tobacco leaf", "tobacco"},
                                                  {"activated charcoal", "charcoal"}}));
    CAPTURE(words);
    Stillroom here;
    here.add("House spirit", drink({here.pour("London dry gin", 500), line(words, 10, Measure::G)}));
    CHECK(fires(here.cautions(drink({here.pour("House spirit", 60)})), caution));
}

TEST_CASE("what was true of one pot alone is not handed on", "[preparation][caution]") {
    Stillroom here;
    here.add("Plain syrup", drink({here.pour("white sugar", 500, Measure::G), line("hot water", 500)}));
    CHECK_FALSE(has(here.facts("Plain syrup").tags, "poured_hot"));
    CHECK_FALSE(fires(here.cautions(drink({here.pour("Plain syrup", 20)})), "served_hot"));
}

TEST_CASE("dairy within a preparation is kept cold in all that is made of it", "[preparation][caution]") {
    Stillroom here;
    here.add("Sweet cream", drink({here.pour("heavy cream", 200), here.pour("white sugar", 60, Measure::G)}));
    here.add("Second cream", drink({here.pour("Sweet cream", 100), here.pour("water", 50)}));
    CHECK(fires(here.cautions(drink({here.pour("Sweet cream", 30)})), "dairy_holding"));
    CHECK(fires(here.cautions(drink({here.pour("Second cream", 30)})), "dairy_holding"));
    CHECK(fires(here.label("Second cream").cautions, "dairy_holding"));
}

TEST_CASE("what a label names as an allergen it does not say twice, and what no list names it says",
          "[preparation][label]") {
    Stillroom here;
    here.add("Sweet cream", drink({here.pour("heavy cream", 200)}));
    CHECK(here.label("Sweet cream").allergens == Names{"milk"});
    CHECK_FALSE(fires(here.label("Sweet cream").cautions, "milk"));
    // Chickpea water is none of the fourteen, and still people have to be told (need 8).
    here.add("Foam base", drink({line("aquafaba", 100), here.pour("white sugar", 50, Measure::G)}));
    CHECK(fires(here.label("Foam base").cautions, "aquafaba"));
}

TEST_CASE("a mixture keeps no longer than a preparation in it", "[preparation][keeping]") {
    Stillroom here;
    // Fresh lime juice is used the day it is pressed (resources/handbook/keeping.json, 0.3 to 1 day).
    here.add("Lime mix", drink({here.pour("lime juice", 200), here.pour("water", 20)}));
    here.add("Lime batch", drink({here.pour("Lime mix", 100), here.pour("white sugar", 100, Measure::G)}));
    CHECK(here.keeping("Lime mix").shortestDays == 0.3);
    CHECK(here.keeping("Lime batch").shortestDays == 0.3);
    CHECK(here.label("Lime batch").useBy == "2026-11-06");
    // Cream: 3 to 7 days.
    here.add("Sweet cream", drink({here.pour("heavy cream", 200), here.pour("white sugar", 60, Measure::G)}));
    here.add("Second cream", drink({here.pour("Sweet cream", 100), here.pour("water", 50)}));
    here.add("Third cream", drink({here.pour("Second cream", 100), here.pour("white sugar", 5, Measure::G)}));
    CHECK(here.keeping("Third cream").shortestDays == 3.0);
    CHECK(here.keeping("Third cream").longestDays == 7.0);
    CHECK(here.keeping("Third cream").entry->id == "dairy");
    CHECK(here.label("Third cream").useBy == "2026-11-08");
}

TEST_CASE("the days are those of the part that ends first and the cold that of the part that needs it",
          "[preparation][keeping]") {
    Stillroom here;
    here.add("Pumpkin foam", drink({here.pour("pumpkin puree, canned", 100), here.pour("egg white", 60)}));
    const Keeping keeping = here.keeping("Pumpkin foam");
    CHECK(keeping.entry->id == "egg"); // 1 to 4 days, against 3 to 5 of the puree
    CHECK(keeping.shortestDays == 1.0);
    CHECK(keeping.longestDays == 4.0);
    CHECK(keeping.mustRefrigerate);
    CHECK(keeping.storage == preparation::Storage::Refrigerate);
}

TEST_CASE("a low acid thing of unknown acid or sugar is dangerous to keep until it is known to be dry",
          "[preparation][caution]") {
    Stillroom here;
    REQUIRE_FALSE(here.facts("heavy cream").acidGPerL);
    here.add("Pumpkin cream",
             drink({here.pour("pumpkin puree, canned", 150), here.pour("heavy cream", 200)}));
    here.add("Pumpkin foam", drink({here.pour("Pumpkin cream", 150), here.pour("water", 50)}));
    CHECK(fires(here.label("Pumpkin cream").cautions, "low_acid"));
    CHECK(fires(here.label("Pumpkin foam").cautions, "low_acid"));
    // Dry sugar with a little puree dried into it has no water for anything to grow in.
    here.add("Pumpkin sugar",
             drink({here.pour("pumpkin puree, canned", 5), here.pour("white sugar", 500, Measure::G)}));
    CHECK_FALSE(fires(here.label("Pumpkin sugar").cautions, "low_acid"));
}
