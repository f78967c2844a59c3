#include "core/store/bin_contents.h"

#include "core/store/search_repository.h"

#include <utility>

namespace stillroom::store {

void BinTaker::takeOut(EmptiedBin& report) {
    Connection& connection = m_book.connection;
    connection.exec("PRAGMA defer_foreign_keys = ON");
    std::vector<std::pair<std::string, std::string>> triggers;
    {
        SQLite::Statement query(connection.database(),
                                "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger' ORDER BY rowid");
        while (query.executeStep())
            triggers.emplace_back(query.getColumn(0).getString(), query.getColumn(1).getString());
    }
    for (const auto& [name, sql] : triggers)
        connection.exec(("DROP TRIGGER " + name).c_str());
    choose();
    spareNeeded(report.needed);
    report.drinks = count("SELECT count(*) FROM gone_drink");
    report.drafts = count("SELECT count(*) FROM gone_draft");
    report.revisions = count("SELECT count(*) FROM gone_revision");
    report.tastings = count("SELECT count(*) FROM gone_tasting");
    report.panels = count("SELECT count(*) FROM gone_panel");
    report.ingredients = count("SELECT count(*) FROM gone_ingredient");
    const int photos = count("SELECT count(*) FROM photo");
    remember();
    forgetInSearch();
    remove();
    report.photos = photos - count("SELECT count(*) FROM photo");
    for (const auto& [name, sql] : triggers)
        connection.exec(sql.c_str());
}

int BinTaker::count(const char* sql) {
    return m_book.connection.database().execAndGet(sql).getInt();
}

void BinTaker::choose() {
    m_book.connection.exec("CREATE TEMP TABLE gone_drink (id BLOB PRIMARY KEY);"
                           "INSERT INTO gone_drink SELECT id FROM main.drink WHERE binned = 1;"
                           "CREATE TEMP TABLE gone_ingredient (id BLOB PRIMARY KEY);"
                           "INSERT INTO gone_ingredient SELECT id FROM main.ingredient WHERE binned = 1;"
                           "CREATE TEMP TABLE gone_panel (id BLOB PRIMARY KEY);"
                           "INSERT INTO gone_panel SELECT id FROM main.panel WHERE binned = 1;");
}

// Each round may spare what the next rests on; every round takes something off the lists, or is the last.
void BinTaker::spareNeeded(std::vector<StillNeeded>& needed) {
    using By = StillNeeded::By;
    bool spared = true;
    while (spared) {
        spared = false;
        const auto look = [&](const char* which, By kind, const char* sql) {
            spared = spare(which, kind, sql, needed) || spared;
        };
        look("DELETE FROM gone_drink WHERE id = ?", By::Revision,
             "SELECT p.drink, g.name, d.name, r.number FROM gone_drink x JOIN revision p ON p.drink = x.id"
             " JOIN drink g ON g.id = x.id JOIN revision_fact f ON f.preparation = p.id"
             " JOIN revision r ON r.row = f.revision JOIN drink d ON d.id = r.drink"
             " WHERE r.drink NOT IN (SELECT id FROM gone_drink) ORDER BY r.row");
        look("DELETE FROM gone_drink WHERE id = ?", By::Lot,
             "SELECT p.drink, g.name, l.made_on, 0 FROM lot l JOIN revision p ON p.id = l.made_from"
             " JOIN gone_drink x ON x.id = p.drink JOIN drink g ON g.id = x.id"
             " WHERE l.ingredient NOT IN (SELECT id FROM gone_ingredient) ORDER BY l.row");
        look(
            "DELETE FROM gone_drink WHERE id = ?", By::Ingredient,
            "SELECT x.id, g.name, i.name, 0 FROM ingredient i JOIN gone_drink x ON x.id = i.made_by"
            " JOIN drink g ON g.id = x.id WHERE i.id NOT IN (SELECT id FROM gone_ingredient) ORDER BY i.row");
        look("DELETE FROM gone_drink WHERE id = ?", By::Panel,
             "SELECT x.id, g.name, n.name, 0 FROM panel_product o JOIN panel n ON n.id = o.panel"
             " JOIN revision r ON r.id = o.revision JOIN gone_drink x ON x.id = r.drink"
             " JOIN drink g ON g.id = x.id WHERE n.id NOT IN (SELECT id FROM gone_panel) ORDER BY n.row");
        look("DELETE FROM gone_ingredient WHERE id = ?", By::Draft,
             "SELECT x.id, i.name, d.name, 0 FROM gone_ingredient x JOIN ingredient i ON i.id = x.id"
             " JOIN draft_use u ON u.ingredient = lower(hex(x.id)) JOIN draft f ON f.id = u.draft"
             " JOIN drink d ON d.id = f.drink"
             " WHERE f.binned = 0 AND d.id NOT IN (SELECT id FROM gone_drink) ORDER BY f.row");
        look("DELETE FROM gone_ingredient WHERE id = ?", By::Revision,
             "SELECT x.id, i.name, d.name, r.number FROM gone_ingredient x JOIN ingredient i ON i.id = x.id"
             " JOIN revision_fact f ON f.ingredient = x.id JOIN revision r ON r.row = f.revision"
             " JOIN drink d ON d.id = r.drink WHERE d.id NOT IN (SELECT id FROM gone_drink) ORDER BY r.row");
        look("DELETE FROM gone_ingredient WHERE id = ?", By::Revision,
             "SELECT x.id, i.name, d.name, r.number FROM gone_ingredient x JOIN ingredient i ON i.id = x.id"
             " JOIN revision_fact f ON f.pours = x.id JOIN revision r ON r.row = f.revision"
             " JOIN drink d ON d.id = r.drink WHERE d.id NOT IN (SELECT id FROM gone_drink) ORDER BY r.row");
        look("DELETE FROM gone_ingredient WHERE id = ?", By::Ingredient,
             "SELECT x.id, i.name, o.name, 0 FROM gone_ingredient x JOIN ingredient i ON i.id = x.id"
             " JOIN ingredient o ON o.kind = x.id OR o.house_bottle = x.id OR o.got_from = x.id"
             " WHERE o.id NOT IN (SELECT id FROM gone_ingredient) ORDER BY o.row");
    }
    m_book.connection.exec("CREATE TEMP TABLE gone_revision AS SELECT id, row FROM main.revision"
                           " WHERE drink IN (SELECT id FROM gone_drink);"
                           "CREATE TEMP TABLE gone_draft AS SELECT id, drink FROM main.draft"
                           " WHERE binned = 1 OR drink IN (SELECT id FROM gone_drink);"
                           "CREATE TEMP TABLE gone_tasting AS SELECT id FROM main.tasting"
                           " WHERE revision IN (SELECT id FROM gone_revision);");
}

bool BinTaker::spare(const char* which, StillNeeded::By kind, const char* sql,
                     std::vector<StillNeeded>& needed) {
    std::vector<std::pair<base::Bits128, StillNeeded>> found;
    {
        Query query(m_book.connection, sql);
        while (query.next())
            found.emplace_back(query.id<base::DrinkId>(0).bits(),
                               StillNeeded{query.text(1), kind, query.text(2), query.smallInteger(3)});
    }
    bool spared = false;
    for (auto& [id, why] : found) {
        Query(m_book.connection, which).with(id).run();
        if (m_book.connection.database().getChanges() == 0) continue; // spared for another reason already
        needed.push_back(std::move(why));
        spared = true;
    }
    return spared;
}

void BinTaker::remember() {
    const base::Instant now = m_book.clock.now();
    for (const char* sql :
         {"INSERT OR IGNORE INTO removed SELECT id, 'drink', ?, ?, ? FROM gone_drink",
          "INSERT OR IGNORE INTO removed SELECT id, 'draft', ?, ?, ? FROM gone_draft",
          "INSERT OR IGNORE INTO removed SELECT id, 'panel', ?, ?, ? FROM gone_panel",
          "INSERT OR IGNORE INTO removed SELECT id, 'ingredient', ?, ?, ? FROM gone_ingredient",
          "INSERT OR IGNORE INTO removed SELECT id, 'search', ?, ?, ? FROM saved_search"
          " WHERE binned = 1"})
        Query(m_book.connection, sql).with(now.utcMs, now.offsetMinutes, m_book.id).run();
}

void BinTaker::forgetInSearch() {
    SearchRepository search(m_book);
    std::vector<std::int64_t> rows;
    {
        Query query(m_book.connection, "SELECT row FROM drink WHERE id IN (SELECT id FROM gone_drink)");
        while (query.next())
            rows.push_back(query.integer(0));
    }
    for (const std::int64_t row : rows)
        search.forget(row);
    m_book.connection.exec("INSERT OR IGNORE INTO search_due SELECT row FROM drink"
                           " WHERE after_drink IN (SELECT id FROM gone_drink)"
                           " AND id NOT IN (SELECT id FROM gone_drink)");
}

void BinTaker::remove() {
    Query(m_book.connection,
          "UPDATE drink SET after_work = CASE after_work WHEN '' THEN"
          " ifnull((SELECT a.name FROM drink a WHERE a.id = drink.after_drink), '') ELSE after_work END,"
          " after_drink = NULL, after_revision = NULL, after_author = ?, after_version = after_version + 1"
          " WHERE after_drink IN (SELECT id FROM gone_drink) AND id NOT IN (SELECT id FROM gone_drink)")
        .with(m_book.id)
        .run();
    m_book.connection.exec(
        "DELETE FROM photo_link WHERE hidden = 1 OR revision IN (SELECT id FROM gone_revision)"
        " OR tasting IN (SELECT id FROM gone_tasting);"
        "DELETE FROM photo WHERE hash NOT IN (SELECT photo FROM photo_link);"
        "DELETE FROM panel_answer WHERE panel IN (SELECT id FROM gone_panel);"
        "DELETE FROM panel_step WHERE panel IN (SELECT id FROM gone_panel);"
        "DELETE FROM panel_product WHERE panel IN (SELECT id FROM gone_panel);"
        "DELETE FROM panel WHERE id IN (SELECT id FROM gone_panel);"
        "DELETE FROM tasting WHERE id IN (SELECT id FROM gone_tasting);"
        "DELETE FROM revision_mark WHERE revision IN (SELECT id FROM gone_revision);"
        "DELETE FROM revision_fact WHERE revision IN (SELECT row FROM gone_revision);"
        "DELETE FROM draft_use WHERE draft IN (SELECT id FROM gone_draft);"
        "DELETE FROM draft WHERE id IN (SELECT id FROM gone_draft);"
        "DELETE FROM lot WHERE ingredient IN (SELECT id FROM gone_ingredient);"
        "DELETE FROM pack WHERE ingredient IN (SELECT id FROM gone_ingredient);"
        "DELETE FROM remembered_name WHERE ingredient IN (SELECT id FROM gone_ingredient);"
        "DELETE FROM ingredient WHERE id IN (SELECT id FROM gone_ingredient);"
        "DELETE FROM revision WHERE id IN (SELECT id FROM gone_revision);"
        "DELETE FROM drink WHERE id IN (SELECT id FROM gone_drink);"
        "DELETE FROM saved_search WHERE binned = 1;"
        "DELETE FROM fact_state WHERE row NOT IN (SELECT state FROM revision_fact)"
        " AND row NOT IN (SELECT facts FROM ingredient);"
        "DELETE FROM measure_state WHERE row NOT IN (SELECT measures FROM revision);");
}

} // namespace stillroom::store
