#include "core/balance/style_region.h"

#include <fmt/format.h>

#include <cmath>
#include <limits>

namespace stillroom::balance {

namespace {

using spec::Bound;
using spec::Quantity;
using spec::Reading;

// A style of which one figure alone was recorded is not left by the last digit: a tenth to either side, a
// choice of ours.
constexpr double kRoomAroundOneFigure = 0.1;

struct Side {
    Quantity quantity;
    const Range* range;
    const char* below;
    const char* above;
    const char* name;
    double factor; // shown per cent
    int decimals;  // as shown
    const char* unit;
};

double rounded(double value, int decimals) {
    const double scale = std::pow(10.0, decimals);
    return std::round(value * scale) / scale;
}

// Where a reading surely lies, in the figures shown; nullopt when nothing is known.
struct Interval {
    double low, high;
};

std::optional<Interval> intervalOf(const Reading& reading, const Side& side) {
    constexpr double endless = std::numeric_limits<double>::infinity();
    const double value = rounded(reading.value * side.factor, side.decimals);
    switch (reading.bound) {
    case Bound::Exact:
        return Interval{value, value};
    case Bound::AtLeast:
        return Interval{value, endless};
    case Bound::AtMost:
        return Interval{-endless, value};
    case Bound::Between:
        return Interval{value, rounded(reading.upper * side.factor, side.decimals)};
    case Bound::Unknown:
    case Bound::NotApplicable:
        break;
    }
    return std::nullopt;
}

Interval usual(const Side& side) {
    const bool oneFigure = side.range->low == side.range->high;
    const double room = oneFigure ? kRoomAroundOneFigure * side.range->low : 0;
    return {rounded((side.range->low - room) * side.factor, side.decimals),
            rounded((side.range->high + room) * side.factor, side.decimals)};
}

std::string figure(double value, const Side& side) {
    return fmt::format("{:.{}f}", value, side.decimals);
}

std::string shown(const Interval& interval, const Side& side) {
    if (interval.low == interval.high) return figure(interval.low, side);
    if (std::isinf(interval.high)) return "at least " + figure(interval.low, side);
    if (std::isinf(interval.low)) return "at most " + figure(interval.high, side);
    return figure(interval.low, side) + " to " + figure(interval.high, side);
}

std::string runs(const Side& side) {
    const std::string low = figure(rounded(side.range->low * side.factor, side.decimals), side);
    if (side.range->low == side.range->high) return "they sit near " + low + side.unit;
    return "they run " + low + " to " + figure(rounded(side.range->high * side.factor, side.decimals), side) +
           side.unit;
}

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0) text += i + 1 == words.size() ? " and " : ", ";
        text += words[i];
    }
    return text;
}

} // namespace

std::string placementSentence(const StyleRegion& region, const spec::Readings& readings) {
    const auto& served = readings[spec::Stage::Served];
    const auto& mixed = readings[spec::Stage::Mixed];
    const auto decimals = [](Quantity quantity) { return spec::quantityDecimals(quantity); };
    const std::vector<Side> sides{
        {Quantity::Acid, &region.acid, "softer", "sharper", "acid", 1, decimals(Quantity::Acid), ""},
        {Quantity::Sugar, &region.sugar, "drier", "sweeter", "sugar", 1, decimals(Quantity::Sugar), ""},
        {Quantity::Strength, &region.strength, "lighter", "stronger", "strength", 1,
         decimals(Quantity::Strength), " % vol"},
        {Quantity::Dilution, &region.dilution, "less diluted", "more diluted", "dilution", 100, 0, " %"},
    };
    std::vector<std::string> comparisons;
    std::string figures;
    for (const Side& side : sides) {
        if (!side.range->stated) continue;
        const Reading& reading =
            side.quantity == Quantity::Dilution ? mixed[side.quantity] : served[side.quantity];
        const auto here = intervalOf(reading, side);
        if (!here) continue;
        const Interval there = usual(side);
        const bool below = here->high < there.low;
        const bool above = here->low > there.high;
        if (!below && !above) continue;
        comparisons.emplace_back(below ? side.below : side.above);
        figures += fmt::format("{}{} {}{}, {}", figures.empty() ? "" : "; ", side.name, shown(*here, side),
                               side.unit, runs(side));
    }
    if (comparisons.empty()) return {};
    std::string sentence = joined(comparisons) + " than " + region.name + " usually are: " + figures + ".";
    sentence[0] = static_cast<char>(sentence[0] - 'a' + 'A');
    return sentence;
}

} // namespace stillroom::balance
