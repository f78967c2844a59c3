#include "ui/panels/tasting/open_tasting.h"

#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/tasting/people_dialog.h"
#include "ui/panels/tasting/scales_dialog.h"
#include "ui/panels/trail_panel.h"
#include "ui/widgets/status_line.h"

#include <QAction>

namespace stillroom::ui {

namespace {

void editScales(MainWindow& window) {
    auto* book = window.desk().book();
    auto* dialog = new ScalesDialog(book->settings().scales, &window);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    QObject::connect(dialog, &ScalesDialog::saveAsked, &window, [&window](const tasting::ScaleSet& scales) {
        auto* open = window.desk().book();
        auto settings = open->settings();
        settings.scales = scales;
        if (window.desk().attempt([&] { open->saveSettings(settings); }))
            window.status().say(QObject::tr("The next tasting asks for %n scale(s).", nullptr,
                                            static_cast<int>(scales.scales.size())));
    });
    dialog->open();
}

void editPeople(MainWindow& window) {
    auto* dialog = new PeopleDialog(window.desk().book()->book().people(), &window);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    QObject::connect(
        dialog, &PeopleDialog::saveAsked, &window,
        [&window](const std::vector<tasting::Person>& renamed, const std::vector<base::PersonId>& removed) {
            auto& book = window.desk().book()->book();
            const bool saved = window.desk().attempt([&] {
                for (const auto& person : renamed)
                    book.renamePerson(person.id, person.name, person.initials);
                for (const auto& person : removed)
                    book.removePerson(person);
            });
            window.bench().history().reload();
            if (!saved) return;
            if (!removed.empty())
                window.status().say(QObject::tr("Removed. What was tasted stays, unsigned."));
            else if (!renamed.empty())
                window.status().say(QObject::tr("The names are put right."));
        });
    dialog->open();
}

void enable(MainWindow& window) {
    auto* book = window.desk().book();
    const bool writable = book != nullptr && !book->book().isReadOnly() && window.page() == nullptr;
    window.actions().at(Act::TastingScales)->setEnabled(writable);
    window.actions().at(Act::People)->setEnabled(writable);
}

} // namespace

void connectTasting(MainWindow& window) {
    QObject::connect(window.actions().at(Act::TastingScales), &QAction::triggered, &window,
                     [&window] { editScales(window); });
    QObject::connect(window.actions().at(Act::People), &QAction::triggered, &window,
                     [&window] { editPeople(window); });
    QObject::connect(&window, &MainWindow::actionsUpdated, &window, [&window] { enable(window); });
    enable(window);
}

} // namespace stillroom::ui
