#include "core/store/book_export.h"

#include "core/base/hash.h"
#include "core/base/text.h"
#include "core/larder/handbook.h"
#include "core/store/book_record.h"

#include <algorithm>
#include <set>

namespace stillroom::store {

namespace {

using exchange::ScriptedBook;
using exchange::ScriptedDrink;
using exchange::ScriptedPhoto;

// By what they belong to, each group in the order of the whole.
template <class Key, class Value, class KeyOf>
std::map<Key, std::vector<const Value*>> grouped(const std::vector<Value>& all, KeyOf keyOf) {
    std::map<Key, std::vector<const Value*>> groups;
    for (const Value& each : all)
        groups[keyOf(each)].push_back(&each);
    return groups;
}

template <class Groups, class Key>
const typename Groups::mapped_type& groupOf(const Groups& groups, const Key& key) {
    static const typename Groups::mapped_type none;
    const auto found = groups.find(key);
    return found == groups.end() ? none : found->second;
}

class Export {
  public:
    explicit Export(const Workbook& book)
        : m_book(book),
          m_larder(book.larder()),
          m_record(recordOf(book)),
          m_revisions(grouped<base::DrinkId>(m_record.revisions, [](const auto& r) { return r.drink; })),
          m_drafts(grouped<base::DrinkId>(m_record.drafts, [](const auto& d) { return d.drink; })),
          m_tastings(grouped<base::RevisionId>(m_record.tastings, [](const auto& t) { return t.revision; })),
          m_aside(grouped<base::RevisionId>(m_record.aside, [](const auto& a) { return a.revision; })),
          m_photos(grouped<PhotoOf>(m_record.photos, [](const auto& p) { return p.of; })),
          m_lots(grouped<base::IngredientId>(m_record.lots, [](const auto& l) { return l.ingredient; })) {}

    ScriptedBook run() {
        putSettings();
        putPeople();
        putIngredients();
        putDrinks();
        for (const BookRecord::Panel& panel : m_record.panels)
            putPanel(panel);
        for (const SavedSearch& search : m_record.searches)
            m_out.searches.push_back({search.name, search.request.canonicalJson(), search.id});
        m_out.photos = std::move(m_record.photoBytes);
        return std::move(m_out);
    }

  private:
    void putSettings() {
        const BookSettings settings = m_book.settings();
        const BookSettings usual;
        m_out.hasIds = true;
        m_out.name = settings.name;
        m_out.currency = std::string(settings.rules.currency.text());
        m_out.zone = settings.zone;
        m_out.region = settings.region;
        m_out.rates = settings.rules.rates;
        if (!(settings.scales == usual.scales)) m_out.scales = settings.scales;
        if (!(settings.rules.measures == usual.rules.measures)) m_out.measures = settings.rules.measures;
        if (settings.rules.standardDrinkGrams != usual.rules.standardDrinkGrams)
            m_out.standardDrinkG = settings.rules.standardDrinkGrams;
        if (settings.scaleStepG != usual.scaleStepG) m_out.scaleStepG = settings.scaleStepG;
    }

    // Initials are who signs: made different where two share them, and made up where a name was removed.
    void putPeople() {
        std::set<std::string> taken;
        for (const tasting::Person& person : m_record.people) {
            const bool gone = person.initials.empty() && person.name.empty();
            tasting::Person written = person;
            const std::string stem = gone                                     ? "removed"
                                     : base::trimmed(person.initials).empty() ? person.name
                                                                              : person.initials;
            written.initials = base::trimmed(stem).empty() ? "unnamed" : stem;
            const std::string first = written.initials;
            for (int number = 2; !taken.insert(written.initials).second; ++number)
                written.initials = first + " " + std::to_string(number);
            if (gone) m_out.removed.push_back(written.initials);
            if (written.initials != person.initials) m_out.ownInitials[written.initials] = person.initials;
            m_initials[person.id] = written.initials;
            m_out.people.push_back(std::move(written));
        }
    }

    std::string nameOf(base::IngredientId id) const {
        const larder::Ingredient* found = m_larder.find(id);
        return found ? found->name : std::string();
    }

    std::vector<exchange::WrittenLot> lotsOf(const larder::Ingredient& of) const {
        std::vector<exchange::WrittenLot> lots;
        for (const larder::Lot* lot : groupOf(m_lots, of.id)) {
            exchange::WrittenLot written;
            written.lot = *lot;
            written.inUse = of.lotInUse == lot->id;
            lots.push_back(std::move(written));
        }
        return lots;
    }

    void putIngredients() {
        std::map<base::IngredientId, std::vector<exchange::WrittenPack>> paid;
        for (const BookRecord::Pack& pack : m_record.packs)
            paid[pack.of].push_back({pack.pack, pack.place, pack.addedMs, pack.droppedMs});
        for (const BookRecord::Binnable& each : m_record.ingredients) {
            exchange::WrittenIngredient entry;
            entry.ingredient = each.ingredient;
            entry.binned = each.binned;
            entry.statesFacts = entry.wholeState = true;
            if (each.ingredient.kind) entry.kindName = nameOf(*each.ingredient.kind);
            if (each.ingredient.gotFrom) entry.gotFromName = nameOf(each.ingredient.gotFrom->of);
            entry.paid = paid[each.ingredient.id];
            entry.lots = lotsOf(each.ingredient);
            m_out.names[each.ingredient.id.text()] = each.ingredient.name;
            m_out.ingredients.push_back(std::move(entry));
        }
        putLotsOfHandbook();
        m_out.states = m_record.states;
        m_out.remembered = m_record.remembered;
    }

    // A lot may be of a kind that the book itself says nothing of: the kind as it stands goes with it.
    void putLotsOfHandbook() {
        std::set<base::IngredientId> written;
        for (const BookRecord::Binnable& each : m_record.ingredients)
            written.insert(each.ingredient.id);
        for (const larder::Lot& lot : m_record.lots) {
            const larder::Ingredient* kind = m_larder.find(lot.ingredient);
            if (!kind || !written.insert(lot.ingredient).second) continue;
            exchange::WrittenIngredient entry;
            entry.ingredient = *kind;
            entry.ingredient.packs.clear();
            entry.statesFacts = entry.wholeState = true;
            entry.lots = lotsOf(*kind);
            m_out.ingredients.push_back(std::move(entry));
        }
    }

    std::vector<ScriptedPhoto> photosOf(const PhotoOf& of) const {
        std::vector<ScriptedPhoto> photos;
        for (const AttachedPhoto* photo : groupOf(m_photos, of))
            if (m_record.photoBytes.count(photo->info.hash) > 0)
                photos.push_back({photo->info.hash, photo->caption, photo->id, photo->when, photo->hidden});
        return photos;
    }

    std::vector<exchange::ScriptedTasting> tastingsOf(base::RevisionId revision) const {
        std::vector<exchange::ScriptedTasting> written;
        std::map<base::TastingId, int> places;
        for (const tasting::Tasting* said : groupOf(m_tastings, revision)) {
            const tasting::Tasting& tasting = *said;
            exchange::ScriptedTasting one;
            one.id = tasting.id;
            one.initials = m_initials.at(tasting.taster);
            one.when = tasting.when;
            one.scores = tasting.scores;
            one.circumstances = tasting.circumstances;
            one.note = tasting.note;
            one.verdict = tasting.verdict;
            one.tryNext = tasting.tryNext;
            if (tasting.amends) one.amends = places[*tasting.amends];
            one.photos = photosOf(tasting.id);
            written.push_back(std::move(one));
            places[tasting.id] = static_cast<int>(written.size());
        }
        return written;
    }

    std::string numberOf(const std::optional<base::RevisionId>& revision) const {
        if (!revision) return {};
        const auto found = m_numbers.find(*revision);
        return found == m_numbers.end() ? std::string() : found->second;
    }

    void putRevisions(ScriptedDrink& script) {
        for (const history::Revision* kept : groupOf(m_revisions, script.drink.id)) {
            const history::Revision& revision = *kept;
            exchange::ScriptedRevision written;
            written.specJson = revision.spec.canonicalJson();
            written.reason = revision.reason;
            written.when = revision.kept;
            written.basedOn = revision.parent ? numberOf(revision.parent) : "0";
            m_numbers[revision.id] = std::to_string(script.revisions.size() + 1);
            m_drinkOf[revision.id] = script.drink.name;
            written.house = script.drink.house == revision.id;
            written.published = script.drink.published == revision.id;
            for (const SetAside* aside : groupOf(m_aside, revision.id)) {
                written.setAside = aside->why;
                written.setAsideOn = aside->when;
            }
            const std::string measures = revision.measures.toJsonText();
            written.kept =
                exchange::KeptWith{revision.id,          revision.number,
                                   revision.facts,       base::sha256Hex(measures),
                                   revision.currency,    history::readingsToJson(revision.readings),
                                   revision.calcVersion, revision.hash};
            if (m_measures.insert(written.kept->measures).second)
                m_out.keptMeasures.push_back(revision.measures);
            written.tastings = tastingsOf(revision.id);
            written.photos = photosOf(revision.id);
            script.revisions.push_back(std::move(written));
        }
    }

    void putTries(ScriptedDrink& script) {
        for (const history::Draft* stored : groupOf(m_drafts, script.drink.id)) {
            const history::Draft& draft = *stored;
            exchange::ScriptedTry one;
            one.id = draft.id;
            one.version = draft.version;
            one.name = draft.name;
            one.basedOn = numberOf(draft.basedOn);
            one.specJson = draft.spec.canonicalJson();
            one.when = draft.saved;
            one.setAside = draft.setAside;
            one.binned = draft.binned;
            script.tries.push_back(std::move(one));
        }
    }

    void putDrinks() {
        std::stable_sort(m_record.drinks.begin(), m_record.drinks.end(),
                         [](const history::Drink& a, const history::Drink& b) {
                             if (a.form != b.form) return a.form == history::DrinkForm::Preparation;
                             return a.created < b.created;
                         });
        // Drinks are told apart by name, here and where one comes after another.
        std::set<std::string> taken;
        for (const history::Drink& drink : m_record.drinks) {
            const std::string stem = base::trimmed(drink.name).empty() ? "Unnamed" : drink.name;
            ScriptedDrink script;
            script.drink = drink;
            script.drink.name = stem;
            for (int number = 2; !taken.insert(script.drink.name).second; ++number)
                script.drink.name = stem + " " + std::to_string(number);
            if (script.drink.name != drink.name) script.ownName = drink.name;
            m_names[drink.id] = script.drink.name;
            putRevisions(script);
            putTries(script);
            m_out.drinks.push_back(std::move(script));
        }
        for (ScriptedDrink& script : m_out.drinks) {
            auto& drink = script.drink;
            if (drink.after.drink) script.afterDrink = m_names.at(*drink.after.drink);
            script.afterRevision = numberOf(drink.after.revision);
            drink.after.drink.reset();
            drink.after.revision.reset();
            drink.house.reset();
            drink.published.reset();
        }
    }

    void putPanel(const BookRecord::Panel& panel) {
        exchange::ScriptedPanel written;
        written.id = panel.id;
        written.name = panel.name;
        written.when = panel.created;
        written.binned = panel.binned;
        written.poured = panel.poured;
        written.closed = panel.closed;
        written.panel = m_book.panel(panel.id).value();
        for (const base::RevisionId& product : panel.plan.design.products)
            written.products.push_back({m_drinkOf[product], m_numbers[product]});
        for (const base::PersonId& taster : panel.plan.design.tasters)
            written.tasters.push_back(m_initials.at(taster));
        for (const BookRecord::Said& said : panel.said)
            written.said.push_back({said.id, m_initials.at(said.taster), said.when, said.answer});
        m_out.panels.push_back(std::move(written));
    }

    const Workbook& m_book;
    larder::Larder m_larder;
    BookRecord m_record;
    std::map<base::DrinkId, std::vector<const history::Revision*>> m_revisions;
    std::map<base::DrinkId, std::vector<const history::Draft*>> m_drafts;
    std::map<base::RevisionId, std::vector<const tasting::Tasting*>> m_tastings;
    std::map<base::RevisionId, std::vector<const SetAside*>> m_aside;
    std::map<PhotoOf, std::vector<const AttachedPhoto*>> m_photos;
    std::map<base::IngredientId, std::vector<const larder::Lot*>> m_lots;
    ScriptedBook m_out;
    std::set<std::string> m_measures; // hashes of those that are written
    std::map<base::PersonId, std::string> m_initials;
    std::map<base::RevisionId, std::string> m_numbers; // places in their drinks' lists
    std::map<base::RevisionId, std::string> m_drinkOf;
    std::map<base::DrinkId, std::string> m_names;
};

} // namespace

exchange::ScriptedBook exportBook(const Workbook& book) {
    return Export(book).run();
}

} // namespace stillroom::store
