#pragma once

#include "core/larder/cost_of.h"
#include "core/spec/evaluate.h"
#include "core/spec/prepared_facts.h"

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

// What stands behind Bindings, for the evaluation alone.
namespace stillroom::spec {

inline constexpr std::size_t kMeasureCount = static_cast<std::size_t>(quantity::Measure::Part) + 1;

// A measure's size, as a double for the physics and as an exact fraction for the money.
struct MeasureSize {
    quantity::Dimension dimension = quantity::Dimension::Count;
    double size = 0;               // ml or g; 0: no size of its own
    std::int64_t num = 0, den = 1; // µl or µg
};

// What one unit of a line's ingredient costs: `millionths` of a major unit for `per` µl, µg or pieces,
// exactly. `per` 0: that does not fit, and `major` alone holds.
struct UnitPrice {
    enum class Per : std::uint8_t { None, Microlitre, Microgram, Piece };
    Per unit = Per::None;
    std::int64_t millionths = 0;
    std::int64_t per = 1;
    double major = 0;                       // the same for one ml, gram or piece
    std::optional<larder::CostFault> fault; // why `unit` is None
    bool atLeast = false;                   // of the parts that have a price
};

struct BoundLine {
    const larder::Ingredient* poured = nullptr;
    const PreparedFacts* facts = nullptr; // never null; nothingKnown() when nothing answers
    bool known = false;                   // the larder answered
    bool ice = false;                     // belongs to the method, whatever the line says
    bool cut = false;                     // named as a wedge, a twist or the like
    UnitPrice price;
    std::optional<MeasureSize> stated; // what one of its measure holds, as the line says
    // What one counted thing gives, by the house's measures; 0: no size.
    double pieceMl = 0, pieceG = 0;
    double cubeMl = 0, cubeG = 0;               // counted in cubes: "2 cubes sugar"
    const quantity::HouseSize* piece = nullptr; // the house size these come from
    const quantity::HouseSize* cube = nullptr;
};

struct Bindings::Data {
    larder::Larder larder; // keeps the ingredients alive
    std::shared_ptr<const HouseRules> rules;
    std::shared_ptr<const void> house; // whose prepared facts and sizes these are
    std::vector<BoundLine> lines;
    std::vector<std::unique_ptr<PreparedFacts>> prepared;       // of asWritten
    std::vector<std::unique_ptr<larder::Ingredient>> asWritten; // kinds with a line's own strength
    std::array<MeasureSize, kMeasureCount> sizes{};
    double rinseRetainedMl = 0;
};

} // namespace stillroom::spec
