#include "ui/panels/preparation/line_entry_row.h"

#include "core/spec/step_edit.h"
#include "ui/text/border.h"
#include "ui/text/preparation_words.h"
#include "ui/theme/theme.h"

#include <QAbstractItemView>
#include <QComboBox>
#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QSignalBlocker>

#include <algorithm>

namespace stillroom::ui {

LineEntryRow::LineEntryRow(QWidget* parent)
    : QWidget(parent),
      m_words(new QLabel(this)),
      m_place(new QComboBox(this)) {
    m_words->setBuddy(m_place);
    m_place->setAccessibleName(tr("Before which step the line goes in"));
    m_place->view()->setAccessibleName(m_place->accessibleName());
    m_place->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_place->setMinimumContentsLength(12);
    auto* row = new QHBoxLayout(this);
    row->addWidget(m_words);
    row->addWidget(m_place, 1);
    connect(m_place, &QComboBox::activated, this, &LineEntryRow::choose);
    dress();
    hide();
}

void LineEntryRow::setSession(DraftSession* session) {
    m_session = session;
    refresh();
}

void LineEntryRow::setLine(int line) {
    if (line == m_line) return;
    m_line = line;
    refresh();
}

void LineEntryRow::refresh() {
    const bool there =
        m_session && m_line >= 0 && static_cast<std::size_t>(m_line) < m_session->spec().lines.size();
    const bool asked = there && !m_session->spec().steps.empty();
    setVisible(asked);
    if (!asked) return;
    const auto& spec = m_session->spec();
    const auto& line = spec.lines[static_cast<std::size_t>(m_line)];
    QString name =
        m_words->fontMetrics().elidedText(fromCore(line.name), Qt::ElideRight, Theme::current().pxInt(170));
    name.replace(QLatin1Char('&'), QStringLiteral("&&"));
    m_words->setText(tr("%1 &goes in").arg(name));
    m_place->setAccessibleName(tr("Before which step %1 goes in").arg(fromCore(line.name)));
    const QSignalBlocker quiet(m_place);
    m_place->clear();
    for (std::size_t i = 0; i < spec.steps.size(); ++i)
        m_place->addItem(tr("before %1, %2").arg(i + 1).arg(stepInWords(spec.steps[i])));
    m_place->addItem(tr("after all of them"));
    const auto at = std::min(static_cast<std::size_t>(std::max(line.beforeStep, 0)), spec.steps.size());
    m_place->setCurrentIndex(static_cast<int>(at));
    m_place->setEnabled(!m_session->book().book().isReadOnly());
}

QString LineEntryRow::words() const {
    return QString(m_words->text()).remove(QLatin1Char('&')) + QLatin1Char(' ') + m_place->currentText();
}

void LineEntryRow::choose(int at) {
    if (!m_session || m_line < 0) return;
    m_session->apply(spec::withLineEntering(m_session->spec(), static_cast<std::size_t>(m_line),
                                            static_cast<std::size_t>(at)),
                     tr("Goes in %1").arg(m_place->itemText(at)));
}

void LineEntryRow::dress() {
    const auto& theme = Theme::current();
    layout()->setContentsMargins(theme.pxInt(16), 0, theme.pxInt(16), theme.pxInt(6));
    layout()->setSpacing(theme.pxInt(8));
    m_words->setFont(theme.font(Type::Control));
    m_place->setFont(theme.font(Type::Control));
    QPalette quiet = m_words->palette();
    quiet.setColor(QPalette::WindowText, theme.color(Token::Ink2));
    m_words->setPalette(quiet);
    refresh();
}

void LineEntryRow::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

} // namespace stillroom::ui
