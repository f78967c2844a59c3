#include "ui/panels/measuring/ways_page.h"

#include "ui/delegates/title_delegate.h"
#include "ui/text/numbers.h"
#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QListWidget>
#include <QPainter>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

namespace stillroom::ui {

namespace {

void setInk(QLabel& label, Token token) {
    label.setForegroundRole(QPalette::WindowText); // on a page it would be Text
    QPalette colors = label.palette();
    colors.setColor(QPalette::WindowText, Theme::current().color(token));
    label.setPalette(colors);
}

} // namespace

AnswerStrip::AnswerStrip(QWidget* parent)
    : QWidget(parent),
      m_headline(new WrapLabel(this)),
      m_detail(new WrapLabel(this)),
      m_acts(new QWidget(this)) {
    setAccessibleName(tr("What was found"));
    auto* acts = new QHBoxLayout(m_acts);
    acts->setContentsMargins(0, 0, 0, 0);
    acts->addStretch(1);
    auto* column = new QVBoxLayout(this);
    column->addWidget(m_headline);
    column->addWidget(m_detail);
    column->addWidget(m_acts);
    dress();
}

void AnswerStrip::setAnswer(const QString& headline, const QString& detail) {
    m_headline->setText(headline);
    m_detail->setText(detail);
    m_headline->setVisible(!headline.isEmpty());
    m_detail->setVisible(!detail.isEmpty());
    setAccessibleDescription(QString(headline + QLatin1Char(' ') + detail).trimmed());
}

QString AnswerStrip::headline() const {
    return m_headline->text();
}
QString AnswerStrip::detail() const {
    return m_detail->text();
}

QPushButton* AnswerStrip::addAct(const QString& text, bool primary) {
    auto* button = new QPushButton(text, m_acts);
    button->setAutoDefault(true); // Enter on it does it
    if (primary) button->setProperty("act", true);
    auto* row = static_cast<QHBoxLayout*>(m_acts->layout());
    row->insertWidget(row->count() - 1, button);
    return button;
}

void AnswerStrip::dress() {
    const auto& theme = Theme::current();
    layout()->setContentsMargins(theme.pxInt(24), theme.pxInt(10), theme.pxInt(16), theme.pxInt(10));
    layout()->setSpacing(theme.pxInt(6));
    m_acts->layout()->setSpacing(theme.pxInt(8));
    m_headline->setFont(theme.font(Type::ReadingServed));
    m_detail->setFont(theme.font(Type::Control));
    setInk(*m_headline, Token::Ink);
    setInk(*m_detail, Token::Ink2);
}

void AnswerStrip::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

void AnswerStrip::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const Look& look = Theme::current().look();
    painter.fillRect(rect(), look.color(Token::Page));
    painter.fillRect(QRectF(0, 0, width(), look.px(1.5)), look.color(Token::RuleStrong));
}

WaysPage::WaysPage(const QString& title, QWidget* parent)
    : QWidget(parent),
      m_list(new QListWidget(this)),
      m_scroll(new QScrollArea(this)),
      m_title(new QLabel),
      m_about(new QVBoxLayout),
      m_form(new ConversionForm),
      m_values(new ValueRows),
      m_source(new WrapLabel),
      m_limits(new WrapLabel),
      m_strip(new AnswerStrip(this)),
      m_divide(new QWidget(this)) {
    setAccessibleName(title);
    setWindowTitle(title);
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::Base);
    m_list->setAccessibleName(title);
    m_list->setFrameShape(QFrame::NoFrame);
    m_list->setItemDelegate(new TitleDelegate(m_list));
    m_list->setResizeMode(QListView::Adjust);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_list->installEventFilter(this);
    m_divide->setAutoFillBackground(true);
    m_divide->setBackgroundRole(QPalette::Mid);
    m_divide->setFixedWidth(1);
    m_title->setWordWrap(true);
    m_values->setAccessibleName(tr("What it comes from"));
    m_values->setSelectionMode(QAbstractItemView::NoSelection);
    m_values->setFocusPolicy(Qt::NoFocus);
    for (auto* label : {m_source, m_limits})
        label->setTextInteractionFlags(Qt::TextSelectableByMouse);

    auto* sheet = new QWidget;
    sheet->setBackgroundRole(QPalette::Base);
    auto* column = new QVBoxLayout(sheet);
    column->addWidget(m_title);
    column->addLayout(m_about);
    column->addWidget(m_form);
    column->addWidget(m_values);
    column->addWidget(m_source);
    column->addWidget(m_limits);
    column->addStretch(1);
    m_scroll->setWidget(sheet);
    m_scroll->setWidgetResizable(true);
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setFocusPolicy(Qt::NoFocus);
    m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_scroll->viewport()->setBackgroundRole(QPalette::Base);
    m_scroll->viewport()->setAutoFillBackground(true);
    auto* right = new QVBoxLayout;
    right->setContentsMargins(0, 0, 0, 0);
    right->setSpacing(0);
    right->addWidget(m_scroll, 1);
    right->addWidget(m_strip);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    auto* side = new QVBoxLayout;
    side->addWidget(m_list);
    row->addLayout(side);
    row->addWidget(m_divide);
    row->addLayout(right, 1);
    setFocusProxy(m_list);
    connect(m_list, &QListWidget::currentRowChanged, this, [this](int chosen) {
        if (chosen < 0) return;
        m_title->setText(m_list->item(chosen)->text());
        Q_EMIT wayChosen(chosen);
        m_scroll->ensureVisible(0, 0);
    });
    connect(m_list, &QListWidget::itemActivated, this, &WaysPage::toFirstField);
    WaysPage::dress();
}

void WaysPage::setWays(const QStringList& titles) {
    m_list->addItems(titles);
}

void WaysPage::addAbout(QWidget* about) {
    m_about->addWidget(about);
}

int WaysPage::way() const {
    return m_list->currentRow();
}

void WaysPage::chooseWay(int row) {
    m_list->setCurrentRow(row);
}

void WaysPage::setForm(const physics::Conversion& conversion) {
    m_form->setConversion(conversion);
}

void WaysPage::setNotes(const QString& source, const QString& limits) {
    m_source->setText(source);
    m_limits->setText(limits);
    m_source->setVisible(!source.isEmpty());
    m_limits->setVisible(!limits.isEmpty());
}

void WaysPage::setValues(const std::vector<ValueRows::Row>& rows) {
    m_values->setRows(rows);
}

void WaysPage::toFirstField() {
    if (auto* field = m_form->firstField()) field->setFocus(Qt::TabFocusReason);
}

bool WaysPage::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_list && event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if (key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter) {
            toFirstField();
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

void WaysPage::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape)
        Q_EMIT closed();
    else
        QWidget::keyPressEvent(event);
}

void WaysPage::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

void WaysPage::dress() {
    const auto& theme = Theme::current();
    m_list->setFixedWidth(theme.pxInt(260));
    layout()->itemAt(0)->layout()->setContentsMargins(theme.pxInt(12), theme.pxInt(12), theme.pxInt(6), 0);
    m_list->setFont(theme.font(Type::Control));
    m_list->doItemsLayout();
    auto* sheet = m_scroll->widget()->layout();
    sheet->setContentsMargins(theme.pxInt(24), theme.pxInt(12), theme.pxInt(24), theme.pxInt(12));
    sheet->setSpacing(theme.pxInt(8));
    m_title->setFont(theme.font(Type::Title));
    setInk(*m_title, Token::Ink);
    for (auto* label : {m_source, m_limits}) {
        label->setFont(theme.font(Type::Caption));
        label->setMaximumWidth(theme.pxInt(640));
        setInk(*label, Token::Ink2);
    }
}

QString convertedText(const physics::ConvertedValue& value, int decimals) {
    using physics::ValueBound;
    const QString text = number(value.value, decimals);
    if (value.bound != ValueBound::Exact)
        return QString((value.bound == ValueBound::AtLeast ? kAtLeast : kAtMost) + QStringLiteral(" ") +
                       text);
    return value.estimate ? QString(QStringLiteral("≈ ") + text) : text;
}

} // namespace stillroom::ui
