#pragma once

#include "core/larder/larder.h"
#include "core/spec/evaluate.h"

#include <string>
#include <utility>

// A shelf and a drink in few words, for tests.
namespace stillroom::test {

inline larder::Fact fact(double value) {
    return {value, value, value, larder::SourceKind::Label, "label"};
}

struct Known {
    std::optional<double> abv, sugar, acid; // % vol, g/l, g/l
};

inline larder::FactState factsOf(const Known& known) {
    larder::FactState facts;
    if (known.abv) facts.abvPercent = fact(*known.abv);
    if (known.sugar) facts.sugarGPerL = fact(*known.sugar);
    if (known.acid) facts.acidGPerL = fact(*known.acid);
    return facts;
}

class Shelf {
  public:
    Shelf() : larder(larder::Larder::withoutHandbook()) {}

    larder::Ingredient ingredient(const std::string& name) const {
        larder::Ingredient made;
        made.id = base::IngredientId::derivedFrom(name);
        made.name = name;
        return made;
    }
    Shelf& put(const std::string& name, const Known& known) {
        larder::Ingredient made = ingredient(name);
        made.facts = factsOf(known);
        larder.put(made);
        return *this;
    }
    // Price in minor units of EUR for a pack of so many ml.
    Shelf& putPriced(const std::string& name, const Known& known, std::int64_t cents, double ml) {
        larder::Ingredient made = ingredient(name);
        made.facts = factsOf(known);
        made.packs.push_back({base::PackId::derivedFrom(name), {cents, {}}, ml, {}, {}, ""});
        larder.put(made);
        return *this;
    }
    // A dry good: g per kg, and g/ml as spooned.
    Shelf& putDry(const std::string& name, double sugarGPerKg, double acidGPerKg, double bulkGPerMl) {
        larder::Ingredient made = ingredient(name);
        made.facts.dry = true;
        made.facts.sugarGPerL = fact(sugarGPerKg);
        made.facts.acidGPerL = fact(acidGPerKg);
        made.facts.densityKgPerM3 = fact(bulkGPerMl * 1000);
        larder.put(made);
        return *this;
    }

    spec::HouseRules rules() const { return {}; }
    spec::Readings read(const spec::Spec& drink) const { return spec::evaluate(drink, larder, rules()); }
    std::vector<spec::Gap> gaps(const spec::Spec& drink) const {
        return spec::gaps(drink, spec::Bindings(drink, larder, rules()));
    }

    larder::Larder larder;
};

inline spec::Line line(const std::string& name, quantity::Rational amount,
                       std::optional<quantity::Measure> measure = quantity::Measure::Ml,
                       spec::Role role = spec::Role::Mixed) {
    spec::Line made;
    made.name = name;
    made.ingredient = base::IngredientId::derivedFrom(name);
    made.poured = {quantity::Amount::exact(amount), measure, 1};
    made.role = role;
    return made;
}

inline spec::Line ranged(const std::string& name, quantity::Rational low, quantity::Rational high,
                         quantity::Measure measure = quantity::Measure::Ml) {
    spec::Line made = line(name, low, measure);
    made.poured.amount = quantity::Amount::range(low, high);
    return made;
}

inline spec::Line unstated(const std::string& name, spec::Role role = spec::Role::Topped) {
    spec::Line made = line(name, 0, std::nullopt, role);
    made.poured = {};
    return made;
}

inline spec::Spec drink(std::vector<spec::Line> lines, spec::Technique technique = spec::Technique::None) {
    spec::Spec made;
    made.lines = std::move(lines);
    made.method.technique = technique;
    return made;
}

} // namespace stillroom::test
