#include "core/tasting/scales.h"

#include "core/base/text.h"
#include "core/tasting/guarded_json.h"

#include <algorithm>
#include <array>
#include <set>

namespace stillroom::tasting {

namespace {

using Json = nlohmann::json;

constexpr int kDeepest = 4;
constexpr std::size_t kLongestId = 40;
constexpr std::size_t kLongestName = 60;

// In the order of the enumeration; these enter files.
constexpr std::array<std::string_view, 3> kKinds{"fifteen_point", "just_about_right", "nine_point"};

constexpr std::array<std::string_view, kScaleCount> kFirst{"sweet", "sour", "strong", "bitter", "length"};

bool isIdCharacter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
}

bool isId(std::string_view id) {
    return !id.empty() && id.size() <= kLongestId && std::all_of(id.begin(), id.end(), isIdCharacter);
}

// Objects of exactly `keys`, with nothing else and nothing missing.
void holdsOnly(const Json& json, std::initializer_list<const char*> keys) {
    if (!json.is_object() || json.size() != keys.size()) throw Malformed("keys");
    for (const char* key : keys)
        if (!json.contains(key)) throw Malformed(key);
}

ScaleKind kindFrom(const Json& json) {
    const auto kind = scaleKindFromId(json.get_ref<const std::string&>());
    if (!kind) throw Malformed("kind");
    return *kind;
}

Score scoreFrom(const Json& json) {
    Score score;
    if (json.is_object()) {
        holdsOnly(json, {"kind", "value"});
        score = {wholeFrom(json["value"], 15), kindFrom(json["kind"])};
    } else {
        score.value = wholeFrom(json, 15);
    }
    if (!score.isOnScale()) throw Malformed("off the scale");
    return score;
}

} // namespace

std::string_view scaleKindId(ScaleKind kind) {
    return kKinds[static_cast<std::size_t>(kind)];
}

std::optional<ScaleKind> scaleKindFromId(std::string_view id) {
    const auto found = std::find(kKinds.begin(), kKinds.end(), id);
    if (found == kKinds.end()) return std::nullopt;
    return static_cast<ScaleKind>(found - kKinds.begin());
}

int lowestScore(ScaleKind kind) {
    return kind == ScaleKind::FifteenPoint ? 0 : 1;
}

int highestScore(ScaleKind kind) {
    switch (kind) {
    case ScaleKind::FifteenPoint:
        return 15;
    case ScaleKind::JustAboutRight:
        return 5;
    case ScaleKind::NinePoint:
        return 9;
    }
    return 0;
}

const ScaleSet& ScaleSet::defaults() {
    static const ScaleSet made = [] {
        ScaleSet set;
        for (const char* name : {"sweet", "sour", "strong", "bitter", "length", "texture", "aroma"})
            set.scales.push_back({name, name, ScaleKind::FifteenPoint});
        return set;
    }();
    return made;
}

const ScaleDefinition* ScaleSet::find(std::string_view id) const {
    const auto found = std::find_if(scales.begin(), scales.end(),
                                    [id](const ScaleDefinition& scale) { return scale.id == id; });
    return found == scales.end() ? nullptr : &*found;
}

std::optional<ScaleError> ScaleSet::problem() const {
    if (scales.size() > kMostScales) return ScaleError::TooMany;
    std::set<std::string> ids;
    std::set<std::string> names;
    for (const ScaleDefinition& scale : scales) {
        if (!isId(scale.id)) return ScaleError::BadId;
        if (base::trimmed(scale.name).empty()) return ScaleError::NoName;
        if (base::elided(scale.name, kLongestName) != scale.name) return ScaleError::LongName;
        if (!ids.insert(scale.id).second) return ScaleError::RepeatedId;
        if (!names.insert(base::fold(scale.name)).second) return ScaleError::RepeatedName;
    }
    return std::nullopt;
}

std::string ScaleSet::canonicalJson() const {
    Json json = Json::array();
    for (const ScaleDefinition& scale : scales)
        json.push_back({{"id", scale.id}, {"kind", scaleKindId(scale.kind)}, {"name", scale.name}});
    return canonicalText(json);
}

std::optional<ScaleSet> ScaleSet::fromCanonicalJson(std::string_view text) {
    const auto set = readGuarded<ScaleSet>(text, kDeepest, [](const Json& json) {
        if (!json.is_array()) throw Malformed("no list");
        ScaleSet read;
        for (const Json& each : json) {
            holdsOnly(each, {"id", "kind", "name"});
            read.scales.push_back(
                {each["id"].get<std::string>(), each["name"].get<std::string>(), kindFrom(each["kind"])});
        }
        return read;
    });
    if (!set || set->problem()) return std::nullopt;
    return set;
}

std::string newScaleId(const ScaleSet& set, std::string_view name) {
    std::string stem;
    for (const char c : base::fold(name)) {
        if (isIdCharacter(c)) stem += c;
        if (c == ' ' && !stem.empty()) stem += '_';
    }
    while (!stem.empty() && stem.back() == '_')
        stem.pop_back();
    if (stem.empty()) stem = "scale";
    stem.resize(std::min(stem.size(), kLongestId - 4));
    std::string id = stem;
    for (int number = 2; set.find(id) != nullptr; ++number)
        id = stem + '_' + std::to_string(number);
    return id;
}

std::string_view scaleId(Scale scale) {
    return kFirst[static_cast<std::size_t>(scale)];
}

Scores Scores::ofFirst(const FirstScores& scores) {
    Scores made;
    for (std::size_t i = 0; i < kScaleCount; ++i)
        if (scores[i]) made.byScale[std::string(kFirst[i])] = {*scores[i], ScaleKind::FifteenPoint};
    return made;
}

FirstScores Scores::first() const {
    FirstScores found{};
    for (std::size_t i = 0; i < kScaleCount; ++i)
        if (const auto score = of(kFirst[i]); score && score->kind == ScaleKind::FifteenPoint)
            found[i] = score->value;
    return found;
}

bool Scores::isWhole() const {
    return std::all_of(byScale.begin(), byScale.end(),
                       [](const auto& entry) { return isId(entry.first) && entry.second.isOnScale(); });
}

std::optional<Score> Scores::of(std::string_view scale) const {
    const auto found = byScale.find(scale);
    return found == byScale.end() ? std::nullopt : std::optional(found->second);
}

std::string Scores::canonicalJson() const {
    Json json = Json::object();
    for (const auto& [scale, score] : byScale) {
        if (score.kind == ScaleKind::FifteenPoint)
            json[scale] = score.value;
        else
            json[scale] = {{"kind", scaleKindId(score.kind)}, {"value", score.value}};
    }
    return canonicalText(json);
}

std::optional<Scores> Scores::fromCanonicalJson(std::string_view text) {
    return readGuarded<Scores>(text, kDeepest, [](const Json& json) {
        if (!json.is_object()) throw Malformed("no scores");
        Scores scores;
        for (const auto& [scale, score] : json.items()) {
            if (!isId(scale)) throw Malformed(scale);
            scores.byScale[scale] = scoreFrom(score);
        }
        return scores;
    });
}

} // namespace stillroom::tasting
