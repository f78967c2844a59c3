#include "ui/panels/larder/food_table_box.h"

#include "core/larder/consistency.h"
#include "ui/session/larder_edit.h"
#include "ui/text/border.h"
#include "ui/text/larder_words.h"
#include "ui/text/numbers.h"
#include "ui/theme/theme.h"
#include "ui/widgets/number_edit.h"
#include "ui/widgets/wrap_label.h"

#include <QGridLayout>
#include <QKeyEvent>

namespace stillroom::ui {

FoodTableBox::FoodTableBox(QWidget* parent)
    : QWidget(parent),
      m_title(new QLabel(tr("A food table says"), this)),
      m_words(new WrapLabel(this)) {
    setAccessibleName(tr("Against a food table"));
    auto* grid = new QGridLayout(this);
    grid->addWidget(m_title, 1, 0);
    const std::array captions{tr("Alcohol, g in 100 g"), tr("Sugar, g in 100 g"), tr("Weighs, g a ml")};
    for (std::size_t i = 0; i < m_fields.size(); ++i) {
        const int column = static_cast<int>(i) + 1;
        m_captions[i] = new QLabel(captions[i], this);
        m_fields[i] = new NumberEdit(this);
        m_captions[i]->setBuddy(m_fields[i]);
        m_fields[i]->setAccessibleName(tr("Food table: %1").arg(captions[i]));
        grid->addWidget(m_captions[i], 0, column);
        grid->addWidget(m_fields[i], 1, column);
        connect(m_fields[i], &QLineEdit::textEdited, this, [this, i](const QString& text) {
            if (m_edit == nullptr || !m_edit->hasChosen()) return;
            m_typed[m_edit->chosen()][i] = text;
            judge();
        });
    }
    grid->setColumnStretch(4, 1);
    grid->addWidget(m_words, 2, 0, 1, 5);
    m_words->setMinimumWidth(1);
    m_words->setForegroundRole(QPalette::WindowText);
    m_words->setBackgroundRole(QPalette::Window);
    dress();
}

void FoodTableBox::setEdit(LarderEdit* edit) {
    m_edit = edit;
    if (edit != nullptr)
        for (const auto signal : {&LarderEdit::changed, &LarderEdit::chosenChanged})
            connect(edit, signal, this, &FoodTableBox::fill);
    fill();
}

void FoodTableBox::fill() {
    if (m_edit == nullptr || !m_edit->hasChosen()) return;
    if (m_shown != m_edit->chosen()) {
        m_shown = m_edit->chosen();
        const auto known = m_typed.find(m_shown);
        for (std::size_t i = 0; i < m_fields.size(); ++i)
            m_fields[i]->setText(known == m_typed.end() ? QString() : known->second[i]);
    }
    const auto& facts = m_edit->now().facts;
    const bool strong = !facts.abvPercent || facts.abvPercent->high > 0;
    setVisible(strong && !facts.dry && !m_edit->isMade());
    judge();
}

void FoodTableBox::judge() {
    const auto alcohol = m_fields[0]->value();
    const auto sugar = m_fields[1]->value();
    const auto weighs = m_fields[2]->value();
    const auto& now = m_edit->now();
    QString words;
    std::optional<larder::FoundDoubt> doubt;
    if (alcohol && weighs) {
        const larder::FoodRow row{*alcohol, *weighs, sugar.value_or(0)};
        const auto computed = larder::strengthOfRow(row);
        const auto stated = now.facts.abvPercent
                                ? quantity::Strength::fromPercentVol(now.facts.abvPercent->typical)
                                : std::optional<quantity::Strength>();
        if (stated) doubt = larder::doubtOfRow(row, *stated);
        if (!computed)
            words = tr("No liquid is like that: 0 to 100 g in 100 g, and 0.5 to 2 g a ml.");
        else if (doubt)
            words = factDoubtSentence(*doubt, fromCore(now.name));
        else if (!stated)
            words = tr("The table's alcohol makes %1 % vol; no strength stands above to hold it against.")
                        .arg(number(computed->percentVol(), 1));
        else
            words =
                tr("The table's alcohol makes %1 % vol: it agrees with the %2 above.")
                    .arg(number(computed->percentVol(), 1), trimmedNumber(now.facts.abvPercent->typical, 2));
    } else if (alcohol || sugar || weighs) {
        words = tr("Alcohol by weight becomes a strength once it is said what 1 ml weighs.");
    }
    m_words->setText(words);
    m_words->setVisible(!words.isEmpty());
    const bool was = m_doubtful;
    m_doubtful = doubt.has_value() && !isHidden();
    dress();
    if (was != m_doubtful) Q_EMIT doubtChanged();
}

QString FoodTableBox::words() const {
    return m_words->text();
}

void FoodTableBox::keyPressEvent(QKeyEvent* event) {
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (enter && event->modifiers() == Qt::NoModifier)
        focusNextChild();
    else if (event->key() == Qt::Key_Escape)
        Q_EMIT leaveAsked();
    else
        QWidget::keyPressEvent(event);
}

void FoodTableBox::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

void FoodTableBox::dress() {
    const auto& theme = Theme::current();
    auto* grid = static_cast<QGridLayout*>(layout());
    grid->setHorizontalSpacing(theme.pxInt(16));
    grid->setVerticalSpacing(theme.pxInt(3));
    grid->setContentsMargins(theme.pxInt(8), theme.pxInt(8), 0, 0);
    m_title->setFont(theme.font(Type::Control));
    QPalette quiet = palette();
    quiet.setColor(QPalette::WindowText, theme.color(Token::Ink2));
    m_title->setPalette(quiet);
    for (std::size_t i = 0; i < m_fields.size(); ++i) {
        m_captions[i]->setFont(theme.font(Type::Caption));
        m_captions[i]->setPalette(quiet);
        m_fields[i]->setFixedSize(theme.pxInt(110), theme.pxInt(26));
    }
    m_words->setFont(theme.font(Type::Control));
    QPalette colors = palette();
    colors.setColor(QPalette::Window, theme.color(m_doubtful ? Token::CautionSoft : Token::Page));
    colors.setColor(QPalette::WindowText, theme.color(m_doubtful ? Token::OnCaution : Token::Ink));
    m_words->setPalette(colors);
    m_words->setAutoFillBackground(m_doubtful);
    const int side = m_doubtful ? theme.pxInt(8) : 0;
    m_words->setContentsMargins(side, theme.pxInt(4), side, theme.pxInt(4));
}

} // namespace stillroom::ui
