#include "core/preparation/past_parts.h"

#include "core/base/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace stillroom::preparation {

using base::IngredientId;

namespace {

struct Standing {
    std::string name;
    PartDate date;
};

// What an ingredient is poured from: its lot, else the lots of what it would be made of.
class Finder {
  public:
    Finder(const larder::Larder& larder, const Specs& preparations, const spec::HouseRules& rules)
        : m_larder(larder),
          m_preparations(preparations),
          m_rules(rules) {}

    std::vector<Standing> of(IngredientId id) {
        const larder::Ingredient* poured = m_larder.poured(id);
        if (poured == nullptr) return {};
        const auto known = m_known.find(poured->id);
        if (known != m_known.end()) return known->second;
        m_known[poured->id]; // what stands in a circle is looked into once
        auto found = lookedUp(*poured);
        return m_known[poured->id] = std::move(found);
    }

  private:
    std::vector<Standing> lookedUp(const larder::Ingredient& poured) {
        const larder::Ingredient& own = *m_larder.find(poured.id); // without a lot's figures
        const auto lots = m_larder.lots(own.id);
        const bool stands =
            std::any_of(lots.begin(), lots.end(), [](const larder::Lot& lot) { return !lot.usedUp; });
        if (stands) {
            const auto date = lotAtHand(own, m_larder, m_preparations, m_rules);
            return date ? std::vector<Standing>{{own.name, *date}} : std::vector<Standing>{};
        }
        std::vector<Standing> all;
        const auto spec = m_preparations.find(own.id);
        if (spec == m_preparations.end()) return all;
        std::set<std::string> named;
        for (const spec::Line& line : spec->second.lines) {
            if (!line.ingredient) continue;
            for (Standing& part : of(*line.ingredient))
                if (named.insert(part.name).second) all.push_back(std::move(part));
        }
        return all;
    }

    const larder::Larder& m_larder;
    const Specs& m_preparations;
    const spec::HouseRules& m_rules;
    std::map<IngredientId, std::vector<Standing>> m_known;
};

} // namespace

ShelfDates::ShelfDates(const larder::Larder& larder, const Specs& preparations,
                       const spec::HouseRules& rules) {
    Finder finder(larder, preparations, rules);
    for (const larder::Ingredient* each : larder.all()) {
        const bool made = preparations.count(each->id) > 0;
        if (!made && larder.lots(each->id).empty()) continue;
        for (Standing& standing : finder.of(each->id)) {
            const bool itself = standing.name == each->name;
            m_endings[each->id].push_back(
                {std::move(standing.name), itself ? std::string() : each->name, std::move(standing.date)});
        }
    }
}

std::vector<spec::Caution> ShelfDates::past(const spec::Spec& spec, const spec::Bindings& bindings,
                                            std::string_view today) const {
    std::vector<spec::Caution> all;
    for (std::size_t i = 0; i < spec.lines.size(); ++i) {
        const larder::Ingredient* poured = bindings.poured(i);
        if (poured == nullptr) continue;
        const auto found = m_endings.find(poured->id);
        if (found == m_endings.end()) continue;
        for (const Ending& ending : found->second) {
            if (!(ending.date.useBy < today)) continue;
            spec::Caution caution;
            caution.id = "part_past_use_by";
            caution.severity = spec::Severity::Warn;
            caution.text = fmt::format(
                "{}{} of {} is past its last day, {}. Make or open a new one; nothing made of it keeps "
                "longer.",
                ending.name, ending.through.empty() ? "" : " in " + ending.through, ending.date.madeOn,
                ending.date.useBy);
            caution.source = "the date on the lot, else how long it keeps";
            caution.lines = {static_cast<int>(i)};
            all.push_back(std::move(caution));
        }
    }
    return all;
}

std::vector<spec::Caution> withPast(std::vector<spec::Caution> cautions, std::vector<spec::Caution> past) {
    const auto at = std::find_if(cautions.begin(), cautions.end(), [](const spec::Caution& each) {
        return each.severity != spec::Severity::Danger;
    });
    cautions.insert(at, std::make_move_iterator(past.begin()), std::make_move_iterator(past.end()));
    return cautions;
}

} // namespace stillroom::preparation
