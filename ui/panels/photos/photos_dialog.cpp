#include "ui/panels/photos/photos_dialog.h"

#include "core/store/photos_taken_off.h"
#include "ui/panels/photos/photo_reading.h"
#include "ui/panels/photos/photo_strip.h"
#include "ui/panels/photos/photo_view.h"
#include "ui/session/desk.h"
#include "ui/text/border.h"
#include "ui/theme/banner.h"
#include "ui/theme/theme.h"

#include <QApplication>
#include <QClipboard>
#include <QDragEnterEvent>
#include <QDropEvent>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

PhotosDialog::PhotosDialog(Desk& desk, const store::PhotoOf& of, const QString& title, QWidget* parent)
    : QDialog(parent),
      m_desk(desk),
      m_of(of) {
    const auto& theme = Theme::current();
    setWindowTitle(title);
    setAcceptDrops(true);
    m_banner = new Banner;
    m_banner->show(BannerKind::Gap, {});
    m_strip = new PhotoStrip;
    m_strip->setEmptyWords(u"No photo yet. Drop a picture here, paste one with Ctrl V, or add a file."_s);
    m_caption = new QLineEdit;
    m_caption->setMaxLength(200);
    m_caption->setPlaceholderText(u"what the next one shows, if you like"_s);
    m_caption->installEventFilter(this);
    auto* captionLabel = new QLabel(u"&caption"_s);
    captionLabel->setBuddy(m_caption);
    m_caption->setAccessibleName(u"Caption of the next photo"_s);
    const auto button = [this](const QString& words, auto slot) {
        auto* made = new QPushButton(words);
        made->setAutoDefault(false);
        connect(made, &QPushButton::clicked, this, slot);
        return made;
    };
    m_add = button(u"&Add a file…"_s, [this] { addByDialog(); });
    m_add->setProperty("act", true);
    m_remove = button(u"Take it o&ff   Del"_s, [this] { remove(m_strip->current()); });
    m_putBack = button(u"Put one &back   Ctrl Z"_s, [this] { bringBack(); });
    auto* close = button(u"C&lose"_s, [this] { accept(); });
    connect(m_strip, &PhotoStrip::openAsked, this, &PhotosDialog::openPhoto);
    connect(m_strip, &PhotoStrip::removeAsked, this, &PhotosDialog::remove);

    auto* scroll = new QScrollArea;
    scroll->setWidget(m_strip);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFocusPolicy(Qt::NoFocus);
    auto* named = new QHBoxLayout;
    named->addWidget(captionLabel);
    named->addWidget(m_caption, 1);
    auto* acts = new QHBoxLayout;
    acts->addWidget(m_add);
    acts->addWidget(m_remove);
    acts->addWidget(m_putBack);
    acts->addStretch(1);
    acts->addWidget(close);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(theme.pxInt(20), theme.pxInt(16), theme.pxInt(20), theme.pxInt(16));
    column->addWidget(m_banner);
    column->addWidget(scroll, 1);
    column->addLayout(named);
    column->addLayout(acts);
    resize(theme.pxInt(640), theme.pxInt(300));
    // What was taken off at another time can still be put back, the newest first.
    m_desk.attempt([&] {
        for (const auto& photo : store::photosTakenOff(m_desk.book()->book(), m_of))
            m_removed.push_back(photo.id);
    });
    reload();
    m_strip->setFocus();
}

void PhotosDialog::reload() {
    std::vector<PhotoStrip::Photo> shown;
    m_desk.attempt([&] {
        const auto& book = m_desk.book()->book();
        m_photos = book.photosOf(m_of);
        for (const auto& photo : m_photos) {
            const auto bytes = book.photoBytes(photo.info.hash);
            shown.push_back(
                {bytes ? thumbnail(photo.info.hash, *bytes, 300) : QImage(), fromCore(photo.caption)});
        }
    });
    m_strip->setPhotos(std::move(shown));
    m_remove->setEnabled(!m_photos.empty());
    m_putBack->setEnabled(!m_removed.empty());
}

void PhotosDialog::addByDialog() {
    addFiles(QFileDialog::getOpenFileNames(this, u"Add photos"_s, {}, u"Pictures (*.jpg *.jpeg *.png)"_s));
}

void PhotosDialog::addFiles(const QStringList& paths) {
    const auto read = photosFromFiles(paths);
    add(read.photos, read.refused);
}

void PhotosDialog::add(const std::vector<std::string>& photos, const std::vector<Sentence>& refused) {
    if (photos.empty() && refused.empty()) return;
    auto why = refused;
    const auto caption = toCore(m_caption->text().simplified());
    bool added = false;
    for (const auto& photo : photos) {
        m_desk.attempt([&] {
            const auto attached = m_desk.book()->book().attachPhoto(m_of, photo, caption);
            if (attached)
                added = true;
            else
                why.push_back(
                    {u"The book did not take the photo."_s, u"Everything else is as it was."_s, {}});
        });
    }
    if (added) m_caption->clear();
    reload();
    if (added) {
        m_strip->choose(static_cast<int>(m_photos.size()) - 1);
        m_strip->setFocus();
        Q_EMIT changed();
    }
    if (why.empty()) {
        m_banner->show(BannerKind::Gap, {});
    } else {
        QString consequence = why.front().consequence;
        for (std::size_t i = 1; i < why.size(); ++i)
            consequence += u' ' + why[i].fact + u' ' + why[i].consequence;
        m_banner->show(BannerKind::Error, {why.front().fact, consequence, {}});
    }
}

void PhotosDialog::paste() {
    const auto* held = QApplication::clipboard()->mimeData();
    if (!held || !holdsPhotos(*held)) {
        m_banner->show(BannerKind::Gap, {u"There is no picture on the clipboard."_s,
                                         u"Copy one, or a file of one, and paste again."_s,
                                         {}});
        return;
    }
    const auto read = photosFrom(*held);
    add(read.photos, read.refused);
}

void PhotosDialog::openPhoto(int index) {
    if (index < 0 || static_cast<std::size_t>(index) >= m_photos.size()) return;
    const auto& photo = m_photos[static_cast<std::size_t>(index)];
    const auto bytes = m_desk.book()->book().photoBytes(photo.info.hash);
    auto* view = new PhotoView(bytes ? photoImage(*bytes, tasting::kMostPhotoPixels) : QImage(),
                               fromCore(photo.caption), this);
    view->setAttribute(Qt::WA_DeleteOnClose);
    view->open();
}

void PhotosDialog::remove(int index) {
    if (index < 0 || static_cast<std::size_t>(index) >= m_photos.size()) return;
    const auto id = m_photos[static_cast<std::size_t>(index)].id;
    if (!m_desk.attempt([&] { m_desk.book()->book().hidePhoto(id, true); })) return;
    m_removed.push_back(id);
    reload();
    m_strip->setFocus();
    Q_EMIT changed();
}

void PhotosDialog::bringBack() {
    if (m_removed.empty()) return;
    const auto id = m_removed.back();
    if (!m_desk.attempt([&] { m_desk.book()->book().hidePhoto(id, false); })) return;
    m_removed.pop_back();
    reload();
    m_strip->setFocus();
    Q_EMIT changed();
}

void PhotosDialog::keyPressEvent(QKeyEvent* event) {
    if (event->matches(QKeySequence::Paste))
        paste();
    else if (event->matches(QKeySequence::Undo))
        bringBack();
    else
        QDialog::keyPressEvent(event);
}

// A picture pasted while the caption is written is meant for the book, not for the line.
bool PhotosDialog::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_caption && event->type() == QEvent::KeyPress) {
        const auto* key = dynamic_cast<QKeyEvent*>(event);
        const auto* held = QApplication::clipboard()->mimeData();
        if (key && key->matches(QKeySequence::Paste) && held && holdsPhotos(*held)) {
            paste();
            return true;
        }
    }
    return QDialog::eventFilter(watched, event);
}

void PhotosDialog::dragEnterEvent(QDragEnterEvent* event) {
    if (holdsPhotos(*event->mimeData())) event->acceptProposedAction();
}

void PhotosDialog::dropEvent(QDropEvent* event) {
    if (!holdsPhotos(*event->mimeData())) return;
    event->acceptProposedAction();
    const auto read = photosFrom(*event->mimeData());
    add(read.photos, read.refused);
}

} // namespace stillroom::ui
