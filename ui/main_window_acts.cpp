#include "ui/main_window.h"

#include "ui/dialogs/about_dialogs.h"
#include "ui/dialogs/facts_dialog.h"
#include "ui/dialogs/first_run_page.h"
#include "ui/dialogs/keep_dialog.h"
#include "ui/dialogs/keys_dialog.h"
#include "ui/dialogs/made_dialog.h"
#include "ui/dialogs/measures_dialog.h"
#include "ui/dialogs/paste_page.h"
#include "ui/panels/bench.h"
#include "ui/panels/conversions_desk.h"
#include "ui/panels/gauges_panel.h"
#include "ui/panels/sheet_head.h"
#include "ui/panels/sheet_panel.h"
#include "ui/panels/shelf_panel.h"
#include "ui/panels/spec_fields.h"
#include "ui/panels/trail_panel.h"
#include "ui/session/line_entry.h"
#include "ui/text/border.h"
#include "ui/text/revision_label.h"
#include "ui/theme/banner.h"
#include "ui/theme/theme.h"
#include "ui/widgets/prose_edit.h"
#include "ui/widgets/readings_table.h"
#include "ui/widgets/spec_table.h"
#include "ui/widgets/status_line.h"
#include "ui/widgets/written_field.h"

#include <QAction>
#include <QApplication>
#include <QClipboard>
#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QMenu>
#include <QSettings>

// What the window does when an action is triggered. Each is one call on the desk, the draft or the sheet.
namespace stillroom::ui {

namespace {

const QString kBooks = QStringLiteral("Stillroom (*.stillroom)");

} // namespace

void MainWindow::on(Act act, const std::function<void()>& slot) {
    connect(m_actions.at(act), &QAction::triggered, this, slot);
}

void MainWindow::connectActions() {
    auto& table = m_bench->sheet().table();
    auto& theme = Theme::current();
    on(Act::NewBook, [this] { newBook(); });
    on(Act::OpenBook, [this] { openBookByDialog(); });
    on(Act::SaveCopy, [this] { saveCopyByDialog(); });
    on(Act::BookSettings, [this] { editHouseMeasures(); });
    on(Act::CloseBook, [this] {
        if (leaveTastings()) m_desk.closeBook();
    });
    on(Act::Quit, [this] { close(); });
    on(Act::Undo, [this] {
        if (auto* draft = m_desk.draft(); draft && !m_page) draft->undoStack().undo();
    });
    on(Act::Redo, [this] {
        if (auto* draft = m_desk.draft(); draft && !m_page) draft->undoStack().redo();
    });
    on(Act::PasteSpec, [this] { pasteFromClipboard(); });
    on(Act::Filter, [this] {
        m_bench->setShelfShown(true);
        m_bench->shelf().focusFilter();
        updateActions();
    });
    on(Act::NewDrink, [this] {
        if (!needBook() || !m_desk.newDrink(history::DrinkForm::Drink)) return;
        m_bench->sheet().head().title().setFocus(Qt::ShortcutFocusReason);
    });
    on(Act::NewPreparation, [this] {
        if (!needBook() || !m_desk.newDrink(history::DrinkForm::Preparation)) return;
        m_bench->sheet().head().title().setFocus(Qt::ShortcutFocusReason);
    });
    on(Act::Rename, [this] {
        m_bench->sheet().head().title().setFocus(Qt::ShortcutFocusReason);
        m_bench->sheet().head().title().selectAll();
    });
    on(Act::Keep, [this] { keepByDialog(); });
    on(Act::HowMade, [this] { sayHowMade(); });
    on(Act::Restore, [this] { restoreChosen(); });
    on(Act::OpenRevision, [this] {
        if (const auto* chosen = m_bench->trail().chosen()) openRevision(chosen->id);
    });
    on(Act::BackToDraft, [this] { backToDraft(); });
    on(Act::MakeHouse, [this] { makeHouse(); });
    on(Act::BinDrink, [this] { binDrink(); });
    on(Act::InsertLine, [&table] { table.insertLine(); });
    on(Act::DeleteLine, [&table] { table.deleteLine(); });
    on(Act::SplitLine, [&table] { table.splitLine(); });
    on(Act::MoveUp, [&table] { table.moveLine(-1); });
    on(Act::MoveDown, [&table] { table.moveLine(1); });
    on(Act::ChooseIngredient, [&table] { table.chooseIngredient(); });
    on(Act::RoleMixed, [&table] { table.setRole(spec::Role::Mixed); });
    on(Act::RoleTopped, [&table] { table.setRole(spec::Role::Topped); });
    on(Act::RoleFloated, [&table] { table.setRole(spec::Role::Floated); });
    on(Act::RoleRinse, [&table] { table.setRole(spec::Role::Rinse); });
    on(Act::RoleGarnish, [&table] { table.setRole(spec::Role::Garnish); });
    on(Act::ToggleOptional, [&table] { table.toggleOptional(); });
    on(Act::Taste, [this] { taste(); });
    on(Act::Shelf, [this] {
        m_bench->setShelfShown(!m_bench->isShelfShown());
        updateActions();
    });
    on(Act::NextPanel, [this] { m_bench->focusNextPanel(); });
    on(Act::NextDoubt, [this] { m_bench->sheet().nextDoubt(); });
    on(Act::Conversions, [this] {
        if (!m_bench->sheet().table().finishEditing()) return;
        auto* page = new ConversionsDesk(this);
        connect(page, &ConversionsDesk::closed, this, &MainWindow::closePage);
        showPage(page);
    });
    // Space belongs to whatever has the focus; only the grid of readings gives it to the working.
    m_actions.at(Act::Working)->setShortcutContext(Qt::WidgetShortcut);
    on(Act::Working, [this] { m_bench->gauges().showWorking(); });
    on(Act::More, [this] { m_bench->gauges().showMore(); });
    on(Act::Held, [this] { m_bench->gauges().showHeld(); });
    const auto wear = [&theme](Theme::Choice choice) {
        return [&theme, choice] {
            theme.setChoice(choice);
            QSettings().setValue(QStringLiteral("look/choice"), static_cast<int>(choice));
        };
    };
    on(Act::FollowSystem, wear(Theme::Choice::FollowSystem));
    on(Act::Light, wear(Theme::Choice::Light));
    on(Act::Dark, wear(Theme::Choice::Dark));
    m_actions
        .at(theme.choice() == Theme::Choice::Light  ? Act::Light
            : theme.choice() == Theme::Choice::Dark ? Act::Dark
                                                    : Act::FollowSystem)
        ->setChecked(true);
    on(Act::Larger, [this] { zoom(1); });
    on(Act::Smaller, [this] { zoom(-1); });
    on(Act::NormalSize, [this] { zoom(0); });
    const auto open = [this](QDialog* dialog) {
        dialog->setAttribute(Qt::WA_DeleteOnClose);
        dialog->open();
    };
    on(Act::Keys, [this, open] { open(new KeysDialog(this)); });
    on(Act::Cautions, [this, open] { open(new CautionsDialog(this)); });
    on(Act::About, [this, open] { open(new AboutDialog(this)); });
}

void MainWindow::zoom(int steps) {
    auto& theme = Theme::current();
    theme.setZoomPercent(steps == 0 ? 100 : theme.zoomPercent() + 10 * steps);
    QSettings().setValue(QStringLiteral("look/zoom"), theme.zoomPercent());
    m_status->say(tr("Everything at %1 %").arg(theme.zoomPercent()));
}

void MainWindow::newBook() {
    const QString path =
        QFileDialog::getSaveFileName(this, tr("New book"), Desk::freeBookPath(tr("Untitled")), kBooks);
    if (path.isEmpty()) return;
    if (QFileInfo::exists(path)) {
        Q_EMIT m_desk.failed({tr("Something stands at %1 already.").arg(path), tr("It was left as it is."),
                              tr("Choose another name.")});
        return;
    }
    if (leaveTastings()) m_desk.createBook(path, {});
}

void MainWindow::openBookByDialog() {
    const QString path = QFileDialog::getOpenFileName(this, tr("Open a book"), QDir::homePath(), kBooks);
    if (!path.isEmpty() && leaveTastings()) m_desk.openBook(path);
}

void MainWindow::saveCopyByDialog() {
    const QString path = QFileDialog::getSaveFileName(this, tr("Save a copy"),
                                                      Desk::freeBookPath(m_desk.book()->title()), kBooks);
    if (!path.isEmpty() && m_desk.saveCopy(path))
        m_status->say(tr("Copied to %1. This book stays open.").arg(path));
}

void MainWindow::openSample() {
    if (leaveTastings()) m_desk.makeBook(Desk::freeBookPath(tr("Nine Lights")), m_start.createSample);
}

// Writing or pasting without a book starts one, so that nothing stands between a person and the first line.
bool MainWindow::needBook() {
    if (m_desk.book()) return !m_desk.book()->book().isReadOnly();
    return m_desk.createBook(Desk::freeBookPath(tr("Untitled")), {});
}

void MainWindow::writeFirstLine(const QString& text) {
    const larder::Larder larder = m_desk.book() ? m_desk.book()->larder() : larder::Larder();
    exchange::ReadOptions options;
    if (m_desk.book()) options = m_desk.book()->readOptions();
    options.larder = &larder;
    const auto entry = readEntry(text, options, larder);
    if (entry.lines.empty() || entry.asks) {
        // A list on one line, or something to ask about, is looked at on the preview.
        if (!entry.asks && !text.contains(QLatin1Char(','))) {
            m_firstRun->setProblem(
                tr("“%1” names nothing that can be poured. Write it as an amount and a name.").arg(text));
            return;
        }
    }
    if (!needBook()) return;
    auto* preview = new PastePage(*m_desk.book(), this);
    QString lines = text;
    if (text.contains(QStringLiteral(", "))) lines.replace(QStringLiteral(", "), QStringLiteral("\n"));
    preview->read(lines);
    const auto spec = preview->acceptedSpec();
    const bool clear = preview->openQuestions() == 0 && !spec.lines.empty();
    delete preview;
    m_firstRun->setProblem({});
    m_firstRun->line().clear();
    if (!clear) {
        auto* page = new PastePage(*m_desk.book(), this);
        page->read(lines);
        connect(page, &PastePage::accepted, this, [this, page] {
            const auto name = page->acceptedName();
            const auto read = page->acceptedSpec();
            m_desk.newDrink(history::DrinkForm::Drink, name, read, page->acceptedNotes());
        });
        connect(page, &PastePage::closed, this, &MainWindow::closePage);
        showPage(page);
        return;
    }
    if (m_desk.newDrink(history::DrinkForm::Drink, {}, spec)) m_bench->sheet().table().editLastRow();
}

void MainWindow::pasteFromClipboard() {
    const QString text = QApplication::clipboard()->text();
    const bool empty = text.trimmed().isEmpty();
    if (!needBook()) return;
    auto* page = new PastePage(*m_desk.book(), this);
    if (!empty) page->read(text);
    connect(page, &PastePage::accepted, this, [this, page] {
        const auto name = page->acceptedName();
        const auto spec = page->acceptedSpec();
        const auto notes = page->acceptedNotes();
        // A drink of that name in the book takes it as a draft that can be undone; else it is a new one.
        if (const auto known = page->drinkOfThatName()) {
            if (m_desk.openDrink(*known)) {
                m_desk.draft()->apply(spec, tr("Paste a spec"));
                auto words = m_desk.draft()->now().words;
                if (!notes.isEmpty()) {
                    QString all = fromCore(words.notes);
                    if (!all.isEmpty()) all += QLatin1Char('\n');
                    words.notes = toCore(QString(all + notes));
                    m_desk.draft()->applyWords(std::move(words), tr("Notes of a pasted spec"));
                }
            }
            closePage();
            return;
        }
        m_desk.newDrink(history::DrinkForm::Drink, name, spec, notes);
    });
    connect(page, &PastePage::closed, this, &MainWindow::closePage);
    showPage(page);
    if (empty) page->startWriting();
}

void MainWindow::keepByDialog() {
    auto* draft = m_desk.draft();
    if (!draft || !m_bench->sheet().table().finishEditing()) return;
    if (draft->spec().lines.empty()) {
        m_status->say(tr("There is nothing to keep yet."));
        return;
    }
    if (draft->base() && !draft->differsFromBase()) {
        m_status->say(tr("Nothing differs from %1, so there is nothing to keep.")
                          .arg(revisionLabel(draft->drink().form, draft->base()->number)));
        return;
    }
    auto* dialog = new KeepDialog(*draft, this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &KeepDialog::keepAsked, this, &MainWindow::keepNow);
    dialog->open();
}

bool MainWindow::keepNow(const QString& reason) {
    auto* draft = m_desk.draft();
    if (!draft) return false;
    bool kept = false;
    m_desk.attempt([&] {
        const auto revision = draft->keep(reason);
        kept = revision.has_value();
        if (kept)
            m_status->say(tr("Kept as %1.").arg(revisionLabel(draft->drink().form, revision->number)));
        else
            m_status->say(tr("Nothing differs from the last revision, so there is nothing to keep."));
    });
    return kept;
}

void MainWindow::restoreChosen() {
    auto* draft = m_desk.draft();
    if (!draft) return;
    const auto* chosen = m_bench->trail().chosen();
    const auto revision = m_revision ? *m_revision : (chosen ? *chosen : history::Revision{});
    if (revision.id.isNull()) return;
    backToDraft();
    const QString label = revisionLabel(draft->drink().form, revision.number);
    if (draft->restore(revision))
        m_status->say(
            tr("%1 is in the draft now. %2 takes it back.").arg(label, Actions::keyText(Act::Undo)));
    else
        m_status->say(tr("The draft is %1 already.").arg(label));
}

void MainWindow::openRevision(base::RevisionId id) {
    auto* draft = m_desk.draft();
    const auto* revision = m_bench->history().revision(id);
    if (!draft || !revision || !m_bench->sheet().table().finishEditing()) return;
    m_desk.attempt([&] {
        const auto larder = m_desk.book()->book().larderOf(*revision);
        m_revision = *revision;
        m_bench->showRevision(&*m_revision, &larder);
    });
    updateActions();
    updatePlace();
}

void MainWindow::backToDraft() {
    if (m_page) {
        closePage();
        return;
    }
    if (!m_revision) return;
    m_revision.reset();
    m_bench->showRevision(nullptr, nullptr);
    updateActions();
    updatePlace();
}

void MainWindow::makeHouse() {
    const auto* chosen = m_bench->trail().chosen();
    const auto revision = m_revision ? *m_revision : (chosen ? *chosen : history::Revision{});
    auto* draft = m_desk.draft();
    if (draft == nullptr || revision.id.isNull()) return;
    const QString label = revisionLabel(draft->drink().form, revision.number);
    if (draft->drink().house != revision.id) {
        if (m_desk.makeHouse(revision.id)) m_status->say(tr("%1 is the house spec now.").arg(label));
        return;
    }
    const bool off = m_desk.attempt([&] {
        auto drink = m_desk.book()->book().drink(draft->drink().id);
        if (!drink) return;
        drink->house.reset();
        m_desk.book()->saveDrink(*drink);
        draft->reloadDrink();
        m_desk.book()->reloadShelf();
    });
    if (off) m_status->say(tr("%1 is no longer the house spec; this drink has none.").arg(label));
}

void MainWindow::binDrink() {
    auto* draft = m_desk.draft();
    if (!draft) return;
    const auto name = fromCore(draft->now().words.name);
    const bool comesBack = draft->drink().binned;
    const auto id = draft->drink().id;
    if (!m_desk.binDrink(id, !comesBack)) return;
    updateActions();
    if (!comesBack && !m_desk.draft() && !m_desk.book()->shelf().empty()) {
        m_bannerAct = [this, id] {
            if (m_desk.binDrink(id, false)) m_desk.openDrink(id);
        };
        m_banner->show(BannerKind::Gap, {tr("%1 is in the bin.").arg(name.isEmpty() ? tr("The drink") : name),
                                         tr("It is still in the book."), tr("Undo")});
        m_banner->setFocus(Qt::OtherFocusReason);
    }
    m_status->say(
        (comesBack ? tr("%1 is back on the shelf.") : tr("%1 is in the bin, and still in the book."))
            .arg(name.isEmpty() ? tr("The drink") : name));
}

void MainWindow::doNotice(NoticeAct act, int line) {
    auto& sheet = m_bench->sheet();
    auto& table = sheet.table();
    const int row = line >= 0 ? table.lines().rowOf(line) : -1;
    switch (act) {
    case NoticeAct::EnterFacts:
        editFacts(line);
        break;
    case NoticeAct::ChooseIngredient:
        if (row < 0) break;
        table.setCurrentIndex(table.lines().index(row, SpecModel::Name));
        table.chooseIngredient();
        break;
    case NoticeAct::Amount:
        if (row >= 0) table.editCell(row, SpecModel::Amount);
        break;
    case NoticeAct::HouseMeasures:
        editHouseMeasures();
        break;
    case NoticeAct::Method:
        sheet.fields().method().setFocus(Qt::OtherFocusReason);
        break;
    case NoticeAct::Glass:
        sheet.fields().glass().setFocus(Qt::OtherFocusReason);
        break;
    case NoticeAct::PartTarget:
        sheet.fields().partTarget().setFocus(Qt::OtherFocusReason);
        break;
    case NoticeAct::None:
        break;
    }
}

void MainWindow::editFacts(int line) {
    auto* draft = m_desk.draft();
    if (!draft || line < 0) return;
    const auto* poured = draft->bindings().poured(static_cast<std::size_t>(line));
    if (poured == nullptr) return;
    auto* dialog = new FactsDialog(*poured, m_desk.book()->settings().rules.currency, this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &FactsDialog::saveAsked, this, [this](const larder::Ingredient& ingredient) {
        m_desk.attempt([&] { m_desk.book()->saveIngredient(ingredient); });
    });
    dialog->open();
}

void MainWindow::sayHowMade() {
    auto* draft = m_desk.draft();
    if (!draft || !m_bench->sheet().table().finishEditing()) return;
    auto* dialog = new MadeDialog(draft->spec(), m_desk.book()->larder(), draft->bindings().rules(), this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &MadeDialog::saveAsked, draft,
            [draft](const spec::Spec& next) { draft->apply(next, tr("How it was made")); });
    dialog->open();
}

void MainWindow::editHouseMeasures() {
    if (!m_desk.book()) return;
    auto* dialog = new MeasuresDialog(m_desk.book()->settings(), this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &MeasuresDialog::saveAsked, this, [this](const store::BookSettings& settings) {
        m_desk.attempt([&] { m_desk.book()->saveSettings(settings); });
        updatePlace();
    });
    dialog->open();
}

void MainWindow::fillRecent() {
    m_recent->clear();
    for (const auto& path : Desk::recentBooks()) {
        auto* action = m_recent->addAction(QDir::toNativeSeparators(path));
        connect(action, &QAction::triggered, this, [this, path] {
            if (leaveTastings()) m_desk.openBook(path);
        });
    }
    m_recent->setEnabled(!m_recent->isEmpty());
}

} // namespace stillroom::ui
