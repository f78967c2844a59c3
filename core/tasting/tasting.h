#pragma once

#include "core/base/clock.h"
#include "core/base/id.h"

#include "core/tasting/circumstances.h"
#include "core/tasting/scales.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace stillroom::tasting {

enum class Verdict : std::uint8_t { None, Keep, Change, Drop };

struct Person {
    base::PersonId id;
    std::string name;     // empty once removed
    std::string initials; // what stands under a revision
    friend bool operator==(const Person&, const Person&) = default;
};

// One person's word on one revision. Never changed: corrected by another that amends it.
struct Tasting {
    base::TastingId id;
    base::RevisionId revision;
    base::PersonId taster;
    base::Instant when;
    Scores scores;
    Circumstances circumstances;
    std::string note;
    Verdict verdict = Verdict::None;
    std::string tryNext;
    std::optional<base::TastingId> amends;
    friend bool operator==(const Tasting&, const Tasting&) = default;
};

std::string_view verdictId(Verdict verdict);
std::optional<Verdict> verdictFromId(std::string_view id);

// Does it call the drink too much of a scale ("sweet")? A just-about-right score of 4 or 5 on that scale, or
// the words "too sweet" or "less sweet" in the note or the next change to try, case and accents apart. "Not
// too sweet" does not, nor what compares: "less sweet than r3" in a note, "tastes less sweet now".
bool saysTooMuch(const Tasting& tasting, std::string_view scaleId, std::string_view scaleName);

} // namespace stillroom::tasting
