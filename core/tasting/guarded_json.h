#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

// For .cpp files that read this folder's canonical JSON: texts may come from anywhere.
namespace stillroom::tasting {

struct Malformed : std::runtime_error {
    using std::runtime_error::runtime_error;
};

// What `read` makes of a text nested no deeper than `deepest`; nullopt where it is no JSON, or `read` throws
// Malformed or stumbles over a value of another type.
template <class Value, class Read>
std::optional<Value> readGuarded(std::string_view text, int deepest, Read read) {
    using Json = nlohmann::json;
    bool tooDeep = false;
    const auto guard = [&tooDeep, deepest](int depth, Json::parse_event_t, Json&) {
        tooDeep = tooDeep || depth > deepest;
        return !tooDeep;
    };
    try {
        const Json json = Json::parse(text.begin(), text.end(), guard, false);
        if (tooDeep || json.is_discarded()) return std::nullopt;
        return read(json);
    } catch (const Json::exception&) {
        return std::nullopt;
    } catch (const Malformed&) {
        return std::nullopt;
    }
}

// A whole number of 0 … most; 7.0 is not one.
inline int wholeFrom(const nlohmann::json& json, int most) {
    if (!json.is_number_integer()) throw Malformed("no whole number");
    if (json.is_number_unsigned() && json.get<std::uint64_t>() > static_cast<std::uint64_t>(most))
        throw Malformed("too large");
    const auto value = json.get<std::int64_t>();
    if (value < 0) throw Malformed("negative");
    return static_cast<int>(value);
}

inline std::string canonicalText(const nlohmann::json& json) {
    return json.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace); // keys are kept sorted
}

} // namespace stillroom::tasting
