#include "ui/dialogs/paste_page.h"

#include "core/base/text.h"
#include "ui/dialogs/paste_row.h"
#include "ui/panels/question_strip.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/text/words.h"
#include "ui/theme/theme.h"
#include "ui/widgets/key_hint.h"

#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPainter>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QSignalBlocker>
#include <QVBoxLayout>

namespace stillroom::ui {

namespace {

QLabel* label(QWidget* parent, Type type, Token ink) {
    const auto& theme = Theme::current();
    auto* made = new QLabel(parent);
    made->setFont(theme.font(type));
    made->setWordWrap(true);
    QPalette colors = made->palette();
    colors.setColor(QPalette::WindowText, theme.color(ink));
    made->setPalette(colors);
    return made;
}

QString lines(int count) {
    return counted(count, PastePage::tr("line"), PastePage::tr("lines"));
}

} // namespace

PastePage::PastePage(const WorkbookSession& book, QWidget* parent)
    : QWidget(parent),
      m_book(book),
      m_reading(book),
      m_text(new QPlainTextEdit(this)),
      m_columnBar(new QWidget(this)),
      m_columnLayout(new QHBoxLayout(m_columnBar)),
      m_scroll(new QScrollArea(this)),
      m_accept(new QPushButton(this)),
      m_acceptGaps(new QPushButton(this)),
      m_close(new QPushButton(tr("Close, keep nothing"), this)) {
    const auto& theme = Theme::current();
    setWindowTitle(tr("Paste a spec"));
    setFocusPolicy(Qt::StrongFocus);
    m_title = label(this, Type::Title, Token::Ink);
    m_title->setText(tr("Paste a spec"));
    m_title->setWordWrap(false);
    m_source = label(this, Type::Control, Token::Ink2);
    m_source->setWordWrap(false);
    m_counts = label(this, Type::Control, Token::Ink2);
    m_counts->setWordWrap(false);
    auto* head = new QHBoxLayout;
    head->setContentsMargins(theme.pxInt(16), theme.pxInt(8), theme.pxInt(16), theme.pxInt(8));
    head->addWidget(m_title);
    head->addSpacing(theme.pxInt(12));
    head->addWidget(m_source);
    head->addStretch(1);
    head->addWidget(m_counts);

    auto* content = new QWidget(m_scroll);
    QPalette page = palette();
    page.setColor(QPalette::Window, theme.color(Token::Page));
    content->setPalette(page);
    m_scroll->setPalette(page);
    m_list = new QVBoxLayout(content);
    m_list->setContentsMargins(0, 0, 0, 0);
    m_list->setSpacing(0);
    m_scroll->setWidgetResizable(true);
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setFocusPolicy(Qt::NoFocus);
    m_scroll->setWidget(content);

    auto* side = new QVBoxLayout;
    side->setContentsMargins(theme.pxInt(20), theme.pxInt(12), theme.pxInt(20), theme.pxInt(12));
    auto* soFar = label(this, Type::Heading, Token::Ink2);
    soFar->setText(tr("As read so far"));
    m_sums = label(this, Type::Reading, Token::Ink);
    m_sums->setTextFormat(Qt::RichText);
    m_say = label(this, Type::Body, Token::Ink);
    m_measures = label(this, Type::Control, Token::Ink2);
    m_ounces = new QPushButton(this);
    m_ounces->setProperty("quiet", true);
    m_accept->setProperty("act", true);
    m_accept->setAccessibleName(tr("Accept"));
    for (auto* widget : std::initializer_list<QWidget*>{soFar, m_sums, m_say, m_measures, m_ounces, m_accept,
                                                        m_acceptGaps, m_close}) {
        side->addWidget(widget, 0, widget->inherits("QPushButton") ? Qt::AlignLeft : Qt::Alignment());
        side->addSpacing(theme.pxInt(6));
    }
    side->addStretch(1);
    auto* sideWidget = new QWidget(this);
    sideWidget->setLayout(side);
    sideWidget->setFixedWidth(theme.pxInt(340));

    auto* left = new QVBoxLayout;
    left->setSpacing(0);
    left->addWidget(m_columnBar);
    left->addWidget(m_scroll, 1);
    auto* body = new QHBoxLayout;
    body->setSpacing(0);
    m_text->hide();
    m_text->setTabChangesFocus(true);
    m_text->setFrameShape(QFrame::NoFrame);
    m_text->setFont(theme.font(Type::Line));
    m_text->setPalette(page);
    m_text->setPlaceholderText(tr("Type or paste a whole recipe here, one line for each ingredient."));
    m_text->setAccessibleName(tr("The recipe, as you write it"));
    m_text->installEventFilter(this);
    body->addWidget(m_text, 1);
    body->addLayout(left, 2);
    body->addWidget(sideWidget);
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(0);
    all->addLayout(head);
    all->addLayout(body, 1);

    connect(m_accept, &QPushButton::clicked, this, &PastePage::accepted);
    connect(m_acceptGaps, &QPushButton::clicked, this, &PastePage::accepted);
    connect(m_close, &QPushButton::clicked, this, &PastePage::closed);
    connect(m_ounces, &QPushButton::clicked, this, [this] {
        m_reading.setImperial(!m_reading.isImperial());
        rebuild();
    });
}

void PastePage::read(const QString& text) {
    m_reading.read(text);
    buildColumns();
    rebuild();
}

void PastePage::startWriting() {
    connect(m_text, &QPlainTextEdit::textChanged, this, [this] { read(m_text->toPlainText()); });
    m_text->show();
    read({});
    m_text->setFocus(Qt::OtherFocusReason);
}

// In the field Ctrl Enter accepts, and Esc first leaves the field, so that what was written stays.
bool PastePage::eventFilter(QObject* watched, QEvent* event) {
    if (watched != m_text || event->type() != QEvent::KeyPress) return QWidget::eventFilter(watched, event);
    auto* key = static_cast<QKeyEvent*>(event);
    const bool enter = key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter;
    if (enter && key->modifiers() & Qt::ControlModifier) {
        keyPressEvent(key);
        return true;
    }
    if (key->key() == Qt::Key_Escape && !m_text->toPlainText().trimmed().isEmpty()) {
        setFocus(Qt::OtherFocusReason);
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

void PastePage::buildColumns() {
    while (auto* item = m_columnLayout->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    const auto* columns = m_reading.columns();
    m_columnBar->setVisible(columns != nullptr);
    if (columns == nullptr) return;
    const QStringList uses{tr("left out"), tr("amount"), tr("measure"),
                           tr("name"),     tr("note"),   tr("whole line")};
    auto* header = new QCheckBox(tr("first row is a heading"), m_columnBar);
    header->setChecked(columns->firstRowIsHeader);
    connect(header, &QCheckBox::toggled, this, [this](bool on) {
        m_reading.setHeaderRow(on);
        rebuild();
    });
    m_columnLayout->addWidget(header);
    for (std::size_t i = 0; i < columns->uses.size(); ++i) {
        auto* use = new QComboBox(m_columnBar);
        use->addItems(uses);
        use->setCurrentIndex(static_cast<int>(columns->uses[i]));
        use->setAccessibleName(tr("What column %1 holds").arg(i + 1));
        connect(use, &QComboBox::activated, this, [this, i](int chosen) {
            m_reading.setColumnUse(i, static_cast<exchange::ColumnUse>(chosen));
            rebuild();
        });
        m_columnLayout->addWidget(use);
    }
    m_columnLayout->addStretch(1);
}

void PastePage::rebuild() {
    const int scrolled = m_scroll->verticalScrollBar()->value();
    while (auto* item = m_list->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    m_rows.clear();
    const auto& larder = m_book.larder();
    for (std::size_t i = 0; i < m_reading.rows().size(); ++i) {
        const auto& row = m_reading.rows()[i];
        const auto line = m_reading.lineOf(row);
        QString matchedName;
        if (line && row.read.kind == exchange::ReadKind::Fused) {
            exchange::ReadLine rest = row.read;
            if (!rest.parts.empty()) rest.parts.erase(rest.parts.begin());
            matchedName = QStringLiteral("+  ") + partsInWords(rest);
        } else if (line) {
            const auto* poured = line->ingredient ? larder.poured(*line->ingredient) : nullptr;
            if (poured == nullptr)
                matchedName = tr("new to this book");
            else if (base::compareForPeople(poured->name, line->name) != 0)
                matchedName = tr("read as %1").arg(fromCore(poured->name));
        }
        auto* widget = new PasteRow(row.read.sourceLine > 0 ? row.read.sourceLine : static_cast<int>(i + 1),
                                    row, line, matchedName, m_reading.name(), m_scroll->widget());
        connect(
            widget, &PasteRow::answered, this, [this, i](int choice) { answer(static_cast<int>(i), choice); },
            Qt::QueuedConnection);
        connect(
            widget, &PasteRow::rewritten, this,
            [this, i](const QString& text) {
                m_reading.rewrite(i, text);
                {
                    const QSignalBlocker quiet(m_text);
                    m_text->setPlainText(m_reading.text());
                }
                rebuild();
                setFocus(Qt::OtherFocusReason);
            },
            Qt::QueuedConnection);
        m_list->addWidget(widget);
        m_rows.push_back(widget);
    }
    m_list->addStretch(1);
    m_scroll->verticalScrollBar()->setValue(scrolled);
    m_current = -1;
    nextQuestion(-1);
    showSums();
}

void PastePage::showSums() {
    const int asks = m_reading.openQuestions();
    const int doubtful = m_reading.doubtful();
    const auto& rows = m_reading.rows();
    const int refused = m_reading.refused();
    const int unread = m_reading.notUnderstood();
    m_source->setText((m_text->isHidden() ? tr("from the clipboard, %1") : tr("as you write it, %1"))
                          .arg(lines(static_cast<int>(rows.size()))));
    QStringList counts{tr("%1 read").arg(static_cast<int>(rows.size()) - asks - refused - unread)};
    if (refused > 0) counts << tr("%1 refused").arg(refused);
    if (unread > 0) counts << tr("%1 not understood").arg(unread);
    if (asks > 0) counts << tr("%1 to ask").arg(asks);
    if (doubtful > 0) counts << tr("%1 hard to believe").arg(doubtful);
    m_counts->setText(counts.join(QStringLiteral("   ")));

    const auto spec = m_reading.spec();
    const auto readings = spec::evaluate(spec, m_book.larder(), m_book.houseRules());
    const auto& served = readings[spec::Stage::Served];
    QString table = QStringLiteral("<table width='100%' cellpadding='3'>");
    const auto row = [&](const QString& name, const QString& unit, const QString& value) {
        table += QStringLiteral("<tr><td>%1</td><td><small>%2</small></td><td align='right'>%3</td></tr>")
                     .arg(name.toHtmlEscaped(), unit.toHtmlEscaped(), value.toHtmlEscaped());
    };
    for (const auto quantity : {spec::Quantity::PouredVolume, spec::Quantity::Strength, spec::Quantity::Sugar,
                                spec::Quantity::Acid})
        row(quantityName(quantity), fromCore(spec::quantityUnit(quantity)),
            readingText(served[quantity], quantity).plain());
    row(tr("Lines"), QString(), QString::number(spec.lines.size()));
    m_sums->setText(table + QStringLiteral("</table>"));

    const bool anything = !spec.lines.empty();
    if (!anything && m_reading.text().trimmed().isEmpty())
        m_say->setText(tr("What you write is read as it grows. Nothing enters the book before you accept."));
    else if (!anything)
        m_say->setText(tr("Nothing here could be read as a line of a drink."));
    else if (asks > 0)
        m_say->setText(tr("%1 %2 a word from you. Nothing enters the book before you accept.")
                           .arg(lines(asks), asks == 1 ? tr("needs") : tr("need")));
    else if (refused + unread > 0)
        m_say->setText(tr("%1 could not be read and will stand in the notes as written. Nothing enters the "
                          "book before you accept.")
                           .arg(lines(refused + unread)));
    else
        m_say->setText(tr("Every line is read. Nothing enters the book before you accept."));
    m_measures->setText(m_reading.isImperial() ? tr("Ounces are read as imperial fluid ounces, 28.41 ml.")
                                               : tr("Ounces are read as US fluid ounces, 29.57 ml."));
    m_ounces->setText(m_reading.isImperial() ? tr("US instead") : tr("Imperial instead"));
    m_accept->setEnabled(anything && asks == 0);
    m_accept->setText(asks > 0 ? tr("Accept: %1 still open").arg(lines(asks)) : tr("Accept   Ctrl+Enter"));
    m_acceptGaps->setVisible(anything && asks > 0);
    m_acceptGaps->setText(tr("Accept, leave %1 as gaps").arg(asks == 1 ? tr("it") : tr("them")));
    m_close->setText(tr("Close, keep nothing   Esc"));
}

void PastePage::nextQuestion(int after) {
    const auto& rows = m_reading.rows();
    const int count = static_cast<int>(rows.size());
    int found = -1;
    for (int step = 1; step <= count && found < 0; ++step) {
        const int at = (after + step + count) % count;
        const auto& row = rows[static_cast<std::size_t>(at)];
        if ((row.asks || (row.doubtful && row.choices.size() > 1)) && !row.answered) found = at;
    }
    if (m_current >= 0 && static_cast<std::size_t>(m_current) < m_rows.size())
        m_rows[static_cast<std::size_t>(m_current)]->setCurrent(false);
    m_current = found;
    if (found < 0) return;
    m_rows[static_cast<std::size_t>(found)]->setCurrent(true);
    m_scroll->ensureWidgetVisible(m_rows[static_cast<std::size_t>(found)]);
}

void PastePage::answer(int row, int choice) {
    if (row < 0) return;
    m_reading.answer(static_cast<std::size_t>(row), choice);
    rebuild();
    setFocus(Qt::OtherFocusReason);
}

void PastePage::keyPressEvent(QKeyEvent* event) {
    if (event->key() >= Qt::Key_1 && event->key() <= Qt::Key_9 && event->modifiers() == Qt::NoModifier) {
        answer(m_current, event->key() - Qt::Key_1);
        return;
    }
    switch (event->key()) {
    case Qt::Key_F8:
        nextQuestion(m_current);
        return;
    case Qt::Key_F2:
        if (m_current >= 0) m_rows[static_cast<std::size_t>(m_current)]->startRewriting();
        return;
    case Qt::Key_Escape:
        Q_EMIT closed();
        return;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (event->modifiers() & Qt::ControlModifier && m_accept->isEnabled()) Q_EMIT accepted();
        return;
    default:
        QWidget::keyPressEvent(event);
    }
}

void PastePage::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const Look& look = Theme::current().look();
    painter.fillRect(rect(), look.color(Token::Page));
    const double top = m_columnBar->isVisible() ? m_columnBar->y() : m_scroll->y();
    painter.fillRect(QRectF(0, top - 1, width(), 1), look.color(Token::Rule));
    painter.fillRect(QRectF(m_scroll->geometry().right() + 1, top, 1, height() - top),
                     look.color(Token::Rule));
}

} // namespace stillroom::ui
