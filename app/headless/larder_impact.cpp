#include "app/headless/larder_impact.h"

#include "app/headless/command.h"
#include "app/headless/json_out.h"
#include "app/headless/text_out.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <ostream>

namespace stillroom::headless {

namespace {

using nlohmann::ordered_json;
using store::EditSubject;
using store::StockBoard;

constexpr std::array<const char*, preparation::kCompared.size()> kComparedIds{"strength", "sugar", "acid",
                                                                              "cost"};

ordered_json optionalJson(const std::optional<double>& value) {
    return value ? ordered_json(*value) : ordered_json(nullptr);
}

std::string nameOf(const EditSubject& subject) {
    if (!subject.draft) return clean(subject.name);
    std::string name = clean(subject.name) + ", draft";
    if (!subject.tryName.empty())
        name += " “" + clean(subject.tryName) + "”";
    else if (subject.ordinal > 0)
        name += fmt::format(" {}", subject.ordinal);
    if (subject.form == history::DrinkForm::Preparation) name += ", a whole batch";
    return name;
}

std::string menuOf(const EditSubject& subject) {
    if (subject.form == history::DrinkForm::Preparation) return "made here";
    return subject.menu.empty() ? "no menu" : clean(subject.menu);
}

std::vector<std::string> rowOf(const preparation::Impact& impact, const EditSubject& subject) {
    std::vector<std::string> row{nameOf(subject), menuOf(subject)};
    for (const spec::Quantity quantity : preparation::kCompared) {
        const std::string before = readingText(quantity, impact.before[quantity]);
        const std::string after = readingText(quantity, impact.after[quantity]);
        row.push_back(before == after ? before : before + " → " + after);
    }
    return row;
}

} // namespace

BookImpact impactOn(const store::Workbook& book, const StockBoard& board, const larder::Ingredient& edited) {
    BookImpact impact{store::editSubjects(book), {}};
    std::vector<preparation::ImpactSubject> subjects;
    for (const EditSubject& subject : impact.subjects)
        subjects.push_back({&subject.spec, nullptr});
    impact.found =
        preparation::editImpact({board.larder, board.rules}, {edited}, board.preparations, subjects);
    return impact;
}

ordered_json impactJson(const BookImpact& impact, const StockBoard& board) {
    const preparation::EditImpact& found = impact.found;
    ordered_json json;
    json["cost_before"] = optionalJson(found.costBefore);
    json["cost_after"] = optionalJson(found.costAfter);
    json["drinks"] = ordered_json::array();
    for (const preparation::Impact& each : found.drinks.changed) {
        const EditSubject& subject = impact.subjects[each.subject];
        ordered_json one{{"name", subject.name},
                         {"form", subject.form == history::DrinkForm::Drink ? "drink" : "preparation"},
                         {"menu", subject.menu},
                         {"draft", subject.draft ? ordered_json(subject.tryName) : ordered_json(nullptr)}};
        for (std::size_t i = 0; i < kComparedIds.size(); ++i) {
            const spec::Quantity quantity = preparation::kCompared[i];
            const std::string unit = quantity == spec::Quantity::Cost
                                         ? std::string(board.rules.currency.text())
                                         : std::string(spec::quantityUnit(quantity));
            one[kComparedIds[i]] = {{"before", readingJson(subject.spec, each.before[quantity], unit)},
                                    {"after", readingJson(subject.spec, each.after[quantity], unit)}};
        }
        one["allergens_gained"] = each.allergensGained;
        one["allergens_lost"] = each.allergensLost;
        json["drinks"].push_back(std::move(one));
    }
    json["made"] = ordered_json::array();
    for (const preparation::MadeChange& made : found.made)
        json["made"].push_back({{"name", board.larder.find(made.ingredient)->name},
                                {"cost_before", optionalJson(made.costBefore)},
                                {"cost_after", optionalJson(made.costAfter)}});
    json["too_small_to_see"] = found.drinks.tooSmallToSee;
    json["unchanged"] = found.drinks.unchanged + found.drinks.untouched;
    return json;
}

void writeImpact(std::ostream& out, const BookImpact& impact, const StockBoard& board) {
    const preparation::EditImpact& found = impact.found;
    out << "\nWith this edit (nothing is written), a serve each\n";
    std::vector<std::vector<std::string>> rows{
        {"", "", "% vol", "sugar", "acid", "cost, " + std::string(board.rules.currency.text())}};
    for (const preparation::Impact& each : found.drinks.changed)
        rows.push_back(rowOf(each, impact.subjects[each.subject]));
    if (found.drinks.changed.empty())
        out << "  no drink and no draft reads otherwise\n";
    else
        writeTable(out, rows, 2);
    for (const preparation::Impact& each : found.drinks.changed) {
        const std::string name = nameOf(impact.subjects[each.subject]);
        for (const std::string& gained : each.allergensGained)
            out << "  ! " << name << " then contains " << gained << "\n";
        for (const std::string& lost : each.allergensLost)
            out << "  " << name << " then no longer contains " << lost << "\n";
    }
    for (const preparation::MadeChange& made : found.made) {
        std::string line = "made here: " + clean(board.larder.find(made.ingredient)->name);
        if (made.costBefore && made.costAfter)
            line += fmt::format(", {:.2f} → {:.2f} {} {}", *made.costBefore, *made.costAfter,
                                board.rules.currency.text(), made.after.dry ? "per 100 g" : "per 100 ml");
        writeParagraph(out, line, 2);
    }
}

} // namespace stillroom::headless
