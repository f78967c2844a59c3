#include "core/preparation/part_dates.h"

#include "core/preparation/past_parts.h"
#include "core/preparation/preparation.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using preparation::bindingOn;
using preparation::PartDate;
using preparation::partDates;
using preparation::pastOn;
using quantity::Measure;

namespace {

// A cream of a syrup that has pumpkin in it: three days, the making day counted
// (resources/handbook/keeping.json).
struct Larders {
    larder::Larder larder;
    preparation::Specs specs;
    spec::HouseRules rules;
    base::IngredientId syrup;
    spec::Spec cream;

    Larders() {
        const auto named = [&](const std::string& name, std::int64_t amount, Measure measure) {
            spec::Line made = line(name, amount, measure);
            made.ingredient = larder.match(name).ingredient;
            REQUIRE_FALSE(made.ingredient->isNull());
            return made;
        };
        specs[syrup = base::IngredientId::random()] =
            drink({named("pumpkin puree, canned", 300, Measure::Ml), named("white sugar", 500, Measure::G),
                   named("water", 400, Measure::G)});
        larder::Ingredient made;
        made.id = syrup;
        made.sort = larder::IngredientSort::Preparation;
        made.name = "Ember syrup";
        made.madeBy = base::DrinkId::random();
        made.facts.tags = {"pumpkin"};
        larder.put(made);
        cream = drink({named("Ember syrup", 150, Measure::Ml), named("gold or aged rum", 60, Measure::Ml)});
    }
    larder::Lot lot(const std::string& on, const std::string& useBy = {}, bool usedUp = false) {
        larder::Lot lot;
        lot.id = base::LotId::random();
        lot.ingredient = syrup;
        lot.on = on;
        lot.useBy = useBy;
        lot.usedUp = usedUp;
        larder.put(lot);
        return lot;
    }
    void pour(const larder::Lot& lot) {
        auto of = *larder.find(syrup);
        of.lotInUse = lot.id;
        larder.put(of);
    }
    std::vector<PartDate> dates() const {
        return partDates(cream, spec::Bindings(cream, larder, rules), larder, specs);
    }
    std::optional<std::string> lastDay(const std::string& madeOn) const {
        const spec::Bindings bindings(cream, larder, rules);
        const auto made = preparation::make(cream, bindings, {});
        REQUIRE(made);
        return preparation::useBy(madeOn, preparation::keepingOf("Hearth cream", cream, bindings, *made),
                                  bindingOn(madeOn, dates()));
    }
};

} // namespace

TEST_CASE("a mixture of a part past its day is past it too", "[preparation][keeping]") {
    Larders shelf;
    shelf.pour(shelf.lot("2026-11-22")); // no date on it: three days by its puree
    CHECK(shelf.dates() == std::vector<PartDate>{{0, "2026-11-22", "2026-11-24"}});
    CHECK(shelf.lastDay("2026-11-25") == "2026-11-24");
    REQUIRE(pastOn("2026-11-25", shelf.dates()).size() == 1);
    CHECK(pastOn("2026-11-24", shelf.dates()).empty()); // its last day is not past
    CHECK(shelf.lastDay("2026-11-23") == "2026-11-24");
}

TEST_CASE("what is written on the lot of a part counts before its keeping time", "[preparation][keeping]") {
    Larders shelf;
    shelf.pour(shelf.lot("2026-11-22", "2026-11-23"));
    CHECK(shelf.lastDay("2026-11-22") == "2026-11-23");
}

TEST_CASE("a lot made after the mixture or used up did not go into it", "[preparation][keeping]") {
    Larders shelf;
    shelf.lot("2026-11-20", {}, true);
    CHECK(shelf.dates().empty());
    shelf.pour(shelf.lot("2026-11-25"));
    CHECK(shelf.lastDay("2026-11-24") == "2026-11-26"); // its own three days
    CHECK(bindingOn("2026-11-24", shelf.dates()).empty());
    CHECK(shelf.lastDay("2026-11-26") == "2026-11-27");
}

TEST_CASE("where no lot is in use the one that ends first binds", "[preparation][keeping]") {
    Larders shelf;
    shelf.lot("2026-11-25");
    shelf.lot("2026-11-23");
    REQUIRE(shelf.dates().size() == 1);
    CHECK(shelf.dates()[0].useBy == "2026-11-25");
}

TEST_CASE("the last day of a lot counts what went into it to any depth", "[preparation][keeping]") {
    Larders shelf;
    shelf.pour(shelf.lot("2026-11-22"));
    larder::Ingredient made;
    made.id = base::IngredientId::random();
    made.sort = larder::IngredientSort::Preparation;
    made.name = "Hearth cream";
    made.madeBy = base::DrinkId::random();
    shelf.larder.put(made);
    shelf.specs[made.id] = shelf.cream;
    larder::Lot cream;
    cream.id = base::LotId::random();
    cream.ingredient = made.id;
    cream.on = "2026-11-24";
    CHECK(preparation::lastDayOf(cream, shelf.larder, shelf.specs, shelf.rules) == "2026-11-24");
    // Made of itself: looked into once, and still an answer.
    shelf.specs[shelf.syrup].lines.push_back(line("Hearth cream", 10, Measure::Ml));
    shelf.specs[shelf.syrup].lines.back().ingredient = made.id;
    shelf.larder.put(cream);
    CHECK(preparation::lastDayOf(cream, shelf.larder, shelf.specs, shelf.rules) == "2026-11-24");
}

TEST_CASE("a bought part binds by the house's own days and by what is published", "[preparation][keeping]") {
    Larders shelf;
    auto rum = *shelf.larder.find(*shelf.cream.lines[1].ingredient);
    larder::Lot opened;
    opened.id = base::LotId::random();
    opened.ingredient = rum.id;
    opened.on = "2026-11-20";
    shelf.larder.put(opened);
    CHECK(shelf.dates().empty()); // rum keeps
    rum.keepDays = 2;
    shelf.larder.put(rum);
    REQUIRE(shelf.dates().size() == 1);
    CHECK(shelf.dates()[0] == PartDate{1, "2026-11-20", "2026-11-21"});
}

TEST_CASE("what is poured from a lot past its day is warned of", "[preparation][keeping][caution]") {
    Larders shelf;
    const auto past = [&](const spec::Spec& poured, const char* today) {
        return preparation::ShelfDates(shelf.larder, shelf.specs, shelf.rules)
            .past(poured, spec::Bindings(poured, shelf.larder, shelf.rules), today);
    };
    CHECK(past(shelf.cream, "2026-11-25").empty()); // nothing stands, and nothing is past
    const auto lot = shelf.lot("2026-11-22");       // no date on it: three days by its puree
    shelf.pour(lot);
    CHECK(past(shelf.cream, "2026-11-24").empty()); // its last day
    const auto found = past(shelf.cream, "2026-11-25");
    REQUIRE(found.size() == 1);
    CHECK(found[0].severity == spec::Severity::Warn);
    CHECK(found[0].lines == std::vector<int>{0});
    CHECK(found[0].text.find("Ember syrup of 2026-11-22 is past its last day, 2026-11-24") !=
          std::string::npos);
    CHECK_FALSE(found[0].source.empty());

    // A drink of the cream, of which nothing stands: it would be made of that syrup.
    larder::Ingredient cream;
    cream.id = base::IngredientId::random();
    cream.sort = larder::IngredientSort::Preparation;
    cream.name = "Hearth cream";
    cream.madeBy = base::DrinkId::random();
    shelf.larder.put(cream);
    shelf.specs[cream.id] = shelf.cream;
    auto poured = line("Hearth cream", 30);
    poured.ingredient = cream.id;
    const auto through = past(drink({poured}), "2026-11-25");
    REQUIRE(through.size() == 1);
    CHECK(through[0].text.find("Ember syrup in Hearth cream") != std::string::npos);
    // A bought thing with a date on its lot; dangers stay first.
    auto gin = lot;
    gin.id = base::LotId::random();
    gin.ingredient = *shelf.cream.lines[1].ingredient;
    gin.useBy = "2026-11-01";
    shelf.larder.put(gin);
    CHECK(past(shelf.cream, "2026-11-25").size() == 2);
    spec::Caution danger;
    danger.severity = spec::Severity::Danger;
    spec::Caution note;
    const auto all = preparation::withPast({danger, note}, found);
    REQUIRE(all.size() == 3);
    CHECK(all[1].id == "part_past_use_by");
}
