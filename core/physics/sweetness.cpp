#include "core/physics/sweetness.h"

namespace stillroom::physics {

RelativeSweetness relativeSweetness(Substance sugar) noexcept {
    switch (sugar) {
    case Substance::Sucrose:
        return {1, 1, 1, "by definition"};
    case Substance::Glucose:
        return {0.74, 0.5, 1.0,
                "A Dictionary of Food and Nutrition; range: Wiebe et al., BMC Medicine 9 (2011) 123"};
    case Substance::Fructose:
        return {1.25, 1.0, 2.0,
                "from memory: 1.2 to 1.3 in drinks; range: Wiebe et al., BMC Medicine 9 (2011) 123"};
    case Substance::Lactose:
        return {0.2, 0.16, 0.2,
                "doi 10.1017/S1368980022001598, Table 2; low: A Dictionary of Food and Nutrition"};
    case Substance::OtherSugar:
        return {0.4, 0.33, 0.5,
                "maltose, from memory; range: A Dictionary of Food and Nutrition and Wiebe et al. (2011)"};
    default:
        return {};
    }
}

SucroseEquivalent sucroseEquivalent(const Composition& mixture) noexcept {
    SucroseEquivalent sum;
    for (const Substance sugar : {Substance::Sucrose, Substance::Glucose, Substance::Fructose,
                                  Substance::Lactose, Substance::OtherSugar}) {
        const RelativeSweetness factor = relativeSweetness(sugar);
        const auto mass = quantity::Mass::fromGrams(mixture[sugar]);
        sum.typical += mass * factor.typical;
        sum.low += mass * factor.low;
        sum.high += mass * factor.high;
    }
    return sum;
}

} // namespace stillroom::physics
