#include "ui/panels/held_pane.h"

#include "ui/plots/held_curve.h"
#include "ui/text/numbers.h"
#include "ui/theme/theme.h"
#include "ui/widgets/number_edit.h"

#include <QButtonGroup>
#include <QCoreApplication>
#include <QEvent>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

#include <algorithm>
#include <array>
#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("Held", text);
}

constexpr std::array<int, 6> kTold{0, 5, 10, 15, 20, 30}; // minutes in the table
constexpr double kGoneG = 0.05;                           // ice below this is melted, to the eye

QString iceWords(const spec::HeldCurve& curve) {
    if (!(curve.iceAtStartG > 0)) return {};
    QString text = curve.iceAssumed ? say("Nobody said how much ice: %1 g assumed")
                                    : say("Ice in the glass at the start: %1 g");
    text = text.arg(number(curve.iceAtStartG, 0));
    const auto gone = std::find_if(curve.points.begin(), curve.points.end(),
                                   [](const spec::HeldReading& at) { return at.iceG <= kGoneG; });
    return gone == curve.points.end()
               ? text + say("; %1 g are left at the end.").arg(number(curve.points.back().iceG, 0))
               : text + say("; gone after %1 minutes.").arg(number(gone->minutes, 0));
}

} // namespace

QString heldBasis(const spec::HeldCurve& curve, const spec::HeldAsk& ask) {
    QStringList parts;
    const QString room = number(curve.roomC, 0);
    if (curve.transferAssumed)
        parts << say("Assumed heat transfer, no source: %1 W/K from a room at %2 °C. A temperature measured "
                     "in the glass sets it right.")
                     .arg(number(curve.roomWPerK, 2), room);
    else if (ask.measured)
        parts << say("Heat transfer from %1 °C after %2 minutes, measured: %3 W/K from a room at %4 °C.")
                     .arg(number(ask.measured->celsius.celsius(), 1), number(ask.measured->minutes, 0),
                          number(curve.roomWPerK, 2), room);
    if (const auto ice = iceWords(curve); !ice.isEmpty()) parts << ice;
    if (curve.startAssumed) parts << say("The served temperature it starts from is an estimate.");
    if (curve.strengthBound != spec::Bound::Exact)
        parts << say("Its strength as served is a bound, and so is the strength here.");
    if (curve.temperatureBound != spec::Bound::Exact)
        parts << say("Its temperature as served is a bound, and so is the temperature here.");
    return parts.join(u' ');
}

HeldValues heldValues(const spec::HeldCurve& curve, const spec::HeldAsk& ask) {
    HeldValues values;
    HeldStrip strength{say("Strength"), u"% vol"_s, 1, 4, {}, {}, true};
    HeldStrip dilution{say("Water added"), say("% of start"), 0, 20, {}, {}, true};
    HeldStrip celsius{say("Temperature"), u"°C"_s, 1, 4, {}, {}, false};
    for (const auto& at : curve.points) {
        values.minutes.push_back(at.minutes);
        strength.values.push_back(at.strengthPercent);
        dilution.values.push_back(100 * at.dilution);
        celsius.values.push_back(at.celsius);
    }
    if (ask.measured) celsius.measured = QPointF(ask.measured->minutes, ask.measured->celsius.celsius());
    values.strips = {std::move(strength), std::move(dilution), std::move(celsius)};
    values.basis = heldBasis(curve, ask);
    return values;
}

HeldPane::HeldPane(QWidget* parent)
    : QWidget(parent),
      m_title(new QLabel(tr("Held"), this)),
      m_in(new QButtonGroup(this)),
      m_close(new QPushButton(tr("Close"), this)),
      m_measured(new QLabel(tr("&Measured"), this)),
      m_measuredC(new NumberEdit(this)),
      m_after(new QLabel(tr("°C &after"), this)),
      m_minutes(new NumberEdit(this)),
      m_afterUnit(new QLabel(tr("min"), this)),
      m_curve(new HeldCurve(this)),
      m_both(new QHBoxLayout),
      m_table(new QTableWidget(static_cast<int>(kTold.size()), 6, this)),
      m_basis(new QLabel(this)) {
    setAccessibleName(tr("Held"));
    setFocusProxy(m_curve);
    m_basis->setWordWrap(true);
    m_close->setProperty("quiet", true);
    m_close->setToolTip(tr("Esc"));
    auto* head = new QHBoxLayout;
    head->addWidget(m_title);
    const std::array<QString, 3> names{tr("with &ice"), tr("without i&ce"), tr("in a &warm room")};
    for (int i = 0; i < 3; ++i) {
        auto* button = new QPushButton(names[static_cast<std::size_t>(i)], this);
        button->setCheckable(true);
        m_in->addButton(button, i);
        head->addWidget(button);
    }
    head->addStretch(1);
    head->addWidget(m_close);
    auto* row = new QHBoxLayout;
    for (QWidget* widget : {static_cast<QWidget*>(m_measured), static_cast<QWidget*>(m_measuredC),
                            static_cast<QWidget*>(m_after), static_cast<QWidget*>(m_minutes),
                            static_cast<QWidget*>(m_afterUnit)})
        row->addWidget(widget);
    row->addStretch(1);
    m_measured->setBuddy(m_measuredC);
    m_after->setBuddy(m_minutes);
    m_measuredC->setAccessibleName(tr("Measured temperature, °C"));
    m_minutes->setAccessibleName(tr("Minutes after serving it was measured"));
    m_measuredC->setBelowZeroAllowed(true);
    m_minutes->setValue(10, 0);
    auto* all = new QVBoxLayout(this);
    all->addLayout(head);
    m_table->setAccessibleName(tr("Held, as a table"));
    m_table->setHorizontalHeaderLabels(
        {tr("min"), tr("% vol"), tr("water %"), QStringLiteral("°C"), QStringLiteral("ml"), tr("g ice")});
    m_table->horizontalHeaderItem(2)->setToolTip(tr("All water added so far, of the volume at the start"));
    m_table->verticalHeader()->hide();
    m_table->verticalHeader()->setMinimumSectionSize(1);
    m_table->horizontalHeader()->setMinimumSectionSize(1);
    m_table->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    m_table->horizontalHeader()->setSectionsClickable(false);
    m_table->horizontalHeader()->setHighlightSections(false);
    m_table->horizontalHeader()->setDefaultAlignment(Qt::AlignRight | Qt::AlignVCenter);
    m_table->setShowGrid(false);
    m_table->setFrameShape(QFrame::NoFrame);
    m_table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_table->setSelectionMode(QAbstractItemView::NoSelection);
    m_table->setTabKeyNavigation(false);
    m_table->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_table->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_both->addWidget(m_curve, 1);
    m_both->addWidget(m_table, 0, Qt::AlignTop);
    all->addLayout(m_both, 1);
    all->addWidget(m_basis);
    all->addLayout(row);
    connect(m_in, &QButtonGroup::idClicked, this, &HeldPane::refresh);
    connect(m_measuredC, &QLineEdit::textChanged, this, &HeldPane::refresh);
    connect(m_minutes, &QLineEdit::textChanged, this, &HeldPane::refresh);
    connect(m_close, &QPushButton::clicked, this, &HeldPane::closed);
    startWith(spec::HeldIn::GlassWithIce);
    dress();
}

void HeldPane::dress() {
    const auto& theme = Theme::current();
    const auto wear = [&](QLabel* label, Type type, Token token) {
        label->setFont(theme.font(type));
        auto ink = label->palette();
        ink.setColor(QPalette::WindowText, theme.color(token));
        label->setPalette(ink);
    };
    wear(m_title, Type::Heading, Token::Ink);
    wear(m_basis, Type::Caption, Token::Ink2);
    for (auto* label : {m_measured, m_after, m_afterUnit})
        wear(label, Type::Control, Token::Ink2);
    m_table->setFont(theme.font(Type::Reading));
    m_table->horizontalHeader()->setFont(theme.font(Type::Caption));
    m_table->horizontalHeader()->setFixedHeight(theme.pxInt(22));
    for (int row = 0; row < m_table->rowCount(); ++row)
        m_table->setRowHeight(row, theme.pxInt(21));
    m_table->setFixedSize(theme.pxInt(266), theme.pxInt(22 + 6 * 21));
    auto page = m_table->palette();
    page.setColor(QPalette::Base, theme.color(Token::Page));
    m_table->setPalette(page);
    m_measuredC->setFixedWidth(theme.pxInt(58));
    m_minutes->setFixedWidth(theme.pxInt(44));
    layout()->setContentsMargins(theme.pxInt(16), theme.pxInt(6), theme.pxInt(8), theme.pxInt(6));
    layout()->setSpacing(theme.pxInt(6));
}

void HeldPane::startWith(spec::HeldIn in, const std::optional<spec::HeldMeasured>& measured) {
    m_in->button(static_cast<int>(in))->setChecked(true);
    m_measuredC->setText(measured ? trimmedNumber(measured->celsius.celsius(), 1) : QString());
    if (measured) m_minutes->setText(trimmedNumber(measured->minutes, 0));
}

void HeldPane::setFollow(const Follow& follow) {
    m_follow = follow;
    refresh();
}

QPushButton& HeldPane::choice(spec::HeldIn in) const {
    return *static_cast<QPushButton*>(m_in->button(static_cast<int>(in)));
}

QString HeldPane::basis() const {
    return m_basis->text();
}

spec::HeldAsk HeldPane::ask() const {
    spec::HeldAsk ask;
    ask.in = static_cast<spec::HeldIn>(m_in->checkedId());
    const auto celsius = m_measuredC->value();
    const auto minutes = m_minutes->value();
    if (celsius && minutes && *minutes > 0)
        ask.measured = spec::HeldMeasured{*minutes, quantity::Temperature::fromCelsius(*celsius)};
    return ask;
}

void HeldPane::refresh() {
    if (!m_follow) return;
    auto asked = ask();
    auto curve = m_follow(asked);
    QString problem;
    if (m_measuredC->isUnreadable() || m_minutes->isUnreadable()) {
        problem = tr("That is no number; the curve stands without it. ");
    } else if (!curve && asked.measured) {
        problem = tr("No heat from this room brings the drink to %1 °C after %2 minutes; the curve stands "
                     "without it. ")
                      .arg(number(asked.measured->celsius.celsius(), 1), number(asked.measured->minutes, 0));
        asked.measured.reset();
        curve = m_follow(asked);
    }
    HeldValues values;
    if (curve)
        values = heldValues(*curve, asked);
    else
        values.basis = tr("Its served temperature or its volume is not known, so it cannot be followed over "
                          "time. State the amounts and a method.");
    m_curve->setVisible(curve.has_value());
    m_table->setVisible(curve.has_value());
    if (curve) fillTable(*curve);
    values.basis.prepend(problem);
    m_curve->setValues(values);
    m_basis->setText(values.basis);
}

void HeldPane::setNarrow(bool narrow) {
    m_both->setDirection(narrow ? QBoxLayout::TopToBottom : QBoxLayout::LeftToRight);
}

void HeldPane::fillTable(const spec::HeldCurve& curve) {
    const auto put = [this](int row, int column, const QString& text) {
        auto* item = m_table->item(row, column);
        if (item == nullptr) {
            item = new QTableWidgetItem;
            item->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
            m_table->setItem(row, column, item);
        }
        item->setText(text);
    };
    for (std::size_t i = 0; i < kTold.size(); ++i) {
        const auto at =
            std::find_if(curve.points.begin(), curve.points.end(), [&](const spec::HeldReading& point) {
                return std::abs(point.minutes - kTold[i]) < 0.25;
            });
        if (at == curve.points.end()) continue;
        const int row = static_cast<int>(i);
        put(row, 0, number(at->minutes, 0));
        put(row, 1, number(at->strengthPercent, 1));
        put(row, 2, number(100 * at->dilution, 0));
        put(row, 3, number(at->celsius, 1));
        put(row, 4, number(at->volumeMl, 0));
        put(row, 5, curve.iceAtStartG > 0 ? number(at->iceG, 0) : QString(kEmDash));
    }
}

void HeldPane::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

} // namespace stillroom::ui
