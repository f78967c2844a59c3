#pragma once

#include "core/quantity/fraction.h"
#include "core/quantity/mass.h"
#include "core/quantity/temperature.h"
#include "core/quantity/volume.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

// Where and when in its life a drink was tasted, and what was measured of it then.
//
// Left out of a tasting's canonical JSON while isEmpty(), so that older tastings keep their hash. The
// measured values are what the bench's calibration takes: volume and weight against the spec's own,
// temperature against the predicted one.
namespace stillroom::tasting {

struct Measurements {
    std::optional<quantity::Volume> volume; // in the glass, as it is
    std::optional<quantity::Mass> weight;   // of the drink alone
    std::optional<quantity::Temperature> temperature;
    // As the instrument reads. In a drink with alcohol a refractometer does not read true Brix:
    // core/physics/refraction.h corrects it.
    std::optional<quantity::MassFraction> brixRead;
    friend bool operator==(const Measurements&, const Measurements&) = default;
};

enum class CircumstanceError : std::uint8_t { GlassAge, Place, Volume, Weight, Temperature, Brix };

inline constexpr int kOldestGlassMinutes = 10080; // a week: batches held cold are tasted too

struct Circumstances {
    std::optional<int> glassAgeMinutes; // since it was made; 0 is "at once", none is "not said"
    std::string place;                  // up to 200 code points
    Measurements measured;
    friend bool operator==(const Circumstances&, const Circumstances&) = default;

    bool isEmpty() const { return *this == Circumstances{}; }
    // Volume and weight above 0 up to 100 l and 100 kg, −60 … 110 °C, 0 … 100 Brix.
    std::optional<CircumstanceError> problem() const;

    // Sorted keys, measured values as decimal texts, what is not said left out; "{}" when empty.
    std::string canonicalJson() const;
    // nullopt for unknown keys and for anything with a problem().
    static std::optional<Circumstances> fromCanonicalJson(std::string_view text);
};

} // namespace stillroom::tasting
