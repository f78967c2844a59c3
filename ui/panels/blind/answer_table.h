#pragma once

#include <QTableView>

namespace stillroom::ui {

class AnswerModel;

// Answers entered by keyboard as they stand on the sheets. A digit sets the mark and goes on: to the next
// cup, after the last to the next taster. Where one cup is chosen, 1, 2, 3 choose it by its place and Space
// chooses the one in hand. Backspace takes a mark back; Enter goes to the next taster; typing in the note
// writes.
class AnswerTable : public QTableView {
    Q_OBJECT

  public:
    explicit AnswerTable(AnswerModel& model, QWidget* parent = nullptr);

    void goTo(int row, int column = 1);
    // As high as all its rows, for a page that scrolls; else it scrolls itself.
    void setWhole(bool whole);
    void fit();

  Q_SIGNALS:
    void refused(const QString& why);

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void closeEditor(QWidget* editor, QAbstractItemDelegate::EndEditHint hint) override;

  private:
    void typeDigit(int digit);
    void goOn();
    void goDown();
    void takeBack();

    AnswerModel& m_model;
    bool m_whole = false;
    bool m_typing = false; // a first digit of this cell was typed since it was reached
};

} // namespace stillroom::ui
