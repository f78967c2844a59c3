#include "ui/panels/search/filter_form.h"

#include "ui/panels/search/names_edit.h"
#include "ui/panels/search/search_words.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/theme/theme.h"
#include "ui/widgets/number_edit.h"
#include "ui/widgets/pick_many.h"
#include "ui/widgets/wrap_label.h"

#include <QComboBox>
#include <QDate>
#include <QDateTime>
#include <QEvent>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTimeZone>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

constexpr qsizetype kDateLetters = 10; // "2026-11-02"

QDate dateOf(const QLineEdit& field) {
    return QDate::fromString(field.text().trimmed(), Qt::ISODate);
}

QTimeZone zoneOf(const store::BookSettings& settings) {
    const QTimeZone zone(QByteArray::fromStdString(settings.zone));
    return zone.isValid() ? zone : QTimeZone::utc();
}

QString dayOf(const std::optional<std::int64_t>& utcMs, const QTimeZone& zone, int daysBack) {
    if (!utcMs) return {};
    return QDateTime::fromMSecsSinceEpoch(*utcMs, zone).date().addDays(-daysBack).toString(Qt::ISODate);
}

std::vector<std::string> idsOf(const PickMany& pick) {
    std::vector<std::string> ids;
    for (const auto& id : pick.chosen())
        ids.push_back(toCore(id));
    return ids;
}

QStringList listOf(const std::vector<std::string>& ids) {
    QStringList list;
    for (const auto& id : ids)
        list << fromCore(id);
    return list;
}

} // namespace

FilterForm::FilterForm(QWidget* parent)
    : QWidget(parent),
      m_grid(new QGridLayout(this)),
      m_form(new QComboBox),
      m_states(new PickMany(tr("State"), tr("any but binned"))),
      m_strengthFrom(new NumberEdit),
      m_strengthTo(new NumberEdit),
      m_costFrom(new NumberEdit),
      m_costTo(new NumberEdit),
      m_currency(new QLabel),
      m_styles(new PickMany(tr("Style"), tr("any, or none"))),
      m_with(new NamesEdit),
      m_without(new NamesEdit),
      m_allergens(new PickMany(tr("Contains an allergen"), tr("not asked"))),
      m_withoutAllergens(new PickMany(tr("Surely without an allergen"), tr("not asked"))),
      m_changedFrom(new QLineEdit),
      m_changedTo(new QLineEdit),
      m_tooMuch(new QComboBox),
      m_remark(new WrapLabel),
      m_clear(new QPushButton(tr("Clear the &filters"))) {
    setAccessibleName(tr("Filters"));
    m_form->addItem(tr("drinks and preparations"));
    m_form->addItem(tr("drinks"), u"drink"_s);
    m_form->addItem(tr("preparations"), u"preparation"_s);
    m_states->setChoices(searchStateChoices());
    m_styles->setChoices(styleChoices());
    m_allergens->setChoices(allergenChoices());
    m_withoutAllergens->setChoices(allergenChoices());
    const auto named = [](QWidget* field, const QString& name) { field->setAccessibleName(name); };
    named(m_form, tr("What to look through"));
    named(m_strengthFrom, tr("Strength as served, from, % vol"));
    named(m_strengthTo, tr("Strength as served, to, % vol"));
    named(m_costFrom, tr("Cost of a serve, from"));
    named(m_costTo, tr("Cost of a serve, to"));
    named(m_with, tr("With these ingredients"));
    named(m_without, tr("Without these ingredients"));
    named(m_changedFrom, tr("Changed on or after, year-month-day"));
    named(m_changedTo, tr("Changed on or before, year-month-day"));
    named(m_tooMuch, tr("Somebody who tasted it says too"));
    m_with->setPlaceholderText(tr("names, with commas"));
    m_without->setPlaceholderText(tr("names, with commas"));
    for (auto* date : {m_changedFrom, m_changedTo})
        date->setPlaceholderText(tr("y-m-d"));

    addRow(tr("Loo&k through"), m_form);
    addRow(tr("St&ate"), m_states);
    addRow(tr("Stre&ngth"), range(m_strengthFrom, m_strengthTo, new QLabel(tr("% vol"))), m_strengthFrom);
    addRow(tr("C&ost"), range(m_costFrom, m_costTo, m_currency), m_costFrom);
    addRow(tr("St&yle"), m_styles);
    addRow(tr("&With"), m_with);
    addRow(tr("Witho&ut"), m_without);
    addRow(tr("&Contains"), m_allergens);
    addRow(tr("&Surely free of"), m_withoutAllergens);
    addRow(tr("Chan&ged"), range(m_changedFrom, m_changedTo, nullptr), m_changedFrom);
    addRow(tr("So&meone says"), m_tooMuch);
    m_grid->addWidget(m_remark, m_grid->rowCount(), 0, 1, 2);
    m_grid->addWidget(m_clear, m_grid->rowCount(), 1, 1, 1, Qt::AlignLeft);
    m_grid->setColumnStretch(1, 1);
    m_remark->hide();
    m_clear->setAutoDefault(false);

    connect(m_form, &QComboBox::currentIndexChanged, this, &FilterForm::onChange);
    connect(m_tooMuch, &QComboBox::currentIndexChanged, this, &FilterForm::onChange);
    for (auto* pick : {m_states, m_styles, m_allergens, m_withoutAllergens})
        connect(pick, &PickMany::changed, this, &FilterForm::onChange);
    for (auto* field : {m_strengthFrom, m_strengthTo, m_costFrom, m_costTo})
        connect(field, &QLineEdit::textEdited, this, &FilterForm::onChange);
    for (auto* field : {m_changedFrom, m_changedTo})
        connect(field, &QLineEdit::textEdited, this, &FilterForm::onChange);
    for (auto* field : {m_with, m_without})
        connect(field, &NamesEdit::changed, this, &FilterForm::onChange);
    connect(m_clear, &QPushButton::clicked, this, [this] {
        setFilters({});
        Q_EMIT changed();
    });
    dress();
}

void FilterForm::addRow(const QString& caption, QWidget* field, QWidget* buddy) {
    auto* label = new QLabel(caption);
    label->setBuddy(buddy != nullptr ? buddy : field);
    m_captions.push_back(label);
    const int row = m_grid->rowCount();
    m_grid->addWidget(label, row, 0, Qt::AlignLeft | Qt::AlignVCenter);
    m_grid->addWidget(field, row, 1);
}

QWidget* FilterForm::range(QWidget* from, QWidget* to, QLabel* unit) {
    auto* both = new QWidget;
    auto* row = new QHBoxLayout(both);
    row->setContentsMargins(0, 0, 0, 0);
    auto* until = new QLabel(tr("to"));
    m_captions.push_back(until);
    row->addWidget(from, 1);
    row->addWidget(until);
    row->addWidget(to, 1);
    if (unit != nullptr) {
        m_captions.push_back(unit);
        row->addWidget(unit);
    }
    return both;
}

QWidget* FilterForm::lastStop() const {
    return m_clear;
}

void FilterForm::setBook(const store::BookSettings& settings, const larder::Larder& larder) {
    m_filling = true;
    m_settings = settings;
    m_larder = larder;
    m_with->setLarder(&m_larder);
    m_without->setLarder(&m_larder);
    m_currency->setText(tr("%1 a serve").arg(currencySign(settings.rules.currency)));
    m_tooMuch->clear();
    m_tooMuch->addItem(tr("anything, or nothing"));
    for (const auto& scale : settings.scales.scales)
        m_tooMuch->addItem(tr("too %1").arg(fromCore(scale.name)), fromCore(scale.id));
    m_filling = false;
}

store::SearchFilters FilterForm::filters() const {
    store::SearchFilters filters;
    if (m_form->currentIndex() == 1) filters.form = history::DrinkForm::Drink;
    if (m_form->currentIndex() == 2) filters.form = history::DrinkForm::Preparation;
    for (const auto& id : m_states->chosen())
        if (const auto state = store::searchStateFromId(toCore(id))) filters.states.push_back(*state);
    const auto figure = [](const NumberEdit& field) {
        return field.isUnreadable() ? std::nullopt : field.value();
    };
    filters.strengthAtLeast = figure(*m_strengthFrom);
    filters.strengthAtMost = figure(*m_strengthTo);
    const auto money = [&](const NumberEdit& field) -> std::optional<quantity::Money> {
        if (field.isUnreadable()) return std::nullopt;
        QString text = field.text().trimmed();
        return quantity::Money::fromText(toCore(text.replace(u',', u'.')), m_settings.rules.currency);
    };
    filters.costAtLeast = money(*m_costFrom);
    filters.costAtMost = money(*m_costTo);
    filters.styles = idsOf(*m_styles);
    filters.with = m_with->ingredients();
    filters.without = m_without->ingredients();
    filters.allergens = idsOf(*m_allergens);
    filters.withoutAllergens = idsOf(*m_withoutAllergens);
    const auto zone = zoneOf(m_settings);
    if (const auto day = dateOf(*m_changedFrom); day.isValid())
        filters.changedFrom = day.startOfDay(zone).toMSecsSinceEpoch();
    if (const auto day = dateOf(*m_changedTo); day.isValid())
        filters.changedBefore = day.addDays(1).startOfDay(zone).toMSecsSinceEpoch();
    filters.tooMuchOf = toCore(m_tooMuch->currentData().toString());
    return filters;
}

void FilterForm::setFilters(const store::SearchFilters& filters) {
    m_filling = true;
    m_form->setCurrentIndex(!filters.form ? 0 : *filters.form == history::DrinkForm::Preparation ? 2 : 1);
    QStringList states;
    for (const auto state : filters.states)
        states << fromCore(store::searchStateId(state));
    m_states->setChosen(states);
    m_strengthFrom->setValue(filters.strengthAtLeast, 2);
    m_strengthTo->setValue(filters.strengthAtMost, 2);
    m_costFrom->setText(filters.costAtLeast ? fromCore(filters.costAtLeast->text()) : QString());
    m_costTo->setText(filters.costAtMost ? fromCore(filters.costAtMost->text()) : QString());
    m_styles->setChosen(listOf(filters.styles));
    m_with->setIngredients(filters.with);
    m_without->setIngredients(filters.without);
    m_allergens->setChosen(listOf(filters.allergens));
    m_withoutAllergens->setChosen(listOf(filters.withoutAllergens));
    const auto zone = zoneOf(m_settings);
    m_changedFrom->setText(dayOf(filters.changedFrom, zone, 0));
    m_changedTo->setText(dayOf(filters.changedBefore, zone, 1));
    m_tooMuch->setCurrentIndex(
        filters.tooMuchOf.empty() ? 0 : std::max(0, m_tooMuch->findData(fromCore(filters.tooMuchOf))));
    m_filling = false;
    tell();
}

void FilterForm::onChange() {
    if (m_filling) return;
    tell();
    Q_EMIT changed();
}

// What does not count yet, and what an answer about allergens cannot promise.
void FilterForm::tell() {
    QStringList remarks;
    for (const auto* names : {m_with, m_without})
        if (!names->problem().isEmpty()) remarks << names->problem();
    for (const auto* date : {m_changedFrom, m_changedTo})
        if (date->text().trimmed().size() >= kDateLetters && !dateOf(*date).isValid())
            remarks << tr("“%1” is not a day of the calendar.").arg(date->text().trimmed());
    if (!m_allergens->chosen().isEmpty() || !m_withoutAllergens->chosen().isEmpty())
        remarks << tr("Allergens are as the larder states them. “Surely free of” leaves out every drink with "
                      "something unstated in it; labels, traces and local rules come first.");
    m_remark->setText(remarks.join(u'\n'));
    m_remark->setVisible(!remarks.isEmpty());
    m_clear->setEnabled(!filters().isEmpty());
}

void FilterForm::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

void FilterForm::dress() {
    const auto& theme = Theme::current();
    m_grid->setContentsMargins(0, 0, 0, 0);
    m_grid->setHorizontalSpacing(theme.pxInt(10));
    m_grid->setVerticalSpacing(theme.pxInt(6));
    QPalette quiet = palette();
    quiet.setColor(QPalette::WindowText, theme.color(Token::Ink2));
    for (auto* label : m_captions) {
        label->setFont(theme.font(Type::Caption));
        label->setPalette(quiet);
    }
    m_remark->setFont(theme.font(Type::Caption));
    m_remark->setPalette(quiet);
    for (auto* field : {m_strengthFrom, m_strengthTo, m_costFrom, m_costTo})
        field->setMinimumWidth(theme.pxInt(44));
    for (auto* field : {m_changedFrom, m_changedTo})
        field->setMinimumWidth(theme.pxInt(80));
    for (auto* combo : {m_form, m_tooMuch}) {
        combo->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
        combo->setMinimumContentsLength(10);
    }
}

} // namespace stillroom::ui
