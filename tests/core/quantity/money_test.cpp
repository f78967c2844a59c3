#include "core/quantity/money.h"

#include "tests/support/catch.h"

#include <limits>
#include <random>

using namespace stillroom::quantity;

namespace {

Currency currency(const char* code) {
    const auto found = Currency::fromCode(code);
    REQUIRE(found);
    return *found;
}

Money money(const char* text, const char* code = "EUR") {
    const auto read = Money::fromText(text, currency(code));
    REQUIRE(read);
    return *read;
}

} // namespace

// ISO 4217, from memory.
TEST_CASE("Currencies have the decimals of ISO 4217", "[quantity][money]") {
    CHECK(currency("EUR").exponent == 2);
    CHECK(currency("USD").exponent == 2);
    CHECK(currency("GBP").exponent == 2);
    CHECK(currency("JPY").exponent == 0);
    CHECK(currency("KRW").exponent == 0);
    CHECK(currency("ISK").exponent == 0);
    CHECK(currency("KWD").exponent == 3);
    CHECK(currency("TND").exponent == 3);
    CHECK(currency("CLF").exponent == 4);
    CHECK(currency("ZWG").exponent == 2);
    CHECK(currency("CHF").text() == "CHF");
}

TEST_CASE("Currency codes that are not in use are refused", "[quantity][money]") {
    const char* codes[] = {"",    "EU",  "EURO", "eur", "XXX", "XAU", "XTS",
                           "HRK", "BGN", "DEM",  "R U", " EU", "UR "};
    for (const char* code : codes) {
        CAPTURE(code);
        CHECK_FALSE(Currency::fromCode(code));
    }
}

TEST_CASE("Valid prices are read to the minor unit and written back", "[quantity][money]") {
    struct Row {
        const char* text;
        const char* code;
        std::int64_t minor;
        const char* written;
    };
    const Row rows[] = {
        {"12.50", "EUR", 1250, "12.50"},
        {"12.5", "EUR", 1250, "12.50"},
        {"12", "EUR", 1200, "12.00"},
        {"0.05", "EUR", 5, "0.05"},
        {"0", "EUR", 0, "0.00"},
        {"007.10", "EUR", 710, "7.10"},
        {"-3.20", "EUR", -320, "-3.20"},
        {"-0.05", "EUR", -5, "-0.05"},
        {"1500", "JPY", 1500, "1500"},
        {"1.234", "KWD", 1234, "1.234"},
        {"92233720368547758.07", "EUR", std::numeric_limits<std::int64_t>::max(), "92233720368547758.07"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.text);
        const Money read = money(row.text, row.code);
        CHECK(read.minor == row.minor);
        CHECK(read.text() == row.written);
        CHECK(Money::fromText(read.text(), read.currency) == read);
    }
    const Money lowest{std::numeric_limits<std::int64_t>::min(), currency("EUR")};
    CHECK(lowest.text() == "-92233720368547758.08");
}

TEST_CASE("Invalid prices are refused", "[quantity][money]") {
    const char* texts[] = {"",
                           "-",
                           ".",
                           "12.",
                           ".50",
                           "12,50",
                           "12.505",
                           "1e3",
                           "€12",
                           "+1",
                           " 12",
                           "12 ",
                           "1 200",
                           "1,200",
                           "12.5.0",
                           "--1",
                           "12.-5",
                           "NaN",
                           "12.50 EUR",
                           "92233720368547758.08",
                           "99999999999999999999999"};
    for (const char* text : texts) {
        CAPTURE(text);
        CHECK_FALSE(Money::fromText(text, currency("EUR")));
    }
    CHECK_FALSE(Money::fromText("1500.5", currency("JPY")));
    CHECK_FALSE(Money::fromText("1500.", currency("JPY")));
    CHECK_FALSE(Money::fromText("1.2345", currency("KWD")));
}

TEST_CASE("A cost is the exact share of a price rounded half to even", "[quantity][money]") {
    CHECK(costOf(money("30.00"), 60, 750)->millionths == 2'400'000);
    CHECK(costOf(money("12.50"), 45, 700)->millionths == 803'571); // 0.803571428…
    CHECK(costOf(money("10.00"), 1, 3)->millionths == 3'333'333);  // below the half
    CHECK(costOf(money("20.00"), 1, 3)->millionths == 6'666'667);  // above it
    CHECK(costOf(money("0.01"), 1, 20'000)->millionths == 0);      // 0.5 -> 0
    CHECK(costOf(money("0.01"), 3, 20'000)->millionths == 2);      // 1.5 -> 2
    CHECK(costOf(money("0.01"), 5, 20'000)->millionths == 2);      // 2.5 -> 2
    CHECK(costOf(money("0.01"), -3, 20'000)->millionths == -2);    // the same away from zero
    CHECK(costOf(money("-0.01"), 3, 20'000)->millionths == -2);
    CHECK(costOf(money("0.01"), 3, -20'000)->millionths == -2);
    CHECK(costOf(money("1500", "JPY"), 45, 700)->millionths == 96'428'571);
    CHECK(costOf(money("1.000", "KWD"), 1, 8)->millionths == 125'000);
    CHECK_FALSE(costOf(money("1.00"), 1, 0));
}

TEST_CASE("A cost that does not fit is nullopt and a wide intermediate is not", "[quantity][money]") {
    constexpr std::int64_t top = std::numeric_limits<std::int64_t>::max();
    const Money dear{top, currency("EUR")};
    CHECK_FALSE(costOf(dear, 1, 1));
    CHECK_FALSE(costOf(dear, top, 1));
    CHECK(costOf(dear, top, top) == costOf(dear, 1, 1)); // both refused
    CHECK(costOf(dear, 1, 10'000)->millionths == top);   // x 10^4 / 10^4
    CHECK(costOf(Money{100, currency("EUR")}, top, top)->millionths == 1'000'000);
    CHECK(costOf(Money{top, currency("JPY")}, 1, top)->millionths == 1'000'000);
}

TEST_CASE("A cost is rounded to money once and half to even", "[quantity][money]") {
    const auto cents = [](std::int64_t millionths) {
        return roundedToMoney(Cost{millionths}, currency("EUR")).minor;
    };
    CHECK(cents(1'005'000) == 100);
    CHECK(cents(1'005'001) == 101);
    CHECK(cents(1'015'000) == 102);
    CHECK(cents(1'014'999) == 101);
    CHECK(cents(-1'015'000) == -102);
    CHECK(cents(-1'005'000) == -100);
    CHECK(roundedToMoney(Cost{500'000}, currency("JPY")).minor == 0);
    CHECK(roundedToMoney(Cost{1'500'000}, currency("JPY")).minor == 2);
    CHECK(roundedToMoney(Cost{1'234'500}, currency("KWD")).text() == "1.234");
    CHECK(roundedToMoney(Cost{std::numeric_limits<std::int64_t>::min()}, currency("EUR")).minor ==
          -922'337'203'685'478);
}

TEST_CASE("Costs of shares add up to the cost of the whole within their rounding", "[quantity][money]") {
    std::mt19937_64 random(41);
    std::uniform_int_distribution<std::int64_t> minor(1, 100'000);
    std::uniform_int_distribution<std::int64_t> size(1, 2'000);
    for (int i = 0; i < 2000; ++i) {
        const Money price{minor(random), currency("EUR")};
        const std::int64_t whole = size(random);
        const std::int64_t part = size(random) % (whole + 1);
        const auto a = costOf(price, part, whole);
        const auto b = costOf(price, whole - part, whole);
        REQUIRE(a);
        REQUIRE(b);
        CHECK(std::abs(a->millionths + b->millionths - price.minor * 10'000) <= 1);
    }
}
