#pragma once

#include "core/history/history.h"

#include <string>
#include <vector>

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

// A new drink out of a revision: its spec, with `name`, after that revision. Brief, menu, tags and credit are
// not taken along: they were said of the other drink. Throws StoreError, NotFound where there is no such
// revision.
history::Draft newDrinkFrom(Workbook& book, base::RevisionId from, const std::string& name);
// What a drink has changed since the revision it came after, in words: its published revision, else the house
// one, else the last kept, else its newest draft. Empty where no revision is named; "no change" where nothing
// did.
std::string changedSince(const Workbook& book, const history::Drink& drink);

// One that came after a drink, or after one that did.
struct CameAfter {
    base::DrinkId drink;
    std::string name;
    int depth = 1;       // straight after it
    int revision = 0;    // the number of the revision it came after; 0: none is named
    std::string changed; // changedSince()
    bool binned = false;
    friend bool operator==(const CameAfter&, const CameAfter&) = default;
};
// Each followed by what came after it; by name. The bin's too. A circle ends where it began.
std::vector<CameAfter> cameAfter(const Workbook& book, base::DrinkId drink);

} // namespace stillroom::store
