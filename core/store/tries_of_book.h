#pragma once

#include "core/history/history.h"

#include <optional>
#include <string>
#include <vector>

namespace stillroom::store {

// A revision that somebody put aside. The revision itself never changes: this is said beside it.
struct SetAside {
    base::RevisionId revision;
    std::string why; // may be empty
    base::Instant when;
    friend bool operator==(const SetAside&, const SetAside&) = default;
};

struct BinContents {
    std::vector<history::Drink> drinks;
    std::vector<history::Draft> drafts; // of drinks that are not in the bin themselves
};

// Several tries at one drink, and what became of them. Part of a Workbook, with its promises.
class TriesOfBook {
  public:
    virtual ~TriesOfBook() = default;

    // A further draft of the same drink, starting from a revision.
    virtual history::Draft branch(base::RevisionId from, const std::string& name = {}) = 0;
    // A further draft of any spec, such as another draft's. Refused: basedOn is another drink's.
    virtual history::Draft addDraft(base::DrinkId drink, std::optional<base::RevisionId> basedOn,
                                    const spec::Spec& spec, const std::string& name) = 0;
    virtual void renameDraft(base::DraftId draft, const std::string& name) = 0;
    virtual void setDraftAside(base::DraftId draft, bool aside) = 0;
    // Refused: a drink's last draft (bin the drink instead).
    virtual void binDraft(base::DraftId draft, bool binned) = 0;

    virtual void setRevisionAside(base::RevisionId revision, bool aside, const std::string& why = {}) = 0;
    virtual std::vector<SetAside> setAside(base::DrinkId drink) const = 0; // in the order of the revisions
    // Drinks are binned and taken back by Workbook::saveDrink.
    virtual BinContents bin() const = 0;
    // What changed from the revision the draft is based on, in words; empty when nothing did, or without one.
    virtual std::string proposedReason(base::DraftId draft) const = 0;
};

} // namespace stillroom::store
