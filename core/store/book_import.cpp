#include "core/store/book_import.h"

#include "core/base/text.h"
#include "core/exchange/read_text.h"
#include "core/store/book_restore.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
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

// A whole spec of another book: what its ids mean here, by the names they had there.
class IdMap {
  public:
    explicit IdMap(const std::map<std::string, std::string>& names) : m_names(names) {}

    std::string translated(std::string text, const larder::Larder& larder) const {
        for (const auto& [id, name] : m_names) {
            const larder::NameMatch match = larder.match(name);
            if (match.quality != larder::MatchQuality::Exact &&
                match.quality != larder::MatchQuality::Remembered)
                continue;
            const std::string now = match.ingredient.text();
            for (std::size_t at = text.find(id); at != std::string::npos; at = text.find(id, at + now.size()))
                text.replace(at, id.size(), now);
        }
        return text;
    }

    // A line whose ingredient is not here is taken for what its name says, or for nothing.
    spec::Spec spec(const std::string& json, const larder::Larder& larder, const std::string& where) const {
        auto read = spec::Spec::fromCanonicalJson(translated(json, larder));
        if (!read) fail(where + ": its spec cannot be read");
        for (spec::Line& line : read->lines) {
            if (!line.ingredient || larder.find(*line.ingredient)) continue;
            const larder::NameMatch match = larder.match(line.name);
            line.ingredient =
                match.quality == larder::MatchQuality::Exact ? std::optional(match.ingredient) : std::nullopt;
        }
        return *std::move(read);
    }

  private:
    const std::map<std::string, std::string>& m_names;
};

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
                const exchange::ScriptedBook& book, const exchange::ScriptedDrink& script)
        : m_workbook(workbook),
          m_clock(clock),
          m_people(people),
          m_book(book),
          m_ids(book.names),
          m_script(script),
          m_drink(script.drink) {
        m_drink.id = base::DrinkId::random();
        m_drink.binned = false; // when it stands whole
    }

    const std::map<std::string, base::RevisionId>& kept() const { return m_kept; }
    const history::Drink& drink() const { return m_drink; }

    void run() {
        const larder::Larder larder = m_workbook.larder();
        const std::string region = m_workbook.settings().region;
        for (std::size_t i = 0; i < m_script.revisions.size(); ++i) {
            const exchange::ScriptedRevision& revision = m_script.revisions[i];
            const std::string where = fmt::format("{}, revision {}", m_drink.name, i + 1);
            m_clock.set(revision.when);
            const std::string basedOn = !revision.basedOn.empty() ? revision.basedOn
                                        : i > 0                   ? std::to_string(i)
                                                                  : "0";
            spec::Spec spec = revision.specJson.empty()
                                  ? specFrom(revision, m_drink.name, where, larder, region)
                                  : m_ids.spec(revision.specJson, larder, where);
            if (revision.specJson.empty() && m_drink.form == history::DrinkForm::Preparation)
                leaveOutUnsaidIce(spec.method);
            const base::DraftId draft = draftWith(spec, basedOn);
            if (!revision.reason.empty()) keep(draft, revision, std::to_string(i + 1), where);
        }
        putTries(larder);
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

    // Where tries are told, they are all the drafts there are: those left over from the way here go on as
    // one of them, or go.
    void putTries(const larder::Larder& larder) {
        if (m_script.tries.empty()) return;
        auto left = m_standsOn;
        for (const exchange::ScriptedTry& one : m_script.tries) {
            m_clock.set(one.when);
            const spec::Spec spec = m_ids.spec(one.specJson, larder, m_drink.name + ", a try");
            const std::string basedOn = one.basedOn.empty() ? "0" : one.basedOn;
            const auto found = std::find_if(left.begin(), left.end(),
                                            [&](const auto& entry) { return entry.second == basedOn; });
            base::DraftId draft;
            if (found != left.end()) {
                draft = found->first;
                left.erase(found);
                m_workbook.saveDraft(draft, spec);
                m_workbook.renameDraft(draft, one.name);
            } else if (m_standsOn.empty()) {
                draft = m_workbook.addDrink(m_drink, spec).id;
                m_workbook.renameDraft(draft, one.name);
            } else {
                const auto base = one.basedOn.empty() ? std::nullopt : std::optional(m_kept.at(one.basedOn));
                draft = m_workbook.addDraft(m_drink.id, base, spec, one.name).id;
            }
            m_standsOn[draft] = basedOn;
            if (one.setAside) m_workbook.setDraftAside(draft, true);
        }
        for (const auto& entry : left)
            m_workbook.binDraft(entry.first, true);
    }

    void putPhotos(const store::PhotoOf& of, const std::vector<exchange::ScriptedPhoto>& photos,
                   const std::string& where) {
        for (const exchange::ScriptedPhoto& photo : photos) {
            const auto bytes = m_book.photos.find(photo.hash);
            if (bytes == m_book.photos.end()) fail(where + ": the bytes of a photo are missing");
            const auto attached = m_workbook.attachPhoto(of, bytes->second, photo.caption);
            if (!attached)
                fail(fmt::format("{}: a photo is refused: {}", where, tasting::inWords(attached.error())));
        }
    }

    // The draft that stands on that revision carries on; where none does, a branch begins.
    base::DraftId draftWith(const spec::Spec& spec, const std::string& basedOn) {
        if (m_standsOn.empty()) {
            const base::DraftId draft = m_workbook.addDrink(m_drink, spec).id;
            m_standsOn[draft] = "0";
            return draft;
        }
        if (basedOn == "0") {
            const base::DraftId other = m_workbook.addDraft(m_drink.id, std::nullopt, spec, {}).id;
            m_standsOn[other] = "0";
            return other;
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
        // What differed there may have been facts alone; here the two are one.
        const auto before = m_kept.find(m_standsOn[draft]);
        if (!revision && (script.specJson.empty() || before == m_kept.end()))
            fail(where + ": nothing changed since the one before");
        const base::RevisionId id = revision ? revision->id : before->second;
        m_standsOn[draft] = number;
        m_kept[number] = id;
        if (script.house) m_drink.house = id;
        if (script.published) m_drink.published = id;
        if (script.house || script.published) m_workbook.saveDrink(m_drink);
        if (script.setAside) m_workbook.setRevisionAside(id, true, *script.setAside);
        putPhotos(id, script.photos, where);
        std::vector<base::TastingId> told;
        for (const exchange::ScriptedTasting& tasted : script.tastings) {
            tasting::Tasting tasting;
            tasting.revision = id;
            tasting.taster = m_people.at(tasted.initials);
            tasting.when = tasted.when;
            tasting.scores = tasted.scores;
            tasting.circumstances = tasted.circumstances;
            if (tasted.amends > 0) tasting.amends = told.at(static_cast<std::size_t>(tasted.amends - 1));
            tasting.note = tasted.note;
            tasting.verdict = tasted.verdict;
            tasting.tryNext = tasted.tryNext;
            m_clock.set(tasted.when);
            told.push_back(m_workbook.addTasting(tasting).id);
            putPhotos(told.back(), tasted.photos, where);
        }
    }

    Workbook& m_workbook;
    BookClock& m_clock;
    const std::map<std::string, base::PersonId>& m_people;
    const exchange::ScriptedBook& m_book;
    IdMap m_ids;
    const exchange::ScriptedDrink& m_script;
    history::Drink m_drink;
    std::map<base::DraftId, std::string>
        m_standsOn; // the number of the revision a draft stands on; "0": none
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

// What drinks came to, by their names: the first of a name is meant.
using Drinks = std::map<std::string, std::pair<history::Drink, std::map<std::string, base::RevisionId>>>;

void putLineage(Workbook& workbook, const exchange::ScriptedDrink& script, const Drinks& drinks) {
    const auto& [drink, kept] = drinks.at(script.drink.name);
    history::Drink whole = drink;
    whole.binned = script.drink.binned;
    if (!script.afterDrink.empty()) {
        const auto after = drinks.find(script.afterDrink);
        if (after == drinks.end())
            fail(fmt::format("{}: comes after \"{}\", which is not there", script.drink.name,
                             script.afterDrink));
        whole.after.drink = after->second.first.id;
        if (!script.afterRevision.empty()) {
            const auto revision = after->second.second.find(script.afterRevision);
            if (revision == after->second.second.end())
                fail(fmt::format("{}: comes after a revision that is not there", script.drink.name));
            whole.after.revision = revision->second;
        }
    }
    if (!(whole == drink)) workbook.saveDrink(whole);
}

void putPanel(Workbook& workbook, BookClock& clock, const exchange::ScriptedPanel& script,
              const Drinks& drinks, const std::map<std::string, base::PersonId>& people) {
    const std::string where = fmt::format("panel {}", script.name);
    clock.set(script.when);
    tasting::Panel dealt = script.panel;
    for (std::size_t i = 0; i < script.products.size(); ++i) {
        const auto drink = drinks.find(script.products[i].drink);
        const auto revision = drink == drinks.end()
                                  ? std::map<std::string, base::RevisionId>::const_iterator{}
                                  : drink->second.second.find(script.products[i].revision);
        if (drink == drinks.end() || revision == drink->second.second.end())
            fail(fmt::format("{}: there is no {} {}", where, script.products[i].drink,
                             script.products[i].revision));
        dealt.design.products[i] = revision->second;
    }
    for (std::size_t i = 0; i < script.tasters.size(); ++i)
        dealt.design.tasters[i] = people.at(script.tasters[i]);
    const auto answers = dealt.answers;
    const auto state = dealt.state;
    dealt.state = tasting::PanelState::Designed;
    for (tasting::Answer& answer : dealt.answers)
        answer = {};
    const auto refuse = [&](tasting::PanelError error) {
        fail(fmt::format("{}: {}", where, tasting::panelErrorId(error)));
    };
    const auto id = workbook.addPanel(script.name, dealt);
    if (!id) refuse(id.error());
    if (state != tasting::PanelState::Designed) {
        if (const auto poured = workbook.startPouring(*id); !poured) refuse(poured.error());
        for (std::size_t i = 0; i < answers.size(); ++i)
            if (!answers[i].isEmpty())
                if (const auto added = workbook.addAnswer(*id, dealt.design.tasters[i], answers[i]); !added)
                    refuse(added.error());
        if (state == tasting::PanelState::Closed)
            if (const auto closed = workbook.closePanel(*id); !closed) refuse(closed.error());
    }
    if (script.binned) workbook.binPanel(*id, true);
}

void putSettings(Workbook& workbook, const exchange::ScriptedBook& book) {
    BookSettings settings = workbook.settings();
    settings.rules.rates.insert(settings.rules.rates.end(), book.rates.begin(), book.rates.end());
    if (book.scales) settings.scales = *book.scales;
    if (book.measures) settings.rules.measures = *book.measures;
    settings.rules.standardDrinkGrams = book.standardDrinkG.value_or(settings.rules.standardDrinkGrams);
    settings.scaleStepG = book.scaleStepG.value_or(settings.scaleStepG);
    workbook.saveSettings(settings);
}

} // namespace

namespace {

// A draft may have closed one that is nowhere kept.
void refuseCircles(const Workbook& workbook) {
    const auto circles = workbook.circles();
    if (circles.empty()) return;
    throw StoreError(StoreErrorKind::Circle, 0, workbook.path(),
                     preparation::pathOf(circles.front(), workbook.preparations(), workbook.larder()));
}

// Of a whole spec: what another book's id is called there.
std::string nameIn(const exchange::ScriptedBook& book, const spec::Line& line) {
    const auto named = line.ingredient ? book.names.find(line.ingredient->text()) : book.names.end();
    return named != book.names.end() ? named->second : line.name;
}

// As Workbook::preparations has it: the house's, else the last one, else the first draft.
std::string specInUse(const exchange::ScriptedDrink& drink) {
    for (const exchange::ScriptedRevision& revision : drink.revisions)
        if (revision.house) return revision.specJson;
    if (!drink.revisions.empty()) return drink.revisions.back().specJson;
    return drink.tries.empty() ? std::string() : drink.tries.front().specJson;
}

// Preparations are put one after the other, and one that is not there yet is named by nobody: a circle would
// not be met but its link lost. So it is looked for in the file, by the names in it.
void refuseCircles(const exchange::ScriptedBook& book, const std::string& path) {
    larder::Larder larder = larder::Larder::withoutHandbook();
    preparation::Specs specs;
    const auto idOf = [](const std::string& name) {
        return base::IngredientId::derivedFrom("import " + base::fold(name));
    };
    for (const exchange::ScriptedDrink& drink : book.drinks) {
        if (drink.drink.form != history::DrinkForm::Preparation) continue;
        auto spec = spec::Spec::fromCanonicalJson(specInUse(drink));
        if (!spec) continue;
        for (spec::Line& line : spec->lines)
            line.ingredient = idOf(nameIn(book, line));
        larder::Ingredient made;
        made.id = idOf(drink.drink.name);
        made.name = drink.drink.name;
        larder.put(made);
        specs[made.id] = *std::move(spec);
    }
    const auto order = preparation::makingOrder(specs, larder);
    if (!order)
        throw StoreError(StoreErrorKind::Circle, 0, path, preparation::pathOf(order.error(), specs, larder));
}

} // namespace

void importBook(Workbook& workbook, BookClock& clock, const exchange::ScriptedBook& book) {
    refuseCircles(book, workbook.path());
    putSettings(workbook, book);
    if (book.hasIds) {
        restore(workbook, recordFrom(book));
        return;
    }
    if (!book.drinks.empty()) clock.set(book.drinks.front().drink.created);
    const std::map<std::string, base::PersonId> people = putPeople(workbook, book.people);
    for (const exchange::WrittenIngredient& entry : book.ingredients)
        entry.ingredient.sort == larder::IngredientSort::Bottle ? putBottle(workbook, entry)
                                                                : putKind(workbook, entry);
    Drinks drinks;
    for (const exchange::ScriptedDrink& drink : book.drinks) {
        DrinkImport putting(workbook, clock, people, book, drink);
        putting.run();
        drinks.emplace(drink.drink.name, std::pair{putting.drink(), putting.kept()});
    }
    for (const exchange::ScriptedDrink& drink : book.drinks)
        putLineage(workbook, drink, drinks);
    refuseCircles(workbook);
    for (const exchange::ScriptedPanel& panel : book.panels)
        putPanel(workbook, clock, panel, drinks, people);
    const larder::Larder larder = workbook.larder();
    for (const exchange::ScriptedSearch& search : book.searches) {
        const auto request =
            SearchRequest::fromCanonicalJson(IdMap(book.names).translated(search.request, larder));
        if (!request) fail(fmt::format("search {}: cannot be read", search.name));
        workbook.saveSearch({{}, search.name, *request});
    }
    for (const std::string& gone : book.removed)
        workbook.removePerson(people.at(gone));
    clock.release();
}

void createBook(const std::string& path, const exchange::ScriptedBook& book,
                const std::function<void(Workbook&, BookClock&)>& more) {
    BookClock clock;
    BookSettings settings;
    settings.name = book.name;
    settings.zone = book.zone;
    settings.region = book.region;
    if (const auto currency = quantity::Currency::fromCode(book.currency))
        settings.rules.currency = *currency;
    auto workbook = Workbook::create(path, settings, clock);
    try {
        importBook(*workbook, clock, book);
        if (more) more(*workbook, clock);
        while (workbook->search({}, 0).unread > 0) // so that it can be searched where it cannot be written
            continue;
        workbook->flush();
    } catch (...) {
        workbook.reset();
        for (const char* suffix : {"", "-wal", "-shm", "-journal"})
            std::remove((path + suffix).c_str());
        throw;
    }
}

} // namespace stillroom::store
