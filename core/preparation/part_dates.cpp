#include "core/preparation/part_dates.h"

#include "core/preparation/part_keeping.h"
#include "core/preparation/preparation.h"

#include <algorithm>
#include <set>

namespace stillroom::preparation {

using base::IngredientId;

namespace {

// Follows parts of parts; what stands in a circle is looked into once.
class LastDays {
  public:
    LastDays(const larder::Larder& larder, const Specs& preparations, const spec::HouseRules& rules)
        : m_larder(larder),
          m_preparations(preparations),
          m_rules(rules) {}

    std::optional<std::string> of(const larder::Lot& lot) {
        if (!lot.useBy.empty()) return lot.useBy;
        const larder::Ingredient* ingredient = m_larder.find(lot.ingredient);
        if (ingredient == nullptr) return std::nullopt;
        const auto spec = m_preparations.find(ingredient->id);
        if (spec == m_preparations.end()) return useBy(lot.on, ofBought(*ingredient));
        if (!m_open.insert(ingredient->id).second) return std::nullopt;
        const spec::Bindings bindings(spec->second, m_larder, m_rules);
        const auto made = make(spec->second, bindings, yieldOf(spec->second));
        std::optional<std::string> last;
        if (made)
            last = useBy(lot.on,
                         keepingOf(ingredient->name, spec->second, bindings, *made, ingredient->keepDays,
                                   partKeepings(spec->second, bindings, m_larder, m_preparations)),
                         bindingOn(lot.on, parts(spec->second, bindings)));
        m_open.erase(ingredient->id);
        return last;
    }

    std::vector<PartDate> parts(const spec::Spec& spec, const spec::Bindings& bindings) {
        std::vector<PartDate> dates;
        for (std::size_t i = 0; i < spec.lines.size(); ++i) {
            const larder::Ingredient* poured = bindings.poured(i);
            if (poured != nullptr) poured = m_larder.find(poured->id);
            if (poured == nullptr) continue;
            if (auto date = atHand(*poured)) {
                date->line = i;
                dates.push_back(*std::move(date));
            }
        }
        return dates;
    }

    std::optional<PartDate> atHand(const larder::Ingredient& ingredient) {
        std::optional<PartDate> first;
        for (const larder::Lot& lot : m_larder.lots(ingredient.id)) {
            if (lot.usedUp) continue;
            const auto last = of(lot);
            if (lot.id == ingredient.lotInUse)
                return last ? std::optional(PartDate{0, lot.on, *last}) : std::nullopt;
            if (last && (!first || *last < first->useBy)) first = PartDate{0, lot.on, *last};
        }
        return first;
    }

  private:
    // By the table or the house's own days; a low-acid thing is not kept longer than what is published.
    static Keeping ofBought(const larder::Ingredient& ingredient) {
        Keeping keeping;
        const KeepingEntry* entry = keepingEntryOf(ingredient, KeepingTable::builtIn());
        if (entry != nullptr) {
            keeping.shortestDays = entry->shortestDays;
            keeping.longestDays = entry->longestDays;
            keeping.mustRefrigerate = entry->mustRefrigerate;
        }
        if (!ingredient.keepDays || *ingredient.keepDays <= 0) return keeping;
        const auto house = static_cast<double>(*ingredient.keepDays);
        const bool cut = keeping.mustRefrigerate && keeping.longestDays && house > *keeping.longestDays;
        keeping.shortestDays = cut ? *keeping.longestDays : house;
        return keeping;
    }

    const larder::Larder& m_larder;
    const Specs& m_preparations;
    const spec::HouseRules& m_rules;
    std::set<IngredientId> m_open;
};

} // namespace

std::optional<std::string> lastDayOf(const larder::Lot& lot, const larder::Larder& larder,
                                     const Specs& preparations, const spec::HouseRules& rules) {
    return LastDays(larder, preparations, rules).of(lot);
}

std::optional<PartDate> lotAtHand(const larder::Ingredient& ingredient, const larder::Larder& larder,
                                  const Specs& preparations, const spec::HouseRules& rules) {
    return LastDays(larder, preparations, rules).atHand(ingredient);
}

std::vector<PartDate> partDates(const spec::Spec& spec, const spec::Bindings& bindings,
                                const larder::Larder& larder, const Specs& preparations) {
    return LastDays(larder, preparations, bindings.rules()).parts(spec, bindings);
}

std::vector<std::string> bindingOn(std::string_view madeOn, const std::vector<PartDate>& parts) {
    std::vector<std::string> dates;
    for (const PartDate& part : parts)
        if (part.madeOn <= madeOn) dates.push_back(part.useBy);
    return dates;
}

std::vector<PartDate> pastOn(std::string_view madeOn, const std::vector<PartDate>& parts) {
    std::vector<PartDate> past;
    for (const PartDate& part : parts)
        if (part.madeOn <= madeOn && part.useBy < madeOn) past.push_back(part);
    return past;
}

} // namespace stillroom::preparation
