#include "ui/panels/blind/session_view.h"

#include "core/tasting/panel_words.h"
#include "core/tasting/phrases.h"
#include "core/tasting/sheet_words.h"
#include "ui/panels/blind/answer_model.h"
#include "ui/panels/blind/answer_table.h"
#include "ui/panels/blind/blind_parts.h"
#include "ui/panels/blind/result_values.h"
#include "ui/plots/chance_plot.h"
#include "ui/text/border.h"
#include "ui/text/words.h"
#include "ui/theme/banner.h"
#include "ui/theme/theme.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using tasting::MarkSort;
using tasting::PanelState;

namespace {

QString keysOf(const tasting::Panel& panel) {
    const std::size_t cups = panel.servings.front().cups.size();
    const auto asked = tasting::askedMark(panel.design.kind, cups);
    const QString on = QObject::tr("Backspace takes a mark back, Enter goes to the next taster.");
    if (asked.sort == MarkSort::Chosen)
        return cups == 2 ? QObject::tr("1 or 2 chooses a cup by its place. ") + on
                         : QObject::tr("1, 2 or 3 chooses a cup by its place. ") + on;
    return QObject::tr("Type each mark, %1 to %2; it goes on to the next cup. ")
               .arg(asked.low)
               .arg(asked.high) +
           on;
}

// Never by product: what is in any of the drinks, and what everyone has to be told.
BannerText beforeAnyoneDrinks(const BlindSession& session) {
    QStringList cautions;
    for (const auto& caution : session.names.cautions)
        cautions << fromCore(caution);
    return {QObject::tr("Before anyone drinks."), cautions.join(u" "_s), {}};
}

} // namespace

SessionView::SessionView(BlindDesk& desk, const BlindSession& session, QWidget* parent)
    : QWidget(parent),
      m_desk(desk),
      m_session(session),
      m_name(new QLineEdit(fromCore(session.summary.name))),
      m_about(paragraph(QString(), Type::Control, Token::Ink2)) {
    const auto& theme = Theme::current();
    setAccessibleName(fromCore(session.summary.name));
    m_name->setFont(theme.font(Type::Title));
    m_name->setAccessibleName(tr("Name of the session"));
    m_name->setFrame(false);
    m_name->setMinimumWidth(theme.pxInt(60));
    m_name->setReadOnly(!desk.isWritable());
    m_name->setCursorPosition(0);
    connect(m_name, &QLineEdit::editingFinished, this, [this] {
        if (m_name->isModified()) Q_EMIT renamed(m_name->text());
        m_name->setModified(false);
    });
    auto* column = blindColumn(this, 10);
    column->addWidget(m_name);
    m_about->setText(about());
    column->addWidget(m_about);
    switch (session.panel.state) {
    case PanelState::Designed:
        makePlanned(*column);
        break;
    case PanelState::Pouring:
        makePouring(*column);
        break;
    case PanelState::Closed:
        makeClosed(*column);
        break;
    }
}

QString SessionView::about() const {
    const auto& summary = m_session.summary;
    QString kind = fromCore(tasting::kindName(summary.kind));
    if (!summary.attribute.empty()) kind += tr(", %1").arg(fromCore(summary.attribute));
    const QString level = tr("tested at %1").arg(fromCore(tasting::percent(m_session.panel.design.alpha)));
    QStringList parts{kind, stateWords(summary), level, tr("dealt %1").arg(m_desk.whenText(summary.created))};
    if (summary.closed) parts << tr("codes opened %1").arg(m_desk.whenText(*summary.closed));
    return parts.join(u" · "_s);
}

void SessionView::setSummary(const store::PanelSummary& summary) {
    m_session.summary = summary;
    m_about->setText(about());
}

QPushButton* SessionView::add(QHBoxLayout& row, BlindAct act, const QString& text, bool primary) {
    auto* button = blindButton(text, primary);
    connect(button, &QPushButton::clicked, this, [this, act] { Q_EMIT asked(act); });
    row.addWidget(button);
    m_buttons.emplace_back(act, button);
    return button;
}

QPushButton* SessionView::button(BlindAct act) const {
    for (const auto& [which, button] : m_buttons)
        if (which == act) return button;
    return nullptr;
}

QWidget* SessionView::first() const {
    if (m_session.panel.state == PanelState::Pouring) return m_answers;
    return m_buttons.empty() ? nullptr : m_buttons.front().second;
}

void SessionView::addActs(QVBoxLayout& column) {
    const auto& theme = Theme::current();
    const bool writable = m_desk.isWritable() && !m_session.summary.binned;
    auto* row = new QHBoxLayout;
    row->setSpacing(theme.pxInt(8));
    if (m_session.panel.state == PanelState::Designed)
        add(*row, BlindAct::Start, tr("Start &pouring"), true)->setEnabled(writable);
    if (m_session.panel.state == PanelState::Pouring)
        add(*row, BlindAct::Close, tr("&Open the codes…"), true)->setEnabled(writable);
    if (m_session.panel.state == PanelState::Closed) {
        add(*row, BlindAct::CopyResult, tr("&Copy as text"), true);
        add(*row, BlindAct::PrintResult, tr("&Print…"));
    } else {
        add(*row, BlindAct::Sheets, tr("&Sheets…"));
        add(*row, BlindAct::Key, tr("Pourer’s &key…"));
    }
    add(*row, BlindAct::Bin, m_session.summary.binned ? tr("T&ake it back") : tr("B&in"))
        ->setEnabled(m_desk.isWritable());
    row->addStretch(1);
    column.addLayout(row);
}

// Before a cup is poured: what is compared, who comes, what it can show, and how to pour.
void SessionView::makePlanned(QVBoxLayout& column) {
    const auto& theme = Theme::current();
    addActs(column);
    const auto& panel = m_session.panel;
    auto* left = new QVBoxLayout;
    auto* right = new QVBoxLayout;
    const auto group = [&](QVBoxLayout& side, const QString& heading, const QStringList& lines, Type type) {
        side.addWidget(paragraph(heading, Type::Heading, Token::Ink));
        for (const auto& line : lines)
            side.addWidget(paragraph(line, type, Token::Ink));
        side.addSpacing(theme.pxInt(12));
    };
    QStringList cups;
    const auto each = tasting::cupsOfEach(panel);
    for (std::size_t i = 0; i < each.size(); ++i)
        cups << tr("%1 of %2")
                    .arg(counted(each[i], tr("cup"), tr("cups")), fromCore(m_session.names.products[i]));
    QStringList names;
    for (const auto& name : m_session.names.tasters)
        names << fromCore(name);
    QStringList shows;
    tasting::PanelWish wish;
    wish.kind = panel.design.kind;
    wish.tasters = static_cast<int>(panel.design.tasters.size());
    wish.products = static_cast<int>(panel.design.products.size());
    wish.foretold = !panel.design.foretold.empty();
    wish.alpha = panel.design.alpha;
    wish.share = panel.design.share;
    if (const auto plan = tasting::planPanel(wish))
        for (const auto& sentence : tasting::inWords(*plan))
            shows << fromCore(sentence);
    group(*left, tr("To pour"), cups, Type::Line);
    group(*left, tr("What this can show"), shows, Type::Reading);
    group(*left, tr("Who tastes"), {names.join(u", "_s)}, Type::Line);
    const auto advice = tasting::pouringAdvice(panel);
    QStringList pour;
    for (std::size_t i = 0; i + 1 < advice.size(); ++i)
        pour << fromCore(advice[i]);
    group(*right, tr("How to pour"), pour, Type::Reading);
    auto* caution = new Banner;
    caution->show(BannerKind::Caution, beforeAnyoneDrinks(m_session));
    right->addWidget(caution);
    for (auto* side : {left, right}) {
        side->setSpacing(theme.pxInt(4));
        side->addStretch(1);
    }
    m_halves = new QBoxLayout(QBoxLayout::LeftToRight);
    m_halves->setSpacing(theme.pxInt(28));
    m_halves->addLayout(left, 1);
    m_halves->addLayout(right, 1);
    column.addSpacing(theme.pxInt(6));
    column.addLayout(m_halves);
    column.addStretch(1);
}

void SessionView::makePouring(QVBoxLayout& column) {
    const auto& panel = m_session.panel;
    addActs(column);
    const auto sheet = tasting::tasterSheet(panel, panel.design.tasters.front());
    if (sheet) {
        QString question = fromCore(tasting::inWords(*sheet).question);
        if (sheet->hasReference) question = tr("R, the uncoded cup, is tasted first. ") + question;
        column.addWidget(paragraph(question, Type::Body, Token::Ink));
    }
    column.addWidget(paragraph(keysOf(panel), Type::Caption, Token::Ink2));
    addAnswers(column, false);
    auto* caution = new Banner;
    caution->show(BannerKind::Caution, beforeAnyoneDrinks(m_session));
    column.addWidget(caution);
}

void SessionView::addAnswers(QVBoxLayout& column, bool opened) {
    m_model = new AnswerModel(this);
    m_model->setPanel(m_session.panel, m_session.names);
    m_model->setWritable(!opened && m_desk.isWritable() && !m_session.summary.binned);
    if (opened) m_model->setOpened(m_session.samples);
    m_answers = new AnswerTable(*m_model);
    m_answers->setWhole(opened);
    m_answers->setMinimumHeight(Theme::current().pxInt(opened ? 40 : 150));
    column.addWidget(m_answers, opened ? 0 : 1);
    connect(m_model, &AnswerModel::answered, this, [this](std::size_t taster, const tasting::Answer& answer) {
        if (!m_desk.answer(id(), m_session.panel.design.tasters[taster], answer)) {
            Q_EMIT said(tr("That answer is not in the book. Type it again."));
            return;
        }
        m_session.panel.answers[taster] = answer;
        m_model->setAnswer(taster, answer);
        Q_EMIT answered(taster, answer);
    });
    connect(m_answers, &AnswerTable::refused, this, &SessionView::said);
}

void SessionView::makeClosed(QVBoxLayout& column) {
    const auto& theme = Theme::current();
    const auto result = tasting::result(m_session.panel);
    if (!result) return;
    const auto& products = m_session.names.products;
    QStringList poured;
    for (const auto& product : products)
        poured << fromCore(product);
    column.addWidget(paragraph(tr("Poured: %1").arg(poured.join(u", "_s)), Type::Control, Token::Ink2));
    addActs(column);
    auto* headline = paragraph(fromCore(tasting::headline(*result, products)), Type::Title, Token::Ink);
    headline->setObjectName(u"verdict"_s);
    headline->setContentsMargins(0, theme.pxInt(8), 0, 0);
    column.addWidget(headline);
    for (const auto& sentence : tasting::inWords(*result, products))
        column.addWidget(paragraph(fromCore(sentence), Type::Reading, Token::Ink));
    if (const QString differs = m_desk.whatDiffers(m_session.panel.design.products); !differs.isEmpty())
        column.addWidget(paragraph(differs, Type::Reading, Token::Ink));
    addDrawing(column, *result);
    column.addSpacing(theme.pxInt(6));
    column.addWidget(paragraph(tr("Answers, and what was in the cups"), Type::Heading, Token::Ink));
    addAnswers(column, true);
    column.addStretch(1);
}

void SessionView::addDrawing(QVBoxLayout& column, const tasting::PanelResult& result) {
    if (const auto values = chanceValues(result, m_session.names)) {
        auto* plot = new ChancePlot;
        plot->setValues(*values);
        column.addWidget(plot);
    }
    if (const auto values = productScaleValues(result, m_session.names)) {
        auto* plot = new ProductScalePlot;
        plot->setValues(*values);
        column.addWidget(plot);
    }
}

void SessionView::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    if (m_halves != nullptr)
        m_halves->setDirection(width() < Theme::current().px(620) ? QBoxLayout::TopToBottom
                                                                  : QBoxLayout::LeftToRight);
}

void SessionView::keyPressEvent(QKeyEvent* event) {
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (enter && m_name->hasFocus()) {
        if (auto* next = first()) next->setFocus(Qt::TabFocusReason);
    } else {
        QWidget::keyPressEvent(event);
    }
}

} // namespace stillroom::ui
