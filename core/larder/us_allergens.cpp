#include "core/larder/us_allergens.h"

#include "core/larder/allergens.h"

#include <algorithm>

namespace stillroom::larder {

std::optional<UsList> usWhereItDiffers(const std::vector<std::string>& euIds) {
    FactState facts;
    facts.allergens = euIds;
    AllergenReading reading = allergensOf(facts);
    const bool same = reading.usMayBe.empty() && reading.us.size() == reading.eu.size() &&
                      std::is_permutation(reading.us.begin(), reading.us.end(), reading.eu.begin());
    if (same) return std::nullopt;
    return UsList{std::move(reading.us), std::move(reading.usMayBe)};
}

} // namespace stillroom::larder
