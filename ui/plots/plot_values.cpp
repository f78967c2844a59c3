#include "ui/plots/plot_values.h"

#include "core/history/diff.h"
#include "ui/plots/plot_text.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/text/words.h"

#include <QRegularExpression>

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using spec::Bound;
using spec::Quantity;
using spec::Stage;

namespace {

// Apparent volume of dissolved sugar near room temperature, ml/g: sucrose at 20 °C in dilute solution
// (resources of core/physics hold the formula; a drawing 50 px high shows no more than this).
constexpr double kSugarMlPerGram = 0.62;
constexpr double kEthanolMlPerGram = 1.0 / 0.78924; // R 22, pure ethanol at 20 °C

bool hasNumber(const spec::Reading& reading) {
    return reading.bound != Bound::Unknown && reading.bound != Bound::NotApplicable;
}

Open openOf(const spec::Reading& reading) {
    switch (reading.bound) {
    case Bound::Exact:
        return Open::No;
    case Bound::AtLeast:
    case Bound::Between:
        return Open::Above;
    case Bound::AtMost:
        return Open::Below;
    case Bound::Unknown:
    case Bound::NotApplicable:
        break;
    }
    return Open::Unknown;
}

struct Moved {
    QString text;
    double share = 0;
};

Moved movedText(const spec::Reading& before, const spec::Reading& now, Quantity quantity) {
    const auto was = readingText(before, quantity).plain();
    const auto is = readingText(now, quantity).plain();
    if (was == is || !hasNumber(before) || !hasNumber(now)) return {};
    const bool ratio = quantity == Quantity::SugarAcidRatio;
    Moved moved;
    moved.share = std::abs(now.value - before.value) / std::max(1e-9, std::abs(before.value));
    moved.text = ratio ? u"sugar\u202f:\u202facid %1 → %2"_s.arg(was, is)
                       : u"%1 → %2 %3"_s.arg(was, is, fromCore(spec::quantityUnit(quantity)));
    if (quantity == Quantity::Sugar) moved.text = u"sugar %1 → %2"_s.arg(was, is);
    if (quantity == Quantity::Acid) moved.text = u"acid %1 → %2"_s.arg(was, is);
    return moved;
}

QString initialsOf(const std::vector<tasting::Person>& people, base::PersonId id) {
    for (const auto& person : people)
        if (person.id == id && !person.initials.empty()) return fromCore(person.initials);
    return u"—"_s;
}

void addReadings(TrailMark& mark, const spec::Readings& readings) {
    const auto& served = readings[Stage::Served];
    if (hasNumber(served[Quantity::Strength])) mark.strength = served[Quantity::Strength].value;
    if (hasNumber(served[Quantity::SugarAcidRatio])) mark.sugarAcid = served[Quantity::SugarAcidRatio].value;
}

} // namespace

WrittenIce iceInWords(const QString& written) {
    static const QRegularExpression cube(
        u"(?:(\\d+|one|two|three|four|a)\\s+(?:large\\s+|big\\s+)?)?(\\d{2})\\s*mm\\s+(?:ice\\s+)?cubes?"_s,
        QRegularExpression::CaseInsensitiveOption);
    static const QRegularExpression any(
        u"\\b(?:ice|cubes?|cubed|crushed|pebble|on the rocks|over rocks)\\b"_s,
        QRegularExpression::CaseInsensitiveOption);
    WrittenIce ice;
    if (const auto match = cube.match(written); match.hasMatch()) {
        static const QStringList words{u"a"_s, u"one"_s, u"two"_s, u"three"_s, u"four"_s};
        const auto count = match.captured(1).toLower();
        const auto word = words.indexOf(count);
        ice.named = true;
        ice.sized = GlassIce{match.captured(2).toDouble(),
                             word >= 0 ? std::max(1, static_cast<int>(word)) : std::max(1, count.toInt())};
        return ice;
    }
    ice.named = any.match(written).hasMatch();
    return ice;
}

GlassValues glassValues(const spec::Spec& spec, const spec::Readings& readings,
                        const std::vector<spec::Contribution>& contributions) {
    GlassValues values;
    const auto* profile = physics::glassProfile(spec.glassProfile);
    if (!profile) profile = physics::glassProfileFor(spec.glass);
    if (profile) values.shape = shapeOf(*profile);
    const auto ice = iceInWords(fromCore(spec.glass));
    values.ice = ice.sized;
    values.iceNotCounted = ice.named && !ice.sized;

    const auto& volume = readings[Stage::Served][Quantity::Volume];
    if (!hasNumber(volume)) return values;
    values.atLeast = volume.bound != Bound::Exact;
    double floated = 0;
    std::vector<GlassLayer> floats;
    bool topped = false;
    for (std::size_t i = 0; i < spec.lines.size() && i < contributions.size(); ++i) {
        topped |= spec.lines[i].role == spec::Role::Topped;
        if (spec.lines[i].role != spec::Role::Floated || !hasNumber(contributions[i].volumeMl)) continue;
        floated += contributions[i].volumeMl.value;
        floats.push_back({fromCore(spec.lines[i].name), contributions[i].volumeMl.value, LayerKind::Floated});
    }
    if (floats.size() == 1) floats.front().name = u"float"_s;
    values.layers.push_back({topped ? u"mixed and topped"_s : u"mixed"_s,
                             std::max(0.0, volume.value - floated), LayerKind::Mixed});
    values.layers.insert(values.layers.end(), floats.begin(), floats.end());
    return values;
}

StageColumnsValues stageColumnsValues(const spec::Readings& readings) {
    StageColumnsValues values;
    for (const auto stage : {Stage::Measured, Stage::Mixed, Stage::Served}) {
        const auto& of = readings[stage];
        StageColumn column;
        column.name = stageName(stage);
        column.served = stage == Stage::Served;
        if (hasNumber(of[Quantity::Volume])) column.totalMl = of[Quantity::Volume].value;
        if (hasNumber(of[Quantity::Ethanol]))
            column.alcoholMl = of[Quantity::Ethanol].value * kEthanolMlPerGram;
        if (hasNumber(of[Quantity::Sugar]) && column.totalMl) {
            column.sugarMl = of[Quantity::Sugar].value * *column.totalMl / 100.0 * kSugarMlPerGram;
            column.sugarAtLeast = of[Quantity::Sugar].bound != Bound::Exact;
        }
        values.columns.push_back(column);
    }
    return values;
}

MapPoint mapPoint(const QString& label, const spec::Readings& readings) {
    const auto& served = readings[Stage::Served];
    MapPoint point;
    point.label = label;
    point.sugar = served[Quantity::Sugar].value;
    point.acid = served[Quantity::Acid].value;
    point.sugarOpen = openOf(served[Quantity::Sugar]);
    point.acidOpen = openOf(served[Quantity::Acid]);
    if (hasNumber(served[Quantity::Strength])) point.strength = served[Quantity::Strength].value;
    return point;
}

BalanceValues balanceValues(const std::vector<history::Revision>& earlier, const QString& label,
                            const spec::Spec& spec, const spec::Readings& readings) {
    BalanceValues values;
    for (const auto& revision : earlier)
        values.earlier.push_back(mapPoint(revisionLabel(revision), revision.readings));
    if (!spec.lines.empty()) values.now = mapPoint(label, readings);
    if (const auto* region = balance::styleOf(spec, readings)) {
        values.region = *region;
        values.sentence = fromCore(balance::placementSentence(*region, readings));
    }
    return values;
}

QString revisionLabel(const history::Revision& revision) {
    return u"r%1"_s.arg(revision.number);
}

QString whatItDid(const spec::Readings* before, const spec::Readings& now) {
    const auto& served = now[Stage::Served];
    if (!before) {
        QStringList parts;
        if (hasNumber(served[Quantity::Strength]))
            parts << withUnit(readingText(served[Quantity::Strength], Quantity::Strength).plain(), u"% vol");
        if (hasNumber(served[Quantity::SugarAcidRatio]))
            parts << u"sugar\u202f:\u202facid "_s +
                         readingText(served[Quantity::SugarAcidRatio], Quantity::SugarAcidRatio).plain();
        return parts.join(u", "_s);
    }
    Moved most;
    for (const auto quantity :
         {Quantity::Strength, Quantity::SugarAcidRatio, Quantity::Sugar, Quantity::Acid, Quantity::Volume}) {
        const auto moved = movedText((*before)[Stage::Served][quantity], served[quantity], quantity);
        if (moved.share > most.share + 1e-12) most = moved;
    }
    return most.text.isEmpty() ? u"reads the same"_s : most.text;
}

TrailValues trailValues(const TrailSource& source) {
    TrailValues values;
    for (std::size_t i = 0; i < source.revisions.size(); ++i) {
        const auto& revision = source.revisions[i];
        TrailMark mark;
        mark.number = revisionLabel(revision);
        mark.date = dayText(revision.kept, source.now);
        mark.state = source.house == revision.id ? StateMark::House : StateMark::Kept;
        mark.reason = fromCore(revision.reason);
        const history::Revision* parent = nullptr;
        for (std::size_t j = 0; revision.parent && j < i; ++j)
            if (source.revisions[j].id == *revision.parent) {
                mark.parent = static_cast<int>(j);
                parent = &source.revisions[j];
            }
        mark.changed = parent ? fromCore(history::inWords(
                                    history::difference(parent->spec, revision.spec, revision.measures),
                                    parent->spec, revision.spec))
                              : u"first pour"_s;
        mark.did = whatItDid(parent ? &parent->readings : nullptr, revision.readings);
        if (i < source.tastings.size())
            for (const auto& tasting : source.tastings[i])
                mark.tastes.push_back({initialsOf(source.people, tasting.taster), tasting.verdict});
        addReadings(mark, revision.readings);
        values.marks.push_back(std::move(mark));
    }
    return values;
}

TrailMark draftMark(const TrailValues& trail, const TrailSource& source,
                    const std::optional<base::RevisionId>& basedOn, const spec::Spec& spec,
                    const spec::Readings& readings, const quantity::HouseMeasures& measures) {
    TrailMark mark;
    mark.number = u"draft"_s;
    mark.date = u"now"_s;
    mark.state = StateMark::Draft;
    const history::Revision* parent = nullptr;
    for (std::size_t i = 0; basedOn && i < source.revisions.size() && i < trail.marks.size(); ++i)
        if (source.revisions[i].id == *basedOn) {
            mark.parent = static_cast<int>(i);
            parent = &source.revisions[i];
        }
    if (parent) {
        const auto difference = history::difference(parent->spec, spec, measures);
        mark.changed = difference.isEmpty() ? u"nothing changed yet"_s
                                            : fromCore(history::inWords(difference, parent->spec, spec));
        mark.did = difference.isEmpty() ? QString() : whatItDid(&parent->readings, readings);
    } else {
        mark.changed = spec.lines.empty() ? u"nothing written yet"_s : u"first pour"_s;
        mark.did = spec.lines.empty() ? QString() : whatItDid(nullptr, readings);
    }
    addReadings(mark, readings);
    return mark;
}

} // namespace stillroom::ui
