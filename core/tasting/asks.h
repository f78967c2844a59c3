#pragma once

#include "core/spec/evaluate.h"
#include "core/tasting/scales.h"
#include "core/tasting/tasting.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

// What tasters ask of a revision, and one-line changes of a spec that go some way to it.
namespace stillroom::tasting {

enum class AskFor : std::uint8_t { Less, More };

struct Ask {
    ScaleDefinition scale;
    AskFor wish = AskFor::Less;
    int tasters = 0; // how many people say so
    int against = 0; // how many say the opposite
    // Asked of one line of the drink and not of a scale: `scale` then has its name and no id.
    std::optional<std::size_t> line = {};
    friend bool operator==(const Ask&, const Ask&) = default;
};

// A just-about-right score off the middle, or words in the note or the next change to try: "too sweet", "less
// sweet" ask for less (saysTooMuch), "more sweet", "not sweet enough", "too little sweet" for more. Each
// person counts once, by their last tasting that says either. The most asked for first, then in the scales'
// order.
std::vector<Ask> asksOf(const std::vector<Tasting>& tastings, const std::vector<ScaleDefinition>& scales);
// And of lines of the drink, by their names: "lemon down", "more honey under it", "too much gin". A word that
// two lines have is of neither; "less sweet vermouth" is of the vermouth and not of sweetness.
std::vector<Ask> asksOf(const std::vector<Tasting>& tastings, const std::vector<ScaleDefinition>& scales,
                        const spec::Spec& spec);
// Every next change to try, as it was written, in the order given. Empty ones are left out.
struct NextChange {
    base::PersonId taster;
    std::string text;
    friend bool operator==(const NextChange&, const NextChange&) = default;
};
std::vector<NextChange> nextChanges(const std::vector<Tasting>& tastings);
bool saysTooLittle(const Tasting& tasting, std::string_view scaleId, std::string_view scaleName);

// How a change comes to bear on what was asked.
enum class Lever : std::uint8_t {
    Itself, // the line that brings it: sugar for sweet, acid for sour, alcohol for strong, bitters for bitter
    Against,   // the line that covers it: acid against sweet, sugar against sour
    NamedLine, // a scale of the house's own that is called like a line
};

struct Candidate {
    std::size_t line = 0;
    Lever lever = Lever::Itself;
    int direction = 0; // +1: more of the line, −1: less
    spec::Measured before, after;
    spec::Spec spec;         // with that one amount changed by one step of the jigger
    spec::Readings readings; // of it
};

inline constexpr std::size_t kMostCandidates = 4;

// By one step of the jigger each (spec::steppedOnJiggers), computed and kept only where the reading behind
// the wish moves its way: sugar per 100 ml or sugar:acid for sweet, acid or sugar:acid for sour, strength for
// strong. Bitterness has no figure: bitters, what the larder marks as such and what is bitter by its name
// (amaro, gentian, tonic) are tried, and nothing is promised. Optional lines and lines without an exact
// amount are no lever. The lines that bring most come first. Empty where this bench has no lever: aroma,
// texture, length.
std::vector<Candidate> candidatesFor(const Ask& ask, const spec::Spec& spec, const spec::Bindings& bindings);

} // namespace stillroom::tasting
