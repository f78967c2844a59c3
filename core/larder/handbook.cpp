#include "core/larder/handbook.h"

#include "core/base/check.h"
#include "core/base/embedded.h"
#include "core/larder/guarded_json.h"
#include "core/larder/ratio_syrup.h"

#include <algorithm>

namespace stillroom::larder {

namespace {

using nlohmann::json;

// The file is ours, so a mistake in it is a mistake of the build: readers throw, fromJson catches once.
struct Malformed {};

const json& at(const json& object, const char* key) {
    const auto found = object.find(key);
    if (found == object.end()) throw Malformed{};
    return *found;
}

const std::string& text(const json& value) {
    if (!value.is_string()) throw Malformed{};
    return value.get_ref<const std::string&>();
}

std::string textOr(const json& object, const char* key) {
    const auto found = object.find(key);
    return found == object.end() ? std::string() : text(*found);
}

bool flag(const json& object, const char* key, bool fallback) {
    const auto found = object.find(key);
    if (found == object.end()) return fallback;
    if (!found->is_boolean()) throw Malformed{};
    return found->get<bool>();
}

double number(const json& value) {
    if (!value.is_number()) throw Malformed{};
    return value.get<double>();
}

std::vector<std::string> texts(const json& list) {
    if (!list.is_array()) throw Malformed{};
    std::vector<std::string> result;
    result.reserve(list.size());
    for (const json& entry : list)
        result.push_back(text(entry));
    return result;
}

std::vector<std::string> textsOr(const json& object, const char* key) {
    const auto found = object.find(key);
    return found == object.end() ? std::vector<std::string>() : texts(*found);
}

Fact factFrom(const json& object, const std::vector<std::string>& sources) {
    Fact fact;
    fact.typical = number(at(object, "typical"));
    const auto low = object.find("low");
    const auto high = object.find("high");
    fact.low = low == object.end() ? fact.typical : number(*low);
    fact.high = high == object.end() ? fact.typical : number(*high);
    const auto kind = sourceKindFromId(text(at(object, "basis")));
    const json& source = at(object, "source");
    if (!kind || !source.is_number_unsigned() || fact.low > fact.typical || fact.typical > fact.high)
        throw Malformed{};
    fact.sourceKind = *kind;
    const auto index = source.get<std::size_t>();
    if (index >= sources.size()) throw Malformed{};
    fact.source = sources[index];
    return fact;
}

Shares sharesFrom(const json& object, const char* key) {
    Shares shares;
    const auto found = object.find(key);
    if (found == object.end()) return shares;
    for (const json& entry : *found) {
        if (!entry.is_array() || entry.size() != 2) throw Malformed{};
        const auto substance = substanceFromId(text(entry[0]));
        if (!substance) throw Malformed{};
        shares.parts.emplace_back(*substance, number(entry[1]));
    }
    return shares;
}

FactState factsFrom(const json& object, const std::vector<std::string>& sources) {
    FactState facts;
    for (const FactKey& key : factKeys())
        if (const auto found = object.find(key.id); found != object.end())
            facts.*key.member = factFrom(*found, sources);
    facts.sugarShares = sharesFrom(object, "sugar_shares");
    facts.acidShares = sharesFrom(object, "acid_shares");
    facts.dry = flag(object, "dry", false);
    facts.soluble = flag(object, "soluble", true);
    facts.carbonated = flag(object, "carbonated", false);
    if (const auto found = object.find("allergens"); found != object.end()) facts.allergens = texts(*found);
    facts.tags = textsOr(object, "tags");
    facts.group = text(at(object, "group"));
    // That nothing is in it has to be said by somebody; of a distillate the law says it.
    const auto saysSo = object.find("allergens_source");
    const bool sourced =
        saysSo != object.end() && saysSo->is_number_unsigned() && saysSo->get<std::size_t>() < sources.size();
    if (saysSo != object.end() && !sourced) throw Malformed{};
    if (facts.allergens && facts.allergens->empty() && !sourced && facts.group != "spirit") throw Malformed{};
    return facts;
}

Ingredient kindFrom(const json& object, const std::vector<std::string>& sources) {
    Ingredient kind;
    kind.handbookId = text(at(object, "id"));
    kind.id = Handbook::idOf(kind.handbookId);
    kind.name = text(at(object, "name"));
    kind.aliases = textsOr(object, "aliases");
    kind.facts = factsFrom(object, sources);
    return kind;
}

SharedName sharedNameFrom(const json& object) {
    SharedName shared;
    shared.name = text(at(object, "name"));
    std::vector<std::string> ids = texts(at(object, "kinds"));
    if (const auto preferred = object.find("default"); preferred != object.end()) {
        const auto place = std::find(ids.begin(), ids.end(), text(*preferred));
        if (place == ids.end()) throw Malformed{};
        std::rotate(ids.begin(), place, place + 1);
        shared.hasDefault = true;
    }
    for (const std::string& id : ids)
        shared.kinds.push_back(Handbook::idOf(id));
    shared.note = textOr(object, "note");
    return shared;
}

} // namespace

base::IngredientId Handbook::idOf(std::string_view handbookId) {
    return base::IngredientId::derivedFrom("stillroom handbook kind:" + std::string(handbookId));
}

std::optional<Handbook> Handbook::fromJson(std::string_view source) {
    const auto document = parseGuarded(source, 6);
    if (!document || !document->is_object()) return std::nullopt;
    try {
        if (text(at(*document, "schema")) != "stillroom-handbook/1") return std::nullopt;
        const std::vector<std::string> sources = texts(at(*document, "sources"));
        Handbook book;
        for (const json& object : at(*document, "kinds")) {
            Ingredient kind = kindFrom(object, sources);
            if (!book.m_byId.emplace(kind.id, book.m_kinds.size()).second) return std::nullopt;
            book.m_kinds.push_back(std::move(kind));
            book.m_words.push_back(
                {textOr(object, "subgroup"), textOr(object, "keeping"), textOr(object, "note")});
        }
        for (const json& object : at(*document, "ambiguous_names")) {
            SharedName shared = sharedNameFrom(object);
            for (const base::IngredientId id : shared.kinds)
                if (!book.m_byId.contains(id)) return std::nullopt;
            book.m_sharedNames.push_back(std::move(shared));
        }
        return book;
    } catch (const Malformed&) {
        return std::nullopt;
    }
}

const Handbook& Handbook::builtIn() {
    static const Handbook book = [] {
        auto read = fromJson(base::embedded("handbook/ingredients.json"));
        STILLROOM_CHECK(read.has_value(), return Handbook());
        return std::move(*read);
    }();
    return book;
}

const Ingredient* Handbook::find(base::IngredientId id) const {
    const auto found = m_byId.find(id);
    return found == m_byId.end() ? ratioSyrup(id) : &m_kinds[found->second];
}

const HandbookWords& Handbook::words(base::IngredientId id) const {
    static const HandbookWords none;
    const auto found = m_byId.find(id);
    return found == m_byId.end() ? none : m_words[found->second];
}

} // namespace stillroom::larder
