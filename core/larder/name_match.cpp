#include "core/larder/name_match.h"

#include "core/base/text.h"
#include "core/larder/handbook.h"
#include "core/larder/ratio_syrup.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace stillroom::larder {

namespace {

constexpr double kCloseEnough = 0.62;
constexpr double kAsGood = 0.02; // scores nearer than this do not decide
constexpr std::size_t kMostAlternatives = 8;
constexpr std::size_t kLongestName = 300; // bytes; beyond it is no name, and looking for it takes long

NameMatch sure(base::IngredientId id) {
    return {MatchQuality::Exact, id, {}, std::nullopt};
}

NameMatch ambiguous(std::vector<base::IngredientId> candidates, bool firstIsChoice) {
    NameMatch match;
    match.quality = MatchQuality::Ambiguous;
    if (firstIsChoice) match.ingredient = candidates.front();
    match.alternatives = std::move(candidates);
    if (match.alternatives.size() > kMostAlternatives) match.alternatives.resize(kMostAlternatives);
    return match;
}

// Several hits for one spelling: a thing's own name outranks another's alias.
std::optional<NameMatch> fromHits(const std::vector<NameHit>& hits) {
    if (hits.empty()) return std::nullopt;
    std::vector<base::IngredientId> named;
    std::vector<base::IngredientId> ids;
    for (const NameHit& hit : hits) {
        ids.push_back(hit.id);
        if (hit.isName) named.push_back(hit.id);
    }
    if (named.size() == 1) return sure(named.front());
    if (ids.size() == 1) return sure(ids.front());
    return ambiguous(std::move(ids), false);
}

std::optional<NameMatch> fromShared(const std::unordered_map<std::string, std::size_t>& places,
                                    const std::string& key) {
    const auto found = places.find(key);
    if (found == places.end()) return std::nullopt;
    const SharedName& shared = Handbook::builtIn().sharedNames()[found->second];
    return ambiguous(shared.kinds, shared.hasDefault);
}

// The name as it stands, but for case, accents, plural, spelling, fillers and word order.
std::optional<NameMatch> asWritten(const WrittenName& name, const NameSources& sources) {
    if (auto match = fromHits(sources.own->exact(name.folded))) return match;
    if (sources.handbook) {
        if (auto match = fromShared(sources.handbook->sharedByFolded, name.folded)) return match;
        if (auto match = fromHits(sources.handbook->index.exact(name.folded))) return match;
    }
    if (auto match = fromHits(sources.own->byKey(name.key))) return match;
    if (sources.handbook) {
        if (auto match = fromShared(sources.handbook->sharedByKey, name.key)) return match;
        if (auto match = fromHits(sources.handbook->index.byKey(name.key))) return match;
    }
    if (auto match = fromHits(sources.own->byCompact(name.compact))) return match;
    if (sources.handbook)
        if (auto match = fromHits(sources.handbook->index.byCompact(name.compact))) return match;
    return std::nullopt;
}

bool known(std::string_view word, const NameSources& sources) {
    return sources.own->knowsWord(word) || (sources.handbook && sources.handbook->index.knowsWord(word));
}

std::string corrected(const std::string& word, const NameSources& sources) {
    if (known(word, sources)) return word;
    std::string nearest = sources.own->nearestWord(word);
    if (nearest.empty() && sources.handbook) nearest = sources.handbook->index.nearestWord(word);
    return nearest.empty() ? word : nearest;
}

// Misspelt words put right: "liqeur", "cointreu" stays what it is.
WrittenName withTyposMended(WrittenName name, const NameSources& sources) {
    for (std::string& word : name.words)
        word = corrected(word, sources);
    name.head = corrected(name.head, sources);
    std::vector<std::string> sorted = name.words;
    std::sort(sorted.begin(), sorted.end());
    name.key.clear();
    for (const std::string& word : sorted)
        name.key += (name.key.empty() ? "" : " ") + word;
    return name;
}

std::optional<NameMatch> byScore(const WrittenName& name, const NameSources& sources) {
    std::vector<NameScore> scores = sources.own->scored(name.words, name.head);
    if (sources.handbook) {
        const auto more = sources.handbook->index.scored(name.words, name.head);
        scores.insert(scores.end(), more.begin(), more.end());
        std::stable_sort(scores.begin(), scores.end(),
                         [](const NameScore& a, const NameScore& b) { return a.score > b.score; });
    }
    if (scores.empty() || scores.front().score < kCloseEnough) return std::nullopt;
    NameMatch match{MatchQuality::Close, scores.front().id, {}, std::nullopt};
    for (std::size_t i = 0; i < scores.size() && match.alternatives.size() < kMostAlternatives; ++i) {
        if (scores[i].score < kCloseEnough) break;
        if (i > 0 && scores[i].id != match.ingredient) match.alternatives.push_back(scores[i].id);
    }
    if (!match.alternatives.empty() && scores[0].score - scores[1].score < kAsGood) {
        match.quality = MatchQuality::Ambiguous;
        match.alternatives.insert(match.alternatives.begin(), match.ingredient);
        match.ingredient = {};
    }
    return match;
}

std::optional<NameMatch> asClose(std::optional<NameMatch> match) {
    if (match && match->quality == MatchQuality::Exact) match->quality = MatchQuality::Close;
    return match;
}

// Parts and uses of a thing: "thyme sprig" is thyme, "salt rim" is salt.
bool isFormWord(std::string_view stem) {
    constexpr std::array<std::string_view, 22> words{
        "sprig", "leaf",     "slice", "wedge", "wheel",   "piece",  "stalk",  "bunch",
        "twig",  "half",     "chunk", "rim",   "rinse",   "mist",   "ribbon", "spear",
        "coin",  "crescent", "fan",   "round", "quarter", "garnish"};
    return std::find(words.begin(), words.end(), stem) != words.end();
}

std::optional<NameMatch> withoutForm(const WrittenName& name, const NameSources& sources) {
    if (name.words.size() < 2 || !isFormWord(name.words.back())) return std::nullopt;
    std::string rest;
    for (std::size_t i = 0; i + 1 < name.words.size(); ++i)
        rest += (i > 0 ? " " : "") + name.words[i];
    return asClose(asWritten(readName(rest), sources));
}

// One word away from something harmless, and not to be taken for it.
bool isNeverLoose(std::string_view key) {
    constexpr std::array<std::string_view, 4> keys{"dry ice", "liquid nitrogen", "almond bitter",
                                                   "apricot kernel"};
    return std::find(keys.begin(), keys.end(), key) != keys.end();
}

double strengthDistance(const Ingredient* ingredient, double abv) {
    if (ingredient == nullptr || !ingredient->facts.abvPercent) return 1e9;
    const Fact& fact = *ingredient->facts.abvPercent;
    if (abv < fact.low || abv > fact.high) return 1e6 + std::abs(fact.typical - abv);
    return std::abs(fact.typical - abv);
}

// "rum, 63 %": among the kinds the name may mean, and the stronger and weaker ones of their sort, the one
// whose own range holds the stated strength.
void settleByStrength(NameMatch& match, const WrittenName& name, const NameSources& sources) {
    if (!match.statedAbv || match.quality != MatchQuality::Ambiguous) return;
    std::vector<base::IngredientId> candidates = match.alternatives;
    if (sources.handbook)
        for (const NameScore& score : sources.handbook->index.scored(name.words, name.head))
            if (std::find(candidates.begin(), candidates.end(), score.id) == candidates.end())
                candidates.push_back(score.id);
    std::stable_sort(candidates.begin(), candidates.end(), [&](base::IngredientId a, base::IngredientId b) {
        return strengthDistance(sources.find(a), *match.statedAbv) <
               strengthDistance(sources.find(b), *match.statedAbv);
    });
    if (strengthDistance(sources.find(candidates.front()), *match.statedAbv) >= 1e6) return;
    match.quality = MatchQuality::Close;
    match.ingredient = candidates.front();
    candidates.erase(candidates.begin());
    if (candidates.size() > kMostAlternatives) candidates.resize(kMostAlternatives);
    match.alternatives = std::move(candidates);
}

std::optional<NameMatch> stripped(std::string_view written, const NameSources& sources) {
    WrittenName name = readNameStripped(written);
    if (!name.somethingLeft || name.words.empty()) return std::nullopt;
    std::optional<NameMatch> match;
    if (name.statedAge) {
        // An old rum is an aged rum before it is any rum.
        WrittenName aged = readName("aged " + name.folded);
        match = asClose(asWritten(aged, sources));
    }
    if (!match) match = asClose(asWritten(name, sources));
    if (!match) {
        name = withTyposMended(std::move(name), sources);
        match = asClose(asWritten(name, sources));
    }
    if (!match) match = byScore(name, sources);
    if (!match) return std::nullopt;
    match->statedAbv = name.statedAbv;
    settleByStrength(*match, name, sources);
    return match;
}

// "gin and sweet vermouth" is two things, whatever its last words say.
bool isTwoThings(std::string_view written, const NameSources& sources) {
    const std::string folded = base::fold(written);
    for (const std::string_view between : {" and ", " & ", " + ", " und ", " et "}) {
        const std::size_t at = folded.find(between);
        if (at == std::string::npos) continue;
        const auto first = asWritten(readName(std::string_view(folded).substr(0, at)), sources);
        const auto second =
            asWritten(readName(std::string_view(folded).substr(at + between.size())), sources);
        if (first && second) return true;
    }
    return false;
}

std::optional<NameMatch> fromChoices(std::string_view written, const NameSources& sources) {
    const std::vector<std::string> parts = choices(written);
    if (parts.size() < 2) return std::nullopt;
    std::vector<base::IngredientId> ids;
    bool firstIsChoice = true; // the writer named it first
    for (const std::string& part : parts) {
        const NameMatch match = matchName(part, sources);
        if (match.quality == MatchQuality::None) return std::nullopt;
        firstIsChoice = firstIsChoice && (!ids.empty() || !match.ingredient.isNull());
        const base::IngredientId id =
            match.ingredient.isNull() ? match.alternatives.front() : match.ingredient;
        if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
    }
    if (ids.size() == 1 && firstIsChoice)
        return NameMatch{MatchQuality::Close, ids.front(), {}, std::nullopt};
    return ambiguous(std::move(ids), firstIsChoice);
}

// "1.5:1 simple syrup by weight": its own ratio, which no likeness of words can tell. The house's own thing
// of exactly that name comes first.
std::optional<NameMatch> byRatio(std::string_view written, const WrittenName& name,
                                 const NameSources& sources) {
    if (!sources.handbook) return std::nullopt;
    const auto words = ratioWords(written);
    if (!words) return std::nullopt;
    if (auto match = fromHits(sources.own->exact(name.folded))) return match;
    static const NameIndex nothing;
    const NameMatch rest = matchName(words->rest, {&nothing, sources.handbook, sources.find});
    const Ingredient* syrup = Handbook::builtIn().find(rest.ingredient);
    const auto kinds = syrup != nullptr ? ratioKinds(*words, *syrup) : std::nullopt;
    if (!kinds) return std::nullopt;
    if (!kinds->mass || kinds->first == *kinds->mass) return sure(kinds->first);
    return ambiguous({kinds->first, *kinds->mass, *kinds->volume}, true);
}

} // namespace

const HandbookNames& handbookNames() {
    static const HandbookNames names = [] {
        HandbookNames built;
        const Handbook& book = Handbook::builtIn();
        for (const Ingredient& kind : book.kinds())
            built.index.add(kind);
        for (std::size_t i = 0; i < book.sharedNames().size(); ++i) {
            const WrittenName read = readName(book.sharedNames()[i].name);
            built.sharedByFolded.emplace(read.folded, i);
            built.sharedByKey.emplace(read.key, i);
        }
        return built;
    }();
    return names;
}

NameMatch matchName(std::string_view written, const NameSources& sources) {
    if (written.size() > kLongestName) return {};
    const WrittenName name = readName(written);
    if (name.words.empty()) return {};
    if (auto match = byRatio(written, name, sources)) return *match;
    if (auto match = asWritten(name, sources)) {
        match->statedAbv = readNameStripped(written).statedAbv; // "151-proof rum" is a name of its own
        return *match;
    }
    if (isNeverLoose(name.key)) return {};
    if (auto match = fromChoices(written, sources)) return *match;
    if (isTwoThings(written, sources)) return {};
    if (auto match = stripped(written, sources)) return *match;
    const WrittenName mended = withTyposMended(name, sources);
    if (mended.key != name.key)
        if (auto match = asClose(asWritten(mended, sources))) return *match;
    if (auto match = withoutForm(mended, sources)) return *match;
    if (auto match = byScore(mended, sources)) return *match;
    return {};
}

} // namespace stillroom::larder
