#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// The user's own scales, and scores on them.
//
// The default scales keep the ids of the five that older books know (sweet, sour, strong, bitter, length),
// and their canonical JSON is what those books hold: old tastings keep their text and their hash. The set of
// scales is a setting of the book; a score says its own kind, so that changing the set never changes what an
// older score meant.
namespace stillroom::tasting {

enum class ScaleKind : std::uint8_t {
    FifteenPoint,   // intensity, 0 none … 15 extreme
    JustAboutRight, // 1 much too weak, 2 too weak, 3 just about right, 4 too strong, 5 much too strong
    NinePoint,      // liking, 1 dislike extremely … 5 neither … 9 like extremely
};
std::string_view scaleKindId(ScaleKind kind);
std::optional<ScaleKind> scaleKindFromId(std::string_view id);
int lowestScore(ScaleKind kind);
int highestScore(ScaleKind kind);

struct ScaleDefinition {
    std::string id;   // a-z 0-9 _, up to 40; given once and kept when the name changes
    std::string name; // what people read: "sweet"; up to 60 code points
    ScaleKind kind = ScaleKind::FifteenPoint;
    friend bool operator==(const ScaleDefinition&, const ScaleDefinition&) = default;
};

enum class ScaleError : std::uint8_t { BadId, NoName, LongName, RepeatedId, RepeatedName, TooMany };

inline constexpr std::size_t kMostScales = 24;

// In the order in which they are asked for.
struct ScaleSet {
    std::vector<ScaleDefinition> scales;
    friend bool operator==(const ScaleSet&, const ScaleSet&) = default;

    // Sweet, sour, strong, bitter, length, texture, aroma, each on fifteen points.
    static const ScaleSet& defaults();
    const ScaleDefinition* find(std::string_view id) const;
    std::optional<ScaleError> problem() const; // names are compared folded: "Sweet" is "sweet"

    std::string canonicalJson() const;
    // nullopt for unknown keys and for any set with a problem().
    static std::optional<ScaleSet> fromCanonicalJson(std::string_view text);
};
// An id for a new scale: its folded name, numbered where the set has it already; "scale" where nothing is
// left.
std::string newScaleId(const ScaleSet& set, std::string_view name);

struct Score {
    int value = 0;
    ScaleKind kind = ScaleKind::FifteenPoint;
    bool isOnScale() const { return value >= lowestScore(kind) && value <= highestScore(kind); }
    friend bool operator==(const Score&, const Score&) = default;
};

// The five that every book has had from the first on, on fifteen points.
enum class Scale : std::uint8_t { Sweet, Sour, Strong, Bitter, Length };
inline constexpr std::size_t kScaleCount = 5;
inline constexpr int kScaleTop = 15; // 0…15, in the order of the line scale
std::string_view scaleId(Scale scale);
using FirstScores = std::array<std::optional<int>, kScaleCount>;

// By scale id; a scale that is not there was not scored. Scales that the set has since lost are kept.
struct Scores {
    std::map<std::string, Score, std::less<>> byScale;
    friend bool operator==(const Scores&, const Scores&) = default;

    std::optional<Score> of(std::string_view scale) const;
    // The first five alone, and back. What was scored on another kind of scale is not among them.
    static Scores ofFirst(const FirstScores& scores);
    FirstScores first() const;
    // Known ids and values on their scales: what fromCanonicalJson would read back.
    bool isWhole() const;
    // {"sweet":11,"aroma":{"kind":"nine_point","value":7}}: a bare number is on fifteen points.
    std::string canonicalJson() const;
    static std::optional<Scores> fromCanonicalJson(std::string_view text);
};

} // namespace stillroom::tasting
