#include "ui/panels/larder/terms_form.h"

#include "core/exchange/stock_entry.h"
#include "core/larder/got_from.h"
#include "core/larder/stock_change.h"
#include "ui/panels/larder/entry_field.h"
#include "ui/session/larder_edit.h"
#include "ui/text/border.h"
#include "ui/text/larder_words.h"
#include "ui/text/numbers.h"
#include "ui/text/terms_words.h"
#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"

#include <QCheckBox>
#include <QComboBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>

#include <algorithm>
#include <array>

namespace stillroom::ui {

using larder::Ingredient;
using larder::IngredientSort;
using larder::OnShelf;
using larder::PackUnit;

namespace {

constexpr std::array kUnits{PackUnit::Piece, PackUnit::Gram, PackUnit::Ml};
constexpr std::array kStates{OnShelf::NotSaid, OnShelf::Have, OnShelf::Low, OnShelf::Out};

template <class All, class Each>
int placeOf(const All& all, const Each& each) {
    return static_cast<int>(std::find(all.begin(), all.end(), each) - all.begin());
}

QString yieldText(const larder::GotFrom& from) {
    return QString(trimmedNumber(from.perUnit.toDouble(), 4) + QLatin1Char(' ') + packUnitWord(from.unit));
}

} // namespace

TermsForm::TermsForm(QWidget* parent) : QWidget(parent), m_grid(new QGridLayout(this)) {
    setAccessibleName(tr("From purchase to glass"));
    m_grid->setContentsMargins(0, 0, 0, 0);
    m_grid->setColumnStretch(2, 1);
    makePurchase();
    makeHouse();
    makeShelf();
    dress();
}

EntryField* TermsForm::field(const QString& key, const QString& name, Take take) {
    auto* made = new EntryField(name, this);
    made->setObjectName(key);
    connect(made, &EntryField::entered, this, [this, key, take = std::move(take)](const QString& text) {
        if (m_edit == nullptr || !m_edit->hasChosen()) return;
        Ingredient next = m_edit->now();
        const bool readable = take(next, text);
        m_edit->setTyped(key, readable ? QString() : text);
        if (readable) m_edit->set(std::move(next));
        fill();
    });
    connect(made, &EntryField::acceptAsked, this, [this] {
        if (m_edit != nullptr && m_edit->isPending()) Q_EMIT acceptAsked();
    });
    connect(made, &EntryField::leaveAsked, this, &TermsForm::leaveAsked);
    return made;
}

void TermsForm::addRow(const QString& words, const std::vector<QWidget*>& fields, bool spoken) {
    Row row{new QLabel(words, this), fields.front(), new QWidget(this), new WrapLabel(this)};
    row.label->setBuddy(fields.front());
    auto* line = new QHBoxLayout(row.holder);
    line->setContentsMargins(0, 0, 0, 0);
    for (auto* each : fields)
        line->addWidget(each);
    line->addStretch(1);
    const int at = m_grid->rowCount();
    m_grid->addWidget(row.label, at, 0, Qt::AlignLeft | Qt::AlignVCenter);
    m_grid->addWidget(row.holder, at, 1, 1, spoken ? 1 : 2);
    if (spoken) m_grid->addWidget(row.words, at, 2, Qt::AlignVCenter);
    row.words->setVisible(spoken);
    row.words->setMinimumWidth(1);
    m_rows.push_back(row);
}

void TermsForm::makePurchase() {
    m_lost = field(QStringLiteral("terms/lost"), tr("Lost, in per cent of what is bought"),
                   [this](Ingredient& next, const QString& text) { return takeLost(next, text); });
    m_lost->setAlignment(Qt::AlignRight);
    addRow(tr("Lost, &waste"), {m_lost, new QLabel(tr("%"), this)});
    m_from = field(QStringLiteral("terms/from"), tr("Got from"),
                   [this](Ingredient& next, const QString& text) { return takeFrom(next, text); });
    m_from->setPlaceholderText(tr("bought as it is"));
    m_from->offer(
        [this](const QString& text) { return offered(text, [](const Ingredient&) { return true; }); });
    addRow(tr("&Got from"), {m_from});
    m_gives = field(QStringLiteral("terms/gives"), tr("One gives"),
                    [this](Ingredient& next, const QString& text) { return takeGives(next, text); });
    m_gives->setPlaceholderText(tr("30 ml"));
    m_givenBy = new QComboBox(this);
    m_givenBy->setAccessibleName(tr("Of what, bought"));
    m_givenBy->addItems({tr("from a piece"), tr("from a gram"), tr("from a ml")});
    connect(m_givenBy, &QComboBox::activated, this, [this](int at) {
        change([&](Ingredient& next) {
            if (next.gotFrom) next.gotFrom->ofUnit = kUnits[static_cast<std::size_t>(at)];
        });
    });
    addRow(tr("&One gives"), {m_gives, m_givenBy});
    m_share = field(QStringLiteral("terms/share"), tr("Takes of its price, in per cent"),
                    [this](Ingredient& next, const QString& text) { return takeShare(next, text); });
    m_share->setAlignment(Qt::AlignRight);
    addRow(tr("Takes of its pri&ce"), {m_share, new QLabel(tr("%"), this)});
}

void TermsForm::makeHouse() {
    m_bottleOf = field(QStringLiteral("terms/bottleOf"), tr("A bottle of"),
                       [this](Ingredient& next, const QString& text) { return takeBottleOf(next, text); });
    m_bottleOf->setPlaceholderText(tr("a thing of its own"));
    m_bottleOf->offer([this](const QString& text) {
        return offered(text, [](const Ingredient& each) { return each.sort == IngredientSort::Kind; });
    });
    m_pouredForIt = new QCheckBox(tr("the house pours it"), this);
    connect(m_pouredForIt, &QCheckBox::clicked, this, &TermsForm::takePouredForIt);
    addRow(tr("A bottle of"), {m_bottleOf, m_pouredForIt}, false);
    m_pours = field(QStringLiteral("terms/pours"), tr("The house pours"),
                    [this](Ingredient& next, const QString& text) { return takePours(next, text); });
    m_pours->setPlaceholderText(tr("whatever is named"));
    m_pours->offer([this](const QString& text) {
        return offered(text, [](const Ingredient& each) { return each.sort != IngredientSort::Kind; });
    });
    addRow(tr("The house &pours"), {m_pours});
    m_keeps = field(QStringLiteral("terms/keeps"), tr("Keeps, days, as the house rules"),
                    [this](Ingredient& next, const QString& text) { return takeKeeps(next, text); });
    m_keeps->setAlignment(Qt::AlignRight);
    addRow(tr("Keeps"), {m_keeps, new QLabel(tr("days"), this)});
    m_dry = new QCheckBox(tr("dr&y: weighed, its facts are per kg"), this);
    connect(m_dry, &QCheckBox::clicked, this,
            [this](bool dry) { change([&](Ingredient& next) { next.facts.dry = dry; }); });
    addRow(tr("Measured"), {m_dry}, false);
}

void TermsForm::makeShelf() {
    m_onShelf = new QComboBox(this);
    m_onShelf->setAccessibleName(tr("On the shelf"));
    m_onShelf->addItems({tr("not said"), tr("have"), tr("low"), tr("out")});
    connect(m_onShelf, &QComboBox::activated, this, [this](int at) {
        change([&](Ingredient& next) {
            next.stock =
                larder::withState(next.stock, kStates[static_cast<std::size_t>(at)], m_edit->today());
        });
        m_edit->setTyped(QStringLiteral("terms/amount"), {});
    });
    m_amount = field(QStringLiteral("terms/amount"), tr("Amount on the shelf"),
                     [this](Ingredient& next, const QString& text) { return takeAmount(next, text); });
    m_amount->setPlaceholderText(tr("700 ml, 2 bottles"));
    addRow(tr("On the shel&f"), {m_onShelf, m_amount}, false);
    m_counted =
        field(QStringLiteral("terms/counted"), tr("Looked at on"), [](Ingredient& next, const QString& text) {
            next.stock.countedOn = toCore(text.trimmed()); // findings say when it is no date
            return true;
        });
    m_counted->setPlaceholderText(QStringLiteral("2026-11-25"));
    m_off = new QCheckBox(tr("off the menu &until further notice"), this);
    connect(m_off, &QCheckBox::clicked, this,
            [this](bool off) { change([&](Ingredient& next) { next.stock.off = off; }); });
    addRow(tr("Looked at on"), {m_counted, m_off}, false);
}

void TermsForm::change(const std::function<void(Ingredient&)>& edit) {
    if (m_filling || m_edit == nullptr || !m_edit->hasChosen()) return;
    Ingredient next = m_edit->now();
    edit(next);
    m_edit->set(std::move(next));
}

void TermsForm::setEdit(LarderEdit* edit) {
    m_edit = edit;
    if (edit != nullptr) {
        connect(edit, &LarderEdit::changed, this, &TermsForm::fill);
        connect(edit, &LarderEdit::chosenChanged, this, &TermsForm::fill);
    }
    fill();
}

QString TermsForm::typedOf(const char* key) const {
    return m_edit->typed(QString::fromLatin1(key));
}

void TermsForm::beside(const QWidget* field, const QString& words, bool shown) {
    for (const auto& row : m_rows) {
        if (row.field != field) continue;
        row.words->setText(words);
        row.words->setVisible(shown && !words.isEmpty());
        row.label->setVisible(shown);
        row.holder->setVisible(shown);
    }
}

// What refuses stands where the explanation was, and frames the field.
void TermsForm::besideOr(EntryField* field, FindingPlace place, const QString& words, bool shown) {
    QString refusal;
    for (const auto& finding : m_edit->findings())
        if (finding.refuses && placeOfFinding(finding, m_edit->now()) == place)
            refusal = findingSentence(finding, m_edit->now(), m_edit->larderNow());
    if (!refusal.isEmpty()) field->setUnreadable(true);
    beside(field, refusal.isEmpty() ? words : refusal, shown);
    for (const auto& row : m_rows) {
        if (row.field != field) continue;
        QPalette colors = palette();
        colors.setColor(QPalette::WindowText,
                        Theme::current().color(refusal.isEmpty() ? Token::Ink2 : Token::Error));
        row.words->setPalette(colors);
    }
}

QString TermsForm::wordsBeside(const QWidget& field) const {
    for (const auto& row : m_rows)
        if (row.field == &field && !row.words->isHidden()) return row.words->text();
    return {};
}

void TermsForm::fill() {
    if (m_edit == nullptr || !m_edit->hasChosen()) return;
    m_filling = true;
    fillPurchase();
    fillHouse();
    fillShelf();
    m_filling = false;
}

void TermsForm::fillPurchase() {
    const auto& now = m_edit->now();
    const auto& larder = m_edit->larderNow();
    const bool bought = !m_edit->isMade();
    const auto lost = larder::percentLost(now.usableShare);
    m_lost->showValue(lost ? percentText(*lost) : QStringLiteral("?"), typedOf("terms/lost"));
    besideOr(m_lost, FindingPlace::Lost, usedSentence(now), bought);
    const auto* source = now.gotFrom ? larder.find(now.gotFrom->of) : nullptr;
    m_from->showValue(source != nullptr ? fromCore(source->name) : QString(), typedOf("terms/from"));
    const auto waiting = waitingFrom();
    if (waiting) m_from->setUnreadable(false);
    besideOr(m_from, FindingPlace::Kinship, takersSentence(larder, now), bought);
    const bool got = bought && (now.gotFrom || !typedOf("terms/from").isEmpty());
    m_gives->showValue(now.gotFrom ? yieldText(*now.gotFrom) : QString(), typedOf("terms/gives"));
    if (now.gotFrom)
        m_givenBy->setCurrentIndex(placeOf(kUnits, now.gotFrom->ofUnit));
    else if (waiting && waiting != m_guessedFor)
        m_givenBy->setCurrentIndex(
            placeOf(kUnits, larder::soldIn(*larder.find(*waiting)).value_or(PackUnit::Piece)));
    m_guessedFor = waiting;
    besideOr(m_gives, FindingPlace::Gives,
             now.gotFrom ? comesToSentence(larder, now, m_edit->priceQuestion()) : QString(), got);
    const auto share = now.gotFrom ? larder::percentOfShare(now.gotFrom->priceShare) : std::nullopt;
    m_share->showValue(share ? percentText(*share) : QString(), typedOf("terms/share"));
    besideOr(m_share, FindingPlace::Share, tr("100: it bears the whole price. 0: a by-product."),
             bought && now.gotFrom);
}

void TermsForm::fillHouse() {
    const auto& now = m_edit->now();
    const auto& larder = m_edit->larderNow();
    const auto nameOf = [&](const std::optional<base::IngredientId>& id) {
        const auto* known = id ? larder.find(*id) : nullptr;
        return known != nullptr ? fromCore(known->name) : QString();
    };
    m_bottleOf->showValue(nameOf(now.kind), typedOf("terms/bottleOf"));
    const auto* kind = now.kind ? larder.find(*now.kind) : nullptr;
    m_pouredForIt->setVisible(kind != nullptr);
    m_pouredForIt->setChecked(kind != nullptr && kind->houseBottle == now.id);
    beside(m_bottleOf, {}, !m_edit->isMade() && (m_edit->isNew() || now.sort == IngredientSort::Bottle));
    m_pours->showValue(nameOf(now.houseBottle), typedOf("terms/pours"));
    besideOr(m_pours, FindingPlace::Kinship,
             now.houseBottle ? tr("A line that names %1 pours this.").arg(fromCore(now.name)) : QString(),
             !m_edit->isMade() && now.sort == IngredientSort::Kind && !m_edit->isNew());
    m_keeps->showValue(now.keepDays ? QString::number(*now.keepDays) : QString(), typedOf("terms/keeps"));
    const QString published = m_edit->isMade() ? tr("How long it keeps by its parts stands on its own page.")
                                               : publishedKeeping(now);
    beside(m_keeps, published.isEmpty() ? tr("Nothing is published for it by itself.") : published);
    m_dry->setChecked(now.facts.dry);
    beside(m_dry, {}, !m_edit->isMade());
}

void TermsForm::fillShelf() {
    const auto& stock = m_edit->now().stock;
    m_onShelf->setCurrentIndex(placeOf(kStates, stock.state));
    m_amount->showValue(fromCore(exchange::stockAmountText(stock)), typedOf("terms/amount"));
    m_counted->showValue(fromCore(stock.countedOn), typedOf("terms/counted"));
    m_off->setChecked(stock.off);
    beside(m_onShelf, {});
    beside(m_counted, {});
}

void TermsForm::keyPressEvent(QKeyEvent* event) {
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (enter && event->modifiers() == Qt::NoModifier && m_edit != nullptr && m_edit->isPending()) {
        Q_EMIT acceptAsked();
        return;
    }
    QWidget::keyPressEvent(event);
}

void TermsForm::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

void TermsForm::dress() {
    const auto& theme = Theme::current();
    m_grid->setHorizontalSpacing(theme.pxInt(12));
    m_grid->setVerticalSpacing(theme.pxInt(4));
    m_grid->setColumnMinimumWidth(0, theme.pxInt(112));
    QPalette quiet = palette();
    quiet.setColor(QPalette::WindowText, theme.color(Token::Ink2));
    for (const auto& row : m_rows) {
        row.label->setFont(theme.font(Type::Control));
        row.words->setFont(theme.font(Type::Caption));
        row.words->setForegroundRole(QPalette::WindowText);
        row.words->setPalette(quiet);
        row.holder->layout()->setSpacing(theme.pxInt(6));
    }
    for (auto* each : findChildren<EntryField*>()) {
        each->setFixedHeight(theme.pxInt(26));
        each->setFont(theme.font(Type::Control));
    }
    for (auto* each : {m_from, m_pours, m_bottleOf}) {
        each->setFixedWidth(theme.pxInt(230));
        each->setFont(theme.font(Type::Line));
        each->setFixedHeight(theme.pxInt(28));
    }
    for (auto* each : {m_lost, m_share, m_keeps})
        each->setFixedWidth(theme.pxInt(64));
    m_gives->setFixedWidth(theme.pxInt(90));
    m_amount->setFixedWidth(theme.pxInt(124));
    m_counted->setFixedWidth(theme.pxInt(100));
    for (auto* each : {m_givenBy, m_onShelf}) {
        each->setFixedHeight(theme.pxInt(26));
        each->setFont(theme.font(Type::Control));
    }
}

} // namespace stillroom::ui
