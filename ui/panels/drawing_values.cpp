#include "ui/panels/drawing_values.h"

#include "core/history/what_changed.h"
#include "core/preparation/made_readings.h"
#include "core/spec/stage_shares.h"
#include "ui/panels/photos/photo_reading.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/text/revision_label.h"
#include "ui/text/words.h"

#include <QCoreApplication>

#include <map>

namespace stillroom::ui {

namespace {

using Q = spec::Quantity;
using spec::Bound;
using spec::Stage;

QString say(const char* text) {
    return QCoreApplication::translate("Drawings", text);
}

Open openOf(const spec::Reading& reading) {
    switch (reading.bound) {
    case Bound::AtLeast:
        return Open::Above;
    case Bound::AtMost:
        return Open::Below;
    case Bound::Between:
        return Open::Above;
    case Bound::Unknown:
    case Bound::NotApplicable:
        return Open::Unknown;
    case Bound::Exact:
        break;
    }
    return Open::No;
}

bool isNumber(const spec::Reading& reading) {
    return reading.bound != Bound::Unknown && reading.bound != Bound::NotApplicable;
}

std::optional<double> valueOf(const spec::Reading& reading) {
    return isNumber(reading) ? std::optional<double>(reading.value) : std::nullopt;
}

std::optional<TrailReading> trailReading(const spec::Reading& reading, Q quantity) {
    using Kind = TrailReading::Kind;
    if (!isNumber(reading)) return std::nullopt;
    TrailReading shown;
    shown.value = reading.value;
    shown.text = readingText(reading, quantity).plain();
    shown.kind = reading.bound == Bound::AtLeast   ? Kind::AtLeast
                 : reading.bound == Bound::AtMost  ? Kind::AtMost
                 : reading.bound == Bound::Between ? Kind::Between
                 : reading.estimate                ? Kind::Estimate
                                                   : Kind::Exact;
    if (shown.kind == Kind::Between) shown.upper = reading.upper;
    return shown;
}

// "16.1 → 17.0 % vol, sugar : acid 7.9 → 8.6": what an edit did, in the two readings that moved first.
QString whatItDid(const spec::Readings& before, const spec::Readings& now) {
    QStringList parts;
    for (const auto quantity : history::movedReadings(before, now)) {
        const QString step = readingText(before[Stage::Served][quantity], quantity).plain() +
                             QStringLiteral(" → ") +
                             readingText(now[Stage::Served][quantity], quantity).plain();
        if (quantity == Q::SugarAcidRatio)
            parts << say("sugar : acid %1").arg(step);
        else if (quantity == Q::Sugar)
            parts << say("sugar %1").arg(step);
        else if (quantity == Q::Acid)
            parts << say("acid %1").arg(step);
        else
            parts << step + kNarrowSpace + fromCore(spec::quantityUnit(quantity));
    }
    return parts.join(QStringLiteral(", "));
}

QString whatItReads(const spec::Readings& now) {
    const auto& strength = now[Stage::Served][Q::Strength];
    if (!isNumber(strength)) return {};
    return readingText(strength, Q::Strength).plain() + kNarrowSpace +
           fromCore(spec::quantityUnit(Q::Strength));
}

} // namespace

GlassValues glassValues(const spec::Spec& spec, const spec::GlassFilling& filling) {
    GlassValues values;
    values.filling = filling;
    for (const auto& layer : filling.layers) {
        const bool one = layer.lines.size() == 1 && layer.lines.front() < spec.lines.size();
        if (layer.kind != spec::GlassLayerKind::Drink && one)
            values.layerNames.push_back(fromCore(spec.lines[layer.lines.front()].name));
        else
            values.layerNames.push_back(layer.kind == spec::GlassLayerKind::Drink   ? say("mixed")
                                        : layer.kind == spec::GlassLayerKind::Float ? say("float")
                                                                                    : say("layer"));
    }
    return values;
}

MapPoint mapPoint(const QString& label, const spec::Readings& readings) {
    const auto& served = readings[Stage::Served];
    MapPoint point;
    point.label = label;
    point.sugar = served[Q::Sugar].value;
    point.acid = served[Q::Acid].value;
    point.strength = valueOf(served[Q::Strength]);
    point.strengthOpen = openOf(served[Q::Strength]);
    point.sugarOpen = openOf(served[Q::Sugar]);
    point.acidOpen = openOf(served[Q::Acid]);
    return point;
}

BalanceValues balanceValues(const QString& nowLabel, const spec::Spec& spec, const spec::Readings& readings,
                            const std::vector<history::Revision>& earlier, history::DrinkForm form) {
    BalanceValues values;
    const auto* region = form == history::DrinkForm::Drink ? balance::styleOf(spec, readings) : nullptr;
    if (region != nullptr) {
        values.region = *region;
        values.sentence = fromCore(balance::placementSentence(*region, readings));
    }
    // The way of the last few revisions; a long history would only cover the map.
    const std::size_t from = earlier.size() > 6 ? earlier.size() - 6 : 0;
    for (std::size_t i = from; i < earlier.size(); ++i) {
        auto point = mapPoint(revisionLabel(form, earlier[i].number), earlier[i].readings);
        if (point.isPlaced()) values.earlier.push_back(std::move(point));
    }
    auto now = mapPoint(nowLabel, readings);
    if (now.isPlaced() && !spec.lines.empty()) values.now = std::move(now);
    return values;
}

StageColumnsValues stageColumns(const spec::Readings& readings) {
    StageColumnsValues values;
    for (const auto stage : {Stage::Measured, Stage::Mixed, Stage::Served}) {
        const auto& of = readings[stage];
        StageColumn column;
        column.name = stageName(stage);
        const auto shares = spec::stageShares(of);
        column.totalMl = shares.totalMl;
        column.alcoholMl = shares.alcoholMl;
        column.sugarMl = shares.sugarMl;
        column.sugarAtLeast = shares.sugarAtLeast;
        column.served = stage == Stage::Served;
        values.columns.push_back(std::move(column));
    }
    return values;
}

StateMark revisionMark(const history::Drink& drink, base::RevisionId revision, bool setAside) {
    if (setAside) return StateMark::SetAside;
    if (drink.published == revision) return StateMark::Published;
    return drink.house == revision ? StateMark::House : StateMark::Kept;
}

QString draftName(const history::Draft& draft) {
    return draft.name.empty() ? say("draft") : fromCore(draft.name);
}

namespace {

// As kept, with what a preparation's steps made of it. What is kept never changes, and neither does this.
const spec::Readings& readAsMade(const DraftSession& draft, const history::Revision& revision) {
    if (draft.drink().form != history::DrinkForm::Preparation) return revision.readings;
    static std::map<base::RevisionId, spec::Readings> known;
    constexpr std::size_t kMost = 2000;
    if (known.size() > kMost) known.clear();
    const auto found = known.find(revision.id);
    if (found != known.end()) return found->second;
    auto& book = const_cast<DraftSession&>(draft).book().book();
    const auto then = book.larderOf(revision);
    const spec::Bindings bindings(revision.spec, then, book.rulesOf(revision));
    const auto made = preparation::make(revision.spec, bindings, preparation::yieldOf(revision.spec));
    return known
        .emplace(revision.id, made ? preparation::withSteps(revision.readings, *made) : revision.readings)
        .first->second;
}

spec::Readings readAsMade(const DraftSession& draft, const DrinkHistory::OtherDraft& other) {
    if (draft.drink().form != history::DrinkForm::Preparation) return other.readings;
    auto& book = const_cast<DraftSession&>(draft).book();
    const auto& spec = other.draft.spec;
    const spec::Bindings bindings(spec, book.larder(), book.settings().rules);
    const auto made = preparation::make(spec, bindings, preparation::yieldOf(spec));
    return made ? preparation::withSteps(other.readings, *made) : other.readings;
}

spec::Readings readAsMade(const DraftReading& now) {
    return now.made ? preparation::withSteps(now.readings, *now.made) : now.readings;
}

} // namespace

TrailValues trailOf(const DrinkHistory& history) {
    TrailValues values;
    const auto* draft = history.draft();
    if (draft == nullptr) return values;
    const auto& book = const_cast<DraftSession*>(draft)->book();
    const auto now = book.clock().now();
    for (const auto& revision : history.revisions()) {
        TrailMark mark;
        mark.number = revisionLabel(draft->drink().form, revision.number);
        mark.date = dayText(revision.kept, now);
        const auto* aside = history.setAside(revision.id);
        mark.state = revisionMark(draft->drink(), revision.id, aside != nullptr);
        mark.alsoHouse = mark.state == StateMark::Published && draft->drink().house == revision.id;
        mark.reason = fromCore(aside && !aside->why.empty() ? aside->why : revision.reason);
        const auto* parent = revision.parent ? history.revision(*revision.parent) : nullptr;
        if (parent != nullptr) {
            mark.parent = history.indexOf(parent->id);
            mark.changed = history.changed(revision.id);
            mark.did = whatItDid(readAsMade(*draft, *parent), readAsMade(*draft, revision));
        } else {
            mark.changed = say("first pour");
            mark.did = whatItReads(readAsMade(*draft, revision));
        }
        // A reason that only repeats what changed is said once.
        if (mark.reason == mark.changed) mark.reason.clear();
        for (const auto& tasting : history.tastings(revision.id))
            mark.tastes.push_back({history.initials(tasting.taster), tasting.verdict});
        if (const auto hash = history.photo(revision.id); !hash.empty())
            if (const auto bytes = book.book().photoBytes(hash)) mark.photo = thumbnail(hash, *bytes, 120);
        const auto& served = readAsMade(*draft, revision)[Stage::Served];
        mark.strength = trailReading(served[Q::Strength], Q::Strength);
        mark.sugarAcid = trailReading(served[Q::SugarAcidRatio], Q::SugarAcidRatio);
        values.marks.push_back(std::move(mark));
    }
    for (std::size_t i = 0; i < history.triesAmongOthers(); ++i)
        values.marks.push_back(otherDraftMark(history, history.otherDrafts()[i], now));
    return values;
}

// A draft that lies beside the one in hand.
TrailMark otherDraftMark(const DrinkHistory& history, const DrinkHistory::OtherDraft& other,
                         base::Instant now) {
    TrailMark mark;
    mark.number = draftName(other.draft);
    mark.date = dayText(other.draft.saved, now);
    mark.state = other.draft.setAside ? StateMark::SetAside : StateMark::Draft;
    const auto* draft = history.draft();
    const auto readings = draft != nullptr ? readAsMade(*draft, other) : other.readings;
    const auto* base = other.draft.basedOn ? history.revision(*other.draft.basedOn) : nullptr;
    if (base != nullptr) {
        mark.parent = history.indexOf(base->id);
        const auto difference = history::difference(base->spec, other.draft.spec, base->measures);
        mark.changed = difference.isEmpty()
                           ? say("nothing changed")
                           : fromCore(history::inWords(difference, base->spec, other.draft.spec));
        mark.did = whatItDid(draft != nullptr ? readAsMade(*draft, *base) : base->readings, readings);
    } else {
        mark.changed = say("not kept yet");
        mark.did = other.draft.spec.lines.empty() ? QString() : whatItReads(readings);
    }
    mark.strength = trailReading(readings[Stage::Served][Q::Strength], Q::Strength);
    mark.sugarAcid = trailReading(readings[Stage::Served][Q::SugarAcidRatio], Q::SugarAcidRatio);
    return mark;
}

TrailMark draftMark(const DrinkHistory& history, const DraftSession& draft) {
    TrailMark mark;
    mark.number = draftName(draft.draft());
    mark.date = say("now");
    mark.state = draft.draft().setAside ? StateMark::SetAside : StateMark::Draft;
    const auto readings = readAsMade(draft.now());
    if (draft.base()) {
        mark.parent = history.indexOf(draft.base()->id);
        mark.changed = draft.changesInWords();
        if (mark.changed.isEmpty()) mark.changed = say("nothing changed");
        mark.did = whatItDid(readAsMade(draft, *draft.base()), readings);
    } else {
        mark.changed = say("not kept yet");
        mark.did = draft.spec().lines.empty() ? QString() : whatItReads(readings);
    }
    mark.strength = trailReading(readings[Stage::Served][Q::Strength], Q::Strength);
    mark.sugarAcid = trailReading(readings[Stage::Served][Q::SugarAcidRatio], Q::SugarAcidRatio);
    return mark;
}

} // namespace stillroom::ui
