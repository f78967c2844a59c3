#include "core/store/bench_rules.h"

#include "core/spec/calibration.h"
#include "core/store/workbook.h"

namespace stillroom::store {

spec::HouseRules benchRules(const Workbook& book, const larder::Larder& larder) {
    spec::HouseRules rules = book.settings().rules;
    const auto observed = spec::dilutionObservations(book.measuredSpecs(), larder, rules);
    rules.bench.reset();
    if (auto bench = spec::benchCalibration(observed); !bench.isEmpty()) rules.bench = bench;
    return rules;
}

} // namespace stillroom::store
