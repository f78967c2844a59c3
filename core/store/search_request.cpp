#include "core/store/search_of_book.h"
#include "core/tasting/guarded_json.h"

#include <algorithm>
#include <array>

namespace stillroom::store {

namespace {

using Json = nlohmann::json;
using tasting::Malformed;

constexpr int kDeepest = 4;
// In the order of the enumeration; these enter files.
constexpr std::array<std::string_view, 7> kStates{"draft", "kept",      "house", "published",
                                                  "stale", "set_aside", "binned"};

void put(Json& json, const char* key, const std::vector<std::string>& texts) {
    if (!texts.empty()) json[key] = texts;
}

void put(Json& json, const char* key, const std::vector<base::IngredientId>& ids) {
    for (const base::IngredientId& id : ids)
        json[key].push_back(id.text());
}

void put(Json& json, const char* key, const std::optional<double>& value) {
    if (value) json[key] = *value;
}

void put(Json& json, const char* key, const std::optional<std::int64_t>& value) {
    if (value) json[key] = *value;
}

void put(Json& json, const char* key, const std::optional<quantity::Money>& value) {
    if (value) json[key] = {{"currency", value->currency.text()}, {"minor", value->minor}};
}

std::int64_t wholeNumber(const Json& json) {
    if (!json.is_number_integer() ||
        (json.is_number_unsigned() && json.get<std::uint64_t>() > std::uint64_t{INT64_MAX}))
        throw Malformed("no whole number");
    return json.get<std::int64_t>();
}

quantity::Money moneyFrom(const Json& json) {
    if (!json.is_object() || json.size() != 2) throw Malformed("no price");
    const auto currency = quantity::Currency::fromCode(json.at("currency").get_ref<const std::string&>());
    if (!currency) throw Malformed("currency");
    return {wholeNumber(json.at("minor")), *currency};
}

std::vector<base::IngredientId> idsFrom(const Json& json) {
    std::vector<base::IngredientId> ids;
    for (const Json& text : json.get_ref<const Json::array_t&>()) {
        const auto id = base::IngredientId::fromText(text.get_ref<const std::string&>());
        if (!id) throw Malformed("id");
        ids.push_back(*id);
    }
    return ids;
}

SearchState stateFrom(const Json& json) {
    const auto state = searchStateFromId(json.get_ref<const std::string&>());
    if (!state) throw Malformed("state");
    return *state;
}

double numberFrom(const Json& json) {
    if (!json.is_number()) throw Malformed("no number");
    return json.get<double>();
}

Json jsonOf(const SearchFilters& filters) {
    Json json = Json::object();
    if (filters.form) json["form"] = *filters.form == history::DrinkForm::Drink ? "drink" : "preparation";
    put(json, "strength_at_least", filters.strengthAtLeast);
    put(json, "strength_at_most", filters.strengthAtMost);
    put(json, "cost_at_least", filters.costAtLeast);
    put(json, "cost_at_most", filters.costAtMost);
    put(json, "styles", filters.styles);
    put(json, "with", filters.with);
    put(json, "without", filters.without);
    put(json, "allergens", filters.allergens);
    put(json, "without_allergens", filters.withoutAllergens);
    for (const SearchState state : filters.states)
        json["states"].push_back(searchStateId(state));
    put(json, "changed_from", filters.changedFrom);
    put(json, "changed_before", filters.changedBefore);
    if (!filters.tooMuchOf.empty()) json["too_much_of"] = filters.tooMuchOf;
    return json;
}

void readFilter(const std::string& key, const Json& value, SearchFilters& filters) {
    if (key == "form") {
        const auto& form = value.get_ref<const std::string&>();
        if (form != "drink" && form != "preparation") throw Malformed("form");
        filters.form = form == "drink" ? history::DrinkForm::Drink : history::DrinkForm::Preparation;
    } else if (key == "strength_at_least") {
        filters.strengthAtLeast = numberFrom(value);
    } else if (key == "strength_at_most") {
        filters.strengthAtMost = numberFrom(value);
    } else if (key == "cost_at_least") {
        filters.costAtLeast = moneyFrom(value);
    } else if (key == "cost_at_most") {
        filters.costAtMost = moneyFrom(value);
    } else if (key == "styles") {
        filters.styles = value.get<std::vector<std::string>>();
    } else if (key == "with") {
        filters.with = idsFrom(value);
    } else if (key == "without") {
        filters.without = idsFrom(value);
    } else if (key == "allergens") {
        filters.allergens = value.get<std::vector<std::string>>();
    } else if (key == "without_allergens") {
        filters.withoutAllergens = value.get<std::vector<std::string>>();
    } else if (key == "states") {
        for (const Json& state : value.get_ref<const Json::array_t&>())
            filters.states.push_back(stateFrom(state));
    } else if (key == "changed_from") {
        filters.changedFrom = wholeNumber(value);
    } else if (key == "changed_before") {
        filters.changedBefore = wholeNumber(value);
    } else if (key == "too_much_of") {
        filters.tooMuchOf = value.get<std::string>();
    } else {
        throw Malformed(key);
    }
}

SearchRequest requestFrom(const Json& json) {
    if (!json.is_object()) throw Malformed("no object");
    SearchRequest request;
    for (const auto& [key, value] : json.items()) {
        if (key == "words") {
            request.words = value.get<std::string>();
        } else if (key == "filters" && value.is_object()) {
            for (const auto& [name, filter] : value.items())
                readFilter(name, filter, request.filters);
        } else {
            throw Malformed(key);
        }
    }
    return request;
}

} // namespace

std::string_view searchStateId(SearchState state) {
    return kStates[static_cast<std::size_t>(state)];
}

std::optional<SearchState> searchStateFromId(std::string_view id) {
    const auto found = std::find(kStates.begin(), kStates.end(), id);
    if (found == kStates.end()) return std::nullopt;
    return static_cast<SearchState>(found - kStates.begin());
}

std::string SearchRequest::canonicalJson() const {
    Json json = Json::object();
    if (!words.empty()) json["words"] = words;
    if (!filters.isEmpty()) json["filters"] = jsonOf(filters);
    return tasting::canonicalText(json);
}

std::optional<SearchRequest> SearchRequest::fromCanonicalJson(std::string_view text) {
    return tasting::readGuarded<SearchRequest>(text, kDeepest, requestFrom);
}

} // namespace stillroom::store
