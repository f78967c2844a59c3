#include "ui/panels/sheet_panel.h"

#include "ui/panels/preparation/step_pane.h"
#include "ui/panels/question_strip.h"
#include "ui/panels/sheet_head.h"
#include "ui/panels/spec_fields.h"
#include "ui/panels/spec_total.h"
#include "ui/theme/theme.h"
#include "ui/widgets/cell_edit.h"
#include "ui/widgets/prose_edit.h"
#include "ui/widgets/spec_table.h"
#include "ui/widgets/written_field.h"

#include <QEvent>
#include <QVBoxLayout>

namespace stillroom::ui {

SheetPanel::SheetPanel(const Actions& actions, QWidget* parent) : QScrollArea(parent) {
    setAccessibleName(tr("Sheet"));
    setWidgetResizable(true);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFocusPolicy(Qt::NoFocus);
    auto* page = new QWidget(this);
    m_head = new SheetHead(actions, page);
    m_table = new SpecTable(page);
    m_question = new QuestionStrip(page);
    m_total = new SpecTotal(*m_table, page);
    m_steps = new StepPane(page);
    m_fields = new SpecFields(page);
    m_notices = new Notices(page);
    auto* layout = new QVBoxLayout(page);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    for (auto* part :
         std::initializer_list<QWidget*>{m_head, m_table, m_question, m_total, m_steps, m_fields, m_notices})
        layout->addWidget(part);
    m_head->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    layout->addStretch(1);
    setWidget(page);
    dress();

    auto& lines = m_table->lines();
    connect(&lines, &SpecModel::totalChanged, this, [this] { m_total->show(m_table->lines().total()); });
    connect(m_head, &SheetHead::leaveDown, this, [this] { m_table->editCell(0, SpecModel::Amount); });
    connect(&m_table->cells(), &SpecDelegate::typing, this, &SheetPanel::said);
    connect(&m_table->cells(), &SpecDelegate::notALine, this, [this](const QString& text) {
        Q_EMIT said(tr("“%1” names nothing that can be poured. Write it as an amount and a name.").arg(text));
    });
    connect(&m_table->cells(), &SpecDelegate::entryAsks, this, [this](int row, const LineEntry& entry) {
        m_question->ask(row, entry, m_session->book().larder());
    });
    connect(m_question, &QuestionStrip::answered, this,
            [this](int row, const std::vector<spec::Line>& answer) {
                m_table->lines().insertAnswered(row, answer);
                m_table->editLastRow();
            });
    connect(m_question, &QuestionStrip::withdrawn, this,
            [this](int, const QString& text) { m_table->editLastRow(text); });
    connect(m_notices, &Notices::actTriggered, this, &SheetPanel::noticeAct);
    connect(m_steps, &StepPane::said, this, &SheetPanel::said);
    connect(m_table, &SpecTable::currentLineChanged, this,
            [this] { m_steps->setLine(m_table->currentLine()); });
}

void SheetPanel::dress() {
    QPalette colors = palette();
    colors.setColor(QPalette::Window, Theme::current().color(Token::Page));
    colors.setColor(QPalette::Base, Theme::current().color(Token::Page));
    setPalette(colors);
    viewport()->setAutoFillBackground(true);
}

void SheetPanel::setSession(DraftSession* session) {
    if (m_session) m_session->disconnect(this);
    m_question->hide();
    m_session = session;
    m_revisionShown = false;
    m_head->setSession(session);
    m_table->lines().setSession(session);
    m_steps->setSession(session);
    m_fields->setSession(session);
    if (m_session) {
        connect(m_session, &DraftSession::changed, this, &SheetPanel::refresh);
        refresh();
    }
}

void SheetPanel::showRevision(const history::Revision* revision, const larder::Larder* larder) {
    m_question->hide();
    m_revisionShown = revision != nullptr;
    m_head->showRevision(revision);
    m_fields->showRevision(revision);
    if (revision == nullptr || larder == nullptr) {
        m_table->lines().setSession(m_session);
        m_steps->showFixed(nullptr);
        refresh();
        return;
    }
    const auto reading =
        readingOf(*revision, *larder, m_session->book().settings().rules, m_session->drink());
    m_table->lines().showFixed(reading);
    m_steps->showFixed(&reading.now);
    m_notices->show(reading.now);
}

void SheetPanel::refresh() {
    if (m_session && !m_revisionShown) m_notices->show(m_session->now());
}

void SheetPanel::nextDoubt() {
    if (m_question->isAsking()) {
        m_question->setFocus(Qt::ShortcutFocusReason);
        return;
    }
    const int row = m_table->nextGapRow(m_table->currentIndex().row());
    if (row >= 0) {
        m_table->setCurrentIndex(m_table->lines().index(row, SpecModel::Name));
        m_table->setFocus(Qt::ShortcutFocusReason);
        ensureVisible(0, m_table->y() + m_table->rowViewportPosition(row));
        return;
    }
    Q_EMIT said(tr("Nothing is missing on this page."));
}

void SheetPanel::resizeEvent(QResizeEvent* event) {
    // Narrower than two fields of a step side by side with their words.
    m_steps->setNarrow(viewport()->width() < Theme::current().pxInt(470));
    QScrollArea::resizeEvent(event);
}

void SheetPanel::changeEvent(QEvent* event) {
    QScrollArea::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

} // namespace stillroom::ui
