#pragma once

#include "core/spec/evaluate.h"

#include <string>
#include <vector>

namespace stillroom::spec {

enum class Severity : std::uint8_t { Danger, Warn, Allergen, Info };

struct Caution {
    std::string id; // of resources/handbook/safety.json
    Severity severity = Severity::Info;
    std::string text;
    std::string source;
    bool standing = false;  // shown once, in a footer
    std::vector<int> lines; // the lines that set it off; empty: the drink as a whole
    friend bool operator==(const Caution&, const Caution&) = default;
};

// Most dangerous first, then most specific (set off by a line before set off by a total). Standing ones last.
std::vector<Caution> cautions(const Spec& spec, const Bindings& bindings, const Readings& readings);
std::string_view deferenceText(); // local codes and licensed practice come first
std::string_view severityId(Severity severity);

struct AllergenSummary {
    std::vector<std::string> contains; // of the EU list, in its order
    std::vector<int> unknownLines;     // lines whose ingredient states nothing
};
AllergenSummary allergens(const Spec& spec, const Bindings& bindings);

} // namespace stillroom::spec
