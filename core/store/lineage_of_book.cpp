#include "core/store/lineage_of_book.h"

#include "core/history/lineage.h"
#include "core/store/workbook.h"

#include <set>

namespace stillroom::store {

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

} // namespace stillroom::store
