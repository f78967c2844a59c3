#include "ui/session/edit_command.h"

#include "ui/session/draft_session.h"

namespace stillroom::ui {

EditCommand::EditCommand(DraftSession& session, DraftContent before, DraftContent after, const QString& label,
                         int mergeKey, QObject* origin)
    : QUndoCommand(label),
      m_session(session),
      m_before(std::move(before)),
      m_after(std::move(after)),
      m_mergeKey(mergeKey),
      m_origin(origin) {}

void EditCommand::undo() {
    m_session.install(m_before, nullptr);
    if (m_meaning) m_session.installMeaning(m_meaning->written, m_meaning->before);
}

void EditCommand::redo() {
    m_session.install(m_after, m_origin);
    if (m_meaning) m_session.installMeaning(m_meaning->written, m_meaning->after);
    m_origin = nullptr;
}

bool EditCommand::mergeWith(const QUndoCommand* other) {
    if (other->id() != m_mergeKey) return false;
    m_after = static_cast<const EditCommand*>(other)->m_after;
    if (m_after == m_before) setObsolete(true);
    return true;
}

} // namespace stillroom::ui
