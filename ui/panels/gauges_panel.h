#pragma once

#include "ui/session/draft_session.h"

#include <QPointer>
#include <QScrollArea>

class QHBoxLayout;

namespace stillroom::ui {

class ReadingsTable;

// The instruments: the grid of readings over the drawings of the drink.
class GaugesPanel : public QScrollArea {
    Q_OBJECT

  public:
    explicit GaugesPanel(QWidget* parent = nullptr);

    void setSession(DraftSession* session);
    void showRevision(const history::Revision* revision);
    ReadingsTable& table() { return *m_table; }

  protected:
    void changeEvent(QEvent* event) override;

  private:
    void dress();

    QPointer<DraftSession> m_session;
    ReadingsTable* m_table;
    QHBoxLayout* m_drawings;
};

} // namespace stillroom::ui
