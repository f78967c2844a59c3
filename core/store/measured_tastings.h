#pragma once

#include "core/spec/spec.h"
#include "core/tasting/measured_drink.h"
#include "core/tasting/tasting.h"

#include <vector>

namespace stillroom::store {

class Workbook;

// Tastings at which a weight, volume, temperature or Brix was measured, amended ones left out: a side of
// every open workbook, asked for by the functions below.
class MeasuredTastings {
  public:
    virtual ~MeasuredTastings() = default;
    virtual std::vector<tasting::Tasting> measuredTastings() const = 0;
};

// For Workbook::measuredSpecs(): the revisions that were weighed or measured when they were tasted, with the
// water found as their dilution, by the facts they were kept with. One whose method has that same water
// already (to half a hundredth) is not added: it is one weighing, noted twice. True: all of it was found in
// what was kept, and will be the same while nothing is kept and nobody tastes; false: the larder of today had
// a say.
bool addTasted(std::vector<spec::Spec>& measured, const Workbook& book);

// How much warmer than predicted drinks of this technique were measured in the whole book. Throws StoreError.
tasting::TemperatureBench temperatureBench(const Workbook& book, spec::Technique technique);

} // namespace stillroom::store
