#pragma once

#include "core/larder/price_line.h"
#include "ui/plots/price_steps.h"

namespace stillroom::ui {

PriceStepsValues priceStepsValues(const larder::PriceLine& line, const quantity::Currency& currency,
                                  const std::string& today);

} // namespace stillroom::ui
