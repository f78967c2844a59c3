#pragma once

#include <QTableView>

#include <vector>

namespace stillroom::ui {

class WrappedDelegate;

// A list of rows with one cell to type into. Letters are acts of the page; a digit begins a number; Enter
// opens the cell and, once it is typed, goes to the row below. Tab leaves the table.
class StockTable : public QTableView {
    Q_OBJECT

  public:
    explicit StockTable(int editColumn, QWidget* parent = nullptr);
    void setModel(QAbstractItemModel* model) override;
    // Of all columns but the first: pixels at 100 %, or, below 1, a share of the table.
    void setWidths(std::vector<double> widths);
    int currentRow() const { return currentIndex().row(); }
    void goTo(int row);

  Q_SIGNALS:
    void lettered(QChar letter);

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void closeEditor(QWidget* editor, QAbstractItemDelegate::EndEditHint hint) override;

  private:
    void typeAt(QKeyEvent* event);
    void fit();
    void fitRows();

    WrappedDelegate* m_delegate;
    int m_editColumn;
    std::vector<double> m_widths;
};

} // namespace stillroom::ui
