#pragma once

#include "core/larder/ingredient.h"

#include <optional>
#include <string>

// What becomes of the shelf's note when somebody looks again.
namespace stillroom::larder {

// A count that says otherwise is an old one and goes: out leaves none, have or low not a count of nothing.
Stock withState(Stock was, OnShelf state, const std::string& today);
// Nothing left is out; something where there was none, or where nobody had said, is have. No amount: only
// the count goes.
Stock withAmount(Stock was, std::optional<double> amount, PackUnit unit, const std::string& today);

} // namespace stillroom::larder
