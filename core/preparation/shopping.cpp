#include "core/preparation/shopping.h"

#include "core/base/text.h"
#include "core/larder/cost_of.h"
#include "core/preparation/preparation.h"
#include "core/spec/portion.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace stillroom::preparation {

using base::IngredientId;
using larder::Ingredient;
using larder::PackUnit;
using quantity::Dimension;
using quantity::Measure;

namespace {

constexpr std::size_t kUnits = 3;
using Amounts = std::array<double, kUnits>; // by PackUnit

std::size_t at(PackUnit unit) {
    return static_cast<std::size_t>(unit);
}

double partMl(const spec::Spec& spec) {
    constexpr double kNominalMl = 90; // a serve of parts nobody sized, as the evaluation takes it
    double parts = 0;
    for (const spec::Line& line : spec.lines)
        if (line.poured.measure == Measure::Part && line.poured.amount.isStated() && !line.optional &&
            !line.toTaste)
            parts += spec::amountOf(line.poured, true);
    return parts > 0 ? spec.partTargetMl.value_or(kNominalMl) * std::max(spec.serves, 1) / parts : 0;
}

// A line's amount in what it can be bought in. nullopt: nobody stated one.
std::optional<Quantum> amountOf(const spec::Line& line, const spec::BoundLine& bound,
                                const spec::Bindings::Data& data, double part) {
    if (spec::isPaidByGuess(line)) return Quantum{1, PackUnit::Piece};
    if (!line.poured.amount.isStated()) return std::nullopt;
    const double amount = spec::amountOf(line.poured, true);
    if (!(amount >= 0)) return std::nullopt;
    const Measure measure = line.poured.measure.value_or(Measure::Piece);
    const auto& size = bound.stated ? *bound.stated : data.sizes[static_cast<std::size_t>(measure)];
    const bool counted = size.dimension == Dimension::Count;
    if (counted && bound.price.unit == spec::UnitPrice::Per::Piece && !line.juiceOf)
        return Quantum{amount, PackUnit::Piece};
    const auto portion = spec::portionOf(line.poured, amount, bound, data, part, 0);
    if (portion.sizing == spec::Sizing::Sized)
        return Quantum{portion.units, bound.facts->dry ? PackUnit::Gram : PackUnit::Ml};
    // Fruit, herbs and powders: as they are written.
    if (counted) return Quantum{amount, PackUnit::Piece};
    if (size.dimension == Dimension::Part) return Quantum{amount * part, PackUnit::Ml};
    return Quantum{amount * size.size, size.dimension == Dimension::Mass ? PackUnit::Gram : PackUnit::Ml};
}

class Lister {
  public:
    Lister(const larder::Larder& larder, const Specs& preparations, const spec::HouseRules& rules,
           const ShoppingOptions& options)
        : m_larder(larder),
          m_preparations(preparations),
          m_rules(rules),
          m_options(options),
          m_house(larder, rules) {}

    ShoppingList list(const std::vector<Wish>& wishes) {
        for (std::size_t i = 0; i < wishes.size(); ++i)
            if (wishes[i].spec != nullptr && wishes[i].serves > 0)
                need(*wishes[i].spec, wishes[i].serves / std::max(wishes[i].spec->serves, 1),
                     static_cast<int>(i));
        countDown();
        backToPurchases();
        for (const auto& [id, amounts] : m_needs)
            buy(id, amounts);
        sortOut();
        return std::move(m_list);
    }

  private:
    void need(const spec::Spec& spec, double times, int wish) {
        if (spec::hasGarnishInWords(spec)) m_list.open.push_back({wish, spec.garnish});
        const spec::Bindings bindings(spec, m_house);
        const double part = partMl(spec);
        for (std::size_t i = 0; i < spec.lines.size(); ++i) {
            const spec::Line& line = spec.lines[i];
            const spec::BoundLine& bound = bindings.data().lines[i];
            if (line.optional || line.toTaste || bound.ice || bound.facts->plainWater) continue;
            const auto amount = amountOf(line, bound, bindings.data(), part);
            if (bound.poured == nullptr || !amount)
                m_list.open.push_back({wish, bound.poured != nullptr ? bound.poured->name : line.name});
            else
                m_needs[bound.poured->id][at(amount->unit)] += amount->amount * times;
        }
    }

    // Preparations from the top down, so that each knows all that is wanted of it.
    void countDown() {
        Specs preparations = m_preparations;
        auto order = makingOrder(preparations, m_larder);
        while (!order) {
            if (!m_list.circle) m_list.circle = order.error();
            for (const IngredientId id : order.error().path)
                preparations.erase(id);
            order = makingOrder(preparations, m_larder);
        }
        for (auto id = order->rbegin(); id != order->rend(); ++id)
            if (m_needs.count(*id) > 0) make(*id);
    }

    void make(IngredientId id) {
        const Ingredient& ingredient = *m_larder.find(id);
        const spec::Spec& spec = m_preparations.at(id);
        const auto made = preparation::make(spec, spec::Bindings(spec, m_house), yieldOf(spec));
        if (!made) return; // nothing in it has an amount: a thing to buy
        const bool dry = made->facts.dry;
        const PackUnit unit = dry ? PackUnit::Gram : PackUnit::Ml;
        const double batch = dry ? made->mass.grams() : made->yield.ml();
        const auto wanted = inUnit(m_needs.at(id), unit, ingredient);
        if (!wanted || !(batch > 0)) return;
        m_needs.erase(id);
        const double missing = lessShelf(ingredient, {beforeWaste(ingredient, *wanted), unit}).first;
        if (!(missing > 0)) return;
        const double batches = missing / batch;
        m_list.toMake.push_back({id, {missing, unit}, batches});
        need(spec, batches, -1);
    }

    // The fruit for its juice and its peel, to any depth.
    void backToPurchases() {
        constexpr int kDeepest = 16;
        for (int depth = 0; depth < kDeepest; ++depth) {
            std::map<IngredientId, double> most; // of each purchase, by what takes most of it
            for (auto each = m_needs.begin(); each != m_needs.end();) {
                const Ingredient* taker = m_larder.find(each->first);
                const auto wanted = taker != nullptr ? ofPurchase(*taker, each->second) : std::nullopt;
                if (!wanted) {
                    ++each;
                    continue;
                }
                const Ingredient* source = m_larder.poured(taker->gotFrom->of);
                most[source->id] = std::max(most[source->id], *wanted);
                m_units[source->id] = taker->gotFrom->ofUnit;
                if (taker->gotFrom->unit == PackUnit::Ml && taker->gotFrom->ofUnit == PackUnit::Piece)
                    m_fruit[source->id] = true;
                each = m_needs.erase(each);
            }
            if (most.empty()) return;
            for (const auto& [id, amount] : most)
                m_needs[id][at(m_units[id])] += amount;
        }
    }

    // What of its purchase an ingredient without a pack of its own takes.
    std::optional<double> ofPurchase(const Ingredient& taker, const Amounts& amounts) {
        if (!taker.gotFrom || larder::packAsked(taker.packs, m_rules.pricesOn) != nullptr)
            return std::nullopt;
        if (m_larder.poured(taker.gotFrom->of) == nullptr) return std::nullopt;
        const double got = taker.gotFrom->perUnit.toDouble();
        const auto wanted = inUnit(amounts, taker.gotFrom->unit, taker);
        if (!wanted || !(got > 0)) return std::nullopt;
        return lessShelf(taker, {beforeWaste(taker, *wanted), taker.gotFrom->unit}).first / got;
    }

    // The shelf holds things as they are bought or made: they lose as much as what is still to come.
    static double beforeWaste(const Ingredient& ingredient, double amount) {
        const double usable = ingredient.usableShare.toDouble();
        return usable > 0 && usable <= 1 ? amount / usable : amount;
    }

    // All of an amount in one unit; nullopt where nothing says how they meet.
    std::optional<double> inUnit(const Amounts& amounts, PackUnit unit, const Ingredient& ingredient) {
        double sum = amounts[at(unit)];
        for (const PackUnit other : {PackUnit::Ml, PackUnit::Gram, PackUnit::Piece}) {
            const double amount = amounts[at(other)];
            if (other == unit || !(amount > 0)) continue;
            const auto factor = factorOf(other, unit, ingredient);
            if (!factor) return std::nullopt;
            sum += amount * *factor;
        }
        return sum;
    }

    // How much of `to` one of `from` is: by density, and by what the house takes one piece for.
    std::optional<double> factorOf(PackUnit from, PackUnit to, const Ingredient& ingredient) {
        if (from == PackUnit::Piece || to == PackUnit::Piece) {
            const auto piece = pieceIn(from == PackUnit::Piece ? to : from, ingredient);
            if (!piece) return std::nullopt;
            return from == PackUnit::Piece ? *piece : 1 / *piece;
        }
        const auto facts = spec::prepare(ingredient.facts);
        const double density = facts.dry ? facts.bulkGPerMl : facts.densityGPerMl;
        if (!facts.densityKnown || !(density > 0)) return std::nullopt;
        return from == PackUnit::Ml ? density : 1 / density;
    }

    std::optional<double> pieceIn(PackUnit unit, const Ingredient& ingredient) {
        spec::Spec one;
        one.lines.emplace_back();
        one.lines[0].name = ingredient.name;
        one.lines[0].ingredient = ingredient.id;
        const spec::Bindings bindings(one, m_house);
        const spec::BoundLine& bound = bindings.data().lines[0];
        const double size = unit == PackUnit::Ml ? bound.pieceMl : bound.pieceG;
        return size > 0 ? std::optional(size) : std::nullopt;
    }

    // What is short, and what was taken off.
    std::pair<double, double> lessShelf(const Ingredient& ingredient, Quantum wanted) {
        const larder::Stock& stock = ingredient.stock;
        if (!m_options.useShelf || stock.off) return {wanted.amount, 0};
        if (stock.amount) {
            double& left = m_left.emplace(ingredient.id, *stock.amount).first->second;
            Amounts there{};
            there[at(stock.unit)] = std::max(left, 0.0);
            const auto counted = inUnit(there, wanted.unit, ingredient);
            if (!counted) return {wanted.amount, 0};
            const double taken = std::min(*counted, wanted.amount);
            if (*counted > 0) left *= 1 - taken / *counted;
            if (!(taken < wanted.amount)) cover(ingredient.id, wanted);
            return {wanted.amount - taken, taken};
        }
        if (stock.state != larder::OnShelf::Have) return {wanted.amount, 0};
        m_list.notCounted.push_back(ingredient.id);
        return {0, wanted.amount};
    }

    void cover(IngredientId id, Quantum wanted) {
        m_list.coveredBy.push_back(id);
        m_list.covered.push_back(wanted);
    }

    void buy(IngredientId id, const Amounts& amounts) {
        const Ingredient& ingredient = *m_larder.find(id);
        if (ingredient.stock.off) {
            m_list.off.push_back(id);
            return;
        }
        const larder::Pack* pack = larder::packAsked(ingredient.packs, m_rules.pricesOn);
        const auto rate =
            pack != nullptr ? larder::costRate(*pack)
                            : larder::Costed<larder::CostRate>(tl::unexpected(larder::CostProblem::NoPrice));
        if (rate) {
            if (const auto wanted = inUnit(amounts, rate->unit, ingredient)) {
                buy(ingredient, {*wanted, rate->unit}, pack, rate->usable.toDouble());
                return;
            }
        }
        for (const PackUnit unit : {PackUnit::Ml, PackUnit::Gram, PackUnit::Piece})
            if (amounts[at(unit)] > 0)
                buy(ingredient, {amounts[at(unit)], unit}, nullptr, 0, rate.has_value());
    }

    void buy(const Ingredient& ingredient, Quantum needed, const larder::Pack* pack, double packSize,
             bool unitUnclear = false) {
        ShoppingItem item;
        item.ingredient = ingredient.id;
        item.needed = needed;
        Quantum bought{beforeWaste(ingredient, needed.amount), needed.unit};
        if (m_fruit.count(ingredient.id) > 0) {
            item.withMargin = m_options.fruitMargin > 0;
            // What stands there varies as much.
            bought.amount *= 1 + m_options.fruitMargin;
        }
        const auto [shortOf, taken] = lessShelf(ingredient, bought);
        if (!(shortOf > 0)) return;
        item.onShelf = taken;
        item.unitUnclear = unitUnclear;
        item.toBuy = shortOf;
        constexpr double kHair = 1e-9; // what sums of amounts leave over is no further pack
        if (needed.unit == PackUnit::Piece) item.toBuy = std::ceil(item.toBuy - kHair);
        if (pack != nullptr) {
            constexpr double kMostPacks = 1e12;
            const double packs = std::ceil(item.toBuy / packSize - kHair);
            item.pack = *pack;
            item.packs = static_cast<std::int64_t>(std::clamp(packs, 1.0, kMostPacks));
            item.price = priceOf(*pack, item.packs);
        }
        m_items.push_back(std::move(item));
    }

    // And into the total. nullopt: no sum that fits.
    std::optional<quantity::Money> priceOf(const larder::Pack& pack, std::int64_t packs) {
        std::int64_t& total = m_list.totals[pack.price.currency];
        std::int64_t minor = 0;
        std::int64_t sum = 0;
        if (__builtin_mul_overflow(pack.price.minor, packs, &minor) ||
            __builtin_add_overflow(total, minor, &sum))
            return std::nullopt;
        total = sum;
        return quantity::Money{minor, pack.price.currency};
    }

    const std::string& nameOf(IngredientId id) const { return m_larder.find(id)->name; }

    void sortOut() {
        std::stable_sort(m_items.begin(), m_items.end(),
                         [this](const ShoppingItem& a, const ShoppingItem& b) {
                             return base::compareForPeople(nameOf(a.ingredient), nameOf(b.ingredient)) < 0;
                         });
        std::map<std::string, std::vector<ShoppingItem>> bySupplier;
        for (ShoppingItem& item : m_items)
            bySupplier[item.pack ? item.pack->supplier : std::string()].push_back(std::move(item));
        for (auto& [supplier, items] : bySupplier)
            if (!supplier.empty()) m_list.groups.push_back({supplier, std::move(items)});
        if (const auto unsaid = bySupplier.find(""); unsaid != bySupplier.end())
            m_list.groups.push_back({"", std::move(unsaid->second)});
        auto& open = m_list.notCounted;
        std::sort(open.begin(), open.end());
        open.erase(std::unique(open.begin(), open.end()), open.end());
    }

    const larder::Larder& m_larder;
    const Specs& m_preparations;
    const spec::HouseRules& m_rules;
    const ShoppingOptions& m_options;
    spec::BindingHouse m_house;
    std::map<IngredientId, Amounts> m_needs;
    std::map<IngredientId, PackUnit> m_units; // a purchase's, as what is got from it counts it
    std::map<IngredientId, bool> m_fruit;
    std::map<IngredientId, double> m_left; // of what was counted on the shelf
    std::vector<ShoppingItem> m_items;
    ShoppingList m_list;
};

} // namespace

ShoppingList shopping(const std::vector<Wish>& wishes, const larder::Larder& larder,
                      const Specs& preparations, const spec::HouseRules& rules,
                      const ShoppingOptions& options) {
    return Lister(larder, preparations, rules, options).list(wishes);
}

} // namespace stillroom::preparation
