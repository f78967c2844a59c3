#include "app/headless/command.h"
#include "app/headless/files.h"
#include "app/headless/glass_out.h"
#include "app/headless/json_out.h"
#include "app/headless/more_out.h"
#include "app/headless/text_out.h"
#include "app/headless/words.h"

#include "core/base/clock.h"
#include "core/base/text.h"
#include "core/exchange/ingredient_json.h"
#include "core/exchange/read_text.h"
#include "core/store/workbook.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <istream>
#include <memory>
#include <ostream>

namespace stillroom::headless {

namespace {

using exchange::ReadKind;
using exchange::ReadLine;
using exchange::ReadRecipe;
using nlohmann::ordered_json;

constexpr std::size_t kLargestInput = 64U * 1024 * 1024;
constexpr std::size_t kLongestShown = 160; // code points of a raw line on a terminal

// What a text is read against.
struct House {
    larder::Larder larder;
    spec::HouseRules rules;
    std::string region = "US";
};

House houseFor(const Options& options) {
    House house;
    if (options.has("--workbook")) {
        const base::SystemClock clock;
        const auto book =
            store::Workbook::open(options.value("--workbook"), store::OpenMode::ReadOnly, clock);
        house.larder = book->larder();
        house.rules = book->settings().rules;
        house.region = book->settings().region;
    }
    if (options.has("--larder")) {
        const std::string path = options.value("--larder");
        const auto entries = exchange::larderFileFromJson(fileContent(path, kLargestInput));
        if (!entries) throw FileProblem(fmt::format("{}: {}.", path, entries.error()));
        exchange::putOver(house.larder, *entries);
        // Without a workbook there is no currency of the house: the file's first one is counted in.
        if (!options.has("--workbook"))
            for (const exchange::WrittenIngredient& entry : *entries)
                if (!entry.ingredient.packs.empty()) {
                    house.rules.currency = entry.ingredient.packs.front().price.currency;
                    break;
                }
    }
    return house;
}

bool isBad(const ReadLine& line) {
    return line.kind == ReadKind::Refused || line.kind == ReadKind::Unread ||
           std::any_of(line.parts.begin(), line.parts.end(), isBad);
}

// Every refused or unread line of a text, told on `err`; true when there was none.
bool tellBadLines(const std::vector<ReadLine>& lines, std::ostream& err) {
    bool fine = true;
    for (const ReadLine& line : lines) {
        if (!isBad(line)) continue;
        fine = false;
        std::string why;
        for (const exchange::Doubt& doubt : line.doubts)
            if (doubt.weight == exchange::DoubtWeight::Refuse)
                why += (why.empty() ? "" : "; ") + doubtWords(doubt);
        err << fmt::format("line {}: {}: {}{}\n", line.sourceLine,
                           line.kind == ReadKind::Refused ? "refused" : "not understood",
                           clean(base::elided(line.raw, kLongestShown)),
                           why.empty() ? "" : " (" + clean(base::elided(why, kLongestShown)) + ")");
    }
    return fine;
}

// Something that can be poured was understood: a line with an amount, or one the larder knows. A heap of
// words makes a name and lines too.
bool isUnderstood(const ReadLine& line, const larder::Larder& larder) {
    if (!line.parts.empty())
        return std::any_of(line.parts.begin(), line.parts.end(),
                           [&](const ReadLine& part) { return isUnderstood(part, larder); });
    if (line.kind != ReadKind::Ingredient && line.kind != ReadKind::Garnish) return false;
    return line.line.poured.amount.isStated() ||
           larder.match(line.line.name).quality != larder::MatchQuality::None;
}

bool isUnderstood(const ReadRecipe& recipe, const larder::Larder& larder) {
    const auto any = [&](const std::vector<ReadLine>& lines) {
        return std::any_of(lines.begin(), lines.end(),
                           [&](const ReadLine& line) { return isUnderstood(line, larder); });
    };
    return any(recipe.lines) || std::any_of(recipe.subRecipes.begin(), recipe.subRecipes.end(),
                                            [&](const ReadRecipe& sub) { return any(sub.lines); });
}

std::vector<const ReadLine*> flat(const std::vector<ReadLine>& lines) {
    std::vector<const ReadLine*> all;
    for (const ReadLine& line : lines)
        all.push_back(&line);
    return all;
}

// For each line of the spec, where it stands among the lines as read: the spec leaves out refused and
// unread lines and takes a fused one apart.
std::vector<int> placesOf(const spec::Spec& spec, const std::vector<ReadLine>& lines) {
    std::vector<int> places;
    const auto holds = [](const ReadLine& line, const spec::Line& wanted) {
        if (line.line.written == wanted.written && line.line.name == wanted.name) return true;
        return std::any_of(line.parts.begin(), line.parts.end(), [&](const ReadLine& part) {
            return part.line.written == wanted.written && part.line.name == wanted.name;
        });
    };
    std::size_t from = 0;
    for (const spec::Line& wanted : spec.lines) {
        int place = -1;
        for (std::size_t i = from; i < lines.size() && place < 0; ++i)
            if (holds(lines[i], wanted)) place = static_cast<int>(i);
        places.push_back(place);
        if (place >= 0)
            from = static_cast<std::size_t>(place) +
                   (lines[static_cast<std::size_t>(place)].parts.empty() ? 1U : 0U);
    }
    return places;
}

// One recipe, read and computed.
struct Worked {
    spec::Spec spec;
    std::unique_ptr<spec::Bindings> bindings;
    spec::Readings readings;
    std::vector<spec::Gap> gaps;
    std::vector<spec::Caution> cautions;
    spec::AllergenSummary allergens;
    spec::GlassFilling filling;
    std::vector<int> places;
};

Worked work(const ReadRecipe& recipe, const House& house) {
    Worked worked;
    worked.spec = exchange::toSpec(recipe, house.larder);
    worked.bindings = std::make_unique<spec::Bindings>(worked.spec, house.larder, house.rules);
    const spec::Bindings& bindings = *worked.bindings;
    worked.readings = spec::evaluateWithTemperatures(worked.spec, bindings);
    worked.gaps = spec::gaps(worked.spec, bindings);
    worked.cautions = spec::cautions(worked.spec, bindings, worked.readings);
    worked.allergens = spec::allergens(worked.spec, bindings);
    worked.filling = spec::glassFilling(worked.spec, bindings);
    worked.places = placesOf(worked.spec, recipe.lines);
    return worked;
}

ordered_json linesJson(const std::vector<ReadLine>& lines, const larder::Larder& larder) {
    ordered_json list = ordered_json::array();
    for (const ReadLine& line : lines)
        list.push_back(readLineJson(line, larder));
    return list;
}

ordered_json yieldJson(const ReadRecipe& recipe) {
    if (!recipe.yield) return nullptr;
    return {{"amount", recipe.yield->toDouble()}, {"unit", recipe.yieldUnit}};
}

ordered_json textOrNull(const std::string& text) {
    return text.empty() ? ordered_json(nullptr) : ordered_json(text);
}

ordered_json subRecipeJson(const ReadRecipe& recipe, const larder::Larder& larder) {
    ordered_json json;
    json["name"] = recipe.name;
    json["yield"] = yieldJson(recipe);
    json["lines"] = linesJson(recipe.lines, larder);
    json["method"] = recipe.method;
    return json;
}

ordered_json recipeJson(const ReadRecipe& recipe, const Worked& worked, const House& house) {
    ordered_json json;
    json["name"] = textOrNull(recipe.name);
    json["yield"] = yieldJson(recipe);
    json["serves"] = worked.spec.serves;
    json["technique"] = worked.spec.method.technique == spec::Technique::None
                            ? textOrNull(recipe.technique)
                            : ordered_json(spec::techniqueId(worked.spec.method.technique));
    json["glass"] = textOrNull(recipe.glass);
    json["garnish"] = recipe.garnish;
    json["method"] = recipe.method;
    json["notes"] = recipe.notes;
    json["sections"] = recipe.sections;
    json["credit"] = textOrNull(recipe.credit);
    json["lines"] = linesJson(recipe.lines, house.larder);
    json["sub_recipes"] = ordered_json::array();
    for (const ReadRecipe& sub : recipe.subRecipes)
        json["sub_recipes"].push_back(subRecipeJson(sub, house.larder));
    json["stages"] = stagesJson(worked.spec, worked.readings, house.rules.currency);
    json["more"] =
        moreJson(worked.spec, spec::furtherReadings(worked.spec, *worked.bindings, worked.readings));
    json["held"] = heldJson(worked.spec, *worked.bindings);
    json["glass_fill"] = glassFillJson(worked.filling, worked.spec, worked.places);
    json["gaps"] = gapsJson(worked.gaps, worked.places);
    json["cautions"] = cautionsJson(worked.cautions, worked.places);
    json["allergens"] = allergensJson(worked.allergens, worked.spec);
    json["deference"] = spec::deferenceText();
    return json;
}

std::string understood(const ReadLine& line) {
    switch (line.kind) {
    case ReadKind::Ingredient:
    case ReadKind::Garnish: {
        std::string text = lineText(line.line);
        if (line.line.role != spec::Role::Mixed) text += fmt::format("  [{}]", spec::roleId(line.line.role));
        return text;
    }
    case ReadKind::Fused: {
        std::string text;
        for (const ReadLine& part : line.parts)
            text += (text.empty() ? "" : " | ") + lineText(part.line);
        return text;
    }
    default:
        return fmt::format("({})", readKindId(line.kind));
    }
}

void writeLines(std::ostream& out, const std::vector<const ReadLine*>& lines) {
    std::vector<std::vector<std::string>> rows;
    const auto put = [&](const ReadLine& line) {
        rows.push_back({clean(base::elided(line.raw, 60)), line.unsure ? "?" : "→",
                        clean(base::elided(understood(line), kLongestShown))});
    };
    for (const ReadLine* line : lines)
        put(*line);
    writeTable(out, rows, 3);
    for (const ReadLine* line : lines) {
        for (const exchange::Doubt& doubt : line->doubts)
            writeParagraph(out,
                           clean(fmt::format(
                               "{} {}: {}", doubt.weight == exchange::DoubtWeight::Ask ? "?" : "!",
                               base::elided(line->raw, 60), base::elided(doubtWords(doubt), kLongestShown))),
                           4);
        for (const spec::Line& other : line->otherReadings)
            writeParagraph(out, "or: " + lineText(other), 6);
    }
}

void writeMatches(std::ostream& out, const spec::Spec& spec, const larder::Larder& larder) {
    for (const spec::Line& line : spec.lines) {
        if (!line.ingredient) continue;
        const larder::Ingredient* kind = larder.find(*line.ingredient);
        const larder::Ingredient* poured = larder.poured(*line.ingredient);
        if (!kind || !poured) continue;
        const bool same = base::fold(kind->name) == base::fold(line.name) && kind == poured;
        if (same) continue;
        std::string text = fmt::format("{} is taken for {}", line.name, kind->name);
        if (kind != poured) text += fmt::format("; the house pours {}", poured->name);
        writeParagraph(out, clean(text), 4);
    }
}

void writeSteps(std::ostream& out, std::string_view heading, const std::vector<std::string>& steps) {
    if (steps.empty()) return;
    out << "\n" << heading << "\n";
    for (const std::string& step : steps)
        writeParagraph(out, clean(base::elided(step, 4000)), 2);
}

struct Shape {
    bool json = false;
    bool more = false;
    bool held = false;
};

void writeRecipe(std::ostream& out, const ReadRecipe& recipe, const Worked& worked, const House& house,
                 const Shape& shape) {
    out << clean(recipe.name.empty() ? "(no name)" : base::elided(recipe.name, kLongestShown)) << "\n";
    if (!recipe.credit.empty()) writeParagraph(out, clean(recipe.credit), 0);
    out << "\n";
    writeLines(out, flat(recipe.lines));
    writeMatches(out, worked.spec, house.larder);
    for (const ReadRecipe& sub : recipe.subRecipes) {
        out << "\n" << clean(sub.name) << "\n";
        writeLines(out, flat(sub.lines));
        writeSteps(out, "  made so:", sub.method);
    }
    writeSteps(out, "Method", recipe.method);
    if (!recipe.glass.empty()) writeSteps(out, "Glass", {recipe.glass});
    writeSteps(out, "Garnish", recipe.garnish);
    writeSteps(out, "Notes", recipe.notes);
    out << "\n";
    writeReadings(out, worked.readings, house.rules.currency);
    if (shape.more) writeMore(out, spec::furtherReadings(worked.spec, *worked.bindings, worked.readings));
    if (shape.held) writeHeld(out, worked.spec, *worked.bindings);
    writeGlassFill(out, worked.filling, worked.spec);
    writeGaps(out, worked.gaps);
    writeAllergens(out, worked.allergens, worked.spec);
    writeCautions(out, worked.cautions);
}

int readWhole(const std::string& text, const House& house, const Shape& shape, Streams& streams) {
    exchange::ReadOptions readOptions;
    readOptions.region = house.region;
    readOptions.larder = &house.larder;
    const exchange::ReadResult result = exchange::readText(text, readOptions);
    bool fine = tellBadLines(result.every, streams.err);
    if (result.problem != exchange::ReadProblem::None) {
        streams.err << "stillroom read: " << readProblemWords(result.problem) << "\n";
        fine = false;
    }
    for (const ReadRecipe& recipe : result.drinks)
        if (!isUnderstood(recipe, house.larder)) {
            streams.err << "stillroom read: no line was understood as something poured.\n";
            fine = false;
        }
    if (shape.json) {
        ordered_json json;
        json["problem"] = textOrNull(std::string(readProblemId(result.problem)));
        json["drinks"] = result.drinks.size();
        std::vector<exchange::Doubt> doubts = result.doubts;
        for (const ReadRecipe& recipe : result.drinks) {
            json.update(recipeJson(recipe, work(recipe, house), house));
            doubts.insert(doubts.end(), recipe.doubts.begin(), recipe.doubts.end());
            break; // one text holds one drink
        }
        if (result.drinks.empty()) json["lines"] = linesJson(result.every, house.larder);
        json["doubts"] = doubtsJson(doubts);
        writeJson(streams.out, json);
        return fine ? kDone : kProblem;
    }
    for (const exchange::Doubt& doubt : result.doubts)
        writeParagraph(streams.out, clean("! " + base::elided(doubtWords(doubt), kLongestShown)), 0);
    for (const ReadRecipe& recipe : result.drinks) {
        for (const exchange::Doubt& doubt : recipe.doubts)
            writeParagraph(streams.out, clean("! " + base::elided(doubtWords(doubt), kLongestShown)), 0);
        writeRecipe(streams.out, recipe, work(recipe, house), house, shape);
    }
    return fine ? kDone : kProblem;
}

int readLineByLine(const std::string& text, const House& house, bool asJson, Streams& streams) {
    exchange::ReadOptions readOptions;
    readOptions.region = house.region;
    readOptions.larder = &house.larder;
    std::vector<ReadLine> lines;
    int number = 0;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find('\n', begin), text.size());
        std::string_view line = std::string_view(text).substr(begin, end - begin);
        if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
        begin = end + 1;
        ++number;
        if (base::trimmed(line).empty()) continue;
        lines.push_back(exchange::readLine(line, readOptions));
        lines.back().sourceLine = number;
    }
    if (lines.empty()) {
        streams.err << "stillroom read: " << readProblemWords(exchange::ReadProblem::NothingToRead) << "\n";
    }
    const bool fine = tellBadLines(lines, streams.err) && !lines.empty();
    if (asJson)
        writeJson(streams.out, {{"lines", linesJson(lines, house.larder)}});
    else
        writeLines(streams.out, flat(lines));
    return fine ? kDone : kProblem;
}

} // namespace

int runRead(const Options& options, Streams& streams) {
    const std::string path = options.plain.empty() ? "-" : options.plain.front();
    const House house = houseFor(options);
    const std::string text =
        path == "-" ? streamContent(streams.in, kLargestInput) : fileContent(path, kLargestInput);
    if (options.has("--lines")) return readLineByLine(text, house, options.has("--json"), streams);
    return readWhole(text, house, {options.has("--json"), options.has("--more"), options.has("--held")},
                     streams);
}

} // namespace stillroom::headless
