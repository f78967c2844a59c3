#include "ui/panels/form_page.h"

#include "ui/delegates/title_delegate.h"
#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QListWidget>
#include <QScrollArea>
#include <QVBoxLayout>

namespace stillroom::ui {

FormPage::FormPage(const QString& title, int wide, QWidget* parent)
    : QWidget(parent),
      m_wide(wide),
      m_side(new QWidget(this)),
      m_sideColumn(new QVBoxLayout(m_side)),
      m_list(new QListWidget(m_side)),
      m_scroll(new QScrollArea(this)),
      m_right(new QVBoxLayout),
      m_title(new QLabel),
      m_form(new ConversionForm),
      m_values(new ValueRows) {
    setAccessibleName(title);
    setWindowTitle(title);
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::Base);
    m_list->setAccessibleName(title);
    m_list->setFrameShape(QFrame::NoFrame);
    m_list->setItemDelegate(new TitleDelegate(m_list));
    m_list->setResizeMode(QListView::Adjust);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_list->installEventFilter(this);
    m_sideColumn->addWidget(m_list, 1);
    m_title->setWordWrap(true);
    auto* sheet = new QWidget;
    sheet->setBackgroundRole(QPalette::Base);
    m_sheetColumn = new QVBoxLayout(sheet);
    m_sheetColumn->addWidget(m_title);
    m_sheetColumn->addWidget(m_form);
    m_sheetColumn->addWidget(m_values);
    m_scroll->setWidget(sheet);
    m_scroll->setWidgetResizable(true);
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setFocusPolicy(Qt::NoFocus);
    m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_scroll->viewport()->setBackgroundRole(QPalette::Base);
    m_scroll->viewport()->setAutoFillBackground(true);
    m_right->setContentsMargins(0, 0, 0, 0);
    m_right->setSpacing(0);
    m_right->addWidget(m_scroll, 1);
    auto* divide = new QWidget(this);
    divide->setAutoFillBackground(true);
    divide->setBackgroundRole(QPalette::Mid);
    divide->setFixedWidth(1);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    row->addWidget(m_side);
    row->addWidget(divide);
    row->addLayout(m_right, 1);
    setFocusProxy(m_list);
    connect(m_list, &QListWidget::itemActivated, this, &FormPage::toFirstField);
    FormPage::dress();
}

QLabel* FormPage::addSmallPrint() {
    auto* label = new WrapLabel;
    label->setWordWrap(true);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    m_sheetColumn->addWidget(label);
    m_smallPrint << label;
    return label;
}

void FormPage::setTitle(const QString& title) {
    m_title->setText(title);
}
QString FormPage::title() const {
    return m_title->text();
}

void FormPage::toFirstField() {
    if (auto* field = m_form->firstField()) field->setFocus(Qt::TabFocusReason);
}

void FormPage::toTop() {
    m_scroll->ensureVisible(0, 0);
}

void FormPage::setInk(QLabel& label, Token token) {
    label.setForegroundRole(QPalette::WindowText); // on a page it would be Text
    QPalette colors = label.palette();
    colors.setColor(QPalette::WindowText, Theme::current().color(token));
    label.setPalette(colors);
}

bool FormPage::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_list && event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if (key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter) {
            toFirstField();
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

void FormPage::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape)
        Q_EMIT closed();
    else
        QWidget::keyPressEvent(event);
}

void FormPage::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

void FormPage::dress() {
    const auto& theme = Theme::current();
    const int gap = theme.pxInt(12);
    m_side->setFixedWidth(theme.pxInt(m_wide));
    m_sideColumn->setContentsMargins(gap, gap, gap / 2, 0);
    m_list->setFont(theme.font(Type::Control));
    m_list->doItemsLayout();
    m_sheetColumn->setContentsMargins(theme.pxInt(24), gap, theme.pxInt(24), gap);
    m_sheetColumn->setSpacing(theme.pxInt(8));
    m_title->setFont(theme.font(Type::Title));
    setInk(*m_title, Token::Ink);
    for (auto* label : std::as_const(m_smallPrint)) {
        label->setFont(theme.font(Type::Caption));
        label->setMaximumWidth(theme.pxInt(640));
        setInk(*label, Token::Ink2);
    }
}

} // namespace stillroom::ui
