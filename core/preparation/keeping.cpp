#include "core/preparation/keeping.h"

#include "core/base/check.h"
#include "core/base/embedded.h"
#include "core/base/text.h"
#include "core/larder/guarded_json.h"
#include "core/larder/written_name.h"
#include "core/preparation/preparation.h"

#include <fmt/core.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <chrono>
#include <cmath>

namespace stillroom::preparation {

using nlohmann::json;

namespace {

std::vector<std::string> stems(std::string_view text) {
    std::string plain(text);
    std::replace_if(
        plain.begin(), plain.end(), [](char c) { return c > 0 && std::ispunct(c) != 0; }, ' ');
    std::vector<std::string> words = base::foldedWords(plain);
    for (std::string& word : words)
        word = larder::wordStem(word);
    return words;
}

std::optional<std::string> textOf(const json& object, const char* key) {
    const auto found = object.find(key);
    if (found == object.end() || !found->is_string()) return std::nullopt;
    return found->get<std::string>();
}

// False when the key is there and no list of texts.
bool readList(const json& object, const char* key, std::vector<std::string>& list) {
    const auto found = object.find(key);
    if (found == object.end()) return true;
    if (!found->is_array()) return false;
    for (const json& one : *found) {
        if (!one.is_string()) return false;
        list.push_back(one.get<std::string>());
    }
    return true;
}

bool readNumber(const json& object, const char* key, std::optional<double>& number) {
    const auto found = object.find(key);
    if (found == object.end()) return true;
    if (!found->is_number()) return false;
    number = found->get<double>();
    return true;
}

bool readDays(const json& object, KeepingEntry& entry) {
    const auto days = object.find("days");
    if (days == object.end()) return false;
    if (days->is_null()) return true;
    if (!days->is_array() || days->size() != 2 || !(*days)[0].is_number() || !(*days)[1].is_number())
        return false;
    entry.shortestDays = (*days)[0].get<double>();
    entry.longestDays = (*days)[1].get<double>();
    return *entry.shortestDays > 0 && *entry.longestDays >= *entry.shortestDays;
}

bool readWhen(const json& when, KeepingEntry& entry) {
    std::vector<std::string> words;
    if (!when.is_object()) return false;
    const bool sound = readList(when, "tags", entry.tags) && readList(when, "groups", entry.groups) &&
                       readList(when, "steps", entry.steps) && readList(when, "words", words) &&
                       readNumber(when, "min_abv", entry.minAbv) &&
                       readNumber(when, "max_abv", entry.maxAbv) &&
                       readNumber(when, "plain_below_brix", entry.plainBelowBrix) &&
                       readNumber(when, "plain_from_brix", entry.plainFromBrix);
    for (const std::string& phrase : words)
        entry.phrases.push_back(stems(phrase));
    return sound;
}

std::optional<KeepingEntry> entryFrom(const json& object) {
    if (!object.is_object()) return std::nullopt;
    const auto id = textOf(object, "id");
    const auto item = textOf(object, "item");
    const auto storage = textOf(object, "storage");
    const auto source = textOf(object, "source");
    if (!id || !item || !storage || !source) return std::nullopt;
    KeepingEntry entry;
    entry.id = *id;
    entry.item = *item;
    entry.source = *source;
    entry.storage = *storage == "cool_dark" ? Storage::CoolDark : Storage::Refrigerate;
    entry.mustRefrigerate = larder::flagOr(object, "must_refrigerate", false);
    entry.verified = larder::flagOr(object, "verified", false);
    if (!readDays(object, entry)) return std::nullopt;
    if (const auto when = object.find("when"); when != object.end() && !readWhen(*when, entry))
        return std::nullopt;
    return entry;
}

bool shares(const std::vector<std::string>& a, const std::vector<std::string>& b) {
    return std::any_of(a.begin(), a.end(),
                       [&](const std::string& one) { return std::find(b.begin(), b.end(), one) != b.end(); });
}

bool fitsStrength(const KeepingEntry& entry, std::optional<double> abv) {
    if (entry.minAbv && !(abv && *abv >= *entry.minAbv)) return false;
    return !entry.maxAbv || (abv && *abv < *entry.maxAbv) || entry.mustRefrigerate;
}

bool says(const KeepingEntry& entry, std::string_view name) {
    const std::vector<std::string> words = stems(name);
    return std::any_of(entry.phrases.begin(), entry.phrases.end(), [&](const auto& phrase) {
        return !phrase.empty() &&
               std::search(words.begin(), words.end(), phrase.begin(), phrase.end()) != words.end();
    });
}

std::optional<double> strengthOf(const larder::FactState& facts) {
    if (facts.dry) return 0;
    return facts.abvPercent ? std::optional(facts.abvPercent->typical) : std::nullopt;
}

bool keeps(const larder::Ingredient& part, const KeepingTable& table) {
    return shares({part.facts.group}, table.keepingGroups) ||
           (part.facts.dry && part.facts.group.empty() && part.facts.soluble);
}

// Dry sugar and water: of honey and the like the published figure is the shorter one of flavoured syrups.
bool isPlain(const std::vector<const larder::Ingredient*>& parts, const KeepingTable& table) {
    return std::all_of(parts.begin(), parts.end(), [&](const larder::Ingredient* part) {
        return part != nullptr && ((part->facts.dry && keeps(*part, table)) || part->facts.group == "water");
    });
}

std::vector<std::string> stepsOf(const spec::Spec& spec) {
    std::vector<std::string> steps;
    for (const spec::Step& step : spec.steps)
        steps.emplace_back(spec::stepKindId(step.kind));
    return steps;
}

const KeepingEntry* ofFinished(std::string_view name, const spec::Spec& spec, const Made& made,
                               const std::vector<const larder::Ingredient*>& parts,
                               const KeepingTable& table) {
    const std::vector<std::string> steps = stepsOf(spec);
    const bool plain = isPlain(parts, table);
    const auto abv = strengthOf(made.facts);
    for (const KeepingEntry& entry : table.entries) {
        if (!fitsStrength(entry, abv)) continue;
        if (shares(entry.steps, steps) || says(entry, name)) return &entry;
        if (!plain || !made.brix || made.facts.group != "syrup") continue;
        if (entry.plainBelowBrix && *made.brix < *entry.plainBelowBrix) return &entry;
        if (entry.plainFromBrix && *made.brix >= *entry.plainFromBrix) return &entry;
    }
    return nullptr;
}

void takeShorter(std::optional<double>& days, std::optional<double> other) {
    if (other) days = days ? std::min(*days, *other) : *other;
}

// One part by itself: as it is made here, else as published and by the house's own days.
Keeping ofPart(const larder::Ingredient& part, const PartKeepings& made, const KeepingTable& table) {
    if (const auto here = made.find(part.id); here != made.end()) return here->second;
    Keeping keeping;
    const KeepingEntry* entry = keepingEntryOf(part, table);
    if (entry != nullptr) {
        keeping.entry = entry;
        keeping.basis = entry->shortestDays ? Keeping::Basis::OwnEntry : Keeping::Basis::NoLimit;
        keeping.shortestDays = entry->shortestDays;
        keeping.longestDays = entry->longestDays;
        keeping.mustRefrigerate = entry->mustRefrigerate;
    } else if (keeps(part, table)) {
        keeping.basis = Keeping::Basis::NoLimit;
    }
    if (!part.keepDays) return keeping;
    const auto days = static_cast<double>(*part.keepDays);
    if (!keeping.shortestDays || days < *keeping.shortestDays) {
        keeping.basis = Keeping::Basis::House;
        keeping.entry = nullptr;
    }
    takeShorter(keeping.shortestDays, days);
    takeShorter(keeping.longestDays, days);
    return keeping;
}

// The parts together: the shortest of each end.
Keeping ofParts(const std::vector<const larder::Ingredient*>& parts, const PartKeepings& made,
                const KeepingTable& table) {
    Keeping keeping;
    bool anyKeeps = false;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const Keeping part = parts[i] != nullptr ? ofPart(*parts[i], made, table) : Keeping();
        if (part.basis == Keeping::Basis::Unknown || !part.unknownLines.empty())
            keeping.unknownLines.push_back(static_cast<int>(i));
        anyKeeps |= part.basis == Keeping::Basis::NoLimit;
        if (!part.shortestDays) continue;
        if (!keeping.shortestDays || *part.shortestDays < *keeping.shortestDays) {
            keeping.entry = part.entry;
            keeping.line = static_cast<int>(i);
        }
        keeping.mustRefrigerate |= part.mustRefrigerate;
        takeShorter(keeping.shortestDays, part.shortestDays);
        takeShorter(keeping.longestDays, part.longestDays);
    }
    if (keeping.shortestDays)
        keeping.basis = Keeping::Basis::ShortestPart;
    else if (anyKeeps && keeping.unknownLines.empty())
        keeping.basis = Keeping::Basis::NoLimit;
    return keeping;
}

std::optional<std::chrono::sys_days> dayFrom(std::string_view text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
    const auto number = [&](std::size_t at, std::size_t size) -> int {
        int value = -1;
        const char* end = text.data() + at + size;
        const auto read = std::from_chars(text.data() + at, end, value);
        return read.ec == std::errc() && read.ptr == end ? value : -1;
    };
    const int year = number(0, 4);
    const int month = number(5, 2);
    const int day = number(8, 2);
    if (year < 0 || month < 0 || day < 0) return std::nullopt;
    const std::chrono::year_month_day date{std::chrono::year(year),
                                           std::chrono::month(static_cast<unsigned>(month)),
                                           std::chrono::day(static_cast<unsigned>(day))};
    if (!date.ok()) return std::nullopt;
    return std::chrono::sys_days(date);
}

} // namespace

const KeepingEntry* keepingEntryOf(const larder::Ingredient& ingredient, const KeepingTable& table) {
    const auto abv = strengthOf(ingredient.facts);
    for (const KeepingEntry& entry : table.entries) {
        if (!fitsStrength(entry, abv)) continue;
        if (shares(entry.tags, ingredient.facts.tags) || shares(entry.groups, {ingredient.facts.group}) ||
            says(entry, ingredient.name))
            return &entry;
    }
    return nullptr;
}

namespace {

// Parts that keep each for itself spoil once there is water between them: dry goods dissolved, spirit let
// down.
bool keepsAsMixed(const Made& made) {
    constexpr double kStrong = 20;    // % vol; common practice, no source
    constexpr double kSweetBrix = 65; // as of a rich syrup; common practice, no source
    if (made.process.fermented) return false;
    if (made.facts.dry) return true;
    if (made.facts.abvPercent && made.facts.abvPercent->low >= kStrong) return true;
    return made.brix && *made.brix >= kSweetBrix;
}

// A name does not make egg or dairy keep longer; a step that the table speaks of may ("milk punch").
bool outlivesEggOrDairy(const KeepingEntry& own, const spec::Spec& spec, const Made& made,
                        const Keeping& parts) {
    return shares({"egg_within", "dairy_within"}, made.facts.tags) && !shares(own.steps, stepsOf(spec)) &&
           parts.shortestDays && (!own.shortestDays || *parts.shortestDays < *own.shortestDays);
}

} // namespace

Keeping keepingOf(std::string_view name, const spec::Spec& spec, const spec::Bindings& bindings,
                  const Made& made, std::optional<int> houseDays, const PartKeepings& madeHere,
                  const KeepingTable& table) {
    std::vector<const larder::Ingredient*> parts;
    for (std::size_t i = 0; i < spec.lines.size(); ++i)
        parts.push_back(bindings.poured(i));
    Keeping keeping = ofParts(parts, madeHere, table);
    if (keeping.basis == Keeping::Basis::NoLimit && !keepsAsMixed(made))
        keeping.basis = Keeping::Basis::Unknown;
    const KeepingEntry* own = ofFinished(name, spec, made, parts, table);
    if (own != nullptr && outlivesEggOrDairy(*own, spec, made, keeping)) {
        keeping.mustRefrigerate |= own->mustRefrigerate;
    } else if (own != nullptr && (!keeping.mustRefrigerate || own->mustRefrigerate)) {
        keeping.basis = own->shortestDays ? Keeping::Basis::OwnEntry : Keeping::Basis::NoLimit;
        keeping.entry = own;
        keeping.line = -1;
        keeping.mustRefrigerate = own->mustRefrigerate;
        keeping.shortestDays = own->shortestDays;
        keeping.longestDays = own->longestDays;
        keeping.unknownLines.clear();
    } else if (made.facts.group == "syrup" && !isPlain(parts, table)) {
        for (const KeepingEntry& entry : table.entries)
            if (entry.id == "flavoured_syrup") {
                if (!keeping.shortestDays) keeping.entry = &entry;
                takeShorter(keeping.shortestDays, entry.shortestDays);
                takeShorter(keeping.longestDays, entry.longestDays);
                keeping.basis = Keeping::Basis::ShortestPart;
            }
    }
    if (keeping.entry != nullptr && !keeping.mustRefrigerate) keeping.storage = keeping.entry->storage;
    if (keeping.basis == Keeping::Basis::NoLimit) keeping.storage = Storage::CoolDark;
    if (houseDays && *houseDays > 0) {
        const auto days = static_cast<double>(*houseDays);
        keeping.houseLongerThanPublished =
            keeping.mustRefrigerate && keeping.longestDays && days > *keeping.longestDays;
        const double allowed = keeping.houseLongerThanPublished ? *keeping.longestDays : days;
        keeping.basis = Keeping::Basis::House;
        keeping.shortestDays = keeping.longestDays = allowed;
    }
    return keeping;
}

std::optional<std::string> daysAfter(std::string_view civilDate, int days) {
    const auto day = dayFrom(civilDate);
    constexpr int kMost = 36600; // a century
    if (!day || days < -kMost || days > kMost) return std::nullopt;
    const std::chrono::year_month_day date(*day + std::chrono::days(days));
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

std::optional<std::string> useBy(std::string_view madeOn, const Keeping& keeping,
                                 const std::vector<std::string>& partsUseBy) {
    std::optional<std::string> last;
    if (keeping.shortestDays)
        last = daysAfter(madeOn,
                         static_cast<int>(std::floor(std::clamp(*keeping.shortestDays, 1.0, 36000.0))) - 1);
    if (!dayFrom(madeOn)) return std::nullopt;
    for (const std::string& part : partsUseBy)
        if (dayFrom(part) && (!last || part < *last)) last = part;
    return last;
}

const KeepingTable& KeepingTable::builtIn() {
    static const KeepingTable table = [] {
        auto read = fromJson(base::embedded("handbook/keeping.json"));
        STILLROOM_CHECK(read.has_value(), return KeepingTable());
        return std::move(*read);
    }();
    return table;
}

std::optional<KeepingTable> KeepingTable::fromJson(std::string_view source) {
    const auto document = larder::parseGuarded(source, 6);
    if (!document || !document->is_object() || textOf(*document, "schema") != "stillroom-keeping/1")
        return std::nullopt;
    const auto rule = document->find("rule");
    const auto keeping = document->find("keeps");
    const auto list = document->find("entries");
    if (rule == document->end() || !rule->is_object() || keeping == document->end() ||
        !keeping->is_object() || list == document->end() || !list->is_array())
        return std::nullopt;
    KeepingTable table;
    table.ruleText = textOf(*rule, "text").value_or("");
    table.ruleSource = textOf(*rule, "source").value_or("");
    if (!readList(*keeping, "groups", table.keepingGroups)) return std::nullopt;
    for (const json& object : *list) {
        auto entry = entryFrom(object);
        if (!entry) return std::nullopt;
        table.entries.push_back(std::move(*entry));
    }
    return table;
}

std::string_view storageId(Storage storage) {
    return storage == Storage::Refrigerate ? "refrigerate" : "cool_dark";
}

std::string_view keepingBasisId(Keeping::Basis basis) {
    switch (basis) {
    case Keeping::Basis::OwnEntry:
        return "own_entry";
    case Keeping::Basis::ShortestPart:
        return "shortest_part";
    case Keeping::Basis::House:
        return "house";
    case Keeping::Basis::NoLimit:
        return "no_limit";
    case Keeping::Basis::Unknown:
        return "unknown";
    }
    return "";
}

} // namespace stillroom::preparation
