#pragma once

#include "core/larder/larder.h"
#include "core/spec/spec.h"

#include <optional>

namespace stillroom::exchange {

// What "1 bottle" or "2 cans" of something hold: the size of the pack the house buys of it, the newest where
// there are several. nullopt: another measure, a size the line states itself, or no pack by the millilitre.
std::optional<spec::Measured> packStated(const spec::Line& line, const larder::Larder& larder);

} // namespace stillroom::exchange
