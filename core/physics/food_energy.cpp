#include "core/physics/food_energy.h"

namespace stillroom::physics {

FoodEnergy foodEnergy(const Composition& mixture) noexcept {
    using S = Substance;
    const double ethanol = mixture[S::Ethanol];
    const double carbohydrate = mixture.sugarGrams() + mixture[S::OtherCarbohydrate];
    const double acid = mixture[S::Citric] + mixture[S::Malic] + mixture[S::Tartaric] + mixture[S::Lactic] +
                        mixture[S::Acetic] + mixture[S::Ascorbic] + mixture[S::Succinic]; // organic only
    const double protein = mixture[S::Protein];
    const double fat = mixture[S::Fat];
    return {29 * ethanol + 17 * carbohydrate + 13 * acid + 17 * protein + 37 * fat,
            7 * ethanol + 4 * carbohydrate + 3 * acid + 4 * protein + 9 * fat};
}

} // namespace stillroom::physics
