#include "ui/panels/tasting/tasting_form.h"

#include "ui/panels/photos/photo_reading.h"
#include "ui/panels/photos/photo_strip.h"
#include "ui/theme/banner.h"

#include <QDragEnterEvent>
#include <QDropEvent>
#include <QMimeData>

// Photos of a tasting: from files, by dropping.
namespace stillroom::ui {

void TastingForm::addPhotoFiles(const QStringList& paths) {
    const auto read = photosFromFiles(paths);
    addPhotos(read.photos, read.refused);
}

void TastingForm::addPhotos(const std::vector<std::string>& photos, const std::vector<Sentence>& refused) {
    m_photoBytes.insert(m_photoBytes.end(), photos.begin(), photos.end());
    showPhotos();
    if (refused.empty()) return;
    showError(refused.front().fact, refused.front().consequence);
    Q_EMIT focusMoved(m_banner);
}

void TastingForm::showPhotos() {
    std::vector<PhotoStrip::Photo> shown;
    for (const auto& bytes : m_photoBytes)
        shown.push_back({photoImage(bytes, 300), {}});
    m_photos->setPhotos(std::move(shown));
    m_photos->setVisible(!m_photoBytes.empty());
}

void TastingForm::dragEnterEvent(QDragEnterEvent* event) {
    if (holdsPhotos(*event->mimeData())) event->acceptProposedAction();
}

void TastingForm::dropEvent(QDropEvent* event) {
    if (!holdsPhotos(*event->mimeData())) return;
    event->acceptProposedAction();
    const auto read = photosFrom(*event->mimeData());
    addPhotos(read.photos, read.refused);
}

} // namespace stillroom::ui
