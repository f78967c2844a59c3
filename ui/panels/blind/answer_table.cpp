#include "ui/panels/blind/answer_table.h"

#include "ui/delegates/paint_text.h"
#include "ui/panels/blind/answer_model.h"
#include "ui/panels/larder/inset_header.h"
#include "ui/plots/plot_text.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

#include <QHeaderView>
#include <QKeyEvent>
#include <QPainter>
#include <QScrollBar>
#include <QStyledItemDelegate>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using tasting::AnswerStanding;
using tasting::MarkSort;

namespace {

class AnswerDelegate : public QStyledItemDelegate {
  public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override {
        const auto& model = static_cast<const AnswerModel&>(*index.model());
        const Look& look = Theme::current().look();
        const QRectF box = option.rect;
        const auto* view = qobject_cast<const QAbstractItemView*>(option.widget);
        const bool here = view != nullptr && view->currentIndex().row() == index.row();
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        painter->fillRect(box, look.color(here && !model.isOpened() ? Token::Selection : Token::Page));
        const QRectF text = box.adjusted(look.px(8), 0, -look.px(8), 0);
        const auto standing = static_cast<AnswerStanding>(index.data(AnswerModel::StandingRole).toInt());
        if (index.column() == 0)
            paintText(*painter, text, index.data().toString(), look.font(Type::Line), look.color(Token::Ink));
        else if (index.column() == model.noteColumn())
            paintText(*painter, text, index.data().toString(), look.font(Type::Reason),
                      look.color(Token::Ink));
        else if (index.column() == model.standingColumn())
            paintStanding(*painter, text, index.data().toString(), standing, look);
        else
            paintMark(*painter, text, index, model, look);
        painter->setPen(look.pen(Token::Rule, 1));
        painter->drawLine(QPointF(box.left(), box.bottom() + 0.5),
                          QPointF(box.right() + 1, box.bottom() + 0.5));
        if (here && view->hasFocus() && view->currentIndex() == index)
            paintFocusFrame(*painter, box.adjusted(look.px(3), look.px(3), -look.px(3), -look.px(3)), look);
        painter->restore();
    }

    void updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                              const QModelIndex&) const override {
        editor->setFont(Theme::current().font(Type::Reason));
        editor->setGeometry(option.rect);
    }

  private:
    static void paintStanding(QPainter& painter, const QRectF& box, const QString& words,
                              AnswerStanding standing, const Look& look) {
        const bool gap = standing != AnswerStanding::Whole;
        const double width = paintText(painter, box, words, look.font(Type::Control),
                                       look.color(gap ? Token::Gap : Token::Ink2));
        if (gap)
            paintGapUnderline(painter, box.left(), box.left() + width, box.center().y() + look.px(9), look);
    }

    static void paintMark(QPainter& painter, const QRectF& cell, const QModelIndex& index,
                          const AnswerModel& model, const Look& look) {
        const bool under = cell.height() > look.px(40);
        const QRectF box = under ? cell.adjusted(0, look.px(2), 0, -look.px(24)) : cell;
        const bool choice = index.data(AnswerModel::ChoiceRole).toBool();
        const QVariant mark = index.data(AnswerModel::MarkRole);
        double left = box.left();
        if (choice) {
            const double r = look.px(5);
            const QPointF centre(left + r, box.center().y());
            painter.setPen(look.pen(Token::Ink, 1.2));
            painter.setBrush(mark.isValid() ? QBrush(look.color(Token::Ink)) : QBrush(Qt::NoBrush));
            painter.drawEllipse(centre, r, r);
            left += 2 * r + look.px(6);
        }
        const QFont& codeFont = look.font(choice && mark.isValid() ? Type::ReadingServed : Type::Reading);
        const double width = paintText(painter, QRectF(left, box.top(), box.right() - left, box.height()),
                                       QString::number(index.data(AnswerModel::CodeRole).toInt()), codeFont,
                                       look.color(choice ? Token::Ink : Token::Ink2));
        left += width + look.px(7);
        double right = box.right();
        if (!choice) {
            const double room = look.px(22);
            // Near its own code, not the next one.
            if (under || !model.isOpened()) right = std::min(right, left + room + look.px(4));
            const QRectF at(right - room, box.top(), room, box.height());
            if (mark.isValid())
                paintText(painter, at, QString::number(mark.toInt()), look.font(Type::ReadingServed),
                          look.color(Token::Ink), Qt::AlignRight);
            else
                paintGapUnderline(painter, at.right() - look.px(12), at.right(),
                                  box.center().y() + look.px(6), look);
            right -= room + look.px(4);
        }
        if (!model.isOpened()) return;
        if (under)
            paintSample(painter, cell.adjusted(0, look.px(22), 0, -look.px(2)), index, look);
        else if (right > left)
            paintSample(painter, QRectF(left, box.top(), right - left, box.height()), index, look);
    }

    // The drink gives way before its revision does.
    static void paintSample(QPainter& painter, const QRectF& box, const QModelIndex& index,
                            const Look& look) {
        const QFont& font = look.font(Type::Line);
        const QString revision = index.data(AnswerModel::RevisionRole).toString();
        const double kept = textWidth(revision, font) + (revision.isEmpty() ? 0 : look.px(4));
        const double drink =
            paintText(painter, box.adjusted(0, 0, -kept, 0), index.data(AnswerModel::ProductRole).toString(),
                      font, look.color(Token::Ink));
        paintText(painter, box.adjusted(drink + kept - textWidth(revision, font), 0, 0, 0), revision, font,
                  look.color(Token::Ink));
    }
};

} // namespace

AnswerTable::AnswerTable(AnswerModel& model, QWidget* parent) : QTableView(parent), m_model(model) {
    setModel(&model);
    setItemDelegate(new AnswerDelegate(this));
    setAccessibleName(tr("Answers"));
    setFrameShape(QFrame::NoFrame);
    setShowGrid(false);
    setWordWrap(false);
    setSelectionMode(NoSelection);
    setTabKeyNavigation(false);
    setEditTriggers(AnyKeyPressed); // of the note alone: nothing else can be edited
    setVerticalScrollMode(ScrollPerPixel);
    setHorizontalScrollMode(ScrollPerPixel);
    verticalHeader()->hide();
    setHorizontalHeader(new InsetHeader(this));
    horizontalHeader()->setHighlightSections(false);
    horizontalHeader()->setSectionsClickable(false);
    horizontalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    connect(&model, &QAbstractItemModel::modelReset, this, &AnswerTable::fit);
    connect(&model, &QAbstractItemModel::dataChanged, this, [this] { viewport()->update(); });
}

void AnswerTable::setWhole(bool whole) {
    m_whole = whole;
    setVerticalScrollBarPolicy(whole ? Qt::ScrollBarAlwaysOff : Qt::ScrollBarAsNeeded);
    fit();
}

void AnswerTable::fit() {
    const auto& theme = Theme::current();
    horizontalHeader()->setFont(theme.font(Type::Caption));
    horizontalHeader()->setFixedHeight(theme.pxInt(26));
    horizontalHeader()->setMinimumSectionSize(theme.pxInt(20));
    if (m_model.columnCount() < 3) return;
    const int marks = std::max(1, m_model.marks());
    const bool choice = m_model.marks() > 0 && m_model.asked(1).sort == MarkSort::Chosen;
    const bool notes = !m_model.isOpened() || m_model.hasNotes();
    setColumnHidden(m_model.noteColumn(), !notes);
    const int standing =
        std::max(theme.pxInt(68), static_cast<int>(m_model.standingWidth(theme.look())) + theme.pxInt(20));
    const int whole = viewport()->width();
    // Many cups leave the name less.
    const int longest = static_cast<int>(m_model.nameWidth(theme.look())) + theme.pxInt(20);
    const int name =
        std::clamp(std::min(longest, whole * 22 / 100), theme.pxInt(96), theme.pxInt(marks > 4 ? 130 : 220));
    const int leastNote = notes ? theme.pxInt(90) : 0;
    // Opened, the product stands beside its code; where that is too wide for the page, under it.
    const int code = theme.pxInt(choice ? 76 : 72);
    const int product = static_cast<int>(m_model.productWidth(theme.look()));
    const int room = (whole - name - standing - leastNote) / marks;
    const bool under = m_model.isOpened() && code + product + theme.pxInt(10) > room;
    const int least = under ? std::clamp(product + theme.pxInt(18), code, theme.pxInt(84)) : code;
    const int most = m_model.isOpened() ? code + product + theme.pxInt(10) : theme.pxInt(choice ? 110 : 88);
    const int mark = std::clamp(room, least, std::max(least, most));
    const int row = theme.pxInt(under ? 50 : 30);
    verticalHeader()->setMinimumSectionSize(row);
    verticalHeader()->setDefaultSectionSize(row);
    setColumnWidth(0, name);
    for (int column = 1; column <= m_model.marks(); ++column)
        setColumnWidth(column, mark);
    const int spare = whole - name - standing - mark * m_model.marks();
    setColumnWidth(m_model.noteColumn(), std::max(leastNote, spare));
    setColumnWidth(m_model.standingColumn(), notes ? standing : std::max(standing, spare + standing));
    if (m_whole) {
        const bool bar = horizontalHeader()->length() > whole;
        setFixedHeight(horizontalHeader()->height() + row * m_model.rowCount() +
                       (bar ? horizontalScrollBar()->sizeHint().height() : 0) + theme.pxInt(2));
    }
}

void AnswerTable::goTo(int row, int column) {
    if (row < 0 || row >= m_model.rowCount()) return;
    m_typing = false;
    setCurrentIndex(m_model.index(row, column));
    scrollTo(currentIndex());
    viewport()->update();
}

void AnswerTable::goDown() {
    if (currentIndex().row() + 1 < m_model.rowCount()) goTo(currentIndex().row() + 1);
}

void AnswerTable::goOn() {
    if (currentIndex().column() < m_model.marks())
        goTo(currentIndex().row(), currentIndex().column() + 1);
    else
        goDown();
}

void AnswerTable::typeDigit(int digit) {
    if (!m_model.isMark(currentIndex())) goTo(currentIndex().row());
    const QModelIndex at = currentIndex();
    const auto asked = m_model.asked(at.column());
    if (asked.sort == MarkSort::Chosen) {
        if (digit < 1 || digit > m_model.marks()) {
            Q_EMIT refused(tr("There are %1 cups: 1 to %1 choose one by its place.").arg(m_model.marks()));
            return;
        }
        m_model.enterMark(m_model.index(at.row(), digit), 1);
        goDown();
        return;
    }
    const auto before = m_model.mark(at);
    const int longer = m_typing && before ? *before * 10 + digit : digit;
    const int mark = longer <= asked.high ? longer : digit;
    if (mark < asked.low || mark > asked.high) {
        Q_EMIT refused(tr("Marks go from %1 to %2.").arg(asked.low).arg(asked.high));
        return;
    }
    m_model.enterMark(at, mark);
    // A second digit may still come.
    m_typing = mark * 10 <= asked.high && mark > 0;
    if (!m_typing) goOn();
}

// Where one cup is chosen, the row's choice goes, wherever in it the cursor stands.
void AnswerTable::takeBack() {
    const QModelIndex at = currentIndex();
    for (int column = 1; column <= m_model.marks(); ++column) {
        const auto cell = m_model.index(at.row(), column);
        const bool chosen = m_model.asked(column).sort == MarkSort::Chosen && m_model.mark(cell).has_value();
        if (chosen || cell == at) m_model.enterMark(cell, std::nullopt);
    }
}

void AnswerTable::keyPressEvent(QKeyEvent* event) {
    const QModelIndex at = currentIndex();
    const QString text = event->text();
    const bool plain = event->modifiers() == Qt::NoModifier || event->modifiers() == Qt::KeypadModifier;
    const bool note = at.column() == m_model.noteColumn();
    const bool writable =
        at.isValid() &&
        m_model.flags(m_model.index(at.row(), m_model.noteColumn())).testFlag(Qt::ItemIsEditable);
    if (event->key() == Qt::Key_Escape || event->modifiers().testFlag(Qt::ControlModifier)) {
        if (event->matches(QKeySequence::MoveToStartOfDocument) ||
            event->matches(QKeySequence::MoveToEndOfDocument))
            QTableView::keyPressEvent(event);
        else
            event->ignore();
    } else if (!writable) {
        QTableView::keyPressEvent(event);
    } else if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        if (state() != EditingState) goDown();
    } else if (note && (event->key() == Qt::Key_F2 || (plain && !text.isEmpty() && text.at(0).isPrint()))) {
        if (event->key() == Qt::Key_F2)
            edit(at);
        else
            edit(at, AnyKeyPressed, event);
    } else if (event->key() == Qt::Key_Delete || event->key() == Qt::Key_Backspace) {
        m_typing = false;
        if (note)
            m_model.setData(at, QString(), Qt::EditRole);
        else
            takeBack();
    } else if (!note && plain && text.size() == 1 && text.at(0).isDigit()) {
        typeDigit(text.at(0).digitValue());
    } else if (m_model.isMark(at) && event->key() == Qt::Key_Space &&
               m_model.asked(at.column()).sort == MarkSort::Chosen) {
        m_model.enterMark(at, 1);
    } else if (plain && text.size() == 1 && text.at(0).isLetter() && !note) {
        Q_EMIT refused(tr("Digits are marks here; the note is at the end of the row."));
    } else {
        m_typing = false;
        QTableView::keyPressEvent(event);
    }
}

void AnswerTable::mouseDoubleClickEvent(QMouseEvent* event) {
    QTableView::mouseDoubleClickEvent(event);
    const QModelIndex at = currentIndex();
    if (!at.isValid()) return;
    if (at.column() == m_model.noteColumn() && m_model.flags(at).testFlag(Qt::ItemIsEditable))
        edit(at);
    else if (m_model.isMark(at) && m_model.asked(at.column()).sort == MarkSort::Chosen)
        m_model.enterMark(at, 1);
}

void AnswerTable::closeEditor(QWidget* editor, QAbstractItemDelegate::EndEditHint hint) {
    QTableView::closeEditor(editor, hint);
    setFocus(Qt::OtherFocusReason);
}

void AnswerTable::resizeEvent(QResizeEvent* event) {
    QTableView::resizeEvent(event);
    fit();
}

void AnswerTable::focusInEvent(QFocusEvent* event) {
    // The view would begin with the first name.
    if (!currentIndex().isValid()) goTo(m_model.firstOpenRow());
    QTableView::focusInEvent(event);
    viewport()->update();
}

void AnswerTable::focusOutEvent(QFocusEvent* event) {
    QTableView::focusOutEvent(event);
    m_typing = false;
    viewport()->update();
}

} // namespace stillroom::ui
