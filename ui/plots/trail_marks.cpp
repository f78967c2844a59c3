#include "ui/plots/trail_marks.h"

#include "ui/plots/plot_text.h"
#include "ui/theme/marks.h"

#include <QPainter>

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

double paintPhoto(QPainter& painter, QPointF at, const TrailMark& mark, const Look& look) {
    if (mark.photo.isNull()) return 0;
    auto size = QSizeF(mark.photo.size());
    size.scale(look.px(kTrailPhotoWide), look.px(kTrailPhotoHigh), Qt::KeepAspectRatio);
    painter.save();
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.drawImage(QRectF(at - QPointF(0, look.px(1)), size), mark.photo);
    painter.restore();
    return look.px(kTrailPhotoWide + 8);
}

// Photo and verdicts from `at` on; what has no room is told by an ellipsis.
void paintTastes(QPainter& painter, QPointF at, const TrailMark& mark, double width, const Look& look) {
    double x = at.x() + paintPhoto(painter, at, mark, look);
    for (const auto& taste : mark.tastes) {
        const auto size = verdictSize(taste.initials, look);
        if (x + size.width() > at.x() + width) {
            drawLabel(painter, QPointF(x, at.y() + look.px(8)), Stand::Left, u"…"_s, Type::Heading,
                      Token::Ink2, look);
            return;
        }
        paintVerdict(painter, QPointF(x, at.y()), taste.initials, taste.verdict, look);
        x += size.width() + look.px(14);
    }
    if (mark.tastes.empty())
        drawLabel(painter, QPointF(x, at.y() + look.px(8)), Stand::Left, u"not tasted yet"_s, Type::Unit,
                  Token::Ink3, look);
}

double paintHeadLine(QPainter& painter, QPointF at, const TrailMark& mark, const Look& look) {
    auto box = drawLabel(painter, at, Stand::Left, mark.number, Type::Heading, Token::Ink, look);
    box = drawLabel(painter, QPointF(box.right() + look.px(10), at.y()), Stand::Left, mark.date,
                    Type::Caption, Token::Ink3, look);
    if (const auto standing = trailStanding(mark); !standing.isEmpty())
        box = drawLabel(painter, QPointF(box.right() + look.px(8), at.y()), Stand::Left, standing,
                        Type::Caption, Token::Ink, look);
    return box.right();
}

void paintWordsUnder(QPainter& painter, const TrailItem& item, const TrailMark& mark,
                     const TrailGeometry& geometry, const Look& look) {
    const double x = item.x - look.px(6);
    const double width = item.textWidth + look.px(8);
    double y = geometry.laneY(0) + look.px(21);
    paintHeadLine(painter, QPointF(x, y), mark, look);
    y += look.px(18);
    const auto said = [&](const QString& text, const QString& separator, Token token) {
        for (const auto& line :
             wholePartLines(text, separator, Type::Unit, look, width, geometry.wordLines)) {
            drawLabel(painter, QPointF(x, y), Stand::Left, line, Type::Unit, token, look, width);
            y += look.px(15);
        }
    };
    said(mark.changed, u"; "_s, Token::Ink);
    said(mark.did, u", "_s, Token::Ink2);
    if (!mark.reason.isEmpty()) {
        y += look.px(2);
        drawLabel(painter, QPointF(x, y), Stand::Left, mark.reason, Type::Reason, Token::Ink2, look, width);
        y += look.px(17);
    }
    paintTastes(painter, QPointF(x, y - look.px(7)), mark, width, look);
}

double tastesWidth(const TrailMark& mark, const Look& look) {
    double width = mark.photo.isNull() ? 0 : look.px(kTrailPhotoWide + 8);
    for (const auto& taste : mark.tastes)
        width += verdictSize(taste.initials, look).width() + look.px(14);
    return width;
}

// A branch has its words beside the mark: what changed above, what it did, why, and who said what below.
void paintWordsBeside(QPainter& painter, const TrailItem& item, const TrailMark& mark,
                      const TrailGeometry& geometry, const Look& look) {
    const double y = geometry.laneY(item.lane);
    const double x = item.x + look.px(12);
    const double width = item.textWidth;
    const bool one = geometry.crowded;
    // Another branch's line may pass behind.
    painter.fillRect(
        QRectF(x - look.px(2), y - look.px(one ? 7 : 16), width + look.px(4), look.px(one ? 14 : 33)),
        look.color(Token::Page));
    const double head = one ? y : y - look.px(8);
    const double from = paintHeadLine(painter, QPointF(x, head), mark, look) + look.px(8);
    const double room = x + width - from;
    if (room > look.px(24))
        drawLabel(painter, QPointF(from, head), Stand::Left,
                  wholeParts(mark.changed, u"; "_s, Type::Unit, look, room), Type::Unit, Token::Ink, look,
                  room);
    if (one) return;
    const double under = y + look.px(9);
    const double tastes = std::min(tastesWidth(mark, look), width * 0.5);
    double at = x;
    const auto reason = trailReason(mark);
    if (!mark.did.isEmpty()) {
        const double most = (width - tastes) * (reason.isEmpty() ? 1.0 : 0.6);
        at = drawLabel(painter, QPointF(at, under), Stand::Left,
                       wholeParts(mark.did, u", "_s, Type::Unit, look, most), Type::Unit, Token::Ink2, look,
                       most)
                 .right() +
             look.px(8);
    }
    if (const double most = x + width - tastes - at; !reason.isEmpty() && most > look.px(24))
        at =
            drawLabel(painter, QPointF(at, under), Stand::Left, reason, Type::Reason, Token::Ink2, look, most)
                .right() +
            look.px(10);
    if (tastes > 0) paintTastes(painter, QPointF(at, under - look.px(8)), mark, x + width - at, look);
}

void paintFold(QPainter& painter, const TrailItem& item, const TrailValues& values,
               const TrailGeometry& geometry, const Look& look) {
    const double y = geometry.laneY(item.lane);
    painter.setPen(Qt::NoPen);
    painter.setBrush(look.color(Token::Page));
    painter.drawRect(QRectF(item.x - look.px(11), y - look.px(4), look.px(22), look.px(8)));
    painter.setBrush(look.color(Token::Ink2));
    for (const double at : {-7.0, 0.0, 7.0})
        painter.drawEllipse(QPointF(item.x + look.px(at), y), look.px(2), look.px(2));
    if (geometry.flat) return;
    const double x = item.x - look.px(11);
    const double top = item.lane > 0 ? y + look.px(10) : y + look.px(21);
    drawLabel(painter, QPointF(x, top), Stand::Left, u"%1 more"_s.arg(item.count()), Type::Heading,
              Token::Ink2, look);
    if (item.lane > 0) return;
    const QString range = values.marks[static_cast<std::size_t>(item.first)].number + u" to "_s +
                          values.marks[static_cast<std::size_t>(item.last)].number;
    drawLabel(painter, QPointF(x, top + look.px(18)), Stand::Left, range, Type::Caption, Token::Ink3, look);
    drawLabel(painter, QPointF(x, top + look.px(33)), Stand::Left, u"Enter unfolds"_s, Type::Caption,
              Token::Ink3, look);
}

} // namespace

void paintTrailItem(QPainter& painter, const TrailItem& item, const TrailValues& values,
                    const TrailGeometry& geometry, const Look& look) {
    if (item.isFold()) {
        paintFold(painter, item, values, geometry, look);
        return;
    }
    const auto& mark = values.marks[static_cast<std::size_t>(item.first)];
    const double y = geometry.laneY(item.lane);
    if (mark.state == StateMark::Draft) { // the ring is open: no line shows through
        painter.setPen(Qt::NoPen);
        painter.setBrush(look.color(Token::Page));
        painter.drawEllipse(QPointF(item.x, y), look.px(6), look.px(6));
    }
    paintStateMark(painter, QPointF(item.x, y), mark.state, look, look.color(Token::Ink));
    if (geometry.flat) {
        const double width = textWidth(mark.number, Type::Caption, look);
        painter.fillRect(QRectF(item.x + look.px(9), y - look.px(6), width + look.px(5), look.px(12)),
                         look.color(Token::Page));
        drawLabel(painter, QPointF(item.x + look.px(11), y), Stand::Left, mark.number, Type::Caption,
                  Token::Ink, look);
    } else if (item.lane == 0)
        paintWordsUnder(painter, item, mark, geometry, look);
    else
        paintWordsBeside(painter, item, mark, geometry, look);
}

} // namespace stillroom::ui
