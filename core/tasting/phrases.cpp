#include "core/tasting/phrases.h"

#include <cmath>
#include <fmt/format.h>

namespace stillroom::tasting {

std::string percent(double share) {
    const double value = share * 100;
    if (value < 0.1) return "under 0.1 %";
    if (value < 9.95 && std::abs(value - std::round(value)) > 0.049) return fmt::format("{:.1f} %", value);
    return fmt::format("{:.0f} %", value);
}

std::string counted(int count, std::string_view one, std::string_view many) {
    return fmt::format("{} {}", count, count == 1 ? one : many);
}

} // namespace stillroom::tasting
