#include "ui/plots/label_drawing.h"

#include "ui/plots/plot_text.h"
#include "ui/theme/theme.h"

#include <QClipboard>
#include <QFontMetricsF>
#include <QGuiApplication>
#include <QKeyEvent>
#include <QPainter>

#include <algorithm>

namespace stillroom::ui {

namespace {

constexpr double kPad = 14;
constexpr double kDay = 74; // least width of a day's column

QStringList paragraphsOf(const LabelValues& values) {
    QStringList all = values.cautions;
    for (const auto& text : {values.allergens, values.keep, values.credit, values.deference})
        if (!text.isEmpty()) all << text;
    return all;
}

// Lays the label out and, given a painter, draws it. Returns its height.
double laidOut(QPainter* painter, const LabelValues& values, double width, const Look& look) {
    const double pad = look.px(kPad);
    const double room = std::max(width - 2 * pad, look.px(40));
    double y = pad;
    const auto paragraph = [&](const QString& text, Type type, Token token) {
        if (text.isEmpty()) return;
        if (painter != nullptr) drawParagraph(*painter, {pad, y}, room, text, type, token, look);
        y += paragraphHeight(text, type, look, room);
    };
    paragraph(values.name, Type::Title, Token::Ink);
    y += look.px(3); // a descender of the name does not touch what stands below
    paragraph(values.about, Type::Control, Token::Ink2);
    y += look.px(8);
    double x = pad;
    const double caption = look.lineHeight(Type::Caption);
    const double figure = look.lineHeight(Type::Amount);
    for (const auto& [what, day] : values.days) {
        const double wide = std::max(look.px(kDay), textWidth(day, Type::ReadingServed, look) + look.px(16));
        if (x > pad && x + wide > width) {
            x = pad;
            y += caption + figure + look.px(2);
        }
        if (painter != nullptr) {
            drawLabel(*painter, {x, y + caption / 2}, Stand::Left, what, Type::Caption, Token::Ink2, look);
            drawLabel(*painter, {x, y + caption + figure / 2}, Stand::Left, day, Type::ReadingServed,
                      Token::Ink, look);
        }
        x += wide;
    }
    if (!values.days.empty()) y += caption + figure + look.px(8);
    for (const auto& text : paragraphsOf(values)) {
        paragraph(text, Type::Caption, Token::Ink2);
        y += look.px(2);
    }
    return y + pad - look.px(2);
}

} // namespace

QString labelText(const LabelValues& values) {
    QStringList lines{values.name};
    if (!values.about.isEmpty()) lines << values.about;
    QStringList days;
    for (const auto& [what, day] : values.days)
        days << QString(what + QLatin1Char(' ') + day);
    if (!days.isEmpty()) lines << days.join(QStringLiteral(", "));
    lines << paragraphsOf(values);
    return lines.join(QLatin1Char('\n'));
}

double labelHeight(const LabelValues& values, double width, const Look& look) {
    return laidOut(nullptr, values, width, look);
}

void paintLabel(QPainter& painter, const QRectF& box, const LabelValues& values, const Look& look) {
    painter.save();
    painter.translate(box.topLeft());
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(look.pen(Token::Ink, 1.2));
    painter.setBrush(Qt::NoBrush);
    const double in = look.px(1);
    painter.drawRect(QRectF(QPointF(0, 0), box.size()).adjusted(in, in, -in, -in));
    laidOut(&painter, values, box.width(), look);
    painter.restore();
}

LabelDrawing::LabelDrawing(QWidget* parent) : PlotOf(tr("Label"), parent) {
    QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

QList<QStringList> LabelDrawing::rows() const {
    QList<QStringList> rows{{tr("label"), values().name}};
    for (const auto& [what, day] : m_values.days)
        rows << QStringList{what, day};
    for (const auto& text : paragraphsOf(m_values))
        rows << QStringList{QString(), text};
    return rows;
}

QSize LabelDrawing::sizeHint() const {
    const int wide = Theme::current().pxInt(230);
    return {wide, heightForWidth(wide)};
}

QSize LabelDrawing::minimumSizeHint() const {
    return {Theme::current().pxInt(180), Theme::current().pxInt(80)};
}

int LabelDrawing::heightForWidth(int width) const {
    return static_cast<int>(labelHeight(m_values, width, Theme::current().look())) + 2;
}

void LabelDrawing::paint(QPainter& painter) {
    paintLabel(painter, QRectF(rect()).adjusted(1, 1, -1, -1), m_values, Theme::current().look());
}

void LabelDrawing::keyPressEvent(QKeyEvent* event) {
    if (event->matches(QKeySequence::Copy))
        QGuiApplication::clipboard()->setText(labelText(m_values));
    else
        PlotWidget::keyPressEvent(event);
}

} // namespace stillroom::ui
