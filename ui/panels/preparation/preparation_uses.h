#pragma once

#include "core/preparation/part_dates.h"
#include "core/preparation/preparation.h"
#include "ui/session/workbook_session.h"

#include <optional>
#include <string>
#include <vector>

// What the book says of a preparation beside its spec: who pours it, what became of it, when it was made.
namespace stillroom::ui {

struct PreparationUse {
    base::DrinkId drink;
    QString name, revision, amount; // "Ox Skerry", "r4", "20 ml"
    std::optional<double> perServeMl;
    friend bool operator==(const PreparationUse&, const PreparationUse&) = default;
};

struct PreparationRecord {
    std::optional<base::IngredientId> ingredient;
    std::optional<int> keepDays;
    std::optional<larder::Lot> lot; // in use, else the newest not used up
    std::vector<PreparationUse> uses;
    QString priceWords;       // what the newest price among its lines changed; empty: none did
    preparation::Specs specs; // of all preparations: what its parts are made of
    QString circle;           // "A is made of B, B of A": nothing is worked out along it; empty: no circle
};

// Of every preparation on the shelf, by the ingredient it makes: what is in use (house, else newest, else
// draft).
preparation::Specs preparationSpecs(WorkbookSession& book);
// Reads the book: for when a preparation is put on the bench or the larder changed, not for every key.
PreparationRecord recordOf(WorkbookSession& book, base::DrinkId preparation, const spec::Spec& spec,
                           const spec::Bindings& bindings, const std::optional<preparation::Made>& made);

} // namespace stillroom::ui
