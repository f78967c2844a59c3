#pragma once

#include "core/store/workbook.h"

#include <optional>
#include <string>
#include <vector>

// What an edit of the larder is held against when a whole book is asked what it would do.
namespace stillroom::store {

struct EditSubject {
    base::DrinkId drink;
    history::DrinkForm form = history::DrinkForm::Drink;
    std::string name;
    std::string menu;
    std::optional<base::DraftId> draft; // absent: the revision in use
    std::string tryName;                // the draft's own; may be empty
    int ordinal = 0;                    // of the drink's drafts, from 1 on; 0 where it is the only one
    spec::Spec spec;
};

// Of every drink that is not in the bin its house revision, else the one kept last, and beside it each draft
// that differs from that one and is not set aside. Of a preparation its drafts alone: what its revision
// comes to is EditImpact::made.
std::vector<EditSubject> editSubjects(const Workbook& book);

} // namespace stillroom::store
