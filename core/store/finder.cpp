#include "core/store/finder.h"

#include <algorithm>
#include <array>

namespace stillroom::store {

namespace {

using history::WantedWord;

// In which columns all words must stand for a drink to come this early.
constexpr std::array<const char*, 4> kTiers{"name", "name tags", "name tags lines",
                                            "name tags lines brief notes"};

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

} // namespace

void Finder::forgetAll() {
    m_vocabulary.reset();
    m_known.reset();
    m_figures.clear();
}

void Finder::wasRead(std::int64_t drink, const std::vector<std::string>& words) {
    m_known.reset();
    m_figures.erase(drink);
    if (m_vocabulary) m_vocabulary->add(words);
}

void Finder::learn() {
    if (!m_vocabulary) m_vocabulary.emplace(m_repository.words());
    if (m_known) return;
    auto listed = m_repository.listed();
    std::sort(listed.begin(), listed.end(), [](const auto& a, const auto& b) {
        return std::tie(a.nameKey, a.row) < std::tie(b.nameKey, b.row);
    });
    m_known.emplace();
    for (std::size_t place = 0; place < listed.size(); ++place)
        m_known->emplace(listed[place].row, Known{std::move(listed[place]), place});
}

std::vector<Finder::Found> Finder::found(const std::vector<WantedWord>& words) const {
    std::unordered_map<std::int64_t, int> tiers;
    if (words.empty()) {
        for (const auto& [row, known] : *m_known)
            tiers.emplace(row, 0);
    } else {
        if (history::isRanked(words))
            for (std::size_t tier = 0; tier < kTiers.size(); ++tier)
                for (const std::int64_t row : m_repository.matching(words, kTiers[tier]))
                    tiers.emplace(row, static_cast<int>(tier));
        for (const std::int64_t row : m_repository.matching(words, ""))
            tiers.emplace(row, static_cast<int>(kTiers.size()));
    }
    std::vector<Found> found;
    for (const auto& [row, tier] : tiers)
        if (const auto known = m_known->find(row); known != m_known->end())
            found.push_back({row, tier, known->second.place});
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
    learn();
    SearchAnswer answer;
    const auto words = history::wantedWords(request.words, *m_vocabulary);
    for (const WantedWord& word : words)
        answer.words.push_back({word.typed, word.read});

    std::vector<Found> all = found(words);
    const bool wantsFigures = needsFigures(request.filters);
    const auto fails = [&](const Found& each) {
        const auto& listed = m_known->at(each.row).listed;
        if (!isListedRight(request.filters, listed)) return true;
        if (!wantsFigures) return false;
        auto figures = m_figures.find(each.row);
        if (figures == m_figures.end()) figures = m_figures.emplace(each.row, figuresOf(listed.drink)).first;
        return !passes(request.filters, figures->second);
    };
    all.erase(std::remove_if(all.begin(), all.end(), fails), all.end());
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
    const auto& listed = m_known->at(found.row).listed;
    SearchHit hit;
    hit.drink = listed.drink;
    hit.name = listed.name;
    hit.form = listed.form;
    hit.binned = listed.binned;
    if (words.empty()) return hit;
    const SearchText text = m_repository.stored(found.row);
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
    hit.field = best.field;
    hit.revision = best.revision;
    hit.snippet = std::move(best.excerpt.text);
    for (const auto& [start, length] : best.excerpt.marks)
        hit.marks.push_back({start, length});
    return hit;
}

} // namespace stillroom::store
