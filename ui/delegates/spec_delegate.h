#pragma once

#include "ui/models/spec_model.h"

#include <QStyledItemDelegate>

namespace stillroom::ui {

class CellEdit;

// Paints the cells of the sheet and opens them for typing. An amount takes effect with every key; a name or
// a whole line when it is finished.
class SpecDelegate : public QStyledItemDelegate {
    Q_OBJECT

  public:
    enum class Move { Stay, Down, Up, Next, Previous };

    explicit SpecDelegate(QObject* parent = nullptr);

    void setCurrentRow(int row) { m_currentRow = row; }

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const override;
    void setEditorData(QWidget* editor, const QModelIndex& index) const override;
    void setModelData(QWidget* editor, QAbstractItemModel* model, const QModelIndex& index) const override;
    void updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                              const QModelIndex& index) const override;
    bool eventFilter(QObject* object, QEvent* event) override;

    // What was typed enters the draft. False: it cannot yet; the editor stays open and says why.
    bool commit(CellEdit& editor) const;

  Q_SIGNALS:
    void moveAsked(stillroom::ui::CellEdit* editor, stillroom::ui::SpecDelegate::Move move) const;
    void cancelAsked(stillroom::ui::CellEdit* editor);
    // A line that needs a word before it enters, and one that is no line.
    void entryAsks(int row, const stillroom::ui::LineEntry& entry) const;
    void notALine(const QString& text) const;
    // What is being written, for the status line.
    void typing(const QString& hint) const;

  private:
    static SpecModel& modelOf(const QModelIndex& index);
    void typeAmount(CellEdit& editor) const;
    void step(CellEdit& editor, int direction) const;
    bool handleKey(CellEdit& editor, QKeyEvent& key);
    void paintAmount(QPainter& painter, const QRectF& box, const SheetRow& row) const;
    void paintName(QPainter& painter, const QRectF& box, const SheetRow& row) const;
    void paintMargin(QPainter& painter, const QRectF& box, const SheetRow& row) const;
    void paintColumn(QPainter& painter, const QRectF& box, const ReadingText& text) const;

    int m_currentRow = -1;
    mutable bool m_committing = false;
};

} // namespace stillroom::ui
