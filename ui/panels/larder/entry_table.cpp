#include "ui/panels/larder/entry_table.h"

#include "ui/delegates/paint_text.h"
#include "ui/panels/larder/inset_header.h"
#include "ui/plots/plot_text.h"
#include "ui/theme/caution_mark.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"
#include "ui/widgets/cell_edit.h"

#include <QComboBox>
#include <QHeaderView>
#include <QKeyEvent>
#include <QPainter>

#include <numeric>

namespace stillroom::ui {

EntryTable::EntryTable(QWidget* parent) : QTableView(parent) {
    setFrameShape(QFrame::NoFrame);
    setShowGrid(false);
    setWordWrap(false);
    setItemDelegate(new EntryDelegate(this));
    setSelectionMode(QAbstractItemView::SingleSelection);
    setEditTriggers(QAbstractItemView::AnyKeyPressed | QAbstractItemView::DoubleClicked |
                    QAbstractItemView::EditKeyPressed);
    setTabKeyNavigation(false);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
    verticalHeader()->hide();
    verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    setHorizontalHeader(new InsetHeader(this));
    dress();
}

void EntryTable::setModel(QAbstractItemModel* model) {
    QTableView::setModel(model);
    connect(model, &QAbstractItemModel::modelReset, this, &EntryTable::fit);
    connect(model, &QAbstractItemModel::rowsInserted, this, &EntryTable::fit);
    connect(model, &QAbstractItemModel::rowsRemoved, this, &EntryTable::fit);
    fit();
}

void EntryTable::setWidths(std::vector<int> at100, int stretching) {
    m_widths = std::move(at100);
    m_stretching = stretching;
    fit();
}

void EntryTable::setSparable(std::vector<int> columns) {
    m_sparable = std::move(columns);
    fit();
}

void EntryTable::fit() {
    if (model() == nullptr) return;
    const auto& theme = Theme::current();
    const int rows = model()->rowCount();
    setFixedHeight(theme.pxInt(24) + rows * theme.pxInt(26) + 2);
    int total = std::accumulate(m_widths.begin(), m_widths.end(), 0);
    const int room = viewport()->width();
    for (const int column : m_sparable) {
        const bool spared = theme.pxInt(total) > room && room > 0;
        setColumnHidden(column, spared);
        if (spared) total -= m_widths[static_cast<std::size_t>(column)];
    }
    for (std::size_t i = 0; i < m_widths.size(); ++i) {
        int width = theme.pxInt(m_widths[i]);
        if (static_cast<int>(i) == m_stretching) width = std::max(width, width + room - theme.pxInt(total));
        setColumnWidth(static_cast<int>(i), width);
    }
}

QSize EntryTable::sizeHint() const {
    return {Theme::current().pxInt(500), height()};
}
QSize EntryTable::minimumSizeHint() const {
    return {Theme::current().pxInt(300), height()};
}

void EntryTable::keyPressEvent(QKeyEvent* event) {
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (enter && !isEditing()) {
        if (property("pending").toBool())
            Q_EMIT acceptAsked();
        else if (currentIndex().isValid())
            edit(currentIndex());
        return;
    }
    if (event->key() == Qt::Key_Escape && !isEditing()) {
        Q_EMIT leaveAsked();
        return;
    }
    if (event->key() == Qt::Key_Delete && !isEditing() && currentIndex().isValid()) {
        if (event->modifiers() == Qt::ControlModifier)
            Q_EMIT removeAsked(currentIndex().row());
        else if (model()->flags(currentIndex()).testFlag(Qt::ItemIsEditable))
            model()->setData(currentIndex(), QString(), Qt::EditRole);
        return;
    }
    QTableView::keyPressEvent(event);
}

// Whoever comes by Tab stands where something can be typed.
void EntryTable::focusInEvent(QFocusEvent* event) {
    const bool nowhere = !currentIndex().isValid();
    QTableView::focusInEvent(event);
    if (!nowhere || model() == nullptr || model()->rowCount() == 0) return;
    int column = 0;
    const auto isEditable = [this](int at) {
        return model()->flags(model()->index(0, at)).testFlag(Qt::ItemIsEditable);
    };
    while (column < model()->columnCount() && !isEditable(column))
        ++column;
    setCurrentIndex(model()->index(0, column < model()->columnCount() ? column : 0));
}

void EntryTable::closeEditor(QWidget* editor, QAbstractItemDelegate::EndEditHint hint) {
    QTableView::closeEditor(editor, hint);
    Q_EMIT typingEnded();
}

void EntryTable::resizeEvent(QResizeEvent* event) {
    QTableView::resizeEvent(event);
    fit();
}

void EntryTable::changeEvent(QEvent* event) {
    QTableView::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

void EntryTable::dress() {
    const auto& theme = Theme::current();
    verticalHeader()->setDefaultSectionSize(theme.pxInt(26));
    horizontalHeader()->setFixedHeight(theme.pxInt(24));
    horizontalHeader()->setFont(theme.font(Type::Caption));
    fit();
}

void EntryDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const {
    const Look& look = Theme::current().look();
    const QRectF box = option.rect;
    const auto flag = [&](int role) { return index.data(role).toBool(); };
    const auto* view = qobject_cast<const QAbstractItemView*>(option.widget);
    const bool current = view != nullptr && view->hasFocus() && view->currentIndex() == index;
    if (current) painter->fillRect(box, look.color(Token::Well));
    painter->fillRect(QRectF(box.left(), box.bottom(), box.width(), 1), look.color(Token::Rule));
    const bool gap = flag(GapRole);
    const bool quiet = flag(QuietRole);
    const auto align = static_cast<Qt::Alignment>(index.data(Qt::TextAlignmentRole).toInt());
    const bool right = align.testFlag(Qt::AlignRight);
    const QFont& font = look.font(flag(HandRole) ? Type::Line : quiet ? Type::Control : Type::Reading);
    const QColor ink = look.color(gap ? Token::Gap : quiet ? Token::Ink2 : Token::Ink);
    const QRectF text = box.adjusted(look.px(8), 0, -look.px(8), 0);
    const QString shown = index.data(Qt::DisplayRole).toString();
    const double line = look.lineHeight(Type::Line);
    double width = text.width();
    if (flag(HandRole) && box.height() >= 2 * line && textWidth(shown, font) > text.width())
        drawParagraph(*painter, QPointF(text.left(), box.center().y() - line), text.width(), shown,
                      Type::Line, Token::Ink, look, 2); // whoever made the row so high wants it whole
    else
        width = paintText(*painter, text, shown, font, ink, right ? Qt::AlignRight : Qt::AlignLeft);
    const double x0 = right ? text.right() - width : text.left();
    if (gap) paintGapUnderline(*painter, x0, x0 + width, box.center().y() + look.px(8), look);
    if (flag(ChangedRole))
        painter->fillRect(QRectF(box.left(), box.top() + look.px(4), look.px(3), box.height() - look.px(8)),
                          look.color(Token::Intent));
    painter->setRenderHint(QPainter::Antialiasing);
    if (flag(UnreadableRole)) {
        painter->setPen(look.pen(Token::Error, 2));
        painter->setBrush(Qt::NoBrush);
        painter->drawRoundedRect(box.adjusted(1.5, 1.5, -1.5, -1.5), look.px(3), look.px(3));
    }
    if (flag(DoubtRole)) {
        const double side = look.px(15);
        paintCautionMark(*painter,
                         QRectF(box.right() - side - look.px(4), box.center().y() - side / 2, side, side),
                         look.color(Token::OnCaution), look);
    }
    if (current) paintFocusFrame(*painter, box.adjusted(3, 3, -3, -3), look);
}

QWidget* EntryDelegate::createEditor(QWidget* parent, const QStyleOptionViewItem&,
                                     const QModelIndex& index) const {
    const QString name = QString(index.model()->headerData(index.column(), Qt::Horizontal).toString() +
                                 QStringLiteral(", ") + index.siblingAtColumn(0).data().toString());
    const auto choices = index.data(ChoicesRole).toStringList();
    if (!choices.isEmpty()) {
        auto* box = new QComboBox(parent);
        box->addItems(choices);
        box->setAccessibleName(name);
        connect(box, &QComboBox::activated, this, [this, box] {
            Q_EMIT const_cast<EntryDelegate*>(this)->commitData(box);
            Q_EMIT const_cast<EntryDelegate*>(this)->closeEditor(box);
        });
        return box;
    }
    auto* edit = new CellEdit(parent);
    if (auto* table = qobject_cast<EntryTable*>(parent->parentWidget()))
        connect(edit, &QLineEdit::textEdited, table,
                [table, at = QPersistentModelIndex(index)](const QString& text) {
                    Q_EMIT table->typing(at, text);
                });
    edit->setAccessibleName(name);
    edit->setFont(Theme::current().font(index.data(HandRole).toBool() ? Type::Line : Type::Reading));
    if (static_cast<Qt::Alignment>(index.data(Qt::TextAlignmentRole).toInt()).testFlag(Qt::AlignRight))
        edit->setAlignment(Qt::AlignRight);
    return edit;
}

void EntryDelegate::setEditorData(QWidget* editor, const QModelIndex& index) const {
    const QString text = index.data(Qt::EditRole).toString();
    if (auto* box = qobject_cast<QComboBox*>(editor))
        box->setCurrentText(text);
    else if (auto* edit = qobject_cast<QLineEdit*>(editor))
        edit->setText(text);
}

void EntryDelegate::setModelData(QWidget* editor, QAbstractItemModel* model, const QModelIndex& index) const {
    if (auto* box = qobject_cast<QComboBox*>(editor))
        model->setData(index, box->currentText(), Qt::EditRole);
    else if (auto* edit = qobject_cast<QLineEdit*>(editor))
        model->setData(index, edit->text(), Qt::EditRole);
}

void EntryDelegate::updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                                         const QModelIndex&) const {
    editor->setGeometry(option.rect);
}

} // namespace stillroom::ui
