#pragma once

#include "core/base/text.h"

#include <algorithm>
#include <cctype>
#include <string>
#include <string_view>
#include <vector>

// Internal to core/tasting.
namespace stillroom::tasting {

// The words of a note, folded, without the marks around them ("sweet,").
inline std::vector<std::string> noteWords(std::string_view text) {
    auto words = base::foldedWords(text);
    for (std::string& word : words) {
        const auto isMark = [](char c) {
            return static_cast<unsigned char>(c) < 0x80 && std::isalnum(static_cast<unsigned char>(c)) == 0;
        };
        word.erase(std::remove_if(word.begin(), word.end(), isMark), word.end());
    }
    return words;
}

} // namespace stillroom::tasting
