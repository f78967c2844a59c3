#include "ui/panels/stock/open_stock.h"

#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/sheet_panel.h"
#include "ui/panels/stock/shopping_paper.h"
#include "ui/panels/stock/stock_page.h"
#include "ui/widgets/spec_table.h"
#include "ui/widgets/status_line.h"

#include <QAction>
#include <QPrintDialog>
#include <QPrinter>

namespace stillroom::ui {

namespace {

void print(MainWindow& window, const StockSession& session) {
    QPrinter printer(QPrinter::HighResolution);
    QPrintDialog dialog(&printer, &window);
    if (dialog.exec() != QDialog::Accepted) return;
    const bool printed = printShopping(session.list(), session.board().larder,
                                       QObject::tr("To buy, %1").arg(session.today()), printer);
    window.status().say(printed ? QObject::tr("The list is at the printer.")
                                : QObject::tr("The printer did not take the list."));
}

void open(MainWindow& window, StockSession& session) {
    if (window.desk().draft() && !window.bench().sheet().table().finishEditing()) return;
    if (!session.reload()) return;
    auto* page = new StockPage(session, &window);
    page->setWindowTitle(QObject::tr("Within reach and what to buy"));
    QObject::connect(page, &StockPage::closed, &window, &MainWindow::closePage);
    QObject::connect(page, &StockPage::said, &window.status(), &StatusLine::say);
    QObject::connect(page, &StockPage::printAsked, &window, [&window, &session] { print(window, session); });
    window.showPage(page);
}

} // namespace

void connectStock(MainWindow& window) {
    auto* session = new StockSession(window.desk(), &window);
    auto* action = window.actions().at(Act::WhatToBuy);
    QObject::connect(action, &QAction::triggered, &window, [&window, session] { open(window, *session); });
    const auto enable = [&window, action] { action->setEnabled(window.desk().book() != nullptr); };
    QObject::connect(&window, &MainWindow::actionsUpdated, &window, enable);
    enable();
}

} // namespace stillroom::ui
