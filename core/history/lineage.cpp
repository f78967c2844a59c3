#include "core/history/lineage.h"

#include "core/base/text.h"
#include "core/history/diff.h"

namespace stillroom::history {

namespace {

constexpr std::size_t kLongestReason = 200;

void append(std::string& text, const char* between, const std::string& more) {
    if (more.empty()) return;
    if (!text.empty()) text += between;
    text += more;
}

} // namespace

std::string sourceInWords(const Source& source) {
    std::string words;
    for (const std::string* part : {&source.person, &source.place, &source.year, &source.work})
        append(words, ", ", std::string(base::trimmed(*part)));
    return words;
}

std::string creditInWords(const Drink& drink, const std::string& afterName) {
    std::string words;
    if (drink.after.drink && !afterName.empty()) append(words, "; ", "after " + afterName);
    if (const std::string source = sourceInWords(drink.after.source); !source.empty())
        append(words, "; ", "after " + source);
    append(words, "; ", drink.credit);
    return words;
}

std::optional<base::RevisionId> currentRevision(const Drink& drink) {
    return drink.published ? drink.published : drink.house;
}

bool isStale(const Drink& drink, base::RevisionId shown) {
    const auto current = currentRevision(drink);
    return current && *current != shown;
}

std::string proposedReason(const spec::Spec& before, const spec::Spec& after,
                           const quantity::HouseMeasures& measures) {
    const SpecDifference changed = difference(before, after, measures);
    return changed.isEmpty() ? "" : base::elided(inWords(changed, before, after), kLongestReason);
}

} // namespace stillroom::history
