#include "core/store/book_restore.h"

#include "core/base/hash.h"

#include <fmt/format.h>

#include <stdexcept>

namespace stillroom::store {

namespace {

[[noreturn]] void fail(const std::string& what) {
    throw std::runtime_error(what);
}

template <class IdType>
IdType required(const IdType& id, const std::string& of) {
    if (id.isNull()) fail(fmt::format("{}: has no \"id\", in a book that says it has them", of));
    return id;
}

class Reader {
  public:
    explicit Reader(const exchange::ScriptedBook& book) : m_book(book) {
        for (const quantity::HouseMeasures& measures : book.keptMeasures)
            m_measures.emplace(base::sha256Hex(measures.toJsonText()), measures);
    }

    BookRecord run() {
        m_out.states = m_book.states;
        m_out.remembered = m_book.remembered;
        m_out.photoBytes = m_book.photos;
        for (const tasting::Person& person : m_book.people)
            putPerson(person);
        for (const exchange::WrittenIngredient& entry : m_book.ingredients)
            putIngredient(entry);
        for (const exchange::ScriptedDrink& script : m_book.drinks)
            putDrink(script);
        for (std::size_t i = 0; i < m_book.drinks.size(); ++i)
            putLineage(m_book.drinks[i], m_out.drinks[i]);
        for (const exchange::ScriptedPanel& panel : m_book.panels)
            putPanel(panel);
        for (const exchange::ScriptedSearch& search : m_book.searches)
            putSearch(search);
        return std::move(m_out);
    }

  private:
    void putPerson(const tasting::Person& written) {
        tasting::Person person = written;
        required(person.id, person.initials);
        m_people[person.initials] = person.id;
        if (const auto own = m_book.ownInitials.find(person.initials); own != m_book.ownInitials.end())
            person.initials = own->second;
        m_out.people.push_back(std::move(person));
    }

    void putIngredient(const exchange::WrittenIngredient& entry) {
        const auto id = required(entry.ingredient.id, entry.ingredient.name);
        if (!entry.wholeState) fail(entry.ingredient.name + ": has no whole \"facts\"");
        if (!entry.ingredient.packs.empty())
            fail(entry.ingredient.name + ": a price does not say when it was \"added\"");
        m_out.ingredients.push_back({entry.ingredient, entry.binned});
        for (const exchange::WrittenPack& paid : entry.paid)
            m_out.packs.push_back({id, paid.pack, paid.place, paid.addedMs, paid.droppedMs});
        for (const exchange::WrittenLot& written : entry.lots) {
            larder::Lot lot = written.lot;
            required(lot.id, "a lot of " + entry.ingredient.name);
            lot.ingredient = id;
            m_out.lots.push_back(std::move(lot));
        }
    }

    void putDrink(const exchange::ScriptedDrink& script) {
        history::Drink drink = script.drink;
        required(drink.id, drink.name);
        drink.name = script.ownName.value_or(drink.name);
        auto& numbers = m_numbers[script.drink.name];
        for (const exchange::ScriptedRevision& revision : script.revisions) {
            putRevision(script, revision, numbers);
            const base::RevisionId id = m_out.revisions.back().id;
            if (revision.house) drink.house = id;
            if (revision.published) drink.published = id;
        }
        for (const exchange::ScriptedTry& one : script.tries) {
            history::Draft draft;
            draft.id = required(one.id, script.drink.name + ", a try");
            draft.drink = drink.id;
            if (!one.basedOn.empty()) draft.basedOn = numbers.at(one.basedOn);
            draft.spec = specOf(one.specJson, script.drink.name + ", a try");
            draft.saved = one.when;
            draft.version = one.version;
            draft.name = one.name;
            draft.setAside = one.setAside;
            draft.binned = one.binned;
            m_out.drafts.push_back(std::move(draft));
        }
        m_out.drinks.push_back(std::move(drink));
    }

    static spec::Spec specOf(const std::string& json, const std::string& where) {
        auto spec = spec::Spec::fromCanonicalJson(json);
        if (!spec) fail(where + ": its spec cannot be read");
        return *std::move(spec);
    }

    void putRevision(const exchange::ScriptedDrink& script, const exchange::ScriptedRevision& written,
                     std::map<std::string, base::RevisionId>& numbers) {
        const std::string number = std::to_string(numbers.size() + 1);
        const std::string where = fmt::format("{}, revision {}", script.drink.name, number);
        if (!written.kept) fail(where + ": does not say what it was \"kept\" with");
        const exchange::KeptWith& kept = *written.kept;
        const auto measures = m_measures.find(kept.measures);
        if (measures == m_measures.end()) fail(where + ": its house measures are not there");
        history::Revision revision;
        revision.id = kept.id;
        revision.drink = script.drink.id;
        if (!written.basedOn.empty() && written.basedOn != "0") revision.parent = numbers.at(written.basedOn);
        revision.number = kept.number;
        revision.reason = written.reason;
        revision.kept = written.when;
        revision.spec = specOf(written.specJson, where);
        revision.facts = kept.facts;
        revision.measures = measures->second;
        revision.currency = kept.currency;
        revision.readings = history::readingsFromJson(kept.readings).value_or(spec::Readings{});
        revision.calcVersion = kept.calcVersion;
        revision.hash = kept.hash;
        numbers[number] = kept.id;
        if (written.setAside) m_out.aside.push_back({kept.id, *written.setAside, written.setAsideOn});
        m_out.revisions.push_back(std::move(revision));
        putPhotos(kept.id, written.photos, where);
        putTastings(kept.id, written.tastings, where);
    }

    void putTastings(base::RevisionId revision, const std::vector<exchange::ScriptedTasting>& all,
                     const std::string& where) {
        std::vector<base::TastingId> told;
        for (const exchange::ScriptedTasting& tasted : all) {
            tasting::Tasting tasting;
            tasting.id = required(tasted.id, where + ", a tasting");
            tasting.revision = revision;
            tasting.taster = m_people.at(tasted.initials);
            tasting.when = tasted.when;
            tasting.scores = tasted.scores;
            tasting.circumstances = tasted.circumstances;
            tasting.note = tasted.note;
            tasting.verdict = tasted.verdict;
            tasting.tryNext = tasted.tryNext;
            if (tasted.amends > 0) tasting.amends = told.at(static_cast<std::size_t>(tasted.amends - 1));
            told.push_back(tasting.id);
            m_out.tastings.push_back(std::move(tasting));
            putPhotos(told.back(), tasted.photos, where + ", a tasting");
        }
    }

    void putPhotos(const PhotoOf& of, const std::vector<exchange::ScriptedPhoto>& photos,
                   const std::string& where) {
        for (const exchange::ScriptedPhoto& written : photos) {
            const auto bytes = m_book.photos.find(written.hash);
            if (bytes == m_book.photos.end()) fail(where + ": the bytes of a photo are missing");
            const auto info = tasting::inspectPhoto(bytes->second);
            if (!info) fail(fmt::format("{}: a photo is refused: {}", where, tasting::inWords(info.error())));
            m_out.photos.push_back({required(written.id, where + ", a photo"), of, *info, written.caption,
                                    written.when, written.hidden});
        }
    }

    void putLineage(const exchange::ScriptedDrink& script, history::Drink& drink) const {
        if (script.afterDrink.empty()) return;
        const auto numbers = m_numbers.find(script.afterDrink);
        const auto after = std::find_if(
            m_book.drinks.begin(), m_book.drinks.end(),
            [&](const exchange::ScriptedDrink& other) { return other.drink.name == script.afterDrink; });
        if (numbers == m_numbers.end() || after == m_book.drinks.end())
            fail(fmt::format("{}: comes after \"{}\", which is not there", script.drink.name,
                             script.afterDrink));
        drink.after.drink = after->drink.id;
        if (script.afterRevision.empty()) return;
        const auto revision = numbers->second.find(script.afterRevision);
        if (revision == numbers->second.end())
            fail(fmt::format("{}: comes after a revision that is not there", script.drink.name));
        drink.after.revision = revision->second;
    }

    void putPanel(const exchange::ScriptedPanel& script) {
        const std::string where = fmt::format("panel {}", script.name);
        BookRecord::Panel panel;
        panel.id = required(script.id, where);
        panel.name = script.name;
        panel.created = script.when;
        panel.binned = script.binned;
        panel.poured = script.poured;
        panel.closed = script.closed;
        panel.plan = script.panel;
        panel.plan.state = tasting::PanelState::Designed;
        auto told = script.panel.answers;
        for (tasting::Answer& answer : panel.plan.answers)
            answer = {};
        auto last = panel.plan.answers;
        for (const exchange::ScriptedPanel::Said& said : script.said) {
            const auto taster = m_people.find(said.initials);
            const auto& tasters = panel.plan.design.tasters;
            const auto at = taster == m_people.end()
                                ? tasters.end()
                                : std::find(tasters.begin(), tasters.end(), taster->second);
            if (at == tasters.end()) fail(fmt::format("{}: {} was given nothing", where, said.initials));
            last[static_cast<std::size_t>(at - tasters.begin())] = said.answer;
            panel.said.push_back({said.id, taster->second, said.when, said.answer});
        }
        if (last != told) fail(where + ": its answers are not the last that were said");
        if ((script.panel.state != tasting::PanelState::Designed) != script.poured.has_value() ||
            (script.panel.state == tasting::PanelState::Closed) != script.closed.has_value())
            fail(where + ": does not say when it was poured and closed");
        m_out.panels.push_back(std::move(panel));
    }

    void putSearch(const exchange::ScriptedSearch& search) {
        const auto request = SearchRequest::fromCanonicalJson(search.request);
        if (!request) fail(fmt::format("search {}: cannot be read", search.name));
        m_out.searches.push_back({required(search.id, "search " + search.name), search.name, *request});
    }

    const exchange::ScriptedBook& m_book;
    BookRecord m_out;
    std::map<std::string, quantity::HouseMeasures> m_measures;                // by hash
    std::map<std::string, base::PersonId> m_people;                           // by how they sign in the file
    std::map<std::string, std::map<std::string, base::RevisionId>> m_numbers; // by drink, by place
};

} // namespace

BookRecord recordFrom(const exchange::ScriptedBook& book) {
    return Reader(book).run();
}

} // namespace stillroom::store
