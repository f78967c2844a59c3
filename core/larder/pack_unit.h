#pragma once

#include <cstdint>

namespace stillroom::larder {

// What a purchase is counted in.
enum class PackUnit : std::uint8_t { Ml, Gram, Piece };

} // namespace stillroom::larder
