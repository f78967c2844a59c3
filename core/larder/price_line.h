#pragma once

#include "core/larder/listing.h"

#include <string>
#include <vector>

// What a unit of an ingredient cost over time, as steps to be drawn.
namespace stillroom::larder {

struct PricePoint {
    std::string on;    // from this civil date it held
    int day = 0;       // days since 1970-01-01
    UnitPrice price;   // in the asked currency, by the exchange rate of its day
    double change = 0; // to the step before, 0.1 for a tenth more; 0 at the first and where that was free
    friend bool operator==(const PricePoint&, const PricePoint&) = default;
};

struct PriceLine {
    std::vector<PricePoint> points; // by day, one a day: of several packs the last given
    // Packs that stand on no line: without a date, in another unit than the newest, in a currency without a
    // rate of its day, or without a usable price.
    int leftOut = 0;
    friend bool operator==(const PriceLine&, const PriceLine&) = default;
};
// Of its own packs. The question's day is not looked at. A pack at the same unit price is a point too: it
// says the price still held.
PriceLine priceLine(const Larder& larder, const Ingredient& ingredient, const PriceQuestion& question);

// Days since 1970-01-01; 0 for what is no civil date.
int dayNumber(std::string_view civilDate);

} // namespace stillroom::larder
