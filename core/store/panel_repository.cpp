#include "core/store/panel_repository.h"

#include "core/base/hash.h"
#include "core/store/stored.h"

#include <algorithm>
#include <map>

namespace stillroom::store {

namespace {

using tasting::Panel;
using tasting::PanelState;

std::vector<base::PanelId> idsFrom(Query& query) {
    std::vector<base::PanelId> found;
    while (query.next())
        found.push_back(query.id<base::PanelId>(0));
    return found;
}

} // namespace

std::string canonicalAnswer(base::PanelId panel, base::PersonId taster, const base::Instant& given,
                            const std::string& answer) {
    return "{\"answer\":" + answer + ",\"given\":{\"offset_minutes\":" + std::to_string(given.offsetMinutes) +
           ",\"utc_ms\":" + std::to_string(given.utcMs) + "},\"panel\":\"" + panel.text() +
           "\",\"taster\":\"" + taster.text() + "\"}";
}

base::PanelId PanelRepository::add(const std::string& name, const Panel& panel) {
    const auto id = base::PanelId::random();
    const base::Instant now = m_book.clock.now();
    const std::string plan = panel.canonicalJson();
    Query(m_book.connection,
          "INSERT INTO panel (id, created_ms, created_offset, author, plan_hash, plan, name, name_author,"
          " name_version) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?4, 1)")
        .with(id, now.utcMs, now.offsetMinutes, m_book.id, Digest::ofText(plan), plan, name)
        .run();
    for (const base::RevisionId& product : panel.design.products)
        Query(m_book.connection, "INSERT INTO panel_product (panel, revision) VALUES (?, ?)")
            .with(id, product)
            .run();
    return id;
}

void PanelRepository::addStep(base::PanelId panel, PanelState state) {
    const base::Instant now = m_book.clock.now();
    Query(m_book.connection,
          "INSERT INTO panel_step (panel, state, step_ms, step_offset, author) VALUES (?, ?, ?, ?, ?)")
        .with(panel, tasting::panelStateId(state), now.utcMs, now.offsetMinutes, m_book.id)
        .run();
}

void PanelRepository::addAnswer(base::PanelId panel, base::PersonId taster, const tasting::Answer& answer) {
    const base::Instant now = m_book.clock.now();
    const std::string json = answer.canonicalJson();
    Query(m_book.connection,
          "INSERT INTO panel_answer (id, panel, taster, given_ms, given_offset, author, content_hash, answer)"
          " VALUES (?, ?, ?, ?, ?, ?, ?, ?)")
        .with(base::Bits128::random(), panel, taster, now.utcMs, now.offsetMinutes, m_book.id,
              Digest::ofText(canonicalAnswer(panel, taster, now, json)), json)
        .run();
}

void PanelRepository::require(base::PanelId panel) const {
    Query query(m_book.connection, "SELECT 1 FROM panel WHERE id = ?");
    query.with(panel);
    if (!query.next()) throw notFound(m_book.connection, "panel", panel.text());
}

void PanelRepository::rename(base::PanelId panel, const std::string& name) {
    require(panel);
    Query(m_book.connection, "UPDATE panel SET name = ?2, name_author = ?3, name_version = name_version + 1"
                             " WHERE id = ?1 AND name <> ?2")
        .with(panel, name, m_book.id)
        .run();
}

void PanelRepository::bin(base::PanelId panel, bool binned) {
    require(panel);
    Query(m_book.connection,
          "UPDATE panel SET binned = ?2, binned_author = ?3, binned_version = binned_version + 1"
          " WHERE id = ?1 AND binned <> ?2")
        .with(panel, binned, m_book.id)
        .run();
}

std::optional<Panel> PanelRepository::find(base::PanelId id) const {
    const auto damaged = [&] {
        return StoreError(StoreErrorKind::Damaged, 0, m_book.connection.path(),
                          "the panel " + id.text() + " cannot be read");
    };
    std::optional<Panel> panel;
    {
        Query query(m_book.connection, "SELECT plan FROM panel WHERE id = ?");
        query.with(id);
        if (!query.next()) return std::nullopt;
        panel = Panel::fromCanonicalJson(query.text(0));
        if (!panel || panel->state != PanelState::Designed) throw damaged();
    }
    {
        Query steps(m_book.connection, "SELECT state FROM panel_step WHERE panel = ?");
        steps.with(id);
        while (steps.next())
            panel->state = std::max(panel->state,
                                    tasting::panelStateFromId(steps.text(0)).value_or(PanelState::Designed));
    }
    const auto& tasters = panel->design.tasters;
    Query answers(m_book.connection, "SELECT taster, answer FROM panel_answer WHERE panel = ? ORDER BY row");
    answers.with(id);
    while (answers.next()) {
        const auto at = std::find(tasters.begin(), tasters.end(), answers.id<base::PersonId>(0));
        const auto answer = tasting::Answer::fromCanonicalJson(answers.text(1));
        if (at == tasters.end() || !answer) throw damaged();
        panel->answers[static_cast<std::size_t>(at - tasters.begin())] = *answer;
    }
    if (tasting::problemOf(*panel)) throw damaged();
    return panel;
}

std::vector<base::PanelId> PanelRepository::all() const {
    Query query(m_book.connection, "SELECT id FROM panel ORDER BY binned, row DESC");
    return idsFrom(query);
}

std::vector<base::PanelId> PanelRepository::of(base::RevisionId product) const {
    Query query(m_book.connection, "SELECT p.id FROM panel_product o JOIN panel p ON p.id = o.panel"
                                   " WHERE o.revision = ? ORDER BY p.binned, p.row DESC");
    query.with(product);
    return idsFrom(query);
}

std::vector<base::RevisionId> PanelRepository::productsOf(base::PanelId panel) const {
    Query query(m_book.connection, "SELECT r.id FROM panel_product o JOIN revision r ON r.id = o.revision"
                                   " WHERE o.panel = ? ORDER BY r.row");
    query.with(panel);
    std::vector<base::RevisionId> found;
    while (query.next())
        found.push_back(query.id<base::RevisionId>(0));
    return found;
}

PanelSummary PanelRepository::summary(base::PanelId id) const {
    PanelSummary summary;
    summary.id = id;
    const auto panel = find(id);
    if (!panel) throw notFound(m_book.connection, "panel", id.text());
    summary.kind = panel->design.kind;
    summary.attribute = panel->design.attribute;
    summary.state = panel->state;
    summary.tasters = static_cast<int>(panel->design.tasters.size());
    summary.answered =
        static_cast<int>(std::count_if(panel->answers.begin(), panel->answers.end(),
                                       [](const tasting::Answer& answer) { return !answer.isEmpty(); }));
    summary.products = productsOf(id);
    Query query(
        m_book.connection,
        "SELECT p.name, p.created_ms, p.created_offset, p.binned, s.step_ms, s.step_offset FROM panel p"
        " LEFT JOIN panel_step s ON s.panel = p.id AND s.state = 'closed' WHERE p.id = ?");
    query.with(id);
    query.next();
    summary.name = query.text(0);
    summary.created = {query.integer(1), query.smallInteger(2)};
    summary.binned = query.integer(3) != 0;
    if (!query.isNull(4)) summary.closed = base::Instant{query.integer(4), query.smallInteger(5)};
    return summary;
}

std::vector<PanelRepository::Fault> PanelRepository::faults(int& panelCount, int& answerCount) const {
    std::vector<Fault> found;
    std::map<base::PanelId, std::string> names;
    {
        Query panels(m_book.connection, "SELECT id, name, plan, plan_hash FROM panel ORDER BY row");
        while (panels.next()) {
            ++panelCount;
            names[panels.id<base::PanelId>(0)] = panels.text(1);
            if (base::sha256Hex(panels.text(2)) != panels.hex(3))
                found.push_back({panels.text(1), "does not have the plan it was dealt with"});
        }
    }
    {
        Query answers(m_book.connection, "SELECT panel, taster, given_ms, given_offset, answer, content_hash"
                                         " FROM panel_answer ORDER BY row");
        while (answers.next()) {
            ++answerCount;
            const auto panel = answers.id<base::PanelId>(0);
            const auto content =
                canonicalAnswer(panel, answers.id<base::PersonId>(1),
                                {answers.integer(2), answers.smallInteger(3)}, answers.text(4));
            if (base::sha256Hex(content) != answers.hex(5))
                found.push_back({names[panel], "has an answer that is not what was written"});
        }
    }
    for (const auto& [id, name] : names) {
        try {
            const auto panel = find(id);
            auto products = panel->design.products;
            auto listed = productsOf(id);
            std::sort(products.begin(), products.end());
            std::sort(listed.begin(), listed.end());
            if (products != listed)
                found.push_back({name, "is listed with other drinks than its plan names"});
        } catch (const StoreError& error) {
            found.push_back({name, error.what()});
        }
    }
    return found;
}

} // namespace stillroom::store
