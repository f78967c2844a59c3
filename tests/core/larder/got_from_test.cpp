#include "core/larder/got_from.h"

#include "tests/support/catch.h"

using namespace stillroom;
using larder::GotFrom;
using larder::Ingredient;
using larder::Larder;
using larder::PackUnit;
using quantity::Rational;

namespace {

Ingredient thing(const char* name) {
    Ingredient made;
    made.id = base::IngredientId::random();
    made.name = name;
    return made;
}

Ingredient from(const Ingredient& of, const char* name, Rational share) {
    Ingredient made = thing(name);
    GotFrom got;
    got.of = of.id;
    got.priceShare = share;
    made.gotFrom = got;
    return made;
}

} // namespace

TEST_CASE("the next thing got from a purchase takes what the others left of its price", "[got-from]") {
    const Ingredient lime = thing("lime");
    const Ingredient peel = from(lime, "peel", *Rational::make(1, 4));
    Larder larder = Larder::withoutHandbook();
    larder.put(lime);
    CHECK(larder::shareLeft(larder, lime.id, {}) == Rational(1));
    larder.put(peel);
    CHECK(larder::shareLeft(larder, lime.id, {}) == Rational::make(3, 4));
    CHECK(larder::shareLeft(larder, lime.id, peel.id) == Rational(1));
    larder.put(from(lime, "juice", 1)); // more than there is: nothing is left, never less
    CHECK(larder::shareLeft(larder, lime.id, {}) == Rational(0));
}

TEST_CASE("a purchase is counted in the unit it was bought in last", "[got-from]") {
    Ingredient lime = thing("lime");
    CHECK_FALSE(larder::soldIn(lime));
    larder::Pack kilo;
    kilo.forG = 1000;
    larder::Pack box;
    box.forPieces = 48;
    lime.packs = {kilo, box};
    CHECK(larder::soldIn(lime) == PackUnit::Piece);
    lime.packs = {box, kilo, larder::Pack{}}; // one without a size says nothing
    CHECK(larder::soldIn(lime) == PackUnit::Gram);
}

TEST_CASE("what is lost and what is used are one figure", "[got-from]") {
    CHECK(larder::shareUsed(15) == Rational::make(17, 20));
    CHECK(larder::percentLost(*Rational::make(17, 20)) == Rational(15));
    CHECK(larder::percentLost(1) == Rational(0));
    CHECK(larder::shareUsed(*Rational::make(100, 3)) == Rational::make(2, 3));
    CHECK(larder::percentLost(*Rational::make(2, 3)) == Rational::make(100, 3));
    CHECK(larder::percentOfShare(*Rational::make(1, 4)) == Rational(25));
    CHECK_FALSE(larder::percentOfShare(Rational(9'000'000'000'000'000'000)));
}
