#include "ui/dialogs/measures_dialog.h"

#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/theme/theme.h"
#include "ui/widgets/number_edit.h"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

namespace stillroom::ui {

MeasuresDialog::MeasuresDialog(const store::BookSettings& settings, QWidget* parent)
    : QDialog(parent),
      m_settings(settings),
      m_name(new QLineEdit(this)),
      m_region(new QComboBox(this)),
      m_currency(new QLineEdit(this)),
      m_standardDrink(new NumberEdit(this)) {
    const auto& theme = Theme::current();
    setWindowTitle(tr("House measures"));
    auto* content = new QWidget(this);
    auto* form = new QFormLayout(content);
    const auto row = [&](const QString& words, QWidget* field) {
        field->setAccessibleName(words);
        form->addRow(words, field);
    };
    addSection(*form, tr("This book"));
    m_name->setText(fromCore(m_settings.name));
    row(tr("Name"), m_name);
    m_region->addItems(
        {QStringLiteral("US"), QStringLiteral("UK"), QStringLiteral("AU"), QStringLiteral("metric")});
    m_region->setCurrentText(fromCore(m_settings.region));
    row(tr("Ounces and spoons as in"), m_region);
    m_currency->setText(fromCore(m_settings.rules.currency.text()));
    row(tr("Currency"), m_currency);
    m_standardDrink->setValue(m_settings.rules.standardDrinkGrams, 2);
    row(tr("A standard drink, g of alcohol"), m_standardDrink);
    auto& measures = m_settings.rules.measures;
    addSection(*form, tr("Measures"));
    for (auto& [measure, size] : measures.volumesMl) {
        addField(*form, fromCore(quantity::measureInfo(measure).shown), tr("ml"), size);
        m_byMeasure.emplace_back(measure, m_fields.back().edit);
    }
    for (auto& [measure, size] : measures.massesG) {
        addField(*form, fromCore(quantity::measureInfo(measure).shown), tr("g"), size);
        m_byMeasure.emplace_back(measure, m_fields.back().edit);
    }
    addSection(*form, tr("What one of them gives"));
    for (auto& [name, size] : measures.countMl)
        addField(*form, fromCore(name), tr("ml"), size);
    for (auto& [name, size] : measures.countG)
        addField(*form, fromCore(name), tr("g"), size);
    addField(*form, tr("left by a rinse"), tr("ml"), measures.rinseRetainedMl);

    auto* scroll = new QScrollArea(this);
    scroll->setWidget(content);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto* about = new QLabel(
        tr("Kept with every revision from now on. Earlier revisions keep the measures they were kept with."),
        this);
    about->setWordWrap(true);
    auto* buttons = new QDialogButtonBox(this);
    m_save = buttons->addButton(tr("Save"), QDialogButtonBox::AcceptRole);
    m_save->setProperty("act", true);
    m_save->setDefault(true);
    buttons->addButton(tr("Leave it"), QDialogButtonBox::RejectRole);
    connect(buttons, &QDialogButtonBox::accepted, this, &MeasuresDialog::save);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(m_currency, &QLineEdit::textChanged, this, &MeasuresDialog::check);
    connect(m_standardDrink, &QLineEdit::textChanged, this, &MeasuresDialog::check);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(about);
    layout->addWidget(scroll, 1);
    layout->addWidget(buttons);
    resize(theme.pxInt(780), theme.pxInt(620));
    check();
}

void MeasuresDialog::addSection(QFormLayout& form, const QString& title) {
    auto* label = new QLabel(title, this);
    label->setFont(Theme::current().font(Type::Heading));
    form.addRow(label);
}

void MeasuresDialog::addField(QFormLayout& form, const QString& name, const QString& unit,
                              quantity::HouseSize& size) {
    auto* edit = new NumberEdit(this);
    edit->setValue(size.typical, 3);
    edit->setAccessibleName(name);
    edit->setToolTip(fromCore(size.source));
    edit->setFixedWidth(Theme::current().pxInt(84));
    auto* row = new QHBoxLayout;
    row->addWidget(edit);
    row->addWidget(new QLabel(unit, this));
    auto* source = new QLabel(fromCore(size.source), this);
    source->setFont(Theme::current().font(Type::Caption));
    source->setEnabled(false);
    source->setWordWrap(true); // where a number comes from is never cut
    source->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    row->addWidget(source, 1);
    form.addRow(name, row);
    connect(edit, &QLineEdit::textChanged, this, &MeasuresDialog::check);
    m_fields.push_back({&size, edit, size.typical});
}

NumberEdit* MeasuresDialog::fieldOf(quantity::Measure measure) const {
    for (const auto& [known, edit] : m_byMeasure)
        if (known == measure) return edit;
    return nullptr;
}

void MeasuresDialog::check() {
    bool readable = quantity::Currency::fromCode(toCore(m_currency->text().trimmed().toUpper())).has_value();
    readable = readable && m_standardDrink->value().value_or(0) > 0;
    for (const auto& field : m_fields)
        readable = readable && !field.edit->isUnreadable() && field.edit->value().has_value();
    m_save->setEnabled(readable);
}

void MeasuresDialog::save() {
    for (const auto& field : m_fields) {
        const auto value = field.edit->value();
        if (!value || trimmedNumber(*value, 3) == trimmedNumber(field.shown, 3)) continue;
        *field.size = {*value, *value, *value, "this house"};
    }
    m_settings.name = toCore(m_name->text().trimmed());
    m_settings.region = toCore(m_region->currentText());
    if (const auto currency = quantity::Currency::fromCode(toCore(m_currency->text().trimmed().toUpper())))
        m_settings.rules.currency = *currency;
    m_settings.rules.standardDrinkGrams =
        m_standardDrink->value().value_or(m_settings.rules.standardDrinkGrams);
    Q_EMIT saveAsked(m_settings);
    accept();
}

} // namespace stillroom::ui
