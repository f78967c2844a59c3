#include "core/spec/step.h"

#include <array>

namespace stillroom::spec {

namespace {

// In the order of StepKind.
constexpr std::array<std::string_view, 14> kStepKindIds{
    "dissolve",     "simmer",      "steep", "strain",  "press",     "fat_wash", "milk_clarify",
    "agar_clarify", "acid_adjust", "blend", "ferment", "carbonate", "whip",     "freeze"};

} // namespace

std::string_view stepKindId(StepKind kind) {
    return kStepKindIds[static_cast<std::size_t>(kind)];
}

std::optional<StepKind> stepKindFromId(std::string_view id) {
    for (std::size_t i = 0; i < kStepKindIds.size(); ++i)
        if (kStepKindIds[i] == id) return static_cast<StepKind>(i);
    return std::nullopt;
}

} // namespace stillroom::spec
