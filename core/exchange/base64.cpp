#include "core/exchange/base64.h"

#include <array>
#include <cstdint>

namespace stillroom::exchange {

namespace {

constexpr std::string_view kSigns = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
constexpr std::uint32_t kNoSign = 64;

constexpr std::array<std::uint32_t, 256> kValues = [] {
    std::array<std::uint32_t, 256> values{};
    for (auto& value : values)
        value = kNoSign;
    for (std::uint32_t i = 0; i < kSigns.size(); ++i)
        values[static_cast<unsigned char>(kSigns[i])] = i;
    return values;
}();

std::uint32_t byteAt(std::string_view bytes, std::size_t at) {
    return at < bytes.size() ? static_cast<unsigned char>(bytes[at]) : 0U;
}

} // namespace

std::string toBase64(std::string_view bytes) {
    std::string text;
    text.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t at = 0; at < bytes.size(); at += 3) {
        const std::uint32_t three =
            byteAt(bytes, at) << 16U | byteAt(bytes, at + 1) << 8U | byteAt(bytes, at + 2);
        text += kSigns[three >> 18U & 63U];
        text += kSigns[three >> 12U & 63U];
        text += at + 1 < bytes.size() ? kSigns[three >> 6U & 63U] : '=';
        text += at + 2 < bytes.size() ? kSigns[three & 63U] : '=';
    }
    return text;
}

std::optional<std::string> fromBase64(std::string_view text) {
    if (text.size() % 4 != 0) return std::nullopt;
    std::string bytes;
    bytes.reserve(text.size() / 4 * 3);
    for (std::size_t at = 0; at < text.size(); at += 4) {
        const bool last = at + 4 == text.size();
        const std::size_t pads = !last || text[at + 3] != '=' ? 0U : text[at + 2] == '=' ? 2U : 1U;
        std::uint32_t three = 0;
        for (std::size_t i = 0; i < 4; ++i) {
            const std::uint32_t value =
                i >= 4 - pads ? 0U : kValues[static_cast<unsigned char>(text[at + i])];
            if (value == kNoSign) return std::nullopt;
            three = three << 6U | value;
        }
        // Bits that no byte takes must be zero: one text for one content.
        if ((pads == 1 && (three & 0xFFU) != 0) || (pads == 2 && (three & 0xFFFFU) != 0)) return std::nullopt;
        bytes += static_cast<char>(three >> 16U & 0xFFU);
        if (pads < 2) bytes += static_cast<char>(three >> 8U & 0xFFU);
        if (pads < 1) bytes += static_cast<char>(three & 0xFFU);
    }
    return bytes;
}

} // namespace stillroom::exchange
