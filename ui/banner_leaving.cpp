#include "ui/banner_leaving.h"

#include "ui/main_window.h"
#include "ui/theme/banner.h"

#include <QStackedWidget>
#include <QTimer>

namespace stillroom::ui {

namespace {

class Leaving : public QObject {
  public:
    explicit Leaving(MainWindow& window) : QObject(&window), m_window(window) {
        auto& desk = window.desk();
        connect(&desk, &Desk::failed, this, [this] {
            // What fails on the way to a page is still news when the page is there.
            m_fresh = true;
            QTimer::singleShot(0, this, [this] { m_fresh = false; });
        });
        connect(&desk, &Desk::draftChanged, this, &Leaving::onDraft);
        connect(&desk, &Desk::bookChanged, this, &Leaving::onBook);
        auto* pages =
            window.banner().parentWidget()->findChild<QStackedWidget*>({}, Qt::FindDirectChildrenOnly);
        connect(pages, &QStackedWidget::currentChanged, this, &Leaving::goneOn);
    }

  private:
    void goneOn() {
        if (!m_fresh && m_window.banner().kind() != BannerKind::Caution)
            m_window.banner().show(BannerKind::Error, {});
    }
    void mended() {
        if (m_window.banner().kind() == BannerKind::Error) goneOn();
    }
    void onBook() {
        m_saveFailed.clear();
        if (auto* book = m_window.desk().book()) {
            connect(book, &WorkbookSession::larderChanged, this, &Leaving::mended);
            connect(book, &WorkbookSession::shelfReloaded, this, &Leaving::mended);
        }
    }
    void onDraft(DraftSession* draft) {
        goneOn();
        m_saveFailed.clear();
        if (draft == nullptr) return;
        disconnect(draft, nullptr, this, nullptr);
        connect(draft, &DraftSession::saveFailed, this,
                [this](const Sentence& sentence) { m_saveFailed = sentence.fact; });
        connect(draft, &DraftSession::baseChanged, this, &Leaving::mended);
        connect(draft, &DraftSession::saved, this, [this] {
            if (!m_saveFailed.isEmpty() && m_window.banner().text().fact == m_saveFailed) mended();
            m_saveFailed.clear();
        });
    }

    MainWindow& m_window;
    QString m_saveFailed; // what the banner said of it
    bool m_fresh = false;
};

} // namespace

void letBannerLeave(MainWindow& window) {
    new Leaving(window);
}

} // namespace stillroom::ui
