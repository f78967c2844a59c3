#include "core/history/history.h"

#include "core/base/hash.h"
#include "core/base/text.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <charconv>
#include <string>

namespace stillroom::history {

namespace {

using nlohmann::json;

constexpr std::array kStages{spec::Stage::Measured, spec::Stage::Mixed, spec::Stage::Served};
constexpr std::array kBounds{spec::Bound::Exact,   spec::Bound::AtLeast, spec::Bound::AtMost,
                             spec::Bound::Between, spec::Bound::Unknown, spec::Bound::NotApplicable};

std::string asJsonText(std::string_view text) {
    return json(text).dump(-1, ' ', false, json::error_handler_t::replace);
}

std::string asJsonNumber(double value) {
    return '"' + base::shortestDecimal(value) + '"';
}

template <class Number>
std::optional<Number> numberFrom(const json& text) {
    if (!text.is_string()) return std::nullopt;
    const auto& digits = text.get_ref<const std::string&>();
    Number value{};
    const char* end = digits.data() + digits.size();
    const auto [stop, error] = std::from_chars(digits.data(), end, value);
    if (error != std::errc{} || stop != end) return std::nullopt;
    return value;
}

std::optional<spec::Bound> boundFrom(const json& text) {
    if (!text.is_string()) return std::nullopt;
    for (const spec::Bound bound : kBounds)
        if (spec::boundId(bound) == text.get_ref<const std::string&>()) return bound;
    return std::nullopt;
}

bool isPlainlyExact(const spec::Reading& reading) {
    return reading.bound == spec::Bound::Exact && reading.upper == 0 && !reading.estimate &&
           reading.gapLines == 0;
}

std::string readingText(const spec::Reading& reading) {
    if (isPlainlyExact(reading)) return asJsonNumber(reading.value);
    std::string text = "{\"bound\":" + asJsonText(spec::boundId(reading.bound));
    if (reading.estimate) text += ",\"estimate\":true";
    if (reading.gapLines != 0) text += ",\"gap_lines\":\"" + std::to_string(reading.gapLines) + '"';
    if (reading.upper != 0) text += ",\"upper\":" + asJsonNumber(reading.upper);
    if (reading.value != 0) text += ",\"value\":" + asJsonNumber(reading.value);
    return text + '}';
}

std::optional<spec::Reading> readingFrom(const json& entry) {
    spec::Reading reading;
    if (entry.is_string()) {
        const auto value = numberFrom<double>(entry);
        if (!value) return std::nullopt;
        reading.value = *value;
        reading.bound = spec::Bound::Exact;
        return reading;
    }
    if (!entry.is_object() || !entry.contains("bound")) return std::nullopt;
    const auto bound = boundFrom(entry["bound"]);
    if (!bound) return std::nullopt;
    reading.bound = *bound;
    reading.estimate = entry.contains("estimate") && entry["estimate"] == true;
    const auto readInto = [&entry](const char* key, auto& target) {
        if (!entry.contains(key)) return true;
        const auto value = numberFrom<std::remove_reference_t<decltype(target)>>(entry[key]);
        if (value) target = *value;
        return value.has_value();
    };
    if (!readInto("gap_lines", reading.gapLines) || !readInto("upper", reading.upper) ||
        !readInto("value", reading.value))
        return std::nullopt;
    return reading;
}

// The quantities of a stage in the order of their ids, so that keys come out sorted.
const std::array<spec::Quantity, spec::kQuantityCount>& quantitiesById() {
    static const auto sorted = [] {
        std::array<spec::Quantity, spec::kQuantityCount> all{};
        for (std::size_t i = 0; i < all.size(); ++i)
            all[i] = static_cast<spec::Quantity>(i);
        std::sort(all.begin(), all.end(),
                  [](auto a, auto b) { return spec::quantityId(a) < spec::quantityId(b); });
        return all;
    }();
    return sorted;
}

std::string stageText(const spec::StageReadings& stage) {
    std::string text = "{";
    for (const spec::Quantity quantity : quantitiesById()) {
        if (stage[quantity] == spec::Reading{}) continue;
        if (text.size() > 1) text += ',';
        text += asJsonText(spec::quantityId(quantity)) + ':' + readingText(stage[quantity]);
    }
    return text + '}';
}

bool readStage(const json& entry, spec::StageReadings& stage) {
    if (!entry.is_object()) return false;
    for (const spec::Quantity quantity : quantitiesById()) {
        const auto found = entry.find(std::string(spec::quantityId(quantity)));
        if (found == entry.end()) continue;
        const auto reading = readingFrom(*found);
        if (!reading) return false;
        stage[quantity] = *reading;
    }
    return true;
}

// The stage before it that a stage reads the same as: most drinks are served as they were mixed.
std::optional<spec::Stage> stageRepeated(const spec::Readings& readings, spec::Stage stage) {
    if (stage == kStages.front() || readings[stage] == spec::StageReadings{}) return std::nullopt;
    const auto before = static_cast<spec::Stage>(static_cast<int>(stage) - 1);
    return readings[stage] == readings[before] ? std::optional(before) : std::nullopt;
}

std::optional<spec::Stage> stageNamed(const json& entry) {
    if (!entry.is_string()) return std::nullopt;
    for (const spec::Stage stage : kStages)
        if (spec::stageId(stage) == entry.get_ref<const std::string&>()) return stage;
    return std::nullopt;
}

template <class Map, class ValueText>
std::string mapText(const Map& map, ValueText valueText) {
    std::string text = "{";
    for (const auto& [key, value] : map) {
        if (text.size() > 1) text += ',';
        text += '"' + key.text() + "\":\"" + valueText(value) + '"';
    }
    return text + '}';
}

std::string factsText(const RevisionFacts& facts) {
    const auto idText = [](const auto& id) { return id.text(); };
    // Left out when there are none: revisions kept before lots were known have this content too.
    const std::string lots = facts.lots.empty() ? "" : "\"lots\":" + mapText(facts.lots, idText) + ',';
    return '{' + lots + "\"pours\":" + mapText(facts.pours, idText) +
           ",\"preparations\":" + mapText(facts.preparations, idText) + ",\"states\":" +
           mapText(facts.states, [](const std::string& hash) -> const std::string& { return hash; }) + '}';
}

// House measures change a few times in a book's life, and writing them takes longer than all the rest of a
// revision: the last ones are kept at hand.
const std::string& hashOf(const quantity::HouseMeasures& measures) {
    thread_local quantity::HouseMeasures known;
    thread_local std::string hash;
    if (hash.empty() || known != measures) {
        known = measures;
        hash = base::sha256Hex(measures.toJsonText());
    }
    return hash;
}

} // namespace

std::string readingsToJson(const spec::Readings& readings) {
    // Ids of the stages happen to stand in this order: measured, mixed, served.
    std::string text = "{\"serves\":" + std::to_string(readings.serves) + ",\"stages\":{";
    for (const spec::Stage stage : kStages) {
        if (stage != kStages.front()) text += ',';
        text += asJsonText(spec::stageId(stage)) + ':';
        const auto same = stageRepeated(readings, stage);
        text += same ? asJsonText(spec::stageId(*same)) : stageText(readings[stage]);
    }
    return text + "},\"standard_drink_grams\":" + asJsonNumber(readings.standardDrinkGrams) + '}';
}

std::optional<spec::Readings> readingsFromJson(std::string_view text) {
    const json parsed = json::parse(text, nullptr, false);
    if (!parsed.is_object() || !parsed.contains("stages") || !parsed["stages"].is_object() ||
        !parsed.contains("serves") || !parsed["serves"].is_number_integer() ||
        !parsed.contains("standard_drink_grams"))
        return std::nullopt;
    spec::Readings readings;
    readings.serves = parsed["serves"].get<int>();
    const auto grams = numberFrom<double>(parsed["standard_drink_grams"]);
    if (!grams) return std::nullopt;
    readings.standardDrinkGrams = *grams;
    for (const spec::Stage stage : kStages) {
        const auto found = parsed["stages"].find(std::string(spec::stageId(stage)));
        if (found == parsed["stages"].end()) return std::nullopt;
        if (const auto same = stageNamed(*found); same && *same < stage)
            readings[stage] = readings[*same];
        else if (!readStage(*found, readings[stage]))
            return std::nullopt;
    }
    return readings;
}

std::string Revision::canonicalContent() const {
    return "{\"calc_version\":" + std::to_string(calcVersion) +
           ",\"currency\":" + asJsonText(currency.text()) + ",\"drink\":\"" + drink.text() +
           "\",\"facts\":" + factsText(facts) +
           ",\"kept\":{\"offset_minutes\":" + std::to_string(kept.offsetMinutes) +
           ",\"utc_ms\":" + std::to_string(kept.utcMs) + "},\"measures\":\"" + hashOf(measures) + "\"" +
           ",\"parent\":" + (parent ? '"' + parent->text() + '"' : "null") +
           ",\"readings\":" + readingsToJson(readings) + ",\"reason\":" + asJsonText(reason) +
           ",\"spec\":" + spec.canonicalJson() + '}';
}

std::string Revision::contentHash() const {
    return base::sha256Hex(canonicalContent());
}

} // namespace stillroom::history
