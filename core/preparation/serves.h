#pragma once

#include "core/larder/price_history.h"
#include "core/preparation/preparation.h"

#include <optional>
#include <string_view>
#include <vector>

// Who pours a preparation, and what its parts' prices do to them.
namespace stillroom::preparation {

struct Served {
    std::vector<std::size_t> lines;           // of the drink that pour it
    std::optional<quantity::Volume> perServe; // all of them; nullopt: an amount is open
    std::optional<double> servesABatch;       // whole serves of the batch; nullopt: either is open
};
// nullopt: no line of the drink pours any of `of` (the preparation, and the kinds it is poured for).
std::optional<Served> servesOf(const spec::Spec& drink, const spec::Bindings& bindings,
                               const std::vector<base::IngredientId>& of, const Made& batch);

// The newest step in what one of its lines costs, on or before a civil date.
struct PriceChange {
    std::size_t line = 0;
    larder::PriceStep step;
};
std::optional<PriceChange> lastPriceChange(const spec::Spec& spec, const spec::Bindings& bindings,
                                           std::string_view today);

} // namespace stillroom::preparation
