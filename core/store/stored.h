#pragma once

#include "core/spec/reading.h"
#include "core/spec/spec.h"
#include "core/store/connection.h"

#include <string>
#include <vector>

// Internal to core/store: what several repositories read back from columns.
namespace stillroom::store {

// Throws Damaged, naming `what`, when the text cannot be read.
inline spec::Spec storedSpec(const std::string& json, const std::string& path, const std::string& what) {
    auto spec = spec::Spec::fromCanonicalJson(json);
    if (!spec) throw StoreError(StoreErrorKind::Damaged, 0, path, "the spec of " + what + " cannot be read");
    return *std::move(spec);
}

// A list of texts as a JSON array, and back; anything else reads as an empty list.
std::string listJson(const std::vector<std::string>& texts);
std::vector<std::string> storedList(const std::string& json);

inline StoreError notFound(const Connection& connection, const std::string& sort, const std::string& id) {
    return {StoreErrorKind::NotFound, 0, connection.path(), "there is no " + sort + " " + id};
}

inline spec::Reading storedReading(const std::string& bound, double value, double upper, bool estimate,
                                   std::int64_t gapLines) {
    spec::Reading reading{value, upper, spec::Bound::Unknown, estimate, static_cast<std::uint64_t>(gapLines)};
    for (int i = 0; i <= static_cast<int>(spec::Bound::NotApplicable); ++i)
        if (spec::boundId(static_cast<spec::Bound>(i)) == bound) reading.bound = static_cast<spec::Bound>(i);
    return reading;
}

} // namespace stillroom::store
