#include "core/base/words.h"

#include "core/base/text.h"

#include <unicode/uchar.h>
#include <unicode/utf8.h>

#include <algorithm>

// ICU's UTF-8 macros narrow in C style.
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wold-style-cast"

namespace stillroom::base {

namespace {

// Marks belong to the letter before them.
bool isOfWord(UChar32 c) {
    return c >= 0 && (u_isalnum(c) || (U_GET_GC_MASK(c) & U_GC_M_MASK) != 0);
}

bool isAsciiOfWord(unsigned char c) {
    return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

std::string foldedRun(std::string_view run, bool ascii) {
    if (!ascii) {
        std::string folded = fold(run);
        folded.erase(std::remove(folded.begin(), folded.end(), ' '), folded.end());
        return folded;
    }
    std::string folded(run);
    for (char& c : folded)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return folded;
}

} // namespace

std::vector<WordSpan> wordSpans(std::string_view text) {
    std::vector<WordSpan> words;
    const auto size = static_cast<int32_t>(text.size());
    int32_t at = 0;
    while (at < size) {
        const int32_t start = at;
        int32_t end = at;
        bool ascii = true;
        while (at < size) {
            const auto byte = static_cast<unsigned char>(text[static_cast<std::size_t>(at)]);
            bool inside = false;
            if (byte < 0x80) {
                inside = isAsciiOfWord(byte);
                ++at;
            } else {
                UChar32 c = 0;
                U8_NEXT(text.data(), at, size, c);
                inside = isOfWord(c);
                ascii = ascii && !inside;
            }
            if (!inside) break;
            end = at;
        }
        if (end == start) continue;
        const auto begin = static_cast<std::size_t>(start);
        const auto length = static_cast<std::size_t>(end - start);
        std::string folded = foldedRun(text.substr(begin, length), ascii);
        if (!folded.empty()) words.push_back({begin, length, std::move(folded)});
    }
    return words;
}

} // namespace stillroom::base
