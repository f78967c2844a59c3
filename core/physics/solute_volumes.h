#pragma once

#include "core/physics/composition.h"

namespace stillroom::physics {

// Apparent specific volume of what is dissolved or suspended, ml/g at 20 °C. Ethanol, water and sugar are
// not here (R 22, SPS-4), except how far glucose and fructose differ from sucrose.
constexpr std::array<double, kSubstanceCount> soluteMlPerGram() {
    Composition v;
    // CRC Handbook of Chemistry and Physics, 102nd ed., concentrative properties: from the density at
    // 10 g/100 g, 20 °C.
    constexpr double kSucrose = 0.6168;
    v[Substance::Glucose] = 0.6223 - kSucrose;
    v[Substance::Fructose] = 0.6130 - kSucrose;
    v[Substance::Citric] = 0.5973;
    v[Substance::Lactic] = 0.7887;
    v[Substance::Acetic] = 0.8642;
    v[Substance::Phosphoric] = 0.4795;
    v[Substance::Salt] = 0.3235;
    // No figure found: taken as citric acid.
    v[Substance::Malic] = 0.5973;
    v[Substance::Tartaric] = 0.5973;
    v[Substance::Ascorbic] = 0.5973;
    v[Substance::Succinic] = 0.5973;
    // From memory: food-engineering values.
    v[Substance::OtherCarbohydrate] = 0.62;
    v[Substance::Protein] = 0.735;
    v[Substance::Fat] = 1.087;
    v[Substance::OtherSolids] = 0.4; // ash
    // From memory: partial molar volume 32.3 ml/mol (R. F. Weiss, Mar. Chem. 2 (1974) 203).
    v[Substance::CarbonDioxide] = 32.3 / 44.0095;
    // No source; milligrams in a drink.
    v[Substance::Caffeine] = 0.7;
    return v.grams;
}

inline constexpr std::array<double, kSubstanceCount> kSoluteMlPerGram = soluteMlPerGram();

} // namespace stillroom::physics
