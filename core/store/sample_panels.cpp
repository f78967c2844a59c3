#include "core/store/sample_panels.h"

#include "core/tasting/panel_entry.h"

#include <algorithm>
#include <array>
#include <stdexcept>
#include <utility>

namespace stillroom::store {

namespace {

using tasting::PanelKind;

constexpr std::array<std::pair<const char*, const char*>, 9> kFriends{{{"Jory Wend", "JW"},
                                                                       {"Piers Amble", "PA"},
                                                                       {"Rhona Sker", "RS"},
                                                                       {"Esmond Lyle", "EL"},
                                                                       {"Hedra Dove", "HD"},
                                                                       {"Vesna Noor", "VN"},
                                                                       {"Corin Oake", "CO"},
                                                                       {"Greta Ashby", "GA"},
                                                                       {"Una Thrift", "UT"}}};

class Sessions {
  public:
    Sessions(Workbook& workbook, BookClock& clock) : m_workbook(workbook), m_clock(clock) {
        for (const auto& person : workbook.people())
            m_tasters.push_back(person.id);
        for (const auto& [name, initials] : kFriends)
            m_tasters.push_back(workbook.addPerson(name, initials));
    }

    base::RevisionId revision(const std::string& drink, int number) const {
        for (const DrinkSummary& summary : m_workbook.summaries()) {
            if (summary.name != drink) continue;
            for (const history::Revision& revision : m_workbook.revisions(summary.id))
                if (revision.number == number) return revision.id;
        }
        throw std::runtime_error("the sample has no revision " + std::to_string(number) + " of " + drink);
    }

    void plan(const char* at, const std::string& name, PanelKind kind, std::vector<base::RevisionId> products,
              std::size_t tasters) {
        m_clock.set(base::instantFromIso(at));
        tasting::PanelDesign design;
        design.kind = kind;
        design.products = std::move(products);
        design.tasters.assign(m_tasters.begin(), m_tasters.begin() + static_cast<std::ptrdiff_t>(tasters));
        design.seed = kSeed;
        m_panel = tasting::designPanel(design).value();
        m_id = m_workbook.addPanel(name, m_panel).value();
    }

    void pour() { require(m_workbook.startPouring(m_id)); }
    void close(const char* at) {
        m_clock.set(base::instantFromIso(at));
        require(m_workbook.closePanel(m_id));
    }

    // The odd cup where `right`, else the first of the others.
    void chooseOdd(std::size_t taster, bool right, const std::string& note = {}) {
        const auto& cups = m_panel.servings[taster].cups;
        const auto isOdd = [&](const tasting::Cup& cup) {
            return 1 == std::count_if(cups.begin(), cups.end(), [&](const tasting::Cup& other) {
                       return other.product == cup.product;
                   });
        };
        tasting::Answer answer;
        answer.chosen = std::find_if(cups.begin(), cups.end(), [&](const tasting::Cup& cup) {
                            return isOdd(cup) == right;
                        })->code;
        answer.note = note;
        require(m_workbook.addAnswer(m_id, m_panel.design.tasters[taster], answer));
    }

    void rank(std::size_t taster, const std::vector<int>& byProduct) {
        tasting::Answer answer;
        for (const tasting::Cup& cup : m_panel.servings[taster].cups)
            answer.ranks[cup.code] = byProduct[cup.product];
        require(m_workbook.addAnswer(m_id, m_panel.design.tasters[taster], answer));
    }

  private:
    static constexpr std::uint64_t kSeed = 9; // Nine Lights

    static void require(const tl::expected<void, tasting::PanelError>& done) {
        if (!done)
            throw std::runtime_error("the sample's panel was refused: " +
                                     std::string(tasting::panelErrorId(done.error())));
    }

    Workbook& m_workbook;
    BookClock& m_clock;
    std::vector<base::PersonId> m_tasters;
    tasting::Panel m_panel;
    base::PanelId m_id;
};

} // namespace

void addSamplePanels(Workbook& workbook, BookClock& clock) {
    clock.set(base::instantFromIso("2026-11-22T19:30:00+01:00"));
    Sessions sessions(workbook, clock);
    sessions.plan("2026-11-22T19:40:00+01:00", "The spine under the smoke", PanelKind::Triangle,
                  {sessions.revision("Ox Skerry", 3), sessions.revision("Ox Skerry", 4)}, 12);
    sessions.pour();
    for (std::size_t taster = 0; taster < 12; ++taster)
        sessions.chooseOdd(taster, taster % 3 != 2, taster == 4 ? "one of them is longer" : "");
    sessions.close("2026-11-22T21:05:00+01:00");

    sessions.plan("2026-11-24T19:15:00+01:00", "Which opens the set", PanelKind::Ranking,
                  {sessions.revision("Ox Skerry", 4), sessions.revision("Quill Point", 2),
                   sessions.revision("Hallan Stack", 1), sessions.revision("Maiden Ledge", 1)},
                  8);
    sessions.pour();
    sessions.rank(0, {1, 2, 4, 3});
    sessions.rank(1, {2, 1, 3, 4});
    sessions.rank(2, {1, 3, 3, 2});

    sessions.plan("2026-11-24T22:10:00+01:00", "Quill Point, old or new", PanelKind::PairedPreference,
                  {sessions.revision("Quill Point", 1), sessions.revision("Quill Point", 2)}, 12);
    clock.release();
}

} // namespace stillroom::store
