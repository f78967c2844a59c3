#include "ui/delegates/spec_delegate.h"

#include "core/spec/jigger_step.h"
#include "ui/delegates/paint_text.h"
#include "ui/text/amounts.h"
#include "ui/text/border.h"
#include "ui/theme/icons.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"
#include "ui/widgets/cell_edit.h"

#include <QKeyEvent>
#include <QPainter>

#include <algorithm>

namespace stillroom::ui {

namespace {

QStringView iconOf(spec::Role role) {
    switch (role) {
    case spec::Role::Mixed:
        return u"role-mixed";
    case spec::Role::Topped:
        return u"role-topped";
    case spec::Role::Floated:
        return u"role-floated";
    case spec::Role::Rinse:
        return u"role-rinse";
    case spec::Role::Garnish:
        return u"role-garnish";
    }
    return u"role-mixed";
}

} // namespace

SpecDelegate::SpecDelegate(QObject* parent) : QStyledItemDelegate(parent) {}

SpecModel& SpecDelegate::modelOf(const QModelIndex& index) {
    return *static_cast<SpecModel*>(const_cast<QAbstractItemModel*>(index.model()));
}

QSize SpecDelegate::sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const {
    return {Theme::current().pxInt(40), Theme::current().pxInt(31)};
}

void SpecDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const {
    const auto& model = modelOf(index);
    const Look& look = Theme::current().look();
    const QRectF box = option.rect;
    const double hair = look.px(1);
    painter->fillRect(box, look.color(index.row() == m_currentRow ? Token::Well : Token::Page));

    const SheetRow* row = model.sheetRow(index.row());
    if (row != nullptr) {
        switch (index.column()) {
        case SpecModel::Role:
            if (row->firstOfRole) {
                const double size = look.px(16);
                paintIcon(*painter, QRectF(box.left() + look.px(16), box.center().y() - size / 2, size, size),
                          iconOf(row->role), look.color(Token::Ink2));
            }
            break;
        case SpecModel::Amount:
            paintAmount(*painter, box, *row);
            break;
        case SpecModel::Name:
            paintName(*painter, box, *row);
            break;
        case SpecModel::Alcohol:
            paintColumn(*painter, box, row->alcohol);
            break;
        case SpecModel::Sugar:
            paintColumn(*painter, box, row->sugar);
            break;
        case SpecModel::Acid:
            paintColumn(*painter, box, row->acid);
            break;
        case SpecModel::Cost:
            paintColumn(*painter, box, row->cost);
            break;
        case SpecModel::Margin:
            paintMargin(*painter, box, *row);
            break;
        default:
            break;
        }
    } else if (index.column() == SpecModel::Amount) {
        QFont font = look.font(Type::Reason);
        font.setPixelSize(static_cast<int>(look.px(14)));
        paintText(*painter, box.adjusted(look.px(28), 0, 0, 0), tr("next line, as you would write it"), font,
                  look.color(Token::Ink3));
    }
    if (index.column() == SpecModel::Margin)
        painter->fillRect(QRectF(box.left(), box.top(), look.px(1.5), box.height()),
                          look.color(Token::RuleStrong));

    const bool endsGroup = row != nullptr && model.sheetRow(index.row() + 1) != nullptr &&
                           model.sheetRow(index.row() + 1)->firstOfRole;
    const double y = box.bottom() - hair / 2;
    painter->setPen(endsGroup ? look.pen(Token::RuleStrong, 1, Qt::DashLine) : look.pen(Token::Rule, 1));
    painter->drawLine(QPointF(box.left(), y), QPointF(box.right(), y));

    const bool focused = option.state.testFlag(QStyle::State_HasFocus);
    if (focused)
        paintFocusFrame(*painter, box.adjusted(look.px(3), look.px(3), -look.px(3), -look.px(3)), look);
}

void SpecDelegate::paintAmount(QPainter& painter, const QRectF& box, const SheetRow& row) const {
    const Look& look = Theme::current().look();
    const double split = box.left() + look.px(44); // numbers end here, measures begin after it
    const QColor ink = look.color(row.optional ? Token::Ink3 : Token::Ink);
    const double width = textWidth(row.amount, look.font(Type::Amount));
    const double left = std::max(box.left() + look.px(2), split - width);
    paintText(painter, QRectF(left, box.top(), std::max(width + 1, split - left), box.height()), row.amount,
              look.font(Type::Amount), ink);
    QFont unit = look.font(Type::Body);
    const double unitLeft = std::max(split, left + width) + look.px(5);
    paintText(painter, QRectF(unitLeft, box.top(), box.right() - unitLeft, box.height()), row.unit, unit,
              look.color(Token::Ink2));
}

void SpecDelegate::paintName(QPainter& painter, const QRectF& box, const SheetRow& row) const {
    const Look& look = Theme::current().look();
    const double icon = look.px(15);
    QRectF cell = box.adjusted(look.px(2), 0, -look.px(4), 0);
    if (row.gap) cell.setRight(cell.right() - icon - look.px(4));
    QFont font = look.font(Type::Line);
    font.setItalic(row.optional);
    const double width =
        paintText(painter, cell, row.name, font, look.color(row.optional ? Token::Ink2 : Token::Ink));
    double x = cell.left() + width + look.px(6);
    if (cell.right() - x > look.px(24)) {
        const QRectF rest(x, box.top() + look.px(1), cell.right() - x, box.height());
        x += paintText(painter, rest, row.hint, look.font(Type::Unit), look.color(Token::Ink3)) + look.px(5);
    }
    if (row.gap)
        paintIcon(painter,
                  QRectF(std::min(x, cell.right() + look.px(2)), box.center().y() - icon / 2, icon, icon),
                  u"gap", look.color(Token::Gap));
}

void SpecDelegate::paintColumn(QPainter& painter, const QRectF& box, const ReadingText& text) const {
    const Look& look = Theme::current().look();
    ReadingPaint how;
    how.font = look.font(Type::Reading);
    how.ink = look.color(text.gap ? Token::Gap : Token::Ink2);
    how.dots = false;
    paintReading(painter, box.adjusted(0, 0, -look.px(6), 0), text, how, look);
}

void SpecDelegate::paintMargin(QPainter& painter, const QRectF& box, const SheetRow& row) const {
    if (row.margin.isEmpty()) return;
    const Look& look = Theme::current().look();
    const Token ink = row.margin.direction > 0   ? Token::ChangeUp
                      : row.margin.direction < 0 ? Token::ChangeDown
                                                 : Token::Ink2;
    painter.fillRect(QRectF(box.left(), box.top(), look.px(3), box.height() - look.px(1)), look.color(ink));
    double x = box.left() + look.px(12);
    if (!row.margin.struck.isEmpty()) {
        QFont font = look.font(Type::Reading);
        const double width = paintText(painter, QRectF(x, box.top(), box.right() - x, box.height()),
                                       row.margin.struck, font, look.color(Token::Ink2));
        painter.setPen(look.pen(Token::Ink2, 1.2));
        painter.drawLine(QPointF(x - 1, box.center().y() + look.px(0.5)),
                         QPointF(x + width + 1, box.center().y() + look.px(0.5)));
        x += width + look.px(5);
    }
    paintText(painter, QRectF(x, box.top(), box.right() - x - look.px(2), box.height()),
              row.margin.difference, look.font(Type::Delta), look.color(ink));
}

QWidget* SpecDelegate::createEditor(QWidget* parent, const QStyleOptionViewItem&,
                                    const QModelIndex& index) const {
    auto& model = modelOf(index);
    const Look& look = Theme::current().look();
    auto* editor = new CellEdit(parent);
    editor->cell = index;
    const bool open = model.isOpenRow(index.row());
    if (index.column() == SpecModel::Amount && !open) {
        editor->setFont(look.font(Type::Amount));
        editor->setAccessibleName(tr("Amount of %1").arg(model.sheetRow(index.row())->name));
        editor->mergeKey = model.session()->newMergeKey();
        const auto line = static_cast<std::size_t>(model.lineAt(index.row()));
        editor->before = model.session()->spec().lines[line].poured;
        connect(editor, &QLineEdit::textEdited, this, [this, editor] { typeAmount(*editor); });
        return editor;
    }
    editor->setFont(look.font(Type::Line));
    if (open) {
        editor->setAccessibleName(tr("Next line, as you would write it"));
        editor->setPlaceholderText(tr("45 ml London dry gin"));
        connect(editor, &QLineEdit::textEdited, this, [this](const QString& text) { Q_EMIT typing(text); });
        return editor;
    }
    editor->setAccessibleName(tr("Name of the line"));
    const auto* session = model.session();
    editor->offer([session](const QString& text) {
        std::vector<const larder::Ingredient*> found;
        if (text.trimmed().isEmpty()) return found;
        const auto& larder = const_cast<DraftSession*>(session)->book().larder();
        for (const auto id : larder.search(toCore(text), 10))
            if (const auto* ingredient = larder.find(id)) found.push_back(ingredient);
        return found;
    });
    connect(editor, &CellEdit::ingredientChosen, this, [this, editor](const QString& name) {
        editor->setText(editor->keepsName ? editor->cell.data(Qt::EditRole).toString() : name);
        Q_EMIT moveAsked(editor, Move::Next);
    });
    return editor;
}

// Leaves the editor alone when what it holds already means what the model holds, so that typing is never
// overwritten by its own echo.
void SpecDelegate::setEditorData(QWidget* widget, const QModelIndex& index) const {
    auto* editor = static_cast<CellEdit*>(widget);
    const auto& model = modelOf(index);
    if (model.isOpenRow(index.row())) return;
    const QString text = index.data(Qt::EditRole).toString();
    if (index.column() == SpecModel::Name) {
        if (editor->text() != text && !editor->isModified()) editor->setText(text);
        return;
    }
    const auto line = static_cast<std::size_t>(model.lineAt(index.row()));
    const auto& poured = model.session()->spec().lines[line].poured;
    const auto meant = model.amountMeant(index.row(), editor->text());
    if (!editor->text().isEmpty() && meant && *meant == poured) return;
    editor->setText(text);
    editor->setUnreadable(false);
    if (poured != editor->before) editor->mergeKey = model.session()->newMergeKey();
}

void SpecDelegate::typeAmount(CellEdit& editor) const {
    if (editor.text().trimmed().isEmpty()) return; // nothing yet; Enter on it means no amount
    const QString text = editor.text();
    if (std::none_of(text.begin(), text.end(), [](QChar c) { return c.isNumber(); })) {
        // "a" may be one, or the beginning of a word: it counts when the cell is left.
        const bool meant = modelOf(editor.cell).amountMeant(editor.cell.row(), text).has_value();
        editor.setUnreadable(!meant);
        Q_EMIT typing(meant ? QString() : tr("“%1” is not an amount yet").arg(text));
        return;
    }
    const bool read = modelOf(editor.cell).typeAmount(editor.cell.row(), text, editor.mergeKey);
    editor.setUnreadable(!read);
    Q_EMIT typing(read ? QString() : tr("“%1” is not an amount yet").arg(editor.text()));
}

void SpecDelegate::step(CellEdit& editor, int direction) const {
    auto& model = modelOf(editor.cell);
    const auto line = static_cast<std::size_t>(model.lineAt(editor.cell.row()));
    const auto next = spec::steppedOnJiggers(model.session()->spec().lines[line].poured, direction);
    if (!next) return;
    editor.setText(amountForEditing(*next));
    editor.setUnreadable(false);
    model.setAmount(editor.cell.row(), *next, editor.mergeKey);
}

bool SpecDelegate::commit(CellEdit& editor) const {
    if (!editor.cell.isValid() || m_committing) return true;
    m_committing = true;
    struct Done {
        bool& flag;
        ~Done() { flag = false; }
    } done{m_committing};
    auto& model = modelOf(editor.cell);
    const int row = editor.cell.row();
    if (model.isOpenRow(row)) {
        const QString text = editor.text();
        const auto result = model.write(row, text);
        if (result.outcome == SpecModel::Written::Asks) Q_EMIT entryAsks(row, result.entry);
        if (result.outcome == SpecModel::Written::NotALine) {
            editor.setUnreadable(true);
            Q_EMIT notALine(text);
        }
        return result.outcome == SpecModel::Written::Added || result.outcome == SpecModel::Written::Nothing;
    }
    if (editor.cell.column() == SpecModel::Amount) {
        const auto meant = model.amountMeant(row, editor.text());
        editor.setUnreadable(!meant);
        if (meant) model.setAmount(row, *meant, editor.mergeKey);
        return meant.has_value();
    }
    if (editor.text().trimmed().isEmpty()) return true; // a line keeps its name
    model.setName(row, editor.text(), editor.chosen);
    return true;
}

void SpecDelegate::setModelData(QWidget* editor, QAbstractItemModel*, const QModelIndex&) const {
    commit(*static_cast<CellEdit*>(editor));
}

void SpecDelegate::updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                                        const QModelIndex&) const {
    editor->setGeometry(option.rect.adjusted(0, 0, 0, -1));
}

bool SpecDelegate::eventFilter(QObject* object, QEvent* event) {
    auto* editor = qobject_cast<CellEdit*>(object);
    if (editor == nullptr) return QStyledItemDelegate::eventFilter(object, event);
    if (event->type() == QEvent::KeyPress) {
        if (isUndoOrRedo(event)) return false;
        if (handleKey(*editor, *static_cast<QKeyEvent*>(event))) return true;
        return false; // the base class would close the editor on its own terms
    }
    return QStyledItemDelegate::eventFilter(object, event);
}

bool SpecDelegate::handleKey(CellEdit& editor, QKeyEvent& key) {
    const bool amount = editor.cell.isValid() && editor.cell.column() == SpecModel::Amount &&
                        !modelOf(editor.cell).isOpenRow(editor.cell.row());
    const auto modifiers = key.modifiers() & ~Qt::KeypadModifier;
    switch (key.key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (modifiers != Qt::NoModifier) return false;
        Q_EMIT moveAsked(&editor, Move::Down);
        return true;
    case Qt::Key_Tab:
        Q_EMIT moveAsked(&editor, Move::Next);
        return true;
    case Qt::Key_Backtab:
        Q_EMIT moveAsked(&editor, Move::Previous);
        return true;
    case Qt::Key_Escape:
        Q_EMIT cancelAsked(&editor);
        return true;
    case Qt::Key_Up:
    case Qt::Key_Down: {
        if (modifiers != Qt::NoModifier || editor.offersShown()) return false;
        const bool up = key.key() == Qt::Key_Up;
        if (amount)
            step(editor, up ? 1 : -1);
        else
            Q_EMIT moveAsked(&editor, up ? Move::Up : Move::Down);
        return true;
    }
    default:
        return false;
    }
}

} // namespace stillroom::ui
