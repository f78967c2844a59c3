#include "ui/panels/gauges_panel.h"

#include "ui/theme/theme.h"
#include "ui/widgets/readings_table.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QVBoxLayout>

namespace stillroom::ui {

GaugesPanel::GaugesPanel(QWidget* parent) : QScrollArea(parent), m_drawings(new QHBoxLayout) {
    setAccessibleName(tr("Readings"));
    setWidgetResizable(true);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFocusPolicy(Qt::NoFocus);
    auto* page = new QWidget(this);
    m_table = new ReadingsTable(page);
    auto* layout = new QVBoxLayout(page);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(m_table);
    layout->addLayout(m_drawings, 1);
    setWidget(page);
    dress();
}

void GaugesPanel::dress() {
    QPalette colors = palette();
    colors.setColor(QPalette::Window, Theme::current().color(Token::Page));
    colors.setColor(QPalette::Base, Theme::current().color(Token::Page));
    setPalette(colors);
    viewport()->setAutoFillBackground(true);
}

void GaugesPanel::setSession(DraftSession* session) {
    if (m_session) m_session->disconnect(this);
    m_session = session;
    m_table->readings().setSession(session);
}

void GaugesPanel::showRevision(const history::Revision* revision) {
    m_table->readings().showRevision(revision);
}

void GaugesPanel::changeEvent(QEvent* event) {
    QScrollArea::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

} // namespace stillroom::ui
