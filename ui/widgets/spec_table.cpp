#include "ui/widgets/spec_table.h"

#include "ui/theme/theme.h"
#include "ui/widgets/cell_edit.h"
#include "ui/widgets/spec_header.h"

#include <QKeyEvent>
#include <QMouseEvent>

namespace stillroom::ui {

SpecTable::SpecTable(QWidget* parent)
    : QTableView(parent),
      m_model(new SpecModel(this)),
      m_delegate(new SpecDelegate(this)) {
    setAccessibleName(tr("Lines of the spec"));
    setHorizontalHeader(new SpecHeader(this));
    setModel(m_model);
    setItemDelegate(m_delegate);
    verticalHeader()->hide();
    verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    verticalHeader()->setMinimumSectionSize(1);
    setShowGrid(false);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setTabKeyNavigation(false);
    setCornerButtonEnabled(false);
    setEditTriggers(QAbstractItemView::AnyKeyPressed | QAbstractItemView::DoubleClicked);
    connect(m_delegate, &SpecDelegate::moveAsked, this, &SpecTable::onMove);
    connect(m_delegate, &SpecDelegate::cancelAsked, this, &SpecTable::onCancel);
    connect(m_model, &QAbstractItemModel::rowsInserted, this, &SpecTable::fit);
    connect(m_model, &QAbstractItemModel::rowsRemoved, this, &SpecTable::fit);
    connect(m_model, &QAbstractItemModel::modelReset, this, &SpecTable::fit);
    fit();
}

int SpecTable::currentLine() const {
    return m_model->lineAt(currentIndex().row());
}

CellEdit* SpecTable::openEditor() const {
    for (auto* editor : viewport()->findChildren<CellEdit*>(Qt::FindDirectChildrenOnly))
        if (editor->isVisible() && editor->cell.isValid()) return editor;
    return nullptr;
}

bool SpecTable::finishEditing() {
    auto* editor = openEditor();
    if (editor == nullptr) return true;
    if (!m_delegate->commit(*editor)) return false;
    closeCell(editor);
    return true;
}

void SpecTable::closeCell(CellEdit* editor) {
    editor->cell = QPersistentModelIndex(); // from here on it only waits to be deleted
    closeEditor(editor, QAbstractItemDelegate::NoHint);
}

void SpecTable::editCell(int row, int column) {
    go(row, column, true);
}

void SpecTable::editLastRow(const QString& text) {
    go(m_model->rowCount() - 1, SpecModel::Amount, true);
    if (auto* editor = openEditor(); editor && !text.isEmpty()) editor->setText(text);
}

bool SpecTable::go(int row, int column, bool editing) {
    if (row < 0 || row >= m_model->rowCount()) return false;
    if (m_model->isOpenRow(row)) column = SpecModel::Amount;
    const auto index = m_model->index(row, column);
    setCurrentIndex(index);
    if (editing && (m_model->flags(index) & Qt::ItemIsEditable)) {
        if (auto* open = openEditor(); open && open->cell == index)
            open->setFocus();
        else
            edit(index);
        if (auto* editor = openEditor()) editor->selectAll();
    }
    return true;
}

bool SpecTable::goNext(int row, int column, bool forward, bool editing) {
    // Amount, then name, then the next line's amount.
    if (forward) {
        if (column < SpecModel::Name && !m_model->isOpenRow(row)) return go(row, SpecModel::Name, editing);
        return go(row + 1, SpecModel::Amount, editing);
    }
    if (column > SpecModel::Amount) return go(row, SpecModel::Amount, editing);
    return go(row - 1, SpecModel::Name, editing);
}

void SpecTable::onMove(CellEdit* editor, SpecDelegate::Move move) {
    using Move = SpecDelegate::Move;
    if (!editor->cell.isValid()) return;
    const int column = editor->cell.column();
    const bool wasOpen = m_model->isOpenRow(editor->cell.row());
    const bool wasInserted = wasOpen && editor->cell.row() == m_model->openedRow();
    const bool hadText = !editor->text().trimmed().isEmpty();
    const int rowBefore = editor->cell.row();
    if (!m_delegate->commit(*editor)) return;
    if (wasOpen && hadText) {
        // One line is written; the pen goes on to the next. The last row's editor goes down with its row.
        if (wasInserted) {
            go(std::min(rowBefore + 1, m_model->rowCount() - 1), SpecModel::Amount, true);
            return;
        }
        editor->clear();
        editor->setUnreadable(false);
        setCurrentIndex(editor->cell);
        return;
    }
    const int row = editor->cell.isValid() ? editor->cell.row() : rowBefore;
    closeCell(editor);
    if (wasInserted && !hadText) m_model->closeOpenedRow();
    switch (move) {
    case Move::Down:
        if (!go(row + 1, column, true)) setFocus();
        break;
    case Move::Up:
        go(row - 1, column, true);
        break;
    case Move::Next:
        if (!goNext(row, column, true, true)) {
            setFocus();
            QTableView::focusNextPrevChild(true);
        }
        break;
    case Move::Previous:
        if (!goNext(row, column, false, true)) {
            setFocus();
            QTableView::focusNextPrevChild(false);
        }
        break;
    case Move::Stay:
        break;
    }
}

void SpecTable::onCancel(CellEdit* editor) {
    if (!editor->cell.isValid()) return;
    const int row = editor->cell.row();
    const bool inserted = row == m_model->openedRow();
    if (!m_model->isOpenRow(row) && editor->cell.column() == SpecModel::Amount) {
        m_model->setAmount(row, editor->before, editor->mergeKey);
    } else if (m_model->isOpenRow(row) && !editor->text().isEmpty()) {
        editor->clear();
        editor->setUnreadable(false);
        return;
    }
    closeCell(editor);
    if (inserted) m_model->closeOpenedRow();
    setFocus();
}

void SpecTable::insertLine() {
    if (!finishEditing()) return;
    const int row = currentIndex().isValid() ? currentIndex().row() : m_model->rowCount() - 1;
    go(m_model->openRowAbove(row), SpecModel::Amount, true);
}

void SpecTable::deleteLine() {
    const int row = currentIndex().row();
    if (auto* editor = openEditor()) closeCell(editor);
    if (row == m_model->openedRow()) {
        m_model->closeOpenedRow();
        return;
    }
    m_model->removeLine(row);
    go(std::min(row, m_model->rowCount() - 1), SpecModel::Amount, false);
    setFocus();
}

void SpecTable::splitLine() {
    if (!finishEditing()) return;
    m_model->splitLine(currentIndex().row());
}

void SpecTable::moveLine(int by) {
    const auto* editor = openEditor();
    const bool editing = editor != nullptr;
    const int column = currentIndex().column();
    if (!finishEditing()) return;
    const int line = currentLine();
    if (m_model->moveLine(currentIndex().row(), by)) go(line + by, column, editing);
}

void SpecTable::setRole(spec::Role role) {
    if (!finishEditing()) return;
    m_model->setRole(currentIndex().row(), role);
    Q_EMIT currentLineChanged();
}

void SpecTable::toggleOptional() {
    if (!finishEditing()) return;
    m_model->toggleOptional(currentIndex().row());
    Q_EMIT currentLineChanged();
}

void SpecTable::chooseIngredient() {
    const int row = currentIndex().row();
    if (m_model->lineAt(row) < 0 || !finishEditing()) return;
    go(row, SpecModel::Name, true);
    if (auto* editor = openEditor()) {
        editor->keepsName = true;
        editor->showOffers(editor->text());
    }
}

int SpecTable::nextGapRow(int after) const {
    const int rows = m_model->rowCount();
    for (int step = 1; step <= rows; ++step) {
        const int row = (after + step) % rows;
        const auto* line = m_model->sheetRow(row);
        if (line != nullptr && line->gap) return row;
    }
    return -1;
}

void SpecTable::keyPressEvent(QKeyEvent* event) {
    const auto index = currentIndex();
    const auto modifiers = event->modifiers() & ~Qt::KeypadModifier;
    if (modifiers == Qt::NoModifier) {
        switch (event->key()) {
        case Qt::Key_Return:
        case Qt::Key_Enter:
            if (index.isValid()) go(index.row(), std::max<int>(index.column(), SpecModel::Amount), true);
            return;
        case Qt::Key_Delete:
        case Qt::Key_Backspace:
            if (m_model->lineAt(index.row()) >= 0 && index.column() == SpecModel::Role) deleteLine();
            return;
        default:
            break;
        }
    }
    QTableView::keyPressEvent(event);
}

void SpecTable::mouseReleaseEvent(QMouseEvent* event) {
    QTableView::mouseReleaseEvent(event);
    const auto index = indexAt(event->pos());
    if (index.isValid() && event->button() == Qt::LeftButton && state() != EditingState)
        go(index.row(), index.column(), true);
}

bool SpecTable::focusNextPrevChild(bool next) {
    const auto index = currentIndex();
    if (index.isValid() && hasFocus() && goNext(index.row(), index.column(), next, false)) return true;
    return QTableView::focusNextPrevChild(next);
}

void SpecTable::focusInEvent(QFocusEvent* event) {
    QTableView::focusInEvent(event);
    if (!currentIndex().isValid()) go(0, SpecModel::Amount, false);
}

void SpecTable::currentChanged(const QModelIndex& current, const QModelIndex& previous) {
    m_delegate->setCurrentRow(current.isValid() ? current.row() : -1);
    if (current.row() != previous.row()) {
        const auto updateRow = [this](int row) {
            if (row < 0 || row >= m_model->rowCount()) return;
            viewport()->update(0, rowViewportPosition(row), viewport()->width(), rowHeight(row));
        };
        updateRow(previous.row());
        updateRow(current.row());
    }
    QTableView::currentChanged(current, previous);
    Q_EMIT currentLineChanged();
}

void SpecTable::resizeEvent(QResizeEvent* event) {
    QTableView::resizeEvent(event);
    fitColumns();
}

void SpecTable::changeEvent(QEvent* event) {
    QTableView::changeEvent(event);
    if (event->type() == QEvent::StyleChange || event->type() == QEvent::FontChange) {
        finishEditing(); // an open cell was made for the old sizes
        fit();
        fitColumns();
    }
}

void SpecTable::fit() {
    const int row = Theme::current().pxInt(31);
    verticalHeader()->setDefaultSectionSize(row);
    setFixedHeight(horizontalHeader()->sizeHint().height() + row * m_model->rowCount());
    spanOpenRows();
    m_delegate->setCurrentRow(currentIndex().isValid() ? currentIndex().row() : -1);
}

// An open row is one field from amount to line.
void SpecTable::spanOpenRows() {
    clearSpans();
    const int rows = m_model->rowCount();
    if (rows == 0) return;
    setSpan(rows - 1, SpecModel::Amount, 1, 2);
    if (m_model->openedRow() >= 0) setSpan(m_model->openedRow(), SpecModel::Amount, 1, 2);
}

void SpecTable::fitColumns() {
    const auto& theme = Theme::current();
    const int width = viewport()->width();
    const auto px = [&](double at100) { return theme.pxInt(at100); };
    // A narrow sheet keeps amount, line, margin and one column; a wide one shows all.
    const bool narrow = width < px(520);
    const int columns[] = {px(40), px(98), 0, narrow ? 0 : px(44), narrow ? 0 : px(48), narrow ? 0 : px(50),
                           px(46), px(88)};
    int fixed = 0;
    for (const int column : columns)
        fixed += column;
    for (int i = 0; i < SpecModel::ColumnCount; ++i) {
        const int size = i == SpecModel::Name ? std::max(px(80), width - fixed) : columns[i];
        setColumnHidden(i, size == 0);
        if (size > 0) setColumnWidth(i, size);
    }
}

} // namespace stillroom::ui
