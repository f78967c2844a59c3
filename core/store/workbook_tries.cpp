#include "core/history/lineage.h"
#include "core/store/sqlite_workbook.h"
#include "core/store/stored.h"

namespace stillroom::store {

history::Draft SqliteWorkbook::branch(base::RevisionId from, const std::string& name) {
    return change("branching from a revision", Durability::Kept, [&] {
        const auto revision = m_revisions.find(from);
        if (!revision) throw notFound(m_book.connection, "revision", from.text());
        return m_drinks.addDraft(revision->drink, from, revision->spec, name);
    });
}

history::Draft SqliteWorkbook::addDraft(base::DrinkId drink, std::optional<base::RevisionId> basedOn,
                                        const spec::Spec& spec, const std::string& name) {
    return change("adding a draft", Durability::Kept, [&] {
        if (!m_drinks.find(drink)) throw notFound(m_book.connection, "drink", drink.text());
        if (basedOn) {
            const auto revision = m_revisions.find(*basedOn);
            if (!revision || revision->drink != drink)
                throw StoreError(StoreErrorKind::Refused, 0, m_path,
                                 "a draft can only be based on a revision of its own drink");
        }
        return m_drinks.addDraft(drink, basedOn, spec, name);
    });
}

void SqliteWorkbook::renameDraft(base::DraftId draft, const std::string& name) {
    change("naming a draft", Durability::Kept, [&] { m_drinks.renameDraft(draft, name); });
}

void SqliteWorkbook::setDraftAside(base::DraftId draft, bool aside) {
    change("setting a draft aside", Durability::Kept, [&] { m_drinks.setDraftAside(draft, aside); });
    if (m_draftsInLarder.count(draft) > 0) larderChanged();
}

void SqliteWorkbook::binDraft(base::DraftId draft, bool binned) {
    change("binning a draft", Durability::Kept, [&] {
        const auto stored = m_drinks.draft(draft);
        if (!stored) throw notFound(m_book.connection, "draft", draft.text());
        if (binned && !stored->binned && m_drinks.draftsOf(stored->drink).size() < 2)
            throw StoreError(StoreErrorKind::Refused, 0, m_path,
                             "a drink keeps its last draft; put the drink in the bin instead");
        m_drinks.binDraft(draft, binned);
    });
    larderChanged(); // a preparation may be poured from another draft now
}

void SqliteWorkbook::setRevisionAside(base::RevisionId revision, bool aside, const std::string& why) {
    change("setting a revision aside", Durability::Kept, [&] { m_revisions.setAside(revision, aside, why); });
}

std::vector<SetAside> SqliteWorkbook::setAside(base::DrinkId drink) const {
    return reading("reading what is set aside", [&] { return m_revisions.setAsideOf(drink); });
}

BinContents SqliteWorkbook::bin() const {
    return reading("reading the bin", [&] {
        return BinContents{m_drinks.binnedDrinks(), m_drinks.binnedDrafts()};
    });
}

std::string SqliteWorkbook::proposedReason(base::DraftId draft) const {
    return reading("reading what changed", [&] {
        const auto stored = m_drinks.draft(draft);
        if (!stored) throw notFound(m_book.connection, "draft", draft.text());
        const auto before = stored->basedOn ? m_revisions.find(*stored->basedOn) : std::nullopt;
        if (!before) return std::string();
        return history::proposedReason(before->spec, stored->spec, m_settings.load().rules.measures);
    });
}

} // namespace stillroom::store
