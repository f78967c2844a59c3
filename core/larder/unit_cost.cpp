#include "core/larder/unit_cost.h"

#include "core/base/text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace stillroom::larder {

namespace {

using quantity::Cost;
using quantity::Rational;

constexpr double kLargestSize = 1e9; // ml, g or pieces

template <class T>
tl::unexpected<CostProblem> problem(T code) {
    return tl::unexpected<CostProblem>(code);
}

bool isAbove(const Rational& value, const Rational& limit) {
    return limit < value;
}

struct PackSize {
    Rational amount;
    PackUnit unit;
};

Costed<PackSize> sizeOf(const Pack& pack) {
    const std::array<std::pair<const std::optional<double>*, PackUnit>, 3> sizes{
        {{&pack.forMl, PackUnit::Ml}, {&pack.forG, PackUnit::Gram}, {&pack.forPieces, PackUnit::Piece}}};
    std::optional<PackSize> found;
    for (const auto& [size, unit] : sizes) {
        if (!*size) continue;
        if (found) return problem(CostProblem::NoSize);
        if (!(**size > 0)) return problem(CostProblem::SizeNotAbove0);
        if (**size > kLargestSize) return problem(CostProblem::SizeTooLarge);
        const auto exact = exactOf(**size);
        if (!exact) return problem(CostProblem::TooLarge);
        found = PackSize{*exact, unit};
    }
    if (!found) return problem(CostProblem::NoSize);
    return *found;
}

Costed<Rational> shareWithoutTax(const Rational& taxPercent) {
    if (taxPercent.isNegative()) return problem(CostProblem::BadTax);
    const auto gross = Rational(100).plus(taxPercent);
    if (!gross) return problem(CostProblem::TooLarge);
    const auto share = Rational(100).over(*gross);
    if (!share) return problem(CostProblem::TooLarge);
    return *share;
}

} // namespace

std::string_view costProblemId(CostProblem code) {
    constexpr std::array<std::string_view, 13> ids{
        "no_size",       "size_not_above_0", "size_too_large", "negative_price", "yield_not_above_0",
        "yield_above_1", "bad_tax",          "bad_shares",     "units_differ",   "currency_differs",
        "too_large",     "no_price",         "cycle"};
    return ids[static_cast<std::size_t>(code)];
}

Costed<Rational> amountInUnit(const Rational& amount, PackUnit from, PackUnit to,
                              const std::optional<Rational>& densityGPerMl) {
    if (from == to) return amount;
    const bool pieces = from == PackUnit::Piece || to == PackUnit::Piece;
    if (pieces || !densityGPerMl || !isAbove(*densityGPerMl, 0)) return problem(CostProblem::UnitsDiffer);
    const auto converted = from == PackUnit::Ml ? amount.times(*densityGPerMl) : amount.over(*densityGPerMl);
    if (!converted) return problem(CostProblem::TooLarge);
    return *converted;
}

std::optional<Rational> exactOf(double value) {
    if (!std::isfinite(value)) return std::nullopt;
    return Rational::fromText(base::shortestDecimal(value));
}

Costed<CostRate> costRate(const Pack& pack, const PurchaseTerms& terms) {
    if (pack.price.minor < 0) return problem(CostProblem::NegativePrice);
    const auto size = sizeOf(pack);
    if (!size) return problem(size.error());
    if (!isAbove(terms.usableShare, 0)) return problem(CostProblem::YieldNotAbove0);
    if (isAbove(terms.usableShare, 1)) return problem(CostProblem::YieldAbove1);
    auto usable = size->amount.times(terms.usableShare);
    PackUnit unit = size->unit;
    if (terms.yieldPerUnit) {
        if (!isAbove(*terms.yieldPerUnit, 0)) return problem(CostProblem::YieldNotAbove0);
        if (usable) usable = usable->times(*terms.yieldPerUnit);
        unit = terms.yieldUnit.value_or(unit);
    }
    if (!usable) return problem(CostProblem::TooLarge);
    const auto share = shareWithoutTax(pack.taxPercent);
    if (!share) return problem(share.error());
    return CostRate{pack.price, *usable, *share, unit};
}

Costed<Cost> costOfAmount(const CostRate& rate, const Rational& amount) {
    auto factor = amount.times(rate.priceShare);
    if (factor) factor = factor->over(rate.usable);
    if (!factor) return problem(CostProblem::TooLarge);
    const auto cost = quantity::costOf(rate.price, factor->numerator(), factor->denominator());
    if (!cost) return problem(CostProblem::TooLarge);
    return *cost;
}

Costed<Cost> costOfAmount(const CostRate& rate, const Rational& amount, PackUnit unit,
                          std::optional<Rational> densityGPerMl) {
    const auto priced = amountInUnit(amount, unit, rate.unit, densityGPerMl);
    if (!priced) return problem(priced.error());
    return costOfAmount(rate, *priced);
}

Costed<std::vector<Cost>> splitCost(Cost whole, const std::vector<Rational>& shares) {
    Rational sum = 0;
    for (const Rational& share : shares) {
        if (share.isNegative()) return problem(CostProblem::BadShares);
        const auto next = sum.plus(share);
        if (!next) return problem(CostProblem::TooLarge);
        sum = *next;
    }
    if (sum != Rational(1)) return problem(CostProblem::BadShares);
    if (whole.millionths < 0) return problem(CostProblem::NegativePrice);

    // Each its whole millionths first; the rest goes, one each, to those who lost most, earlier ones first.
    struct Part {
        std::size_t index;
        Rational lost;
    };
    std::vector<Cost> costs;
    std::vector<Part> parts;
    std::int64_t given = 0;
    for (std::size_t i = 0; i < shares.size(); ++i) {
        const auto exact = shares[i].times(Rational(whole.millionths));
        if (!exact) return problem(CostProblem::TooLarge);
        const std::int64_t floor = exact->numerator() / exact->denominator();
        const auto lost = exact->minus(Rational(floor));
        if (!lost) return problem(CostProblem::TooLarge);
        costs.push_back({floor});
        parts.push_back({i, *lost});
        given += floor;
    }
    std::stable_sort(parts.begin(), parts.end(),
                     [](const Part& a, const Part& b) { return b.lost < a.lost; });
    for (std::size_t i = 0; given < whole.millionths; ++i, ++given)
        ++costs[parts[i].index].millionths;
    return costs;
}

} // namespace stillroom::larder
