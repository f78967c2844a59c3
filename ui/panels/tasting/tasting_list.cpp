#include "ui/panels/tasting/tasting_list.h"

#include "ui/plots/plot_text.h"
#include "ui/text/numbers.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

#include <QPainter>

#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

constexpr double kScoreRow = 21;

QString scoresInWords(const Scores& scores) {
    QStringList parts;
    for (std::size_t i = 0; i < scores.size(); ++i)
        if (scores[i])
            parts << scaleName(static_cast<tasting::Scale>(i)) + u' ' + QString::number(*scores[i]);
    return parts.join(u", "_s);
}

QString quoted(const QString& note) {
    return u"“%1”"_s.arg(note);
}

} // namespace

double scoreRowsHeight(const Look& look) {
    return look.px(kScoreRow) * static_cast<double>(tasting::kScaleCount);
}

void paintScoreRows(QPainter& painter, const QRectF& box, const MeanScores& means, const MeanScores& rings,
                    bool named, const Look& look) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const double left = box.left() + (named ? look.px(62) : 0) + look.px(4);
    const double right = box.right() - look.px(44);
    for (std::size_t i = 0; i < tasting::kScaleCount; ++i) {
        const double y = box.top() + look.px(kScoreRow) * (static_cast<double>(i) + 0.5);
        if (named)
            drawLabel(painter, QPointF(box.left(), y), Stand::Left, scaleName(static_cast<tasting::Scale>(i)),
                      Type::Line, Token::Ink, look);
        const auto x = [&](double score) { return left + score / tasting::kScaleTop * (right - left); };
        painter.setPen(look.pen(Token::Rule, 1));
        painter.drawLine(QPointF(left, y), QPointF(right, y));
        for (const int tick : {0, 5, 10, 15})
            painter.drawLine(QPointF(x(tick), y - look.px(3)), QPointF(x(tick), y + look.px(3)));
        if (rings[i]) {
            painter.setPen(look.pen(Token::Ink2, 1.2));
            painter.setBrush(look.color(Token::Page));
            painter.drawEllipse(QPointF(x(*rings[i]), y), look.px(3), look.px(3));
        }
        if (means[i]) {
            painter.setPen(Qt::NoPen);
            painter.setBrush(look.color(Token::Ink));
            painter.drawEllipse(QPointF(x(*means[i]), y), look.px(4), look.px(4));
        }
        drawLabel(painter, QPointF(box.right(), y), Stand::Right, means[i] ? number(*means[i], 1) : u"—"_s,
                  Type::Reading, means[i] ? Token::Ink : Token::Ink3, look);
    }
    painter.restore();
}

double verdictsAndNotes(QPainter* painter, const QRectF& box, const std::vector<TastingEntry>& tastings,
                        const Look& look) {
    double y = box.top();
    double x = box.left();
    for (const auto& tasting : tastings) {
        const auto size = verdictSize(tasting.initials, look);
        if (x + size.width() > box.right() && x > box.left()) {
            x = box.left();
            y += size.height() + look.px(3);
        }
        if (painter) paintVerdict(*painter, QPointF(x, y), tasting.initials, tasting.verdict, look);
        x += size.width() + look.px(15);
    }
    if (!tastings.empty()) y += look.lineHeight(Type::Heading) + look.px(12);
    for (const auto& tasting : tastings) {
        if (tasting.note.isEmpty()) continue;
        const QString text = quoted(tasting.note) + u' ' + tasting.initials;
        y += painter ? drawParagraph(*painter, QPointF(box.left(), y), box.width(), text, Type::Reason,
                                     Token::Ink, look)
                     : paragraphHeight(text, Type::Reason, look, box.width());
        y += look.px(4);
    }
    return y - box.top();
}

TastingList::TastingList(QWidget* parent) : PlotWidget(u"Tastings of this revision"_s, parent) {
    connect(&Theme::current(), &Theme::changed, this, [this] { fit(); });
}

void TastingList::setSheet(const TastingSheet& sheet) {
    m_sheet = sheet;
    fit();
    valuesChanged();
}

void TastingList::fit() {
    setMinimumHeight(static_cast<int>(std::ceil(layOut(nullptr, width()))));
}

void TastingList::resizeEvent(QResizeEvent* event) {
    PlotWidget::resizeEvent(event);
    fit();
}

QSize TastingList::sizeHint() const {
    return {Theme::current().pxInt(520), minimumHeight()};
}

double TastingList::layOut(QPainter* painter, double width) const {
    const auto& look = Theme::current().look();
    const double left = look.px(24);
    const double measure = std::min(width - look.px(48), look.px(560));
    double y = look.px(20);
    const auto label = [&](const QString& text, Type type, Token token, double dx = 0) {
        if (painter)
            drawLabel(*painter, QPointF(left + dx, y), Stand::Left, text, type, token, look, measure - dx);
    };
    label(u"Tastings of %1"_s.arg(m_sheet.revision), Type::Heading, Token::Ink2);
    y += look.px(24);
    if (m_sheet.tastings.empty()) {
        const auto text =
            u"Nobody has tasted %1 yet. What you save stands here, and under its mark on the trail."_s.arg(
                m_sheet.revision);
        y += painter ? drawParagraph(*painter, QPointF(left, y), measure, text, Type::Body, Token::Ink2, look)
                     : paragraphHeight(text, Type::Body, look, measure);
        return y + look.px(16);
    }
    std::vector<Scores> all;
    for (const auto& tasting : m_sheet.tastings)
        all.push_back(tasting.scores);
    if (painter)
        paintScoreRows(*painter, QRectF(left, y, std::min(measure, look.px(420)), scoreRowsHeight(look)),
                       meanScores(all), m_sheet.rings, true, look);
    y += scoreRowsHeight(look) + look.px(12);
    auto legend = m_sheet.tastings.size() == 1
                      ? u"one taster, 0 to 15"_s
                      : u"mean of %1 tastings, 0 to 15"_s.arg(m_sheet.tastings.size());
    if (!m_sheet.ringsOf.isEmpty()) legend += u"; ring: %1"_s.arg(m_sheet.ringsOf);
    label(legend, Type::Caption, Token::Ink3);
    y += look.px(20);
    for (const auto& tasting : m_sheet.tastings) {
        if (painter) {
            painter->setPen(look.pen(Token::Rule, 1));
            painter->drawLine(QPointF(left, y), QPointF(left + measure, y));
        }
        y += look.px(10);
        if (painter) paintVerdict(*painter, QPointF(left, y), tasting.initials, tasting.verdict, look);
        y += look.px(8);
        label(tasting.when, Type::Caption, Token::Ink3, look.px(44));
        label(scoresInWords(tasting.scores), Type::Caption, Token::Ink2, look.px(44) + look.px(92));
        y += look.px(12);
        if (!tasting.note.isEmpty()) {
            const double indent = look.px(44);
            y += painter ? drawParagraph(*painter, QPointF(left + indent, y), measure - indent, tasting.note,
                                         Type::Body, Token::Ink, look)
                         : paragraphHeight(tasting.note, Type::Body, look, measure - indent);
        }
        if (!tasting.tryNext.isEmpty()) {
            y += look.px(9);
            label(u"try next: %1"_s.arg(tasting.tryNext), Type::Reason, Token::Ink2, look.px(44));
            y += look.px(11);
        }
        y += look.px(12);
    }
    return y + look.px(12);
}

void TastingList::paint(QPainter& painter) {
    painter.setRenderHint(QPainter::Antialiasing);
    layOut(&painter, width());
}

QString TastingList::words() const {
    if (m_sheet.tastings.empty()) return u"Nobody has tasted %1 yet."_s.arg(m_sheet.revision);
    QStringList parts;
    for (const auto& tasting : m_sheet.tastings) {
        QStringList one{verdictWords(tasting.initials, tasting.verdict), scoresInWords(tasting.scores),
                        tasting.note};
        one.removeAll(QString());
        parts << one.join(u". "_s) + u'.';
    }
    return parts.join(u' ');
}

QList<QStringList> TastingList::rows() const {
    QStringList head{u"taster"_s, u"when"_s, u"verdict"_s};
    for (std::size_t i = 0; i < tasting::kScaleCount; ++i)
        head << scaleName(static_cast<tasting::Scale>(i));
    head << u"note"_s << u"try next"_s;
    QList<QStringList> rows{head};
    for (const auto& tasting : m_sheet.tastings) {
        QStringList row{tasting.initials, tasting.when,
                        QString::fromStdString(std::string(tasting::verdictId(tasting.verdict)))};
        for (const auto& score : tasting.scores)
            row << (score ? QString::number(*score) : QString());
        rows << row + QStringList{tasting.note, tasting.tryNext};
    }
    return rows;
}

} // namespace stillroom::ui
