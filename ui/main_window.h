#pragma once

#include "ui/actions/actions.h"
#include "ui/panels/notices.h"
#include "ui/panels/tasting/tasting_sheet.h"
#include "ui/run_window.h"
#include "ui/session/desk.h"

#include <QMainWindow>
#include <QPointer>

#include <map>
#include <optional>

class QLabel;
class QMenu;
class QStackedWidget;
class QVBoxLayout;

namespace stillroom::ui {

class Banner;
class Bench;
class FirstRunPage;
class StatusLine;

// The window: menus over one page at a time, with what went wrong above it and the status line below.
class MainWindow : public QMainWindow {
    Q_OBJECT

  public:
    explicit MainWindow(const WindowStart& start = {}, QWidget* parent = nullptr);
    ~MainWindow() override;

    // What the start asked for: a book, the sample, the book of last time, or the page of a first run.
    void begin();

    Desk& desk() { return m_desk; }
    Actions& actions() { return m_actions; }
    Bench& bench() { return *m_bench; }
    FirstRunPage& firstRun() { return *m_firstRun; }
    StatusLine& status() { return *m_status; }
    Banner& banner() { return *m_banner; }
    // A page laid over the bench (a preview, a comparison, a tasting), and the way back from it. The page is
    // deleted when it is left.
    void showPage(QWidget* page);
    QWidget* page() const; // nullptr: the bench or the first page
    void closePage();

    bool keepNow(const QString& reason);
    // The revision open as it was, else the one under the trail's mark.
    std::optional<base::RevisionId> chosenRevision() const;
    bool showsRevision() const { return m_revision.has_value(); }

  Q_SIGNALS:
    void actionsUpdated(); // what can be done now was looked at anew

  protected:
    void closeEvent(QCloseEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    void connectActions();
    void connectBench();
    void on(Act act, const std::function<void()>& slot);
    void onBookChanged();
    void onDraftChanged(DraftSession* draft);
    void updateActions();
    void updatePlace();
    void updateSaved();
    void showHome();
    void dress();
    void fillRecent();

    void newBook();
    void openBookByDialog();
    void saveCopyByDialog();
    void openSample();
    bool needBook();
    void writeFirstLine(const QString& text);
    void pasteFromClipboard();
    void keepByDialog();
    void restoreChosen();
    void openRevision(base::RevisionId revision);
    void backToDraft();
    void makeHouse();
    void taste();
    void tasteRevision(base::RevisionId revision);
    void putTastingBy();
    bool saveTastingsPutBy();
    bool leaveTastings();
    void binDrink();
    void doNotice(NoticeAct act, int line);
    void sayHowMade();
    void editHouseMeasures();
    void editFacts(int line);
    void zoom(int steps);
    void setRole(spec::Role role);

    WindowStart m_start;
    Desk m_desk;
    Actions m_actions;
    QStackedWidget* m_pages;
    Bench* m_bench;
    FirstRunPage* m_firstRun;
    QPointer<QWidget> m_page;
    std::map<base::RevisionId, TastingInput> m_unsavedTastings; // of this sitting
    std::optional<base::RevisionId> m_tasted;                   // of the tasting page, when there is one
    Banner* m_banner;
    std::function<void()> m_bannerAct; // what the banner's words do beside closing it
    StatusLine* m_status;
    QLabel* m_bookName;
    QMenu* m_recent;
    std::optional<history::Revision> m_revision; // open as it was
};

} // namespace stillroom::ui
