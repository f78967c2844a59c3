#pragma once

#include "core/store/photos_of_book.h"
#include "ui/text/words.h"

#include <QDialog>

#include <string>
#include <vector>

class QLineEdit;
class QPushButton;

namespace stillroom::ui {

class Banner;
class Desk;
class PhotoStrip;

// The photos of a revision or a tasting: added from files, by paste or by drop, opened large, taken off and
// put back. Each act is done when it is seen.
class PhotosDialog : public QDialog {
    Q_OBJECT

  public:
    PhotosDialog(Desk& desk, const store::PhotoOf& of, const QString& title, QWidget* parent = nullptr);

    PhotoStrip& strip() { return *m_strip; }
    Banner& banner() { return *m_banner; }
    QLineEdit& caption() { return *m_caption; }
    QPushButton& putBack() { return *m_putBack; }
    void addFiles(const QStringList& paths);

  Q_SIGNALS:
    void changed();

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void reload();
    void addByDialog();
    void paste();
    void add(const std::vector<std::string>& photos, const std::vector<Sentence>& refused);
    void openPhoto(int index);
    void remove(int index);
    void bringBack();

    Desk& m_desk;
    store::PhotoOf m_of;
    std::vector<store::AttachedPhoto> m_photos;
    std::vector<base::PhotoLinkId> m_removed; // in this dialog, the last one last
    PhotoStrip* m_strip;
    Banner* m_banner;
    QLineEdit* m_caption;
    QPushButton* m_add;
    QPushButton* m_remove;
    QPushButton* m_putBack;
};

} // namespace stillroom::ui
