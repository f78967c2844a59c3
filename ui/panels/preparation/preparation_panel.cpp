#include "ui/panels/preparation/preparation_panel.h"

#include "core/history/lineage.h"
#include "core/preparation/part_keeping.h"
#include "core/store/lineage_of_book.h"
#include "ui/panels/preparation/preparation_values.h"
#include "ui/panels/preparation/print_label.h"
#include "ui/panels/preparation/ratio_row.h"
#include "ui/plots/keeping_ruler.h"
#include "ui/plots/label_drawing.h"
#include "ui/plots/stand_grid.h"
#include "ui/text/border.h"
#include "ui/text/lot_words.h"
#include "ui/text/numbers.h"
#include "ui/text/preparation_words.h"
#include "ui/text/words.h"
#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"

#include <QClipboard>
#include <QEvent>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QResizeEvent>
#include <QTableWidget>
#include <QVBoxLayout>

#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

PreparationPanel::PreparationPanel(QWidget* parent)
    : QScrollArea(parent),
      m_grid(nullptr),
      m_ratio(nullptr),
      m_keepingHead(new QLabel(tr("Keeping"))),
      m_usesHead(new QLabel(tr("Who uses it"))),
      m_circle(new WrapLabel),
      m_measured(new WrapLabel),
      m_prices(new WrapLabel),
      m_copy(new QPushButton(tr("Copy as text"))),
      m_print(new QPushButton(tr("Print label…"))),
      m_standIn(new WrapLabel) {
    setAccessibleName(tr("Readings of the preparation"));
    setWidgetResizable(true);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFocusPolicy(Qt::NoFocus);
    auto* page = new QWidget(this);
    m_grid = new StandGrid(page);
    m_ratio = new RatioRow(page);
    m_keeping = new KeepingRuler(page);
    m_uses = new QTableWidget(0, 4, page);
    m_label = new LabelDrawing(page);
    const auto rule = [&] {
        auto* line = new QWidget(page);
        line->setAutoFillBackground(true);
        m_rules.push_back(line);
        return line;
    };
    auto* left = new QVBoxLayout;
    left->addWidget(m_usesHead);
    left->addWidget(m_uses);
    left->addWidget(m_prices);
    left->addStretch(1);
    auto* right = new QVBoxLayout;
    right->addWidget(m_label);
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(m_copy);
    buttons->addWidget(m_print);
    buttons->addStretch(1);
    right->addLayout(buttons);
    right->addStretch(1);
    m_both = new QBoxLayout(QBoxLayout::LeftToRight);
    m_both->addLayout(left, 58);
    m_both->addLayout(right, 42);
    auto* all = new QVBoxLayout(page);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(0);
    all->addWidget(m_grid);
    all->addWidget(m_ratio);
    all->addWidget(m_measured);
    all->addWidget(m_circle);
    all->addWidget(rule());
    all->addWidget(m_keepingHead);
    all->addWidget(m_keeping);
    all->addWidget(rule());
    all->addLayout(m_both);
    all->addWidget(m_standIn);
    all->addStretch(1);
    setWidget(page);

    m_uses->setAccessibleName(tr("Who uses it"));
    m_uses->setHorizontalHeaderLabels({tr("drink"), tr("version"), tr("amount"), tr("serves a batch")});
    m_uses->verticalHeader()->hide();
    m_uses->horizontalHeader()->setSectionsClickable(false);
    m_uses->horizontalHeader()->setHighlightSections(false);
    m_uses->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    m_uses->horizontalHeaderItem(3)->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
    m_uses->setShowGrid(false);
    m_uses->setFrameShape(QFrame::NoFrame);
    m_uses->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_uses->setSelectionBehavior(QAbstractItemView::SelectRows);
    m_uses->setSelectionMode(QAbstractItemView::SingleSelection);
    m_uses->setTabKeyNavigation(false);
    m_uses->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_uses->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_copy->setProperty("quiet", true);
    m_print->setProperty("quiet", true);
    connect(m_uses, &QTableWidget::activated, this, [this](const QModelIndex& at) {
        const auto row = static_cast<std::size_t>(at.row());
        if (row < m_record.uses.size()) Q_EMIT drinkActivated(m_record.uses[row].drink);
    });
    connect(m_copy, &QPushButton::clicked, this, &PreparationPanel::copyLabel);
    connect(m_print, &QPushButton::clicked, this, &PreparationPanel::printAsked);
    dress();
}

void PreparationPanel::dress() {
    const auto& theme = Theme::current();
    QPalette colors = palette();
    colors.setColor(QPalette::Window, theme.color(Token::Page));
    colors.setColor(QPalette::Base, theme.color(Token::Page));
    setPalette(colors);
    viewport()->setAutoFillBackground(true);
    const auto wear = [&](QLabel* label, Type type, Token token) {
        label->setFont(theme.font(type));
        QPalette ink = label->palette();
        ink.setColor(QPalette::WindowText, theme.color(token));
        label->setPalette(ink);
    };
    wear(m_keepingHead, Type::Heading, Token::Ink2);
    wear(m_usesHead, Type::Heading, Token::Ink2);
    wear(m_prices, Type::Control, Token::Ink2);
    wear(m_standIn, Type::Body, Token::Ink);
    wear(m_circle, Type::Control, Token::Error);
    wear(m_measured, Type::Control, Token::Ink);
    m_keepingHead->setContentsMargins(theme.pxInt(16), theme.pxInt(10), 0, theme.pxInt(4));
    for (auto* label : {m_measured, m_circle})
        label->setContentsMargins(theme.pxInt(16), theme.pxInt(4), theme.pxInt(16), theme.pxInt(4));
    m_standIn->setContentsMargins(theme.pxInt(16), theme.pxInt(8), theme.pxInt(16), theme.pxInt(12));
    m_both->setContentsMargins(theme.pxInt(16), theme.pxInt(10), theme.pxInt(14), theme.pxInt(6));
    m_both->setSpacing(theme.pxInt(16));
    for (auto* rule : m_rules) {
        rule->setFixedHeight(theme.pxInt(1));
        QPalette ink = rule->palette();
        ink.setColor(QPalette::Window, theme.color(Token::Rule));
        rule->setPalette(ink);
    }
    QPalette page = m_uses->palette();
    page.setColor(QPalette::Base, theme.color(Token::Page));
    m_uses->setPalette(page);
    m_uses->horizontalHeader()->setFont(theme.font(Type::Caption));
    m_uses->horizontalHeader()->setFixedHeight(theme.pxInt(22));
    m_uses->verticalHeader()->setDefaultSectionSize(theme.pxInt(27));
    widget()->setMaximumWidth(theme.pxInt(1000));
    fillUses();
    place();
}

// A narrow panel puts the label under the list.
void PreparationPanel::place() {
    const auto& theme = Theme::current();
    const bool narrow = width() < theme.pxInt(560);
    m_both->setDirection(narrow ? QBoxLayout::TopToBottom : QBoxLayout::LeftToRight);
    m_label->setMaximumWidth(theme.pxInt(narrow ? 360 : 420));
}

void PreparationPanel::setSession(DraftSession* session) {
    if (m_session) {
        m_session->disconnect(this);
        m_session->book().disconnect(this);
    }
    const bool prepares = session != nullptr && session->drink().form == history::DrinkForm::Preparation;
    m_session = prepares ? session : nullptr;
    m_revision.reset();
    m_record = {};
    if (!m_session) return;
    connect(m_session, &DraftSession::changed, this, &PreparationPanel::refresh);
    const auto again = [this] {
        readBook();
        refresh();
    };
    connect(m_session, &DraftSession::baseChanged, this, again);
    connect(&m_session->book(), &WorkbookSession::larderChanged, this, again);
    connect(&m_session->book(), &WorkbookSession::shelfReloaded, this, again);
    readBook();
    refresh();
}

void PreparationPanel::showRevision(const history::Revision* revision, const larder::Larder* larder) {
    m_revision.reset();
    if (m_session && revision != nullptr && larder != nullptr) {
        m_revision = *revision;
        m_revisionReading =
            readingOf(*revision, *larder, m_session->book().settings().rules, m_session->drink());
        auto& now = m_revisionReading.now;
        const auto& bindings = *m_revisionReading.bindings;
        if (now.made)
            now.keeping = preparation::keepingOf(
                now.words.name, now.spec, bindings, *now.made, m_record.keepDays,
                preparation::partKeepings(now.spec, bindings, m_session->book().larder(), m_record.specs));
    }
    refresh();
}

namespace {

// As the words stand in the hand, kept or not.
QString creditNow(DraftSession& session) {
    history::Drink drink = session.drink();
    drink.after = session.now().words.after;
    drink.credit = session.now().words.credit;
    try {
        return fromCore(store::creditOf(session.book().book(), drink));
    } catch (const store::StoreError&) {
        return fromCore(history::creditInWords(drink, {})); // what is on record elsewhere cannot be read
    }
}

} // namespace

void PreparationPanel::readBook() {
    if (!m_session) return;
    try {
        m_record = recordOf(m_session->book(), m_session->drink().id, m_session->spec(),
                            m_session->bindings(), m_session->now().made);
    } catch (const store::StoreError& error) {
        m_record = {};
        Q_EMIT said(storeErrorSentence(error).fact);
    }
}

void PreparationPanel::refresh() {
    if (!m_session) return;
    const auto& now = m_revision ? m_revisionReading.now : m_session->now();
    const auto& bindings = m_revision ? *m_revisionReading.bindings : m_session->bindings();
    BottleDays days;
    days.today = civilDay(m_session->book().clock().now());
    if (m_record.lot) {
        days.made = m_record.lot->on;
        days.useBy = m_record.lot->useBy;
    }
    days.parts = preparation::partDates(now.spec, bindings, m_session->book().larder(), m_record.specs);
    m_grid->setValues(standGridOf(now, m_session->book().settings().rules.currency));
    m_grid->setVisible(now.made.has_value());
    m_ratio->show(m_session, now, bindings, m_revision.has_value() || m_session->book().book().isReadOnly());
    m_keeping->setValues(keepingValuesOf(now, days));
    auto label = labelValuesOf(now, bindings, days);
    label.credit = creditNow(*m_session);
    m_label->setValues(label);
    m_grid->updateGeometry();
    m_keeping->updateGeometry();
    m_label->updateGeometry();
    QString standIn = standInSentence(now);
    if (standIn.isEmpty()) standIn = stretchedSentence(now, bindings);
    if (m_standIn->text() != standIn) m_standIn->setText(standIn);
    m_standIn->setVisible(!standIn.isEmpty());
    const QString measured = m_record.ingredient ? measuredLotSentence(m_session->book().larder(),
                                                                       *m_record.ingredient, days.today)
                                                 : QString();
    m_measured->setText(measured);
    m_measured->setVisible(!measured.isEmpty());
    m_circle->setText(m_record.circle);
    m_circle->setVisible(!m_record.circle.isEmpty());
    const QString prices = m_record.uses.empty() && m_record.priceWords.isEmpty()
                               ? tr("Nothing pours it yet. Write its name in a drink, and it stands here.")
                               : m_record.priceWords;
    if (m_prices->text() != prices) m_prices->setText(prices);
    m_prices->setVisible(!prices.isEmpty());
    m_copy->setEnabled(now.made.has_value());
    m_print->setEnabled(now.made.has_value());
    fillUses();
}

void PreparationPanel::fillUses() {
    const auto& theme = Theme::current();
    const auto& uses = m_record.uses;
    std::optional<double> yieldMl;
    if (m_session) {
        const auto& now = m_revision ? m_revisionReading.now : m_session->now();
        if (now.made && !now.made->yieldAtMost && now.made->yield.ml() > 0) yieldMl = now.made->yield.ml();
    }
    m_uses->setRowCount(static_cast<int>(uses.size()));
    const auto put = [&](int row, int column, const QString& text, Type type) {
        auto* item = m_uses->item(row, column);
        if (item == nullptr) m_uses->setItem(row, column, item = new QTableWidgetItem);
        item->setText(text);
        item->setFont(theme.font(type));
        item->setToolTip(text);
        if (column == 3) item->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
    };
    for (std::size_t i = 0; i < uses.size(); ++i) {
        const int row = static_cast<int>(i);
        put(row, 0, uses[i].name, Type::Line);
        put(row, 1, uses[i].revision, Type::Control);
        put(row, 2, uses[i].amount, Type::Body);
        const bool known = yieldMl && uses[i].perServeMl && *uses[i].perServeMl > 0;
        put(row, 3, known ? number(std::floor(*yieldMl / *uses[i].perServeMl + 1e-9), 0) : u"?"_s,
            Type::Reading);
    }
    m_uses->setVisible(!uses.empty());
    m_uses->setFixedHeight(theme.pxInt(22) + static_cast<int>(uses.size()) * theme.pxInt(27) + 2);
    auto* header = m_uses->horizontalHeader();
    header->setSectionResizeMode(0, QHeaderView::Stretch);
    for (int column = 1; column < 4; ++column)
        header->setSectionResizeMode(column, QHeaderView::ResizeToContents);
}

QString PreparationPanel::words() const {
    return QString(m_measured->text() + u' ' + m_prices->text() + u' ' + m_standIn->text()).trimmed();
}

void PreparationPanel::copyLabel() {
    QGuiApplication::clipboard()->setText(labelText(m_label->values()));
    Q_EMIT said(tr("The label is on the clipboard as text."));
}

void PreparationPanel::printLabel() {
    if (m_session) printLabelByDialog(m_label->values(), this);
}

void PreparationPanel::resizeEvent(QResizeEvent* event) {
    place();
    QScrollArea::resizeEvent(event);
}

void PreparationPanel::changeEvent(QEvent* event) {
    QScrollArea::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

} // namespace stillroom::ui
