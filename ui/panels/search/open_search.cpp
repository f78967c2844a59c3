#include "ui/panels/search/open_search.h"

#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/search/search_page.h"
#include "ui/panels/search/search_reading.h"
#include "ui/panels/sheet_panel.h"
#include "ui/panels/trail_panel.h"
#include "ui/widgets/spec_table.h"
#include "ui/widgets/status_line.h"

#include <QAction>
#include <QLineEdit>

#include <memory>

namespace stillroom::ui {

namespace {

void openFound(MainWindow& window, base::DrinkId drink, std::optional<base::RevisionId> revision) {
    if (!window.desk().openDrink(drink)) return;
    window.closePage();
    if (!revision) return;
    window.bench().trail().choose(*revision);
    if (auto* open = window.actions().at(Act::OpenRevision); open->isEnabled()) open->trigger();
}

void open(MainWindow& window, SearchReading& reading, std::shared_ptr<store::SearchRequest> last) {
    if (auto* shown = qobject_cast<SearchPage*>(window.page())) {
        shown->words().setFocus(Qt::ShortcutFocusReason);
        shown->words().selectAll();
        return;
    }
    if (window.desk().draft() && !window.bench().sheet().table().finishEditing()) return;
    auto* page = new SearchPage(
        *window.desk().book(), reading,
        [&window](const std::function<void()>& work) { return window.desk().attempt(work); }, &window);
    page->ask(*last);
    page->words().selectAll();
    QObject::connect(page, &SearchPage::asked, &window,
                     [last](const store::SearchRequest& request) { *last = request; });
    QObject::connect(page, &SearchPage::closed, &window, &MainWindow::closePage);
    QObject::connect(page, &SearchPage::said, &window.status(), &StatusLine::say);
    QObject::connect(
        page, &SearchPage::openAsked, &window,
        [&window](base::DrinkId drink, std::optional<base::RevisionId> revision) {
            openFound(window, drink, revision);
        },
        Qt::QueuedConnection); // the page's own event is done first
    window.showPage(page);
}

} // namespace

void connectSearch(MainWindow& window) {
    auto* reading = new SearchReading(&window);
    // What was asked last stands there again, until another book is opened.
    auto last = std::make_shared<store::SearchRequest>();
    auto* action = window.actions().at(Act::Search);
    QObject::connect(action, &QAction::triggered, &window,
                     [&window, reading, last] { open(window, *reading, last); });
    QObject::connect(&window.desk(), &Desk::bookChanged, reading, [&window, reading, last, action] {
        *last = {};
        reading->setBook(window.desk().book());
        action->setEnabled(window.desk().book() != nullptr);
    });
    action->setEnabled(false);
}

} // namespace stillroom::ui
