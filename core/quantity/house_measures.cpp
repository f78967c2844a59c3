#include "core/quantity/house_measures.h"

#include "core/base/check.h"
#include "core/base/embedded.h"
#include "core/base/text.h"

#include <charconv>
#include <cmath>
#include <nlohmann/json.hpp>
#include <stdexcept>

namespace stillroom::quantity {

namespace {

using Json = nlohmann::json;

// A settings text is three levels deep; anything deeper is not one and is not worth parsing.
constexpr int kDeepest = 8;

bool nestsTooDeep(std::string_view text) {
    int depth = 0;
    bool inString = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (inString) {
            if (c == '\\') ++i;
            if (c == '"') inString = false;
        } else if (c == '"') {
            inString = true;
        } else if (c == '{' || c == '[') {
            if (++depth > kDeepest) return true;
        } else if (c == '}' || c == ']') {
            --depth;
        }
    }
    return false;
}

struct Malformed : std::runtime_error {
    using std::runtime_error::runtime_error;
};

double numberFrom(const Json& json) {
    const auto& text = json.get_ref<const std::string&>();
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value) || value < 0)
        throw Malformed(text);
    return value;
}

HouseSize sizeFrom(const Json& json) {
    HouseSize size{numberFrom(json.at("typical")), numberFrom(json.at("low")), numberFrom(json.at("high")),
                   json.at("source").get<std::string>()};
    if (!(size.low <= size.typical && size.typical <= size.high)) throw Malformed("range");
    return size;
}

std::map<Measure, HouseSize> measuresFrom(const Json& json, Dimension dimension) {
    std::map<Measure, HouseSize> sizes;
    for (const auto& [id, size] : json.items()) {
        const auto measure = measureFromId(id);
        if (!measure || !measureInfo(*measure).house || measureInfo(*measure).dimension != dimension)
            throw Malformed(id);
        sizes[*measure] = sizeFrom(size);
    }
    return sizes;
}

std::map<std::string, HouseSize, std::less<>> countsFrom(const Json& json) {
    std::map<std::string, HouseSize, std::less<>> sizes;
    for (const auto& [name, size] : json.items())
        sizes[base::fold(name)] = sizeFrom(size);
    return sizes;
}

Json jsonOf(const HouseSize& size) {
    return {{"typical", base::shortestDecimal(size.typical)},
            {"low", base::shortestDecimal(size.low)},
            {"high", base::shortestDecimal(size.high)},
            {"source", size.source}};
}

Json jsonOf(const std::map<Measure, HouseSize>& sizes) {
    Json json = Json::object();
    for (const auto& [measure, size] : sizes)
        json[std::string(measureInfo(measure).id)] = jsonOf(size);
    return json;
}

Json jsonOf(const std::map<std::string, HouseSize, std::less<>>& sizes) {
    Json json = Json::object();
    for (const auto& [name, size] : sizes)
        json[name] = jsonOf(size);
    return json;
}

std::optional<double> sizeIn(const std::map<Measure, HouseSize>& sizes, Measure measure) {
    const auto found = sizes.find(measure);
    return found == sizes.end() ? std::nullopt : std::optional(found->second.typical);
}

} // namespace

const HouseMeasures& HouseMeasures::defaults() {
    static const HouseMeasures made = [] {
        const auto read = fromJsonText(base::embedded("handbook/measures.json"));
        STILLROOM_CHECK(read.has_value(), return HouseMeasures{});
        return *read;
    }();
    return made;
}

std::optional<double> HouseMeasures::ml(Measure measure) const {
    const MeasureInfo& info = measureInfo(measure);
    if (info.exactMicrolitres) return info.exactMicrolitres->toDouble() / 1e3;
    return sizeIn(volumesMl, measure);
}

std::optional<double> HouseMeasures::grams(Measure measure) const {
    const MeasureInfo& info = measureInfo(measure);
    if (info.exactMicrograms) return info.exactMicrograms->toDouble() / 1e6;
    return sizeIn(massesG, measure);
}

std::string HouseMeasures::toJsonText() const {
    const Json json = {{"volumes_ml", jsonOf(volumesMl)},
                       {"masses_g", jsonOf(massesG)},
                       {"count_ml", jsonOf(countMl)},
                       {"count_g", jsonOf(countG)},
                       {"rinse_retained_ml", jsonOf(rinseRetainedMl)}};
    return json.dump(); // nlohmann keeps object keys sorted
}

std::optional<HouseMeasures> HouseMeasures::fromJsonText(std::string_view text) {
    if (nestsTooDeep(text)) return std::nullopt;
    try {
        const Json json = Json::parse(text);
        HouseMeasures measures;
        measures.volumesMl = measuresFrom(json.at("volumes_ml"), Dimension::Volume);
        measures.massesG = measuresFrom(json.at("masses_g"), Dimension::Mass);
        measures.countMl = countsFrom(json.at("count_ml"));
        measures.countG = countsFrom(json.at("count_g"));
        measures.rinseRetainedMl = sizeFrom(json.at("rinse_retained_ml"));
        return measures;
    } catch (const Json::exception&) {
        return std::nullopt;
    } catch (const Malformed&) {
        return std::nullopt;
    }
}

} // namespace stillroom::quantity
