#pragma once

#include "ui/theme/look.h"
#include "ui/theme/marks.h"

#include <QImage>
#include <QSizeF>
#include <QString>

#include <optional>
#include <set>
#include <vector>

namespace stillroom::ui {

// A photo under a mark, at most so large at 100 %.
inline constexpr double kTrailPhotoWide = 26;
inline constexpr double kTrailPhotoHigh = 18;

struct TrailTaste {
    QString initials;
    tasting::Verdict verdict = tasting::Verdict::None;
    friend bool operator==(const TrailTaste&, const TrailTaste&) = default;
};

// A reading as a point of the small lines: what is known of it is drawn and said, not more.
struct TrailReading {
    double value = 0;
    std::optional<double> upper; // of a range
    enum class Kind : unsigned char { Exact, Estimate, AtLeast, AtMost, Between } kind = Kind::Exact;
    QString text; // "≥ 8.0"
    friend bool operator==(const TrailReading&, const TrailReading&) = default;
};

struct TrailMark {
    QString number; // "r4", "draft"
    QString date;   // "21 Nov", "now"
    StateMark state = StateMark::Kept;
    bool alsoHouse = false; // of one that readers have
    int parent = -1;        // index of the mark it grew from
    QString changed;        // "lemon 22.5 → 20 ml"
    QString did;            // "sugar : acid 8.8 → 9.9"
    QString reason;         // in the writer's words
    std::vector<TrailTaste> tastes;
    QImage photo;                         // of it, or of a tasting of it, small; null: none
    std::optional<TrailReading> strength; // % vol as served
    std::optional<TrailReading> sugarAcid;
    friend bool operator==(const TrailMark&, const TrailMark&) = default;
};

struct TrailValues {
    std::vector<TrailMark> marks; // oldest first, parents before children; the draft, if any, last
};

// One place on the trail: a mark, or a run of marks folded into "6 more".
struct TrailItem {
    int first = 0;
    int last = 0;
    int lane = 0; // 0: the base line; higher ones lie above it
    double x = 0; // centre of the mark
    double textWidth = 0;
    bool isFold() const { return last > first; }
    int count() const { return last - first + 1; }
};

struct TrailLink {
    int from = 0; // items
    int to = 0;
    bool dashed = false; // leads to the draft
};

struct TrailGeometry {
    std::vector<TrailItem> items;
    std::vector<TrailLink> links;
    std::vector<int> itemOf; // by mark
    int lanes = 1;
    double baseY = 0;
    double laneStep = 0;
    double width = 0;             // of everything; may exceed the view
    int wordLines = 1;            // that what changed, and what it did, may take under a mark
    bool crowded = false;         // branches too close for two lines of words each
    bool flat = false;            // no room for words: marks and numbers on one line
    double laneY(int lane) const; // without room for words branches run above and below
};
// How far along a branch takes to reach its lane, at most.
inline constexpr double kTrailBend = 72;

// Room a mark's words take, at most this many pixels at 100 %. Costly for many marks: keep it.
inline constexpr double kTrailTextMost = 560;
// Where not everything fits, words give way down to this many.
inline constexpr double kTrailTextLeast = 186;
inline constexpr double kBranchTextLeast = 260;
// `beside`: on a branch the words stand beside the mark, not under it.
double trailTextWidth(const TrailMark& mark, bool beside, const Look& look);
QString trailStanding(const TrailMark& mark); // "house", "published, house"; "" for a draft or plainly kept
QString trailReason(const TrailMark& mark);   // "set aside: hid the smoke"
// How far to scroll so that `right` is in view and the words at the left edge are whole.
double snappedOffset(const TrailGeometry& geometry, double right, double viewWidth, const Look& look);

// Which lane each mark lies on. The house revision and what leads to it and on from it stay on the base
// line; without a house, what leads to the newest mark does.
std::vector<int> trailLanes(const TrailValues& values);

// As below, with as much room for words as lets everything stand in view, and no less than the least.
TrailGeometry fittedTrail(const TrailValues& values, const std::vector<double>& textWidths, QSizeF view,
                          const std::set<int>& expanded, const Look& look);

// `expanded` holds the first mark of each run that shall not be folded. Runs fold only when the whole does
// not fit into `view`.
TrailGeometry trailGeometry(const TrailValues& values, const std::vector<double>& textWidths, QSizeF view,
                            const std::set<int>& expanded, const Look& look);

} // namespace stillroom::ui
