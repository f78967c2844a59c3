#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace stillroom::spec {

// What is done to the whole pot while a preparation is made. Ferment is kept in words only: what it does is
// not modelled, and the preparation says so.
enum class StepKind : std::uint8_t {
    Dissolve,
    Simmer,      // water leaves
    Steep,       // solids hold some liquid back, fruit gives water
    Strain,      // part of the liquid stays behind
    Press,       // likewise, less of it
    FatWash,     // fat in, chilled, fat out with some liquid
    MilkClarify, // curd out with some liquid; the allergen stays
    AgarClarify,
    AcidAdjust,
    Blend,
    Ferment,
    Carbonate,
    Whip,
    Freeze,
};

// Everything but the kind may be left open. A measured result (`gotMl`, `gotG`) wins over every assumed one.
struct Step {
    StepKind kind = StepKind::Dissolve;
    std::optional<double> minutes;
    std::optional<double> celsius;
    std::optional<double> waterLostG;          // boiled off, by weight before and after
    std::optional<double> waterLostGPerMinute; // or by time: this pot's own rate
    std::optional<double> waterGainedG;        // given up by fruit
    std::optional<double> heldBackMl;          // liquid that stays in solids, sieve or curd
    std::optional<double> yieldShare;          // of the liquid before this step, 0…1; assumed
    std::optional<double> gotMl;               // measured after this step, at 20 °C
    std::optional<double> gotG;                // or weighed
    std::optional<double> co2GPerL;            // Carbonate: what it holds afterwards
    std::optional<double> overrun;             // Whip: air over liquid by volume, 1 doubles it
    std::string note;                          // the writer's words
    friend bool operator==(const Step&, const Step&) = default;
};

std::string_view stepKindId(StepKind kind); // "simmer"; stable, enters files
std::optional<StepKind> stepKindFromId(std::string_view id);

} // namespace stillroom::spec
