#pragma once

#include <cassert>

// A broken promise of our own code. Debug builds stop here; release builds take the stated fallback:
//     STILLROOM_CHECK(index < lines.size(), return {});
#define STILLROOM_CHECK(condition, fallback)                                                                 \
    do {                                                                                                     \
        const bool stillroomHolds = static_cast<bool>(condition);                                            \
        assert(stillroomHolds&& #condition);                                                                 \
        if (!stillroomHolds) {                                                                               \
            fallback;                                                                                        \
        }                                                                                                    \
    } while (false)
