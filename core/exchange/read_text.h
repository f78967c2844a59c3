#pragma once

#include "core/larder/larder.h"
#include "core/spec/spec.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::exchange {

enum class ReadKind : std::uint8_t {
    Ingredient,
    Garnish,
    Heading,
    Fused,
    Method,
    Title,
    Note,
    Refused,
    Unread
};

// Why a reading is unsure, odd or refused, in codes; ui and headless make the words.
enum class DoubtCode : std::uint8_t {
    OunceOfSolid,    // poured or weighed?
    RangeOrFraction, // 6/8
    CommaAmbiguous,  // both comma and point, or a thousands mark that might be a decimal
    NumberUnclear,
    NegativeAmount,
    ZeroDenominator,
    NotANumber,
    TooLarge,
    TooSmall,
    StrengthAbove100,
    AmountAbsurd, // 2 oz bitters, 5 oz mint: grammar right, barkeeping odd
    MeasureGuessed,
    RatioBasisUnstated,
    Fused,
    Duplicate,
    NameAmbiguous,
    LineTooLong,
    EncodingRecovered,
    ControlCharacters,
    BidiControls,
    MarkupBlockInvalid,
    NestingTooDeep,
    AlternativeNotChosen,
    SeveralDrinks, // a second name with lines of its own: read as one drink
    LocalSpoon,
};
enum class DoubtWeight : std::uint8_t { Note, Warn, Ask, Refuse };

struct Doubt {
    DoubtCode code;
    DoubtWeight weight;
    std::string detail; // the part of the text it is about
    friend bool operator==(const Doubt&, const Doubt&) = default;
};

// One raw line beside its reading.
struct ReadLine {
    std::string raw;
    int sourceLine = 0; // 1-based, in the text given; 0: not from a line
    ReadKind kind = ReadKind::Unread;
    spec::Line line;             // for Ingredient and Garnish
    std::string unit;            // the corpus' unit id as read: "floz_us", "top", "rinse"; empty: none
    std::vector<ReadLine> parts; // for Fused
    std::vector<Doubt> doubts;
    bool unsure = false; // a number or unit in `line` needs a person's word before it is used
    std::vector<spec::Line> otherReadings; // what else it could be, to be chosen with one key
};

struct ReadRecipe {
    std::string name;
    std::optional<quantity::Rational> yield;
    std::string yieldUnit;    // "drink", "ml", "l"…
    bool yieldApprox = false; // "about 300 ml"
    std::string glass;
    std::string technique;       // "stir", "shake", "build", "blend", "clarify"; empty: not said
    std::vector<ReadLine> lines; // ingredients of the drink itself, in order; also refused and unread ones
    std::vector<std::string> method; // steps
    std::vector<std::string> garnish;
    std::vector<std::string> notes;
    std::vector<std::string> sections;
    std::string credit;
    std::vector<ReadRecipe> subRecipes;
    std::vector<Doubt> doubts; // about the whole
};

enum class ReadProblem : std::uint8_t { None, NothingToRead, NotText, TooDeep, TooLarge };

struct ReadResult {
    ReadProblem problem = ReadProblem::None;
    std::vector<ReadRecipe> drinks; // 0 or 1 from one text today
    std::vector<ReadLine> every;    // every raw line of the text, in order, beside its reading: the preview
    std::vector<Doubt> doubts;
};

struct ReadOptions {
    bool imperial = false;     // plain "oz" and "pint" of a British writer
    std::string region = "US"; // for spoons, cups and names that differ: "US", "UK", "AU", "metric"
    const larder::Larder* larder = nullptr; // helps tell liquids from solids; may be null
};

// One line, as an ingredient line. Never throws, whatever the bytes.
ReadLine readLine(std::string_view text, const ReadOptions& options = {});
// A whole text: plain, tab-separated, HTML or JSON-LD, in UTF-8, UTF-16 or Windows-1252. Never throws.
ReadResult readText(std::string_view bytes, const ReadOptions& options = {});

// The amount cell of the bench: "3/4", "¾", "0,75", "22.5 ml", "1 1/2", "2-3 dashes". nullopt: not an amount.
std::optional<spec::Measured> readAmount(std::string_view text);

// What the larder pours for a line by its words: lime juice for "juice of a lime" and for "20 ml lime".
std::optional<base::IngredientId> ingredientOf(const spec::Line& line, const larder::Larder& larder);

// A drink's spec from what was read and accepted: names matched against the larder, method understood.
spec::Spec toSpec(const ReadRecipe& recipe, const larder::Larder& larder);
// The % vol that a line states of what it pours: "vodka 60 %", "gin (57 % vol)", "100-proof rye". None where
// the larder knows the thing as free of alcohol: the 36 % of cream is fat.
std::optional<double> strengthWritten(const spec::Line& line, const larder::Larder& larder);
// Technique, seconds, dry shake, ice and straining out of a writer's words.
spec::Method readMethod(std::string_view text);

} // namespace stillroom::exchange
