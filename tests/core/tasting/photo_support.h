#pragma once

#include <cstdint>
#include <string>

// Pictures put together segment by segment: whole as far as their structure goes, with nothing to be seen.
namespace stillroom::test {

inline std::string bigEndianText(std::uint32_t value, int bytes) {
    std::string text;
    for (int i = bytes - 1; i >= 0; --i)
        text += static_cast<char>(value >> (8 * i) & 0xFFU);
    return text;
}

inline std::string jpegSegment(unsigned marker, const std::string& data) {
    return std::string("\xFF") + static_cast<char>(marker) +
           bigEndianText(static_cast<std::uint32_t>(data.size() + 2), 2) + data;
}

// `extra` stands after the JFIF header: other segments.
inline std::string jpegOf(std::uint32_t width, std::uint32_t height, const std::string& extra = {}) {
    const std::string frame = std::string("\x08", 1) + bigEndianText(height, 2) + bigEndianText(width, 2) +
                              std::string("\x01\x01\x11\x00", 4);
    const std::string scanned("\x12\xFF\x00\x34\xFF\xD0\x56", 7); // a stuffed FF and a restart inside
    return std::string("\xFF\xD8") + jpegSegment(0xE0, std::string("JFIF\0\1\1\0\0\1\0\1\0\0", 14)) + extra +
           jpegSegment(0xC0, frame) + jpegSegment(0xDA, std::string("\x01\x01\x00\x00\x3F\x00", 6)) +
           scanned + "\xFF\xD9";
}

inline std::string pngChunk(const std::string& type, const std::string& data) {
    return bigEndianText(static_cast<std::uint32_t>(data.size()), 4) + type + data + bigEndianText(0, 4);
}

inline std::string pngOf(std::uint32_t width, std::uint32_t height, const std::string& extra = {}) {
    return std::string("\x89PNG\r\n\x1a\n", 8) +
           pngChunk("IHDR",
                    bigEndianText(width, 4) + bigEndianText(height, 4) + std::string("\x08\x02\0\0\0", 5)) +
           extra + pngChunk("IDAT", "nothing to be seen") + pngChunk("IEND", "");
}

} // namespace stillroom::test
