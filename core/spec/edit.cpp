#include "core/spec/edit.h"

#include <algorithm>

namespace stillroom::spec {

using quantity::Amount;
using quantity::Rational;

namespace {

using Offset = std::vector<Line>::difference_type;

// An amount times an exact factor; nullopt when it no longer fits an exact fraction.
std::optional<Amount> scaled(const Amount& amount, const Rational& factor) {
    if (!amount.isStated()) return amount;
    const auto low = amount.low.times(factor);
    const auto high = amount.high.times(factor);
    if (!low || !high) return std::nullopt;
    return Amount{amount.kind, *low, *high};
}

bool scale(Measured& measured, const Rational& factor) {
    const auto amount = scaled(measured.amount, factor);
    if (!amount) return false;
    measured.amount = *amount;
    return true;
}

bool scale(Line& line, const Rational& factor) {
    bool fits = scale(line.poured, factor);
    if (line.retained) fits = scale(*line.retained, factor) && fits;
    for (Alternative& alternative : line.alternatives)
        fits = scale(alternative.measured, factor) && fits;
    return fits;
}

} // namespace

Spec withLine(const Spec& spec, std::size_t at, Line line) {
    if (at > spec.lines.size()) return spec;
    Spec next = spec;
    next.lines.insert(next.lines.begin() + static_cast<Offset>(at), std::move(line));
    return next;
}

Spec withLineReplaced(const Spec& spec, std::size_t at, Line line) {
    if (at >= spec.lines.size()) return spec;
    Spec next = spec;
    next.lines[at] = std::move(line);
    return next;
}

Spec withoutLine(const Spec& spec, std::size_t at) {
    if (at >= spec.lines.size()) return spec;
    Spec next = spec;
    next.lines.erase(next.lines.begin() + static_cast<Offset>(at));
    return next;
}

Spec withLineMoved(const Spec& spec, std::size_t from, std::size_t to) {
    if (from >= spec.lines.size() || to >= spec.lines.size() || from == to) return spec;
    Spec next = spec;
    const auto first = next.lines.begin() + static_cast<Offset>(from);
    const auto last = next.lines.begin() + static_cast<Offset>(to);
    if (from < to)
        std::rotate(first, first + 1, last + 1);
    else
        std::rotate(last, first, first + 1);
    return next;
}

Spec withLineSplit(const Spec& spec, std::size_t at) {
    if (at >= spec.lines.size()) return spec;
    Line half = spec.lines[at];
    if (!scale(half, *Rational::make(1, 2))) return spec;
    Spec next = withLineReplaced(spec, at, half);
    return withLine(next, at + 1, std::move(half));
}

Spec withAmount(const Spec& spec, std::size_t at, const Measured& measured) {
    if (at >= spec.lines.size()) return spec;
    Spec next = spec;
    // what one can holds says nothing of a bottle
    if (measured.measure != spec.lines[at].poured.measure) next.lines[at].sizeStated.reset();
    next.lines[at].poured = measured;
    return next;
}

Spec withMethod(const Spec& spec, Method method) {
    Spec next = spec;
    next.method = std::move(method);
    return next;
}

Method reworded(Method read, const Method& stood) {
    Method method = stood;
    method.text = std::move(read.text);
    method.technique = read.technique;
    method.dryShake = read.dryShake;
    method.strained = read.strained;
    method.seconds = read.seconds;
    method.ice = std::move(read.ice);
    if (read.dilution) method.dilution = std::move(read.dilution);
    return method;
}

namespace {

// What a bench can meet; outside it a number is a slip.
bool isTemperature(const std::optional<double>& celsius) {
    return !celsius || (*celsius >= -45 && *celsius <= 100);
}
bool isMass(const std::optional<double>& grams) {
    return !grams || (*grams >= 0 && *grams <= 1e6);
}

} // namespace

Spec withLineTemperature(const Spec& spec, std::size_t at, std::optional<double> celsius) {
    if (at >= spec.lines.size() || !isTemperature(celsius)) return spec;
    Spec next = spec;
    next.lines[at].temperatureC = celsius;
    return next;
}

Spec withIce(const Spec& spec, const IceStated& ice) {
    const bool shareFits = !ice.wetShare || (*ice.wetShare >= 0 && *ice.wetShare <= 1);
    const bool cold = isTemperature(ice.celsius) && (!ice.celsius || *ice.celsius <= 0);
    if (!shareFits || !cold || !isMass(ice.grams)) return spec;
    Spec next = spec;
    next.method.iceGrams = ice.grams;
    next.method.iceC = ice.celsius;
    next.method.iceWetShare = ice.wetShare;
    return next;
}

Spec withVessel(const Spec& spec, std::string_view id, std::optional<double> grams) {
    if (!isMass(grams)) return spec;
    Spec next = spec;
    next.method.vessel = id;
    next.method.vesselGrams = grams;
    return next;
}

Spec withStartTemperature(const Spec& spec, std::optional<double> celsius) {
    if (!isTemperature(celsius)) return spec;
    Spec next = spec;
    next.method.startC = celsius;
    return next;
}

Spec withDilutionModel(const Spec& spec, DilutionModel model) {
    Spec next = spec;
    next.method.dilutionModel = model;
    return next;
}

Spec withDilution(const Spec& spec, std::optional<DilutionEntry> dilution) {
    if (dilution && !(dilution->ratio >= 0 && dilution->ratio <= 100)) return spec;
    Spec next = spec;
    next.method.dilution = std::move(dilution);
    return next;
}

Spec withIceInGlass(const Spec& spec, std::optional<double> grams) {
    if (!isMass(grams)) return spec;
    Spec next = spec;
    next.iceInGlassG = grams;
    return next;
}

Spec withGlassMass(const Spec& spec, std::optional<double> grams, bool preheated) {
    if (!isMass(grams)) return spec;
    Spec next = spec;
    next.glassGrams = grams;
    next.preheatedGlass = preheated;
    return next;
}

Spec scaledToServes(const Spec& spec, int serves) {
    if (serves < 1 || spec.serves < 1 || serves == spec.serves) return spec;
    const auto factor = Rational::make(serves, spec.serves);
    if (!factor) return spec;
    Spec next = spec;
    for (Line& line : next.lines)
        if (line.poured.measure != quantity::Measure::Part && !scale(line, *factor)) return spec;
    if (next.yieldMl) *next.yieldMl *= factor->toDouble();
    next.serves = serves;
    return next;
}

} // namespace stillroom::spec
