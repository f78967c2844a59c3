#include "ui/main_window.h"

#include "ui/dialogs/keep_dialog.h"
#include "ui/panels/bench.h"
#include "ui/panels/photos/open_photos.h"
#include "ui/panels/photos/photos_dialog.h"
#include "ui/panels/sheet_panel.h"
#include "ui/panels/tasting/tasting_page.h"
#include "ui/panels/trail_panel.h"
#include "ui/widgets/spec_table.h"
#include "ui/widgets/status_line.h"

#include <QMessageBox>
#include <QPushButton>

// Tastings begun in this window. One that is left unsaved is put by under its revision until it is saved or
// thrown away by the person's word.
namespace stillroom::ui {

// A tasting hangs on a kept revision: the one chosen on the trail, else the draft's own, kept first when the
// draft says something new.
void MainWindow::taste() {
    auto* draft = m_desk.draft();
    if (!draft || !m_bench->sheet().table().finishEditing()) return;
    const auto* chosen = m_bench->trail().chosen();
    if (m_revision || chosen) {
        tasteRevision(m_revision ? m_revision->id : chosen->id);
        return;
    }
    if (draft->spec().lines.empty()) {
        m_status->say(tr("There is nothing to taste yet."));
        return;
    }
    if (draft->base() && draft->base()->spec == draft->spec()) {
        tasteRevision(draft->base()->id);
        return;
    }
    auto* dialog = new KeepDialog(*draft, this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &KeepDialog::keepAsked, this, [this, draft](const QString& reason) {
        if (keepNow(reason) && draft->base()) tasteRevision(draft->base()->id);
    });
    dialog->open();
}

void MainWindow::tasteRevision(base::RevisionId revision) {
    auto* book = m_desk.book();
    std::optional<TastingSheet> sheet;
    m_desk.attempt([&] { sheet = loadTastingSheet(book->book(), revision, book->clock().now()); });
    if (!sheet) return;
    closePage(); // another tasting on the page is put by first
    auto* page = new TastingPage(this);
    page->setWindowTitle(tr("Tasting %1").arg(sheet->revision));
    page->setSheet(*sheet);
    if (const auto written = m_unsavedTastings.find(revision); written != m_unsavedTastings.end()) {
        page->setInput(written->second);
        m_status->say(tr("As you left it, not saved yet."));
    }
    m_tasted = revision;
    connect(page, &TastingPage::closed, this, &MainWindow::closePage);
    connect(page, &TastingPage::photosAsked, this, [this, book, page, revision](base::TastingId tasting) {
        auto* dialog = showPhotos(*this, tasting, tr("Photos of this tasting"));
        connect(dialog, &PhotosDialog::changed, page, [this, book, page, revision] {
            m_desk.attempt([&] {
                page->setTastings(
                    tastingEntries(book->book(), revision, book->book().people(), book->clock().now()));
            });
        });
    });
    connect(page, &TastingPage::saveRequested, this, [this, book, page, revision](const TastingInput& input) {
        const bool saved =
            m_desk.attempt([&] { saveTasting(book->book(), revision, input, book->clock().now()); });
        if (!saved) {
            page->showError(tr("The tasting could not be saved."), tr("What you wrote is still here."));
            return;
        }
        m_bench->history().reload();
        m_desk.attempt([&] { book->reloadBench(); }); // what was measured may count for drafts
        m_tasted.reset();                             // nothing on the page is unsaved any more
        m_unsavedTastings.erase(revision);
        const auto who =
            input.initials.isEmpty() ? tr("The tasting") : tr("What %1 said").arg(input.initials);
        closePage();
        m_status->say(input.amends ? tr("%1 is corrected. What it said before stays in the book.").arg(who)
                                   : tr("%1 is written down.").arg(who));
    });
    showPage(page);
    page->startEntry();
}

// What stands on the page goes by; nothing of it is lost by leaving.
void MainWindow::putTastingBy() {
    const auto* page = qobject_cast<TastingPage*>(m_page.data());
    if (page == nullptr || !m_tasted) return;
    const auto input = page->input();
    if (!page->holdsUnsaved()) {
        m_unsavedTastings.erase(*m_tasted);
        return;
    }
    m_unsavedTastings[*m_tasted] = input;
    m_status->say(tr("%1 is not saved. It is put by: %2 on that revision goes on with it.")
                      .arg(page->windowTitle(), Actions::keyText(Act::Taste)));
}

bool MainWindow::saveTastingsPutBy() {
    auto* book = m_desk.book();
    while (!m_unsavedTastings.empty()) {
        const auto [revision, input] = *m_unsavedTastings.begin();
        const bool named = !input.name.isEmpty();
        const bool readable = circumstancesFrom(input.circumstances).has_value();
        const bool saved = named && readable && m_desk.attempt([&] {
            saveTasting(book->book(), revision, input, book->clock().now());
        });
        if (!saved) {
            tasteRevision(revision);
            if (auto* page = qobject_cast<TastingPage*>(m_page.data()))
                page->showError(!named      ? tr("Who tasted?")
                                : !readable ? tr("What was measured cannot be read.")
                                            : tr("The tasting could not be saved."),
                                tr("Nothing is saved yet; the note is as you wrote it."));
            return false;
        }
        m_unsavedTastings.erase(m_unsavedTastings.begin());
    }
    m_bench->history().reload();
    return true;
}

// Before the book goes. False: the person goes on tasting.
bool MainWindow::leaveTastings() {
    putTastingBy();
    if (m_unsavedTastings.empty()) return true;
    QMessageBox ask(this);
    ask.setIcon(QMessageBox::Question);
    ask.setWindowTitle(tr("Tasting not saved"));
    ask.setText(m_unsavedTastings.size() == 1
                    ? tr("A tasting is not saved.")
                    : tr("%1 tastings are not saved.").arg(m_unsavedTastings.size()));
    ask.setInformativeText(tr("Scores and notes you wrote are not in the book yet."));
    auto* save = ask.addButton(tr("&Save"), QMessageBox::AcceptRole);
    auto* keep = ask.addButton(tr("&Keep editing"), QMessageBox::RejectRole);
    auto* away = ask.addButton(tr("&Throw away"), QMessageBox::DestructiveRole);
    ask.setDefaultButton(save);
    ask.setEscapeButton(keep);
    ask.exec();
    const bool onPage = qobject_cast<TastingPage*>(m_page.data()) != nullptr;
    if (ask.clickedButton() == away || ask.clickedButton() == save) {
        m_tasted.reset(); // what the page holds has been put by above
        if (onPage) closePage();
    }
    if (ask.clickedButton() == away) {
        m_unsavedTastings.clear();
        return true;
    }
    if (ask.clickedButton() == save) {
        const auto count = m_unsavedTastings.size();
        if (!saveTastingsPutBy()) return false;
        m_status->say(count == 1 ? tr("The tasting is written down.") : tr("The tastings are written down."));
        return true;
    }
    if (!onPage) tasteRevision(m_unsavedTastings.begin()->first);
    return false;
}

} // namespace stillroom::ui
