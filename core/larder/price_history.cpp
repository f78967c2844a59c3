#include "core/larder/price_history.h"

#include <algorithm>
#include <charconv>
#include <chrono>

namespace stillroom::larder {

namespace {

using quantity::Cost;
using quantity::Currency;
using quantity::Rational;

std::optional<int> digits(std::string_view text) {
    int value = 0;
    for (const char c : text) {
        if (c < '0' || c > '9') return std::nullopt;
        value = 10 * value + (c - '0');
    }
    return value;
}

// Civil dates of one form compare as their texts do; an undated price held from the beginning.
std::vector<const Pack*> byDay(const std::vector<Pack>& packs) {
    std::vector<const Pack*> sorted;
    for (const Pack& pack : packs)
        if (pack.pricedOn.empty() || isCivilDate(pack.pricedOn)) sorted.push_back(&pack);
    std::stable_sort(sorted.begin(), sorted.end(),
                     [](const Pack* a, const Pack* b) { return a->pricedOn < b->pricedOn; });
    return sorted;
}

const ExchangeRate* newest(const std::vector<ExchangeRate>& rates, const Currency& from, const Currency& to,
                           std::string_view day) {
    const ExchangeRate* best = nullptr;
    for (const ExchangeRate& rate : rates) {
        const bool holds = rate.from == from && rate.to == to && isCivilDate(rate.on) && rate.on <= day &&
                           Rational(0) < rate.perUnit;
        if (holds && (best == nullptr || best->on <= rate.on)) best = &rate;
    }
    return best;
}

// Minor units for one usable unit; nullopt when it does not fit.
std::optional<Rational> unitPrice(const CostRate& rate) {
    const auto counted = Rational(rate.price.minor).times(rate.priceShare);
    return counted ? counted->over(rate.usable) : std::nullopt;
}

Costed<Cost> scaled(Cost cost, const Rational& factor) {
    // A price of `millionths` minor units of a currency with six decimals is that many millionths.
    const quantity::Money asMoney{cost.millionths, Currency{{'X', 'X', 'X'}, 6}};
    const auto result = quantity::costOf(asMoney, factor.numerator(), factor.denominator());
    if (!result) return tl::unexpected<CostProblem>(CostProblem::TooLarge);
    return *result;
}

} // namespace

bool isCivilDate(std::string_view text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
    const auto year = digits(text.substr(0, 4));
    const auto month = digits(text.substr(5, 2));
    const auto day = digits(text.substr(8, 2));
    if (!year || !month || !day) return false;
    return std::chrono::year_month_day(std::chrono::year(*year),
                                       std::chrono::month(static_cast<unsigned>(*month)),
                                       std::chrono::day(static_cast<unsigned>(*day)))
        .ok();
}

const Pack* packOn(const std::vector<Pack>& packs, std::string_view day) {
    if (!isCivilDate(day)) return nullptr;
    const Pack* held = nullptr;
    for (const Pack* pack : byDay(packs))
        if (pack->pricedOn <= day) held = pack;
    return held;
}

std::vector<PriceStep> priceSteps(const std::vector<Pack>& packs, const PurchaseTerms& terms) {
    std::vector<PriceStep> steps;
    std::optional<CostRate> before;
    for (const Pack* pack : byDay(packs)) {
        const auto rate = costRate(*pack, terms);
        if (!rate) continue;
        const bool comparable =
            before && before->unit == rate->unit && before->price.currency == rate->price.currency;
        const bool same = comparable && unitPrice(*before) && unitPrice(*before) == unitPrice(*rate);
        if (comparable && !same) steps.push_back({pack->pricedOn, *before, *rate});
        before = *rate;
    }
    return steps;
}

std::optional<double> relativeChange(const PriceStep& step) {
    const auto perUnit = [](const CostRate& rate) {
        return static_cast<double>(rate.price.minor) * rate.priceShare.toDouble() / rate.usable.toDouble();
    };
    const double before = perUnit(step.before);
    if (!(before > 0)) return std::nullopt;
    return perUnit(step.after) / before - 1;
}

std::optional<Rational> exchangeOn(const Currency& from, const Currency& to,
                                   const std::vector<ExchangeRate>& rates, std::string_view day) {
    if (from == to) return Rational(1);
    if (!isCivilDate(day)) return std::nullopt;
    const ExchangeRate* straight = newest(rates, from, to, day);
    const ExchangeRate* back = newest(rates, to, from, day);
    if (straight && (!back || back->on <= straight->on)) return straight->perUnit;
    return back ? Rational(1).over(back->perUnit) : std::nullopt;
}

Costed<Cost> converted(Cost cost, const Currency& from, const Currency& to,
                       const std::vector<ExchangeRate>& rates, std::string_view day) {
    if (from == to) return cost;
    const auto rate = exchangeOn(from, to, rates, day);
    if (!rate) return tl::unexpected<CostProblem>(CostProblem::CurrencyDiffers);
    return scaled(cost, *rate);
}

} // namespace stillroom::larder
