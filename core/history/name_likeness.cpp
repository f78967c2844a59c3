#include "core/base/text.h"
#include "core/history/line_match.h"

#include <algorithm>
#include <array>

namespace stillroom::history {

using larder::WrittenName;

namespace {

bool contains(const std::vector<std::string>& words, const std::string& word) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

bool isSubset(const std::vector<std::string>& small, const std::vector<std::string>& large) {
    return std::all_of(small.begin(), small.end(), [&](const std::string& w) { return contains(large, w); });
}

// Nouns that say only what form a thing has: lemon juice is not lime juice, while dark rum is rum.
bool isOnlyForm(const std::string& head) {
    constexpr std::array kForms{"juice", "syrup",  "liqueur", "bitters", "wine",    "water",   "cream",
                                "milk",  "nectar", "soda",    "puree",   "cordial", "vinegar", "tea",
                                "salt",  "oil",    "leaf",    "peel",    "zest",    "white",   "yolk"};
    return std::find(kForms.begin(), kForms.end(), head) != kForms.end();
}

// Syrups of plain sugar go by several names.
std::vector<std::string> withoutPlainSugar(std::vector<std::string> words) {
    if (!contains(words, "syrup")) return words;
    constexpr std::array kPlain{"simple", "sugar", "plain", "white", "cane"};
    words.erase(std::remove_if(words.begin(), words.end(),
                               [&](const std::string& w) {
                                   return std::find(kPlain.begin(), kPlain.end(), w) != kPlain.end();
                               }),
                words.end());
    return words;
}

bool shareMoreThan(const WrittenName& a, const WrittenName& b) {
    return std::any_of(a.words.begin(), a.words.end(), [&](const std::string& word) {
        return word != a.head && word != b.head && contains(b.words, word);
    });
}

bool pourAlike(const std::string& a, const std::string& b) { // agave nectar, agave syrup
    return (a == "nectar" && b == "syrup") || (a == "syrup" && b == "nectar");
}

double nameLikeness(const WrittenName& a, const WrittenName& b) {
    if (a.words.empty() || b.words.empty()) return a.folded == b.folded ? 1 : 0;
    if (a.key == b.key) return 1;
    const std::size_t letters = std::max(a.folded.size(), b.folded.size());
    const std::size_t slips = letters / 6;
    if (slips > 0 && base::editDistance(a.folded, b.folded, slips) <= slips) return 0.8;
    const auto plainA = withoutPlainSugar(a.words);
    const auto plainB = withoutPlainSugar(b.words);
    const bool heads = a.head == b.head;
    const bool nested = isSubset(plainA, plainB) || isSubset(plainB, plainA);
    if (heads && plainA.size() == plainB.size() && nested) return 0.95;
    if (heads && nested && !(isOnlyForm(a.head) && (plainA.size() == 1 || plainB.size() == 1))) return 0.9;
    if (heads && isOnlyForm(a.head)) return shareMoreThan(a, b) ? 0.5 : 0;
    if (heads) return 0.6;
    if (pourAlike(a.head, b.head) && shareMoreThan(a, b)) return 0.55;
    return 0;
}

} // namespace

bool standsFor(const WrittenName& a, const WrittenName& b) {
    return shareMoreThan(a, b);
}

bool sameForm(const WrittenName& a, const WrittenName& b) {
    return !a.words.empty() && !b.words.empty() && a.head == b.head && isOnlyForm(a.head);
}

double likeness(const spec::Line& a, const WrittenName& nameA, const spec::Line& b,
                const WrittenName& nameB) {
    if (a.ingredient && a.ingredient == b.ingredient) return 1;
    const double names = nameLikeness(nameA, nameB);
    // The larder takes them for two things: like, but only when nothing better answers.
    return a.ingredient && b.ingredient ? 0.9 * names : names;
}

double likeness(const spec::Line& a, const spec::Line& b) {
    return likeness(a, larder::readName(a.name), b, larder::readName(b.name));
}

} // namespace stillroom::history
