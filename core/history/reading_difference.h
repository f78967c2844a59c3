#pragma once

#include "core/spec/reading.h"

namespace stillroom::history {

// What two readings let one say of how far the second lies from the first. Of numbers that lack a fact this
// is less than a number: two floors may be as far apart as they like, only the floor itself has moved.
enum class Known : std::uint8_t {
    Nothing,     // one of them is unknown
    NoSuch,      // one of them does not apply
    Exactly,     // `value`
    AtLeast,     // `value` or more
    AtMost,      // `value` or less
    Between,     // `value` to `upper`
    FloorMoved,  // both are at least something; these somethings differ by `value`
    CeilingMoved // both are at most something; likewise
};

struct ReadingDifference {
    Known known = Known::Nothing;
    double value = 0; // second − first, in the quantity's own unit, of what is shown: the column adds up
    double upper = 0; // only for Between
    bool estimate = false; // one of the two is
    friend bool operator==(const ReadingDifference&, const ReadingDifference&) = default;
};

ReadingDifference readingDifference(const spec::Reading& before, const spec::Reading& after,
                                    spec::Quantity quantity);

} // namespace stillroom::history
