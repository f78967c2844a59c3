#include "ui/panels/stand_in/open_stand_in.h"

#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/sheet_panel.h"
#include "ui/panels/stand_in/stand_in_dialog.h"
#include "ui/widgets/spec_table.h"
#include "ui/widgets/status_line.h"

#include <QAction>

namespace stillroom::ui {

namespace {

int lineInHand(MainWindow& window) {
    const auto* draft = window.desk().draft();
    if (draft == nullptr || window.page() != nullptr || window.showsRevision()) return -1;
    const int line = window.bench().sheet().table().currentLine();
    return line >= 0 && static_cast<std::size_t>(line) < draft->spec().lines.size() ? line : -1;
}

void open(MainWindow& window) {
    const int line = lineInHand(window);
    if (line < 0 || !window.bench().sheet().table().finishEditing()) return;
    auto* draft = window.desk().draft();
    if (static_cast<std::size_t>(line) >= draft->spec().lines.size()) return; // an emptied line went
    StandInAsk ask;
    ask.spec = draft->spec();
    ask.line = static_cast<std::size_t>(line);
    ask.larder = &draft->book().larder();
    ask.rules = &draft->book().houseRules();
    ask.scaleStepG = draft->book().settings().scaleStepG;
    ask.now = draft->now().readings;
    ask.writable = !draft->book().book().isReadOnly();
    auto* dialog = new StandInDialog(std::move(ask), &window);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    QObject::connect(dialog, &StandInDialog::specAsked, draft,
                     [&window, draft](const spec::Spec& spec, const QString& what) {
                         if (draft->apply(spec, what))
                             window.status().say(MainWindow::tr("%1. Ctrl Z takes it back.").arg(what));
                     });
    dialog->open();
}

} // namespace

void connectStandIn(MainWindow& window) {
    QObject::connect(window.actions().at(Act::StandIn), &QAction::triggered, &window,
                     [&window] { open(window); });
    const auto enable = [&window] { window.actions().at(Act::StandIn)->setEnabled(lineInHand(window) >= 0); };
    QObject::connect(&window, &MainWindow::actionsUpdated, &window, enable);
    enable();
}

} // namespace stillroom::ui
