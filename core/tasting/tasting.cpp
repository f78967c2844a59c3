#include "core/tasting/tasting.h"

namespace stillroom::tasting {

namespace {

// In the order of the enumerations; these enter files.
constexpr std::array<std::string_view, 4> kVerdicts{"none", "keep", "change", "drop"};
constexpr std::array<std::string_view, kScaleCount> kScales{"sweet", "sour", "strong", "bitter", "length"};

} // namespace

std::string_view verdictId(Verdict verdict) {
    return kVerdicts[static_cast<std::size_t>(verdict)];
}

std::optional<Verdict> verdictFromId(std::string_view id) {
    for (std::size_t i = 0; i < kVerdicts.size(); ++i)
        if (kVerdicts[i] == id) return static_cast<Verdict>(i);
    return std::nullopt;
}

std::string_view scaleId(Scale scale) {
    return kScales[static_cast<std::size_t>(scale)];
}

} // namespace stillroom::tasting
