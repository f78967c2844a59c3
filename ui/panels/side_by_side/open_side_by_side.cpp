#include "ui/panels/side_by_side/open_side_by_side.h"

#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/sheet_panel.h"
#include "ui/panels/side_by_side/load.h"
#include "ui/panels/side_by_side/print.h"
#include "ui/panels/side_by_side/side_by_side_page.h"
#include "ui/panels/side_by_side/side_view.h"
#include "ui/panels/trail_panel.h"
#include "ui/widgets/spec_table.h"
#include "ui/widgets/status_line.h"

#include <QAction>
#include <QPrintDialog>
#include <QPrinter>

namespace stillroom::ui {

namespace {

QString say(const char* text) {
    return QObject::tr(text);
}

std::vector<SideRef> refsOf(const SideBySideValues& values) {
    std::vector<SideRef> refs;
    for (const auto& column : values.columns)
        refs.push_back(column.ref);
    return refs;
}

// The same page with other columns: base, stage and measure stay as they were chosen.
void reload(MainWindow& window, SideBySidePage& page, base::DrinkId drink, const std::vector<SideRef>& refs) {
    auto* book = window.desk().book();
    const auto& before = page.view().values();
    const auto base = before.columns[before.base].ref;
    window.desk().attempt([&] {
        auto values = loadSideBySide(book->book(), drink, refs, book->clock().now());
        if (values.columns.size() < 2) return;
        values.per = before.per;
        values.stage = before.stage;
        for (std::size_t i = 0; i < values.columns.size(); ++i)
            if (values.columns[i].ref == base) values.base = i;
        page.setValues(values);
    });
}

void addColumn(MainWindow& window, SideBySidePage& page, base::DrinkId drink) {
    const auto refs = refsOf(page.view().values());
    if (refs.size() >= kMostSideColumns) {
        window.status().say(say("Four stand beside each other already. Delete takes the base away."));
        return;
    }
    std::vector<SideChoice> choices;
    auto* book = window.desk().book();
    if (!window.desk().attempt(
            [&] { choices = furtherColumns(book->book(), drink, refs, book->clock().now()); }))
        return;
    std::vector<PickRow> rows;
    for (const auto& choice : choices)
        rows.push_back(choice.row);
    auto* dialog = new PickDialog(say("Add a column"), {}, std::move(rows), &page);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    QObject::connect(dialog, &PickDialog::picked, &page,
                     [&window, &page, drink, refs, choices = std::move(choices)](int row) {
                         const auto& choice = choices[static_cast<std::size_t>(row)];
                         std::optional<SideRef> ref = choice.ref;
                         if (choice.drink)
                             window.desk().attempt(
                                 [&] { ref = columnOf(window.desk().book()->book(), *choice.drink); });
                         if (!ref) return;
                         auto next = refs;
                         next.push_back(*ref);
                         reload(window, page, drink, next);
                     });
    dialog->open();
}

void removeColumn(MainWindow& window, SideBySidePage& page, base::DrinkId drink, std::size_t column) {
    auto refs = refsOf(page.view().values());
    if (refs.size() <= 2 || column >= refs.size()) {
        window.status().say(say("Two columns are the fewest that can be compared."));
        return;
    }
    refs.erase(refs.begin() + static_cast<std::ptrdiff_t>(column));
    reload(window, page, drink, refs);
}

void print(MainWindow& window, SideBySidePage& page) {
    auto* printer = new QPrinter;
    printer->setPageOrientation(page.view().values().columns.size() > 2 ? QPageLayout::Landscape
                                                                        : QPageLayout::Portrait);
    auto* dialog = new QPrintDialog(printer, &page);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    QObject::connect(dialog, &QDialog::finished, &page, [&window, &page, printer](int result) {
        if (result == QDialog::Accepted) {
            const int pages = printSideBySide(*printer, page.view().values(), page.view().onlyDifferences());
            window.status().say(pages > 0 ? QObject::tr("Printed, %1 pages.").arg(pages)
                                          : say("The printer took nothing. Nothing was lost; print again."));
        }
        delete printer;
    });
    dialog->open();
}

void showPage(MainWindow& window, base::DrinkId drink, const SideBySideValues& values) {
    auto* page = new SideBySidePage(&window);
    page->setWindowTitle(say("Side by side"));
    page->setValues(values);
    page->setReadOnly(window.desk().book()->book().isReadOnly());
    QObject::connect(page, &SideBySidePage::closed, &window, &MainWindow::closePage);
    QObject::connect(page, &SideBySidePage::addAsked, &window,
                     [&window, page, drink] { addColumn(window, *page, drink); });
    QObject::connect(page, &SideBySidePage::removeAsked, &window, [&window, page, drink](std::size_t column) {
        removeColumn(window, *page, drink, column);
    });
    QObject::connect(page, &SideBySidePage::printAsked, &window, [&window, page] { print(window, *page); });
    QObject::connect(page, &SideBySidePage::said, &window.status(), &StatusLine::say);
    QObject::connect(page, &SideBySidePage::branchAsked, &window, [&window](base::RevisionId from) {
        window.closePage();
        if (window.desk().branch(from))
            window.status().say(say("A further draft. The one before is still there."));
    });
    window.showPage(page);
}

// The revision chosen on the trail against what is in hand; with none chosen, the pair one most often wants.
void compare(MainWindow& window) {
    auto* draft = window.desk().draft();
    if (!draft || !window.bench().sheet().table().finishEditing()) return;
    auto* book = window.desk().book();
    const auto chosen = window.chosenRevision();
    const auto otherDraft = window.bench().trail().chosenDraft();
    window.desk().attempt([&] {
        const auto drink = draft->drink().id;
        auto columns = usualColumns(book->book(), drink);
        SideRef inHand;
        if (draft->differsFromBase())
            inHand.draft = draft->draft().id;
        else
            inHand.revision = draft->base()->id;
        if (chosen && inHand.revision != chosen) columns = {SideRef{chosen, std::nullopt}, inHand};
        if (otherDraft) columns = {SideRef{std::nullopt, otherDraft}, {std::nullopt, draft->draft().id}};
        if (columns.size() < 2) {
            window.status().say(
                say("There is one version only. Keep another, and they can stand side by side."));
            return;
        }
        showPage(window, drink, loadSideBySide(book->book(), drink, columns, book->clock().now()));
    });
}

} // namespace

void connectSideBySide(MainWindow& window) {
    QObject::connect(window.actions().at(Act::Compare), &QAction::triggered, &window,
                     [&window] { compare(window); });
    QObject::connect(window.actions().at(Act::CopyTable), &QAction::triggered, &window, [&window] {
        if (auto* page = qobject_cast<SideBySidePage*>(window.page())) page->copyTable();
    });
    QObject::connect(&window, &MainWindow::actionsUpdated, &window, [&window] {
        window.actions()
            .at(Act::CopyTable)
            ->setEnabled(qobject_cast<SideBySidePage*>(window.page()) != nullptr);
    });
}

} // namespace stillroom::ui
