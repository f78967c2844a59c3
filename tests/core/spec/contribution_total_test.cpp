#include "core/spec/contribution_total.h"
#include "tests/support/catch.h"

using namespace stillroom::spec;

namespace {

Reading reading(Bound bound, double value, double upper = 0) {
    Reading r;
    r.bound = bound;
    r.value = value;
    r.upper = upper;
    return r;
}

} // namespace

TEST_CASE("Column sums keep what is not known as a bound", "[spec][total]") {
    const auto known = reading(Bound::Exact, 10);
    CHECK(sumOf(known, reading(Bound::Exact, 2.5)) == reading(Bound::Exact, 12.5));
    CHECK(sumOf(known, reading(Bound::AtLeast, 1.5)) == reading(Bound::AtLeast, 11.5));
    CHECK(sumOf(known, reading(Bound::Unknown, 0)) == reading(Bound::AtLeast, 10));
    CHECK(sumOf(known, reading(Bound::Between, 1, 2)) == reading(Bound::Between, 11, 12));
    CHECK(sumOf(known, reading(Bound::AtMost, 3)) == reading(Bound::Between, 10, 13));
    CHECK(sumOf(reading(Bound::AtMost, 1), reading(Bound::AtMost, 3)) == reading(Bound::AtMost, 4));
    CHECK(sumOf(reading(Bound::AtMost, 1), reading(Bound::Unknown, 0)) == reading(Bound::AtLeast, 0));
    CHECK(sumOf(known, reading(Bound::NotApplicable, 0)) == known);
    CHECK(sumOf(reading(Bound::Unknown, 0), reading(Bound::Unknown, 0)) == reading(Bound::Unknown, 0));
}

TEST_CASE("A column of nothing that applies has no sum", "[spec][total]") {
    CHECK(total({}).ethanolMl.bound == Bound::NotApplicable);
}
