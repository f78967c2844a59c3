#include "core/preparation/findings.h"

#include "core/exchange/pack_size.h"
#include "core/larder/fact_entry.h"
#include "core/larder/listing.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using preparation::Finding;
using preparation::FindingCode;

namespace {

std::vector<Finding> found(const larder::Ingredient& ingredient, larder::Larder larder) {
    larder.put(ingredient);
    return preparation::findings(larder, ingredient.id, {}, {});
}

larder::Ingredient gin() {
    Shelf shelf;
    shelf.putPriced("gin", {{40}, {0}, {0}}, 2100, 700);
    return *shelf.larder.find(base::IngredientId::derivedFrom("gin"));
}

} // namespace

TEST_CASE("A sound ingredient has no findings", "[findings]") {
    CHECK(found(gin(), Shelf().larder).empty());
}

TEST_CASE("Bad purchases are refused by their own names", "[findings]") {
    const auto problemOf = [](const larder::Ingredient& ingredient) {
        const auto all = found(ingredient, Shelf().larder);
        REQUIRE(all.size() == 1);
        CHECK(all[0].code == FindingCode::Purchase);
        CHECK(all[0].refuses);
        return all[0].problem;
    };
    auto bad = gin();
    bad.packs[0].price.minor = -1;
    CHECK(problemOf(bad) == larder::CostProblem::NegativePrice);
    bad = gin();
    bad.usableShare = 0;
    CHECK(problemOf(bad) == larder::CostProblem::YieldNotAbove0);
    bad = gin();
    bad.packs[0].forMl = 1e9;
    CHECK(problemOf(bad) == larder::CostProblem::SizeTooLarge);
    bad = gin();
    bad.packs[0].forMl = 0;
    CHECK(problemOf(bad) == larder::CostProblem::SizeNotAbove0);
}

TEST_CASE("A yield of nothing and a share of more than the price are refused before anything is priced",
          "[findings]") {
    Shelf shelf;
    shelf.put("lime", {{0}, {0}, {0}});
    auto juice = gin();
    juice.packs.clear();
    larder::GotFrom from;
    from.of = base::IngredientId::derivedFrom("lime");
    from.perUnit = 0;
    juice.gotFrom = from;
    auto all = found(juice, shelf.larder);
    REQUIRE(all.size() == 1);
    CHECK(all[0].problem == larder::CostProblem::YieldNotAbove0);
    CHECK(all[0].refuses);
    juice.gotFrom->perUnit = 30;
    juice.gotFrom->priceShare = *quantity::Rational::make(3, 2);
    all = found(juice, shelf.larder);
    REQUIRE(all.size() == 1);
    CHECK(all[0].problem == larder::CostProblem::BadShares);
    CHECK(all[0].refuses);
    juice.gotFrom->priceShare = 1;
    CHECK(found(juice, shelf.larder).empty());
}

TEST_CASE("Another currency and a gram of no density are doubts that name themselves", "[findings]") {
    auto pounds = gin();
    pounds.packs[0].price.currency = *quantity::Currency::fromCode("GBP");
    auto all = found(pounds, Shelf().larder);
    REQUIRE(all.size() == 1);
    CHECK(all[0].problem == larder::CostProblem::CurrencyDiffers);
    CHECK(all[0].currency.text() == "GBP");
    CHECK_FALSE(all[0].refuses);

    auto unknown = gin();
    unknown.facts = {};
    unknown.packs[0].forMl.reset();
    unknown.packs[0].forG = 500;
    all = found(unknown, Shelf().larder);
    REQUIRE(all.size() == 1);
    CHECK(all[0].code == FindingCode::PricedByTheGram);
}

TEST_CASE("What is got from itself is refused with its path", "[findings]") {
    Shelf shelf;
    shelf.put("lime", {}).put("juice", {});
    auto lime = *shelf.larder.find(base::IngredientId::derivedFrom("lime"));
    auto juice = *shelf.larder.find(base::IngredientId::derivedFrom("juice"));
    juice.gotFrom = larder::GotFrom{lime.id};
    lime.gotFrom = larder::GotFrom{juice.id};
    shelf.larder.put(juice);
    const auto all = found(lime, shelf.larder);
    REQUIRE(all.size() == 1);
    CHECK(all[0].code == FindingCode::MadeOfItself);
    CHECK(all[0].refuses);
    CHECK(all[0].path == std::vector{lime.id, juice.id, lime.id});
}

TEST_CASE("Figures that cannot be are refused", "[findings]") {
    auto bad = gin();
    bad.facts.abvPercent = fact(101);
    REQUIRE_FALSE(found(bad, Shelf().larder).empty());
    CHECK(found(bad, Shelf().larder)[0].code == FindingCode::FigureAbovePossible);
    bad.facts.abvPercent = larder::Fact{40, 41, 42, larder::SourceKind::Label, "label", {}};
    REQUIRE_FALSE(found(bad, Shelf().larder).empty());
    CHECK(found(bad, Shelf().larder)[0].code == FindingCode::RangeUpsideDown);
}

TEST_CASE("A pack's size is read in units of size by law", "[findings][pack-size]") {
    using exchange::readPackSize;
    using exchange::SizeProblem;
    CHECK(readPackSize("0,7 l")->amount == quantity::Rational(700));
    CHECK(readPackSize("1 kg")->unit == larder::PackUnit::Gram);
    CHECK(readPackSize("24 pieces")->unit == larder::PackUnit::Piece);
    CHECK(readPackSize("700").error() == SizeProblem::NoUnit);
    CHECK(readPackSize("1 bottle").error() == SizeProblem::UnknownUnit);
    CHECK(readPackSize("some").error() == SizeProblem::NotANumber);
}

TEST_CASE("A figure written over keeps its range only where it lies in it", "[findings][fact-entry]") {
    const larder::Fact was{6, 4, 7, larder::SourceKind::Handbook, "a table", {}};
    const auto inside = larder::withValue(was, 5, "2026-11-25");
    CHECK(inside.low == 4);
    CHECK(inside.sourceKind == larder::SourceKind::Label);
    CHECK(inside.on == "2026-11-25");
    const auto outside = larder::withValue(was, 8, "2026-11-25");
    CHECK(outside.low == 8);
    CHECK(outside.high == 8);
}

TEST_CASE("The list gives cost per hundred and what is missing", "[findings][listing]") {
    Shelf shelf;
    shelf.putPriced("gin", {{40}, {0}, {0}}, 2100, 700).put("amaro", {{28}, {}, {0}});
    const auto rows = larder::listed(shelf.larder, {});
    REQUIRE(rows.size() == 2);
    CHECK(rows[0].name == "amaro");
    CHECK((rows[0].missing & larder::kNoSugar) != 0);
    CHECK(rows[0].noPrice == larder::CostProblem::NoPrice);
    REQUIRE(rows[1].price.has_value());
    CHECK(rows[1].price->major == Approx(3.0));
}
