#include "ui/panels/asks/asks_page.h"

#include "ui/panels/asks/ask_list.h"
#include "ui/panels/asks/course_charts.h"
#include "ui/plots/plot_text.h"
#include "ui/theme/theme.h"

#include <QBoxLayout>
#include <QFrame>
#include <QKeyEvent>
#include <QLabel>
#include <QScrollArea>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

AsksPage::AsksPage(QWidget* parent) : QWidget(parent) {
    setWindowTitle(u"What tasters ask for"_s);
    setAccessibleName(u"What tasters ask for"_s);
    setProperty("keyHints",
                QStringList{u"↑ ↓"_s, u"choose"_s, u"Enter"_s, u"take it"_s, u"Esc"_s, u"back"_s});
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::Base);
    m_title = new QLabel;
    m_about = new QLabel;
    m_title->setMinimumWidth(1);
    m_about->setMinimumWidth(1);
    m_head = new QHBoxLayout;
    m_head->addWidget(m_title, 0, Qt::AlignBaseline);
    m_head->addWidget(m_about, 1, Qt::AlignBaseline);
    const auto rule = [] {
        auto* line = new QFrame;
        line->setFrameShape(QFrame::NoFrame);
        line->setAutoFillBackground(true);
        line->setBackgroundRole(QPalette::Mid);
        return line;
    };
    auto* under = rule();
    under->setFixedHeight(1);
    m_list = new AskList;
    m_charts = new CourseCharts;
    m_divide = rule();
    auto* inside = new QWidget;
    inside->setBackgroundRole(QPalette::Base);
    m_body = new QBoxLayout(QBoxLayout::LeftToRight, inside);
    m_body->setContentsMargins(0, 0, 0, 0);
    m_body->setSpacing(0);
    m_body->addWidget(m_list, 10);
    m_body->addWidget(m_divide);
    m_body->addWidget(m_charts, 11);
    m_scroll = new QScrollArea;
    m_scroll->setWidget(inside);
    m_scroll->setWidgetResizable(true);
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_scroll->setFocusPolicy(Qt::NoFocus);
    m_scroll->viewport()->setBackgroundRole(QPalette::Base);
    m_scroll->viewport()->setAutoFillBackground(true);
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->setSpacing(0);
    whole->addLayout(m_head);
    whole->addWidget(under);
    whole->addWidget(m_scroll, 1);
    setTabOrder(m_list, m_charts);
    connect(m_list, &AskList::taken, this, [this](int index) {
        if (const auto* change = m_list->change(index)) Q_EMIT changeTaken(*change);
    });
    connect(m_list, &AskList::boxMoved, this, [this](const QRect& box) {
        const auto at = m_list->mapTo(m_scroll->widget(), box.center());
        m_scroll->ensureVisible(at.x(), at.y(), 0, box.height() / 2 + 8);
    });
    connect(&Theme::current(), &Theme::changed, this, &AsksPage::place);
    place();
}

void AsksPage::setValues(const AsksValues& values, bool taking) {
    m_values = values;
    m_list->setTaking(taking);
    m_list->setValues(values);
    m_charts->setValues(values);
    place();
}

void AsksPage::place() {
    const auto& theme = Theme::current();
    const auto& look = theme.look();
    const bool narrow = width() < theme.px(900);
    m_head->setSpacing(theme.pxInt(14));
    m_head->setContentsMargins(theme.pxInt(16), theme.pxInt(8), theme.pxInt(16), theme.pxInt(8));
    const auto title = elided(m_values.drink, Type::Title, look, width() * 0.5);
    m_title->setText(title);
    m_title->setToolTip(m_values.drink);
    m_title->setFont(theme.font(Type::Title));
    const auto about = m_values.revision.isEmpty() ? u"what tasters ask for"_s
                                                   : u"what tasters ask of %1"_s.arg(m_values.revision);
    m_about->setText(
        elided(about, Type::Control, look, width() - theme.px(60) - textWidth(title, Type::Title, look)));
    m_about->setFont(theme.font(Type::Control));
    m_body->setDirection(narrow ? QBoxLayout::TopToBottom : QBoxLayout::LeftToRight);
    m_divide->setMaximumSize(narrow ? QWIDGETSIZE_MAX : 1, narrow ? 1 : QWIDGETSIZE_MAX);
    m_divide->setMinimumSize(narrow ? 0 : 1, narrow ? 1 : 0);
}

void AsksPage::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    place();
}

void AsksPage::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    m_list->setFocus(event->reason());
}

void AsksPage::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape)
        Q_EMIT closed();
    else
        QWidget::keyPressEvent(event);
}

} // namespace stillroom::ui
