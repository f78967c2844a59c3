#include "ui/panels/question_strip.h"

#include "ui/text/amounts.h"
#include "ui/text/border.h"
#include "ui/text/words.h"
#include "ui/theme/theme.h"
#include "ui/widgets/answer_button.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>

namespace stillroom::ui {

QString readingInWords(const spec::Line& line) {
    // With its measure, always: "5 oz (weight)" and "5 floz" are the question.
    const QString amount =
        QString(amountNumber(line.poured) + QLatin1Char(' ') + amountUnit(line.poured)).trimmed();
    const QString name = fromCore(line.name);
    return amount.isEmpty() ? name : QString(amount + QLatin1Char(' ') + name);
}

QString partsInWords(const exchange::ReadLine& fused) {
    QStringList words;
    for (const auto& part : fused.parts)
        words << readingInWords(part.line);
    return words.join(QStringLiteral("  +  "));
}

QuestionStrip::QuestionStrip(QWidget* parent)
    : QWidget(parent),
      m_question(new QLabel(this)),
      m_buttons(new QHBoxLayout) {
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("Question about a line"));
    m_question->setWordWrap(true);
    m_question->setFont(Theme::current().font(Type::Control));
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(18, 8, 12, 8);
    layout->addWidget(m_question);
    layout->addLayout(m_buttons);
    hide();
}

void QuestionStrip::ask(int row, const LineEntry& entry, const larder::Larder& larder) {
    m_row = row;
    m_text = fromCore(entry.read.raw);
    m_choices.clear();
    while (auto* item = m_buttons->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    QStringList questions;
    const auto gather = [&](const exchange::ReadLine& read) {
        for (const auto& doubt : read.doubts)
            if (doubt.weight != exchange::DoubtWeight::Note)
                questions << doubtQuestion(doubt, fromCore(read.raw));
    };
    gather(entry.read);
    for (const auto& part : entry.read.parts)
        gather(part);
    if (questions.isEmpty()) questions << tr("How is this meant?");
    m_question->setText(QStringLiteral("<b>") + questions.first().toHtmlEscaped() + QStringLiteral("</b> ") +
                        questions.mid(1).join(QLatin1Char(' ')).toHtmlEscaped());
    m_choices.push_back(entry.lines);
    for (const auto& other : entry.read.otherReadings) {
        exchange::ReadLine read = entry.read;
        read.line = other;
        read.unsure = false;
        m_choices.push_back(matched(read, larder));
    }
    for (std::size_t i = 0; i < m_choices.size(); ++i) {
        if (m_choices[i].empty()) continue;
        QStringList words;
        for (const auto& line : m_choices[i])
            words << readingInWords(line);
        auto* button = new AnswerButton(QString::number(i + 1), words.join(QStringLiteral("  +  ")), this);
        connect(button, &QPushButton::clicked, this, [this, i] { choose(i); });
        m_buttons->addWidget(button);
    }
    auto* back = new AnswerButton(tr("Esc"), tr("write it again"), this);
    connect(back, &QPushButton::clicked, this, [this] {
        hide();
        Q_EMIT withdrawn(m_row, m_text);
    });
    m_buttons->addWidget(back);
    m_buttons->addStretch(1);
    show();
    setFocus(Qt::OtherFocusReason);
}

void QuestionStrip::choose(std::size_t index) {
    if (index >= m_choices.size()) return;
    hide();
    Q_EMIT answered(m_row, m_choices[index]);
}

void QuestionStrip::keyPressEvent(QKeyEvent* event) {
    if (event->key() >= Qt::Key_1 && event->key() <= Qt::Key_9) {
        choose(static_cast<std::size_t>(event->key() - Qt::Key_1));
        return;
    }
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        choose(0);
        return;
    }
    if (event->key() == Qt::Key_Escape) {
        hide();
        Q_EMIT withdrawn(m_row, m_text);
        return;
    }
    QWidget::keyPressEvent(event);
}

void QuestionStrip::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const Look& look = Theme::current().look();
    painter.fillRect(rect(), look.color(Token::GapSoft));
    painter.fillRect(QRectF(0, 0, look.px(4), height()), look.color(Token::Gap));
}

} // namespace stillroom::ui
