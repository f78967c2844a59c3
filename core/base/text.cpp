#include "core/base/text.h"

#include <unicode/coll.h>
#include <unicode/normalizer2.h>
#include <unicode/uchar.h>
#include <unicode/unistr.h>
#include <unicode/utf8.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <memory>

// ICU's UTF-8 macros narrow in C style.
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wold-style-cast"

namespace stillroom::base {

namespace {

icu::UnicodeString fromUtf8(std::string_view text) {
    return icu::UnicodeString::fromUTF8(icu::StringPiece(text.data(), static_cast<int32_t>(text.size())));
}

std::string toUtf8(const icu::UnicodeString& text) {
    std::string out;
    text.toUTF8String(out);
    return out;
}

icu::UnicodeString normalized(const icu::Normalizer2* form, const icu::UnicodeString& text) {
    UErrorCode status = U_ZERO_ERROR;
    icu::UnicodeString result = form->normalize(text, status);
    return U_SUCCESS(status) ? result : text;
}

const icu::Normalizer2* form(const char* name, UNormalization2Mode mode) {
    UErrorCode status = U_ZERO_ERROR;
    return icu::Normalizer2::getInstance(nullptr, name, mode, status);
}

std::u32string codePoints(std::string_view text) {
    std::u32string points;
    points.reserve(text.size());
    const auto length = static_cast<int32_t>(text.size());
    for (int32_t i = 0; i < length;) {
        UChar32 c = 0;
        U8_NEXT_OR_FFFD(text.data(), i, length, c);
        points.push_back(static_cast<char32_t>(c));
    }
    return points;
}

bool isBidiControl(UChar32 c) {
    return (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069) || c == 0x200E || c == 0x200F ||
           c == 0x061C;
}

// The order for people: ICU's root collation. nullptr where ICU has no data for it.
const icu::Collator* collator() {
    static const std::unique_ptr<icu::Collator> made = [] {
        UErrorCode status = U_ZERO_ERROR;
        std::unique_ptr<icu::Collator> root(icu::Collator::createInstance(icu::Locale::getRoot(), status));
        // "Light 40" stands before "Light 120".
        if (root) root->setAttribute(UCOL_NUMERIC_COLLATION, UCOL_ON, status);
        return root;
    }();
    return made.get();
}

} // namespace

bool isValidUtf8(std::string_view text) {
    const auto length = static_cast<int32_t>(text.size());
    for (int32_t i = 0; i < length;) {
        UChar32 c = 0;
        U8_NEXT(text.data(), i, length, c);
        if (c < 0) return false;
    }
    return true;
}

std::string toNfkc(std::string_view text) {
    return toUtf8(normalized(form("nfkc", UNORM2_COMPOSE), fromUtf8(text)));
}

std::string toNfc(std::string_view text) {
    return toUtf8(normalized(form("nfc", UNORM2_COMPOSE), fromUtf8(text)));
}

std::string toLower(std::string_view text) {
    icu::UnicodeString u = fromUtf8(text);
    u.toLower(icu::Locale::getRoot());
    return toUtf8(u);
}

namespace {

// Most names are plain ASCII, which folds without ICU in a hundredth of the time.
bool foldAscii(std::string_view text, std::string& out) {
    bool spacePending = false;
    for (const char c : text) {
        if (static_cast<unsigned char>(c) >= 0x80) return false;
        const bool space = c == ' ' || (c >= '\t' && c <= '\r') || c == '-' || c == '/';
        if (space) {
            spacePending = !out.empty();
            continue;
        }
        if (spacePending) out += ' ';
        spacePending = false;
        out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    return true;
}

} // namespace

std::string fold(std::string_view text) {
    if (std::string ascii; foldAscii(text, ascii)) return ascii;
    const icu::UnicodeString decomposed = normalized(
        form("nfkc_cf", UNORM2_DECOMPOSE), normalized(form("nfkc", UNORM2_DECOMPOSE), fromUtf8(text)));
    icu::UnicodeString out;
    bool spacePending = false;
    for (int32_t i = 0; i < decomposed.length();) {
        const UChar32 c = decomposed.char32At(i);
        i += U16_LENGTH(c);
        if (u_charType(c) == U_NON_SPACING_MARK) continue;
        const bool space =
            u_isUWhiteSpace(c) || c == '-' || c == '/' || c == 0x2010 || c == 0x2011 || c == 0x2013;
        if (space) {
            spacePending = !out.isEmpty();
            continue;
        }
        if (spacePending) out.append(UChar32{' '});
        spacePending = false;
        // Letters that decomposition leaves whole.
        switch (c) {
        case 0xF8:
            out.append(UChar32{'o'});
            break;
        case 0xE6:
            out.append(UChar32{'a'}).append(UChar32{'e'});
            break;
        case 0x153:
            out.append(UChar32{'o'}).append(UChar32{'e'});
            break;
        case 0x142:
            out.append(UChar32{'l'});
            break;
        case 0x131:
            out.append(UChar32{'i'});
            break;
        case 0x2019:
            out.append(UChar32{'\''});
            break;
        default:
            out.append(c);
        }
    }
    return toUtf8(out);
}

std::vector<std::string> foldedWords(std::string_view text) {
    const std::string folded = fold(text);
    std::vector<std::string> words;
    for (std::size_t begin = 0; begin < folded.size();) {
        const std::size_t end = std::min(folded.find(' ', begin), folded.size());
        if (end > begin) words.push_back(folded.substr(begin, end - begin));
        begin = end + 1;
    }
    return words;
}

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view spaces = " \t\r\n\f\v";
    const std::size_t begin = text.find_first_not_of(spaces);
    if (begin == std::string_view::npos) return {};
    return text.substr(begin, text.find_last_not_of(spaces) - begin + 1);
}

int compareForPeople(std::string_view a, std::string_view b) {
    if (!collator()) return a.compare(b) < 0 ? -1 : (a == b ? 0 : 1);
    UErrorCode status = U_ZERO_ERROR;
    return collator()->compare(fromUtf8(a), fromUtf8(b), status);
}

std::string sortKeyForPeople(std::string_view text) {
    if (!collator()) return std::string(text);
    const icu::UnicodeString source = fromUtf8(text);
    std::string key(2 * text.size() + 16, '\0');
    const auto fill = [&] {
        return static_cast<std::size_t>(collator()->getSortKey(
            source, reinterpret_cast<std::uint8_t*>(key.data()), static_cast<int32_t>(key.size())));
    };
    const std::size_t size = fill();
    const bool fitted = size <= key.size();
    key.resize(size);
    if (!fitted) fill();
    return key;
}

std::string elided(std::string_view text, std::size_t maxCodePoints) {
    const auto length = static_cast<int32_t>(text.size());
    int32_t i = 0;
    for (std::size_t n = 0; n < maxCodePoints && i < length; ++n)
        U8_FWD_1(text.data(), i, length);
    if (i >= length) return std::string(text);
    return std::string(text.substr(0, static_cast<std::size_t>(i))) + "…";
}

std::string withoutControls(std::string_view text) {
    const icu::UnicodeString u = fromUtf8(text);
    icu::UnicodeString out;
    for (int32_t i = 0; i < u.length();) {
        const UChar32 c = u.char32At(i);
        i += U16_LENGTH(c);
        if (c == '\n' || c == '\t' || !(u_charType(c) == U_CONTROL_CHAR || isBidiControl(c) || c == 0xFEFF))
            out.append(c);
    }
    return toUtf8(out);
}

std::size_t editDistance(std::string_view a, std::string_view b, std::size_t limit) {
    const std::u32string s = codePoints(a);
    const std::u32string t = codePoints(b);
    const std::size_t gap = s.size() > t.size() ? s.size() - t.size() : t.size() - s.size();
    if (gap > limit) return limit + 1;
    std::vector<std::size_t> row(t.size() + 1);
    for (std::size_t j = 0; j <= t.size(); ++j)
        row[j] = j;
    for (std::size_t i = 1; i <= s.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i;
        std::size_t best = row[0];
        for (std::size_t j = 1; j <= t.size(); ++j) {
            const std::size_t substituted = diagonal + (s[i - 1] == t[j - 1] ? 0 : 1);
            diagonal = row[j];
            row[j] = std::min({substituted, row[j] + 1, row[j - 1] + 1});
            best = std::min(best, row[j]);
        }
        if (best > limit) return limit + 1;
    }
    return std::min(row.back(), limit + 1);
}

std::string shortestDecimal(double value) {
    if (value == 0.0) return "0"; // also −0
    std::array<char, 400> buffer{};
    const auto result =
        std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed);
    return {buffer.data(), result.ptr};
}

} // namespace stillroom::base
