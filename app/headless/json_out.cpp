#include "app/headless/json_out.h"

#include "app/headless/words.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <ostream>

namespace stillroom::headless {

namespace {

using nlohmann::ordered_json;

ordered_json textOrNull(const std::string& text) {
    return text.empty() ? ordered_json(nullptr) : ordered_json(text);
}

// What is poured in all: "2 × 25 ml" is 50. A product too large to hold stays as it was written.
quantity::Rational times(const quantity::Rational& value, const quantity::Rational& multiplier) {
    return value.times(multiplier).value_or(value);
}

void putAmount(ordered_json& json, const spec::Measured& measured) {
    const quantity::Amount& amount = measured.amount;
    const quantity::Rational low = times(amount.low, measured.multiplier);
    const quantity::Rational high = times(amount.high, measured.multiplier);
    switch (amount.kind) {
    case quantity::Amount::Kind::None:
        json["amount"] = nullptr;
        json["amount_exact"] = nullptr;
        break;
    case quantity::Amount::Kind::Exact:
        json["amount"] = low.toDouble();
        json["amount_exact"] = low.text();
        break;
    case quantity::Amount::Kind::Range:
        json["amount"] = {low.toDouble(), high.toDouble()};
        json["amount_exact"] = {low.text(), high.text()};
        break;
    }
}

// A line as read carries no ingredient yet: its name is matched here, as toSpec matches it.
ordered_json matchedJson(const spec::Line& line, const larder::Larder& larder) {
    if (line.name.empty()) return nullptr;
    const larder::NameMatch match = larder.match(line.name);
    std::optional<base::IngredientId> id = line.ingredient;
    if (!id) id = exchange::ingredientOf(line, larder);
    const larder::Ingredient* kind = id ? larder.find(*id) : nullptr;
    const larder::Ingredient* poured = id ? larder.poured(*id) : nullptr;
    if (!kind) return nullptr;
    return {{"name", kind->name},
            {"quality", matchQualityId(match.quality)},
            {"pours", poured ? poured->name : kind->name}};
}

std::string unitOf(const spec::Line& line) {
    if (line.poured.measure) return std::string(quantity::measureInfo(*line.poured.measure).id);
    switch (line.role) {
    case spec::Role::Topped:
        return "top";
    case spec::Role::Floated:
        return "float";
    case spec::Role::Rinse:
        return "rinse";
    case spec::Role::Mixed:
    case spec::Role::Garnish:
        break;
    }
    return "";
}

int placeOf(int specLine, const std::vector<int>& lineOf) {
    if (specLine < 0 || static_cast<std::size_t>(specLine) >= lineOf.size()) return -1;
    return lineOf[static_cast<std::size_t>(specLine)];
}

ordered_json placeJson(int place) {
    return place < 0 ? ordered_json(nullptr) : ordered_json(place);
}

// Code points a terminal or a reader's eye would obey: DEL, C1 controls, text direction.
bool isObeyed(unsigned point) {
    return (point >= 0x7F && point <= 0x9F) || point == 0x61C || point == 0x200E || point == 0x200F ||
           (point >= 0x2028 && point <= 0x202E) || (point >= 0x2066 && point <= 0x2069);
}

// Valid UTF-8 in, as nlohmann's dump gives it; JSON escapes out for the points above.
std::string escaped(const std::string& text) {
    std::string safe;
    safe.reserve(text.size());
    for (std::size_t i = 0; i < text.size();) {
        const auto byte = [&](std::size_t at) {
            return static_cast<unsigned>(static_cast<unsigned char>(text[at]));
        };
        std::size_t length = 1;
        unsigned point = byte(i);
        if (point >= 0xC0 && point < 0xE0 && i + 1 < text.size()) {
            length = 2;
            point = (point & 0x1FU) << 6U | (byte(i + 1) & 0x3FU);
        } else if (point >= 0xE0 && point < 0xF0 && i + 2 < text.size()) {
            length = 3;
            point = (point & 0x0FU) << 12U | (byte(i + 1) & 0x3FU) << 6U | (byte(i + 2) & 0x3FU);
        } else if (point >= 0xF0) {
            length = std::min<std::size_t>(4, text.size() - i);
            point = 0x10000;
        }
        if (isObeyed(point))
            safe += fmt::format("\\u{:04x}", point);
        else
            safe.append(text, i, length);
        i += length;
    }
    return safe;
}

} // namespace

ordered_json readingJson(const spec::Spec& spec, const spec::Reading& reading, std::string_view unit) {
    ordered_json json;
    const bool stated = reading.bound != spec::Bound::Unknown && reading.bound != spec::Bound::NotApplicable;
    json["value"] = stated ? ordered_json(reading.value) : ordered_json(nullptr);
    json["upper"] =
        reading.bound == spec::Bound::Between ? ordered_json(reading.upper) : ordered_json(nullptr);
    json["unit"] = unit;
    json["bound"] = spec::boundId(reading.bound);
    json["estimate"] = reading.estimate;
    json["gaps"] = ordered_json::array();
    for (std::size_t i = 0; i < spec.lines.size(); ++i)
        if ((reading.gapLines >> std::min<std::size_t>(i, 63) & 1U) != 0)
            json["gaps"].push_back(spec.lines[i].name);
    return json;
}

ordered_json doubtsJson(const std::vector<exchange::Doubt>& doubts) {
    ordered_json list = ordered_json::array();
    for (const exchange::Doubt& doubt : doubts)
        list.push_back({{"code", doubtId(doubt.code)},
                        {"weight", doubtWeightId(doubt.weight)},
                        {"detail", doubt.detail},
                        {"says", doubtWords(doubt)}});
    return list;
}

ordered_json readLineJson(const exchange::ReadLine& line, const larder::Larder& larder) {
    ordered_json json;
    json["raw"] = line.raw;
    json["kind"] = readKindId(line.kind);
    const bool isLine =
        line.kind == exchange::ReadKind::Ingredient || line.kind == exchange::ReadKind::Garnish;
    if (isLine) {
        putAmount(json, line.line.poured);
    } else {
        json["amount"] = nullptr;
        json["amount_exact"] = nullptr;
    }
    json["unit"] = textOrNull(line.unit);
    json["ingredient"] = textOrNull(line.line.name);
    json["note"] = textOrNull(line.line.note);
    json["parts"] = ordered_json::array();
    for (const exchange::ReadLine& part : line.parts)
        json["parts"].push_back(readLineJson(part, larder));
    json["role"] = isLine ? ordered_json(spec::roleId(line.line.role)) : ordered_json(nullptr);
    json["unsure"] = line.unsure;
    json["matched"] = isLine ? matchedJson(line.line, larder) : ordered_json(nullptr);
    json["doubts"] = doubtsJson(line.doubts);
    return json;
}

ordered_json specLineJson(const spec::Line& line, const larder::Larder& larder) {
    ordered_json json;
    json["raw"] = line.written;
    json["kind"] = line.role == spec::Role::Garnish ? "garnish" : "ingredient";
    putAmount(json, line.poured);
    json["unit"] = textOrNull(unitOf(line));
    json["ingredient"] = textOrNull(line.name);
    json["note"] = textOrNull(line.note);
    json["parts"] = ordered_json::array();
    json["role"] = spec::roleId(line.role);
    json["unsure"] = false;
    json["matched"] = matchedJson(line, larder);
    json["doubts"] = ordered_json::array();
    return json;
}

ordered_json stagesJson(const spec::Spec& spec, const spec::Readings& readings,
                        const quantity::Currency& currency) {
    ordered_json stages;
    for (std::size_t s = 0; s < spec::kStageCount; ++s) {
        ordered_json stage;
        for (std::size_t q = 0; q < spec::kQuantityCount; ++q) {
            const auto quantity = static_cast<spec::Quantity>(q);
            ordered_json reading = readingJson(spec, readings.stages[s].of[q], spec::quantityUnit(quantity));
            if (quantity == spec::Quantity::Cost) {
                reading["unit"] = currency.text();
                reading["currency"] = currency.text();
            }
            if (quantity == spec::Quantity::StandardDrinks)
                reading["grams_each"] = readings.standardDrinkGrams;
            stage[std::string(spec::quantityId(quantity))] = std::move(reading);
        }
        stages[std::string(spec::stageId(static_cast<spec::Stage>(s)))] = std::move(stage);
    }
    return stages;
}

ordered_json gapsJson(const std::vector<spec::Gap>& gaps, const std::vector<int>& lineOf) {
    ordered_json list = ordered_json::array();
    for (const spec::Gap& gap : gaps)
        list.push_back({{"code", spec::gapCodeId(gap.code)},
                        {"line", placeJson(placeOf(gap.line, lineOf))},
                        {"ingredient", textOrNull(gap.ingredient)},
                        {"says", gapWords(gap)}});
    return list;
}

ordered_json allergensJson(const spec::AllergenSummary& allergens, const spec::Spec& spec) {
    ordered_json unknown = ordered_json::array();
    for (const int line : allergens.unknownLines)
        unknown.push_back(spec.lines[static_cast<std::size_t>(line)].name);
    return {{"contains", allergens.contains},
            {"contains_us", allergens.containsUs},
            {"may_contain_us", allergens.mayContainUs},
            {"not_stated", std::move(unknown)},
            {"garnish_not_stated", allergens.garnishNotStated}};
}

ordered_json cautionsJson(const std::vector<spec::Caution>& cautions, const std::vector<int>& lineOf) {
    ordered_json list = ordered_json::array();
    for (const spec::Caution& caution : cautions) {
        ordered_json lines = ordered_json::array();
        for (const int line : caution.lines)
            if (placeOf(line, lineOf) >= 0) lines.push_back(placeOf(line, lineOf));
        list.push_back({{"id", caution.id},
                        {"severity", spec::severityId(caution.severity)},
                        {"text", caution.text},
                        {"source", textOrNull(caution.source)},
                        {"standing", caution.standing},
                        {"lines", std::move(lines)}});
    }
    return list;
}

std::string safeJson(const std::string& json) {
    return escaped(json);
}

void writeJson(std::ostream& out, const ordered_json& json) {
    out << escaped(json.dump(2, ' ', false, nlohmann::json::error_handler_t::replace)) << "\n";
}

} // namespace stillroom::headless
