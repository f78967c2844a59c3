#pragma once

#include "core/history/history.h"

#include <string>

namespace stillroom::store {

class Workbook;

// What is printed under a drink's name, with the names of the book: "after Ox Skerry, r3; with thanks to the
// morning shift". Empty when nothing is known.
std::string creditOf(const Workbook& book, const history::Drink& drink);
// The drink itself, or one that came after it, however far: saveDrink() refuses such a lineage.
bool comesAfter(const Workbook& book, base::DrinkId drink, base::DrinkId ancestor);
// The number of the revision that has taken the place of the one `drink` came after; 0: it stands, or none
// is named.
int movedOnTo(const Workbook& book, const history::Drink& drink);

} // namespace stillroom::store
