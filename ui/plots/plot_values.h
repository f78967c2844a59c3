#pragma once

#include "core/history/history.h"
#include "core/spec/evaluate.h"
#include "core/tasting/tasting.h"
#include "ui/plots/balance_geometry.h"
#include "ui/plots/glass_geometry.h"
#include "ui/plots/stage_columns.h"
#include "ui/plots/trail_geometry.h"

#include <optional>
#include <vector>

namespace stillroom::ui {

// From what core found to what the drawings draw. Nothing is evaluated here.

// The glass named by the spec; what floats lies in layers of its own, everything else is the body.
GlassValues glassValues(const spec::Spec& spec, const spec::Readings& readings,
                        const std::vector<spec::Contribution>& contributions);

// Ice as a spec's glass is written over: "one 45 mm cube" has a size, "cubed ice" has none.
struct WrittenIce {
    bool named = false;
    std::optional<GlassIce> sized;
};
WrittenIce iceInWords(const QString& written);

StageColumnsValues stageColumnsValues(const spec::Readings& readings);

// A drink's point as it reads when served.
MapPoint mapPoint(const QString& label, const spec::Readings& readings);
// The way of a drink: its revisions up to `now`, oldest first, and the style it belongs to.
BalanceValues balanceValues(const std::vector<history::Revision>& earlier, const QString& label,
                            const spec::Spec& spec, const spec::Readings& readings);

struct TrailSource {
    std::vector<history::Revision> revisions;            // parents before children
    std::vector<std::vector<tasting::Tasting>> tastings; // by revision
    std::vector<tasting::Person> people;
    std::optional<base::RevisionId> house;
    base::Instant now;
};
QString revisionLabel(const history::Revision& revision); // "r4"
// The revisions as marks. What changed is found once per revision: keep the result and only renew the
// draft's mark while typing.
TrailValues trailValues(const TrailSource& source);
// The draft at the end of it.
TrailMark draftMark(const TrailValues& trail, const TrailSource& source,
                    const std::optional<base::RevisionId>& basedOn, const spec::Spec& spec,
                    const spec::Readings& readings, const quantity::HouseMeasures& measures);
// "16.1 → 17.0 % vol": the number that moved most.
QString whatItDid(const spec::Readings* before, const spec::Readings& now);

} // namespace stillroom::ui
