#include "core/exchange/decode.h"

#include "core/base/code_points.h"

#include <algorithm>
#include <array>

namespace stillroom::exchange {

namespace {

using namespace std::string_view_literals;

// How files that are no text begin.
constexpr std::array<std::string_view, 16> kSignatures{"\x89PNG"sv,
                                                       "\xFF\xD8\xFF"sv,
                                                       "GIF8"sv,
                                                       "%PDF-"sv,
                                                       "PK\x03\x04"sv,
                                                       "\x1F\x8B"sv,
                                                       "SQLite format 3"sv,
                                                       "\x7F"
                                                       "ELF"sv,
                                                       "MZ\x90"sv,
                                                       "RIFF"sv,
                                                       "BZh"sv,
                                                       "7z\xBC\xAF"sv,
                                                       "\xFD"
                                                       "7zXZ"sv,
                                                       "OggS"sv,
                                                       "ID3"sv,
                                                       "Rar!"sv};

// Windows-1252, 0x80 to 0x9F; the rest of its upper half is Latin-1.
constexpr std::array<char32_t, 32> kWindows1252{
    0x20AC, 0x81,   0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0x8D,   0x017D, 0x8F,   0x90,   0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0x9D,   0x017E, 0x0178};

// More unreadable bytes than this share, and it is no text.
constexpr double kMostStrange = 0.10;

unsigned char byteAt(std::string_view text, std::size_t i) {
    return static_cast<unsigned char>(text[i]);
}

std::string fromUtf16(std::string_view bytes, bool littleEndian) {
    const auto unit = [&](std::size_t i) {
        const unsigned a = byteAt(bytes, i);
        const unsigned b = byteAt(bytes, i + 1);
        return static_cast<char32_t>(littleEndian ? a | (b << 8U) : (a << 8U) | b);
    };
    std::string out;
    for (std::size_t i = 0; i + 1 < bytes.size(); i += 2) {
        char32_t c = unit(i);
        if (c >= 0xD800 && c < 0xDC00 && i + 3 < bytes.size()) {
            const char32_t low = unit(i + 2);
            if (low >= 0xDC00 && low < 0xE000) {
                c = 0x10000 + ((c - 0xD800) << 10U) + (low - 0xDC00);
                i += 2;
            }
        }
        base::appendCodePoint(out, c >= 0xD800 && c < 0xE000 ? 0xFFFD : c);
    }
    return out;
}

// Latin text in UTF-16 has a zero in every second byte.
bool looksUtf16(std::string_view bytes, bool littleEndian) {
    if (bytes.size() < 8) return false;
    const std::size_t sample = std::min<std::size_t>(bytes.size() & ~std::size_t(1), 1024);
    std::size_t zeros = 0;
    std::size_t others = 0;
    for (std::size_t i = 0; i < sample; i += 2) {
        zeros += bytes[i + (littleEndian ? 1 : 0)] == 0 ? 1 : 0;
        others += bytes[i + (littleEndian ? 0 : 1)] == 0 ? 1 : 0;
    }
    return zeros * 10 > sample / 2 * 7 && others * 10 < sample / 2;
}

bool looksBinary(std::string_view bytes) {
    for (const std::string_view signature : kSignatures)
        if (bytes.substr(0, signature.size()) == signature) return true;
    const std::size_t sample = std::min<std::size_t>(bytes.size(), 8192);
    std::size_t strange = 0;
    for (std::size_t i = 0; i < sample; ++i) {
        const unsigned char c = byteAt(bytes, i);
        const bool usual = c >= 0x20 || (c >= 0x09 && c <= 0x0D) || c == 0x1B;
        strange += usual ? 0 : 1;
    }
    return sample > 0 && static_cast<double>(strange) > kMostStrange * static_cast<double>(sample) &&
           strange > 3;
}

DecodedLine decodeLine(std::string_view bytes) {
    DecodedLine line;
    line.text.reserve(bytes.size());
    for (std::size_t i = 0; i < bytes.size();) {
        const auto [c, size] = base::codePointAt(bytes, i);
        const bool broken = c == 0xFFFD && size == 1;
        if (!broken) {
            line.text.append(bytes.substr(i, size));
        } else {
            line.recovered = true;
            const unsigned char b = byteAt(bytes, i);
            base::appendCodePoint(line.text, b >= 0x80 && b < 0xA0 ? kWindows1252[b - 0x80U] : b);
        }
        i += size;
    }
    return line;
}

} // namespace

std::string Decoded::joined() const {
    std::string all;
    for (const DecodedLine& line : lines) {
        all += line.text;
        all.push_back('\n');
    }
    return all;
}

Decoded decodeText(std::string_view bytes) {
    Decoded out;
    std::string converted;
    std::string_view text = bytes;
    if (bytes.substr(0, 2) == "\xFF\xFE"sv || looksUtf16(bytes, true)) {
        converted = fromUtf16(bytes.substr(bytes.substr(0, 2) == "\xFF\xFE"sv ? 2 : 0), true);
        text = converted;
    } else if (bytes.substr(0, 2) == "\xFE\xFF"sv || looksUtf16(bytes, false)) {
        converted = fromUtf16(bytes.substr(bytes.substr(0, 2) == "\xFE\xFF"sv ? 2 : 0), false);
        text = converted;
    } else if (bytes.substr(0, 3) == "\xEF\xBB\xBF"sv) {
        text.remove_prefix(3);
    }
    if (looksBinary(text)) {
        out.isText = false;
        return out;
    }
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find_first_of("\r\n", begin), text.size());
        out.lines.push_back(decodeLine(text.substr(begin, end - begin)));
        out.recovered |= out.lines.back().recovered;
        const bool crlf = end + 1 < text.size() && text[end] == '\r' && text[end + 1] == '\n';
        begin = end + (crlf ? 2 : 1);
    }
    if (!out.lines.empty() && out.lines.back().text.empty()) out.lines.pop_back();
    return out;
}

} // namespace stillroom::exchange
