#pragma once

#include <nlohmann/json.hpp>

#include <optional>
#include <string_view>

namespace stillroom::larder {

// JSON from outside: nullopt when it is not JSON or nests deeper than `maxDepth` (whatever handles the
// document afterwards may recurse).
std::optional<nlohmann::json> parseGuarded(std::string_view text, int maxDepth = 32);

// "22.5" -> 22.5. The whole text must be one finite decimal number, '.' as the point.
std::optional<double> doubleFromText(std::string_view text);

// A flag of an object; `fallback` where it is absent or no truth value (json::value would throw there).
bool flagOr(const nlohmann::json& object, const char* key, bool fallback);

} // namespace stillroom::larder
