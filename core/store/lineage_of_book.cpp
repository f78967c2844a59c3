#include "core/store/lineage_of_book.h"

#include "core/base/text.h"
#include "core/history/lineage.h"
#include "core/history/what_changed.h"
#include "core/store/workbook.h"

#include <algorithm>
#include <map>
#include <set>

namespace stillroom::store {

namespace {

// As it stands: what readers have, else the bar, else the last kept.
std::optional<history::Revision> standing(const Workbook& book, const history::Drink& drink) {
    if (const auto current = history::currentRevision(drink)) return book.revision(*current);
    auto all = book.revisions(drink.id);
    return all.empty() ? std::nullopt : std::optional(std::move(all.back()));
}

std::optional<history::Draft> newestDraft(const Workbook& book, base::DrinkId drink) {
    std::optional<history::Draft> newest;
    for (history::Draft& draft : book.drafts(drink))
        if (!newest || newest->saved < draft.saved) newest = std::move(draft);
    return newest;
}

class Descent {
  public:
    explicit Descent(const Workbook& book) : m_book(book) {
        for (const DrinkSummary& summary : book.summaries())
            if (auto drink = book.drink(summary.id); drink && drink->after.drink)
                m_after[*drink->after.drink].push_back(*std::move(drink));
        for (auto& [before, drinks] : m_after)
            std::stable_sort(drinks.begin(), drinks.end(), [](const auto& a, const auto& b) {
                return base::sortKeyForPeople(a.name) < base::sortKeyForPeople(b.name);
            });
    }

    std::vector<CameAfter> of(base::DrinkId drink) {
        m_seen = {drink};
        put(drink, 1);
        return std::move(m_found);
    }

  private:
    void put(base::DrinkId before, int depth) {
        const auto drinks = m_after.find(before);
        if (drinks == m_after.end()) return;
        for (const history::Drink& drink : drinks->second) {
            if (!m_seen.insert(drink.id).second) continue;
            CameAfter one{drink.id, drink.name, depth, 0, changedSince(m_book, drink), drink.binned};
            if (drink.after.revision)
                if (const auto revision = m_book.revision(*drink.after.revision))
                    one.revision = revision->number;
            m_found.push_back(std::move(one));
            put(drink.id, depth + 1);
        }
    }

    const Workbook& m_book;
    std::map<base::DrinkId, std::vector<history::Drink>> m_after;
    std::set<base::DrinkId> m_seen;
    std::vector<CameAfter> m_found;
};

} // namespace

std::string creditOf(const Workbook& book, const history::Drink& drink) {
    std::string name;
    const auto before = drink.after.drink ? book.drink(*drink.after.drink) : std::nullopt;
    if (before) name = before->name;
    if (!name.empty() && drink.after.revision)
        if (const auto revision = book.revision(*drink.after.revision)) {
            name += before->form == history::DrinkForm::Preparation ? ", p" : ", r";
            name += std::to_string(revision->number);
        }
    return history::creditInWords(drink, name);
}

bool comesAfter(const Workbook& book, base::DrinkId drink, base::DrinkId ancestor) {
    std::set<base::DrinkId> seen;
    for (std::optional<base::DrinkId> at = drink; at && seen.insert(*at).second;) {
        if (*at == ancestor) return true;
        const auto stored = book.drink(*at);
        at = stored ? stored->after.drink : std::nullopt;
    }
    return false;
}

int movedOnTo(const Workbook& book, const history::Drink& drink) {
    if (!drink.after.drink || !drink.after.revision) return 0;
    const auto before = book.drink(*drink.after.drink);
    if (!before || !history::isStale(*before, *drink.after.revision)) return 0;
    const auto current = book.revision(*history::currentRevision(*before));
    return current ? current->number : 0;
}

history::Draft newDrinkFrom(Workbook& book, base::RevisionId from, const std::string& name) {
    const auto revision = book.revision(from);
    const auto before = revision ? book.drink(revision->drink) : std::nullopt;
    if (!before) throw StoreError(StoreErrorKind::NotFound, 0, book.path(), "there is no such revision");
    history::Drink drink;
    drink.name = name;
    drink.form = before->form;
    drink.after.drink = before->id;
    drink.after.revision = from;
    return book.addDrink(drink, revision->spec);
}

std::string changedSince(const Workbook& book, const history::Drink& drink) {
    const auto before = drink.after.revision ? book.revision(*drink.after.revision) : std::nullopt;
    if (!before) return {};
    if (const auto now = standing(book, drink)) {
        std::map<std::string, std::optional<larder::FactState>> states;
        const auto swaps =
            history::factSwaps(before->spec, before->facts, now->spec, now->facts,
                               [&](const std::string& hash) -> const larder::FactState* {
                                   auto& state = states.try_emplace(hash, book.factState(hash)).first->second;
                                   return state ? &*state : nullptr;
                               });
        return history::changesInWords(history::difference(before->spec, now->spec, now->measures),
                                       before->spec, now->spec, swaps);
    }
    const auto draft = newestDraft(book, drink.id);
    if (!draft) return {};
    return history::inWords(history::difference(before->spec, draft->spec, before->measures), before->spec,
                            draft->spec);
}

std::vector<CameAfter> cameAfter(const Workbook& book, base::DrinkId drink) {
    return Descent(book).of(drink);
}

} // namespace stillroom::store
