#include "ui/panels/bin/open_bin.h"

#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/bin/bin_page.h"
#include "ui/panels/bin/emptying.h"
#include "ui/panels/sheet_panel.h"
#include "ui/text/border.h"
#include "ui/widgets/spec_table.h"
#include "ui/widgets/status_line.h"

#include <QAction>
#include <QFileInfo>

namespace stillroom::ui {

namespace {

BinPage* open(MainWindow& window);

// The book is closed, emptied and opened again; whatever happens it stands open at the end, as far as it can
// be opened at all.
void empty(MainWindow& window) {
    const QString path = fromCore(window.desk().book()->book().path());
    window.actions().at(Act::CloseBook)->trigger(); // asks about what is not saved
    if (window.desk().book() != nullptr) return;
    std::optional<store::StoreError> problem;
    const auto emptied = emptyBinOf(toCore(path), &window, problem);
    if (!window.desk().openBook(path)) return; // told by the desk
    if (problem) {
        Q_EMIT window.desk().failed(storeErrorSentence(*problem));
        return;
    }
    if (auto* page = open(window)) page->tellEmptied(*emptied);
}

BinPage* open(MainWindow& window) {
    if (qobject_cast<BinPage*>(window.page()) != nullptr) return nullptr;
    if (window.desk().draft() && !window.bench().sheet().table().finishEditing()) return nullptr;
    auto* page = new BinPage(
        *window.desk().book(),
        [&window](const std::function<void()>& work) { return window.desk().attempt(work); }, &window);
    QObject::connect(page, &BinPage::closed, &window, &MainWindow::closePage);
    QObject::connect(page, &BinPage::said, &window.status(), &StatusLine::say);
    QObject::connect(page, &BinPage::said, &window, [&window] {
        if (window.desk().draft()) window.bench().history().reload(); // a draft of it may be back
    });
    QObject::connect(page, &BinPage::emptyAsked, &window, [&window](const QString& what) {
        auto* dialog = new EmptyBinDialog(
            what, QFileInfo(fromCore(window.desk().book()->book().path())).fileName(), &window);
        dialog->setAttribute(Qt::WA_DeleteOnClose);
        // The page goes with the book: not while one of its own buttons is being told.
        QObject::connect(
            dialog, &QDialog::accepted, &window, [&window] { empty(window); }, Qt::QueuedConnection);
        dialog->open();
    });
    window.showPage(page);
    return page;
}

} // namespace

void connectBin(MainWindow& window) {
    auto* action = window.actions().at(Act::Bin);
    QObject::connect(action, &QAction::triggered, &window, [&window] { open(window); });
    const auto enable = [&window, action] { action->setEnabled(window.desk().book() != nullptr); };
    QObject::connect(&window, &MainWindow::actionsUpdated, &window, enable);
    enable();
}

} // namespace stillroom::ui
