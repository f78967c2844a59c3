#include "ui/panels/side_by_side/print.h"

#include "core/spec/caution.h"
#include "ui/panels/side_by_side/side_view.h"
#include "ui/plots/plot_text.h"
#include "ui/text/border.h"

#include <QPagedPaintDevice>
#include <QPainter>

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

// Where a page may end: at the top of a row, never inside one.
std::vector<double> pageTops(const SideLayout& layout, double first, double page) {
    std::vector<double> breaks = layout.tops;
    breaks.push_back(layout.scoresTop - 8);
    breaks.push_back(layout.notesTop - 12);
    std::sort(breaks.begin(), breaks.end());
    std::vector<double> tops{0};
    double room = first;
    while (layout.height - tops.back() > room) {
        double next = tops.back() + room; // a row taller than a page is cut
        for (const double at : breaks)
            if (at > tops.back() && at <= tops.back() + room) next = at;
        if (next <= tops.back()) next = tops.back() + room;
        tops.push_back(next);
        room = page;
    }
    return tops;
}

struct Sentence {
    QString text;
    Type type = Type::Body;
};

std::vector<Sentence> sentencesOf(const SideTable& table) {
    std::vector<Sentence> all;
    for (const auto& finding : table.findings)
        all.push_back({finding.fact + u' ' + finding.consequence});
    all.push_back({u"Allergens"_s, Type::Heading});
    for (const auto& sentence : table.allergens)
        all.push_back({sentence});
    if (!table.cautions.isEmpty()) {
        all.push_back({u"Cautions gained or lost"_s, Type::Heading});
        for (const auto& sentence : table.cautions)
            all.push_back({sentence});
    }
    all.push_back({fromCore(spec::deferenceText()), Type::Caption});
    return all;
}

} // namespace

int printSideBySide(QPagedPaintDevice& device, const SideBySideValues& values, bool onlyDifferences) {
    if (values.columns.empty()) return 0;
    QPainter painter;
    if (!painter.begin(&device)) return 0;
    // Laid out as on a screen of this many pixels and scaled to the paper: names, numbers and their places
    // keep their proportions on every format.
    const double width = values.columns.size() > 2 ? 1120 : 860;
    const double scale = painter.viewport().width() / width;
    const double pageHeight = painter.viewport().height() / scale;
    painter.scale(scale, scale);
    const auto look = Look::of(Mode::Light, 1.0, 72);
    const auto table = sideTable(values);
    const auto layout = sideLayout(values, table, width, onlyDifferences, look);
    const double head = look.px(56);
    drawLabel(painter, QPointF(look.px(14), look.px(18)), Stand::Left, values.drink, Type::Title, Token::Ink,
              look, width - look.px(28));
    QString about = perWord(values.per);
    if (onlyDifferences) about += u", only differences"_s;
    // The row that says it may be left out as one that does not differ.
    const QString& credit = values.columns[values.base].credit;
    if (onlyDifferences && !credit.isEmpty()) about += u" · "_s + credit;
    drawLabel(painter, QPointF(look.px(14), look.px(43)), Stand::Left, about, Type::Control, Token::Ink2,
              look, width - look.px(28));
    int pages = 1;
    double bottom = head;
    const auto tops = pageTops(layout, pageHeight - head, pageHeight);
    for (std::size_t page = 0; page < tops.size(); ++page) {
        if (page > 0) {
            device.newPage();
            ++pages;
        }
        const double from = tops[page];
        const double to = page + 1 < tops.size() ? tops[page + 1] : layout.height;
        const double top = page == 0 ? head : 0;
        painter.save();
        painter.translate(0, top - from);
        painter.setClipRect(QRectF(0, from, width, to - from));
        paintSideBySide(painter, values, table, layout, QRectF(0, from, width, to - from), look);
        painter.restore();
        bottom = top + to - from;
    }
    double y = bottom + look.px(10);
    for (const auto& sentence : sentencesOf(table)) {
        const double height = paragraphHeight(sentence.text, sentence.type, look, width - look.px(28));
        if (y + height > pageHeight) {
            device.newPage();
            ++pages;
            y = look.px(10);
        }
        y += drawParagraph(painter, QPointF(look.px(14), y), width - look.px(28), sentence.text,
                           sentence.type, Token::Ink, look) +
             look.px(4);
    }
    return pages;
}

} // namespace stillroom::ui
