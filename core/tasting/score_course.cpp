#include "core/tasting/score_course.h"

namespace stillroom::tasting {

ScoreCourse scoreCourse(const std::vector<Station>& stations, const std::vector<ScaleDefinition>& scales,
                        const history::StateOf& stateOf) {
    ScoreCourse course;
    course.scales = scales;
    std::optional<std::size_t> last;
    for (std::size_t i = 0; i < stations.size(); ++i) {
        const Station& here = stations[i];
        course.means.push_back(meansOf(scales, here.scores));
        if (here.scores.empty()) continue;
        if (last) {
            const history::Revision& a = *stations[*last].revision;
            const history::Revision& b = *here.revision;
            const auto swaps = history::factSwaps(a.spec, a.facts, b.spec, b.facts, stateOf);
            ScoreStep step;
            step.from = *last;
            step.to = i;
            step.things = history::changedThings(history::difference(a.spec, b.spec, b.measures), a.spec,
                                                 b.spec, swaps);
            step.single = history::singleChange(step.things);
            step.before = course.means[*last];
            step.after = course.means[i];
            course.steps.push_back(std::move(step));
        }
        last = i;
    }
    return course;
}

} // namespace stillroom::tasting
