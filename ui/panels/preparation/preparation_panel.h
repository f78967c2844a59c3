#pragma once

#include "ui/panels/preparation/preparation_uses.h"
#include "ui/session/draft_session.h"

#include <QPointer>
#include <QScrollArea>

#include <memory>

class QBoxLayout;
class QLabel;
class QPushButton;
class QTableWidget;

namespace stillroom::ui {

class KeepingRuler;
class LabelDrawing;
class RatioRow;
class StandGrid;

// What a preparation comes to, in place of a drink's instruments: readings by step, how long it keeps, who
// pours it, and its label.
class PreparationPanel : public QScrollArea {
    Q_OBJECT

  public:
    explicit PreparationPanel(QWidget* parent = nullptr);

    // A drink that is no preparation empties it.
    void setSession(DraftSession* session);
    void showRevision(const history::Revision* revision, const larder::Larder* larder);

    StandGrid& grid() { return *m_grid; }
    KeepingRuler& keeping() { return *m_keeping; }
    QTableWidget& uses() { return *m_uses; }
    LabelDrawing& label() { return *m_label; }
    RatioRow& ratio() { return *m_ratio; }
    const PreparationRecord& record() const { return m_record; }
    QString words() const; // on price and standing in
    void copyLabel();
    void printLabel();

  Q_SIGNALS:
    void drinkActivated(stillroom::base::DrinkId drink);
    void said(const QString& text);
    void printAsked();

  protected:
    void changeEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    void readBook(); // what stands beside the spec
    void refresh();
    void fillUses();
    void dress();
    void place();

    QPointer<DraftSession> m_session;
    std::optional<history::Revision> m_revision;
    RevisionReading m_revisionReading;
    PreparationRecord m_record;
    StandGrid* m_grid;
    RatioRow* m_ratio;
    QLabel* m_keepingHead;
    KeepingRuler* m_keeping;
    QBoxLayout* m_both;
    QLabel* m_usesHead;
    QTableWidget* m_uses;
    QLabel* m_circle;
    QLabel* m_measured; // the lot in use: what drinks count
    QLabel* m_prices;
    LabelDrawing* m_label;
    QPushButton* m_copy;
    QPushButton* m_print;
    QLabel* m_standIn;
    std::vector<QWidget*> m_rules;
};

} // namespace stillroom::ui
