#pragma once

#include "core/exchange/read_text.h"
#include "core/exchange/yield_words.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::exchange {

// "PLANTER'S PUNCH -- for 10": a name, perhaps a yield, perhaps the first words of the method.
struct TitleParts {
    std::string name;
    std::optional<Yield> yield;
    std::string rest;
};
TitleParts splitTitle(std::string_view title);

// A preparation told in one line.
struct InlinePart {
    std::string name;
    std::vector<ReadLine> lines;
    std::vector<std::string> method;
    std::optional<Yield> yield;
};
std::optional<InlinePart> readInlinePart(std::string_view text, const ReadOptions& options);

std::vector<std::string> splitSentences(std::string_view text);
std::vector<std::string> splitGarnish(std::string_view text); // at semicolons
std::string withoutStepNumber(std::string_view text);         // "2. Strain." -> "Strain."
std::string afterGarnishWord(std::string_view text);          // "Garnish with mint" -> "mint"
bool isSpiritName(std::string_view name);

} // namespace stillroom::exchange
