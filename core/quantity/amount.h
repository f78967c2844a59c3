#pragma once

#include "core/quantity/rational.h"

#include <cstdint>

namespace stillroom::quantity {

// None ("soda to top", "sugar to taste") is not zero.
struct Amount {
    enum class Kind : std::uint8_t { None, Exact, Range };

    Kind kind = Kind::None;
    Rational low;  // the value, when exact
    Rational high; // equal to low, when exact

    static Amount none() { return {}; }
    static Amount exact(Rational value) { return {Kind::Exact, value, value}; }
    static Amount range(Rational low, Rational high) { return {Kind::Range, low, high}; }
    bool isStated() const { return kind != Kind::None; }
    friend bool operator==(const Amount&, const Amount&) = default;
};

} // namespace stillroom::quantity
