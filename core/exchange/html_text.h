#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace stillroom::exchange {

// What a line of a page was, as far as it helps to tell a recipe from the page around it.
enum class HtmlPlace : std::uint8_t { Text, Title, Heading, ListItem, NumberedItem };

struct HtmlLine {
    HtmlPlace place = HtmlPlace::Text;
    std::string text;
};

// A page as the words a person would see: no scripts, styles, comments, frames or hidden parts. Nothing is
// run or fetched.
struct HtmlPage {
    std::vector<HtmlLine> lines;
    std::vector<std::string> jsonBlocks; // the texts of its application/ld+json scripts
};

bool looksLikeHtml(std::string_view text);
HtmlPage readHtml(std::string_view html);
// "&frac12;&nbsp;cup" -> "½ cup"
std::string withoutEntities(std::string_view text);

} // namespace stillroom::exchange
