#pragma once

#include "core/base/clock.h"
#include "core/tasting/panel.h"

#include <tl/expected.hpp>

#include <optional>
#include <string>
#include <vector>

namespace stillroom::store {

// What everyone may see of a session at any time: no codes, nothing foretold, no answers.
struct PanelSummary {
    base::PanelId id;
    std::string name;
    tasting::PanelKind kind = tasting::PanelKind::Triangle;
    std::string attribute;
    tasting::PanelState state = tasting::PanelState::Designed;
    base::Instant created;
    std::optional<base::Instant> closed;
    std::vector<base::RevisionId> products; // in the order of the revisions, not of the design
    int tasters = 0;
    int answered = 0; // tasters whose last answer is not empty
    bool binned = false;
    friend bool operator==(const PanelSummary&, const PanelSummary&) = default;
};

// Blind sessions. The dealt plan never changes; answers and steps are added to it. Part of a Workbook, with
// its promises; a panel that is not there is a StoreError (NotFound).
class PanelsOfBook {
  public:
    virtual ~PanelsOfBook() = default;

    // As tasting::designPanel dealt it. WrongState where it was poured already; Malformed where it does not
    // fit together.
    virtual tl::expected<base::PanelId, tasting::PanelError> addPanel(const std::string& name,
                                                                      const tasting::Panel& panel) = 0;
    virtual tl::expected<void, tasting::PanelError> startPouring(base::PanelId panel) = 0;
    // Replaces what that taster said before; an empty answer takes it back. Both stay in the file.
    virtual tl::expected<void, tasting::PanelError> addAnswer(base::PanelId panel, base::PersonId taster,
                                                              const tasting::Answer& answer) = 0;
    virtual tl::expected<void, tasting::PanelError> closePanel(base::PanelId panel) = 0;
    virtual void renamePanel(base::PanelId panel, const std::string& name) = 0;
    virtual void binPanel(base::PanelId panel, bool binned) = 0;

    virtual std::vector<PanelSummary> panels() const = 0; // newest first, binned ones last
    virtual std::vector<PanelSummary> panelsOf(base::RevisionId product) const = 0; // likewise
    // All of it, the secret too: for the pourer's key, and for the result once it is closed. What tasters see
    // comes from tasting::tasterSheet and tasting::publicView.
    virtual std::optional<tasting::Panel> panel(base::PanelId panel) const = 0;
};

} // namespace stillroom::store
