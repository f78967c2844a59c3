#include "core/larder/leaning.h"

#include "tests/support/catch.h"

using namespace stillroom;
using larder::Ingredient;
using larder::Larder;

TEST_CASE("what leans on an ingredient is told apart", "[leaning]") {
    const auto thing = [](const char* name) {
        Ingredient made;
        made.id = base::IngredientId::random();
        made.name = name;
        return made;
    };
    Ingredient kind = thing("gin");
    Ingredient bottle = thing("gin, 47 %");
    bottle.kind = kind.id;
    kind.houseBottle = bottle.id;
    Ingredient tea = thing("gin tea");
    larder::GotFrom from;
    from.of = bottle.id;
    tea.gotFrom = from;
    Larder larder = Larder::withoutHandbook();
    for (const auto& each : {kind, bottle, tea})
        larder.put(each);
    const auto onBottle = larder::leaningOn(larder, bottle.id);
    CHECK(onBottle.pouredFor == std::vector{kind.id});
    CHECK(onBottle.gotFrom == std::vector{tea.id});
    CHECK(onBottle.bottles.empty());
    CHECK(larder::leaningOn(larder, kind.id).bottles == std::vector{bottle.id});
    CHECK(larder::leaningOn(larder, tea.id).isNone());
}
