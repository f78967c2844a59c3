#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::base {

// A run of letters and digits of a text, folded, with where it stands: "don't" is two of them. For finding
// words in a text as it was written.
struct WordSpan {
    std::size_t start = 0; // bytes
    std::size_t length = 0;
    std::string folded;
    friend bool operator==(const WordSpan&, const WordSpan&) = default;
};
std::vector<WordSpan> wordSpans(std::string_view text);

} // namespace stillroom::base
