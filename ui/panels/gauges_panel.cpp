#include "ui/panels/gauges_panel.h"

#include "ui/panels/drawing_values.h"
#include "ui/panels/held_pane.h"
#include "ui/panels/more_pane.h"
#include "ui/panels/working_pane.h"
#include "ui/plots/balance_map.h"
#include "ui/plots/glass_drawing.h"
#include "ui/plots/held_curve.h"
#include "ui/plots/stage_columns.h"
#include "ui/session/drink_history.h"
#include "ui/text/border.h"
#include "ui/text/revision_label.h"
#include "ui/theme/theme.h"
#include "ui/widgets/choice_tabs.h"
#include "ui/widgets/more_table.h"
#include "ui/widgets/readings_table.h"

#include <QApplication>
#include <QEvent>
#include <QHBoxLayout>
#include <QResizeEvent>
#include <QShortcut>
#include <QVBoxLayout>

namespace stillroom::ui {

namespace {

// Both beside each other, or the chosen one alone.
void showDrawings(ChoiceTabs& which, QWidget& glass, QWidget& map, int width) {
    const bool both = width >= Theme::current().pxInt(430);
    which.setVisible(!both);
    glass.setVisible(both || which.currentIndex() == 0);
    map.setVisible(both || which.currentIndex() == 1);
}

} // namespace

GaugesPanel::GaugesPanel(const DrinkHistory& history, QWidget* parent)
    : QScrollArea(parent),
      m_history(history),
      m_drawings(new QHBoxLayout),
      m_escape(new QShortcut(Qt::Key_Escape, this)) {
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
    m_drawingsBox = new QWidget(page);
    // Where there is no room for both drawings one is shown, and these choose it.
    auto* which = new ChoiceTabs(tr("Drawing"), {tr("glass"), tr("balance")}, m_drawingsBox);
    auto* drawn = new QVBoxLayout(m_drawingsBox);
    drawn->setContentsMargins(0, 0, 0, 0);
    drawn->setSpacing(0);
    drawn->addWidget(which, 0, Qt::AlignLeft);
    drawn->addLayout(m_drawings, 1);
    m_working = new WorkingPane(page);
    m_held = new HeldPane(page);
    m_more = new MorePane(page);
    // The drawings take what is left up to their greatest height; more than that stays empty below them.
    layout->addWidget(m_drawingsBox, 1000);
    for (QWidget* pane :
         {static_cast<QWidget*>(m_working), static_cast<QWidget*>(m_held), static_cast<QWidget*>(m_more)}) {
        layout->addWidget(pane, 1000);
        pane->hide();
    }
    layout->addStretch(1);
    m_drawings->addWidget(m_glass, 43);
    m_drawings->addWidget(m_map, 57);
    connect(which, &QTabBar::currentChanged, this,
            [this, which] { showDrawings(*which, *m_glass, *m_map, width()); });
    setWidget(page);
    dress();
    connect(m_table, &ReadingsTable::columnsMoved, this, &GaugesPanel::placeColumns);
    connect(m_table, &ReadingsTable::workingAsked, this, &GaugesPanel::showWorking);
    connect(m_table, &ReadingsTable::cellMoved, this, &GaugesPanel::followGrid);
    connect(&m_more->table(), &MoreTable::workingAsked, this, &GaugesPanel::showWorking);
    connect(m_more, &MorePane::closed, this, &GaugesPanel::closePane);
    connect(m_working, &WorkingPane::closed, this, &GaugesPanel::closePane);
    connect(m_held, &HeldPane::closed, this, &GaugesPanel::closePane);
    m_escape->setContext(Qt::WidgetWithChildrenShortcut);
    m_escape->setEnabled(false);
    connect(m_escape, &QShortcut::activated, this, &GaugesPanel::closePane);
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
    m_drawingsBox->setMaximumHeight(theme.pxInt(536));
    widget()->setMaximumWidth(theme.pxInt(1000));
}

void GaugesPanel::setSession(DraftSession* session) {
    if (m_session) m_session->disconnect(this);
    m_session = session;
    m_revision.reset();
    m_table->readings().setSession(session);
    m_ofFurther = false;
    closePane();
    if (m_session) connect(m_session, &DraftSession::changed, this, &GaugesPanel::refresh);
    refresh();
}

void GaugesPanel::showRevision(const history::Revision* revision, const larder::Larder* larder) {
    m_table->readings().showRevision(revision);
    m_revision.reset();
    if (revision != nullptr && larder != nullptr) {
        auto reading = readingOf(*revision, *larder, m_session->book().settings().rules, m_session->drink());
        m_revisionFilling = std::move(reading.now.filling);
        m_revisionBindings = std::move(reading.bindings);
        m_revision = *revision;
    }
    refresh();
}

void GaugesPanel::refresh() {
    if (!m_session) return;
    const auto form = m_session->drink().form;
    if (m_revision) {
        const auto& spec = m_revision->spec;
        m_glass->setValues(glassValues(spec, m_revisionFilling));
        m_map->setValues(balanceValues(revisionLabel(form, m_revision->number), spec, m_revision->readings,
                                       m_history.wayTo(m_revision->parent), form));
    } else {
        const auto& now = m_session->now();
        m_glass->setValues(glassValues(now.spec, now.filling));
        m_map->setValues(balanceValues(tr("draft"), now.spec, now.readings,
                                       m_history.wayTo(m_session->draft().basedOn), form));
    }
    placeColumns();
    refreshPane();
}

const spec::Spec& GaugesPanel::shownSpec() const {
    return m_revision ? m_revision->spec : m_session->spec();
}

const spec::Bindings& GaugesPanel::shownBindings() const {
    return m_revision ? *m_revisionBindings : m_session->bindings();
}

void GaugesPanel::showWorking() {
    if (!m_session) return;
    m_ofFurther = m_pane == m_more && m_more->isAncestorOf(QApplication::focusWidget());
    openPane(m_working);
}

void GaugesPanel::showMore() {
    if (m_session) openPane(m_more);
}

void GaugesPanel::followGrid() {
    m_ofFurther = false;
    if (m_pane == m_working) refreshPane();
}

namespace {

// What a thermometer said last of a revision some minutes after it was made.
std::optional<spec::HeldMeasured> measuredInTheGlass(const WorkbookSession& book,
                                                     std::optional<base::RevisionId> revision) {
    std::optional<spec::HeldMeasured> last;
    if (!revision) return last;
    try {
        for (const auto& tasting : book.book().tastings(*revision)) {
            const auto& [age, place, measured] = tasting.circumstances;
            if (age && *age > 0 && measured.temperature)
                last = spec::HeldMeasured{static_cast<double>(*age), *measured.temperature};
        }
    } catch (const store::StoreError&) { // the curve stands without it
    }
    return last;
}

} // namespace

void GaugesPanel::showHeld() {
    if (!m_session) return;
    const auto revision = m_revision ? std::optional(m_revision->id) : m_session->draft().basedOn;
    if (m_pane != m_held)
        m_held->startWith(spec::usualHeldIn(shownSpec()), measuredInTheGlass(m_session->book(), revision));
    openPane(m_held);
}

void GaugesPanel::openPane(QWidget* pane) {
    if (m_pane == nullptr) m_focusBefore = QApplication::focusWidget();
    if (m_pane != nullptr && m_pane != pane) m_pane->hide();
    m_pane = pane;
    refreshPane();
    m_drawingsBox->hide();
    pane->show();
    pane->setFocus(Qt::OtherFocusReason);
    m_escape->setEnabled(true);
    Q_EMIT paneChanged();
}

void GaugesPanel::closePane() {
    if (m_pane == nullptr) return;
    if (m_pane == m_working && m_ofFurther && m_session) {
        m_ofFurther = false;
        return openPane(m_more);
    }
    const bool focused = m_pane->isAncestorOf(QApplication::focusWidget());
    m_escape->setEnabled(false);
    QWidget* back = m_focusBefore && m_focusBefore->isVisible() ? m_focusBefore.data() : m_table;
    if (focused) back->setFocus(Qt::OtherFocusReason);
    std::exchange(m_pane, nullptr)->hide();
    m_drawingsBox->show();
    Q_EMIT paneChanged();
}

bool GaugesPanel::isPaneFocused() const {
    return m_pane != nullptr && m_pane->isAncestorOf(QApplication::focusWidget());
}

void GaugesPanel::refreshPane() {
    if (!m_session || m_pane == nullptr) return;
    if (m_pane == m_working) {
        m_working->setView(workingOfCell());
    } else if (m_pane == m_more) {
        const auto& readings = m_revision ? m_revision->readings : m_session->now().readings;
        m_more->table().standUnder(*m_table);
        m_more->setRead(
            [this](quantity::Temperature freezer) {
                return spec::furtherReadings(shownSpec(), shownBindings(),
                                             m_revision ? m_revision->readings : m_session->now().readings,
                                             freezer);
            },
            readings);
    } else {
        m_held->setFollow([this](const spec::HeldAsk& ask) {
            return spec::heldReadings(shownSpec(), shownBindings(), ask);
        });
    }
}

WorkingView GaugesPanel::workingOfCell() const {
    if (m_ofFurther) {
        auto& table = m_more->table();
        const auto& at = table.further().row(table.readingRow());
        if (at.more)
            return workingView(shownSpec(), shownBindings(), *at.more, table.readingStage(),
                               fromCore(spec::moreUnit(*at.more)));
        return workingView(shownSpec(), shownBindings(), at.quantity, table.readingStage(),
                           fromCore(spec::quantityUnit(at.quantity)));
    }
    const auto& at = m_table->readings().row(m_table->readingRow());
    return workingView(shownSpec(), shownBindings(), at.quantity, m_table->readingStage(), at.unit);
}

void GaugesPanel::placeColumns() {
    if (!m_session) return;
    if (m_pane == m_more) m_more->table().standUnder(*m_table);
    auto values = stageColumns(m_revision ? m_revision->readings : m_session->now().readings);
    for (const auto stage : {spec::Stage::Measured, spec::Stage::Mixed, spec::Stage::Served})
        values.centres.push_back(m_table->stageBox(stage).right() - Theme::current().px(28));
    m_columns->setValues(values);
}

void GaugesPanel::resizeEvent(QResizeEvent* event) {
    m_held->setNarrow(width() < Theme::current().pxInt(620));
    if (auto* which = m_drawingsBox->findChild<ChoiceTabs*>())
        showDrawings(*which, *m_glass, *m_map, width());
    QScrollArea::resizeEvent(event);
}

void GaugesPanel::changeEvent(QEvent* event) {
    QScrollArea::changeEvent(event);
    if (event->type() != QEvent::StyleChange) return;
    dress();
    if (auto* which = m_drawingsBox->findChild<ChoiceTabs*>())
        showDrawings(*which, *m_glass, *m_map, width());
}

} // namespace stillroom::ui
