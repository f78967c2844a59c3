#include "ui/theme/icons.h"

#include "ui/theme/theme.h"

#include <QDir>
#include <QFile>
#include <QHash>
#include <QIconEngine>
#include <QPainter>
#include <QSvgRenderer>

#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

QByteArray svgOf(QStringView name) {
    static QHash<QString, QByteArray> sources;
    const auto key = name.toString();
    if (const auto found = sources.constFind(key); found != sources.constEnd()) return *found;
    QFile file(u":/stillroom/icons/"_s + key + u".svg"_s);
    const auto text = file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
    sources.insert(key, text);
    return text;
}

QHash<QString, QPixmap>& cache() {
    static QHash<QString, QPixmap> pixmaps;
    return pixmaps;
}

class TokenIconEngine final : public QIconEngine {
  public:
    TokenIconEngine(QString name, Token token) : m_name(std::move(name)), m_token(token) {}

    QPixmap scaledPixmap(const QSize& size, QIcon::Mode mode, QIcon::State, qreal scale) override {
        return iconPixmap(m_name, colorOf(mode), std::min(size.width(), size.height()) / scale, scale);
    }
    QPixmap pixmap(const QSize& size, QIcon::Mode mode, QIcon::State state) override {
        return scaledPixmap(size, mode, state, 1.0);
    }
    void paint(QPainter* painter, const QRect& rect, QIcon::Mode mode, QIcon::State) override {
        paintIcon(*painter, rect, m_name, colorOf(mode));
    }
    QSize actualSize(const QSize& size, QIcon::Mode, QIcon::State) override { return size; }
    bool isNull() override { return svgOf(m_name).isEmpty(); }
    QIconEngine* clone() const override { return new TokenIconEngine(m_name, m_token); }

  private:
    QColor colorOf(QIcon::Mode mode) const {
        return Theme::current().color(mode == QIcon::Disabled ? Token::Ink3 : m_token);
    }

    QString m_name;
    Token m_token;
};

} // namespace

QPixmap iconPixmap(QStringView name, const QColor& color, double sizePx, double devicePixelRatio) {
    const int pixels = static_cast<int>(std::ceil(sizePx * devicePixelRatio));
    const auto key =
        u"%1 %2 %3 %4"_s.arg(name.toString(), color.name(QColor::HexArgb)).arg(pixels).arg(devicePixelRatio);
    if (const auto found = cache().constFind(key); found != cache().constEnd()) return *found;
    auto svg = svgOf(name);
    if (svg.isEmpty() || pixels <= 0) return {};
    svg.replace("currentColor", color.name().toLatin1());
    QSvgRenderer renderer(svg);
    QPixmap pixmap(pixels, pixels);
    pixmap.fill(Qt::transparent);
    QPainter painter(&pixmap);
    renderer.render(&painter, QRectF(0, 0, pixels, pixels));
    painter.end();
    pixmap.setDevicePixelRatio(devicePixelRatio);
    cache().insert(key, pixmap);
    return pixmap;
}

QIcon icon(QStringView name, Token token) {
    return QIcon(new TokenIconEngine(name.toString(), token));
}

void paintIcon(QPainter& painter, const QRectF& box, QStringView name, const QColor& color) {
    const double side = std::min(box.width(), box.height());
    const QRectF square(box.center().x() - side / 2, box.center().y() - side / 2, side, side);
    const auto* device = painter.device();
    // On paper the strokes stay strokes.
    if (device && device->logicalDpiX() >= 200) {
        auto svg = svgOf(name);
        svg.replace("currentColor", color.name().toLatin1());
        QSvgRenderer(svg).render(&painter, square);
        return;
    }
    const double ratio = device ? device->devicePixelRatioF() : 1.0;
    const double scale = std::max(1e-6, painter.transform().m11());
    const auto pixmap = iconPixmap(name, color, side * scale, ratio);
    if (!pixmap.isNull()) painter.drawPixmap(square, pixmap, QRectF(QPointF(0, 0), QSizeF(pixmap.size())));
}

QStringList iconNames() {
    Look::of(Mode::Light); // the resource is linked in with the tokens
    QStringList names;
    for (const auto& file : QDir(u":/stillroom/icons"_s).entryList({u"*.svg"_s}, QDir::Files, QDir::Name))
        names << file.chopped(4);
    return names;
}

void clearIconCache() {
    cache().clear();
}

} // namespace stillroom::ui
