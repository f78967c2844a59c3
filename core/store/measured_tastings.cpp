#include "core/store/measured_tastings.h"

#include "core/store/workbook.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

namespace stillroom::store {

namespace {

constexpr double kSameWater = 0.005;

struct AsKept {
    history::Revision revision;
    spec::Bindings bindings;
};

// Read once for each revision, however often it was tasted.
class Revisions {
  public:
    explicit Revisions(const Workbook& book) : m_book(book) {}

    const AsKept* at(base::RevisionId id) {
        const auto known = m_known.find(id);
        if (known != m_known.end()) return known->second ? &*known->second : nullptr;
        auto& slot = m_known[id];
        auto revision = m_book.revision(id);
        if (!revision) return nullptr;
        spec::Bindings bindings = bound(*revision);
        slot.emplace(AsKept{*std::move(revision), std::move(bindings)});
        return &*slot;
    }

    bool allPinned() const { return m_allPinned; }

  private:
    // What was measured asks for masses and no prices: where every line's facts were pinned, those alone are
    // read. The larder as it stood, prices and all, takes a hundred times as long.
    spec::Bindings bound(const history::Revision& revision) {
        const auto& states = revision.facts.states;
        const bool pinned =
            std::all_of(revision.spec.lines.begin(), revision.spec.lines.end(), [&](const spec::Line& line) {
                return line.ingredient && states.count(*line.ingredient) > 0 && line.alternatives.empty();
            });
        m_allPinned = m_allPinned && pinned;
        if (!pinned) return {revision.spec, m_book.larderOf(revision), m_book.rulesOf(revision)};
        larder::Larder larder = larder::Larder::withoutHandbook();
        for (const auto& [id, hash] : states) {
            larder::Ingredient poured;
            poured.id = id;
            poured.facts = state(hash);
            for (const spec::Line& line : revision.spec.lines)
                if (line.ingredient == id) poured.name = line.name;
            larder.put(std::move(poured));
        }
        spec::HouseRules rules;
        rules.measures = revision.measures;
        return {revision.spec, larder, rules};
    }

    const larder::FactState& state(const std::string& hash) {
        const auto known = m_states.find(hash);
        if (known != m_states.end()) return known->second;
        return m_states.emplace(hash, m_book.factState(hash).value_or(larder::FactState{})).first->second;
    }

    const Workbook& m_book;
    bool m_allPinned = true;
    std::map<std::string, larder::FactState> m_states; // by hash
    std::map<base::RevisionId, std::optional<AsKept>> m_known;
};

std::vector<tasting::Tasting> measuredTastings(const Workbook& book) {
    const auto* side = dynamic_cast<const MeasuredTastings*>(&book);
    return side ? side->measuredTastings() : std::vector<tasting::Tasting>{};
}

} // namespace

bool addTasted(std::vector<spec::Spec>& measured, const Workbook& book) {
    Revisions revisions(book);
    for (const auto& tasting : measuredTastings(book)) {
        const auto& said = tasting.circumstances.measured;
        if (!said.weight && !said.volume && !said.brixRead) continue;
        const AsKept* kept = revisions.at(tasting.revision);
        if (!kept) continue;
        const auto entry =
            tasting::dilutionMeasured(kept->revision.spec, kept->bindings, tasting.circumstances);
        if (!entry) continue;
        const auto& own = kept->revision.spec.method.dilution;
        if (own && own->origin == spec::DilutionOrigin::Measured &&
            std::abs(own->ratio - entry->ratio) < kSameWater)
            continue;
        spec::Spec spec = kept->revision.spec;
        spec.method.dilution = *entry;
        measured.push_back(std::move(spec));
    }
    return revisions.allPinned();
}

tasting::TemperatureBench temperatureBench(const Workbook& book, spec::Technique technique) {
    Revisions revisions(book);
    std::vector<tasting::TemperatureFound> found;
    for (const auto& tasting : measuredTastings(book)) {
        if (!tasting.circumstances.measured.temperature) continue;
        const AsKept* kept = revisions.at(tasting.revision);
        if (!kept || kept->revision.spec.method.technique != technique) continue;
        if (const auto one =
                tasting::temperatureMeasured(kept->revision.spec, kept->bindings, tasting.circumstances))
            found.push_back(*one);
    }
    return tasting::temperatureBench(found);
}

} // namespace stillroom::store
