#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>

namespace stillroom::physics {

// What a liquid is made of. Mixing conserves the mass of each; volume follows from them.
enum class Substance : std::uint8_t {
    Ethanol,
    Water,
    Sucrose,
    Glucose,
    Fructose,
    Lactose,
    OtherSugar,        // OtherSugar: maltose, or sugars of unstated kind
    OtherCarbohydrate, // dextrins, starch, fibre: not counted as sugar
    Citric,
    Malic,
    Tartaric,
    Lactic,
    Acetic,
    Phosphoric,
    Ascorbic,
    Succinic,
    Fat,
    Protein,
    Salt,
    OtherSolids,
    CarbonDioxide,
    Caffeine,
};
inline constexpr std::size_t kSubstanceCount = 22;

// Grams of each substance. A plain array on purpose: an evaluation adds these by the million.
struct Composition {
    std::array<double, kSubstanceCount> grams{};

    constexpr double& operator[](Substance s) { return grams[static_cast<std::size_t>(s)]; }
    constexpr double operator[](Substance s) const { return grams[static_cast<std::size_t>(s)]; }
    Composition& operator+=(const Composition& other) {
        for (std::size_t i = 0; i < kSubstanceCount; ++i)
            grams[i] += other.grams[i];
        return *this;
    }
    void addScaled(const Composition& other, double factor) {
        for (std::size_t i = 0; i < kSubstanceCount; ++i)
            grams[i] += factor * other.grams[i];
    }
    double totalGrams() const {
        double sum = 0;
        for (const double g : grams)
            sum += g;
        return sum;
    }
    // Every mass a number: one that is none, or is without end, shows in the sum.
    bool isSound() const { return std::isfinite(totalGrams()); }
    double sugarGrams() const { // mono- and disaccharides
        return (*this)[Substance::Sucrose] + (*this)[Substance::Glucose] + (*this)[Substance::Fructose] +
               (*this)[Substance::Lactose] + (*this)[Substance::OtherSugar];
    }
    friend bool operator==(const Composition&, const Composition&) = default;
};

} // namespace stillroom::physics
