#include "ui/panels/working_pane.h"

#include "ui/text/words.h"
#include "ui/theme/theme.h"

#include <QClipboard>
#include <QEvent>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QScrollBar>
#include <QTextBrowser>
#include <QVBoxLayout>

namespace stillroom::ui {

WorkingPane::WorkingPane(QWidget* parent)
    : QWidget(parent),
      m_title(new QLabel(this)),
      m_reading(new QLabel(this)),
      m_copy(new QPushButton(tr("&Copy as text"), this)),
      m_close(new QPushButton(tr("Close"), this)),
      m_text(new QTextBrowser(this)) {
    setAccessibleName(tr("Working"));
    setFocusProxy(m_text);
    m_text->setFrameShape(QFrame::NoFrame);
    m_text->setOpenLinks(false);
    m_text->setTabChangesFocus(true);
    m_text->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    m_text->installEventFilter(this);
    m_copy->setProperty("quiet", true);
    m_close->setProperty("quiet", true);
    m_close->setToolTip(tr("Esc"));
    auto* head = new QHBoxLayout;
    head->addWidget(m_title);
    head->addWidget(m_reading);
    head->addStretch(1);
    head->addWidget(m_copy);
    head->addWidget(m_close);
    auto* all = new QVBoxLayout(this);
    all->addLayout(head);
    all->addWidget(m_text, 1);
    m_settle.setSingleShot(true);
    m_settle.setInterval(kSettleMs);
    connect(&m_settle, &QTimer::timeout, this, &WorkingPane::fill);
    connect(m_copy, &QPushButton::clicked, this, &WorkingPane::copy);
    connect(m_close, &QPushButton::clicked, this, &WorkingPane::closed);
    dress();
}

void WorkingPane::dress() {
    const auto& theme = Theme::current();
    auto ink = palette();
    ink.setColor(QPalette::WindowText, theme.color(Token::Ink));
    m_title->setFont(theme.font(Type::Heading));
    m_title->setPalette(ink);
    m_reading->setFont(theme.font(Type::ReadingServed));
    m_reading->setPalette(ink);
    auto page = m_text->palette();
    page.setColor(QPalette::Base, theme.color(Token::Page));
    m_text->setPalette(page);
    m_text->document()->setDocumentMargin(theme.pxInt(4));
    layout()->setContentsMargins(theme.pxInt(16), theme.pxInt(6), theme.pxInt(8), theme.pxInt(6));
    layout()->setSpacing(theme.pxInt(4));
    setMinimumHeight(theme.pxInt(200));
}

void WorkingPane::setView(const WorkingView& view) {
    m_view = view;
    head();
    if (isVisible() && m_shown == workingName(view))
        m_settle.start();
    else
        fill();
}

void WorkingPane::head() {
    const QString title = workingName(m_view);
    m_title->setText(title);
    m_reading->setText(workingReading(m_view));
    m_text->setAccessibleName(tr("Working of %1: %2").arg(title, workingReading(m_view)));
}

void WorkingPane::fill() {
    m_settle.stop();
    m_shown = workingName(m_view);
    const int at = m_text->verticalScrollBar()->value(); // an edit elsewhere does not turn the page
    m_text->setHtml(workingHtml(m_view, Theme::current().look()));
    m_text->verticalScrollBar()->setValue(at);
}

QString WorkingPane::plain() const {
    return workingPlain(m_view);
}

void WorkingPane::copy() {
    QGuiApplication::clipboard()->setText(plain());
}

// With nothing marked, the copy key means all of it.
bool WorkingPane::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_text && event->type() == QEvent::KeyPress && !m_text->textCursor().hasSelection() &&
        static_cast<QKeyEvent*>(event)->matches(QKeySequence::Copy)) {
        copy();
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

void WorkingPane::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() != QEvent::StyleChange) return;
    dress();
    head();
    fill();
}

} // namespace stillroom::ui
