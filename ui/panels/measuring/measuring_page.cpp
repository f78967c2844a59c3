#include "ui/panels/measuring/measuring_page.h"

#include "core/base/clock.h"
#include "ui/panels/measuring/ingredient_button.h"
#include "ui/session/draft_session.h"
#include "ui/session/larder_edit.h"
#include "ui/text/border.h"
#include "ui/text/dilution_words.h"
#include "ui/text/larder_words.h"
#include "ui/text/numbers.h"

#include <QApplication>
#include <QPushButton>
#include <QShortcut>

#include <algorithm>

namespace stillroom::ui {

using preparation::Finds;

namespace {

// "give or take" in the decimals of the value, or one more where the value shows none of it.
QString bandText(const physics::Conversion& form, const physics::ConvertedValue& value) {
    return number(value.value, physics::decimalsFor(*form.output(value.key), value.value));
}

bool asksAlike(const physics::Conversion& a, const physics::Conversion& b) {
    return std::equal(a.inputs.begin(), a.inputs.end(), b.inputs.begin(), b.inputs.end(),
                      [](const physics::ConversionInput& x, const physics::ConversionInput& y) {
                          return x.key == y.key && x.need == y.need && x.standing == y.standing;
                      });
}

const physics::ConvertedValue* valueAt(const physics::Converted& found, std::string_view key) {
    for (const auto& value : found.values)
        if (value.key == key) return &value;
    return nullptr;
}

} // namespace

MeasuringPage::MeasuringPage(WorkbookSession& book, DraftSession* draft, QWidget* parent)
    : WaysPage(tr("Find a fact by measuring"), parent),
      m_book(book),
      m_draft(draft),
      m_of(new IngredientButton(tr("Mea&sured on"))),
      m_keep(strip().addAct(tr("&Keep as measured here"), true)),
      m_back(strip().addAct(tr("T&ake it back"))),
      m_toTasting(strip().addAct(tr("Put the &weight in the tasting"))) {
    setProperty("keyHints",
                QStringList{QStringLiteral("Enter"), tr("next field"), QStringLiteral("Ctrl+Enter"),
                            tr("keep"), QStringLiteral("Ctrl+Z"), tr("take it back")});
    addAbout(m_of);
    m_of->setLarder(&m_book.larder());
    QStringList titles;
    for (const auto& measuring : preparation::measurings())
        titles << fromCore(measuring.form.title);
    setWays(titles);
    connect(this, &WaysPage::wayChosen, this, &MeasuringPage::onWay);
    connect(&form(), &ConversionForm::edited, this, &MeasuringPage::compute);
    connect(m_of, &IngredientButton::picked, this, [this] { refresh(); });
    connect(m_keep, &QPushButton::clicked, this, &MeasuringPage::askKeep);
    connect(m_back, &QPushButton::clicked, this, &MeasuringPage::takeBackAsked);
    connect(m_toTasting, &QPushButton::clicked, this, [this] {
        if (const auto found =
                preparation::shakeWeighed(m_measuring, m_values, m_draft->spec(), m_draft->bindings()))
            Q_EMIT tastingAsked(found->served);
    });
    connect(&m_book, &WorkbookSession::larderChanged, this, &MeasuringPage::refresh);
    connect(&m_book.larderEdit().undoStack(), &QUndoStack::canUndoChanged, m_back, &QWidget::setEnabled);
    m_back->setEnabled(m_book.larderEdit().undoStack().canUndo());
    for (const auto& keys :
         {QKeySequence(Qt::CTRL | Qt::Key_Return), QKeySequence(Qt::CTRL | Qt::Key_Enter)}) {
        auto* shortcut = new QShortcut(keys, this);
        shortcut->setContext(Qt::WidgetWithChildrenShortcut);
        connect(shortcut, &QShortcut::activated, this, &MeasuringPage::askKeep);
    }
    auto* undo = new QShortcut(QKeySequence(Qt::CTRL | Qt::Key_Z), this);
    undo->setContext(Qt::WidgetWithChildrenShortcut);
    connect(undo, &QShortcut::activated, this, &MeasuringPage::takeBackAsked);
    chooseWay(0);
}

void MeasuringPage::chooseIngredient(std::optional<base::IngredientId> ingredient) {
    m_of->choose(ingredient);
    refresh();
}

std::optional<base::IngredientId> MeasuringPage::ingredient() const {
    if (!m_of->chosen()) return std::nullopt;
    return preparation::measuredOn(m_measuring.finds, *m_of->chosen(), m_book.larder());
}

void MeasuringPage::chooseMeasuring(std::string_view id) {
    const auto& all = preparation::measurings();
    for (std::size_t i = 0; i < all.size(); ++i)
        if (all[i].form.id == id) chooseWay(static_cast<int>(i));
}

// Another form, or the same for another ingredient: what was typed into a field of the same name stays.
void MeasuringPage::onWay(int row) {
    const auto& measuring = preparation::measurings()[static_cast<std::size_t>(row)];
    m_measuring.finds = measuring.finds;
    const auto of = ingredient();
    const auto* known = of ? m_book.larder().find(*of) : nullptr;
    auto own = preparation::measuringFor(measuring, known ? known->facts : larder::FactState(),
                                         quantity::Mass::fromGrams(m_book.settings().scaleStepG));
    const bool same = m_measuring.form.id == own.form.id;
    if (!same || !asksAlike(m_measuring.form, own.form)) {
        const auto typed = form().entries();
        const auto* focus = same ? QApplication::focusWidget() : nullptr;
        const QString at = focus && form().isAncestorOf(focus) ? focus->objectName() : QString();
        m_measuring = std::move(own);
        setForm(m_measuring.form);
        if (same) form().fill(typed);
        if (auto* field = at.isEmpty() ? nullptr : form().field(toCore(at)))
            field->setFocus(Qt::OtherFocusReason);
        setTabOrder(focusProxy(), &m_of->button());
        if (auto* first = form().firstField()) setTabOrder(&m_of->button(), first);
    }
    const bool ofDrink = measuring.finds == Finds::Dilution;
    m_of->setVisible(!ofDrink);
    m_back->setVisible(!ofDrink); // the draft has its own way back
    m_toTasting->setVisible(ofDrink && m_tastingOffered);
    setNotes(tr("Source: %1.").arg(fromCore(m_measuring.form.source)), fromCore(m_measuring.form.limits));
    m_keep->setText(ofDrink ? tr("&Keep in the draft") : tr("&Keep as measured here"));
    compute();
}

void MeasuringPage::setTastingOffered(bool offered) {
    m_tastingOffered = offered;
    refresh();
}

void MeasuringPage::refresh() {
    m_of->refresh();
    if (way() >= 0) onWay(way());
}

void MeasuringPage::compute() {
    const auto outcome = exchange::convertTyped(m_measuring.form, form().entries());
    form().showOutcome(outcome);
    m_found = outcome.has_value();
    m_values.clear();
    if (const auto read = exchange::readConversionEntries(m_measuring.form, form().entries());
        m_found && read)
        m_values = *read;
    if (m_found) {
        showFound(*outcome);
    } else {
        setValues({});
        strip().setAnswer(
            form().isEmpty() ? tr("Nothing measured yet") : tr("Not found yet"),
            fromCore(physics::problemText(m_measuring.form, outcome.error(), physics::InputNaming::Label)));
    }
    m_keep->setEnabled(m_found && whyNotKept().isEmpty());
    m_toTasting->setEnabled(m_keep->isEnabled());
}

void MeasuringPage::showFound(const physics::Converted& found) {
    const auto& form = m_measuring.form;
    const auto& first = found.values.front();
    const auto* output = form.output(first.key);
    QString headline =
        tr("%1 %2 %3")
            .arg(fromCore(output->label), convertedText(first, physics::decimalsFor(*output, first.value)),
                 fromCore(output->unit));
    std::vector<ValueRows::Row> rows;
    for (const auto& value : found.values) {
        const auto* of = form.output(value.key);
        const QString text = convertedText(value, physics::decimalsFor(*of, value.value));
        if (&value != &found.values.front()) rows.push_back({fromCore(of->label), text, fromCore(of->unit)});
    }
    const auto* band = valueAt(found, "band");
    const auto* low = valueAt(found, "low");
    const auto* high = valueAt(found, "high");
    if (band)
        headline += tr(", give or take %1").arg(bandText(form, *band));
    else if (low && high)
        headline += tr(", from %1 to %2").arg(bandText(form, *low), bandText(form, *high));
    setValues(rows);
    QStringList detail;
    const QString why = whyNotKept();
    if (m_measuring.finds == Finds::Dilution)
        detail << shakeDetail();
    else if (why.isEmpty())
        detail << whatStands();
    else
        detail << why;
    strip().setAnswer(headline, detail.join(QLatin1Char(' ')));
}

// What it would stand instead of.
QString MeasuringPage::whatStands() const {
    const auto of = ingredient();
    const auto* known = of ? m_book.larder().find(*of) : nullptr;
    if (known == nullptr) return {};
    const QString name = fromCore(known->name);
    if (m_measuring.finds == Finds::Yield) {
        const auto& from = known->gotFrom;
        if (from && from->ofUnit == larder::PackUnit::Piece && from->unit == larder::PackUnit::Ml)
            return tr("%1: so far one is taken to give %2 ml. Price and shopping follow.")
                .arg(name, trimmedNumber(from->perUnit.toDouble(), 2));
        return tr("%1: kept as a lot of today. The larder does not say what it is got from, so its price "
                  "stays "
                  "as it is.")
            .arg(name);
    }
    const auto& fact = m_measuring.finds == Finds::Sugar ? known->facts.sugarGPerL : known->facts.acidGPerL;
    if (known->madeBy)
        return tr("%1 is made here: the batch in use takes this figure, and its recipe stays as it is.")
            .arg(name);
    if (!fact) return tr("%1: nobody knew it so far.").arg(name);
    return tr("%1: so far %2 g/l, %3.")
        .arg(name, trimmedNumber(fact->typical, 1), sayerWord(fact->sourceKind));
}

QString MeasuringPage::whyNotKept() const {
    if (m_book.book().isReadOnly()) return tr("This book is open to read only: nothing is kept.");
    if (m_measuring.finds == Finds::Dilution)
        return m_draft ? QString() : tr("Open a drink, and the water is set against its lines.");
    const auto of = ingredient();
    if (!of || m_book.larder().find(*of) == nullptr)
        return tr("Choose what was measured, and it can be kept.");
    const auto* known = m_book.larder().find(*of);
    if (known->facts.dry)
        return tr("%1 is a dry good: its figures go by the kilogram.").arg(fromCore(known->name));
    if (m_book.larderEdit().isPending(*of))
        return tr("%1 has an edit in the larder that nobody accepted yet. Accept or leave it first.")
            .arg(fromCore(known->name));
    return {};
}

QString MeasuringPage::shakeDetail() {
    const QString why = whyNotKept();
    if (!why.isEmpty()) return why;
    const auto found = preparation::shakeWeighed(m_measuring, m_values, m_draft->spec(), m_draft->bindings());
    if (!found) {
        m_found = false;
        return tr("Nothing is mixed in this drink yet that the water could be set against.");
    }
    const auto& name = m_draft->now().words.name;
    return tr("Of %1: %2, give or take %3.")
        .arg(name.empty() ? tr("this drink") : fromCore(name), dilutionRatioWords(found->entry.ratio),
             number(found->band, 3));
}

void MeasuringPage::askKeep() {
    if (!m_keep->isEnabled()) return;
    if (m_measuring.finds == Finds::Dilution) {
        if (const auto found =
                preparation::shakeWeighed(m_measuring, m_values, m_draft->spec(), m_draft->bindings()))
            Q_EMIT dilutionAsked(found->entry);
        return;
    }
    const auto on = base::isoText(m_book.clock().now()).substr(0, 10);
    const auto fact = preparation::factMeasured(m_measuring, m_values, on);
    const auto of = ingredient();
    if (!fact || !of) return;
    const auto keep = preparation::keepMeasured(m_measuring.finds, *fact, *of, m_book.larder());
    if (keep) Q_EMIT keepAsked(*keep, strip().headline());
}

} // namespace stillroom::ui
