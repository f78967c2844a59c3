#include "core/spec/jigger_step.h"

namespace stillroom::spec {

using quantity::Measure;
using quantity::Rational;

Rational jiggerStep(std::optional<Measure> measure) {
    const auto part = [](std::int64_t n, std::int64_t d) {
        return Rational::make(n, d).value_or(Rational(1));
    };
    if (!measure) return 1;
    switch (*measure) {
    case Measure::Ml:
    case Measure::G:
        return part(5, 2);
    case Measure::Cl:
        return part(1, 4);
    case Measure::FlozUs:
    case Measure::FlozImp:
    case Measure::OzMass:
    case Measure::Part:
        return part(1, 4);
    case Measure::TspUs:
    case Measure::TspMetric:
    case Measure::TbspUs:
    case Measure::TbspMetric:
    case Measure::TbspAu:
    case Measure::Barspoon:
    case Measure::CupUs:
    case Measure::CupMetric:
        return part(1, 2);
    default:
        return 1;
    }
}

std::optional<Measured> steppedOnJiggers(const Measured& measured, int direction) {
    if (measured.amount.kind != quantity::Amount::Kind::Exact) return std::nullopt;
    const Rational step = jiggerStep(measured.measure);
    const auto steps = measured.amount.low.over(step);
    if (!steps) return std::nullopt;
    const auto floor = steps->numerator() / steps->denominator();
    const bool whole = steps->denominator() == 1;
    const auto next = direction > 0 ? floor + 1 : (whole ? floor - 1 : floor);
    if (next < 1) return std::nullopt;
    const auto value = step.times(Rational(next));
    if (!value) return std::nullopt;
    Measured stepped = measured;
    stepped.amount = quantity::Amount::exact(*value);
    return stepped;
}

} // namespace stillroom::spec
