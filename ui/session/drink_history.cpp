#include "ui/session/drink_history.h"

#include "ui/text/border.h"

#include <algorithm>

namespace stillroom::ui {

DrinkHistory::DrinkHistory(QObject* parent) : QObject(parent) {}

void DrinkHistory::setDraft(DraftSession* draft) {
    if (m_draft) m_draft->disconnect(this);
    m_draft = draft;
    if (m_draft) connect(m_draft, &DraftSession::baseChanged, this, &DrinkHistory::reload);
    reload();
}

void DrinkHistory::reload() {
    m_revisions.clear();
    m_tastings.clear();
    m_initials.clear();
    if (m_draft) {
        const auto& book = m_draft->book().book();
        m_revisions = book.revisions(m_draft->drink().id);
        for (const auto& revision : m_revisions) {
            auto tastings = book.tastings(revision.id);
            if (!tastings.empty()) m_tastings.emplace(revision.id, std::move(tastings));
        }
        if (!m_tastings.empty())
            for (const auto& person : book.people())
                m_initials.emplace(person.id, fromCore(person.initials));
    }
    Q_EMIT reloaded();
}

std::vector<history::Revision> DrinkHistory::wayTo(const std::optional<base::RevisionId>& id,
                                                   std::size_t most) const {
    std::vector<history::Revision> way;
    for (const auto* at = id ? revision(*id) : nullptr; at && way.size() < most;
         at = at->parent ? revision(*at->parent) : nullptr)
        way.push_back(*at);
    std::reverse(way.begin(), way.end());
    return way;
}

const history::Revision* DrinkHistory::revision(base::RevisionId id) const {
    const int at = indexOf(id);
    return at < 0 ? nullptr : &m_revisions[static_cast<std::size_t>(at)];
}

int DrinkHistory::indexOf(base::RevisionId id) const {
    const auto found =
        std::find_if(m_revisions.begin(), m_revisions.end(), [&](const auto& r) { return r.id == id; });
    return found == m_revisions.end() ? -1 : static_cast<int>(found - m_revisions.begin());
}

const std::vector<tasting::Tasting>& DrinkHistory::tastings(base::RevisionId id) const {
    static const std::vector<tasting::Tasting> none;
    const auto found = m_tastings.find(id);
    return found == m_tastings.end() ? none : found->second;
}

QString DrinkHistory::initials(base::PersonId person) const {
    const auto found = m_initials.find(person);
    return found == m_initials.end() ? QString() : found->second;
}

} // namespace stillroom::ui
