#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

namespace stillroom::base {

// SHA-256 (FIPS 180-4), by libcrypto.
std::array<std::uint8_t, 32> sha256(std::string_view data);
std::string sha256Hex(std::string_view data);

} // namespace stillroom::base
