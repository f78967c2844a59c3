#include "ui/panels/tasting/tasting_page.h"

#include "ui/panels/tasting/tasting_list.h"
#include "ui/plots/plot_text.h"
#include "ui/theme/banner.h"
#include "ui/theme/theme.h"

#include <QBoxLayout>
#include <QFrame>
#include <QKeyEvent>
#include <QLabel>
#include <QScrollArea>
#include <QScrollBar>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

void setToken(QLabel* label, Token token) {
    auto palette = label->palette();
    palette.setColor(QPalette::WindowText, Theme::current().color(token));
    label->setPalette(palette);
}

QScrollArea* pageScroll(QWidget* inside) {
    auto* scroll = new QScrollArea;
    scroll->setWidget(inside);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->viewport()->setBackgroundRole(QPalette::Base);
    scroll->viewport()->setAutoFillBackground(true);
    inside->setBackgroundRole(QPalette::Base);
    return scroll;
}

} // namespace

TastingPage::TastingPage(QWidget* parent) : QWidget(parent) {
    setAccessibleName(u"Tasting"_s);
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::Base);
    m_title = new QLabel;
    m_about = new QLabel;
    m_list = new TastingList;

    m_head = new QHBoxLayout;
    m_head->addWidget(m_title, 0, Qt::AlignBaseline);
    m_head->addWidget(m_about, 1, Qt::AlignBaseline);
    // However long a name or a change is, the page stays as narrow as its window.
    m_title->setMinimumWidth(1);
    m_about->setMinimumWidth(1);
    auto* rule = new QFrame;
    rule->setFrameShape(QFrame::NoFrame);
    rule->setFixedHeight(1);
    rule->setAutoFillBackground(true);
    rule->setBackgroundRole(QPalette::Mid);

    auto* inside = new QWidget;
    m_body = new QBoxLayout(QBoxLayout::LeftToRight, inside);
    m_body->setContentsMargins(0, 0, 0, 0);
    m_body->setSpacing(0);
    m_form = new TastingForm;
    m_body->addWidget(m_form, 10);
    m_divide = new QFrame;
    m_divide->setFrameShape(QFrame::NoFrame);
    m_divide->setAutoFillBackground(true);
    m_divide->setBackgroundRole(QPalette::Mid);
    m_body->addWidget(m_divide);
    m_body->addWidget(m_list, 11);
    m_scroll = pageScroll(inside);

    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->setSpacing(0);
    whole->addLayout(m_head);
    whole->addWidget(rule);
    whole->addWidget(m_scroll, 1);

    connect(m_form, &TastingForm::saveRequested, this, &TastingPage::saveRequested);
    connect(m_form, &TastingForm::focusMoved, this,
            [this](QWidget* to) { m_scroll->ensureWidgetVisible(to, 0, Theme::current().pxInt(24)); });
    connect(m_form, &TastingForm::correctionChanged, this, [this] {
        m_about->setToolTip(aboutText());
        m_about->setAccessibleName(aboutText());
        place();
    });
    connect(m_list, &TastingList::correctionAsked, this, &TastingPage::correct);
    connect(m_list, &TastingList::photosAsked, this, [this](std::size_t tasting) {
        if (tasting < m_sheet.tastings.size()) Q_EMIT photosAsked(m_sheet.tastings[tasting].said.id);
    });
    connect(m_list, &TastingList::boxMoved, this, [this](const QRect& box) {
        const auto at = m_list->mapTo(m_scroll->widget(), box.center());
        m_scroll->ensureVisible(at.x(), at.y(), 0, box.height() / 2 + 8);
    });
    connect(&Theme::current(), &Theme::changed, this, [this] { dress(); });
    dress();
}

QString TastingPage::aboutText() const {
    if (m_sheet.revision.isEmpty()) return {};
    if (m_form->isCorrecting())
        return u"correcting what %1 said of %2"_s.arg(m_form->input().initials, m_sheet.revision);
    return u"tasting %1, %2"_s.arg(m_sheet.revision, m_sheet.about);
}

// Below this the list of tastings stands under the entry instead of beside it.
void TastingPage::place() {
    const auto& theme = Theme::current();
    const bool narrow = width() < theme.px(900);
    m_head->setSpacing(theme.pxInt(14));
    m_head->setContentsMargins(theme.pxInt(16), theme.pxInt(8), theme.pxInt(16), theme.pxInt(8));
    m_title->setText(elided(m_sheet.drink, Type::Title, theme.look(), width() * 0.5));
    m_about->setText(elided(aboutText(), Type::Control, theme.look(),
                            width() - theme.px(60) - textWidth(m_title->text(), Type::Title, theme.look())));
    m_body->setDirection(narrow ? QBoxLayout::TopToBottom : QBoxLayout::LeftToRight);
    m_divide->setFixedWidth(narrow ? QWIDGETSIZE_MAX : 1);
    m_divide->setFixedHeight(narrow ? 1 : QWIDGETSIZE_MAX);
    if (!narrow) m_divide->setMinimumHeight(0);
    if (narrow) m_divide->setMinimumWidth(0);
}

void TastingPage::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    place();
}

void TastingPage::setSheet(const TastingSheet& sheet) {
    m_sheet = sheet;
    m_form->setSheet(sheet);
    m_title->setToolTip(sheet.drink);
    m_title->setAccessibleName(sheet.drink);
    m_about->setToolTip(aboutText());
    m_about->setAccessibleName(aboutText());
    place();
    m_list->setSheet(sheet);
    startEntry();
}

void TastingPage::setTastings(const std::vector<TastingEntry>& tastings) {
    m_sheet.tastings = tastings;
    m_list->setTastings(tastings);
}

void TastingPage::correct(std::size_t tasting) {
    if (tasting >= m_sheet.tastings.size()) return;
    if (m_form->holdsUnsaved()) {
        showError(u"What you are writing is not saved yet."_s,
                  u"Save it, or take it out, before correcting another."_s);
        m_scroll->ensureWidgetVisible(&m_form->banner());
        return;
    }
    m_form->setSheet(m_sheet);
    m_form->setInput(inputFrom(m_sheet.tastings[tasting]));
    m_form->startEntry();
    m_scroll->verticalScrollBar()->setValue(0);
}

void TastingPage::keyPressEvent(QKeyEvent* event) {
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (enter && event->modifiers().testFlag(Qt::ControlModifier))
        m_form->save();
    else if (event->key() == Qt::Key_Escape)
        Q_EMIT closed();
    else
        QWidget::keyPressEvent(event);
}

void TastingPage::dress() {
    const auto& theme = Theme::current();
    place();
    m_title->setFont(theme.font(Type::Title));
    m_about->setFont(theme.font(Type::Control));
    setToken(m_title, Token::Ink);
    setToken(m_about, Token::Ink2);
}

} // namespace stillroom::ui
