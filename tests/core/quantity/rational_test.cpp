#include "core/quantity/rational.h"

#include "tests/support/catch.h"

#include <limits>
#include <random>

using namespace stillroom::quantity;

namespace {

constexpr std::int64_t kTop = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t kBottom = std::numeric_limits<std::int64_t>::min();

Rational r(std::int64_t n, std::int64_t d) {
    const auto made = Rational::make(n, d);
    REQUIRE(made);
    return *made;
}

} // namespace

TEST_CASE("A rational stands in lowest terms with a positive denominator", "[quantity][rational]") {
    CHECK(r(6, 8).numerator() == 3);
    CHECK(r(6, 8).denominator() == 4);
    CHECK(r(3, -4) == r(-3, 4));
    CHECK(r(-3, -4) == r(3, 4));
    CHECK(r(0, -7) == Rational(0));
    CHECK(r(0, 7).denominator() == 1);
    CHECK_FALSE(Rational::make(1, 0));
    CHECK_FALSE(Rational::make(kBottom, 1)); // has no opposite
    CHECK_FALSE(Rational::make(1, kBottom));
    CHECK(Rational::make(kBottom, kBottom) == Rational(1));
    CHECK(Rational::make(kBottom, 2) == r(kBottom / 2, 1));
}

TEST_CASE("Valid amount texts are read exactly", "[quantity][rational]") {
    struct Row {
        const char* text;
        std::int64_t num;
        std::int64_t den;
    };
    const Row rows[] = {
        {"0", 0, 1},
        {"2", 2, 1},
        {"-2", -2, 1},
        {"22.5", 45, 2},
        {"0.75", 3, 4},
        {".5", 1, 2},
        {"3/4", 3, 4},
        {"-3/4", -3, 4},
        {"6/8", 3, 4},
        {"0.1", 1, 10},
        {"29.5735295625", 473176473, 16000000},
        {"9223372036854775807", kTop, 1},
        {"-0.5", -1, 2},
        {"0.000000000000000001", 1, 1000000000000000000},
    };
    for (const Row& row : rows) {
        CAPTURE(row.text);
        const auto read = Rational::fromText(row.text);
        REQUIRE(read);
        CHECK(read->numerator() == row.num);
        CHECK(read->denominator() == row.den);
        CHECK(Rational::fromText(read->text()) == read);
    }
}

TEST_CASE("Invalid amount texts are refused", "[quantity][rational]") {
    const char* texts[] = {"",
                           " ",
                           "-",
                           ".",
                           "1.",
                           "1/",
                           "/2",
                           "1/0",
                           "1,5",
                           "1 1/2",
                           "+1",
                           "1e3",
                           "1.5.2",
                           "1.-5",
                           "1.+5",
                           "0x10",
                           " 1",
                           "1 ",
                           "half",
                           "1/2/3",
                           "1.5/2",
                           "--1",
                           "inf",
                           "nan",
                           "-.",
                           "-.-5",
                           "1.5 ml",
                           "½",
                           "1..5",
                           "1/ 2",
                           "-1.-5",
                           "٣",
                           "9223372036854775808",
                           "0.0000000000000000001",
                           "9223372036854775807.5"};
    for (const char* text : texts) {
        CAPTURE(text);
        CHECK_FALSE(Rational::fromText(text));
    }
}

TEST_CASE("Rational arithmetic keeps the laws of arithmetic", "[quantity][rational]") {
    std::mt19937_64 random(20231117); // fixed, so that a failure repeats
    std::uniform_int_distribution<std::int64_t> small(-2000, 2000);
    std::uniform_int_distribution<std::int64_t> den(1, 2000);
    for (int i = 0; i < 5000; ++i) {
        const Rational a = r(small(random), den(random));
        const Rational b = r(small(random), den(random));
        const Rational c = r(small(random), den(random));
        CHECK(a.plus(b) == b.plus(a));
        CHECK(a.times(b) == b.times(a));
        CHECK(a.plus(b)->plus(c) == a.plus(*b.plus(c)));
        CHECK(a.times(b)->times(c) == a.times(*b.times(c)));
        CHECK(a.times(*b.plus(c)) == a.times(b)->plus(*a.times(c)));
        CHECK(a.plus(b)->minus(b) == a);
        if (!b.isZero()) CHECK(a.times(b)->over(b) == a);
        CHECK((a < b) == (a.minus(b)->isNegative()));
        CHECK(Rational::fromText(a.text()) == a);
    }
}

TEST_CASE("An overflowing rational is nullopt and never a wrapped number", "[quantity][rational]") {
    const Rational top(kTop);
    CHECK_FALSE(top.plus(1));
    CHECK_FALSE(top.times(2));
    CHECK_FALSE(r(-kTop, 1).minus(1));
    CHECK_FALSE(r(1, kTop).over(2));
    CHECK_FALSE(r(1, kTop).plus(r(1, kTop - 1)));
    CHECK_FALSE(Rational(1).over(0));
    CHECK(top.minus(top) == Rational(0));
    CHECK(top.over(top) == Rational(1));
    CHECK(top.times(r(1, kTop)) == Rational(1)); // the intermediate is wider than the answer
    CHECK(r(kTop, 2).plus(r(kTop, 2)) == top);
    CHECK(r(kTop - 1, kTop) < Rational(1));

    // Every answer that is given agrees with long double arithmetic.
    std::mt19937_64 random(7);
    std::uniform_int_distribution<std::int64_t> any(-kTop, kTop);
    int given = 0;
    int refused = 0;
    for (int i = 0; i < 20000; ++i) {
        const int shift = i % 62;
        const Rational a = r(any(random) >> shift, (any(random) >> (61 - shift)) | 1);
        const Rational b = r(any(random) >> (i * 7 % 62), (any(random) >> (i * 11 % 62)) | 1);
        const auto product = a.times(b);
        (product ? given : refused) += 1;
        if (!product) continue;
        const long double expected = static_cast<long double>(a.numerator()) / a.denominator() *
                                     static_cast<long double>(b.numerator()) / b.denominator();
        CHECK(static_cast<long double>(product->numerator()) / product->denominator() ==
              Approx(static_cast<double>(expected)).epsilon(1e-12));
    }
    CHECK(given > 100);
    CHECK(refused > 100);
}
