// Sheets, key and result on paper.
#include "core/tasting/panel_words.h"
#include "core/tasting/phrases.h"
#include "core/tasting/sheet_words.h"
#include "ui/panels/blind/paper_dialog.h"
#include "ui/panels/blind/result_values.h"
#include "ui/plots/plot_text.h"
#include "ui/text/border.h"

#include <QPagedPaintDevice>
#include <QPainter>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using tasting::MarkSort;

namespace {

// Text flows down the page, and a block that does not fit begins the next. Laid out as on a screen of this
// many pixels and scaled to the paper, so that type keeps its proportions on every format.
constexpr double kWidth = 700;

class Flow {
  public:
    explicit Flow(QPagedPaintDevice& device) : m_device(device), m_look(Look::of(Mode::Light, 1.0, 72)) {
        m_open = m_painter.begin(&device);
        if (!m_open) return;
        const double scale = m_painter.viewport().width() / kWidth;
        m_height = m_painter.viewport().height() / scale;
        m_painter.scale(scale, scale);
    }

    bool isOpen() const { return m_open; }
    int pages() const { return m_open ? m_pages : 0; }
    QPainter& painter() { return m_painter; }
    const Look& look() const { return m_look; }
    double y() const { return m_y; }
    void space(double height) { m_y += height; }
    bool atTop() const { return m_y == 0; }

    void need(double height) {
        if (m_y + height <= m_height || atTop()) return;
        m_device.newPage();
        ++m_pages;
        m_y = 0;
    }

    void text(const QString& words, Type type, Token ink = Token::Ink, double indent = 0) {
        const double height = heightOf(words, type, indent);
        need(height);
        drawParagraph(m_painter, {indent, m_y}, kWidth - indent, words, type, ink, m_look);
        m_y += height + 3;
    }
    double heightOf(const QString& words, Type type, double indent = 0) const {
        return paragraphHeight(words, type, m_look, kWidth - indent);
    }

  private:
    QPagedPaintDevice& m_device;
    Look m_look;
    QPainter m_painter;
    bool m_open = false;
    double m_height = 0;
    double m_y = 0;
    int m_pages = 1;
};

QString anchorText(const std::vector<tasting::SheetWords::Anchor>& anchors) {
    QStringList parts;
    for (const auto& anchor : anchors)
        parts << u"%1 %2"_s.arg(anchor.mark).arg(fromCore(anchor.words));
    return parts.join(u"   "_s);
}

// One taster's sheet: nothing on it depends on what is in the cups.
class Sheet {
  public:
    Sheet(Flow& flow, const BlindSession& session, std::size_t at) : m_flow(flow) {
        const auto& panel = session.panel;
        const auto made = tasting::tasterSheet(panel, panel.design.tasters[at]);
        if (!made) return;
        m_sheet = *made;
        m_words = tasting::inWords(m_sheet);
        m_name = fromCore(session.names.tasters[at]);
        for (const auto& caution : session.names.cautions)
            m_cautions << fromCore(caution);
    }

    void draw() {
        if (!m_flow.atTop()) cutLine();
        m_flow.need(height());
        m_flow.text(m_name, Type::Title);
        m_flow.text(fromCore(m_words.question), Type::Line);
        m_flow.space(4);
        for (const auto& step : m_words.steps)
            m_flow.text(fromCore(step), Type::Control, Token::Ink2);
        if (!m_words.anchors.empty()) m_flow.text(anchorText(m_words.anchors), Type::Control);
        if (!m_words.likingAnchors.empty()) m_flow.text(anchorText(m_words.likingAnchors), Type::Control);
        m_flow.space(10);
        cups();
        for (const QString& caution : m_cautions)
            m_flow.text(caution, Type::Control);
        m_flow.space(4);
        m_flow.text(QObject::tr("note"), Type::Caption, Token::Ink2);
        m_flow.space(18);
        rule(kWidth);
        m_flow.space(22);
    }

  private:
    static constexpr double kCupWidth = 86;
    static constexpr double kCupHeight = 92;

    bool twoMarks() const { return m_sheet.kind == tasting::PanelKind::JustAboutRight; }

    double height() const {
        double sum =
            m_flow.heightOf(m_name, Type::Title) + m_flow.heightOf(fromCore(m_words.question), Type::Line);
        for (const auto& step : m_words.steps)
            sum += m_flow.heightOf(fromCore(step), Type::Control) + 3;
        for (const auto* anchors : {&m_words.anchors, &m_words.likingAnchors})
            if (!anchors->empty()) sum += m_flow.heightOf(anchorText(*anchors), Type::Control) + 3;
        for (const QString& caution : m_cautions)
            sum += m_flow.heightOf(caution, Type::Control) + 3;
        return sum + kCupHeight + 104;
    }

    void rule(double to) {
        m_flow.painter().setPen(m_flow.look().pen(Token::RuleStrong, 1));
        m_flow.painter().drawLine(QPointF(0, m_flow.y()), QPointF(to, m_flow.y()));
    }

    void cutLine() {
        m_flow.need(30);
        if (m_flow.atTop()) return;
        auto pen = m_flow.look().pen(Token::RuleStrong, 1);
        pen.setDashPattern({6, 5});
        m_flow.painter().setPen(pen);
        m_flow.painter().drawLine(QPointF(0, m_flow.y()), QPointF(kWidth, m_flow.y()));
        m_flow.space(20);
    }

    // In the order of tasting, each code over the place for its mark.
    void cups() {
        auto& painter = m_flow.painter();
        const auto& look = m_flow.look();
        double x = 0;
        const double y = m_flow.y();
        painter.setRenderHint(QPainter::Antialiasing);
        const auto cup = [&](const QString& code, bool marked) {
            painter.setBrush(Qt::NoBrush);
            painter.setPen(look.pen(Token::RuleStrong, 1));
            painter.drawRect(QRectF(x, y, kCupWidth - 8, kCupHeight - 12));
            drawLabel(painter, {x + kCupWidth / 2 - 4, y + 20}, Stand::Centre, code, Type::Title, Token::Ink,
                      look);
            if (marked) mark(x, y);
            x += kCupWidth;
        };
        if (m_sheet.hasReference) cup(u"R"_s, false);
        for (const int code : m_sheet.codes)
            cup(QString::number(code), true);
        m_flow.space(kCupHeight);
    }

    void mark(double x, double y) {
        auto& painter = m_flow.painter();
        const auto& look = m_flow.look();
        const auto asked = tasting::askedMark(m_sheet.kind, m_sheet.codes.size());
        painter.setPen(look.pen(Token::Ink, 1.2));
        if (asked.sort == MarkSort::Chosen) {
            painter.drawEllipse(QPointF(x + kCupWidth / 2 - 4, y + 56), 11, 11);
            return;
        }
        const auto line = [&](double from, double to, const QString& words) {
            painter.setPen(look.pen(Token::Ink, 1.2));
            painter.drawLine(QPointF(from, y + 62), QPointF(to, y + 62));
            drawLabel(painter, {(from + to) / 2, y + 72}, Stand::Centre, words, Type::Axis, Token::Ink2,
                      look);
        };
        if (twoMarks()) {
            line(x + 6, x + 34, QObject::tr("right"));
            line(x + 44, x + 72, QObject::tr("liking"));
        } else {
            line(x + 14, x + kCupWidth - 22, QObject::tr("%1 to %2").arg(asked.low).arg(asked.high));
        }
    }

    Flow& m_flow;
    tasting::TasterSheet m_sheet;
    tasting::SheetWords m_words;
    QString m_name;
    QStringList m_cautions;
};

void drawKey(Flow& flow, const BlindSession& session) {
    flow.text(QObject::tr("Pourer’s key: %1").arg(fromCore(session.summary.name)), Type::Title);
    flow.text(QObject::tr("Not for anyone who tastes or takes answers down."), Type::Line);
    flow.space(8);
    const auto& panel = session.panel;
    const auto productName = [&](const base::RevisionId& id) {
        const auto& all = panel.design.products;
        const auto at = static_cast<std::size_t>(std::find(all.begin(), all.end(), id) - all.begin());
        return fromCore(session.names.products[at]);
    };
    const auto cups = tasting::cupsOfEach(panel);
    for (std::size_t i = 0; i < cups.size(); ++i)
        flow.text(u"%1 × %2"_s.arg(cups[i]).arg(fromCore(session.names.products[i])), Type::Line);
    flow.space(10);
    const auto rows = tasting::pourersKey(panel);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        QStringList parts;
        if (rows[i].reference) parts << u"R "_s + productName(*rows[i].reference);
        for (const auto& cup : rows[i].cups)
            parts << u"%1 %2"_s.arg(cup.code).arg(productName(cup.product));
        const QString line = parts.join(u"    "_s);
        flow.need(flow.heightOf(line, Type::Reading, 16) + 26);
        flow.text(fromCore(session.names.tasters[i]), Type::Line);
        flow.text(line, Type::Reading, Token::Ink, 16);
    }
    flow.space(12);
    for (const auto& advice : tasting::pouringAdvice(panel))
        flow.text(fromCore(advice), Type::Control);
    for (const auto& caution : session.names.cautions)
        flow.text(fromCore(caution), Type::Control);
}

void drawResult(Flow& flow, const BlindSession& session) {
    const auto result = tasting::result(session.panel);
    const auto answers = tasting::openedAnswers(session.panel);
    if (!result || !answers) return;
    flow.text(fromCore(session.summary.name), Type::Line);
    flow.text(fromCore(tasting::headline(*result, session.names.products)), Type::Title);
    for (const auto& sentence : tasting::inWords(*result, session.names.products))
        flow.text(fromCore(sentence), Type::Reading);
    flow.space(8);
    if (const auto values = chanceValues(*result, session.names)) {
        constexpr double kHeight = 220;
        flow.need(kHeight);
        paintChance(flow.painter(), QRectF(0, flow.y(), kWidth, kHeight), *values, flow.look());
        flow.space(kHeight + 8);
    }
    if (const auto values = productScaleValues(*result, session.names)) {
        const double height = 100 + 30 * static_cast<double>(values->rows.size());
        flow.need(height);
        paintProductScale(flow.painter(), QRectF(0, flow.y(), kWidth, height), *values, flow.look());
        flow.space(height + 8);
    }
    for (std::size_t i = 0; i < answers->size(); ++i)
        flow.text(u"%1: %2"_s.arg(
                      fromCore(session.names.tasters[i]),
                      fromCore(tasting::answerText(session.panel.design.kind, (*answers)[i], session.names))),
                  Type::Reading);
}

} // namespace

int drawPanelPaper(QPagedPaintDevice& device, PaperKind kind, const BlindSession& session) {
    Flow flow(device);
    if (!flow.isOpen()) return 0;
    if (kind == PaperKind::Sheets)
        for (std::size_t i = 0; i < session.panel.servings.size(); ++i)
            Sheet(flow, session, i).draw();
    else if (kind == PaperKind::Key)
        drawKey(flow, session);
    else
        drawResult(flow, session);
    return flow.pages();
}

} // namespace stillroom::ui
