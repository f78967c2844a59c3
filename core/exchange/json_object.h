#pragma once

#include "core/base/clock.h"
#include "core/base/text.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

// Internal to core/exchange, for the .cpp files that read a book's JSON.
namespace stillroom::exchange {

using nlohmann::json;

// Thrown and caught inside this folder only: says what is wrong, and gains where on its way up.
struct Misread : std::runtime_error {
    using std::runtime_error::runtime_error;
};

class Object {
  public:
    Object(const json& value, std::initializer_list<std::string_view> keys) : m_value(value) {
        if (!value.is_object()) throw Misread("must be an object");
        for (const auto& [key, ignored] : value.items())
            if (std::find(keys.begin(), keys.end(), key) == keys.end())
                throw Misread(fmt::format("unknown key \"{}\"", key));
    }

    bool has(const char* key) const { return m_value.contains(key) && !m_value[key].is_null(); }

    std::string text(const char* key) const {
        if (!has(key)) return {};
        if (!m_value[key].is_string()) throw Misread(fmt::format("\"{}\" must be a text", key));
        return m_value[key].get<std::string>();
    }

    std::string required(const char* key) const {
        std::string value = text(key);
        if (base::trimmed(value).empty()) throw Misread(fmt::format("\"{}\" is missing", key));
        return value;
    }

    // A text, or a list of lines.
    std::string lines(const char* key) const {
        if (!has(key) || !m_value[key].is_array()) return required(key);
        std::string all;
        for (const json& line : m_value[key]) {
            if (!line.is_string()) throw Misread(fmt::format("\"{}\" must be a list of lines", key));
            all += line.get<std::string>() + "\n";
        }
        return all;
    }

    std::optional<double> number(const char* key, double lowest, double highest) const {
        if (!has(key)) return std::nullopt;
        if (!m_value[key].is_number()) throw Misread(fmt::format("\"{}\" must be a number", key));
        const double value = m_value[key].get<double>();
        if (!(value >= lowest && value <= highest))
            throw Misread(fmt::format("\"{}\" must lie between {} and {}", key, lowest, highest));
        return value;
    }

    bool flag(const char* key) const {
        if (!has(key)) return false;
        if (!m_value[key].is_boolean()) throw Misread(fmt::format("\"{}\" must be true or false", key));
        return m_value[key].get<bool>();
    }

    std::optional<std::int64_t> whole(const char* key) const {
        if (!has(key)) return std::nullopt;
        if (!m_value[key].is_number_integer())
            throw Misread(fmt::format("\"{}\" must be a whole number", key));
        return m_value[key].get<std::int64_t>();
    }

    // Null where it is not said.
    template <class IdType>
    IdType id(const char* key) const {
        if (!has(key)) return {};
        const auto read = IdType::fromText(text(key));
        if (!read) throw Misread(fmt::format("\"{}\" must be an id", key));
        return *read;
    }

    base::Instant instant(const char* key) const {
        const base::Instant when = base::instantFromIso(required(key));
        if (when == base::Instant{})
            throw Misread(fmt::format("\"{}\" must be a time like 2026-11-06T21:10:00+00:00", key));
        return when;
    }

    const json& list(const char* key) const {
        static const json nothing = json::array();
        if (!has(key)) return nothing;
        if (!m_value[key].is_array()) throw Misread(fmt::format("\"{}\" must be a list", key));
        return m_value[key];
    }

    const json& at(const char* key) const { return m_value[key]; }

  private:
    const json& m_value;
};

// Reads each entry of a list; what goes wrong inside is told with the entry's place.
template <class Read>
auto readEach(const json& list, const char* what, Read read) {
    std::vector<decltype(read(list[0]))> result;
    for (const json& entry : list) {
        try {
            result.push_back(read(entry));
        } catch (const Misread& problem) {
            throw Misread(fmt::format("{} {}: {}", what, result.size() + 1, problem.what()));
        }
    }
    return result;
}

inline void putIfSaid(json& object, const char* key, const std::string& text) {
    if (!text.empty()) object[key] = text;
}

} // namespace stillroom::exchange
