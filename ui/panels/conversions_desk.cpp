#include "ui/panels/conversions_desk.h"

#include "core/base/text.h"
#include "core/exchange/conversion_entry.h"
#include "ui/panels/measuring/ways_page.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/theme/theme.h"

#include <QApplication>
#include <QClipboard>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QScrollBar>
#include <QShortcut>
#include <QVBoxLayout>

#include <algorithm>

namespace stillroom::ui {

namespace {

// All the words a person may look for a conversion by.
std::string searchText(const physics::Conversion& conversion) {
    std::string text(conversion.id);
    const auto add = [&text](std::string_view word) { text.append(" ").append(word); };
    add(conversion.title);
    for (const auto& input : conversion.inputs) {
        add(input.label);
        add(input.unit);
    }
    for (const auto& output : conversion.outputs) {
        add(output.label);
        add(output.unit);
    }
    return base::fold(text);
}

} // namespace

ConversionsDesk::ConversionsDesk(QWidget* parent) : FormPage(tr("Conversions"), 300, parent) {
    makeSide();
    makeSheet();
    setFocusProxy(m_filter);
    setTabOrder(m_filter, &list());
    auto* copyKey = new QShortcut(QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_C), this);
    copyKey->setContext(Qt::WidgetWithChildrenShortcut);
    connect(copyKey, &QShortcut::activated, this, &ConversionsDesk::copy);
    connect(m_copy, &QPushButton::clicked, this, &ConversionsDesk::copy);
    connect(m_filter, &QLineEdit::textChanged, this, &ConversionsDesk::applyFilter);
    connect(&list(), &QListWidget::currentRowChanged, this, &ConversionsDesk::onChosen);
    connect(&form(), &ConversionForm::edited, this, &ConversionsDesk::compute);
    ConversionsDesk::dress();
    list().setCurrentRow(0);
}

void ConversionsDesk::makeSide() {
    m_filter = new QLineEdit;
    m_filter->setPlaceholderText(tr("Filter conversions"));
    m_filter->setAccessibleName(tr("Filter conversions"));
    m_filter->installEventFilter(this);
    for (const auto& conversion : physics::conversions()) {
        auto* item = new QListWidgetItem(fromCore(conversion.title), &list());
        item->setData(Qt::UserRole, fromCore(searchText(conversion)));
    }
    m_none = new QLabel(tr("No conversion has this word. Esc clears the filter."));
    m_none->setWordWrap(true);
    m_none->hide();
    side().insertWidget(0, m_filter);
    side().insertWidget(1, m_none);
}

void ConversionsDesk::makeSheet() {
    values().setAccessibleName(tr("Results"));
    m_wanted = new QLabel;
    m_wanted->setWordWrap(true);
    sheet().insertWidget(2, m_wanted);
    m_remarks = new QLabel;
    m_remarks->setWordWrap(true);
    m_remarks->setTextInteractionFlags(Qt::TextSelectableByMouse);
    sheet().addWidget(m_remarks);
    m_source = addSmallPrint();
    m_limits = addSmallPrint();
    m_copy = new QPushButton(tr("&Copy as text   Ctrl Shift C"));
    m_copy->setAutoDefault(false);
    auto* acts = new QHBoxLayout;
    acts->addWidget(m_copy);
    acts->addStretch(1);
    sheet().addLayout(acts);
    sheet().addStretch(1);
}

void ConversionsDesk::applyFilter() {
    const auto words = base::foldedWords(toCore(m_filter->text()));
    int first = -1;
    for (int row = 0; row < list().count(); ++row) {
        const auto text = toCore(list().item(row)->data(Qt::UserRole).toString());
        bool found = true;
        for (const auto& word : words)
            found = found && text.find(word) != std::string::npos;
        list().item(row)->setHidden(!found);
        if (found && first < 0) first = row;
    }
    m_none->setVisible(first < 0);
    const auto* current = list().currentItem();
    if (first >= 0 && (!current || current->isHidden())) list().setCurrentRow(first);
}

void ConversionsDesk::choose(std::string_view id) {
    const auto& all = physics::conversions();
    for (std::size_t i = 0; i < all.size(); ++i)
        if (all[i].id == id) list().setCurrentRow(static_cast<int>(i));
}

void ConversionsDesk::stepInList(int direction) {
    for (int row = list().currentRow() + direction; row >= 0 && row < list().count(); row += direction)
        if (!list().item(row)->isHidden()) {
            list().setCurrentRow(row);
            return;
        }
}

void ConversionsDesk::onChosen() {
    const int row = list().currentRow();
    if (row < 0) return;
    const auto* conversion = &physics::conversions()[static_cast<std::size_t>(row)];
    if (conversion == m_chosen) return;
    m_chosen = conversion;
    setTitle(fromCore(conversion->title));
    form().setConversion(*conversion);
    if (auto* field = form().firstField()) setTabOrder(&list(), field);
    m_source->setText(tr("Source: %1.").arg(fromCore(conversion->source)));
    m_limits->setText(fromCore(conversion->limits));
    toTop();
    compute();
}

void ConversionsDesk::compute() {
    const auto outcome = exchange::convertTyped(*m_chosen, form().entries());
    form().showOutcome(outcome);
    m_result = outcome ? *outcome : physics::Converted{};
    QString wanted;
    if (!outcome && outcome.error().fault == physics::ConversionFault::Missing)
        wanted = fromCore(physics::problemText(*m_chosen, outcome.error(), physics::InputNaming::Label));
    m_wanted->setText(wanted);
    m_wanted->setVisible(!wanted.isEmpty());
    showValues();
}

void ConversionsDesk::showValues() {
    std::vector<ValueRows::Row> rows;
    for (const auto& value : m_result.values) {
        const auto* output = m_chosen->output(value.key);
        rows.push_back({fromCore(output->label),
                        convertedText(value, physics::decimalsFor(*output, value.value)),
                        fromCore(value.unit.empty() ? output->unit : value.unit)});
    }
    values().setRows(rows);
    QStringList remarks;
    for (const auto& remark : m_result.remarks)
        remarks.push_back(fromCore(remark));
    m_remarks->setText(remarks.join(QLatin1Char(' ')));
    m_remarks->setVisible(!remarks.isEmpty());
    m_copy->setEnabled(!rows.empty());
}

QString ConversionsDesk::resultText(std::string_view key) const {
    for (const auto& value : m_result.values)
        if (value.key == key)
            return convertedText(value, physics::decimalsFor(*m_chosen->output(key), value.value));
    return {};
}

QString ConversionsDesk::asText() const {
    QStringList lines{title()};
    lines += form().written();
    lines << values().asText();
    for (const auto& remark : m_result.remarks)
        lines.push_back(fromCore(remark));
    lines << m_source->text() << m_limits->text();
    return QString(lines.join(QLatin1Char('\n')) + QLatin1Char('\n'));
}

void ConversionsDesk::copy() const {
    if (!m_result.values.empty()) QApplication::clipboard()->setText(asText());
}

bool ConversionsDesk::eventFilter(QObject* watched, QEvent* event) {
    if (watched != m_filter || event->type() != QEvent::KeyPress)
        return FormPage::eventFilter(watched, event);
    const auto* key = static_cast<QKeyEvent*>(event);
    const bool enter = key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter;
    if (enter) {
        toFirstField();
        return true;
    }
    if (key->key() == Qt::Key_Down || key->key() == Qt::Key_Up) {
        stepInList(key->key() == Qt::Key_Down ? 1 : -1);
        return true;
    }
    if (key->key() == Qt::Key_Escape && !m_filter->text().isEmpty()) {
        m_filter->clear();
        return true;
    }
    return FormPage::eventFilter(watched, event);
}

void ConversionsDesk::dress() {
    FormPage::dress();
    const auto& theme = Theme::current();
    const int gap = theme.pxInt(12);
    // As wide as the longest title, so that none is broken at one size and whole at another.
    const QFontMetrics metrics(theme.font(Type::Control));
    int longest = 0;
    for (int row = 0; row < list().count(); ++row)
        longest = std::max(longest, metrics.horizontalAdvance(list().item(row)->text()));
    const int around = theme.pxInt(20) + gap + gap / 2 + list().verticalScrollBar()->sizeHint().width();
    side().parentWidget()->setFixedWidth(std::clamp(longest + around, theme.pxInt(300), theme.pxInt(360)));
    m_filter->setFont(theme.font(Type::Control));
    for (QLabel* label : {m_wanted, m_remarks}) {
        label->setFont(theme.font(Type::Body));
        label->setMaximumWidth(theme.pxInt(640));
        setInk(*label, Token::Ink);
    }
    m_none->setFont(theme.font(Type::Caption));
    setInk(*m_none, Token::Ink2);
}

} // namespace stillroom::ui
