#pragma once

#include "core/exchange/stock_entry.h"
#include "core/store/stock_board.h"

#include <QString>
#include <QStringList>

namespace stillroom::ui {

QString ingredientName(const store::StockBoard& board, base::IngredientId id); // "not in the larder"
QString shelfWord(const larder::Stock& stock); // "have", "low", "out", "off", "not said"

// Why it cannot be a count: what was typed stays in the cell.
QString stockProblem(exchange::StockEntryProblem problem);

// Within reach first, one short, more short, then what is off or names what the larder does not know.
enum class Nearness { Within, OneShort, Short, Off, Unknown };
Nearness nearnessOf(const preparation::DrinkReach& reach);
// "within reach; little gin left", "one short: overproof rum", "off: amontillado".
QString standingWords(const store::StockBoard& board, const store::BoardDrink& drink);

// "overproof rum: Quill Point", "bitters: 2 drinks, and helps 3 more".
QString purchaseWords(const store::StockBoard& board, const preparation::Purchase& purchase);
QString fallenWords(const store::StockBoard& board, const preparation::Fallen& fallen);
// "5 of 9 drinks within reach · 3 one short · 1 off"
QString boardWords(const store::StockBoard& board);

} // namespace stillroom::ui
