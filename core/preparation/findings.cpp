#include "core/preparation/findings.h"

#include "core/larder/price_history.h"
#include "core/preparation/doubts.h"

#include <algorithm>
#include <cmath>

namespace stillroom::preparation {

using base::IngredientId;
using larder::CostProblem;
using larder::Fact;
using larder::Ingredient;

namespace {

Finding finding(FindingCode code, bool refuses) {
    Finding found;
    found.code = code;
    found.refuses = refuses;
    return found;
}

// The most of a figure that a litre (of a dry good: a kilogram) can hold.
double mostOf(std::string_view key, bool dry) {
    if (key == "abv_percent") return 100;
    if (key == "density_kg_per_m3") return 3000; // nothing one drinks is denser than stone
    const double grams = dry ? 1000 : kMostPerLitreG;
    return key == "caffeine_mg_per_l" ? grams * 1000 : grams;
}

class Looker {
  public:
    Looker(const larder::Larder& larder, const Specs& preparations, const larder::PriceQuestion& question)
        : m_larder(larder),
          m_preparations(preparations),
          m_question(question) {}

    std::vector<Finding> at(const Ingredient& ingredient) {
        if (ingredient.name.empty()) put(finding(FindingCode::NoName, true));
        for (const larder::FactKey& key : larder::factKeys())
            if (const auto& fact = ingredient.facts.*key.member) figure(key.id, *fact, ingredient.facts.dry);
        purchases(ingredient);
        stock(ingredient);
        circles(ingredient);
        for (Finding& doubt : doubtsOf(ingredient))
            put(std::move(doubt));
        return std::move(m_found);
    }

  private:
    void put(Finding found) { m_found.push_back(std::move(found)); }

    void figure(std::string_view key, const Fact& fact, bool dry) {
        const auto of = [&](FindingCode code, double stated, double limit) {
            Finding found = finding(code, true);
            found.key = key;
            found.stated = stated;
            found.limit = limit;
            put(found);
        };
        const double most = mostOf(key, dry);
        if (!(fact.low >= 0))
            of(FindingCode::FigureBelowZero, fact.low, 0);
        else if (!(fact.high <= most))
            of(FindingCode::FigureAbovePossible, fact.high, most);
        else if (!(fact.low <= fact.typical && fact.typical <= fact.high))
            of(FindingCode::RangeUpsideDown, fact.low, fact.high);
        else if (!fact.on.empty() && !larder::isCivilDate(fact.on))
            of(FindingCode::DateUnreadable, 0, 0);
    }

    void problem(CostProblem code, std::optional<std::size_t> pack, bool refused,
                 quantity::Currency currency = {}) {
        Finding found = finding(FindingCode::Purchase, refused);
        found.problem = code;
        found.pack = pack;
        found.currency = currency;
        put(found);
    }

    void purchases(const Ingredient& ingredient) {
        const auto& share = ingredient.usableShare;
        if (!(quantity::Rational(0) < share))
            problem(CostProblem::YieldNotAbove0, std::nullopt, true);
        else if (quantity::Rational(1) < share)
            problem(CostProblem::YieldAbove1, std::nullopt, true);
        if (ingredient.gotFrom) got(*ingredient.gotFrom);
        for (std::size_t i = 0; i < ingredient.packs.size(); ++i)
            pack(ingredient.packs[i], i);
        if (!m_found.empty() && refuses(m_found)) return; // what follows would only say it again
        const auto priced = larder::rateOn(m_larder, ingredient, m_question);
        if (priced) {
            turned(ingredient, *priced);
            return;
        }
        const CostProblem code = priced.error().problem;
        if (code == CostProblem::NoPrice || code == CostProblem::Cycle) return;
        const bool doubtOnly = code == CostProblem::CurrencyDiffers || code == CostProblem::UnitsDiffer;
        problem(code, std::nullopt, !doubtOnly, priced.error().currency);
    }

    // True whether or not anybody has priced the purchase yet.
    void got(const larder::GotFrom& from) {
        if (!(quantity::Rational(0) < from.perUnit)) problem(CostProblem::YieldNotAbove0, std::nullopt, true);
        if (from.priceShare.isNegative() || quantity::Rational(1) < from.priceShare)
            problem(CostProblem::BadShares, std::nullopt, true);
    }

    void pack(const larder::Pack& pack, std::size_t index) {
        for (const auto& size : {pack.forMl, pack.forG, pack.forPieces})
            if (size && *size >= kLargestPack) {
                problem(CostProblem::SizeTooLarge, index, true);
                return;
            }
        const auto rate = larder::costRate(pack);
        if (!rate) problem(rate.error(), index, true);
        if (pack.pricedOn.empty() || larder::isCivilDate(pack.pricedOn)) return;
        Finding found = finding(FindingCode::DateUnreadable, true);
        found.pack = index;
        put(found);
    }

    // Lines pour millilitres and grams: a price by the other one needs a density.
    void turned(const Ingredient& ingredient, const larder::PricedRate& priced) {
        const auto prepared = spec::prepare(ingredient.facts);
        const bool liquid = priced.rate.unit == larder::PackUnit::Gram && !ingredient.facts.dry;
        const bool dry = priced.rate.unit == larder::PackUnit::Ml && ingredient.facts.dry;
        if ((liquid || dry) && !prepared.densityKnown) put(finding(FindingCode::PricedByTheGram, false));
    }

    void stock(const Ingredient& ingredient) {
        const auto& stock = ingredient.stock;
        if (stock.amount && !(*stock.amount >= 0)) put(finding(FindingCode::StockBelowZero, true));
        if (!stock.countedOn.empty() && !larder::isCivilDate(stock.countedOn))
            put(finding(FindingCode::DateUnreadable, true));
    }

    void circles(const Ingredient& ingredient) {
        auto path = gotFromCircle(ingredient);
        if (path.empty())
            if (const auto order = makingOrder(m_preparations, m_larder); !order) path = order.error().path;
        if (path.empty()) return;
        Finding found = finding(FindingCode::MadeOfItself, true);
        found.path = std::move(path);
        put(std::move(found));
    }

    std::vector<IngredientId> gotFromCircle(const Ingredient& from) const {
        std::vector<IngredientId> path;
        for (const Ingredient* at = &from; at != nullptr;) {
            const auto seen = std::find(path.begin(), path.end(), at->id);
            const bool circle = seen != path.end();
            if (circle) path.erase(path.begin(), seen);
            path.push_back(at->id);
            if (circle) return path;
            at = at->gotFrom ? m_larder.poured(at->gotFrom->of) : nullptr;
        }
        return {};
    }

    const larder::Larder& m_larder;
    const Specs& m_preparations;
    const larder::PriceQuestion& m_question;
    std::vector<Finding> m_found;
};

} // namespace

std::vector<Finding> findings(const larder::Larder& larder, IngredientId id, const Specs& preparations,
                              const larder::PriceQuestion& question) {
    const Ingredient* ingredient = larder.find(id);
    if (ingredient == nullptr) return {};
    return Looker(larder, preparations, question).at(*ingredient);
}

bool refuses(const std::vector<Finding>& all) {
    return std::any_of(all.begin(), all.end(), [](const Finding& found) { return found.refuses; });
}

} // namespace stillroom::preparation
