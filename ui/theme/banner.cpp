#include "ui/theme/banner.h"

#include "ui/theme/caution_mark.h"
#include "ui/theme/icons.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

#include <QAccessible>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QTextLayout>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

struct Tints {
    Token soft, edge, text;
};

Tints tintsOf(BannerKind kind) {
    switch (kind) {
    case BannerKind::Gap:
        return {Token::GapSoft, Token::Gap, Token::Ink};
    case BannerKind::Caution:
        return {Token::CautionSoft, Token::Caution, Token::OnCaution};
    case BannerKind::Error:
        return {Token::ErrorSoft, Token::Error, Token::OnError};
    }
    return {Token::GapSoft, Token::Gap, Token::Ink};
}

constexpr double kTextLeft = 40;
constexpr double kPadding = 7;
constexpr double kRight = 12;

// Fact, consequence and act flow as one paragraph; each keeps its own dress.
void layOut(QTextLayout& layout, double width, const BannerText& text, const Tints& tints, const Look& look) {
    auto joined = text.fact;
    const auto factLength = static_cast<int>(text.fact.size());
    if (!text.consequence.isEmpty()) joined += u' ' + text.consequence;
    const auto actStart = static_cast<int>(joined.size()) + 1;
    if (!text.act.isEmpty()) joined += u' ' + text.act;
    layout.setText(joined);
    layout.setFont(look.font(Type::Control));
    QTextCharFormat fact;
    fact.setFontWeight(QFont::Bold);
    QList<QTextLayout::FormatRange> formats;
    QTextCharFormat all;
    all.setForeground(look.color(tints.text));
    formats << QTextLayout::FormatRange{0, static_cast<int>(joined.size()), all};
    fact.setForeground(look.color(tints.text));
    formats << QTextLayout::FormatRange{0, factLength, fact};
    if (!text.act.isEmpty()) {
        QTextCharFormat act;
        act.setFontWeight(QFont::DemiBold);
        act.setForeground(look.color(Token::Intent));
        act.setFontUnderline(true);
        formats << QTextLayout::FormatRange{actStart, static_cast<int>(text.act.size()), act};
    }
    layout.setFormats(formats);
    layout.beginLayout();
    double y = 0;
    for (auto line = layout.createLine(); line.isValid(); line = layout.createLine()) {
        line.setLineWidth(std::max(look.px(80), width));
        line.setPosition(QPointF(0, y));
        y += std::max(line.height(), look.lineHeight(Type::Control));
    }
    layout.endLayout();
}

double textHeight(const QTextLayout& layout, const Look& look) {
    return layout.lineCount() == 0 ? 0
                                   : layout.lineAt(layout.lineCount() - 1).y() +
                                         std::max(layout.lineAt(0).height(), look.lineHeight(Type::Control));
}

void paintMark(QPainter& painter, const QRectF& box, BannerKind kind, const Tints& tints, const Look& look) {
    if (kind == BannerKind::Gap) {
        paintIcon(painter, box, u"gap", look.color(tints.edge));
        return;
    }
    if (kind == BannerKind::Caution) {
        paintCautionMark(painter, box, look.color(tints.edge), look);
        return;
    }
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(look.color(tints.edge), look.px(1.5), Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    const auto c = box.center();
    const double r = box.width() * 0.42;
    QPainterPath octagon;
    for (int i = 0; i < 8; ++i) {
        const double angle = M_PI / 8 + i * M_PI / 4;
        const QPointF corner = c + QPointF(r * std::cos(angle), r * std::sin(angle));
        i == 0 ? octagon.moveTo(corner) : octagon.lineTo(corner);
    }
    octagon.closeSubpath();
    painter.drawPath(octagon);
    painter.drawLine(c + QPointF(0, r * -0.5), c + QPointF(0, r * 0.1));
    painter.setPen(Qt::NoPen);
    painter.setBrush(look.color(tints.edge));
    painter.drawEllipse(c + QPointF(0, r * 0.38), look.px(0.95), look.px(0.95));
    painter.restore();
}

} // namespace

double bannerHeight(double width, BannerKind kind, const BannerText& text, const Look& look) {
    QTextLayout layout;
    layOut(layout, width - look.px(kTextLeft + kRight), text, tintsOf(kind), look);
    return textHeight(layout, look) + 2 * look.px(kPadding);
}

QRectF paintBanner(QPainter& painter, const QRectF& box, BannerKind kind, const BannerText& text,
                   const Look& look) {
    const auto tints = tintsOf(kind);
    painter.fillRect(box, look.color(tints.soft));
    painter.fillRect(QRectF(box.left(), box.top(), look.px(4), box.height()), look.color(tints.edge));
    const double side = look.px(18);
    paintMark(painter, QRectF(box.left() + look.px(13), box.top() + look.px(kPadding - 1), side, side), kind,
              tints, look);

    QTextLayout layout;
    layOut(layout, box.width() - look.px(kTextLeft + kRight), text, tints, look);
    const QPointF origin(box.left() + look.px(kTextLeft), box.top() + look.px(kPadding));
    layout.draw(&painter, origin);
    if (text.act.isEmpty()) return {};
    const int start = static_cast<int>(layout.text().size() - text.act.size());
    QRectF act;
    for (int i = 0; i < layout.lineCount(); ++i) {
        const auto line = layout.lineAt(i);
        const int lineEnd = line.textStart() + line.textLength();
        if (lineEnd <= start) continue;
        const double x0 = line.cursorToX(std::max(start, line.textStart()));
        const double x1 = line.cursorToX(lineEnd);
        act = act.united(QRectF(origin + QPointF(x0, line.y()), QSizeF(x1 - x0, line.height())));
    }
    return act;
}

Banner::Banner(QWidget* parent) : QWidget(parent) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    hide();
    connect(&Theme::current(), &Theme::changed, this, [this] {
        fitHeight();
        update();
    });
}

void Banner::show(BannerKind kind, const BannerText& text) {
    m_kind = kind;
    m_text = text;
    setFocusPolicy(text.act.isEmpty() ? Qt::NoFocus : Qt::StrongFocus);
    setAccessibleName(u"%1: %2"_s.arg(kind == BannerKind::Gap       ? u"gap"_s
                                      : kind == BannerKind::Caution ? u"caution"_s
                                                                    : u"error"_s,
                                      text.fact));
    setAccessibleDescription(QString(text.consequence + u' ' + text.act).trimmed());
    setVisible(!text.fact.isEmpty());
    fitHeight();
    update();
}

QSize Banner::sizeHint() const {
    return {Theme::current().pxInt(420), height()};
}

// A layout gives height-for-width widgets more room than they ask for, and less when it is short of it; the
// strip's words must neither float nor be cut.
void Banner::fitHeight() {
    setFixedHeight(
        static_cast<int>(std::ceil(bannerHeight(width(), m_kind, m_text, Theme::current().look()))));
}

void Banner::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fitHeight();
}

void Banner::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const auto& look = Theme::current().look();
    m_actBox = paintBanner(painter, rect(), m_kind, m_text, look);
    if (hasFocus()) {
        const double in = look.px(3);
        paintFocusFrame(painter, QRectF(rect()).adjusted(in, in, -in, -in), look);
    }
}

void Banner::mouseReleaseEvent(QMouseEvent* event) {
    if (m_actBox.contains(event->position())) Q_EMIT actTriggered();
}

void Banner::keyPressEvent(QKeyEvent* event) {
    const auto key = event->key();
    if (!m_text.act.isEmpty() && (key == Qt::Key_Return || key == Qt::Key_Enter || key == Qt::Key_Space))
        Q_EMIT actTriggered();
    else
        QWidget::keyPressEvent(event);
}

bool Banner::event(QEvent* event) {
    if (event->type() == QEvent::FocusIn || event->type() == QEvent::FocusOut) update();
    return QWidget::event(event);
}

} // namespace stillroom::ui
