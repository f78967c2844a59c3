#pragma once

#include "core/store/book.h"
#include "core/store/panels_of_book.h"

// Internal to core/store.
namespace stillroom::store {

// Blind sessions: the dealt plan, and what was added to it since. All append-only but names and the bin.
class PanelRepository {
  public:
    explicit PanelRepository(Book& book) : m_book(book) {}

    base::PanelId add(const std::string& name, const tasting::Panel& panel);
    void addStep(base::PanelId panel, tasting::PanelState state);
    void addAnswer(base::PanelId panel, base::PersonId taster, const tasting::Answer& answer);
    void rename(base::PanelId panel, const std::string& name); // throws NotFound
    void bin(base::PanelId panel, bool binned);                // likewise

    std::optional<tasting::Panel> find(base::PanelId panel) const;
    std::vector<base::PanelId> all() const; // newest first, binned ones last
    std::vector<base::PanelId> of(base::RevisionId product) const;
    PanelSummary summary(base::PanelId panel) const;

    // What check() finds: a plan or an answer that is not what was written, or steps and answers that do not
    // fit together.
    struct Fault {
        std::string name; // of the panel
        std::string what;
    };
    std::vector<Fault> faults(int& panels, int& answers) const;

  private:
    void require(base::PanelId panel) const;
    std::vector<base::RevisionId> productsOf(base::PanelId panel) const;
    Book& m_book;
};

// What an answer says, for its hash.
std::string canonicalAnswer(base::PanelId panel, base::PersonId taster, const base::Instant& given,
                            const std::string& answer);

} // namespace stillroom::store
