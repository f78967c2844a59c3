#include "core/physics/ethanol_water.h"
#include "core/spec/evaluate.h"
#include "core/spec/scenario.h"

#include <algorithm>

namespace stillroom::spec {

namespace {

std::uint64_t bitOf(std::size_t line) {
    return std::uint64_t{1} << std::min<std::size_t>(line, 63);
}

// One line alone, at the ends of its own range, with its missing facts left out.
Reading reading(double low, double high, bool open, bool factMissing, std::uint64_t bit) {
    Reading r;
    if (open) {
        r.gapLines = bit;
        return r;
    }
    r.value = low;
    r.bound = Bound::Exact;
    if (factMissing) { // of nothing known there is no least either, and never a zero
        r = {};
        r.gapLines = bit;
    } else if (high > low) {
        r.bound = Bound::Between;
        r.upper = high;
    }
    return r;
}

struct Ends {
    Totals totals[2];
    double volume[2] = {};
    double cost[2] = {};
    Questions questions;
};

// The line in a spec of its own. Roles fall away: what stays of a rinse counts, a garnish costs.
Ends endsOf(const Spec& alone, const Bindings::Data& data, std::size_t stage) {
    Ends ends;
    for (std::size_t end = 0; end < 2; ++end) {
        Scenario scenario;
        scenario.rangesHigh = end == 1 ? ~std::uint32_t{0} : 0;
        const Pass read = pass(alone, data, scenario);
        ends.totals[end] = read.stages[stage].totals;
        ends.volume[end] = read.volumeMl[stage];
        ends.cost[end] = static_cast<double>(read.stages[stage].costMillionths) / 1e6;
        ends.questions = read.questions;
    }
    return ends;
}

} // namespace

std::vector<Contribution> contributions(const Spec& spec, const Bindings& bindings) {
    const Bindings::Data& all = bindings.data();
    std::vector<Contribution> result;
    result.reserve(spec.lines.size());
    // The size of a part follows from the whole spec; a part alone would be all of it.
    double partMl = 0;
    {
        double parts = 0;
        for (const Line& line : spec.lines)
            if (line.poured.measure == quantity::Measure::Part && !line.optional && !line.toTaste &&
                line.role != Role::Garnish)
                parts += amountOf(line.poured, true);
        if (parts > 0 && spec.partTargetMl) partMl = *spec.partTargetMl * std::max(spec.serves, 1) / parts;
    }
    for (std::size_t i = 0; i < spec.lines.size(); ++i) {
        const Line& line = spec.lines[i];
        const std::uint64_t bit = bitOf(i);
        const bool isPart = line.poured.measure == quantity::Measure::Part;
        Contribution c;
        if (line.optional || line.toTaste || (isPart && !(partMl > 0))) {
            const bool leftOut = line.optional || line.toTaste; // of every sum, and of the column's
            for (Reading* r : {&c.volumeMl, &c.ethanolMl, &c.sugarG, &c.acidG, &c.costMajor}) {
                r->bound = leftOut ? Bound::NotApplicable : Bound::Unknown;
                r->gapLines = leftOut ? 0 : bit;
            }
            result.push_back(c);
            continue;
        }
        Spec alone;
        alone.lines = {line};
        if (isPart) alone.partTargetMl = partMl * amountOf(line.poured, true);
        Bindings::Data one;
        one.rules = all.rules;
        one.sizes = all.sizes;
        one.rinseRetainedMl = all.rinseRetainedMl;
        if (i < all.lines.size()) one.lines = {all.lines[i]};
        const Ends ends = endsOf(alone, one, static_cast<std::size_t>(Stage::Served));
        const OpenLines& open = ends.questions.all;
        const bool amountOpen = open.amount != 0;
        const double perMl = 1000 / physics::kEthanolKgPerM3At20;
        c.volumeMl = reading(ends.volume[0], ends.volume[1], amountOpen, false, bit);
        c.ethanolMl = reading(ends.totals[0].ethanolG * perMl, ends.totals[1].ethanolG * perMl, amountOpen,
                              open.strength != 0, bit);
        c.sugarG = reading(ends.totals[0].sugarG, ends.totals[1].sugarG, amountOpen, open.sugar != 0, bit);
        c.acidG = reading(ends.totals[0].acidG, ends.totals[1].acidG, amountOpen, open.acid != 0, bit);
        c.costMajor = reading(ends.cost[0], ends.cost[1], open.price != 0, false, bit);
        if (line.role == Role::Garnish) {
            for (Reading* r : {&c.volumeMl, &c.ethanolMl, &c.sugarG, &c.acidG})
                r->bound = Bound::NotApplicable;
        }
        result.push_back(c);
    }
    return result;
}

} // namespace stillroom::spec
