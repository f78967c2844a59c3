#pragma once

#include <QElapsedTimer>
#include <QObject>
#include <QPointer>
#include <QTimer>

namespace stillroom::ui {

class WorkbookSession;

// Makes search ready while nothing else is to be done: a bit at a time on the window's own thread, each some
// milliseconds, none while somebody types.
class SearchReading : public QObject {
    Q_OBJECT

  public:
    explicit SearchReading(QObject* parent = nullptr);

    void setBook(WorkbookSession* book);
    bool isDone() const { return !m_timer.isActive(); }

  Q_SIGNALS:
    void moved(); // some more is read; at most a few times a second
    void done();

  protected:
    bool eventFilter(QObject* object, QEvent* event) override;

  private:
    void readSoon(int ms);
    void read();

    QPointer<WorkbookSession> m_book;
    QTimer m_timer;
    QElapsedTimer m_sinceKey, m_sinceTold;
};

} // namespace stillroom::ui
