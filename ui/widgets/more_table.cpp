#include "ui/widgets/more_table.h"

#include "ui/delegates/paint_text.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"
#include "ui/widgets/readings_table.h"

#include <QClipboard>
#include <QEvent>
#include <QGuiApplication>
#include <QHeaderView>
#include <QKeyEvent>
#include <QPainter>
#include <QStyledItemDelegate>

namespace stillroom::ui {

namespace {

using Kind = MoreModel::Kind;

class MoreDelegate : public QStyledItemDelegate {
  public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override {
        const auto& row = static_cast<const MoreModel*>(index.model())->row(index.row());
        const Look& look = Theme::current().look();
        const QRectF box = option.rect;
        const bool served = index.column() == MoreModel::Served;
        painter->fillRect(box, look.color(served && row.kind == Kind::Reading ? Token::Well : Token::Page));
        if (row.kind != Kind::Reading)
            paintWords(*painter, box, row, look);
        else if (index.column() == MoreModel::Name)
            paintText(*painter, box.adjusted(look.px(16), 0, 0, 0), row.name, look.font(Type::Reading),
                      look.color(Token::Ink));
        else if (index.column() == MoreModel::Unit)
            paintText(*painter, box, row.unit, look.font(Type::Unit), look.color(Token::Ink3));
        else
            paintNumber(*painter, box, row, index.column(), look);
        if (option.state.testFlag(QStyle::State_HasFocus) && option.widget && option.widget->hasFocus())
            paintFocusFrame(*painter, box.adjusted(look.px(3), look.px(3), -look.px(3), -look.px(3)), look);
    }

  private:
    static void paintWords(QPainter& painter, const QRectF& box, const MoreModel::Row& row,
                           const Look& look) {
        const bool heading = row.kind == Kind::Heading;
        if (heading)
            painter.fillRect(QRectF(box.left(), box.top(), box.width(), look.px(1)), look.color(Token::Rule));
        paintText(painter, box.adjusted(look.px(heading ? 16 : 26), heading ? look.px(4) : -look.px(3), 0, 0),
                  row.name, look.font(heading ? Type::Control : Type::Caption), look.color(Token::Ink2));
    }
    static void paintNumber(QPainter& painter, const QRectF& box, const MoreModel::Row& row, int column,
                            const Look& look) {
        ReadingPaint how;
        how.font = look.font(column == MoreModel::Served ? Type::ReadingServed : Type::Reading);
        how.ink = look.color(Token::Ink);
        how.changedInk = how.ink;
        paintReading(painter, box.adjusted(look.px(4), 0, -look.px(8), 0),
                     row.stages[static_cast<std::size_t>(column - MoreModel::Measured)], how, look);
    }
};

} // namespace

MoreTable::MoreTable(QWidget* parent) : QTableView(parent), m_model(new MoreModel(this)) {
    setAccessibleName(tr("Further readings"));
    setModel(m_model);
    setItemDelegate(new MoreDelegate(this));
    horizontalHeader()->hide();
    horizontalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    horizontalHeader()->setMinimumSectionSize(1);
    verticalHeader()->hide();
    verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    verticalHeader()->setMinimumSectionSize(1);
    setShowGrid(false);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    setSelectionMode(QAbstractItemView::NoSelection);
    setEditTriggers(QAbstractItemView::NoEditTriggers);
    setCornerButtonEnabled(false);
    connect(m_model, &QAbstractItemModel::modelReset, this, &MoreTable::fit);
    connect(this, &QAbstractItemView::doubleClicked, this, &MoreTable::workingAsked);
}

void MoreTable::fit() {
    const auto& theme = Theme::current();
    clearSpans();
    for (int row = 0; row < m_model->rowCount(); ++row) {
        const Kind kind = m_model->row(row).kind;
        setRowHeight(row, theme.pxInt(kind == Kind::Reading ? 24 : kind == Kind::Note ? 17 : 28));
        if (kind != Kind::Reading) setSpan(row, 0, 1, MoreModel::ColumnCount);
    }
    auto page = palette();
    page.setColor(QPalette::Base, theme.color(Token::Page));
    setPalette(page);
}

void MoreTable::standUnder(const ReadingsTable& grid) {
    for (int column = 0; column < MoreModel::ColumnCount; ++column)
        setColumnWidth(column, grid.columnWidth(column));
}

int MoreTable::readingRow() const {
    if (currentIndex().isValid()) return currentIndex().row();
    for (int row = 0; row < m_model->rowCount(); ++row)
        if (m_model->row(row).kind == Kind::Reading) return row;
    return 0;
}

spec::Stage MoreTable::readingStage() const {
    const int column = currentIndex().column();
    return column >= MoreModel::Measured ? static_cast<spec::Stage>(column - MoreModel::Measured)
                                         : spec::Stage::Served;
}

QString MoreTable::readingText() const {
    if (m_model->rowCount() == 0) return {};
    const auto& row = m_model->row(readingRow());
    const QString figure = row.stages[static_cast<std::size_t>(readingStage())].plain();
    return row.unit.isEmpty() ? figure : QString(figure + kNarrowSpace + row.unit);
}

void MoreTable::keyPressEvent(QKeyEvent* event) {
    if (event->matches(QKeySequence::Copy))
        QGuiApplication::clipboard()->setText(readingText());
    else if (event->key() == Qt::Key_Space && event->modifiers() == Qt::NoModifier)
        Q_EMIT workingAsked();
    else
        QTableView::keyPressEvent(event);
}

void MoreTable::focusInEvent(QFocusEvent* event) {
    if (!currentIndex().isValid() && m_model->rowCount() > 0)
        setCurrentIndex(m_model->index(readingRow(), MoreModel::Served));
    QTableView::focusInEvent(event);
}

void MoreTable::currentChanged(const QModelIndex& current, const QModelIndex& previous) {
    QTableView::currentChanged(current, previous);
    Q_EMIT cellMoved();
}

void MoreTable::changeEvent(QEvent* event) {
    QTableView::changeEvent(event);
    if (event->type() == QEvent::StyleChange) fit();
}

} // namespace stillroom::ui
