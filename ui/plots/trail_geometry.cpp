#include "ui/plots/trail_geometry.h"

#include "ui/plots/plot_text.h"

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

constexpr int kShortestFold = 3;
constexpr int kNewestShown = 4;

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

void placeItems(TrailGeometry& geometry, const Look& look) {
    const double start = look.px(64);
    const double step = look.px(40); // between neighbours in time on different lanes
    const double gap = look.px(22);
    std::vector<double> laneEnd(static_cast<std::size_t>(geometry.lanes), 0.0);
    double x = start;
    bool first = true;
    for (auto& item : geometry.items) {
        // Crowded branches share their room, so that no words lie over others.
        const int lane = geometry.crowded || geometry.flat ? std::min(item.lane, 1) : item.lane;
        auto& end = laneEnd[static_cast<std::size_t>(lane)];
        item.x = first ? start : std::max(x + step, end);
        first = false;
        x = item.x;
        const double words =
            geometry.flat ? look.px(34) : item.textWidth + (item.lane > 0 ? look.px(14) : 0.0);
        end = item.x + words + gap;
        geometry.width = std::max(geometry.width, end);
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
        return text.isEmpty() ? 0.0 : textWidth(text.left(64), type, look);
    };
    if (beside) {
        const double head = wide(mark.number, Type::Heading) + look.px(6) + wide(mark.changed, Type::Caption);
        const auto reason = trailReason(mark);
        const double second = reason.isEmpty() ? wide(mark.did, Type::Unit) : wide(reason, Type::Reason);
        return std::clamp(std::max(head, second) + look.px(2), look.px(40), look.px(kBranchTextMost));
    }
    double width = wide(mark.number, Type::Heading) + look.px(10) + wide(mark.date, Type::Caption);
    if (const auto standing = trailStanding(mark); !standing.isEmpty())
        width += look.px(8) + wide(standing, Type::Caption);
    width = std::max(width, wide(mark.changed, Type::Unit));
    width = std::max(width, wide(mark.did, Type::Unit));
    width = std::max(width, wide(mark.reason, Type::Reason));
    double tastes = mark.photo.isNull() ? 0 : look.px(kTrailPhotoWide + 8);
    for (const auto& taste : mark.tastes)
        tastes += wide(taste.initials, Type::Heading) + look.px(14);
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
    return baseY - (flat ? std::min(lane, 1) : lane) * laneStep;
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

    const double words = look.px(112); // under the base line
    geometry.flat = view.height() < look.px(100);
    geometry.baseY = geometry.flat ? view.height() - look.px(20) : view.height() - words;
    const double above = geometry.baseY - look.px(20); // the topmost branch has its words beside it
    geometry.laneStep = geometry.flat        ? look.px(16)
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
        placeItems(geometry, look);
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

} // namespace stillroom::ui
