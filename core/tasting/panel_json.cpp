#include "core/base/text.h"
#include "core/tasting/guarded_json.h"
#include "core/tasting/panel.h"

#include <algorithm>
#include <charconv>
#include <initializer_list>

namespace stillroom::tasting {

namespace {

using Json = nlohmann::json;

// A panel is five levels deep; a text nested further is not one.
constexpr int kDeepest = 6;
constexpr int kLargestNumber = 999; // a code

void putUnlessEmpty(Json& json, const char* key, const std::map<int, int>& marks) {
    if (marks.empty()) return;
    Json& out = json[key] = Json::object();
    for (const auto& [code, mark] : marks)
        out[std::to_string(code)] = mark;
}

void putUnlessEmpty(Json& json, const char* key, const std::string& text) {
    if (!text.empty()) json[key] = text;
}

Json jsonOf(const Answer& answer) {
    Json json = Json::object();
    if (answer.chosen) json["chosen"] = *answer.chosen;
    putUnlessEmpty(json, "ranks", answer.ranks);
    putUnlessEmpty(json, "scores", answer.scores);
    putUnlessEmpty(json, "just_right", answer.justRight);
    putUnlessEmpty(json, "note", answer.note);
    return json;
}

Json jsonOf(const Serving& serving) {
    Json cups = Json::array();
    for (const Cup& cup : serving.cups)
        cups.push_back(Json::array({cup.code, cup.product}));
    Json json{{"cups", std::move(cups)}};
    if (serving.reference) json["reference"] = *serving.reference;
    return json;
}

template <class Id>
Json textsOf(const std::vector<Id>& ids) {
    Json json = Json::array();
    for (const Id& id : ids)
        json.push_back(id.text());
    return json;
}

std::string hexOf(std::uint64_t seed) {
    std::string text(16, '0');
    for (std::size_t i = text.size(); i-- > 0; seed >>= 4)
        text[i] = "0123456789abcdef"[seed & 15U];
    return text;
}

void allowOnly(const Json& json, std::initializer_list<std::string_view> keys) {
    if (!json.is_object()) throw Malformed("no object");
    for (const auto& [key, value] : json.items())
        if (std::find(keys.begin(), keys.end(), key) == keys.end()) throw Malformed(key);
}

std::size_t indexFrom(const Json& json) {
    return static_cast<std::size_t>(wholeFrom(json, static_cast<int>(kMostPanelProducts) - 1));
}

template <class Number>
Number numberFrom(const std::string& text, auto... format) {
    Number value{};
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value, format...);
    if (error != std::errc{} || end != text.data() + text.size()) throw Malformed(text);
    return value;
}

template <class Item, class Read>
std::vector<Item> listFrom(const Json& json, Read read) {
    if (!json.is_array()) throw Malformed("no list");
    std::vector<Item> items;
    for (const Json& each : json)
        items.push_back(read(each));
    return items;
}

template <class Id>
Id idFrom(const Json& json) {
    const auto id = Id::fromText(json.get_ref<const std::string&>());
    if (!id) throw Malformed("no id");
    return *id;
}

std::map<int, int> marksFrom(const Json& json, const char* key) {
    std::map<int, int> marks;
    if (!json.contains(key)) return marks;
    if (!json[key].is_object()) throw Malformed(key);
    for (const auto& [text, mark] : json[key].items()) {
        const int code = numberFrom<int>(text);
        if (!marks.emplace(code, wholeFrom(mark, kLargestNumber)).second)
            throw Malformed(text); // "123" and "0123"
    }
    return marks;
}

Answer answerFrom(const Json& json) {
    allowOnly(json, {"chosen", "ranks", "scores", "just_right", "note"});
    Answer answer;
    if (json.contains("chosen")) answer.chosen = wholeFrom(json["chosen"], kLargestNumber);
    answer.ranks = marksFrom(json, "ranks");
    answer.scores = marksFrom(json, "scores");
    answer.justRight = marksFrom(json, "just_right");
    answer.note = json.value("note", "");
    return answer;
}

Cup cupFrom(const Json& json) {
    if (!json.is_array() || json.size() != 2) throw Malformed("no cup");
    return {wholeFrom(json[0], kLargestNumber), indexFrom(json[1])};
}

Serving servingFrom(const Json& json) {
    allowOnly(json, {"cups", "reference"});
    Serving serving;
    serving.cups = listFrom<Cup>(json.at("cups"), cupFrom);
    if (json.contains("reference")) serving.reference = indexFrom(json["reference"]);
    return serving;
}

template <class Value>
Value required(const std::optional<Value>& value) {
    if (!value) throw Malformed("unknown id");
    return *value;
}

Panel panelFrom(const Json& json) {
    allowOnly(json, {"alpha", "answers", "attribute", "foretold", "kind", "products", "seed", "servings",
                     "share", "state", "tasters"});
    Panel panel;
    PanelDesign& design = panel.design;
    design.kind = required(panelKindFromId(json.at("kind").get_ref<const std::string&>()));
    design.attribute = json.value("attribute", "");
    design.products = listFrom<base::RevisionId>(json.at("products"), idFrom<base::RevisionId>);
    if (json.contains("foretold")) design.foretold = listFrom<std::size_t>(json["foretold"], indexFrom);
    design.tasters = listFrom<base::PersonId>(json.at("tasters"), idFrom<base::PersonId>);
    if (json.contains("alpha"))
        design.alpha = numberFrom<double>(json["alpha"].get_ref<const std::string&>());
    if (json.contains("share"))
        design.share = numberFrom<double>(json["share"].get_ref<const std::string&>());
    design.seed = numberFrom<std::uint64_t>(json.at("seed").get_ref<const std::string&>(), 16);
    if (json.contains("state"))
        panel.state = required(panelStateFromId(json["state"].get_ref<const std::string&>()));
    panel.servings = listFrom<Serving>(json.at("servings"), servingFrom);
    if (json.contains("answers"))
        panel.answers = listFrom<Answer>(json["answers"], answerFrom);
    else
        panel.answers.resize(panel.servings.size());
    return panel;
}

} // namespace

std::string Answer::canonicalJson() const {
    return canonicalText(jsonOf(*this));
}

std::optional<Answer> Answer::fromCanonicalJson(std::string_view text) {
    return readGuarded<Answer>(text, kDeepest, answerFrom);
}

std::string Panel::canonicalJson() const {
    Json json{{"kind", panelKindId(design.kind)},
              {"products", textsOf(design.products)},
              {"tasters", textsOf(design.tasters)},
              {"seed", hexOf(design.seed)}};
    putUnlessEmpty(json, "attribute", design.attribute);
    if (!design.foretold.empty()) json["foretold"] = design.foretold;
    if (design.alpha != PanelDesign{}.alpha) json["alpha"] = base::shortestDecimal(design.alpha);
    if (design.share) json["share"] = base::shortestDecimal(*design.share);
    if (state != PanelState::Designed) json["state"] = panelStateId(state);
    Json& served = json["servings"] = Json::array();
    for (const Serving& serving : servings)
        served.push_back(jsonOf(serving));
    const bool answered =
        std::any_of(answers.begin(), answers.end(), [](const Answer& answer) { return !answer.isEmpty(); });
    if (answered) {
        Json& said = json["answers"] = Json::array();
        for (const Answer& answer : answers)
            said.push_back(jsonOf(answer));
    }
    return canonicalText(json);
}

std::optional<Panel> Panel::fromCanonicalJson(std::string_view text) {
    const auto panel = readGuarded<Panel>(text, kDeepest, panelFrom);
    if (!panel || problemOf(*panel)) return std::nullopt;
    return panel;
}

std::optional<Panel> readPanelUnchecked(std::string_view text) {
    return readGuarded<Panel>(text, kDeepest, panelFrom);
}

} // namespace stillroom::tasting
