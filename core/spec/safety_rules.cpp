#include "core/spec/safety_rules.h"

#include "core/base/check.h"
#include "core/base/embedded.h"
#include "core/base/text.h"
#include "core/larder/guarded_json.h"
#include "core/larder/handbook.h"
#include "core/larder/written_name.h"

#include <array>
#include <set>
#include <utility>

namespace stillroom::spec {

namespace {

using nlohmann::json;
using Kind = SafetyTrigger::Kind;
using Compare = SafetyTrigger::Compare;

struct Malformed {};

const json& at(const json& object, const char* key) {
    const auto found = object.find(key);
    if (found == object.end()) throw Malformed{};
    return *found;
}

std::string text(const json& value) {
    if (!value.is_string()) throw Malformed{};
    return value.get<std::string>();
}

std::vector<std::string> textsOf(const json& value) {
    if (value.is_string()) return {text(value)};
    if (!value.is_array()) throw Malformed{};
    std::vector<std::string> list;
    for (const json& entry : value)
        list.push_back(text(entry));
    return list;
}

Compare compareFrom(const std::string& op) {
    if (op == ">") return Compare::Above;
    if (op == ">=") return Compare::AtLeast;
    if (op == "<") return Compare::Below;
    if (op == "<=") return Compare::AtMost;
    throw Malformed{};
}

SafetyTrigger triggerFrom(const json& object);

std::vector<SafetyTrigger> triggersFrom(const json& list) {
    if (!list.is_array()) throw Malformed{};
    std::vector<SafetyTrigger> triggers;
    for (const json& entry : list)
        triggers.push_back(triggerFrom(entry));
    return triggers;
}

SafetyTrigger quantityFrom(const json& object) {
    SafetyTrigger trigger;
    trigger.kind = Kind::Quantity;
    trigger.quantity = text(at(object, "quantity"));
    trigger.compare = compareFrom(text(at(object, "op")));
    const json& value = at(object, "value");
    if (!value.is_number()) throw Malformed{};
    trigger.value = value.get<double>();
    return trigger;
}

SafetyTrigger triggerFrom(const json& object) {
    if (!object.is_object()) throw Malformed{};
    if (object.contains("quantity")) return quantityFrom(object);
    if (object.size() != 1) throw Malformed{};
    const std::string key = object.begin().key();
    const json& value = object.begin().value();
    SafetyTrigger trigger;
    if (key == "all" || key == "any") {
        trigger.kind = key == "all" ? Kind::All : Kind::Any;
        trigger.parts = triggersFrom(value);
        return trigger;
    }
    static const std::vector<std::pair<std::string_view, Kind>> wordKinds{
        {"ingredient_tags", Kind::Tags},  {"ingredient_kinds", Kind::Groups},
        {"techniques", Kind::Techniques}, {"preparation_kinds", Kind::PreparationKinds},
        {"menu_flag", Kind::Flag},        {"vessel", Kind::Vessel}};
    for (const auto& [name, kind] : wordKinds)
        if (key == name) {
            trigger.kind = kind;
            trigger.words = textsOf(value);
            return trigger;
        }
    static const std::vector<std::pair<std::string_view, Kind>> plainKinds{
        {"stored", Kind::Stored}, {"event", Kind::Event}, {"always", Kind::Always}};
    for (const auto& [name, kind] : plainKinds)
        if (key == name && value == true) {
            trigger.kind = kind;
            return trigger;
        }
    throw Malformed{};
}

Severity severityFrom(const std::string& id) {
    for (const Severity severity : {Severity::Danger, Severity::Warn, Severity::Allergen, Severity::Info})
        if (severityId(severity) == id) return severity;
    throw Malformed{};
}

SafetyRule ruleFrom(const json& object) {
    SafetyRule rule;
    rule.caution.id = text(at(object, "id"));
    rule.caution.severity = severityFrom(text(at(object, "severity")));
    rule.caution.text = text(at(object, "text"));
    rule.caution.source = text(at(object, "source"));
    rule.caution.standing = larder::flagOr(object, "standing", false);
    if (object.contains("names")) rule.names = text(object["names"]);
    rule.trigger = triggerFrom(at(object, "trigger"));
    return rule;
}

std::vector<Phrase> phrasesFrom(const json& list) {
    std::vector<Phrase> phrases;
    for (const std::string& words : textsOf(list)) {
        phrases.push_back(safetyWords(words));
        if (phrases.back().empty()) throw Malformed{};
    }
    return phrases;
}

std::set<std::string> tagsOfHandbook() {
    std::set<std::string> tags;
    for (const larder::Ingredient& kind : larder::Handbook::builtIn().kinds())
        tags.insert(kind.facts.tags.begin(), kind.facts.tags.end());
    return tags;
}

void readWords(const json& document, SafetyRules& into) {
    const std::set<std::string> carried = tagsOfHandbook();
    const json& tagWords = at(document, "tag_words");
    if (!tagWords.is_object()) throw Malformed{};
    const json none = json::object();
    const json& excepted = document.contains("tag_words_except") ? document["tag_words_except"] : none;
    const json& allergens = document.contains("allergen_tags") ? document["allergen_tags"] : none;
    if (!excepted.is_object() || !allergens.is_object()) throw Malformed{};
    for (const auto& [tag, list] : tagWords.items()) {
        TagWords words{tag, phrasesFrom(list), carried.contains(tag), {}, {}};
        if (excepted.contains(tag)) words.except = phrasesFrom(excepted[tag]);
        if (allergens.contains(tag)) words.allergen = text(allergens[tag]);
        into.tagWords.push_back(std::move(words));
    }
    for (const json& object : at(document, "technique_words")) {
        TechniqueWords words;
        words.technique = text(at(object, "technique"));
        if (object.contains("any")) words.any = phrasesFrom(object["any"]);
        if (object.contains("together"))
            for (const json& list : object["together"])
                words.together.push_back(phrasesFrom(list));
        if (words.any.empty() && words.together.empty()) throw Malformed{};
        into.techniqueWords.push_back(std::move(words));
    }
}

} // namespace

std::vector<std::string> safetyWords(std::string_view text) {
    std::vector<std::string> words;
    std::string word;
    const auto finish = [&] {
        if (!word.empty()) words.push_back(larder::wordStem(word));
        word.clear();
    };
    for (const char c : base::fold(text)) {
        const bool letter =
            (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
        if (letter)
            word += c;
        else
            finish();
    }
    finish();
    return words;
}

std::optional<SafetyRules> SafetyRules::fromJson(std::string_view source) {
    const auto document = larder::parseGuarded(source, 12);
    if (!document || !document->is_object()) return std::nullopt;
    try {
        if (text(at(*document, "schema")) != "stillroom-safety/1") return std::nullopt;
        SafetyRules rules;
        rules.deference = text(at(*document, "deference"));
        for (const json& object : at(*document, "eu_allergens"))
            rules.allergens.push_back({text(at(object, "id")), text(at(object, "name"))});
        for (const json& object : at(*document, "cautions"))
            rules.rules.push_back(ruleFrom(object));
        readWords(*document, rules);
        return rules;
    } catch (const Malformed&) {
        return std::nullopt;
    }
}

const SafetyRules& SafetyRules::builtIn() {
    static const SafetyRules rules = [] {
        auto read = fromJson(base::embedded("handbook/safety.json"));
        STILLROOM_CHECK(read.has_value(), return SafetyRules());
        return std::move(*read);
    }();
    return rules;
}

std::string_view allergenNamedBy(std::string_view cautionId) {
    for (const SafetyRule& rule : SafetyRules::builtIn().rules)
        if (rule.caution.id == cautionId) return rule.names;
    return {};
}

std::string_view deferenceText() {
    return SafetyRules::builtIn().deference;
}

std::string_view severityId(Severity severity) {
    constexpr std::array<std::string_view, 4> ids{"danger", "warn", "allergen", "info"};
    return ids[static_cast<std::size_t>(severity)];
}

const std::vector<AllergenName>& euAllergens() {
    return SafetyRules::builtIn().allergens;
}

} // namespace stillroom::spec
