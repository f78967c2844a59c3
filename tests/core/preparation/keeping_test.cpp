#include "core/preparation/keeping.h"

#include "core/preparation/label.h"
#include "core/preparation/preparation.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace stillroom;
using namespace stillroom::test;
using preparation::Keeping;
using quantity::Measure;
using spec::Bindings;
using spec::StepKind;

namespace {

spec::Line named(const std::string& name, std::int64_t amount, Measure measure = Measure::Ml) {
    static const larder::Larder kHandbook;
    spec::Line made = line(name, amount, measure);
    const auto match = kHandbook.match(name);
    REQUIRE_FALSE(match.ingredient.isNull());
    made.ingredient = match.ingredient;
    return made;
}

struct Kept {
    preparation::Made made;
    Keeping keeping;
    preparation::Label label;
};

Kept kept(const std::string& name, const spec::Spec& d, std::optional<int> houseDays = std::nullopt) {
    const larder::Larder handbook;
    const Bindings bindings(d, handbook, {});
    auto made = preparation::make(d, bindings, preparation::yieldOf(d));
    REQUIRE(made);
    auto keeping = preparation::keepingOf(name, d, bindings, *made, houseDays);
    auto label = preparation::labelOf(name, d, bindings, *made, "2026-11-06", keeping);
    return {*made, std::move(keeping), std::move(label)};
}

bool has(const std::vector<spec::Caution>& cautions, const std::string& id) {
    return std::any_of(cautions.begin(), cautions.end(), [&](const auto& c) { return c.id == id; });
}

} // namespace

TEST_CASE("plain syrups keep by their Brix and making day is day one", "[preparation][keeping]") {
    // costing, shelf_life: 1:1 14 to 30 days, 2:1 60 to 180.
    const auto thin =
        kept("house syrup", drink({named("white sugar", 500, Measure::G), named("water", 500, Measure::G)}));
    CHECK(thin.keeping.basis == Keeping::Basis::OwnEntry);
    CHECK(thin.keeping.shortestDays == 14.0);
    CHECK(thin.label.useBy == "2026-11-19");
    CHECK(preparation::storageId(thin.keeping.storage) == "refrigerate");
    const auto rich =
        kept("house syrup", drink({named("white sugar", 1000, Measure::G), named("water", 500, Measure::G)}));
    CHECK(rich.keeping.shortestDays == 60.0);
    CHECK(has(preparation::cautionsOf(
                  "house syrup",
                  drink({named("white sugar", 500, Measure::G), named("water", 500, Measure::G)}),
                  Bindings(drink({named("white sugar", 500, Measure::G), named("water", 500, Measure::G)}),
                           larder::Larder(), {}),
                  thin.made),
              "syrup_water_activity"));
}

TEST_CASE("a honey syrup keeps less long than a plain one", "[preparation][keeping]") {
    // costing, shelf_life: honey syrup 7 to 14 days.
    const auto honey =
        kept("house honey", drink({named("honey", 500, Measure::G), named("water", 500, Measure::G)}));
    REQUIRE(honey.keeping.entry != nullptr);
    CHECK(honey.keeping.entry->id == "flavoured_syrup");
    CHECK(honey.label.useBy == "2026-11-12");
}

TEST_CASE("a mixture keeps as long as its shortest part", "[preparation][keeping]") {
    const auto sour = kept("morning mix", drink({named("lime juice", 300), named("orange juice", 300),
                                                 named("white sugar", 100, Measure::G)}));
    CHECK(sour.keeping.basis == Keeping::Basis::ShortestPart);
    REQUIRE(sour.keeping.entry != nullptr);
    CHECK(sour.keeping.entry->id == "lime_juice");
    CHECK(sour.keeping.line == 0);
    CHECK(sour.label.useBy == "2026-11-06"); // 0.3 to 1 day: used the day it is made
    // No part is outlived, whatever its own date says.
    Keeping long_ = sour.keeping;
    long_.shortestDays = 30;
    CHECK(preparation::useBy("2026-11-06", long_, {"2026-11-20", "2026-11-09"}) == "2026-11-09");
    CHECK(preparation::useBy("2026-11-06", long_) == "2026-12-05");
    CHECK_FALSE(preparation::useBy("", long_));
    CHECK_FALSE(preparation::useBy("2026-02-30", long_));
    CHECK(preparation::daysAfter("2028-02-28", 1) == "2028-02-29");
}

TEST_CASE("pumpkin is for the refrigerator only whatever the house says", "[preparation][keeping]") {
    auto d = drink({named("canned pumpkin", 200, Measure::Ml), named("white sugar", 400, Measure::G),
                    named("water", 400, Measure::G)});
    d.steps.emplace_back().kind = StepKind::Simmer;
    d.steps[0].waterLostG = 100;
    const auto pumpkin = kept("autumn syrup", d, 30);
    CHECK(pumpkin.keeping.mustRefrigerate);
    CHECK(pumpkin.keeping.houseLongerThanPublished);
    CHECK(pumpkin.keeping.shortestDays == 5.0);
    CHECK(pumpkin.label.useBy == "2026-11-10");
    CHECK(has(pumpkin.label.cautions, "pumpkin"));
    CHECK_FALSE(pumpkin.label.deference.empty());
    const auto plain = kept("autumn syrup", d);
    CHECK(plain.keeping.entry->id == "vegetable_puree");
    CHECK(plain.label.useBy == "2026-11-08");
    CHECK_FALSE(kept("autumn syrup", d).keeping.houseLongerThanPublished);
}

TEST_CASE("a finished thing the table knows keeps by its own entry and unknown parts are named",
          "[preparation][keeping]") {
    auto d = drink({named("London dry gin", 500), named("whole milk", 200), named("lemon juice", 80)});
    d.steps.emplace_back().kind = StepKind::MilkClarify;
    d.steps[0].heldBackMl = 100;
    const auto punch = kept("clear gin", d);
    CHECK(punch.keeping.entry->id == "milk_punch");
    CHECK(punch.keeping.shortestDays == 30.0);
    CHECK(punch.label.allergens == std::vector<std::string>{"milk"});
    auto stored = drink({named("London dry gin", 500)});
    const auto bottle = kept("gin in a jar", stored);
    CHECK(bottle.keeping.basis == Keeping::Basis::NoLimit);
    CHECK_FALSE(bottle.label.useBy);
    const auto odd = drink({named("water", 100), line("moon dust", 20)});
    const larder::Larder handbook;
    const Bindings bindings(odd, handbook, {});
    const auto made = preparation::make(odd, bindings, {});
    const auto keeping = preparation::keepingOf("odd", odd, bindings, *made);
    CHECK(keeping.basis == Keeping::Basis::Unknown);
    CHECK(keeping.unknownLines == std::vector<int>{1});
    CHECK_FALSE(preparation::useBy("2026-11-06", keeping));
}

TEST_CASE("cautions fire from what is done to a preparation", "[preparation][keeping]") {
    const auto fires = [](StepKind kind, const std::string& id, const std::string& note = {}) {
        auto d = drink({named("London dry gin", 500), named("white sugar", 50, Measure::G)});
        d.steps.emplace_back().kind = kind;
        d.steps[0].note = note;
        const larder::Larder handbook;
        const Bindings bindings(d, handbook, {});
        return has(preparation::cautionsOf("gin", d, bindings, *preparation::make(d, bindings, {})), id);
    };
    CHECK(fires(StepKind::Steep, "infusion_law"));
    CHECK(fires(StepKind::FatWash, "infusion_law"));
    CHECK(fires(StepKind::MilkClarify, "milk"));
    CHECK(fires(StepKind::Ferment, "fermenting_bottle"));
    CHECK(fires(StepKind::Carbonate, "carbonation"));
    CHECK(fires(StepKind::Simmer, "heating_spirit"));
    CHECK(fires(StepKind::Whip, "carbonation", "with nitrous oxide"));
    CHECK_FALSE(fires(StepKind::Blend, "carbonation"));
    CHECK_FALSE(fires(StepKind::Dissolve, "infusion_law"));
}

TEST_CASE("the keeping table carries every published entry", "[preparation][keeping]") {
    // costing, shelf_life: 29 entries.
    const auto& table = preparation::KeepingTable::builtIn();
    CHECK(table.entries.size() == 29);
    CHECK_FALSE(table.ruleText.empty());
    for (const auto& entry : table.entries) {
        INFO(entry.id);
        CHECK_FALSE(entry.source.empty());
    }
    CHECK_FALSE(preparation::KeepingTable::fromJson("{}"));
    CHECK_FALSE(preparation::KeepingTable::fromJson("[[[[[[[[[["));
    CHECK_FALSE(preparation::KeepingTable::fromJson(
        R"({"schema":"stillroom-keeping/1","rule":{},"keeps":{},"entries":[{"id":"a"}]})"));
}

TEST_CASE("Parts that keep by themselves have no sure date once they are let down", "[keeping]") {
    const larder::Larder larder;
    const auto basis = [&](std::int64_t spirit, std::int64_t water) {
        const auto spec = drink({named("London dry gin", spirit), named("water", water)});
        const Bindings bindings(spec, larder, {});
        const auto made = preparation::make(spec, bindings, {});
        REQUIRE(made);
        return preparation::keepingOf("mixed", spec, bindings, *made).basis;
    };
    CHECK(basis(500, 100) == Keeping::Basis::NoLimit);
    CHECK(basis(100, 900) == Keeping::Basis::Unknown);
}

TEST_CASE("the house's own days for a part count where they are the shorter ones", "[preparation][keeping]") {
    const auto d = drink({named("whole milk", 200), named("gin", 50)});
    const auto with = [&](std::optional<int> days) {
        larder::Larder larder;
        larder::Ingredient milk = *larder.find(*d.lines[0].ingredient);
        milk.keepDays = days;
        larder.put(milk);
        const Bindings bindings(d, larder, {});
        const auto made = preparation::make(d, bindings, preparation::yieldOf(d));
        REQUIRE(made);
        return preparation::keepingOf("house milk", d, bindings, *made);
    };
    const auto published = with(std::nullopt);
    REQUIRE(published.shortestDays);
    REQUIRE(*published.shortestDays > 1);
    CHECK(with(1).shortestDays == 1.0);
    CHECK(with(1).longestDays == 1.0);
    CHECK(with(1).line == 0);
    CHECK(with(400).shortestDays == published.shortestDays); // never longer than what is published
}

TEST_CASE("What is kept has no cautions of a serving and keeps those of its own", "[preparation][keeping]") {
    auto warm =
        drink({named("malt whisky, peated", 600), named("water", 2000), named("honey", 400, Measure::G)},
              spec::Technique::Hot);
    const larder::Larder larder;
    const Bindings bindings(warm, larder, {});
    const auto readings = spec::evaluateWithTemperatures(warm, bindings);
    const auto inAGlass = spec::cautions(warm, bindings, readings);
    spec::CautionContext context;
    context.stored = true;
    const auto kept = spec::cautions(warm, bindings, readings, context);
    for (const char* id : {"served_hot", "strong_total", "strong_total_uk"}) {
        INFO(id);
        CHECK(has(inAGlass, id));
        CHECK_FALSE(has(kept, id));
    }
    CHECK(has(kept, "pregnancy")); // it holds alcohol, whoever pours it
    const auto made = preparation::make(warm, bindings, {});
    REQUIRE(made);
    for (const auto& each : preparation::cautionsOf("warm base", warm, bindings, *made))
        CHECK(each.id != "served_hot");
}
