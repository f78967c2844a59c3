#include "core/base/code_points.h"

#include <unicode/normalizer2.h>
#include <unicode/uchar.h>
#include <unicode/unistr.h>
#include <unicode/utf8.h>

#include <array>

// ICU's UTF-8 macros narrow in C style.
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wold-style-cast"

namespace stillroom::base {

namespace {

UChar32 wide(char32_t c) {
    return static_cast<UChar32>(c);
}

const icu::Normalizer2* decomposition() {
    static const icu::Normalizer2* const form = [] {
        UErrorCode status = U_ZERO_ERROR;
        return icu::Normalizer2::getNFDInstance(status);
    }();
    return form;
}

// Letters that no decomposition takes apart.
const char* plainForm(char32_t c) {
    switch (c) {
    case U'ß':
        return "ss";
    case U'ø':
        return "o";
    case U'æ':
        return "ae";
    case U'œ':
        return "oe";
    case U'ł':
        return "l";
    case U'ı':
        return "i";
    default:
        return nullptr;
    }
}

} // namespace

CodePoint codePointAt(std::string_view text, std::size_t at) {
    const auto first = static_cast<unsigned char>(text[at]);
    if (first < 0x80) return {first, 1};
    const auto length = static_cast<int32_t>(std::min<std::size_t>(text.size() - at, 4));
    int32_t i = 0;
    UChar32 c = 0;
    U8_NEXT(text.data() + at, i, length, c);
    if (c < 0) return {0xFFFD, 1};
    return {static_cast<char32_t>(c), static_cast<std::size_t>(i)};
}

void appendCodePoint(std::string& text, char32_t value) {
    if (value < 0x80) {
        text.push_back(static_cast<char>(value));
        return;
    }
    std::array<char, 4> bytes{};
    int32_t length = 0;
    UBool failed = false;
    U8_APPEND(bytes.data(), length, 4, wide(value), failed);
    if (failed)
        text += "\xEF\xBF\xBD";
    else
        text.append(bytes.data(), static_cast<std::size_t>(length));
}

bool isLetter(char32_t c) {
    if (c < 0x80) return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
    const auto type = u_charType(wide(c));
    return u_isalpha(wide(c)) || type == U_NON_SPACING_MARK || type == U_COMBINING_SPACING_MARK;
}

bool isSpace(char32_t c) {
    return c < 0x80 ? (c == ' ' || (c >= '\t' && c <= '\r')) : u_isUWhiteSpace(wide(c));
}

bool isControl(char32_t c) {
    return c < 0x80 ? (c < 0x20 || c == 0x7F) : u_charType(wide(c)) == U_CONTROL_CHAR;
}

bool isBidiControl(char32_t c) {
    return (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069) || c == 0x200E || c == 0x200F ||
           c == 0x061C;
}

bool isPictograph(char32_t c) {
    if (c < 0x2000) return false;
    const auto type = u_charType(wide(c));
    return type == U_OTHER_SYMBOL || type == U_MODIFIER_SYMBOL || u_hasBinaryProperty(wide(c), UCHAR_EMOJI);
}

int decimalDigit(char32_t c) {
    if (c < 0x80) return c >= '0' && c <= '9' ? static_cast<int>(c - '0') : -1;
    return u_charType(wide(c)) == U_DECIMAL_DIGIT_NUMBER ? u_charDigitValue(wide(c)) : -1;
}

void appendFolded(std::string& text, char32_t c) {
    if (c < 0x80) {
        text.push_back(c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : static_cast<char>(c));
        return;
    }
    const UChar32 lower = u_tolower(wide(c));
    if (const char* plain = plainForm(static_cast<char32_t>(lower))) {
        text += plain;
        return;
    }
    if (u_charType(lower) == U_NON_SPACING_MARK) return;
    icu::UnicodeString parts;
    if (decomposition() == nullptr || !decomposition()->getDecomposition(lower, parts)) {
        appendCodePoint(text, static_cast<char32_t>(lower));
        return;
    }
    for (int32_t i = 0; i < parts.length();) {
        const UChar32 part = parts.char32At(i);
        i += U16_LENGTH(part);
        if (u_charType(part) != U_NON_SPACING_MARK) appendCodePoint(text, static_cast<char32_t>(part));
    }
}

} // namespace stillroom::base
