#include "core/store/book_export.h"

#include "core/base/text.h"
#include "core/larder/handbook.h"

#include <algorithm>
#include <set>

namespace stillroom::store {

namespace {

using exchange::ScriptedBook;
using exchange::ScriptedDrink;
using exchange::ScriptedPhoto;

class Export {
  public:
    explicit Export(const Workbook& book) : m_book(book), m_larder(book.larder()) {}

    ScriptedBook run() {
        const BookSettings settings = m_book.settings();
        m_out.name = settings.name.empty() ? "Untitled" : settings.name;
        m_out.currency = std::string(settings.rules.currency.text());
        m_out.zone = settings.zone;
        m_out.region = settings.region;
        m_out.rates = settings.rules.rates;
        if (!(settings.scales == tasting::ScaleSet::defaults())) m_out.scales = settings.scales;
        putPeople();
        putIngredients();
        putDrinks();
        putPanels();
        for (const SavedSearch& search : m_book.savedSearches())
            m_out.searches.push_back({search.name, search.request.canonicalJson()});
        return std::move(m_out);
    }

  private:
    // Initials are who signs: made different where two share them, and made up where a name was removed.
    void putPeople() {
        std::set<std::string> taken;
        for (const tasting::Person& person : m_book.people()) {
            const bool gone = person.initials.empty() && person.name.empty();
            tasting::Person written = person;
            written.id = {};
            const std::string stem = gone                      ? "removed"
                                     : person.initials.empty() ? person.name
                                                               : person.initials;
            written.initials = stem;
            for (int number = 2; !taken.insert(written.initials).second; ++number)
                written.initials = stem + " " + std::to_string(number);
            if (gone) m_out.removed.push_back(written.initials);
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
        for (const larder::Lot& lot : m_larder.lots(of.id)) {
            exchange::WrittenLot written;
            written.inUse = of.lotInUse == lot.id;
            if (lot.madeFrom && m_numbers.count(*lot.madeFrom) > 0)
                written.revision = m_numbers.at(*lot.madeFrom);
            written.lot = lot;
            written.lot.id = {};
            written.lot.ingredient = {};
            written.lot.madeFrom.reset();
            lots.push_back(std::move(written));
        }
        std::reverse(lots.begin(), lots.end()); // the oldest goes in first
        return lots;
    }

    exchange::WrittenIngredient written(const larder::Ingredient& ingredient) const {
        exchange::WrittenIngredient entry;
        entry.ingredient = ingredient;
        entry.ingredient.id = {};
        entry.ingredient.kind.reset();
        entry.ingredient.houseBottle.reset();
        entry.ingredient.madeBy.reset();
        entry.ingredient.lotInUse.reset();
        if (ingredient.kind) entry.kindName = nameOf(*ingredient.kind);
        if (ingredient.gotFrom) {
            entry.gotFromName = nameOf(ingredient.gotFrom->of);
            entry.ingredient.gotFrom->of = {};
        }
        // By-names that every book knows are not said again.
        if (const larder::Ingredient* known = larder::Handbook::builtIn().find(ingredient.id)) {
            auto& aliases = entry.ingredient.aliases;
            aliases.erase(std::remove_if(aliases.begin(), aliases.end(),
                                         [known](const std::string& alias) {
                                             return std::find(known->aliases.begin(), known->aliases.end(),
                                                              alias) != known->aliases.end();
                                         }),
                          aliases.end());
        }
        entry.lots = lotsOf(ingredient);
        return entry;
    }

    // A kind as the handbook has it is in every book already; which bottle it pours is said by the bottle.
    static bool isHandbooks(larder::Ingredient ingredient) {
        const larder::Ingredient* known = larder::Handbook::builtIn().find(ingredient.id);
        ingredient.houseBottle.reset();
        return known != nullptr && *known == ingredient;
    }

    void putIngredients() {
        std::vector<exchange::WrittenIngredient> kinds, bottles, poured;
        for (const larder::Ingredient* each : m_larder.all()) {
            if (!larder::Handbook::builtIn().find(each->id)) m_out.names[each->id.text()] = each->name;
            if (each->madeBy || isHandbooks(*each)) continue;
            auto entry = written(*each);
            entry.statesFacts = entry.wholeState = true;
            if (each->sort != larder::IngredientSort::Bottle) {
                kinds.push_back(std::move(entry));
                continue;
            }
            const larder::Ingredient* kind = each->kind ? m_larder.find(*each->kind) : nullptr;
            const bool isPoured = kind && kind->houseBottle == each->id;
            (isPoured ? poured : bottles).push_back(std::move(entry));
        }
        // The last bottle of a kind is the one that is poured.
        for (auto* list : {&kinds, &bottles, &poured})
            for (auto& entry : *list)
                m_out.ingredients.push_back(std::move(entry));
    }

    std::vector<ScriptedPhoto> photosOf(const PhotoOf& of) {
        std::vector<ScriptedPhoto> photos;
        for (const AttachedPhoto& photo : m_book.photosOf(of)) {
            if (photo.of != of) continue; // of an amended tasting: told there
            const auto bytes = m_book.photoBytes(photo.info.hash);
            if (!bytes) continue; // damaged: `check` names it
            m_out.photos.emplace(photo.info.hash, *bytes);
            photos.push_back({photo.info.hash, photo.caption});
        }
        return photos;
    }

    std::vector<exchange::ScriptedTasting> tastingsOf(base::RevisionId revision) {
        std::vector<tasting::Tasting> all;
        for (const tasting::Tasting& last : m_book.tastings(revision)) {
            std::vector<tasting::Tasting> chain{last};
            while (chain.back().amends) {
                auto before = m_book.findTasting(*chain.back().amends);
                if (!before) break;
                chain.push_back(*std::move(before));
            }
            for (auto at = chain.rbegin(); at != chain.rend(); ++at)
                if (std::none_of(all.begin(), all.end(),
                                 [&](const auto& known) { return known.id == at->id; }))
                    all.push_back(*at);
        }
        std::vector<exchange::ScriptedTasting> written;
        for (const tasting::Tasting& tasting : all) {
            exchange::ScriptedTasting one;
            one.initials = m_initials.at(tasting.taster);
            one.when = tasting.when;
            one.scores = tasting.scores;
            one.circumstances = tasting.circumstances;
            one.note = tasting.note;
            one.verdict = tasting.verdict;
            one.tryNext = tasting.tryNext;
            for (std::size_t i = 0; tasting.amends && i < all.size(); ++i)
                if (all[i].id == *tasting.amends) one.amends = static_cast<int>(i) + 1;
            one.photos = photosOf(tasting.id);
            written.push_back(std::move(one));
        }
        return written;
    }

    void putRevisions(ScriptedDrink& script) {
        std::map<base::RevisionId, std::string> aside;
        for (const SetAside& one : m_book.setAside(script.drink.id))
            aside[one.revision] = one.why;
        for (const history::Revision& revision : m_book.revisions(script.drink.id)) {
            exchange::ScriptedRevision written;
            written.specJson = revision.spec.canonicalJson();
            written.reason = revision.reason.empty() ? "kept" : revision.reason;
            written.when = revision.kept;
            written.basedOn = revision.parent && m_numbers.count(*revision.parent) > 0
                                  ? m_numbers.at(*revision.parent)
                                  : "0";
            m_numbers[revision.id] = std::to_string(script.revisions.size() + 1);
            m_drinkOf[revision.id] = script.drink.name;
            written.house = script.drink.house == revision.id;
            written.published = script.drink.published == revision.id;
            if (const auto said = aside.find(revision.id); said != aside.end())
                written.setAside = said->second;
            written.tastings = tastingsOf(revision.id);
            written.photos = photosOf(revision.id);
            script.revisions.push_back(std::move(written));
        }
    }

    void putTries(ScriptedDrink& script) {
        for (const history::Draft& draft : m_book.drafts(script.drink.id)) {
            exchange::ScriptedTry one;
            one.name = draft.name;
            if (draft.basedOn && m_numbers.count(*draft.basedOn) > 0)
                one.basedOn = m_numbers.at(*draft.basedOn);
            one.specJson = draft.spec.canonicalJson();
            one.when = draft.saved;
            one.setAside = draft.setAside;
            script.tries.push_back(std::move(one));
        }
    }

    // Of a preparation: what the larder says of it beside its facts.
    void putLarder(ScriptedDrink& script) {
        for (const larder::Ingredient* each : m_larder.all()) {
            if (each->madeBy != script.drink.id) continue;
            auto entry = written(*each);
            entry.ingredient.facts = {};
            entry.ingredient.sort = larder::IngredientSort::Kind;
            entry.ingredient.name = script.drink.name;
            entry.gotFromName.clear();
            entry.ingredient.gotFrom.reset();
            exchange::WrittenIngredient nothing;
            nothing.ingredient.name = script.drink.name;
            if (!(entry == nothing)) script.larder = std::move(entry);
            return;
        }
    }

    void putDrinks() {
        std::vector<history::Drink> drinks;
        for (const DrinkSummary& summary : m_book.summaries())
            if (auto drink = m_book.drink(summary.id)) drinks.push_back(*std::move(drink));
        std::stable_sort(drinks.begin(), drinks.end(), [](const history::Drink& a, const history::Drink& b) {
            if (a.form != b.form) return a.form == history::DrinkForm::Preparation;
            return a.created < b.created;
        });
        // Drinks are told apart by name, here and where one comes after another.
        std::set<std::string> taken;
        for (history::Drink& drink : drinks) {
            const std::string stem = base::trimmed(drink.name).empty() ? "Unnamed" : drink.name;
            drink.name = stem;
            for (int number = 2; !taken.insert(drink.name).second; ++number)
                drink.name = stem + " " + std::to_string(number);
            ScriptedDrink script;
            script.drink = drink;
            putRevisions(script);
            putTries(script);
            if (drink.form == history::DrinkForm::Preparation) putLarder(script);
            m_names[drink.id] = drink.name;
            m_out.drinks.push_back(std::move(script));
        }
        for (ScriptedDrink& script : m_out.drinks) {
            auto& drink = script.drink;
            if (drink.after.drink && m_names.count(*drink.after.drink) > 0)
                script.afterDrink = m_names.at(*drink.after.drink);
            if (drink.after.revision && m_numbers.count(*drink.after.revision) > 0)
                script.afterRevision = m_numbers.at(*drink.after.revision);
            drink.after.drink.reset();
            drink.after.revision.reset();
            drink.id = {};
            drink.house.reset();
            drink.published.reset();
            drink.created =
                script.revisions.empty() ? script.tries.front().when : script.revisions.front().when;
        }
    }

    void putPanels() {
        auto summaries = m_book.panels(); // newest first
        std::reverse(summaries.begin(), summaries.end());
        for (const PanelSummary& summary : summaries) {
            const auto panel = m_book.panel(summary.id);
            if (!panel) continue;
            exchange::ScriptedPanel written;
            written.name = summary.name;
            written.when = summary.created;
            written.binned = summary.binned;
            written.panel = *panel;
            for (std::size_t i = 0; i < panel->design.products.size(); ++i) {
                const auto& product = panel->design.products[i];
                written.products.push_back({m_drinkOf[product], m_numbers[product]});
                // Plain places instead of ids, so that two exports of one book are the same.
                written.panel.design.products[i] =
                    base::RevisionId::derivedFrom("product " + std::to_string(i));
            }
            for (std::size_t i = 0; i < panel->design.tasters.size(); ++i) {
                written.tasters.push_back(m_initials.at(panel->design.tasters[i]));
                written.panel.design.tasters[i] = base::PersonId::derivedFrom("taster " + std::to_string(i));
            }
            m_out.panels.push_back(std::move(written));
        }
    }

    const Workbook& m_book;
    larder::Larder m_larder;
    ScriptedBook m_out;
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
