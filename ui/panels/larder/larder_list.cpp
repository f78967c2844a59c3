#include "ui/panels/larder/larder_list.h"

#include "ui/delegates/paint_text.h"
#include "ui/panels/larder/inset_header.h"
#include "ui/session/larder_edit.h"
#include "ui/theme/caution_mark.h"
#include "ui/theme/icons.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"
#include "ui/widgets/key_hint.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPainter>
#include <QPushButton>
#include <QStyledItemDelegate>
#include <QTableView>
#include <QVBoxLayout>

namespace stillroom::ui {

namespace {

class FilterField : public QLineEdit {
  public:
    using QLineEdit::QLineEdit;

  protected:
    void paintEvent(QPaintEvent* event) override {
        QLineEdit::paintEvent(event);
        if (!text().isEmpty() || hasFocus()) return;
        QPainter painter(this);
        const QString key = QStringLiteral("/");
        const auto& theme = Theme::current();
        paintKey(painter, QPointF(width() - keyWidth(key) - theme.px(7), (height() - theme.px(16)) / 2), key);
    }
};

// One row in one voice: the name by hand, what was computed by the gauge.
class RowDelegate : public QStyledItemDelegate {
  public:
    RowDelegate(const LarderEdit* const* edit, QObject* parent) : QStyledItemDelegate(parent), m_edit(edit) {}

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override {
        const auto* model = static_cast<const LarderListModel*>(index.model());
        const auto& row = model->row(index.row());
        const Look& look = Theme::current().look();
        const QRectF box = option.rect;
        const bool selected = option.state.testFlag(QStyle::State_Selected);
        if (selected) painter->fillRect(box, look.color(Token::Selection));
        const double side = look.px(8);
        const QRectF text = box.adjusted(side, 0, -side, 0);
        const auto& reading = look.font(Type::Reading);
        switch (index.column()) {
        case LarderListModel::Name:
            paintName(*painter, box, row, selected, isStockFolded(option), look);
            break;
        case LarderListModel::Kind:
            paintText(*painter, text, row.kind, look.font(Type::Control), look.color(Token::Ink2));
            break;
        case LarderListModel::Strength:
            paintNumber(*painter, text, row.strength, reading, row.noStrength, look);
            break;
        case LarderListModel::Price: {
            const double per = look.px(46);
            paintNumber(*painter, text.adjusted(0, 0, -per, 0), row.price, reading, row.noPrice, look);
            paintText(*painter, QRectF(text.right() - per + look.px(4), box.top(), per, box.height()),
                      row.per, look.font(Type::Caption), look.color(Token::Ink2));
            break;
        }
        case LarderListModel::Stock:
            paintStock(*painter, text, row, look);
            break;
        default:
            break;
        }
        if (selected && index.column() == 0 && option.widget && option.widget->hasFocus())
            painter->fillRect(QRectF(box.left(), box.top(), look.px(3), box.height()),
                              look.color(Token::Intent));
    }

  private:
    static void paintNumber(QPainter& painter, const QRectF& box, const QString& text, const QFont& font,
                            bool gap, const Look& look) {
        const double width =
            paintText(painter, box, text, font, look.color(gap ? Token::Gap : Token::Ink), Qt::AlignRight);
        if (gap && !text.isEmpty())
            paintGapUnderline(painter, box.right() - width, box.right(), box.center().y() + look.px(8), look);
    }

    static bool isStockFolded(const QStyleOptionViewItem& option) {
        const auto* table = qobject_cast<const QTableView*>(option.widget);
        return table != nullptr && table->isColumnHidden(LarderListModel::Stock);
    }

    // Where the shelf has no column of its own, what one runs out of stands behind the name.
    static double paintRunningOut(QPainter& painter, const QRectF& box, double right,
                                  const LarderListModel::Row& row, const Look& look) {
        const auto& stock = row.listed.stock;
        const bool gone = stock.off || stock.state == larder::OnShelf::Out;
        if (!gone && stock.state != larder::OnShelf::Low) return right;
        const QString word = stock.off                             ? LarderList::tr("off")
                             : stock.state == larder::OnShelf::Out ? LarderList::tr("out")
                                                                   : LarderList::tr("low");
        const double width =
            paintText(painter, QRectF(box.left(), box.top(), right - box.left(), box.height()), word,
                      look.font(Type::Caption), look.color(gone ? Token::Ink : Token::Ink2), Qt::AlignRight);
        if (stock.off)
            painter.fillRect(QRectF(right - width, box.center().y(), width, look.px(1)),
                             look.color(Token::Ink));
        return right - width - look.px(6);
    }

    void paintName(QPainter& painter, const QRectF& box, const LarderListModel::Row& row, bool selected,
                   bool stockFolded, const Look& look) const {
        const bool pending = *m_edit != nullptr && (*m_edit)->isPending(row.listed.id);
        double right = box.right() - look.px(4);
        if (stockFolded) right = paintRunningOut(painter, box, right, row, look);
        if (row.doubtful) {
            const double size = look.px(15);
            paintCautionMark(painter, QRectF(right - size, box.center().y() - size / 2, size, size),
                             look.color(Token::OnCaution), look);
            right -= size + look.px(4);
        }
        if ((row.listed.missing & (larder::kNoStrength | larder::kNoSugar | larder::kNoAcid)) != 0) {
            const double size = look.px(15);
            paintIcon(painter, QRectF(right - size, box.center().y() - size / 2, size, size), u"gap",
                      look.color(Token::Gap));
            right -= size + look.px(4);
        }
        if (row.listed.sort == larder::IngredientSort::Preparation) {
            const double size = look.px(15);
            paintIcon(painter, QRectF(box.left() + look.px(9), box.center().y() - size / 2, size, size),
                      u"preparation", look.color(Token::Ink2));
        } else if (pending) {
            paintStateMark(painter, QPointF(box.left() + look.px(16), box.center().y()), StateMark::Draft,
                           look, look.color(Token::Intent), 5);
        } else if (row.listed.sort == larder::IngredientSort::Bottle) {
            const double size = look.px(15);
            paintIcon(painter, QRectF(box.left() + look.px(9), box.center().y() - size / 2, size, size),
                      u"larder", look.color(Token::Ink2));
        }
        QFont font = look.font(Type::Line);
        if (selected) font.setBold(true);
        const double left = box.left() + look.px(32);
        const QColor ink = look.color(row.listed.own ? Token::Ink : Token::Ink2);
        paintText(painter, QRectF(left, box.top(), right - left, box.height()), row.name, font, ink);
    }

    static void paintStock(QPainter& painter, const QRectF& box, const LarderListModel::Row& row,
                           const Look& look) {
        QFont font = look.font(Type::Control);
        const auto& stock = row.listed.stock;
        const bool gone = stock.off || stock.state == larder::OnShelf::Out;
        if (gone) font.setBold(true);
        const double width = paintText(painter, box, row.stock, font,
                                       look.color(gone ? Token::Ink : Token::Ink2), Qt::AlignLeft);
        // Off the menu: struck, as the kitchen does it.
        if (stock.off)
            painter.fillRect(
                QRectF(box.left() - look.px(2), box.center().y(), width + look.px(4), look.px(1)),
                look.color(Token::Ink));
    }

    const LarderEdit* const* m_edit;
};

} // namespace

LarderList::LarderList(QWidget* parent)
    : QWidget(parent),
      m_model(new LarderListModel(this)),
      m_filter(new FilterField(this)),
      m_handbook(new QCheckBox(tr("Handboo&k"), this)),
      m_new(new QPushButton(tr("&New…"), this)),
      m_table(new QTableView(this)),
      m_empty(new QLabel(this)) {
    setAccessibleName(tr("Larder list"));
    m_filter->setPlaceholderText(tr("Filter the larder"));
    m_filter->setAccessibleName(tr("Filter the larder"));
    m_filter->installEventFilter(this);
    m_handbook->setToolTip(tr("Show the handbook's kinds too. The filter finds them in any case."));
    m_new->setToolTip(tr("A new bottle of the kind in hand, or a thing of its own."));
    m_table->setAccessibleName(tr("Ingredients"));
    m_table->setModel(m_model);
    m_table->setItemDelegate(new RowDelegate(&m_edit, m_table));
    m_table->setFrameShape(QFrame::NoFrame);
    m_table->setShowGrid(false);
    m_table->setWordWrap(false);
    m_table->setSelectionBehavior(QAbstractItemView::SelectRows);
    m_table->setSelectionMode(QAbstractItemView::SingleSelection);
    m_table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_table->setTabKeyNavigation(false);
    m_table->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_table->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_table->verticalHeader()->hide();
    m_table->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    m_table->setHorizontalHeader(new InsetHeader(m_table));
    m_table->installEventFilter(this);
    m_table->viewport()->installEventFilter(this);
    m_empty->setWordWrap(true);
    auto* top = new QHBoxLayout;
    top->setObjectName(QStringLiteral("top"));
    top->addWidget(m_filter, 1);
    top->addWidget(m_handbook);
    top->addWidget(m_new);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addLayout(top);
    column->addWidget(m_empty);
    column->addWidget(m_table, 1);

    connect(m_filter, &QLineEdit::textEdited, this,
            [this](const QString& text) { m_model->setFilter(text); });
    connect(m_handbook, &QCheckBox::toggled, m_model, &LarderListModel::setHandbookShown);
    connect(m_new, &QPushButton::clicked, this, &LarderList::newAsked);
    connect(m_model, &QAbstractItemModel::modelReset, this, [this] {
        restoreCurrent();
        showEmptiness();
    });
    connect(m_table->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
            [this](const QModelIndex& current) {
                if (!m_placing && current.isValid()) Q_EMIT chosen(m_model->row(current.row()).listed.id);
            });
    dress();
}

void LarderList::setEdit(LarderEdit* edit) {
    m_edit = edit;
    m_model->setBook(edit != nullptr ? &edit->book() : nullptr);
    if (edit != nullptr) {
        connect(edit, &LarderEdit::chosenChanged, this, &LarderList::restoreCurrent);
        connect(edit, &LarderEdit::changed, m_table->viewport(), qOverload<>(&QWidget::update));
    }
    restoreCurrent();
    showEmptiness();
}

void LarderList::restoreCurrent() {
    m_placing = true;
    const int row = m_edit != nullptr && m_edit->hasChosen() ? m_model->rowOf(m_edit->chosen()) : -1;
    if (row < 0)
        m_table->selectionModel()->clear();
    else if (m_table->currentIndex().row() != row)
        m_table->selectRow(row);
    m_placing = false;
}

void LarderList::showEmptiness() {
    const bool empty = m_model->rowCount() == 0;
    m_empty->setVisible(empty);
    if (!empty) return;
    m_empty->setText(
        m_model->filter().isEmpty()
            ? tr("Bottles, produce and what you make stand here once a drink or you name them. “New…” starts "
                 "one; “Handbook” shows the kinds that come with the program.")
            : tr("Nothing in the larder or the handbook has “%1” in its names. Esc clears the filter.")
                  .arg(m_model->filter()));
}

bool LarderList::toNextDoubt() {
    for (int row = m_table->currentIndex().row() + 1; row < m_model->rowCount(); ++row) {
        const auto& at = m_model->row(row);
        if (!at.doubtful &&
            (at.listed.missing & (larder::kNoStrength | larder::kNoSugar | larder::kNoAcid)) == 0)
            continue;
        m_table->selectRow(row);
        return true;
    }
    return false;
}

void LarderList::focusFilter() {
    m_filter->setFocus(Qt::ShortcutFocusReason);
    m_filter->selectAll();
}

void LarderList::reveal(base::IngredientId ingredient) {
    if (m_filter->text().isEmpty() || m_model->rowOf(ingredient) >= 0) return;
    m_filter->clear();
    m_model->setFilter({});
}

bool LarderList::eventFilter(QObject* object, QEvent* event) {
    if (object == m_table->viewport() && event->type() == QEvent::Resize) fitColumns();
    if (event->type() != QEvent::KeyPress) return QWidget::eventFilter(object, event);
    const auto* key = static_cast<QKeyEvent*>(event);
    const bool enter = key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter;
    const auto toList = [this] {
        m_table->setFocus(Qt::OtherFocusReason);
        if (!m_table->currentIndex().isValid() && m_model->rowCount() > 0) m_table->selectRow(0);
    };
    if (object == m_table) {
        if (enter && m_table->currentIndex().isValid()) {
            Q_EMIT left();
            return true;
        }
        if (key->key() == Qt::Key_Delete && key->modifiers() == Qt::NoModifier) {
            Q_EMIT binAsked();
            return true;
        }
        if (key->key() == Qt::Key_Insert) {
            Q_EMIT newAsked();
            return true;
        }
        return false;
    }
    if (object != m_filter) return QWidget::eventFilter(object, event);
    if (key->key() == Qt::Key_Escape && !m_filter->text().isEmpty()) {
        m_filter->clear();
        m_model->setFilter({});
        return true;
    }
    if (key->key() == Qt::Key_Down || enter) {
        toList();
        if (enter && m_table->currentIndex().isValid() && m_model->rowCount() > 0 && m_edit != nullptr &&
            m_model->rowOf(m_edit->chosen()) < 0)
            m_table->selectRow(0);
        return true;
    }
    return QWidget::eventFilter(object, event);
}

void LarderList::fitColumns() {
    const auto& theme = Theme::current();
    const int width = m_table->viewport()->width();
    // Names are what one looks for: the kind goes first, then the shelf, which the name then says in a word.
    const bool narrow = width < theme.pxInt(440);
    const int kind = width < theme.pxInt(560) ? 0 : theme.pxInt(120);
    m_table->setColumnHidden(LarderListModel::Kind, kind == 0);
    m_table->setColumnHidden(LarderListModel::Stock, narrow);
    const int strength = theme.pxInt(50);
    const int price = theme.pxInt(104);
    const int stock = narrow ? 0 : theme.pxInt(72);
    m_table->setColumnWidth(LarderListModel::Kind, kind);
    m_table->setColumnWidth(LarderListModel::Strength, strength);
    m_table->setColumnWidth(LarderListModel::Price, price);
    m_table->setColumnWidth(LarderListModel::Stock, stock);
    m_table->setColumnWidth(LarderListModel::Name,
                            std::max(theme.pxInt(90), width - kind - strength - price - stock));
}

void LarderList::dress() {
    const auto& theme = Theme::current();
    if (auto* top = findChild<QHBoxLayout*>(QStringLiteral("top"))) {
        top->setContentsMargins(theme.pxInt(12), theme.pxInt(10), theme.pxInt(10), theme.pxInt(6));
        top->setSpacing(theme.pxInt(8));
    }
    m_filter->setFixedHeight(theme.pxInt(26));
    m_table->verticalHeader()->setDefaultSectionSize(theme.pxInt(30));
    m_table->horizontalHeader()->setFixedHeight(theme.pxInt(26));
    m_table->horizontalHeader()->setFont(theme.font(Type::Caption));
    QPalette colors = palette();
    colors.setColor(QPalette::Base, theme.color(Token::Surface));
    m_table->setPalette(colors);
    m_empty->setContentsMargins(theme.pxInt(12), theme.pxInt(8), theme.pxInt(12), theme.pxInt(8));
    QPalette quiet = palette();
    quiet.setColor(QPalette::WindowText, theme.color(Token::Ink2));
    m_empty->setPalette(quiet);
    fitColumns();
}

void LarderList::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), Theme::current().color(Token::Surface));
}

void LarderList::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

} // namespace stillroom::ui
