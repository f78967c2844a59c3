#include "core/larder/servings.h"

#include "core/base/check.h"
#include "core/base/embedded.h"
#include "core/larder/guarded_json.h"

namespace stillroom::larder {

namespace {

using nlohmann::json;

std::optional<std::string> text(const json& object, const char* key) {
    const auto found = object.find(key);
    if (found == object.end() || !found->is_string()) return std::nullopt;
    return found->get<std::string>();
}

std::optional<StandardDrink> standardDrinkFrom(const json& object) {
    if (!object.is_object()) return std::nullopt;
    const auto code = text(object, "code");
    const auto name = text(object, "name");
    const auto source = text(object, "source");
    if (!code || !name || !source) return std::nullopt;
    StandardDrink drink;
    drink.code = *code;
    drink.name = *name;
    drink.source = *source;
    drink.called = text(object, "called").value_or("standard drink");
    drink.note = text(object, "note").value_or("");
    drink.verified = flagOr(object, "verified", false);
    if (const auto grams = object.find("grams"); grams != object.end()) {
        if (!grams->is_number() || !(grams->get<double>() > 0)) return std::nullopt;
        drink.grams = grams->get<double>();
    }
    return drink;
}

} // namespace

std::optional<std::vector<StandardDrink>> standardDrinksFromJson(std::string_view source) {
    const auto document = parseGuarded(source, 6);
    if (!document || !document->is_object() || text(*document, "schema") != "stillroom-servings/1")
        return std::nullopt;
    const auto list = document->find("standard_drinks");
    if (list == document->end() || !list->is_array()) return std::nullopt;
    std::vector<StandardDrink> drinks;
    for (const json& object : *list) {
        auto drink = standardDrinkFrom(object);
        if (!drink) return std::nullopt;
        drinks.push_back(std::move(*drink));
    }
    return drinks;
}

const std::vector<StandardDrink>& standardDrinks() {
    static const std::vector<StandardDrink> drinks = [] {
        auto read = standardDrinksFromJson(base::embedded("handbook/servings.json"));
        STILLROOM_CHECK(read.has_value(), return std::vector<StandardDrink>());
        return std::move(*read);
    }();
    return drinks;
}

const StandardDrink* standardDrinkOf(std::string_view code) {
    for (const StandardDrink& drink : standardDrinks())
        if (drink.code == code) return &drink;
    return nullptr;
}

} // namespace stillroom::larder
