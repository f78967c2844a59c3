#include "core/base/text.h"
#include "core/history/diff.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace stillroom::history {

using quantity::Amount;
using quantity::Measure;
using quantity::Rational;
using spec::Line;
using spec::Measured;
using spec::Method;
using spec::Spec;
using spec::Technique;

namespace {

// "22.5", and "2/3" where no short decimal says it exactly.
std::string number(const Rational& value) {
    const double thousandths = value.toDouble() * 1000;
    if (std::abs(thousandths - std::round(thousandths)) > 1e-6) return value.text();
    return base::shortestDecimal(std::round(thousandths) / 1000);
}

std::string change(std::string_view before, std::string_view after) {
    return fmt::format("{} → {}", before, after);
}

std::string amountNumber(const Measured& measured) {
    const Amount& amount = measured.amount;
    std::string text = number(amount.low);
    if (amount.kind == Amount::Kind::Range) text = fmt::format("{}–{}", text, number(amount.high));
    if (measured.multiplier == Rational(1)) return text;
    return fmt::format("{} × {}", number(measured.multiplier), text);
}

std::string amountText(const Measured& measured) {
    if (!measured.amount.isStated()) return "no amount";
    if (!measured.measure || *measured.measure == Measure::Piece) return amountNumber(measured);
    const auto& info = quantity::measureInfo(*measured.measure);
    const bool one = measured.amount.kind == Amount::Kind::Exact && measured.amount.high == Rational(1);
    return fmt::format("{} {}", amountNumber(measured), one ? info.shown : info.plural);
}

std::string amountChange(const Measured& a, const Measured& b) {
    const bool oneMeasure = a.measure == b.measure && a.amount.isStated() && b.amount.isStated();
    return change(oneMeasure ? amountNumber(a) : amountText(a), amountText(b));
}

std::string oneLine(const Line& line) {
    if (!line.poured.amount.isStated()) return line.name;
    return fmt::format("{} {}", line.name, amountText(line.poured));
}

std::string_view placeText(const Line& line) {
    if (line.optional) return "optional";
    if (line.toTaste) return "to taste";
    return spec::roleId(line.role);
}

// "the same pour but for 0.3 ml": said so, because nobody changed the drink.
std::string restated(const LineDifference& d) {
    const double by = *d.after - *d.before;
    const double tenths = std::round(std::abs(by) * 10) / 10;
    const double shown = tenths > 0 ? tenths : std::round(std::abs(by) * 100) / 100;
    if (shown == 0) return "only the measure";
    const auto& info = quantity::measureInfo(d.measure);
    return fmt::format("only the measure, {} {} {}", base::shortestDecimal(shown), info.shown,
                       by > 0 ? "more" : "less");
}

std::string standIn(const Line& a, const Line& b) {
    if (a.poured == b.poured) return change(a.name, oneLine(b));
    return change(oneLine(a), oneLine(b));
}

std::string stated(const Line& a, const Line& b) {
    const auto strength = [](const std::optional<double>& abv) {
        return abv ? fmt::format("{} %", base::shortestDecimal(*abv)) : std::string("its usual strength");
    };
    if (a.abvStated != b.abvStated)
        return fmt::format(" {}", change(strength(a.abvStated), strength(b.abvStated)));
    return " (size of one)";
}

// "90 → 50 °C"
std::string temperatures(const Line& a, const Line& b) {
    const auto text = [](const Line& line, bool unit) {
        if (!line.temperatureC) return std::string("as it comes");
        return fmt::format("{}{}", base::shortestDecimal(*line.temperatureC), unit ? " °C" : "");
    };
    return change(text(a, !b.temperatureC), text(b, true));
}

std::string fillText(const Line& line) {
    std::string id(spec::qualifierId(line.qualifier));
    std::replace(id.begin(), id.end(), '_', ' ');
    const bool plain = line.qualifier == spec::Qualifier::None || line.qualifier == spec::Qualifier::About ||
                       line.qualifier == spec::Qualifier::Level;
    return plain ? std::string("as measured") : id;
}

std::string alternativesText(const Line& line) {
    if (line.alternatives.empty()) return "nothing else in its place";
    std::string text;
    for (const auto& other : line.alternatives)
        text += fmt::format("{}or {}", text.empty() ? "" : ", ", other.name);
    return text;
}

std::string changedLine(const LineDifference& d, const Line& a, const Line& b) {
    const bool reworded = base::fold(a.name) != base::fold(b.name);
    std::string text = reworded ? change(a.name, b.name) : b.name;
    if (d.renamed && !reworded) text += " (another bottle)";
    if (d.amount && a.poured == b.poured) text += " (what stays of it)";
    if (d.amount && a.poured != b.poured) text += fmt::format(" {}", amountChange(a.poured, b.poured));
    if (d.measureOnly) text += fmt::format(" ({})", restated(d));
    if (d.stated) text += stated(a, b);
    if (d.temperature) text += fmt::format(" {}", temperatures(a, b));
    if (d.fill) text += fmt::format(" {}", change(fillText(a), fillText(b)));
    if (d.alternatives) text += fmt::format(" ({})", alternativesText(b));
    if (d.place) text += fmt::format(" now {}", placeText(b));
    if (d.moved) text += " moved";
    if (d.note && !d.amount && !d.place && !d.moved && !d.renamed && !d.stated && !d.temperature && !d.fill &&
        !d.alternatives)
        text += " (note)";
    return text;
}

std::string_view done(Technique technique) {
    switch (technique) {
    case Technique::None:
        return "no method";
    case Technique::Build:
        return "built";
    case Technique::Stir:
        return "stirred";
    case Technique::Shake:
        return "shaken";
    case Technique::Throw:
        return "thrown";
    case Technique::Blend:
        return "blended";
    case Technique::WaterBath:
        return "warmed in a water bath";
    case Technique::Hot:
        return "hot";
    case Technique::Whip:
        return "whipped";
    case Technique::Clarify:
        return "clarified";
    case Technique::Carbonate:
        return "carbonated";
    }
    return {};
}

std::string seconds(const Method& method) {
    return method.seconds ? fmt::format("{} s", number(*method.seconds)) : "untimed";
}

std::string dilution(const Method& method) {
    if (!method.dilution) return "as predicted";
    return fmt::format("{} %", base::shortestDecimal(std::round(method.dilution->ratio * 1000) / 10));
}

std::string_view orElse(const std::string& text, std::string_view instead) {
    return text.empty() ? instead : std::string_view(text);
}

void addFigure(std::string_view what, const std::optional<double>& a, const std::optional<double>& b,
               std::string_view unit, std::vector<std::string>& words) {
    if (a == b) return;
    const auto text = [](const std::optional<double>& value) {
        return value ? base::shortestDecimal(*value) : std::string("unsaid");
    };
    words.push_back(fmt::format("{} {} {}", what, change(text(a), text(b)), unit));
}

void addMethod(const Method& a, const Method& b, std::vector<std::string>& words) {
    const std::size_t before = words.size();
    if (a.technique != b.technique) words.push_back(change(done(a.technique), done(b.technique)));
    if (a.seconds != b.seconds)
        words.push_back(fmt::format("{} {}", done(b.technique), change(seconds(a), seconds(b))));
    if (a.dilution != b.dilution)
        words.push_back(fmt::format("dilution {}", change(dilution(a), dilution(b))));
    if (a.dryShake != b.dryShake) words.emplace_back(b.dryShake ? "+ dry shake" : "− dry shake");
    if (a.strained != b.strained) words.emplace_back(b.strained ? "strained" : "unstrained");
    if (a.ice != b.ice)
        words.push_back(fmt::format("ice {}", change(orElse(a.ice, "unsaid"), orElse(b.ice, "unsaid"))));
    if (a.drinksPerShake != b.drinksPerShake)
        words.push_back(fmt::format("{} → {} drinks a shake", a.drinksPerShake, b.drinksPerShake));
    if (a.dilutionModel != b.dilutionModel)
        words.push_back(fmt::format("dilution by {} → {}", spec::dilutionModelId(a.dilutionModel),
                                    spec::dilutionModelId(b.dilutionModel)));
    addFigure("ice", a.iceGrams, b.iceGrams, "g", words);
    addFigure("ice", a.iceC, b.iceC, "°C", words);
    if (a.iceWetShare != b.iceWetShare) words.emplace_back(b.iceWetShare ? "wetter or drier ice" : "dry ice");
    if (a.vessel != b.vessel)
        words.push_back(
            fmt::format("vessel {}", change(orElse(a.vessel, "unsaid"), orElse(b.vessel, "unsaid"))));
    addFigure("vessel", a.vesselGrams, b.vesselGrams, "g", words);
    addFigure("liquids at", a.startC, b.startC, "°C", words);
    if (words.size() == before) words.emplace_back("method reworded");
}

std::string textChange(std::string_view what, const std::string& a, const std::string& b) {
    return fmt::format("{} {}", what, change(orElse(a, "none"), orElse(b, "none")));
}

std::string stepKinds(const Spec& spec) {
    std::vector<std::string_view> kinds;
    for (const spec::Step& step : spec.steps)
        kinds.push_back(spec::stepKindId(step.kind));
    return kinds.empty() ? std::string("none") : fmt::format("{}", fmt::join(kinds, ", "));
}

void addSteps(const Spec& a, const Spec& b, std::vector<std::string>& words) {
    if (stepKinds(a) != stepKinds(b)) {
        words.push_back(fmt::format("steps {}", change(stepKinds(a), stepKinds(b))));
        return;
    }
    for (std::size_t i = 0; i < a.steps.size(); ++i) {
        const spec::Step& was = a.steps[i];
        const spec::Step& is = b.steps[i];
        if (was == is) continue;
        const std::size_t before = words.size();
        const auto kind = spec::stepKindId(is.kind);
        addFigure(kind, was.minutes, is.minutes, "min", words);
        addFigure(kind, was.celsius, is.celsius, "°C", words);
        addFigure(kind, was.gotMl, is.gotMl, "ml got", words);
        addFigure(kind, was.gotG, is.gotG, "g got", words);
        if (words.size() == before) words.push_back(fmt::format("{} done otherwise", kind));
    }
}

std::string mlText(const std::optional<double>& ml) {
    return ml ? fmt::format("{} ml", base::shortestDecimal(*ml)) : "unsaid";
}

} // namespace

std::string inWords(const SpecDifference& difference, const Spec& a, const Spec& b) {
    std::vector<std::string> words;
    for (const LineDifference& d : difference.lines) {
        if (d.same || (d.removed && d.insteadOf >= 0)) continue; // said with what stands in its place
        const int from = d.added ? d.insteadOf : d.a;
        const Line* was = from < 0 ? nullptr : &a.lines[static_cast<std::size_t>(from)];
        const Line* is = d.b < 0 ? nullptr : &b.lines[static_cast<std::size_t>(d.b)];
        if (was != nullptr && is != nullptr)
            words.push_back(d.added ? standIn(*was, *is) : changedLine(d, *was, *is));
        else if (is != nullptr)
            words.push_back(fmt::format("+ {}", oneLine(*is)));
        else if (was != nullptr)
            words.push_back(fmt::format("− {}", oneLine(*was)));
    }
    if (difference.method) addMethod(a.method, b.method, words);
    if (a.glass != b.glass)
        words.push_back(textChange("glass", a.glass, b.glass));
    else if (difference.glass)
        words.emplace_back("glass mass, warmth or ice");
    if (difference.garnish) words.push_back(textChange("garnish", a.garnish, b.garnish));
    if (difference.serves) words.push_back(fmt::format("serves {} → {}", a.serves, b.serves));
    if (a.partTargetMl != b.partTargetMl)
        words.push_back(fmt::format("parts fill {}", change(mlText(a.partTargetMl), mlText(b.partTargetMl))));
    if (a.yieldMl != b.yieldMl)
        words.push_back(fmt::format("yield {}", change(mlText(a.yieldMl), mlText(b.yieldMl))));
    if (difference.steps) addSteps(a, b, words);
    if (words.empty()) return "no change";
    return fmt::format("{}", fmt::join(words, "; "));
}

} // namespace stillroom::history
