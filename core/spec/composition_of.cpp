#include "core/physics/dilution.h"
#include "core/spec/evaluate.h"
#include "core/spec/scenario.h"

namespace stillroom::spec {

namespace {

class Collector : public LineListener {
  public:
    Collector(const Spec& spec, const Bindings::Data& data, Stage stage)
        : m_spec(spec),
          m_data(data),
          m_stage(stage) {}
    void stays(std::size_t line, double units) override {
        if (m_stage != Stage::Served && m_spec.lines[line].role != Role::Mixed) return;
        if (line < m_data.lines.size()) composition.addScaled(m_data.lines[line].facts->perUnit, units);
    }
    physics::Composition composition;

  private:
    const Spec& m_spec;
    const Bindings::Data& m_data;
    Stage m_stage;
};

} // namespace

physics::Composition compositionOf(const Spec& spec, const Bindings& bindings, Stage stage) {
    const Bindings::Data& data = bindings.data();
    Collector collector(spec, data, stage);
    Scenario upperEnds;
    upperEnds.rangesHigh = ~std::uint32_t{0};
    const Pass read = pass(spec, data, upperEnds, &collector);
    if (stage != Stage::Measured)
        collector.composition[physics::Substance::Water] +=
            physics::waterFromDilution(read.dilution, quantity::Volume::fromMl(read.volumeMl[0])).grams();
    return collector.composition;
}

} // namespace stillroom::spec
