#pragma once

#include "core/physics/composition.h"
#include "core/quantity/mass.h"

#include <string_view>

namespace stillroom::physics {

// How sweet a sugar tastes against sucrose, by mass, and how far published figures stray.
struct RelativeSweetness {
    double typical = 0;
    double low = 0;
    double high = 0;
    std::string_view source;
};
RelativeSweetness relativeSweetness(Substance sugar) noexcept; // all zero when it is no sugar

// The sucrose that would taste as sweet as the sugars of the mixture. Sweetness moves with strength,
// temperature and acid (fructose is sweetest cold): a scale for comparing, not a measurement.
struct SucroseEquivalent {
    quantity::Mass typical;
    quantity::Mass low;
    quantity::Mass high;
};
SucroseEquivalent sucroseEquivalent(const Composition& mixture) noexcept;

} // namespace stillroom::physics
