#pragma once

#include "ui/plots/balance_geometry.h"
#include "ui/plots/glass_geometry.h"
#include "ui/plots/stage_columns.h"
#include "ui/plots/trail_geometry.h"
#include "ui/session/drink_history.h"

namespace stillroom::ui {

// From what a drink is and reads as to what the drawings take. Nothing is computed here that is not a
// choice of what to show.
GlassValues glassValues(const spec::Spec& spec, const spec::GlassFilling& filling);
MapPoint mapPoint(const QString& label, const spec::Readings& readings);
// A syrup is no drink of any style: a preparation is placed without a region.
BalanceValues balanceValues(const QString& nowLabel, const spec::Spec& spec, const spec::Readings& readings,
                            const std::vector<history::Revision>& earlier,
                            history::DrinkForm form = history::DrinkForm::Drink);
StageColumnsValues stageColumns(const spec::Readings& readings);

// The mark a revision wears: set aside, else what readers have, else what the bar pours.
StateMark revisionMark(const history::Drink& drink, base::RevisionId revision, bool setAside = false);
// "with honey", or "draft" of one without a name.
QString draftName(const history::Draft& draft);

// The revisions, then the other drafts that differ from theirs; the mark of the draft in hand is put behind
// them with every edit.
TrailValues trailOf(const DrinkHistory& history);
TrailMark draftMark(const DrinkHistory& history, const DraftSession& draft);
TrailMark otherDraftMark(const DrinkHistory& history, const DrinkHistory::OtherDraft& other,
                         base::Instant now);

} // namespace stillroom::ui
