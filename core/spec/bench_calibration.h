#pragma once

#include "core/physics/measured_dilution.h"
#include "core/spec/spec.h"

#include <array>

namespace stillroom::spec {

inline constexpr std::size_t kTechniqueCount = static_cast<std::size_t>(Technique::Carbonate) + 1;

// What this house's own measurements say about predicted dilution: measured over predicted, by technique.
// A technique nobody measured has no measurements and leaves the prediction as it is.
struct BenchCalibration {
    std::array<physics::Calibration, kTechniqueCount> byTechnique{};

    const physics::Calibration& of(Technique technique) const {
        return byTechnique[static_cast<std::size_t>(technique)];
    }
    bool isEmpty() const {
        for (const auto& one : byTechnique)
            if (one.measurements > 0) return false;
        return true;
    }
};

} // namespace stillroom::spec
