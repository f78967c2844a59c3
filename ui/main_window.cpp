#include "ui/main_window.h"

#include "core/spec/jigger_step.h"
#include "ui/banner_leaving.h"
#include "ui/dialogs/first_run_page.h"
#include "ui/panels/asks/open_asks.h"
#include "ui/panels/bench.h"
#include "ui/panels/bin/open_bin.h"
#include "ui/panels/blind/open_blind.h"
#include "ui/panels/drafts/open_drafts.h"
#include "ui/panels/drafts/standing.h"
#include "ui/panels/gauges_panel.h"
#include "ui/panels/larder/open_larder.h"
#include "ui/panels/lineage/open_lineage.h"
#include "ui/panels/measuring/open_measuring.h"
#include "ui/panels/more_pane.h"
#include "ui/panels/photos/open_photos.h"
#include "ui/panels/preparation/open_preparation.h"
#include "ui/panels/search/open_search.h"
#include "ui/panels/sheet_head.h"
#include "ui/panels/sheet_panel.h"
#include "ui/panels/shelf_panel.h"
#include "ui/panels/side_by_side/open_side_by_side.h"
#include "ui/panels/stand_in/open_stand_in.h"
#include "ui/panels/stock/open_stock.h"
#include "ui/panels/tasting/open_tasting.h"
#include "ui/panels/tasting/tasting_page.h"
#include "ui/panels/trail_panel.h"
#include "ui/text/amounts.h"
#include "ui/text/border.h"
#include "ui/text/revision_label.h"
#include "ui/theme/banner.h"
#include "ui/theme/theme.h"
#include "ui/widgets/cell_edit.h"
#include "ui/widgets/readings_table.h"
#include "ui/widgets/spec_table.h"
#include "ui/widgets/status_line.h"
#include "ui/widgets/wheel_guard.h"
#include "ui/widgets/written_field.h"

#include <QAction>
#include <QApplication>
#include <QCloseEvent>
#include <QFileInfo>
#include <QLabel>
#include <QMenu>
#include <QMenuBar>
#include <QStackedWidget>
#include <QVBoxLayout>

namespace stillroom::ui {

MainWindow::MainWindow(const WindowStart& start, QWidget* parent)
    : QMainWindow(parent),
      m_start(start),
      m_pages(new QStackedWidget(this)),
      m_bench(new Bench(m_actions, this)),
      m_firstRun(new FirstRunPage(this)),
      m_banner(new Banner(this)),
      m_status(new StatusLine(this)),
      m_bookName(new QLabel(this)),
      m_recent(new QMenu(tr("Open &recent"), this)) {
    guardWheel();
    setWindowTitle(tr("Stillroom"));
    setAttribute(Qt::WA_OpaquePaintEvent);
    auto* all = new QWidget(this);
    auto* layout = new QVBoxLayout(all);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(m_banner);
    layout->addWidget(m_pages, 1);
    layout->addWidget(m_status);
    m_pages->addWidget(m_firstRun);
    m_pages->addWidget(m_bench);
    setCentralWidget(all);
    m_banner->hide();
    m_actions.fill(*menuBar(), m_recent);
    menuBar()->setCornerWidget(m_bookName, Qt::TopRightCorner);
    addActions(m_actions.list());
    m_firstRun->setSampleOffered(static_cast<bool>(m_start.createSample));

    connect(&m_desk, &Desk::bookChanged, this, &MainWindow::onBookChanged);
    connect(&m_desk, &Desk::draftChanged, this, &MainWindow::onDraftChanged);
    connect(&m_desk, &Desk::failed, this, [this](const Sentence& sentence) {
        m_bannerAct = {};
        m_banner->show(BannerKind::Error,
                       {sentence.fact,
                        QString(sentence.consequence + QLatin1Char(' ') + sentence.act).trimmed(),
                        tr("Close this")});
    });
    connect(m_banner, &Banner::actTriggered, this, [this] {
        const auto act = std::exchange(m_bannerAct, {});
        m_banner->show(BannerKind::Error, {});
        if (act) act();
    });
    connect(m_recent, &QMenu::aboutToShow, this, &MainWindow::fillRecent);
    fillRecent();
    connectBench();
    connectActions();
    connectLarder(*this);
    connectMeasuring(*this);
    connectStandIn(*this);
    connectDrafts(*this);
    connectStanding(*this);
    connectPreparation(*this);
    connectSideBySide(*this);
    connectStock(*this);
    connectSearch(*this);
    connectTasting(*this);
    connectBlind(*this);
    connectBin(*this);
    connectLineage(*this);
    connectPhotos(*this);
    connectAsks(*this);
    letBannerLeave(*this);
    dress();
    resize(Theme::current().pxInt(1440), Theme::current().pxInt(900));
    onBookChanged();
}

MainWindow::~MainWindow() {
    // A dialog that closes with the window moves the focus when everything here is gone already.
    disconnect(qApp, nullptr, this, nullptr);
    // Panels let go of the draft before the desk does.
    m_desk.closeBook();
}

void MainWindow::begin() {
    if (!m_start.path.empty()) {
        if (!m_desk.openBook(fromCore(m_start.path))) return;
    } else if (m_start.sample) {
        openSample();
    } else if (const auto recent = Desk::recentBooks(); !recent.isEmpty()) {
        m_desk.openBook(recent.first());
    }
}

void MainWindow::dress() {
    const auto& theme = Theme::current();
    QPalette quiet = QApplication::palette();
    quiet.setColor(QPalette::WindowText, theme.color(Token::Ink2));
    m_bookName->setPalette(quiet);
    m_bookName->setFont(theme.font(Type::Control));
    m_bookName->setContentsMargins(0, theme.pxInt(5), theme.pxInt(14), theme.pxInt(5));
}

void MainWindow::connectBench() {
    connect(&m_bench->shelf(), &ShelfPanel::drinkChosen, this, [this](base::DrinkId drink) {
        if (!m_bench->sheet().table().finishEditing()) return;
        m_desk.openDrink(drink);
    });
    connect(&m_bench->sheet(), &SheetPanel::noticeAct, this, &MainWindow::doNotice);
    connect(&m_bench->sheet(), &SheetPanel::said, m_status, &StatusLine::say);
    connect(&m_bench->sheet().table(), &SpecTable::currentLineChanged, this, [this] {
        updatePlace();
        updateActions();
    });
    connect(&m_bench->gauges().table(), &ReadingsTable::cellMoved, this, &MainWindow::updatePlace);
    connect(&m_bench->trail(), &TrailPanel::revisionActivated, this, &MainWindow::openRevision);
    connect(&m_bench->trail(), &TrailPanel::draftActivated, this, &MainWindow::backToDraft);
    connect(&m_bench->trail(), &TrailPanel::chosenChanged, this, &MainWindow::updateActions);
    connect(m_firstRun, &FirstRunPage::lineWritten, this, &MainWindow::writeFirstLine);
    connect(m_firstRun, &FirstRunPage::sampleAsked, this, &MainWindow::openSample);
    connect(m_firstRun, &FirstRunPage::openAsked, this, &MainWindow::openBookByDialog);
    connect(m_firstRun, &FirstRunPage::pasteAsked, this, &MainWindow::pasteFromClipboard);
    connect(m_firstRun, &FirstRunPage::preparationAsked, m_actions.at(Act::NewPreparation),
            &QAction::trigger);
    connect(qApp, &QApplication::focusChanged, this, &MainWindow::updatePlace);
}

void MainWindow::onBookChanged() {
    auto* book = m_desk.book();
    closePage();
    m_unsavedTastings.clear(); // of a book that is gone; whoever let it go was asked
    m_bannerAct = {};
    m_banner->show(BannerKind::Error, {});
    m_bench->setBook(book);
    m_bookName->setText(book ? QFileInfo(fromCore(book->book().path())).fileName() : QString());
    m_bookName->setMinimumSize(m_bookName->sizeHint());
    menuBar()->setCornerWidget(m_bookName, Qt::TopRightCorner);
    setWindowTitle(book ? tr("%1 · Stillroom").arg(book->title()) : tr("Stillroom"));
    if (book) {
        if (book->book().isReadOnly())
            m_banner->show(BannerKind::Caution,
                           {tr("This book is open to read only."),
                            tr("What you type is not kept. Save a copy to work on."), tr("Close this")});
        connect(book, &WorkbookSession::shelfReloaded, this, &MainWindow::showHome);
    }
    m_firstRun->setSampleOffered(static_cast<bool>(m_start.createSample));
    fillRecent();
    showHome();
    updateActions();
    updatePlace();
    updateSaved();
}

// An empty bench is the first page; as soon as there is a drink, the bench itself.
void MainWindow::showHome() {
    if (m_page) return;
    const bool anything = m_desk.book() && (m_desk.draft() || !m_desk.book()->shelf().empty());
    QWidget* home = anything ? static_cast<QWidget*>(m_bench) : m_firstRun;
    if (m_pages->currentWidget() == home) return;
    m_pages->setCurrentWidget(home);
    if (home == m_firstRun) m_firstRun->line().setFocus();
}

void MainWindow::onDraftChanged(DraftSession* draft) {
    closePage();
    m_revision.reset();
    m_bench->setSession(draft);
    if (draft) {
        if (std::exchange(m_bannerAct, {})) m_banner->show(BannerKind::Error, {}); // its moment has passed
        const auto unique = Qt::UniqueConnection;
        connect(draft, &DraftSession::saved, this, &MainWindow::updateSaved, unique);
        connect(draft, &DraftSession::changed, this, &MainWindow::updateActions, unique);
        connect(draft, &DraftSession::changed, this, &MainWindow::updatePlace, unique);
        connect(draft, &DraftSession::baseChanged, this, &MainWindow::updateActions, unique);
        // The stack knows what can be undone only after the edit has been told.
        connect(&draft->undoStack(), &QUndoStack::canUndoChanged, this, &MainWindow::updateActions, unique);
        connect(&draft->undoStack(), &QUndoStack::canRedoChanged, this, &MainWindow::updateActions, unique);
        connect(draft, &DraftSession::saveFailed, &m_desk, &Desk::failed, unique);
    }
    showHome();
    updateActions();
    updatePlace();
    updateSaved();
}

void MainWindow::showPage(QWidget* page) {
    closePage();
    m_page = page;
    m_pages->addWidget(page);
    m_pages->setCurrentWidget(page);
    page->setFocus(Qt::OtherFocusReason);
    updateActions();
    updatePlace();
}

QWidget* MainWindow::page() const {
    return m_page;
}

void MainWindow::closePage() {
    if (!m_page) return;
    putTastingBy();
    QWidget* leaving = m_page;
    m_page = nullptr;
    m_pages->removeWidget(leaving);
    leaving->deleteLater();
    showHome();
    if (m_pages->currentWidget() == m_bench) m_bench->sheet().table().setFocus(Qt::OtherFocusReason);
    updateActions();
    updatePlace();
}

void MainWindow::updateActions() {
    const auto* book = m_desk.book();
    const auto* draft = m_desk.draft();
    const bool bench = draft != nullptr && !m_page;
    const bool writable = bench && !m_revision && !book->book().isReadOnly();
    const auto enable = [this](Act act, bool enabled) { m_actions.at(act)->setEnabled(enabled); };
    for (const auto act : {Act::SaveCopy, Act::CloseBook})
        enable(act, book != nullptr);
    enable(Act::BookSettings, book != nullptr && !book->book().isReadOnly());
    enable(Act::Filter, book != nullptr && !m_page);
    enable(Act::Undo, writable && const_cast<DraftSession*>(draft)->undoStack().canUndo());
    enable(Act::Redo, writable && const_cast<DraftSession*>(draft)->undoStack().canRedo());
    enable(Act::Rename, writable);
    enable(Act::Keep, writable);
    enable(Act::HowMade, writable);
    enable(Act::BackToDraft, m_page || m_revision);
    enable(Act::BinDrink, writable);
    m_actions.at(Act::BinDrink)
        ->setText(draft && draft->drink().binned ? tr("Bring back from the b&in") : tr("Put in the b&in"));
    const bool chosen = bench && m_bench->trail().chosen() != nullptr;
    enable(Act::Restore, bench && !book->book().isReadOnly() && (chosen || m_revision));
    enable(Act::OpenRevision, chosen);
    enable(Act::MakeHouse, bench && !book->book().isReadOnly() && (chosen || m_revision));
    enable(Act::Compare, bench && !m_bench->history().revisions().empty());
    enable(Act::Taste, bench && !book->book().isReadOnly());
    auto& table = m_bench->sheet().table();
    const int line = writable ? table.currentLine() : -1;
    enable(Act::InsertLine, writable);
    for (const auto act :
         {Act::DeleteLine, Act::SplitLine, Act::MoveUp, Act::MoveDown, Act::ChooseIngredient, Act::RoleMixed,
          Act::RoleTopped, Act::RoleFloated, Act::RoleRinse, Act::RoleGarnish, Act::ToggleOptional})
        enable(act, line >= 0);
    if (line >= 0 && static_cast<std::size_t>(line) < draft->spec().lines.size()) {
        const auto& at = draft->spec().lines[static_cast<std::size_t>(line)];
        const auto check = [&](Act act, bool on) { m_actions.at(act)->setChecked(on); };
        check(Act::RoleMixed, at.role == spec::Role::Mixed);
        check(Act::RoleTopped, at.role == spec::Role::Topped);
        check(Act::RoleFloated, at.role == spec::Role::Floated);
        check(Act::RoleRinse, at.role == spec::Role::Rinse);
        check(Act::RoleGarnish, at.role == spec::Role::Garnish);
        check(Act::ToggleOptional, at.optional);
    }
    m_actions.at(Act::Shelf)->setChecked(m_bench->isShelfShown());
    enable(Act::Working, bench);
    enable(Act::More, bench);
    enable(Act::Held, bench);
    enable(Act::NextPanel, bench);
    enable(Act::NextDoubt, bench);
    Q_EMIT actionsUpdated();
}

std::optional<base::RevisionId> MainWindow::chosenRevision() const {
    if (m_revision) return m_revision->id;
    const auto* chosen = m_bench->trail().chosen();
    return chosen ? std::optional(chosen->id) : std::nullopt;
}

void MainWindow::updatePlace() {
    const auto* draft = m_desk.draft();
    auto& table = m_bench->sheet().table();
    std::vector<KeyHints::Hint> hints;
    QString place;
    const auto key = [](Act act) { return Actions::keyText(act); };
    if (m_page) {
        place = m_page->windowTitle();
        hints = {{key(Act::BackToDraft), tr("back to the draft")}};
        // A page may name its keys: key and what it does, by turns.
        const auto named = m_page->property("keyHints").toStringList();
        for (qsizetype i = named.size() - 1; i > 0; i -= 2)
            hints.insert(hints.begin(), {named[i - 1], named[i]});
        if (qobject_cast<TastingPage*>(m_page.data()))
            hints.insert(hints.begin(), {{tr("Tab"), tr("goes on")}, {tr("Ctrl+Enter"), tr("save")}});
    } else if (m_revision) {
        place = tr("%1, as it was kept").arg(revisionLabel(draft->drink().form, m_revision->number));
        hints = {{key(Act::Restore), tr("put it in the draft")},
                 {key(Act::BackToDraft), tr("back to the draft")}};
    } else if (draft != nullptr && m_bench->gauges().table().hasFocus()) {
        place = m_bench->gauges().table().readingText();
        hints = {{key(Act::Working), tr("how it came about")},
                 {key(Act::More), tr("more readings")},
                 {key(Act::Held), tr("held over time")},
                 {key(Act::NextPanel), tr("next panel")}};
    } else if (draft != nullptr && m_bench->gauges().isPaneFocused()) {
        place = QApplication::focusWidget()->accessibleName();
        hints = {{tr("Ctrl+C"), tr("copy")}, {tr("Esc"), tr("back")}};
        if (m_bench->gauges().more().isVisible())
            hints.insert(hints.begin(), {key(Act::Working), tr("how it came about")});
    } else if (draft != nullptr) {
        auto* editor = table.openEditor();
        const int line = table.currentLine();
        const bool amount = table.currentIndex().column() <= SpecModel::Amount;
        if (line >= 0 && static_cast<std::size_t>(line) < draft->spec().lines.size()) {
            const auto& at = draft->spec().lines[static_cast<std::size_t>(line)];
            place = tr("%1, %2").arg(fromCore(at.name), amount ? tr("amount") : tr("name"));
            if (editor && amount) {
                if (const auto up = spec::steppedOnJiggers(at.poured, 1))
                    hints.push_back({QStringLiteral("↑"), amountForEditing(*up)});
                if (const auto down = spec::steppedOnJiggers(at.poured, -1))
                    hints.push_back(
                        {QStringLiteral("↓"), tr("%1 on your jiggers").arg(amountForEditing(*down))});
            }
        } else if (table.currentIndex().isValid() && (editor || table.hasFocus())) {
            place = tr("Next line");
        }
        if (editor)
            hints.insert(hints.end(), {{tr("Enter"), tr("next line")}, {tr("Esc"), tr("as it was")}});
        else
            hints.insert(hints.end(), {{key(Act::Keep), tr("keep")},
                                       {key(Act::NextDoubt), tr("next gap")},
                                       {key(Act::Keys), tr("keys")}});
    } else {
        hints = {{key(Act::NewDrink), tr("new drink")},
                 {key(Act::PasteSpec), tr("paste a spec")},
                 {key(Act::OpenBook), tr("open a book")}};
    }
    m_status->setPlace(place);
    m_status->setHints(hints);
}

void MainWindow::updateSaved() {
    const auto* draft = m_desk.draft();
    if (draft && draft->savedAt())
        m_status->setSaved(tr("Saved %1").arg(timeText(*draft->savedAt())));
    else if (m_desk.book())
        m_status->setSaved(m_desk.book()->book().isReadOnly() ? tr("Read only") : tr("Everything is saved"));
    else
        m_status->setSaved({});
}

void MainWindow::closeEvent(QCloseEvent* event) {
    m_bench->sheet().table().finishEditing();
    if (auto* draft = m_desk.draft()) draft->flush();
    if (!leaveTastings()) {
        event->ignore();
        return;
    }
    event->accept();
}

void MainWindow::changeEvent(QEvent* event) {
    QMainWindow::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

} // namespace stillroom::ui
