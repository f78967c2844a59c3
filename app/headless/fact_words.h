#pragma once

#include "core/larder/ingredient.h"

#include <string>
#include <string_view>

namespace stillroom::headless {

struct FactLabel {
    std::string_view key; // of larder::factKeys()
    std::string_view name, unit;
    int decimals = 0; // what can be known of it
};
const FactLabel& factLabel(std::string_view key); // an empty one for what is no key

// Short of its trailing zeros: "5.06", "43". `decimals` is the most there are.
std::string shownNumber(double value, int decimals);
std::string factText(std::string_view key, double value); // "5.06 % vol"
std::string_view shelfWords(const larder::Stock& stock);  // "off", "have", "low", "out", "not said"

} // namespace stillroom::headless
