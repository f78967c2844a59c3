#include "core/preparation/bringing.h"

#include "core/physics/mixture.h"
#include "core/preparation/adding.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

#include <limits>

using namespace stillroom;
using namespace stillroom::test;
using physics::ConversionValues;
using preparation::Bringing;
using preparation::BringProblem;
using quantity::Mass;
using quantity::Volume;

namespace {

const Bringing& way(std::string_view id) {
    for (const auto& each : preparation::bringings())
        if (each.form.id == id) return each;
    throw std::runtime_error("no such target");
}

const larder::Larder& handbook() {
    static const larder::Larder larder;
    return larder;
}

base::IngredientId named(std::string_view name) {
    return handbook().match(name).ingredient;
}

spec::Spec oneOf(std::string_view name, double ml) {
    return preparation::baseOf(named(name), Volume::fromMl(ml), handbook());
}

preparation::Brought brought(std::string_view id, const ConversionValues& values,
                             const preparation::BringAsk& ask) {
    const auto found = preparation::bring(way(id), values, ask, handbook(), {});
    REQUIRE(found);
    return *found;
}

BringProblem problem(std::string_view id, const ConversionValues& values, const preparation::BringAsk& ask) {
    const auto found = preparation::bring(way(id), values, ask, handbook(), {});
    REQUIRE_FALSE(found);
    return found.error();
}

} // namespace

TEST_CASE("A juice brought to the acid of another says its doses and the smallest batch of each scale",
          "[bringing]") {
    const auto found = brought("acid", {}, {oneOf("orange juice", 1000), named("lime juice"), {}});
    REQUIRE_FALSE(found.doses.empty());
    for (const auto& dose : found.doses) {
        CHECK_FALSE(dose.liquid);
        REQUIRE(dose.byDifference);
        CHECK(dose.amount > *dose.byDifference); // what is added thins the rest
        CHECK(dose.amount < 1.05 * *dose.byDifference);
    }
    // Worked out anew from the spec, as any preparation is, the finished juice is as sour as lime juice.
    REQUIRE(found.after.facts.acidGPerL);
    CHECK(found.after.facts.acidGPerL->typical ==
          Approx(handbook().find(named("lime juice"))->facts.acidGPerL->typical).epsilon(0.005));
    CHECK(found.spec.lines.size() == 1 + found.doses.size());
    // Half of 0.1 g is 2 % of 2.5 g.
    double least = found.doses.front().amount;
    for (const auto& dose : found.doses)
        least = std::min(least, dose.amount);
    CHECK(found.smallestAtTenthGram->ml() == Approx(2.5 / least * 1000).epsilon(1e-3));
    CHECK(found.smallestAtGram->ml() == Approx(25 / least * 1000).epsilon(1e-3));
    CHECK(found.smallest == found.smallestAtTenthGram);
    CHECK(
        brought("acid", {{"scale", 1.0}}, {oneOf("orange juice", 1000), named("lime juice"), {}}).smallest ==
        found.smallestAtGram);
    // As much juice as the smallest batch needs every dose at 2.5 g and more.
    const auto small = brought(
        "acid", {}, {oneOf("orange juice", found.smallestAtTenthGram->ml()), named("lime juice"), {}});
    for (const auto& dose : small.doses)
        CHECK(dose.amount >= 2.49);
    const auto back = brought("acid", {}, {oneOf("lime juice", 1000), named("orange juice"), {}});
    CHECK(back.thereAlready);
    CHECK_FALSE(back.over.empty());
}

TEST_CASE("A syrup comes to its Brix by sugar and by boiling and by water", "[bringing]") {
    spec::Spec syrup;
    syrup.lines = {preparation::dryLine("white sugar", Mass::fromGrams(400), handbook()),
                   preparation::liquidLine("water", Volume::fromMl(600), handbook())};
    const auto sweet = brought("brix", {{"brix", 50.0}}, {syrup, {}, {}});
    REQUIRE(sweet.doses.size() == 1);
    // 399.2 g of sugar (998 g in the handbook's kilogram) and 598.9 g of water: half of it sugar takes 200 g
    // more, 201 g of the handbook's.
    CHECK(sweet.doses[0].amount == Approx(201).margin(0.5));
    // What comes with the sugar counts as weight and not as sugar: a fiftieth of the digit shown.
    CHECK(*sweet.after.brix == Approx(50).margin(0.02));
    const auto boiled = brought("brix", {{"brix", 50.0}, {"by", std::string("boiling")}}, {syrup, {}, {}});
    REQUIRE(boiled.boilOff);
    CHECK(boiled.boilOff->grams() == Approx(200).margin(2));
    CHECK(boiled.doses.empty());
    CHECK(boiled.spec.steps.size() == 1);
    CHECK(*boiled.after.brix == Approx(50).margin(0.01));
    CHECK_FALSE(boiled.smallest);
    const auto thin = brought("brix", {{"brix", 30.0}, {"by", std::string("boiling")}}, {syrup, {}, {}});
    REQUIRE(thin.doses.size() == 1);
    CHECK(thin.doses[0].name == "water");
    CHECK(thin.doses[0].liquid);
    CHECK(*thin.after.brix == Approx(30).margin(0.01));
}

TEST_CASE("An infusion comes to its strength with water or with something stronger", "[bringing]") {
    // Needs, 6: 1.75 l at 50 % to 30 % takes 1,181 ml of water and makes 2,917 ml.
    Shelf shelf;
    shelf.put("infusion", {50, 0, 0})
        .put("weak", {20, 0, 0})
        .put("spirit 96", {96, 0, 0})
        .put("water", {0, 0, 0});
    const auto base = [&](const std::string& name, double ml) {
        return preparation::baseOf(base::IngredientId::derivedFrom(name), Volume::fromMl(ml), shelf.larder);
    };
    const auto ask = [&](const std::string& name, double abv, std::optional<std::string> with = {}) {
        std::optional<base::IngredientId> stronger;
        if (with) stronger = base::IngredientId::derivedFrom(*with);
        return preparation::bring(way("strength"), {{"abv", abv}}, {base(name, 1750), {}, stronger},
                                  shelf.larder, {});
    };
    const auto down = ask("infusion", 30);
    REQUIRE(down);
    CHECK(down->doses[0].amount == Approx(1181).margin(1));
    CHECK(down->after.yield.ml() == Approx(2917).margin(1));
    CHECK(down->after.facts.abvPercent->typical == Approx(30).margin(0.01));
    const auto up = ask("weak", 40, "spirit 96");
    REQUIRE(up);
    CHECK(up->doses[0].name == "spirit 96");
    CHECK(up->after.facts.abvPercent->typical == Approx(40).margin(0.01));
    CHECK(ask("weak", 40).error() == BringProblem::NoStronger);
    CHECK(ask("weak", 40, "weak").error() == BringProblem::NotStronger);
    CHECK(ask("weak", 40, "moon dust").error() == BringProblem::StrongerUnknown);
    CHECK(ask("weak", 20)->thereAlready);
}

TEST_CASE("A cordial gets both at once and what is over is said", "[bringing]") {
    const preparation::BringAsk ask{oneOf("grapefruit juice", 1000), {}, {}};
    for (const auto* acid : {"citric", "malic", "tartaric", "lactic"}) {
        INFO(acid);
        const auto found =
            brought("cordial", {{"sugar", 400.0}, {"acid", 30.0}, {"powder", std::string(acid)}}, ask);
        REQUIRE(found.doses.size() == 2);
        CHECK(found.after.facts.sugarGPerL->typical == Approx(400).epsilon(0.005));
        CHECK(found.after.facts.acidGPerL->typical == Approx(30).epsilon(0.01));
    }
    CHECK(problem("cordial", {{"sugar", 10.0}, {"acid", 30.0}}, ask) == BringProblem::MoreThanThat);
    CHECK(problem("cordial", {{"sugar", 400.0}, {"acid", 3.0}}, ask) == BringProblem::MoreThanThat);
    CHECK(problem("cordial", {{"sugar", 999.0}, {"acid", 300.0}}, ask) == BringProblem::OutOfReach);
    // Sucrose at 20 °C: 66.7 g in 100 g with its water at the most (Herzfeld). 900 g/l are beyond that.
    CHECK(brought("cordial", {{"sugar", 400.0}, {"acid", 30.0}}, ask).crystals.empty());
    CHECK_FALSE(brought("cordial", {{"sugar", 900.0}, {"acid", 30.0}}, ask).crystals.empty());
}

TEST_CASE("What cannot be brought anywhere is named and rubbish is refused", "[bringing]") {
    CHECK(problem("acid", {}, {{}, named("lime juice"), {}}) == BringProblem::NothingThere);
    spec::Spec powder;
    powder.lines = {preparation::dryLine("white sugar", Mass::fromGrams(400), handbook())};
    CHECK(problem("acid", {}, {powder, named("lime juice"), {}}) == BringProblem::Dry);
    CHECK(problem("acid", {}, {oneOf("orange juice", 1000), {}, {}}) == BringProblem::NoLike);
    CHECK(problem("acid", {}, {oneOf("orange juice", 1000), named("white sugar"), {}}) ==
          BringProblem::LikeUnknown);
    Shelf shelf;
    shelf.put("mystery", {});
    const auto mystery =
        preparation::baseOf(base::IngredientId::derivedFrom("mystery"), Volume::fromMl(500), shelf.larder);
    const auto of = [&](std::string_view id, const ConversionValues& values) {
        return preparation::bring(way(id), values, {mystery, {}, {}}, shelf.larder, {}).error();
    };
    CHECK(of("acid", {}) == BringProblem::AcidUnknown);
    CHECK(of("brix", {{"brix", 50.0}}) == BringProblem::SugarUnknown);
    CHECK(of("strength", {{"abv", 20.0}}) == BringProblem::StrengthUnknown);
    CHECK(of("cordial", {{"sugar", 400.0}, {"acid", 20.0}}) == BringProblem::SugarUnknown);
    for (const auto& bringing : preparation::bringings())
        for (const auto& input : bringing.form.inputs) {
            if (!input.choices.empty()) continue;
            for (const double bad : {-1.0, 1e9, std::numeric_limits<double>::quiet_NaN()}) {
                ConversionValues values;
                for (const auto& other : bringing.form.inputs)
                    if (other.need == physics::InputNeed::Required) values[std::string(other.key)] = 20.0;
                values[std::string(input.key)] = bad;
                const auto refused = physics::convert(bringing.form, values);
                REQUIRE_FALSE(refused);
                CHECK(refused.error().key == input.key);
            }
        }
    CHECK(preparation::bringingFor(way("acid"), true, Mass::fromGrams(1)).form.input("amount") == nullptr);
    CHECK(preparation::bringingFor(way("acid"), true, Mass::fromGrams(1)).form.input("scale")->standing ==
          1.0);
}
