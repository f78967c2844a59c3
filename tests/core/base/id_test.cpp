#include "core/base/clock.h"
#include "core/base/hash.h"
#include "core/base/id.h"

#include "tests/support/catch.h"

#include <set>

using namespace stillroom::base;

TEST_CASE("An id survives its text and refuses anything else", "[base][id]") {
    const DrinkId id = DrinkId::random();
    CHECK(DrinkId::fromText(id.text()) == id);
    CHECK(id.text().size() == 32);
    CHECK_FALSE(DrinkId::fromText("").has_value());
    CHECK_FALSE(DrinkId::fromText("00").has_value());
    CHECK_FALSE(DrinkId::fromText(std::string(31, 'a') + "g").has_value());
    CHECK(DrinkId().isNull());
    CHECK_FALSE(id.isNull());
}

TEST_CASE("Random ids do not meet", "[base][id]") {
    std::set<RevisionId> seen;
    for (int i = 0; i < 10000; ++i)
        seen.insert(RevisionId::random());
    CHECK(seen.size() == 10000);
}

TEST_CASE("A derived id is the same in every book", "[base][id]") {
    CHECK(IngredientId::derivedFrom("gin") == IngredientId::derivedFrom("gin"));
    CHECK(IngredientId::derivedFrom("gin") != IngredientId::derivedFrom("rum"));
}

// FIPS 180-4 examples, as published by NIST: "abc" and the empty message.
TEST_CASE("SHA-256 gives the published digests", "[base][hash]") {
    CHECK(sha256Hex("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    CHECK(sha256Hex("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST_CASE("An instant is written with its offset and read back", "[base][clock]") {
    const Instant instant{1795638047000, 60}; // 2026-11-25 20:20:47 UTC
    CHECK(isoText(instant) == "2026-11-25T21:20:47+01:00");
    CHECK(instantFromIso("2026-11-25T21:20:47+01:00") == instant);
    CHECK(isoText({0, -330}) == "1969-12-31T18:30:00-05:30");
    CHECK(instantFromIso("1969-12-31T18:30:00-05:30") == Instant{0, -330});
    CHECK(instantFromIso("yesterday") == Instant{});
}
