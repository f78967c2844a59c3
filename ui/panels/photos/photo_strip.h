#pragma once

#include <QImage>
#include <QWidget>

#include <vector>

namespace stillroom::ui {

// Photos beside each other, small. Left and Right choose one, Enter opens it large, Delete takes it off.
class PhotoStrip : public QWidget {
    Q_OBJECT

  public:
    static constexpr int kHigh = 64; // pixels at 100 %
    struct Photo {
        QImage image; // null: it cannot be drawn
        QString caption;
    };

    explicit PhotoStrip(QWidget* parent = nullptr);
    void setPhotos(std::vector<Photo> photos);
    std::size_t count() const { return m_photos.size(); }
    int current() const { return m_current; }
    void choose(int index);
    void setEmptyWords(const QString& words); // what stands there without a photo

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;
    bool hasHeightForWidth() const override { return true; }
    int heightForWidth(int width) const override;

  Q_SIGNALS:
    void openAsked(int photo);
    void removeAsked(int photo);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

  private:
    double captionHeight() const;
    std::vector<QRectF> boxes(double width) const;
    int photoAt(QPointF point) const;
    void describe();

    std::vector<Photo> m_photos;
    QString m_emptyWords;
    int m_current = 0;
};

} // namespace stillroom::ui
