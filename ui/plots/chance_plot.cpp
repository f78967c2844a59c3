#include "ui/plots/chance_plot.h"

#include "ui/plots/plot_text.h"
#include "ui/text/numbers.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

#include <QPainter>

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

constexpr double kSide = 12;
constexpr double kHead = 54; // over the bars: what counts, and this panel's flag
constexpr double kFoot = 44; // under them: counts and what they are
constexpr double kLeastStep = 15;
constexpr double kMostStep = 50;
constexpr double kEasyStep = 24; // narrower, the ends nobody would see are left out
constexpr double kSeen = 0.0005; // a bar below this is thinner than its outline
constexpr double kScaleRow = 30;
constexpr double kScaleFoot = 50;

QString shareText(double share) {
    return share < kSeen ? u"under 0.1"_s : number(share * 100, 1);
}

} // namespace

ChanceGeometry chanceGeometry(const ChanceValues& values, QSizeF size, const Look& look) {
    ChanceGeometry made;
    const int most = static_cast<int>(values.chance.size()) - 1;
    made.last = std::max(0, most);
    const auto chance = [&](int count) { return values.chance[static_cast<std::size_t>(count)]; };
    const double room = std::max(look.px(60), size.width() - 2 * look.px(kSide));
    // Two-sided, fewer than half cannot be the larger part.
    while (made.first < made.last && !(chance(made.first) > 0) && made.first < values.count)
        ++made.first;
    if (room / (made.last - made.first + 1) < look.px(kEasyStep)) {
        while (made.first < made.last && chance(made.first) < kSeen && made.first < values.count)
            ++made.first;
        const int stop = std::max(values.count, std::min(most, values.needed.value_or(0)));
        while (made.last > made.first && chance(made.last) < kSeen && made.last > stop)
            --made.last;
    }
    made.left = look.px(kSide);
    made.step = std::min(look.px(kMostStep), room / (made.last - made.first + 1));
    made.base = size.height() - look.px(kFoot);
    made.height = std::max(look.px(20), made.base - look.px(kHead));
    return made;
}

void paintChance(QPainter& painter, const QRectF& box, const ChanceValues& values, const Look& look) {
    if (values.chance.empty()) return;
    painter.save();
    painter.translate(box.topLeft());
    painter.setRenderHint(QPainter::Antialiasing);
    const auto made = chanceGeometry(values, box.size(), look);
    const double tallest = *std::max_element(values.chance.begin(), values.chance.end());
    const double right = made.x(made.last) + made.step / 2;
    const int every = std::max(1, static_cast<int>(std::ceil(look.px(kLeastStep) / made.step)));
    for (int count = made.first; count <= made.last; ++count) {
        const double tall = values.chance[static_cast<std::size_t>(count)] / tallest * made.height;
        const double half = made.step * 0.38;
        const QRectF bar(made.x(count) - half, made.base - tall, 2 * half, tall);
        const bool counts = values.needed && count >= *values.needed;
        painter.setPen(look.pen(counts ? Token::Ink : Token::RuleStrong, 1));
        painter.setBrush(look.color(counts ? Token::Ink : Token::Well));
        painter.drawRect(bar);
        const bool own = count == values.count;
        if (own || ((count - made.first) % every == 0 && std::abs(count - values.count) >= every))
            drawLabel(painter, {made.x(count), made.base + look.px(12)}, Stand::Centre,
                      QString::number(count), own ? Type::ReadingServed : Type::Axis,
                      own ? Token::Ink : Token::Ink2, look);
    }
    painter.setPen(look.pen(Token::RuleStrong, 1));
    painter.drawLine(QPointF(made.left, made.base), QPointF(right, made.base));
    drawLabel(painter, {made.left, made.base + look.px(32)}, Stand::Left, values.axis, Type::Caption,
              Token::Ink2, look, box.width() - made.left);
    if (values.needed && *values.needed <= static_cast<int>(values.chance.size()) - 1) {
        const double x = made.x(*values.needed) - made.step / 2;
        painter.setPen(look.pen(Token::Aim, 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawPolyline(QPolygonF({QPointF(x + look.px(9), look.px(12)), QPointF(x, look.px(12)),
                                        QPointF(x, made.base + look.px(4))}));
        const QString words = QObject::tr("from here it counts (%1)").arg(values.level);
        const double wide = textWidth(words, Type::Delta, look);
        if (x + look.px(14) + wide <= box.width())
            drawLabel(painter, {x + look.px(14), look.px(12)}, Stand::Left, words, Type::Delta, Token::Intent,
                      look);
        else
            drawLabel(painter, {x - look.px(6), look.px(12)}, Stand::Right, words, Type::Delta, Token::Intent,
                      look, x - look.px(10));
    }
    const double x = made.x(values.count);
    const double tall = values.chance[static_cast<std::size_t>(values.count)] / tallest * made.height;
    // The flag stands above its bar, and above the words beside it.
    const double flag =
        std::max(look.px(36), std::min(made.base - tall - look.px(14), made.base - look.px(40)));
    painter.setPen(look.pen(Token::Ink, 1));
    painter.drawLine(QPointF(x, flag), QPointF(x, made.base - tall));
    painter.setPen(Qt::NoPen);
    painter.setBrush(look.color(Token::Ink));
    painter.drawPolygon(
        QPolygonF({QPointF(x - look.px(6), flag - look.px(8)), QPointF(x + look.px(6), flag - look.px(8)),
                   QPointF(x, flag + look.px(2))}));
    const double wide = textWidth(values.countWords, Type::ReadingServed, look);
    const QPointF at(x + look.px(11), flag - look.px(3));
    // On the side where it does not run over the line from which it counts, where there is room.
    const double line = values.needed ? made.x(*values.needed) - made.step / 2 : box.width();
    const bool crosses = line > x && at.x() + wide > line && x - look.px(11) - wide > 0;
    const bool fits = at.x() + wide <= box.width() && !crosses;
    const double from = fits ? at.x() : x - look.px(11) - wide;
    painter.fillRect(QRectF(from - look.px(2), at.y() - look.px(9), wide + look.px(4), look.px(18)),
                     look.color(Token::Page));
    drawLabel(painter, {fits ? at.x() : x - look.px(11), at.y()}, fits ? Stand::Left : Stand::Right,
              values.countWords, Type::ReadingServed, Token::Ink, look);
    painter.restore();
}

ChancePlot::ChancePlot(QWidget* parent) : WidePlot(tr("What chance alone would do"), 560, 220, parent) {}

QString ChancePlot::words() const {
    QString text = m_values.countWords + u". "_s;
    text += m_values.needed ? tr("From %1 on it counts, at %2.").arg(*m_values.needed).arg(m_values.level)
                            : tr("No count would have counted.");
    return text;
}

QList<QStringList> ChancePlot::rows() const {
    QList<QStringList> rows{{tr("count"), tr("by chance, %")}};
    for (std::size_t count = 0; count < m_values.chance.size(); ++count)
        rows << QStringList{QString::number(count), shareText(m_values.chance[count])};
    return rows;
}

double ChancePlot::tall() const {
    return 230;
}

void ChancePlot::paint(QPainter& painter) {
    paintChance(painter, QRectF(rect()), m_values, Theme::current().look());
}

void paintProductScale(QPainter& painter, const QRectF& box, const ProductScaleValues& values,
                       const Look& look) {
    if (values.rows.empty() || !(values.to > values.from)) return;
    painter.save();
    painter.translate(box.topLeft());
    painter.setRenderHint(QPainter::Antialiasing);
    const double side = look.px(kSide);
    double names = 0;
    double words = 0;
    for (const auto& row : values.rows) {
        names = std::max(names, textWidth(row.name, Type::Line, look));
        words = std::max(words, textWidth(row.words, Type::Reading, look));
    }
    names = std::min(names, box.width() * 0.3);
    const double left = side + names + look.px(16);
    const double right = std::max(left + look.px(60), box.width() - side - words - look.px(16));
    const auto x = [&](double value) {
        return left + (value - values.from) / (values.to - values.from) * (right - left);
    };
    double y = look.px(kScaleRow) / 2;
    for (const auto& row : values.rows) {
        drawLabel(painter, {side, y}, Stand::Left, row.name, Type::Line, Token::Ink, look, names);
        painter.setPen(look.pen(Token::Rule, 1));
        painter.drawLine(QPointF(left, y), QPointF(right, y));
        if (row.low && row.high) {
            // What lies off the scale cannot have been marked: the line ends with the scale, open.
            const double from = std::max(left, x(*row.low));
            const double to = std::min(right, x(*row.high));
            painter.setPen(look.pen(Token::Ink, 2));
            painter.drawLine(QPointF(from, y), QPointF(to, y));
            painter.setPen(look.pen(Token::Ink, 1.5));
            const double tick = look.px(4);
            if (*row.low >= values.from) painter.drawLine(QPointF(from, y - tick), QPointF(from, y + tick));
            if (*row.high <= values.to) painter.drawLine(QPointF(to, y - tick), QPointF(to, y + tick));
        }
        painter.setPen(Qt::NoPen);
        painter.setBrush(look.color(Token::Ink));
        painter.drawEllipse(QPointF(x(row.value), y), look.px(4.5), look.px(4.5));
        drawLabel(painter, {box.width() - side, y}, Stand::Right, row.words, Type::Reading, Token::Ink, look);
        y += look.px(kScaleRow);
    }
    const double axis = y - look.px(6);
    painter.setPen(look.pen(Token::RuleStrong, 1));
    painter.drawLine(QPointF(left, axis), QPointF(right, axis));
    const double step = niceStep(values.to - values.from, 8);
    for (double at = std::ceil(values.from / step) * step; at <= values.to + step / 1000; at += step) {
        painter.setPen(look.pen(Token::RuleStrong, 1));
        painter.drawLine(QPointF(x(at), axis), QPointF(x(at), axis + look.px(4)));
        drawLabel(painter, {x(at), axis + look.px(12)}, Stand::Centre, number(at, decimalsOfStep(step)),
                  Type::Axis, Token::Ink2, look);
    }
    const double below = axis + look.px(28);
    const double half = (right - left) / 2 - look.px(8);
    drawLabel(painter, {left, below}, Stand::Left, values.low, Type::Caption, Token::Ink2, look, half);
    drawLabel(painter, {right, below}, Stand::Right, values.high, Type::Caption, Token::Ink2, look, half);
    if (values.apart) {
        const double wide = *values.apart / (values.to - values.from) * (right - left);
        const double line = below + look.px(22);
        painter.setPen(look.pen(Token::Aim, 2));
        const double tick = look.px(5);
        const double end = left + std::min(wide, right - left);
        painter.drawPolyline(QPolygonF({QPointF(left, line - tick), QPointF(left, line), QPointF(end, line),
                                        QPointF(end, line - tick)}));
        drawLabel(painter, {left, line + look.px(12)}, Stand::Left, values.apartWords, Type::Caption,
                  Token::Intent, look, box.width() - left - side);
    }
    painter.restore();
}

ProductScalePlot::ProductScalePlot(QWidget* parent)
    : WidePlot(tr("What was poured on one scale"), 560, 240, parent) {}

QString ProductScalePlot::words() const {
    QStringList parts;
    for (const auto& row : m_values.rows)
        parts << u"%1: %2."_s.arg(row.name, row.words);
    if (m_values.apart) parts << m_values.apartWords + u'.';
    return parts.join(u' ');
}

QList<QStringList> ProductScalePlot::rows() const {
    QList<QStringList> rows{{tr("product"), tr("value"), tr("low"), tr("high")}};
    for (const auto& row : m_values.rows)
        rows << QStringList{row.name, number(row.value, 2), row.low ? number(*row.low, 2) : QString(),
                            row.high ? number(*row.high, 2) : QString()};
    return rows;
}

double ProductScalePlot::tall() const {
    const double rows = kScaleRow * static_cast<double>(m_values.rows.size());
    return rows + kScaleFoot + (m_values.apart ? 44 : 0);
}

void ProductScalePlot::paint(QPainter& painter) {
    paintProductScale(painter, QRectF(rect()), m_values, Theme::current().look());
}

} // namespace stillroom::ui
