#pragma once

#include "core/spec/safety_match.h"

namespace stillroom::spec {

// A spec as the safety rules see it, without its quantities and where it is going.
SafetyView viewOf(const Spec& spec, const Bindings& bindings);

// Whether anything that may be poured is alcoholic, however much of it.
bool hasAlcoholicLine(const Spec& spec, const Bindings& bindings);

// What a preparation hands on, by words, to whatever is made of it: what its lines, garnish and steps name.
// The facts of its lines are not looked at again. Each list is sorted.
struct PassedOn {
    std::vector<std::string> allergens; // of the EU list: of words alone, where no facts speak
    std::vector<std::string> tags;      // that set a caution off
};
PassedOn passedOn(const Spec& spec, const Bindings& bindings);

} // namespace stillroom::spec
