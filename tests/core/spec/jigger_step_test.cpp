#include "core/spec/jigger_step.h"
#include "tests/support/catch.h"

using namespace stillroom;
using quantity::Amount;
using quantity::Measure;
using quantity::Rational;

namespace {

spec::Measured measured(std::int64_t n, std::int64_t d, std::optional<Measure> measure) {
    spec::Measured m;
    m.amount = Amount::exact(*Rational::make(n, d));
    m.measure = measure;
    return m;
}

} // namespace

TEST_CASE("steps go to the jigger's next mark and stop above nothing", "[spec][jigger]") {
    const auto up = [](const spec::Measured& m) { return spec::steppedOnJiggers(m, 1); };
    const auto down = [](const spec::Measured& m) { return spec::steppedOnJiggers(m, -1); };
    CHECK(up(measured(20, 1, Measure::Ml))->amount == Amount::exact(*Rational::make(45, 2)));
    CHECK(down(measured(20, 1, Measure::Ml))->amount == Amount::exact(*Rational::make(35, 2)));
    CHECK(up(measured(21, 1, Measure::Ml))->amount == Amount::exact(*Rational::make(45, 2)));
    CHECK(down(measured(21, 1, Measure::Ml))->amount == Amount::exact(Rational(20)));
    CHECK(up(measured(3, 4, Measure::FlozUs))->amount == Amount::exact(Rational(1)));
    CHECK(up(measured(2, 1, Measure::Dash))->amount == Amount::exact(Rational(3)));
    CHECK_FALSE(down(measured(1, 1, Measure::Dash)));
    CHECK_FALSE(up(spec::Measured{}));
}
