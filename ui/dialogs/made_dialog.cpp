#include "ui/dialogs/made_dialog.h"

#include "core/spec/edit.h"
#include "core/spec/vessels.h"
#include "ui/text/border.h"
#include "ui/text/dilution_words.h"
#include "ui/text/numbers.h"
#include "ui/theme/theme.h"
#include "ui/widgets/number_edit.h"
#include "ui/widgets/wrap_label.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

namespace {

using quantity::Mass;
using quantity::Temperature;
using quantity::Volume;

constexpr int kDecimals = 2;

// What the person left as it was keeps all its digits.
std::optional<double> kept(const NumberEdit& field, std::optional<double> stood, double scale = 1) {
    const auto value = field.value();
    if (!value) return std::nullopt;
    if (stood && trimmedNumber(*stood * scale, kDecimals) == trimmedNumber(*value, kDecimals)) return stood;
    return *value / scale;
}

bool within(const NumberEdit& field, double least, double most) {
    const auto value = field.value();
    return !value || (*value >= least && *value <= most);
}

} // namespace

MadeDialog::MadeDialog(const spec::Spec& spec, const larder::Larder& larder, const spec::HouseRules& rules,
                       QWidget* parent)
    : QDialog(parent),
      m_spec(spec),
      m_bindings(spec, larder, rules),
      m_before(new NumberEdit(this)),
      m_strained(new NumberEdit(this)),
      m_strainedMl(new NumberEdit(this)),
      m_onIce(new NumberEdit(this)),
      m_predicted(new QPushButton(tr("Back to &predicted"), this)),
      m_iceGrams(new NumberEdit(this)),
      m_iceC(new NumberEdit(this)),
      m_iceWet(new NumberEdit(this)),
      m_drinks(new NumberEdit(this)),
      m_vessel(new QComboBox(this)),
      m_vesselGrams(new NumberEdit(this)),
      m_startC(new NumberEdit(this)),
      m_model(new QComboBox(this)),
      m_glassGrams(new NumberEdit(this)),
      m_preheated(new QCheckBox(tr("The glass is &warmed first"), this)),
      m_iceInGlass(new NumberEdit(this)),
      m_water(new WrapLabel(this)),
      m_source(new WrapLabel(this)),
      m_note(new WrapLabel(this)) {
    const auto& theme = Theme::current();
    setWindowTitle(tr("How it was made"));
    for (auto* edit : {m_onIce, m_iceC, m_startC})
        edit->setBelowZeroAllowed(true);
    auto* measuredForm = new QFormLayout;
    auto* iceForm = new QFormLayout;
    addMeasured(*measuredForm);
    addGlass(*measuredForm);
    addIce(*iceForm);
    auto* columns = new QHBoxLayout;
    columns->addLayout(measuredForm, 1);
    columns->addSpacing(theme.pxInt(24));
    columns->addLayout(iceForm, 1);
    m_water->setFont(theme.font(Type::Heading));
    for (auto* label : {m_water, m_source, m_note})
        label->setWordWrap(true);
    auto* buttons = new QDialogButtonBox(this);
    m_ok = buttons->addButton(tr("Take it"), QDialogButtonBox::AcceptRole);
    m_ok->setProperty("act", true);
    m_ok->setDefault(true);
    buttons->addButton(tr("Leave it"), QDialogButtonBox::RejectRole);
    connect(buttons, &QDialogButtonBox::accepted, this, [this] {
        Q_EMIT saveAsked(written());
        accept();
    });
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(20, 16, 20, 16);
    layout->addLayout(columns);
    layout->addSpacing(theme.pxInt(8));
    layout->addWidget(m_water);
    layout->addWidget(m_source);
    layout->addWidget(m_note);
    layout->addStretch(1);
    layout->addWidget(buttons);
    setMinimumWidth(theme.pxInt(720));
    m_before->setFocus();
    check();
}

void MadeDialog::addField(QFormLayout& form, const QString& words, const QString& unit, NumberEdit* edit) {
    QString plain = words;
    plain.remove(QLatin1Char('&'));
    edit->setAccessibleName(QStringLiteral("%1, %2").arg(plain, unit));
    edit->setFixedWidth(Theme::current().pxInt(84));
    auto* row = new QHBoxLayout;
    row->addWidget(edit);
    row->addWidget(new QLabel(unit, this));
    row->addStretch(1);
    form.addRow(words, row);
    if (auto* caption = qobject_cast<QLabel*>(form.labelForField(row))) caption->setBuddy(edit);
    m_edits.push_back(edit);
    connect(edit, &QLineEdit::textChanged, this, &MadeDialog::check);
}

void MadeDialog::addMeasured(QFormLayout& form) {
    const auto& theme = Theme::current();
    auto* title = new QLabel(tr("Water, as measured"), this);
    title->setFont(theme.font(Type::Heading));
    form.addRow(title);
    auto* about = new WrapLabel(this);
    about->setWordWrap(true);
    about->setText(m_spec.serves > 1
                       ? tr("Of all %1 serves together. One way of the three is enough.").arg(m_spec.serves)
                       : tr("One way of the three is enough."));
    form.addRow(about);
    addField(form, tr("Weight &before ice"), tr("g"), m_before);
    addField(form, tr("Weight &strained"), tr("g"), m_strained);
    addField(form, tr("or &volume strained"), tr("ml, at 20 °C"), m_strainedMl);
    addField(form, tr("or &coldest on the ice"), tr("°C"), m_onIce);
    m_before->setToolTip(tr("Left empty, the lines of the spec are taken for it."));
    m_onIce->setToolTip(tr("The least certain: half a degree is about a tenth of the water."));
    m_predicted->setAutoDefault(false);
    connect(m_predicted, &QPushButton::clicked, this, &MadeDialog::forgetMeasured);
    form.addRow(QString(), m_predicted);
}

void MadeDialog::addIce(QFormLayout& form) {
    const auto& method = m_spec.method;
    auto* title = new QLabel(tr("Ice and vessel"), this);
    title->setFont(Theme::current().font(Type::Heading));
    form.addRow(title);
    m_iceGrams->setValue(method.iceGrams, kDecimals);
    m_iceC->setValue(method.iceC, kDecimals);
    if (method.iceWetShare) m_iceWet->setValue(*method.iceWetShare * 100, kDecimals);
    m_drinks->setValue(method.drinksPerShake, 0);
    m_vesselGrams->setValue(method.vesselGrams, kDecimals);
    m_startC->setValue(method.startC, kDecimals);
    addField(form, tr("&Ice"), tr("g"), m_iceGrams);
    addField(form, tr("Ice &temperature"), tr("°C, 0 or below"), m_iceC);
    addField(form, tr("Water &on the ice"), tr("% of its weight"), m_iceWet);
    addField(form, tr("&Drinks a shake"), tr("at once"), m_drinks);
    m_vessel->addItem(tr("not stated: takes no heat"), QString());
    for (const auto& vessel : spec::vessels())
        m_vessel->addItem(fromCore(vessel.name), fromCore(vessel.id));
    const int at = m_vessel->findData(fromCore(method.vessel));
    m_vessel->setCurrentIndex(std::max(at, 0));
    m_vessel->setAccessibleName(tr("Vessel"));
    form.addRow(tr("V&essel"), m_vessel);
    connect(m_vessel, &QComboBox::currentIndexChanged, this, &MadeDialog::check);
    addField(form, tr("Vessel wei&ghs"), tr("g"), m_vesselGrams);
    addField(form, tr("Lines st&art at"), tr("°C"), m_startC);
    m_startC->setToolTip(tr("Of lines without a temperature of their own. Left empty: 20 °C."));
    m_model->addItem(tr("the published curve"));
    m_model->addItem(tr("the heat balance with the ice"));
    m_model->setCurrentIndex(method.dilutionModel == spec::DilutionModel::Balance ? 1 : 0);
    m_model->setAccessibleName(tr("Predicted by"));
    form.addRow(tr("Predicted b&y"), m_model);
    connect(m_model, &QComboBox::currentIndexChanged, this, &MadeDialog::check);
}

void MadeDialog::addGlass(QFormLayout& form) {
    auto* title = new QLabel(tr("Glass"), this);
    title->setFont(Theme::current().font(Type::Heading));
    form.addRow(title);
    m_glassGrams->setValue(m_spec.glassGrams, kDecimals);
    m_iceInGlass->setValue(m_spec.iceInGlassG, kDecimals);
    addField(form, tr("G&lass weighs"), tr("g"), m_glassGrams);
    addField(form, tr("Ice i&n the glass"), tr("g"), m_iceInGlass);
    m_preheated->setChecked(m_spec.preheatedGlass);
    form.addRow(QString(), m_preheated);
    connect(m_preheated, &QCheckBox::toggled, this, &MadeDialog::check);
}

QString MadeDialog::water() const {
    return m_water->text();
}

QString MadeDialog::source() const {
    return m_source->text();
}

QString MadeDialog::note() const {
    return m_note->text();
}

bool MadeDialog::anythingMeasured() const {
    return std::any_of(m_edits.begin(), m_edits.end(), [this](const NumberEdit* edit) {
        const bool way = edit == m_before || edit == m_strained || edit == m_strainedMl || edit == m_onIce;
        return way && !edit->text().trimmed().isEmpty();
    });
}

std::optional<spec::DilutionEntry> MadeDialog::measured() const {
    const auto before = m_before->value();
    const auto after = m_strained->value();
    if (after && before)
        return spec::dilutionFromWeights(m_spec, m_bindings, Mass::fromGrams(*before),
                                         Mass::fromGrams(*after));
    if (after) return spec::dilutionFromWeight(m_spec, m_bindings, Mass::fromGrams(*after));
    if (const auto ml = m_strainedMl->value())
        return spec::dilutionFromVolume(m_spec, m_bindings, Volume::fromMl(*ml));
    if (const auto celsius = m_onIce->value())
        return spec::dilutionFromTemperature(m_spec, m_bindings, Temperature::fromCelsius(*celsius));
    return std::nullopt;
}

QString MadeDialog::whyNot() const {
    const bool unreadable =
        std::any_of(m_edits.begin(), m_edits.end(), [](const auto* edit) { return edit->isUnreadable(); });
    if (unreadable) return tr("A framed field holds no number yet.");
    for (const auto* edit : {m_iceGrams, m_vesselGrams, m_glassGrams, m_iceInGlass})
        if (!within(*edit, 0, 1e6)) return tr("A weight is at most 1 000 000 g.");
    if (!within(*m_iceC, -45, 0)) return tr("Ice is between −45 °C and 0 °C.");
    if (!within(*m_iceWet, 0, 100)) return tr("The water on the ice is between 0 % and 100 % of it.");
    if (!within(*m_startC, -45, 100)) return tr("The lines start between −45 °C and 100 °C.");
    const auto drinks = m_drinks->value();
    if (drinks && (*drinks < 1 || *drinks > 1000 || std::floor(*drinks) != *drinks))
        return tr("Drinks a shake is a whole number, at least one.");
    return {};
}

QString MadeDialog::whyNotMeasured() const {
    if (!anythingMeasured()) return {};
    const auto before = m_before->value();
    const auto after = m_strained->value();
    const int ways = (before || after ? 1 : 0) + (m_strainedMl->value() ? 1 : 0) + (m_onIce->value() ? 1 : 0);
    if (ways > 1) return tr("Weight, volume and temperature say the same thing three ways. Fill in one.");
    if (before && !after) return tr("The weight strained is still missing.");
    if (before && !(*before > 0)) return tr("Before ice it weighed something.");
    if (before && *after < *before)
        return tr("Strained it weighs less than before ice. A drink takes water up and loses none, so one of "
                  "the two is a slip.");
    if (measured()) {
        if (measured()->ratio <= 100) return {};
        return tr("That is more than a hundred times its own volume in water. One figure is a slip.");
    }
    const double grams = spec::compositionOf(m_spec, m_bindings, spec::Stage::Measured).totalGrams();
    if (!(grams > 0)) return tr("Nothing is mixed yet that the water could be measured against.");
    if (after)
        return tr("The lines together weigh %1 g already. A drink takes water up and loses none, so this is "
                  "a slip, or not all was poured: fill in the weight before ice too.")
            .arg(number(grams, 1));
    if (m_strainedMl->value())
        return tr(
            "The lines together measure more than that already. A drink takes water up and loses none.");
    return tr("No amount of water lets this drink stand at that temperature on ice.");
}

spec::Spec MadeDialog::written() const {
    const auto& stood = m_spec.method;
    spec::Spec next = spec::withIce(m_spec, {kept(*m_iceGrams, stood.iceGrams), kept(*m_iceC, stood.iceC),
                                             kept(*m_iceWet, stood.iceWetShare, 100)});
    spec::Method method = next.method;
    method.drinksPerShake = static_cast<int>(m_drinks->value().value_or(1));
    next = spec::withMethod(next, std::move(method));
    // A vessel this version does not know stays until another is chosen.
    const bool unknown = m_vessel->findData(fromCore(stood.vessel)) < 0 && m_vessel->currentIndex() == 0;
    next = spec::withVessel(next, unknown ? stood.vessel : toCore(m_vessel->currentData().toString()),
                            kept(*m_vesselGrams, stood.vesselGrams));
    next = spec::withStartTemperature(next, kept(*m_startC, stood.startC));
    next = spec::withDilutionModel(next, m_model->currentIndex() == 1 ? spec::DilutionModel::Balance
                                                                      : spec::DilutionModel::Curve);
    next = spec::withGlassMass(next, kept(*m_glassGrams, m_spec.glassGrams), m_preheated->isChecked());
    next = spec::withIceInGlass(next, kept(*m_iceInGlass, m_spec.iceInGlassG));
    if (anythingMeasured()) {
        if (auto entry = measured()) next = spec::withDilution(next, std::move(entry));
    } else if (m_clear) {
        next = spec::withDilution(next, std::nullopt);
    }
    return next;
}

void MadeDialog::forgetMeasured() {
    m_clear = true;
    for (auto* edit : {m_before, m_strained, m_strainedMl, m_onIce})
        edit->clear();
    check();
    m_before->setFocus(Qt::OtherFocusReason);
}

void MadeDialog::check() {
    QString why = whyNot();
    if (why.isEmpty()) why = whyNotMeasured();
    m_note->setText(why);
    m_ok->setEnabled(why.isEmpty());
    m_predicted->setEnabled(anythingMeasured() || (m_spec.method.dilution && !m_clear));
    const auto* vessel = spec::vesselById(toCore(m_vessel->currentData().toString()));
    m_vesselGrams->setPlaceholderText(vessel ? number(vessel->assumedMass.grams(), 0) : QString());
    m_vesselGrams->setToolTip(
        vessel ? tr("Left empty, %1 g is assumed.").arg(number(vessel->assumedMass.grams(), 0)) : QString());
    if (!why.isEmpty()) {
        m_water->setText(tr("Water added: not known as it stands"));
        m_source->clear();
        return;
    }
    const spec::Spec next = written();
    const auto source = spec::dilutionSource(next, m_bindings);
    using Kind = spec::DilutionSource::Kind;
    if (source.kind == Kind::None)
        m_water->setText(tr("Water added: none"));
    else if (source.kind == Kind::UnknownIce)
        m_water->setText(tr("Water added: not known"));
    else
        m_water->setText(tr("Water added: %1").arg(dilutionRatioWords(source.ratio)));
    const QString how = next.method.dilution ? fromCore(next.method.dilution->how) : QString();
    QString words = dilutionSourceWords(source, how);
    if (!words.isEmpty()) words[0] = words[0].toUpper();
    m_source->setText(words + QLatin1Char('.'));
}

} // namespace stillroom::ui
