#include "core/history/fact_swap.h"

#include "core/base/text.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <set>

namespace stillroom::history {

using larder::Fact;
using larder::FactState;
using spec::Line;
using spec::Spec;

namespace {

template <class Map>
bool differAt(const Map& a, const Map& b, base::IngredientId id) {
    const auto x = a.find(id);
    const auto y = b.find(id);
    const bool hasX = x != a.end();
    const bool hasY = y != b.end();
    return hasX != hasY || (hasX && hasY && x->second != y->second);
}

// Only one side may know: a draft names no preparation's revision.
template <class Map>
bool bothDifferAt(const Map& a, const Map& b, base::IngredientId id) {
    return a.count(id) > 0 && b.count(id) > 0 && differAt(a, b, id);
}

void dropSourceOnly(larder::FactChanges& changes) {
    auto& figures = changes.figures;
    figures.erase(std::remove_if(figures.begin(), figures.end(),
                                 [](const larder::FigureChange& change) { return change.sameNumbers(); }),
                  figures.end());
}

// Sugar to water by weight, of something that is nothing else. Half a degree of Brix either way is how far
// a pot strays; the words are the trade's.
std::string ratioOf(const FactState& state) {
    if (!state.sugarGPerL || !state.densityKgPerM3 || state.dry) return {};
    const auto some = [](const std::optional<Fact>& fact, double most) {
        return fact && fact->typical > most;
    };
    if (some(state.abvPercent, 0.5) || some(state.acidGPerL, 1) || !(state.densityKgPerM3->typical > 0))
        return {};
    const double brix = 100 * state.sugarGPerL->typical / state.densityKgPerM3->typical;
    struct Named {
        double brix;
        const char* words;
    };
    constexpr Named kNamed[]{{50, "1:1"}, {60, "3:2"}, {200.0 / 3, "2:1"}};
    for (const Named& named : kNamed)
        if (std::abs(brix - named.brix) <= 0.5) return named.words;
    return {};
}

std::string_view nameOf(std::string_view key) {
    if (key == "abv_percent") return "";
    if (key == "sugar_g_per_l") return "sugar ";
    if (key == "acid_g_per_l") return "acid ";
    if (key == "density_kg_per_m3") return "density ";
    if (key == "fat_g_per_l") return "fat ";
    if (key == "protein_g_per_l") return "protein ";
    if (key == "carbohydrate_g_per_l") return "carbohydrate ";
    if (key == "other_solids_g_per_l") return "other solids ";
    if (key == "salt_g_per_l") return "salt ";
    if (key == "caffeine_mg_per_l") return "caffeine ";
    if (key == "co2_g_per_l") return "CO₂ ";
    return key;
}

std::string_view unitOf(std::string_view key) {
    if (key == "abv_percent") return " % vol";
    if (key == "density_kg_per_m3") return " kg/m³";
    if (key == "caffeine_mg_per_l") return " mg/l";
    return " g/l";
}

std::string figureText(const std::optional<Fact>& fact) {
    if (!fact) return "?";
    return base::shortestDecimal(std::round(fact->typical * 100) / 100);
}

std::string inWords(const larder::FigureChange& change) {
    const auto from = figureText(change.before);
    const auto to = figureText(change.after);
    if (from == to) return fmt::format("{}range{}", nameOf(change.key), unitOf(change.key));
    return fmt::format("{}{} → {}{}", nameOf(change.key), from, to, unitOf(change.key));
}

std::string inWords(const larder::WordsChange& change) {
    const auto text = [](const std::optional<std::vector<std::string>>& words) {
        if (!words) return std::string("not stated");
        return words->empty() ? std::string("none") : fmt::format("{}", fmt::join(*words, ", "));
    };
    std::string key(change.key);
    std::replace(key.begin(), key.end(), '_', ' ');
    return fmt::format("{} {} → {}", key, text(change.before), text(change.after));
}

const Line* lineNaming(const Spec& spec, base::IngredientId id) {
    const auto found = std::find_if(spec.lines.begin(), spec.lines.end(),
                                    [id](const Line& line) { return line.ingredient == id; });
    return found == spec.lines.end() ? nullptr : &*found;
}

void addStates(FactSwap& swap, const std::string& hashA, const std::string& hashB, const StateOf& stateOf) {
    if (hashA == hashB) return;
    const FactState* a = stateOf ? stateOf(hashA) : nullptr;
    const FactState* b = stateOf ? stateOf(hashB) : nullptr;
    if (a == nullptr || b == nullptr) return;
    swap.changes = larder::factChanges(*a, *b);
    dropSourceOnly(swap.changes);
    const auto ratio = ratioOf(*b);
    if (ratio != ratioOf(*a)) swap.ratio = ratio;
}

} // namespace

RevisionFacts factsOf(const Spec& spec, const larder::Larder& larder) {
    RevisionFacts facts;
    for (const Line& line : spec.lines) {
        if (!line.ingredient || facts.states.count(*line.ingredient) > 0) continue;
        const larder::Ingredient* poured = larder.poured(*line.ingredient);
        if (poured == nullptr) continue;
        facts.states[*line.ingredient] = poured->facts.hash();
        if (poured->id != *line.ingredient) facts.pours[*line.ingredient] = poured->id;
        if (larder.isFromLot(poured->id) && poured->lotInUse)
            facts.lots[*line.ingredient] = *poured->lotInUse;
    }
    return facts;
}

std::vector<FactSwap> factSwaps(const Spec& a, const RevisionFacts& factsA, const Spec& b,
                                const RevisionFacts& factsB, const StateOf& stateOf) {
    std::vector<FactSwap> swaps;
    std::set<base::IngredientId> seen;
    for (const Line& line : b.lines) {
        if (!line.ingredient || !seen.insert(*line.ingredient).second) continue;
        const auto id = *line.ingredient;
        if (lineNaming(a, id) == nullptr) continue;
        FactSwap swap;
        swap.ingredient = id;
        swap.name = line.name;
        const auto x = factsA.states.find(id);
        const auto y = factsB.states.find(id);
        // Nothing was known of it on one side: a gap that was filled, not another bottle.
        if (x == factsA.states.end() || y == factsB.states.end()) continue;
        swap.bottle = differAt(factsA.pours, factsB.pours, id);
        swap.lot = differAt(factsA.lots, factsB.lots, id);
        swap.remade = bothDifferAt(factsA.preparations, factsB.preparations, id);
        addStates(swap, x->second, y->second, stateOf);
        if (swap.bottle || swap.lot || swap.remade || !swap.changes.isEmpty())
            swaps.push_back(std::move(swap));
    }
    return swaps;
}

std::string inWords(const FactSwap& swap) {
    std::string text = swap.name;
    if (!swap.ratio.empty()) return text + fmt::format(" now {}", swap.ratio);
    std::vector<std::string> parts;
    // A few figures say it; a bottle that differs in all of them is another bottle.
    constexpr std::size_t kMost = 3;
    for (const auto& figure : swap.changes.figures)
        if (parts.size() < kMost) parts.push_back(inWords(figure));
    for (const auto& words : swap.changes.words)
        if (parts.size() < kMost) parts.push_back(inWords(words));
    const char* other = swap.bottle   ? ", another bottle"
                        : swap.remade ? " remade"
                        : swap.lot    ? ", another lot"
                                      : "";
    text += other;
    if (parts.empty()) return text;
    return fmt::format("{}{} {}", text, *other == '\0' ? "" : ":", fmt::join(parts, ", "));
}

std::string inWords(const std::vector<FactSwap>& swaps) {
    std::vector<std::string> words;
    for (const FactSwap& swap : swaps)
        words.push_back(inWords(swap));
    return fmt::format("{}", fmt::join(words, "; "));
}

} // namespace stillroom::history
