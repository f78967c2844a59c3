#include "core/store/use_repository.h"

namespace stillroom::store {

namespace {

std::set<std::string> namedBy(const spec::Spec& spec) {
    std::set<std::string> named;
    for (const spec::Line& line : spec.lines) {
        if (line.ingredient) named.insert(line.ingredient->text());
        for (const spec::Alternative& other : line.alternatives)
            if (other.ingredient) named.insert(other.ingredient->text());
    }
    return named;
}

} // namespace

std::set<std::string> UseRepository::noted(base::DraftId draft) const {
    Query query(m_book.connection, "SELECT ingredient FROM draft_use WHERE draft = ?");
    query.with(draft);
    std::set<std::string> found;
    while (query.next())
        found.insert(query.text(0));
    return found;
}

void UseRepository::note(base::DraftId draft, const spec::Spec& spec) {
    const auto before = noted(draft);
    const auto now = namedBy(spec);
    for (const std::string& id : before)
        if (now.count(id) == 0)
            Query(m_book.connection, "DELETE FROM draft_use WHERE ingredient = ? AND draft = ?")
                .with(id, draft)
                .run();
    for (const std::string& id : now)
        if (before.count(id) == 0)
            Query(m_book.connection, "INSERT INTO draft_use (ingredient, draft) VALUES (?, ?)")
                .with(id, draft)
                .run();
}

bool UseRepository::agrees(base::DraftId draft, const spec::Spec& spec) const {
    return noted(draft) == namedBy(spec);
}

std::vector<IngredientUse> UseRepository::of(base::IngredientId ingredient) const {
    std::vector<IngredientUse> uses;
    {
        Query drafts(m_book.connection, "SELECT f.drink, f.id FROM draft_use u JOIN draft f ON f.id = u.draft"
                                        " WHERE u.ingredient = ? AND f.binned = 0 ORDER BY f.row");
        drafts.with(ingredient.text());
        while (drafts.next())
            uses.push_back({drafts.id<base::DrinkId>(0), drafts.id<base::DraftId>(1), std::nullopt});
    }
    Query revisions(m_book.connection,
                    "SELECT r.drink, r.id FROM revision r INDEXED BY revision_place WHERE r.row IN (SELECT "
                    "revision FROM revision_fact"
                    " WHERE ingredient = ?1 UNION SELECT revision FROM revision_fact WHERE pours = ?1)"
                    " ORDER BY r.row");
    revisions.with(ingredient);
    while (revisions.next())
        uses.push_back({revisions.id<base::DrinkId>(0), std::nullopt, revisions.id<base::RevisionId>(1)});
    return uses;
}

} // namespace stillroom::store
