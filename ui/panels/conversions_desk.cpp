#include "ui/panels/conversions_desk.h"

#include "core/base/text.h"
#include "core/exchange/conversion_entry.h"
#include "ui/delegates/title_delegate.h"
#include "ui/panels/conversion_form.h"
#include "ui/panels/measuring/ways_page.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/theme/theme.h"
#include "ui/widgets/value_rows.h"

#include <QApplication>
#include <QClipboard>
#include <QFrame>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QShortcut>
#include <QVBoxLayout>

#include <algorithm>

namespace stillroom::ui {

namespace {

void setInk(QLabel& label, Token token) {
    label.setForegroundRole(QPalette::WindowText); // on a page it would be Text
    QPalette colors = label.palette();
    colors.setColor(QPalette::WindowText, Theme::current().color(token));
    label.setPalette(colors);
}

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

ConversionsDesk::ConversionsDesk(QWidget* parent) : QWidget(parent) {
    setAccessibleName(tr("Conversions"));
    setWindowTitle(tr("Conversions"));
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::Base);
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    m_side = makeSide();
    layout->addWidget(m_side);
    auto* divide = new QFrame;
    divide->setFrameShape(QFrame::NoFrame);
    divide->setAutoFillBackground(true);
    divide->setBackgroundRole(QPalette::Mid);
    divide->setFixedWidth(1);
    layout->addWidget(divide);
    layout->addWidget(makeSheet(), 1);
    setFocusProxy(m_filter);
    setTabOrder(m_filter, m_list);
    auto* copyKey = new QShortcut(QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_C), this);
    copyKey->setContext(Qt::WidgetWithChildrenShortcut);
    connect(copyKey, &QShortcut::activated, this, &ConversionsDesk::copy);
    connect(m_copy, &QPushButton::clicked, this, &ConversionsDesk::copy);
    connect(m_filter, &QLineEdit::textChanged, this, &ConversionsDesk::applyFilter);
    connect(m_list, &QListWidget::currentRowChanged, this, &ConversionsDesk::onChosen);
    connect(m_list, &QListWidget::itemActivated, this, &ConversionsDesk::toFirstField);
    connect(m_form, &ConversionForm::edited, this, &ConversionsDesk::compute);
    dress();
    m_list->setCurrentRow(0);
}

QWidget* ConversionsDesk::makeSide() {
    auto* side = new QWidget;
    m_filter = new QLineEdit;
    m_filter->setPlaceholderText(tr("Filter conversions"));
    m_filter->setAccessibleName(tr("Filter conversions"));
    m_filter->installEventFilter(this);
    m_list = new QListWidget;
    m_list->setAccessibleName(tr("Conversions"));
    m_list->setFrameShape(QFrame::NoFrame);
    m_list->setItemDelegate(new TitleDelegate(m_list));
    m_list->setResizeMode(QListView::Adjust);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    for (const auto& conversion : physics::conversions()) {
        auto* item = new QListWidgetItem(fromCore(conversion.title), m_list);
        item->setData(Qt::UserRole, fromCore(searchText(conversion)));
    }
    m_list->installEventFilter(this);
    m_none = new QLabel(tr("No conversion has this word. Esc clears the filter."));
    m_none->setWordWrap(true);
    m_none->hide();
    auto* column = new QVBoxLayout(side);
    column->addWidget(m_filter);
    column->addWidget(m_none);
    column->addWidget(m_list, 1);
    return side;
}

QWidget* ConversionsDesk::makeSheet() {
    auto* sheet = new QWidget;
    m_title = new QLabel;
    m_title->setWordWrap(true);
    m_form = new ConversionForm;
    m_wanted = new QLabel;
    m_wanted->setWordWrap(true);
    m_values = new ValueRows;
    m_values->setAccessibleName(tr("Results"));
    m_copy = new QPushButton(tr("&Copy as text   Ctrl Shift C"));
    m_copy->setAutoDefault(false);
    auto* column = new QVBoxLayout(sheet);
    column->addWidget(m_title);
    column->addWidget(m_form);
    for (QLabel** label : {&m_remarks, &m_source, &m_limits}) {
        *label = new QLabel;
        (*label)->setWordWrap(true);
        (*label)->setTextInteractionFlags(Qt::TextSelectableByMouse);
    }
    column->addWidget(m_wanted);
    column->addWidget(m_values);
    column->addWidget(m_remarks);
    column->addWidget(m_source);
    column->addWidget(m_limits);
    auto* acts = new QHBoxLayout;
    acts->addWidget(m_copy);
    acts->addStretch(1);
    column->addLayout(acts);
    column->addStretch(1);
    sheet->setBackgroundRole(QPalette::Base);
    m_scroll = new QScrollArea;
    m_scroll->setWidget(sheet);
    m_scroll->setWidgetResizable(true);
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setFocusPolicy(Qt::NoFocus);
    m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_scroll->viewport()->setBackgroundRole(QPalette::Base);
    m_scroll->viewport()->setAutoFillBackground(true);
    return m_scroll;
}

void ConversionsDesk::applyFilter() {
    const auto words = base::foldedWords(toCore(m_filter->text()));
    int first = -1;
    for (int row = 0; row < m_list->count(); ++row) {
        const auto text = toCore(m_list->item(row)->data(Qt::UserRole).toString());
        bool found = true;
        for (const auto& word : words)
            found = found && text.find(word) != std::string::npos;
        m_list->item(row)->setHidden(!found);
        if (found && first < 0) first = row;
    }
    m_none->setVisible(first < 0);
    const auto* current = m_list->currentItem();
    if (first >= 0 && (!current || current->isHidden())) m_list->setCurrentRow(first);
}

void ConversionsDesk::choose(std::string_view id) {
    const auto& all = physics::conversions();
    for (std::size_t i = 0; i < all.size(); ++i)
        if (all[i].id == id) m_list->setCurrentRow(static_cast<int>(i));
}

void ConversionsDesk::stepInList(int direction) {
    for (int row = m_list->currentRow() + direction; row >= 0 && row < m_list->count(); row += direction)
        if (!m_list->item(row)->isHidden()) {
            m_list->setCurrentRow(row);
            return;
        }
}

void ConversionsDesk::toFirstField() {
    if (auto* field = m_form->firstField()) field->setFocus(Qt::TabFocusReason);
}

void ConversionsDesk::onChosen() {
    const int row = m_list->currentRow();
    if (row < 0) return;
    const auto* conversion = &physics::conversions()[static_cast<std::size_t>(row)];
    if (conversion == m_chosen) return;
    m_chosen = conversion;
    m_title->setText(fromCore(conversion->title));
    m_form->setConversion(*conversion);
    if (auto* field = m_form->firstField()) setTabOrder(m_list, field);
    m_source->setText(tr("Source: %1.").arg(fromCore(conversion->source)));
    m_limits->setText(fromCore(conversion->limits));
    m_scroll->ensureVisible(0, 0);
    compute();
}

void ConversionsDesk::compute() {
    const auto outcome = exchange::convertTyped(*m_chosen, m_form->entries());
    m_form->showOutcome(outcome);
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
    m_values->setRows(rows);
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
    QStringList lines{m_title->text()};
    lines += m_form->written();
    lines << m_values->asText();
    for (const auto& remark : m_result.remarks)
        lines.push_back(fromCore(remark));
    lines << m_source->text() << m_limits->text();
    return QString(lines.join(QLatin1Char('\n')) + QLatin1Char('\n'));
}

void ConversionsDesk::copy() const {
    if (!m_result.values.empty()) QApplication::clipboard()->setText(asText());
}

bool ConversionsDesk::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() != QEvent::KeyPress) return QWidget::eventFilter(watched, event);
    const auto* key = static_cast<QKeyEvent*>(event);
    const bool enter = key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter;
    if (enter && (watched == m_filter || watched == m_list)) {
        toFirstField();
        return true;
    }
    if (watched == m_filter && (key->key() == Qt::Key_Down || key->key() == Qt::Key_Up)) {
        stepInList(key->key() == Qt::Key_Down ? 1 : -1);
        return true;
    }
    if (watched == m_filter && key->key() == Qt::Key_Escape && !m_filter->text().isEmpty()) {
        m_filter->clear();
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

void ConversionsDesk::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape)
        Q_EMIT closed();
    else
        QWidget::keyPressEvent(event);
}

void ConversionsDesk::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

void ConversionsDesk::dress() {
    const auto& theme = Theme::current();
    const int gap = theme.pxInt(12);
    // As wide as the longest title, so that none is broken at one size and whole at another.
    const QFontMetrics metrics(theme.font(Type::Control));
    int longest = 0;
    for (int row = 0; row < m_list->count(); ++row)
        longest = std::max(longest, metrics.horizontalAdvance(m_list->item(row)->text()));
    const int around = theme.pxInt(20) + gap + gap / 2 + m_list->verticalScrollBar()->sizeHint().width();
    m_side->setFixedWidth(std::clamp(longest + around, theme.pxInt(300), theme.pxInt(360)));
    m_side->layout()->setContentsMargins(gap, gap, gap / 2, 0);
    m_scroll->widget()->layout()->setContentsMargins(theme.pxInt(24), gap, theme.pxInt(24), gap);
    m_scroll->widget()->layout()->setSpacing(theme.pxInt(10));
    m_filter->setFont(theme.font(Type::Control));
    m_list->setFont(theme.font(Type::Control));
    m_list->doItemsLayout();
    m_title->setFont(theme.font(Type::Title));
    setInk(*m_title, Token::Ink);
    for (QLabel* label : {m_wanted, m_remarks}) {
        label->setFont(theme.font(Type::Body));
        label->setMaximumWidth(theme.pxInt(640));
        setInk(*label, Token::Ink);
    }
    for (QLabel* label : {m_source, m_limits, m_none}) {
        label->setFont(theme.font(Type::Caption));
        label->setMaximumWidth(theme.pxInt(640));
        setInk(*label, Token::Ink2);
    }
}

} // namespace stillroom::ui
