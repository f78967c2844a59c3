#include "core/store/edit_subjects.h"

namespace stillroom::store {

namespace {

std::optional<spec::Spec> specInUse(const Workbook& book, base::DrinkId id) {
    const auto drink = book.drink(id);
    if (drink && drink->house)
        if (auto revision = book.revision(*drink->house)) return std::move(revision->spec);
    auto kept = book.revisions(id);
    if (kept.empty()) return std::nullopt;
    return std::move(kept.back().spec);
}

} // namespace

std::vector<EditSubject> editSubjects(const Workbook& book) {
    std::vector<EditSubject> all;
    for (const DrinkSummary& summary : book.summaries()) {
        if (summary.binned) continue;
        const EditSubject subject{summary.id, summary.form, summary.name, summary.menuName, {}, {}, 0, {}};
        const auto inUse = specInUse(book, summary.id);
        if (inUse && summary.form == history::DrinkForm::Drink) {
            all.push_back(subject);
            all.back().spec = *inUse;
        }
        auto drafts = book.drafts(summary.id);
        const bool several = drafts.size() > 1;
        int ordinal = 0;
        for (history::Draft& draft : drafts) {
            ++ordinal;
            if (draft.setAside || (inUse && draft.spec == *inUse)) continue;
            all.push_back(subject);
            all.back().draft = draft.id;
            all.back().tryName = draft.name;
            all.back().ordinal = several ? ordinal : 0;
            all.back().spec = std::move(draft.spec);
        }
    }
    return all;
}

} // namespace stillroom::store
