#include "core/store/stock_board.h"

#include "core/base/text.h"

#include <algorithm>
#include <set>

namespace stillroom::store {

namespace {

std::optional<spec::Spec> specOf(const Workbook& book, base::DrinkId id) {
    const auto drink = book.drink(id);
    if (drink && drink->house)
        if (auto revision = book.revision(*drink->house)) return std::move(revision->spec);
    auto drafts = book.drafts(id);
    const auto newest = std::max_element(drafts.begin(), drafts.end(),
                                         [](const auto& a, const auto& b) { return a.saved < b.saved; });
    if (newest == drafts.end()) return std::nullopt;
    return std::move(newest->spec);
}

class Stocked {
  public:
    explicit Stocked(const larder::Larder& larder) : m_larder(larder) {}

    void add(const spec::Spec& spec) {
        for (const spec::Line& line : spec.lines) {
            if (line.ingredient) add(*line.ingredient);
            for (const spec::Alternative& other : line.alternatives)
                if (other.ingredient) add(*other.ingredient);
        }
    }
    void add(base::IngredientId id) {
        const larder::Ingredient* poured = m_larder.poured(id);
        if (poured == nullptr || !m_found.insert(poured->id).second) return;
        if (poured->gotFrom) add(poured->gotFrom->of);
    }
    std::vector<base::IngredientId> byName() const {
        std::vector<base::IngredientId> all(m_found.begin(), m_found.end());
        std::stable_sort(all.begin(), all.end(), [this](base::IngredientId a, base::IngredientId b) {
            return base::compareForPeople(m_larder.find(a)->name, m_larder.find(b)->name) < 0;
        });
        return all;
    }

  private:
    const larder::Larder& m_larder;
    std::set<base::IngredientId> m_found;
};

} // namespace

const BoardDrink* StockBoard::drink(base::DrinkId id) const {
    const auto found =
        std::find_if(drinks.begin(), drinks.end(), [&](const BoardDrink& each) { return each.id == id; });
    return found == drinks.end() ? nullptr : &*found;
}

void restock(StockBoard& board, const Workbook& book) {
    board.larder = book.larder();
    board.preparations = book.preparations();
    board.rules = book.settings().rules;
    board.circles = book.circles();
    const preparation::Reach reach(board.larder, board.preparations);
    Stocked stocked(board.larder);
    std::vector<preparation::DrinkReach> reached;
    for (BoardDrink& drink : board.drinks) {
        stocked.add(drink.spec);
        drink.reach = reach.of(drink.spec);
        reached.push_back(drink.reach);
    }
    for (const auto& [id, spec] : board.preparations) {
        stocked.add(id);
        stocked.add(spec);
    }
    for (const larder::Ingredient* each : board.larder.all())
        if (each->stock != larder::Stock{}) stocked.add(each->id);
    board.stocked = stocked.byName();
    board.purchases = preparation::purchases(reached);
    board.fallen = preparation::fallen(board.larder, reached);
}

StockBoard stockBoard(const Workbook& book) {
    StockBoard board;
    for (const DrinkSummary& summary : book.summaries()) {
        if (summary.binned || summary.form != history::DrinkForm::Drink) continue;
        if (auto spec = specOf(book, summary.id))
            board.drinks.push_back({summary.id, summary.name, summary.menuName, *std::move(spec), {}});
    }
    restock(board, book);
    return board;
}

preparation::ShoppingList shoppingFor(const StockBoard& board, const std::vector<DrinkWish>& wishes,
                                      const preparation::ShoppingOptions& options) {
    std::vector<preparation::Wish> all;
    for (const DrinkWish& wish : wishes)
        if (const BoardDrink* drink = board.drink(wish.drink)) all.push_back({&drink->spec, wish.serves});
    return preparation::shopping(all, board.larder, board.preparations, board.rules, options);
}

} // namespace stillroom::store
