#include "ui/panels/trail_panel.h"

#include "ui/panels/drawing_values.h"

namespace stillroom::ui {

TrailPanel::TrailPanel(const DrinkHistory& history, QWidget* parent) : Trail(parent), m_history(history) {
    connect(&m_history, &DrinkHistory::reloaded, this, &TrailPanel::rebuild);
    connect(this, &Trail::cursorMoved, this, &TrailPanel::chosenChanged);
    connect(this, &Trail::activated, this, [this](int mark) {
        const auto& revisions = m_history.revisions();
        if (mark >= 0 && static_cast<std::size_t>(mark) < revisions.size())
            Q_EMIT revisionActivated(revisions[static_cast<std::size_t>(mark)].id);
        else if (const auto draft = draftAt(mark))
            Q_EMIT otherDraftActivated(*draft);
        else
            Q_EMIT draftActivated();
    });
}

std::optional<base::DraftId> TrailPanel::draftAt(int mark) const {
    const auto& drafts = m_history.otherDrafts();
    const auto at =
        static_cast<std::ptrdiff_t>(mark) - static_cast<std::ptrdiff_t>(m_history.revisions().size());
    if (at < 0 || at >= static_cast<std::ptrdiff_t>(m_history.triesAmongOthers())) return std::nullopt;
    return drafts[static_cast<std::size_t>(at)].draft.id;
}

std::optional<base::DraftId> TrailPanel::chosenDraft() const {
    return draftAt(cursor());
}

void TrailPanel::setSession(DraftSession* session) {
    if (m_session) m_session->disconnect(this);
    m_session = session;
    if (m_session) connect(m_session, &DraftSession::changed, this, &TrailPanel::refreshDraft);
    rebuild();
    setCursor(static_cast<int>(values().marks.size()) - 1);
}

const history::Revision* TrailPanel::chosen() const {
    const int mark = cursor();
    const auto& revisions = m_history.revisions();
    if (mark < 0 || static_cast<std::size_t>(mark) >= revisions.size()) return nullptr;
    return &revisions[static_cast<std::size_t>(mark)];
}

void TrailPanel::choose(base::RevisionId revision) {
    setCursor(m_history.indexOf(revision));
}

void TrailPanel::rebuild() {
    m_kept = trailOf(m_history);
    refreshDraft();
    Q_EMIT chosenChanged();
}

void TrailPanel::refreshDraft() {
    TrailValues values = m_kept;
    if (m_session) values.marks.push_back(draftMark(m_history, *m_session));
    if (values.marks == this->values().marks) return;
    setValues(values);
}

} // namespace stillroom::ui
