#include "tests/support/catch.h"

#include "core/exchange/read_text.h"

using namespace stillroom;
using exchange::readAmount;
using quantity::Amount;
using quantity::Measure;
using quantity::Rational;

namespace {

Rational fraction(std::int64_t over, std::int64_t under) {
    return *Rational::make(over, under);
}

} // namespace

TEST_CASE("The amount cell takes fractions and decimals as people type them", "[read]") {
    for (const char* text : {"3/4", "¾", "0,75", "0.75", ".75", " 3/4 ", "three quarters"}) {
        CAPTURE(text);
        const auto read = readAmount(text);
        REQUIRE(read);
        CHECK(read->amount == Amount::exact(fraction(3, 4)));
        CHECK_FALSE(read->measure);
    }
    for (const char* text : {"1 1/2", "1½", "1-1/2", "one and a half"}) {
        CAPTURE(text);
        REQUIRE(readAmount(text));
        CHECK(readAmount(text)->amount == Amount::exact(fraction(3, 2)));
    }
}

TEST_CASE("The amount cell takes a measure ranges and multiples", "[read]") {
    CHECK(readAmount("22.5 ml") == spec::Measured{Amount::exact(fraction(45, 2)), Measure::Ml, 1});
    CHECK(readAmount("60ml") == spec::Measured{Amount::exact(60), Measure::Ml, 1});
    CHECK(readAmount("2-3 dashes") == spec::Measured{Amount::range(2, 3), Measure::Dash, 1});
    CHECK(readAmount("2 x 25 ml") == spec::Measured{Amount::exact(25), Measure::Ml, 2});
    CHECK(readAmount("1,000 ml") == spec::Measured{Amount::exact(1000), Measure::Ml, 1});
}

TEST_CASE("What is no amount is refused by the amount cell", "[read]") {
    for (const char* text :
         {"", "abc", "2 gin", "-2", "1/0", "50%", "1e5", "∞", "NaN", "1,500", "3--4", "dash", "1/2/3"}) {
        CAPTURE(text);
        CHECK_FALSE(readAmount(text));
    }
}
