#include "ui/panels/asks/open_asks.h"

#include "ui/main_window.h"
#include "ui/panels/asks/ask_list.h"
#include "ui/panels/asks/asks_page.h"
#include "ui/panels/bench.h"
#include "ui/panels/sheet_panel.h"
#include "ui/widgets/spec_table.h"
#include "ui/widgets/status_line.h"

#include <QAction>

namespace stillroom::ui {

namespace {

void openAsks(MainWindow& window) {
    auto* draft = window.desk().draft();
    if (!draft || !window.bench().sheet().table().finishEditing()) return;
    AsksValues values;
    if (!window.desk().attempt([&] { values = loadAsks(window.bench().history(), *draft); })) return;
    auto* page = new AsksPage(&window);
    page->setValues(values, !draft->book().book().isReadOnly());
    QObject::connect(page, &AsksPage::closed, &window, &MainWindow::closePage);
    QObject::connect(page, &AsksPage::changeTaken, &window, [&window, draft](const AskChange& change) {
        const auto words = change.change; // the page goes, and its values with it
        auto next = change.next;
        window.closePage();
        if (draft != window.desk().draft()) return;
        draft->apply(std::move(next), words);
        window.status().say(
            QObject::tr("In the draft: %1. %2 takes it back.").arg(words, Actions::keyText(Act::Undo)));
    });
    window.showPage(page);
    page->list().setFocus(Qt::OtherFocusReason);
}

void enable(MainWindow& window) {
    window.actions().at(Act::Asks)->setEnabled(window.desk().draft() != nullptr && window.page() == nullptr &&
                                               !window.showsRevision());
}

} // namespace

void connectAsks(MainWindow& window) {
    QObject::connect(window.actions().at(Act::Asks), &QAction::triggered, &window,
                     [&window] { openAsks(window); });
    QObject::connect(&window, &MainWindow::actionsUpdated, &window, [&window] { enable(window); });
    enable(window);
}

} // namespace stillroom::ui
