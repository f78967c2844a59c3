#include "ui/text/more_words.h"

#include <QCoreApplication>

namespace stillroom::ui {

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("MoreReadings", text);
}

} // namespace

QString moreName(spec::More more) {
    switch (more) {
    case spec::More::FreezingOnset:
        return say("Freezing begins");
    case spec::More::Ph:
        return say("pH");
    case spec::More::Sweetness:
        return say("Sweetness");
    case spec::More::SweetnessLow:
        return say("… at the least");
    case spec::More::SweetnessHigh:
        return say("… at the most");
    case spec::More::Co2GPerL:
        return say("Carbon dioxide");
    case spec::More::Co2Volumes:
        return say("… in volumes");
    case spec::More::WaterActivity:
        return say("Water activity");
    case spec::More::Caffeine:
        return say("Caffeine");
    case spec::More::ProofUs:
        return say("US proof");
    case spec::More::ProofUk:
        return say("British proof");
    case spec::More::Contraction:
        return say("Lost by mixing");
    case spec::More::RelativeDensity:
        return say("Relative density");
    case spec::More::RefractiveIndex:
        return say("Refractive index");
    case spec::More::Baume:
        return say("Baumé");
    }
    return {};
}

QString moreNoteWords(spec::More more) {
    const auto note = spec::moreNote(more);
    if (more == spec::More::SweetnessLow) return say("with the lowest published factors");
    if (more == spec::More::SweetnessHigh) return say("with the highest published factors");
    if (more == spec::More::Co2Volumes) return {}; // said of the grams above it
    if (note == "tables_differ") return say("published tables of ethanol differ by up to 1.5 °C");
    if (note == "juices_are_buffered") return say("estimate; juices are buffered, measure");
    if (note == "a_scale_not_a_measure") return say("as sucrose; a scale for comparing, not a measurement");
    if (note == "upper_bound") return say("at most: nothing lost in pouring, shaking or blending");
    if (note == "estimate_only") return say("estimate; never the ground of a safety decision");
    if (note == "lines_without_figure_left_out") return say("lines that state no caffeine bring none");
    if (note == "sugar_and_water_only") return say("of sugar in water; alcohol shifts a refractometer");
    return {};
}

QString coldStateName(physics::ColdState state) {
    switch (state) {
    case physics::ColdState::Liquid:
        return say("liquid");
    case physics::ColdState::Slush:
        return say("slush");
    case physics::ColdState::Solid:
        return say("solid");
    }
    return {};
}

} // namespace stillroom::ui
