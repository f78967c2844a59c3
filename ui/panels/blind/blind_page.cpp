#include "ui/panels/blind/blind_page.h"

#include "ui/panels/blind/answer_table.h"
#include "ui/panels/blind/blind_parts.h"
#include "ui/panels/blind/design_form.h"
#include "ui/plots/plot_text.h"
#include "ui/text/border.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

#include <QKeyEvent>
#include <QLabel>
#include <QListWidget>
#include <QPainter>
#include <QPushButton>
#include <QScrollArea>
#include <QStyledItemDelegate>
#include <QVBoxLayout>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

constexpr int kStateRole = Qt::UserRole + 1;
constexpr int kBinnedRole = Qt::UserRole + 2;
constexpr double kRow = 48;

// A name by hand, and below it where the session stands.
class SessionDelegate : public QStyledItemDelegate {
  public:
    using QStyledItemDelegate::QStyledItemDelegate;

    QSize sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const override {
        return {10, Theme::current().pxInt(kRow)};
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override {
        const Look& look = Theme::current().look();
        const QRectF box = option.rect;
        const bool selected = option.state.testFlag(QStyle::State_Selected);
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        painter->fillRect(box, look.color(selected ? Token::Selection : Token::Surface));
        if (selected)
            painter->fillRect(QRectF(box.left(), box.top(), look.px(3), box.height()),
                              look.color(Token::Intent));
        const double left = box.left() + look.px(12);
        const double room = box.width() - look.px(20);
        const bool binned = index.data(kBinnedRole).toBool();
        drawLabel(*painter, {left, box.top() + look.px(16)}, Stand::Left, index.data(Qt::UserRole).toString(),
                  Type::Line, binned ? Token::Ink2 : Token::Ink, look, room);
        drawLabel(*painter, {left, box.top() + look.px(35)}, Stand::Left, index.data(kStateRole).toString(),
                  Type::Unit, Token::Ink2, look, room);
        if (option.state.testFlag(QStyle::State_HasFocus))
            paintFocusFrame(*painter, box.adjusted(look.px(3), look.px(3), -look.px(3), -look.px(3)), look);
        painter->restore();
    }
};

} // namespace

BlindPage::BlindPage(BlindDesk& desk, QWidget* parent)
    : QWidget(parent),
      m_desk(desk),
      m_side(new QWidget),
      m_new(blindButton(tr("&New session"))),
      m_list(new QListWidget),
      m_divide(new QWidget),
      m_scroll(new QScrollArea),
      m_halves(new QBoxLayout(QBoxLayout::LeftToRight, this)) {
    setAccessibleName(tr("Blind panels"));
    setWindowTitle(tr("Blind panels"));
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::Base);
    m_list->setAccessibleName(tr("Sessions"));
    m_list->setItemDelegate(new SessionDelegate(m_list));
    m_list->setFrameShape(QFrame::NoFrame);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_list->installEventFilter(this);
    m_side->setAutoFillBackground(true);
    auto* side = blindColumn(m_side, 0);
    auto* top = new QHBoxLayout;
    top->setObjectName(u"top"_s);
    top->addWidget(m_new, 1);
    side->addLayout(top);
    side->addWidget(m_list, 1);
    m_divide->setAutoFillBackground(true);
    m_divide->setBackgroundRole(QPalette::Mid);
    m_scroll->setWidgetResizable(true);
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setFocusPolicy(Qt::NoFocus);
    m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_scroll->viewport()->setBackgroundRole(QPalette::Base);
    m_scroll->viewport()->setAutoFillBackground(true);
    m_halves->setContentsMargins(0, 0, 0, 0);
    m_halves->setSpacing(0);
    m_halves->addWidget(m_side);
    m_halves->addWidget(m_divide);
    m_halves->addWidget(m_scroll, 1);
    setFocusProxy(m_list);
    connect(m_new, &QPushButton::clicked, this, &BlindPage::showForm);
    connect(m_list, &QListWidget::currentRowChanged, this, &BlindPage::chooseRow);
    connect(&desk, &BlindDesk::sessionsChanged, this, &BlindPage::fillList);
    // Not while the style is being put on: the view is made anew with the new fonts.
    connect(&Theme::current(), &Theme::changed, this, &BlindPage::rebuild, Qt::QueuedConnection);
    dress();
    fillList();
    if (!m_desk.sessions().empty() && !m_desk.sessions().front().binned)
        showSession(m_desk.sessions().front().id);
    else
        showEmpty();
}

QWidget* BlindPage::emptyPage() const {
    auto* widget = new QWidget;
    auto* column = blindColumn(widget, 10);
    column->addWidget(paragraph(tr("No session yet"), Type::Title, Token::Ink));
    column->addWidget(paragraph(
        tr("A blind panel says whether tasters can tell two versions apart, which they prefer, or in which "
           "order they put up to eight, without knowing what they drink."),
        Type::Reading, Token::Ink));
    column->addWidget(paragraph(
        tr("“New session” asks what is compared and who tastes, says before a drop is poured what so many "
           "tasters can show, and deals coded cups in balanced orders."),
        Type::Reading, Token::Ink));
    column->addStretch(1);
    return widget;
}

void BlindPage::show(QWidget* content) {
    auto* frame = new QWidget;
    frame->setBackgroundRole(QPalette::Base);
    auto* column = new QVBoxLayout(frame);
    const auto& theme = Theme::current();
    column->setContentsMargins(theme.pxInt(20), theme.pxInt(12), theme.pxInt(20), theme.pxInt(16));
    column->addWidget(content, 1);
    m_scroll->setWidget(frame); // the one before is deleted
    place();
}

void BlindPage::showEmpty() {
    m_shown.reset();
    show(emptyPage());
    m_placing = true;
    m_list->setCurrentRow(-1);
    m_placing = false;
}

void BlindPage::showForm() {
    m_desk.startWish();
    auto* form = new DesignForm(m_desk);
    m_form = form;
    m_view = nullptr;
    m_shown.reset();
    connect(form, &DesignForm::addProductAsked, this, &BlindPage::addProductAsked);
    connect(form, &DesignForm::refused, this, &BlindPage::said);
    connect(form, &DesignForm::left, this, &BlindPage::closed);
    connect(
        form, &DesignForm::dealt, this,
        [this](base::PanelId panel) {
            showSession(panel);
            Q_EMIT said(tr("The cups are dealt. Print the sheets and the pourer’s key, then start pouring."));
        },
        Qt::QueuedConnection); // the form is gone by then
    show(form);
    m_placing = true;
    m_list->setCurrentRow(-1);
    m_list->clearSelection();
    m_placing = false;
    form->focusFirst();
}

void BlindPage::showSession(base::PanelId panel) {
    const auto session = m_desk.session(panel);
    if (!session) return;
    const bool hadFocus = m_scroll->isAncestorOf(focusWidget()) || m_shown != panel;
    auto* view = new SessionView(m_desk, *session);
    m_view = view;
    m_form = nullptr;
    m_shown = panel;
    connect(view, &SessionView::asked, this, &BlindPage::asked);
    connect(view, &SessionView::said, this, &BlindPage::said);
    connect(view, &SessionView::renamed, this, [this, panel](const QString& name) {
        if (!m_desk.rename(panel, name)) Q_EMIT said(tr("The name stays as it was."));
    });
    show(view);
    fillList();
    if (hadFocus && !m_list->hasFocus() && isVisible())
        if (auto* first = view->first()) first->setFocus(Qt::OtherFocusReason);
}

void BlindPage::rebuild() {
    dress();
    if (m_view)
        showSession(m_view->id());
    else if (m_form)
        showForm();
    else
        showEmpty();
    fillList();
}

void BlindPage::fillList() {
    m_placing = true;
    m_list->clear();
    int current = -1;
    for (const auto& summary : m_desk.sessions()) {
        const QString name = fromCore(summary.name);
        const QString state =
            u"%1 · %2"_s.arg(fromCore(tasting::kindName(summary.kind)), stateWords(summary));
        auto* item = new QListWidgetItem(name + u", "_s + state, m_list);
        item->setData(Qt::UserRole, name);
        item->setData(kStateRole, state);
        item->setData(kBinnedRole, summary.binned);
        item->setToolTip(name + u'\n' + state);
        if (m_shown == summary.id) current = m_list->count() - 1;
        if (m_view && m_view->id() == summary.id) m_view->setSummary(summary);
    }
    m_list->setCurrentRow(current);
    m_placing = false;
}

void BlindPage::chooseRow(int row) {
    const auto& sessions = m_desk.sessions();
    if (m_placing || row < 0 || static_cast<std::size_t>(row) >= sessions.size()) return;
    const auto id = sessions[static_cast<std::size_t>(row)].id;
    if (m_shown != id) showSession(id);
}

bool BlindPage::eventFilter(QObject* object, QEvent* event) {
    if (object == m_list && event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if (key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter) {
            if (m_view && m_view->first()) m_view->first()->setFocus(Qt::TabFocusReason);
            return true;
        }
        if (key->key() == Qt::Key_Insert) {
            showForm();
            return true;
        }
    }
    return QWidget::eventFilter(object, event);
}

void BlindPage::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape)
        Q_EMIT closed();
    else
        QWidget::keyPressEvent(event);
}

void BlindPage::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    place();
}

// Where there is no room beside it, the list stands over what it lists.
void BlindPage::place() {
    const auto& theme = Theme::current();
    const bool narrow = width() < theme.px(800);
    m_halves->setDirection(narrow ? QBoxLayout::TopToBottom : QBoxLayout::LeftToRight);
    m_side->setFixedWidth(narrow ? QWIDGETSIZE_MAX : theme.pxInt(232));
    if (narrow) m_side->setMinimumWidth(0);
    m_side->setMaximumHeight(narrow ? theme.pxInt(42 + kRow * 2) : QWIDGETSIZE_MAX);
    m_divide->setFixedSize(narrow ? QSize(QWIDGETSIZE_MAX, 1) : QSize(1, QWIDGETSIZE_MAX));
    if (narrow)
        m_divide->setMinimumWidth(0);
    else
        m_divide->setMinimumHeight(0);
}

void BlindPage::dress() {
    const auto& theme = Theme::current();
    if (auto* top = findChild<QHBoxLayout*>(u"top"_s))
        top->setContentsMargins(theme.pxInt(12), theme.pxInt(10), theme.pxInt(12), theme.pxInt(6));
    QPalette colors = m_side->palette();
    colors.setColor(QPalette::Window, theme.color(Token::Surface));
    colors.setColor(QPalette::Base, theme.color(Token::Surface));
    m_side->setPalette(colors);
    m_list->setPalette(colors);
    place();
}

} // namespace stillroom::ui
