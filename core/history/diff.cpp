#include "core/history/diff.h"

#include "core/base/text.h"
#include "core/history/line_match.h"

#include <algorithm>
#include <cmath>

namespace stillroom::history {

using quantity::HouseMeasures;
using spec::Line;
using spec::Measured;
using spec::Spec;

namespace {

// Below this two names with one head are two things of one sort: dark rum, amber rum.
constexpr double kSameThing = 0.7;

bool nearlyEqual(double a, double b) {
    return std::abs(a - b) <= 1e-9 * std::max(std::abs(a), std::abs(b));
}

bool sameSize(const std::optional<LineSize>& x, const std::optional<LineSize>& y) {
    return x && y && x->measure == y->measure && nearlyEqual(x->low, y->low) && nearlyEqual(x->high, y->high);
}

bool sameAmount(const Line& a, const Line& b, const HouseMeasures& house) {
    const auto x = sizeOf(a, house);
    const auto y = sizeOf(b, house);
    if (!x && !y) return a.poured.measure == b.poured.measure;
    return sameSize(x, y);
}

bool sameRetained(const std::optional<Measured>& a, const std::optional<Measured>& b,
                  const HouseMeasures& house) {
    if (!a || !b) return !a && !b;
    return *a == *b || sameSize(sizeOf(*a, std::nullopt, house), sizeOf(*b, std::nullopt, house));
}

void setSizes(LineDifference& d, const Line& a, const Line& b, const HouseMeasures& house) {
    const auto x = sizeOf(a, house);
    const auto y = sizeOf(b, house);
    if (!x || !y || x->measure != y->measure) return;
    d.before = x->middle();
    d.after = y->middle();
    d.measure = x->measure;
    if (*d.before > 0 && *d.after > 0) d.relative = (*d.after - *d.before) / *d.before;
}

// "About" and "level" pour what the figure says.
spec::Qualifier filled(spec::Qualifier qualifier) {
    const bool asSaid = qualifier == spec::Qualifier::About || qualifier == spec::Qualifier::Level;
    return asSaid ? spec::Qualifier::None : qualifier;
}

LineDifference compare(const Line& a, const Line& b, const LinePair& pair, const HouseMeasures& house) {
    LineDifference d;
    d.a = pair.a;
    d.b = pair.b;
    d.moved = pair.moved;
    const bool retained = sameRetained(a.retained, b.retained, house);
    d.amount = !sameAmount(a, b, house) || !retained || a.juiceOf != b.juiceOf;
    d.unit = a.poured.measure != b.poured.measure;
    if (d.amount) setSizes(d, a, b, house);
    // Of the larger of the two, so that it holds from either side.
    d.measureOnly = d.amount && d.unit && retained && a.juiceOf == b.juiceOf && d.before && d.after &&
                    std::abs(*d.after - *d.before) <= kRestatedShare * std::max(*d.before, *d.after);
    const bool otherThing = a.ingredient && b.ingredient && *a.ingredient != *b.ingredient;
    d.renamed = otherThing || base::fold(a.name) != base::fold(b.name);
    d.substituted = d.renamed && pair.likeness < kSameThing;
    d.place = a.role != b.role || a.optional != b.optional || a.toTaste != b.toTaste ||
              a.beforeStep != b.beforeStep;
    d.note = a.qualifier != b.qualifier || a.note != b.note || a.alternatives != b.alternatives;
    d.temperature = a.temperatureC != b.temperatureC;
    d.fill = filled(a.qualifier) != filled(b.qualifier);
    d.alternatives = a.alternatives != b.alternatives;
    d.stated = a.abvStated != b.abvStated || a.sizeStated != b.sizeStated;
    d.same = !d.amount && !d.renamed && !d.moved && !d.place && !d.note && !d.stated && !d.temperature;
    return d;
}

LineDifference oneSided(int i, int j, int insteadOf) {
    LineDifference d;
    d.a = i;
    d.b = j;
    d.removed = j < 0;
    d.added = i < 0;
    d.insteadOf = insteadOf;
    return d;
}

// In b's order; removed lines go after the line that stood before them.
std::vector<LineDifference> inOrder(std::vector<LineDifference> rows) {
    const auto removedFrom =
        std::stable_partition(rows.begin(), rows.end(), [](const LineDifference& d) { return d.b >= 0; });
    std::vector<LineDifference> removed(removedFrom, rows.end());
    rows.erase(removedFrom, rows.end());
    std::sort(rows.begin(), rows.end(), [](const auto& x, const auto& y) { return x.b < y.b; });
    std::sort(removed.begin(), removed.end(), [](const auto& x, const auto& y) { return x.a < y.a; });
    for (const LineDifference& row : removed) {
        auto at = rows.begin();
        int nearest = -1;
        for (auto other = rows.begin(); other != rows.end(); ++other)
            if (other->a >= 0 && other->a < row.a && other->a > nearest) {
                nearest = other->a;
                at = other + 1;
            }
        rows.insert(at, row);
    }
    return rows;
}

std::vector<LineDifference> lineDifferences(const Spec& a, const Spec& b, const HouseMeasures& house) {
    std::vector<LineDifference> rows;
    std::vector<bool> seenA(a.lines.size()), seenB(b.lines.size());
    for (const LinePair& pair : matchedLines(a, b, house)) {
        const auto i = static_cast<std::size_t>(pair.a);
        const auto j = static_cast<std::size_t>(pair.b);
        seenA[i] = seenB[j] = true;
        if (pair.likeness > 0) {
            rows.push_back(compare(a.lines[i], b.lines[j], pair, house));
        } else {
            rows.push_back(oneSided(pair.a, -1, pair.b));
            rows.push_back(oneSided(-1, pair.b, pair.a));
        }
    }
    for (std::size_t i = 0; i < seenA.size(); ++i)
        if (!seenA[i]) rows.push_back(oneSided(static_cast<int>(i), -1, -1));
    for (std::size_t j = 0; j < seenB.size(); ++j)
        if (!seenB[j]) rows.push_back(oneSided(-1, static_cast<int>(j), -1));
    return inOrder(std::move(rows));
}

} // namespace

bool SpecDifference::isEmpty() const {
    return !method && !glass && !garnish && !serves && !target && !steps &&
           std::all_of(lines.begin(), lines.end(), [](const LineDifference& d) { return d.same; });
}

SpecDifference difference(const Spec& a, const Spec& b, const HouseMeasures& measures) {
    SpecDifference result;
    result.lines = lineDifferences(a, b, measures);
    result.method = a.method != b.method;
    result.glass = a.glass != b.glass || a.glassProfile != b.glassProfile || a.iceInGlassG != b.iceInGlassG ||
                   a.glassGrams != b.glassGrams || a.preheatedGlass != b.preheatedGlass;
    result.garnish = a.garnish != b.garnish;
    result.serves = a.serves != b.serves;
    result.target = a.partTargetMl != b.partTargetMl || a.yieldMl != b.yieldMl;
    result.steps = a.steps != b.steps;
    return result;
}

SpecDifference inverse(const SpecDifference& difference) {
    SpecDifference back = difference;
    for (LineDifference& row : back.lines) {
        std::swap(row.a, row.b);
        std::swap(row.added, row.removed);
        std::swap(row.before, row.after);
        if (row.relative && row.before && row.after) row.relative = (*row.after - *row.before) / *row.before;
    }
    back.lines = inOrder(std::move(back.lines));
    return back;
}

} // namespace stillroom::history
