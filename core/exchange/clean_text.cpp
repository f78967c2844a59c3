#include "core/exchange/clean_text.h"

#include "core/base/code_points.h"

namespace stillroom::exchange {

namespace {

constexpr char32_t kEscape = 0x1B;

bool isNoBreakSpace(char32_t c) {
    return c == 0xA0 || c == 0x2007 || c == 0x2009 || c == 0x202F;
}

bool isInvisible(char32_t c) {
    return c == 0x200B || c == 0x2060 || c == 0xFEFF || c == 0xAD || c == 0x180E ||
           (c >= 0xFFF9 && c <= 0xFFFB);
}

// Characters that stand for a word or for small digits; "" when c is none of them.
std::string_view writtenOut(char32_t c) {
    switch (c) {
    case 0x3396:
        return "ml";
    case 0x3397:
        return "dl";
    case 0x2113:
        return "l";
    case 0x338E:
        return "mg";
    case 0x338F:
        return "kg";
    case 0x33C4:
        return "cc";
    default:
        return {};
    }
}

int smallDigit(char32_t c) {
    if (c == 0xB9) return 1;
    if (c == 0xB2) return 2;
    if (c == 0xB3) return 3;
    if (c == 0x2070 || (c >= 0x2074 && c <= 0x2079)) return static_cast<int>(c - 0x2070);
    if (c >= 0x2080 && c <= 0x2089) return static_cast<int>(c - 0x2080);
    return -1;
}

bool endsInDigit(const std::string& text) {
    return !text.empty() && text.back() >= '0' && text.back() <= '9';
}

// The end of a terminal sequence (ESC [ … letter) that starts at `at`.
std::size_t afterEscape(std::string_view raw, std::size_t at) {
    std::size_t i = at + 1;
    if (i >= raw.size() || raw[i] != '[') return i;
    ++i;
    while (i < raw.size() && (raw[i] == ';' || raw[i] == '?' || (raw[i] >= '0' && raw[i] <= '9')))
        ++i;
    return i < raw.size() ? i + 1 : i;
}

} // namespace

CleanLine cleanLine(std::string_view raw) {
    CleanLine out;
    std::string& text = out.text;
    text.reserve(raw.size());
    bool spacePending = false;
    bool noBreak = false;
    bool lastWasSmall = false;
    const auto flushSpace = [&](bool digitFollows) {
        if (spacePending && !text.empty()) {
            if (noBreak && digitFollows && endsInDigit(text))
                text += kNoBreakSpace;
            else
                text.push_back(' ');
        }
        spacePending = false;
        noBreak = false;
    };
    for (std::size_t i = 0; i < raw.size();) {
        const auto [c, size] = base::codePointAt(raw, i);
        if (c == kEscape) {
            out.hadControls = true;
            i = afterEscape(raw, i);
            continue;
        }
        i += size;
        if (base::isSpace(c)) {
            if (c == '\v' || c == '\f') out.hadControls = true;
            noBreak = !spacePending ? isNoBreakSpace(c) : noBreak && isNoBreakSpace(c);
            spacePending = true;
            continue;
        }
        if (base::isBidiControl(c)) {
            out.hadBidiControls = true;
            continue;
        }
        if (base::isControl(c)) {
            out.hadControls = true;
            continue;
        }
        if (isInvisible(c)) continue;
        if (const int digit = base::decimalDigit(c); digit >= 0) {
            flushSpace(true);
            text.push_back(static_cast<char>('0' + digit));
            lastWasSmall = false;
            continue;
        }
        if (const int digit = smallDigit(c); digit >= 0) {
            // "1¹⁄₂" is one and a half
            if (endsInDigit(text) && !lastWasSmall && !spacePending) spacePending = true;
            flushSpace(false);
            text.push_back(static_cast<char>('0' + digit));
            lastWasSmall = true;
            continue;
        }
        flushSpace(false);
        lastWasSmall = false;
        if (const std::string_view word = writtenOut(c); !word.empty())
            text += word;
        else if (c >= 0xFF01 && c <= 0xFF5E)
            base::appendCodePoint(text, c - 0xFEE0);
        else
            base::appendCodePoint(text, c);
    }
    return out;
}

} // namespace stillroom::exchange
