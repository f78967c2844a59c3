#include "ui/panels/conversion_form.h"

#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/theme/theme.h"

#include <QComboBox>
#include <QGridLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPainter>
#include <QVBoxLayout>

#include <algorithm>

namespace stillroom::ui {

using physics::ConversionInput;
using physics::InputNeed;

namespace {

constexpr int kTypedDecimals = 4;

void setInk(QLabel& label, Token token) {
    label.setForegroundRole(QPalette::WindowText); // on a page it would be Text
    QPalette colors = label.palette();
    colors.setColor(QPalette::WindowText, Theme::current().color(token));
    label.setPalette(colors);
}

// Framed as an error when its entry is wrong.
class EntryField : public QLineEdit {
  public:
    using QLineEdit::QLineEdit;

  protected:
    void paintEvent(QPaintEvent* event) override {
        QLineEdit::paintEvent(event);
        if (!property("wrong").toBool()) return;
        QPainter painter(this);
        painter.setRenderHint(QPainter::Antialiasing);
        const Look& look = Theme::current().look();
        painter.setPen(look.pen(Token::Error, 2));
        painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), look.px(3), look.px(3));
    }
};

} // namespace

QWidget* ConversionForm::Row::widget() const {
    return edit ? static_cast<QWidget*>(edit) : choice;
}

ConversionForm::ConversionForm(QWidget* parent) : QWidget(parent) {
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
}

void ConversionForm::setConversion(const physics::Conversion& conversion) {
    m_conversion = &conversion;
    m_rows.clear();
    m_headings.clear();
    m_typed.clear();
    delete m_body;
    m_body = new QWidget(this);
    auto* grid = new QGridLayout(m_body);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setColumnStretch(2, 1);
    int line = 0;
    QWidget* before = nullptr;
    const auto heading = [&](const QString& text) {
        auto* label = new QLabel(text, m_body);
        m_headings.push_back(label);
        grid->addWidget(label, line++, 0, 1, 3);
    };
    const auto add = [&](const ConversionInput& input) {
        Row row{&input,  new QLabel(fromCore(input.label), m_body), nullptr,
                nullptr, new QLabel(fromCore(input.unit), m_body),  new QLabel(m_body)};
        const std::size_t index = m_rows.size();
        if (input.choices.empty()) {
            row.edit = new EntryField(m_body);
            if (input.standing) row.edit->setPlaceholderText(trimmedNumber(*input.standing, kTypedDecimals));
            connect(row.edit, &QLineEdit::textEdited, this, [this, index] { onTyped(index); });
        } else {
            row.choice = new QComboBox(m_body);
            row.choice->addItem(QString(), QString());
            for (const auto& choice : input.choices)
                row.choice->addItem(fromCore(choice.label), fromCore(choice.id));
            if (!input.standingChoice.empty())
                row.choice->setCurrentIndex(row.choice->findData(fromCore(input.standingChoice)));
            connect(row.choice, &QComboBox::currentIndexChanged, this, [this, index] { onTyped(index); });
        }
        const QString unit =
            input.unit.empty() ? QString() : QString(QStringLiteral(", ") + fromCore(input.unit));
        row.widget()->setAccessibleName(fromCore(input.label) + unit);
        row.widget()->setObjectName(fromCore(input.key));
        row.widget()->installEventFilter(this);
        row.label->setBuddy(row.widget());
        row.label->setWordWrap(true);
        row.problem->setWordWrap(true);
        row.problem->hide();
        grid->addWidget(row.label, line, 0);
        grid->addWidget(row.widget(), line, 1);
        grid->addWidget(row.unit, line++, 2);
        grid->addWidget(row.problem, line++, 0, 1, 3);
        if (before) setTabOrder(before, row.widget());
        before = row.widget();
        m_rows.push_back(row);
    };
    for (const auto need : {InputNeed::OneOf, InputNeed::Required, InputNeed::Optional}) {
        bool first = true;
        for (const ConversionInput& input : conversion.inputs) {
            if (input.need != need) continue;
            if (first && need == InputNeed::OneOf)
                heading(conversion.mayContradict ? tr("Two of these, or all to hold them against each other")
                        : conversion.choose == 1 ? tr("One of these")
                                                 : tr("Two of these"));
            if (first && need == InputNeed::Required) heading(tr("Needed"));
            if (first && need == InputNeed::Optional) heading(tr("Taken as shown unless you write another"));
            first = false;
            add(input);
        }
    }
    layout()->addWidget(m_body);
    dress();
    m_body->show();
}

void ConversionForm::onTyped(std::size_t index) {
    const Row& row = m_rows[index];
    if (row.input->need == InputNeed::OneOf) {
        m_typed.erase(std::remove(m_typed.begin(), m_typed.end(), index), m_typed.end());
        if (!row.edit->text().isEmpty()) m_typed.push_back(index);
        while (!m_conversion->mayContradict && m_typed.size() > m_conversion->choose) {
            m_rows[m_typed.front()].edit->clear();
            m_typed.erase(m_typed.begin());
        }
    }
    Q_EMIT edited();
}

exchange::TypedEntries ConversionForm::entries() const {
    exchange::TypedEntries entries;
    for (const Row& row : m_rows)
        entries[std::string(row.input->key)] =
            toCore(row.edit ? row.edit->text() : row.choice->currentData().toString());
    return entries;
}

void ConversionForm::fill(const exchange::TypedEntries& entries) {
    const QSignalBlocker quiet(this);
    for (std::size_t i = 0; i < m_rows.size(); ++i) {
        const Row& row = m_rows[i];
        const auto found = entries.find(row.input->key);
        if (found == entries.end()) continue;
        const QString text = fromCore(found->second);
        if (row.edit) {
            row.edit->setText(text);
            onTyped(i);
        } else if (const int at = row.choice->findData(text); at >= 0) {
            row.choice->setCurrentIndex(at);
        }
    }
}

bool ConversionForm::isEmpty() const {
    return std::all_of(m_rows.begin(), m_rows.end(),
                       [](const Row& row) { return !row.edit || row.edit->text().trimmed().isEmpty(); });
}

void ConversionForm::showOutcome(const Outcome& outcome) {
    for (const Row& row : m_rows) {
        QString problem;
        // What is not typed yet is no mistake; the results say what is wanted.
        if (!outcome && outcome.error().key == row.input->key &&
            outcome.error().fault != physics::ConversionFault::Missing)
            problem =
                fromCore(physics::problemText(*m_conversion, outcome.error(), physics::InputNaming::Label));
        row.problem->setText(problem);
        row.problem->setVisible(!problem.isEmpty());
        row.widget()->setAccessibleDescription(problem);
        row.widget()->setProperty("wrong", !problem.isEmpty());
        row.widget()->update();
        if (!row.edit || row.input->need != InputNeed::OneOf) continue;
        QString follows;
        const auto* output = m_conversion->output(row.input->key);
        if (outcome && output)
            for (const auto& value : outcome->values)
                if (value.key == row.input->key)
                    follows = number(value.value, physics::decimalsFor(*output, value.value));
        row.edit->setPlaceholderText(follows);
    }
}

const ConversionForm::Row* ConversionForm::row(std::string_view key) const {
    for (const Row& row : m_rows)
        if (row.input->key == key) return &row;
    return nullptr;
}

QWidget* ConversionForm::field(std::string_view key) const {
    const Row* found = row(key);
    return found ? found->widget() : nullptr;
}

QWidget* ConversionForm::firstField() const {
    return m_rows.empty() ? nullptr : m_rows.front().widget();
}

QString ConversionForm::problemAt(std::string_view key) const {
    const Row* found = row(key);
    return found ? found->problem->text() : QString();
}

QStringList ConversionForm::written() const {
    QStringList lines;
    for (const Row& row : m_rows) {
        QString text = row.edit ? row.edit->text().trimmed() : row.choice->currentText();
        if (text.isEmpty() && row.edit && row.input->need == InputNeed::Optional)
            text = row.edit->placeholderText();
        if (text.isEmpty()) continue;
        const bool bare = typedNumber(text).has_value() && !row.input->unit.empty();
        lines.push_back(fromCore(row.input->label) + QStringLiteral(": ") + text +
                        (bare ? QString(QLatin1Char(' ') + fromCore(row.input->unit)) : QString()));
    }
    return lines;
}

// Enter goes on, like Tab.
bool ConversionForm::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if ((key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter) &&
            key->modifiers() == Qt::NoModifier) {
            focusNextChild();
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

void ConversionForm::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

void ConversionForm::dress() {
    if (!m_body) return;
    const auto& theme = Theme::current();
    auto* grid = static_cast<QGridLayout*>(m_body->layout());
    grid->setHorizontalSpacing(theme.pxInt(10));
    grid->setVerticalSpacing(theme.pxInt(4));
    for (QLabel* heading : m_headings) {
        heading->setFont(theme.font(Type::Caption));
        heading->setContentsMargins(0, theme.pxInt(8), 0, 0);
        setInk(*heading, Token::Ink2);
    }
    for (const Row& row : m_rows) {
        row.label->setFont(theme.font(Type::Control));
        row.label->setFixedWidth(theme.pxInt(240));
        row.widget()->setFont(theme.font(Type::Reading));
        row.widget()->setFixedWidth(theme.pxInt(130));
        row.unit->setFont(theme.font(Type::Unit));
        row.problem->setFont(theme.font(Type::Caption));
        setInk(*row.label, Token::Ink);
        setInk(*row.unit, Token::Ink2);
        setInk(*row.problem, Token::Error);
    }
}

} // namespace stillroom::ui
