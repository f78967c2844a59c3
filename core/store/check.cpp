#include "core/base/hash.h"
#include "core/store/book.h"
#include "core/store/check_drinks.h"
#include "core/store/check_larder.h"
#include "core/store/drink_repository.h"
#include "core/store/opening.h"
#include "core/store/panel_repository.h"
#include "core/store/revision_repository.h"
#include "core/store/search_repository.h"
#include "core/store/settings_repository.h"
#include "core/store/tasting_repository.h"
#include "core/store/use_repository.h"
#include "core/store/workbook.h"

#include <fmt/format.h>

#include <map>

namespace stillroom::store {

namespace {

class Checker {
  public:
    explicit Checker(Connection& connection) : m_connection(connection) {}

    CheckReport run() {
        step("the file", [&] { integrity(); });
        step("the file", [&] { references(); });
        step("the schema", [&] { schema(); });
        step("the settings", [&] { m_settings.load(); });
        step("the fact states", [&] { contents("fact_state", "fact state", m_report.factStates); });
        int measures = 0;
        step("the house measures", [&] { contents("measure_state", "house measures", measures); });
        step("the drinks", [&] { drinks(); });
        step("the tastings", [&] { tastings(); });
        step("the photos", [&] { photos(); });
        step("the panels", [&] { panels(); });
        step("the rows", [&] { checkRows(m_book, m_report.problems); });
        step("the search index", [&] { search(); });
        step("the larder", [&] { checkLarder(m_book, m_report.problems); });
        return std::move(m_report);
    }

  private:
    void problem(std::string where, std::string what) {
        m_report.problems.push_back({std::move(where), std::move(what)});
    }

    // A part that cannot be read is a problem to report, and no reason to leave the others unread.
    template <class Work>
    void step(const std::string& where, Work&& work) {
        try {
            m_connection.guarded("checking", work);
        } catch (const StoreError& error) {
            problem(where, error.what());
        }
    }

    void integrity() {
        SQLite::Statement verdict(m_connection.database(), "PRAGMA integrity_check");
        while (verdict.executeStep())
            if (const std::string line = verdict.getColumn(0).getString(); line != "ok")
                problem("the file", line);
    }

    void references() {
        SQLite::Statement dangling(m_connection.database(), "PRAGMA foreign_key_check");
        while (dangling.executeStep())
            problem(fmt::format("table {}, row {}", dangling.getColumn(0).getString(),
                                dangling.getColumn(1).getString()),
                    "refers to a missing row of " + dangling.getColumn(2).getString());
    }

    // Tables, indexes and the triggers that keep history append-only must be those of this version.
    void schema() {
        if (m_connection.pragma("PRAGMA user_version") != schemaMigrations().back().version) return;
        SQLite::Database model(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
        for (const Migration& migration : schemaMigrations())
            model.exec(std::string(migration.sql));
        const auto wanted = definitions(model);
        const auto found = definitions(m_connection.database());
        for (const auto& [name, sql] : wanted) {
            const auto entry = found.find(name);
            if (entry == found.end())
                problem("the schema", name + " is missing");
            else if (entry->second != sql)
                problem("the schema", name + " has been changed");
        }
        for (const auto& [name, sql] : found)
            if (wanted.count(name) == 0) problem("the schema", name + " does not belong here");
    }

    static std::map<std::string, std::string> definitions(SQLite::Database& database) {
        std::map<std::string, std::string> found;
        SQLite::Statement query(database, "SELECT type || ' ' || name, ifnull(sql, '') FROM sqlite_schema"
                                          " WHERE name NOT LIKE 'sqlite_stat%'");
        while (query.executeStep())
            found[query.getColumn(0).getString()] = query.getColumn(1).getString();
        return found;
    }

    void contents(const std::string& table, const std::string& sort, int& count) {
        SQLite::Statement query(m_connection.database(), "SELECT lower(hex(hash)), json FROM " + table);
        while (query.executeStep()) {
            ++count;
            const std::string hash = query.getColumn(0).getString();
            const std::string json = query.getColumn(1).getString();
            if (base::sha256Hex(json) != hash)
                problem(sort + " " + hash, "does not have the content it is known by");
            else if (!isReadable(table, json))
                problem(sort + " " + hash, "cannot be read");
        }
    }

    static bool isReadable(const std::string& table, const std::string& json) {
        if (table == "measure_state") {
            const auto measures = quantity::HouseMeasures::fromJsonText(json);
            return measures && measures->toJsonText() == json;
        }
        const auto state = larder::FactState::fromCanonicalJson(json);
        return state && state->canonicalJson() == json;
    }

    void drinks() {
        SQLite::Statement query(m_connection.database(), "SELECT id, name FROM drink ORDER BY row");
        while (query.executeStep()) {
            ++m_report.drinks;
            base::Bits128 bits;
            const auto column = query.getColumn(0);
            if (column.getBytes() != 16) continue; // integrity_check has said so
            std::copy_n(static_cast<const std::uint8_t*>(column.getBlob()), 16, bits.bytes.begin());
            const std::string name = query.getColumn(1).getString();
            step("drafts of " + name, [&] { drafts(base::DrinkId(bits), name); });
            revisions(base::DrinkId(bits), name);
        }
    }

    void drafts(base::DrinkId drink, const std::string& name) {
        Query query(m_connection, "SELECT spec, spec_hash, id FROM draft WHERE drink = ? ORDER BY row");
        query.with(drink);
        while (query.next()) {
            ++m_report.drafts;
            const std::string json = query.text(0);
            const std::string where = fmt::format("draft {} of {}", m_report.drafts, name);
            const auto spec = spec::Spec::fromCanonicalJson(json);
            if (base::sha256Hex(json) != query.hex(1) || !spec)
                problem(where, "cannot be read as it was written");
            else if (!m_uses.agrees(query.id<base::DraftId>(2), *spec))
                m_report.problems.push_back({where,
                                             "stands in the list of uses with other ingredients than its"
                                             " lines name; the next edit of it puts that right",
                                             CheckSort::Derived});
        }
    }

    void revisions(base::DrinkId drink, const std::string& name) {
        std::vector<std::pair<base::RevisionId, int>> ids;
        step("revisions of " + name, [&] {
            Query query(m_connection, "SELECT id, number FROM revision WHERE drink = ? ORDER BY row");
            query.with(drink);
            while (query.next())
                ids.emplace_back(query.id<base::RevisionId>(0), query.smallInteger(1));
        });
        for (const auto& [id, number] : ids) {
            ++m_report.revisions;
            const std::string where = fmt::format("revision {} of {}", number, name);
            step(where, [&, revisionId = id] { revision(revisionId, where); });
        }
    }

    void revision(base::RevisionId id, const std::string& where) {
        const auto stored = m_revisions.find(id);
        if (!stored) {
            problem(where, "cannot be found by its own id");
            return;
        }
        if (stored->contentHash() != stored->hash)
            problem(where, "does not have the content it was kept with");
        else if (!m_revisions.listedAsRead(*stored))
            problem(where, "stands in lists with another strength or spec than it was kept with");
        if (stored->parent) {
            const auto parent = m_revisions.find(*stored->parent);
            if (parent && parent->drink != stored->drink) problem(where, "descends from another drink");
        }
    }

    void tastings() {
        std::vector<base::TastingId> ids;
        {
            Query query(m_connection, "SELECT id FROM tasting ORDER BY row");
            while (query.next())
                ids.push_back(query.id<base::TastingId>(0));
        }
        for (const base::TastingId id : ids) {
            ++m_report.tastings;
            step("tasting " + id.text(), [&] { tasting(id); });
        }
    }

    void tasting(base::TastingId id) {
        const auto stored = m_tastings.withHash(id);
        if (!stored || base::sha256Hex(canonicalTasting(stored->first)) != stored->second) {
            problem("tasting " + id.text(), "does not have the content it was written with");
            return;
        }
        if (!stored->first.amends) return;
        ++m_report.amendments;
        const auto amended = m_tastings.withHash(*stored->first.amends);
        if (amended && amended->first.revision != stored->first.revision)
            problem("tasting " + id.text(), "amends one of another revision");
    }

    // One at a time: all photos together may be larger than memory.
    void photos() {
        Query query(m_connection, "SELECT hash, mime, width, height, bytes FROM photo ORDER BY row");
        while (query.next()) {
            ++m_report.photos;
            const std::string hash = query.hex(0);
            const std::string bytes = query.blob(4);
            m_report.photoBytes += static_cast<std::int64_t>(bytes.size());
            if (base::sha256Hex(bytes) != hash) {
                problem("photo " + hash, "does not have the content it is known by");
                continue;
            }
            const auto info = tasting::inspectPhoto(bytes);
            if (!info || tasting::photoMime(info->kind) != query.text(1) ||
                info->width != query.smallInteger(2) || info->height != query.smallInteger(3))
                problem("photo " + hash, "is not the picture it is listed as");
        }
        Query links(m_connection, "SELECT count(*) FROM photo_link");
        if (links.next()) m_report.photoLinks = links.smallInteger(0);
    }

    void panels() {
        for (const auto& [name, what] : PanelRepository(m_book).faults(m_report.panels, m_report.answers))
            problem("panel " + name, what);
    }

    void search() {
        for (const std::string& name : SearchRepository(m_book).faults())
            m_report.problems.push_back({name.empty() ? "the search index" : "search of " + name,
                                         "finds other words than are written; make the index anew",
                                         CheckSort::Derived});
        SearchRepository(m_book).saved();
    }

    Connection& m_connection;
    base::SystemClock m_clock;
    Book m_book{m_connection, {}, m_clock};
    RevisionRepository m_revisions{m_book};
    TastingRepository m_tastings{m_book};
    SettingsRepository m_settings{m_book};
    UseRepository m_uses{m_book};
    CheckReport m_report;
};

} // namespace

CheckReport check(const std::string& path) {
    const OpenedFile file = openForCheck(path, schemaMigrations());
    CheckReport report = Checker(*file.connection).run();
    report.outcome = file.outcome;
    return report;
}

} // namespace stillroom::store
