#pragma once

#include "ui/plots/trail.h"
#include "ui/session/drink_history.h"

#include <QPointer>

namespace stillroom::ui {

// The trail with this drink's revisions on it and the draft at its end.
class TrailPanel : public Trail {
    Q_OBJECT

  public:
    explicit TrailPanel(const DrinkHistory& history, QWidget* parent = nullptr);

    void setSession(DraftSession* session);
    // The revision under the keyboard's mark; nullptr: the draft, or none.
    const history::Revision* chosen() const;
    // A draft under the mark that is not the one in hand.
    std::optional<base::DraftId> chosenDraft() const;
    void choose(base::RevisionId revision);

  Q_SIGNALS:
    void chosenChanged();
    void revisionActivated(base::RevisionId revision);
    void draftActivated();
    void otherDraftActivated(base::DraftId draft);

  private:
    void rebuild();
    std::optional<base::DraftId> draftAt(int mark) const;
    void refreshDraft();

    const DrinkHistory& m_history;
    QPointer<DraftSession> m_session;
    TrailValues m_kept;
};

} // namespace stillroom::ui
