#pragma once

#include "core/larder/larder.h"
#include "core/physics/composition.h"
#include "core/spec/reading.h"
#include "core/spec/spec.h"

#include <memory>
#include <vector>

namespace stillroom::spec {

// What a house decides once: measures, the currency it counts in, whose standard drink it names.
struct HouseRules {
    quantity::HouseMeasures measures = quantity::HouseMeasures::defaults();
    quantity::Currency currency;
    double standardDrinkGrams = 10; // resources/handbook/servings.json
};

// An ingredient's facts turned into masses per ml (per gram when dry), once per fact state, so that an
// evaluation only adds. Defined in prepared_facts.h.
struct PreparedFacts;

// A spec bound to the facts of what it pours: the lookups and allocations that evaluation must not do.
// Rebuild when lines name other ingredients or when the larder changes; amounts may change freely.
class Bindings {
  public:
    Bindings(const Spec& spec, const larder::Larder& larder, const HouseRules& rules);
    Bindings(Bindings&&) noexcept;
    Bindings& operator=(Bindings&&) noexcept;
    ~Bindings();
    const HouseRules& rules() const;
    const PreparedFacts* facts(std::size_t line) const; // nullptr: nothing in the larder answers to it
    const larder::Ingredient* poured(std::size_t line) const;

  private:
    struct Data;
    std::unique_ptr<Data> m_data;
};

// Pure: the same spec and facts give the same readings. No allocation, no words, no lookups by name.
Readings evaluate(const Spec& spec, const Bindings& bindings);
// The two steps in one, for callers that read a spec once.
Readings evaluate(const Spec& spec, const larder::Larder& larder, const HouseRules& rules);

// What one line brings, for the columns beside it. Unknown stays unknown.
struct Contribution {
    Reading volumeMl, ethanolMl, sugarG, acidG, costMajor;
};
std::vector<Contribution> contributions(const Spec& spec, const Bindings& bindings);

// The words' raw material: which facts are missing, line by line, in line order.
std::vector<Gap> gaps(const Spec& spec, const Bindings& bindings);

} // namespace stillroom::spec
