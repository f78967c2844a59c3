#include "app/headless/command.h"
#include "app/headless/json_out.h"
#include "app/headless/text_out.h"
#include "core/base/text.h"
#include "core/history/revision_label.h"
#include "core/store/panel_safety.h"
#include "core/tasting/panel_texts.h"
#include "core/tasting/panel_words.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <ostream>

namespace stillroom::headless {

namespace {

using nlohmann::ordered_json;
using store::PanelSummary;
using tasting::Panel;
using tasting::PanelNames;
using tasting::PanelState;

std::string productName(const store::Workbook& book, const base::RevisionId& id) {
    const auto revision = book.revision(id);
    if (!revision) return {};
    const auto drink = book.drink(revision->drink);
    return fmt::format(
        "{} {}", drink ? drink->name : "",
        history::shortLabel(drink ? drink->form : history::DrinkForm::Drink, revision->number));
}

PanelNames namesOf(const store::Workbook& book, const PanelSummary& summary, const Panel& panel,
                   const tasting::PanelSafety& safety) {
    PanelNames names;
    names.session = clean(summary.name);
    for (const base::RevisionId& product : panel.design.products)
        names.products.push_back(clean(productName(book, product)));
    const auto people = book.people();
    for (const base::PersonId& taster : panel.design.tasters) {
        const auto person = std::find_if(people.begin(), people.end(),
                                         [&](const tasting::Person& each) { return each.id == taster; });
        std::string name;
        if (person != people.end()) name = person->name.empty() ? person->initials : person->name;
        names.tasters.push_back(clean(name));
    }
    for (const std::string& caution : tasting::inWords(safety))
        names.cautions.push_back(clean(caution));
    return names;
}

ordered_json orNull(const std::optional<double>& value) {
    return value ? ordered_json(*value) : ordered_json();
}
ordered_json orNull(const std::optional<int>& value) {
    return value ? ordered_json(*value) : ordered_json();
}

ordered_json summaryJson(const PanelSummary& summary) {
    return {{"name", summary.name},
            {"kind", tasting::panelKindId(summary.kind)},
            {"attribute", summary.attribute},
            {"state", tasting::panelStateId(summary.state)},
            {"tasters", summary.tasters},
            {"answered", summary.answered},
            {"dealt", base::isoText(summary.created)},
            {"closed", summary.closed ? ordered_json(base::isoText(*summary.closed)) : ordered_json()},
            {"binned", summary.binned}};
}

struct FoundJson {
    const PanelNames& names;
    ordered_json json;

    void operator()(const tasting::ChoiceResult& found) {
        ordered_json share;
        if (found.share)
            share = {
                {"estimate", found.share->estimate}, {"low", found.share->low}, {"high", found.share->high}};
        json["choice"] = {{"answers", found.answers},
                          {"count", found.count},
                          {"needed", orNull(found.needed)},
                          {"chance", found.chance},
                          {"finding", tasting::findingId(found.finding)},
                          {"of", found.more ? ordered_json(names.products[*found.more]) : ordered_json()},
                          {"can_tell", share}};
    }
    void operator()(const tasting::RankingResult& found) {
        json["ranking"] = {
            {"rankings", found.friedman.assessors},      {"rank_sums", found.friedman.rankSums},
            {"statistic", found.friedman.statistic},     {"critical", orNull(found.critical.statistic)},
            {"chance", found.friedman.chance},           {"exact", found.friedman.exact},
            {"least_difference", found.leastDifference}, {"finding", tasting::findingId(found.finding)}};
    }
    void operator()(const tasting::ScoreResult& found) {
        ordered_json means = ordered_json::array();
        for (const tasting::MeanScore& mean : found.means)
            means.push_back({{"count", mean.count},
                             {"mean", mean.count > 0 ? ordered_json(mean.mean) : ordered_json()},
                             {"low", orNull(mean.low)},
                             {"high", orNull(mean.high)}});
        ordered_json pairs = ordered_json::array();
        for (const tasting::ScorePair& pair : found.pairs)
            pairs.push_back({{"first", names.products[pair.first]},
                             {"second", names.products[pair.second]},
                             {"difference", pair.scores.difference.mean},
                             {"low", orNull(pair.scores.difference.low)},
                             {"high", orNull(pair.scores.difference.high)},
                             {"chance", orNull(pair.scores.chance)},
                             {"finding", tasting::findingId(pair.finding)}});
        json["means"] = std::move(means);
        json["pairs"] = std::move(pairs);
    }
    void operator()(const tasting::JustRightResult& found) {
        ordered_json sides = ordered_json::array();
        for (const tasting::JustRightProduct& each : found.products)
            sides.push_back({{"answers", each.answers.answers},
                             {"right", each.answers.right},
                             {"weak", each.answers.weak.count},
                             {"strong", each.answers.strong.count},
                             {"chance", each.answers.chance},
                             {"finding", tasting::findingId(each.finding)}});
        json["just_right"] = std::move(sides);
        (*this)(found.liking);
    }
};

const char* standingId(tasting::AnswerStanding standing) {
    if (standing == tasting::AnswerStanding::Whole) return "whole";
    return standing == tasting::AnswerStanding::Partial ? "partial" : "missing";
}

ordered_json answersJson(const Panel& panel, const PanelNames& names) {
    ordered_json list = ordered_json::array();
    const auto answers = tasting::openedAnswers(panel);
    for (std::size_t at = 0; answers && at < answers->size(); ++at) {
        const tasting::OpenedAnswer& answer = (*answers)[at];
        ordered_json cups = ordered_json::array();
        for (const tasting::OpenedCup& cup : answer.cups)
            cups.push_back({{"code", cup.code},
                            {"product", names.products[cup.product]},
                            {"mark", orNull(cup.mark)},
                            {"liking", orNull(cup.liking)}});
        list.push_back({{"taster", names.tasters[at]},
                        {"standing", standingId(answer.standing)},
                        {"right", answer.right ? ordered_json(*answer.right) : ordered_json()},
                        {"note", answer.note},
                        {"cups", std::move(cups)}});
    }
    return list;
}

// Before it is closed: codes and who answered, and nothing that is in a cup.
ordered_json openJson(const Panel& panel, const PanelNames& names) {
    ordered_json list = ordered_json::array();
    for (std::size_t at = 0; at < panel.design.tasters.size(); ++at) {
        const auto sheet = tasting::tasterSheet(panel, panel.design.tasters[at]);
        if (!sheet) continue;
        list.push_back({{"taster", names.tasters[at]},
                        {"standing", standingId(tasting::standingOf(panel, at))},
                        {"reference_first", sheet->hasReference},
                        {"codes", sheet->codes}});
    }
    return list;
}

ordered_json panelJson(const PanelSummary& summary, const Panel& panel, const PanelNames& names,
                       const tasting::PanelSafety& safety) {
    ordered_json json = summaryJson(summary);
    json["alpha"] = panel.design.alpha;
    json["share"] = orNull(panel.design.share);
    json["safety"] = {{"allergens", safety.allergens},
                      {"complete", safety.complete},
                      {"most_alcohol_g", orNull(safety.mostAlcoholG)},
                      {"says", names.cautions}};
    const auto result = tasting::result(panel);
    if (!result) {
        json["sheets"] = openJson(panel, names);
        return json;
    }
    json["products"] = names.products;
    json["whole"] = result->whole;
    json["partial"] = result->partial;
    json["missing"] = result->missing;
    json["verdict"] = tasting::headline(*result, names.products);
    json["says"] = tasting::inWords(*result, names.products);
    FoundJson found{names, std::move(json)};
    std::visit(found, result->found);
    found.json["answers"] = answersJson(panel, names);
    return std::move(found.json);
}

std::string stateWords(const PanelSummary& summary) {
    if (summary.state == PanelState::Designed) return fmt::format("planned for {}", summary.tasters);
    return fmt::format("{}, {} of {} in", summary.state == PanelState::Pouring ? "pouring" : "closed",
                       summary.answered, summary.tasters);
}

void writeList(std::ostream& out, const std::vector<PanelSummary>& all) {
    if (all.empty()) out << "No blind panel yet.\n";
    std::vector<std::vector<std::string>> rows;
    for (const PanelSummary& summary : all)
        rows.push_back(
            {clean(summary.name), std::string(tasting::kindName(summary.kind)), stateWords(summary)});
    writeTable(out, rows, 3);
}

void writeOpen(std::ostream& out, const PanelSummary& summary, const Panel& panel, const PanelNames& names) {
    out << names.session << "\n" << tasting::kindName(summary.kind) << ", " << stateWords(summary) << "\n\n";
    for (std::size_t at = 0; at < panel.design.tasters.size(); ++at) {
        const auto standing = tasting::standingOf(panel, at);
        out << "  " << names.tasters[at] << ": "
            << (standing == tasting::AnswerStanding::Whole     ? "in"
                : standing == tasting::AnswerStanding::Partial ? "in part"
                                                               : "missing")
            << "\n";
    }
    out << "\nWhat is in the cups is shown once the session is closed.\n";
}

} // namespace

int runPanel(const Options& options, Streams& streams) {
    const base::SystemClock clock;
    const auto book = store::Workbook::open(options.plain.front(), store::OpenMode::ReadOnly, clock);
    const auto all = book->panels();
    const bool json = options.has("--json");
    const std::string wanted = options.value("--name");
    if (wanted.empty()) {
        if (options.has("--sheets") || options.has("--key")) {
            streams.err << "stillroom panel: --name says of which session.\n";
            return kWrongUsage;
        }
        ordered_json list = ordered_json::array();
        for (const PanelSummary& summary : all)
            list.push_back(summaryJson(summary));
        if (json)
            writeJson(streams.out, ordered_json{{"panels", list}});
        else
            writeList(streams.out, all);
        return kDone;
    }
    // The newest of that name.
    const auto found = std::find_if(all.begin(), all.end(), [&](const PanelSummary& summary) {
        return base::fold(summary.name) == base::fold(wanted);
    });
    auto panel = found == all.end() ? std::nullopt : book->panel(found->id);
    if (!panel) {
        streams.err << "stillroom panel: there is no session \"" << clean(wanted) << "\".\n";
        return kProblem;
    }
    for (tasting::Answer& answer : panel->answers)
        answer.note = clean(answer.note);
    const tasting::PanelSafety safety = store::panelSafety(*book, *panel);
    const PanelNames names = namesOf(*book, *found, *panel, safety);
    if (options.has("--sheets"))
        streams.out << tasting::sheetsText(*panel, names);
    else if (options.has("--key"))
        streams.out << tasting::keyText(*panel, names);
    else if (json)
        writeJson(streams.out, panelJson(*found, *panel, names, safety));
    else if (panel->state == PanelState::Closed)
        streams.out << tasting::resultText(*panel, names);
    else
        writeOpen(streams.out, *found, *panel, names);
    return kDone;
}

} // namespace stillroom::headless
