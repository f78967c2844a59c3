#include "ui/panels/side_by_side/load.h"

#include "core/spec/caution.h"
#include "core/store/bench_rules.h"
#include "core/store/lineage_of_book.h"
#include "ui/panels/drawing_values.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/text/revision_label.h"
#include "ui/text/words.h"

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

// What all columns of one book share.
struct Loading {
    const store::Workbook& book;
    base::DrinkId drink; // the page's own
    base::Instant now;
    std::vector<tasting::Person> people = {};
    larder::Larder today = {};
    spec::HouseRules bench = {}; // with this bench's own measurements
    spec::HouseRules house = {};
    bool isSetAside(const history::Revision& revision) const {
        const auto all = book.setAside(revision.drink);
        return std::any_of(all.begin(), all.end(),
                           [&](const store::SetAside& each) { return each.revision == revision.id; });
    }
};

void addWords(SideColumn& column, const spec::Bindings& bindings) {
    column.glass = glassValues(column.spec, spec::glassFilling(column.spec, bindings));
    const auto summary = spec::allergens(column.spec, bindings);
    for (const auto& id : summary.contains)
        column.allergens << allergenName(fromCore(id));
    for (const int line : summary.unknownLines)
        column.allergensUnknown << fromCore(column.spec.lines[static_cast<std::size_t>(line)].name);
    if (summary.garnishNotStated) column.allergensUnknown << u"the garnish"_s;
    for (const auto& caution : spec::cautions(column.spec, bindings, column.readings))
        if (!caution.standing) column.cautions << fromCore(caution.text);
}

void nameAfter(SideColumn& column, const Loading& loading, base::DrinkId drink) {
    if (drink == loading.drink) return;
    const auto other = loading.book.drink(drink);
    column.drink = other ? fromCore(other->name) : u"another drink"_s;
    column.label = column.drink + u' ' + column.label;
}

void readToday(SideColumn& column, const Loading& loading) {
    const spec::Bindings bindings(column.spec, loading.today, loading.bench);
    column.readings = spec::evaluateWithTemperatures(column.spec, bindings);
    column.facts = history::factsOf(column.spec, loading.today);
    addWords(column, bindings);
}

std::optional<SideColumn> revisionColumn(const Loading& loading, const SideRef& ref) {
    const auto revision = loading.book.revision(*ref.revision);
    if (!revision) return std::nullopt;
    const auto drink = loading.book.drink(revision->drink);
    SideColumn column;
    column.ref = ref;
    column.label = revisionLabel(drink ? drink->form : history::DrinkForm::Drink, revision->number);
    column.date = dayText(revision->kept, loading.now);
    column.state =
        drink ? revisionMark(*drink, revision->id, loading.isSetAside(*revision)) : StateMark::Kept;
    if (drink) column.credit = fromCore(store::creditOf(loading.book, *drink));
    column.spec = revision->spec;
    nameAfter(column, loading, revision->drink);
    if (ref.today) {
        column.label += u" today"_s;
        column.date = u"today's facts"_s;
        readToday(column, loading);
        return column;
    }
    column.readings = revision->readings;
    column.facts = revision->facts;
    column.tastings = tastingEntries(loading.book, revision->id, loading.people, loading.now);
    auto rules = loading.house;
    rules.measures = revision->measures;
    addWords(column, spec::Bindings(column.spec, loading.book.larderOf(*revision), rules));
    return column;
}

std::optional<SideColumn> draftColumn(const Loading& loading, const SideRef& ref) {
    const auto draft = ref.draft ? loading.book.draft(*ref.draft) : std::nullopt;
    if (!draft) return std::nullopt;
    SideColumn column;
    column.ref = ref;
    column.label = draftName(*draft);
    if (const auto drink = loading.book.drink(draft->drink))
        column.credit = fromCore(store::creditOf(loading.book, *drink));
    column.date = dayText(draft->saved, loading.now);
    column.state = draft->setAside ? StateMark::SetAside : StateMark::Draft;
    column.spec = draft->spec;
    nameAfter(column, loading, draft->drink);
    readToday(column, loading);
    return column;
}

// The states behind the facts of all columns, for telling what was swapped.
void collectStates(SideBySideValues& values, const Loading& loading) {
    for (const auto& column : values.columns) {
        for (const auto& [ingredient, hash] : column.facts.states) {
            if (values.states.count(hash) > 0) continue;
            if (auto state = loading.book.factState(hash))
                values.states.emplace(hash, std::move(*state));
            else if (const auto* poured = loading.today.poured(ingredient);
                     poured && poured->facts.hash() == hash)
                values.states.emplace(hash, poured->facts);
        }
    }
}

QString labelOf(const Loading& loading, const history::Revision& revision) {
    const auto drink = loading.book.drink(revision.drink);
    return revisionLabel(drink ? drink->form : history::DrinkForm::Drink, revision.number);
}

// Two drafts of one name are told apart by what they stand on.
void tellApart(SideBySideValues& values, const Loading& loading) {
    for (auto& column : values.columns) {
        const auto same = std::count_if(values.columns.begin(), values.columns.end(),
                                        [&](const SideColumn& other) { return other.label == column.label; });
        const auto draft =
            same > 1 && column.ref.draft ? loading.book.draft(*column.ref.draft) : std::nullopt;
        const auto base = draft && draft->basedOn ? loading.book.revision(*draft->basedOn) : std::nullopt;
        if (base) column.date = u"on %1, %2"_s.arg(labelOf(loading, *base), column.date);
    }
}

} // namespace

std::vector<SideRef> usualColumns(const store::Workbook& book, base::DrinkId drink) {
    const auto revisions = book.revisions(drink);
    const auto drafts = book.drafts(drink);
    // The draft worked on last that says something else than what it stands on.
    const history::Draft* changed = nullptr;
    for (const auto& draft : drafts)
        for (const auto& revision : revisions)
            if (draft.basedOn == revision.id && !(draft.spec == revision.spec) &&
                (!changed || draft.saved >= changed->saved))
                changed = &draft;
    if (changed) return {{changed->basedOn, std::nullopt}, {std::nullopt, changed->id}};
    std::vector<SideRef> columns;
    if (!revisions.empty()) {
        const auto& newest = revisions.back();
        if (newest.parent)
            columns.push_back({newest.parent, std::nullopt});
        else if (revisions.size() > 1)
            columns.push_back({revisions[revisions.size() - 2].id, std::nullopt});
        columns.push_back({newest.id, std::nullopt});
    }
    if (columns.size() < 2 && !drafts.empty()) columns.push_back({std::nullopt, drafts.back().id});
    return columns;
}

SideBySideValues loadSideBySide(const store::Workbook& book, base::DrinkId drinkId,
                                const std::vector<SideRef>& columns, base::Instant now) {
    SideBySideValues values;
    const auto drink = book.drink(drinkId);
    if (drink) values.drink = fromCore(drink->name);
    Loading loading{book, drinkId, now};
    loading.people = book.people();
    loading.today = book.larder();
    loading.house = book.settings().rules;
    loading.bench = store::benchRules(book, loading.today);
    values.measures = loading.house.measures;
    values.currency = currencySign(loading.house.currency);
    for (const auto& ref : columns) {
        auto column = ref.revision ? revisionColumn(loading, ref) : draftColumn(loading, ref);
        if (column) values.columns.push_back(std::move(*column));
    }
    std::vector<tasting::Scores> scores;
    for (const auto& column : values.columns)
        for (auto& each : scoresOf(column.tastings))
            scores.push_back(std::move(each));
    values.scales = tasting::scalesShown(book.settings().scales, scores);
    collectStates(values, loading);
    tellApart(values, loading);
    // The newest kept one is the base: what came before and what comes after are both read against it.
    for (std::size_t i = 0; i < values.columns.size(); ++i)
        if (values.columns[i].state != StateMark::Draft && values.columns[i].drink.isEmpty() &&
            !values.columns[i].ref.today)
            values.base = i;
    return values;
}

std::optional<SideRef> columnOf(const store::Workbook& book, base::DrinkId id) {
    const auto drink = book.drink(id);
    if (!drink) return std::nullopt;
    if (drink->house) return SideRef{drink->house, std::nullopt};
    if (const auto kept = book.revisions(id); !kept.empty()) return SideRef{kept.back().id, std::nullopt};
    if (const auto drafts = book.drafts(id); !drafts.empty()) return SideRef{std::nullopt, drafts.front().id};
    return std::nullopt;
}

std::vector<SideChoice> furtherColumns(const store::Workbook& book, base::DrinkId drinkId,
                                       const std::vector<SideRef>& taken, base::Instant now) {
    std::vector<SideChoice> choices;
    const auto offer = [&](SideRef ref, PickRow row) {
        if (std::find(taken.begin(), taken.end(), ref) == taken.end())
            choices.push_back({ref, std::nullopt, std::move(row)});
    };
    const auto drink = book.drink(drinkId);
    const auto labelled = [&](const history::Revision& revision) {
        return revisionLabel(drink ? drink->form : history::DrinkForm::Drink, revision.number);
    };
    for (const auto& draft : book.drafts(drinkId)) {
        const auto base = draft.basedOn ? book.revision(*draft.basedOn) : std::nullopt;
        offer({std::nullopt, draft.id},
              {draft.setAside ? StateMark::SetAside : StateMark::Draft, draftName(draft),
               dayText(draft.saved, now), base ? u"on %1"_s.arg(labelled(*base)) : QString()});
    }
    auto revisions = book.revisions(drinkId);
    std::reverse(revisions.begin(), revisions.end());
    const auto aside = book.setAside(drinkId);
    const auto markOf = [&](const history::Drink& of, base::RevisionId id) {
        return revisionMark(of, id, std::any_of(aside.begin(), aside.end(), [&](const store::SetAside& each) {
                                return each.revision == id;
                            }));
    };
    for (const auto& revision : revisions)
        offer({revision.id, std::nullopt},
              {drink ? markOf(*drink, revision.id) : StateMark::Kept, labelled(revision),
               dayText(revision.kept, now), fromCore(revision.reason)});
    for (const auto& revision : revisions)
        offer({revision.id, std::nullopt, true}, {drink ? markOf(*drink, revision.id) : StateMark::Kept,
                                                  u"%1 with today's facts"_s.arg(labelled(revision)),
                                                  u"read again"_s, u"beside the numbers it was kept with"_s});
    for (const auto& summary : book.summaries()) {
        if (summary.binned || summary.id == drinkId) continue;
        const auto mark = summary.hasPublished    ? StateMark::Published
                          : summary.hasHouse      ? StateMark::House
                          : summary.revisions > 0 ? StateMark::Kept
                                                  : StateMark::Draft;
        choices.push_back({{}, summary.id, {mark, fromCore(summary.name), fromCore(summary.menuName), {}}});
    }
    return choices;
}

} // namespace stillroom::ui
