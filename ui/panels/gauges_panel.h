#pragma once

#include "ui/session/draft_session.h"

#include <QPointer>
#include <QScrollArea>

class QHBoxLayout;

namespace stillroom::ui {

class BalanceMap;
class DrinkHistory;
class GlassDrawing;
class ReadingsTable;
class StageColumns;

// The instruments: the grid of readings over the drawings of the drink.
class GaugesPanel : public QScrollArea {
    Q_OBJECT

  public:
    explicit GaugesPanel(const DrinkHistory& history, QWidget* parent = nullptr);

    void setSession(DraftSession* session);
    void showRevision(const history::Revision* revision, const larder::Larder* larder);
    ReadingsTable& table() { return *m_table; }
    GlassDrawing& glass() { return *m_glass; }
    BalanceMap& map() { return *m_map; }

  protected:
    void changeEvent(QEvent* event) override;

  private:
    void dress();
    void refresh();
    void placeColumns();

    const DrinkHistory& m_history;
    QPointer<DraftSession> m_session;
    std::optional<history::Revision> m_revision;
    std::vector<spec::Contribution> m_revisionBrings;
    StageColumns* m_columns;
    ReadingsTable* m_table;
    GlassDrawing* m_glass;
    BalanceMap* m_map;
    QHBoxLayout* m_drawings;
};

} // namespace stillroom::ui
