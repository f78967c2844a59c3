#include "core/base/hash.h"

#include <openssl/evp.h>

#include <stdexcept>

namespace stillroom::base {

std::array<std::uint8_t, 32> sha256(std::string_view data) {
    std::array<std::uint8_t, 32> digest{};
    unsigned int length = 0;
    if (EVP_Digest(data.data(), data.size(), digest.data(), &length, EVP_sha256(), nullptr) != 1)
        throw std::runtime_error("SHA-256 is not available");
    return digest;
}

std::string sha256Hex(std::string_view data) {
    static constexpr char digits[] = "0123456789abcdef";
    std::string hex;
    hex.reserve(64);
    for (const std::uint8_t byte : sha256(data)) {
        hex += digits[byte >> 4U];
        hex += digits[byte & 15U];
    }
    return hex;
}

} // namespace stillroom::base
