#include "core/store/sqlite_workbook.h"
#include "core/store/stored.h"

namespace stillroom::store {

namespace {

// Before a search: what a person has just edited. More is left to catchUpSearch().
constexpr int kReadBeforeSearch = 4;
constexpr int kReadAtOnce = 200; // drinks to a transaction while all is read anew

} // namespace

void SqliteWorkbook::readDue(int atMost) {
    using Read = std::pair<std::int64_t, std::vector<std::string>>;
    if (m_file.readOnly || m_searches.dueCount() == 0) return;
    const auto read = change("reading for search", Durability::Draft, [&] {
        std::vector<Read> done;
        for (const std::int64_t drink : m_searches.due(atMost))
            done.emplace_back(drink, m_searches.readAnew(drink));
        return done;
    });
    for (const auto& [drink, words] : read)
        m_finder.wasRead(drink, words);
}

SearchAnswer SqliteWorkbook::search(const SearchRequest& request, int atMost) {
    const std::lock_guard lock(m_mutex);
    return reading("searching", [&] {
        readDue(kReadBeforeSearch);
        SearchAnswer answer =
            m_finder.search(request, atMost, [&](base::DrinkId drink) { return figuresOf(drink); });
        answer.unread += m_searches.dueCount();
        return answer;
    });
}

int SqliteWorkbook::catchUpSearch(int drinks) {
    const std::lock_guard lock(m_mutex);
    return reading("reading for search", [&] {
        int due = m_file.readOnly ? 0 : m_searches.dueCount();
        if (due == 0) return m_finder.warm(drinks, [&](base::DrinkId drink) { return figuresOf(drink); });
        readDue(drinks);
        due = m_searches.dueCount();
        return due > 0 ? due : 1; // then come the words and the figures
    });
}

void SqliteWorkbook::rebuildSearch() {
    const std::lock_guard lock(m_mutex);
    change("making the search index anew", Durability::Draft, [&] { m_searches.throwAway(); });
    m_finder.forgetAll();
    while (m_searches.dueCount() > 0)
        readDue(kReadAtOnce);
    m_finder.forgetAll(); // the words that are no longer there
}

DrinkFigures SqliteWorkbook::figuresOf(base::DrinkId id) const {
    const auto drink = m_drinks.find(id);
    if (!drink) return {};
    const auto shown = drink->house || !drink->published ? m_revisions.inUse(id) : drink->published;
    DrinkFigures figures;
    const larder::Larder now = larder(); // and the preparations with it
    if (const auto revision = shown ? m_revisions.find(*shown) : std::nullopt) {
        figures = store::figuresOf(revision->spec, revision->readings, now, m_preparations, draftRules());
        figures.currency = revision->currency;
    } else if (const auto drafts = m_drinks.draftsOf(id); !drafts.empty()) {
        const spec::Spec& spec = drafts.back().spec;
        figures = store::figuresOf(spec, spec::evaluate(spec, now, draftRules()), now, m_preparations,
                                   draftRules());
    }
    figures.states = m_searches.statesOf(id);
    if (!m_scales) m_scales = m_settings.load().scales;
    for (const tasting::Tasting& tasting : m_tastings.ofDrink(id))
        for (const tasting::ScaleDefinition& scale : m_scales->scales)
            if (tasting::saysTooMuch(tasting, scale.id, scale.name)) figures.tooMuchOf.insert(scale.id);
    return figures;
}

std::vector<std::string> SqliteWorkbook::tags() const {
    return reading("listing the tags", [&] { return m_searches.tags(); });
}

std::vector<SavedSearch> SqliteWorkbook::savedSearches() const {
    return reading("listing saved searches", [&] { return m_searches.saved(); });
}

SavedSearch SqliteWorkbook::saveSearch(const SavedSearch& search) {
    return change("saving a search", Durability::Kept, [&] { return m_searches.save(search); });
}

void SqliteWorkbook::removeSavedSearch(base::SavedSearchId search) {
    change("removing a saved search", Durability::Kept, [&] { m_searches.removeSaved(search); });
}

} // namespace stillroom::store
