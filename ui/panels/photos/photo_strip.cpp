#include "ui/panels/photos/photo_strip.h"

#include "ui/plots/plot_text.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

#include <QAccessible>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

constexpr double kGap = 10;
constexpr double kEdge = 5; // room for the frame of the focus
constexpr double kWidest = 150;

} // namespace

PhotoStrip::PhotoStrip(QWidget* parent) : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(u"Photos: arrows choose, Enter opens, Delete removes"_s);
    auto policy = QSizePolicy(QSizePolicy::Expanding, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
    connect(&Theme::current(), &Theme::changed, this, [this] {
        updateGeometry();
        update();
    });
}

void PhotoStrip::setPhotos(std::vector<Photo> photos) {
    m_photos = std::move(photos);
    m_current = std::clamp(m_current, 0, std::max(0, static_cast<int>(m_photos.size()) - 1));
    describe();
    updateGeometry();
    update();
}

void PhotoStrip::setEmptyWords(const QString& words) {
    m_emptyWords = words;
    describe();
    update();
}

void PhotoStrip::describe() {
    if (m_photos.empty()) {
        setAccessibleDescription(m_emptyWords);
        return;
    }
    const auto& photo = m_photos[static_cast<std::size_t>(m_current)];
    setAccessibleDescription(
        u"photo %1 of %2 %3"_s.arg(m_current + 1).arg(m_photos.size()).arg(photo.caption));
    if (QAccessible::isActive()) {
        QAccessibleEvent event(this, QAccessible::DescriptionChanged);
        QAccessible::updateAccessibility(&event);
    }
}

void PhotoStrip::choose(int index) {
    if (m_photos.empty()) return;
    m_current = std::clamp(index, 0, static_cast<int>(m_photos.size()) - 1);
    describe();
    update();
}

// Room for one line under every photo, where any has a caption; the whole of it stands on the large one.
double PhotoStrip::captionHeight() const {
    const bool any = std::any_of(m_photos.begin(), m_photos.end(),
                                 [](const Photo& photo) { return !photo.caption.isEmpty(); });
    return any ? Theme::current().px(18) : 0;
}

std::vector<QRectF> PhotoStrip::boxes(double width) const {
    const auto& theme = Theme::current();
    std::vector<QRectF> found;
    const double under = captionHeight();
    double x = theme.px(kEdge);
    double y = theme.px(kEdge);
    for (const auto& photo : m_photos) {
        const double shape =
            photo.image.isNull() ? 1.0 : double(photo.image.width()) / std::max(1, photo.image.height());
        const double wide = std::clamp(theme.px(kHigh) * shape, theme.px(24), theme.px(kWidest));
        if (x > theme.px(kEdge) && x + wide > width - theme.px(kEdge)) {
            x = theme.px(kEdge);
            y += theme.px(kHigh + kGap) + under;
        }
        found.emplace_back(std::round(x), std::round(y), std::round(wide), std::round(theme.px(kHigh)));
        x += wide + theme.px(kGap);
    }
    return found;
}

int PhotoStrip::heightForWidth(int width) const {
    const auto& theme = Theme::current();
    if (m_photos.empty()) return m_emptyWords.isEmpty() ? 0 : theme.pxInt(26);
    return static_cast<int>(std::ceil(boxes(width).back().bottom() + captionHeight() + theme.px(kEdge)));
}

QSize PhotoStrip::sizeHint() const {
    const int wide = Theme::current().pxInt(420);
    return {wide, heightForWidth(width() > 40 ? width() : wide)};
}

QSize PhotoStrip::minimumSizeHint() const {
    return {Theme::current().pxInt(120), sizeHint().height()};
}

int PhotoStrip::photoAt(QPointF point) const {
    const auto all = boxes(width());
    for (std::size_t i = 0; i < all.size(); ++i)
        if (all[i].contains(point)) return static_cast<int>(i);
    return -1;
}

void PhotoStrip::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHints(QPainter::Antialiasing | QPainter::SmoothPixmapTransform);
    const auto& look = Theme::current().look();
    if (m_photos.empty()) {
        drawLabel(painter, QPointF(look.px(kEdge), height() / 2.0), Stand::Left,
                  elided(m_emptyWords, Type::Caption, look, width() - look.px(2 * kEdge)), Type::Caption,
                  Token::Ink3, look);
        if (hasFocus()) paintFocusFrame(painter, QRectF(rect()).adjusted(3, 3, -3, -3), look);
        return;
    }
    const auto all = boxes(width());
    for (std::size_t i = 0; i < all.size(); ++i) {
        const auto& box = all[i];
        const auto& image = m_photos[i].image;
        painter.setPen(look.pen(Token::RuleStrong, 1));
        painter.setBrush(look.color(Token::Well));
        painter.drawRect(box.adjusted(-0.5, -0.5, 0.5, 0.5));
        if (image.isNull()) {
            drawLabel(painter, box.center(), Stand::Centre, u"damaged"_s, Type::Caption, Token::Error, look,
                      box.width());
        } else {
            QSizeF size = QSizeF(image.size()).scaled(box.size(), Qt::KeepAspectRatio);
            painter.drawImage(QRectF(box.center() - QPointF(size.width() / 2, size.height() / 2), size),
                              image);
        }
        if (!m_photos[i].caption.isEmpty())
            drawLabel(painter, QPointF(box.left(), box.bottom() + look.px(10)), Stand::Left,
                      m_photos[i].caption, Type::Caption, Token::Ink2, look, box.width());
        if (hasFocus() && static_cast<int>(i) == m_current) paintFocusFrame(painter, box, look);
    }
}

void PhotoStrip::keyPressEvent(QKeyEvent* event) {
    const bool plain = !(event->modifiers() & ~Qt::KeypadModifier);
    if (m_photos.empty() || !plain) {
        QWidget::keyPressEvent(event);
        return;
    }
    switch (event->key()) {
    case Qt::Key_Left:
        choose(m_current - 1);
        return;
    case Qt::Key_Right:
        choose(m_current + 1);
        return;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        Q_EMIT openAsked(m_current);
        return;
    case Qt::Key_Delete:
    case Qt::Key_Backspace:
        Q_EMIT removeAsked(m_current);
        return;
    default:
        QWidget::keyPressEvent(event);
    }
}

void PhotoStrip::mousePressEvent(QMouseEvent* event) {
    if (const int at = photoAt(event->position()); at >= 0) choose(at);
}

void PhotoStrip::mouseDoubleClickEvent(QMouseEvent* event) {
    if (const int at = photoAt(event->position()); at >= 0) Q_EMIT openAsked(at);
}

void PhotoStrip::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    update();
}

void PhotoStrip::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    update();
}

} // namespace stillroom::ui
