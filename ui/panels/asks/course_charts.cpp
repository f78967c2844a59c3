#include "ui/panels/asks/course_charts.h"

#include "ui/plots/plot_text.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/theme/banner.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

#include <QPainter>

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

CourseCharts::CourseCharts(QWidget* parent) : PlotWidget(u"Scores along the trail"_s, parent) {
    connect(&Theme::current(), &Theme::changed, this, [this] { fit(); });
}

void CourseCharts::setValues(const AsksValues& values) {
    m_values = values;
    fit();
    valuesChanged();
}

void CourseCharts::fit() {
    setMinimumHeight(static_cast<int>(std::ceil(layOut(nullptr, width()))));
}

void CourseCharts::resizeEvent(QResizeEvent* event) {
    PlotWidget::resizeEvent(event);
    fit();
}

QSize CourseCharts::sizeHint() const {
    return {Theme::current().pxInt(480), minimumHeight()};
}

void CourseCharts::paintChart(QPainter& painter, const QRectF& box, std::size_t scale) const {
    const auto& look = Theme::current().look();
    const auto& course = m_values.course;
    const auto& definition = course.scales[scale];
    const int low = tasting::lowestScore(definition.kind);
    const int high = tasting::highestScore(definition.kind);
    drawLabel(painter, QPointF(box.left(), box.top() + look.px(9)), Stand::Left,
              elided(fromCore(definition.name), Type::Line, look, box.width() - look.px(36)), Type::Line,
              Token::Ink, look);
    const QRectF field(box.left() + look.px(10), box.top() + look.px(26), box.width() - look.px(46),
                       box.height() - look.px(48));
    const auto count = course.means.size();
    const auto x = [&](std::size_t at) {
        return count < 2
                   ? field.center().x()
                   : field.left() + field.width() * static_cast<double>(at) / static_cast<double>(count - 1);
    };
    const auto y = [&](double mean) { return field.bottom() - (mean - low) / (high - low) * field.height(); };
    painter.setPen(look.pen(Token::Rule, 1));
    painter.drawLine(QPointF(box.left(), field.bottom() + look.px(4)),
                     QPointF(field.right() + look.px(8), field.bottom() + look.px(4)));
    std::optional<std::size_t> last;
    for (std::size_t i = 0; i < count; ++i) {
        drawLabel(painter, QPointF(x(i), field.bottom() + look.px(13)), Stand::Centre,
                  m_values.stations[static_cast<qsizetype>(i)], Type::Axis, Token::Ink3, look);
        if (!course.means[i][scale]) continue;
        const QPointF here(x(i), y(course.means[i][scale]->mean));
        if (last) {
            // A step laid to one thing is a whole line.
            const auto step = std::find_if(course.steps.begin(), course.steps.end(), [&](const auto& each) {
                return each.from == *last && each.to == i;
            });
            const bool whole = step != course.steps.end() && !step->isMuddled() && !step->isOfOthers();
            painter.setPen(look.pen(Token::Ink2, 1.2, whole ? Qt::SolidLine : Qt::DashLine));
            painter.drawLine(QPointF(x(*last), y(course.means[*last][scale]->mean)), here);
        }
        last = i;
    }
    for (std::size_t i = 0; i < count; ++i) {
        if (!course.means[i][scale]) continue;
        const bool now = i + 1 == count;
        painter.setPen(look.pen(Token::Ink, 1.2));
        painter.setBrush(look.color(now ? Token::Page : Token::Ink));
        painter.drawEllipse(QPointF(x(i), y(course.means[i][scale]->mean)), look.px(3), look.px(3));
    }
    if (last)
        drawLabel(painter, QPointF(x(*last) + look.px(8), y(course.means[*last][scale]->mean)), Stand::Left,
                  number(course.means[*last][scale]->mean, 1), Type::Reading, Token::Ink, look);
}

double CourseCharts::layOut(QPainter* painter, double width) const {
    const auto& look = Theme::current().look();
    const double left = look.px(20);
    const double measure = width - look.px(40);
    double y = look.px(16);
    const auto paragraph = [&](const QString& text, Type type, Token token) {
        y += painter ? drawParagraph(*painter, QPointF(left, y), measure, text, type, token, look)
                     : paragraphHeight(text, type, look, measure);
    };
    paragraph(u"Scores along the trail, mean of whoever tasted"_s, Type::Heading, Token::Ink2);
    y += look.px(8);
    const auto& course = m_values.course;
    std::vector<std::size_t> scored; // a scale that nobody used has no chart
    for (std::size_t scale = 0; scale < course.scales.size(); ++scale)
        if (std::any_of(course.means.begin(), course.means.end(),
                        [scale](const auto& means) { return means[scale].has_value(); }))
            scored.push_back(scale);
    if (scored.empty()) {
        paragraph(u"No scores yet. They stand here as soon as two revisions were tasted."_s, Type::Body,
                  Token::Ink2);
        return y + look.px(16);
    }
    const int columns = std::max(1, static_cast<int>(measure / look.px(170)));
    const double wide = measure / columns;
    const double tall = look.px(104);
    for (std::size_t i = 0; i < scored.size(); ++i) {
        const auto column = static_cast<int>(i) % columns;
        const auto row = static_cast<int>(i) / columns;
        if (painter)
            paintChart(*painter,
                       QRectF(left + wide * column, y + tall * row, wide - look.px(14), tall - look.px(8)),
                       scored[i]);
    }
    y += tall * std::ceil(static_cast<double>(scored.size()) / columns) + look.px(4);
    paragraph(
        u"whole line: one thing changed, the same tasters; dashed: several, or none, or others tasted; open "
        "ring: the newest"_s,
        Type::Caption, Token::Ink3);
    y += look.px(12);
    for (const auto& step : m_values.steps) {
        if (step.muddled) {
            const BannerText text{step.between + u": "_s + step.changed + u'.', step.scores, {}};
            const double high = bannerHeight(measure, BannerKind::Caution, text, look);
            if (painter)
                paintBanner(*painter, QRectF(left, y, measure, high), BannerKind::Caution, text, look);
            y += high + look.px(8);
            continue;
        }
        paragraph(step.between + u": "_s + step.changed, Type::Control, Token::Ink);
        paragraph(step.scores, Type::Control, Token::Ink2);
        y += look.px(8);
    }
    return y + look.px(16);
}

void CourseCharts::paint(QPainter& painter) {
    painter.setRenderHint(QPainter::Antialiasing);
    layOut(&painter, width());
}

QString CourseCharts::words() const {
    if (m_values.steps.empty()) return u"No two revisions on this way were tasted yet."_s;
    QStringList parts;
    for (const auto& step : m_values.steps)
        parts << step.between + u": "_s + step.changed + u". "_s + step.scores;
    return parts.join(u". "_s);
}

QList<QStringList> CourseCharts::rows() const {
    QStringList head{u"revision"_s};
    for (const auto& scale : m_values.course.scales)
        head << fromCore(scale.name);
    QList<QStringList> rows{head};
    for (std::size_t i = 0; i < m_values.course.means.size(); ++i) {
        QStringList row{m_values.stations[static_cast<qsizetype>(i)]};
        for (const auto& mean : m_values.course.means[i])
            row << (mean ? number(mean->mean, 1) : QString());
        rows << row;
    }
    return rows;
}

} // namespace stillroom::ui
