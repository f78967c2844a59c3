#pragma once

#include "core/exchange/read_text.h"
#include "core/exchange/tokens.h"

#include <optional>
#include <string>
#include <string_view>

namespace stillroom::exchange {

// What a measure word is, before the writer's country and the ingredient decide the measure.
enum class UnitWord : std::uint8_t {
    Ml,
    Cl,
    Dl,
    L,
    Ounce,      // poured or weighed: the ingredient decides
    FluidOunce, // surely poured
    Tsp,
    Tbsp,
    TspMetric, // a word of a metric country
    TbspMetric,
    Dessertspoon,
    Barspoon,
    Dash,
    Drop,
    Dropper,
    Spray,
    Splash,
    Part,
    Piece,
    Leaf,
    Slice,
    Wedge,
    Sprig,
    Cube,
    Sheet,
    Pinch,
    Handful,
    Scoop,
    Shot,
    Bottle,
    Can,
    Cup,
    CupMetric,
    Pint,
    Quart,
    Gallon,
    Gill,
    Jigger,
    Pony,
    Wineglass,
    Mg,
    G,
    Kg,
    Lb,
    Unsized, // a glass, a squeeze, a measure: a person must say how much
};

enum class UnitSystem : std::uint8_t { Unsaid, Us, Imperial, Metric };

struct UnitRead {
    UnitWord word = UnitWord::Unsized;
    UnitSystem system = UnitSystem::Unsaid; // "imperial pint", "US fl oz"
    std::size_t next = 0;                   // the token after it, its full stop included
    bool standsAlone = false;               // "dash bitters" means one dash
    bool guessed = false;                   // a short form that could mean something else
    bool plural = false;
};

// The longest measure that starts at token `at`.
std::optional<UnitRead> readUnit(const TokenLine& line, std::size_t at);
// "mint leaves": the counted measure that a name ends in, if `at` is its last token.
std::optional<UnitRead> readTrailingUnit(const TokenLine& line, std::size_t at);

bool isContainer(UnitWord word);
bool isCounted(UnitWord word); // comes in whole ones: leaf, dash, piece
bool isVolume(UnitWord word);  // ml, oz, cup…: convertible by law
bool isStrong(UnitWord word);  // surely a measure when it follows a figure: not "can" or "part"

// The corpus' id: "floz_us", "tsp".
std::string_view unitId(quantity::Measure measure);
// nullopt for Unsized. `solid` decides plain ounces.
std::optional<quantity::Measure> measureOf(const UnitRead& unit, bool solid, const ReadOptions& options);

} // namespace stillroom::exchange
