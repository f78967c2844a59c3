#include "ui/panels/tasting/tasting_page.h"

#include "ui/panels/tasting/scale_entry.h"
#include "ui/panels/tasting/tasting_list.h"
#include "ui/panels/tasting/verdict_keys.h"
#include "ui/plots/plot_text.h"
#include "ui/text/border.h"
#include "ui/theme/banner.h"
#include "ui/theme/theme.h"
#include "ui/widgets/prose_edit.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QVBoxLayout>

#include <algorithm>

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
    m_body->addWidget(makeEntry(), 10);
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

    connect(&Theme::current(), &Theme::changed, this, [this] { dress(); });
    dress();
}

QWidget* TastingPage::makeEntry() {
    auto* entry = new QWidget;
    auto* column = new QVBoxLayout(entry);
    m_column = column;
    const auto caption = [this](const QString& text) {
        auto* label = new QLabel(text);
        m_captions.push_back(label);
        return label;
    };

    m_who = new QComboBox;
    m_who->setEditable(true);
    m_who->setInsertPolicy(QComboBox::NoInsert);
    m_who->setAccessibleName(u"Who tastes: initials or name"_s);
    m_who->lineEdit()->setPlaceholderText(u"initials"_s);
    m_when = new QLabel;
    auto* whoLabel = caption(u"&who"_s);
    whoLabel->setBuddy(m_who);
    auto* who = new QVBoxLayout;
    who->setSpacing(2);
    who->addWidget(whoLabel);
    who->addWidget(m_who);
    auto* when = new QVBoxLayout;
    when->setSpacing(2);
    when->addWidget(caption(u"when"_s));
    when->addWidget(m_when);
    auto* top = new QHBoxLayout;
    top->addLayout(who);
    top->addSpacing(20);
    top->addLayout(when);
    top->addStretch(1);
    column->addLayout(top);

    m_banner = new Banner;
    column->addWidget(m_banner);

    m_rings = caption(QString());
    auto* hint = new QHBoxLayout;
    auto* say = caption(u"Type a number from 0 to 15, Enter goes on"_s);
    // Captions never make the page wider than the window.
    for (auto* label : {say, m_rings})
        label->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    m_rings->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    hint->addWidget(say, 3);
    hint->addWidget(m_rings, 2);
    column->addLayout(hint);
    auto* scales = new QVBoxLayout;
    scales->setSpacing(0);
    for (std::size_t i = 0; i < m_scales.size(); ++i) {
        m_scales[i] = new ScaleEntry(scaleName(static_cast<tasting::Scale>(i)));
        scales->addWidget(m_scales[i]);
        connect(m_scales[i], &ScaleEntry::leaveForward, this, [this, i] { goOn(m_scales[i], 1); });
        connect(m_scales[i], &ScaleEntry::leaveBackward, this, [this, i] { goOn(m_scales[i], -1); });
    }
    column->addLayout(scales);

    m_note = new ProseEdit(Type::Line, ProseEdit::Undo::Own);
    m_note->setAccessibleName(u"Note"_s);
    m_note->setPlaceholderText(u"what it tastes like, in your words"_s);
    m_note->setEnterLeaves(false); // a letter of the next line must never reach the verdict keys
    auto* noteLabel = caption(u"&note   Enter for a new line, Tab goes on, Ctrl Enter saves"_s);
    noteLabel->setBuddy(m_note);
    noteLabel->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    column->addWidget(noteLabel);
    m_noteFrame = new QFrame;
    m_noteFrame->setFrameShape(QFrame::StyledPanel);
    m_noteFrame->setFocusProxy(m_note);
    // Two lines tall at the least, and growing with what is written.
    auto* noteBox = new QHBoxLayout(m_noteFrame);
    noteBox->setContentsMargins(8, 6, 8, 6);
    noteBox->addWidget(m_note, 1, Qt::AlignTop);
    m_noteRoom = new QSpacerItem(0, 0);
    noteBox->addItem(m_noteRoom);
    column->addWidget(m_noteFrame);

    m_verdict = new VerdictKeys;
    m_tryNext = new QLineEdit;
    m_tryNext->setAccessibleName(u"Try next"_s);
    m_tryNext->setPlaceholderText(u"honey 17.5"_s);
    auto* tryLabel = new QLabel(u"&try next"_s);
    tryLabel->setBuddy(m_tryNext);
    m_captions.push_back(tryLabel);
    connect(m_verdict, &VerdictKeys::leaveForward, this, [this] { goOn(m_verdict, 1); });
    connect(m_verdict, &VerdictKeys::leaveBackward, this, [this] { goOn(m_verdict, -1); });
    connect(m_tryNext, &QLineEdit::returnPressed, this, [this] { goOn(m_tryNext, 1); });
    column->addWidget(m_verdict);
    auto* next = new QHBoxLayout;
    next->addWidget(tryLabel);
    next->addWidget(m_tryNext, 1);
    column->addLayout(next);

    m_save = new QPushButton(u"&Save the note   Ctrl Enter"_s);
    m_save->setProperty("act", true);
    m_save->setAutoDefault(false);
    connect(m_save, &QPushButton::clicked, this, [this] { save(); });
    auto* acts = new QHBoxLayout;
    acts->addWidget(m_save);
    acts->addStretch(1);
    column->addSpacing(6);
    column->addLayout(acts);
    column->addStretch(1);

    chain({m_who, m_scales[0], m_scales[1], m_scales[2], m_scales[3], m_scales[4], m_note, m_verdict,
           m_tryNext, m_save});
    m_who->lineEdit()->installEventFilter(this);
    m_who->installEventFilter(this);
    return entry;
}

void TastingPage::chain(const std::vector<QWidget*>& order) {
    m_order = order;
    for (std::size_t i = 1; i < order.size(); ++i)
        setTabOrder(order[i - 1], order[i]);
}

QString TastingPage::aboutText() const {
    if (m_sheet.revision.isEmpty()) return {};
    return u"tasting %1, %2"_s.arg(m_sheet.revision, m_sheet.about);
}

// Below this the list of tastings stands under the entry instead of beside it.
void TastingPage::place() {
    const auto& theme = Theme::current();
    const bool narrow = width() < theme.px(900);
    m_head->setSpacing(theme.pxInt(14));
    m_head->setContentsMargins(theme.pxInt(16), theme.pxInt(8), theme.pxInt(16), theme.pxInt(8));
    m_column->setContentsMargins(theme.pxInt(20), theme.pxInt(14), theme.pxInt(20), theme.pxInt(20));
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

void TastingPage::goOn(QWidget* from, int direction) {
    const auto here = std::find(m_order.begin(), m_order.end(), from);
    if (here == m_order.end()) return;
    const auto index = here - m_order.begin() + direction;
    if (index < 0 || index >= static_cast<std::ptrdiff_t>(m_order.size())) return;
    auto* to = m_order[static_cast<std::size_t>(index)];
    to->setFocus(direction > 0 ? Qt::TabFocusReason : Qt::BacktabFocusReason);
    m_scroll->ensureWidgetVisible(to, 0, Theme::current().pxInt(24));
}

void TastingPage::setSheet(const TastingSheet& sheet) {
    m_sheet = sheet;
    m_title->setToolTip(sheet.drink);
    m_title->setAccessibleName(sheet.drink);
    m_about->setToolTip(aboutText());
    m_about->setAccessibleName(aboutText());
    place();
    m_when->setText(sheet.when);
    m_rings->setText(sheet.ringsOf.isEmpty() ? QString()
                                             : u"ring: mean of %1’s tasters"_s.arg(sheet.ringsOf));
    m_who->clear();
    for (const auto& person : sheet.people) {
        if (person.initials.empty()) continue;
        m_who->addItem(fromCore(person.initials));
        m_who->setItemData(m_who->count() - 1, fromCore(person.name), Qt::ToolTipRole);
    }
    m_who->setCurrentIndex(-1);
    m_who->setEditText(QString());
    for (const auto& person : sheet.people)
        if (sheet.taster == person.id) m_who->setEditText(fromCore(person.initials));
    for (std::size_t i = 0; i < m_scales.size(); ++i) {
        m_scales[i]->setScore(std::nullopt);
        m_scales[i]->setRing(sheet.rings[i]);
    }
    m_note->show(QString());
    m_verdict->setVerdict(tasting::Verdict::None);
    m_tryNext->clear();
    m_banner->show(BannerKind::Gap, {});
    m_list->setSheet(sheet);
    startEntry();
}

void TastingPage::startEntry() {
    QWidget* first = m_scales[0];
    if (m_who->currentText().isEmpty()) first = m_who;
    first->setFocus(Qt::OtherFocusReason);
}

TastingInput TastingPage::input() const {
    TastingInput input;
    const auto typed = m_who->currentText().simplified();
    input.person = personFor(m_sheet.people, typed);
    input.name = typed;
    input.initials = initialsFrom(typed);
    for (std::size_t i = 0; i < m_scales.size(); ++i)
        input.scores[i] = m_scales[i]->score();
    input.note = m_note->toPlainText().trimmed();
    input.verdict = m_verdict->verdict();
    input.tryNext = m_tryNext->text().trimmed();
    return input;
}

void TastingPage::setInput(const TastingInput& input) {
    if (!input.name.isEmpty()) m_who->setEditText(input.name);
    for (std::size_t i = 0; i < m_scales.size(); ++i)
        m_scales[i]->setScore(input.scores[i]);
    m_note->show(input.note);
    m_verdict->setVerdict(input.verdict);
    m_tryNext->setText(input.tryNext);
}

void TastingPage::save() {
    const auto input = this->input();
    if (input.name.isEmpty()) {
        showError(u"Who tasted?"_s,
                  u"Nothing is saved yet; the note is as you wrote it. Type initials and save again."_s);
        m_who->setFocus(Qt::OtherFocusReason);
        return;
    }
    if (!input.saysSomething()) {
        showError(u"Nothing to save yet."_s, u"Give a score, a note or a verdict."_s);
        m_scales[0]->setFocus(Qt::OtherFocusReason);
        return;
    }
    Q_EMIT saveRequested(input);
}

void TastingPage::showError(const QString& fact, const QString& consequence, const QString& act) {
    m_banner->show(BannerKind::Error, {fact, consequence, act});
}

void TastingPage::keyPressEvent(QKeyEvent* event) {
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (enter && event->modifiers().testFlag(Qt::ControlModifier))
        save();
    else if (event->key() == Qt::Key_Escape)
        Q_EMIT closed();
    else
        QWidget::keyPressEvent(event);
}

bool TastingPage::eventFilter(QObject* watched, QEvent* event) {
    if ((watched == m_who || watched == m_who->lineEdit()) && event->type() == QEvent::KeyPress) {
        const auto* key = dynamic_cast<QKeyEvent*>(event);
        if (key && (key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter) &&
            !key->modifiers().testFlag(Qt::ControlModifier)) {
            goOn(m_who, 1);
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

void TastingPage::dress() {
    const auto& theme = Theme::current();
    place();
    m_title->setFont(theme.font(Type::Title));
    m_about->setFont(theme.font(Type::Control));
    setToken(m_title, Token::Ink);
    setToken(m_about, Token::Ink2);
    m_when->setFont(theme.font(Type::ReadingServed));
    for (auto* label : m_captions) {
        label->setFont(theme.font(Type::Caption));
        setToken(label, Token::Ink2);
    }
    m_tryNext->setFont(theme.font(Type::Reason));
    m_who->setFont(theme.font(Type::ReadingServed));
    m_who->setMinimumWidth(theme.pxInt(84));
    m_noteRoom->changeSize(0, theme.pxInt(56));
    m_noteFrame->layout()->invalidate();
}

} // namespace stillroom::ui
