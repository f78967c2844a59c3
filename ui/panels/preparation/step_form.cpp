#include "ui/panels/preparation/step_form.h"

#include "core/spec/step_edit.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/text/preparation_words.h"
#include "ui/theme/theme.h"
#include "ui/widgets/cell_edit.h"
#include "ui/widgets/number_edit.h"
#include "ui/widgets/wrap_label.h"
#include "ui/widgets/written_field.h"

#include <QComboBox>
#include <QEvent>
#include <QGridLayout>
#include <QKeyEvent>
#include <QLabel>

#include <algorithm>
#include <array>
#include <cmath>

namespace stillroom::ui {

namespace {

using Figure = std::optional<double> spec::Step::*;
using spec::Step;
using K = spec::StepKind;

constexpr std::array kKinds{K::Dissolve, K::Simmer,      K::Steep,       K::Strain,     K::Press,
                            K::FatWash,  K::MilkClarify, K::AgarClarify, K::AcidAdjust, K::Blend,
                            K::Ferment,  K::Carbonate,   K::Whip,        K::Freeze};

// A number of the draft's: taking it back is the draft's own undo.
class StepNumber : public NumberEdit {
  public:
    using NumberEdit::NumberEdit;

  protected:
    bool event(QEvent* event) override {
        if (isUndoOrRedo(event)) {
            event->ignore();
            return false;
        }
        return NumberEdit::event(event);
    }
};

} // namespace

bool hasFigure(K kind, Figure figure) {
    const auto among = [kind](std::initializer_list<K> kinds) {
        return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
    };
    if (figure == &Step::minutes) return !among({K::Strain, K::Press, K::AcidAdjust, K::Carbonate, K::Whip});
    if (figure == &Step::celsius) return !among({K::Strain, K::Press, K::AcidAdjust, K::Blend, K::Whip});
    if (figure == &Step::waterLostG) return among({K::Dissolve, K::Simmer});
    if (figure == &Step::waterLostGPerMinute) return among({K::Simmer});
    if (figure == &Step::waterGainedG) return among({K::Steep});
    if (figure == &Step::heldBackMl || figure == &Step::yieldShare)
        return among({K::Steep, K::Strain, K::Press, K::FatWash, K::MilkClarify, K::AgarClarify});
    if (figure == &Step::co2GPerL) return among({K::Carbonate});
    if (figure == &Step::overrun) return among({K::Whip});
    return figure == &Step::gotG || figure == &Step::gotMl;
}

Step ofKind(const Step& step, K kind) {
    Step next = step;
    next.kind = kind;
    for (const Figure figure :
         {&Step::minutes, &Step::celsius, &Step::waterLostG, &Step::waterLostGPerMinute, &Step::waterGainedG,
          &Step::heldBackMl, &Step::yieldShare, &Step::gotMl, &Step::gotG, &Step::co2GPerL, &Step::overrun})
        if (!hasFigure(kind, figure)) (next.*figure).reset();
    return next;
}

StepForm::StepForm(QWidget* parent)
    : QWidget(parent),
      m_grid(new QGridLayout(this)),
      m_kindLabel(new QLabel(tr("what is done"), this)),
      m_kind(new QComboBox(this)),
      m_yieldLabel(new QLabel(tr("measured in the end"), this)),
      m_yield(newEdit()),
      m_yieldUnit(new QLabel(tr("ml"), this)),
      m_noteLabel(new QLabel(tr("note"), this)),
      m_note(new WrittenField(Type::Body, Token::Ink, this)),
      m_says(new WrapLabel(this)) {
    setAccessibleName(tr("Step"));
    m_kind->setAccessibleName(tr("What is done in this step"));
    for (const K kind : kKinds)
        m_kind->addItem(stepKindName(kind));
    addField(&Step::minutes, tr("time"), tr("min"), 1, 1);
    addField(&Step::celsius, tr("temperature"), tr("°C"), 1, 1);
    addField(&Step::waterLostG, tr("boiled off"), tr("g water"), 1, 1);
    addField(&Step::waterLostGPerMinute, tr("or this pot's rate"), tr("g/min"));
    addField(&Step::waterGainedG, tr("given by the fruit"), tr("g water"), 1, 1);
    addField(&Step::heldBackMl, tr("held back"), tr("ml"), 1, 1);
    addField(&Step::yieldShare, tr("or lost, assumed"), tr("%"), 0.01, 2);
    m_fields.back().lostShare = true;
    addField(&Step::co2GPerL, tr("carbon dioxide"), tr("g/l"));
    addField(&Step::overrun, tr("air taken in"), tr("%"), 0.01, 1);
    addField(&Step::gotG, tr("weighed after it"), tr("g"), 1, 1);
    addField(&Step::gotMl, tr("or measured"), tr("ml"), 1, 1);
    m_yield->setAccessibleName(tr("Yield measured in the end, ml at 20 °C"));
    m_note->setAccessibleName(tr("Note to this step"));
    m_note->setPlaceholderText(tr("through cloth, do not press"));
    connect(m_kind, &QComboBox::activated, this, &StepForm::writeKind);
    connect(m_yield, &QLineEdit::textEdited, this, &StepForm::writeYield);
    connect(m_note, &WrittenField::entered, this, [this] {
        if (m_session) m_mergeKey = m_session->newMergeKey();
    });
    connect(m_note, &QLineEdit::textEdited, this, [this](const QString& text) {
        const Step* step = current();
        if (step == nullptr) return;
        Step next = *step;
        next.note = toCore(text);
        m_session->apply(spec::withStepReplaced(m_session->spec(), static_cast<std::size_t>(m_step), next),
                         tr("Note to a step"), m_mergeKey, this);
    });
    connect(m_note, &WrittenField::finished, this, &StepForm::left);
    dress();
    place();
}

NumberEdit* StepForm::newEdit() {
    auto* edit = new StepNumber(this);
    edit->installEventFilter(this);
    return edit;
}

void StepForm::addField(Figure figure, const QString& label, const QString& unit, double perShown,
                        int decimals) {
    Field field;
    field.figure = figure;
    field.label = new QLabel(label, this);
    field.edit = newEdit();
    field.unit = new QLabel(unit, this);
    field.perShown = perShown;
    field.decimals = decimals;
    field.edit->setAccessibleName(QString(label + QStringLiteral(", ") + unit));
    field.edit->setBelowZeroAllowed(figure == &Step::celsius);
    field.label->setBuddy(field.edit);
    const auto index = m_fields.size();
    m_fields.push_back(field);
    connect(field.edit, &QLineEdit::textEdited, this, [this, index] { write(m_fields[index]); });
}

NumberEdit* StepForm::field(Figure figure) {
    for (const auto& field : m_fields)
        if (field.figure == figure) return field.edit->isVisibleTo(this) ? field.edit : nullptr;
    return nullptr;
}

const Step* StepForm::current() const {
    if (!m_session || m_step < 0) return nullptr;
    const auto& steps = m_session->spec().steps;
    return static_cast<std::size_t>(m_step) < steps.size() ? &steps[static_cast<std::size_t>(m_step)]
                                                           : nullptr;
}

void StepForm::setSession(DraftSession* session) {
    if (m_session) m_session->disconnect(this);
    m_session = session;
    if (m_session) connect(m_session, &DraftSession::changed, this, &StepForm::refresh);
    place();
    refresh();
}

void StepForm::setStep(int step) {
    if (step == m_step) return;
    m_step = step;
    if (m_session) m_mergeKey = m_session->newMergeKey();
    place();
    refresh();
}

void StepForm::setAcross(int fields) {
    if (fields == m_across) return;
    m_across = fields;
    place();
    refresh();
}

// In the order of work; what this kind has none of is hidden.
void StepForm::place() {
    while (m_grid->count() > 0)
        delete m_grid->takeAt(0);
    const Step* step = current();
    const bool yields =
        m_session && m_step >= 0 && static_cast<std::size_t>(m_step) == m_session->spec().steps.size();
    int cell = 0;
    QWidget* before = nullptr;
    const auto put = [&](bool wanted, QLabel* label, QWidget* field, QLabel* unit) {
        for (QWidget* part : {static_cast<QWidget*>(label), field, static_cast<QWidget*>(unit)})
            if (part != nullptr) part->setVisible(wanted);
        if (!wanted) return;
        const int row = cell / m_across;
        const int column = cell % m_across * 4;
        m_grid->addWidget(label, row, column, Qt::AlignVCenter);
        m_grid->addWidget(field, row, column + 1, 1, unit != nullptr ? 1 : 2);
        if (unit != nullptr) m_grid->addWidget(unit, row, column + 2, Qt::AlignVCenter);
        if (before != nullptr) setTabOrder(before, field);
        before = field;
        ++cell;
    };
    put(step != nullptr, m_kindLabel, m_kind, nullptr);
    for (const auto& field : m_fields)
        put(step != nullptr && hasFigure(step->kind, field.figure), field.label, field.edit, field.unit);
    put(yields, m_yieldLabel, m_yield, m_yieldUnit);
    // Words want the whole width.
    cell += cell % m_across;
    put(step != nullptr, m_noteLabel, m_note, nullptr);
    if (step != nullptr) m_grid->addWidget(m_note, (cell - 1) / m_across, 1, 1, 7);
    m_grid->addWidget(m_says, (cell + m_across - 1) / m_across, 0, 1, 8);
    m_grid->setColumnStretch(7, 1);
    setVisible(step != nullptr || yields);
}

std::optional<double> StepForm::shown(const Field& field, const Step& step) const {
    const auto& stored = step.*field.figure;
    if (!stored) return std::nullopt;
    return (field.lostShare ? 1 - *stored : *stored) / field.perShown;
}

std::optional<double> StepForm::stored(const Field& field, double shown) const {
    const double value = shown * field.perShown;
    return field.lostShare ? 1 - value : value;
}

void StepForm::refresh() {
    if (!m_session) return;
    const bool fixed = m_session->book().book().isReadOnly();
    const Step* step = current();
    const auto follow = [](NumberEdit& edit, std::optional<double> value, int decimals) {
        // What is typed and means the same is left alone, so that typing is never overwritten by its echo.
        const auto typed = edit.value();
        const double alike = 0.5 * std::pow(10.0, -decimals);
        if (typed && value ? std::abs(*typed - *value) < alike : !typed && !value && edit.hasFocus()) return;
        if (edit.hasFocus() && edit.isUnreadable()) return;
        edit.setValue(value, decimals);
    };
    if (step != nullptr) {
        const auto at = std::find(kKinds.begin(), kKinds.end(), step->kind) - kKinds.begin();
        if (m_kind->currentIndex() != at) {
            m_kind->setCurrentIndex(static_cast<int>(at));
        }
        bool otherFields = false;
        for (const auto& field : m_fields)
            otherFields |= field.edit->isHidden() == hasFigure(step->kind, field.figure);
        if (otherFields || m_kind->isHidden()) place();
        for (const auto& field : m_fields)
            follow(*field.edit, shown(field, *step), field.decimals);
        m_note->show(fromCore(step->note));
    } else if (m_step >= 0) {
        if (m_yield->isHidden() || !m_kind->isHidden()) place();
        follow(*m_yield, m_session->spec().yieldMl, 1);
    }
    for (const auto& field : m_fields)
        field.edit->setReadOnly(fixed);
    m_yield->setReadOnly(fixed);
    m_note->setReadOnly(fixed);
    m_kind->setEnabled(!fixed);

    QStringList said;
    if (const auto& made = m_session->now().made) {
        if (step != nullptr)
            for (const auto& trace : made->process.steps)
                if (trace.step == static_cast<std::size_t>(m_step))
                    for (const auto remark : trace.remarks)
                        said << stepRemarkSentence(remark);
        for (const auto& fault : made->process.faults) {
            if (step == nullptr || fault.step != static_cast<std::size_t>(m_step)) continue;
            said.prepend(tr("A figure %1, so it counts for nothing (%2).")
                             .arg(stepProblemSentence(fault.problem), fromCore(fault.field)));
        }
        if (step == nullptr && made->yieldFault)
            said << tr("The yield %1, so it counts for nothing.").arg(stepProblemSentence(*made->yieldFault));
    }
    if (step == nullptr && said.isEmpty())
        said << tr("A measured yield stands instead of everything worked out. At 20 °C; leave it open while "
                   "nobody has measured.");
    const QString text = said.join(QLatin1Char(' '));
    if (m_says->text() != text) m_says->setText(text);
    m_says->setVisible(!text.isEmpty());
}

void StepForm::write(const Field& field) {
    const Step* step = current();
    if (step == nullptr) return;
    const bool empty = field.edit->text().trimmed().isEmpty();
    const auto typed = field.edit->value();
    if (!empty && (!typed || field.edit->isUnreadable())) return;
    Step next = *step;
    next.*field.figure = empty ? std::nullopt : stored(field, *typed);
    m_session->apply(spec::withStepReplaced(m_session->spec(), static_cast<std::size_t>(m_step), next),
                     tr("Step %1, %2").arg(m_step + 1).arg(field.label->text()), m_mergeKey, this);
}

void StepForm::writeKind(int index) {
    const Step* step = current();
    if (step == nullptr || index < 0) return;
    m_session->apply(spec::withStepReplaced(m_session->spec(), static_cast<std::size_t>(m_step),
                                            ofKind(*step, kKinds[static_cast<std::size_t>(index)])),
                     tr("Step %1: %2").arg(m_step + 1).arg(m_kind->itemText(index)), DraftSession::kNoMerge,
                     this);
}

void StepForm::writeYield() {
    if (!m_session) return;
    const bool empty = m_yield->text().trimmed().isEmpty();
    const auto typed = m_yield->value();
    if (!empty && (!typed || m_yield->isUnreadable() || !(*typed > 0))) return;
    m_session->apply(spec::withYield(m_session->spec(), empty ? std::nullopt : typed), tr("Measured yield"),
                     m_mergeKey, this);
}

void StepForm::focusFirst() {
    if (current() != nullptr)
        m_kind->setFocus(Qt::OtherFocusReason);
    else
        m_yield->setFocus(Qt::OtherFocusReason);
}

void StepForm::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        Q_EMIT left();
        return;
    }
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        // On to the next field, and out of the last.
        if (m_yield->hasFocus() || m_note->hasFocus())
            Q_EMIT left();
        else
            focusNextChild();
        return;
    }
    QWidget::keyPressEvent(event);
}

void StepForm::dress() {
    const auto& theme = Theme::current();
    m_grid->setContentsMargins(theme.pxInt(16), theme.pxInt(6), theme.pxInt(16), theme.pxInt(8));
    m_grid->setHorizontalSpacing(theme.pxInt(6));
    m_grid->setVerticalSpacing(theme.pxInt(5));
    m_grid->setColumnMinimumWidth(3, theme.pxInt(12));
    QPalette quiet = palette();
    quiet.setColor(QPalette::WindowText, theme.color(Token::Ink2));
    const auto wear = [&](QLabel* label, Type type) {
        label->setFont(theme.font(type));
        label->setPalette(quiet);
    };
    for (const auto& field : m_fields) {
        wear(field.label, Type::Control);
        wear(field.unit, Type::Unit);
        field.edit->setFixedWidth(theme.pxInt(66));
    }
    for (auto* label : {m_kindLabel, m_yieldLabel, m_noteLabel})
        wear(label, Type::Control);
    wear(m_yieldUnit, Type::Unit);
    wear(m_says, Type::Caption);
    m_yield->setFixedWidth(theme.pxInt(66));
    m_kind->setMinimumWidth(theme.pxInt(120));
}

void StepForm::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

} // namespace stillroom::ui
