#include "core/larder/ingredient.h"

#include <array>

namespace stillroom::larder {

namespace {

constexpr std::array<std::string_view, 4> kOnShelfIds{"not_said", "have", "low", "out"};
constexpr std::array<std::string_view, 3> kPackUnitIds{"ml", "g", "piece"};

} // namespace

std::string_view packUnitId(PackUnit unit) {
    return kPackUnitIds[static_cast<std::size_t>(unit)];
}

std::optional<PackUnit> packUnitFromId(std::string_view id) {
    for (std::size_t i = 0; i < kPackUnitIds.size(); ++i)
        if (kPackUnitIds[i] == id) return static_cast<PackUnit>(i);
    return std::nullopt;
}

std::string_view onShelfId(OnShelf state) {
    return kOnShelfIds[static_cast<std::size_t>(state)];
}

std::optional<OnShelf> onShelfFromId(std::string_view id) {
    for (std::size_t i = 0; i < kOnShelfIds.size(); ++i)
        if (kOnShelfIds[i] == id) return static_cast<OnShelf>(i);
    return std::nullopt;
}

} // namespace stillroom::larder
