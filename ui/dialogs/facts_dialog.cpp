#include "ui/dialogs/facts_dialog.h"

#include "core/larder/larder.h"
#include "core/preparation/doubts.h"
#include "ui/text/border.h"
#include "ui/text/larder_words.h"
#include "ui/text/numbers.h"
#include "ui/text/words.h"
#include "ui/theme/theme.h"
#include "ui/widgets/number_edit.h"

#include <QDate>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace stillroom::ui {

namespace {

std::optional<double> typical(const std::optional<larder::Fact>& fact) {
    return fact ? std::optional<double>(fact->typical) : std::nullopt;
}

// A number the person left as it was keeps its source and range.
void take(std::optional<larder::Fact>& fact, const NumberEdit& field, int decimals) {
    const auto value = field.value();
    if (!value) {
        if (field.text().trimmed().isEmpty()) fact.reset();
        return;
    }
    if (fact && trimmedNumber(fact->typical, decimals) == trimmedNumber(*value, decimals)) return;
    fact = larder::Fact{*value, *value, *value, larder::SourceKind::Label, "label"};
}

} // namespace

FactsDialog::FactsDialog(const larder::Ingredient& ingredient, quantity::Currency currency, QWidget* parent)
    : QDialog(parent),
      m_ingredient(ingredient),
      m_currency(currency),
      m_strength(new NumberEdit(this)),
      m_sugar(new NumberEdit(this)),
      m_acid(new NumberEdit(this)),
      m_density(new NumberEdit(this)),
      m_price(new NumberEdit(this)),
      m_packMl(new NumberEdit(this)),
      m_note(new QLabel(this)) {
    const auto& theme = Theme::current();
    const auto name = fromCore(ingredient.name);
    setWindowTitle(tr("Facts of %1").arg(name));
    auto* title = new QLabel(name, this);
    title->setFont(theme.font(Type::Title));
    auto* about = new QLabel(tr("What stands on the label. Leave a field empty when nobody knows."), this);
    about->setWordWrap(true);
    const auto& facts = ingredient.facts;
    m_strength->setValue(typical(facts.abvPercent), 2);
    m_sugar->setValue(typical(facts.sugarGPerL), 1);
    m_acid->setValue(typical(facts.acidGPerL), 2);
    m_density->setValue(typical(facts.densityKgPerM3), 1);
    if (!ingredient.packs.empty()) {
        const auto& pack = ingredient.packs.back();
        if (pack.price.currency == currency) m_price->setText(fromCore(pack.price.text()));
        m_packMl->setValue(pack.forMl, 1);
    }
    auto* form = new QFormLayout;
    const QString per = facts.dry ? tr("g per kg") : tr("g per litre");
    const auto field = [&](const QString& words, const QString& unit, NumberEdit* edit) {
        edit->setAccessibleName(words);
        auto* row = new QHBoxLayout;
        row->addWidget(edit);
        row->addWidget(new QLabel(unit, this));
        form->addRow(words, row);
        if (auto* caption = qobject_cast<QLabel*>(form->labelForField(row))) caption->setBuddy(edit);
        connect(edit, &QLineEdit::textChanged, this, &FactsDialog::check);
    };
    field(tr("&Strength"), tr("% vol"), m_strength);
    field(tr("S&ugar"), per, m_sugar);
    field(tr("&Acid, as citric"), per, m_acid);
    field(tr("&Density"), tr("kg/m³"), m_density);
    field(tr("&Price of a pack"), currencySign(currency), m_price);
    field(tr("Pack &holds"), tr("ml"), m_packMl);
    for (auto* edit : {m_strength, m_sugar, m_acid, m_density, m_price, m_packMl})
        edit->setAccessibleName(edit->accessibleName().remove(QLatin1Char('&')));
    m_note->setWordWrap(true);
    auto* buttons = new QDialogButtonBox(this);
    m_save = buttons->addButton(tr("Save"), QDialogButtonBox::AcceptRole);
    m_save->setProperty("act", true);
    m_save->setDefault(true);
    buttons->addButton(tr("Leave it"), QDialogButtonBox::RejectRole);
    connect(buttons, &QDialogButtonBox::accepted, this, &FactsDialog::save);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(20, 16, 20, 16);
    layout->addWidget(title);
    layout->addWidget(about);
    layout->addLayout(form);
    layout->addWidget(m_note);
    layout->addWidget(buttons);
    setMinimumWidth(theme.pxInt(400));
    check();
}

QString FactsDialog::note() const {
    return m_note->text();
}

void FactsDialog::check() {
    QString note;
    bool readable = true;
    for (auto* edit : {m_strength, m_sugar, m_acid, m_density, m_price, m_packMl})
        readable = readable && !edit->isUnreadable();
    if (m_strength->value().value_or(0) > 100) {
        readable = false;
        note = tr("A strength cannot be above 100 % vol.");
    } else if (!readable) {
        note = tr("A framed field holds no number yet.");
    } else if (m_price->value().has_value() != m_packMl->value().has_value()) {
        note = tr("A price counts once the size of the pack is there too.");
    }
    if (readable && note.isEmpty()) {
        auto next = m_ingredient;
        next.facts = written();
        QStringList doubts;
        for (const auto& found : preparation::doubtsOf(next))
            doubts << findingSentence(found, next, larder::Larder());
        note = doubts.join(QLatin1Char(' '));
    }
    m_note->setText(note);
    m_save->setEnabled(readable);
}

larder::FactState FactsDialog::written() const {
    larder::FactState facts = m_ingredient.facts;
    take(facts.abvPercent, *m_strength, 2);
    take(facts.sugarGPerL, *m_sugar, 1);
    take(facts.acidGPerL, *m_acid, 2);
    take(facts.densityKgPerM3, *m_density, 1);
    return facts;
}

void FactsDialog::save() {
    larder::Ingredient next = m_ingredient;
    next.facts = written();
    const auto price = m_price->value();
    const auto size = m_packMl->value();
    if (price && size && *size > 0) {
        // Decimals as the currency has them; more are rounded where they are typed, not later.
        const auto text = QString::number(*price, 'f', m_currency.exponent);
        const auto money = quantity::Money::fromText(toCore(text), m_currency);
        const bool same = !next.packs.empty() && money && next.packs.back().price == *money &&
                          next.packs.back().forMl == *size;
        if (money && !same) {
            larder::Pack pack;
            pack.id = base::PackId::random();
            pack.price = *money;
            pack.forMl = *size;
            pack.pricedOn = toCore(QDate::currentDate().toString(Qt::ISODate));
            next.packs.push_back(pack);
        }
    }
    if (next != m_ingredient) Q_EMIT saveAsked(next);
    accept();
}

} // namespace stillroom::ui
