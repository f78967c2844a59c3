#include "core/larder/fact_changes.h"

#include "core/base/text.h"

namespace stillroom::larder {

namespace {

using Words = std::optional<std::vector<std::string>>;

Words wordsOf(const Shares& shares) {
    std::vector<std::string> words;
    for (const auto& [substance, share] : shares.parts)
        words.push_back(std::string(substanceId(substance)) + ' ' + base::shortestDecimal(share));
    return words;
}

Words wordsOf(bool flag) {
    return std::vector<std::string>{flag ? "true" : "false"};
}

Words wordsOf(const std::string& text) {
    return text.empty() ? Words() : Words(std::vector<std::string>{text});
}

} // namespace

FactChanges factChanges(const FactState& before, const FactState& after) {
    FactChanges changes;
    for (const FactKey& key : factKeys())
        if (before.*key.member != after.*key.member)
            changes.figures.push_back({key.id, before.*key.member, after.*key.member});
    const auto compare = [&changes](std::string_view key, Words was, Words is) {
        if (was != is) changes.words.push_back({key, std::move(was), std::move(is)});
    };
    compare("allergens", before.allergens, after.allergens);
    compare("group", wordsOf(before.group), wordsOf(after.group));
    compare("tags", before.tags, after.tags);
    compare("sugar_shares", wordsOf(before.sugarShares), wordsOf(after.sugarShares));
    compare("acid_shares", wordsOf(before.acidShares), wordsOf(after.acidShares));
    compare("dry", wordsOf(before.dry), wordsOf(after.dry));
    compare("soluble", wordsOf(before.soluble), wordsOf(after.soluble));
    compare("carbonated", wordsOf(before.carbonated), wordsOf(after.carbonated));
    return changes;
}

} // namespace stillroom::larder
