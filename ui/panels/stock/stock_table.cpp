#include "ui/panels/stock/stock_table.h"

#include "ui/delegates/wrapped_delegate.h"
#include "ui/theme/theme.h"

#include <QHeaderView>
#include <QKeyEvent>
#include <QPainter>

namespace stillroom::ui {

namespace {

constexpr int kMostLines = 3; // of a name; a fourth would be no name

} // namespace

StockTable::StockTable(int editColumn, QWidget* parent)
    : QTableView(parent),
      m_delegate(new WrappedDelegate(kMostLines, this)),
      m_editColumn(editColumn) {
    setItemDelegate(m_delegate);
    setFrameShape(QFrame::NoFrame);
    setShowGrid(false);
    setSelectionBehavior(SelectRows);
    setSelectionMode(SingleSelection);
    setTabKeyNavigation(false);
    setEditTriggers(EditKeyPressed | AnyKeyPressed | DoubleClicked);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollMode(ScrollPerPixel);
    verticalHeader()->hide();
    horizontalHeader()->setHighlightSections(false);
    horizontalHeader()->setSectionsClickable(false);
}

void StockTable::setModel(QAbstractItemModel* model) {
    QTableView::setModel(model);
    horizontalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    connect(model, &QAbstractItemModel::modelReset, this, &StockTable::fitRows);
    connect(model, &QAbstractItemModel::dataChanged, this, &StockTable::fitRows);
}

void StockTable::setWidths(std::vector<double> widths) {
    m_widths = std::move(widths);
    fit();
}

void StockTable::fit() {
    const auto& theme = Theme::current();
    horizontalHeader()->setFont(theme.font(Type::Caption));
    verticalHeader()->setMinimumSectionSize(theme.pxInt(26));
    verticalHeader()->setDefaultSectionSize(theme.pxInt(26));
    int left = viewport()->width();
    for (std::size_t i = 0; i < m_widths.size(); ++i) {
        const int width =
            m_widths[i] < 1 ? static_cast<int>(m_widths[i] * viewport()->width()) : theme.pxInt(m_widths[i]);
        setColumnWidth(static_cast<int>(i) + 1, width);
        left -= width;
    }
    setColumnWidth(0, std::max(left, theme.pxInt(60)));
    fitRows();
}

// A name too long for its column goes on below itself: it is what one looks for, and is not cut.
void StockTable::fitRows() {
    if (model() == nullptr) return;
    const int least = Theme::current().pxInt(26);
    for (int row = 0; row < model()->rowCount(); ++row) {
        int height = least;
        for (int column = 0; column < model()->columnCount(); ++column)
            height =
                std::max(height, m_delegate->heightFor(model()->index(row, column), columnWidth(column)));
        if (rowHeight(row) != height) setRowHeight(row, height);
    }
}

void StockTable::resizeEvent(QResizeEvent* event) {
    QTableView::resizeEvent(event);
    fit();
}

void StockTable::goTo(int row) {
    if (row < 0 || model() == nullptr || row >= model()->rowCount()) return;
    setCurrentIndex(model()->index(row, 0));
    scrollTo(currentIndex());
}

void StockTable::typeAt(QKeyEvent* event) {
    if (!currentIndex().isValid()) return;
    setCurrentIndex(model()->index(currentRow(), m_editColumn));
    if (event != nullptr)
        QTableView::keyPressEvent(event);
    else
        edit(currentIndex());
}

void StockTable::keyPressEvent(QKeyEvent* event) {
    const QString text = event->text();
    const bool plain = event->modifiers() == Qt::NoModifier || event->modifiers() == Qt::KeypadModifier;
    const bool letter = plain && !text.isEmpty() && text.at(0).isLetter();
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        // An editor lets its Enter through while it is handing over.
        if (event->modifiers().testFlag(Qt::ControlModifier) || state() == EditingState) {
            event->ignore();
            return;
        }
        typeAt(nullptr);
    } else if (letter) {
        if (currentIndex().isValid()) Q_EMIT lettered(text.at(0).toLower());
    } else if (plain && !text.isEmpty() && (text.at(0).isNumber() || text.at(0) == QLatin1Char('-'))) {
        typeAt(event);
    } else if (event->key() == Qt::Key_Delete || event->key() == Qt::Key_Backspace) {
        if (currentIndex().isValid()) model()->setData(model()->index(currentRow(), m_editColumn), QString());
    } else if (event->matches(QKeySequence::Undo) || event->matches(QKeySequence::Redo) ||
               event->key() == Qt::Key_Escape) {
        event->ignore(); // the page's
    } else {
        QTableView::keyPressEvent(event);
    }
}

void StockTable::closeEditor(QWidget* editor, QAbstractItemDelegate::EndEditHint hint) {
    const int row = currentRow();
    QTableView::closeEditor(editor, hint);
    if (hint == QAbstractItemDelegate::SubmitModelCache) goTo(std::min(row + 1, model()->rowCount() - 1));
}

void StockTable::focusInEvent(QFocusEvent* event) {
    QTableView::focusInEvent(event);
    if (!currentIndex().isValid()) goTo(0);
    viewport()->update();
}

void StockTable::paintEvent(QPaintEvent* event) {
    QTableView::paintEvent(event);
    if (!hasFocus() || !currentIndex().isValid()) return;
    QRect row = visualRect(model()->index(currentRow(), 0));
    row.setRight(viewport()->width() - 1);
    QPainter painter(viewport());
    const auto& look = Theme::current().look();
    painter.setPen(look.pen(Token::Focus, 2));
    const int inset = Theme::current().pxInt(1);
    painter.drawRect(row.adjusted(inset, inset, -inset, -inset));
}

} // namespace stillroom::ui
