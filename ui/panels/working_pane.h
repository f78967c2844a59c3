#pragma once

#include "ui/text/working_words.h"

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
    void fill();
    void copy();

    WorkingView m_view;
    QLabel* m_title;
    QLabel* m_reading;
    QPushButton* m_copy;
    QPushButton* m_close;
    QTextBrowser* m_text;
};

} // namespace stillroom::ui
