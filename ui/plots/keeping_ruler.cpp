#include "ui/plots/keeping_ruler.h"

#include "ui/plots/plot_text.h"
#include "ui/theme/theme.h"

#include <QPainter>

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

namespace {

constexpr double kSide = 16;
constexpr double kRulerTop = 24;
constexpr double kRuler = 12;
constexpr double kDrawn = 66; // ruler, ticks and the words at its ends

} // namespace

KeepingGeometry keepingGeometry(const KeepingValues& values, QSizeF size, const Look& look) {
    KeepingGeometry geometry;
    const double side = look.px(kSide);
    geometry.ruler =
        QRectF(side, look.px(kRulerTop), std::max(look.px(40), size.width() - 2 * side), look.px(kRuler));
    const int days = std::max(values.lastDay, 1);
    geometry.pxPerDay = geometry.ruler.width() / days;
    const double gone = std::clamp(values.today.value_or(0), 0, days) * geometry.pxPerDay;
    geometry.gone = geometry.ruler;
    geometry.gone.setWidth(gone);
    const double least = look.px(7); // ticks closer than this are a smear
    const bool daily = geometry.pxPerDay >= least;
    const int step = geometry.pxPerDay * 7 >= least ? 7 : 28;
    for (int day = 0; day <= days; ++day) {
        if (day % step == 0) geometry.weeks.push_back(geometry.x(day));
        if (daily) geometry.ticks.push_back(geometry.x(day));
    }
    return geometry;
}

void paintKeeping(QPainter& painter, const QRectF& box, const KeepingValues& values, const Look& look) {
    painter.save();
    painter.translate(box.topLeft());
    painter.setRenderHint(QPainter::Antialiasing);
    double top = 0;
    if (values.drawn) {
        const auto geometry = keepingGeometry(values, box.size(), look);
        painter.setPen(look.pen(Token::GlassLine, 1.5, values.assumed ? Qt::DashLine : Qt::SolidLine));
        painter.setBrush(look.color(Token::Well));
        painter.drawRect(geometry.ruler);
        painter.fillRect(geometry.gone, look.color(Token::StageServed));
        painter.setPen(look.pen(Token::RuleStrong, 1));
        for (const double x : geometry.ticks)
            painter.drawLine(QPointF(x, geometry.ruler.bottom()),
                             QPointF(x, geometry.ruler.bottom() + look.px(3)));
        for (const double x : geometry.weeks)
            painter.drawLine(QPointF(x, geometry.ruler.bottom()),
                             QPointF(x, geometry.ruler.bottom() + look.px(6)));
        const double left = geometry.ruler.left();
        const double right = geometry.ruler.right();
        const double above = geometry.ruler.top() - look.px(11);
        const double below = geometry.ruler.bottom() + look.px(16);
        const bool over = values.today && *values.today > values.lastDay;
        if (values.today) {
            painter.setPen(look.pen(over ? Token::Error : Token::Ink, 2.5));
            const double x = geometry.gone.right();
            painter.drawLine(QPointF(x, geometry.ruler.top() - look.px(3)),
                             QPointF(x, geometry.ruler.bottom() + look.px(3)));
            const double half = textWidth(values.now, Type::Control, look) / 2;
            const double at = std::clamp(x, left + half, std::max(left + half, right - half));
            const auto said =
                drawLabel(painter, {at, above}, Stand::Centre, values.now, Type::Control, Token::Ink, look);
            const double wants = textWidth(values.left, Type::Control, look);
            const Token ink = over ? Token::Error : Token::Ink2;
            if (right - said.right() > wants + look.px(12))
                drawLabel(painter, {right, above}, Stand::Right, values.left, Type::Control, ink, look);
            else if (said.left() - left > wants + look.px(12))
                drawLabel(painter, {left, above}, Stand::Left, values.left, Type::Control, ink, look);
        }
        drawLabel(painter, {left, below}, Stand::Left, values.made, Type::Control, Token::Ink, look);
        drawLabel(painter, {right, below}, Stand::Right, values.useBy, Type::Control, Token::Ink, look);
        top = look.px(kDrawn);
    }
    const double wide = std::max(40.0, box.width() - 2 * look.px(kSide));
    if (!values.warning.isEmpty()) {
        drawParagraph(painter, {look.px(kSide), top}, wide, values.warning, Type::Control, Token::Error,
                      look);
        top += paragraphHeight(values.warning, Type::Control, look, wide) + look.px(4);
    }
    drawParagraph(painter, {look.px(kSide), top}, wide, values.words, Type::Caption, Token::Ink2, look);
    painter.restore();
}

KeepingRuler::KeepingRuler(QWidget* parent) : PlotOf(tr("Keeping"), parent) {
    QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

QString KeepingRuler::words() const {
    QStringList parts;
    for (const auto& part : {m_values.made, m_values.now, m_values.left, m_values.useBy})
        if (!part.isEmpty()) parts << part;
    QString text = parts.join(QStringLiteral(", "));
    if (!text.isEmpty()) text += QStringLiteral(". ");
    if (!m_values.warning.isEmpty()) text += m_values.warning + QLatin1Char(' ');
    return text + m_values.words;
}

QList<QStringList> KeepingRuler::rows() const {
    return {{tr("made"), tr("today"), tr("left"), tr("use by")},
            {m_values.made, m_values.now, m_values.left, m_values.useBy}};
}

QSize KeepingRuler::minimumSizeHint() const {
    return {Theme::current().pxInt(240), sizeHint().height()};
}

QSize KeepingRuler::sizeHint() const {
    const int wide = Theme::current().pxInt(480);
    return {wide, heightForWidth(wide)};
}

int KeepingRuler::heightForWidth(int width) const {
    const auto& look = Theme::current().look();
    const double wide = std::max(40.0, width - 2 * look.px(kSide));
    const auto high = [&](const QString& text, Type type) {
        return text.isEmpty() ? 0 : paragraphHeight(text, type, look, wide);
    };
    const double warning = high(m_values.warning, Type::Control);
    return static_cast<int>(std::ceil((m_values.drawn ? look.px(kDrawn) : 0) + warning +
                                      (warning > 0 ? look.px(4) : 0) + high(m_values.words, Type::Caption) +
                                      look.px(4)));
}

void KeepingRuler::paint(QPainter& painter) {
    paintKeeping(painter, QRectF(rect()), m_values, Theme::current().look());
}

} // namespace stillroom::ui
