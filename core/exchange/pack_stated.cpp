#include "core/exchange/pack_stated.h"

#include "core/larder/cost_of.h"

#include <cmath>

namespace stillroom::exchange {

using quantity::Measure;

std::optional<spec::Measured> packStated(const spec::Line& line, const larder::Larder& larder) {
    const bool counted = line.poured.measure == Measure::Bottle || line.poured.measure == Measure::Can;
    if (!counted || line.sizeStated || !line.ingredient) return std::nullopt;
    const larder::Ingredient* poured = larder.poured(*line.ingredient);
    const larder::Pack* pack = poured != nullptr ? larder::packAsked(poured->packs, {}) : nullptr;
    if (pack == nullptr || !pack->forMl) return std::nullopt;
    constexpr double kMost = 1e6; // ml: a tank is no bottle
    if (!(*pack->forMl > 0 && *pack->forMl <= kMost)) return std::nullopt;
    const auto ml = quantity::Rational::make(std::llround(*pack->forMl * 1000), 1000);
    if (!ml) return std::nullopt;
    return spec::Measured{quantity::Amount::exact(*ml), Measure::Ml, 1};
}

} // namespace stillroom::exchange
