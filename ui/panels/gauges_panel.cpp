#include "ui/panels/gauges_panel.h"

#include "ui/panels/drawing_values.h"
#include "ui/plots/balance_map.h"
#include "ui/plots/glass_drawing.h"
#include "ui/plots/stage_columns.h"
#include "ui/session/drink_history.h"
#include "ui/theme/theme.h"
#include "ui/widgets/readings_table.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QVBoxLayout>

namespace stillroom::ui {

GaugesPanel::GaugesPanel(const DrinkHistory& history, QWidget* parent)
    : QScrollArea(parent),
      m_history(history),
      m_drawings(new QHBoxLayout) {
    setAccessibleName(tr("Readings"));
    setWidgetResizable(true);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFocusPolicy(Qt::NoFocus);
    auto* page = new QWidget(this);
    m_columns = new StageColumns(page);
    m_table = new ReadingsTable(page);
    m_glass = new GlassDrawing(page);
    m_map = new BalanceMap(page);
    auto* layout = new QVBoxLayout(page);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(m_columns);
    layout->addWidget(m_table);
    // The drawings take what is left up to their greatest height; more than that stays empty below them.
    layout->addLayout(m_drawings, 1000);
    layout->addStretch(1);
    m_drawings->addWidget(m_glass, 43);
    m_drawings->addWidget(m_map, 57);
    setWidget(page);
    dress();
    connect(m_table, &ReadingsTable::columnsMoved, this, &GaugesPanel::placeColumns);
    connect(&m_history, &DrinkHistory::reloaded, this, &GaugesPanel::refresh);
}

void GaugesPanel::dress() {
    const auto& theme = Theme::current();
    QPalette colors = palette();
    colors.setColor(QPalette::Window, theme.color(Token::Page));
    colors.setColor(QPalette::Base, theme.color(Token::Page));
    setPalette(colors);
    viewport()->setAutoFillBackground(true);
    m_columns->setFixedHeight(theme.pxInt(58));
    m_drawings->setContentsMargins(theme.pxInt(8), theme.pxInt(8), theme.pxInt(8), theme.pxInt(8));
    // A drawing larger than the eye takes in at once says no more than one that it does.
    m_glass->setMinimumHeight(theme.pxInt(230));
    m_glass->setMaximumHeight(theme.pxInt(460));
    m_map->setMaximumHeight(theme.pxInt(520));
    widget()->setMaximumWidth(theme.pxInt(1000));
}

void GaugesPanel::setSession(DraftSession* session) {
    if (m_session) m_session->disconnect(this);
    m_session = session;
    m_revision.reset();
    m_table->readings().setSession(session);
    if (m_session) connect(m_session, &DraftSession::changed, this, &GaugesPanel::refresh);
    refresh();
}

void GaugesPanel::showRevision(const history::Revision* revision, const larder::Larder* larder) {
    m_table->readings().showRevision(revision);
    m_revision.reset();
    if (revision != nullptr && larder != nullptr) {
        m_revisionBrings =
            readingOf(*revision, *larder, m_session->book().settings().rules).now.contributions;
        m_revision = *revision;
    }
    refresh();
}

void GaugesPanel::refresh() {
    if (!m_session) return;
    const auto form = m_session->drink().form;
    if (m_revision) {
        const auto& spec = m_revision->spec;
        m_glass->setValues(glassValues(spec, m_revision->readings, m_revisionBrings));
        m_map->setValues(balanceValues(QStringLiteral("r%1").arg(m_revision->number), spec,
                                       m_revision->readings, m_history.wayTo(m_revision->parent), form));
    } else {
        const auto& now = m_session->now();
        m_glass->setValues(glassValues(now.spec, now.readings, now.contributions));
        m_map->setValues(balanceValues(tr("draft"), now.spec, now.readings,
                                       m_history.wayTo(m_session->draft().basedOn), form));
    }
    placeColumns();
}

void GaugesPanel::placeColumns() {
    if (!m_session) return;
    auto values = stageColumns(m_revision ? m_revision->readings : m_session->now().readings);
    for (const auto stage : {spec::Stage::Measured, spec::Stage::Mixed, spec::Stage::Served})
        values.centres.push_back(m_table->stageBox(stage).right() - Theme::current().px(28));
    m_columns->setValues(values);
}

void GaugesPanel::changeEvent(QEvent* event) {
    QScrollArea::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

} // namespace stillroom::ui
