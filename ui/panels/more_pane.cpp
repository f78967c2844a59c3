#include "ui/panels/more_pane.h"

#include "ui/text/numbers.h"
#include "ui/theme/theme.h"
#include "ui/widgets/more_table.h"
#include "ui/widgets/number_edit.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace stillroom::ui {

namespace {

// What core follows a freezer over.
constexpr double kColdest = -45;
constexpr double kWarmest = 0;

} // namespace

MorePane::MorePane(QWidget* parent)
    : QWidget(parent),
      m_title(new QLabel(tr("More"), this)),
      m_freezerLabel(new QLabel(tr("&Freezer"), this)),
      m_freezer(new NumberEdit(this)),
      m_freezerUnit(new QLabel(QStringLiteral("°C"), this)),
      m_close(new QPushButton(tr("Close"), this)),
      m_says(new QLabel(this)),
      m_table(new MoreTable(this)) {
    setAccessibleName(tr("Further readings"));
    setFocusProxy(m_table);
    m_freezerLabel->setBuddy(m_freezer);
    m_freezer->setAccessibleName(tr("Temperature of the freezer, °C"));
    m_freezer->setBelowZeroAllowed(true);
    m_freezer->setValue(m_celsius.celsius(), 0);
    m_close->setProperty("quiet", true);
    m_close->setToolTip(tr("Esc"));
    m_says->setWordWrap(true);
    m_says->hide();
    auto* head = new QHBoxLayout;
    head->addWidget(m_title);
    head->addStretch(1);
    for (QWidget* widget : {static_cast<QWidget*>(m_freezerLabel), static_cast<QWidget*>(m_freezer),
                            static_cast<QWidget*>(m_freezerUnit), static_cast<QWidget*>(m_close)})
        head->addWidget(widget);
    auto* all = new QVBoxLayout(this);
    all->addLayout(head);
    all->addWidget(m_says);
    all->addWidget(m_table, 1);
    connect(m_freezer, &QLineEdit::textChanged, this, &MorePane::refresh);
    connect(m_close, &QPushButton::clicked, this, &MorePane::closed);
    setTabOrder(m_table, m_freezer);
    setTabOrder(m_freezer, m_close);
    dress();
}

void MorePane::dress() {
    const auto& theme = Theme::current();
    const auto wear = [&](QLabel* label, Type type, Token token) {
        label->setFont(theme.font(type));
        auto ink = label->palette();
        ink.setColor(QPalette::WindowText, theme.color(token));
        label->setPalette(ink);
    };
    wear(m_title, Type::Heading, Token::Ink);
    wear(m_freezerLabel, Type::Control, Token::Ink2);
    wear(m_freezerUnit, Type::Control, Token::Ink2);
    wear(m_says, Type::Caption, Token::Error);
    m_freezer->setFixedWidth(theme.pxInt(52));
    layout()->setContentsMargins(0, theme.pxInt(6), 0, theme.pxInt(6));
    layout()->setSpacing(theme.pxInt(4));
    layout()->itemAt(0)->layout()->setContentsMargins(theme.pxInt(16), 0, theme.pxInt(8), 0);
    m_says->setContentsMargins(theme.pxInt(16), 0, theme.pxInt(8), 0);
    setMinimumHeight(theme.pxInt(200));
}

void MorePane::setRead(const Read& read, const spec::Readings& readings) {
    m_read = read;
    m_readings = readings;
    refresh();
}

QString MorePane::says() const {
    return m_says->text();
}

void MorePane::refresh() {
    if (!m_read) return;
    const auto typed = m_freezer->value();
    const bool usable = typed && *typed >= kColdest && *typed <= kWarmest;
    if (usable) m_celsius = quantity::Temperature::fromCelsius(*typed);
    m_says->setText(usable
                        ? QString()
                        : tr("A freezer has %1 to %2 °C; the readings stand for %3 °C.")
                              .arg(number(kColdest, 0), number(kWarmest, 0), number(m_celsius.celsius(), 0)));
    m_says->setVisible(!usable);
    m_table->further().setValues(m_read(m_celsius), m_readings);
}

void MorePane::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

} // namespace stillroom::ui
