#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace stillroom::base {

// One code point of UTF-8 text at a byte offset. A broken byte is U+FFFD of size 1.
struct CodePoint {
    char32_t value = 0;
    std::size_t size = 1;
};
CodePoint codePointAt(std::string_view text, std::size_t at);
void appendCodePoint(std::string& text, char32_t value);

bool isLetter(char32_t c); // any script, combining marks included
bool isSpace(char32_t c);  // any Unicode white space, no-break and ideographic ones included
bool isControl(char32_t c);
bool isBidiControl(char32_t c);
bool isPictograph(char32_t c); // emoji and other symbols that stand alone
int decimalDigit(char32_t c);  // 0 to 9 in any script, else -1
// Lower case without accents, for comparing words: Ç gives c, ß gives ss, é gives e.
void appendFolded(std::string& text, char32_t c);

} // namespace stillroom::base
