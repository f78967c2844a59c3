#include "ui/text/working_words.h"

#include "ui/text/border.h"
#include "ui/text/more_words.h"
#include "ui/text/numbers.h"
#include "ui/text/words.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("Working", text);
}

QString withUnit(const QString& figure, const QString& unit) {
    return unit.isEmpty() ? figure : QString(figure + kNarrowSpace + unit);
}

struct FactWords {
    QString name;
    QString unit;
};

FactWords factWords(const std::string& fact, bool dry) {
    const QString per = dry ? u"g/kg"_s : u"g/l"_s;
    if (fact == "abv_percent") return {say("strength"), u"% vol"_s};
    if (fact == "sugar_g_per_l") return {say("sugar"), per};
    if (fact == "acid_g_per_l") return {say("acid"), per};
    if (fact == "density_kg_per_m3") return {say("density"), u"kg/m³"_s};
    if (fact == "fat_g_per_l") return {say("fat"), per};
    if (fact == "protein_g_per_l") return {say("protein"), per};
    if (fact == "carbohydrate_g_per_l") return {say("carbohydrate"), per};
    if (fact == "other_solids_g_per_l") return {say("other solids"), per};
    if (fact == "salt_g_per_l") return {say("salt"), per};
    if (fact == "caffeine_mg_per_l") return {say("caffeine"), dry ? u"mg/kg"_s : u"mg/l"_s};
    if (fact == "co2_g_per_l") return {say("carbon dioxide"), per};
    if (fact == "count") return {say("yield of one piece"), {}};
    if (fact == "rinse") return {say("what a rinse leaves"), u"ml"_s};
    if (fact == "dilution") return {say("predicted dilution"), {}};
    const QString text = fromCore(fact);
    const QString measure = text.mid(text.indexOf(u':') + 1).replace(u'_', u' ');
    return {say("size of a %1").arg(measure), measure == u"pinch" || measure == u"scoop" ? u"g"_s : u"ml"_s};
}

QString shownNumber(const WorkingView& view, double value) {
    if (view.working.more) return number(value, spec::moreDecimals(*view.working.more));
    const auto quantity = view.working.quantity;
    return number(shownValue(quantity, value), shownDecimals(quantity));
}

// "acid of lime juice, 46 to 70 g/l (handbook: …), from 0.61 to 0.93"
QString sourceWords(const WorkingView& view, const spec::SpreadSource& source) {
    const auto line = source.lines.empty() ? std::size_t{0} : static_cast<std::size_t>(source.lines.front());
    const bool dry = !source.lines.empty() && line < view.dry.size() && view.dry[line];
    const auto words = factWords(source.fact, dry);
    const bool ofLine = !source.lines.empty() && source.fact.compare(0, 8, "measure:") != 0 &&
                        source.fact != "rinse" && static_cast<qsizetype>(line) < view.lines.size();
    QString text =
        ofLine ? say("%1 of %2").arg(words.name, view.lines[static_cast<qsizetype>(line)]) : words.name;
    const bool ratio = source.fact == "dilution";
    const auto end = [&](double value) { return ratio ? number(100 * value, 0) : trimmedNumber(value, 2); };
    text += say(", %1 to %2").arg(end(source.low), withUnit(end(source.high), ratio ? u"%"_s : words.unit));
    // The whole source stands with the line's input below; here its first clause.
    const QString from = fromCore(source.source).section(u';', 0, 0).section(u": "_s, 0, 0);
    if (!from.isEmpty()) text += u" ("_s + from + u')';
    const double low = std::min(source.atLow, source.atHigh);
    const double high = std::max(source.atLow, source.atHigh);
    return text + say(", alone: %1 to %2").arg(shownNumber(view, low), shownNumber(view, high));
}

QString ends(const WorkingView& view, const spec::Spread& spread) {
    return say("%1 to %2")
        .arg(shownNumber(view, spread.low), withUnit(shownNumber(view, spread.high), view.unit));
}

QString css(const QFont& font, const QColor& color) {
    QStringList families;
    for (const auto& family : font.families())
        families << u'\'' + family + u'\'';
    return u"font-family:%1; font-size:%2pt; color:%3;"_s.arg(
        families.join(u','), QString::number(font.pointSizeF()), color.name());
}

QString inputNote(const spec::WorkingInput& input) {
    QStringList parts;
    if (!input.detail.empty()) parts << fromCore(input.detail);
    if (!input.source.empty()) parts << fromCore(input.source);
    if (input.estimate && input.source != "assumed") parts << say("assumed");
    return parts.join(u" · "_s);
}

class Html {
  public:
    explicit Html(const Look& look) : m_look(look) {}

    void paragraph(const QString& text, Type type, Token token, int above, int below = 0) {
        m_html += u"<p style=\"%1 margin-top:%2px; margin-bottom:%3px;\">%4</p>"_s.arg(
            style(type, token), pixels(above), pixels(below), text.toHtmlEscaped());
    }
    // The head of a step is the first row of its table: Qt drops a paragraph's margins beside a table.
    void heading(const QString& text, const QString& aside) {
        QString inside = text.toHtmlEscaped();
        if (!aside.isEmpty())
            inside += u"&nbsp;&nbsp;<span style=\"%1 font-weight:400;\">%2</span>"_s.arg(
                style(Type::Caption, Token::Ink2), aside.toHtmlEscaped());
        m_html += u"<tr><td colspan=\"4\" style=\"padding-top:%1px; padding-bottom:%2px;\"><span style=\"%3 "
                  "font-weight:600;\">%4</span></td></tr>"_s.arg(pixels(12), pixels(3),
                                                                 style(Type::Heading, Token::Ink), inside);
    }
    void startTable() { m_html += u"<table width=\"100%\" cellspacing=\"0\" cellpadding=\"0\">"_s; }
    void row(const QString& name, Type voice, const QString& figure, const QString& unit, const QString& note,
             bool result) {
        const Type type = result ? Type::ReadingServed : Type::Reading;
        const QString weight = result ? u" font-weight:700;"_s : QString();
        const QString pad = u" padding-left:%1px;"_s.arg(pixels(14));
        m_html += u"<tr>"_s + cell(30, pad, style(voice, result ? Token::Ink2 : Token::Ink), name) +
                  cell(16, u" text-align:right;"_s, style(type, Token::Ink) + weight, figure, u"right"_s) +
                  cell(12, u" padding-left:%1px;"_s.arg(pixels(6)), style(Type::Unit, Token::Ink3), unit) +
                  cell(42, u" padding-left:%1px;"_s.arg(pixels(8)), style(Type::Caption, Token::Ink2), note) +
                  u"</tr>"_s;
    }
    void endTable() { m_html += u"</table>"_s; }
    QString take() const { return u"<html><body style=\"margin:0\">"_s + m_html + u"</body></html>"_s; }

  private:
    QString pixels(double at100) const { return QString::number(m_look.pxInt(at100)); }
    QString style(Type type, Token token) const { return css(m_look.font(type), m_look.color(token)); }
    static QString cell(int share, const QString& box, const QString& style, const QString& text,
                        const QString& align = u"left"_s) {
        return u"<td width=\"%1%\" align=\"%2\" valign=\"top\" style=\"%3\"><span style=\"%4\">%5</span></td>"_s
            .arg(QString::number(share), align, box, style, text.toHtmlEscaped());
    }

    const Look& m_look;
    QString m_html;
};

} // namespace

namespace {

// Of a Quantity or a More alike.
template <class Which>
WorkingView viewOf(const spec::Spec& spec, const spec::Bindings& bindings, Which which, spec::Stage stage,
                   const QString& unit) {
    WorkingView view;
    view.working = spec::working(spec, bindings, which, stage);
    view.spread = spec::spread(spec, bindings, which, stage);
    view.withPrediction = spec::spread(spec, bindings, which, stage, {.dilution = true});
    view.unit = unit;
    for (std::size_t i = 0; i < spec.lines.size(); ++i) {
        const auto* poured = bindings.poured(i);
        const auto& line = spec.lines[i];
        view.lines << fromCore(poured ? poured->name : line.name.empty() ? line.written : line.name);
        view.dry.push_back(poured && poured->facts.dry);
    }
    return view;
}

} // namespace

WorkingView workingView(const spec::Spec& spec, const spec::Bindings& bindings, spec::Quantity quantity,
                        spec::Stage stage, const QString& unit) {
    return viewOf(spec, bindings, quantity, stage, unit);
}

WorkingView workingView(const spec::Spec& spec, const spec::Bindings& bindings, spec::More more,
                        spec::Stage stage, const QString& unit) {
    return viewOf(spec, bindings, more, stage, unit);
}

QString workingName(const WorkingView& view) {
    const auto& working = view.working;
    return say("%1, %2").arg(working.more ? moreName(*working.more) : quantityName(working.quantity),
                             stageName(working.stage));
}

QString workingReading(const WorkingView& view) {
    const auto& reading = view.working.reading;
    if (reading.bound == spec::Bound::Unknown) return say("not known");
    if (reading.bound == spec::Bound::NotApplicable) return say("does not apply");
    const auto& more = view.working.more;
    const auto text =
        more ? readingText(reading, spec::moreDecimals(*more)) : readingText(reading, view.working.quantity);
    return withUnit(text.plain(), view.unit);
}

QString noteWords(const WorkingView& view) {
    if (!view.working.more) return {};
    QString note = moreNoteWords(*view.working.more);
    if (note.isEmpty()) return note;
    note[0] = note[0].toUpper();
    return note + u'.';
}

QString boundWords(const WorkingView& view) {
    const auto& reading = view.working.reading;
    // What makes a bound of these is said by their note and their last step.
    if (view.working.more == spec::More::Ph || view.working.more == spec::More::Caffeine ||
        view.working.more == spec::More::Co2GPerL || view.working.more == spec::More::Co2Volumes)
        if (reading.bound != spec::Bound::Unknown && reading.bound != spec::Bound::NotApplicable) return {};
    QStringList parts;
    switch (reading.bound) {
    case spec::Bound::AtLeast:
        parts << say("At least this: what nobody stated can only raise it.");
        break;
    case spec::Bound::AtMost:
        parts << say("At most this: what nobody stated can only lower it.");
        break;
    case spec::Bound::Between:
        parts << say("Between these two: the spec leaves that much open.");
        break;
    case spec::Bound::Unknown:
        parts << say("What it needs is not stated, and without it no number is sure.");
        break;
    case spec::Bound::NotApplicable:
        parts << say("There is nothing of this kind to read at this stage.");
        break;
    case spec::Bound::Exact:
        break;
    }
    QStringList missing;
    for (qsizetype i = 0; i < std::min<qsizetype>(view.lines.size(), 63); ++i)
        if (reading.gapLines >> i & 1U) missing << view.lines[i];
    if (!missing.isEmpty()) parts << say("A fact is missing for %1.").arg(missing.join(u", "_s));
    if (reading.estimate)
        parts << say("An estimate: a figure is assumed, or a formula is used outside its range.");
    return parts.join(u' ');
}

QStringList spreadWords(const WorkingView& view) {
    QStringList sentences;
    const auto& spread = view.spread;
    if (!spread.applies) return sentences;
    if (spread.sources.empty()) {
        sentences << say("No fact behind it states a range, so the facts do not spread it.");
    } else {
        sentences << say("%1 at the usual facts; their ranges leave %2.")
                         .arg(shownNumber(view, spread.central), ends(view, spread));
        sentences << say("What moves it most: %1.").arg(sourceWords(view, spread.sources.front()));
        if (spread.sources.size() > 1)
            sentences << say("Then: %1.").arg(sourceWords(view, spread.sources[1]));
    }
    const auto& predicted = view.withPrediction;
    const auto isDilution = [](const spec::SpreadSource& source) { return source.fact == "dilution"; };
    const auto off = std::find_if(predicted.sources.begin(), predicted.sources.end(), isDilution);
    if (off != predicted.sources.end())
        sentences << say("Beside the facts, %1. Together with the facts: %2.")
                         .arg(sourceWords(view, *off), ends(view, predicted));
    return sentences;
}

QString stepNumber(double value, const QString& unit, int decimals) {
    const bool count = unit.isEmpty() && std::abs(value - std::round(value)) < 1e-9;
    return count ? number(value, 0) : number(value, std::clamp(decimals, 0, 6));
}

QString workingPlain(const WorkingView& view) {
    QStringList parts{say("%1: %2").arg(workingName(view), workingReading(view))};
    if (const auto note = noteWords(view); !note.isEmpty()) parts << note;
    if (const auto bound = boundWords(view); !bound.isEmpty()) parts << bound;
    parts += spreadWords(view);
    return parts.join(u'\n') + u"\n\n"_s + fromCore(spec::workingText(view.working));
}

QString workingHtml(const WorkingView& view, const Look& look) {
    Html html(look);
    if (const auto note = noteWords(view); !note.isEmpty())
        html.paragraph(note, Type::Control, Token::Ink, 0, 4);
    if (const auto bound = boundWords(view); !bound.isEmpty())
        html.paragraph(bound, Type::Control, Token::Ink, 0, 4);
    for (const auto& sentence : spreadWords(view))
        html.paragraph(sentence, Type::Control, Token::Ink2, 0, 2);
    int count = 0;
    for (const auto& step : view.working.steps) {
        html.startTable();
        html.heading(u"%1  %2"_s.arg(QString::number(++count), fromCore(step.label)), fromCore(step.formula));
        for (const auto& input : step.inputs) {
            const QString unit = fromCore(input.unit);
            const bool bare = step.op == spec::WorkingStep::Op::Bound;
            html.row(fromCore(input.name), Type::Reading,
                     bare ? QString() : stepNumber(input.value, unit, std::max(step.decimals, 3)),
                     bare ? QString() : unit, inputNote(input), false);
        }
        if (step.factor != 1)
            html.row(say("times"), Type::Reading, QString::number(step.factor, 'g', 7), {}, {}, false);
        html.row(u"="_s, Type::Reading, stepNumber(step.result, fromCore(step.unit), step.decimals),
                 fromCore(step.unit), step.estimate ? say("estimate") : QString(), true);
        html.endTable();
    }
    int above = 12;
    for (const auto& note : view.working.notes) {
        html.paragraph(fromCore(note), Type::Caption, Token::Ink2, above);
        above = 2;
    }
    return html.take();
}

} // namespace stillroom::ui
