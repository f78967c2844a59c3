#pragma once

#include "ui/session/draft_session.h"

#include <QPointer>
#include <QWidget>

class QComboBox;
class QLabel;

namespace stillroom::ui {

// Before which step the line in hand goes in. Hidden while there is no step, or no line in hand.
class LineEntryRow : public QWidget {
    Q_OBJECT

  public:
    explicit LineEntryRow(QWidget* parent = nullptr);

    void setSession(DraftSession* session); // nullptr: none, or only to be read
    void setLine(int line);                 // below 0: none
    void refresh();
    QComboBox& place() { return *m_place; }
    QString words() const;

  protected:
    void changeEvent(QEvent* event) override;

  private:
    void choose(int at);
    void dress();

    QPointer<DraftSession> m_session;
    int m_line = -1;
    QLabel* m_words;
    QComboBox* m_place;
};

} // namespace stillroom::ui
