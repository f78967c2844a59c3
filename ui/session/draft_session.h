#pragma once

#include "core/history/diff.h"
#include "core/history/fact_swap.h"
#include "core/history/history.h"
#include "core/preparation/keeping.h"
#include "core/preparation/past_parts.h"
#include "core/preparation/preparation.h"
#include "core/spec/caution.h"
#include "core/spec/evaluate.h"
#include "core/spec/glass_filling.h"
#include "ui/session/edit_command.h"
#include "ui/session/workbook_session.h"

#include <QObject>
#include <QTimer>
#include <QUndoStack>

#include <memory>
#include <optional>
#include <vector>

namespace stillroom::ui {

// The draft as it now reads. Finished values: whoever shows them computes nothing.
struct DraftReading {
    spec::Spec spec;
    DrinkWords words;
    spec::Readings readings;
    std::vector<spec::Contribution> contributions; // one per line
    std::vector<spec::Gap> gaps;
    std::vector<spec::Caution> cautions;
    spec::AllergenSummary allergens;
    spec::GlassFilling filling;
    history::SpecDifference difference;   // since the revision it stands on; empty without one
    std::vector<history::FactSwap> swaps; // likewise: the line is the same, what is poured is another
    // Of a preparation with an amount in it; its cautions are then those of something that is kept.
    std::optional<preparation::Made> made;
    preparation::Keeping keeping;
};

// A revision read again with the larder it was kept with. Its readings are the stored ones; what each line
// brings, and what is missing, is worked out anew for the columns.
struct RevisionReading {
    DraftReading now;
    std::unique_ptr<spec::Bindings> bindings;
};
RevisionReading readingOf(const history::Revision& revision, const larder::Larder& larder,
                          spec::HouseRules rules, const history::Drink& drink);

struct DraftChange {
    const DraftReading& before;
    const DraftReading& now;
    QObject* origin; // who started it; nullptr when it came from the undo stack or the larder
};

// One draft in the hand: the single way from an edit to the screen.
//     apply -> undo command -> install -> evaluate once -> saved in the book -> changed
// Nobody edits in answer to `changed`; apply refuses while it is being told.
class DraftSession : public QObject {
    Q_OBJECT

  public:
    static constexpr int kNoMerge = -1;

    // Throws StoreError when the draft cannot be read. The book outlives the session.
    DraftSession(WorkbookSession& book, base::DraftId draft, QObject* parent = nullptr);
    ~DraftSession() override; // writes out what is not on the disk yet

    WorkbookSession& book() { return m_book; }
    const DraftReading& now() const { return m_now; }
    const spec::Spec& spec() const { return m_now.spec; }
    const spec::Bindings& bindings() const { return *m_bindings; }
    const history::Drink& drink() const { return m_drink; }
    const history::Draft& draft() const { return m_draft; }
    // The revision the draft stands on, which every difference is taken from.
    const std::optional<history::Revision>& base() const { return m_base; }
    std::optional<base::Instant> savedAt() const { return m_savedAt; }

    // An equal spec is no edit: no step, no evaluation, no signal. True when something changed.
    bool apply(spec::Spec next, const QString& label, int mergeKey = kNoMerge, QObject* origin = nullptr);
    bool applyWords(DrinkWords next, const QString& label, int mergeKey = kNoMerge,
                    QObject* origin = nullptr);
    // A line's name taken for the ingredient the person chose. The book remembers it for the next line of
    // that name unless it would have taken it so by itself; undone, it does so no more.
    bool applyChoice(std::size_t line, const std::string& name, base::IngredientId chosen,
                     const QString& label, QObject* origin = nullptr);
    // One per visit to a field: steps made under it merge.
    int newMergeKey() { return ++m_lastMergeKey; }

    // Fixes the draft as a revision. Throws StoreError; NothingChanged when it equals its base.
    tl::expected<history::Revision, store::KeepRefusal> keep(const QString& reason);
    // In spec, in what is poured for it, or in the house's measures: there would be something to keep.
    bool differsFromBase() const;
    // How the book would say what changed since the base: the reason proposed.
    QString changesInWords() const;
    // Puts a revision's spec into the draft, as one edit that can be undone.
    bool restore(const history::Revision& revision);
    // False: the drink was renamed or otherwise reworded through another draft of it.
    bool wordsStand() const;
    // The drink's record changed by another way than its words: house spec, bin.
    void reloadDrink();
    void reloadDraft(); // its name, or whether it is set aside
    // Everything acknowledged is on the disk after this. Errors are told by saveFailed.
    void flush();

    QUndoStack& undoStack() { return m_undo; }
    int evaluations() const { return m_evaluations; }     // for the test that there is one per edit
    int bindingsBuilt() const { return m_bindingsBuilt; } // likewise

  Q_SIGNALS:
    void changed(const stillroom::ui::DraftChange& change);
    void baseChanged(); // kept, or set on another revision
    void saved();
    void saveFailed(const stillroom::ui::Sentence& sentence);

  private:
    friend class EditCommand;
    void install(const DraftContent& content, QObject* origin);
    void installMeaning(const std::string& written, std::optional<base::IngredientId> ingredient);
    void evaluate();
    void readMade();
    void warnOfPast();
    bool closesCircle(const spec::Spec& next); // told, with the path
    void rebind();
    void findSwaps();
    void autosave(const DraftContent& content, bool specDiffers, bool wordsDiffer);
    void reread();
    void tell(const DraftReading& before, QObject* origin);

    WorkbookSession& m_book;
    history::Draft m_draft;
    history::Drink m_drink;
    std::optional<history::Revision> m_base;
    DraftReading m_now;
    std::unique_ptr<spec::Bindings> m_bindings;
    std::optional<preparation::Specs> m_specs;      // of what is made here; read when first asked for
    std::optional<preparation::ShelfDates> m_dates; // of the larder as it stands; worked out when first asked
    std::optional<base::Instant> m_savedAt;
    QUndoStack m_undo;
    QTimer m_checkpoint;
    int m_lastMergeKey = 0;
    int m_evaluations = 0;
    int m_bindingsBuilt = 0;
    bool m_telling = false;
    bool m_unflushed = false;
};

} // namespace stillroom::ui
