#pragma once

#include "core/physics/ice_in_glass.h"
#include "core/spec/evaluate.h"

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

// What stands in one glass as it is served: which liquids lie upon which, the ice that lifts them, the head
// above them, and how near to the brim that comes.
namespace stillroom::spec {

enum class GlassLayerKind : std::uint8_t {
    Drink,  // what was mixed, and what was topped into it
    Poured, // a layer of a layered drink
    Float,
};

struct GlassLayer {
    GlassLayerKind kind = GlassLayerKind::Drink;
    double volumeMl = 0; // at 20 °C; with what shares the layer counted in
    double standsMl = 0; // at its own temperature: what fills the glass
    double celsius = 20; // as it is poured
    // At that temperature. nullopt: a fact nobody stated could move it; it lies between low and high.
    std::optional<double> densityKgPerM3;
    double lowKgPerM3 = 0, highKgPerM3 = 0;
    std::vector<std::size_t> lines; // of the spec, in the order of pouring
    bool atLeast = false;           // part of it has no stated amount
    double fromMm = 0, toMm = 0;    // above the bottom of the bowl
};

enum class GlassHeadKind : std::uint8_t { Foam, Cream };

struct GlassHead {
    GlassHeadKind kind = GlassHeadKind::Foam;
    double volumeMl = 0; // as it stands; no part of the liquid
    // ml at 20 °C of lines that are all in the head (whipped cream): in the served volume, in no layer. 0 for
    // the foam of a shaken egg white, whose liquid is counted in the drink.
    double liquidMl = 0;
    bool assumed = true; // how much air it holds: always, so far
    std::vector<std::size_t> lines;
    double fromMm = 0, toMm = 0; // above the rim it stands as a straight column
};

struct GlassIce {
    physics::IceInGlass pieces;
    double volumeMl = 0;
    double displacedMl = 0; // under the surface
    bool floats = true;     // else it stands on the floor
    int across = 1;
    double bottomMm = 0;
};

// Against 85 to 90 % of the brim, ice counted: what a drink served up or over ice is poured to (common
// practice, no source).
inline constexpr double kWashLow = 0.85;
inline constexpr double kWashHigh = 0.90;
enum class WashLine : std::uint8_t {
    Unknown, // the glass, the ice or an amount is not known
    Short,   // looks short
    Within,
    High, // fits, and hard to carry
    Spills,
    NotPoured, // such a glass is usually poured far below its brim
};

enum class FillDoubtCode : std::uint8_t {
    FloatSinks,       // heavier than what it is poured on, or hardly lighter: it mixes in
    PouredOutOfOrder, // of a layered drink: drawn where its density takes it
    OrderUnknown,     // densities not known well enough to say which lies above; drawn as poured
    AmountOpen,       // a line without a size: there is more than drawn
    VolumeUnknown,    // parts without a size: nothing is drawn
    IceNotCounted,    // over ice whose size nobody stated
    IceDoesNotPass,   // a piece wider than the mouth of the glass
    HeadAssumed,      // how far it rises is common practice
    HeadOverBrim,
    GlassUnknown,
};

struct FillDoubt {
    FillDoubtCode code = FillDoubtCode::GlassUnknown;
    int line = -1; // index into the spec's lines; -1: the whole drink
    friend bool operator==(const FillDoubt&, const FillDoubt&) = default;
};

struct GlassFilling {
    bool glassKnown = false;
    physics::GlassProfile glass;    // when not known: a plain cylinder in its place
    std::vector<GlassLayer> layers; // from the bottom up
    std::vector<GlassHead> heads;   // likewise, above them
    std::optional<GlassIce> ice;
    double liquidMl = 0; // of all layers, as they stand
    double brimMl = 0, brimMm = 0;
    double fillMm = 0;                 // the surface; the brim when it spills
    std::optional<double> shareOfBrim; // of the brim volume up to the surface; nullopt: glass not known
    double overMl = 0;                 // what does not fit
    double topMm = 0;                  // surface or head
    double washLowMm = 0, washHighMm = 0;
    WashLine wash = WashLine::Unknown;
    bool atLeast = false; // something poured has no size: the surface stands at least this high
    std::vector<FillDoubt> doubts;
};

// Rules, where no physics decides (all common practice, no source):
// - Mixed lines are one layer, and what is topped mixes into it. Only a method or a line that says so
//   ("layer", "over the back of a spoon") keeps pours apart; fizz mixes in even then.
// - A float or a layer stays on the one below when it is lighter by 2 kg/m³ at least, each at its own
//   temperature. A float that is not mixes in; a layer goes where its density takes it.
// - Whipped cream that is floated, topped or layered is a head: twice its liquid, one and a half times when
//   lightly whipped. A foam that is floated, three times.
// - Egg white and aquafaba shaken, blended or whipped raise a foam of their own volume, one and a half times
//   when also shaken dry; foaming drops 20 ml a serve.
// Amounts at the lower end of a range; unknown facts left out where they cannot change the order.
GlassFilling glassFilling(const Spec& spec, const Bindings& bindings);
GlassFilling glassFilling(const Spec& spec, const Bindings& bindings, const physics::GlassProfile* glass);

// Layers, heads and ice brought to stand in a glass: heights, share, what spills. nullptr: a stand-in.
GlassFilling stand(std::vector<GlassLayer> layers, std::vector<GlassHead> heads,
                   const std::optional<physics::IceInGlass>& ice, const physics::GlassProfile* glass);

// The shape that a spec is served in: chosen, else by its words; nullptr when neither is known.
const physics::GlassProfile* glassOf(const Spec& spec);

std::string_view glassLayerKindId(GlassLayerKind kind); // "drink", "poured", "float"
std::string_view glassHeadKindId(GlassHeadKind kind);   // "foam", "cream"
std::string_view washLineId(WashLine wash); // "unknown", "short", "within", "high", "spills", "not_poured"
std::string_view fillDoubtId(FillDoubtCode code); // "float_sinks"

} // namespace stillroom::spec
