#pragma once

#include "core/spec/spec.h"

#include <cstddef>
#include <string_view>

namespace stillroom::spec {

// Every edit is a pure function from one spec to the next. An index out of range returns the spec as it was.
Spec withLine(const Spec& spec, std::size_t at, Line line); // insert before `at`
Spec withLineReplaced(const Spec& spec, std::size_t at, Line line);
Spec withoutLine(const Spec& spec, std::size_t at);
Spec withLineMoved(const Spec& spec, std::size_t from, std::size_t to);
Spec withLineSplit(const Spec& spec, std::size_t at); // two lines of half each
Spec withAmount(const Spec& spec, std::size_t at, const Measured& measured);
Spec withMethod(const Spec& spec, Method method);
// A method read anew from changed words: what was not said in words (ice on the scale, the vessel, a measured
// dilution) stands as it stood.
Method reworded(Method read, const Method& stood);
// Temperatures in °C, masses in g; nullopt takes the statement back.
Spec withLineTemperature(const Spec& spec, std::size_t at, std::optional<double> celsius);
struct IceStated {
    std::optional<double> grams, celsius, wetShare; // wetShare 0…1, celsius at most 0
};
Spec withIce(const Spec& spec, const IceStated& ice); // out of range: the spec as it was
Spec withVessel(const Spec& spec, std::string_view id, std::optional<double> grams);
Spec withStartTemperature(const Spec& spec, std::optional<double> celsius);
Spec withDilutionModel(const Spec& spec, DilutionModel model);
Spec withDilution(const Spec& spec, std::optional<DilutionEntry> dilution);
Spec withIceInGlass(const Spec& spec, std::optional<double> grams);
Spec withGlassMass(const Spec& spec, std::optional<double> grams, bool preheated);
Spec scaledToServes(const Spec& spec, int serves); // amounts times new/old, exactly

} // namespace stillroom::spec
