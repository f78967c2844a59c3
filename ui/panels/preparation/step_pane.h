#pragma once

#include "ui/session/draft_session.h"

#include <QPointer>
#include <QWidget>

#include <optional>

class QLabel;
class QToolButton;

namespace stillroom::ui {

class LineEntryRow;
class StepBars;
class StepForm;

// A preparation's steps: bars of what is left, walked through and edited, with the figures of the step in
// hand below them.
class StepPane : public QWidget {
    Q_OBJECT

  public:
    explicit StepPane(QWidget* parent = nullptr);

    // Shows itself for a preparation only.
    void setSession(DraftSession* session);
    // As it was, to read only; nullptr: the draft again.
    void showFixed(const DraftReading* now);

    StepBars& bars() { return *m_bars; }
    StepForm& form() { return *m_form; }
    LineEntryRow& entry() { return *m_entry; }
    void setNarrow(bool narrow); // the page has no room for two fields side by side
    void setLine(int line);      // in hand on the sheet; below 0: none
    QToolButton& addButton() { return *m_add; }

  Q_SIGNALS:
    void said(const QString& text);

  protected:
    void changeEvent(QEvent* event) override;

  private:
    void refresh();
    void followCursor();
    void add();
    void remove();
    void move(int by);
    void dress();
    int step() const; // in hand; the number of steps: the yield

    QPointer<DraftSession> m_session;
    bool m_fixed = false;
    QLabel* m_heading;
    QToolButton* m_add;
    QToolButton* m_remove;
    LineEntryRow* m_entry;
    StepBars* m_bars;
    StepForm* m_form;
    QLabel* m_yield;
};

} // namespace stillroom::ui
