#pragma once

#include "core/larder/larder.h"
#include "core/spec/evaluate.h"

namespace stillroom::store {

class Workbook;

// The book's rules with what its own measured dilutions say about predicted ones: for drafts. A kept revision
// stores what its draft read as; the bench of a later day does not touch it. No bench where nothing was
// measured. Throws StoreError.
spec::HouseRules benchRules(const Workbook& book, const larder::Larder& larder);

} // namespace stillroom::store
