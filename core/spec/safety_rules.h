#pragma once

#include "core/spec/caution.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::spec {

// What sets a caution off: resources/handbook/safety.json documents the grammar.
struct SafetyTrigger {
    enum class Kind : std::uint8_t {
        All,
        Any,
        Tags,
        Groups,
        Techniques,
        Quantity,
        Stored,
        PreparationKinds,
        Flag,
        Vessel,
        Event,
        Always
    };
    enum class Compare : std::uint8_t { Above, AtLeast, Below, AtMost };

    Kind kind = Kind::Always;
    std::vector<SafetyTrigger> parts; // of All and Any
    std::vector<std::string> words;   // tags, groups, techniques, preparation kinds, the flag, the vessel
    std::string quantity;             // "serving_ethanol_g"
    Compare compare = Compare::AtLeast;
    double value = 0;
};

struct SafetyRule {
    Caution caution; // as shown, its lines still empty
    SafetyTrigger trigger;
    std::string names; // the class of the EU list it tells of and nothing else; empty: it tells more
};

using Phrase = std::vector<std::string>; // word stems that follow each other

struct TagWords {
    std::string tag;
    std::vector<Phrase> phrases;
    bool carried = false; // by a handbook kind: then the words speak only for lines that name nothing known
    std::vector<Phrase> except; // within one of these ("coconut milk") its words do not count
    std::string allergen;       // the class of the EU list it tells of; empty: none
};

struct TechniqueWords {
    std::string technique;
    std::vector<Phrase> any;
    std::vector<std::vector<Phrase>> together; // one of each list, within one sentence
};

struct SafetyRules {
    std::vector<SafetyRule> rules;
    std::vector<TagWords> tagWords;
    std::vector<TechniqueWords> techniqueWords;
    std::vector<AllergenName> allergens;
    std::string deference;

    static const SafetyRules& builtIn(); // read once
    static std::optional<SafetyRules> fromJson(std::string_view json);
};

// A caution that says no more than a list of allergens does which names this class; empty: it says more.
std::string_view allergenNamedBy(std::string_view cautionId);

// The words of a text in the one spelling and number that phrases are kept in.
std::vector<std::string> safetyWords(std::string_view text);

} // namespace stillroom::spec
