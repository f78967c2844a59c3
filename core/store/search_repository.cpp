#include "core/store/search_repository.h"

#include "core/base/text.h"
#include "core/base/words.h"
#include "core/store/stored.h"

#include <algorithm>
#include <array>
#include <limits>
#include <map>
#include <set>

namespace stillroom::store {

namespace {

constexpr std::size_t kColumns = 7;
using Columns = std::array<std::string, kColumns>;

std::string oneLine(std::string text) {
    std::replace_if(
        text.begin(), text.end(), [](char c) { return c == '\n' || c == '\r'; }, ' ');
    return text;
}

void addLine(std::string& text, const std::string& line) {
    if (base::trimmed(line).empty()) return;
    if (!text.empty()) text += '\n';
    text += oneLine(line);
}

std::string joined(const std::vector<SearchText::Said>& said) {
    std::string text;
    for (const auto& [id, words] : said) {
        if (&words != &said.front().second) text += '\n';
        text += words;
    }
    return text;
}

std::string idBytes(const std::vector<SearchText::Said>& said) {
    std::string bytes;
    for (const auto& [id, words] : said)
        bytes.append(id.bits().bytes.begin(), id.bits().bytes.end());
    return bytes;
}

std::vector<SearchText::Said> saidFrom(const std::string& text, const std::string& ids) {
    std::vector<SearchText::Said> said;
    std::size_t begin = 0;
    for (std::size_t at = 0; at + 16 <= ids.size(); at += 16) {
        base::Bits128 bits;
        std::copy_n(ids.begin() + static_cast<std::ptrdiff_t>(at), 16, bits.bytes.begin());
        const std::size_t end = std::min(text.find('\n', begin), text.size());
        said.emplace_back(base::RevisionId(bits), text.substr(begin, end - begin));
        begin = std::min(end + 1, text.size());
    }
    return said;
}

// Each word of a column once: which columns hold a word is all the index is asked.
std::string folded(const std::string& text, std::set<std::string>* all) {
    std::set<std::string> words;
    for (base::WordSpan& word : base::wordSpans(text))
        words.insert(std::move(word.folded));
    std::string column;
    for (const std::string& word : words) {
        if (!column.empty()) column += ' ';
        column += word;
    }
    if (all != nullptr) all->merge(words);
    return column;
}

Columns indexed(const SearchText& text, std::set<std::string>* words = nullptr) {
    return {folded(text.name, words),          folded(text.tags, words),  folded(text.lines, words),
            folded(text.brief, words),         folded(text.notes, words), folded(joined(text.reasons), words),
            folded(joined(text.tasted), words)};
}

// The latest revision a text was said of, and each text once.
class SaidOnce {
  public:
    void add(base::RevisionId revision, const std::string& text) {
        if (base::trimmed(text).empty()) return;
        const auto [at, isNew] = m_places.emplace(oneLine(text), m_said.size());
        if (isNew)
            m_said.emplace_back(revision, at->first);
        else
            m_said[at->second].first = revision;
    }
    std::vector<SearchText::Said> take() { return std::move(m_said); }

  private:
    std::map<std::string, std::size_t> m_places;
    std::vector<SearchText::Said> m_said;
};

void quote(std::string& query, const std::string& word) {
    query += '"';
    query += word; // letters and digits only
    query += '"';
}

std::string queryFor(const std::vector<history::WantedWord>& words, const std::string& columns) {
    std::string query;
    if (!columns.empty()) query += '{' + columns + "} : (";
    for (const history::WantedWord& word : words) {
        if (&word != &words.front()) query += " AND ";
        if (word.read.empty()) {
            quote(query, word.typed);
            query += " *";
            continue;
        }
        query += '(';
        for (const std::string& read : word.read) {
            if (&read != &word.read.front()) query += " OR ";
            quote(query, read);
        }
        query += ')';
    }
    if (!columns.empty()) query += ')';
    return query;
}

} // namespace

std::vector<std::int64_t> SearchRepository::due(int atMost) const {
    Query query(m_book.connection, "SELECT drink FROM search_due ORDER BY drink LIMIT ?");
    query.with(atMost);
    std::vector<std::int64_t> rows;
    while (query.next())
        rows.push_back(query.integer(0));
    return rows;
}

int SearchRepository::dueCount() const {
    Query query(m_book.connection, "SELECT count(*) FROM search_due");
    query.next();
    return query.smallInteger(0);
}

void SearchRepository::addLines(const std::string& specJson, SearchText& text,
                                std::vector<std::string>& seen) const {
    const auto spec = spec::Spec::fromCanonicalJson(specJson);
    if (!spec) return; // check() tells of it
    const auto add = [&](const std::string& words) {
        if (std::find(seen.begin(), seen.end(), words) != seen.end()) return;
        seen.push_back(words);
        addLine(text.lines, words);
    };
    for (const spec::Line& line : spec->lines) {
        add(line.name);
        add(line.note);
        for (const spec::Alternative& other : line.alternatives)
            add(other.name);
    }
    add(spec->garnish);
    add(spec->glass);
    add(spec->method.text);
}

SearchText SearchRepository::present(std::int64_t row) const {
    SearchText text;
    base::DrinkId drink;
    std::vector<std::string> seen;
    {
        Query query(m_book.connection,
                    "SELECT d.id, d.name, d.tags, d.menu_name, d.brief, d.notes, d.credit, d.after_person,"
                    " d.after_place, d.after_year, d.after_work, a.name, d.created_ms FROM drink d"
                    " LEFT JOIN drink a ON a.id = d.after_drink WHERE d.row = ?");
        query.with(row);
        if (!query.next()) return text;
        drink = query.id<base::DrinkId>(0);
        text.name = oneLine(query.text(1));
        for (const std::string& tag : storedList(query.text(2)))
            addLine(text.tags, tag);
        addLine(text.tags, query.text(3));
        addLine(text.brief, query.text(4));
        for (int column = 5; column <= 11; ++column)
            addLine(text.notes, query.text(column));
        text.changed = {query.integer(12), 0};
    }
    {
        Query drafts(
            m_book.connection,
            "SELECT spec, name, saved_ms FROM draft WHERE drink = ? AND binned = 0 ORDER BY row DESC");
        drafts.with(drink);
        while (drafts.next()) {
            addLines(drafts.text(0), text, seen);
            addLine(text.tags, drafts.text(1));
            text.changed.utcMs = std::max(text.changed.utcMs, drafts.integer(2));
        }
    }
    {
        Query current(
            m_book.connection,
            "SELECT spec FROM revision WHERE row = ifnull((SELECT r.row FROM drink d JOIN revision r"
            " ON r.id = ifnull(d.house, d.published) WHERE d.id = ?1),"
            " (SELECT max(row) FROM revision WHERE drink = ?1))");
        current.with(drink);
        if (current.next()) addLines(current.text(0), text, seen);
    }
    SaidOnce reasons, tasted;
    {
        Query kept(m_book.connection,
                   "SELECT id, reason, kept_ms FROM revision WHERE drink = ? ORDER BY row");
        kept.with(drink);
        while (kept.next()) {
            reasons.add(kept.id<base::RevisionId>(0), kept.text(1));
            text.changed.utcMs = std::max(text.changed.utcMs, kept.integer(2));
        }
    }
    {
        Query said(m_book.connection,
                   "SELECT t.revision, t.note, t.try_next, t.when_ms FROM revision r JOIN tasting t"
                   " ON t.revision = r.id WHERE r.drink = ?"
                   " AND NOT EXISTS (SELECT 1 FROM tasting a WHERE a.amends = t.id) ORDER BY t.row");
        said.with(drink);
        while (said.next()) {
            tasted.add(said.id<base::RevisionId>(0), said.text(1));
            tasted.add(said.id<base::RevisionId>(0), said.text(2));
            text.changed.utcMs = std::max(text.changed.utcMs, said.integer(3));
        }
    }
    text.reasons = reasons.take();
    text.tasted = tasted.take();
    return text;
}

SearchText SearchRepository::stored(std::int64_t row) const {
    SearchText text;
    Query query(m_book.connection,
                "SELECT name, tags, lines, brief, notes, reasons, reasons_of, tasted, tasted_of, changed_ms"
                " FROM search_text WHERE drink = ?");
    query.with(row);
    if (!query.next()) return text;
    text.name = query.text(0);
    text.tags = query.text(1);
    text.lines = query.text(2);
    text.brief = query.text(3);
    text.notes = query.text(4);
    text.reasons = saidFrom(query.text(5), query.blob(6));
    text.tasted = saidFrom(query.text(7), query.blob(8));
    text.changed = {query.integer(9), 0};
    return text;
}

void SearchRepository::writeIndex(const char* sql, std::int64_t row, const SearchText& text,
                                  std::set<std::string>* words) {
    const Columns c = indexed(text, words);
    Query(m_book.connection, sql).with(row, c[0], c[1], c[2], c[3], c[4], c[5], c[6]).run();
}

void SearchRepository::takeOutOfIndex(std::int64_t row) {
    {
        Query query(m_book.connection, "SELECT 1 FROM search_text WHERE drink = ?");
        query.with(row);
        if (!query.next()) return;
    }
    // An index without contents of its own must be told what it was given.
    writeIndex(
        "INSERT INTO search_index (search_index, rowid, name, tags, lines, brief, notes, reasons, tasted)"
        " VALUES ('delete', ?, ?, ?, ?, ?, ?, ?, ?)",
        row, stored(row));
}

void SearchRepository::forget(std::int64_t row) {
    takeOutOfIndex(row);
    Query(m_book.connection, "DELETE FROM search_text WHERE drink = ?").with(row).run();
    Query(m_book.connection, "DELETE FROM search_due WHERE drink = ?").with(row).run();
}

std::vector<std::string> SearchRepository::readAnew(std::int64_t row) {
    takeOutOfIndex(row);
    const SearchText text = present(row);
    std::set<std::string> words;
    writeIndex("INSERT INTO search_index (rowid, name, tags, lines, brief, notes, reasons, tasted)"
               " VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
               row, text, &words);
    const std::string key = base::sortKeyForPeople(text.name);
    Query(m_book.connection,
          "INSERT OR REPLACE INTO search_text (drink, name_key, changed_ms, name, tags, lines, brief, notes,"
          " reasons, reasons_of, tasted, tasted_of) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")
        .with(row, Bytes{key}, text.changed.utcMs, text.name, text.tags, text.lines, text.brief, text.notes,
              joined(text.reasons), Bytes{idBytes(text.reasons)}, joined(text.tasted),
              Bytes{idBytes(text.tasted)})
        .run();
    Query(m_book.connection, "DELETE FROM search_due WHERE drink = ?").with(row).run();
    return {words.begin(), words.end()};
}

void SearchRepository::throwAway() {
    m_book.connection.exec("INSERT INTO search_index (search_index) VALUES ('delete-all')");
    m_book.connection.exec("DELETE FROM search_text");
    m_book.connection.exec("DELETE FROM search_due");
    m_book.connection.exec("INSERT INTO search_due SELECT row FROM drink");
}

std::vector<std::int64_t> SearchRepository::matching(const std::vector<history::WantedWord>& words,
                                                     const std::string& columns) const {
    Query query(m_book.connection, "SELECT rowid FROM search_index WHERE search_index MATCH ?");
    query.with(queryFor(words, columns));
    std::vector<std::int64_t> rows;
    while (query.next())
        rows.push_back(query.integer(0));
    return rows;
}

std::vector<history::Vocabulary::Word> SearchRepository::wordsAfter(const std::string& word,
                                                                    std::size_t atMost) const {
    Query query(m_book.connection, "SELECT term, doc FROM search_word WHERE term > ? LIMIT ?");
    query.with(word, static_cast<std::int64_t>(atMost));
    std::vector<history::Vocabulary::Word> words;
    while (query.next())
        words.push_back({query.text(0), query.smallInteger(1)});
    return words;
}

namespace {

#define STILLROOM_LISTED                                                                                     \
    "SELECT t.drink, d.id, d.name, t.name_key, d.form, d.binned, t.changed_ms FROM search_text t"            \
    " JOIN drink d ON d.row = t.drink"
constexpr const char* kListed = STILLROOM_LISTED;
constexpr const char* kListedOne = STILLROOM_LISTED " WHERE t.drink = ?";
#undef STILLROOM_LISTED

SearchRepository::Listed listedFrom(const Query& query) {
    return {query.integer(0),
            query.id<base::DrinkId>(1),
            query.text(2),
            query.blob(3),
            query.text(4) == "preparation" ? history::DrinkForm::Preparation : history::DrinkForm::Drink,
            query.integer(5) != 0,
            query.integer(6)};
}

} // namespace

std::vector<SearchRepository::Listed> SearchRepository::listed() const {
    Query query(m_book.connection, kListed);
    std::vector<Listed> found;
    while (query.next())
        found.push_back(listedFrom(query));
    return found;
}

std::optional<SearchRepository::Listed> SearchRepository::listed(std::int64_t drink) const {
    Query query(m_book.connection, kListedOne);
    query.with(drink);
    return query.next() ? std::optional(listedFrom(query)) : std::nullopt;
}

std::set<SearchState> SearchRepository::statesOf(base::DrinkId drink) const {
    Query query(m_book.connection,
                "SELECT EXISTS (SELECT 1 FROM draft f LEFT JOIN revision r ON r.id = f.based_on"
                " WHERE f.drink = d.id AND f.binned = 0 AND r.spec_hash IS NOT f.spec_hash),"
                " EXISTS (SELECT 1 FROM revision WHERE drink = d.id), d.house IS NOT NULL,"
                " d.published IS NOT NULL,"
                " EXISTS (SELECT 1 FROM revision r JOIN revision h ON h.id = d.house"
                " WHERE r.id = d.published AND r.number < h.number),"
                " EXISTS (SELECT 1 FROM draft WHERE drink = d.id AND binned = 0 AND set_aside = 1) OR"
                " EXISTS (SELECT 1 FROM revision r JOIN revision_mark m ON m.revision = r.id"
                " WHERE r.drink = d.id AND m.set_aside = 1), d.binned FROM drink d WHERE d.id = ?");
    query.with(drink);
    std::set<SearchState> states;
    if (!query.next()) return states;
    // In the order of the enumeration.
    for (int i = 0; i <= static_cast<int>(SearchState::Binned); ++i)
        if (query.integer(i) != 0) states.insert(static_cast<SearchState>(i));
    return states;
}

std::vector<std::string> SearchRepository::faults() const {
    std::vector<std::string> found;
    std::map<std::string, int> expected; // word -> drinks
    std::vector<std::pair<std::int64_t, std::string>> drinks;
    {
        Query query(m_book.connection, "SELECT d.row, d.name, t.drink IS NULL, u.drink IS NULL FROM drink d"
                                       " LEFT JOIN search_text t ON t.drink = d.row"
                                       " LEFT JOIN search_due u ON u.drink = d.row ORDER BY d.row");
        while (query.next()) {
            const bool unread = query.integer(2) != 0;
            if (query.integer(3) != 0) {
                if (unread)
                    found.push_back(query.text(1));
                else
                    drinks.emplace_back(query.integer(0), query.text(1));
            }
        }
    }
    for (const auto& [row, name] : drinks)
        if (indexed(stored(row)) != indexed(present(row))) found.push_back(name);
    // The index itself, against what it was given.
    Query given(m_book.connection, "SELECT drink FROM search_text");
    while (given.next()) {
        std::set<std::string> words;
        indexed(stored(given.integer(0)), &words);
        for (const std::string& word : words)
            ++expected[word];
    }
    std::map<std::string, int> held;
    for (history::Vocabulary::Word& word : wordsAfter({}, std::numeric_limits<std::int32_t>::max()))
        held[std::move(word.text)] = word.drinks;
    if (held != expected) found.emplace_back();
    return found;
}

std::vector<SavedSearch> SearchRepository::saved() const {
    Query query(m_book.connection,
                "SELECT id, name, request FROM saved_search WHERE binned = 0 ORDER BY row");
    std::vector<SavedSearch> found;
    while (query.next()) {
        auto request = SearchRequest::fromCanonicalJson(query.text(2));
        if (!request)
            throw StoreError(StoreErrorKind::Damaged, 0, m_book.connection.path(),
                             "the saved search \"" + query.text(1) + "\" cannot be read");
        found.push_back({query.id<base::SavedSearchId>(0), query.text(1), *std::move(request)});
    }
    return found;
}

SavedSearch SearchRepository::save(const SavedSearch& search) {
    SavedSearch saved = search;
    const std::string request = search.request.canonicalJson();
    if (search.id.isNull()) {
        saved.id = base::SavedSearchId::random();
        Query(m_book.connection,
              "INSERT INTO saved_search (id, name, request, author, version) VALUES (?, ?, ?, ?, 1)")
            .with(saved.id, saved.name, request, m_book.id)
            .run();
        return saved;
    }
    {
        Query known(m_book.connection, "SELECT 1 FROM saved_search WHERE id = ? AND binned = 0");
        known.with(search.id);
        if (!known.next()) throw notFound(m_book.connection, "saved search", search.id.text());
    }
    Query(m_book.connection, "UPDATE saved_search SET name = ?2, request = ?3, author = ?4,"
                             " version = version + 1 WHERE id = ?1 AND (name <> ?2 OR request <> ?3)")
        .with(saved.id, saved.name, request, m_book.id)
        .run();
    return saved;
}

void SearchRepository::removeSaved(base::SavedSearchId search) {
    Query(m_book.connection,
          "UPDATE saved_search SET binned = 1, author = ?2, version = version + 1 WHERE id = ?1")
        .with(search, m_book.id)
        .run();
}

std::vector<std::string> SearchRepository::tags() const {
    Query query(m_book.connection, "SELECT tags FROM drink WHERE binned = 0 AND tags <> '[]'");
    std::map<std::string, std::string> found; // sort key -> tag
    while (query.next())
        for (std::string& tag : storedList(query.text(0)))
            found.emplace(base::sortKeyForPeople(tag), tag);
    std::vector<std::string> tags;
    for (auto& [key, tag] : found)
        tags.push_back(std::move(tag));
    return tags;
}

} // namespace stillroom::store
