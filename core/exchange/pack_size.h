#pragma once

#include "core/larder/pack_unit.h"
#include "core/quantity/rational.h"

#include <tl/expected.hpp>

#include <cstdint>
#include <string_view>

namespace stillroom::exchange {

enum class SizeProblem : std::uint8_t {
    Empty,
    NotANumber,  // or one that could be two: plain_number.h
    NoUnit,      // 700 of what?
    UnknownUnit, // a sack
};

struct PackSize {
    quantity::Rational amount; // in `unit`; may be 0 or below: larder::costRate says so
    larder::PackUnit unit = larder::PackUnit::Ml;
    friend bool operator==(const PackSize&, const PackSize&) = default;
};

// What a pack holds, as people write it: "700 ml", "0,7 l", "1 kg", "25.4 floz", "24 pieces". A comma is a
// decimal mark where it can be nothing else. Units of size by law only: a bottle or a case is of no size.
tl::expected<PackSize, SizeProblem> readPackSize(std::string_view text);

} // namespace stillroom::exchange
