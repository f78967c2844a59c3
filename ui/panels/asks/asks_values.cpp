#include "ui/panels/asks/asks_values.h"

#include "ui/text/amounts.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/text/revision_label.h"
#include "ui/text/words.h"

#include <algorithm>
#include <map>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using spec::Quantity;
using spec::Stage;
using tasting::AskFor;
using tasting::Lever;

namespace {

constexpr std::size_t kMostStations = 8;

QString wishWords(const tasting::Ask& ask) {
    const auto name = fromCore(ask.scale.name);
    if (ask.line) return ask.wish == AskFor::Less ? u"less %1"_s.arg(name) : u"more %1"_s.arg(name);
    return ask.wish == AskFor::Less ? u"too %1"_s.arg(name) : u"not %1 enough"_s.arg(name);
}

QString saysWords(const tasting::Ask& ask, std::size_t tasters) {
    QString words =
        u"%1 of %2: %3"_s.arg(QString::number(ask.tasters), QString::number(tasters), wishWords(ask));
    if (ask.against > 0)
        words +=
            ask.against == 1 ? u"; one says the opposite"_s : u"; %1 say the opposite"_s.arg(ask.against);
    return words;
}

QString whyWords(const tasting::Candidate& candidate, const tasting::Ask& ask) {
    const bool less = candidate.direction < 0;
    switch (candidate.lever) {
    case Lever::Itself:
        return less ? u"less of what brings it"_s : u"more of what brings it"_s;
    case Lever::Against:
        return less ? u"less of what stands against it"_s : u"more to stand against it"_s;
    case Lever::NamedLine:
        return less ? u"less %1"_s.arg(fromCore(ask.scale.name)) : u"more %1"_s.arg(fromCore(ask.scale.name));
    }
    return {};
}

QString changeWords(const spec::Spec& spec, const tasting::Candidate& candidate) {
    const auto& name = spec.lines[candidate.line].name;
    return u"%1 %2 → %3 %4"_s
        .arg(fromCore(name), amountNumber(candidate.before), amountNumber(candidate.after),
             amountUnit(candidate.after))
        .trimmed();
}

QStringList effectWords(const spec::Readings& before, const spec::Readings& after) {
    QStringList effects;
    const auto one = [&](const QString& name, Quantity quantity, const QString& unit) {
        const auto was = readingText(before[Stage::Served][quantity], quantity).plain();
        const auto now = readingText(after[Stage::Served][quantity], quantity).plain();
        const auto end = unit.isEmpty() ? QString() : QString(kNarrowSpace + unit);
        effects << (was == now ? QString(u"%1 %2%3 as it was"_s.arg(name, now, end))
                               : QString(u"%1 %2 → %3%4"_s.arg(name, was, now, end)));
    };
    one(u"strength"_s, Quantity::Strength, u"% vol"_s);
    one(u"sugar : acid"_s, Quantity::SugarAcidRatio, {});
    one(u"volume"_s, Quantity::Volume, u"ml"_s);
    one(u"sugar"_s, Quantity::Sugar, u"g/100 ml"_s);
    one(u"acid"_s, Quantity::Acid, u"g/100 ml"_s);
    return effects;
}

std::vector<AskBlock> blocksOf(const std::vector<tasting::Tasting>& tastings,
                               const std::vector<tasting::ScaleDefinition>& scales,
                               const DraftSession& draft) {
    std::map<base::PersonId, int> people;
    for (const auto& tasting : tastings)
        ++people[tasting.taster];
    std::vector<AskBlock> blocks;
    for (const auto& ask : tasting::asksOf(tastings, scales, draft.spec())) {
        AskBlock block;
        block.says = saysWords(ask, people.size());
        for (const auto& candidate : tasting::candidatesFor(ask, draft.spec(), draft.bindings()))
            block.changes.push_back({changeWords(draft.spec(), candidate), whyWords(candidate, ask),
                                     effectWords(draft.now().readings, candidate.readings), candidate.spec});
        if (block.changes.empty())
            block.none =
                u"No single line moves this: it lies in the method, the glass or another ingredient."_s;
        blocks.push_back(std::move(block));
    }
    return blocks;
}

QStringList nextWords(const std::vector<tasting::Tasting>& tastings,
                      const std::vector<tasting::Person>& people) {
    QStringList words;
    for (const auto& change : tasting::nextChanges(tastings)) {
        const auto by = std::find_if(people.begin(), people.end(),
                                     [&](const auto& person) { return person.id == change.taster; });
        const bool named = by != people.end() && !(by->initials.empty() && by->name.empty());
        const auto who = !named                 ? u"somebody"_s
                         : by->initials.empty() ? fromCore(by->name)
                                                : fromCore(by->initials);
        words << u"%1: %2"_s.arg(who, fromCore(change.text).simplified());
    }
    return words;
}

QString thingsWords(const std::vector<history::ChangedThing>& things) {
    QStringList names;
    for (const auto& thing : things)
        names << fromCore(thing.name);
    return names.join(u", "_s);
}

// Means of different people are told as such.
QString tasterWords(const tasting::ScoreStep& step) {
    const auto& who = step.tasters;
    if (step.isOfOthers()) return u"nobody scored both: the two means are of different people"_s;
    const int others = who.onlyBefore + who.onlyAfter;
    if (others == 0) return {};
    return (others == 1 ? u"by the %1 who scored both; %2 scored only one of the two and is left out"_s
                        : u"by the %1 who scored both; %2 scored only one of the two and are left out"_s)
        .arg(who.both)
        .arg(others);
}

CourseStep stepWords(const tasting::ScoreCourse& course, const tasting::ScoreStep& step,
                     const QStringList& stations) {
    CourseStep words;
    words.between =
        stations[static_cast<qsizetype>(step.from)] + u" → "_s + stations[static_cast<qsizetype>(step.to)];
    words.muddled = step.isMuddled();
    if (step.single)
        words.changed = u"only this changed: %1"_s.arg(fromCore(step.single->name));
    else if (words.muddled)
        words.changed = u"%1 things changed at once (%2), so no score here can be laid to one of them"_s.arg(
            QString::number(step.things.size()), thingsWords(step.things));
    else
        words.changed = step.isOfOthers() ? u"nothing changed in the drink: what differs are the tasters"_s
                                          : u"nothing changed in the drink"_s;
    QStringList moved;
    for (std::size_t i = 0; i < course.scales.size(); ++i)
        if (step.before[i] && step.after[i])
            moved << u"%1 %2 → %3"_s.arg(fromCore(course.scales[i].name), number(step.before[i]->mean, 1),
                                         number(step.after[i]->mean, 1));
    words.scores = moved.isEmpty() ? u"no scale was scored on both"_s : moved.join(u", "_s);
    if (const auto whose = tasterWords(step); !moved.isEmpty() && !whose.isEmpty())
        words.scores += u"; "_s + whose;
    return words;
}

} // namespace

AsksValues loadAsks(const DrinkHistory& history, DraftSession& draft) {
    AsksValues values;
    values.drink = fromCore(draft.drink().name);
    if (!draft.base()) return values;
    const auto& book = draft.book().book();
    const auto form = draft.drink().form;
    values.revision = revisionLabel(form, draft.base()->number);
    if (draft.differsFromBase()) values.draftSays = draft.changesInWords();
    const auto& said = history.tastings(draft.base()->id);
    values.tastings = static_cast<int>(said.size());

    const auto way = history.wayTo(draft.base()->id, kMostStations);
    std::vector<tasting::Station> stations;
    std::vector<tasting::Scores> all;
    for (const auto& revision : way) {
        tasting::Station station{&revision, history.tastings(revision.id)};
        for (const auto& tasting : station.said)
            all.push_back(tasting.scores);
        values.stations << revisionLabel(form, revision.number);
        stations.push_back(std::move(station));
    }
    const auto scales = tasting::scalesShown(draft.book().settings().scales, all);
    values.blocks = blocksOf(said, scales, draft);
    values.nextChanges = nextWords(said, book.people());
    std::map<std::string, std::optional<larder::FactState>> states;
    values.course = tasting::scoreCourse(stations, scales, [&](const std::string& hash) {
        auto found = states.find(hash);
        if (found == states.end()) found = states.emplace(hash, book.factState(hash)).first;
        return found->second ? &*found->second : nullptr;
    });
    for (const auto& step : values.course.steps)
        values.steps.push_back(stepWords(values.course, step, values.stations));
    return values;
}

} // namespace stillroom::ui
