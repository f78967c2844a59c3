#include "ui/panels/tasting/tasting_list.h"

#include "ui/plots/plot_text.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/text/scale_words.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

constexpr double kScoreRow = 21;
constexpr double kPhotoHigh = 52;

// A note may be a megabyte; a list shows its beginning. All of it stands in the entry when it is corrected.
constexpr qsizetype kShownNote = 1500;

QString shownNote(const QString& note) {
    if (note.size() <= kShownNote) return note;
    return note.left(note.at(kShownNote - 1).isHighSurrogate() ? kShownNote - 1 : kShownNote) + u" …"_s;
}

void paintPhotos(QPainter& painter, QPointF at, double room, const std::vector<QImage>& photos,
                 const Look& look) {
    painter.save();
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    double x = at.x();
    for (std::size_t i = 0; i < photos.size(); ++i) {
        if (photos[i].isNull()) continue;
        auto size = QSizeF(photos[i].size());
        size.scale(look.px(140), look.px(kPhotoHigh), Qt::KeepAspectRatio);
        if (x + size.width() > at.x() + room - look.px(40)) {
            drawLabel(painter, QPointF(x, at.y() + look.px(kPhotoHigh) / 2), Stand::Left,
                      u"%1 more"_s.arg(photos.size() - i), Type::Caption, Token::Ink3, look);
            break;
        }
        painter.drawImage(QRectF(QPointF(x, at.y()), size), photos[i]);
        x += size.width() + look.px(6);
    }
    painter.restore();
}

QString quoted(const QString& note) {
    return u"“%1”"_s.arg(note);
}

} // namespace

double scoreRowsHeight(std::size_t scales, const Look& look) {
    return look.px(kScoreRow) * static_cast<double>(scales);
}

void paintScoreRows(QPainter& painter, const QRectF& box, const std::vector<tasting::ScaleDefinition>& scales,
                    const tasting::ScoreMeans& means, const tasting::ScoreMeans& rings, bool named,
                    const Look& look) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    double name = look.px(62);
    for (const auto& scale : scales)
        name = std::max(name, textWidth(fromCore(scale.name), Type::Line, look) + look.px(10));
    name = std::min(name, look.px(130));
    const double left = box.left() + (named ? name : 0) + look.px(4);
    const double right = box.right() - look.px(44);
    for (std::size_t i = 0; i < scales.size(); ++i) {
        const int low = tasting::lowestScore(scales[i].kind);
        const int high = tasting::highestScore(scales[i].kind);
        const double y = box.top() + look.px(kScoreRow) * (static_cast<double>(i) + 0.5);
        if (named)
            drawLabel(painter, QPointF(box.left(), y), Stand::Left,
                      elided(fromCore(scales[i].name), Type::Line, look, name - look.px(6)), Type::Line,
                      Token::Ink, look);
        const auto x = [&](double score) { return left + (score - low) / (high - low) * (right - left); };
        painter.setPen(look.pen(Token::Rule, 1));
        painter.drawLine(QPointF(left, y), QPointF(right, y));
        const bool fifteen = scales[i].kind == tasting::ScaleKind::FifteenPoint;
        for (int tick = low; tick <= high; ++tick)
            if (!fifteen || tick % 5 == 0)
                painter.drawLine(QPointF(x(tick), y - look.px(3)), QPointF(x(tick), y + look.px(3)));
        if (i < rings.size() && rings[i]) {
            painter.setPen(look.pen(Token::Ink2, 1.2));
            painter.setBrush(look.color(Token::Page));
            painter.drawEllipse(QPointF(x(rings[i]->mean), y), look.px(3), look.px(3));
        }
        const bool known = i < means.size() && means[i];
        if (known) {
            painter.setPen(Qt::NoPen);
            painter.setBrush(look.color(Token::Ink));
            painter.drawEllipse(QPointF(x(means[i]->mean), y), look.px(4), look.px(4));
        }
        drawLabel(painter, QPointF(box.right(), y), Stand::Right, known ? number(means[i]->mean, 1) : u"—"_s,
                  Type::Reading, known ? Token::Ink : Token::Ink3, look);
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
        const QString text = quoted(shownNote(tasting.note)) + u' ' + tasting.initials;
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
    m_current = -1;
    fit();
    valuesChanged();
}

void TastingList::setTastings(std::vector<TastingEntry> tastings) {
    m_sheet.tastings = std::move(tastings);
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
    const auto& scales = m_sheet.shownScales;
    const double high = scoreRowsHeight(scales.size(), look);
    if (painter)
        paintScoreRows(*painter, QRectF(left, y, std::min(measure, look.px(420)), high), scales,
                       tasting::meansOf(scales, scoresOf(m_sheet.tastings)), m_sheet.rings, true, look);
    y += high + look.px(12);
    auto legend = m_sheet.tastings.size() == 1 ? u"one taster"_s
                                               : u"mean of %1 tastings"_s.arg(m_sheet.tastings.size());
    if (!m_sheet.ringsOf.isEmpty()) legend += u"; ring: %1"_s.arg(m_sheet.ringsOf);
    label(legend, Type::Caption, Token::Ink3);
    y += look.px(20);
    m_boxes.clear();
    for (const auto& tasting : m_sheet.tastings) {
        const double top = y;
        const QRectF from(left, y, measure, 0);
        const bool chosen = painter && hasFocus() && static_cast<int>(m_boxes.size()) == m_current;
        if (painter) {
            painter->setPen(look.pen(Token::Rule, 1));
            painter->drawLine(QPointF(left, y), QPointF(left + measure, y));
        }
        const double tall = layOutOne(nullptr, tasting, from);
        const QRectF box(left - look.px(8), top + look.px(3), measure + look.px(16), tall - look.px(6));
        if (chosen) {
            painter->fillRect(box, look.color(Token::IntentSoft));
            paintFocusFrame(*painter, box.adjusted(2, 2, -2, -2), look);
        }
        if (painter) layOutOne(painter, tasting, from);
        m_boxes.push_back(box);
        y += tall;
    }
    label(u"↑ ↓ choose, Enter corrects, P photos"_s, Type::Caption, Token::Ink3);
    return y + look.px(16);
}

double TastingList::layOutOne(QPainter* painter, const TastingEntry& tasting, const QRectF& from) const {
    const auto& look = Theme::current().look();
    const double left = from.left();
    // One column for all initials; the longest decide, up to a third.
    double indent = look.px(44);
    for (const auto& each : m_sheet.tastings)
        indent = std::max(indent, verdictSize(each.initials, look).width() + look.px(12));
    indent = std::min(indent, from.width() / 3);
    const double measure = from.width() - indent;
    double y = from.top() + look.px(10);
    const auto paragraph = [&](const QString& text, Type type, Token token) {
        if (text.isEmpty()) return;
        y += painter ? drawParagraph(*painter, QPointF(left + indent, y), measure, text, type, token, look)
                     : paragraphHeight(text, type, look, measure);
    };
    if (painter)
        paintVerdict(*painter, QPointF(left, y),
                     elided(tasting.initials, Type::Heading, look, indent - look.px(8)), tasting.verdict,
                     look);
    auto when = tasting.when;
    if (!tasting.circumstances.isEmpty()) when += u" · "_s + tasting.circumstances;
    if (tasting.said.amends) when += u" · corrected"_s;
    paragraph(when, Type::Caption, Token::Ink3);
    paragraph(scoresInWords(tasting.scores, m_sheet.shownScales), Type::Caption, Token::Ink2);
    y += look.px(4);
    paragraph(shownNote(tasting.note), Type::Body, Token::Ink);
    if (!tasting.tryNext.isEmpty())
        paragraph(u"try next: %1"_s.arg(tasting.tryNext), Type::Reason, Token::Ink2);
    if (!tasting.photos.empty()) {
        y += look.px(5);
        if (painter) paintPhotos(*painter, QPointF(left + indent, y), measure, tasting.photos, look);
        y += look.px(kPhotoHigh);
    }
    // Initials with their mark are taller than a line of when.
    y = std::max(y, from.top() + look.px(10) + verdictSize(tasting.initials, look).height());
    return y + look.px(12) - from.top();
}

void TastingList::choose(int index) {
    const int count = static_cast<int>(m_sheet.tastings.size());
    m_current = count == 0 ? -1 : std::clamp(index, 0, count - 1);
    if (m_current >= 0 && static_cast<std::size_t>(m_current) < m_boxes.size())
        Q_EMIT boxMoved(m_boxes[static_cast<std::size_t>(m_current)].toAlignedRect());
    valuesChanged();
}

void TastingList::focusInEvent(QFocusEvent* event) {
    PlotWidget::focusInEvent(event);
    if (m_current < 0 && event->reason() != Qt::MouseFocusReason) choose(0);
}

void TastingList::keyPressEvent(QKeyEvent* event) {
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (m_sheet.tastings.empty() || event->modifiers() & ~Qt::KeypadModifier) {
        PlotWidget::keyPressEvent(event);
    } else if (event->key() == Qt::Key_Down) {
        choose(m_current + 1);
    } else if (event->key() == Qt::Key_Up) {
        choose(std::max(0, m_current - 1));
    } else if (enter && m_current >= 0) {
        Q_EMIT correctionAsked(static_cast<std::size_t>(m_current));
    } else if (event->key() == Qt::Key_P && m_current >= 0) {
        Q_EMIT photosAsked(static_cast<std::size_t>(m_current));
    } else {
        PlotWidget::keyPressEvent(event);
    }
}

int TastingList::tastingAt(QPointF point) const {
    for (std::size_t i = 0; i < m_boxes.size(); ++i)
        if (m_boxes[i].contains(point)) return static_cast<int>(i);
    return -1;
}

void TastingList::mousePressEvent(QMouseEvent* event) {
    PlotWidget::mousePressEvent(event);
    if (const int at = tastingAt(event->position()); at >= 0) choose(at);
}

void TastingList::mouseDoubleClickEvent(QMouseEvent* event) {
    if (const int at = tastingAt(event->position()); at >= 0)
        Q_EMIT correctionAsked(static_cast<std::size_t>(at));
}

void TastingList::paint(QPainter& painter) {
    painter.setRenderHint(QPainter::Antialiasing);
    layOut(&painter, width());
}

QString TastingList::words() const {
    if (m_sheet.tastings.empty()) return u"Nobody has tasted %1 yet."_s.arg(m_sheet.revision);
    QStringList parts;
    for (const auto& tasting : m_sheet.tastings) {
        const auto photos = tasting.photos.empty()       ? QString()
                            : tasting.photos.size() == 1 ? u"a photo"_s
                                                         : QString(u"%1 photos"_s.arg(tasting.photos.size()));
        QStringList one{verdictWords(tasting.initials, tasting.verdict),
                        scoresInWords(tasting.scores, m_sheet.shownScales), tasting.note, photos};
        one.removeAll(QString());
        parts << one.join(u". "_s) + u'.';
    }
    return parts.join(u' ');
}

QList<QStringList> TastingList::rows() const {
    QStringList head{u"taster"_s, u"when"_s, u"verdict"_s};
    for (const auto& scale : m_sheet.shownScales)
        head << fromCore(scale.name);
    head << u"circumstances"_s << u"note"_s << u"try next"_s;
    QList<QStringList> rows{head};
    for (const auto& tasting : m_sheet.tastings) {
        QStringList row{tasting.initials, tasting.when,
                        QString::fromStdString(std::string(tasting::verdictId(tasting.verdict)))};
        for (const auto& scale : m_sheet.shownScales) {
            const auto score = tasting.scores.of(scale.id);
            row << (score && score->kind == scale.kind ? QString::number(score->value) : QString());
        }
        rows << row + QStringList{tasting.circumstances, tasting.note, tasting.tryNext};
    }
    return rows;
}

} // namespace stillroom::ui
