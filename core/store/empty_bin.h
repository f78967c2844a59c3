#pragma once

#include "core/base/clock.h"

#include <cstdint>
#include <string>
#include <vector>

namespace stillroom::store {

// What stays although it is in the bin, since something outside the bin rests on it.
struct StillNeeded {
    enum class By : std::uint8_t {
        Revision,   // `number` of drink `by` was made with it
        Draft,      // of drink `by` names it
        Lot,        // made of it on the day `by`
        Ingredient, // `by` of the larder: poured from it, its kind, its bottle, or got from it
        Panel,      // `by` tasted it
    };
    std::string name; // of the drink or the ingredient in the bin
    By kind = By::Revision;
    std::string by;
    int number = 0;
    friend bool operator==(const StillNeeded&, const StillNeeded&) = default;
};

struct EmptiedBin {
    std::string backup; // the file as it was; empty when there was nothing to take out
    int drinks = 0, drafts = 0, revisions = 0, tastings = 0, photos = 0, panels = 0, ingredients = 0;
    std::vector<StillNeeded> needed; // one reason for each
};

// Takes what is in the bin out of a workbook for good: drinks with all they own, drafts, panels, ingredients,
// saved searches, photos taken off. Writes a new file without them, checks it, and only then puts it in the
// old one's place, which stays beside it as "<path>-before-emptying". A drink that came after a removed one
// keeps its name as the work it came after. The workbook must be closed. Throws StoreError; the file then
// stands as it was.
EmptiedBin emptyBin(const std::string& path, const base::Clock& clock);

} // namespace stillroom::store
