#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

#include <random>

using namespace stillroom;
using namespace stillroom::test;
using quantity::Currency;
using quantity::Measure;
using quantity::Rational;
using spec::Bound;
using spec::GapCode;
using spec::Quantity;
using spec::Stage;

namespace {

struct House {
    Shelf shelf;
    spec::HouseRules rules;

    spec::Reading cost(const spec::Spec& drink) const {
        return spec::evaluate(drink, shelf.larder, rules)[Stage::Served][Quantity::Cost];
    }
    std::vector<spec::Gap> gaps(const spec::Spec& drink) const {
        return spec::gaps(drink, spec::Bindings(drink, shelf.larder, rules));
    }
    larder::Ingredient lime(std::int64_t cents, const std::string& day = {}) {
        auto lime = shelf.ingredient("lime");
        larder::Pack box;
        box.price = {cents, {}};
        box.forPieces = 40;
        box.pricedOn = day;
        lime.packs = {box};
        return lime;
    }
    void putLimes() {
        shelf.larder.put(lime(800));
        auto juice = shelf.ingredient("lime juice");
        juice.facts = factsOf({0, 17, 60});
        juice.gotFrom = larder::GotFrom{base::IngredientId::derivedFrom("lime"), larder::PackUnit::Piece,
                                        larder::PackUnit::Ml, 30, 1};
        shelf.larder.put(juice);
        auto peel = shelf.ingredient("lime peel");
        peel.gotFrom = larder::GotFrom{base::IngredientId::derivedFrom("lime"), larder::PackUnit::Piece,
                                       larder::PackUnit::Piece, 1, 0};
        shelf.larder.put(peel);
    }
};

const spec::Gap* priceGap(const std::vector<spec::Gap>& gaps) {
    for (const auto& gap : gaps)
        if (spec::gapCodeId(gap.code).substr(0, 5) == "price") return &gap;
    return nullptr;
}

} // namespace

TEST_CASE("A drink pays for a lime once", "[spec][cost]") {
    House house;
    house.putLimes();
    house.shelf.putPriced("gin", {47, 0, 0}, 2100, 700);
    const auto sour = drink({line("gin", 60), line("lime juice", Rational::make(45, 2).value()),
                             line("lime peel", 1, Measure::Piece, spec::Role::Garnish)});
    // 60 ml of 700 ml at 21.00 is 1.80; 22.5 ml of juice is three quarters of a lime at 0.20.
    const auto cost = house.cost(sour);
    CHECK(cost.bound == Bound::Exact);
    CHECK(cost.value == Approx(1.95).margin(1e-9));
    CHECK(priceGap(house.gaps(sour)) == nullptr);
}

TEST_CASE("A drink costs what it cost on a day", "[spec][cost]") {
    House house;
    house.putLimes();
    auto limes = house.lime(800, "2026-01-10");
    limes.packs.push_back(house.lime(1600, "2026-06-01").packs[0]);
    house.shelf.larder.put(limes);
    const auto juice = drink({line("lime juice", 30)});
    CHECK(house.cost(juice).value == Approx(0.40).margin(1e-9));
    house.rules.pricesOn = "2026-05-31";
    CHECK(house.cost(juice).value == Approx(0.20).margin(1e-9));
    house.rules.pricesOn = "2025-12-31";
    CHECK(house.cost(juice).bound == Bound::Unknown);
    const auto gaps = house.gaps(juice);
    REQUIRE(priceGap(gaps) != nullptr);
    CHECK(priceGap(gaps)->code == GapCode::PriceUnknown);
    CHECK(priceGap(gaps)->detail == "lime");
}

TEST_CASE("A price in another currency counts by its rate or is a gap that names it", "[spec][cost]") {
    House house;
    auto gin = house.shelf.ingredient("gin");
    gin.facts = factsOf({47, 0, 0});
    gin.packs = {{{}, {3000, *Currency::fromCode("USD")}, 750, {}, {}, ""}};
    house.shelf.larder.put(gin);
    house.shelf.putPriced("syrup", {0, 600, 0}, 300, 1000);
    const auto d = drink({line("gin", 50), line("syrup", 100)});
    CHECK(house.cost(d).bound == Bound::AtLeast);
    CHECK(house.cost(d).value == Approx(0.30).margin(1e-9));
    auto gaps = house.gaps(d);
    REQUIRE(priceGap(gaps) != nullptr);
    CHECK(priceGap(gaps)->code == GapCode::PriceCurrency);
    CHECK(priceGap(gaps)->detail == "USD");
    house.rules.rates = {{*Currency::fromCode("USD"), {}, *Rational::fromText("0.9"), "2026-01-01"}};
    CHECK(house.cost(d).bound == Bound::Exact);
    CHECK(house.cost(d).value == Approx(2.10).margin(1e-9)); // 50 of 750 ml at 27.00, and 0.30
    CHECK(priceGap(house.gaps(d)) == nullptr);
}

TEST_CASE("Every bad price is named and the rest of the drink keeps its cost", "[spec][cost]") {
    House house;
    house.shelf.putPriced("gin", {47, 0, 0}, 2100, 700);
    const auto d = drink({line("gin", 100), line("odd", 10, Measure::G)});
    const auto odd = [&](std::int64_t cents, std::optional<double> ml) {
        auto made = house.shelf.ingredient("odd");
        made.facts = factsOf({0, 600, 0});
        made.packs = {{{}, {cents, {}}, ml, {}, {}, ""}};
        return made;
    };
    const auto codeOf = [&](const larder::Ingredient& ingredient) {
        house.shelf.larder.put(ingredient);
        const auto gaps = house.gaps(d);
        CHECK(house.cost(d).bound == Bound::AtLeast);
        CHECK(house.cost(d).value == Approx(3.00).margin(1e-9));
        REQUIRE(priceGap(gaps) != nullptr);
        CHECK(priceGap(gaps)->line == 1);
        return *priceGap(gaps);
    };
    CHECK(codeOf(odd(-100, 1000)).code == GapCode::PriceNegative);
    auto made = odd(100, 1000);
    made.usableShare = 0;
    CHECK(codeOf(made).code == GapCode::PriceYield);
    made = odd(100, 1000);
    made.packs[0].taxPercent = -5;
    CHECK(codeOf(made).code == GapCode::PriceWrong);
    CHECK(codeOf(made).detail == "bad_tax");
    made = odd(100, 1000);
    made.packs.clear();
    made.gotFrom = larder::GotFrom{made.id, larder::PackUnit::Ml, larder::PackUnit::Ml, 1, 1};
    CHECK(codeOf(made).detail == "cycle");
    CHECK(codeOf(odd(100, 5e9)).detail == "size_too_large");
    made.gotFrom.reset();
    CHECK(codeOf(made).code == GapCode::PriceUnknown);
    CHECK(codeOf(made).detail.empty());

    SECTION("Grams of a liquid nobody knows the density of") {
        made = odd(100, 1000);
        made.facts = {};
        CHECK(codeOf(made).code == GapCode::PriceUnit);
        made.facts.densityKgPerM3 = fact(1250);
        house.shelf.larder.put(made);
        CHECK(priceGap(house.gaps(d)) == nullptr);
        CHECK(house.cost(d).value == Approx(3.008).margin(1e-9)); // 10 g are 8 ml at a euro the litre
    }
    SECTION("A powder priced by volume") {
        made = odd(100, 1000);
        made.facts.dry = true;
        made.facts.densityKgPerM3.reset();
        CHECK(codeOf(made).code == GapCode::PriceUnit);
    }
}

TEST_CASE("A million litres cost what they cost", "[spec][cost]") {
    House house;
    house.shelf.putPriced("gin", {47, 0, 0}, 2100, 700);
    const auto cost = house.cost(drink({line("gin", 1'000'000'000)}));
    CHECK(cost.bound == Bound::Exact);
    CHECK(cost.value == Approx(30e6).epsilon(1e-12));
}

TEST_CASE("The cost of a drink is the sum of the costs of its lines", "[spec][cost]") {
    std::mt19937 random(7);
    for (int round = 0; round < 200; ++round) {
        House house;
        house.putLimes();
        std::vector<spec::Line> lines{line("lime juice", *Rational::make(random() % 500 + 1, 8))};
        const auto count = random() % 6 + 1;
        for (unsigned i = 0; i < count; ++i) {
            const std::string name = "bottle " + std::to_string(i);
            house.shelf.putPriced(name, {40, 0, 0}, static_cast<std::int64_t>(random() % 5000 + 1),
                                  static_cast<double>(random() % 1500 + 1));
            lines.push_back(line(name, *Rational::make(random() % 400 + 1, random() % 12 + 1)));
        }
        std::int64_t apart = 0;
        for (const auto& one : lines)
            apart += std::llround(house.cost(drink({one})).value * 1e6);
        CAPTURE(round);
        CHECK(std::llround(house.cost(drink(lines)).value * 1e6) == apart);
    }
}

TEST_CASE("A flavouring that is not drunk is paid for or makes the cost a floor", "[spec][cost]") {
    House house;
    house.shelf.putPriced("gin", {47, 0, 0}, 2100, 700);
    auto spice = house.shelf.ingredient("clove");
    spice.facts.dry = true;
    spice.facts.soluble = false;
    spice.facts.group = "spice";
    const auto sold = [&](std::optional<double> ml, std::optional<double> g) {
        auto made = spice;
        made.packs = {{{}, {500, {}}, ml, g, {}, ""}};
        house.shelf.larder.put(made);
    };
    const auto d = drink({line("gin", 60), line("clove", 2, Measure::G)});
    sold({}, 100); // 2 g of 100 g at 5.00
    CHECK(house.cost(d).bound == Bound::Exact);
    CHECK(house.cost(d).value == Approx(1.90).margin(1e-9));
    CHECK(priceGap(house.gaps(d)) == nullptr);
    sold(100, {}); // sold by the ml, and nobody knows what a ml weighs
    CHECK(house.cost(d).bound == Bound::AtLeast);
    CHECK(house.cost(d).value == Approx(1.80).margin(1e-9));
    REQUIRE(priceGap(house.gaps(d)) != nullptr);
    CHECK(priceGap(house.gaps(d))->code == GapCode::PriceUnit);
    CHECK(priceGap(house.gaps(d))->line == 1);
    house.shelf.larder.put(spice); // no price at all
    CHECK(house.cost(d).bound == Bound::AtLeast);
    CHECK(priceGap(house.gaps(d))->code == GapCode::PriceUnknown);
    const auto leaves = drink({line("gin", 60), line("clove", 3, Measure::Leaf)});
    CHECK(house.cost(leaves).bound == Bound::AtLeast);
}

TEST_CASE("A garnish is paid for or makes the cost a floor", "[spec][cost]") {
    House house;
    house.putLimes();
    house.shelf.putPriced("gin", {47, 0, 0}, 2100, 700);
    auto cherry = house.shelf.ingredient("cherry");
    cherry.packs = {{{}, {800, {}}, {}, {}, {}, ""}};
    cherry.packs[0].forPieces = 40;
    house.shelf.larder.put(cherry);
    auto garnish = unstated("cherry");
    garnish.role = spec::Role::Garnish;
    auto d = drink({line("gin", 60), garnish});
    // 1.80 and a cherry at 0.20, taken for one because no number stands there.
    CHECK(house.cost(d).bound == Bound::Exact);
    CHECK(house.cost(d).value == Approx(2.00).margin(1e-9));
    CHECK(house.cost(d).estimate);
    garnish.poured = line("cherry", 2, Measure::Piece).poured;
    d.lines[1] = garnish;
    CHECK(house.cost(d).value == Approx(2.20).margin(1e-9));
    CHECK_FALSE(house.cost(d).estimate);
    // The peel of a lime whose juice bears the price costs nothing, however much of it there is.
    auto peel = unstated("lime peel");
    peel.role = spec::Role::Garnish;
    d.lines[1] = peel;
    CHECK(house.cost(d).bound == Bound::Exact);
    CHECK(house.cost(d).value == Approx(1.80).margin(1e-9));
    auto stranger = unstated("a paper lantern");
    stranger.role = spec::Role::Garnish;
    d.lines[1] = stranger;
    CHECK(house.cost(d).bound == Bound::AtLeast);
    CHECK(house.cost(d).value == Approx(1.80).margin(1e-9));
}

TEST_CASE("A garnish in words alone makes the cost a floor and says so", "[spec][cost]") {
    House house;
    house.shelf.putPriced("gin", {47, 0, 0}, 2100, 700);
    auto d = drink({line("gin", 60)});
    CHECK(house.cost(d).bound == Bound::Exact);
    d.garnish = "lemon twist";
    CHECK(house.cost(d).bound == Bound::AtLeast);
    CHECK(house.cost(d).value == Approx(1.80).margin(1e-9));
    const auto gaps = house.gaps(d);
    REQUIRE(gaps.size() == 1);
    CHECK(gaps[0].code == GapCode::PriceUnknown);
    CHECK(gaps[0].ingredient == "the garnish, lemon twist");
    CHECK(gaps[0].line == -1);
    d.garnish = "none";
    CHECK(house.cost(d).bound == Bound::Exact);
    CHECK(house.gaps(d).empty());
}
