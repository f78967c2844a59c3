#include "core/physics/dilution.h"
#include "core/spec/evaluate.h"
#include "core/spec/heat_parts.h"
#include "core/spec/scenario.h"

namespace stillroom::spec {

namespace {

class Collector : public LineListener {
  public:
    Collector(const Spec& spec, const Bindings::Data& data, std::uint8_t atLargest, Stage stage)
        : m_spec(spec),
          m_data(data),
          m_atLargest(atLargest),
          m_stage(stage) {}
    void stays(std::size_t line, double units) override {
        if (m_stage != Stage::Served && m_spec.lines[line].role != Role::Mixed) return;
        if (line >= m_data.lines.size()) return;
        const PreparedFacts& facts = *m_data.lines[line].facts;
        const auto unknown = static_cast<std::uint8_t>(facts.unknown & m_atLargest);
        if (unknown == 0)
            composition.addScaled(facts.perUnit, units);
        else
            composition.addScaled(unitComposition(facts, unknown), units);
    }
    physics::Composition composition;

  private:
    const Spec& m_spec;
    const Bindings::Data& m_data;
    std::uint8_t m_atLargest;
    Stage m_stage;
};

} // namespace

physics::Composition stageComposition(const Spec& spec, const Bindings::Data& data, const Scenario& scenario,
                                      Stage stage) {
    Collector collector(spec, data, scenario.factsAtLargest, stage);
    const Pass read = pass(spec, data, scenario, &collector);
    if (stage != Stage::Measured)
        collector.composition[physics::Substance::Water] +=
            physics::waterFromDilution(read.dilution, quantity::Volume::fromMl(read.volumeMl[0])).grams();
    return collector.composition;
}

physics::Composition compositionOf(const Spec& spec, const Bindings& bindings, Stage stage) {
    Scenario upperEnds;
    upperEnds.rangesHigh = ~std::uint32_t{0};
    return stageComposition(spec, bindings.data(), upperEnds, stage);
}

} // namespace stillroom::spec
