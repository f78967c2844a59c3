#include "ui/session/drink_history.h"

#include "core/history/what_changed.h"
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
    m_places.clear();
    m_tastings.clear();
    m_initials.clear();
    m_photos.clear();
    m_otherDrafts.clear();
    m_setAside.clear();
    m_tries = 0;
    if (m_draft) {
        const auto& book = m_draft->book().book();
        m_revisions = book.revisions(m_draft->drink().id);
        for (const auto& revision : m_revisions) {
            m_places.emplace(revision.id, static_cast<int>(m_places.size()));
            auto tastings = book.tastings(revision.id);
            if (!tastings.empty()) m_tastings.emplace(revision.id, std::move(tastings));
        }
        if (!m_tastings.empty())
            for (const auto& person : book.people())
                m_initials.emplace(person.id, fromCore(person.initials));
        for (auto& aside : book.setAside(m_draft->drink().id)) {
            const auto revision = aside.revision;
            m_setAside.emplace(revision, std::move(aside));
        }
        if (book.photoTally().photos > 0) readPhotos();
        readChanges();
        readDrafts();
    }
    Q_EMIT reloaded();
}

void DrinkHistory::readPhotos() {
    const auto& book = m_draft->book().book();
    for (const auto& revision : m_revisions) {
        auto photos = book.photosOf(revision.id);
        const auto& tasted = tastings(revision.id);
        for (auto at = tasted.begin(); photos.empty() && at != tasted.end(); ++at)
            photos = book.photosOf(at->id);
        if (!photos.empty()) m_photos.emplace(revision.id, photos.front().info.hash);
    }
}

std::string DrinkHistory::photo(base::RevisionId id) const {
    const auto found = m_photos.find(id);
    return found == m_photos.end() ? std::string() : found->second;
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
    const auto found = m_places.find(id);
    return found == m_places.end() ? -1 : found->second;
}

// A revision never changes: what was said of it stands for this sitting.
void DrinkHistory::readChanges() {
    const auto& book = m_draft->book().book();
    const auto stateOf = [&](const std::string& hash) -> const larder::FactState* {
        auto found = m_states.find(hash);
        if (found == m_states.end()) found = m_states.emplace(hash, book.factState(hash)).first;
        return found->second ? &*found->second : nullptr;
    };
    for (const auto& revision : m_revisions) {
        const auto* parent = revision.parent ? this->revision(*revision.parent) : nullptr;
        if (parent == nullptr || m_changed.count(revision.id) > 0) continue;
        const auto swaps =
            history::factSwaps(parent->spec, parent->facts, revision.spec, revision.facts, stateOf);
        m_changed.emplace(revision.id,
                          fromCore(history::changesInWords(
                              history::difference(parent->spec, revision.spec, revision.measures),
                              parent->spec, revision.spec, swaps)));
    }
}

void DrinkHistory::readDrafts() {
    auto& session = m_draft->book();
    for (auto& draft : session.book().drafts(m_draft->drink().id)) {
        if (draft.id == m_draft->draft().id) continue;
        const spec::Bindings bindings(draft.spec, session.larder(), session.houseRules());
        auto readings = spec::evaluateWithTemperatures(draft.spec, bindings);
        m_otherDrafts.push_back({std::move(draft), readings});
    }
    const auto tries =
        std::stable_partition(m_otherDrafts.begin(), m_otherDrafts.end(), [this](const OtherDraft& other) {
            const auto* base = other.draft.basedOn ? revision(*other.draft.basedOn) : nullptr;
            return base == nullptr || !(base->spec == other.draft.spec);
        });
    m_tries = static_cast<std::size_t>(tries - m_otherDrafts.begin());
}

const QString& DrinkHistory::changed(base::RevisionId id) const {
    static const QString none;
    const auto found = m_changed.find(id);
    return found == m_changed.end() ? none : found->second;
}

const store::SetAside* DrinkHistory::setAside(base::RevisionId id) const {
    const auto found = m_setAside.find(id);
    return found == m_setAside.end() ? nullptr : &found->second;
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
