#include "app/headless/fact_words.h"

#include "core/base/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace stillroom::headless {

namespace {

constexpr std::array<FactLabel, 11> kLabels{{
    {"abv_percent", "strength", "% vol", 2},
    {"sugar_g_per_l", "sugar", "g/l", 1},
    {"acid_g_per_l", "acid, as citric", "g/l", 2},
    {"density_kg_per_m3", "density", "kg/m³", 1},
    {"fat_g_per_l", "fat", "g/l", 1},
    {"protein_g_per_l", "protein", "g/l", 1},
    {"carbohydrate_g_per_l", "other carbohydrate", "g/l", 1},
    {"other_solids_g_per_l", "other solids", "g/l", 1},
    {"salt_g_per_l", "salt", "g/l", 2},
    {"caffeine_mg_per_l", "caffeine", "mg/l", 0},
    {"co2_g_per_l", "carbon dioxide", "g/l", 2},
}};
constexpr FactLabel kNone{};

} // namespace

const FactLabel& factLabel(std::string_view key) {
    const auto found = std::find_if(kLabels.begin(), kLabels.end(),
                                    [&](const FactLabel& label) { return label.key == key; });
    return found == kLabels.end() ? kNone : *found;
}

std::string shownNumber(double value, int decimals) {
    const double scale = std::pow(10.0, decimals);
    const double rounded = std::round(value * scale) / scale;
    return base::shortestDecimal(rounded == 0 ? 0 : rounded); // no "-0"
}

std::string factText(std::string_view key, double value) {
    const FactLabel& label = factLabel(key);
    return fmt::format("{} {}", shownNumber(value, label.decimals), label.unit);
}

std::string_view shelfWords(const larder::Stock& stock) {
    if (stock.off) return "off";
    return stock.state == larder::OnShelf::NotSaid ? "not said" : larder::onShelfId(stock.state);
}

} // namespace stillroom::headless
