#include "core/physics/titratable_acid.h"

namespace stillroom::physics {

namespace {

// Molar mass over protons given, relative to citric acid (64.041 g per mol of alkali). Standard atomic
// weights; citric monohydrate, malic and tartaric agree with the factors that Gerald McDonald & Co. publish
// for fruit juice acids. Ascorbic acid: 176.12 g/mol, one proton, computed the same way.
constexpr std::array<double, kSubstanceCount> factorTable() {
    Composition factor;
    factor[Substance::Citric] = 1;
    factor[Substance::Malic] = 1.0469;
    factor[Substance::Tartaric] = 1.1718;
    factor[Substance::Lactic] = 1.4066;
    factor[Substance::Acetic] = 0.9377;
    factor[Substance::Phosphoric] = 0.7651;
    factor[Substance::Succinic] = 0.9220;
    factor[Substance::Ascorbic] = 176.12 / 64.041;
    return factor.grams;
}

constexpr std::array<double, kSubstanceCount> kFactor = factorTable();

constexpr std::array<double, kSubstanceCount> inverseTable() {
    std::array<double, kSubstanceCount> inverse{};
    for (std::size_t i = 0; i < kSubstanceCount; ++i)
        inverse[i] = kFactor[i] > 0 ? 1 / kFactor[i] : 0;
    return inverse;
}

constexpr std::array<double, kSubstanceCount> kInverse = inverseTable();

} // namespace

quantity::Mass titratableAcidAsCitric(const Composition& mixture) noexcept {
    double grams = 0;
    for (std::size_t i = 0; i < kSubstanceCount; ++i)
        grams += kInverse[i] * mixture.grams[i];
    return quantity::Mass::fromGrams(grams);
}

double gramsPerGramCitric(Substance s) noexcept {
    return kFactor[static_cast<std::size_t>(s)];
}

} // namespace stillroom::physics
