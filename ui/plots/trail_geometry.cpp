#include "ui/plots/trail_geometry.h"

#include "ui/plots/plot_text.h"

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

constexpr int kShortestFold = 3;
constexpr int kNewestShown = 4;
constexpr double kTwoLinesFrom = 190; // of the height: room for what changed in two lines
constexpr std::size_t kFewMarks = 40; // more never have room to spare

std::vector<std::vector<int>> childrenOf(const TrailValues& values) {
    std::vector<std::vector<int>> children(values.marks.size());
    for (std::size_t i = 0; i < values.marks.size(); ++i) {
        const int parent = values.marks[i].parent;
        if (parent >= 0 && parent < static_cast<int>(i))
            children[static_cast<std::size_t>(parent)].push_back(static_cast<int>(i));
    }
    return children;
}

std::vector<bool> baseLine(const TrailValues& values, const std::vector<std::vector<int>>& children) {
    const auto count = values.marks.size();
    std::vector<bool> onBase(count, false);
    if (count == 0) return onBase;
    // Marks with the newest one among what grew from them.
    std::vector<bool> leadsOn(count, false);
    for (int i = static_cast<int>(count) - 1; i >= 0; i = values.marks[static_cast<std::size_t>(i)].parent)
        leadsOn[static_cast<std::size_t>(i)] = true;

    int anchor = static_cast<int>(count) - 1;
    for (std::size_t i = 0; i < count; ++i)
        if (values.marks[i].state == StateMark::House || values.marks[i].alsoHouse)
            anchor = static_cast<int>(i);
    for (int i = anchor; i >= 0; i = values.marks[static_cast<std::size_t>(i)].parent)
        onBase[static_cast<std::size_t>(i)] = true;
    for (int at = anchor;;) {
        const auto& next = children[static_cast<std::size_t>(at)];
        if (next.empty()) break;
        const auto on = std::find_if(next.begin(), next.end(),
                                     [&](int child) { return leadsOn[static_cast<std::size_t>(child)]; });
        at = on != next.end() ? *on : next.back();
        onBase[static_cast<std::size_t>(at)] = true;
    }
    return onBase;
}

struct Run {
    int first, last;
};

// Marks that follow each other on one lane and that nothing else hangs on.
std::vector<Run> foldableRuns(const TrailValues& values, const std::vector<int>& lanes,
                              const std::vector<std::vector<int>>& children) {
    const int count = static_cast<int>(values.marks.size());
    const auto plain = [&](int i) {
        const auto index = static_cast<std::size_t>(i);
        return i > 0 && i < count - kNewestShown && values.marks[index].state == StateMark::Kept &&
               children[index].size() == 1;
    };
    std::vector<Run> runs;
    for (int i = 1; i < count; ++i) {
        if (!plain(i)) continue;
        int last = i;
        while (last + 1 < count && plain(last + 1) &&
               lanes[static_cast<std::size_t>(last + 1)] == lanes[static_cast<std::size_t>(i)] &&
               values.marks[static_cast<std::size_t>(last + 1)].parent == last)
            ++last;
        if (last - i + 1 >= kShortestFold) runs.push_back({i, last});
        i = last;
    }
    return runs;
}

double foldWidth(const Look& look) {
    return look.px(74);
}

// `bendsOver`: the highest lane that a branch from each item swings up to, over the lanes below; 0: none
// leaves it.
void placeItems(TrailGeometry& geometry, const std::vector<int>& bendsOver, const Look& look) {
    const double start = look.px(36); // a lead-in stands before it
    const double step = look.px(40);  // between neighbours in time on different lanes
    const double gap = look.px(22);
    std::vector<double> laneEnd(static_cast<std::size_t>(geometry.lanes), 0.0);
    double x = start;
    double bendEnd = 0;
    int bendLane = 0;
    bool first = true;
    for (auto& item : geometry.items) {
        // Crowded branches share their room, so that no words lie over others.
        const int lane = geometry.crowded ? std::min(item.lane, 1)
                         : geometry.flat  ? (item.lane > 0 ? 2 - item.lane % 2 : 0)
                                          : item.lane;
        auto& end = laneEnd[static_cast<std::size_t>(std::min(lane, geometry.lanes - 1))];
        item.x = first ? start : std::max(x + step, end);
        // Out of the way of a branch that swings up to a lane above this one.
        if (item.lane > 0 && item.lane < bendLane) item.x = std::max(item.x, bendEnd);
        first = false;
        x = item.x;
        if (const int over = bendsOver[static_cast<std::size_t>(&item - geometry.items.data())]; over > 1) {
            bendLane = over;
            bendEnd = x + look.px(kTrailBend + 14);
        }
        const double words =
            geometry.flat ? look.px(34) : item.textWidth + (item.lane > 0 ? look.px(14) : 0.0);
        end = item.x + words + gap;
        geometry.width = std::max(geometry.width, end - gap + look.px(8));
    }
}

} // namespace

QString trailStanding(const TrailMark& mark) {
    if (mark.state == StateMark::Kept || mark.state == StateMark::Draft) return {};
    return mark.alsoHouse ? QString(stateWord(mark.state) + u", "_s + stateWord(StateMark::House))
                          : stateWord(mark.state);
}

QString trailReason(const TrailMark& mark) {
    if (mark.state != StateMark::SetAside) return mark.reason;
    if (mark.reason.isEmpty()) return stateWord(mark.state);
    return stateWord(mark.state) + u": "_s + mark.reason;
}

double trailTextWidth(const TrailMark& mark, bool beside, const Look& look) {
    const auto wide = [&](const QString& text, Type type) {
        // A text this long is cut anyway; measuring all of it is what costs.
        return text.isEmpty() ? 0.0 : textWidth(text.left(120), type, look);
    };
    double tastes = mark.photo.isNull() ? 0 : look.px(kTrailPhotoWide + 8);
    for (const auto& taste : mark.tastes)
        tastes += wide(taste.initials, Type::Heading) + look.px(14);
    double width = wide(mark.number, Type::Heading) + look.px(10) + wide(mark.date, Type::Caption);
    if (const auto standing = trailStanding(mark); !standing.isEmpty())
        width += look.px(8) + wide(standing, Type::Caption);
    if (beside) {
        const double head = width + look.px(8) + wide(mark.changed, Type::Unit);
        const double below = wide(mark.did, Type::Unit) + look.px(8) + wide(trailReason(mark), Type::Reason) +
                             look.px(10) + tastes;
        return std::clamp(std::max(head, below) + look.px(2), look.px(40), look.px(kTrailTextMost));
    }
    width = std::max(width, wide(mark.changed, Type::Unit));
    width = std::max(width, wide(mark.did, Type::Unit));
    width = std::max(width, wide(mark.reason, Type::Reason));
    if (mark.tastes.empty()) tastes += wide(QStringLiteral("not tasted yet"), Type::Unit);
    width = std::max(width, tastes);
    return std::clamp(width, look.px(60), look.px(kTrailTextMost));
}

std::vector<int> trailLanes(const TrailValues& values) {
    const auto children = childrenOf(values);
    const auto onBase = baseLine(values, children);
    std::vector<int> lanes(values.marks.size(), 0);
    // A branch holds its lane until its last mark; that is known beforehand by following first children.
    std::vector<int> heldUntil{-1};
    std::vector<bool> placed(values.marks.size(), false);
    for (std::size_t i = 0; i < values.marks.size(); ++i) {
        if (onBase[i] || placed[i]) continue;
        int last = static_cast<int>(i);
        std::vector<int> chain{last};
        while (!children[static_cast<std::size_t>(last)].empty()) {
            last = children[static_cast<std::size_t>(last)].front();
            chain.push_back(last);
        }
        // Free from where it leaves its parent on: the line up to it must not cross another branch.
        std::size_t lane = 1;
        while (lane < heldUntil.size() && heldUntil[lane] >= std::max(0, values.marks[i].parent))
            ++lane;
        if (lane == heldUntil.size()) heldUntil.push_back(-1);
        heldUntil[lane] = last;
        for (const int mark : chain) {
            lanes[static_cast<std::size_t>(mark)] = static_cast<int>(lane);
            placed[static_cast<std::size_t>(mark)] = true;
        }
    }
    return lanes;
}

double TrailGeometry::laneY(int lane) const {
    if (!flat || lane <= 0) return baseY - lane * laneStep;
    return baseY + (lane % 2 != 0 ? -laneStep : laneStep);
}

double snappedOffset(const TrailGeometry& geometry, double right, double viewWidth, const Look& look) {
    if (right <= viewWidth) return 0;
    for (const auto& item : geometry.items) {
        const double left = item.x - look.px(18);
        if (item.lane == 0 && right - left <= viewWidth) return std::max(0.0, left);
    }
    return right - viewWidth;
}

TrailGeometry trailGeometry(const TrailValues& values, const std::vector<double>& textWidths, QSizeF view,
                            const std::set<int>& expanded, const Look& look) {
    TrailGeometry geometry;
    const auto lanes = trailLanes(values);
    const auto children = childrenOf(values);
    for (const int lane : lanes)
        geometry.lanes = std::max(geometry.lanes, lane + 1);

    geometry.flat = view.height() < look.px(100);
    geometry.wordLines = view.height() >= look.px(kTwoLinesFrom) ? 2 : 1;
    const double words = look.px(112 + 30 * (geometry.wordLines - 1)); // under the base line
    // Where nothing lies below the line, it lies low: what branches off above keeps its head.
    geometry.baseY = !geometry.flat       ? view.height() - words
                     : geometry.lanes > 2 ? view.height() / 2
                     : geometry.lanes > 1 ? view.height() / 2 + look.px(6)
                                          : view.height() / 2;
    const double above = geometry.baseY - look.px(20); // the topmost branch has its words beside it
    geometry.laneStep = geometry.flat        ? look.px(geometry.lanes > 2 ? 12.5 : 16)
                        : geometry.lanes > 1 ? std::clamp(above / (geometry.lanes - 1), 0.0, look.px(34))
                                             : 0.0;
    geometry.crowded = geometry.lanes > 2 && geometry.laneStep < look.px(30);

    const auto build = [&](const std::vector<Run>& runs) {
        geometry.items.clear();
        geometry.width = 0;
        geometry.itemOf.assign(values.marks.size(), 0);
        auto run = runs.begin();
        for (int i = 0; i < static_cast<int>(values.marks.size()); ++i) {
            TrailItem item;
            item.first = item.last = i;
            item.lane = lanes[static_cast<std::size_t>(i)];
            item.textWidth = textWidths[static_cast<std::size_t>(i)];
            if (run != runs.end() && run->first == i) {
                item.last = run->last;
                item.textWidth = foldWidth(look);
                ++run;
            }
            for (int mark = item.first; mark <= item.last; ++mark)
                geometry.itemOf[static_cast<std::size_t>(mark)] = static_cast<int>(geometry.items.size());
            i = item.last;
            geometry.items.push_back(item);
        }
        std::vector<int> bendsOver(geometry.items.size(), 0);
        for (const auto& item : geometry.items) {
            const int parent = values.marks[static_cast<std::size_t>(item.first)].parent;
            if (parent < 0) continue;
            auto& over =
                bendsOver[static_cast<std::size_t>(geometry.itemOf[static_cast<std::size_t>(parent)])];
            if (item.lane > lanes[static_cast<std::size_t>(parent)]) over = std::max(over, item.lane);
        }
        placeItems(geometry, bendsOver, look);
    };
    build({});
    if (geometry.width > view.width()) {
        auto runs = foldableRuns(values, lanes, children);
        std::erase_if(runs, [&](const Run& run) { return expanded.contains(run.first); });
        if (!runs.empty()) build(runs);
    }
    for (std::size_t i = 0; i < geometry.items.size(); ++i) {
        const int parent = values.marks[static_cast<std::size_t>(geometry.items[i].first)].parent;
        if (parent < 0) continue;
        const auto last = static_cast<std::size_t>(geometry.items[i].last);
        geometry.links.push_back({geometry.itemOf[static_cast<std::size_t>(parent)], static_cast<int>(i),
                                  values.marks[last].state == StateMark::Draft});
    }
    return geometry;
}

TrailGeometry fittedTrail(const TrailValues& values, const std::vector<double>& textWidths, QSizeF view,
                          const std::set<int>& expanded, const Look& look) {
    const auto lanes = trailLanes(values);
    std::vector<double> widths(textWidths.size());
    const auto fit = [&](double under, double beside) {
        for (std::size_t i = 0; i < widths.size(); ++i)
            widths[i] = std::min(textWidths[i], look.px(lanes[i] > 0 ? beside : under));
        return trailGeometry(values, widths, view, expanded, look);
    };
    if (values.marks.size() <= kFewMarks)
        for (const double under : {kTrailTextMost, 460.0, 380.0, 320.0, 270.0, 225.0, kTrailTextLeast})
            for (const double beside : {kTrailTextMost, 400.0, 320.0, kBranchTextLeast}) {
                if (beside < under && beside != kBranchTextLeast) continue;
                auto geometry = fit(under, beside);
                const bool folded = geometry.items.size() < values.marks.size();
                if (!folded && geometry.width <= view.width()) return geometry;
            }
    return fit(kTrailTextLeast, kBranchTextLeast);
}

} // namespace stillroom::ui
