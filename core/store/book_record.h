#pragma once

#include "core/history/history.h"
#include "core/larder/larder.h"
#include "core/store/photos_of_book.h"
#include "core/store/search_of_book.h"
#include "core/store/tries_of_book.h"
#include "core/tasting/panel.h"
#include "core/tasting/tasting.h"

#include <map>
#include <string>
#include <utility>
#include <vector>

namespace stillroom::store {

class Workbook;

// All that a book holds, as it was kept: what is in the bin, taken off or amended too.
struct BookRecord {
    struct Binnable {
        larder::Ingredient ingredient; // without packs: they stand in `packs`
        bool binned = false;
        friend bool operator==(const Binnable&, const Binnable&) = default;
    };
    struct Pack {
        base::IngredientId of;
        larder::Pack pack;
        std::int64_t place = 0; // among the ingredient's
        std::int64_t addedMs = 0;
        std::optional<std::int64_t> droppedMs; // another price took its place then
        friend bool operator==(const Pack&, const Pack&) = default;
    };
    struct Said {
        base::Bits128 id;
        base::PersonId taster;
        base::Instant when;
        tasting::Answer answer;
        friend bool operator==(const Said&, const Said&) = default;
    };
    struct Panel {
        base::PanelId id;
        std::string name;
        base::Instant created;
        bool binned = false;
        tasting::Panel plan; // as dealt
        std::optional<base::Instant> poured, closed;
        std::vector<Said> said; // in order; a taster's last one counts
        friend bool operator==(const Panel&, const Panel&) = default;
    };

    std::vector<tasting::Person> people;
    std::vector<larder::FactState> states;
    std::vector<Binnable> ingredients; // own ones
    std::vector<Pack> packs;
    std::vector<larder::Lot> lots;
    std::map<std::string, base::IngredientId> remembered; // by folded name
    std::vector<history::Drink> drinks;
    std::vector<history::Revision> revisions; // of one drink: parents before children
    std::vector<SetAside> aside;
    std::vector<history::Draft> drafts;
    std::vector<tasting::Tasting> tastings; // amended ones before those that amend them
    std::vector<AttachedPhoto> photos;
    std::map<std::string, std::string> photoBytes; // by hash
    std::vector<Panel> panels;
    std::vector<SavedSearch> searches;
    friend bool operator==(const BookRecord&, const BookRecord&) = default;
};

// A side of every open workbook, for export and import.
class RecordedBook {
  public:
    virtual ~RecordedBook() = default;
    // A photo whose bytes are damaged is there without them: `check` names it.
    virtual BookRecord record() const = 0;
    // Into a book that holds none of it, all or nothing. Refused (StoreError): a revision whose hash is not
    // that of its content, what refers to something that is neither here nor there.
    virtual void restore(const BookRecord& record) = 0;
};

BookRecord recordOf(const Workbook& book);
void restore(Workbook& book, const BookRecord& record);

} // namespace stillroom::store
