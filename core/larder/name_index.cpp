#include "core/larder/name_index.h"

#include "core/base/text.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace stillroom::larder {

namespace {

const std::vector<NameHit> kNoHits;

constexpr std::array<std::string_view, 62> kDescriptors{
    "white",  "black",   "red",     "dark",    "light",   "pale",        "golden",    "gold",     "amber",
    "silver", "green",   "yellow",  "pink",    "aged",    "old",         "young",     "strong",   "weak",
    "dry",    "sweet",   "extra",   "rich",    "thick",   "thin",        "plain",     "cold",     "hot",
    "warm",   "boiling", "cloudy",  "clear",   "sliced",  "crushed",     "chopped",   "grated",   "ground",
    "dried",  "frozen",  "bottled", "canned",  "natural", "unsweetened", "sweetened", "raw",      "whole",
    "peeled", "pitted",  "cut",     "blended", "italian", "french",      "spanish",   "american", "english",
    "bitter", "sour",    "smoked",  "smoky",   "unaged",  "loaf",        "bar",       "refined"};

// What these are is said by the word beside them: an unknown word there means an unknown thing.
constexpr std::array<std::string_view, 37> kGenericHeads{
    "syrup",   "juice",  "liqueur", "tea",    "soda",  "puree",    "cordial", "water",  "milk",   "cream",
    "wine",    "sugar",  "extract", "oil",    "sauce", "jam",      "acid",    "powder", "nectar", "tincture",
    "schnapp", "brandy", "drink",   "butter", "salt",  "vinegar",  "shrub",   "leaf",   "peel",   "seed",
    "root",    "flower", "fruit",   "berry",  "ice",   "solution", "spirit"};

bool isGenericHead(std::string_view stem) {
    return std::find(kGenericHeads.begin(), kGenericHeads.end(), stem) != kGenericHeads.end();
}

template <class Map>
const std::vector<NameHit>& lookedUp(const Map& map, std::string_view key) {
    const auto found = map.find(std::string(key));
    return found == map.end() ? kNoHits : found->second;
}

void drop(std::unordered_map<std::string, std::vector<NameHit>>& map, const std::string& key,
          base::IngredientId id) {
    const auto found = map.find(key);
    if (found == map.end()) return;
    std::erase_if(found->second, [id](const NameHit& hit) { return hit.id == id; });
    if (found->second.empty()) map.erase(found);
}

void push(std::vector<NameHit>& hits, base::IngredientId id, bool isName) {
    for (NameHit& hit : hits)
        if (hit.id == id) {
            hit.isName = hit.isName || isName;
            return;
        }
    hits.push_back({id, isName});
}

std::vector<std::string> splitAtSpaces(std::string_view text) {
    std::vector<std::string> words;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find(' ', begin), text.size());
        if (end > begin) words.emplace_back(text.substr(begin, end - begin));
        begin = end + 1;
    }
    return words;
}

std::size_t typosAllowed(std::string_view word) {
    return word.size() >= 8 ? 2 : (word.size() >= 5 ? 1 : 0);
}

void bestOfEach(std::vector<NameScore>& scores) {
    std::sort(scores.begin(), scores.end(), [](const NameScore& a, const NameScore& b) {
        if (a.score != b.score) return a.score > b.score;
        if (a.isName != b.isName) return a.isName;
        return a.id < b.id;
    });
    std::vector<NameScore> kept;
    for (const NameScore& score : scores)
        if (std::none_of(kept.begin(), kept.end(), [&](const NameScore& k) { return k.id == score.id; }))
            kept.push_back(score);
    scores = std::move(kept);
}

} // namespace

bool isDescriptor(std::string_view stem) {
    // "No. 4": a number tells batches apart.
    if (stem == "no" || stem.find_first_not_of("0123456789") == std::string_view::npos) return true;
    return std::find(kDescriptors.begin(), kDescriptors.end(), stem) != kDescriptors.end();
}

std::uint32_t NameIndex::numberOf(const std::string& stem) {
    const auto [place, isNew] = m_wordNumbers.emplace(stem, static_cast<std::uint32_t>(m_words.size()));
    if (isNew) {
        m_words.push_back(stem);
        m_entriesOf.emplace_back();
    }
    return place->second;
}

void NameIndex::addName(base::IngredientId id, std::string_view name, bool isName) {
    const WrittenName read = readName(name);
    if (read.folded.empty()) return;
    push(m_exact[read.folded], id, isName);
    push(m_byKey[read.key], id, isName);
    push(m_byCompact[read.compact], id, isName);

    Entry entry;
    entry.id = id;
    entry.isName = isName;
    entry.folded = splitAtSpaces(read.folded);
    entry.head = numberOf(read.head);
    const auto index = static_cast<std::uint32_t>(m_entries.size());
    for (const std::string& word : read.words) {
        const std::uint32_t number = numberOf(word);
        if (std::find(entry.words.begin(), entry.words.end(), number) != entry.words.end()) continue;
        entry.words.push_back(number);
        m_entriesOf[number].push_back(index);
    }
    m_entries.push_back(std::move(entry));
}

void NameIndex::add(const Ingredient& ingredient) {
    addName(ingredient.id, ingredient.name, true);
    for (const std::string& alias : ingredient.aliases)
        addName(ingredient.id, alias, false);
}

void NameIndex::remove(const Ingredient& ingredient) {
    const auto forget = [&](std::string_view name) {
        const WrittenName read = readName(name);
        drop(m_exact, read.folded, ingredient.id);
        drop(m_byKey, read.key, ingredient.id);
        drop(m_byCompact, read.compact, ingredient.id);
    };
    forget(ingredient.name);
    for (const std::string& alias : ingredient.aliases)
        forget(alias);
    for (Entry& entry : m_entries)
        if (entry.id == ingredient.id) entry.dead = true;
}

const std::vector<NameHit>& NameIndex::exact(std::string_view folded) const {
    return lookedUp(m_exact, folded);
}

const std::vector<NameHit>& NameIndex::byKey(std::string_view key) const {
    return lookedUp(m_byKey, key);
}

const std::vector<NameHit>& NameIndex::byCompact(std::string_view compact) const {
    return lookedUp(m_byCompact, compact);
}

bool NameIndex::knowsWord(std::string_view stem) const {
    return m_wordNumbers.contains(std::string(stem));
}

std::string NameIndex::nearestWord(std::string_view stem) const {
    const std::size_t allowed = typosAllowed(stem);
    if (allowed == 0) return {};
    std::string best;
    std::size_t bestDistance = allowed + 1;
    for (const std::string& word : m_words) {
        // A slip in the first letter is rare, and allowing it turns "pine" into "wine".
        if (word.empty() || word[0] != stem[0] || word.size() < 4) continue;
        const std::size_t gap =
            word.size() > stem.size() ? word.size() - stem.size() : stem.size() - word.size();
        if (gap >= bestDistance) continue;
        const std::size_t distance = base::editDistance(stem, word, bestDistance - 1);
        if (distance < bestDistance) {
            best = word;
            bestDistance = distance;
        }
    }
    return best;
}

// Rare words say more than common ones; descriptors say little.
double NameIndex::weight(std::uint32_t word) const {
    const double names = static_cast<double>(m_entries.size()) + 1;
    const double count = static_cast<double>(m_entriesOf[word].size()) + 1;
    const double rarity = 1 + 0.25 * std::log(names / count);
    return isDescriptor(m_words[word]) ? 0.35 * rarity : rarity;
}

double NameIndex::scoreOf(const Entry& entry, const std::vector<std::string>& words,
                          std::string_view head) const {
    double common = 0;
    double written = 0;
    bool headMet = false;
    std::size_t strangers = 0;
    for (const std::string& word : words) {
        const auto found = m_wordNumbers.find(word);
        if (found == m_wordNumbers.end()) {
            if (isDescriptor(word)) {
                written += 0.35;
                continue;
            }
            // Before "gin" a maker's name or a place; before "syrup" what it is made of.
            written += isGenericHead(head) ? 1.5 : 0.4;
            if (isGenericHead(head)) ++strangers;
            continue;
        }
        const double w = weight(found->second);
        written += w;
        const bool here =
            std::find(entry.words.begin(), entry.words.end(), found->second) != entry.words.end();
        if (here) {
            common += w;
            headMet = headMet || word == head;
        } else if (!isDescriptor(word)) {
            ++strangers;
        }
    }
    if (!headMet || common == 0) return 0;
    double own = 0;
    std::size_t unmet = 0;
    for (const std::uint32_t number : entry.words) {
        own += weight(number);
        const std::string& word = m_words[number];
        if (std::find(words.begin(), words.end(), word) == words.end() && !isDescriptor(word)) ++unmet;
    }
    // "cherry gin" is not gin, and lime is not lime cordial: what a thing is called must agree on both sides.
    const bool sameHead = m_words[entry.head] == head;
    if (!sameHead) return 0;
    if (strangers > 0 && unmet > 0) return 0;
    const double covered = common / written;
    const double covering = common / own;
    if (strangers > 0 && covered < 0.62) return 0;
    return std::sqrt(covered * covering);
}

std::vector<NameScore> NameIndex::scored(const std::vector<std::string>& words, std::string_view head) const {
    std::vector<NameScore> scores;
    const auto headNumber = m_wordNumbers.find(std::string(head));
    if (headNumber == m_wordNumbers.end()) return scores;
    for (const std::uint32_t index : m_entriesOf[headNumber->second]) {
        const Entry& entry = m_entries[index];
        if (entry.dead) continue;
        const double score = scoreOf(entry, words, head);
        if (score > 0) scores.push_back({entry.id, score, entry.isName});
    }
    bestOfEach(scores);
    return scores;
}

std::vector<NameScore> NameIndex::beginning(const std::vector<std::string>& typedWords) const {
    std::vector<NameScore> scores;
    for (const Entry& entry : m_entries) {
        if (entry.dead) continue;
        std::size_t letters = 0;
        bool all = true;
        bool inOrder = true;
        std::size_t place = 0;
        for (const std::string& typed : typedWords) {
            bool met = false;
            for (std::size_t i = 0; i < entry.folded.size() && !met; ++i)
                if (entry.folded[i].compare(0, typed.size(), typed) == 0) {
                    met = true;
                    inOrder = inOrder && i == place;
                    ++place;
                }
            all = all && met;
            letters += typed.size();
        }
        if (!all) continue;
        std::size_t length = 0;
        for (const std::string& word : entry.folded)
            length += word.size();
        const double share = static_cast<double>(letters) / static_cast<double>(std::max(length, letters));
        scores.push_back({entry.id, 0.5 * share + (inOrder ? 0.5 : 0.0), entry.isName});
    }
    bestOfEach(scores);
    return scores;
}

std::vector<NameScore> NameIndex::beginningRoughly(const std::vector<std::string>& typedWords) const {
    std::vector<NameScore> scores;
    for (const Entry& entry : m_entries) {
        if (entry.dead) continue;
        std::size_t slips = 0;
        bool all = true;
        for (const std::string& typed : typedWords) {
            const std::size_t allowed = typed.size() >= 4 ? std::max<std::size_t>(1, typosAllowed(typed)) : 0;
            std::size_t best = allowed + 1;
            for (const std::string& word : entry.folded) {
                if (word.empty() || word[0] != typed[0]) continue;
                const std::string_view start = std::string_view(word).substr(0, typed.size());
                best = std::min(best, base::editDistance(typed, start, allowed));
                // A letter too many or too few moves the end of what is compared.
                if (word.size() > typed.size())
                    best = std::min(
                        best, base::editDistance(typed, std::string_view(word).substr(0, typed.size() + 1),
                                                 allowed));
                if (typed.size() > 1)
                    best = std::min(
                        best, base::editDistance(typed, std::string_view(word).substr(0, typed.size() - 1),
                                                 allowed));
            }
            all = all && best <= allowed;
            slips += best;
        }
        if (all) scores.push_back({entry.id, 1.0 / (1.0 + static_cast<double>(slips)), entry.isName});
    }
    bestOfEach(scores);
    return scores;
}

} // namespace stillroom::larder
