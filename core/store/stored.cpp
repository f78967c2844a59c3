#include "core/store/stored.h"

#include <nlohmann/json.hpp>

namespace stillroom::store {

std::string listJson(const std::vector<std::string>& texts) {
    if (texts.empty()) return "[]";
    return nlohmann::json(texts).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::vector<std::string> storedList(const std::string& json) {
    std::vector<std::string> texts;
    if (json == "[]") return texts; // most drinks, and parsing takes longer than all the rest of a row
    const auto parsed = nlohmann::json::parse(json, nullptr, false);
    if (!parsed.is_array()) return texts;
    for (const auto& text : parsed)
        if (text.is_string()) texts.push_back(text.get<std::string>());
    return texts;
}

} // namespace stillroom::store
