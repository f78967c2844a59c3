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
    void choose(base::RevisionId revision);

  Q_SIGNALS:
    void chosenChanged();
    void revisionActivated(base::RevisionId revision);
    void draftActivated();

  private:
    void rebuild();
    void refreshDraft();

    const DrinkHistory& m_history;
    QPointer<DraftSession> m_session;
    TrailValues m_kept;
};

} // namespace stillroom::ui
