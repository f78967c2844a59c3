#include "ui/panels/preparation/ratio_row.h"

#include "ui/panels/preparation/preparation_values.h"
#include "ui/theme/theme.h"
#include "ui/widgets/choice_tabs.h"
#include "ui/widgets/wrap_label.h"

#include <QEvent>
#include <QSignalBlocker>
#include <QVBoxLayout>

namespace stillroom::ui {

using preparation::RatioBasis;

namespace {

enum Tab { NotSaid, ByWeight, ByCup };

} // namespace

RatioRow::RatioRow(QWidget* parent)
    : QWidget(parent),
      m_sentence(new WrapLabel(this)),
      m_basis(new ChoiceTabs(tr("What the ratio's parts are measured by"),
                             {tr("not said"), tr("by weight"), tr("by cup")}, this)) {
    auto* column = new QVBoxLayout(this);
    column->addWidget(m_sentence);
    column->addWidget(m_basis, 0, Qt::AlignLeft);
    connect(m_basis, &QTabBar::currentChanged, this, &RatioRow::choose);
    dress();
    hide();
}

void RatioRow::show(DraftSession* session, const DraftReading& now, const spec::Bindings& bindings,
                    bool fixed) {
    m_session = session;
    const auto ratio = session && now.made ? preparation::ratioOf(now.spec, bindings) : std::nullopt;
    setVisible(ratio.has_value());
    if (!ratio) return;
    const auto& book = session->book();
    const QString text =
        ratioSentence(*ratio, preparation::outcomesOf(now.spec, *ratio, book.larder(), bindings.rules()));
    if (m_sentence->text() != text) m_sentence->setText(text);
    const QSignalBlocker quiet(m_basis);
    m_basis->setTabVisible(NotSaid, !ratio->basis);
    m_basis->setCurrentIndex(!ratio->basis                           ? NotSaid
                             : *ratio->basis == RatioBasis::ByWeight ? ByWeight
                                                                     : ByCup);
    m_basis->setEnabled(!fixed);
}

QString RatioRow::sentence() const {
    return m_sentence->text();
}

void RatioRow::choose(int tab) {
    if (!m_session || tab == NotSaid) return;
    const auto ratio = preparation::ratioOf(m_session->spec(), m_session->bindings());
    if (!ratio) return;
    const auto basis = tab == ByWeight ? RatioBasis::ByWeight : RatioBasis::ByCup;
    m_session->apply(preparation::withBasis(m_session->spec(), *ratio, basis, m_session->bindings().rules()),
                     tab == ByWeight ? tr("Ratio by weight") : tr("Ratio by cup"));
}

void RatioRow::dress() {
    const auto& theme = Theme::current();
    layout()->setContentsMargins(theme.pxInt(16), theme.pxInt(6), theme.pxInt(16), theme.pxInt(6));
    layout()->setSpacing(theme.pxInt(2));
    m_sentence->setFont(theme.font(Type::Control));
    QPalette ink = m_sentence->palette();
    ink.setColor(QPalette::WindowText, theme.color(Token::Ink2));
    m_sentence->setPalette(ink);
}

void RatioRow::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

} // namespace stillroom::ui
