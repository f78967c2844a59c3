#include "core/exchange/plain_number.h"

#include "core/exchange/pack_size.h"
#include "core/exchange/read_text.h"
#include "core/exchange/stock_entry.h"
#include "core/exchange/terms_entry.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace stillroom;
using exchange::NumberProblem;
using exchange::plainlyWritten;
using exchange::plainNumber;
using quantity::Rational;

TEST_CASE("a number is read with a point or a comma before its decimals", "[number]") {
    CHECK(plainNumber("26.90") == "26.90");
    CHECK(plainNumber("26,90") == "26.90");
    CHECK(plainNumber(" 0,750 ") == "0.750"); // no thousands begin with nothing
    CHECK(plainNumber("1.500") == "1.500");
    CHECK(plainNumber("17/20") == "17/20");
    CHECK(plainNumber("\u22124,5") == "-4.5");
    CHECK(exchange::plainRational("12,5") == *Rational::make(25, 2));
    for (const char* text : {"", "abc", "1e3", "12 5", "1..5", "--4", "/", "1/0", "12 ml"}) {
        INFO(text);
        REQUIRE_FALSE(plainNumber(text));
        CHECK(plainNumber(text).error() == NumberProblem::NotANumber);
        CHECK(plainlyWritten(text).empty());
    }
}

TEST_CASE("a number with a comma and a point is refused with what to write", "[number]") {
    for (const char* text : {"1,000.5", "1.000,5", "12,345,678.9", "1,2.3"}) {
        INFO(text);
        REQUIRE_FALSE(plainNumber(text));
        CHECK(plainNumber(text).error() == NumberProblem::CommaAndPoint);
    }
    CHECK(plainlyWritten("1,000.5") == "1000.5");
    CHECK(plainlyWritten("1.000,5") == "1000.5");
    CHECK(plainNumber("1,000").error() == NumberProblem::CommaAmbiguous);
    CHECK(plainlyWritten("1,000") == "1000 or 1.000");
}

// Need 9: where both marks occur the amount is asked about, wherever it is typed.
TEST_CASE("every reader of amounts asks about a comma and a point in one number", "[number][read]") {
    for (const char* text : {"1,000.5 ml", "1.000,5 ml", "1,234.5 g", "1,000.5", "2 x 1,000.5 ml",
                             "1,000.5-2,000.5 ml", "1-2,000.5 ml"}) {
        INFO(text);
        CHECK_FALSE(exchange::readAmount(text));
        CHECK_FALSE(exchange::readStockAmount(text, {}));
        CHECK_FALSE(exchange::readPackSize(text));
        exchange::ReadOptions options;
        const auto line = exchange::readLine(std::string(text) + " water", options);
        const bool asks = std::any_of(line.doubts.begin(), line.doubts.end(), [](const exchange::Doubt& d) {
            return d.weight == exchange::DoubtWeight::Ask;
        });
        CHECK(asks);
    }
    CHECK_FALSE(exchange::readPercent("1,000.5 %"));
    CHECK_FALSE(exchange::readDays("1,000"));
    CHECK_FALSE(exchange::readPackSize("1,000 ml")); // a litre or a millilitre
    CHECK(exchange::readPackSize("0,750 l")->amount == Rational(750));
}
