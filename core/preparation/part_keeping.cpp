#include "core/preparation/part_keeping.h"

#include "core/preparation/preparation.h"

#include <set>

namespace stillroom::preparation {

namespace {

class Parts {
  public:
    Parts(const larder::Larder& larder, const Specs& preparations, const spec::HouseRules& rules)
        : m_larder(larder),
          m_preparations(preparations),
          m_rules(rules) {}

    void add(const spec::Spec& spec, const spec::Bindings& bindings) {
        for (std::size_t i = 0; i < spec.lines.size(); ++i) {
            const larder::Ingredient* poured = bindings.poured(i);
            if (poured == nullptr || !m_seen.insert(poured->id).second) continue;
            const auto made = m_preparations.find(poured->id);
            if (made != m_preparations.end()) addMade(*poured, made->second);
        }
    }
    PartKeepings take() { return std::move(m_keepings); }

  private:
    void addMade(const larder::Ingredient& ingredient, const spec::Spec& spec) {
        const spec::Bindings bindings(spec, m_larder, m_rules);
        add(spec, bindings);
        const auto made = make(spec, bindings, yieldOf(spec));
        if (!made) return;
        m_keepings[ingredient.id] =
            keepingOf(ingredient.name, spec, bindings, *made, ingredient.keepDays, m_keepings);
    }

    const larder::Larder& m_larder;
    const Specs& m_preparations;
    const spec::HouseRules& m_rules;
    std::set<base::IngredientId> m_seen;
    PartKeepings m_keepings;
};

} // namespace

PartKeepings partKeepings(const spec::Spec& spec, const spec::Bindings& bindings,
                          const larder::Larder& larder, const Specs& preparations) {
    Parts parts(larder, preparations, bindings.rules());
    parts.add(spec, bindings);
    return parts.take();
}

} // namespace stillroom::preparation
