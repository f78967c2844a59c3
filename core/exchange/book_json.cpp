#include "core/exchange/book_json.h"

#include "core/base/text.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <stdexcept>

namespace stillroom::exchange {

namespace {

using nlohmann::json;

// Thrown and caught in this file only: says what is wrong, and gains where on its way up.
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

tasting::Person personFrom(const json& value) {
    const Object object(value, {"initials", "name"});
    tasting::Person person;
    person.initials = object.required("initials");
    person.name = object.text("name");
    return person;
}

ScriptedTasting tastingFrom(const json& value) {
    const Object object(value, {"by", "when", "verdict", "scores", "note", "try_next"});
    ScriptedTasting result;
    result.initials = object.required("by");
    result.when = object.instant("when");
    result.note = object.text("note");
    result.tryNext = object.text("try_next");
    if (object.has("verdict")) {
        const auto verdict = tasting::verdictFromId(object.text("verdict"));
        if (!verdict) throw Misread("\"verdict\" is keep, change or drop");
        result.verdict = *verdict;
    }
    if (object.has("scores")) {
        const Object scores(object.at("scores"), {"sweet", "sour", "strong", "bitter", "length"});
        for (std::size_t i = 0; i < tasting::kScaleCount; ++i) {
            const std::string key(tasting::scaleId(static_cast<tasting::Scale>(i)));
            if (const auto score = scores.number(key.c_str(), 0, tasting::kScaleTop)) {
                result.scores[i] = static_cast<int>(*score);
                if (*result.scores[i] != *score) throw Misread("scores are whole points");
            }
        }
    }
    return result;
}

spec::DilutionEntry dilutionFrom(const json& value) {
    const Object object(value, {"ratio", "origin", "how"});
    spec::DilutionEntry entry;
    const auto ratio = object.number("ratio", 0, 10);
    if (!ratio) throw Misread("\"dilution\" needs a \"ratio\"");
    entry.ratio = *ratio;
    entry.how = object.text("how");
    const std::string origin = object.required("origin");
    if (origin == "measured")
        entry.origin = spec::DilutionOrigin::Measured;
    else if (origin != "typed")
        throw Misread("the origin of a dilution is \"measured\" or \"typed\"");
    return entry;
}

// As a spec's own JSON has them.
std::vector<spec::Step> stepsFrom(const json& list) {
    json whole = json::parse(spec::Spec{}.canonicalJson());
    whole["steps"] = list;
    const auto spec = spec::Spec::fromCanonicalJson(whole.dump());
    if (!spec) throw Misread("\"steps\" cannot be read");
    return spec->steps;
}

std::vector<int> placesFrom(const json& list) {
    constexpr int kMost = 1000;
    std::vector<int> places;
    for (const json& place : list) {
        if (!place.is_number_integer() || place < 0 || place > kMost)
            throw Misread("\"before_step\" must be a list of whole numbers");
        places.push_back(place.get<int>());
    }
    return places;
}

ScriptedRevision revisionFrom(const json& value) {
    const Object object(value, {"text", "when", "reason", "based_on", "house", "part_ml", "dilution", "steps",
                                "before_step", "tastings"});
    ScriptedRevision revision;
    revision.text = object.lines("text");
    revision.when = object.instant("when");
    revision.reason = object.text("reason");
    revision.basedOn = object.text("based_on");
    revision.house = object.flag("house");
    revision.partMl = object.number("part_ml", 1, 100000);
    if (object.has("dilution")) revision.dilution = dilutionFrom(object.at("dilution"));
    if (object.has("steps")) revision.steps = stepsFrom(object.list("steps"));
    revision.beforeStep = placesFrom(object.list("before_step"));
    revision.tastings = readEach(object.list("tastings"), "tasting", tastingFrom);
    if (revision.reason.empty() && (revision.house || !revision.tastings.empty()))
        throw Misread("a draft is neither tasted nor the house's: give it a \"reason\"");
    return revision;
}

// A branch starts from a number that already stands.
void checkOrder(const std::vector<ScriptedRevision>& revisions) {
    for (std::size_t i = 0; i < revisions.size(); ++i) {
        if (revisions[i].reason.empty() && i + 1 != revisions.size())
            throw Misread(fmt::format("revision {}: only the last may lack a \"reason\"", i + 1));
        if (revisions[i].basedOn.empty()) continue;
        bool stands = false;
        for (std::size_t earlier = 1; earlier <= i; ++earlier)
            stands = stands || revisions[i].basedOn == std::to_string(earlier);
        if (!stands)
            throw Misread(fmt::format("revision {}: no revision {} before it", i + 1, revisions[i].basedOn));
    }
}

WrittenIngredient larderFrom(const json& value, const history::Drink& drink) {
    if (drink.form != history::DrinkForm::Preparation) throw Misread("\"larder\" is of a preparation");
    json named = value;
    if (named.is_object() && !named.contains("name")) named["name"] = drink.name;
    auto entry = ingredientFromJson(named);
    if (!entry) throw Misread(entry.error());
    if (entry->statesFacts || entry->ingredient.gotFrom || !entry->kindName.empty())
        throw Misread("the facts of a preparation come from its own spec");
    return *std::move(entry);
}

ScriptedDrink drinkFrom(const json& value) {
    const Object object(value, {"name", "form", "menu", "brief", "notes", "credit", "revisions", "larder"});
    ScriptedDrink result;
    result.drink.name = object.required("name");
    try {
        const std::string form = object.text("form");
        if (form == "preparation")
            result.drink.form = history::DrinkForm::Preparation;
        else if (!form.empty() && form != "drink")
            throw Misread("\"form\" is \"drink\" or \"preparation\"");
        result.drink.menuName = object.text("menu");
        result.drink.brief = object.text("brief");
        result.drink.notes = object.text("notes");
        result.drink.credit = object.text("credit");
        if (object.has("larder")) result.larder = larderFrom(object.at("larder"), result.drink);
        result.revisions = readEach(object.list("revisions"), "revision", revisionFrom);
        if (result.revisions.empty()) throw Misread("no revisions");
        checkOrder(result.revisions);
        result.drink.created = result.revisions.front().when;
    } catch (const Misread& problem) {
        throw Misread(fmt::format("{}: {}", result.drink.name, problem.what()));
    }
    return result;
}

WrittenIngredient writtenIngredientFrom(const json& value) {
    auto entry = ingredientFromJson(value);
    if (!entry) throw Misread(entry.error());
    return *entry;
}

void checkTasters(const ScriptedBook& book) {
    for (const ScriptedDrink& drink : book.drinks)
        for (const ScriptedRevision& revision : drink.revisions)
            for (const ScriptedTasting& tasted : revision.tastings)
                if (std::none_of(book.people.begin(), book.people.end(),
                                 [&](const tasting::Person& p) { return p.initials == tasted.initials; }))
                    throw Misread(
                        fmt::format("{}: no person signs as \"{}\"", drink.drink.name, tasted.initials));
}

ScriptedBook bookFrom(const json& document) {
    const Object object(document, {"format", "name", "currency", "zone", "region", "people", "ingredients",
                                   "drinks", "rates"});
    if (object.text("format") != "stillroom-book/1") throw Misread("\"format\" must be \"stillroom-book/1\"");
    ScriptedBook book;
    book.name = object.required("name");
    book.currency = object.required("currency");
    if (!quantity::Currency::fromCode(book.currency))
        throw Misread(fmt::format("\"{}\" is not a currency of ISO 4217", book.currency));
    book.zone = object.has("zone") ? object.required("zone") : "UTC";
    book.region = object.has("region") ? object.required("region") : "US";
    book.people = readEach(object.list("people"), "person", personFrom);
    book.ingredients = readEach(object.list("ingredients"), "ingredient", writtenIngredientFrom);
    book.drinks = readEach(object.list("drinks"), "drink", drinkFrom);
    if (object.has("rates")) {
        auto rates = ratesFromJson(object.at("rates"));
        if (!rates) throw Misread(rates.error());
        book.rates = *std::move(rates);
    }
    checkTasters(book);
    return book;
}

void putIfSaid(json& object, const char* key, const std::string& text) {
    if (!text.empty()) object[key] = text;
}

json tastingJson(const ScriptedTasting& tasted) {
    json object{{"by", tasted.initials}, {"when", base::isoText(tasted.when)}};
    putIfSaid(object, "note", tasted.note);
    putIfSaid(object, "try_next", tasted.tryNext);
    if (tasted.verdict != tasting::Verdict::None) object["verdict"] = tasting::verdictId(tasted.verdict);
    for (std::size_t i = 0; i < tasting::kScaleCount; ++i)
        if (tasted.scores[i])
            object["scores"][std::string(tasting::scaleId(static_cast<tasting::Scale>(i)))] =
                *tasted.scores[i];
    return object;
}

json revisionJson(const ScriptedRevision& revision) {
    json object{{"text", revision.text}, {"when", base::isoText(revision.when)}};
    putIfSaid(object, "reason", revision.reason);
    putIfSaid(object, "based_on", revision.basedOn);
    if (revision.house) object["house"] = true;
    if (revision.partMl) object["part_ml"] = *revision.partMl;
    if (revision.dilution)
        object["dilution"] = {
            {"ratio", revision.dilution->ratio},
            {"origin", revision.dilution->origin == spec::DilutionOrigin::Measured ? "measured" : "typed"},
            {"how", revision.dilution->how}};
    if (!revision.steps.empty()) {
        spec::Spec done;
        done.steps = revision.steps;
        object["steps"] = json::parse(done.canonicalJson())["steps"];
    }
    if (!revision.beforeStep.empty()) object["before_step"] = revision.beforeStep;
    for (const ScriptedTasting& tasted : revision.tastings)
        object["tastings"].push_back(tastingJson(tasted));
    return object;
}

json drinkJson(const ScriptedDrink& script) {
    const bool isDrink = script.drink.form == history::DrinkForm::Drink;
    json object{{"name", script.drink.name}, {"form", isDrink ? "drink" : "preparation"}};
    putIfSaid(object, "menu", script.drink.menuName);
    putIfSaid(object, "brief", script.drink.brief);
    putIfSaid(object, "notes", script.drink.notes);
    putIfSaid(object, "credit", script.drink.credit);
    if (script.larder) object["larder"] = ingredientJson(*script.larder);
    object["revisions"] = json::array();
    for (const ScriptedRevision& revision : script.revisions)
        object["revisions"].push_back(revisionJson(revision));
    return object;
}

} // namespace

tl::expected<ScriptedBook, std::string> bookFromJson(std::string_view text) {
    constexpr std::size_t kLargest = 64U * 1024 * 1024;
    if (text.size() > kLargest) return tl::unexpected<std::string>("the file is larger than 64 MiB");
    const json document = json::parse(text, nullptr, false);
    if (document.is_discarded()) return tl::unexpected<std::string>("not JSON");
    try {
        return bookFrom(document);
    } catch (const Misread& problem) {
        return tl::unexpected<std::string>(problem.what());
    }
}

std::string bookJson(const ScriptedBook& book) {
    json object{{"format", "stillroom-book/1"}, {"name", book.name},
                {"currency", book.currency},    {"zone", book.zone},
                {"region", book.region},        {"people", json::array()},
                {"ingredients", json::array()}, {"drinks", json::array()}};
    if (!book.rates.empty()) object["rates"] = ratesJson(book.rates);
    for (const tasting::Person& person : book.people)
        object["people"].push_back({{"initials", person.initials}, {"name", person.name}});
    for (const WrittenIngredient& ingredient : book.ingredients)
        object["ingredients"].push_back(ingredientJson(ingredient));
    for (const ScriptedDrink& drink : book.drinks)
        object["drinks"].push_back(drinkJson(drink));
    return object.dump(1, ' ', false, json::error_handler_t::replace);
}

} // namespace stillroom::exchange
