#include "core/history/what_changed.h"

#include <array>
#include <cmath>
#include <fmt/format.h>

namespace stillroom::history {

using spec::Bound;
using spec::Quantity;
using spec::Reading;
using spec::Spec;
using spec::Stage;

namespace {

const std::string& nameOf(const spec::Line& line) {
    return line.name.empty() ? line.written : line.name;
}

bool isNumber(const Reading& reading) {
    return reading.bound != Bound::Unknown && reading.bound != Bound::NotApplicable;
}

// Dilution is shown in percent with one decimal, all else with its own.
double shownUnit(Quantity quantity) {
    return std::pow(10.0, spec::quantityDecimals(quantity));
}

double shown(double value, Quantity quantity) {
    const double unit = shownUnit(quantity);
    return std::round(value * unit) / unit;
}

bool showsTheSame(const Reading& a, const Reading& b, Quantity quantity) {
    return a.bound == b.bound && shown(a.value, quantity) == shown(b.value, quantity) &&
           shown(a.upper, quantity) == shown(b.upper, quantity);
}

std::string numberText(const Reading& reading, Quantity quantity) {
    const int decimals = spec::quantityDecimals(quantity);
    switch (reading.bound) {
    case Bound::AtLeast:
        return fmt::format("≥ {:.{}f}", reading.value, decimals);
    case Bound::AtMost:
        return fmt::format("≤ {:.{}f}", reading.value, decimals);
    case Bound::Between:
        return fmt::format("{:.{}f}–{:.{}f}", reading.value, decimals, reading.upper, decimals);
    default:
        return fmt::format("{}{:.{}f}", reading.estimate ? "≈ " : "", reading.value, decimals);
    }
}

std::string_view shortName(Quantity quantity) {
    switch (quantity) {
    case Quantity::SugarAcidRatio:
        return "sugar:acid ";
    case Quantity::Sugar:
        return "sugar ";
    case Quantity::Acid:
        return "acid ";
    default:
        return "";
    }
}

std::string_view unitOf(Quantity quantity) {
    return quantity == Quantity::Sugar || quantity == Quantity::Acid ? std::string_view()
                                                                     : spec::quantityUnit(quantity);
}

bool isWarmthAlone(const LineDifference& line) {
    LineDifference cool = line;
    cool.temperature = false;
    return line.temperature && !cool.changesDrink();
}

} // namespace

std::vector<ChangedThing> changedThings(const SpecDifference& difference, const Spec& a, const Spec& b,
                                        const std::vector<FactSwap>& swaps) {
    std::vector<ChangedThing> things;
    for (const LineDifference& line : difference.lines) {
        if (!line.changesDrink() || (line.removed && line.insteadOf >= 0)) continue;
        const auto& named = line.b >= 0 ? b.lines[static_cast<std::size_t>(line.b)]
                                        : a.lines[static_cast<std::size_t>(line.a)];
        if (line.added && line.insteadOf >= 0)
            things.push_back(
                {ThingKind::Line, fmt::format("{} for {}", nameOf(named),
                                              nameOf(a.lines[static_cast<std::size_t>(line.insteadOf)]))});
        else if (!isWarmthAlone(line))
            things.push_back({ThingKind::Line, nameOf(named)});
        if (line.temperature)
            things.push_back({ThingKind::Temperature, fmt::format("how warm the {} is", nameOf(named))});
    }
    for (const FactSwap& swap : swaps)
        things.push_back({ThingKind::Facts, fmt::format("what is poured for {}", swap.name)});
    if (difference.method) things.push_back({ThingKind::Method, "the method"});
    if (difference.steps) things.push_back({ThingKind::Steps, "how it is made"});
    if (difference.glass) things.push_back({ThingKind::Glass, "the glass"});
    if (difference.garnish) things.push_back({ThingKind::Garnish, "the garnish"});
    if (difference.serves) things.push_back({ThingKind::Serves, "how many it serves"});
    if (difference.target) things.push_back({ThingKind::Target, "the size of a part"});
    return things;
}

std::optional<ChangedThing> singleChange(const std::vector<ChangedThing>& things) {
    if (things.size() != 1) return std::nullopt;
    return things.front();
}

std::string changesInWords(const SpecDifference& difference, const Spec& a, const Spec& b,
                           const std::vector<FactSwap>& swaps) {
    if (swaps.empty()) return inWords(difference, a, b);
    if (difference.isEmpty()) return inWords(swaps);
    return fmt::format("{}; {}", inWords(difference, a, b), inWords(swaps));
}

std::optional<double> readingChange(const Reading& before, const Reading& after, Quantity quantity) {
    if (before.bound != after.bound || !isNumber(before) || before.bound == Bound::Between)
        return std::nullopt;
    // Of what is shown, so that the column adds up.
    const double unit = shownUnit(quantity);
    return (std::round(after.value * unit) - std::round(before.value * unit)) / unit;
}

std::vector<Quantity> movedReadings(const spec::Readings& before, const spec::Readings& after,
                                    std::size_t most) {
    constexpr std::array kOrder{Quantity::Strength, Quantity::SugarAcidRatio, Quantity::Sugar, Quantity::Acid,
                                Quantity::Volume};
    std::vector<Quantity> moved;
    for (const Quantity quantity : kOrder) {
        if (moved.size() == most) break;
        const Reading& a = before[Stage::Served][quantity];
        const Reading& b = after[Stage::Served][quantity];
        if (!isNumber(a) || !isNumber(b) || showsTheSame(a, b, quantity)) continue;
        moved.push_back(quantity);
    }
    return moved;
}

std::string effectInWords(const spec::Readings& before, const spec::Readings& after) {
    std::vector<std::string> words;
    for (const Quantity quantity : movedReadings(before, after)) {
        const auto unit = unitOf(quantity);
        words.push_back(fmt::format(
            "{}{} → {}{}{}", shortName(quantity), numberText(before[Stage::Served][quantity], quantity),
            numberText(after[Stage::Served][quantity], quantity), unit.empty() ? "" : " ", unit));
    }
    return fmt::format("{}", fmt::join(words, ", "));
}

} // namespace stillroom::history
