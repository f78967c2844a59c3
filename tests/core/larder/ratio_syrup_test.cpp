#include "core/larder/ratio_syrup.h"

#include "core/larder/handbook.h"
#include "core/larder/larder.h"
#include "tests/support/catch.h"

#include <set>

using namespace stillroom;
using larder::SyrupBasis;

TEST_CASE("a ratio is read with its basis and its decimals", "[larder][ratio]") {
    const auto read = larder::ratioWords("simple syrup (1.5 : 1 by weight)");
    REQUIRE(read);
    CHECK(read->ratio() == "1.5:1");
    CHECK(read->basis == SyrupBasis::Mass);
    CHECK(read->rest == "simple syrup");
    CHECK(larder::ratioWords("honey syrup, equal parts")->ratio() == "1:1");
    CHECK(larder::ratioWords("1:1,5 syrup")->ratio() == "1:1.5");
    CHECK(larder::ratioWords("2 to 1 syrup by the cup")->basis == SyrupBasis::Volume);
    for (const auto* text :
         {"simple syrup", "0:1 syrup", "1:0 syrup", "1:1:1 syrup", "5000:1 syrup", "a:b syrup",
          "1.5.1:1 syrup", "1:1 or 2:1 syrup", ":1 syrup", "syrup 1:", "1:1 by weight by volume", ""}) {
        INFO(text);
        CHECK_FALSE(larder::ratioWords(text));
    }
}

TEST_CASE("a syrup by its ratio is the same kind in every book and finds itself again", "[larder][ratio]") {
    const larder::Larder here;
    const larder::Larder there;
    for (const auto* text :
         {"1.5:1 simple syrup by mass", "7:3 honey syrup by volume", "3:1 demerara syrup",
          "1.25:1 agave syrup by volume", "maple syrup 2:1", "lavender syrup 2:1 by mass"}) {
        INFO(text);
        const auto id = here.match(text).ingredient;
        REQUIRE_FALSE(id.isNull());
        const auto* kind = there.find(id);
        REQUIRE(kind != nullptr);
        CHECK(there.find(id) == kind);
        CHECK(there.match(kind->name).ingredient == id);
        CHECK(larder::FactState::fromCanonicalJson(kind->facts.canonicalJson()) == kind->facts);
    }
    CHECK(larder::ratioSyrup(base::IngredientId{}) == nullptr);
    CHECK(larder::ratioSyrup(larder::Handbook::idOf("honey")) == nullptr);
    // four bytes of an id tell the handbook's kinds apart
    std::set<std::string> heads;
    for (const auto& kind : larder::Handbook::builtIn().kinds())
        CHECK(heads.insert(kind.id.text().substr(0, 8)).second);
}

TEST_CASE("what a ratio computes agrees with the syrups on record", "[larder][ratio]") {
    const larder::Larder larder;
    const auto facts = [&](const char* name) { return larder.find(larder.match(name).ingredient)->facts; };
    // beside 1:1, 2:1 and 3:1 by mass of honey, as the handbook has them: 488, 689, 801 g/l
    const double one = facts("1.001:1 honey syrup by mass").sugarGPerL->typical;
    const double two = facts("2.001:1 honey syrup by mass").sugarGPerL->typical;
    const double three = facts("3.001:1 honey syrup by mass").sugarGPerL->typical;
    CHECK(one == Approx(488).margin(3));
    CHECK(two == Approx(689).margin(2));
    CHECK(three == Approx(801).margin(3));
    // ICUMSA SPS-4: 50 Brix 1229.7 kg/m3, 66.7 Brix 1327
    CHECK(facts("1.001:1 simple syrup by mass").densityKgPerM3->typical == Approx(1229.7).margin(0.3));
    CHECK(facts("2.001:1 simple syrup by mass").sugarGPerL->typical == Approx(885).margin(0.5));
    CHECK(facts("2.001:1 simple syrup by volume").sugarGPerL->typical == Approx(820).margin(4));
}
