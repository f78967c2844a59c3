#include "ui/panels/measuring/ways_page.h"

#include "ui/text/numbers.h"
#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QListWidget>
#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>

namespace stillroom::ui {

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
    FormPage::setInk(*m_headline, Token::Ink);
    FormPage::setInk(*m_detail, Token::Ink2);
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
    : FormPage(title, 278, parent),
      m_about(new QVBoxLayout),
      m_source(addSmallPrint()),
      m_limits(addSmallPrint()),
      m_strip(new AnswerStrip(this)) {
    values().setAccessibleName(tr("What it comes from"));
    values().setSelectionMode(QAbstractItemView::NoSelection);
    values().setFocusPolicy(Qt::NoFocus);
    sheet().insertLayout(1, m_about);
    sheet().addStretch(1);
    underneath().addWidget(m_strip);
    connect(&list(), &QListWidget::currentRowChanged, this, [this](int chosen) {
        if (chosen < 0) return;
        setTitle(list().item(chosen)->text());
        Q_EMIT wayChosen(chosen);
        toTop();
    });
    dress(); // the small print came after the page
}

void WaysPage::setWays(const QStringList& titles) {
    list().addItems(titles);
}

void WaysPage::addAbout(QWidget* about) {
    m_about->addWidget(about);
}

int WaysPage::way() const {
    return list().currentRow();
}

void WaysPage::chooseWay(int row) {
    list().setCurrentRow(row);
}

void WaysPage::setForm(const physics::Conversion& conversion) {
    form().setConversion(conversion);
}

void WaysPage::setNotes(const QString& source, const QString& limits) {
    m_source->setText(source);
    m_limits->setText(limits);
    m_source->setVisible(!source.isEmpty());
    m_limits->setVisible(!limits.isEmpty());
}

void WaysPage::setValues(const std::vector<ValueRows::Row>& rows) {
    values().setRows(rows);
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
