#pragma once

#include "ui/text/working_words.h"

#include <QTimer>
#include <QWidget>

class QLabel;
class QPushButton;
class QTextBrowser;

namespace stillroom::ui {

// How one reading came about. Read with the arrows, copied as text, left with Esc.
class WorkingPane : public QWidget {
    Q_OBJECT

  public:
    explicit WorkingPane(QWidget* parent = nullptr);

    static constexpr int kSettleMs = 120;

    // Another number of the same reading stands in the head at once; its steps follow when typing pauses,
    // since laying out the page takes longer than a keystroke may.
    void setView(const WorkingView& view);
    QTextBrowser& text() { return *m_text; }
    QPushButton& copyButton() { return *m_copy; }
    QString plain() const; // what "Copy as text" copies

  Q_SIGNALS:
    void closed();

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    void dress();
    void head();
    void fill();
    void copy();

    WorkingView m_view;
    QString m_shown; // what the page is of
    QTimer m_settle;
    QLabel* m_title;
    QLabel* m_reading;
    QPushButton* m_copy;
    QPushButton* m_close;
    QTextBrowser* m_text;
};

} // namespace stillroom::ui
