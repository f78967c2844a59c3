#include "ui/widgets/readings_table.h"

#include "ui/delegates/paint_text.h"
#include "ui/delegates/readings_delegate.h"
#include "ui/theme/theme.h"

#include <QClipboard>
#include <QEvent>
#include <QGuiApplication>
#include <QHeaderView>
#include <QKeyEvent>
#include <QPainter>

namespace stillroom::ui {

namespace {

class StageHeader : public QHeaderView {
  public:
    explicit StageHeader(QWidget* parent) : QHeaderView(Qt::Horizontal, parent) {
        setSectionsClickable(false);
        setHighlightSections(false);
        setSectionResizeMode(QHeaderView::Fixed);
        setMinimumSectionSize(1);
    }
    QSize sizeHint() const override { return {0, Theme::current().pxInt(24)}; }

  protected:
    void paintSection(QPainter* painter, const QRect& rect, int section) const override {
        const Look& look = Theme::current().look();
        const QRectF box = rect;
        const bool served = section == ReadingsModel::Served;
        painter->fillRect(box, look.color(served ? Token::Well : Token::Page));
        painter->fillRect(QRectF(box.left(), box.bottom() - look.px(1), box.width(), look.px(1)),
                          look.color(Token::RuleStrong));
        QFont font = look.font(section == ReadingsModel::Since ? Type::Caption : Type::Control);
        font.setBold(served);
        const QString text = model()->headerData(section, orientation()).toString();
        if (textWidth(text, font) > box.width() - look.px(8)) {
            font = look.font(Type::Caption);
            font.setBold(served);
        }
        paintText(*painter, box.adjusted(0, 0, -look.px(8), -look.px(2)), text, font,
                  look.color(served ? Token::Ink : Token::Ink2), Qt::AlignRight);
    }
};

} // namespace

ReadingsTable::ReadingsTable(QWidget* parent) : QTableView(parent), m_model(new ReadingsModel(this)) {
    setAccessibleName(tr("Readings"));
    setHorizontalHeader(new StageHeader(this));
    setModel(m_model);
    setItemDelegate(new ReadingsDelegate(this));
    verticalHeader()->hide();
    verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    verticalHeader()->setMinimumSectionSize(1);
    setShowGrid(false);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setSelectionMode(QAbstractItemView::NoSelection);
    setEditTriggers(QAbstractItemView::NoEditTriggers);
    setCornerButtonEnabled(false);
    connect(m_model, &QAbstractItemModel::modelReset, this, &ReadingsTable::fit);
    connect(this, &QAbstractItemView::doubleClicked, this, &ReadingsTable::workingAsked);
    fit();
}

void ReadingsTable::fit() {
    const auto& theme = Theme::current();
    const int row = theme.pxInt(25);
    verticalHeader()->setDefaultSectionSize(row);
    setFixedHeight(horizontalHeader()->sizeHint().height() + row * std::max(11, m_model->rowCount()));
    // Name and unit keep their width; the numbers share the rest up to a width the eye still follows.
    const int whole = viewport()->width();
    const bool narrow = whole < theme.pxInt(126 + 76 + 4 * 62); // the shelf open in a small window
    const int name = theme.pxInt(narrow ? 118 : 126);
    const int unit = theme.pxInt(narrow ? 57 : 76);
    const int rest = whole - name - unit;
    const int column = std::clamp(rest / 4, theme.pxInt(narrow ? 52 : 62), theme.pxInt(96));
    setColumnWidth(ReadingsModel::Name, name);
    setColumnWidth(ReadingsModel::Unit, unit);
    for (int i = ReadingsModel::Measured; i <= ReadingsModel::Served; ++i)
        setColumnWidth(i, narrow ? std::min(column, theme.pxInt(54)) : column);
    setColumnWidth(ReadingsModel::Since,
                   narrow ? std::max(column, rest - 3 * std::min(column, theme.pxInt(54))) : column);
    Q_EMIT columnsMoved();
}

QRectF ReadingsTable::stageBox(spec::Stage stage) const {
    const int column = ReadingsModel::Measured + static_cast<int>(stage);
    return QRectF(columnViewportPosition(column), 0, columnWidth(column), height());
}

int ReadingsTable::readingRow() const {
    if (currentIndex().isValid()) return currentIndex().row();
    for (int row = 0; row < m_model->rowCount(); ++row)
        if (m_model->row(row).quantity == spec::Quantity::Strength) return row;
    return 0;
}

spec::Stage ReadingsTable::readingStage() const {
    const int column = currentIndex().column();
    const bool stage = column >= ReadingsModel::Measured && column <= ReadingsModel::Served;
    return stage ? ReadingsModel::stageOf(column) : spec::Stage::Served;
}

QString ReadingsTable::readingText() const {
    if (m_model->rowCount() == 0) return {};
    const auto& row = m_model->row(readingRow());
    const QString figure = row.stages[static_cast<std::size_t>(readingStage())].plain();
    return row.unit.isEmpty() ? figure : QString(figure + kNarrowSpace + row.unit);
}

void ReadingsTable::keyPressEvent(QKeyEvent* event) {
    if (event->matches(QKeySequence::Copy))
        QGuiApplication::clipboard()->setText(readingText());
    else if (event->key() == Qt::Key_Space && event->modifiers() == Qt::NoModifier)
        Q_EMIT workingAsked();
    else
        QTableView::keyPressEvent(event);
}

// The first visit stands on the strength as served.
void ReadingsTable::focusInEvent(QFocusEvent* event) {
    if (!currentIndex().isValid() && m_model->rowCount() > 0)
        setCurrentIndex(m_model->index(readingRow(), ReadingsModel::Served));
    QTableView::focusInEvent(event);
}

void ReadingsTable::currentChanged(const QModelIndex& current, const QModelIndex& previous) {
    QTableView::currentChanged(current, previous);
    Q_EMIT cellMoved();
}

void ReadingsTable::resizeEvent(QResizeEvent* event) {
    QTableView::resizeEvent(event);
    fit();
}

void ReadingsTable::changeEvent(QEvent* event) {
    QTableView::changeEvent(event);
    if (event->type() == QEvent::StyleChange) fit();
}

} // namespace stillroom::ui
