#pragma once

#include "ui/session/draft_session.h"

#include <QPointer>
#include <QScrollArea>

#include <memory>

class QHBoxLayout;
class QShortcut;

namespace stillroom::ui {

struct WorkingView;

class BalanceMap;
class DrinkHistory;
class GlassDrawing;
class HeldPane;
class MorePane;
class ReadingsTable;
class StageColumns;
class WorkingPane;

// The instruments: the grid of readings over the drawings of the drink. Further readings, the working of any
// reading and the drink over time open in place of the drawings; all follow the drink, and the working the
// cell it was asked from.
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
    MorePane& more() { return *m_more; }

    void showWorking(); // of the cell of the grid, or of the further readings when the hand is there
    void showMore();
    void showHeld();
    // A working of a further reading leads back to those, anything else to the drawings; the focus goes where
    // it was.
    void closePane();
    bool isPaneFocused() const;

  Q_SIGNALS:
    void paneChanged();

  protected:
    void changeEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    void dress();
    void refresh();
    void placeColumns();
    void openPane(QWidget* pane);
    void refreshPane();
    void followGrid();
    WorkingView workingOfCell() const;
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
    MorePane* m_more;
    QWidget* m_pane = nullptr; // which of the three is open
    bool m_ofFurther = false;  // the working is of a further reading
    QPointer<QWidget> m_focusBefore;
    QShortcut* m_escape;
};

} // namespace stillroom::ui
