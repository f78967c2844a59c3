#include "ui/panels/photos/photo_view.h"

#include "ui/plots/plot_text.h"
#include "ui/theme/theme.h"

#include <QKeyEvent>
#include <QPainter>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

PhotoView::PhotoView(QImage image, const QString& caption, QWidget* parent)
    : QDialog(parent),
      m_image(std::move(image)),
      m_caption(caption) {
    setWindowTitle(caption.isEmpty() ? u"Photo"_s : caption);
    setAccessibleName(caption.isEmpty() ? u"Photo, large. Esc closes"_s
                                        : u"Photo, large: %1. Esc closes"_s.arg(caption));
    const QSize room = parent ? parent->window()->size() * 0.92 : QSize(1000, 760);
    auto size = m_image.size() / std::max(1.0, devicePixelRatioF());
    if (size.width() > room.width() || size.height() > room.height()) size.scale(room, Qt::KeepAspectRatio);
    resize(size.expandedTo({240, 180}) + QSize(0, Theme::current().pxInt(30)));
}

void PhotoView::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    const auto& look = Theme::current().look();
    painter.fillRect(rect(), look.color(Token::Surface));
    const double foot = look.px(30);
    const QRectF room(0, 0, width(), height() - foot);
    if (m_image.isNull()) {
        drawLabel(painter, room.center(), Stand::Centre, u"This photo cannot be drawn."_s, Type::Body,
                  Token::Error, look);
    } else {
        const auto size = QSizeF(m_image.size()).scaled(room.size(), Qt::KeepAspectRatio);
        painter.drawImage(QRectF(room.center() - QPointF(size.width() / 2, size.height() / 2), size),
                          m_image);
    }
    drawLabel(painter, QPointF(look.px(12), height() - foot / 2), Stand::Left,
              m_caption.isEmpty() ? u"Esc closes"_s : m_caption + u"   Esc closes"_s, Type::Caption,
              Token::Ink2, look, width() - look.px(24));
}

void PhotoView::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter)
        accept();
    else
        QDialog::keyPressEvent(event);
}

} // namespace stillroom::ui
