#include "ui/panels/larder/impact_strip.h"

#include "ui/panels/larder/entry_table.h"
#include "ui/panels/larder/impact_model.h"
#include "ui/panels/larder/inset_header.h"
#include "ui/plots/plot_text.h"
#include "ui/session/larder_edit.h"
#include "ui/text/border.h"
#include "ui/text/larder_words.h"
#include "ui/text/numbers.h"
#include "ui/theme/theme.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>

#include <array>
#include <cmath>
#include <limits>

namespace stillroom::ui {

namespace {

constexpr int kMostRows = 6;
constexpr int kLeastRows = 2;
constexpr int kMostMeasured = 200; // rows: largest first, the others are hardly wider

QString money(const std::optional<double>& major, const quantity::Currency& currency) {
    return major ? QString(currencySign(currency) + kNarrowSpace + number(*major, currency.exponent))
                 : QStringLiteral("?");
}

} // namespace

ImpactStrip::ImpactStrip(QWidget* parent)
    : QWidget(parent),
      m_what(new QLabel(this)),
      m_summary(new QLabel(this)),
      m_doubts(new QLabel(this)),
      m_model(new ImpactModel(this)),
      m_table(new QTableView(this)),
      m_accept(new QPushButton(tr("&Accept   Ctrl Enter"), this)),
      m_leave(new QPushButton(tr("Leave a&s it was   Esc"), this)) {
    setAccessibleName(tr("What this edit does"));
    m_what->setWordWrap(true);
    m_summary->setWordWrap(true);
    m_doubts->setWordWrap(true);
    for (auto* label : {m_what, m_summary, m_doubts}) // one long word must not widen the page
        label->setMinimumWidth(1);
    m_doubts->setAutoFillBackground(true);
    m_doubts->setBackgroundRole(QPalette::Window);
    m_doubts->setForegroundRole(QPalette::WindowText);
    m_accept->setProperty("act", true);
    m_accept->setAutoDefault(true);
    m_leave->setAutoDefault(true);
    m_table->setAccessibleName(tr("What changes, largest first"));
    m_table->setModel(m_model);
    m_table->setItemDelegate(new EntryDelegate(m_table));
    m_table->setFrameShape(QFrame::NoFrame);
    m_table->setShowGrid(false);
    m_table->setWordWrap(false);
    m_table->setSelectionMode(QAbstractItemView::NoSelection);
    m_table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_table->setTabKeyNavigation(false);
    m_table->setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_table->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_table->verticalHeader()->hide();
    m_table->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    m_table->setHorizontalHeader(new InsetHeader(m_table));
    auto* acts = new QHBoxLayout;
    acts->addWidget(m_accept);
    acts->addWidget(m_leave);
    acts->addStretch(1);
    auto* column = new QVBoxLayout(this);
    column->addWidget(m_what);
    column->addWidget(m_doubts);
    column->addWidget(m_summary);
    column->addWidget(m_table);
    column->addLayout(acts);
    dress();
    hide();
}

void ImpactStrip::setEdit(LarderEdit* edit) {
    m_edit = edit;
    if (edit != nullptr) {
        for (const auto signal :
             {&LarderEdit::changed, &LarderEdit::impactChanged, &LarderEdit::chosenChanged})
            connect(edit, signal, this, &ImpactStrip::refresh);
        connect(m_accept, &QPushButton::clicked, edit, [edit] { edit->accept(); });
        connect(m_leave, &QPushButton::clicked, edit, &LarderEdit::leave);
    }
    refresh();
}

void ImpactStrip::setUnread(const QStringList& sentences) {
    if (sentences == m_unread) return;
    m_unread = sentences;
    refresh();
}

QString ImpactStrip::summary() const {
    return m_summary->text();
}
QString ImpactStrip::doubts() const {
    return m_doubts->text();
}

QString ImpactStrip::found() const {
    const auto count = [](int n, const QString& one, const QString& many) {
        return n == 1 ? one : many.arg(n);
    };
    if (!m_edit->impact()) {
        const auto& uses = m_edit->uses();
        if (!m_edit->isReadingImpact() || !uses) return {};
        return tr("Reading %1 and %2 that name it…")
            .arg(count(uses->drafts, tr("one draft"), tr("%1 drafts")),
                 count(uses->revisions, tr("one revision"), tr("%1 revisions")));
    }
    const auto& impact = *m_edit->impact();
    const auto& drinks = impact.impact.drinks;
    int drafts = 0;
    for (const auto& each : drinks.changed)
        drafts += impact.subjects[each.subject]->isDraft ? 1 : 0;
    const int revisions = static_cast<int>(drinks.changed.size()) - drafts;
    QStringList words;
    if (impact.subjects.empty() && impact.impact.made.empty())
        words << tr("No drink names it yet.");
    else if (drinks.changed.empty() && impact.impact.made.empty())
        words << tr("No number of a drink moves.");
    else
        words << tr("%1 will read differently; %2 would, read again. Kept numbers stay as they are.")
                     .arg(count(drafts, tr("One draft"), tr("%1 drafts")),
                          count(revisions, tr("one kept revision"), tr("%1 kept revisions")));
    if (!impact.impact.made.empty())
        words << count(static_cast<int>(impact.impact.made.size()), tr("One preparation is made of it."),
                       tr("%1 preparations are made of it."));
    if (drinks.tooSmallToSee > 0)
        words << count(static_cast<int>(drinks.tooSmallToSee), tr("In one more nothing moves that is shown."),
                       tr("In %1 more nothing moves that is shown."));
    const auto currency = m_edit->book().houseRules().currency;
    const auto before = money(impact.impact.costBefore, currency);
    const auto after = money(impact.impact.costAfter, currency);
    if (before != after) words.prepend(tr("Cost %1 → %2.").arg(before, after));
    return words.join(QLatin1Char(' '));
}

void ImpactStrip::refresh() {
    const bool pending = m_edit != nullptr && m_edit->hasChosen() && m_edit->isPending();
    setVisible(pending);
    if (!pending) return;
    const QString changes = changesInWords(m_edit->stored(), m_edit->now(), m_edit->larderNow());
    QStringList beside;
    for (const auto& other : m_edit->besideNow())
        if (const auto* known = m_edit->book().larder().find(other.id); known != nullptr && *known != other)
            beside << QString(fromCore(other.name) + QStringLiteral(": ") +
                              changesInWords(*known, other, m_edit->larderNow()));
    if (m_edit->hasLotsPending()) beside << tr("what is on record of its lots");
    const QString also = beside.join(QStringLiteral("; "));
    m_what->setText(m_edit->isNew()     ? tr("New, not in the larder yet")
                    : changes.isEmpty() ? also
                    : also.isEmpty()    ? changes
                                        : QString(changes + QStringLiteral("; ") + also));
    m_what->setVisible(!m_what->text().isEmpty());
    QStringList doubts = m_unread;
    for (const auto& finding : m_edit->findings())
        if (finding.refuses) doubts << findingSentence(finding, m_edit->now(), m_edit->larderNow());
    if (m_edit->book().book().isReadOnly())
        doubts << tr("This book is open to read only: nothing can be accepted.");
    m_doubts->setText(doubts.join(QLatin1Char('\n')));
    m_doubts->setVisible(!doubts.isEmpty());
    m_summary->setText(found());
    m_summary->setVisible(!m_summary->text().isEmpty());
    m_model->set(&m_edit->book(), m_edit->impact());
    m_table->setVisible(m_model->rowCount() > 0);
    m_accept->setEnabled(m_edit->canAccept());
    fit();
}

void ImpactStrip::setMostHeight(int height) {
    if (height == m_mostHeight) return;
    m_mostHeight = height;
    fit();
}

void ImpactStrip::fit() {
    const auto& theme = Theme::current();
    fitColumns();
    int most = std::numeric_limits<int>::max();
    if (m_mostHeight > 0) {
        int others = layout()->contentsMargins().top() + layout()->contentsMargins().bottom() +
                     m_accept->sizeHint().height() + theme.pxInt(24) + 2;
        for (auto* label : {m_what, m_doubts, m_summary})
            if (!label->isHidden())
                others += label->heightForWidth(width() - theme.pxInt(40)) + layout()->spacing();
        most = m_mostHeight - others;
    }
    int rows = 0;
    for (int row = 0; row < std::min(m_model->rowCount(), kMostRows); ++row)
        if (row < kLeastRows || rows + m_table->rowHeight(row) <= most) rows += m_table->rowHeight(row);
    m_table->setFixedHeight(rows + theme.pxInt(24) + 2);
}

// Every column as wide as what stands in it. What moves nothing gives way where it is narrow; the name goes
// on below itself, a number never.
void ImpactStrip::fitColumns() {
    const auto& look = Theme::current().look();
    const int room = m_table->viewport()->width();
    std::array<int, ImpactModel::ColumnCount> widths{};
    std::array<bool, ImpactModel::ColumnCount> moves{};
    const int rows = std::min(m_model->rowCount(), kMostMeasured);
    for (int column = 0; column < ImpactModel::ColumnCount; ++column) {
        double widest = textWidth(m_model->headerData(column, Qt::Horizontal, Qt::DisplayRole).toString(),
                                  Type::Caption, look);
        for (int row = 0; row < rows; ++row) {
            const QModelIndex at = m_model->index(row, column);
            const QString text = at.data().toString();
            const Type type = at.data(HandRole).toBool()    ? Type::Line
                              : at.data(QuietRole).toBool() ? Type::Control
                                                            : Type::Reading;
            widest = std::max(widest, textWidth(text, type, look));
            moves[static_cast<std::size_t>(column)] |= m_model->moves(row, column);
        }
        widths[static_cast<std::size_t>(column)] = static_cast<int>(std::ceil(widest + look.px(17)));
    }
    const int least = std::min(widths[ImpactModel::Name], static_cast<int>(look.px(120)));
    const auto needed = [&] {
        int sum = least;
        for (int column = 1; column < ImpactModel::ColumnCount; ++column)
            if (!m_table->isColumnHidden(column)) sum += widths[static_cast<std::size_t>(column)];
        return sum;
    };
    for (int column = 1; column < ImpactModel::ColumnCount; ++column)
        m_table->setColumnHidden(column, column == ImpactModel::Allergens && !moves[ImpactModel::Allergens]);
    for (const int column : {ImpactModel::Acid, ImpactModel::Sugar, ImpactModel::Strength, ImpactModel::Cost})
        if (needed() > room && !moves[static_cast<std::size_t>(column)])
            m_table->setColumnHidden(column, true);
    const int over = std::max(0, room - needed());
    for (int column = 1; column < ImpactModel::ColumnCount; ++column)
        m_table->setColumnWidth(column, widths[static_cast<std::size_t>(column)]);
    m_table->setColumnWidth(ImpactModel::Name, least + over);
    for (int row = 0; row < rows; ++row) {
        const QString name = m_model->index(row, ImpactModel::Name).data().toString();
        const bool twoLines = textWidth(name, Type::Line, look) + look.px(16) > least + over;
        m_table->setRowHeight(row, look.pxInt(twoLines ? 44 : 26));
    }
}

void ImpactStrip::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fit();
}

void ImpactStrip::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

void ImpactStrip::dress() {
    const auto& theme = Theme::current();
    layout()->setContentsMargins(theme.pxInt(24), theme.pxInt(10), theme.pxInt(16), theme.pxInt(10));
    layout()->setSpacing(theme.pxInt(6));
    m_what->setFont(theme.font(Type::Heading));
    m_summary->setFont(theme.font(Type::Control));
    m_doubts->setFont(theme.font(Type::Control));
    QPalette error = palette();
    error.setColor(QPalette::Window, theme.color(Token::ErrorSoft));
    error.setColor(QPalette::WindowText, theme.color(Token::OnError));
    m_doubts->setPalette(error);
    m_doubts->setContentsMargins(theme.pxInt(8), theme.pxInt(4), theme.pxInt(8), theme.pxInt(4));
    QPalette ink = palette();
    ink.setColor(QPalette::WindowText, theme.color(Token::Ink));
    m_what->setPalette(ink);
    m_summary->setPalette(ink);
    m_table->verticalHeader()->setDefaultSectionSize(theme.pxInt(26));
    m_table->horizontalHeader()->setFixedHeight(theme.pxInt(24));
    m_table->horizontalHeader()->setFont(theme.font(Type::Caption));
    QPalette well = palette();
    well.setColor(QPalette::Base, theme.color(Token::Page));
    m_table->setPalette(well);
    fit();
}

void ImpactStrip::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const Look& look = Theme::current().look();
    painter.fillRect(rect(), look.color(Token::Page));
    painter.fillRect(QRectF(0, 0, width(), look.px(1.5)), look.color(Token::RuleStrong));
    painter.fillRect(QRectF(0, 0, look.px(4), height()), look.color(Token::Intent));
}

} // namespace stillroom::ui
