#pragma once

#include "core/base/clock.h"
#include "core/base/id.h"
#include "core/quantity/house_measures.h"
#include "core/quantity/money.h"
#include "core/spec/reading.h"
#include "core/spec/spec.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace stillroom::history {

// Raised when the same spec and facts would read differently. A later program shows the stored numbers of
// an older revision and offers a re-read beside them.
// 2: temperatures are read; 3: crushed and weighed ice, chilled fizz; 4: no ice where none is named;
// 5: what is not drunk is paid for, garnish lines without a price and garnish in words make the cost a floor
inline constexpr int kCalcVersion = 5;

enum class DrinkForm : std::uint8_t { Drink, Preparation };

// Where a drink comes from outside the book, each as the user writes it; any of them may be empty.
struct Source {
    std::string person, place, year, work;
    bool isEmpty() const { return *this == Source{}; }
    friend bool operator==(const Source&, const Source&) = default;
};

// "After": another drink of the book, an outside source, or both. core/history/lineage.h has the words.
struct Lineage {
    std::optional<base::DrinkId> drink;
    std::optional<base::RevisionId> revision; // of that drink, where one is meant
    Source source;
    bool isEmpty() const { return *this == Lineage{}; }
    friend bool operator==(const Lineage&, const Lineage&) = default;
};

struct Drink {
    base::DrinkId id;
    DrinkForm form = DrinkForm::Drink;
    std::string name;
    std::string brief; // theme, what it is for
    std::string notes;
    std::string menuName;                  // "Nine Lights"; groups the shelf until menus come
    std::string credit;                    // free words of thanks, beside `after`
    std::optional<base::RevisionId> house; // the revision in use
    bool binned = false;
    base::Instant created;
    std::optional<base::RevisionId> published; // the revision readers have
    Lineage after;
    std::vector<std::string> tags; // as written, in the user's order; none twice when folded
    friend bool operator==(const Drink&, const Drink&) = default;
};

struct Draft {
    base::DraftId id;
    base::DrinkId drink;
    std::optional<base::RevisionId> basedOn;
    spec::Spec spec;
    base::Instant saved;
    std::int64_t version = 0; // grows with every acknowledged save
    std::string name;         // of the try: "with honey"; may be empty
    bool setAside = false;    // kept, but no longer worked on
    bool binned = false;
    friend bool operator==(const Draft&, const Draft&) = default;
};

// What a revision was computed with, so that a later edit of a bottle changes drafts and not history.
struct RevisionFacts {
    std::map<base::IngredientId, std::string>
        states; // ingredient named by a line -> hash of the state poured
    std::map<base::IngredientId, base::IngredientId> pours;      // kind -> the bottle poured for it then
    std::map<base::IngredientId, base::RevisionId> preparations; // which revision of a house-made one
    std::map<base::IngredientId, base::LotId> lots;              // the lot in use, where one lent its figures
    friend bool operator==(const RevisionFacts&, const RevisionFacts&) = default;
};

struct Revision {
    base::RevisionId id;
    base::DrinkId drink;
    std::optional<base::RevisionId> parent;
    int number = 0; // a label, never a key
    std::string reason;
    base::Instant kept;
    spec::Spec spec;
    RevisionFacts facts;
    quantity::HouseMeasures measures;
    quantity::Currency currency; // of the cost readings
    spec::Readings readings;     // as computed then
    int calcVersion = kCalcVersion;
    std::string hash; // SHA-256 of canonicalContent()
    friend bool operator==(const Revision&, const Revision&) = default;

    // Everything that makes it this revision: drink, spec, facts and measures by their hashes, currency,
    // readings, parent, reason, time. JSON with sorted keys. The id and the number are not content.
    std::string canonicalContent() const;
    std::string contentHash() const; // SHA-256 of canonicalContent(), hex: what `hash` must be
};

// Canonical: sorted keys, numbers as the shortest decimal that reads back the same. A reading that is
// plainly exact is a text; any other names its bound; one that says nothing is left out. A stage that reads
// as the one before it is that one's name.
std::string readingsToJson(const spec::Readings& readings);
std::optional<spec::Readings> readingsFromJson(std::string_view json);

} // namespace stillroom::history
