#include "core/larder/cost_of.h"

#include <algorithm>
#include <cmath>

namespace stillroom::larder {

namespace {

using quantity::Currency;
using quantity::Rational;

// A thing got from a thing got from a thing… ends before this in any kitchen.
constexpr std::size_t kDeepest = 16;
constexpr std::string_view kNewestOfAll = "9999-12-31";

tl::unexpected<CostFault> fault(CostProblem problem, const Ingredient& at) {
    return tl::unexpected<CostFault>({problem, at.id, {}});
}

std::optional<double> rounded(std::optional<double> size, double perUnit) {
    if (!size || !std::isfinite(*size) || std::abs(*size) > 1e12) return size;
    return std::round(*size * perUnit) / perUnit;
}

// What is poured is counted in µl and µg; a size with more decimals is a computed one.
Pack counted(const Pack& pack) {
    Pack made = pack;
    made.forMl = rounded(pack.forMl, 1e3);
    made.forG = rounded(pack.forG, 1e6);
    return made;
}

double majorOf(const quantity::Money& price) {
    return static_cast<double>(price.minor) / std::pow(10.0, price.currency.exponent);
}

double timesShare(double value, const Rational& share) {
    return share == Rational(1) ? value : value * share.toDouble();
}

tl::expected<PricedRate, CostFault> ofPack(const Ingredient& ingredient, const Pack& pack) {
    PurchaseTerms terms;
    terms.usableShare = ingredient.usableShare;
    const auto rate = costRate(counted(pack), terms);
    if (!rate) return fault(rate.error(), ingredient);
    PricedRate priced;
    priced.rate = *rate;
    priced.pack = &pack;
    priced.bought = ingredient.id;
    priced.paidIn = pack.price.currency;
    const double size = pack.forMl ? *pack.forMl : pack.forG ? *pack.forG : pack.forPieces.value_or(1);
    priced.majorPerUnit = timesShare(majorOf(pack.price) / size, rate->priceShare);
    if (terms.usableShare != Rational(1)) priced.majorPerUnit /= terms.usableShare.toDouble();
    return priced;
}

// g for one ml, exactly as stated.
std::optional<Rational> densityOf(const Ingredient& ingredient) {
    const auto& density = ingredient.facts.densityKgPerM3;
    if (!density || !(density->typical > 0)) return std::nullopt;
    const auto exact = exactOf(density->typical);
    return exact ? exact->over(1000) : std::nullopt;
}

bool isShare(const Rational& share) {
    return !share.isNegative() && !(Rational(1) < share);
}

std::optional<Rational> sharesOf(const std::vector<const Ingredient*>& takers) {
    Rational sum = 0;
    for (const Ingredient* taker : takers) {
        const auto next = sum.plus(taker->gotFrom->priceShare);
        if (!next) return std::nullopt;
        sum = *next;
    }
    return sum;
}

class Finder {
  public:
    Finder(const Larder& larder, const PriceQuestion& question) : m_larder(larder), m_question(question) {}

    tl::expected<PricedRate, CostFault> of(const Ingredient& ingredient) {
        if (const Pack* pack = packAsked(ingredient.packs, m_question.day)) return ofPack(ingredient, *pack);
        if (!ingredient.gotFrom) return fault(CostProblem::NoPrice, ingredient);
        const bool seen = std::find(m_path.begin(), m_path.end(), ingredient.id) != m_path.end();
        if (seen || m_path.size() >= kDeepest) return fault(CostProblem::Cycle, ingredient);
        m_path.push_back(ingredient.id);
        return got(ingredient, *ingredient.gotFrom);
    }

  private:
    tl::expected<PricedRate, CostFault> got(const Ingredient& ingredient, const GotFrom& from) {
        const Ingredient* source = m_larder.poured(from.of);
        if (source == nullptr) return fault(CostProblem::NoPrice, ingredient);
        if (!isShare(from.priceShare)) return fault(CostProblem::BadShares, ingredient);
        const auto shares = sharesOf(m_larder.gotFrom(from.of));
        if (!shares || Rational(1) < *shares) return fault(CostProblem::BadShares, *source);
        auto priced = of(*source);
        if (!priced) return priced;
        return gotAt(*priced, ingredient, from, *source);
    }

    static tl::expected<PricedRate, CostFault> gotAt(PricedRate priced, const Ingredient& ingredient,
                                                     const GotFrom& from, const Ingredient& source) {
        if (!(Rational(0) < from.perUnit) || !(Rational(0) < ingredient.usableShare))
            return fault(CostProblem::YieldNotAbove0, ingredient);
        if (Rational(1) < ingredient.usableShare) return fault(CostProblem::YieldAbove1, ingredient);
        auto usable = amountInUnit(priced.rate.usable, priced.rate.unit, from.ofUnit, densityOf(source));
        if (!usable) return fault(usable.error(), ingredient);
        const double before = priced.rate.usable.toDouble();
        auto got = usable->times(from.perUnit);
        if (got) got = got->times(ingredient.usableShare);
        const auto share = priced.rate.priceShare.times(from.priceShare);
        if (!got || !share || !(Rational(0) < *got)) return fault(CostProblem::TooLarge, ingredient);
        priced.rate.usable = *got;
        priced.rate.unit = from.unit;
        priced.rate.priceShare = *share;
        priced.majorPerUnit *= from.priceShare.toDouble() * before / got->toDouble();
        return priced;
    }

    const Larder& m_larder;
    const PriceQuestion& m_question;
    std::vector<base::IngredientId> m_path;
};

std::optional<Rational> powerOfTen(int exponent) {
    Rational power = 1;
    for (int i = 0; i < std::abs(exponent); ++i) {
        const auto next = exponent > 0 ? power.times(10) : power.over(10);
        if (!next) return std::nullopt;
        power = *next;
    }
    return power;
}

tl::expected<PricedRate, CostFault> inCurrency(PricedRate priced, const PriceQuestion& question) {
    const Currency paid = priced.rate.price.currency;
    if (paid == question.currency) return priced;
    const std::string_view day = question.day.empty() ? kNewestOfAll : question.day;
    const auto rate =
        question.rates != nullptr ? exchangeOn(paid, question.currency, *question.rates, day) : std::nullopt;
    const CostFault none{CostProblem::CurrencyDiffers, priced.bought, paid};
    if (!rate) return tl::unexpected<CostFault>(none);
    // The pack's minor units are counted as those of the asked currency, which may be worth more or less.
    const auto minor = powerOfTen(question.currency.exponent - paid.exponent);
    auto share = minor ? rate->times(*minor) : std::nullopt;
    if (share) share = share->times(priced.rate.priceShare);
    if (!share) return tl::unexpected<CostFault>({CostProblem::TooLarge, priced.bought, paid});
    priced.rate.price.currency = question.currency;
    priced.rate.priceShare = *share;
    priced.majorPerUnit *= rate->toDouble();
    return priced;
}

} // namespace

const Pack* packAsked(const std::vector<Pack>& packs, std::string_view day) {
    if (packs.empty()) return nullptr;
    if (!day.empty()) {
        // Entered last and without a date: known after all of the others, so it holds once they all do.
        const bool afterAll =
            std::all_of(packs.begin(), packs.end(), [day](const Pack& pack) { return pack.pricedOn <= day; });
        return packs.back().pricedOn.empty() && isCivilDate(day) && afterAll ? &packs.back()
                                                                             : packOn(packs, day);
    }
    if (packs.back().pricedOn.empty()) return &packs.back();
    const Pack* newest = packOn(packs, kNewestOfAll);
    return newest != nullptr ? newest : &packs.back();
}

tl::expected<PricedRate, CostFault> rateOn(const Larder& larder, const Ingredient& ingredient,
                                           const PriceQuestion& question) {
    auto priced = Finder(larder, question).of(ingredient);
    if (!priced) return priced;
    return inCurrency(*std::move(priced), question);
}

std::vector<ShareFault> shareFaults(const Larder& larder) {
    std::vector<ShareFault> faults;
    for (const Ingredient* purchase : larder.all()) {
        const auto takers = larder.gotFrom(purchase->id);
        if (takers.empty()) continue;
        const auto shares = sharesOf(takers);
        if (shares && *shares == Rational(1)) continue;
        ShareFault found{purchase->id, shares.value_or(Rational(0)), {}};
        for (const Ingredient* taker : takers)
            found.takers.push_back(taker->id);
        faults.push_back(std::move(found));
    }
    return faults;
}

} // namespace stillroom::larder
