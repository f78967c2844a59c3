#include "core/spec/edit.h"

#include "tests/support/catch.h"

using namespace stillroom;
using quantity::Amount;
using quantity::Measure;
using quantity::Rational;
using spec::Spec;

namespace {

spec::Line line(const char* name, Rational amount) {
    spec::Line l;
    l.name = name;
    l.poured = {Amount::exact(amount), Measure::Ml, 1};
    return l;
}

Spec three() {
    Spec s;
    s.lines = {line("a", 10), line("b", 20), line("c", 30)};
    return s;
}

std::string order(const Spec& s) {
    std::string names;
    for (const auto& l : s.lines)
        names += l.name;
    return names;
}

} // namespace

TEST_CASE("lines are inserted replaced removed and moved", "[spec][edit]") {
    const Spec s = three();
    CHECK(order(spec::withLine(s, 0, line("x", 1))) == "xabc");
    CHECK(order(spec::withLine(s, 3, line("x", 1))) == "abcx");
    CHECK(order(spec::withLineReplaced(s, 1, line("x", 1))) == "axc");
    CHECK(order(spec::withoutLine(s, 1)) == "ac");
    CHECK(order(spec::withLineMoved(s, 0, 2)) == "bca");
    CHECK(order(spec::withLineMoved(s, 2, 0)) == "cab");
    CHECK(order(spec::withLineMoved(s, 1, 2)) == "acb");
    CHECK(order(s) == "abc");
}

TEST_CASE("a place outside the spec leaves it as it was", "[spec][edit]") {
    const Spec s = three();
    CHECK(spec::withLine(s, 4, line("x", 1)) == s);
    CHECK(spec::withLineReplaced(s, 3, line("x", 1)) == s);
    CHECK(spec::withoutLine(s, 3) == s);
    CHECK(spec::withLineMoved(s, 0, 3) == s);
    CHECK(spec::withLineSplit(s, 3) == s);
    CHECK(spec::withAmount(s, 3, {}) == s);
    CHECK(spec::withoutLine(Spec{}, 0) == Spec{});
}

TEST_CASE("splitting a line leaves two exact halves", "[spec][edit]") {
    Spec s = three();
    s.lines[1].poured.amount = Amount::range(3, 5);
    const Spec split = spec::withLineSplit(s, 1);
    REQUIRE(split.lines.size() == 4);
    CHECK(split.lines[1] == split.lines[2]);
    CHECK(split.lines[1].poured.amount == Amount::range(*Rational::make(3, 2), *Rational::make(5, 2)));
    CHECK(split.lines[3].name == "c");
}

TEST_CASE("an amount that cannot be halved exactly leaves the line whole", "[spec][edit]") {
    Spec s = three();
    s.lines[0].poured.amount = Amount::exact(*Rational::make(1, INT64_MAX));
    CHECK(spec::withLineSplit(s, 0) == s);
}

TEST_CASE("scaling to more serves multiplies amounts exactly and comes back", "[spec][edit]") {
    Spec s = three();
    s.serves = 3;
    s.lines[0].poured.amount = Amount::exact(*Rational::make(3, 4));
    s.lines[1].retained = spec::Measured{Amount::exact(1), Measure::Ml, 1};
    const Spec ten = spec::scaledToServes(s, 10);
    CHECK(ten.serves == 10);
    CHECK(ten.lines[0].poured.amount == Amount::exact(*Rational::make(5, 2))); // 3/4 × 10/3
    CHECK(ten.lines[1].retained->amount == Amount::exact(*Rational::make(10, 3)));
    CHECK(spec::scaledToServes(ten, 3) == s);
    CHECK(spec::scaledToServes(s, 0) == s);
}

TEST_CASE("parts are shares and are not multiplied by serves", "[spec][edit]") {
    Spec s = three();
    s.lines[0].poured.measure = Measure::Part;
    const Spec four = spec::scaledToServes(s, 4);
    CHECK(four.lines[0].poured == s.lines[0].poured);
    CHECK(four.lines[1].poured.amount == Amount::exact(80));
}

TEST_CASE("amount and method are replaced whole", "[spec][edit]") {
    const Spec s = three();
    const spec::Measured measured{Amount::exact(*Rational::make(3, 4)), Measure::FlozUs, 1};
    CHECK(spec::withAmount(s, 1, measured).lines[1].poured == measured);
    spec::Method method;
    method.technique = spec::Technique::Stir;
    CHECK(spec::withMethod(s, method).method == method);
    CHECK(s == three());
}
