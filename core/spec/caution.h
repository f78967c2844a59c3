#pragma once

#include "core/spec/evaluate.h"

#include <optional>
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

// What a spec alone does not say: where the thing is going and what it is kept in.
struct CautionContext {
    bool stored = false;            // a preparation or batch that is kept, not a drink made to order
    std::string preparationKind;    // "syrup", "cordial", "puree"; empty: none
    std::vector<std::string> flags; // set on the drink or menu: "alcohol_free", "vegan"
    std::string vessel;             // "bare_copper", "lead_crystal"
    bool event = false;             // for guests at an event
    std::optional<double> ph;
    std::optional<double> waterActivity;
};

// Most dangerous first, then most specific (set off by a line before set off by a total). Standing ones last.
std::vector<Caution> cautions(const Spec& spec, const Bindings& bindings, const Readings& readings);
std::vector<Caution> cautions(const Spec& spec, const Bindings& bindings, const Readings& readings,
                              const CautionContext& context);
std::string_view deferenceText(); // local codes and licensed practice come first
std::string_view severityId(Severity severity);

// From the facts of what is poured, and from words: a garnish, the method, and lines that state nothing may
// name an allergen ("toasted almonds"). Words never make anything complete.
struct AllergenSummary {
    std::vector<std::string> contains; // of the EU list, in its order
    std::vector<int> unknownLines;     // lines whose ingredient states nothing
    bool garnishNotStated = false;     // there is one, and it is words alone
    // The same in the classes of the US, and those it may contain: a cereal with gluten may be wheat.
    std::vector<std::string> containsUs, mayContainUs;
    // Lines of a distillate that states none by the European exemption (larder/allergens.h).
    std::vector<int> exemptLines;
    // Sulphites are named above 10 mg/l of what is served; how much of them is in it nobody states.
    bool sulphitesUnmeasured = false;
};
AllergenSummary allergens(const Spec& spec, const Bindings& bindings);
// The list of Regulation (EU) 1169/2011 Annex II: id ("sulphites") and its full name.
struct AllergenName {
    std::string id;
    std::string name;
};
const std::vector<AllergenName>& euAllergens();

} // namespace stillroom::spec
