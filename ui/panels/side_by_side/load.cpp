#include "ui/panels/side_by_side/load.h"

#include "core/spec/caution.h"
#include "core/store/bench_rules.h"
#include "ui/panels/drawing_values.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/text/words.h"

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

void addAllergens(SideColumn& column, const spec::Bindings& bindings) {
    const auto summary = spec::allergens(column.spec, bindings);
    for (const auto& id : summary.contains)
        column.allergens << allergenName(fromCore(id));
    for (const int line : summary.unknownLines)
        column.allergensUnknown << fromCore(column.spec.lines[static_cast<std::size_t>(line)].name);
}

std::optional<SideColumn> columnOf(const store::Workbook& book, const SideRef& ref,
                                   const std::optional<base::RevisionId>& house,
                                   const std::vector<tasting::Person>& people, base::Instant now) {
    auto rules = book.settings().rules;
    SideColumn column;
    if (ref.revision) {
        const auto revision = book.revision(*ref.revision);
        if (!revision) return std::nullopt;
        column.label = u"r%1"_s.arg(revision->number);
        column.date = dayText(revision->kept, now);
        column.state = house == revision->id ? StateMark::House : StateMark::Kept;
        column.spec = revision->spec;
        column.readings = revision->readings;
        column.tastings = tastingEntries(book, revision->id, people, now);
        rules.measures = revision->measures;
        const spec::Bindings bindings(column.spec, book.larderOf(*revision), rules);
        column.glass = glassValues(column.spec, spec::glassFilling(column.spec, bindings));
        addAllergens(column, bindings);
        return column;
    }
    const auto draft = ref.draft ? book.draft(*ref.draft) : std::nullopt;
    if (!draft) return std::nullopt;
    column.label = u"draft"_s;
    column.date = u"now"_s;
    column.state = StateMark::Draft;
    column.spec = draft->spec;
    const auto larder = book.larder();
    const spec::Bindings bindings(column.spec, larder, store::benchRules(book, larder));
    column.readings = spec::evaluateWithTemperatures(column.spec, bindings);
    column.glass = glassValues(column.spec, spec::glassFilling(column.spec, bindings));
    addAllergens(column, bindings);
    return column;
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
    const auto rules = book.settings().rules;
    values.measures = rules.measures;
    values.currency = currencySign(rules.currency);
    const auto people = book.people();
    for (const auto& ref : columns)
        if (auto column = columnOf(book, ref, drink ? drink->house : std::nullopt, people, now))
            values.columns.push_back(std::move(*column));
    // The newest kept one is the base: what came before and what comes after are both read against it.
    for (std::size_t i = 0; i < values.columns.size(); ++i)
        if (values.columns[i].state != StateMark::Draft) values.base = i;
    return values;
}

} // namespace stillroom::ui
