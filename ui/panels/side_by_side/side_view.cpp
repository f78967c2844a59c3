#include "ui/panels/side_by_side/side_view.h"

#include "ui/panels/tasting/tasting_list.h"
#include "ui/plots/glass_drawing.h"
#include "ui/plots/plot_text.h"
#include "ui/text/border.h"
#include "ui/theme/theme.h"

#include <QKeyEvent>
#include <QPaintEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

constexpr double kHead = 34;
constexpr double kGlasses = 150;
constexpr double kInset = 14;

// Places inside a column: the number ends at one line, unit and difference begin at others, so that nothing
// moves when a digit does.
struct Places {
    double number, unit, difference, right;
};

Places placesIn(const SideLayout& layout, std::size_t column, const Look& look) {
    const double left = layout.columnX(column);
    const double width = layout.columnWidth;
    const double number = left + std::max(look.px(72), width * 0.36);
    return {number, number + look.px(6), left + width - std::max(look.px(70), width * 0.33),
            left + width - look.px(8)};
}

Token colorOf(SideChange change) {
    switch (change) {
    case SideChange::Up:
        return Token::ChangeUp;
    case SideChange::Down:
        return Token::ChangeDown;
    case SideChange::Other:
        return Token::Ink;
    case SideChange::None:
    case SideChange::Same:
        break;
    }
    return Token::Ink3;
}

double rowHeight(const SideRow& row, double columnWidth, const Look& look) {
    if (row.kind == SideRowKind::Line) return look.px(row.note.isEmpty() ? 28 : 36);
    if (row.kind == SideRowKind::Heading) return look.px(30);
    if (row.kind == SideRowKind::Reading) return look.px(25);
    double tallest = 0;
    for (const auto& cell : row.cells)
        tallest = std::max(
            tallest, paragraphHeight(cell.text, Type::Body, look, columnWidth - look.px(2 * kInset), 4));
    return std::max(look.px(26), tallest + look.px(8));
}

QString rowName(const SideRow& row) {
    if (row.kind == SideRowKind::Line && !row.note.isEmpty()) return row.name + u", "_s + row.note;
    return row.name;
}

void paintLineCell(QPainter& painter, const SideCell& cell, const Places& at, double y, const Look& look) {
    const auto box =
        drawLabel(painter, QPointF(at.number, y), Stand::Right, cell.number, Type::Amount, Token::Ink, look);
    drawLabel(painter, QPointF(box.left() - look.px(4), y), Stand::Right, cell.sign, Type::Reading,
              Token::Ink3, look);
    drawLabel(painter, QPointF(at.unit, y), Stand::Left, cell.unit, Type::Body, Token::Ink2, look,
              at.difference - at.unit - look.px(4));
}

void paintReadingCell(QPainter& painter, const SideCell& cell, const Places& at, double y, bool base,
                      const Look& look) {
    const auto type = base ? Type::ReadingServed : Type::Reading;
    const auto box = drawLabel(painter, QPointF(at.number, y), Stand::Right, cell.number, type,
                               cell.gap && cell.number == u"?"_s ? Token::Gap : Token::Ink, look);
    if (!cell.sign.isEmpty())
        drawLabel(painter, QPointF(box.left() - look.px(4), y), Stand::Right, cell.sign, type,
                  cell.gap ? Token::Gap : Token::Ink3, look);
    if (cell.gap)
        paintGapUnderline(painter, box.left() - (cell.sign.isEmpty() ? 0 : look.px(14)), box.right(),
                          box.bottom() - look.px(1), look);
    drawLabel(painter, QPointF(at.unit, y), Stand::Left, cell.unit, Type::Unit, Token::Ink2, look,
              at.difference - at.unit - look.px(4));
}

void paintRow(QPainter& painter, const SideBySideValues& values, const SideRow& row, const SideLayout& layout,
              double top, double height, const Look& look) {
    const double y = top + (row.kind == SideRowKind::Words ? look.px(14) : height / 2);
    const double nameRoom = layout.nameWidth - look.px(kInset + 8);
    if (row.kind == SideRowKind::Heading) {
        drawLabel(painter, QPointF(look.px(kInset), top + height - look.px(10)), Stand::Left, row.name,
                  Type::Heading, Token::Ink2, look, nameRoom);
        return;
    }
    if (row.kind == SideRowKind::Line && textWidth(rowName(row), Type::Line, look) > nameRoom &&
        !row.note.isEmpty()) {
        drawLabel(painter, QPointF(look.px(kInset), y - look.px(6)), Stand::Left, row.name, Type::Line,
                  Token::Ink, look, nameRoom);
        drawLabel(painter, QPointF(look.px(kInset), y + look.px(9)), Stand::Left, row.note, Type::Caption,
                  Token::Ink2, look, nameRoom);
    } else if (row.kind == SideRowKind::Line)
        drawLabel(painter, QPointF(look.px(kInset), y), Stand::Left, rowName(row), Type::Line, Token::Ink,
                  look, nameRoom);
    else {
        const auto type = row.kind == SideRowKind::Reading ? Type::Reading : Type::Caption;
        const auto box =
            drawLabel(painter, QPointF(look.px(kInset), y), Stand::Left, row.name, type,
                      row.kind == SideRowKind::Reading ? Token::Ink : Token::Ink3, look, nameRoom);
        drawLabel(painter, QPointF(box.right() + look.px(5), y), Stand::Left, row.note, Type::Unit,
                  Token::Ink3, look);
    }
    for (std::size_t column = 0; column < row.cells.size(); ++column) {
        const auto& cell = row.cells[column];
        const auto at = placesIn(layout, column, look);
        if (row.kind == SideRowKind::Words) {
            const bool same = cell.change == SideChange::Same;
            const QPointF corner(layout.columnX(column) + look.px(kInset), top + look.px(4));
            if (same)
                drawLabel(painter, corner + QPointF(0, look.px(10)), Stand::Left, cell.text, Type::Unit,
                          Token::Ink3, look);
            else
                drawParagraph(painter, corner, layout.columnWidth - look.px(2 * kInset), cell.text,
                              Type::Body, Token::Ink, look, 4);
            continue;
        }
        if (row.kind == SideRowKind::Line)
            paintLineCell(painter, cell, at, y, look);
        else
            paintReadingCell(painter, cell, at, y, column == values.base, look);
        const bool changed = cell.change == SideChange::Up || cell.change == SideChange::Down;
        const auto box = drawLabel(painter, QPointF(at.difference, y), Stand::Left, cell.difference,
                                   changed ? Type::Delta : Type::Unit, colorOf(cell.change), look,
                                   at.right - at.difference);
        if (cell.openDifference)
            paintGapUnderline(painter, box.left(), box.right(), box.bottom() - look.px(1), look);
    }
}

void paintHead(QPainter& painter, const SideBySideValues& values, const SideLayout& layout,
               const Look& look) {
    for (std::size_t column = 0; column < values.columns.size(); ++column) {
        const auto& of = values.columns[column];
        const double left = layout.columnX(column);
        const double y = look.px(kHead / 2);
        paintStateMark(painter, QPointF(left + look.px(kInset + 7), y), of.state, look,
                       look.color(Token::Ink));
        const double right = left + layout.columnWidth - look.px(10);
        const bool isBase = column == values.base && values.columns.size() > 1;
        const double date = textWidth(of.date, Type::Caption, look);
        const double spare = right - left - look.px(kInset + 22);
        const QString wide = u"others are read against this"_s;
        const double label = std::min(textWidth(of.label, Type::ReadingServed, look), spare);
        const bool roomForAll = label + date + textWidth(wide, Type::Caption, look) + look.px(30) < spare;
        const QString base = !isBase ? QString() : roomForAll ? wide : u"base"_s;
        const double kept = base.isEmpty() ? 0 : textWidth(base, Type::Caption, look) + look.px(8);
        drawLabel(painter, QPointF(right, y), Stand::Right, base, Type::Caption, Token::Ink2, look);
        const bool roomForDate = label + date + look.px(8) + kept <= spare;
        const auto box = drawLabel(painter, QPointF(left + look.px(kInset + 22), y), Stand::Left, of.label,
                                   Type::ReadingServed, Token::Ink, look, spare - kept);
        if (roomForDate)
            drawLabel(painter, QPointF(box.right() + look.px(8), y), Stand::Left, of.date, Type::Caption,
                      Token::Ink3, look);
    }
}

// One scale for all: the smallest at which the largest glass fits.
double commonDenominator(const SideBySideValues& values, QSizeF size, const Look& look) {
    double denominator = 0.5;
    for (const auto& column : values.columns)
        denominator =
            std::max(denominator, column.glass.filling.glassKnown
                                      ? denominatorFor(shapeOf(column.glass.filling.glass), size, true, look)
                                      : 2.0);
    return denominator;
}

void paintGlasses(QPainter& painter, const SideBySideValues& values, const SideLayout& layout,
                  const Look& look) {
    const QSizeF size(layout.columnWidth, layout.glassHeight);
    const double denominator = commonDenominator(values, size, look);
    for (std::size_t column = 0; column < values.columns.size(); ++column) {
        auto glass = values.columns[column].glass;
        glass.compact = true;
        glass.denominator = denominator;
        paintGlass(painter, QRectF(QPointF(layout.columnX(column), layout.glassTop), size), glass, look);
    }
    drawParagraph(painter, QPointF(look.px(kInset), layout.glassTop + layout.glassHeight - look.px(46)),
                  layout.nameWidth - look.px(2 * kInset),
                  u"glasses at one scale, 1\u202f:\u202f%1; fill as a share of the brim"_s.arg(
                      QString::number(denominator)),
                  Type::Caption, Token::Ink3, look, 3);
}

tasting::ScoreMeans meansOf(const SideBySideValues& values, const SideColumn& column) {
    return tasting::meansOf(values.scales, scoresOf(column.tastings));
}

void paintScores(QPainter& painter, const SideBySideValues& values, const SideLayout& layout,
                 const Look& look) {
    const auto base = meansOf(values, values.columns[values.base]);
    const double row = scoreRowsHeight(1, look);
    const double high = scoreRowsHeight(values.scales.size(), look);
    for (std::size_t scale = 0; scale < values.scales.size(); ++scale)
        drawLabel(painter,
                  QPointF(look.px(kInset), layout.scoresTop + row * (static_cast<double>(scale) + 0.5)),
                  Stand::Left,
                  elided(fromCore(values.scales[scale].name), Type::Line, look,
                         layout.nameWidth - look.px(2 * kInset)),
                  Type::Line, Token::Ink, look);
    drawParagraph(painter, QPointF(look.px(kInset), layout.scoresTop + high + look.px(2)),
                  layout.nameWidth - look.px(2 * kInset),
                  u"mean of the tasters; ring: %1"_s.arg(values.columns[values.base].label), Type::Caption,
                  Token::Ink3, look, 2);
    for (std::size_t column = 0; column < values.columns.size(); ++column) {
        const auto& of = values.columns[column];
        const double left = layout.columnX(column) + look.px(kInset);
        const double width = layout.columnWidth - look.px(2 * kInset);
        if (of.tastings.empty()) {
            drawParagraph(painter, QPointF(left, layout.scoresTop + look.px(20)), width,
                          of.state == StateMark::Draft ? u"Not tasted yet. Keep it first, then taste it."_s
                                                       : u"Nobody has tasted it yet."_s,
                          Type::Control, Token::Ink3, look, 3);
            continue;
        }
        paintScoreRows(painter, QRectF(left, layout.scoresTop, width, high), values.scales,
                       meansOf(values, of), column == values.base ? tasting::ScoreMeans{} : base, false,
                       look);
        verdictsAndNotes(&painter, QRectF(left, layout.notesTop, width, 0), of.tastings, look);
    }
    drawLabel(painter, QPointF(look.px(kInset), layout.notesTop + look.px(8)), Stand::Left,
              u"verdicts and notes"_s, Type::Caption, Token::Ink3, look);
}

void paintRules(QPainter& painter, const SideBySideValues& values, const SideTable& table,
                const SideLayout& layout, const Look& look) {
    const auto across = [&](double y, Token token, double width = 1) {
        painter.fillRect(QRectF(0, std::round(y), layout.width, std::max(1.0, std::round(look.px(width)))),
                         look.color(token));
    };
    across(layout.glassTop + layout.glassHeight, Token::RuleStrong);
    for (std::size_t i = 0; i < layout.shown.size(); ++i)
        if (const auto kind = table.rows[static_cast<std::size_t>(layout.shown[i])].kind;
            kind != SideRowKind::Reading && i + 1 < layout.shown.size())
            across(layout.tops[i] + layout.heights[i], Token::Rule);
    across(layout.readingsTop, Token::Ink);
    across(layout.scoresTop - look.px(8), Token::Ink);
    across(layout.notesTop - look.px(12), Token::Rule);
    for (std::size_t column = 0; column < values.columns.size(); ++column)
        painter.fillRect(QRectF(std::round(layout.columnX(column)), 0, std::max(1.0, std::round(look.px(1))),
                                layout.height),
                         look.color(Token::Rule));
}

} // namespace

SideLayout sideLayout(const SideBySideValues& values, const SideTable& table, double width,
                      bool onlyDifferences, const Look& look) {
    SideLayout layout;
    const auto columns = static_cast<double>(std::max<std::size_t>(1, values.columns.size()));
    double named = look.px(120);
    for (const auto& row : table.rows)
        named = std::max(named, textWidth(rowName(row), Type::Line, look) + look.px(kInset + 12));
    // Names give way before a column is pushed out of the window.
    layout.nameWidth =
        std::min(named, std::max(look.px(130), std::min(width * 0.24, width - columns * look.px(205))));
    layout.columnWidth = std::clamp((width - layout.nameWidth) / columns, look.px(205), look.px(440));
    layout.width = std::max(width, layout.nameWidth + layout.columnWidth * columns);
    layout.glassTop = look.px(kHead);
    layout.glassHeight = look.px(kGlasses);
    double y = layout.glassTop + layout.glassHeight;
    bool readings = false;
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const auto& row = table.rows[i];
        if ((row.kind == SideRowKind::Reading || row.kind == SideRowKind::Heading) && !readings) {
            readings = true;
            layout.readingsTop = y;
        }
        if (onlyDifferences && !row.differs) continue;
        layout.shown.push_back(static_cast<int>(i));
        layout.tops.push_back(y);
        layout.heights.push_back(rowHeight(row, layout.columnWidth, look));
        y += layout.heights.back();
    }
    if (!readings) layout.readingsTop = y;
    layout.scoresTop = y + look.px(14);
    layout.notesTop = layout.scoresTop + scoreRowsHeight(values.scales.size(), look) + look.px(44);
    double notes = look.px(24);
    for (const auto& column : values.columns)
        notes = std::max(notes,
                         verdictsAndNotes(nullptr, QRectF(0, 0, layout.columnWidth - look.px(2 * kInset), 0),
                                          column.tastings, look));
    layout.height = layout.notesTop + notes + look.px(16);
    return layout;
}

void paintSideBySide(QPainter& painter, const SideBySideValues& values, const SideTable& table,
                     const SideLayout& layout, const QRectF& visible, const Look& look) {
    if (values.columns.empty()) return;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(QRectF(layout.columnX(values.base), 0, layout.columnWidth, layout.height),
                     look.color(Token::Well));
    paintRules(painter, values, table, layout, look);
    paintHead(painter, values, layout, look);
    if (visible.top() < layout.glassTop + layout.glassHeight) paintGlasses(painter, values, layout, look);
    for (std::size_t i = 0; i < layout.shown.size(); ++i)
        if (layout.tops[i] < visible.bottom() && layout.tops[i] + layout.heights[i] > visible.top())
            paintRow(painter, values, table.rows[static_cast<std::size_t>(layout.shown[i])], layout,
                     layout.tops[i], layout.heights[i], look);
    if (visible.bottom() > layout.scoresTop) paintScores(painter, values, layout, look);
    painter.restore();
}

SideView::SideView(QWidget* parent) : PlotWidget(u"Side by side"_s, parent) {
    connect(&Theme::current(), &Theme::changed, this, [this] { layOut(); });
}

void SideView::setValues(const SideBySideValues& values) {
    m_values = values;
    m_table = sideTable(m_values);
    layOut();
    valuesChanged();
}

void SideView::setOnlyDifferences(bool only) {
    if (only == m_onlyDifferences) return;
    m_onlyDifferences = only;
    layOut();
    valuesChanged();
}

void SideView::setReading(history::Per per, std::optional<spec::Stage> stage) {
    if (per == m_values.per && stage == m_values.stage) return;
    m_values.per = per;
    m_values.stage = stage;
    m_table = sideTable(m_values);
    layOut();
    valuesChanged();
}

void SideView::layOut() {
    m_layout = sideLayout(m_values, m_table, width(), m_onlyDifferences, Theme::current().look());
    setMinimumHeight(static_cast<int>(std::ceil(m_layout.height)));
    const auto& look = Theme::current().look();
    setMinimumWidth(
        static_cast<int>(look.px(130) + look.px(205) * static_cast<double>(m_values.columns.size())));
    update();
}

void SideView::moveBase(std::size_t to) {
    if (to >= m_values.columns.size() || to == m_values.base) return;
    m_values.base = to;
    m_table = sideTable(m_values);
    layOut();
    valuesChanged();
    Q_EMIT baseMoved();
}

void SideView::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Left && m_values.base > 0)
        moveBase(m_values.base - 1);
    else if (event->key() == Qt::Key_Right)
        moveBase(m_values.base + 1);
    else
        PlotWidget::keyPressEvent(event);
}

void SideView::mousePressEvent(QMouseEvent* event) {
    if (event->position().y() > m_layout.glassTop) return;
    for (std::size_t column = 0; column < m_values.columns.size(); ++column)
        if (event->position().x() >= m_layout.columnX(column) &&
            event->position().x() < m_layout.columnX(column) + m_layout.columnWidth)
            moveBase(column);
}

void SideView::resizeEvent(QResizeEvent* event) {
    PlotWidget::resizeEvent(event);
    layOut();
}

void SideView::paintEvent(QPaintEvent* event) {
    m_visible = event->rect();
    PlotWidget::paintEvent(event);
}

void SideView::paint(QPainter& painter) {
    const auto& look = Theme::current().look();
    paintSideBySide(painter, m_values, m_table, m_layout, m_visible, look);
    if (hasFocus() && !m_values.columns.empty())
        paintFocusFrame(painter,
                        QRectF(m_layout.columnX(m_values.base), 0, m_layout.columnWidth, look.px(kHead))
                            .adjusted(look.px(4), look.px(4), -look.px(4), -look.px(4)),
                        look);
}

QString SideView::words() const {
    QStringList parts;
    if (!m_values.columns.empty()) parts << u"Read against %1."_s.arg(m_values.columns[m_values.base].label);
    for (const auto& finding : m_table.findings)
        parts << finding.fact << finding.consequence;
    for (const auto& row : m_table.rows) {
        if (!row.differs) continue;
        QStringList cells;
        for (std::size_t column = 0; column < row.cells.size(); ++column)
            cells << m_values.columns[column].label + u' ' +
                         (row.cells[column].text.isEmpty()
                              ? QString(row.cells[column].sign + row.cells[column].number + u' ' +
                                        row.cells[column].unit)
                              : row.cells[column].text);
        parts << rowName(row) + u": "_s + cells.join(u", "_s) + u'.';
    }
    return parts.join(u' ');
}

QList<QStringList> SideView::rows() const {
    return sideRows(m_values, m_table, m_onlyDifferences);
}

QSize SideView::sizeHint() const {
    return {Theme::current().pxInt(900), minimumHeight()};
}

} // namespace stillroom::ui
