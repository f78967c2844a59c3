#pragma once

#include "core/base/text.h"
#include "core/exchange/read_text.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

// Compares a reading with the corpus' expectation by the rules of tests/corpus/data/README.md.
namespace stillroom::corpus {

using Json = nlohmann::json;

inline std::string comparable(const std::string& text) {
    std::string t = base::toLower(base::toNfkc(text));
    std::string out;
    for (const char c : t) {
        if (c == ' ' && (out.empty() || out.back() == ' ')) continue;
        out.push_back(c);
    }
    const auto strip = [](char c) { return c == ' ' || c == '.' || c == ',' || c == ';' || c == '*'; };
    while (!out.empty() && strip(out.back()))
        out.pop_back();
    return out;
}

inline bool near(double a, double b) {
    return std::abs(a - b) <= 0.005 * std::max(std::abs(a), std::abs(b));
}

inline double low(const spec::Measured& m) {
    return m.amount.low.toDouble() * m.multiplier.toDouble();
}
inline double high(const spec::Measured& m) {
    return m.amount.high.toDouble() * m.multiplier.toDouble();
}

inline bool sameAmount(const Json& expected, const spec::Measured& read) {
    if (expected.is_null()) return !read.amount.isStated();
    if (!read.amount.isStated()) return false;
    if (expected.is_array())
        return near(expected[0].get<double>(), low(read)) && near(expected[1].get<double>(), high(read));
    return near(expected.get<double>(), low(read)) && near(expected.get<double>(), high(read));
}

inline std::string textOf(const Json& object, const char* key) {
    const auto found = object.find(key);
    return found == object.end() || found->is_null() ? std::string() : found->get<std::string>();
}

inline bool sameUnit(const Json& expected, const std::string& unit) {
    if (textOf(expected, "unit") == unit) return true;
    const auto also = expected.find("accept_unit");
    return also != expected.end() && std::any_of(also->begin(), also->end(), [&](const Json& other) {
               return other.get<std::string>() == unit;
           });
}

inline std::string kindId(exchange::ReadKind kind) {
    static const std::array<const char*, 9> ids{"ingredient", "garnish", "heading", "fused", "method",
                                                "title",      "note",    "refused", "unread"};
    return ids[static_cast<std::size_t>(kind)];
}

inline bool matchesOne(const Json& expected, const exchange::ReadLine& read) {
    const std::string kind = expected.contains("kind") ? textOf(expected, "kind") : "ingredient";
    if (kind != kindId(read.kind)) return false;
    if (kind == "heading") return true;
    if (kind == "fused") {
        const Json& parts = expected.at("parts");
        if (parts.size() != read.parts.size()) return false;
        for (std::size_t i = 0; i < parts.size(); ++i)
            if (!matchesOne(parts[i], read.parts[i])) return false;
        return true;
    }
    if (comparable(textOf(expected, "ingredient")) != comparable(read.line.name)) return false;
    if (kind == "garnish") return true;
    return sameAmount(expected.at("amount"), read.line.poured) && sameUnit(expected, read.unit);
}

// The figure or its measure differs, whatever the name and the note say.
inline bool numberDiffers(const Json& expected, const exchange::ReadLine& read) {
    const std::string kind = textOf(expected, "kind");
    if (kind != "ingredient" || read.kind != exchange::ReadKind::Ingredient)
        return kind != kindId(read.kind) && read.line.poured.amount.isStated();
    return !sameAmount(expected.at("amount"), read.line.poured) || !sameUnit(expected, read.unit);
}

inline std::string shown(const exchange::ReadLine& read) {
    std::string text = kindId(read.kind) + " ";
    if (read.line.poured.amount.isStated())
        text += read.line.poured.amount.low.text() + ".." + read.line.poured.amount.high.text();
    text += " [" + read.unit + "] {" + read.line.name + "} (" + read.line.note + ")";
    if (read.unsure) text += " UNSURE";
    for (const exchange::ReadLine& part : read.parts)
        text += " | " + shown(part);
    return text;
}

} // namespace stillroom::corpus
