#include "ui/panels/shelf_panel.h"

#include "ui/delegates/shelf_delegate.h"
#include "ui/theme/theme.h"
#include "ui/widgets/key_hint.h"

#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QListView>
#include <QPainter>
#include <QVBoxLayout>

namespace stillroom::ui {

namespace {

// The filter says its key as long as it is empty.
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

} // namespace

ShelfPanel::ShelfPanel(QWidget* parent)
    : QWidget(parent),
      m_model(new ShelfModel(this)),
      m_filter(new FilterField(this)),
      m_list(new QListView(this)),
      m_empty(new QLabel(this)) {
    setAccessibleName(tr("Shelf"));
    m_filter->setPlaceholderText(tr("Filter drinks"));
    m_filter->setAccessibleName(tr("Filter drinks"));
    m_filter->installEventFilter(this);
    m_list->setAccessibleName(tr("Drinks"));
    m_list->installEventFilter(this);
    m_list->setModel(m_model);
    m_list->setItemDelegate(new ShelfDelegate(m_list));
    m_list->setUniformItemSizes(true);
    m_list->setFrameShape(QFrame::NoFrame);
    m_list->setSelectionMode(QAbstractItemView::SingleSelection);
    m_list->setMouseTracking(true);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_list->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_empty->setWordWrap(true);
    m_empty->setFocusPolicy(Qt::NoFocus);

    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    auto* top = new QVBoxLayout;
    top->addWidget(m_filter);
    top->addWidget(m_empty);
    layout->addLayout(top);
    layout->addWidget(m_list, 1);
    top->setObjectName(QStringLiteral("top"));
    dress();

    connect(m_filter, &QLineEdit::textEdited, this, [this](const QString& text) {
        m_model->setFilter(text);
        restoreCurrent();
        showEmptiness();
    });
    connect(m_model, &QAbstractItemModel::modelReset, this, [this] {
        restoreCurrent();
        showEmptiness();
    });
    connect(m_list->selectionModel(), &QItemSelectionModel::currentChanged, this,
            [this](const QModelIndex& current, const QModelIndex&) {
                if (m_placing || !current.isValid()) return;
                const auto& row = m_model->row(current.row());
                if (row.sort == ShelfModel::Sort::Heading || row.drink == m_current) return;
                m_current = row.drink;
                Q_EMIT drinkChosen(row.drink);
            });
}

void ShelfPanel::dress() {
    const auto& theme = Theme::current();
    if (auto* top = findChild<QVBoxLayout*>(QStringLiteral("top")))
        top->setContentsMargins(theme.pxInt(12), theme.pxInt(10), theme.pxInt(12), theme.pxInt(2));
    m_filter->setFixedHeight(theme.pxInt(26));
    QPalette colors = palette();
    colors.setColor(QPalette::Base, theme.color(Token::Surface));
    m_list->setPalette(colors);
    QPalette quiet = palette();
    quiet.setColor(QPalette::WindowText, theme.color(Token::Ink3));
    m_empty->setPalette(quiet);
}

void ShelfPanel::setBook(WorkbookSession* book) {
    m_filter->clear();
    m_current = {};
    m_model->setBook(book);
    showEmptiness();
}

void ShelfPanel::showEmptiness() {
    const bool empty = m_model->rowCount() == 0;
    m_empty->setVisible(empty);
    if (!empty) return;
    m_empty->setText(m_model->filter().isEmpty()
                         ? tr("Drinks you write are listed here, with their strength as served.")
                         : tr("No drink has “%1” in its name.").arg(m_model->filter()));
}

void ShelfPanel::setCurrent(base::DrinkId drink) {
    m_current = drink;
    restoreCurrent();
}

void ShelfPanel::restoreCurrent() {
    m_placing = true;
    const int row = m_model->rowOf(m_current);
    m_list->setCurrentIndex(row < 0 ? QModelIndex() : m_model->index(row));
    m_placing = false;
}

void ShelfPanel::focusFilter() {
    m_filter->setFocus(Qt::ShortcutFocusReason);
    m_filter->selectAll();
}

bool ShelfPanel::eventFilter(QObject* object, QEvent* event) {
    if (event->type() != QEvent::KeyPress) return QWidget::eventFilter(object, event);
    const auto* key = static_cast<QKeyEvent*>(event);
    if (object == m_list) {
        // With no drink in hand the view would try the heading on top, and stay nowhere.
        const int first = m_model->firstDrinkRow();
        if (m_list->currentIndex().isValid() || first < 0 ||
            (key->key() != Qt::Key_Down && key->key() != Qt::Key_Up))
            return false;
        m_list->setCurrentIndex(m_model->index(first));
        return true;
    }
    if (object != m_filter) return QWidget::eventFilter(object, event);
    switch (key->key()) {
    case Qt::Key_Escape:
        m_filter->clear();
        m_model->setFilter({});
        restoreCurrent();
        showEmptiness();
        m_list->setFocus(Qt::OtherFocusReason);
        return true;
    case Qt::Key_Down:
        m_list->setFocus(Qt::OtherFocusReason);
        if (!m_list->currentIndex().isValid() && m_model->firstDrinkRow() >= 0)
            m_list->setCurrentIndex(m_model->index(m_model->firstDrinkRow()));
        return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (m_model->firstDrinkRow() >= 0) m_list->setCurrentIndex(m_model->index(m_model->firstDrinkRow()));
        m_list->setFocus(Qt::OtherFocusReason);
        return true;
    default:
        return QWidget::eventFilter(object, event);
    }
}

void ShelfPanel::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const Look& look = Theme::current().look();
    painter.fillRect(rect(), look.color(Token::Surface));
    painter.fillRect(QRectF(width() - look.px(1), 0, look.px(1), height()), look.color(Token::Rule));
}

void ShelfPanel::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

} // namespace stillroom::ui
