#include "core/larder/got_from.h"

namespace stillroom::larder {

using quantity::Rational;

Rational shareLeft(const Larder& larder, base::IngredientId purchase, base::IngredientId except) {
    Rational left = 1;
    for (const Ingredient* taker : larder.gotFrom(purchase)) {
        if (taker->id == except) continue;
        const auto next = left.minus(taker->gotFrom->priceShare);
        if (!next) return 0;
        left = *next;
    }
    return left.isNegative() ? Rational(0) : left;
}

std::optional<PackUnit> soldIn(const Ingredient& purchase) {
    for (auto pack = purchase.packs.rbegin(); pack != purchase.packs.rend(); ++pack) {
        if (pack->forPieces) return PackUnit::Piece;
        if (pack->forMl) return PackUnit::Ml;
        if (pack->forG) return PackUnit::Gram;
    }
    return std::nullopt;
}

std::optional<Rational> shareUsed(const Rational& lostPercent) {
    const auto lost = shareOfPercent(lostPercent);
    return lost ? Rational(1).minus(*lost) : std::nullopt;
}

std::optional<Rational> percentLost(const Rational& usedShare) {
    const auto lost = Rational(1).minus(usedShare);
    return lost ? percentOfShare(*lost) : std::nullopt;
}

std::optional<Rational> shareOfPercent(const Rational& percent) {
    return percent.over(100);
}

std::optional<Rational> percentOfShare(const Rational& share) {
    return share.times(100);
}

} // namespace stillroom::larder
