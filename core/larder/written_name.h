#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::larder {

// A name as people write it, made comparable. Two names that differ only by case, accents, hyphens, plural,
// spelling (whisky, whiskey), articles, "fresh" or the order of words have the same `key`.
struct WrittenName {
    std::string folded;             // base::fold, without punctuation
    std::vector<std::string> words; // singular, one spelling, fillers dropped, in the order written
    std::string key;                // the words sorted
    std::string compact;            // folded without spaces: "eggwhite"
    // The word that says what the thing is: "syrup" in "lime and ginger syrup", "jus" in "jus de citron".
    std::string head;
    // Taken out of the name, when stripped: "rum, 63 %", "151-proof rum".
    std::optional<double> statedAbv;
    bool statedAge = false;     // "8-year-old rum"
    bool somethingLeft = false; // stripping took a strength, an age or a bracket away
};

// The name as it stands.
WrittenName readName(std::string_view written);
// The name without strength, age and brackets, which are noted instead.
WrittenName readNameStripped(std::string_view written);
// "bourbon or rye" -> {"bourbon", "rye"}; one part when there is no choice in it.
std::vector<std::string> choices(std::string_view written);

// A word without its plural and in the one spelling kept: "berries" -> "berry", "whiskey" -> "whisky".
std::string wordStem(std::string_view foldedWord);

} // namespace stillroom::larder
