#pragma once

#include "core/preparation/keeping.h"
#include "core/preparation/nesting.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// When the parts of a preparation that stand on the shelf end: nothing made of them is kept longer.
namespace stillroom::preparation {

// The last day of a lot: as written on it, else by how long the thing keeps, where that is a preparation by
// its own lines in use and what went into them. nullopt: no limit, or nobody knows.
std::optional<std::string> lastDayOf(const larder::Lot& lot, const larder::Larder& larder,
                                     const Specs& preparations, const spec::HouseRules& rules);

struct PartDate {
    std::size_t line = 0;
    std::string madeOn, useBy; // civil dates of the lot
    friend bool operator==(const PartDate&, const PartDate&) = default;
};
// One for each line that is poured from a lot with a last day: the lot in use, and where none is, the one
// that ends first of those not used up. The larder and the preparations are those of now, also where the spec
// is an older revision.
std::vector<PartDate> partDates(const spec::Spec& spec, const spec::Bindings& bindings,
                                const larder::Larder& larder, const Specs& preparations);

// Of the lot that is poured from: the one in use, else the first to end of those not used up. `line` is 0.
std::optional<PartDate> lotAtHand(const larder::Ingredient& ingredient, const larder::Larder& larder,
                                  const Specs& preparations, const spec::HouseRules& rules);

// The dates that bind what is made on a day: a lot younger than that did not go into it.
std::vector<std::string> bindingOn(std::string_view madeOn, const std::vector<PartDate>& parts);
// Those of them that were over before that day.
std::vector<PartDate> pastOn(std::string_view madeOn, const std::vector<PartDate>& parts);

} // namespace stillroom::preparation
