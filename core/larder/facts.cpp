#include "core/larder/facts.h"

#include "core/base/hash.h"
#include "core/base/text.h"
#include "core/larder/guarded_json.h"

#include <array>

namespace stillroom::larder {

namespace {

using nlohmann::json;
using physics::Substance;

constexpr std::array<std::string_view, 4> kSourceKindIds{"label", "measured", "handbook", "assumed"};

// In the order of physics::Substance.
constexpr std::array<std::string_view, physics::kSubstanceCount> kSubstanceIds{"ethanol",
                                                                               "water",
                                                                               "sucrose",
                                                                               "glucose",
                                                                               "fructose",
                                                                               "lactose",
                                                                               "other_sugar",
                                                                               "other_carbohydrate",
                                                                               "citric",
                                                                               "malic",
                                                                               "tartaric",
                                                                               "lactic",
                                                                               "acetic",
                                                                               "phosphoric",
                                                                               "ascorbic",
                                                                               "succinic",
                                                                               "fat",
                                                                               "protein",
                                                                               "salt",
                                                                               "other_solids",
                                                                               "carbon_dioxide",
                                                                               "caffeine"};

json toJson(const Fact& fact) {
    json object{{"typical", base::shortestDecimal(fact.typical)},
                {"low", base::shortestDecimal(fact.low)},
                {"high", base::shortestDecimal(fact.high)},
                {"source_kind", sourceKindId(fact.sourceKind)},
                {"source", fact.source}};
    if (!fact.on.empty()) object["on"] = fact.on;
    return object;
}

json toJson(const Shares& shares) {
    json list = json::array();
    for (const auto& [substance, share] : shares.parts)
        list.push_back(json::array({substanceId(substance), base::shortestDecimal(share)}));
    return list;
}

std::optional<double> decimal(const json& object, const char* key) {
    const auto found = object.find(key);
    if (found == object.end() || !found->is_string()) return std::nullopt;
    return doubleFromText(found->get_ref<const std::string&>());
}

std::optional<Fact> factFrom(const json& object) {
    const auto on = object.is_object() ? object.find("on") : object.end();
    const bool dated = on != object.end();
    if (!object.is_object() || object.size() != (dated ? 6 : 5)) return std::nullopt;
    if (dated && !on->is_string()) return std::nullopt;
    const auto typical = decimal(object, "typical");
    const auto low = decimal(object, "low");
    const auto high = decimal(object, "high");
    const auto kind = object.find("source_kind");
    const auto source = object.find("source");
    if (!typical || !low || !high || *low > *typical || *typical > *high) return std::nullopt;
    if (kind == object.end() || !kind->is_string() || source == object.end() || !source->is_string())
        return std::nullopt;
    const auto sourceKind = sourceKindFromId(kind->get_ref<const std::string&>());
    if (!sourceKind) return std::nullopt;
    return Fact{*typical,
                *low,
                *high,
                *sourceKind,
                source->get<std::string>(),
                dated ? on->get<std::string>() : std::string()};
}

std::optional<Shares> sharesFrom(const json& list) {
    if (!list.is_array()) return std::nullopt;
    Shares shares;
    for (const json& entry : list) {
        if (!entry.is_array() || entry.size() != 2 || !entry[0].is_string() || !entry[1].is_string())
            return std::nullopt;
        const auto substance = substanceFromId(entry[0].get_ref<const std::string&>());
        const auto share = doubleFromText(entry[1].get_ref<const std::string&>());
        if (!substance || !share) return std::nullopt;
        shares.parts.emplace_back(*substance, *share);
    }
    return shares;
}

std::optional<std::vector<std::string>> stringsFrom(const json& list) {
    if (!list.is_array()) return std::nullopt;
    std::vector<std::string> strings;
    for (const json& entry : list) {
        if (!entry.is_string()) return std::nullopt;
        strings.push_back(entry.get<std::string>());
    }
    return strings;
}

bool take(std::optional<Fact>& into, const json& value) {
    into = factFrom(value);
    return into.has_value();
}

template <class T>
bool take(T& into, std::optional<T> read) {
    if (!read) return false;
    into = std::move(*read);
    return true;
}

bool takeFlag(bool& into, const json& value) {
    if (!value.is_boolean()) return false;
    into = value.get<bool>();
    return true;
}

bool takeKey(FactState& state, const std::string& key, const json& value) {
    for (const FactKey& fact : factKeys())
        if (fact.id == key) return take(state.*fact.member, value);
    if (key == "sugar_shares") return take(state.sugarShares, sharesFrom(value));
    if (key == "acid_shares") return take(state.acidShares, sharesFrom(value));
    if (key == "dry") return takeFlag(state.dry, value);
    if (key == "soluble") return takeFlag(state.soluble, value);
    if (key == "carbonated") return takeFlag(state.carbonated, value);
    if (key == "tags") return take(state.tags, stringsFrom(value));
    if (key == "allergens") {
        state.allergens = stringsFrom(value);
        return state.allergens.has_value();
    }
    if (key == "group" && value.is_string()) {
        state.group = value.get<std::string>();
        return true;
    }
    return false;
}

} // namespace

std::string_view sourceKindId(SourceKind kind) {
    return kSourceKindIds[static_cast<std::size_t>(kind)];
}

std::optional<SourceKind> sourceKindFromId(std::string_view id) {
    for (std::size_t i = 0; i < kSourceKindIds.size(); ++i)
        if (kSourceKindIds[i] == id) return static_cast<SourceKind>(i);
    return std::nullopt;
}

std::string_view substanceId(Substance substance) {
    return kSubstanceIds[static_cast<std::size_t>(substance)];
}

std::optional<Substance> substanceFromId(std::string_view id) {
    for (std::size_t i = 0; i < kSubstanceIds.size(); ++i)
        if (kSubstanceIds[i] == id) return static_cast<Substance>(i);
    return std::nullopt;
}

const std::vector<FactKey>& factKeys() {
    static const std::vector<FactKey> keys{
        {"abv_percent", &FactState::abvPercent},
        {"sugar_g_per_l", &FactState::sugarGPerL},
        {"acid_g_per_l", &FactState::acidGPerL},
        {"density_kg_per_m3", &FactState::densityKgPerM3},
        {"fat_g_per_l", &FactState::fatGPerL},
        {"protein_g_per_l", &FactState::proteinGPerL},
        {"carbohydrate_g_per_l", &FactState::carbohydrateGPerL},
        {"other_solids_g_per_l", &FactState::otherSolidsGPerL},
        {"salt_g_per_l", &FactState::saltGPerL},
        {"caffeine_mg_per_l", &FactState::caffeineMgPerL},
        {"co2_g_per_l", &FactState::co2GPerL},
    };
    return keys;
}

std::string FactState::canonicalJson() const {
    json object = json::object(); // nlohmann's default object keeps its keys sorted
    for (const FactKey& key : factKeys())
        if (const auto& fact = this->*key.member) object[std::string(key.id)] = toJson(*fact);
    if (!sugarShares.parts.empty()) object["sugar_shares"] = toJson(sugarShares);
    if (!acidShares.parts.empty()) object["acid_shares"] = toJson(acidShares);
    if (dry) object["dry"] = true;
    if (!soluble) object["soluble"] = false;
    if (carbonated) object["carbonated"] = true;
    if (allergens) object["allergens"] = *allergens;
    if (!tags.empty()) object["tags"] = tags;
    if (!group.empty()) object["group"] = group;
    return object.dump(-1, ' ', false, json::error_handler_t::replace);
}

std::string FactState::hash() const {
    return base::sha256Hex(canonicalJson());
}

std::optional<FactState> FactState::fromCanonicalJson(std::string_view text) {
    const auto object = parseGuarded(text, 4);
    if (!object || !object->is_object()) return std::nullopt;
    FactState state;
    for (const auto& [key, value] : object->items())
        if (!takeKey(state, key, value)) return std::nullopt;
    return state;
}

} // namespace stillroom::larder
