#pragma once

#include "core/preparation/edit_impact.h"
#include "core/preparation/where_used.h"
#include "core/store/workbook.h"

#include <QObject>

#include <atomic>
#include <condition_variable>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>
#include <unordered_map>
#include <vector>

namespace stillroom::ui {

class WorkbookSession;

// A draft or revision that depends on an ingredient, read once and kept.
struct UsedSpec {
    base::DrinkId drink;
    bool isDraft = false;
    int revision = 0; // its number; 0: a draft
    spec::Spec spec;
};

// Where an ingredient is used, to any depth.
struct UsesFound {
    base::IngredientId ingredient;
    std::vector<preparation::Use> by; // drinks and preparations, direct ones first
    int drafts = 0;
    int revisions = 0;
    int preparations = 0;                // of `by`
    std::vector<base::DrinkId> inDrafts; // whose drafts these are, once each
    std::vector<std::shared_ptr<const UsedSpec>> specs;
};

struct ImpactFound {
    std::vector<std::shared_ptr<const UsedSpec>> subjects; // by Impact::subject
    preparation::EditImpact impact;
    preparation::LarderEdit edit;
    double milliseconds = 0; // from being asked to being found
};

// What depends on an ingredient, and what an edit would do to it: worked out on a thread of its own, so that
// typing never waits. Specs that were read once are kept. What was asked last counts: an older question is
// cancelled, its answer never told.
class ImpactReading : public QObject {
    Q_OBJECT

  public:
    explicit ImpactReading(WorkbookSession& book);
    ~ImpactReading() override; // cancels and waits

    // Drafts may have changed since: they are read anew. Revisions never do.
    void refresh();
    // Answers with usesFound: counts from the index first (specs empty), then everything.
    void askUses(base::IngredientId ingredient);
    // Answers with impactFound.
    void ask(const preparation::LarderEdit& edit, const std::vector<larder::Lot>& lots = {});
    void cancel();
    bool isBusy() const { return m_open > 0; }
    // The specs of what is made here, in use now. From the last answer; empty before the first.
    const preparation::Specs& preparations() const { return m_preparations; }

  Q_SIGNALS:
    void usesFound(const std::shared_ptr<const stillroom::ui::UsesFound>& uses);
    void impactFound(const std::shared_ptr<const stillroom::ui::ImpactFound>& found);
    void failed(); // the book could not be read; nothing is shown

  private:
    struct Question;
    struct Kept;
    void put(Question question);
    void work();
    void answer(const Question& question);

    WorkbookSession& m_book;
    preparation::Specs m_preparations;
    int m_open = 0;
    int m_last = 0; // the newest question's number

    std::mutex m_mutex;
    std::condition_variable m_wake;
    std::unique_ptr<Question> m_next; // guarded by m_mutex, as is m_stop
    bool m_stop = false;
    bool m_fresh = false; // guarded likewise: forget what may have changed
    std::atomic<bool> m_cancel{false};
    std::unique_ptr<Kept> m_kept; // the worker's own
    std::thread m_worker;
};

} // namespace stillroom::ui
