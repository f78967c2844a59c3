#include "ui/panels/bench.h"

#include "ui/actions/actions.h"
#include "ui/panels/gauges_panel.h"
#include "ui/panels/preparation/preparation_panel.h"
#include "ui/panels/sheet_panel.h"
#include "ui/panels/shelf_panel.h"
#include "ui/panels/trail_panel.h"
#include "ui/plots/stand_grid.h"
#include "ui/theme/theme.h"
#include "ui/widgets/readings_table.h"
#include "ui/widgets/spec_table.h"

#include <QApplication>
#include <QEvent>
#include <QLabel>
#include <QListView>
#include <QPainter>

#include <algorithm>

namespace stillroom::ui {

Bench::Bench(const Actions& actions, QWidget* parent)
    : QWidget(parent),
      m_shelf(new ShelfPanel(this)),
      m_sheet(new SheetPanel(actions, this)),
      m_gauges(new GaugesPanel(m_history, this)),
      m_preparation(new PreparationPanel(this)),
      m_trail(new TrailPanel(m_history, this)),
      m_empty(new QLabel(this)) {
    m_empty->setAlignment(Qt::AlignHCenter | Qt::AlignVCenter);
    m_empty->setWordWrap(true);
    m_empty->setText(tr("No drink is on the bench.\nChoose one on the shelf, or start one with %1.\n"
                        "What is in the bin stands last on the shelf: open it, and %2 brings it back.")
                         .arg(Actions::keyText(Act::NewDrink), Actions::keyText(Act::BinDrink)));
}

void Bench::setBook(WorkbookSession* book) {
    m_shelf->setBook(book);
}

void Bench::setSession(DraftSession* session) {
    m_session = session;
    m_history.setDraft(session);
    m_sheet->setSession(session);
    m_gauges->setSession(session);
    m_preparation->setSession(session);
    m_trail->setSession(session);
    const bool prepares = session != nullptr && session->drink().form == history::DrinkForm::Preparation;
    m_sheet->setVisible(session != nullptr);
    m_gauges->setVisible(session != nullptr && !prepares);
    m_preparation->setVisible(prepares);
    m_trail->setVisible(session != nullptr);
    m_empty->setVisible(session == nullptr);
    m_shelf->setCurrent(session ? session->drink().id : base::DrinkId{});
}

void Bench::showRevision(const history::Revision* revision, const larder::Larder* larder) {
    m_sheet->showRevision(revision, larder);
    m_gauges->showRevision(revision, larder);
    m_preparation->showRevision(revision, larder);
}

void Bench::setShelfShown(bool shown) {
    m_shelfWanted = shown;
    place();
}

bool Bench::isShelfShown() const {
    return m_shelfWanted.value_or(width() >= Theme::current().pxInt(1100));
}

// Widths at 1024, 1440 and 2560 px; in between the sheet and the instruments share what is left.
void Bench::place() {
    const auto& theme = Theme::current();
    const auto px = [&](double at100) { return theme.pxInt(at100); };
    const bool shelf = isShelfShown();
    const int shelfWidth = shelf ? (width() >= px(2200) ? px(260) : px(216)) : 0;
    m_shelf->setVisible(shelf);
    m_shelf->setGeometry(0, 0, shelfWidth, height());
    const int rest = width() - shelfWidth;
    const int sheet = std::clamp(static_cast<int>(rest * 0.48), std::min(px(480), rest / 2), px(760));
    // From 200 on, what changed and what it did have two lines each.
    const int trailHeight = px(height() >= px(800) ? 200 : height() >= px(720) ? 168 : 40);
    const int body = height() - trailHeight;
    m_sheet->setGeometry(shelfWidth, 0, sheet, body - 1);
    m_gauges->setGeometry(shelfWidth + sheet + 1, 0, rest - sheet - 1, body - 1);
    m_preparation->setGeometry(m_gauges->geometry());
    m_trail->setGeometry(shelfWidth, body, rest, trailHeight);
    m_empty->setGeometry(shelfWidth + px(24), 0, rest - px(48), height());
}

void Bench::focusNextPanel() {
    std::vector<QWidget*> stops;
    if (m_shelf->isVisible()) stops.push_back(&m_shelf->list());
    if (m_sheet->isVisible()) stops.push_back(&m_sheet->table());
    if (m_gauges->isVisible()) stops.push_back(&m_gauges->table());
    if (m_preparation->isVisible()) stops.push_back(&m_preparation->grid());
    if (m_trail->isVisible()) stops.push_back(m_trail);
    if (stops.empty()) return;
    const QWidget* focus = QApplication::focusWidget();
    std::size_t now = stops.size() - 1;
    const std::array<QWidget*, 5> panels{m_shelf, m_sheet, m_gauges, m_preparation, m_trail};
    for (std::size_t i = 0; i < stops.size(); ++i)
        for (const auto* panel : panels)
            if (panel && focus && panel->isAncestorOf(stops[i]) && panel->isAncestorOf(focus)) now = i;
    stops[(now + 1) % stops.size()]->setFocus(Qt::ShortcutFocusReason);
}

void Bench::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    place();
}

void Bench::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) place();
}

void Bench::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const Look& look = Theme::current().look();
    painter.fillRect(rect(), look.color(Token::Page));
    if (!m_session) return;
    painter.fillRect(QRectF(m_gauges->x() - 1, 0, 1, m_gauges->height()), look.color(Token::Rule));
    painter.fillRect(QRectF(m_trail->x(), m_trail->y() - 1, m_trail->width(), 1),
                     look.color(Token::RuleStrong));
}

} // namespace stillroom::ui
