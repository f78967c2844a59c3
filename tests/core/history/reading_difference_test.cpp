#include "core/history/reading_difference.h"
#include "tests/support/catch.h"

using namespace stillroom;
using history::Known;
using spec::Bound;
using Q = spec::Quantity;

namespace {

spec::Reading reading(Bound bound, double value, double upper = 0, bool estimate = false) {
    spec::Reading reading;
    reading.bound = bound;
    reading.value = value;
    reading.upper = upper;
    reading.estimate = estimate;
    return reading;
}

void check(const spec::Reading& before, const spec::Reading& after, Known known, double value,
           double upper = 0) {
    const auto found = history::readingDifference(before, after, Q::Sugar);
    CHECK(found.known == known);
    CHECK(found.value == Approx(value));
    CHECK(found.upper == Approx(upper));
}

} // namespace

// Worked by hand: second − first over everything each of the two may be.
TEST_CASE("The difference of two readings says no more than they do", "[history][difference]") {
    const auto exact = reading(Bound::Exact, 7.1);
    const auto atLeast = reading(Bound::AtLeast, 8.0);
    const auto atMost = reading(Bound::AtMost, 6.0);
    const auto between = reading(Bound::Between, 5.0, 9.0);
    check(exact, reading(Bound::Exact, 8.3), Known::Exactly, 1.2);
    check(exact, atLeast, Known::AtLeast, 0.9);
    check(atLeast, exact, Known::AtMost, -0.9);
    check(exact, atMost, Known::AtMost, -1.1);
    check(atMost, exact, Known::AtLeast, 1.1);
    check(atMost, atLeast, Known::AtLeast, 2.0);
    check(atLeast, atMost, Known::AtMost, -2.0);
    check(exact, between, Known::Between, -2.1, 1.9);
    check(between, exact, Known::Between, -1.9, 2.1);
    check(between, reading(Bound::Between, 6.0, 7.0), Known::Between, -3.0, 2.0);
    check(between, atLeast, Known::AtLeast, -1.0);
    // Nothing follows from two floors but that the floor rose.
    check(reading(Bound::AtLeast, 7.1), atLeast, Known::FloorMoved, 0.9);
    check(reading(Bound::AtMost, 7.1), atMost, Known::CeilingMoved, -1.1);
    check(exact, reading(Bound::Unknown, 0), Known::Nothing, 0);
    check(reading(Bound::Unknown, 0), atLeast, Known::Nothing, 0);
    check(exact, reading(Bound::NotApplicable, 0), Known::NoSuch, 0);
}

TEST_CASE("A difference is of what is shown and keeps an estimate one", "[history][difference]") {
    // 17.8 and 17.4 stand on screen.
    const auto found = history::readingDifference(reading(Bound::Exact, 17.44),
                                                  reading(Bound::Exact, 17.76, 0, true), Q::Strength);
    CHECK(found.known == Known::Exactly);
    CHECK(found.value == Approx(0.4));
    CHECK(found.estimate);
}
