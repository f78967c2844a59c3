#include "ui/panels/side_by_side/side_by_side_page.h"

#include "ui/panels/drawing_values.h"
#include "ui/panels/side_by_side/side_view.h"
#include "ui/plots/balance_map.h"
#include "ui/plots/plot_text.h"
#include "ui/text/border.h"
#include "ui/theme/banner.h"
#include "ui/theme/theme.h"

#include <QCheckBox>
#include <QClipboard>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include <array>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

QScrollArea* pageScroll(QWidget* inside) {
    auto* scroll = new QScrollArea;
    scroll->setWidget(inside);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->viewport()->setBackgroundRole(QPalette::Base);
    scroll->viewport()->setAutoFillBackground(true);
    inside->setBackgroundRole(QPalette::Base);
    return scroll;
}

QLabel* paragraph(const QString& text, Type type, Token token) {
    auto* label = new QLabel(text);
    label->setWordWrap(true);
    label->setFont(Theme::current().font(type));
    auto palette = label->palette();
    palette.setColor(QPalette::WindowText, Theme::current().color(token));
    label->setPalette(palette);
    return label;
}

// Every column is a point; the newest is the drink as it stands.
BalanceValues mapOf(const SideBySideValues& values) {
    static constexpr std::array<PointMark, 3> marks = {PointMark::Square, PointMark::Diamond,
                                                       PointMark::Triangle};
    BalanceValues map;
    if (values.columns.empty()) return map;
    const auto& newest = values.columns.back();
    map = balanceValues(newest.label, newest.spec, newest.readings, {});
    map.sentence.clear(); // the findings below speak for all columns
    for (std::size_t i = 0; i + 1 < values.columns.size(); ++i) {
        auto point = mapPoint(values.columns[i].label, values.columns[i].readings);
        point.mark = marks[i % marks.size()];
        map.earlier.push_back(point);
    }
    return map;
}

} // namespace

SideBySidePage::SideBySidePage(QWidget* parent) : QWidget(parent) {
    setAccessibleName(u"Side by side"_s);
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::Base);
    m_title = new QLabel;
    m_about = new QLabel;
    m_only = new QCheckBox(u"Only &differences   D"_s);
    m_copy = new QPushButton(u"&Copy as table"_s);
    m_view = new SideView;
    m_map = new BalanceMap;
    m_findings = new QWidget;
    m_findingsLayout = new QVBoxLayout(m_findings);
    m_findingsLayout->setContentsMargins(0, 0, 0, 0);

    m_head = new QHBoxLayout;
    // However long a name is, the page stays as narrow as its window.
    m_title->setMinimumWidth(1);
    m_head->addWidget(m_title, 0, Qt::AlignBaseline);
    m_head->addWidget(m_about, 1, Qt::AlignBaseline);
    m_head->addWidget(m_only, 0, Qt::AlignVCenter);
    m_head->addWidget(m_copy, 0, Qt::AlignVCenter);

    auto* side = new QWidget;
    auto* sideLayout = new QVBoxLayout(side);
    m_side = sideLayout;
    sideLayout->addWidget(m_map, 1);
    sideLayout->addWidget(m_findings);
    sideLayout->addStretch(0);

    auto* inside = new QWidget;
    m_body = new QBoxLayout(QBoxLayout::LeftToRight, inside);
    m_body->setContentsMargins(0, 0, 0, 0);
    m_body->setSpacing(0);
    m_body->addWidget(m_view, 7, Qt::AlignTop);
    m_body->addWidget(side, 3, Qt::AlignTop);

    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->setSpacing(0);
    auto* rule = new QFrame;
    rule->setFrameShape(QFrame::NoFrame);
    rule->setFixedHeight(1);
    rule->setAutoFillBackground(true);
    rule->setBackgroundRole(QPalette::Mid);
    whole->addLayout(m_head);
    whole->addWidget(rule);
    whole->addWidget(pageScroll(inside), 1);

    connect(m_only, &QCheckBox::toggled, m_view, &SideView::setOnlyDifferences);
    connect(m_copy, &QPushButton::clicked, this, [this] { copy(); });
    connect(m_view, &SideView::baseMoved, this, [this] { showFindings(); });
    connect(&Theme::current(), &Theme::changed, this, [this] { dress(); });
    dress();
}

void SideBySidePage::setValues(const SideBySideValues& values) {
    m_values = values;
    m_title->setToolTip(values.drink);
    m_title->setAccessibleName(values.drink);
    static const QStringList counts{u"nothing"_s, u"one"_s, u"two"_s, u"three"_s, u"four"_s};
    m_about->setText(u"%1 side by side"_s.arg(
        counts.value(static_cast<qsizetype>(values.columns.size()), QString::number(values.columns.size()))));
    m_view->setValues(values);
    m_map->setValues(mapOf(values));
    showFindings();
    place();
    m_view->setFocus(Qt::OtherFocusReason);
}

void SideBySidePage::showFindings() {
    while (auto* item = m_findingsLayout->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    const auto& table = m_view->table();
    for (const auto& finding : table.findings) {
        if (finding.warning) {
            auto* banner = new Banner;
            m_findingsLayout->addWidget(banner);
            banner->show(BannerKind::Caution, {finding.fact, finding.consequence, {}});
        } else {
            const QString text = finding.fact + u' ' + finding.consequence;
            m_findingsLayout->addWidget(paragraph(text, Type::Body, Token::Ink));
        }
    }
    m_findingsLayout->addSpacing(Theme::current().pxInt(6));
    m_findingsLayout->addWidget(paragraph(u"Allergens"_s, Type::Heading, Token::Ink));
    for (const auto& sentence : table.allergens)
        m_findingsLayout->addWidget(paragraph(sentence, Type::Control, Token::Ink2));
}

void SideBySidePage::copy() {
    QGuiApplication::clipboard()->setText(m_view->tableText());
}

void SideBySidePage::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_D && !(event->modifiers() & ~Qt::ShiftModifier))
        m_only->toggle();
    else if (event->key() == Qt::Key_Escape)
        Q_EMIT closed();
    else
        QWidget::keyPressEvent(event);
}

// Below this the map and what it comes to stand under the columns.
void SideBySidePage::place() {
    const auto& theme = Theme::current();
    const bool narrow = width() < theme.px(1060) || m_values.columns.size() > 3;
    m_body->setDirection(narrow ? QBoxLayout::TopToBottom : QBoxLayout::LeftToRight);
    m_map->setMinimumHeight(theme.pxInt(330));
    m_head->setSpacing(theme.pxInt(14));
    m_head->setContentsMargins(theme.pxInt(16), theme.pxInt(8), theme.pxInt(16), theme.pxInt(8));
    m_side->setContentsMargins(theme.pxInt(16), theme.pxInt(14), theme.pxInt(16), theme.pxInt(16));
    m_side->setSpacing(theme.pxInt(10));
    m_title->setText(elided(m_values.drink, Type::Title, theme.look(), width() * 0.45));
}

void SideBySidePage::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    place();
}

void SideBySidePage::dress() {
    const auto& theme = Theme::current();
    const auto ink = [&](QLabel* label, Type type, Token token) {
        label->setFont(theme.font(type));
        auto palette = label->palette();
        palette.setColor(QPalette::WindowText, theme.color(token));
        label->setPalette(palette);
    };
    ink(m_title, Type::Title, Token::Ink);
    ink(m_about, Type::Control, Token::Ink2);
    if (!m_values.columns.empty()) showFindings();
    place();
}

} // namespace stillroom::ui
