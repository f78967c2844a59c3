#include "app/headless/made_out.h"

#include "app/headless/command.h"
#include "app/headless/text_out.h"

#include "core/preparation/spec_ratio.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <ostream>
#include <vector>

namespace stillroom::headless {

namespace {

using nlohmann::ordered_json;
using preparation::Keeping;
using preparation::Made;
using preparation::StepProblem;
using preparation::StepRemark;
using preparation::StepTrace;

ordered_json numberOrNull(const std::optional<double>& value) {
    return value ? ordered_json(*value) : ordered_json(nullptr);
}

ordered_json costOrNull(const std::optional<quantity::Cost>& cost) {
    return cost ? ordered_json(cost->major()) : ordered_json(nullptr);
}

ordered_json typicalOrNull(const std::optional<larder::Fact>& fact) {
    return fact ? ordered_json(fact->typical) : ordered_json(nullptr);
}

ordered_json stepJson(const StepTrace& step) {
    ordered_json remarks = ordered_json::array();
    for (const StepRemark remark : step.remarks)
        remarks.push_back(preparation::stepRemarkId(remark));
    return {{"kind", spec::stepKindId(step.kind)},
            {"volume_ml", step.volume.ml()},
            {"mass_g", step.mass.grams()},
            {"at_most", step.atMost},
            {"strength", numberOrNull(step.strengthPercent)},
            {"sugar_g_per_l", numberOrNull(step.sugarGPerL)},
            {"acid_g_per_l", numberOrNull(step.acidGPerL)},
            {"brix", numberOrNull(step.brix)},
            {"cost", costOrNull(step.cost)},
            {"remarks", std::move(remarks)}};
}

ordered_json keepingJson(const Keeping& keeping) {
    const bool published = keeping.entry != nullptr;
    return {{"basis", preparation::keepingBasisId(keeping.basis)},
            {"shortest_days", numberOrNull(keeping.shortestDays)},
            {"longest_days", numberOrNull(keeping.longestDays)},
            {"storage", preparation::storageId(keeping.storage)},
            {"must_refrigerate", keeping.mustRefrigerate},
            {"as", published ? ordered_json(keeping.entry->item) : ordered_json(nullptr)},
            {"source", published ? ordered_json(keeping.entry->source) : ordered_json(nullptr)},
            {"unknown_lines", keeping.unknownLines}};
}

// What is known whole, or what there is at least.
std::string text(const std::optional<double>& value, const std::optional<double>& least, int decimals) {
    if (value) return fmt::format("{:.{}f}", *value, decimals);
    return least ? fmt::format("≥ {:.{}f}", *least, decimals) : "?";
}

std::optional<double> majorOf(const std::optional<quantity::Cost>& cost) {
    return cost ? std::optional(cost->major()) : std::nullopt;
}

std::optional<double> typicalOf(const std::optional<larder::Fact>& fact) {
    return fact ? std::optional(fact->typical) : std::nullopt;
}

ordered_json leastJson(const preparation::AtLeast& least) {
    return {{"strength", numberOrNull(least.strengthPercent)},
            {"sugar_g_per_l", numberOrNull(least.sugarGPerL)},
            {"acid_g_per_l", numberOrNull(least.acidGPerL)},
            {"brix", numberOrNull(least.brix)},
            {"cost", numberOrNull(majorOf(least.cost))}};
}

// Of one litre (a kilogram when dry), of what there is at most.
std::optional<double> perLitre(const Made& made, const std::optional<quantity::Cost>& cost) {
    const double size = made.facts.dry ? made.mass.grams() : made.yield.ml();
    if (!cost || !(size > 0)) return std::nullopt;
    return 1000 * cost->major() / size;
}

std::string keepingWords(const Keeping& keeping) {
    std::string words;
    if (keeping.basis == Keeping::Basis::NoLimit) return "Keeps: no limit for safety; cool and dark";
    if (!keeping.shortestDays) return "Keeps: nobody has said how long";
    if (*keeping.shortestDays < 1)
        words = "Keeps: the day it is made";
    else if (keeping.longestDays && *keeping.longestDays > *keeping.shortestDays)
        words = fmt::format("Keeps: {:g} to {:g} days", *keeping.shortestDays, *keeping.longestDays);
    else
        words = fmt::format("Keeps: {:g} days", *keeping.shortestDays);
    words += ", the making day counted";
    if (keeping.mustRefrigerate)
        words += "; only in the refrigerator";
    else if (keeping.storage == preparation::Storage::Refrigerate)
        words += "; refrigerated";
    // The entry that asks for cold may not be the one that ends first.
    const bool ownDays = keeping.entry != nullptr && keeping.entry->shortestDays == keeping.shortestDays;
    if (keeping.entry != nullptr)
        words += ownDays ? fmt::format(" ({}; {})", keeping.entry->item, keeping.entry->source)
                         : fmt::format(" (cold for {}: {}; the days are those of another part)",
                                       keeping.entry->item, keeping.entry->source);
    if (!keeping.unknownLines.empty()) words += "; nothing is known of some of its parts";
    return words;
}

void writeSteps(std::ostream& out, const Made& made) {
    std::vector<std::vector<std::string>> rows{{"", "", "ml", "g", "% vol", "°Bx", "cost"}};
    for (const StepTrace& step : made.process.steps)
        rows.push_back({fmt::format("{}", step.step + 1), std::string(spec::stepKindId(step.kind)),
                        (step.atMost ? "≤ " : "") + fmt::format("{:.1f}", step.volume.ml()),
                        fmt::format("{:.1f}", step.mass.grams()),
                        text(step.strengthPercent, step.least.strengthPercent, 2),
                        text(step.brix, step.least.brix, 1),
                        text(majorOf(step.cost), majorOf(step.least.cost), 2)});
    writeTable(out, rows, 2);
    for (const StepTrace& step : made.process.steps)
        for (const StepRemark remark : step.remarks)
            writeParagraph(out, fmt::format("{}: {}", step.step + 1, stepRemarkWords(remark)), 2);
    for (const preparation::StepFault& fault : made.process.faults)
        writeParagraph(
            out, fmt::format("! {}: {} ({})", fault.step + 1, stepProblemWords(fault.problem), fault.field),
            2);
}

std::string figuresWords(const Made& made, const quantity::Currency& currency) {
    std::string line;
    const auto add = [&](std::string_view name, const std::string& figure, std::string_view unit) {
        line.append(line.empty() ? "" : ", ").append(name).append(name.empty() ? "" : " ");
        line.append(figure).append(figure == "?" ? "" : " ").append(figure == "?" ? "" : unit);
    };
    const auto& facts = made.facts;
    const char* per = facts.dry ? "g/kg" : "g/l";
    if (!facts.dry)
        add("strength", text(typicalOf(facts.abvPercent), made.least.strengthPercent, 1), "% vol");
    add("sugar", text(typicalOf(facts.sugarGPerL), made.least.sugarGPerL, 0), per);
    if (!facts.dry) add("", text(made.brix, made.least.brix, 1), "°Bx");
    add("acid as citric", text(typicalOf(facts.acidGPerL), made.least.acidGPerL, 1), per);
    if (!facts.dry) add("density", text(typicalOf(facts.densityKgPerM3), std::nullopt, 0), "kg/m³");
    add("cost", text(majorOf(made.cost), majorOf(made.least.cost), 2), currency.text());
    // Of a yield at most so large each litre costs at least this.
    const auto litre = perLitre(made, made.cost);
    const auto least = perLitre(made, made.cost ? made.cost : made.least.cost);
    const bool whole = litre && !made.yieldAtMost;
    if (least) add("", text(whole ? litre : std::nullopt, least, 2), facts.dry ? "a kg" : "a litre");
    return line;
}

} // namespace

std::string stepRemarkWords(StepRemark remark) {
    switch (remark) {
    case StepRemark::MeasuredResult:
        return "what was got was measured";
    case StepRemark::MoreThanWentIn:
        return "more was got than went in: counted as water nobody wrote down";
    case StepRemark::WaterLostByRate:
        return "water lost by minutes and this pot's rate";
    case StepRemark::WaterLostNotStated:
        return "how much water boiled off is not said: what it holds is unknown";
    case StepRemark::AlcoholLossNotModelled:
        return "alcohol boiled off is not modelled: its strength is unknown";
    case StepRemark::WaterGainedNotStated:
        return "what the fruit gave is not said";
    case StepRemark::ShareAssumed:
        return "how much came through is assumed, not measured";
    case StepRemark::LossNotStated:
        return "what stayed behind is not said: there is at most so much";
    case StepRemark::FatLeavesWhole:
        return "all of the fat is taken to be lifted off";
    case StepRemark::CurdTakesFatAndProtein:
        return "the curd is taken to hold all fat and protein; the allergen stays in the drink";
    case StepRemark::NotModelled:
        return "what it does is not modelled: strength, sugar and acid are unknown";
    case StepRemark::FizzNotStated:
        return "how much gas it holds is not said";
    case StepRemark::OverrunNotStated:
        return "how much air it holds is not said";
    case StepRemark::FoamNotLiquid:
        return "the foam is larger; the liquid in it is not";
    case StepRemark::TwoLossesStated:
        return "a share and an amount held back are both stated: the share counts";
    }
    return {};
}

std::string stepProblemWords(StepProblem problem) {
    switch (problem) {
    case StepProblem::NotANumber:
        return "this is not a number; left out";
    case StepProblem::Negative:
        return "this cannot be below zero; left out";
    case StepProblem::YieldNotAbove0:
        return "nothing would come out; left out";
    case StepProblem::YieldAbove1:
        return "more would come out than went in; left out";
    case StepProblem::TooLarge:
        return "too large for a pot; left out";
    case StepProblem::MoreThanThere:
        return "more than the pot holds; left out";
    }
    return {};
}

ordered_json madeJson(const Made& made, const Keeping& keeping, const quantity::Currency& currency) {
    ordered_json steps = ordered_json::array();
    for (const StepTrace& step : made.process.steps)
        steps.push_back(stepJson(step));
    ordered_json faults = ordered_json::array();
    for (const preparation::StepFault& fault : made.process.faults)
        faults.push_back({{"code", preparation::stepProblemId(fault.problem)},
                          {"step", fault.step},
                          {"field", fault.field},
                          {"says", stepProblemWords(fault.problem)}});
    if (made.yieldFault)
        faults.push_back({{"code", preparation::stepProblemId(*made.yieldFault)},
                          {"step", nullptr},
                          {"field", "yield_ml"},
                          {"says", stepProblemWords(*made.yieldFault)}});
    ordered_json json;
    json["yield_ml"] = made.facts.dry ? ordered_json(nullptr) : ordered_json(made.yield.ml());
    json["yield_g"] = made.mass.grams();
    json["measured"] = made.yieldMeasured;
    json["at_most"] = made.yieldAtMost;
    json["lost_share"] = made.lostShare;
    json["strength"] = typicalOrNull(made.facts.abvPercent);
    json["sugar_g_per_l"] = typicalOrNull(made.facts.sugarGPerL);
    json["acid_g_per_l"] = typicalOrNull(made.facts.acidGPerL);
    json["brix"] = numberOrNull(made.brix);
    json["density"] = typicalOrNull(made.facts.densityKgPerM3);
    json["cost"] = costOrNull(made.cost);
    json["cost_per_ml"] = costOrNull(made.costPerMl);
    json["cost_per_litre"] = numberOrNull(perLitre(made, made.cost));
    json["at_least"] = leastJson(made.least);
    json["currency"] = currency.text();
    json["steps"] = std::move(steps);
    json["faults"] = std::move(faults);
    json["keeping"] = keepingJson(keeping);
    return json;
}

void writeRatio(std::ostream& out, const spec::Spec& spec, const spec::Bindings& bindings,
                const larder::Larder& larder) {
    const auto ratio = preparation::ratioOf(spec, bindings);
    if (!ratio || ratio->basis) return;
    const auto both = preparation::outcomesOf(spec, *ratio, larder, bindings.rules());
    if (!both.byWeight.brix || !both.byCup.brix) return;
    writeParagraph(
        out,
        fmt::format("! {:g}:1 in parts, and nobody said of what: by weight {:.1f} °Bx, by the cup {:.1f} "
                    "°Bx; the figures above are of the second",
                    ratio->sweetParts, *both.byWeight.brix, *both.byCup.brix),
        2);
}

std::string stretchedWords(const preparation::Stretched& stretched, const std::string& juice) {
    const char* least = stretched.atLeast ? "≥ " : "";
    const double times = stretched.timesAsSour;
    const bool halfAgain = times > 1.4 && times < 1.6;
    return fmt::format(
        "Acid: {}{:.1f} g/100 ml as citric ({:.2f} % by the rule of the peel); {} holds {:.1f}: {}{}", least,
        stretched.madeGPer100Ml, stretched.byPeelRulePercent, juice, stretched.juiceGPer100Ml, least,
        halfAgain ? fmt::format("half as sour again ({:.2f} times)", times)
                  : fmt::format("{:.2f} times as sour", times));
}

ordered_json stretchedJson(const preparation::Stretched& stretched) {
    return {{"acid_g_per_100ml", stretched.madeGPer100Ml},
            {"juice_g_per_100ml", stretched.juiceGPer100Ml},
            {"peel_rule_percent", stretched.byPeelRulePercent},
            {"times_as_sour", stretched.timesAsSour},
            {"at_least", stretched.atLeast}};
}

void writeMade(std::ostream& out, const Made& made, const Keeping& keeping,
               const quantity::Currency& currency) {
    out << "\nMade\n";
    if (!made.process.steps.empty()) writeSteps(out, made);
    const std::string much = made.facts.dry
                                 ? fmt::format("{:.1f} g", made.mass.grams())
                                 : fmt::format("{:.1f} ml ({:.1f} g)", made.yield.ml(), made.mass.grams());
    std::string line = fmt::format("{}{}", made.yieldAtMost ? "at most " : "", much);
    line += made.yieldMeasured ? ", measured" : "";
    if (made.lostShare > 0) line += fmt::format(", {:.1f} % lost", 100 * made.lostShare);
    writeParagraph(out, line, 2);
    writeParagraph(out, figuresWords(made, currency), 2);
    if (made.yieldFault) writeParagraph(out, "! yield: " + stepProblemWords(*made.yieldFault), 2);
    writeParagraph(out, clean(keepingWords(keeping)), 2);
}

} // namespace stillroom::headless
