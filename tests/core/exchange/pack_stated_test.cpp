#include "core/exchange/pack_stated.h"

#include "core/exchange/read_text.h"
#include "core/spec/evaluate.h"
#include "tests/support/catch.h"

using namespace stillroom;

namespace {

double poured(const std::string& text, const larder::Larder& larder) {
    exchange::ReadRecipe recipe;
    recipe.lines.push_back(exchange::readLine(text));
    const auto spec = exchange::toSpec(recipe, larder);
    return spec::evaluate(spec, larder, {})[spec::Stage::Measured][spec::Quantity::PouredVolume].value;
}

larder::Larder withGin(std::vector<double> sizes) {
    larder::Larder larder;
    larder::Ingredient gin;
    gin.id = base::IngredientId::random();
    gin.sort = larder::IngredientSort::Bottle;
    gin.name = "Tern gin";
    gin.facts.abvPercent = larder::Fact::single(47, larder::SourceKind::Label, "label");
    for (const double size : sizes) {
        larder::Pack pack;
        pack.id = base::PackId::random();
        pack.price = {2450, {}};
        pack.forMl = size;
        gin.packs.push_back(pack);
    }
    larder.put(gin);
    return larder;
}

} // namespace

TEST_CASE("a bottle of something holds what the house buys of it", "[exchange][pack]") {
    CHECK(poured("1 bottle Tern gin", withGin({700})) == Approx(700));
    CHECK(poured("2 bottles Tern gin", withGin({700})) == Approx(1400));
    CHECK(poured("1/2 bottle Tern gin", withGin({500})) == Approx(250));
    CHECK(poured("1 bottle Tern gin", withGin({1000, 700})) == Approx(700)); // the newest
    CHECK(poured("1 bottle Tern gin", withGin({})) == Approx(750));          // by the house's measures
    CHECK(poured("1 bottle (500 ml) Tern gin", withGin({700})) == Approx(500));
    CHECK(poured("50 ml Tern gin", withGin({700})) == Approx(50));
}

TEST_CASE("a thousand tonnes are kept as written and asked about", "[exchange][pack]") {
    for (const char* text :
         {"1000000000 ml water", "1000000 l water", "1000000000 g sugar", "2000000 kg sugar"}) {
        INFO(text);
        const auto read = exchange::readLine(text);
        CHECK(read.kind == exchange::ReadKind::Ingredient);
        CHECK(read.unsure);
        CHECK(read.raw == text);
        REQUIRE_FALSE(read.doubts.empty());
        CHECK(read.doubts.back().code == exchange::DoubtCode::TooLarge);
        CHECK(read.doubts.back().weight == exchange::DoubtWeight::Ask);
    }
    const auto large = exchange::readLine("900000 l water");
    CHECK_FALSE(large.unsure);
}
