#pragma once

#include "core/exchange/tokens.h"

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace stillroom::exchange {

// Fixed phrases of recipe lines, in several languages. Words match folded; hyphens between them are skipped.
enum class Phrase : std::uint8_t {
    TopBefore,     // "top with"
    TopAfter,      // "to top up"
    RinseBefore,   // "rinse of"
    RinseAfter,    // "to rinse the glass"
    FloatBefore,   // "float of"
    FloatAfter,    // "floated on top"
    GarnishBefore, // "garnish with"
    GarnishAfter,  // "for garnish"
    ToTaste,
    AsNeeded,
    Optional,
    NoteStart, // "for the rim": from here on it describes
    JuiceOf,   // "juice of": a number of fruits must follow
    PartOf,    // "zest of", "rinds of": likewise
    EqualParts,
    About,   // qualifiers that stand before the number
    AtMost,  // "up to"
    AtLeast, // "at least"
    LeadIn,  // "add", "then": says nothing about the amount
};

// The token after the longest such phrase at `at`; 0 when none starts there.
std::size_t phraseAt(Phrase phrase, const TokenLine& line, std::size_t at);
// The first token of such a phrase that ends exactly at `last`, not before `first`; `last` when there is
// none.
std::size_t phraseBefore(Phrase phrase, const TokenLine& line, std::size_t first, std::size_t last);

} // namespace stillroom::exchange
