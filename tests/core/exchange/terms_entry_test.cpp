#include "core/exchange/terms_entry.h"

#include "tests/support/catch.h"

using namespace stillroom;
using exchange::readDays;
using exchange::readPercent;
using quantity::Rational;

TEST_CASE("a share lost is read in per cent as people type it", "[terms]") {
    CHECK(readPercent("15") == Rational(15));
    CHECK(readPercent(" 15 % ") == Rational(15));
    CHECK(readPercent("15%") == Rational(15));
    CHECK(readPercent("12,5") == Rational::make(25, 2));
    CHECK(readPercent("12.5 per cent") == Rational::make(25, 2));
    CHECK(readPercent("1/3") == Rational::make(1, 3));
    CHECK(readPercent("-4") == Rational(-4));
    CHECK(readPercent("\u22124") == Rational(-4));
    CHECK(readPercent("15") == Rational(15));
    for (const char* text :
         {"", "%", "a lot", "15 ml", "1 5", "1e3", "1..5", "99999999999999999999", "\x80"}) {
        INFO(text);
        CHECK_FALSE(readPercent(text));
    }
}

TEST_CASE("keeping days are whole days of at least one and at most a century", "[terms]") {
    CHECK(readDays("5") == 5);
    CHECK(readDays("5 days") == 5);
    CHECK(readDays("1 day") == 1);
    CHECK(readDays("2 weeks") == 14);
    CHECK(readDays("36500") == 36500);
    for (const char* text : {"", "0", "-3", "2.5", "36501", "9999 weeks", "soon", "5 g", "days"}) {
        INFO(text);
        CHECK_FALSE(readDays(text));
    }
}
