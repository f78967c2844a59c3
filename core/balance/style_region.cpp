#include "core/balance/style_region.h"

#include "core/base/check.h"
#include "core/base/embedded.h"
#include "core/larder/guarded_json.h"
#include "core/larder/handbook.h"
#include "core/larder/larder.h"

#include <algorithm>

namespace stillroom::balance {

namespace {

using nlohmann::json;

struct Malformed {};

std::string text(const json& object, const char* key) {
    const auto found = object.find(key);
    if (found == object.end() || !found->is_string()) throw Malformed{};
    return found->get<std::string>();
}

Range range(const json& object, const char* key) {
    const auto found = object.find(key);
    if (found == object.end()) return {0, 0, false};
    if (!found->is_array() || found->size() != 2 || !(*found)[0].is_number() || !(*found)[1].is_number())
        throw Malformed{};
    const Range read{(*found)[0].get<double>(), (*found)[1].get<double>()};
    if (read.low > read.high) throw Malformed{};
    return read;
}

// Acid that makes a drink a sour: between the stirred drinks (up to 0.14 g/100 ml) and the mildest of the
// shaken ones (0.49) of the same table. Ours to choose.
constexpr double kSourFrom = 0.3;

bool surelyFrom(const spec::Reading& reading, double threshold) {
    switch (reading.bound) {
    case spec::Bound::Exact:
    case spec::Bound::AtLeast:
    case spec::Bound::Between:
        return reading.value >= threshold;
    default:
        return false;
    }
}

// The handbook's kind that a line names, by its id or, for a house's own, by its name.
const larder::Ingredient* kindOf(const spec::Line& line) {
    const larder::Handbook& handbook = larder::Handbook::builtIn();
    if (line.ingredient)
        if (const larder::Ingredient* kind = handbook.find(*line.ingredient)) return kind;
    static const larder::Larder names;
    const larder::NameMatch match = names.match(line.name);
    return match.quality == larder::MatchQuality::None ? nullptr : handbook.find(match.ingredient);
}

bool isEggWhite(const spec::Line& line) {
    const larder::Ingredient* kind = kindOf(line);
    return kind != nullptr && (kind->handbookId == "egg_white" || kind->handbookId == "aquafaba");
}

bool isCarbonated(const spec::Line& line) {
    const larder::Ingredient* kind = kindOf(line);
    return kind != nullptr && kind->facts.carbonated;
}

// The built drinks of the table are spirit and sweetener over ice; a long one with juice is none of them.
bool isLong(const spec::Line& line) {
    const larder::Ingredient* kind = kindOf(line);
    if (line.juiceOf) return true;
    if (kind == nullptr) return false;
    const std::string& group = kind->facts.group;
    return group == "juice" || group == "puree" || group == "soft drink, still" || group == "wine";
}

bool isInDrink(const spec::Line& line) {
    return !line.optional && line.role != spec::Role::Garnish;
}

const char* styleIdOf(const spec::Spec& spec, const spec::Readings& readings) {
    const auto any = [&spec](auto&& holds) {
        return std::any_of(spec.lines.begin(), spec.lines.end(),
                           [&](const spec::Line& line) { return isInDrink(line) && holds(line); });
    };
    const bool topped = any([](const spec::Line& line) { return line.role == spec::Role::Topped; });
    if (topped || any(isCarbonated))
        return spec.method.technique == spec::Technique::Carbonate ? "carbonated" : "";
    const bool sour = surelyFrom(readings[spec::Stage::Served][spec::Quantity::Acid], kSourFrom);
    switch (spec.method.technique) {
    case spec::Technique::Stir:
        return sour ? "" : "stirred";
    case spec::Technique::Build:
        return sour || any(isLong) ? "" : "built";
    case spec::Technique::Blend:
        return "blended";
    case spec::Technique::Carbonate:
        return "carbonated";
    case spec::Technique::Shake:
        if (!sour) return "";
        return any(isEggWhite) ? "shaken_egg_white" : "shaken_sour";
    default:
        return "";
    }
}

} // namespace

std::optional<std::vector<StyleRegion>> styleRegionsFromJson(std::string_view source) {
    const auto document = larder::parseGuarded(source, 6);
    if (!document || !document->is_object()) return std::nullopt;
    try {
        if (text(*document, "schema") != "stillroom-styles/1") return std::nullopt;
        const bool fromMemory = larder::flagOr(*document, "from_memory", true);
        const auto styles = document->find("styles");
        if (styles == document->end() || !styles->is_array()) return std::nullopt;
        std::vector<StyleRegion> regions;
        for (const json& object : *styles) {
            if (!object.is_object()) return std::nullopt;
            StyleRegion region;
            region.id = text(object, "id");
            region.name = text(object, "name");
            region.sugar = range(object, "sugar_g_per_100ml");
            region.acid = range(object, "acid_g_per_100ml");
            region.strength = range(object, "strength_percent_vol");
            region.dilution = range(object, "dilution_ratio");
            region.source = text(*document, "source");
            region.fromMemory = fromMemory;
            regions.push_back(std::move(region));
        }
        return regions;
    } catch (const Malformed&) {
        return std::nullopt;
    }
}

const std::vector<StyleRegion>& styleRegions() {
    static const std::vector<StyleRegion> regions = [] {
        auto read = styleRegionsFromJson(base::embedded("handbook/styles.json"));
        STILLROOM_CHECK(read.has_value(), return std::vector<StyleRegion>());
        return std::move(*read);
    }();
    return regions;
}

const StyleRegion* styleRegion(std::string_view id) {
    for (const StyleRegion& region : styleRegions())
        if (region.id == id) return &region;
    return nullptr;
}

const StyleRegion* styleOf(const spec::Spec& spec, const spec::Readings& readings) {
    return styleRegion(styleIdOf(spec, readings));
}

} // namespace stillroom::balance
