#include "core/store/check_drinks.h"

#include "core/store/connection.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <map>
#include <set>

namespace stillroom::store {

namespace {

class RowChecker {
  public:
    RowChecker(Book& book, std::vector<CheckProblem>& problems) : m_book(book), m_problems(problems) {}

    void run() {
        readDrinks();
        marks();
        lineage();
        numbers();
        drafts();
        amendments();
        authors();
        gaps();
        panels();
    }

  private:
    void damage(const std::string& where, const std::string& what) { m_problems.push_back({where, what}); }

    std::string nameOf(base::DrinkId drink) const {
        const auto found = m_names.find(drink);
        return found == m_names.end() ? std::string("a drink") : found->second;
    }

    std::optional<base::DrinkId> ownerOf(const std::optional<base::RevisionId>& revision) const {
        const auto found = revision ? m_ownerOf.find(*revision) : m_ownerOf.end();
        return found == m_ownerOf.end() ? std::nullopt : std::optional(found->second);
    }

    static bool isListOfTexts(const std::string& json) {
        const auto list = nlohmann::json::parse(json, nullptr, false);
        return list.is_array() &&
               std::all_of(list.begin(), list.end(), [](const auto& each) { return each.is_string(); });
    }

    void readDrinks() {
        Query drinks(m_book.connection, "SELECT id, name FROM drink ORDER BY row");
        while (drinks.next())
            m_names[drinks.id<base::DrinkId>(0)] = drinks.text(1);
        Query revisions(m_book.connection, "SELECT id, drink FROM revision");
        while (revisions.next())
            m_ownerOf[revisions.id<base::RevisionId>(0)] = revisions.id<base::DrinkId>(1);
    }

    // A revision that is not there at all is named by the file's own references.
    bool isOfAnother(const std::optional<base::RevisionId>& revision, base::DrinkId drink) const {
        const auto owner = ownerOf(revision);
        return owner && *owner != drink;
    }

    void marks() {
        Query query(m_book.connection,
                    "SELECT id, house, published, after_drink, after_revision, tags FROM drink ORDER BY row");
        while (query.next()) {
            const auto id = query.id<base::DrinkId>(0);
            const auto house = query.optionalId<base::RevisionId>(1);
            const auto published = query.optionalId<base::RevisionId>(2);
            const auto after = query.optionalId<base::DrinkId>(3);
            const auto afterRevision = query.optionalId<base::RevisionId>(4);
            if (isOfAnother(house, id))
                damage(nameOf(id), "its house revision is one of " + nameOf(*ownerOf(house)));
            if (isOfAnother(published, id))
                damage(nameOf(id), "its published revision is one of " + nameOf(*ownerOf(published)));
            if (after) m_after[id] = *after;
            if (afterRevision && (!after || isOfAnother(afterRevision, *after)))
                damage(nameOf(id), "comes after a revision that is not of the drink it comes after");
            if (!isListOfTexts(query.text(5))) damage(nameOf(id), "its tags are no list of texts");
        }
    }

    // Each circle once: by the drink of it that stands first in the file.
    void lineage() {
        std::set<base::DrinkId> told;
        for (const auto& [drink, before] : m_after) {
            std::vector<base::DrinkId> way{drink};
            std::set<base::DrinkId> seen{drink};
            for (auto next = m_after.find(drink); next != m_after.end(); next = m_after.find(next->second)) {
                if (next->second == drink) {
                    if (told.count(drink) == 0)
                        damage(nameOf(drink), way.size() == 1
                                                  ? std::string("comes after itself")
                                                  : "comes after itself by way of " + namesOf(way));
                    told.insert(way.begin(), way.end());
                    break;
                }
                if (!seen.insert(next->second).second) break;
                way.push_back(next->second);
            }
        }
    }

    std::string namesOf(const std::vector<base::DrinkId>& way) const {
        std::string names;
        for (std::size_t i = 1; i < way.size(); ++i) {
            if (i > 1) names += ", ";
            names += nameOf(way[i]);
        }
        return names;
    }

    // Given one after the other from 1 on, and no revision ever leaves without its drink.
    void numbers() {
        Query query(m_book.connection, "SELECT drink, number FROM revision ORDER BY row");
        std::map<base::DrinkId, int> due;
        while (query.next()) {
            const auto drink = query.id<base::DrinkId>(0);
            const int number = query.smallInteger(1);
            if (const int wanted = ++due[drink]; number != wanted)
                damage(fmt::format("revision {} of {}", number, nameOf(drink)),
                       fmt::format("stands where revision {} was kept", wanted));
        }
    }

    void drafts() {
        Query query(m_book.connection, "SELECT drink, based_on FROM draft ORDER BY row");
        while (query.next()) {
            const auto drink = query.id<base::DrinkId>(0);
            if (isOfAnother(query.optionalId<base::RevisionId>(1), drink))
                damage("a draft of " + nameOf(drink), "stands on a revision of another drink");
        }
    }

    // Of which revision it is, the tastings' own reading says.
    void amendments() {
        Query query(m_book.connection,
                    "SELECT r.drink FROM tasting t JOIN tasting o ON o.id = t.amends JOIN revision r"
                    " ON r.id = t.revision WHERE o.row >= t.row");
        while (query.next())
            damage("a tasting of " + nameOf(query.id<base::DrinkId>(0)),
                   "amends one that was written after it");
    }

    // Not a Query: that keeps its statements by the address of a text that stays.
    std::int64_t countOf(const std::string& sql) {
        SQLite::Statement query(m_book.connection.database(), sql);
        query.executeStep();
        return query.getColumn(0).getInt64();
    }

    // No book was ever merged into another by this program: one author alone has written what never changes.
    void authors() {
        constexpr std::array<std::pair<const char*, const char*>, 7> kWritten{
            {{"revision", "the revisions"},
             {"tasting", "the tastings"},
             {"panel", "the panels"},
             {"panel_answer", "the answers of panels"},
             {"panel_step", "the steps of panels"},
             {"photo", "the photos"},
             {"photo_link", "the photos' places"}}};
        for (const auto& [table, what] : kWritten)
            if (const auto count = countOf(
                    fmt::format("SELECT count(*) FROM {} WHERE author <> (SELECT id FROM book)", table));
                count > 0)
                damage(what, count == 1
                                 ? std::string("one of them has another author than this book")
                                 : fmt::format("{} of them have another author than this book", count));
    }

    // Rows are numbered as they are added. Only emptying the bin takes any away, and says so.
    void gaps() {
        if (countOf("SELECT count(*) FROM removed") > 0) return;
        constexpr std::array<std::pair<const char*, const char*>, 4> kAdded{
            {{"revision", "the revisions"},
             {"tasting", "the tastings"},
             {"panel", "the panels"},
             {"panel_answer", "the answers of panels"}}};
        for (const auto& [table, what] : kAdded) {
            const auto missing = countOf(fmt::format("SELECT ifnull(max(row), 0) - count(*) FROM {}", table));
            if (missing > 0)
                damage(what, missing == 1 ? std::string("one is missing between others")
                                          : fmt::format("{} are missing between others", missing));
        }
    }

    // By what was done and not by the clock, which may have been wrong.
    void panels() {
        Query query(
            m_book.connection,
            "SELECT p.name, EXISTS (SELECT 1 FROM panel_step s WHERE s.panel = p.id AND s.state = 'closed')"
            " FROM panel p WHERE NOT EXISTS (SELECT 1 FROM panel_step s WHERE s.panel = p.id"
            " AND s.state = 'pouring') AND (EXISTS (SELECT 1 FROM panel_step s WHERE s.panel = p.id)"
            " OR EXISTS (SELECT 1 FROM panel_answer a WHERE a.panel = p.id))");
        while (query.next())
            damage("panel " + query.text(0),
                   query.integer(1) != 0 ? "was closed and never poured" : "was answered and never poured");
    }

    Book& m_book;
    std::vector<CheckProblem>& m_problems;
    std::map<base::DrinkId, std::string> m_names;
    std::map<base::RevisionId, base::DrinkId> m_ownerOf;
    std::map<base::DrinkId, base::DrinkId> m_after;
};

} // namespace

void checkRows(Book& book, std::vector<CheckProblem>& problems) {
    RowChecker(book, problems).run();
}

} // namespace stillroom::store
