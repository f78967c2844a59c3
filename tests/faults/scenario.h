#pragma once

#include "core/store/schema.h"
#include "tests/core/store/store_support.h"

#include <filesystem>
#include <string>
#include <vector>

// What the fault tests do to a workbook, and what must be true of it afterwards.
namespace stillroom::test {

// A sitting's work on an existing book: drafts, two revisions, a tasting, a bottle, a new drink.
class Sitting {
  public:
    explicit Sitting(base::DraftId draft, base::PersonId taster) : m_draft(draft), m_taster(taster) {}

    // Does every step, going on after one that fails. Stops when `stopAtFailure`.
    void work(store::Workbook& book, bool stopAtFailure);
    // What a file must hold afterwards. Problems in words, none when all is well. After a power cut a draft
    // may have lost what came after the last step that had to reach the disk.
    std::vector<std::string> problems(const std::string& path, bool powerCut) const;
    int acknowledged() const { return m_acknowledged; }
    int failed() const { return m_failed; }

  private:
    template <class Step>
    bool step(Step&& step);
    void saveDraft(store::Workbook& book, int ml);
    void keep(store::Workbook& book, const std::string& reason);
    void mustStayInSight(const store::Workbook& book);

    base::DraftId m_draft;
    base::PersonId m_taster;
    bool m_stopAtFailure = false;
    bool m_stopped = false;
    int m_acknowledged = 0;
    int m_failed = 0;
    // Every spec that was tried, in order; the last one acknowledged; the last one that had reached the disk.
    std::vector<spec::Spec> m_specs{sour(22)};
    std::size_t m_acknowledgedSpec = 0;
    std::size_t m_durableSpec = 0;
    std::vector<history::Revision> m_revisions;
    std::vector<tasting::Tasting> m_tastings;
    std::vector<larder::Ingredient> m_ingredients;
    std::vector<history::Drink> m_drinks;
    std::string m_name = "The Low Lamp";
    std::vector<std::string> m_seen; // wrong already while the book was open
};

// A book for sittings to start from, made once and copied for each.
class Template {
  public:
    Template();
    std::string copyTo(const std::string& path) const {
        std::filesystem::copy_file(m_path, path, std::filesystem::copy_options::overwrite_existing);
        return path;
    }
    Sitting sitting() const { return Sitting(m_draft, m_taster); }

  private:
    TempFolder m_folder;
    std::string m_path;
    base::DraftId m_draft;
    base::PersonId m_taster;
};

// The schema of today and one more file that makes a table, fills it, and widens another.
std::vector<store::Migration> withNextSchema();
// After an upgrade was interrupted: the file is whole, of the old version or the new, with all its content.
std::vector<std::string> upgradeProblems(const std::string& path, bool mustBeNew);
// Where that upgrade puts its copy of the old file.
std::string upgradeBackupOf(const std::string& path);

// A book whose purchases many drafts and revisions name, to be edited all at once.
class ManyUses {
  public:
    ManyUses();
    std::string copyTo(const std::string& path) const {
        std::filesystem::copy_file(m_path, path, std::filesystem::copy_options::overwrite_existing);
        return path;
    }
    // One edit of every ingredient: facts, prices and terms.
    std::vector<larder::Ingredient> edited() const;
    // All as before or all as edited; as edited when that was acknowledged. Nothing else may have changed.
    std::vector<std::string> problems(const std::string& path, bool acknowledged) const;

  private:
    TempFolder m_folder;
    std::string m_path;
    std::vector<larder::Ingredient> m_before;
};

inline const base::FixedClock kFaultClock{kEvening};

} // namespace stillroom::test
