#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace stillroom::larder {

// What a purchase is counted in.
enum class PackUnit : std::uint8_t { Ml, Gram, Piece };
std::string_view packUnitId(PackUnit unit); // "ml", "g", "piece"; stable, enters files
std::optional<PackUnit> packUnitFromId(std::string_view id);

} // namespace stillroom::larder
