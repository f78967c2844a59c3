#include "core/history/patch.h"

#include "core/history/line_match.h"

#include <algorithm>
#include <utility>

namespace stillroom::history {

using spec::Line;
using spec::Spec;

namespace {

Spec restOf(Spec spec) {
    spec.lines.clear();
    spec.method = {};
    return spec;
}

// What comes out in its order, then what is taken out.
void sortLines(std::vector<LinePatch>& lines) {
    std::sort(lines.begin(), lines.end(), [](const LinePatch& x, const LinePatch& y) {
        if ((x.b < 0) != (y.b < 0)) return y.b < 0;
        return x.b < 0 ? x.a < y.a : x.b < y.b;
    });
}

bool isIndex(int index, std::size_t count) {
    return index >= 0 && static_cast<std::size_t>(index) < count;
}

} // namespace

bool SpecPatch::isEmpty() const {
    return !method && !rest && std::all_of(lines.begin(), lines.end(), [](const LinePatch& line) {
        return line.a == line.b && !line.before && !line.after;
    });
}

SpecPatch patch(const Spec& a, const Spec& b) {
    SpecPatch result;
    std::vector<bool> seenA(a.lines.size()), seenB(b.lines.size());
    for (const LinePair& pair : matchedLines(a, b, quantity::HouseMeasures::defaults())) {
        const auto i = static_cast<std::size_t>(pair.a);
        const auto j = static_cast<std::size_t>(pair.b);
        if (!(pair.likeness > 0)) continue;
        seenA[i] = seenB[j] = true;
        LinePatch line{pair.a, pair.b, {}, {}};
        if (!(a.lines[i] == b.lines[j])) {
            line.before = a.lines[i];
            line.after = b.lines[j];
        }
        result.lines.push_back(std::move(line));
    }
    for (std::size_t i = 0; i < seenA.size(); ++i)
        if (!seenA[i]) result.lines.push_back({static_cast<int>(i), -1, a.lines[i], {}});
    for (std::size_t j = 0; j < seenB.size(); ++j)
        if (!seenB[j]) result.lines.push_back({-1, static_cast<int>(j), {}, b.lines[j]});
    sortLines(result.lines);
    if (!(a.method == b.method)) result.method = {a.method, b.method};
    const Spec restA = restOf(a);
    const Spec restB = restOf(b);
    if (!(restA == restB)) result.rest = {restA, restB};
    return result;
}

SpecPatch inverse(const SpecPatch& patch) {
    SpecPatch back = patch;
    for (LinePatch& line : back.lines) {
        std::swap(line.a, line.b);
        std::swap(line.before, line.after);
    }
    sortLines(back.lines);
    if (back.method) std::swap(back.method->before, back.method->after);
    if (back.rest) std::swap(back.rest->before, back.rest->after);
    return back;
}

tl::expected<Spec, PatchMisfit> apply(const SpecPatch& patch, const Spec& to) {
    Spec out = restOf(to);
    if (patch.rest) {
        if (!(patch.rest->before == out)) return tl::unexpected(PatchMisfit::Rest);
        out = patch.rest->after;
    }
    out.method = to.method;
    if (patch.method) {
        if (!(patch.method->before == to.method)) return tl::unexpected(PatchMisfit::Method);
        out.method = patch.method->after;
    }
    const auto coming = static_cast<std::size_t>(
        std::count_if(patch.lines.begin(), patch.lines.end(), [](const LinePatch& l) { return l.b >= 0; }));
    const auto going = static_cast<std::size_t>(
        std::count_if(patch.lines.begin(), patch.lines.end(), [](const LinePatch& l) { return l.a >= 0; }));
    if (going != to.lines.size()) return tl::unexpected(PatchMisfit::Lines);
    out.lines.assign(coming, Line{});
    std::vector<char> seenA(going), seenB(coming);
    for (const LinePatch& line : patch.lines) {
        if (line.a >= 0) {
            if (!isIndex(line.a, going) ||
                std::exchange(seenA[static_cast<std::size_t>(line.a)], char{1}) != 0)
                return tl::unexpected(PatchMisfit::Lines);
            const Line& was = to.lines[static_cast<std::size_t>(line.a)];
            if (line.before && !(*line.before == was)) return tl::unexpected(PatchMisfit::Lines);
        }
        if (line.b < 0) continue;
        const bool kept = line.a >= 0 && !line.after;
        if (!isIndex(line.b, coming) ||
            std::exchange(seenB[static_cast<std::size_t>(line.b)], char{1}) != 0 || (!kept && !line.after))
            return tl::unexpected(PatchMisfit::Lines);
        out.lines[static_cast<std::size_t>(line.b)] =
            kept ? to.lines[static_cast<std::size_t>(line.a)] : *line.after;
    }
    return out;
}

} // namespace stillroom::history
