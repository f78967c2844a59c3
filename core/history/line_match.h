#pragma once

#include "core/history/diff.h"
#include "core/larder/written_name.h"
#include "core/quantity/house_measures.h"
#include "core/spec/spec.h"

#include <optional>
#include <vector>

// Which line of one spec is which line of another. For the comparison alone.
namespace stillroom::history {

// In ml or g where the measure has a size; else in itself.
struct LineSize {
    double low = 0, high = 0;
    quantity::Measure measure = quantity::Measure::Piece;
    double middle() const { return 0.5 * (low + high); }
};
std::optional<LineSize> sizeOf(const spec::Measured& measured,
                               const std::optional<spec::Measured>& statedSize,
                               const quantity::HouseMeasures& house);
std::optional<LineSize> sizeOf(const spec::Line& line, const quantity::HouseMeasures& house);

double likeness(const spec::Line& a, const larder::WrittenName& nameA, const spec::Line& b,
                const larder::WrittenName& nameB);
// Not the same thing, but what stands in its place: coconut milk, then coconut cream.
bool standsFor(const larder::WrittenName& a, const larder::WrittenName& b);
// Two juices, two syrups.
bool sameForm(const larder::WrittenName& a, const larder::WrittenName& b);

struct LinePair {
    int a = 0;
    int b = 0;
    double likeness = 0; // 0: one stands in the other's place
    bool moved = false;  // it left the order that the others kept
};

// Every line is in at most one pair. The pairs of (b, a) are those of (a, b) turned around.
std::vector<LinePair> matchedLines(const spec::Spec& a, const spec::Spec& b,
                                   const quantity::HouseMeasures& house);

} // namespace stillroom::history
