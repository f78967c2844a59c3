#include "core/base/id.h"

#include "core/base/hash.h"

#include <algorithm>
#include <random>

namespace stillroom::base {

namespace {

int hexValue(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
}

} // namespace

Bits128 Bits128::random() {
    // The system's own source: ids from two books must never meet.
    static thread_local std::random_device device;
    Bits128 bits;
    for (std::size_t i = 0; i < bits.bytes.size(); i += 4) {
        const auto word = device();
        for (std::size_t k = 0; k < 4; ++k)
            bits.bytes[i + k] = static_cast<std::uint8_t>(word >> (8 * k));
    }
    return bits;
}

Bits128 Bits128::derivedFrom(std::string_view text) {
    const auto digest = sha256(text);
    Bits128 bits;
    std::copy_n(digest.begin(), bits.bytes.size(), bits.bytes.begin());
    return bits;
}

std::optional<Bits128> Bits128::fromHex(std::string_view hex) {
    if (hex.size() != 32) return std::nullopt;
    Bits128 bits;
    for (std::size_t i = 0; i < 16; ++i) {
        const int high = hexValue(hex[2 * i]);
        const int low = hexValue(hex[2 * i + 1]);
        if (high < 0 || low < 0) return std::nullopt;
        bits.bytes[i] = static_cast<std::uint8_t>(high * 16 + low);
    }
    return bits;
}

std::string Bits128::hex() const {
    static constexpr char digits[] = "0123456789abcdef";
    std::string text;
    text.reserve(32);
    for (const std::uint8_t byte : bytes) {
        text += digits[byte >> 4U];
        text += digits[byte & 15U];
    }
    return text;
}

} // namespace stillroom::base
