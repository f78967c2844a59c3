#include "core/preparation/nesting.h"

#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace stillroom;
using namespace stillroom::test;
using base::IngredientId;

namespace {

IngredientId idOf(const std::string& name) {
    return IngredientId::derivedFrom(name);
}

std::ptrdiff_t placeOf(const std::vector<IngredientId>& order, const std::string& name) {
    return std::find(order.begin(), order.end(), idOf(name)) - order.begin();
}

} // namespace

TEST_CASE("a preparation is made after all that it is made of", "[preparation][nesting]") {
    preparation::Specs all;
    all[idOf("cream")] = drink({line("puree syrup", 100), line("dairy", 200)});
    all[idOf("puree syrup")] = drink({line("spice tea", 50), line("puree", 100), line("spice tea", 5)});
    all[idOf("spice tea")] = drink({line("water", 100)});
    const auto order = preparation::makingOrder(all, larder::Larder::withoutHandbook());
    REQUIRE(order);
    REQUIRE(order->size() == 3);
    CHECK(placeOf(*order, "spice tea") < placeOf(*order, "puree syrup"));
    CHECK(placeOf(*order, "puree syrup") < placeOf(*order, "cream"));
}

TEST_CASE("a circle of preparations is refused with its path", "[preparation][nesting]") {
    preparation::Specs all;
    all[idOf("a")] = drink({line("b", 1)});
    all[idOf("b")] = drink({line("c", 1)});
    all[idOf("c")] = drink({line("water", 1), line("a", 1)});
    const auto order = preparation::makingOrder(all, larder::Larder::withoutHandbook());
    REQUIRE_FALSE(order);
    const auto& path = order.error().path;
    REQUIRE(path.size() == 4);
    CHECK(path.front() == path.back());
    for (std::size_t i = 0; i + 1 < path.size(); ++i)
        CHECK(all.at(path[i]).lines.back().ingredient == path[i + 1]);
    preparation::Specs alone;
    alone[idOf("a")] = drink({line("a", 1)});
    const auto itself = preparation::makingOrder(alone, larder::Larder::withoutHandbook());
    REQUIRE_FALSE(itself);
    CHECK(itself.error().path == std::vector<IngredientId>{idOf("a"), idOf("a")});
}

TEST_CASE("a circle through the bottle that the house pours is found", "[preparation][nesting]") {
    Shelf shelf;
    auto kind = shelf.ingredient("house cordial");
    kind.houseBottle = idOf("cordial");
    shelf.larder.put(kind);
    shelf.larder.put(shelf.ingredient("cordial"));
    preparation::Specs all;
    all[idOf("cordial")] = drink({line("house cordial", 1)});
    CHECK_FALSE(preparation::makingOrder(all, shelf.larder));
}

TEST_CASE("a chain deeper than any stack is ordered", "[preparation][nesting]") {
    preparation::Specs all;
    constexpr int kDeep = 20000;
    for (int i = 0; i < kDeep; ++i)
        all[idOf("n" + std::to_string(i))] = drink({line("n" + std::to_string(i + 1), 1)});
    const auto order = preparation::makingOrder(all, larder::Larder::withoutHandbook());
    REQUIRE(order);
    CHECK(order->front() == idOf("n" + std::to_string(kDeep - 1)));
}
