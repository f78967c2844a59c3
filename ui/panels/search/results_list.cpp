#include "ui/panels/search/results_list.h"

#include "ui/delegates/paint_text.h"
#include "ui/panels/search/results_model.h"
#include "ui/theme/icons.h"
#include "ui/theme/theme.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QKeyEvent>
#include <QPainter>
#include <QStyledItemDelegate>

namespace stillroom::ui {

namespace {

constexpr double kRowHeight = 50;
constexpr double kTextLeft = 34;
constexpr double kWhereWidth = 118;

// Two lines of one voice each: what people wrote by hand, where it stands by the gauge.
class ResultDelegate : public QStyledItemDelegate {
  public:
    using QStyledItemDelegate::QStyledItemDelegate;

    QSize sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const override {
        const auto& theme = Theme::current();
        return {theme.pxInt(200), theme.pxInt(kRowHeight)};
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override {
        const auto& row = static_cast<const ResultsModel*>(index.model())->row(index.row());
        const Look& look = Theme::current().look();
        const QRectF box = option.rect;
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        const bool selected = option.state.testFlag(QStyle::State_Selected);
        if (selected) {
            painter->fillRect(box, look.color(Token::Selection));
            painter->fillRect(QRectF(box.left(), box.top(), look.px(3), box.height()),
                              look.color(Token::Intent));
        } else if (option.state.testFlag(QStyle::State_MouseOver)) {
            painter->fillRect(box, look.color(Token::Well));
        }
        painter->fillRect(QRectF(box.left() + look.px(kTextLeft), box.bottom(),
                                 box.width() - look.px(kTextLeft), look.px(1)),
                          look.color(Token::Rule));
        const QRectF first(box.left() + look.px(kTextLeft), box.top() + look.px(4),
                           box.width() - look.px(kTextLeft + 14), look.px(22));
        const QRectF second(first.left(), first.bottom(), first.width(), look.px(20));
        paintMark(*painter, QPointF(box.left() + look.px(18), first.center().y()), row, look);
        const double strength = paintStrength(*painter, first, row, look);
        const QColor ink = look.color(row.binned ? Token::Ink3 : Token::Ink);
        paintMarked(*painter, first.adjusted(0, 0, -strength, 0), row.name, row.nameMarks,
                    look.font(Type::Line), ink, look);
        paintText(*painter, QRectF(second.left(), second.top(), look.px(kWhereWidth - 10), second.height()),
                  row.where, look.font(Type::Caption), look.color(Token::Ink2));
        paintMarked(*painter, second.adjusted(look.px(kWhereWidth), 0, 0, 0), row.said, row.saidMarks,
                    look.font(Type::Body), look.color(Token::Ink2), look);
        if (selected && option.widget != nullptr && option.widget->hasFocus())
            paintFocusFrame(*painter, box.adjusted(look.px(3), look.px(3), -look.px(3), -look.px(4)), look);
        painter->restore();
    }

  private:
    static void paintMark(QPainter& painter, QPointF at, const ResultsModel::Row& row, const Look& look) {
        if (row.preparation) {
            const double size = look.px(15);
            paintIcon(painter, QRectF(at.x() - size / 2, at.y() - size / 2, size, size), u"preparation",
                      look.color(Token::Ink2));
            return;
        }
        paintStateMark(painter, at, row.binned ? StateMark::SetAside : row.state, look,
                       look.color(row.binned ? Token::Ink3 : Token::Ink));
    }

    // Returns the room it took.
    static double paintStrength(QPainter& painter, const QRectF& box, const ResultsModel::Row& row,
                                const Look& look) {
        if (row.binned) {
            const double width = paintText(painter, box, QCoreApplication::translate("Search", "in the bin"),
                                           look.font(Type::Caption), look.color(Token::Ink2), Qt::AlignRight);
            return width + look.px(12);
        }
        if (row.strength.number.isEmpty()) return 0;
        const QString unit = QString(kNarrowSpace) + QCoreApplication::translate("Search", "% vol");
        const double unitWidth =
            paintText(painter, box, unit, look.font(Type::Unit), look.color(Token::Ink2), Qt::AlignRight);
        ReadingPaint how;
        how.font = look.font(Type::Reading);
        how.ink = look.color(row.strength.gap ? Token::Gap : Token::Ink2);
        paintReading(painter, box.adjusted(0, 0, -unitWidth, 0), row.strength, how, look);
        return look.px(110);
    }

    // The words found are underlined on a tint: neither alone carries it.
    static void paintMarked(QPainter& painter, const QRectF& box, const QString& text,
                            const std::vector<ResultsModel::Stretch>& marks, const QFont& font,
                            const QColor& ink, const Look& look) {
        if (text.isEmpty() || box.width() <= 0) return;
        const QFontMetricsF metrics(font);
        const QString shown = metrics.elidedText(text, Qt::ElideRight, box.width());
        // What stands before the cut is as it was; the sign of the cut is one character.
        const auto whole = shown == text ? text.size() : shown.size() - 1;
        const double top = box.top() + (box.height() - metrics.height()) / 2;
        for (const auto& mark : marks) {
            if (mark.start + mark.length > whole) continue;
            const double x0 = box.left() + metrics.horizontalAdvance(shown.left(mark.start));
            const double x1 = box.left() + metrics.horizontalAdvance(shown.left(mark.start + mark.length));
            painter.fillRect(QRectF(x0, top, x1 - x0, metrics.height()), look.color(Token::IntentSoft));
            painter.fillRect(QRectF(x0, top + metrics.height() - look.px(2), x1 - x0, look.px(2)),
                             look.color(Token::Intent));
        }
        paintText(painter, box, shown, font, ink);
    }
};

} // namespace

ResultsList::ResultsList(QWidget* parent) : QListView(parent) {
    setItemDelegate(new ResultDelegate(this));
    setUniformItemSizes(true);
    setFrameShape(QFrame::NoFrame);
    setSelectionMode(SingleSelection);
    setEditTriggers(NoEditTriggers);
    setMouseTracking(true);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollMode(ScrollPerPixel);
}

void ResultsList::goTo(int row) {
    if (model() == nullptr || row < 0 || row >= model()->rowCount()) return;
    setCurrentIndex(model()->index(row, 0));
    scrollTo(currentIndex());
}

void ResultsList::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Up && currentIndex().row() <= 0) {
        Q_EMIT leftUp();
        return;
    }
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        if (currentIndex().isValid()) Q_EMIT activated(currentIndex());
        return;
    }
    if (event->key() == Qt::Key_Escape) {
        event->ignore(); // the page's
        return;
    }
    QListView::keyPressEvent(event);
}

void ResultsList::focusInEvent(QFocusEvent* event) {
    QListView::focusInEvent(event);
    if (!currentIndex().isValid()) goTo(0);
}

} // namespace stillroom::ui
