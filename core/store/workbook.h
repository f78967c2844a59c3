#pragma once

#include "core/base/clock.h"
#include "core/history/history.h"
#include "core/larder/larder.h"
#include "core/preparation/nesting.h"
#include "core/spec/evaluate.h"
#include "core/store/error.h"
#include "core/store/larder_of_book.h"
#include "core/store/panels_of_book.h"
#include "core/store/photos_of_book.h"
#include "core/store/search_of_book.h"
#include "core/store/tries_of_book.h"
#include "core/tasting/tasting.h"

#include <tl/expected.hpp>

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace stillroom::store {

enum class OpenOutcome { Current, Upgraded, NewerCompatible }; // the rest are StoreErrors
enum class OpenMode { ReadWrite, ReadOnly };
// Where the file lives. Detect: a network file system is recognised, a folder that a program copies to
// other machines is not and must be told. On either a rollback journal is used and every save is synced.
enum class Place { Detect, NetworkOrSynced };

struct BookSettings {
    std::string name; // "The Low Lamp"
    spec::HouseRules rules;
    std::string zone = "UTC";                                 // IANA
    std::string region = "US";                                // for reading spoons and ounces
    double scaleStepG = 0.1;                                  // what the house's scale can tell apart
    tasting::ScaleSet scales = tasting::ScaleSet::defaults(); // what tasters are asked for
};

// What the shelf shows of a drink without loading its specs.
struct DrinkSummary {
    base::DrinkId id;
    history::DrinkForm form = history::DrinkForm::Drink;
    std::string name;
    std::string menuName;
    bool binned = false;
    std::optional<spec::Reading> servedStrength; // of the house revision, else the last kept, else the draft
    bool draftDiffers = false;                   // something in the draft is not kept
    int revisions = 0;
    bool hasHouse = false; // one of them is the house spec
    bool hasPublished = false;
    int drafts = 0; // not binned; the ones set aside too
    std::vector<std::string> tags;
};

// One draft or revision that names an ingredient.
struct IngredientUse {
    base::DrinkId drink;
    std::optional<base::DraftId> draft;       // one of the two
    std::optional<base::RevisionId> revision; // a revision keeps the facts it was computed with
    friend bool operator==(const IngredientUse&, const IngredientUse&) = default;
};

enum class KeepRefusal { NothingChanged };

// The one file that holds everything. One process at a time holds it; each call below is one transaction
// that has happened when it returns, or a StoreError and nothing has changed. Calls may come from any
// thread and are done one after the other, so a worker may flush(). The clock must outlive the workbook.
class Workbook : public LarderOfBook,
                 public TriesOfBook,
                 public PhotosOfBook,
                 public PanelsOfBook,
                 public SearchOfBook {
  public:
    // The file is held from here on: another opener is told who holds it.
    static std::unique_ptr<Workbook> create(const std::string& path, const BookSettings& settings,
                                            const base::Clock& clock, Place place = Place::Detect);
    static std::unique_ptr<Workbook> open(const std::string& path, OpenMode mode, const base::Clock& clock,
                                          Place place = Place::Detect);
    ~Workbook() override = default;

    virtual const std::string& path() const = 0;
    virtual OpenOutcome outcome() const = 0;
    // Asked for, or because the file cannot be written or is newer: every change is then a StoreError.
    virtual bool isReadOnly() const = 0;
    // The file is on a network or in a synced folder: slower, and every save goes to the disk at once.
    virtual bool usesRollbackJournal() const = 0;
    // After an upgrade: the copy of the file as it was before.
    virtual std::optional<std::string> upgradeBackup() const = 0;

    // Reading.
    virtual BookSettings settings() const = 0;
    virtual std::vector<DrinkSummary> summaries() const = 0; // by menu, then name; binned ones last
    virtual std::optional<history::Drink> drink(base::DrinkId id) const = 0;
    // Oldest first; the ones set aside last, binned ones not at all.
    virtual std::vector<history::Draft> drafts(base::DrinkId drink) const = 0;
    virtual std::optional<history::Draft> draft(base::DraftId id) const = 0;
    virtual std::vector<history::Revision>
    revisions(base::DrinkId drink) const = 0; // parents before children
    virtual std::optional<history::Revision> revision(base::RevisionId id) const = 0;
    virtual std::vector<tasting::Tasting>
    tastings(base::RevisionId revision) const = 0;                                   // amended ones left out
    virtual std::vector<tasting::Tasting> tastingsOf(base::DrinkId drink) const = 0; // of all its revisions
    virtual std::optional<tasting::Tasting> findTasting(base::TastingId id) const = 0; // amended ones too
    virtual std::vector<tasting::Person> people() const = 0;
    // Handbook under the book's own, preparations' facts computed. A preparation that no ingredient names
    // yet stands in it under an id derived from its drink's.
    virtual larder::Larder larder() const = 0;
    // What each preparation of the larder is made by: its house revision, else its last kept one, else its
    // first draft.
    virtual preparation::Specs preparations() const = 0;
    // Preparations made of themselves. They keep the facts they were stored with until a line is changed.
    // Keeping such a draft, and pouring such a bottle for a kind, is refused with the path named.
    virtual std::vector<preparation::Circle> circles() const = 0;
    // Own ingredients that were taken out of the larder.
    virtual std::vector<larder::Ingredient> binnedIngredients() const = 0;
    // Where an ingredient is named by a line, itself or an alternative: by an index, not by reading specs. A
    // kind's bottle is poured, not named: ask for both.
    // The specs of revisions whose dilution somebody measured, for the bench's calibration; found by index.
    virtual std::vector<spec::Spec> measuredSpecs() const = 0;
    virtual std::vector<IngredientUse> usesOf(base::IngredientId ingredient) const = 0;
    virtual std::optional<larder::FactState> factState(const std::string& hash) const = 0;
    // The larder as it stood for a revision: its pinned states and the prices of that day, for re-reading it
    // as it was.
    virtual larder::Larder larderOf(const history::Revision& revision) const = 0;
    // And the rules: measures and currency it pinned, exchange rates up to its day, no bench.
    virtual spec::HouseRules rulesOf(const history::Revision& revision) const = 0;

    // Writing.
    virtual void saveSettings(const BookSettings& settings) = 0;
    virtual history::Draft addDrink(const history::Drink& drink,
                                    const spec::Spec& spec) = 0; // and its first draft
    // Everything but the form and the day it was made. Refused: a house or published revision of another
    // drink, or a drink that comes after itself.
    virtual void saveDrink(const history::Drink& drink) = 0;
    // Acknowledged when it returns: survives a killed process. Same spec as stored: nothing is written.
    virtual void saveDraft(base::DraftId draft, const spec::Spec& spec) = 0;
    virtual tl::expected<history::Revision, KeepRefusal> keep(base::DraftId draft,
                                                              const std::string& reason) = 0;
    virtual base::PersonId addPerson(const std::string& name, const std::string& initials) = 0;
    virtual void renamePerson(base::PersonId person, const std::string& name,
                              const std::string& initials) = 0;
    // The name and initials go, what was tasted stays.
    virtual void removePerson(base::PersonId person) = 0;
    virtual tasting::Tasting addTasting(const tasting::Tasting& tasting) = 0; // id and time given when null
    virtual void saveIngredient(const larder::Ingredient& ingredient) = 0;    // a changed fact is a new state
    virtual void saveIngredients(const std::vector<larder::Ingredient>& all) = 0; // all of them or none
    virtual void binIngredient(base::IngredientId ingredient, bool binned) = 0; // out of the larder, or back
    virtual void saveLot(const larder::Lot& lot) = 0;
    virtual void rememberName(const std::string& writtenName, base::IngredientId ingredient) = 0;
    virtual void forgetName(const std::string& writtenName) = 0; // as if it had never been remembered
    // Through the backup interface, never a file copy; checked before it takes the name, so what stood there
    // is replaced only by a good copy.
    virtual void saveCopy(const std::string& path) const = 0;
    // Everything of a draft that is acknowledged is on the disk after this (a full checkpoint).
    virtual void flush() = 0;
};

// Damage: history or content is not what was written. Derived: only a list made from other content is off;
// it can be made anew and nothing is lost. Doubtful: as somebody entered it, and a slip of the pen.
enum class CheckSort { Damage, Derived, Doubtful };

struct CheckProblem {
    std::string where; // "revision 3 of Ox Skerry"
    std::string what;
    CheckSort sort = CheckSort::Damage;
};
struct CheckReport {
    int drinks = 0, drafts = 0, revisions = 0, factStates = 0;
    int tastings = 0, amendments = 0; // those of the tastings that amend another
    int panels = 0, answers = 0;
    int photos = 0, photoLinks = 0; // links: where they stand, taken off or not
    std::int64_t photoBytes = 0;
    std::vector<CheckProblem> problems;
    // Upgraded: of an older schema, read as it would be after the upgrade. NewerCompatible: what this program
    // does not know of was not looked at.
    OpenOutcome outcome = OpenOutcome::Current;
};
// Integrity, foreign keys, every fact state, revision, tasting, photo, panel and answer re-read and its hash
// compared; prices, purchases, lots, rates, the list of uses and the search index looked through. Changes
// nothing.
CheckReport check(const std::string& path);

} // namespace stillroom::store
