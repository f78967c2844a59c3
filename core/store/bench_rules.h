#pragma once

#include "core/larder/larder.h"
#include "core/spec/evaluate.h"

namespace stillroom::store {

class Workbook;

// The book's rules with what its own measured dilutions say about predicted ones: for drafts. A kept revision
// is read without, as it was kept. No bench where nothing was measured. Throws StoreError.
spec::HouseRules benchRules(const Workbook& book, const larder::Larder& larder);

} // namespace stillroom::store
