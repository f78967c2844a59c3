#include "ui/panels/side_by_side/side_by_side_page.h"

#include "ui/panels/drawing_values.h"
#include "ui/panels/side_by_side/side_view.h"
#include "ui/plots/balance_map.h"
#include "ui/plots/plot_text.h"
#include "ui/text/border.h"
#include "ui/text/words.h"
#include "ui/theme/banner.h"
#include "ui/theme/theme.h"
#include "ui/widgets/choice_tabs.h"

#include <QCheckBox>
#include <QClipboard>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QMimeData>
#include <QPushButton>
#include <QScrollArea>
#include <QSignalBlocker>
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

SideBySidePage::SideBySidePage(QWidget* parent)
    : QWidget(parent),
      m_title(new QLabel),
      m_about(new QLabel),
      m_only(new QCheckBox(u"Only di&fferences   D"_s)),
      m_add(new QPushButton(u"&Add a column"_s)),
      m_copy(new QPushButton(u"&Copy as table"_s)),
      m_copyText(new QPushButton(u"Copy as te&xt"_s)),
      m_print(new QPushButton(u"&Print…"_s)),
      m_branch(new QPushButton),
      m_stages(new ChoiceTabs(u"Stage"_s, {stageName(spec::Stage::Measured), stageName(spec::Stage::Mixed),
                                           stageName(spec::Stage::Served), u"every stage"_s})),
      m_per(new ChoiceTabs(u"Stated for"_s, {perWord(history::Per::Serve), perWord(history::Per::HundredMl),
                                             perWord(history::Per::StandardDrink)})),
      m_view(new SideView),
      m_map(new BalanceMap),
      m_findings(new QWidget) {
    setAccessibleName(u"Side by side"_s);
    setProperty("keyHints",
                QStringList{u"← →"_s, u"move the base"_s, u"1–4"_s, u"stage"_s, u"P"_s, u"stated for"_s,
                            u"+"_s, u"add"_s, u"Del"_s, u"take the base away"_s});
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::Base);
    m_findingsLayout = new QVBoxLayout(m_findings);
    m_findingsLayout->setContentsMargins(0, 0, 0, 0);
    m_branch->setProperty("act", true);
    m_stages->setCurrentIndex(static_cast<int>(spec::Stage::Served));

    m_head = new QHBoxLayout;
    // However long a name is, the page stays as narrow as its window.
    m_title->setMinimumWidth(1);
    m_head->addWidget(m_title, 0, Qt::AlignBaseline);
    m_head->addWidget(m_about, 0, Qt::AlignBaseline);
    m_head->addStretch(1);
    for (auto* button : {m_add, m_copy, m_copyText, m_print, m_branch})
        m_head->addWidget(button, 0, Qt::AlignVCenter);
    m_choices = new QHBoxLayout;
    m_choices->addWidget(m_stages);
    m_choices->addWidget(m_per);
    m_choices->addStretch(1);
    m_choices->addWidget(m_only, 0, Qt::AlignVCenter);

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
    whole->addLayout(m_choices);
    whole->addWidget(rule);
    whole->addWidget(pageScroll(inside), 1);

    connect(m_only, &QCheckBox::toggled, m_view, &SideView::setOnlyDifferences);
    connect(m_add, &QPushButton::clicked, this, &SideBySidePage::addAsked);
    connect(m_copy, &QPushButton::clicked, this, [this] { copyTable(); });
    connect(m_copyText, &QPushButton::clicked, this, [this] { copyText(); });
    connect(m_print, &QPushButton::clicked, this, &SideBySidePage::printAsked);
    connect(m_branch, &QPushButton::clicked, this, [this] {
        if (const auto from = branchable()) Q_EMIT branchAsked(*from);
    });
    connect(m_stages, &QTabBar::currentChanged, this, [this] { readAnew(); });
    connect(m_per, &QTabBar::currentChanged, this, [this] { readAnew(); });
    connect(m_view, &SideView::baseMoved, this, [this] {
        showFindings();
        showBranch();
    });
    connect(&Theme::current(), &Theme::changed, this, [this] { dress(); });
    dress();
}

void SideBySidePage::setReadOnly(bool readOnly) {
    m_readOnly = readOnly;
    showBranch();
}

// The base, when it is a kept revision of the page's own drink.
std::optional<base::RevisionId> SideBySidePage::branchable() const {
    const auto& values = m_view->values();
    if (m_readOnly || values.base >= values.columns.size()) return std::nullopt;
    const auto& base = values.columns[values.base];
    return base.drink.isEmpty() ? base.ref.revision : std::nullopt;
}

void SideBySidePage::showBranch() {
    const auto& values = m_view->values();
    m_branch->setVisible(branchable().has_value());
    if (branchable())
        m_branch->setText(u"Bra&nch from %1"_s.arg(values.columns[values.base].label.section(u' ', 0, 0)));
}

void SideBySidePage::readAnew() {
    const int stage = m_stages->currentIndex();
    const auto of = stage < static_cast<int>(spec::kStageCount)
                        ? std::optional(static_cast<spec::Stage>(stage))
                        : std::nullopt;
    m_view->setReading(static_cast<history::Per>(m_per->currentIndex()), of);
}

void SideBySidePage::setValues(const SideBySideValues& values) {
    m_values = values;
    m_title->setToolTip(values.drink);
    m_title->setAccessibleName(values.drink);
    static const QStringList counts{u"nothing"_s, u"one"_s, u"two"_s, u"three"_s, u"four"_s};
    m_about->setText(u"%1 side by side"_s.arg(
        counts.value(static_cast<qsizetype>(values.columns.size()), QString::number(values.columns.size()))));
    {
        const QSignalBlocker stages(m_stages);
        const QSignalBlocker per(m_per);
        m_stages->setCurrentIndex(values.stage ? static_cast<int>(*values.stage)
                                               : static_cast<int>(spec::kStageCount));
        m_per->setCurrentIndex(static_cast<int>(values.per));
    }
    m_add->setEnabled(values.columns.size() < kMostSideColumns);
    m_view->setValues(values);
    showBranch();
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
    if (table.cautions.isEmpty()) return;
    m_findingsLayout->addSpacing(Theme::current().pxInt(6));
    m_findingsLayout->addWidget(paragraph(u"Cautions gained or lost"_s, Type::Heading, Token::Ink));
    for (const auto& sentence : table.cautions)
        m_findingsLayout->addWidget(paragraph(sentence, Type::Control, Token::Ink2));
}

namespace {

std::vector<std::vector<std::string>> coreRows(const QList<QStringList>& rows) {
    std::vector<std::vector<std::string>> all;
    for (const auto& row : rows) {
        all.emplace_back();
        for (const auto& cell : row)
            all.back().push_back(toCore(cell));
    }
    return all;
}

QString asHtml(const QList<QStringList>& rows) {
    QString html = u"<table>"_s;
    for (qsizetype row = 0; row < rows.size(); ++row) {
        html += u"<tr>"_s;
        for (const auto& cell : rows[row])
            html += (row == 0 ? u"<th>%1</th>"_s : u"<td>%1</td>"_s).arg(cell.toHtmlEscaped());
        html += u"</tr>"_s;
    }
    return html + u"</table>"_s;
}

} // namespace

void SideBySidePage::copyTable() {
    const auto rows = m_view->rows();
    auto* copied = new QMimeData;
    copied->setText(fromCore(history::asTabbed(coreRows(rows))));
    copied->setHtml(asHtml(rows));
    QGuiApplication::clipboard()->setMimeData(copied);
    Q_EMIT said(u"Copied, %1 rows."_s.arg(rows.size()));
}

void SideBySidePage::copyText() {
    const auto rows = m_view->rows();
    QGuiApplication::clipboard()->setText(fromCore(history::asMarkdown(coreRows(rows))));
    Q_EMIT said(u"Copied as text, %1 rows."_s.arg(rows.size()));
}

void SideBySidePage::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_B && event->modifiers() == Qt::ControlModifier) {
        if (const auto from = branchable()) Q_EMIT branchAsked(*from);
        return;
    }
    if (event->modifiers() & ~(Qt::ShiftModifier | Qt::KeypadModifier)) {
        QWidget::keyPressEvent(event);
        return;
    }
    switch (event->key()) {
    case Qt::Key_D:
        m_only->toggle();
        return;
    case Qt::Key_P:
        m_per->setCurrentIndex((m_per->currentIndex() + 1) % m_per->count());
        return;
    case Qt::Key_1:
    case Qt::Key_2:
    case Qt::Key_3:
    case Qt::Key_4:
        m_stages->setCurrentIndex(event->key() - Qt::Key_1);
        return;
    case Qt::Key_Plus:
    case Qt::Key_Insert:
        if (m_add->isEnabled()) Q_EMIT addAsked();
        return;
    case Qt::Key_Delete:
        Q_EMIT removeAsked(m_view->values().base);
        return;
    case Qt::Key_Escape:
        Q_EMIT closed();
        return;
    default:
        QWidget::keyPressEvent(event);
    }
}

// Below this the map and what it comes to stand under the columns.
void SideBySidePage::place() {
    const auto& theme = Theme::current();
    const bool narrow = width() < theme.px(1060) || m_values.columns.size() > 3;
    m_body->setDirection(narrow ? QBoxLayout::TopToBottom : QBoxLayout::LeftToRight);
    m_map->setMinimumHeight(theme.pxInt(330));
    m_head->setSpacing(theme.pxInt(10));
    m_head->setContentsMargins(theme.pxInt(16), theme.pxInt(8), theme.pxInt(16), theme.pxInt(4));
    m_choices->setSpacing(theme.pxInt(14));
    m_choices->setContentsMargins(theme.pxInt(7), 0, theme.pxInt(16), theme.pxInt(4));
    m_about->setVisible(width() >= theme.px(1200));
    m_side->setContentsMargins(theme.pxInt(16), theme.pxInt(14), theme.pxInt(16), theme.pxInt(16));
    m_side->setSpacing(theme.pxInt(10));
    m_title->setText(
        elided(m_values.drink, Type::Title, theme.look(), width() * (width() < theme.px(1200) ? 0.28 : 0.4)));
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
