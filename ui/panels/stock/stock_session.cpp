#include "ui/panels/stock/stock_session.h"

#include "ui/session/desk.h"
#include "ui/text/border.h"

#include <QUndoCommand>

namespace stillroom::ui {

// Done before it is pushed, so that what could not be saved leaves no step.
class StockSession::Step : public QUndoCommand {
  public:
    Step(StockSession& session, const larder::Ingredient& ingredient, const larder::Stock& after)
        : QUndoCommand(fromCore(ingredient.name)),
          m_session(session),
          m_ingredient(ingredient.id),
          m_before(ingredient.stock),
          m_after(after) {}

    void redo() override {
        if (std::exchange(m_isDone, false)) return;
        go(m_after);
    }
    void undo() override { go(m_before); }

  private:
    void go(const larder::Stock& stock) {
        if (!m_session.write(m_ingredient, stock)) setObsolete(true);
    }

    StockSession& m_session;
    base::IngredientId m_ingredient;
    larder::Stock m_before, m_after;
    bool m_isDone = true;
};

StockSession::StockSession(Desk& desk, QObject* parent) : QObject(parent), m_desk(desk) {
    connect(&desk, &Desk::bookChanged, this, [this] {
        m_stack.clear();
        m_wishes.clear();
        m_options = {};
        m_board = {};
    });
}

bool StockSession::isWritable() const {
    return m_desk.book() != nullptr && !m_desk.book()->book().isReadOnly();
}

bool StockSession::reload() {
    if (m_desk.book() == nullptr) return false;
    const bool read = m_desk.attempt([&] { m_board = store::stockBoard(m_desk.book()->book()); });
    if (read) Q_EMIT stockChanged();
    return read;
}

bool StockSession::setStock(base::IngredientId id, const larder::Stock& stock) {
    const larder::Ingredient* known = m_board.larder.find(id);
    if (known == nullptr || known->stock == stock || !isWritable()) return false;
    auto* step = new Step(*this, *known, stock);
    if (!write(id, stock)) {
        delete step;
        return false;
    }
    m_stack.push(step);
    return true;
}

bool StockSession::write(base::IngredientId id, const larder::Stock& stock) {
    if (m_desk.book() == nullptr) return false;
    const larder::Ingredient* known = m_desk.book()->larder().find(id);
    if (known == nullptr) return false;
    larder::Ingredient counted = *known;
    counted.stock = stock;
    const bool saved = m_desk.attempt([&] {
        m_desk.book()->saveIngredient(counted);
        store::restock(m_board, m_desk.book()->book());
    });
    if (saved) Q_EMIT stockChanged();
    return saved;
}

QString StockSession::today() const {
    constexpr int kDay = 10; // "2026-11-02"
    if (m_desk.book() == nullptr) return {};
    return fromCore(base::isoText(m_desk.book()->clock().now())).left(kDay);
}

double StockSession::serves(base::DrinkId drink) const {
    const auto wish = m_wishes.find(drink);
    return wish == m_wishes.end() ? 0 : wish->second;
}

void StockSession::setServes(base::DrinkId drink, double serves) {
    if (this->serves(drink) == serves) return;
    if (serves > 0)
        m_wishes[drink] = serves;
    else
        m_wishes.erase(drink);
    Q_EMIT wishesChanged();
}

void StockSession::setOptions(const preparation::ShoppingOptions& options) {
    m_options = options;
    Q_EMIT wishesChanged();
}

preparation::ShoppingList StockSession::list() const {
    std::vector<store::DrinkWish> wishes;
    for (const auto& [drink, serves] : m_wishes)
        wishes.push_back({drink, serves});
    return store::shoppingFor(m_board, wishes, m_options);
}

} // namespace stillroom::ui
