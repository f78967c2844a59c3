#include "core/exchange/read_text.h"
#include "core/preparation/ratio.h"
#include "core/spec/evaluate.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <optional>

using namespace stillroom;
using exchange::DoubtCode;

namespace {

std::optional<exchange::Doubt> ratioDoubt(const std::string& text) {
    const auto read = exchange::readLine(text);
    const auto doubt = std::find_if(read.doubts.begin(), read.doubts.end(), [](const exchange::Doubt& d) {
        return d.code == DoubtCode::RatioBasisUnstated;
    });
    return doubt == read.doubts.end() ? std::nullopt : std::optional(*doubt);
}

} // namespace

TEST_CASE("a syrup by a ratio without its basis is doubted with what both would be", "[exchange][ratio]") {
    for (const auto* text :
         {"30 ml simple syrup (1:1)", "3/4 oz 2:1 demerara syrup", "20 ml Zuckersirup 2:1"}) {
        INFO(text);
        const auto doubt = ratioDoubt(text);
        REQUIRE(doubt);
        CHECK(doubt->weight == exchange::DoubtWeight::Warn);
        CHECK(preparation::outcomesOf(doubt->detail));
    }
    CHECK(ratioDoubt("3/4 oz 2:1 demerara syrup")->detail == "2:1");
}

TEST_CASE("a ratio that says its basis or is none of sugar shows no outcome", "[exchange][ratio]") {
    CHECK_FALSE(ratioDoubt("½ oz rich simple syrup (2:1 by weight)"));
    CHECK_FALSE(ratioDoubt("30 ml syrup, 1:1 by volume"));
    CHECK_FALSE(ratioDoubt("30 ml simple syrup"));
    CHECK_FALSE(ratioDoubt("60 ml gin 1:1"));
    const auto honey = ratioDoubt("15 ml honey syrup (3:1)");
    REQUIRE(honey);
    // Each basis has its outcome: 3 parts of honey of 82.1 % sugars (USDA SR26, NDB 19296) to one of water by
    // mass are 61.6 Brix; by the cup honey of 1.4329 g/ml is 81.2 % of the mass.
    const auto both = preparation::outcomesOf(honey->detail);
    REQUIRE(both);
    CHECK(both->byWeight.brix.percent() == Approx(61.6).margin(0.1));
    CHECK(both->byCup.brix.percent() == Approx(66.7).margin(0.1));
    const auto fruit = ratioDoubt("15 ml raspberry syrup (2:1)");
    REQUIRE(fruit);
    CHECK_FALSE(preparation::outcomesOf(fruit->detail)); // the juice has sugar of its own
}

namespace {

struct Poured {
    std::string name;
    double brix = 0, sugarGPer100Ml = 0, low = 0;
    exchange::ReadLine line;
};

Poured poured(const std::string& text, const larder::Larder& larder = {}) {
    Poured got;
    exchange::ReadRecipe recipe;
    recipe.lines.push_back(exchange::readLine(text));
    got.line = recipe.lines[0];
    const auto spec = exchange::toSpec(recipe, larder);
    const auto* known = spec.lines[0].ingredient ? larder.find(*spec.lines[0].ingredient) : nullptr;
    if (known == nullptr) return got;
    got.name = known->name;
    got.low = known->facts.sugarGPerL->low / 10;
    const auto readings = spec::evaluate(spec, spec::Bindings(spec, larder, {}))[spec::Stage::Served];
    got.brix = readings[spec::Quantity::Brix].value;
    got.sugarGPer100Ml = readings[spec::Quantity::Sugar].value;
    return got;
}

} // namespace

TEST_CASE("a syrup is of its own ratio and never of a neighbour's", "[exchange][ratio]") {
    // Sugar over all, by mass: 1.5/2.5, 2.5/3.5, 1/3, 1/2.5, 5/6.
    struct Case {
        const char* text;
        double brix;
    };
    for (const auto& [text, brix] :
         {Case{"30 ml 1.5:1 simple syrup", 60.0}, Case{"30 ml 2.5:1 simple syrup", 71.43},
          Case{"30 ml simple syrup (1.5:1)", 60.0}, Case{"30 ml 1,5:1 simple syrup", 60.0},
          Case{"30 ml 1½:1 simple syrup", 60.0}, Case{"30 ml 1:2 simple syrup", 33.33},
          Case{"30 ml 1:1.5 simple syrup", 40.0}, Case{"30 ml 5:1 simple syrup", 83.33},
          Case{"30 ml 2 to 1 simple syrup", 66.67}, Case{"30 ml simple syrup, 4:3 by weight", 57.14},
          Case{"30 ml 1:1 simple syrup by weight", 50.0}, Case{"30 ml simple syrup 1:1 by weight", 50.0},
          Case{"30 ml 2:1 syrup by weight", 66.67}, Case{"30 ml Zuckersirup 1,5:1", 60.0},
          // 0.75 of honey of 82.1 % over 1.75
          Case{"30 ml 0.75:1 honey syrup", 35.2}, Case{"30 ml cinnamon syrup 2:1 by weight", 66.67}}) {
        INFO(text);
        const auto got = poured(text);
        CHECK(got.brix == Approx(brix).margin(0.06));
        for (const auto& doubt : got.line.doubts)
            CHECK(doubt.code != DoubtCode::NumberUnclear);
    }
    CHECK(ratioDoubt("30 ml 1.5:1 simple syrup")->detail == "1.5:1");
    CHECK(ratioDoubt("30 ml 1,5:1 simple syrup")->detail == "1.5:1");
}

TEST_CASE("a syrup by volume is poured by volume wherever its basis stands", "[exchange][ratio]") {
    // USDA SR26, NDB 19335, cup weight, and ICUMSA SPS-4: 55.4 and 82.0 g/100 ml.
    for (const auto* text :
         {"30 ml simple syrup (1:1 by volume)", "30 ml simple syrup (equal parts by volume)",
          "30 ml 1:1 simple syrup by volume", "30 ml simple syrup, 1:1, by the cup"}) {
        INFO(text);
        CHECK(poured(text).sugarGPer100Ml == Approx(55.4).margin(0.05));
        CHECK_FALSE(ratioDoubt(text));
    }
    CHECK(poured("30 ml 2:1 simple syrup (by volume)").sugarGPer100Ml == Approx(82.0).margin(0.05));
    // By hand: 1.275 g of sugar and 0.998 g of water are 56.1 Brix, of 1.2646 g/ml.
    const auto volume = poured("30 ml 1.5:1 simple syrup by volume");
    CHECK(volume.brix == Approx(56.09).margin(0.02));
    // Unsaid, the other basis is where the figure may stray to.
    const auto unsaid = poured("30 ml 1.5:1.01 simple syrup");
    CHECK(unsaid.low < unsaid.sugarGPer100Ml - 5);
}

TEST_CASE("a house's own syrup of that name stays its own", "[exchange][ratio]") {
    larder::Larder larder;
    larder::Ingredient own;
    own.id = base::IngredientId::random();
    own.name = "1.5:1 simple syrup";
    own.facts.sugarGPerL = larder::Fact::single(700, larder::SourceKind::Measured, "weighed");
    own.facts.abvPercent = larder::Fact::single(0, larder::SourceKind::Measured, "none");
    larder.put(own);
    CHECK(larder.match("1.5:1 simple syrup").ingredient == own.id);
    CHECK(larder.match("1:1.5 simple syrup").ingredient != own.id);
}
