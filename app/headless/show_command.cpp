#include "app/headless/command.h"
#include "app/headless/cost_on_out.h"
#include "app/headless/files.h"
#include "app/headless/glass_out.h"
#include "app/headless/json_out.h"
#include "app/headless/made_out.h"
#include "app/headless/more_out.h"
#include "app/headless/text_out.h"
#include "app/headless/words.h"

#include "core/base/clock.h"
#include "core/base/text.h"
#include "core/history/diff.h"
#include "core/history/revision_label.h"
#include "core/preparation/label.h"
#include "core/preparation/part_keeping.h"
#include "core/preparation/past_parts.h"
#include "core/preparation/recompute.h"
#include "core/store/bench_rules.h"
#include "core/store/lineage_of_book.h"
#include "core/store/workbook.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <map>
#include <numeric>
#include <ostream>

namespace stillroom::headless {

namespace {

using nlohmann::ordered_json;

std::string_view formId(history::DrinkForm form) {
    return form == history::DrinkForm::Preparation ? "preparation" : "drink";
}

std::string dayOf(const base::Instant& when) {
    return base::isoText(when).substr(0, 10);
}

// A drink with all that hangs on it, read once.
struct Shown {
    history::Drink drink;
    std::vector<history::Revision> revisions;
    std::map<base::RevisionId, std::vector<tasting::Tasting>> tastings;
    std::map<base::RevisionId, spec::GlassFilling> fillings; // with the facts it was kept with
    std::optional<history::Draft> draft;                     // the one saved last
    larder::Larder larder;
    preparation::Specs preparations;
    preparation::ShelfDates dates;
    std::optional<larder::Larder> houseLarder; // facts and measures of the revision in use
    quantity::HouseMeasures houseMeasures;
    spec::HouseRules rules;
    spec::HouseRules draftRules; // with the bench's own measurements
    std::map<base::PersonId, std::string> initials;
    std::string credit;                               // with the names of the book
    std::map<base::RevisionId, std::string> setAside; // and why
    std::string changedSince;                         // since the revision it came after
    std::vector<store::CameAfter> cameAfter;
    CostOn costOn; // of what is in use
};

bool isHouse(const Shown& shown, const history::Revision& revision) {
    return shown.drink.house == revision.id;
}

const spec::Spec* specInUse(const Shown& shown);

Shown gather(const store::Workbook& book, base::DrinkId id, const std::string& day) {
    Shown shown;
    if (const auto drink = book.drink(id)) shown.drink = *drink;
    shown.credit = store::creditOf(book, shown.drink);
    shown.revisions = book.revisions(id);
    shown.rules = book.settings().rules;
    for (const history::Revision& revision : shown.revisions) {
        shown.tastings[revision.id] = book.tastings(revision.id);
        auto rules = shown.rules;
        rules.measures = revision.measures;
        const larder::Larder then = book.larderOf(revision);
        const spec::Bindings bindings(revision.spec, then, rules);
        if (isHouse(shown, revision)) {
            shown.houseLarder = then;
            shown.houseMeasures = revision.measures;
        }
        shown.fillings[revision.id] = spec::glassFilling(revision.spec, bindings);
    }
    shown.changedSince = store::changedSince(book, shown.drink);
    shown.cameAfter = store::cameAfter(book, id);
    for (const store::SetAside& aside : book.setAside(id))
        shown.setAside[aside.revision] = aside.why;
    for (const history::Draft& draft : book.drafts(id))
        if (!shown.draft || shown.draft->saved < draft.saved) shown.draft = draft;
    shown.larder = book.larder();
    shown.preparations = book.preparations();
    shown.dates = preparation::ShelfDates(shown.larder, shown.preparations, shown.rules);
    shown.draftRules = store::benchRules(book, shown.larder);
    for (const tasting::Person& person : book.people())
        shown.initials[person.id] = person.initials;
    if (const spec::Spec* spec = specInUse(shown); spec != nullptr && !day.empty())
        shown.costOn = {day, preparation::costOn(*spec, shown.larder, shown.preparations, shown.rules, day)};
    return shown;
}

const history::Revision* revisionIn(const Shown& shown, std::optional<base::RevisionId> id) {
    if (!id) return nullptr;
    for (const history::Revision& revision : shown.revisions)
        if (revision.id == *id) return &revision;
    return nullptr;
}

std::vector<int> allPlaces(const spec::Spec& spec) {
    std::vector<int> places(spec.lines.size());
    std::iota(places.begin(), places.end(), 0);
    return places;
}

ordered_json specJson(const spec::Spec& spec, const Shown& shown) {
    ordered_json json;
    json["serves"] = spec.serves;
    json["technique"] = spec.method.technique == spec::Technique::None
                            ? ordered_json(nullptr)
                            : ordered_json(spec::techniqueId(spec.method.technique));
    json["glass"] = spec.glass;
    json["garnish"] = spec.garnish;
    json["method"] = spec.method.text;
    json["lines"] = ordered_json::array();
    for (const spec::Line& line : spec.lines)
        json["lines"].push_back(specLineJson(line, shown.larder));
    return json;
}

ordered_json tastingsJson(const Shown& shown, base::RevisionId revision) {
    ordered_json list = ordered_json::array();
    const auto found = shown.tastings.find(revision);
    if (found == shown.tastings.end()) return list;
    for (const tasting::Tasting& tasted : found->second) {
        ordered_json scores;
        const tasting::FirstScores first = tasted.scores.first();
        for (std::size_t i = 0; i < tasting::kScaleCount; ++i)
            scores[std::string(tasting::scaleId(static_cast<tasting::Scale>(i)))] =
                first[i] ? ordered_json(*first[i]) : ordered_json(nullptr);
        for (const auto& [scale, score] : tasted.scores.byScale)
            if (!scores.contains(scale)) scores[scale] = score.value;
        const auto by = shown.initials.find(tasted.taster);
        const tasting::Circumstances& said = tasted.circumstances;
        list.push_back({{"by", by == shown.initials.end() ? "" : by->second},
                        {"when", base::isoText(tasted.when)},
                        {"verdict", tasting::verdictId(tasted.verdict)},
                        {"scores", std::move(scores)},
                        {"note", tasted.note},
                        {"try_next", tasted.tryNext},
                        {"glass_age_min",
                         said.glassAgeMinutes ? ordered_json(*said.glassAgeMinutes) : ordered_json(nullptr)},
                        {"place", said.place}});
    }
    return list;
}

// What others pour: the revision in use, else the draft.
const spec::Spec* specInUse(const Shown& shown) {
    const history::Revision* house = revisionIn(shown, shown.drink.house);
    if (house != nullptr) return &house->spec;
    return shown.draft ? &shown.draft->spec : nullptr;
}

// With what is poured from a lot past its day.
std::vector<spec::Caution> withPast(std::vector<spec::Caution> cautions, const spec::Spec& spec,
                                    const spec::Bindings& bindings, const Shown& shown) {
    return preparation::withPast(std::move(cautions),
                                 shown.dates.past(spec, bindings, dayOf(base::SystemClock().now())));
}

struct MadeHere {
    preparation::Made made;
    preparation::Keeping keeping;
    std::vector<spec::Caution> cautions; // as something that is kept
    std::optional<int> keepDays;         // the house's own rule
    std::optional<preparation::Stretched> stretched;
    struct DatedLot {
        larder::Lot lot;
        std::optional<std::string> useBy;
    };
    std::vector<DatedLot> lots; // newest first
    struct Part {
        std::string name;
        preparation::PartDate date;
    };
    std::vector<Part> parts; // that stand on the shelf with a last day
};

const larder::Ingredient* ingredientOf(const Shown& shown) {
    for (const larder::Ingredient* each : shown.larder.all())
        if (each->madeBy == shown.drink.id) return each;
    return nullptr;
}

ordered_json lotsJson(const MadeHere& made) {
    ordered_json lots = ordered_json::array();
    for (const auto& [lot, useBy] : made.lots)
        lots.push_back({{"on", lot.on},
                        {"use_by", useBy ? ordered_json(*useBy) : ordered_json(nullptr)},
                        {"got_ml", lot.gotMl ? ordered_json(*lot.gotMl) : ordered_json(nullptr)},
                        {"note", lot.note},
                        {"used_up", lot.usedUp}});
    return lots;
}

ordered_json partsJson(const MadeHere& made) {
    ordered_json parts = ordered_json::array();
    for (const auto& [name, date] : made.parts)
        parts.push_back({{"name", name}, {"on", date.madeOn}, {"use_by", date.useBy}});
    return parts;
}

void writeParts(std::ostream& out, const MadeHere& made) {
    const std::string today = dayOf(base::SystemClock().now());
    for (const auto& [name, date] : made.parts)
        writeParagraph(
            out,
            clean(fmt::format(
                "{}Of {} of {}: use by {}{}", date.useBy < today ? "! " : "", name, date.madeOn, date.useBy,
                date.useBy < today ? "; past its day, and nothing made of it keeps longer" : "")),
            2);
}

void writeLots(std::ostream& out, const MadeHere& made) {
    for (const auto& [lot, useBy] : made.lots) {
        if (lot.usedUp) continue;
        writeParagraph(out,
                       clean(fmt::format("Lot of {}: use by {}{}", lot.on, useBy ? *useBy : "?",
                                         lot.note.empty() ? "" : "; " + lot.note)),
                       2);
    }
}

// nullopt: no preparation, or nothing in it has an amount.
std::optional<MadeHere> madeHere(const Shown& shown) {
    const spec::Spec* spec = specInUse(shown);
    if (spec == nullptr || shown.drink.form != history::DrinkForm::Preparation) return std::nullopt;
    const spec::Bindings bindings(*spec, shown.larder, shown.rules);
    auto made = preparation::make(*spec, bindings, preparation::yieldOf(*spec));
    if (!made) return std::nullopt;
    const std::string& name = shown.drink.name;
    const larder::Ingredient* ingredient = ingredientOf(shown);
    const std::optional<int> keepDays = ingredient != nullptr ? ingredient->keepDays : std::nullopt;
    auto keeping =
        preparation::keepingOf(name, *spec, bindings, *made, keepDays,
                               preparation::partKeepings(*spec, bindings, shown.larder, shown.preparations));
    auto cautions = withPast(preparation::cautionsOf(name, *spec, bindings, *made), *spec, bindings, shown);
    auto stretched = preparation::stretchedOf(*spec, bindings, *made);
    MadeHere here{std::move(*made), std::move(keeping), std::move(cautions), keepDays, stretched, {}, {}};
    if (ingredient != nullptr)
        for (const larder::Lot& lot : shown.larder.lots(ingredient->id))
            here.lots.push_back(
                {lot, preparation::lastDayOf(lot, shown.larder, shown.preparations, shown.rules)});
    for (auto& part : preparation::partDates(*spec, bindings, shown.larder, shown.preparations))
        here.parts.push_back({spec->lines[part.line].name, std::move(part)});
    return here;
}

ordered_json drinkJson(const Shown& shown) {
    ordered_json json;
    json["name"] = shown.drink.name;
    json["form"] = formId(shown.drink.form);
    json["menu"] = shown.drink.menuName;
    json["brief"] = shown.drink.brief;
    json["notes"] = shown.drink.notes;
    json["credit"] = shown.drink.credit;
    json["credit_line"] = shown.credit;
    json["tags"] = shown.drink.tags;
    json["changed_since"] =
        shown.changedSince.empty() ? ordered_json(nullptr) : ordered_json(shown.changedSince);
    json["came_after"] = ordered_json::array();
    for (const store::CameAfter& one : shown.cameAfter)
        json["came_after"].push_back(
            {{"name", one.name},
             {"depth", one.depth},
             {"revision", one.revision > 0 ? ordered_json(one.revision) : ordered_json(nullptr)},
             {"changed", one.changed},
             {"binned", one.binned}});
    if (shown.drink.form == history::DrinkForm::Preparation) {
        const auto made = madeHere(shown);
        json["made"] = nullptr;
        if (made) {
            json["made"] = madeJson(made->made, made->keeping, shown.rules.currency);
            json["made"]["keep_days"] =
                made->keepDays ? ordered_json(*made->keepDays) : ordered_json(nullptr);
            json["made"]["stretched"] =
                made->stretched ? stretchedJson(*made->stretched) : ordered_json(nullptr);
            json["made"]["lots"] = lotsJson(*made);
            json["made"]["parts"] = partsJson(*made);
            json["made"]["cautions"] = cautionsJson(made->cautions, allPlaces(*specInUse(shown)));
        }
    }
    if (!shown.costOn.day.empty())
        json["cost_on"] = costOnJson(shown.costOn, *specInUse(shown), shown.rules.currency);
    json["revisions"] = ordered_json::array();
    for (const history::Revision& revision : shown.revisions) {
        ordered_json entry;
        entry["id"] = revision.id.text();
        entry["number"] = revision.number;
        entry["parent"] = revision.parent ? ordered_json(revision.parent->text()) : ordered_json(nullptr);
        entry["house"] = isHouse(shown, revision);
        entry["published"] = shown.drink.published == revision.id;
        const auto aside = shown.setAside.find(revision.id);
        entry["set_aside"] =
            aside == shown.setAside.end() ? ordered_json(nullptr) : ordered_json(aside->second);
        entry["kept"] = base::isoText(revision.kept);
        entry["reason"] = revision.reason;
        entry["calc_version"] = revision.calcVersion;
        entry.update(specJson(revision.spec, shown));
        entry["stages"] = stagesJson(revision.spec, revision.readings, shown.rules.currency);
        entry["glass_fill"] =
            glassFillJson(shown.fillings.at(revision.id), revision.spec, allPlaces(revision.spec));
        entry["tastings"] = tastingsJson(shown, revision.id);
        json["revisions"].push_back(std::move(entry));
    }
    if (shown.draft) {
        const spec::Spec& spec = shown.draft->spec;
        const spec::Bindings bindings(spec, shown.larder, shown.draftRules);
        const spec::Readings readings = spec::evaluateWithTemperatures(spec, bindings);
        ordered_json draft = specJson(spec, shown);
        draft["stages"] = stagesJson(spec, readings, shown.rules.currency);
        draft["more"] = moreJson(spec, spec::furtherReadings(spec, bindings, readings));
        draft["held"] = heldJson(spec, bindings);
        draft["glass_fill"] = glassFillJson(spec::glassFilling(spec, bindings), spec, allPlaces(spec));
        draft["gaps"] = gapsJson(spec::gaps(spec, bindings), allPlaces(spec));
        draft["allergens"] = allergensJson(spec::allergens(spec, bindings), spec);
        const auto made = shown.drink.form == history::DrinkForm::Preparation
                              ? preparation::make(spec, bindings, preparation::yieldOf(spec))
                              : std::nullopt;
        draft["cautions"] =
            cautionsJson(withPast(made ? preparation::cautionsOf(shown.drink.name, spec, bindings, *made)
                                       : spec::cautions(spec, bindings, readings),
                                  spec, bindings, shown),
                         allPlaces(spec));
        json["draft"] = std::move(draft);
    }
    return json;
}

// The scales every book knows in their order, then the book's own by name.
std::vector<std::string> scalesInOrder(const tasting::Scores& scores) {
    const tasting::ScaleSet& known = tasting::ScaleSet::defaults();
    std::vector<std::string> ids;
    for (const tasting::ScaleDefinition& scale : known.scales)
        if (scores.of(scale.id)) ids.push_back(scale.id);
    for (const auto& [scale, score] : scores.byScale)
        if (known.find(scale) == nullptr) ids.push_back(scale);
    return ids;
}

// ", 4 min old, at the back bar"
std::string whenAndWhere(const tasting::Circumstances& said) {
    std::string text;
    if (said.glassAgeMinutes) text += fmt::format(", {} min old", *said.glassAgeMinutes);
    if (!said.place.empty()) text += fmt::format(", {}", said.place);
    return text;
}

void writeTastings(std::ostream& out, const Shown& shown, base::RevisionId revision) {
    const auto found = shown.tastings.find(revision);
    if (found == shown.tastings.end()) return;
    for (const tasting::Tasting& tasted : found->second) {
        const auto by = shown.initials.find(tasted.taster);
        std::string scores;
        for (const std::string& scale : scalesInOrder(tasted.scores))
            scores +=
                fmt::format("{}{} {}", scores.empty() ? "" : ", ", scale, tasted.scores.of(scale)->value);
        writeParagraph(out,
                       clean(fmt::format("{} {}{}: {}{}{}", by == shown.initials.end() ? "?" : by->second,
                                         verdictWords(tasted.verdict), whenAndWhere(tasted.circumstances),
                                         tasted.note, scores.empty() ? "" : "  (" + scores + ")",
                                         tasted.tryNext.empty() ? "" : "  Next: " + tasted.tryNext)),
                       8);
    }
}

void writeTrail(std::ostream& out, const Shown& shown) {
    if (shown.revisions.empty()) return;
    out << "\nTrail\n";
    const auto label = [&](const history::Revision& revision) {
        return history::shortLabel(shown.drink.form, revision.number);
    };
    for (const history::Revision& revision : shown.revisions) {
        const history::Revision* parent = revisionIn(shown, revision.parent);
        const std::string from = parent ? fmt::format(" from {}", label(*parent)) : std::string();
        out << fmt::format("  {}  {}{}{}{}\n", label(revision), dayOf(revision.kept), from,
                           isHouse(shown, revision) ? "  house" : "",
                           shown.drink.published == revision.id ? "  published" : "");
        if (const auto aside = shown.setAside.find(revision.id); aside != shown.setAside.end())
            writeParagraph(out, clean(aside->second.empty() ? "set aside" : "set aside: " + aside->second),
                           6);
        if (parent)
            writeParagraph(
                out,
                clean(history::inWords(history::difference(parent->spec, revision.spec, revision.measures),
                                       parent->spec, revision.spec)),
                6);
        writeParagraph(out, "“" + clean(revision.reason) + "”", 6);
        writeTastings(out, shown, revision.id);
    }
}

// Each under the one it came after.
void writeCameAfter(std::ostream& out, const Shown& shown) {
    if (shown.cameAfter.empty()) return;
    out << "\nCame after it\n";
    for (const store::CameAfter& one : shown.cameAfter) {
        std::string text = one.name.empty() ? "(no name yet)" : one.name;
        if (one.revision > 0)
            text += fmt::format(", after {}", history::shortLabel(shown.drink.form, one.revision));
        if (one.binned) text += ", in the bin";
        if (!one.changed.empty()) text += fmt::format(": {}", one.changed);
        writeParagraph(out, clean(text), 2 * one.depth);
    }
}

void writeSpec(std::ostream& out, const spec::Spec& spec) {
    for (const spec::Line& line : spec.lines) {
        out << "  " << lineText(line);
        if (line.role != spec::Role::Mixed) out << "  [" << spec::roleId(line.role) << "]";
        out << "\n";
    }
    if (!spec.method.text.empty()) writeParagraph(out, clean("Method: " + spec.method.text), 2);
    if (!spec.glass.empty()) writeParagraph(out, clean("Glass: " + spec.glass), 2);
    if (!spec.garnish.empty()) writeParagraph(out, clean("Garnish: " + spec.garnish), 2);
    out << "\n";
}

// A revision in use is shown with the numbers it was kept with; else the draft, computed now.
void writeDrink(std::ostream& out, const Shown& shown, bool more, bool held) {
    out << clean(shown.drink.name) << "\n";
    if (!shown.drink.brief.empty()) writeParagraph(out, clean(shown.drink.brief), 0);
    if (!shown.credit.empty()) writeParagraph(out, clean(shown.credit), 0);
    if (!shown.changedSince.empty()) writeParagraph(out, clean("Changed since: " + shown.changedSince), 2);
    const history::Revision* house = revisionIn(shown, shown.drink.house);
    const spec::Spec* spec = house ? &house->spec : shown.draft ? &shown.draft->spec : nullptr;
    if (spec) {
        out << (house ? fmt::format("\nRevision {}, the house's, as kept:\n", house->number)
                      : std::string("\nThe draft, as it stands:\n"));
        writeSpec(out, *spec);
        const spec::Bindings bindings(*spec, shown.larder, house ? shown.rules : shown.draftRules);
        const spec::Readings now = spec::evaluateWithTemperatures(*spec, bindings);
        const bool prepares = shown.drink.form == history::DrinkForm::Preparation;
        if (!prepares) {
            writeReadings(out, house ? house->readings : now, shown.rules.currency);
            writeGlassFill(out, house ? shown.fillings.at(house->id) : spec::glassFilling(*spec, bindings),
                           *spec);
        }
        if (!shown.costOn.day.empty())
            writeParagraph(out, "Cost: " + costOnText(shown.costOn, shown.rules.currency), 2);
        if (more || held) {
            auto rules = house ? shown.rules : shown.draftRules;
            if (house) rules.measures = shown.houseMeasures;
            const spec::Bindings then(*spec, house ? *shown.houseLarder : shown.larder, rules);
            if (more) writeMore(out, spec::furtherReadings(*spec, then, house ? house->readings : now));
            if (held) writeHeld(out, *spec, then);
        }
        writeGaps(out, spec::gaps(*spec, bindings));
        const auto made = madeHere(shown);
        if (made) {
            writeMade(out, made->made, made->keeping, shown.rules.currency);
            writeRatio(out, *spec, bindings, shown.larder);
            if (made->stretched)
                writeParagraph(
                    out, clean(stretchedWords(*made->stretched, spec->lines[made->stretched->juice].name)),
                    2);
            writeParts(out, *made);
            writeLots(out, *made);
        }
        writeTrail(out, shown);
        writeCameAfter(out, shown);
        writeAllergens(out, spec::allergens(*spec, bindings), *spec);
        spec::CautionContext context;
        context.stored = prepares;
        writeCautions(out,
                      made ? made->cautions
                           : withPast(spec::cautions(*spec, bindings, now, context), *spec, bindings, shown));
    }
}

const store::DrinkSummary* named(const std::vector<store::DrinkSummary>& summaries, const std::string& name) {
    const std::string wanted = base::fold(name);
    for (const store::DrinkSummary& summary : summaries)
        if (base::fold(summary.name) == wanted) return &summary;
    return nullptr;
}

std::string groupOf(const store::DrinkSummary& summary) {
    if (summary.binned) return "Bin";
    if (summary.form == history::DrinkForm::Preparation) return "Preparations";
    return summary.menuName.empty() ? "Drinks" : summary.menuName;
}

void writeList(std::ostream& out, const store::Workbook& book,
               const std::vector<store::DrinkSummary>& summaries, const std::string& day) {
    const std::string name = book.settings().name;
    out << clean(name.empty() ? book.path() : name) << "\n";
    std::vector<std::string> groups;
    std::map<std::string, std::vector<std::vector<std::string>>> rows;
    for (const store::DrinkSummary& summary : summaries) {
        const std::string group = groupOf(summary);
        if (rows.count(group) == 0) {
            groups.push_back(group);
            rows[group].push_back({"", "% vol served", "revisions", ""});
            if (!day.empty()) rows[group].back().push_back("cost on " + day);
        }
        rows[group].push_back(
            {clean(summary.name),
             summary.servedStrength ? readingText(spec::Quantity::Strength, *summary.servedStrength) : "?",
             std::to_string(summary.revisions), summary.draftDiffers ? "draft" : ""});
        if (!day.empty())
            rows[group].back().push_back(
                readingText(spec::Quantity::Cost, gather(book, summary.id, day).costOn.cost));
    }
    for (const std::string& group : groups) {
        out << "\n" << clean(group) << "\n";
        writeTable(out, rows[group], 1);
    }
    if (summaries.empty()) out << "\nNothing in it yet.\n";
}

} // namespace

int runShow(const Options& options, Streams& streams) {
    const base::SystemClock clock;
    const auto book = store::Workbook::open(options.plain.front(), store::OpenMode::ReadOnly, clock);
    const std::string day = options.has("--on") ? dayAsked(options.value("--on")) : std::string();
    const std::vector<store::DrinkSummary> summaries = book->summaries();
    const store::DrinkSummary* one = nullptr;
    if (options.has("--drink")) {
        one = named(summaries, options.value("--drink"));
        if (!one)
            throw FileProblem(fmt::format("{}: there is no drink called \"{}\" in it.", options.plain.front(),
                                          options.value("--drink")));
    }
    if (!options.has("--json")) {
        if (one)
            writeDrink(streams.out, gather(*book, one->id, day), options.has("--more"),
                       options.has("--held"));
        else
            writeList(streams.out, *book, summaries, day);
        return kDone;
    }
    if (one) {
        writeJson(streams.out, drinkJson(gather(*book, one->id, day)));
        return kDone;
    }
    ordered_json json;
    json["name"] = book->settings().name;
    json["currency"] = book->settings().rules.currency.text();
    json["drinks"] = ordered_json::array();
    for (const store::DrinkSummary& summary : summaries)
        if (!summary.binned) json["drinks"].push_back(drinkJson(gather(*book, summary.id, day)));
    writeJson(streams.out, json);
    return kDone;
}

} // namespace stillroom::headless
