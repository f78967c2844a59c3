#pragma once

#include "core/spec/evaluate.h"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::preparation {

struct Made;

enum class Storage : std::uint8_t { Refrigerate, CoolDark };
std::string_view storageId(Storage storage); // "refrigerate"

// One entry of resources/handbook/keeping.json.
struct KeepingEntry {
    std::string id;                                  // "lime_juice"
    std::string item;                                // in words
    std::optional<double> shortestDays, longestDays; // nullopt: no limit for safety
    Storage storage = Storage::Refrigerate;
    bool mustRefrigerate = false; // low-acid: nothing else will do
    std::string source;
    bool verified = false;
    // What it speaks for; the file says how.
    std::vector<std::string> tags, groups, steps;
    std::vector<std::vector<std::string>> phrases; // word stems
    std::optional<double> minAbv, maxAbv, plainBelowBrix, plainFromBrix;
};

struct KeepingTable {
    std::vector<KeepingEntry> entries;
    std::vector<std::string> keepingGroups; // dry goods and the like
    std::string ruleText, ruleSource;

    static const KeepingTable& builtIn();
    static std::optional<KeepingTable> fromJson(std::string_view json);
};

// How long something keeps, and whose word that is.
struct Keeping {
    enum class Basis : std::uint8_t {
        OwnEntry,     // the table speaks for the finished thing
        ShortestPart, // the shortest of its parts
        House,        // the house's own rule
        NoLimit,      // nothing in it has a limit
        Unknown,      // nothing is known of any part
    };
    Basis basis = Basis::Unknown;
    std::optional<double> shortestDays, longestDays;
    Storage storage = Storage::Refrigerate;
    bool mustRefrigerate = false;
    bool houseLongerThanPublished = false; // the house's days were cut to the published ones
    const KeepingEntry* entry = nullptr;   // that decided the days
    int line = -1;                         // the part that decided; -1: the whole
    std::vector<int> unknownLines;         // parts nothing is known of: it may keep less long
};
std::string_view keepingBasisId(Keeping::Basis basis);

// How the preparations among the parts keep, by the ingredient each makes (part_keeping.h).
using PartKeepings = std::map<base::IngredientId, Keeping>;

// Of an ingredient by itself; nullptr: the table is silent, or it keeps.
const KeepingEntry* keepingEntryOf(const larder::Ingredient& ingredient, const KeepingTable& table);
// Of a preparation: an entry for the finished thing by its steps or its name, else the shortest of its
// parts. A part that must be refrigerated decides over everything, the house's rule too. A part made here
// keeps as `made` says; without it, as bought.
Keeping keepingOf(std::string_view name, const spec::Spec& spec, const spec::Bindings& bindings,
                  const Made& made, std::optional<int> houseDays = std::nullopt,
                  const PartKeepings& parts = {}, const KeepingTable& table = KeepingTable::builtIn());

// Civil dates "2026-11-06". Making day is day 1: what keeps one day is used the day it is made. The shorter
// figure counts; a part's own use-by is never outlived. nullopt: no date, no limit, or a limit nobody knows.
std::optional<std::string> useBy(std::string_view madeOn, const Keeping& keeping,
                                 const std::vector<std::string>& partsUseBy = {});
std::optional<std::string> daysAfter(std::string_view civilDate, int days);

} // namespace stillroom::preparation
