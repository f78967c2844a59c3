#include "core/larder/cost_of.h"

#include "tests/support/catch.h"

#include <random>

using namespace stillroom;
using namespace stillroom::larder;
using quantity::Currency;
using quantity::Money;
using quantity::Rational;

namespace {

const Currency kEuro = *Currency::fromCode("EUR");
const Currency kDollar = *Currency::fromCode("USD");
const Currency kYen = *Currency::fromCode("JPY");

Rational decimal(const char* text) {
    return *Rational::fromText(text);
}

Ingredient named(const std::string& name) {
    Ingredient made;
    made.id = base::IngredientId::derivedFrom(name);
    made.name = name;
    return made;
}

Pack pack(const char* amount, const char* day = "", const Currency& currency = kEuro) {
    Pack made;
    made.id = base::PackId::derivedFrom(std::string(amount) + day);
    made.price = *Money::fromText(amount, currency);
    made.pricedOn = day;
    return made;
}

Ingredient bottle(const std::string& name, const char* amount, double ml) {
    Ingredient made = named(name);
    made.packs = {pack(amount)};
    made.packs[0].forMl = ml;
    return made;
}

Ingredient pieces(const std::string& name, const char* amount, double count) {
    Ingredient made = named(name);
    made.packs = {pack(amount)};
    made.packs[0].forPieces = count;
    return made;
}

Ingredient gotFrom(const std::string& name, const std::string& purchase, Rational perUnit, Rational share,
                   PackUnit unit = PackUnit::Ml) {
    Ingredient made = named(name);
    made.gotFrom = GotFrom{base::IngredientId::derivedFrom(purchase), PackUnit::Piece, unit, perUnit, share};
    return made;
}

struct Shelf {
    Larder larder = Larder::withoutHandbook();
    std::vector<ExchangeRate> rates;

    void put(const Ingredient& ingredient) { larder.put(ingredient); }
    auto rate(const std::string& name, std::string_view day = {}, const Currency& currency = kEuro) const {
        return rateOn(larder, *larder.find(base::IngredientId::derivedFrom(name)), {currency, day, &rates});
    }
    std::int64_t millionths(const std::string& name, const Rational& amount, std::string_view day = {},
                            const Currency& currency = kEuro) const {
        const auto found = rate(name, day, currency);
        REQUIRE(found);
        const auto cost = costOfAmount(found->rate, amount);
        REQUIRE(cost);
        CHECK(found->majorPerUnit * amount.toDouble() == Approx(cost->major()).margin(1e-6));
        return cost->millionths;
    }
    CostProblem problem(const std::string& name, std::string_view day = {}) const {
        const auto found = rate(name, day);
        REQUIRE_FALSE(found);
        return found.error().problem;
    }
};

} // namespace

TEST_CASE("Juice costs what its limes cost and the peel is not charged twice", "[larder][cost]") {
    Shelf shelf;
    shelf.put(pieces("lime", "8.00", 40)); // 0.20 a lime
    shelf.put(gotFrom("lime juice", "lime", 30, 1));
    shelf.put(gotFrom("lime peel", "lime", 1, 0, PackUnit::Piece));
    // List of needs: a litre of lime juice at 30 ml a fruit is 33.3 limes.
    const auto juice = shelf.rate("lime juice");
    REQUIRE(juice);
    CHECK(juice->rate.unit == PackUnit::Ml);
    CHECK(juice->bought == base::IngredientId::derivedFrom("lime"));
    const Rational limes = *Rational(1000).over(30);
    CHECK(limes.toDouble() == Approx(33.3).margin(0.05));
    CHECK(shelf.millionths("lime juice", 1000) == 6'666'667);
    CHECK(shelf.millionths("lime juice", 1000) == shelf.millionths("lime", limes));
    CHECK(shelf.millionths("lime juice", 30) == 200'000);
    CHECK(shelf.millionths("lime peel", 3) == 0);
    CHECK(shareFaults(shelf.larder).empty());

    // A fifth on the peel, and a tenth of the juice poured away at close.
    auto squeezed = gotFrom("lime juice", "lime", 30, decimal("4/5"));
    squeezed.usableShare = decimal("9/10");
    shelf.put(squeezed);
    shelf.put(gotFrom("lime peel", "lime", 1, decimal("1/5"), PackUnit::Piece));
    CHECK(shelf.millionths("lime juice", 27) == 160'000);
    CHECK(shelf.millionths("lime peel", 1) == 40'000);
}

TEST_CASE("A purchase whose parts take more than its price is named", "[larder][cost]") {
    Shelf shelf;
    shelf.put(pieces("lime", "8.00", 40));
    shelf.put(gotFrom("lime juice", "lime", 30, 1));
    shelf.put(gotFrom("lime peel", "lime", 1, decimal("1/5"), PackUnit::Piece));
    CHECK(shelf.problem("lime juice") == CostProblem::BadShares);
    CHECK(shelf.rate("lime peel").error().at == base::IngredientId::derivedFrom("lime"));
    auto faults = shareFaults(shelf.larder);
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].shares == decimal("6/5"));
    CHECK(faults[0].takers.size() == 2);
    // Put right: the index of takers follows the edit.
    shelf.put(gotFrom("lime juice", "lime", 30, decimal("4/5")));
    CHECK(shelf.millionths("lime juice", 30) == 160'000);
    CHECK(shareFaults(shelf.larder).empty());
    // Too little is no error of a cost, but some of what was paid is in none.
    shelf.put(gotFrom("lime juice", "lime", 30, decimal("1/2")));
    CHECK(shelf.millionths("lime juice", 30) == 100'000);
    faults = shareFaults(shelf.larder);
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].shares == decimal("7/10"));
    shelf.put(named("lime juice"));
    CHECK(shelf.larder.gotFrom(base::IngredientId::derivedFrom("lime")).size() == 1);
}

TEST_CASE("What is got from itself is named", "[larder][cost]") {
    Shelf shelf;
    shelf.put(gotFrom("egg", "egg white", 1, 1, PackUnit::Piece));
    shelf.put(gotFrom("egg white", "egg", 30, 1));
    CHECK(shelf.problem("egg white") == CostProblem::Cycle);
    CHECK(shelf.problem("egg") == CostProblem::Cycle);
    shelf.put(gotFrom("self", "self", 1, 1, PackUnit::Piece));
    CHECK(shelf.problem("self") == CostProblem::Cycle);
    CHECK(costProblemId(CostProblem::Cycle) == "cycle");
    CHECK(costProblemId(CostProblem::NoPrice) == "no_price");
}

TEST_CASE("A purchase in another unit needs a density", "[larder][cost]") {
    Shelf shelf;
    Ingredient cream = bottle("cream", "4.00", 1000);
    shelf.put(cream);
    Ingredient butter = named("butter");
    butter.gotFrom = GotFrom{cream.id, PackUnit::Gram, PackUnit::Gram, decimal("2/5"), 1};
    shelf.put(butter);
    CHECK(shelf.problem("butter") == CostProblem::UnitsDiffer);
    cream.facts.densityKgPerM3 = Fact::single(1000, SourceKind::Label, "label");
    shelf.put(cream);
    CHECK(shelf.millionths("butter", 400) == 4'000'000);
    // A thing sold by the piece has no mass of its own here.
    shelf.put(pieces("lime", "8.00", 40));
    Ingredient zest = named("zest");
    zest.gotFrom = GotFrom{base::IngredientId::derivedFrom("lime"), PackUnit::Gram, PackUnit::Gram, 1, 1};
    shelf.put(zest);
    CHECK(shelf.problem("zest") == CostProblem::UnitsDiffer);
}

TEST_CASE("Bad purchases are named and cost nothing that was not paid", "[larder][cost]") {
    Shelf shelf;
    const auto problemOf = [&](const Ingredient& bad) {
        shelf.put(bad);
        return shelf.problem(bad.name);
    };
    Ingredient gin = bottle("gin", "20.00", 700);
    gin.packs[0].price.minor = -1;
    CHECK(problemOf(gin) == CostProblem::NegativePrice);
    gin = bottle("gin", "20.00", 700);
    gin.usableShare = 0;
    CHECK(problemOf(gin) == CostProblem::YieldNotAbove0);
    gin.usableShare = decimal("11/10");
    CHECK(problemOf(gin) == CostProblem::YieldAbove1);
    gin = bottle("gin", "20.00", 700);
    gin.packs[0].taxPercent = -1;
    CHECK(problemOf(gin) == CostProblem::BadTax);
    gin = bottle("gin", "20.00", 0);
    CHECK(problemOf(gin) == CostProblem::SizeNotAbove0);
    CHECK(problemOf(bottle("gin", "20.00", 2e9)) == CostProblem::SizeTooLarge);
    gin.packs[0].forMl.reset();
    CHECK(problemOf(gin) == CostProblem::NoSize);
    CHECK(problemOf(named("gin")) == CostProblem::NoPrice);
    shelf.put(pieces("lime", "8.00", 40));
    CHECK(problemOf(gotFrom("lime juice", "lime", 0, 1)) == CostProblem::YieldNotAbove0);
    CHECK(problemOf(gotFrom("lime juice", "lime", 30, -1)) == CostProblem::BadShares);
    CHECK(problemOf(gotFrom("lemon juice", "lemon", 30, 1)) == CostProblem::NoPrice);
    // A million litres of an honest bottle still cost what they cost.
    shelf.put(bottle("gin", "20.00", 1000));
    CHECK(shelf.millionths("gin", 1'000'000'000) == 20'000'000'000'000);
}

TEST_CASE("A price holds on its day through what is got from it", "[larder][cost]") {
    Shelf shelf;
    Ingredient lime = named("lime");
    lime.packs = {pack("8.00", "2026-01-10"), pack("12.00", "2026-06-01")};
    for (Pack& each : lime.packs)
        each.forPieces = 40;
    shelf.put(lime);
    shelf.put(gotFrom("lime juice", "lime", 30, 1));
    CHECK(shelf.millionths("lime juice", 30, "2026-05-31") == 200'000);
    CHECK(shelf.millionths("lime juice", 30, "2026-06-01") == 300'000);
    CHECK(shelf.millionths("lime juice", 30) == 300'000);
    CHECK(shelf.problem("lime juice", "2026-01-09") == CostProblem::NoPrice);
    // An older price entered later is not the newest; one without a date, added last, is.
    std::swap(lime.packs[0], lime.packs[1]);
    shelf.put(lime);
    CHECK(shelf.millionths("lime juice", 30) == 300'000);
    lime.packs.push_back(pack("16.00"));
    lime.packs.back().forPieces = 40;
    shelf.put(lime);
    CHECK(shelf.millionths("lime juice", 30) == 400'000);
    // Its own bottle wins over the fruit while it has a price.
    Ingredient bought = gotFrom("lime juice", "lime", 30, 1);
    bought.packs = {pack("3.00", "2026-03-01")};
    bought.packs[0].forMl = 1000;
    shelf.put(bought);
    CHECK(shelf.millionths("lime juice", 1000, "2026-03-01") == 3'000'000);
}

TEST_CASE("Another currency counts by the rate of the day", "[larder][cost]") {
    Shelf shelf;
    Ingredient gin = named("gin");
    gin.packs = {pack("30.00", "", kDollar)};
    gin.packs[0].forMl = 750;
    shelf.put(gin);
    const auto unconverted = shelf.rate("gin");
    REQUIRE_FALSE(unconverted);
    CHECK(unconverted.error().problem == CostProblem::CurrencyDiffers);
    CHECK(unconverted.error().currency == kDollar);
    shelf.rates = {{kDollar, kEuro, decimal("0.9"), "2026-01-01"},
                   {kDollar, kEuro, decimal("0.8"), "2026-06-01"}};
    CHECK(shelf.millionths("gin", 750, "2026-05-31") == 27'000'000);
    CHECK(shelf.millionths("gin", 750) == 24'000'000);
    CHECK(shelf.problem("gin", "2025-12-31") == CostProblem::CurrencyDiffers);
    CHECK(shelf.rate("gin")->paidIn == kDollar);
    // Yen have no minor unit: 3000 yen at 160 to the euro.
    Ingredient plum = named("plum wine");
    plum.packs = {pack("3000", "", kYen)};
    plum.packs[0].forMl = 720;
    shelf.put(plum);
    shelf.rates.push_back({kEuro, kYen, 160, "2026-01-01"});
    CHECK(shelf.millionths("plum wine", 720) == 18'750'000);
    CHECK(shelf.millionths("plum wine", 720, {}, kYen) == 3'000'000'000);
}

TEST_CASE("Rates agree with sums worked in exact fractions", "[larder][cost]") {
    std::mt19937 random(20261125);
    const auto upTo = [&](int top) {
        return static_cast<std::int64_t>(random() % static_cast<unsigned>(top)) + 1;
    };
    for (int round = 0; round < 500; ++round) {
        const std::int64_t cents = upTo(20000);
        const std::int64_t count = upTo(200);
        const Rational yield = *Rational::make(upTo(600), 10);
        const Rational usable = *Rational::make(upTo(20), 20);
        const Rational tax = *Rational::make(upTo(50), 2);
        const Rational share = *Rational::make(upTo(10), 10);
        const Rational amount = *Rational::make(upTo(2000), upTo(16));
        Shelf shelf;
        Ingredient lime = named("lime");
        Pack bought;
        bought.price = {cents, kEuro};
        bought.forPieces = static_cast<double>(count);
        bought.taxPercent = tax;
        lime.packs = {bought};
        lime.usableShare = usable;
        shelf.put(lime);
        shelf.put(gotFrom("lime juice", "lime", yield, share));
        // cents x 100/(100 + tax) x share / (count x usable x yield) x amount, in that order of fractions.
        auto exact = Rational(cents * 10'000);
        for (const auto& factor :
             {*Rational(100).over(*Rational(100).plus(tax)), share, amount,
              *Rational(1).over(*Rational(count).times(usable)), *Rational(1).over(yield)})
            exact = *exact.times(factor);
        const double want = exact.toDouble();
        const auto got = shelf.millionths("lime juice", amount);
        CAPTURE(round, want);
        CHECK(std::abs(static_cast<double>(got) - want) <= 0.5 + 1e-6);
    }
}
