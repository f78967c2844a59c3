#pragma once

#include "core/larder/facts.h"

#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::larder {

// Tags of a fact state whose figure is the lower end of what there is: more may be in it, and nobody knows
// how much. What is made here and not known whole hands them on, so that what is made of it counts what is
// known.
inline constexpr std::string_view kStrengthAtLeast = "at_least:strength";
inline constexpr std::string_view kSugarAtLeast = "at_least:sugar";
inline constexpr std::string_view kAcidAtLeast = "at_least:acid";
// Its price is of the priced parts alone, or of a yield that is at most so large.
inline constexpr std::string_view kPriceAtLeast = "at_least:price";
inline constexpr std::string_view kUnpriced = "unpriced:"; // and the name of a part that has no price

inline bool hasTag(const FactState& facts, std::string_view tag) {
    return std::find(facts.tags.begin(), facts.tags.end(), tag) != facts.tags.end();
}
inline void dropTag(FactState& facts, std::string_view tag) {
    std::erase(facts.tags, tag);
}
inline void putTag(FactState& facts, std::string tag) {
    if (hasTag(facts, tag)) return;
    facts.tags.push_back(std::move(tag));
    std::sort(facts.tags.begin(), facts.tags.end());
}
inline bool isPriceTag(std::string_view tag) {
    return tag == kPriceAtLeast || tag.starts_with(kUnpriced);
}
inline bool isAtLeastTag(std::string_view tag) {
    return tag.starts_with("at_least:") || tag.starts_with(kUnpriced);
}
inline std::vector<std::string> unpricedParts(const FactState& facts) {
    std::vector<std::string> names;
    for (const std::string& tag : facts.tags)
        if (tag.starts_with(kUnpriced)) names.push_back(tag.substr(kUnpriced.size()));
    return names;
}

} // namespace stillroom::larder
