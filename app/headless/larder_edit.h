#pragma once

#include "app/headless/options.h"
#include "core/store/stock_board.h"

namespace stillroom::headless {

// The ingredient as --price, --fact and --usable would have it; a FileProblem where one of them cannot be.
larder::Ingredient asEdited(const store::StockBoard& board, const larder::Ingredient& of,
                            const Options& options);
bool triesAnEdit(const Options& options);

} // namespace stillroom::headless
