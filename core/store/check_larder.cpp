#include "core/store/check_larder.h"

#include "core/larder/price_history.h"
#include "core/store/larder_repository.h"
#include "core/store/lot_repository.h"
#include "core/store/rate_repository.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

namespace stillroom::store {

namespace {

using larder::Ingredient;

class LarderChecker {
  public:
    LarderChecker(Book& book, std::vector<CheckProblem>& problems) : m_book(book), m_problems(problems) {}

    void run() {
        for (const bool binned : {false, true})
            for (Ingredient& ingredient : binned ? m_ingredients.binned() : m_ingredients.all())
                m_all[ingredient.id] = std::move(ingredient);
        for (larder::Lot& lot : LotRepository(m_book).all())
            m_lots[lot.id] = std::move(lot);
        for (const auto& [id, ingredient] : m_all)
            purchases(ingredient);
        circles();
        lots();
        rates();
    }

  private:
    void doubtful(const std::string& where, const std::string& what) {
        m_problems.push_back({where, what, CheckSort::Doubtful});
    }

    void purchases(const Ingredient& ingredient) {
        if (!isAbove0(ingredient.usableShare) || quantity::Rational(1) < ingredient.usableShare)
            doubtful(ingredient.name, "the share of it that is used is not above 0 and up to 1");
        if (ingredient.gotFrom && !isAbove0(ingredient.gotFrom->perUnit))
            doubtful(ingredient.name, "nothing is got of it from its purchase");
        if (ingredient.gotFrom && ingredient.gotFrom->priceShare.isNegative())
            doubtful(ingredient.name, "its share of the price is below zero");
        for (const larder::Pack& pack : ingredient.packs) {
            if (pack.price.minor < 0) doubtful(ingredient.name, "a pack's price is below zero");
            if (pack.taxPercent.isNegative()) doubtful(ingredient.name, "a pack's tax is below zero");
            if (!isDateOrNone(pack.pricedOn))
                doubtful(ingredient.name, fmt::format("a pack's day \"{}\" is no date", pack.pricedOn));
        }
    }

    // Each circle is told once, by the names on the way round, beginning with the first in order of ids.
    void circles() {
        std::set<base::IngredientId> done;
        for (const auto& [id, ingredient] : m_all) {
            std::vector<base::IngredientId> path;
            for (const Ingredient* at = &ingredient; at != nullptr && done.count(at->id) == 0;) {
                done.insert(at->id);
                path.push_back(at->id);
                if (!at->gotFrom) break;
                const auto seen = std::find(path.begin(), path.end(), at->gotFrom->of);
                if (seen != path.end()) tellCircle({seen, path.end()});
                at = find(at->gotFrom->of);
            }
        }
    }

    void tellCircle(const std::vector<base::IngredientId>& circle) {
        std::string way;
        for (const base::IngredientId id : circle)
            way += m_all.at(id).name + " from ";
        doubtful(m_all.at(circle.front()).name, "is got from itself: " + way.substr(0, way.size() - 6) +
                                                    " from " + m_all.at(circle.front()).name);
    }

    void lots() {
        for (const auto& [id, lot] : m_lots) {
            const Ingredient* of = find(lot.ingredient);
            const std::string where = "lot of " + (of != nullptr ? of->name : lot.ingredient.text());
            for (const std::string& day : {lot.on, lot.useBy})
                if (!isDateOrNone(day)) doubtful(where, fmt::format("its day \"{}\" is no date", day));
            if (lot.gotMl && *lot.gotMl < 0) doubtful(where, "less than nothing came out of it");
        }
        for (const auto& [id, ingredient] : m_all) {
            if (!ingredient.lotInUse) continue;
            const auto lot = m_lots.find(*ingredient.lotInUse);
            if (lot == m_lots.end())
                doubtful(ingredient.name, "the lot in use is not there");
            else if (lot->second.ingredient != ingredient.id)
                doubtful(ingredient.name, "the lot in use is of something else");
        }
    }

    void rates() {
        for (const larder::ExchangeRate& rate : RateRepository(m_book).all()) {
            const std::string where =
                fmt::format("the exchange rate {} to {} of {}", rate.from.text(), rate.to.text(), rate.on);
            if (!isAbove0(rate.perUnit)) doubtful(where, "is not above zero");
            if (rate.from == rate.to) doubtful(where, "is of one currency in itself");
            if (!larder::isCivilDate(rate.on)) doubtful(where, "its day is no date");
        }
    }

    static bool isAbove0(const quantity::Rational& number) { return quantity::Rational(0) < number; }
    static bool isDateOrNone(const std::string& day) { return day.empty() || larder::isCivilDate(day); }

    const Ingredient* find(base::IngredientId id) const {
        const auto found = m_all.find(id);
        return found != m_all.end() ? &found->second : nullptr;
    }

    Book& m_book;
    LarderRepository m_ingredients{m_book};
    std::vector<CheckProblem>& m_problems;
    std::map<base::IngredientId, Ingredient> m_all; // the bin's too
    std::map<base::LotId, larder::Lot> m_lots;
};

} // namespace

void checkLarder(Book& book, std::vector<CheckProblem>& problems) {
    LarderChecker(book, problems).run();
}

} // namespace stillroom::store
