#pragma once

#include "ui/delegates/spec_delegate.h"
#include "ui/models/spec_model.h"

#include <QTableView>

namespace stillroom::ui {

class CellEdit;

// The sheet's lines, typed into by keyboard alone: Enter to the next line, Tab to the next cell. Grows with
// its rows, so that the page scrolls and not the table.
class SpecTable : public QTableView {
    Q_OBJECT

  public:
    explicit SpecTable(QWidget* parent = nullptr);

    SpecModel& lines() { return *m_model; }
    SpecDelegate& cells() { return *m_delegate; }
    int currentLine() const; // −1: an open row, or none
    CellEdit* openEditor() const;

    // Each of these finishes what is being typed first.
    void insertLine();
    void deleteLine();
    void splitLine();
    void moveLine(int by);
    void setRole(spec::Role role);
    void toggleOptional();
    void chooseIngredient();
    void editCell(int row, int column);
    void editLastRow(const QString& text = {});
    bool finishEditing();
    // The first row from here on that lacks a fact; −1: none.
    int nextGapRow(int after) const;

  Q_SIGNALS:
    void currentLineChanged();

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;
    bool focusNextPrevChild(bool next) override;

  private:
    void onMove(CellEdit* editor, SpecDelegate::Move move);
    void onCancel(CellEdit* editor);
    void closeCell(CellEdit* editor);
    bool go(int row, int column, bool edit);
    bool goNext(int row, int column, bool forward, bool edit);
    void fit();
    void fitColumns();
    void spanOpenRows();

    SpecModel* m_model;
    SpecDelegate* m_delegate;
};

} // namespace stillroom::ui
