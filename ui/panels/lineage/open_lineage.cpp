#include "ui/panels/lineage/open_lineage.h"

#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/lineage/lineage_dialog.h"
#include "ui/panels/sheet_panel.h"
#include "ui/widgets/spec_table.h"

#include <QAction>

namespace stillroom::ui {

namespace {

void open(MainWindow& window) {
    auto* draft = window.desk().draft();
    if (draft == nullptr || !window.bench().sheet().table().finishEditing()) return;
    auto* dialog = new LineageDialog(*window.desk().book(), draft->drink().id, draft->now().words, &window);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    QObject::connect(dialog, &LineageDialog::saveAsked, draft, [draft](const DrinkWords& words) {
        auto next = draft->now().words;
        next.after = words.after;
        next.credit = words.credit;
        next.tags = words.tags;
        draft->applyWords(std::move(next), QObject::tr("Where it comes from"));
    });
    dialog->open();
}

} // namespace

void connectLineage(MainWindow& window) {
    auto* action = window.actions().at(Act::Lineage);
    QObject::connect(action, &QAction::triggered, &window, [&window] { open(window); });
    const auto enable = [&window, action] {
        action->setEnabled(window.desk().draft() != nullptr && window.page() == nullptr &&
                           !window.showsRevision() && !window.desk().book()->book().isReadOnly());
    };
    QObject::connect(&window, &MainWindow::actionsUpdated, &window, enable);
    enable();
}

} // namespace stillroom::ui
