#include "core/history/side_by_side.h"

#include "core/history/line_match.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace stillroom::history {

using spec::Bound;
using spec::Quantity;
using spec::Reading;
using spec::Spec;
using spec::Stage;
using spec::StageReadings;

namespace {

constexpr double kOpen = std::numeric_limits<double>::infinity();

// What a reading of a size can be. Sizes are never below nothing.
struct Span {
    double low = 0, high = kOpen;
};

Span spanOf(const Reading& reading) {
    switch (reading.bound) {
    case Bound::Exact:
        return {reading.value, reading.value};
    case Bound::AtLeast:
        return {reading.value, kOpen};
    case Bound::AtMost:
        return {0, reading.value};
    case Bound::Between:
        return {reading.value, reading.upper};
    case Bound::Unknown:
    case Bound::NotApplicable:
        break;
    }
    return {};
}

Reading readingOf(const Span& span) {
    Reading reading;
    if (std::isinf(span.high)) {
        reading.bound = span.low > 0 ? Bound::AtLeast : Bound::Unknown;
        reading.value = span.low;
    } else if (span.low == span.high) {
        reading.bound = Bound::Exact;
        reading.value = span.low;
    } else if (span.low > 0) {
        reading.bound = Bound::Between;
        reading.value = span.low;
        reading.upper = span.high;
    } else {
        reading.bound = Bound::AtMost;
        reading.value = span.high;
    }
    return reading;
}

// `of` for each `unit` of `by`.
Reading ratio(const Reading& of, const Reading& by, double unit) {
    if (of.bound == Bound::NotApplicable || by.bound == Bound::NotApplicable)
        return {0, 0, Bound::NotApplicable};
    const Span a = spanOf(of);
    const Span b = spanOf(by);
    if (!(b.high > 0)) return {0, 0, Bound::NotApplicable}; // nothing of it to be counted by
    Span span;
    span.low = std::isinf(b.high) ? 0 : a.low / b.high * unit;
    span.high = b.low > 0 ? a.high / b.low * unit : (a.high == 0 ? 0 : kOpen);
    Reading reading = readingOf(span);
    reading.estimate = of.estimate || by.estimate;
    reading.gapLines = reading.bound == Bound::Exact ? 0 : of.gapLines | by.gapLines;
    return reading;
}

Quantity measureOf(Per per) {
    return per == Per::HundredMl ? Quantity::Volume : Quantity::StandardDrinks;
}

double unitOf(Per per) {
    return per == Per::HundredMl ? 100 : 1;
}

// The measure itself is what it is counted by, however little is known of it.
void setMeasure(StageReadings& stage, const StageReadings& from, Per per, double standardDrinkGrams) {
    const Reading& by = from[measureOf(per)];
    if (by.bound == Bound::NotApplicable || !(spanOf(by).high > 0)) return;
    stage[measureOf(per)] = {unitOf(per), 0, Bound::Exact};
    if (per == Per::StandardDrink) stage[Quantity::Ethanol] = {standardDrinkGrams, 0, Bound::Exact};
}

} // namespace

spec::Readings scaled(const spec::Readings& readings, Per per) {
    if (per == Per::Serve) return readings;
    spec::Readings out = readings;
    for (const Stage stage : {Stage::Measured, Stage::Mixed, Stage::Served}) {
        const StageReadings& from = readings[stage];
        for (std::size_t i = 0; i < spec::kQuantityCount; ++i) {
            const auto quantity = static_cast<Quantity>(i);
            // A stage that nobody computed says nothing, scaled or not.
            if (!spec::isExtensive(quantity) || from[quantity] == Reading{}) continue;
            out[stage][quantity] = ratio(from[quantity], from[measureOf(per)], unitOf(per));
        }
        if (from != StageReadings{}) setMeasure(out[stage], from, per, readings.standardDrinkGrams);
    }
    return out;
}

std::optional<PouredSize> pouredPer(const Spec& spec, std::size_t line, const spec::Readings& readings,
                                    Per per, const quantity::HouseMeasures& measures) {
    if (line >= spec.lines.size()) return std::nullopt;
    const auto size = sizeOf(spec.lines[line], measures);
    if (!size) return std::nullopt;
    PouredSize poured{size->middle() / std::max(1, spec.serves), size->measure, false};
    if (per == Per::Serve) return poured;
    const Reading& by = readings[Stage::Served][measureOf(per)];
    if (by.bound != Bound::Exact || !(by.value > 0)) return std::nullopt;
    poured.value *= unitOf(per) / by.value;
    poured.estimate = by.estimate;
    return poured;
}

std::vector<AlignedLine> alignLines(const std::vector<const Spec*>& columns, std::size_t base,
                                    const quantity::HouseMeasures& measures) {
    std::vector<AlignedLine> rows;
    if (base >= columns.size()) return rows;
    const auto blank = [&] {
        return AlignedLine{std::vector<int>(columns.size(), -1),
                           std::vector<std::optional<LineDifference>>(columns.size())};
    };
    for (std::size_t i = 0; i < columns[base]->lines.size(); ++i) {
        rows.push_back(blank());
        rows.back().line[base] = static_cast<int>(i);
    }
    // Of the lines that the base lacks: the row of one that another column added too.
    const auto sameAddition = [&](std::size_t column, const spec::Line& added) {
        return std::find_if(rows.begin(), rows.end(), [&](const AlignedLine& row) {
            if (row.line[base] >= 0 || row.line[column] >= 0) return false;
            for (std::size_t c = 0; c < columns.size(); ++c)
                if (row.line[c] >= 0)
                    return likeness(columns[c]->lines[static_cast<std::size_t>(row.line[c])], added) >= 1.0;
            return false;
        });
    };
    for (std::size_t column = 0; column < columns.size(); ++column) {
        if (column == base) continue;
        std::ptrdiff_t after = 0; // where the next addition goes
        for (const LineDifference& line : difference(*columns[base], *columns[column], measures).lines) {
            auto row = line.a >= 0
                           ? std::find_if(rows.begin(), rows.end(),
                                          [&](const AlignedLine& r) { return r.line[base] == line.a; })
                           : sameAddition(column, columns[column]->lines[static_cast<std::size_t>(line.b)]);
            if (row == rows.end()) row = rows.insert(rows.begin() + after, blank());
            row->line[column] = line.b;
            row->differences[column] = line;
            after = row - rows.begin() + 1;
        }
    }
    return rows;
}

GainedLost gainedLost(const std::vector<std::string>& base, const std::vector<std::string>& other) {
    const auto without = [](const std::vector<std::string>& all, const std::vector<std::string>& gone) {
        std::vector<std::string> left;
        for (const auto& one : all)
            if (std::find(gone.begin(), gone.end(), one) == gone.end()) left.push_back(one);
        return left;
    };
    return {without(other, base), without(base, other)};
}

} // namespace stillroom::history
