#pragma once

#include <QStyledItemDelegate>
#include <QTableView>

namespace stillroom::ui {

// What a cell of an entry table says of itself, beside its text.
enum EntryRole {
    UnreadableRole = Qt::UserRole + 1, // what was typed is no figure: framed, kept as typed
    GapRole,                           // not known, and asked for
    QuietRole,                         // computed or explained, not typed
    HandRole,                          // written by a person
    ChoicesRole,                       // a list of words to choose from
    ChangedRole,                       // differs from what is stored
    DoubtRole, // hard to believe: marked; the words stand elsewhere and in the description
};

// A small table one types into, as high as its rows: the page scrolls, it never does. Enter accepts what is
// pending, or opens the cell; Esc leaves it. Tab goes on to what follows the table.
class EntryTable : public QTableView {
    Q_OBJECT

  public:
    explicit EntryTable(QWidget* parent = nullptr);

    void setModel(QAbstractItemModel* model) override;
    void setWidths(std::vector<int> at100, int stretching);
    // What is folded away where there is no room for all, the first one first.
    void setSparable(std::vector<int> columns);
    bool isEditing() const { return state() == EditingState; }

  Q_SIGNALS:
    void acceptAsked();
    void leaveAsked();
    void removeAsked(int row);
    void typing(const QModelIndex& index, const QString& text); // with every key, before it is taken
    void typingEnded();

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void closeEditor(QWidget* editor, QAbstractItemDelegate::EndEditHint hint) override;
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

  private:
    void fit();
    void dress();
    std::vector<int> m_widths;
    std::vector<int> m_sparable;
    int m_stretching = 0;
};

class EntryDelegate : public QStyledItemDelegate {
    Q_OBJECT

  public:
    using QStyledItemDelegate::QStyledItemDelegate;
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const override;
    void setEditorData(QWidget* editor, const QModelIndex& index) const override;
    void setModelData(QWidget* editor, QAbstractItemModel* model, const QModelIndex& index) const override;
    void updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                              const QModelIndex& index) const override;
};

} // namespace stillroom::ui
