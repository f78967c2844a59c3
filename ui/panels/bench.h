#pragma once

#include "ui/session/drink_history.h"

#include <QPointer>
#include <QWidget>

class QLabel;

namespace stillroom::ui {

class Actions;
class GaugesPanel;
class PreparationPanel;
class SheetPanel;
class ShelfPanel;
class TrailPanel;

// The home of the window: shelf, sheet, instruments, and the trail under the last two.
class Bench : public QWidget {
    Q_OBJECT

  public:
    explicit Bench(const Actions& actions, QWidget* parent = nullptr);

    void setBook(WorkbookSession* book);
    void setSession(DraftSession* session);
    // What is wanted of the shelf; on a narrow window it folds away unless asked for.
    void setShelfShown(bool shown);
    bool isShelfShown() const;
    void showRevision(const history::Revision* revision, const larder::Larder* larder);
    // F6: shelf, sheet, readings, drawings, trail, and round again.
    void focusNextPanel();

    ShelfPanel& shelf() { return *m_shelf; }
    SheetPanel& sheet() { return *m_sheet; }
    GaugesPanel& gauges() { return *m_gauges; }
    PreparationPanel& preparation() { return *m_preparation; }
    TrailPanel& trail() { return *m_trail; }
    DrinkHistory& history() { return m_history; }

  protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

  private:
    void place();

    DrinkHistory m_history;
    ShelfPanel* m_shelf;
    SheetPanel* m_sheet;
    GaugesPanel* m_gauges;
    PreparationPanel* m_preparation; // instead of the gauges
    TrailPanel* m_trail;
    QLabel* m_empty; // what to do next while no drink is in hand
    std::optional<bool> m_shelfWanted;
    QPointer<DraftSession> m_session;
};

} // namespace stillroom::ui
