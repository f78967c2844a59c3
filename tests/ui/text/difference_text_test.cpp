#include "ui/text/difference_text.h"

#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::ui;
using namespace Qt::Literals::StringLiterals;
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

DifferenceText text(const spec::Reading& before, const spec::Reading& after) {
    return differenceText(before, after, Q::Sugar, QLocale::c());
}

} // namespace

TEST_CASE("A difference says in words what two bounds leave known", "[ui][text]") {
    const auto floor = reading(Bound::AtLeast, 7.1);
    CHECK(text(reading(Bound::Exact, 7.1), reading(Bound::Exact, 7.4)).text == u"+0.3"_s);
    CHECK(text(reading(Bound::Exact, 7.1), reading(Bound::Exact, 7.4)).direction == 1);
    CHECK(text(reading(Bound::Exact, 7.1), reading(Bound::Exact, 7.4, 0, true)).text == u"≈ +0.3"_s);
    CHECK(text(reading(Bound::Exact, 6.3), floor).text == u"≥ +0.8"_s);
    CHECK(text(floor, reading(Bound::Exact, 6.3)).text == u"≤ \u22120.8"_s);
    CHECK(text(floor, reading(Bound::Exact, 6.3)).direction == -1);
    // Below a floor lies nothing, above it anything.
    CHECK(text(reading(Bound::Exact, 7.5), floor).text == u"≥ \u22120.4"_s);
    CHECK(text(reading(Bound::Exact, 7.5), floor).direction == 0);
    CHECK(text(reading(Bound::Between, 5, 9), reading(Bound::Exact, 7.1)).text == u"\u22121.9 to +2.1"_s);
    // Two floors say nothing of the drinks: neither rise nor fall.
    const auto raised = text(floor, reading(Bound::AtLeast, 8.0));
    CHECK(raised.text == u"floor +0.9"_s);
    CHECK(raised.direction == 0);
    CHECK(raised.bound);
    CHECK(raised.moved);
    CHECK(text(floor, floor).text == u"same floor"_s);
    CHECK_FALSE(text(floor, floor).moved);
    CHECK(text(reading(Bound::AtMost, 9), reading(Bound::AtMost, 8)).text == u"ceiling \u22121.0"_s);
    CHECK(text(reading(Bound::Unknown, 0), floor).text == u"not known"_s);
    CHECK(text(reading(Bound::NotApplicable, 0), floor).text.isEmpty());
}

TEST_CASE("A difference of dilution is in per cent as its reading is", "[ui][text]") {
    CHECK(
        differenceText(reading(Bound::Exact, 0.530), reading(Bound::Exact, 0.536), Q::Dilution, QLocale::c())
            .text == u"+0.6"_s);
}
