#include "ui/dialogs/paste_row.h"

#include "ui/delegates/paint_text.h"
#include "ui/panels/question_strip.h"
#include "ui/text/amounts.h"
#include "ui/text/border.h"
#include "ui/text/words.h"
#include "ui/theme/icons.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"
#include "ui/widgets/answer_button.h"

#include <QFontDatabase>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPainter>
#include <QPushButton>

namespace stillroom::ui {

namespace {

using exchange::ReadKind;

constexpr double kRow = 38;
constexpr double kSaying = 62;
constexpr double kAsking = 92;

QString kindNote(ReadKind kind) {
    switch (kind) {
    case ReadKind::Title:
        return PasteRow::tr("name");
    case ReadKind::Method:
        return PasteRow::tr("method");
    case ReadKind::Heading:
        return PasteRow::tr("heading");
    case ReadKind::Note:
        return PasteRow::tr("note");
    case ReadKind::Refused:
        return PasteRow::tr("refused");
    case ReadKind::Unread:
        return PasteRow::tr("not understood, kept as a note");
    default:
        return {};
    }
}

} // namespace

PasteRow::PasteRow(int number, const PasteReading::Row& row, const std::optional<spec::Line>& line,
                   const QString& matchedName, const QString& name, QWidget* parent)
    : QWidget(parent),
      m_number(number),
      m_row(row),
      m_line(line),
      m_matched(matchedName),
      m_name(name) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setAccessibleName(tr("Line %1: %2").arg(number).arg(fromCore(row.read.raw)));
    setAccessibleDescription(!refusal().isEmpty() ? refusal()
                             : line               ? tr("read as %1").arg(readingInWords(*line))
                                                  : kindNote(row.read.kind));
    const bool offers = (m_row.asks || m_row.doubtful) && !m_row.answered;
    if (offers && m_row.choices.size() > 1)
        addAnswers();
    else if (offers && m_row.asks)
        addAnswers();
}

double PasteRow::rawWidth(double width) {
    return std::min(width * 0.36, Theme::current().px(396));
}

QSize PasteRow::sizeHint() const {
    const bool asking = (m_row.asks || m_row.doubtful) && !m_row.answered;
    const double height = !asking                ? (refusal().isEmpty() ? kRow : kSaying)
                          : m_answers != nullptr ? kAsking
                                                 : kSaying;
    return {Theme::current().pxInt(400), Theme::current().pxInt(height)};
}

QString PasteRow::refusal() const {
    if (m_row.read.kind == ReadKind::Refused)
        return tr("%1 It goes into the notes as written.").arg(refusalInWords(m_row.read));
    return {};
}

void PasteRow::addAnswers() {
    m_answers = new QWidget(this);
    auto* layout = new QHBoxLayout(m_answers);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(8);
    for (std::size_t i = 0; i < m_row.choices.size() && i < 9; ++i) {
        const bool fused = i == 0 && m_row.read.kind == ReadKind::Fused;
        auto* button =
            new AnswerButton(QString::number(i + 1),
                             fused ? partsInWords(m_row.read) : readingInWords(m_row.choices[i]), m_answers);
        button->setFocusPolicy(Qt::TabFocus);
        connect(button, &QPushButton::clicked, this, [this, i] { Q_EMIT answered(static_cast<int>(i)); });
        layout->addWidget(button);
    }
    layout->addStretch(1);
}

void PasteRow::setCurrent(bool current) {
    m_current = current;
    update();
}

void PasteRow::startRewriting() {
    if (m_edit == nullptr) {
        m_edit = new QLineEdit(fromCore(m_row.read.raw), this);
        m_edit->setAccessibleName(tr("Write line %1 yourself").arg(m_number));
        connect(m_edit, &QLineEdit::returnPressed, this, [this] { Q_EMIT rewritten(m_edit->text()); });
    }
    const auto& theme = Theme::current();
    m_edit->setGeometry(theme.pxInt(34), theme.pxInt(5),
                        static_cast<int>(rawWidth(width())) - theme.pxInt(44), theme.pxInt(28));
    m_edit->show();
    m_edit->setFocus();
}

void PasteRow::resizeEvent(QResizeEvent*) {
    if (m_answers == nullptr) return;
    const auto& theme = Theme::current();
    const int left = static_cast<int>(rawWidth(width())) + theme.pxInt(98);
    m_answers->setGeometry(left, theme.pxInt(56), width() - left - theme.pxInt(8), theme.pxInt(28));
}

QString PasteRow::question() const {
    QStringList questions;
    const auto gather = [&](const exchange::ReadLine& read) {
        for (const auto& doubt : read.doubts)
            if (doubt.weight != exchange::DoubtWeight::Note)
                questions << doubtQuestion(doubt, fromCore(read.raw));
    };
    gather(m_row.read);
    for (const auto& part : m_row.read.parts)
        gather(part);
    if (questions.isEmpty()) return tr("How is this meant?");
    return questions.join(QLatin1Char(' '));
}

void PasteRow::paintReading(QPainter& painter, double left, double right, const QColor& ink) const {
    const Look& look = Theme::current().look();
    const double height = look.px(kRow);
    const auto box = [&](double from, double to) {
        return QRectF(from, 0, std::max(0.0, to - from), height);
    };
    if (!m_line) {
        const bool title = m_row.read.kind == ReadKind::Title;
        QFont font = look.font(title ? Type::Title : Type::Body);
        if (title) font.setPixelSize(look.pxInt(19));
        const QString text = title ? m_name : fromCore(m_row.read.raw).trimmed();
        const double width = paintText(painter, box(left, right), text, font, ink);
        paintText(painter, box(left + width + look.px(10), right), kindNote(m_row.read.kind),
                  look.font(Type::Caption), look.color(Token::Ink3));
        return;
    }
    const double split = left + look.px(56);
    paintText(painter, box(left - look.px(10), split), amountNumber(m_line->poured), look.font(Type::Amount),
              ink, Qt::AlignRight);
    const double roleLeft = right - look.px(80);
    const double unit = paintText(painter, box(split + look.px(5), roleLeft), amountUnit(m_line->poured),
                                  look.font(Type::Body), look.color(Token::Ink2));
    const double nameLeft = split + std::max(look.px(62), unit + look.px(13));
    const double width =
        paintText(painter, box(nameLeft, roleLeft), fromCore(m_line->name), look.font(Type::Line), ink);
    paintText(painter, box(nameLeft + width + look.px(8), roleLeft), m_matched, look.font(Type::Unit),
              look.color(Token::Ink3));
    paintText(painter, box(roleLeft, right), roleName(m_line->role), look.font(Type::Control),
              look.color(Token::Ink2), Qt::AlignRight);
}

void PasteRow::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const Look& look = Theme::current().look();
    const double raw = rawWidth(width());
    const bool asking = m_row.asks && !m_row.answered;
    const bool doubtful = m_row.doubtful && !m_row.answered && !asking;
    painter.fillRect(rect(), look.color(Token::Page));
    QColor ink = look.color(Token::Ink);
    if (asking || doubtful) {
        painter.fillRect(QRectF(raw, 0, width() - raw, height()),
                         look.color(asking ? Token::GapSoft : Token::CautionSoft));
        painter.fillRect(QRectF(raw, 0, look.px(4), height()),
                         look.color(asking ? Token::Gap : Token::Caution));
        if (doubtful) ink = look.color(Token::OnCaution);
    }
    const double row = look.px(kRow);
    paintText(painter, QRectF(look.px(8), 0, look.px(22), row), QString::number(m_number),
              look.font(Type::Caption), look.color(Token::Ink3), Qt::AlignRight);
    QFont mono = QFontDatabase::systemFont(QFontDatabase::FixedFont);
    mono.setPixelSize(look.pxInt(13));
    if (m_edit == nullptr || !m_edit->isVisible())
        paintText(painter, QRectF(look.px(40), 0, raw - look.px(48), row), fromCore(m_row.read.raw), mono,
                  look.color(Token::Ink2));
    const QRectF mark(raw + look.px(15), row / 2 - look.px(8), look.px(16), look.px(16));
    if (asking) {
        painter.setPen(look.pen(Token::Gap, 1));
        painter.drawRoundedRect(mark, look.px(2), look.px(2));
        paintText(painter, mark, QStringLiteral("?"), look.font(Type::Caption), look.color(Token::Gap),
                  Qt::AlignHCenter);
    } else if (doubtful) {
        paintText(painter, mark, QStringLiteral("!"), look.font(Type::ReadingServed),
                  look.color(Token::Caution), Qt::AlignHCenter);
    } else if (m_row.read.kind == ReadKind::Refused || m_row.read.kind == ReadKind::Unread) {
        paintText(painter, mark, QString(kEmDash), look.font(Type::Reading), look.color(Token::Error),
                  Qt::AlignHCenter);
    } else {
        painter.setRenderHint(QPainter::Antialiasing);
        painter.setPen(look.pen(Token::Ink2, 1.5));
        painter.drawPolyline(QPolygonF({mark.topLeft() + QPointF(look.px(2), look.px(9)),
                                        mark.topLeft() + QPointF(look.px(6), look.px(13)),
                                        mark.topLeft() + QPointF(look.px(14), look.px(4))}));
        painter.setRenderHint(QPainter::Antialiasing, false);
    }
    paintReading(painter, raw + look.px(46), width() - look.px(16), ink);
    if (asking || doubtful) {
        QFont strong = look.font(Type::Control);
        strong.setBold(true);
        paintText(painter, QRectF(raw + look.px(98), look.px(34), width() - raw - look.px(110), look.px(18)),
                  question(), strong, ink);
    }
    if (!refusal().isEmpty())
        paintText(painter, QRectF(raw + look.px(46), look.px(34), width() - raw - look.px(58), look.px(18)),
                  refusal(), look.font(Type::Control), look.color(Token::Error));
    painter.fillRect(QRectF(0, height() - 1, width(), 1), look.color(Token::Rule));
    painter.fillRect(QRectF(raw, 0, 1, height()), look.color(Token::Rule));
    if (m_current)
        paintFocusFrame(
            painter, QRectF(raw + look.px(8), look.px(3), width() - raw - look.px(12), height() - look.px(8)),
            look);
}

} // namespace stillroom::ui
