#pragma once

#include <QDialog>
#include <QImage>

namespace stillroom::ui {

// One photo as large as the window lets it be. Esc and Enter close it.
class PhotoView : public QDialog {
    Q_OBJECT

  public:
    PhotoView(QImage image, const QString& caption, QWidget* parent = nullptr);
    const QImage& image() const { return m_image; }

  protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    QImage m_image;
    QString m_caption;
};

} // namespace stillroom::ui
