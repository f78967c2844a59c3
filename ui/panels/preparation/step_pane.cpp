#include "ui/panels/preparation/step_pane.h"

#include "core/spec/step_edit.h"
#include "ui/panels/preparation/line_entry_row.h"
#include "ui/panels/preparation/preparation_values.h"
#include "ui/panels/preparation/step_form.h"
#include "ui/plots/step_bars.h"
#include "ui/text/preparation_words.h"
#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QToolButton>
#include <QVBoxLayout>

namespace stillroom::ui {

StepPane::StepPane(QWidget* parent)
    : QWidget(parent),
      m_heading(new QLabel(tr("What is left, step by step"), this)),
      m_add(new QToolButton(this)),
      m_remove(new QToolButton(this)),
      m_entry(new LineEntryRow(this)),
      m_bars(new StepBars(this)),
      m_form(new StepForm(this)),
      m_yield(new WrapLabel(this)) {
    auto* head = new QHBoxLayout;
    head->addWidget(m_heading);
    head->addStretch(1);
    m_add->setText(tr("Add a step"));
    m_add->setToolTip(tr("Ctrl+Enter among the steps"));
    m_remove->setText(tr("Take it out"));
    m_remove->setToolTip(tr("Ctrl+Delete among the steps"));
    for (auto* button : {m_add, m_remove}) {
        button->setToolButtonStyle(Qt::ToolButtonTextOnly);
        button->setAutoRaise(true);
        button->setProperty("quiet", true);
        button->setFocusPolicy(Qt::TabFocus);
        head->addWidget(button);
    }
    auto* all = new QVBoxLayout(this);
    all->setSpacing(0);
    all->addLayout(head);
    all->addWidget(m_entry);
    all->addWidget(m_bars);
    all->addWidget(m_form);
    all->addWidget(m_yield);
    connect(m_add, &QToolButton::clicked, this, &StepPane::add);
    connect(m_remove, &QToolButton::clicked, this, &StepPane::remove);
    connect(m_bars, &StepBars::addAsked, this, &StepPane::add);
    connect(m_bars, &StepBars::removeAsked, this, &StepPane::remove);
    connect(m_bars, &StepBars::moveAsked, this, &StepPane::move);
    connect(m_bars, &StepBars::cursorMoved, this, &StepPane::followCursor);
    connect(m_bars, &StepBars::editAsked, m_form, &StepForm::focusFirst);
    connect(m_form, &StepForm::left, m_bars, [this] { m_bars->setFocus(Qt::OtherFocusReason); });
    dress();
    hide();
}

void StepPane::dress() {
    const auto& theme = Theme::current();
    layout()->setContentsMargins(0, theme.pxInt(10), 0, theme.pxInt(2));
    layout()->itemAt(0)->layout()->setContentsMargins(theme.pxInt(16), 0, theme.pxInt(10), 0);
    m_heading->setFont(theme.font(Type::Heading));
    m_yield->setFont(theme.font(Type::Caption));
    m_yield->setContentsMargins(theme.pxInt(16), 0, theme.pxInt(16), 0);
    QPalette quiet = palette();
    quiet.setColor(QPalette::WindowText, theme.color(Token::Ink2));
    m_yield->setPalette(quiet);
    m_heading->setPalette(quiet);
}

void StepPane::setSession(DraftSession* session) {
    if (m_session) m_session->disconnect(this);
    const bool prepares = session != nullptr && session->drink().form == history::DrinkForm::Preparation;
    m_session = prepares ? session : nullptr;
    m_fixed = false;
    m_form->setSession(m_session);
    m_entry->setSession(m_session);
    setVisible(prepares);
    if (!m_session) return;
    connect(m_session, &DraftSession::changed, this, &StepPane::refresh);
    refresh();
    followCursor();
}

void StepPane::showFixed(const DraftReading* now) {
    m_fixed = now != nullptr;
    if (now == nullptr) {
        m_entry->setSession(m_session);
        refresh();
        followCursor();
        return;
    }
    m_entry->setSession(nullptr);
    m_form->setStep(-1);
    m_bars->setReadOnly(true);
    m_add->setEnabled(false);
    m_remove->setEnabled(false);
    m_bars->setValues(stepBarsOf(*now));
    m_yield->setText(yieldSentence(*now));
}

int StepPane::step() const {
    return m_bars->cursor() < 0 || !m_session ? -1 : stepOfBar(m_session->now(), m_bars->cursor());
}

void StepPane::refresh() {
    if (!m_session || m_fixed) return;
    const bool fixed = m_session->book().book().isReadOnly();
    const auto& now = m_session->now();
    m_bars->setReadOnly(fixed);
    m_bars->setValues(stepBarsOf(now));
    m_yield->setText(yieldSentence(now));
    m_yield->setVisible(now.made.has_value());
    m_add->setEnabled(!fixed);
    m_entry->refresh();
    followCursor();
}

void StepPane::followCursor() {
    if (!m_session || m_fixed) return;
    const int at = step();
    m_form->setStep(at);
    const bool onStep = at >= 0 && static_cast<std::size_t>(at) < m_session->spec().steps.size();
    m_remove->setEnabled(onStep && !m_session->book().book().isReadOnly());
}

void StepPane::setNarrow(bool narrow) {
    m_form->setAcross(narrow ? 1 : 2);
}

void StepPane::setLine(int line) {
    m_entry->setLine(line);
}

// Behind the step in hand; from the yield, behind all.
void StepPane::add() {
    if (!m_session || m_fixed) return;
    const auto count = m_session->spec().steps.size();
    if (!m_session->now().made) {
        Q_EMIT said(tr("Write a line with an amount first: a step is done to something."));
        return;
    }
    const int at = step();
    const std::size_t place =
        at < 0 || static_cast<std::size_t>(at) >= count ? count : static_cast<std::size_t>(at) + 1;
    spec::Step step;
    step.kind = count == 0 ? spec::StepKind::Dissolve : spec::StepKind::Strain;
    m_session->apply(spec::withStep(m_session->spec(), place, step), tr("Add a step"), DraftSession::kNoMerge,
                     this);
    m_bars->setCursor(barOfStep(static_cast<int>(place)));
    m_form->focusFirst();
}

void StepPane::remove() {
    const int at = step();
    if (!m_session || m_fixed || at < 0 || static_cast<std::size_t>(at) >= m_session->spec().steps.size())
        return;
    const auto name = stepKindName(m_session->spec().steps[static_cast<std::size_t>(at)].kind);
    m_session->apply(spec::withoutStep(m_session->spec(), static_cast<std::size_t>(at)),
                     tr("Take out: %1").arg(name), DraftSession::kNoMerge, this);
    m_bars->setFocus(Qt::OtherFocusReason);
}

void StepPane::move(int by) {
    const int at = step();
    const int to = at + by;
    if (!m_session || m_fixed || at < 0 || to < 0) return;
    const auto count = static_cast<int>(m_session->spec().steps.size());
    if (at >= count || to >= count) return;
    if (m_session->apply(spec::withStepMoved(m_session->spec(), static_cast<std::size_t>(at),
                                             static_cast<std::size_t>(to)),
                         tr("Move a step"), DraftSession::kNoMerge, this))
        m_bars->setCursor(barOfStep(to));
}

void StepPane::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

} // namespace stillroom::ui
