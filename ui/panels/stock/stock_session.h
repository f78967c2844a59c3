#pragma once

#include "core/store/stock_board.h"

#include <QObject>
#include <QUndoStack>

#include <map>

namespace stillroom::ui {

class Desk;

// The shelf of the open book, its counts edited with undo, and what is wished for. Outlives the page, so that
// steps can be taken back and wishes stand when one comes back to it; gone with the book.
class StockSession : public QObject {
    Q_OBJECT

  public:
    explicit StockSession(Desk& desk, QObject* parent = nullptr);

    const store::StockBoard& board() const { return m_board; }
    bool isWritable() const;
    QUndoStack& undoStack() { return m_stack; }

    // False: the book could not be read.
    bool reload();
    // One step, kept in the book when it returns. False: nothing differs, or it could not be saved.
    bool setStock(base::IngredientId ingredient, const larder::Stock& stock);
    QString today() const; // civil date of the clock, for a count

    double serves(base::DrinkId drink) const;
    void setServes(base::DrinkId drink, double serves);
    const preparation::ShoppingOptions& options() const { return m_options; }
    void setOptions(const preparation::ShoppingOptions& options);
    bool wishesAnything() const { return !m_wishes.empty(); }
    preparation::ShoppingList list() const;

  Q_SIGNALS:
    void stockChanged(); // another board
    void wishesChanged();

  private:
    class Step;
    bool write(base::IngredientId ingredient, const larder::Stock& stock);

    Desk& m_desk;
    store::StockBoard m_board;
    std::map<base::DrinkId, double> m_wishes;
    preparation::ShoppingOptions m_options;
    QUndoStack m_stack;
};

} // namespace stillroom::ui
