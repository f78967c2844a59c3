#pragma once

#include "core/base/id.h"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

// A blind session: what is asked, who gets which cup under which code, and what they answered. Plain values;
// core/store keeps them, and core/tasting/panel_result.h says what the answers show.
namespace stillroom::tasting {

enum class PanelKind : std::uint8_t {
    Triangle,         // three cups, two alike: which is the odd one?
    DuoTrio,          // a reference and two cups: which is like it?
    PairedDifference, // which of two has more of `attribute`?
    PairedPreference, // which of two is preferred?
    Ranking,          // all in order, 1 = most of `attribute` (or best liked, where none is named)
    Hedonic,          // each on the nine-point scale of liking
    JustAboutRight,   // `attribute` of each on five points, with liking on nine where given
    Intensity,        // `attribute` of each from 0 to 15
};
std::string_view panelKindId(PanelKind kind);
std::optional<PanelKind> panelKindFromId(std::string_view id);

enum class PanelState : std::uint8_t { Designed, Pouring, Closed };
std::string_view panelStateId(PanelState state);
std::optional<PanelState> panelStateFromId(std::string_view id);

enum class PanelError : std::uint8_t {
    ProductCount, // two for triangle, duo-trio and paired, two to eight otherwise
    RepeatedProduct,
    NoTasters,
    RepeatedTaster, // one person answering twice is not two people
    TooManyCups,    // more than there are plain three-digit codes
    BadForetold,    // also a share outside its range
    BadAlpha,       // above 0, up to 0.5
    WrongState,
    UnknownTaster,
    UnknownCup, // a code this taster was not given
    BadScore,   // off the scale, or a kind of answer this panel does not ask for
    NotClosed,
    Malformed, // servings or answers that fit no taster
};
std::string_view panelErrorId(PanelError error);

inline constexpr std::size_t kMostPanelProducts = 8;

// What is decided before anything is dealt. Equal designs give equal servings.
struct PanelDesign {
    PanelKind kind = PanelKind::Triangle;
    std::string attribute; // "sweetness"; may be empty
    std::vector<base::RevisionId> products;
    // Said before pouring, as indices into products. Paired difference: the one that should have more (makes
    // the test one-sided). Ranking: all of them, the expected first place first (adds Page's test). Else
    // empty.
    std::vector<std::size_t> foretold;
    std::vector<base::PersonId> tasters;
    double alpha = 0.05;
    std::uint64_t seed = 0;      // secret until closed: with it the cups can be dealt again
    std::optional<double> share; // of people thought able to tell, as it was planned; above 0, up to 1
    friend bool operator==(const PanelDesign&, const PanelDesign&) = default;
};

struct Cup {
    int code = 0;
    std::size_t product = 0;
    friend bool operator==(const Cup&, const Cup&) = default;
};

struct Serving {
    std::optional<std::size_t> reference; // duo-trio: the product in the uncoded cup, tasted first
    std::vector<Cup> cups;                // in the order they are tasted
    friend bool operator==(const Serving&, const Serving&) = default;
};

// By code, as it stands on the taster's sheet. Whatever is not there was not answered.
struct Answer {
    std::optional<int> chosen;    // triangle: the odd cup; duo-trio: the like one; paired: more, or preferred
    std::map<int, int> ranks;     // 1 = most; equal numbers are ties
    std::map<int, int> scores;    // liking 1 … 9; intensity 0 … 15
    std::map<int, int> justRight; // 1 much too weak … 3 just about right … 5 much too strong
    std::string note;
    bool isEmpty() const { return *this == Answer{}; }
    // As it stands in a panel's canonicalJson(); which cups it may name only the panel knows.
    std::string canonicalJson() const;
    static std::optional<Answer> fromCanonicalJson(std::string_view text);
    friend bool operator==(const Answer&, const Answer&) = default;
};

struct Panel {
    PanelDesign design;
    PanelState state = PanelState::Designed;
    std::vector<Serving> servings; // one for each taster, in their order
    std::vector<Answer> answers;   // likewise
    friend bool operator==(const Panel&, const Panel&) = default;

    // Sorted keys, ids and the seed as hex, alpha as a decimal text; what is at its default is left out.
    // Holds the secret: not for tasters' eyes (publicView is).
    std::string canonicalJson() const;
    // nullopt for anything that canonicalJson would not write: unknown keys, codes twice, answers to no cup.
    static std::optional<Panel> fromCanonicalJson(std::string_view text);
};

std::uint64_t newSeed();
tl::expected<Panel, PanelError> designPanel(const PanelDesign& design);
// nullopt when the panel is whole: what fromCanonicalJson checks.
std::optional<PanelError> problemOf(const Panel& panel);

tl::expected<Panel, PanelError> startPouring(const Panel& panel);
// Replaces what that taster said before; an empty answer takes it back. Only while pouring.
tl::expected<Panel, PanelError> withAnswer(const Panel& panel, const base::PersonId& taster,
                                           const Answer& answer);
// For good: answers that are missing stay missing.
tl::expected<Panel, PanelError> closePanel(const Panel& panel);

} // namespace stillroom::tasting
