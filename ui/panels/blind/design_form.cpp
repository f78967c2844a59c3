#include "ui/panels/blind/design_form.h"

#include "core/tasting/panel_words.h"
#include "ui/panels/blind/blind_parts.h"
#include "ui/text/border.h"
#include "ui/theme/theme.h"

#include <QButtonGroup>
#include <QCheckBox>
#include <QComboBox>
#include <QGridLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QRadioButton>
#include <QSpinBox>
#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using tasting::PanelKind;

namespace {

constexpr int kKinds = 8;
constexpr int kProductRow = 28;

bool takesTwo(PanelKind kind) {
    return kind <= PanelKind::PairedPreference;
}

void dressList(QListWidget& list) {
    list.setFont(Theme::current().font(Type::Line));
    list.setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    list.setTextElideMode(Qt::ElideRight);
    list.setMinimumWidth(Theme::current().pxInt(60));
}

} // namespace

DesignForm::DesignForm(BlindDesk& desk, QWidget* parent)
    : QWidget(parent),
      m_desk(desk),
      m_later(new QTimer(this)) {
    constexpr int kPauseMs = 150;
    m_later->setSingleShot(true);
    m_later->setInterval(kPauseMs);
    connect(m_later, &QTimer::timeout, this, &DesignForm::showPlan);
    const auto& theme = Theme::current();
    setAccessibleName(tr("New session"));
    auto* column = blindColumn(this, 14);
    column->addWidget(paragraph(tr("New session"), Type::Title, Token::Ink));
    m_grid = new QGridLayout;
    m_grid->setHorizontalSpacing(theme.pxInt(28));
    m_grid->setVerticalSpacing(theme.pxInt(14));
    m_parts = {makeQuestion(), makeCups(), makePlan()};
    column->addLayout(m_grid);
    column->addStretch(1);
    place();
    fillProducts();
    fillTasters();
    showKind();
    QWidget* before = m_name;
    for (auto* radio : m_kinds->buttons()) {
        setTabOrder(before, radio);
        before = radio;
    }
    for (QWidget* next :
         std::initializer_list<QWidget*>{m_attribute, m_foretold, m_products, m_add, m_tasters, m_person,
                                         m_level, m_share, m_seed, m_deal}) {
        setTabOrder(before, next);
        before = next;
    }
}

QWidget* DesignForm::makeQuestion() {
    const auto& theme = Theme::current();
    auto& wish = m_desk.wish();
    auto* widget = new QWidget;
    auto* column = blindColumn(widget, 6);
    m_name = new QLineEdit(wish.name);
    m_name->setFont(theme.font(Type::Line));
    m_name->setAccessibleName(tr("Name of the session"));
    column->addWidget(blindCaption(tr("na&me; tasters do not see it"), m_name));
    column->addWidget(m_name);
    column->addSpacing(theme.pxInt(6));
    column->addWidget(blindCaption(tr("what is asked")));
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(theme.pxInt(12));
    grid->setVerticalSpacing(theme.pxInt(4));
    m_kinds = new QButtonGroup(this);
    for (int kind = 0; kind < kKinds; ++kind) {
        const auto which = static_cast<PanelKind>(kind);
        auto* radio = new QRadioButton(fromCore(tasting::kindName(which)));
        const QString question = fromCore(tasting::kindQuestion(which));
        radio->setAccessibleDescription(question);
        radio->setChecked(which == wish.kind);
        m_kinds->addButton(radio, kind);
        grid->addWidget(radio, kind, 0, Qt::AlignVCenter);
        grid->addWidget(blindCaption(question), kind, 1, Qt::AlignVCenter);
    }
    grid->setColumnStretch(1, 1);
    column->addLayout(grid);
    m_attribute = new QLineEdit(wish.attribute);
    m_attribute->setFont(theme.font(Type::Line));
    m_attribute->setAccessibleName(tr("Of what"));
    m_attribute->setPlaceholderText(tr("sweetness"));
    m_attributeLabel = blindCaption(tr("&of what"), m_attribute);
    column->addWidget(m_attributeLabel);
    column->addWidget(m_attribute);
    m_foretold = new QCheckBox;
    m_foretold->setChecked(wish.foretold);
    column->addWidget(m_foretold);
    connect(m_name, &QLineEdit::textEdited, this, [this](const QString& text) { m_desk.wish().name = text; });
    connect(m_kinds, &QButtonGroup::idToggled, this, [this](int kind, bool on) {
        if (!on) return;
        m_desk.wish().kind = static_cast<PanelKind>(kind);
        showKind();
    });
    connect(m_attribute, &QLineEdit::textEdited, this,
            [this](const QString& text) { m_desk.wish().attribute = text; });
    connect(m_foretold, &QCheckBox::toggled, this, [this](bool on) {
        m_desk.wish().foretold = on;
        planChanged();
    });
    return widget;
}

QWidget* DesignForm::makeCups() {
    const auto& theme = Theme::current();
    auto& wish = m_desk.wish();
    auto* widget = new QWidget;
    auto* column = blindColumn(widget, 6);
    m_products = new QListWidget;
    m_products->setAccessibleName(tr("What is poured"));
    m_products->installEventFilter(this);
    dressList(*m_products);
    m_add = blindButton(tr("&Add a revision…"));
    auto* top = new QHBoxLayout;
    column->addWidget(blindCaption(tr("what is &poured; Delete takes one away"), m_products));
    column->addWidget(m_products);
    top->addWidget(m_add);
    top->addStretch(1);
    column->addLayout(top);
    m_tasters = new QListWidget;
    m_tasters->setAccessibleName(tr("Who tastes"));
    m_tasters->installEventFilter(this);
    m_tasters->setFixedHeight(theme.pxInt(150));
    dressList(*m_tasters);
    m_tastersLabel = blindCaption(QString(), m_tasters);
    column->addSpacing(theme.pxInt(6));
    column->addWidget(m_tastersLabel);
    column->addWidget(m_tasters);
    m_person = new QLineEdit;
    m_person->setAccessibleName(tr("Add somebody who tastes"));
    m_person->setPlaceholderText(tr("add somebody: name, Enter"));
    m_person->installEventFilter(this);
    m_person->setFont(theme.font(Type::Line));
    column->addWidget(m_person);
    m_level = new QComboBox;
    m_level->setAccessibleName(tr("Risk of seeing a difference that is not there"));
    for (const double alpha : {0.05, 0.01, 0.1})
        m_level->addItem(u"%1%2%"_s.arg(alpha * 100).arg(QChar(0x202F)), alpha);
    m_level->setCurrentIndex(std::max(0, m_level->findData(wish.alpha)));
    m_share = new QSpinBox;
    m_share->setAccessibleName(tr("Share of people thought able to tell, in per cent"));
    m_share->setRange(0, 100);
    m_share->setSingleStep(5);
    m_share->setSuffix(QString(QChar(0x202F)) + u'%');
    m_share->setSpecialValueText(tr("not said"));
    m_share->setValue(wish.share ? static_cast<int>(*wish.share * 100 + 0.5) : 0);
    m_seed = new QLineEdit(wish.seed);
    m_seed->setAccessibleName(tr("Seed of the codes; empty draws one"));
    m_seed->setPlaceholderText(tr("drawn"));
    m_seed->setToolTip(tr("A whole number deals the same cups again. Whoever knows it can learn the codes."));
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(theme.pxInt(12));
    grid->setVerticalSpacing(theme.pxInt(3));
    grid->addWidget(blindCaption(tr("&chance allowed"), m_level), 0, 0);
    grid->addWidget(blindCaption(tr("can tell, &you think"), m_share), 0, 1);
    grid->addWidget(blindCaption(tr("&seed, secret"), m_seed), 0, 2);
    grid->addWidget(m_level, 1, 0);
    grid->addWidget(m_share, 1, 1);
    grid->addWidget(m_seed, 1, 2);
    for (int i = 0; i < 3; ++i)
        grid->setColumnStretch(i, 1);
    column->addSpacing(theme.pxInt(6));
    column->addLayout(grid);
    connect(m_add, &QPushButton::clicked, this, &DesignForm::addProductAsked);
    connect(m_tasters, &QListWidget::itemChanged, this, [this] {
        if (!m_filling) readTasters();
    });
    connect(m_level, &QComboBox::currentIndexChanged, this, [this] {
        m_desk.wish().alpha = m_level->currentData().toDouble();
        planChanged();
    });
    connect(m_share, &QSpinBox::valueChanged, this, [this](int share) {
        m_desk.wish().share = share > 0 ? std::optional(share / 100.0) : std::nullopt;
        planChanged();
    });
    connect(m_seed, &QLineEdit::textEdited, this, [this](const QString& text) { m_desk.wish().seed = text; });
    return widget;
}

QWidget* DesignForm::makePlan() {
    const auto& theme = Theme::current();
    auto* widget = new QWidget;
    auto* column = blindColumn(widget, 6);
    column->addWidget(paragraph(tr("What this can show"), Type::Heading, Token::Ink));
    m_planBox = new QWidget;
    m_plan = blindColumn(m_planBox, 4);
    column->addWidget(m_planBox);
    m_deal = blindButton(tr("Deal the c&ups   Ctrl Enter"), true);
    auto* acts = new QHBoxLayout;
    acts->addWidget(m_deal);
    acts->addStretch(1);
    column->addSpacing(theme.pxInt(8));
    column->addLayout(acts);
    connect(m_deal, &QPushButton::clicked, this, &DesignForm::deal);
    return widget;
}

void DesignForm::fillProducts() {
    const int row = m_products->currentRow();
    m_products->clear();
    for (const auto& product : m_desk.wish().products)
        m_products->addItem(m_desk.productName(product));
    if (m_products->count() == 0) {
        auto* item = new QListWidgetItem(tr("Nothing yet: add kept revisions."), m_products);
        item->setFont(Theme::current().font(Type::Reason));
        item->setFlags(Qt::NoItemFlags);
    } else {
        m_products->setCurrentRow(std::clamp(row, 0, m_products->count() - 1));
    }
    const int rows = std::clamp(m_products->count(), 2, 8);
    m_products->setFixedHeight(Theme::current().pxInt(kProductRow * rows + 6));
    for (int i = 0; i < m_products->count(); ++i)
        m_products->item(i)->setSizeHint({10, Theme::current().pxInt(kProductRow)});
    planChanged();
}

void DesignForm::fillTasters() {
    m_filling = true;
    const int row = m_tasters->currentRow();
    m_tasters->clear();
    const auto& ticked = m_desk.wish().tasters;
    for (const auto& person : m_desk.people()) {
        auto* item = new QListWidgetItem(personName(person), m_tasters);
        item->setData(Qt::UserRole, fromCore(person.id.text()));
        item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsUserCheckable);
        const bool in = std::find(ticked.begin(), ticked.end(), person.id) != ticked.end();
        item->setCheckState(in ? Qt::Checked : Qt::Unchecked);
    }
    if (m_tasters->count() > 0) m_tasters->setCurrentRow(std::clamp(row, 0, m_tasters->count() - 1));
    m_filling = false;
    readTasters();
}

void DesignForm::readTasters() {
    auto& ticked = m_desk.wish().tasters;
    const auto known = m_desk.people();
    for (int row = 0; row < m_tasters->count(); ++row) {
        const auto* item = m_tasters->item(row);
        const auto person = std::find_if(known.begin(), known.end(), [&](const tasting::Person& each) {
            return fromCore(each.id.text()) == item->data(Qt::UserRole).toString();
        });
        if (person == known.end()) continue;
        const auto at = std::find(ticked.begin(), ticked.end(), person->id);
        if (item->checkState() == Qt::Checked && at == ticked.end()) ticked.push_back(person->id);
        if (item->checkState() != Qt::Checked && at != ticked.end()) ticked.erase(at);
    }
    m_tastersLabel->setText(tr("&who tastes: %1 ticked; Space ticks").arg(ticked.size()));
    planChanged();
}

void DesignForm::addPerson() {
    const auto added = m_desk.addPerson(m_person->text());
    if (!added) {
        if (!m_person->text().simplified().isEmpty())
            Q_EMIT refused(tr("%1 could not be added.").arg(m_person->text().simplified()));
        return;
    }
    auto& ticked = m_desk.wish().tasters;
    if (std::find(ticked.begin(), ticked.end(), *added) == ticked.end()) ticked.push_back(*added);
    m_person->clear();
    fillTasters();
    for (int row = 0; row < m_tasters->count(); ++row)
        if (m_tasters->item(row)->data(Qt::UserRole).toString() == fromCore(added->text()))
            m_tasters->scrollToItem(m_tasters->item(row));
}

void DesignForm::showKind() {
    const PanelKind kind = m_desk.wish().kind;
    m_name->setPlaceholderText(m_desk.usualName());
    m_attributeLabel->setVisible(asksAttribute(kind));
    m_attribute->setVisible(asksAttribute(kind));
    const bool foretold = kind == PanelKind::PairedDifference || kind == PanelKind::Ranking;
    m_foretold->setVisible(foretold);
    m_foretold->setText(kind == PanelKind::Ranking ? tr("I &foretell the order as it is listed")
                                                   : tr("I &foretell that the first listed has more"));
    planChanged();
}

QString DesignForm::planWords() const {
    QStringList words;
    for (int i = 0; i < m_plan->count(); ++i)
        if (const auto* label = qobject_cast<QLabel*>(m_plan->itemAt(i)->widget())) words << label->text();
    return words.join(u' ');
}

// What a ranking can show is counted out order by order, which takes longer than a key may: it follows when
// the choosing pauses.
void DesignForm::planChanged() {
    if (m_plan == nullptr) return;
    m_deal->setEnabled(!m_desk.problem() && m_desk.isWritable());
    if (m_desk.wish().kind == PanelKind::Ranking && !m_desk.problem())
        m_later->start();
    else
        showPlan();
}

void DesignForm::showPlan() {
    m_later->stop();
    const auto& wish = m_desk.wish();
    const auto plan = m_desk.plan();
    QStringList sentences;
    if (!plan)
        sentences << plan.error();
    else
        for (const auto& sentence : tasting::inWords(*plan))
            sentences << fromCore(sentence);
    if (const QString differs = m_desk.whatDiffers(wish.products); plan && !differs.isEmpty())
        sentences << differs;
    while (QLayoutItem* old = m_plan->takeAt(0)) {
        delete old->widget();
        delete old;
    }
    for (const auto& sentence : sentences)
        m_plan->addWidget(paragraph(sentence, Type::Reading, plan ? Token::Ink : Token::Ink2));
    m_planBox->setAccessibleName(sentences.join(u' '));
    m_share->setEnabled(takesTwo(wish.kind) || wish.kind == PanelKind::JustAboutRight);
}

void DesignForm::refresh() {
    fillProducts();
}

void DesignForm::focusFirst() {
    if (auto* radio = m_kinds->checkedButton()) radio->setFocus(Qt::OtherFocusReason);
}

void DesignForm::deal() {
    if (!m_deal->isEnabled()) {
        const auto problem = m_desk.problem();
        Q_EMIT refused(problem.value_or(tr("The book is open to read only.")));
        return;
    }
    const auto dealt = m_desk.deal();
    if (dealt)
        Q_EMIT this->dealt(*dealt);
    else
        Q_EMIT refused(dealt.error());
}

bool DesignForm::eventFilter(QObject* object, QEvent* event) {
    if (event->type() != QEvent::KeyPress) return QWidget::eventFilter(object, event);
    const auto* key = static_cast<QKeyEvent*>(event);
    const bool enter = key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter;
    const bool plain = !key->modifiers().testFlag(Qt::ControlModifier);
    if (object == m_products && (key->key() == Qt::Key_Delete || key->key() == Qt::Key_Backspace)) {
        auto& products = m_desk.wish().products;
        const int row = m_products->currentRow();
        if (row >= 0 && static_cast<std::size_t>(row) < products.size()) {
            products.erase(products.begin() + row);
            fillProducts();
        }
        return true;
    }
    if (object == m_products && (key->key() == Qt::Key_Insert || (enter && plain))) {
        Q_EMIT addProductAsked();
        return true;
    }
    if (object == m_person && enter && plain) {
        addPerson();
        return true;
    }
    return QWidget::eventFilter(object, event);
}

void DesignForm::keyPressEvent(QKeyEvent* event) {
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (enter && event->modifiers().testFlag(Qt::ControlModifier))
        deal();
    else if (event->key() == Qt::Key_Escape)
        Q_EMIT left();
    else
        QWidget::keyPressEvent(event);
}

void DesignForm::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    place();
}

// What it can show stands under what is asked; where there is no room beside it, under everything.
void DesignForm::place() {
    const bool narrow = width() < Theme::current().px(620);
    if (m_narrow == narrow) return;
    m_narrow = narrow;
    const auto [question, cups, plan] = m_parts;
    m_grid->addWidget(question, 0, 0, Qt::AlignTop);
    if (narrow) {
        m_grid->addWidget(cups, 1, 0, Qt::AlignTop);
        m_grid->addWidget(plan, 2, 0, Qt::AlignTop);
    } else {
        m_grid->addWidget(cups, 0, 1, 2, 1, Qt::AlignTop);
        m_grid->addWidget(plan, 1, 0, Qt::AlignTop);
    }
    m_grid->setColumnStretch(0, 1);
    m_grid->setColumnStretch(1, narrow ? 0 : 1);
}

} // namespace stillroom::ui
