#include "ui/panels/larder/ingredient_sheet.h"

#include "core/base/text.h"
#include "core/larder/handbook.h"
#include "core/preparation/doubts.h"
#include "ui/panels/larder/allergens_box.h"
#include "ui/panels/larder/entry_field.h"
#include "ui/panels/larder/entry_table.h"
#include "ui/panels/larder/facts_model.h"
#include "ui/panels/larder/finding_place.h"
#include "ui/panels/larder/food_table_box.h"
#include "ui/panels/larder/lots_model.h"
#include "ui/panels/larder/packs_model.h"
#include "ui/panels/larder/price_values.h"
#include "ui/panels/larder/terms_form.h"
#include "ui/panels/larder/uses_model.h"
#include "ui/session/larder_edit.h"
#include "ui/text/border.h"
#include "ui/text/larder_words.h"
#include "ui/text/lot_words.h"
#include "ui/text/terms_words.h"
#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"

#include <QFormLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QVBoxLayout>

namespace stillroom::ui {

namespace {

void setInk(QLabel& label, Token token) {
    label.setForegroundRole(QPalette::WindowText);
    QPalette colors = label.palette();
    colors.setColor(QPalette::WindowText, Theme::current().color(token));
    label.setPalette(colors);
}

} // namespace

IngredientSheet::IngredientSheet(QWidget* parent)
    : QWidget(parent),
      m_sort(new QLabel(this)),
      m_name(new EntryField(tr("Name"), this)),
      m_maker(new EntryField(tr("Maker, origin"), this)),
      m_aliases(new EntryField(tr("Other names"), this)),
      m_refusal(new WrapLabel(this)),
      m_made(new WrapLabel(this)),
      m_measured(new WrapLabel(this)),
      m_factsModel(new FactsModel(this)),
      m_factsWords(new WrapLabel(this)),
      m_facts(new EntryTable(this)),
      m_foodTable(new FoodTableBox(this)),
      m_packsModel(new PacksModel(this)),
      m_packsWords(new WrapLabel(this)),
      m_packs(new EntryTable(this)),
      m_prices(new PriceSteps(this)),
      m_terms(new TermsForm(this)),
      m_lotsModel(new LotsModel(this)),
      m_lots(new EntryTable(this)),
      m_allergens(new AllergensBox(this)), // in the order of the page: Tab goes through it so
      m_usesWords(new WrapLabel(this)),
      m_usesModel(new UsesModel(this)),
      m_usesTable(new EntryTable(this)) {
    setAccessibleName(tr("Ingredient"));
    setBackgroundRole(QPalette::Base);
    m_facts->setAccessibleName(tr("Facts"));
    m_facts->setModel(m_factsModel);
    m_facts->setWidths({134, 66, 56, 92, 104, 110, 88}, FactsModel::Source);
    m_facts->setSparable({FactsModel::On});
    m_made->setText(tr("Worked out from its own spec: open the preparation to change these."));
    m_refusal->setAutoFillBackground(true);
    m_refusal->setBackgroundRole(QPalette::Window);
    m_refusal->setForegroundRole(QPalette::WindowText);
    m_refusal->hide();
    m_packs->setAccessibleName(tr("Packs and prices"));
    m_packs->setModel(m_packsModel);
    m_packs->setWidths({96, 64, 48, 56, 84, 98, 108, 66}, PacksModel::Supplier);
    m_packs->setSparable({PacksModel::Tax, PacksModel::Change});
    connect(m_packs, &EntryTable::removeAsked, m_packsModel, &PacksModel::remove);
    m_lots->setAccessibleName(tr("Lots"));
    m_lots->setModel(m_lotsModel);
    m_lots->setWidths({98, 98, 54, 50, 64, 60, 60, 112}, LotsModel::Note);
    m_lots->setSparable({LotsModel::Note});
    m_usesTable->setAccessibleName(tr("Where it is used"));
    m_usesTable->setModel(m_usesModel);
    m_usesTable->setWidths({220, 150, 200}, UsesModel::Through);
    m_usesTable->setEditTriggers(QAbstractItemView::NoEditTriggers);
    auto* column = new QVBoxLayout(this);
    column->addWidget(makeIdentity());
    column->addWidget(m_refusal);
    column->addWidget(heading(tr("Facts")));
    column->addWidget(m_made);
    column->addWidget(m_facts);
    column->addWidget(m_factsWords);
    column->addWidget(m_measured);
    column->addWidget(m_foodTable);
    column->addWidget(heading(tr("Packs and prices")));
    column->addWidget(m_packs);
    column->addWidget(m_packsWords);
    column->addWidget(m_prices);
    column->addWidget(heading(tr("From purchase to glass")));
    column->addWidget(m_terms);
    column->addWidget(heading(tr("Lots")));
    column->addWidget(m_lots);
    column->addWidget(heading(tr("Allergens")));
    column->addWidget(m_allergens);
    column->addWidget(heading(tr("Where it is used")));
    column->addWidget(m_usesWords);
    column->addWidget(m_usesTable);
    column->addStretch(1);

    connect(m_facts, &EntryTable::typing, this, [this](const QModelIndex& index, const QString& text) {
        if (const auto next = m_factsModel->with(index.row(), index.column(), text)) showDoubts(*next, true);
    });
    connect(m_facts, &EntryTable::typingEnded, this, [this] {
        if (m_edit != nullptr && m_edit->hasChosen()) showDoubts(m_edit->now(), false);
    });
    connect(m_foodTable, &FoodTableBox::doubtChanged, this, [this] { showDoubts(m_edit->now(), false); });
    connect(m_foodTable, &FoodTableBox::leaveAsked, this, &IngredientSheet::leaveAsked);
    for (auto* table : {m_facts, m_packs, m_lots, m_usesTable}) {
        connect(table, &EntryTable::acceptAsked, this, &IngredientSheet::acceptAsked);
        connect(table, &EntryTable::leaveAsked, this, &IngredientSheet::leaveAsked);
    }
    connect(m_usesTable, &QAbstractItemView::activated, this, [this](const QModelIndex& index) {
        if (index.isValid()) Q_EMIT drinkAsked(m_usesModel->drinkAt(index.row()));
    });
    m_usesTable->installEventFilter(this);
    connect(m_terms, &TermsForm::acceptAsked, this, &IngredientSheet::acceptAsked);
    connect(m_terms, &TermsForm::leaveAsked, this, &IngredientSheet::leaveAsked);
    const auto taken = [this](EntryField* field, auto take) {
        connect(field, &EntryField::entered, this, [this, take](const QString& text) {
            if (m_edit == nullptr || !m_edit->hasChosen()) return;
            larder::Ingredient next = m_edit->now();
            take(next, text);
            m_edit->set(std::move(next));
            fill();
        });
        connect(field, &EntryField::acceptAsked, this, [this] {
            if (m_edit != nullptr && m_edit->isPending()) Q_EMIT acceptAsked();
        });
        connect(field, &EntryField::leaveAsked, this, &IngredientSheet::leaveAsked);
    };
    taken(m_name, [](larder::Ingredient& next, const QString& text) { next.name = toCore(text.trimmed()); });
    taken(m_maker,
          [](larder::Ingredient& next, const QString& text) { next.maker = toCore(text.trimmed()); });
    taken(m_aliases, [](larder::Ingredient& next, const QString& text) {
        next.aliases.clear();
        for (const auto& alias : text.split(QLatin1Char(','), Qt::SkipEmptyParts))
            if (!alias.trimmed().isEmpty()) next.aliases.push_back(toCore(alias.trimmed()));
    });
    // A name of one long word must not make the sheet wider than its page.
    for (auto* label : {m_sort, m_made, m_measured, m_refusal, m_usesWords, m_factsWords, m_packsWords})
        label->setMinimumWidth(1);
    dress();
}

QLabel* IngredientSheet::heading(const QString& text) {
    auto* label = new QLabel(text, this);
    m_headings << label;
    return label;
}

QWidget* IngredientSheet::makeIdentity() {
    auto* box = new QWidget(this);
    auto* form = new QFormLayout(box);
    form->setContentsMargins(0, 0, 0, 0);
    const auto row = [&](const QString& words, EntryField* field) {
        auto* label = new QLabel(words, box);
        label->setBuddy(field);
        m_fieldLabels << label;
        form->addRow(label, field);
    };
    auto* column = new QVBoxLayout;
    column->setSpacing(0);
    column->addWidget(m_sort);
    column->addWidget(m_name);
    m_name->setFrame(false);
    m_name->setPlaceholderText(tr("name"));
    form->addRow(column);
    row(tr("Maker, or&igin"), m_maker);
    row(tr("Other na&mes"), m_aliases);
    m_aliases->setPlaceholderText(tr("split by commas"));
    return box;
}

void IngredientSheet::setEdit(LarderEdit* edit) {
    m_edit = edit;
    m_factsModel->setEdit(edit);
    m_packsModel->setEdit(edit);
    m_terms->setEdit(edit);
    m_lotsModel->setEdit(edit);
    m_allergens->setEdit(edit);
    m_foodTable->setEdit(edit);
    if (edit != nullptr) {
        connect(edit, &LarderEdit::changed, this, &IngredientSheet::fill);
        connect(edit, &LarderEdit::chosenChanged, this, &IngredientSheet::fill);
        connect(edit, &LarderEdit::impactChanged, this, &IngredientSheet::showUses);
        for (const auto signal : {&LarderEdit::changed, &LarderEdit::chosenChanged})
            connect(edit, signal, this, [this] { refuse({}); });
    }
    fill();
}

void IngredientSheet::fill() {
    setVisible(m_edit != nullptr && m_edit->hasChosen());
    if (m_edit == nullptr || !m_edit->hasChosen()) return;
    const auto& now = m_edit->now();
    const bool handbook =
        m_edit->book().larder().find(now.id) == larder::Handbook::builtIn().find(now.id) && !m_edit->isNew();
    QString sort = sortWord(now, handbook);
    if (now.kind)
        if (const auto* kind = m_edit->book().larder().find(*now.kind))
            sort += tr(" of %1").arg(shortened(fromCore(kind->name)));
    m_sort->setText(sort);
    m_name->showValue(fromCore(now.name));
    m_maker->showValue(fromCore(now.maker));
    QStringList aliases;
    for (const auto& alias : now.aliases)
        aliases << fromCore(alias);
    m_aliases->showValue(aliases.join(QStringLiteral(", ")));
    m_name->setReadOnly(m_edit->isMade());
    m_made->setVisible(m_edit->isMade());
    m_measured->setText(measuredLotSentence(m_edit->larderNow(), now.id, m_edit->today()));
    m_measured->setVisible(!m_measured->text().isEmpty());
    showDoubts(now, false);
    sayBeside();
    for (auto* table : {m_facts, m_packs, m_lots, m_usesTable})
        table->setProperty("pending", m_edit->isPending());
    const auto line = larder::priceLine(m_edit->larderNow(), now, m_edit->priceQuestion());
    m_prices->setValues(priceStepsValues(line, m_edit->priceQuestion().currency, m_edit->today()));
    m_prices->setVisible(line.points.size() > 1 && !m_edit->isMade()); // one price is no history
    Q_EMIT unreadChanged(m_factsModel->problems() + m_packsModel->problems() + m_terms->problems() +
                         m_lotsModel->problems());
    showUses();
}

// What refuses is said under the table it stands in as well as over the acts below.
void IngredientSheet::sayBeside() {
    QStringList facts = m_factsModel->problems();
    QStringList packs = m_packsModel->problems();
    for (const auto& finding : m_edit->findings()) {
        const auto place = placeOfFinding(finding, m_edit->now());
        const bool doubtOfFacts = place == FindingPlace::Facts && !finding.refuses; // said in its own strip
        if (doubtOfFacts || (place != FindingPlace::Facts && place != FindingPlace::Packs)) continue;
        (place == FindingPlace::Facts ? facts : packs)
            << findingSentence(finding, m_edit->now(), m_edit->larderNow());
    }
    const auto say = [](QLabel* label, const QStringList& words) {
        label->setText(words.join(QLatin1Char('\n')));
        label->setVisible(!words.isEmpty());
    };
    say(m_factsWords, facts);
    say(m_packsWords, packs);
}

QString IngredientSheet::factsWords() const {
    return m_factsWords->isHidden() ? QString() : m_factsWords->text();
}
QString IngredientSheet::packsWords() const {
    return m_packsWords->isHidden() ? QString() : m_packsWords->text();
}

// Of what is stored or pending; while a cell is open, of what is being typed there.
void IngredientSheet::showDoubts(const larder::Ingredient& of, bool typing) {
    QStringList sentences;
    std::map<QString, QString> byFact;
    const auto take = [&](const preparation::Finding& finding) {
        sentences << findingSentence(finding, of, m_edit->larderNow());
        for (const auto key : preparation::keysInDoubt(finding))
            byFact[fromCore(key)] = sentences.back();
    };
    if (typing)
        for (const auto& finding : preparation::doubtsOf(of))
            take(finding);
    else
        for (const auto& finding : m_edit->findings())
            if (!finding.refuses) take(finding);
    if (m_foodTable->isDoubtful()) byFact[QStringLiteral("abv_percent")] = m_foodTable->words();
    m_factsModel->setDoubts(std::move(byFact));
    m_doubts = sentences.join(QLatin1Char('\n'));
    Q_EMIT doubtsChanged(m_doubts);
}

bool IngredientSheet::toNextDoubt() {
    if (m_edit == nullptr || !m_edit->hasChosen()) return false;
    const QModelIndex at = m_facts->currentIndex();
    const bool here = m_facts->hasFocus() && at.isValid();
    for (int row = here ? at.row() + 1 : 0; row < m_factsModel->rowCount(); ++row) {
        const QModelIndex next = m_factsModel->index(row, FactsModel::Value);
        if (!m_factsModel->isDoubtful(row) && !next.data(GapRole).toBool()) continue;
        m_facts->setFocus(Qt::OtherFocusReason);
        m_facts->setCurrentIndex(next);
        return true;
    }
    return false;
}

void IngredientSheet::showUses() {
    if (m_edit == nullptr || !m_edit->hasChosen()) return;
    const auto& uses = m_edit->uses();
    m_usesModel->set(&m_edit->book(), uses);
    m_usesTable->setVisible(m_usesModel->rowCount() > 0);
    if (!uses)
        m_usesWords->setText(m_edit->isNew() ? tr("Nothing names it yet.") : tr("Looking…"));
    else if (uses->by.empty())
        m_usesWords->setText(
            tr("Nothing names it yet. A line that does shows here, and what made of it does."));
    else
        m_usesWords->setText(usesSentence(static_cast<int>(uses->by.size()), uses->drafts, uses->revisions));
}

// Enter on a drink opens it, unless an edit waits to be accepted.
bool IngredientSheet::eventFilter(QObject* object, QEvent* event) {
    if (object != m_usesTable || event->type() != QEvent::KeyPress)
        return QWidget::eventFilter(object, event);
    const auto* key = static_cast<QKeyEvent*>(event);
    const bool enter = key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter;
    if (!enter || m_usesTable->property("pending").toBool() || !m_usesTable->currentIndex().isValid())
        return false;
    Q_EMIT drinkAsked(m_usesModel->drinkAt(m_usesTable->currentIndex().row()));
    return true;
}

QString IngredientSheet::doubts() const {
    return m_doubts;
}
QString IngredientSheet::allergens() const {
    return m_allergens->sentence();
}

void IngredientSheet::refuse(const QString& words) {
    m_refusal->setText(words);
    m_refusal->setVisible(!words.isEmpty());
}
QString IngredientSheet::refusal() const {
    return m_refusal->isHidden() ? QString() : m_refusal->text();
}

void IngredientSheet::focusFirst() {
    if (m_edit != nullptr && m_edit->isNew()) {
        m_name->setFocus(Qt::OtherFocusReason);
        return;
    }
    m_facts->setFocus(Qt::OtherFocusReason);
}

void IngredientSheet::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

void IngredientSheet::dress() {
    const auto& theme = Theme::current();
    layout()->setContentsMargins(theme.pxInt(24), theme.pxInt(12), theme.pxInt(16), theme.pxInt(16));
    layout()->setSpacing(theme.pxInt(6));
    m_name->setFont(theme.font(Type::Title));
    QPalette bare = palette();
    bare.setColor(QPalette::Base, theme.color(Token::Page));
    m_name->setPalette(bare);
    for (auto* field : {m_maker, m_aliases}) {
        field->setFont(theme.font(Type::Line));
        field->setFixedHeight(theme.pxInt(28));
        field->setMaximumWidth(theme.pxInt(460));
    }
    for (auto* label : std::as_const(m_fieldLabels)) // in the middle of their fields
        label->setFixedHeight(theme.pxInt(28));
    for (auto* label : std::as_const(m_headings)) {
        label->setFont(theme.font(Type::Heading));
        label->setContentsMargins(0, theme.pxInt(10), 0, 0);
        setInk(*label, Token::Ink2);
    }
    m_sort->setFont(theme.font(Type::Caption));
    setInk(*m_sort, Token::Ink2);
    for (auto* label : {m_made, m_measured, m_usesWords}) {
        label->setFont(theme.font(Type::Control));
        setInk(*label, Token::Ink);
    }
    for (auto* label : {m_factsWords, m_packsWords}) {
        label->setFont(theme.font(Type::Control));
        label->setContentsMargins(theme.pxInt(8), theme.pxInt(2), theme.pxInt(8), theme.pxInt(2));
        setInk(*label, Token::Error);
    }
    m_refusal->setFont(theme.font(Type::Control));
    m_refusal->setContentsMargins(theme.pxInt(8), theme.pxInt(5), theme.pxInt(8), theme.pxInt(5));
    QPalette error = palette();
    error.setColor(QPalette::Window, theme.color(Token::ErrorSoft));
    error.setColor(QPalette::WindowText, theme.color(Token::OnError));
    m_refusal->setPalette(error);
}

} // namespace stillroom::ui
