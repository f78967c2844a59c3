#include "ui/panels/drafts/draft_rows.h"

#include "ui/panels/drawing_values.h"
#include "ui/text/revision_label.h"
#include "ui/text/words.h"

namespace stillroom::ui {

namespace {

QString standsOn(const DrinkHistory& history, const std::optional<base::RevisionId>& base) {
    const auto* revision = base ? history.revision(*base) : nullptr;
    if (revision == nullptr) return QObject::tr("on nothing kept yet");
    const auto* draft = history.draft();
    return QObject::tr("on %1").arg(
        revisionLabel(draft ? draft->drink().form : history::DrinkForm::Drink, revision->number));
}

PickRow rowOf(const TrailMark& mark, const QString& on) {
    PickRow row;
    row.mark = mark.state;
    row.title = mark.number + QStringLiteral(", ") + on;
    row.aside = mark.date;
    row.detail = mark.changed;
    if (!mark.did.isEmpty()) row.detail += QStringLiteral(" · ") + mark.did;
    return row;
}

} // namespace

std::vector<DraftChoice> draftChoices(const DrinkHistory& history) {
    std::vector<DraftChoice> choices;
    const auto* draft = history.draft();
    if (draft == nullptr) return choices;
    auto inHand = rowOf(draftMark(history, *draft), standsOn(history, draft->draft().basedOn));
    inHand.current = true;
    choices.push_back({draft->draft().id, std::move(inHand)});
    const auto now = const_cast<DraftSession*>(draft)->book().clock().now();
    for (const auto& other : history.otherDrafts())
        choices.push_back({other.draft.id, rowOf(otherDraftMark(history, other, now),
                                                 standsOn(history, other.draft.basedOn))});
    return choices;
}

} // namespace stillroom::ui
