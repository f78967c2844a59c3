#include "ui/panels/photos/open_photos.h"

#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/photos/photos_dialog.h"
#include "ui/panels/trail_panel.h"
#include "ui/text/revision_label.h"

#include <QAction>

namespace stillroom::ui {

namespace {

std::optional<base::RevisionId> revisionMeant(MainWindow& window) {
    if (const auto chosen = window.chosenRevision()) return chosen;
    auto* draft = window.desk().draft();
    return draft ? draft->draft().basedOn : std::nullopt;
}

void enable(MainWindow& window) {
    auto* book = window.desk().book();
    const bool writable = book != nullptr && !book->book().isReadOnly() && window.page() == nullptr;
    window.actions().at(Act::Photos)->setEnabled(writable && revisionMeant(window).has_value());
}

} // namespace

PhotosDialog* showPhotos(MainWindow& window, const store::PhotoOf& of, const QString& title) {
    auto* dialog = new PhotosDialog(window.desk(), of, title, &window);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    QObject::connect(dialog, &PhotosDialog::changed, &window,
                     [&window] { window.bench().history().reload(); });
    dialog->open();
    return dialog;
}

void connectPhotos(MainWindow& window) {
    QObject::connect(window.actions().at(Act::Photos), &QAction::triggered, &window, [&window] {
        const auto id = revisionMeant(window);
        if (!id) return;
        const auto* revision = window.bench().history().revision(*id);
        showPhotos(
            window, *id,
            QObject::tr("Photos of %1")
                .arg(revisionLabel(window.desk().draft()->drink().form, revision ? revision->number : 0)));
    });
    QObject::connect(&window, &MainWindow::actionsUpdated, &window, [&window] { enable(window); });
    enable(window);
}

} // namespace stillroom::ui
