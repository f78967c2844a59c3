#include "ui/panels/measuring/target_page.h"

#include "core/preparation/acid_parts.h"
#include "core/preparation/adding.h"
#include "core/preparation/target_base.h"
#include "ui/panels/measuring/ingredient_button.h"
#include "ui/session/draft_session.h"
#include "ui/text/border.h"
#include "ui/text/bringing_words.h"
#include "ui/text/numbers.h"
#include "ui/theme/theme.h"

#include <QApplication>
#include <QClipboard>
#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QShortcut>

#include <cmath>

namespace stillroom::ui {

using preparation::Brought;
using preparation::Target;

TargetPage::TargetPage(WorkbookSession& book, DraftSession* draft, QWidget* parent)
    : WaysPage(tr("Bring to a target"), parent),
      m_book(book),
      m_draft(draft),
      m_whatRow(new QWidget),
      m_what(new QComboBox(m_whatRow)),
      m_of(new IngredientButton(draft ? tr("&Something of the larder") : tr("What i&s brought there"))),
      m_like(new IngredientButton(tr("L&ike the acid of"))),
      m_with(new IngredientButton(tr("Stronger b&y adding"))),
      m_take(strip().addAct({}, true)),
      m_copy(strip().addAct(tr("&Copy as text"))) {
    setProperty("keyHints",
                QStringList{QStringLiteral("Enter"), tr("next field"), QStringLiteral("Ctrl+Enter"),
                            tr("write it"), QStringLiteral("Ctrl+Shift+C"), tr("copy")});
    auto* label = new QLabel(tr("What is br&ought there"), m_whatRow);
    label->setBuddy(m_what);
    auto* row = new QHBoxLayout(m_whatRow);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(label);
    row->addWidget(m_what);
    row->addStretch(1);
    m_what->setAccessibleName(tr("What is brought there"));
    if (m_draft)
        m_what->addItem(m_draft->now().words.name.empty() ? tr("the preparation on the bench")
                                                          : fromCore(m_draft->now().words.name));
    m_what->addItem(tr("something of the larder"));
    m_whatRow->setVisible(m_draft != nullptr);
    for (auto* about : {m_whatRow, static_cast<QWidget*>(m_of), static_cast<QWidget*>(m_like),
                        static_cast<QWidget*>(m_with)})
        addAbout(about);
    const auto wet = [](const larder::Ingredient& each) { return !each.facts.dry; };
    for (auto* button : {m_of, m_like, m_with}) {
        button->setLarder(&m_book.larder(), wet);
        connect(button, &IngredientButton::picked, this, [this, button] {
            m_picked = m_picked || button == m_of;
            offerBases();
            compute();
        });
    }
    // What one most often asks for; another is chosen at the button.
    const auto named = [this](const char* name) {
        const auto found = m_book.larder().match(name).ingredient;
        return found.isNull() ? std::nullopt : std::optional(found);
    };
    m_like->choose(named("lime juice"));
    m_with->choose(named("neutral grain spirit"));
    QStringList titles;
    for (const auto& bringing : preparation::bringings())
        titles << fromCore(bringing.form.title);
    setWays(titles);
    connect(this, &WaysPage::wayChosen, this, &TargetPage::onWay);
    connect(&form(), &ConversionForm::edited, this, &TargetPage::compute);
    connect(m_what, &QComboBox::currentIndexChanged, this, [this] {
        m_bringing = {}; // the form asks for an amount now, or no longer
        if (way() >= 0) onWay(way());
    });
    connect(m_take, &QPushButton::clicked, this, &TargetPage::askTake);
    connect(m_copy, &QPushButton::clicked, this, &TargetPage::copy);
    connect(&m_book, &WorkbookSession::larderChanged, this, &TargetPage::compute);
    const auto key = [this](const QKeySequence& keys, auto slot) {
        auto* shortcut = new QShortcut(keys, this);
        shortcut->setContext(Qt::WidgetWithChildrenShortcut);
        connect(shortcut, &QShortcut::activated, this, slot);
    };
    key(QKeySequence(Qt::CTRL | Qt::Key_Return), &TargetPage::askTake);
    key(QKeySequence(Qt::CTRL | Qt::Key_Enter), &TargetPage::askTake);
    key(QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_C), &TargetPage::copy);
    chooseWay(0);
    const auto& theme = Theme::current();
    label->setFont(theme.font(Type::Control));
    label->setFixedWidth(theme.pxInt(240));
    row->setSpacing(theme.pxInt(10));
    m_what->setFont(theme.font(Type::Control));
}

bool TargetPage::ofDraft() const {
    return m_draft != nullptr && m_what->currentIndex() == 0;
}

void TargetPage::chooseIngredient(std::optional<base::IngredientId> ingredient) {
    m_picked = ingredient.has_value();
    m_of->choose(ingredient);
    offerBases();
    compute();
}

void TargetPage::setInHand(std::optional<base::IngredientId> ingredient) {
    m_inHand = ingredient;
    offerBases();
    compute();
}

// What can be brought there at all is offered, and one of it chosen, until the person chooses.
void TargetPage::offerBases() {
    const auto target = m_bringing.target;
    m_of->setLarder(&m_book.larder(), [target](const larder::Ingredient& each) {
        return preparation::isBaseFor(target, each);
    });
    if (m_picked) return;
    const auto like = target == Target::Acid ? m_like->chosen() : std::nullopt;
    m_of->choose(preparation::usualBase(target, m_inHand, like, m_book.larder()));
}

void TargetPage::chooseTarget(std::string_view id) {
    const auto& all = preparation::bringings();
    for (std::size_t i = 0; i < all.size(); ++i)
        if (all[i].form.id == id) chooseWay(static_cast<int>(i));
}

void TargetPage::onWay(int row) {
    const auto& bringing = preparation::bringings()[static_cast<std::size_t>(row)];
    if (m_bringing.form.id != bringing.form.id) {
        m_bringing = preparation::bringingFor(bringing, ofDraft(),
                                              quantity::Mass::fromGrams(m_book.settings().scaleStepG));
        setForm(m_bringing.form);
        offerBases();
    }
    m_of->setVisible(!ofDraft());
    m_like->setVisible(bringing.target == Target::Acid);
    m_with->setVisible(bringing.target == Target::Strength);
    setNotes(tr("Source: %1.").arg(fromCore(m_bringing.form.source)), fromCore(m_bringing.form.limits));
    QWidget* before = focusProxy();
    for (QWidget* next : {static_cast<QWidget*>(m_what), static_cast<QWidget*>(&m_of->button()),
                          static_cast<QWidget*>(&m_like->button()), static_cast<QWidget*>(&m_with->button()),
                          form().firstField()}) {
        if (next == nullptr) continue;
        setTabOrder(before, next);
        before = next;
    }
    m_take->setText(ofDraft() ? tr("&Put it in the draft") : tr("Make a &preparation of it"));
    compute();
}

void TargetPage::compute() {
    for (auto* button : {m_of, m_like, m_with})
        button->refresh();
    m_brought.reset();
    const auto outcome = exchange::convertTyped(m_bringing.form, form().entries());
    form().showOutcome(outcome);
    QString headline = tr("Not found yet");
    QString detail;
    if (!outcome) {
        detail =
            fromCore(physics::problemText(m_bringing.form, outcome.error(), physics::InputNaming::Label));
    } else if (!ofDraft() && !m_of->chosen()) {
        detail = tr("Choose what is brought there.");
    } else if (const auto values = exchange::readConversionEntries(m_bringing.form, form().entries())) {
        auto& ask = m_ask = {};
        const auto amount = values->find("amount");
        const double ml = amount != values->end() ? std::get<double>(amount->second)
                          : m_bringing.form.input("amount") != nullptr
                              ? *m_bringing.form.input("amount")->standing
                              : 0;
        ask.base = ofDraft()
                       ? m_draft->spec()
                       : preparation::baseOf(*m_of->chosen(), quantity::Volume::fromMl(ml), m_book.larder());
        ask.like = m_like->chosen();
        ask.stronger = m_with->chosen();
        const auto found = preparation::bring(m_bringing, *values, ask, m_book.larder(), m_book.houseRules());
        if (found)
            m_brought = *found;
        else
            detail = bringProblemSentence(found.error());
    }
    const bool writable = !m_book.book().isReadOnly();
    const bool changes = m_brought && !m_brought->thereAlready;
    m_take->setEnabled(changes && writable);
    m_copy->setEnabled(m_brought.has_value());
    if (m_brought)
        showBrought();
    else {
        setValues({});
        strip().setAnswer(headline, detail);
    }
}

void TargetPage::showBrought() {
    setValues(rowsOf(*m_brought));
    strip().setAnswer(broughtHeadline(*m_brought), detailOf(*m_brought));
}

std::vector<ValueRows::Row> TargetPage::rowsOf(const Brought& brought) const {
    std::vector<ValueRows::Row> rows;
    for (const auto& dose : brought.doses) {
        rows.push_back({fromCore(dose.name), number(dose.amount, 2), dose.liquid ? tr("ml") : tr("g")});
        for (auto& part : partsOf(dose))
            rows.push_back(std::move(part));
    }
    if (brought.boilOff)
        rows.push_back({tr("water boiled off"), number(brought.boilOff->grams(), 1), tr("g")});
    const auto& after = brought.after;
    rows.push_back(
        {after.yieldAtMost ? tr("Comes to at most") : tr("Comes to"), number(after.yield.ml(), 0), tr("ml")});
    const auto add = [&](const QString& name, const std::optional<larder::Fact>& fact, const QString& unit,
                         int decimals) {
        rows.push_back({name, fact ? number(fact->typical, decimals) : QStringLiteral("?"), unit});
    };
    if (after.facts.abvPercent && after.facts.abvPercent->typical >= 0.05)
        add(tr("Strength then"), after.facts.abvPercent, tr("% vol"), 1);
    if (after.brix) rows.push_back({tr("Brix then"), number(*after.brix, 1), tr("g/100 g")});
    add(tr("Sugar then"), after.facts.sugarGPerL, tr("g/l"), 0);
    add(tr("Acid then, as citric"), after.facts.acidGPerL, tr("g/l"), 1);
    return rows;
}

// Where the dose comes from: the trade's round figure and what it leaves out; of other juices the plain
// difference and the room of what is added.
std::vector<ValueRows::Row> TargetPage::partsOf(const preparation::DoseLine& dose) const {
    std::vector<ValueRows::Row> rows;
    const auto row = [&](const QString& words, double grams, bool first) {
        if (!first && std::abs(grams) < 0.005) return;
        rows.push_back({QString(QStringLiteral("    ") + words),
                        first ? number(grams, 2) : signedNumber(grams, 2), tr("g")});
    };
    for (const auto& part : preparation::acidParts(m_ask, *m_brought, m_book.larder(), m_book.houseRules())) {
        if (preparation::nameOfSubstance(part.acid) != dose.name) continue;
        row(tr("the trade's round figure"), part.traded, true);
        row(tr("its acid counted as citric, not as weighed"), part.byReference, false);
        row(tr("these two juices' own figures"), part.byOwnFigures, false);
        row(tr("room that the added acid takes"), part.byRoom, false);
        row(tr("what else is in the powder"), part.byPowder, false);
        return rows;
    }
    if (!dose.byDifference) return rows;
    row(tr("plain difference of the two"), *dose.byDifference, true);
    row(tr("room that what is added takes"), dose.amount - *dose.byDifference, false);
    return rows;
}

QString TargetPage::detailOf(const Brought& brought) const {
    QStringList detail;
    if (!brought.over.empty()) {
        QStringList acids;
        for (const auto acid : brought.over)
            acids << acidName(acid);
        detail << tr("It holds more %1 than that already, which nothing takes out.")
                      .arg(acids.join(tr(" and ")));
    }
    if (brought.smallestAtTenthGram && brought.smallestAtGram) {
        const bool other = brought.smallest && *brought.smallest != *brought.smallestAtTenthGram &&
                           *brought.smallest != *brought.smallestAtGram;
        if (other)
            detail << tr("Your scale weighs it to 2 % from %1 on.").arg(batchVolume(*brought.smallest));
        detail << tr("A scale that tells 0.1 g apart weighs it to 2 % from %1 on, one of 1 g from %2.")
                      .arg(batchVolume(*brought.smallestAtTenthGram), batchVolume(*brought.smallestAtGram));
        if (brought.smallest && *brought.smallest > brought.before.yield)
            detail << tr("There are %1: too little for the scale.").arg(batchVolume(brought.before.yield));
    }
    if (!brought.crystals.empty()) detail << fromCore(brought.crystals);
    if (m_book.book().isReadOnly()) detail << tr("This book is open to read only: nothing is written.");
    return detail.join(QLatin1Char(' '));
}

QString TargetPage::nameOfBase() const {
    if (ofDraft()) return m_what->currentText();
    const auto* known = m_of->chosen() ? m_book.larder().find(*m_of->chosen()) : nullptr;
    return known ? fromCore(known->name) : QString();
}

QString TargetPage::asText() const {
    if (!m_brought) return {};
    QStringList lines{QStringLiteral("%1: %2").arg(windowTitle(), nameOfBase())};
    lines += form().written();
    if (m_like->isVisibleTo(this)) lines << m_like->asText();
    if (m_with->isVisibleTo(this) && !m_brought->doses.empty()) lines << m_with->asText();
    lines << strip().headline() << values().asText() << strip().detail();
    lines.removeAll(QString());
    return QString(lines.join(QLatin1Char('\n')) + QLatin1Char('\n'));
}

void TargetPage::askTake() {
    if (!m_take->isEnabled() || !m_brought) return;
    if (ofDraft())
        Q_EMIT draftAsked(m_brought->spec, strip().headline());
    else
        Q_EMIT preparationAsked(tr("%1, adjusted").arg(nameOfBase()), m_brought->spec);
}

void TargetPage::copy() {
    if (!m_brought) return;
    QApplication::clipboard()->setText(asText());
    Q_EMIT said(tr("Copied as text."));
}

} // namespace stillroom::ui
