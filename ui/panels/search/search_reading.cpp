#include "ui/panels/search/search_reading.h"

#include "ui/session/workbook_session.h"

#include <QCoreApplication>
#include <QEvent>

namespace stillroom::ui {

namespace {

constexpr int kDrinksAtOnce = 4;     // about a millisecond and a half on a large book
constexpr int kAfterOpeningMs = 150; // the window is painted first
constexpr int kAfterEditMs = 400;
constexpr int kQuietMs = 120; // since the last key
constexpr int kToldEveryMs = 250;

} // namespace

SearchReading::SearchReading(QObject* parent) : QObject(parent) {
    m_timer.setSingleShot(true);
    connect(&m_timer, &QTimer::timeout, this, &SearchReading::read);
    m_sinceKey.start();
    m_sinceTold.start();
    if (qApp != nullptr) qApp->installEventFilter(this);
}

void SearchReading::setBook(WorkbookSession* book) {
    if (m_book) m_book->disconnect(this);
    m_book = book;
    m_timer.stop();
    if (book == nullptr) return;
    const auto again = [this] { readSoon(kAfterEditMs); };
    connect(book, &WorkbookSession::larderChanged, this, again);
    connect(book, &WorkbookSession::settingsChanged, this, again);
    connect(book, &WorkbookSession::benchChanged, this, again);
    connect(book, &WorkbookSession::shelfReloaded, this, again);
    readSoon(kAfterOpeningMs);
}

void SearchReading::readSoon(int ms) {
    m_timer.start(ms);
}

bool SearchReading::eventFilter(QObject*, QEvent* event) {
    if (event->type() == QEvent::KeyPress) m_sinceKey.restart();
    return false;
}

void SearchReading::read() {
    if (!m_book) return;
    if (m_sinceKey.elapsed() < kQuietMs) {
        readSoon(kQuietMs);
        return;
    }
    int left = 0;
    try {
        left = m_book->book().catchUpSearch(kDrinksAtOnce);
    } catch (const store::StoreError&) {
        // Nothing depends on reading ahead: a search reads for itself, and tells what fails.
        return;
    }
    if (left > 0) {
        readSoon(0);
        if (m_sinceTold.elapsed() < kToldEveryMs) return;
        m_sinceTold.restart();
        Q_EMIT moved();
        return;
    }
    Q_EMIT done();
}

} // namespace stillroom::ui
