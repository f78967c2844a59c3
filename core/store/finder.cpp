#include "core/store/finder.h"

#include "core/base/text.h"

#include <algorithm>
#include <array>

namespace stillroom::store {

namespace {

using history::WantedWord;

// In which columns all words must stand for a drink to come this early.
constexpr std::array<const char*, 4> kTiers{"name", "name tags", "name tags lines",
                                            "name tags lines brief notes"};

constexpr std::size_t kWordsAtOnce = 2000; // of the vocabulary, some milliseconds
constexpr int kFiguresAtOnce = 8;          // drinks, likewise
// So many drinks were read again that listing all of them is quicker.
constexpr std::size_t kListedOneByOne = 40;

constexpr std::size_t kMostParts = 3; // of a snippet
constexpr std::string_view kBetweenParts = " · ";

struct Best {
    SearchField field = SearchField::None;
    history::Excerpt excerpt;
    std::optional<base::RevisionId> revision;
};

void offer(Best& best, SearchField field, std::string_view text, const std::vector<WantedWord>& words,
           std::optional<base::RevisionId> revision = {}) {
    if (best.excerpt.found == words.size()) return;
    history::Excerpt excerpt = history::excerpt(text, words);
    if (excerpt.found > best.excerpt.found) best = {field, std::move(excerpt), revision};
}

void offerLines(Best& best, SearchField field, const std::string& text,
                const std::vector<WantedWord>& words) {
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find('\n', begin), text.size());
        offer(best, field, std::string_view(text).substr(begin, end - begin), words);
        begin = end + 1;
    }
}

Best bestPlace(const SearchText& text, const std::vector<WantedWord>& words) {
    Best best;
    offer(best, SearchField::Name, text.name, words);
    offerLines(best, SearchField::Tags, text.tags, words);
    offerLines(best, SearchField::Lines, text.lines, words);
    offerLines(best, SearchField::Brief, text.brief, words);
    offerLines(best, SearchField::Notes, text.notes, words);
    for (auto said = text.reasons.rbegin(); said != text.reasons.rend(); ++said)
        offer(best, SearchField::Reason, said->second, words, said->first);
    for (auto said = text.tasted.rbegin(); said != text.tasted.rend(); ++said)
        offer(best, SearchField::Tasting, said->second, words, said->first);
    return best;
}

} // namespace

void Finder::forgetAll() {
    m_listed.clear();
    m_places.clear();
    m_toList.clear();
    m_isListed = false;
    m_vocabulary = {};
    m_lastWord.clear();
    m_wordsAreRead = false;
    m_figures.clear();
}

void Finder::wasRead(std::int64_t drink, const std::vector<std::string>& words) {
    if (m_isListed) m_toList.push_back(drink);
    m_figures.erase(drink);
    m_vocabulary.add(words);
}

void Finder::list() {
    if (m_isListed && m_toList.empty()) return;
    if (!m_isListed || m_toList.size() > kListedOneByOne) {
        m_listed = m_repository.listed();
    } else {
        for (const std::int64_t row : m_toList) {
            auto anew = m_repository.listed(row);
            const auto place = m_places.find(row);
            if (anew && place != m_places.end())
                m_listed[place->second] = *std::move(anew);
            else if (anew)
                m_listed.push_back(*std::move(anew));
        }
    }
    m_toList.clear();
    m_isListed = true;
    std::sort(m_listed.begin(), m_listed.end(), [](const auto& a, const auto& b) {
        return std::tie(a.nameKey, a.row) < std::tie(b.nameKey, b.row);
    });
    m_places.clear();
    for (std::size_t place = 0; place < m_listed.size(); ++place)
        m_places.emplace(m_listed[place].row, place);
}

void Finder::readWords() {
    if (m_wordsAreRead) return;
    auto words = m_repository.wordsAfter(m_lastWord, kWordsAtOnce);
    m_wordsAreRead = words.size() < kWordsAtOnce;
    if (!words.empty()) m_lastWord = words.back().text;
    m_vocabulary.append(std::move(words));
}

int Finder::warm(int drinks, const FiguresOf& figuresOf) {
    const auto left = [this] {
        return static_cast<int>(m_listed.size() - m_figures.size()) + (m_wordsAreRead ? 0 : 1);
    };
    if (!m_isListed || !m_toList.empty()) {
        list();
        return left();
    }
    if (!m_wordsAreRead) {
        readWords();
        return left();
    }
    for (const auto& listed : m_listed) {
        if (drinks <= 0) break;
        if (m_figures.count(listed.row) > 0) continue;
        m_figures.emplace(listed.row, figuresOf(listed.drink));
        --drinks;
    }
    return left();
}

std::vector<Finder::Found> Finder::found(const std::vector<WantedWord>& words) const {
    std::unordered_map<std::int64_t, int> tiers;
    if (words.empty()) {
        std::vector<Found> all;
        for (std::size_t place = 0; place < m_listed.size(); ++place)
            all.push_back({m_listed[place].row, 0, place});
        return all;
    }
    {
        if (history::isRanked(words))
            for (std::size_t tier = 0; tier < kTiers.size(); ++tier)
                for (const std::int64_t row : m_repository.matching(words, kTiers[tier]))
                    tiers.emplace(row, static_cast<int>(tier));
        for (const std::int64_t row : m_repository.matching(words, ""))
            tiers.emplace(row, static_cast<int>(kTiers.size()));
    }
    std::vector<Found> found;
    for (const auto& [row, tier] : tiers)
        if (const auto place = m_places.find(row); place != m_places.end())
            found.push_back({row, tier, place->second});
    return found;
}

bool Finder::isListedRight(const SearchFilters& filters, const SearchRepository::Listed& listed) const {
    if (filters.form && listed.form != *filters.form) return false;
    if (filters.changedFrom && listed.changedMs < *filters.changedFrom) return false;
    if (filters.changedBefore && listed.changedMs >= *filters.changedBefore) return false;
    const auto& states = filters.states;
    return !listed.binned || std::find(states.begin(), states.end(), SearchState::Binned) != states.end();
}

SearchAnswer Finder::search(const SearchRequest& request, int atMost, const FiguresOf& figuresOf) {
    list();
    readWords();
    SearchAnswer answer;
    const auto words = history::wantedWords(request.words, m_vocabulary);
    for (const WantedWord& word : words)
        answer.words.push_back({word.typed, word.read});

    // Marks alone are no question: every drink would answer it.
    const bool isAsked = !words.empty() || base::trimmed(request.words).empty();
    std::vector<Found> all = isAsked ? found(words) : std::vector<Found>{};
    const bool wantsFigures = needsFigures(request.filters);
    int mayAsk = kFiguresAtOnce;
    const auto fails = [&](const Found& each) {
        const auto& listed = m_listed[each.place];
        if (!isListedRight(request.filters, listed)) return true;
        if (!wantsFigures) return false;
        auto figures = m_figures.find(each.row);
        if (figures == m_figures.end()) {
            if (mayAsk-- <= 0) {
                ++answer.unread;
                return true;
            }
            figures = m_figures.emplace(each.row, figuresOf(listed.drink)).first;
        }
        return !passes(request.filters, figures->second);
    };
    all.erase(std::remove_if(all.begin(), all.end(), fails), all.end());
    // A word that is in no drink may be a slip of one that is not known yet.
    const auto isStrange = [this](const WantedWord& word) { return !m_vocabulary.hasBeginning(word.typed); };
    if (!m_wordsAreRead && std::any_of(words.begin(), words.end(), isStrange))
        answer.unread = std::max(answer.unread, static_cast<int>(m_listed.size()));
    answer.total = static_cast<int>(all.size());
    const auto shown = std::min(all.size(), static_cast<std::size_t>(std::max(atMost, 0)));
    std::partial_sort(
        all.begin(), all.begin() + static_cast<std::ptrdiff_t>(shown), all.end(),
        [](const Found& a, const Found& b) { return std::tie(a.tier, a.place) < std::tie(b.tier, b.place); });
    for (std::size_t i = 0; i < shown; ++i)
        answer.hits.push_back(hit(all[i], words));
    return answer;
}

SearchHit Finder::hit(const Found& found, const std::vector<WantedWord>& words) const {
    const auto& listed = m_listed[found.place];
    SearchHit hit;
    hit.drink = listed.drink;
    hit.name = listed.name;
    hit.form = listed.form;
    hit.binned = listed.binned;
    if (words.empty()) return hit;
    const SearchText text = m_repository.stored(found.row);
    // Words that the first place does not show are shown from where they stand, so that all are seen.
    auto wanted = words;
    for (std::size_t part = 0; part < kMostParts && !wanted.empty(); ++part) {
        const Best best = bestPlace(text, wanted);
        if (best.excerpt.shown.empty() && part > 0) break;
        if (part == 0) {
            hit.field = best.field;
            hit.revision = best.revision;
        } else {
            hit.snippet += kBetweenParts;
        }
        for (const auto& [start, length] : best.excerpt.marks)
            hit.marks.push_back({hit.snippet.size() + start, length});
        hit.snippet += best.excerpt.text;
        for (auto shown = best.excerpt.shown.rbegin(); shown != best.excerpt.shown.rend(); ++shown)
            wanted.erase(wanted.begin() + static_cast<std::ptrdiff_t>(*shown));
        if (best.excerpt.shown.empty()) break;
    }
    return hit;
}

} // namespace stillroom::store
