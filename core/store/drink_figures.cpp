#include "core/store/drink_figures.h"

#include "core/balance/style_region.h"
#include "core/spec/caution.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace stillroom::store {

namespace {

using spec::Bound;
using spec::Reading;

constexpr double kOpen = std::numeric_limits<double>::infinity();

// The least and the most a reading may be; nullopt when it says nothing.
std::optional<std::pair<double, double>> span(const Reading& reading) {
    switch (reading.bound) {
    case Bound::Exact:
        return std::pair{reading.value, reading.value};
    case Bound::AtLeast:
        return std::pair{reading.value, kOpen};
    case Bound::AtMost:
        return std::pair{-kOpen, reading.value};
    case Bound::Between:
        return std::pair{reading.value, reading.upper};
    case Bound::Unknown:
    case Bound::NotApplicable:
        break;
    }
    return std::nullopt;
}

// Surely inside: a reading that may lie outside is not found by it.
bool isWithin(const Reading& reading, std::optional<double> low, std::optional<double> high) {
    if (!low && !high) return true;
    const auto range = span(reading);
    return range && (!low || range->first >= *low) && (!high || range->second <= *high);
}

std::optional<double> major(const std::optional<quantity::Money>& money) {
    if (!money) return std::nullopt;
    return static_cast<double>(money->minor) / std::pow(10.0, money->currency.exponent);
}

template <class Items, class Has>
bool any(const Items& items, Has&& has) {
    return std::any_of(items.begin(), items.end(), has);
}

// What is poured for a line, and all that goes into it where it is made here. Each is opened once, so that a
// circle ends.
void addNames(const spec::Spec& spec, const larder::Larder& larder, const preparation::Specs& preparations,
              std::set<base::IngredientId>& opened, std::set<base::IngredientId>& names) {
    const auto add = [&](const std::optional<base::IngredientId>& ingredient) {
        if (!ingredient) return;
        names.insert(*ingredient);
        const larder::Ingredient* poured = larder.poured(*ingredient);
        if (!poured) return;
        names.insert(poured->id);
        const auto made = preparations.find(poured->id);
        if (made != preparations.end() && opened.insert(poured->id).second)
            addNames(made->second, larder, preparations, opened, names);
    };
    for (const spec::Line& line : spec.lines) {
        add(line.ingredient);
        for (const spec::Alternative& other : line.alternatives)
            add(other.ingredient);
    }
}

bool costFits(const SearchFilters& filters, const DrinkFigures& figures) {
    for (const auto& bound : {filters.costAtLeast, filters.costAtMost})
        if (bound && bound->currency != figures.currency) return false;
    // Half a millionth: costs are computed in millionths and compared as doubles.
    const auto nudged = [](std::optional<double> value, double by) {
        return value ? std::optional(*value + by) : value;
    };
    return isWithin(figures.cost, nudged(major(filters.costAtLeast), -5e-7),
                    nudged(major(filters.costAtMost), 5e-7));
}

} // namespace

DrinkFigures figuresOf(const spec::Spec& spec, const spec::Readings& readings, const larder::Larder& larder,
                       const preparation::Specs& preparations, const spec::HouseRules& rules) {
    DrinkFigures figures;
    const auto& served = readings[spec::Stage::Served];
    figures.strength = served[spec::Quantity::Strength];
    figures.cost = served[spec::Quantity::Cost];
    figures.currency = rules.currency;
    if (const auto* style = balance::styleOf(spec, readings)) figures.style = style->id;
    std::set<base::IngredientId> opened;
    addNames(spec, larder, preparations, opened, figures.names);
    const auto allergens = spec::allergens(spec, spec::Bindings(spec, larder, rules));
    figures.allergens = allergens.contains;
    for (const auto* more : {&allergens.containsUs, &allergens.mayContainUs})
        figures.allergens.insert(figures.allergens.end(), more->begin(), more->end());
    figures.allergensComplete = allergens.unknownLines.empty() && !allergens.garnishNotStated;
    return figures;
}

bool needsFigures(const SearchFilters& filters) {
    SearchFilters listed;
    listed.form = filters.form;
    listed.changedFrom = filters.changedFrom;
    listed.changedBefore = filters.changedBefore;
    return filters != listed;
}

bool passes(const SearchFilters& filters, const DrinkFigures& figures) {
    const auto has = [&](const std::string& allergen) {
        return std::find(figures.allergens.begin(), figures.allergens.end(), allergen) !=
               figures.allergens.end();
    };
    const auto names = [&](const base::IngredientId& id) { return figures.names.count(id) > 0; };
    if (!filters.states.empty() &&
        !any(filters.states, [&](SearchState state) { return figures.states.count(state) > 0; }))
        return false;
    if (!isWithin(figures.strength, filters.strengthAtLeast, filters.strengthAtMost)) return false;
    if (!costFits(filters, figures)) return false;
    if (!filters.styles.empty() &&
        std::find(filters.styles.begin(), filters.styles.end(), figures.style) == filters.styles.end())
        return false;
    if (!std::all_of(filters.with.begin(), filters.with.end(), names) || any(filters.without, names))
        return false;
    if (!filters.allergens.empty() && !any(filters.allergens, has)) return false;
    if (!filters.withoutAllergens.empty() &&
        (!figures.allergensComplete || any(filters.withoutAllergens, has)))
        return false;
    return filters.tooMuchOf.empty() || figures.tooMuchOf.count(filters.tooMuchOf) > 0;
}

} // namespace stillroom::store
