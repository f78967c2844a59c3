#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using quantity::Measure;
using spec::Bound;
using spec::Role;

namespace {

Shelf shelf() {
    Shelf s;
    s.putPriced("gin", {{40}, {0}, {0}}, 2100, 700)
        .put("lemon juice", {{0}, {16}, {60}})
        .put("unlabelled", {{}, {100}, {0}});
    return s;
}

std::vector<spec::Contribution> brought(const spec::Spec& d) {
    const Shelf s = shelf();
    return spec::contributions(d, spec::Bindings(d, s.larder, s.rules()));
}

} // namespace

TEST_CASE("a line brings what is written in it whatever the serves", "[spec][contributions]") {
    auto d = drink({line("gin", 60), line("lemon juice", 30)}, spec::Technique::Shake);
    d.serves = 3;
    const auto c = brought(d);
    REQUIRE(c.size() == 2);
    CHECK(c[0].volumeMl.value == Approx(60));
    CHECK(c[0].ethanolMl.value == Approx(24));
    CHECK(c[0].costMajor.value == Approx(1.80));
    CHECK(c[0].costMajor.bound == Bound::Exact);
    CHECK(c[1].sugarG.value == Approx(0.48));
    CHECK(c[1].acidG.value == Approx(1.8));
    CHECK(c[1].costMajor.bound == Bound::Unknown);
}

TEST_CASE("what a line lacks is a bound and never a zero", "[spec][contributions]") {
    auto d = drink({line("unlabelled", 20), ranged("gin", 20, 30), unstated("gin"), line("gin", 10)});
    d.lines[3].optional = true;
    const auto c = brought(d);
    CHECK(c[0].ethanolMl.bound == Bound::Unknown);
    CHECK(c[0].ethanolMl.gapLines == 1);
    CHECK(c[0].sugarG.value == Approx(2));
    CHECK(c[1].volumeMl.bound == Bound::Between);
    CHECK(c[1].volumeMl.value == Approx(20));
    CHECK(c[1].volumeMl.upper == Approx(30));
    CHECK(c[2].volumeMl.bound == Bound::Unknown);
    CHECK(c[2].volumeMl.gapLines == 4);
    CHECK(c[3].volumeMl.bound == Bound::NotApplicable); // out of the sums, and of the column's
}

TEST_CASE("a garnish is not drunk", "[spec][contributions]") {
    const auto c = brought(drink({line("gin", 10, Measure::Ml, Role::Garnish),
                                  line("lemon juice", 1, Measure::Slice, Role::Garnish)}));
    CHECK(c[0].volumeMl.bound == Bound::NotApplicable);
    CHECK(c[0].costMajor.value == Approx(0.30));
    CHECK(c[1].costMajor.bound == Bound::Unknown); // a slice of what is priced by the ml
    CHECK(c[1].costMajor.gapLines == 2);
}

TEST_CASE("a rinse brings what stays and costs what is poured", "[spec][contributions]") {
    const auto c = brought(drink({line("gin", 10, Measure::Ml, Role::Rinse)}));
    CHECK(c[0].volumeMl.value == Approx(2));
    CHECK(c[0].costMajor.value == Approx(0.30));
}

TEST_CASE("a part brings its share of the target", "[spec][contributions]") {
    auto d = drink({line("gin", 2, Measure::Part), line("lemon juice", 1, Measure::Part)});
    CHECK(brought(d)[0].volumeMl.bound == Bound::Unknown);
    d.partTargetMl = 90;
    d.serves = 2;
    const auto c = brought(d);
    CHECK(c[0].volumeMl.value == Approx(120));
    CHECK(c[1].volumeMl.value == Approx(60));
}

TEST_CASE("the columns add up to the sums of the drink", "[spec][contributions]") {
    const Shelf s = shelf();
    const auto d = drink({line("gin", 50), line("lemon juice", 25), line("gin", 3, Measure::Dash)});
    double ethanol = 0, acid = 0;
    for (const auto& c : brought(d)) {
        ethanol += c.ethanolMl.value;
        acid += c.acidG.value;
    }
    const auto r = s.read(d)[spec::Stage::Measured];
    CHECK(r[spec::Quantity::Ethanol].value == Approx(ethanol * 0.78924));
    CHECK(r[spec::Quantity::Acid].value * r[spec::Quantity::Volume].value / 100 == Approx(acid));
}
