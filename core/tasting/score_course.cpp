#include "core/tasting/score_course.h"

#include <cmath>
#include <fmt/format.h>
#include <map>
#include <set>

namespace stillroom::tasting {

namespace {

std::vector<Scores> scoresOf(const Station& station) {
    std::vector<Scores> scores;
    for (const Tasting& tasting : station.said)
        scores.push_back(tasting.scores);
    return scores;
}

// By taster: the mean of what each gave on a scale, however often they tasted.
std::map<base::PersonId, double> byTaster(const Station& station, const ScaleDefinition& scale) {
    std::map<base::PersonId, std::pair<double, int>> sums;
    for (const Tasting& tasting : station.said)
        if (const auto score = tasting.scores.of(scale.id); score && score->kind == scale.kind) {
            sums[tasting.taster].first += score->value;
            ++sums[tasting.taster].second;
        }
    std::map<base::PersonId, double> means;
    for (const auto& [taster, sum] : sums)
        means[taster] = sum.first / sum.second;
    return means;
}

void compareTasters(const Station& a, const Station& b, const std::vector<ScaleDefinition>& scales,
                    ScoreStep& step) {
    std::set<base::PersonId> both, before, after;
    ScoreMeans common[2] = {ScoreMeans(scales.size()), ScoreMeans(scales.size())};
    for (std::size_t i = 0; i < scales.size(); ++i) {
        const auto was = byTaster(a, scales[i]);
        const auto is = byTaster(b, scales[i]);
        double sums[2] = {0, 0};
        int count = 0;
        for (const auto& [taster, score] : was) {
            before.insert(taster);
            const auto other = is.find(taster);
            if (other == is.end()) continue;
            both.insert(taster);
            sums[0] += score;
            sums[1] += other->second;
            ++count;
        }
        for (const auto& entry : is)
            after.insert(entry.first);
        for (int side = 0; count > 0 && side < 2; ++side)
            common[side][i] = ScoreMean{sums[side] / count, count};
    }
    const auto lacking = [&both](const std::set<base::PersonId>& all) {
        int count = 0;
        for (const auto& taster : all)
            count += both.count(taster) == 0 ? 1 : 0;
        return count;
    };
    step.tasters = {static_cast<int>(both.size()), lacking(before), lacking(after)};
    step.before = both.empty() ? meansOf(scales, scoresOf(a)) : common[0];
    step.after = both.empty() ? meansOf(scales, scoresOf(b)) : common[1];
}

std::optional<double> glassAge(const Station& station) {
    double sum = 0;
    int count = 0;
    for (const Tasting& tasting : station.said)
        if (const auto age = tasting.circumstances.glassAgeMinutes) {
            sum += static_cast<double>(*age);
            ++count;
        }
    return count > 0 ? std::optional(sum / count) : std::nullopt;
}

void addGlassAge(const Station& a, const Station& b, ScoreStep& step) {
    const auto was = glassAge(a);
    const auto is = glassAge(b);
    if (!was || !is || std::abs(*is - *was) <= kSameGlassAge) return;
    step.things.push_back(
        {history::ThingKind::GlassAge, fmt::format("how long it stood ({:.0f} → {:.0f} min)", *was, *is)});
}

} // namespace

ScoreCourse scoreCourse(const std::vector<Station>& stations, const std::vector<ScaleDefinition>& scales,
                        const history::StateOf& stateOf) {
    ScoreCourse course;
    course.scales = scales;
    std::optional<std::size_t> last;
    for (std::size_t i = 0; i < stations.size(); ++i) {
        const Station& here = stations[i];
        course.means.push_back(meansOf(scales, scoresOf(here)));
        if (here.said.empty()) continue;
        if (last) {
            const history::Revision& a = *stations[*last].revision;
            const history::Revision& b = *here.revision;
            const auto swaps = history::factSwaps(a.spec, a.facts, b.spec, b.facts, stateOf);
            ScoreStep step;
            step.from = *last;
            step.to = i;
            step.things = history::changedThings(history::difference(a.spec, b.spec, b.measures), a.spec,
                                                 b.spec, swaps);
            addGlassAge(stations[*last], here, step);
            step.single = history::singleChange(step.things);
            compareTasters(stations[*last], here, scales, step);
            course.steps.push_back(std::move(step));
        }
        last = i;
    }
    return course;
}

} // namespace stillroom::tasting
