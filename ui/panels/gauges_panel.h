#pragma once

#include "ui/session/draft_session.h"

#include <QPointer>
#include <QScrollArea>

#include <memory>

class QHBoxLayout;
class QShortcut;

namespace stillroom::ui {

class BalanceMap;
class DrinkHistory;
class GlassDrawing;
class HeldPane;
class ReadingsTable;
class StageColumns;
class WorkingPane;

// The instruments: the grid of readings over the drawings of the drink. The working of a reading, and the
// drink over time, open in place of the drawings; both follow the drink, and the working the grid's cell.
class GaugesPanel : public QScrollArea {
    Q_OBJECT

  public:
    explicit GaugesPanel(const DrinkHistory& history, QWidget* parent = nullptr);

    void setSession(DraftSession* session);
    void showRevision(const history::Revision* revision, const larder::Larder* larder);
    ReadingsTable& table() { return *m_table; }
    GlassDrawing& glass() { return *m_glass; }
    BalanceMap& map() { return *m_map; }
    WorkingPane& working() { return *m_working; }
    HeldPane& held() { return *m_held; }

    void showWorking(); // of the grid's cell
    void showHeld();
    // Puts the drawings back, and the focus where it was.
    void closePane();
    bool isPaneFocused() const;

  Q_SIGNALS:
    void paneChanged();

  protected:
    void changeEvent(QEvent* event) override;

  private:
    void dress();
    void refresh();
    void placeColumns();
    void openPane(QWidget* pane);
    void refreshPane();
    const spec::Spec& shownSpec() const;
    const spec::Bindings& shownBindings() const;

    const DrinkHistory& m_history;
    QPointer<DraftSession> m_session;
    std::optional<history::Revision> m_revision;
    spec::GlassFilling m_revisionFilling;
    std::unique_ptr<spec::Bindings> m_revisionBindings;
    StageColumns* m_columns;
    ReadingsTable* m_table;
    GlassDrawing* m_glass;
    BalanceMap* m_map;
    QHBoxLayout* m_drawings;
    QWidget* m_drawingsBox;
    WorkingPane* m_working;
    HeldPane* m_held;
    QWidget* m_pane = nullptr; // which of the two is open
    QPointer<QWidget> m_focusBefore;
    QShortcut* m_escape;
};

} // namespace stillroom::ui
