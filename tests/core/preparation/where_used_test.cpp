#include "core/preparation/where_used.h"

#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using preparation::DirectUse;
using preparation::Followers;
using preparation::usesOf;

namespace {

base::IngredientId idOf(const std::string& name) {
    return base::IngredientId::derivedFrom(name);
}
base::DrinkId drinkOf(const std::string& name) {
    return base::DrinkId::derivedFrom(name);
}
std::vector<base::IngredientId> ids(const std::vector<std::string>& names) {
    std::vector<base::IngredientId> all;
    for (const auto& name : names)
        all.push_back(idOf(name));
    return all;
}

} // namespace

TEST_CASE("An ingredient is used where anything made of it is used", "[preparation][uses]") {
    Shelf shelf;
    for (const char* name : {"lime", "gin", "cordial", "foam"})
        shelf.put(name, {});
    auto juice = shelf.ingredient("lime juice");
    juice.gotFrom = larder::GotFrom{idOf("lime"), larder::PackUnit::Piece, larder::PackUnit::Ml, 30, 1};
    shelf.larder.put(juice);
    auto own = shelf.ingredient("house gin");
    own.kind = idOf("gin");
    shelf.larder.put(own);
    auto kind = *shelf.larder.find(idOf("gin"));
    kind.houseBottle = own.id;
    shelf.larder.put(kind);
    const preparation::Specs specs{{idOf("cordial"), drink({line("lime juice", 500), line("sugar", 300)})},
                                   {idOf("foam"), drink({line("cordial", 100)})}};
    const Followers followers(shelf.larder, specs);
    const std::vector<DirectUse> uses{
        {idOf("lime juice"), drinkOf("cordial")}, {idOf("cordial"), drinkOf("foam")},
        {idOf("foam"), drinkOf("First Light")},   {idOf("lime juice"), drinkOf("First Light")},
        {idOf("gin"), drinkOf("Second Light")},   {idOf("cordial"), drinkOf("Second Light")}};
    const auto limes = usesOf(idOf("lime"), uses, followers);
    REQUIRE(limes.size() == 4);
    CHECK(limes[0] == preparation::Use{drinkOf("cordial"), ids({"lime", "lime juice"})});
    CHECK(limes[1] == preparation::Use{drinkOf("First Light"), ids({"lime", "lime juice"})});
    CHECK(limes[2] == preparation::Use{drinkOf("foam"), ids({"lime", "lime juice", "cordial"})});
    CHECK(limes[3] == preparation::Use{drinkOf("Second Light"), ids({"lime", "lime juice", "cordial"})});
    const auto bottle = usesOf(idOf("house gin"), uses, followers);
    REQUIRE(bottle.size() == 1);
    CHECK(bottle[0] == preparation::Use{drinkOf("Second Light"), ids({"house gin", "gin"})});
    CHECK(usesOf(idOf("nothing"), uses, followers).empty());
}

TEST_CASE("Where used ends in a circle", "[preparation][uses]") {
    Shelf shelf;
    shelf.put("a", {}).put("b", {});
    const preparation::Specs specs{{idOf("a"), drink({line("b", 1)})}, {idOf("b"), drink({line("a", 1)})}};
    const Followers followers(shelf.larder, specs);
    CHECK(followers.of({idOf("a")}) == std::set{idOf("a"), idOf("b")});
    CHECK(usesOf(idOf("a"), {{idOf("b"), drinkOf("d")}}, followers).size() == 1);
}
