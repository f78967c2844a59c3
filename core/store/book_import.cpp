#include "core/store/book_import.h"

#include "core/base/text.h"
#include "core/exchange/read_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <stdexcept>

namespace stillroom::store {

namespace {

using exchange::ReadKind;
using exchange::ReadLine;

[[noreturn]] void fail(const std::string& what) {
    throw std::runtime_error(what);
}

base::IngredientId knownAs(const larder::Larder& larder, const std::string& name, const std::string& asker) {
    const larder::NameMatch match = larder.match(name);
    if (match.quality != larder::MatchQuality::Exact && match.quality != larder::MatchQuality::Remembered)
        fail(fmt::format("{}: the larder has nothing called \"{}\"", asker, name));
    return match.ingredient;
}

// What the four figures do not speak of, a bottle has from its kind: what it is, and what else is in it.
larder::FactState withKindsCharacter(larder::FactState facts, const larder::FactState& kind) {
    larder::FactState result = kind;
    result.abvPercent = facts.abvPercent;
    result.sugarGPerL = facts.sugarGPerL;
    result.acidGPerL = facts.acidGPerL;
    result.densityKgPerM3 = facts.densityKgPerM3;
    if (facts.allergens) result.allergens = facts.allergens;
    if (!facts.tags.empty()) result.tags = facts.tags;
    if (!facts.group.empty()) result.group = facts.group;
    return result;
}

// The lots go in before what names one as being in use.
void putLots(Workbook& workbook, larder::Ingredient& of, const std::vector<exchange::WrittenLot>& lots,
             const std::map<std::string, base::RevisionId>& kept = {}) {
    for (const exchange::WrittenLot& written : lots) {
        larder::Lot lot = written.lot;
        lot.id = base::LotId::random();
        lot.ingredient = of.id;
        if (!written.revision.empty()) {
            if (kept.count(written.revision) == 0)
                fail(fmt::format("{}: there is no revision {} to make a lot of", of.name, written.revision));
            lot.madeFrom = kept.at(written.revision);
        }
        if (written.inUse) of.lotInUse = lot.id;
        workbook.saveLot(lot);
    }
}

// What is said beside the facts goes over what is known; what is not said stays.
void putTerms(larder::Ingredient& over, const exchange::WrittenIngredient& entry,
              const larder::Larder& larder) {
    const larder::Ingredient& said = entry.ingredient;
    if (!said.maker.empty()) over.maker = said.maker;
    if (said.usableShare != quantity::Rational(1)) over.usableShare = said.usableShare;
    if (said.stock != larder::Stock{}) over.stock = said.stock;
    if (said.keepDays) over.keepDays = said.keepDays;
    if (!said.gotFrom) return;
    over.gotFrom = said.gotFrom;
    over.gotFrom->of = knownAs(larder, entry.gotFromName, said.name);
}

void putBottle(Workbook& workbook, const exchange::WrittenIngredient& entry) {
    const larder::Larder larder = workbook.larder();
    larder::Ingredient bottle = entry.ingredient;
    bottle.id = base::IngredientId::random();
    putTerms(bottle, entry, larder);
    putLots(workbook, bottle, entry.lots);
    larder::Ingredient kind = *larder.find(knownAs(larder, entry.kindName, bottle.name));
    bottle.kind = kind.id;
    if (!entry.wholeState) bottle.facts = withKindsCharacter(bottle.facts, kind.facts);
    workbook.saveIngredient(bottle);
    kind.houseBottle = bottle.id;
    workbook.saveIngredient(kind);
}

// A kind that states no figure only adds its prices and by-names to the one that is known.
void putKind(Workbook& workbook, const exchange::WrittenIngredient& entry) {
    const larder::Larder larder = workbook.larder();
    const larder::NameMatch match = larder.match(entry.ingredient.name);
    const larder::Ingredient* known =
        match.quality == larder::MatchQuality::Exact ? larder.find(match.ingredient) : nullptr;
    const bool saysMore = entry.statesFacts || !entry.ingredient.packs.empty();
    if (!known && !saysMore)
        fail(fmt::format("{}: not known, and nothing is said about it", entry.ingredient.name));
    larder::Ingredient kind = known ? *known : entry.ingredient;
    if (known) {
        if (entry.wholeState)
            kind.facts = entry.ingredient.facts;
        else if (entry.statesFacts)
            kind.facts = withKindsCharacter(entry.ingredient.facts, known->facts);
        for (const std::string& alias : entry.ingredient.aliases)
            kind.aliases.push_back(alias);
        for (const larder::Pack& pack : entry.ingredient.packs)
            kind.packs.push_back(pack);
    } else {
        kind.id = base::IngredientId::random();
    }
    putTerms(kind, entry, larder);
    putLots(workbook, kind, entry.lots);
    workbook.saveIngredient(kind);
}

// A script has nobody to ask: what a person would be asked about is an error here.
void refuseDoubtful(const std::vector<ReadLine>& lines, const std::string& where) {
    for (const ReadLine& line : lines)
        if (line.unsure || line.kind == ReadKind::Refused || line.kind == ReadKind::Unread ||
            line.kind == ReadKind::Fused)
            fail(fmt::format("{}: \"{}\" cannot be read without asking", where, line.raw));
}

// "Stir until clear" is over ice in a drink and never in a syrup, unless it says so.
void leaveOutUnsaidIce(spec::Method& method) {
    if (method.technique == spec::Technique::None || method.dilution || !method.ice.empty()) return;
    for (const std::string& word : base::foldedWords(method.text))
        if (word.rfind("ice", 0) == 0) return;
    method.dilution = spec::DilutionEntry{0, spec::DilutionOrigin::Typed, "made without ice"};
}

spec::Spec specFrom(const exchange::ScriptedRevision& revision, const std::string& name,
                    const std::string& where, const larder::Larder& larder, const std::string& region) {
    exchange::ReadOptions options;
    options.region = region;
    options.larder = &larder;
    const exchange::ReadResult read = exchange::readText(name + "\n\n" + revision.text, options);
    if (read.drinks.size() != 1) fail(where + ": no drink could be read");
    refuseDoubtful(read.drinks.front().lines, where);
    spec::Spec spec = exchange::toSpec(read.drinks.front(), larder);
    if (spec.lines.empty()) fail(where + ": no lines could be read");
    if (revision.partMl) spec.partTargetMl = revision.partMl;
    if (revision.dilution) spec.method.dilution = revision.dilution;
    spec.steps = revision.steps;
    for (std::size_t i = 0; i < std::min(revision.beforeStep.size(), spec.lines.size()); ++i)
        spec.lines[i].beforeStep = revision.beforeStep[i];
    return spec;
}

class DrinkImport {
  public:
    DrinkImport(Workbook& workbook, BookClock& clock, const std::map<std::string, base::PersonId>& people,
                const exchange::ScriptedDrink& script)
        : m_workbook(workbook),
          m_clock(clock),
          m_people(people),
          m_script(script),
          m_drink(script.drink) {
        m_drink.id = base::DrinkId::random();
    }

    void run() {
        const larder::Larder larder = m_workbook.larder();
        const std::string region = m_workbook.settings().region;
        for (std::size_t i = 0; i < m_script.revisions.size(); ++i) {
            const exchange::ScriptedRevision& revision = m_script.revisions[i];
            const std::string where = fmt::format("{}, revision {}", m_drink.name, i + 1);
            m_clock.set(revision.when);
            const std::string basedOn = !revision.basedOn.empty() ? revision.basedOn
                                        : i > 0                   ? std::to_string(i)
                                                                  : std::string();
            spec::Spec spec = specFrom(revision, m_drink.name, where, larder, region);
            if (m_drink.form == history::DrinkForm::Preparation) leaveOutUnsaidIce(spec.method);
            const base::DraftId draft = draftWith(spec, basedOn);
            if (!revision.reason.empty()) keep(draft, revision, std::to_string(i + 1), where);
        }
        if (m_script.larder) putInLarder(*m_script.larder);
    }

  private:
    void putInLarder(const exchange::WrittenIngredient& entry) {
        const larder::Larder larder = m_workbook.larder();
        for (const larder::Ingredient* made : larder.all()) {
            if (made->madeBy != m_drink.id) continue;
            larder::Ingredient said = *made;
            putTerms(said, entry, larder);
            for (const std::string& alias : entry.ingredient.aliases)
                said.aliases.push_back(alias);
            for (const larder::Pack& pack : entry.ingredient.packs)
                said.packs.push_back(pack);
            putLots(m_workbook, said, entry.lots, m_kept);
            m_workbook.saveIngredient(said);
            return;
        }
    }

    // The draft that stands on that revision carries on; where none does, a branch begins.
    base::DraftId draftWith(const spec::Spec& spec, const std::string& basedOn) {
        if (m_standsOn.empty()) {
            const base::DraftId draft = m_workbook.addDrink(m_drink, spec).id;
            m_standsOn[draft] = "";
            return draft;
        }
        for (const auto& [draft, number] : m_standsOn)
            if (number == basedOn) {
                m_workbook.saveDraft(draft, spec);
                return draft;
            }
        const base::DraftId branch = m_workbook.branch(m_kept.at(basedOn)).id;
        m_workbook.saveDraft(branch, spec);
        m_standsOn[branch] = basedOn;
        return branch;
    }

    void keep(base::DraftId draft, const exchange::ScriptedRevision& script, const std::string& number,
              const std::string& where) {
        const auto revision = m_workbook.keep(draft, script.reason);
        if (!revision) fail(where + ": nothing changed since the one before");
        m_standsOn[draft] = number;
        m_kept[number] = revision->id;
        if (script.house) {
            m_drink.house = revision->id;
            m_workbook.saveDrink(m_drink);
        }
        for (const exchange::ScriptedTasting& tasted : script.tastings) {
            tasting::Tasting tasting;
            tasting.revision = revision->id;
            tasting.taster = m_people.at(tasted.initials);
            tasting.when = tasted.when;
            tasting.scores = tasting::Scores::ofFirst(tasted.scores);
            tasting.note = tasted.note;
            tasting.verdict = tasted.verdict;
            tasting.tryNext = tasted.tryNext;
            m_clock.set(tasted.when);
            m_workbook.addTasting(tasting);
        }
    }

    Workbook& m_workbook;
    BookClock& m_clock;
    const std::map<std::string, base::PersonId>& m_people;
    const exchange::ScriptedDrink& m_script;
    history::Drink m_drink;
    std::map<base::DraftId, std::string> m_standsOn; // the number of the revision a draft stands on
    std::map<std::string, base::RevisionId> m_kept;
};

std::map<std::string, base::PersonId> putPeople(Workbook& workbook,
                                                const std::vector<tasting::Person>& people) {
    std::map<std::string, base::PersonId> byInitials;
    for (const tasting::Person& known : workbook.people())
        byInitials[known.initials] = known.id;
    for (const tasting::Person& person : people)
        if (byInitials.count(person.initials) == 0)
            byInitials[person.initials] = workbook.addPerson(person.name, person.initials);
    return byInitials;
}

} // namespace

void importBook(Workbook& workbook, BookClock& clock, const exchange::ScriptedBook& book) {
    if (!book.drinks.empty()) clock.set(book.drinks.front().revisions.front().when);
    const std::map<std::string, base::PersonId> people = putPeople(workbook, book.people);
    if (!book.rates.empty()) {
        BookSettings settings = workbook.settings();
        settings.rules.rates.insert(settings.rules.rates.end(), book.rates.begin(), book.rates.end());
        workbook.saveSettings(settings);
    }
    for (const exchange::WrittenIngredient& entry : book.ingredients)
        entry.ingredient.sort == larder::IngredientSort::Bottle ? putBottle(workbook, entry)
                                                                : putKind(workbook, entry);
    for (const exchange::ScriptedDrink& drink : book.drinks)
        DrinkImport(workbook, clock, people, drink).run();
    clock.release();
}

} // namespace stillroom::store
