#include "core/spec/spec.h"

#include "core/base/text.h"

#include <nlohmann/json.hpp>

#include <array>
#include <charconv>
#include <cmath>
#include <limits>
#include <set>

namespace stillroom::spec {

using Json = nlohmann::json;
using quantity::Amount;
using quantity::Rational;

namespace {

template <class Enum, std::size_t N>
using IdTable = std::array<std::pair<Enum, std::string_view>, N>;

template <class Enum, std::size_t N>
std::string_view idOf(const IdTable<Enum, N>& table, Enum value) {
    for (const auto& [entry, id] : table)
        if (entry == value) return id;
    return {};
}

template <class Enum, std::size_t N>
std::optional<Enum> fromIdOf(const IdTable<Enum, N>& table, std::string_view id) {
    for (const auto& [entry, entryId] : table)
        if (entryId == id) return entry;
    return std::nullopt;
}

constexpr IdTable<Role, 5> kRoles{{{Role::Mixed, "mixed"},
                                   {Role::Topped, "topped"},
                                   {Role::Floated, "floated"},
                                   {Role::Rinse, "rinse"},
                                   {Role::Garnish, "garnish"}}};

constexpr IdTable<Technique, 11> kTechniques{{{Technique::None, "none"},
                                              {Technique::Build, "build"},
                                              {Technique::Stir, "stir"},
                                              {Technique::Shake, "shake"},
                                              {Technique::Throw, "throw"},
                                              {Technique::Blend, "blend"},
                                              {Technique::WaterBath, "water_bath"},
                                              {Technique::Hot, "hot"},
                                              {Technique::Whip, "whip"},
                                              {Technique::Clarify, "clarify"},
                                              {Technique::Carbonate, "carbonate"}}};

constexpr IdTable<Qualifier, 8> kQualifiers{{{Qualifier::None, "none"},
                                             {Qualifier::About, "about"},
                                             {Qualifier::Scant, "scant"},
                                             {Qualifier::Heaping, "heaping"},
                                             {Qualifier::Level, "level"},
                                             {Qualifier::UpTo, "up_to"},
                                             {Qualifier::Small, "small"},
                                             {Qualifier::Large, "large"}}};

constexpr IdTable<DilutionOrigin, 3> kOrigins{{{DilutionOrigin::Predicted, "predicted"},
                                               {DilutionOrigin::Typed, "typed"},
                                               {DilutionOrigin::Measured, "measured"}}};

constexpr IdTable<DilutionModel, 2> kModels{
    {{DilutionModel::Curve, "curve"}, {DilutionModel::Balance, "balance"}}};

// ---- writing -----------------------------------------------------------------------------------------

// A key that is absent leaves the hash of a spec as it was before the key was known.
void putIfStated(Json& json, const char* key, const std::optional<double>& value) {
    if (value) json[key] = base::shortestDecimal(*value);
}

Json toJson(const Measured& measured) {
    Json json = Json::object();
    switch (measured.amount.kind) {
    case Amount::Kind::None:
        break;
    case Amount::Kind::Exact:
        json["exact"] = measured.amount.low.text();
        break;
    case Amount::Kind::Range:
        json["low"] = measured.amount.low.text();
        json["high"] = measured.amount.high.text();
        break;
    }
    if (measured.measure) json["measure"] = quantity::measureInfo(*measured.measure).id;
    if (measured.multiplier != Rational(1)) json["times"] = measured.multiplier.text();
    return json;
}

Json toJson(const Alternative& alternative) {
    Json json{{"amount", toJson(alternative.measured)}, {"name", alternative.name}};
    if (alternative.ingredient) json["ingredient"] = alternative.ingredient->text();
    return json;
}

Json toJson(const Line& line) {
    Json json{{"written", line.written},
              {"name", line.name},
              {"poured", toJson(line.poured)},
              {"role", roleId(line.role)}};
    if (line.ingredient) json["ingredient"] = line.ingredient->text();
    if (line.retained) json["retained"] = toJson(*line.retained);
    if (line.qualifier != Qualifier::None) json["qualifier"] = qualifierId(line.qualifier);
    if (line.juiceOf) json["juice_of"] = true;
    if (line.optional) json["optional"] = true;
    if (line.toTaste) json["to_taste"] = true;
    if (!line.note.empty()) json["note"] = line.note;
    putIfStated(json, "temperature_c", line.temperatureC);
    if (line.sizeStated) json["size_stated"] = toJson(*line.sizeStated);
    putIfStated(json, "abv_stated", line.abvStated);
    if (line.beforeStep != 0) json["before_step"] = line.beforeStep;
    if (!line.alternatives.empty()) {
        Json list = Json::array();
        for (const Alternative& alternative : line.alternatives)
            list.push_back(toJson(alternative));
        json["or"] = std::move(list);
    }
    return json;
}

Json toJson(const Step& step) {
    Json json{{"kind", stepKindId(step.kind)}};
    putIfStated(json, "minutes", step.minutes);
    putIfStated(json, "celsius", step.celsius);
    putIfStated(json, "water_lost_g", step.waterLostG);
    putIfStated(json, "water_lost_g_per_minute", step.waterLostGPerMinute);
    putIfStated(json, "water_gained_g", step.waterGainedG);
    putIfStated(json, "held_back_ml", step.heldBackMl);
    putIfStated(json, "yield_share", step.yieldShare);
    putIfStated(json, "got_ml", step.gotMl);
    putIfStated(json, "got_g", step.gotG);
    putIfStated(json, "co2_g_per_l", step.co2GPerL);
    putIfStated(json, "overrun", step.overrun);
    if (!step.note.empty()) json["note"] = step.note;
    return json;
}

Json toJson(const Method& method) {
    Json json{{"technique", techniqueId(method.technique)}};
    if (!method.text.empty()) json["text"] = method.text;
    if (method.dryShake) json["dry_shake"] = true;
    if (!method.strained) json["strained"] = false;
    if (method.seconds) json["seconds"] = method.seconds->text();
    if (!method.ice.empty()) json["ice"] = method.ice;
    if (method.drinksPerShake != 1) json["drinks_per_shake"] = method.drinksPerShake;
    if (method.dilutionModel != DilutionModel::Curve)
        json["dilution_model"] = dilutionModelId(method.dilutionModel);
    putIfStated(json, "ice_g", method.iceGrams);
    putIfStated(json, "ice_c", method.iceC);
    putIfStated(json, "ice_wet_share", method.iceWetShare);
    if (!method.vessel.empty()) json["vessel"] = method.vessel;
    putIfStated(json, "vessel_g", method.vesselGrams);
    putIfStated(json, "start_c", method.startC);
    if (method.dilution) {
        json["dilution"] = Json{{"ratio", base::shortestDecimal(method.dilution->ratio)},
                                {"origin", idOf(kOrigins, method.dilution->origin)},
                                {"how", method.dilution->how}};
    }
    return json;
}

// ---- reading -----------------------------------------------------------------------------------------

// Reads the keys of one object and remembers which it was asked for, so that a key nobody asked for is
// noticed: it comes from a newer program, and dropping it would lose somebody's work.
class ObjectReader {
  public:
    explicit ObjectReader(const Json& json) : m_json(json), m_ok(json.is_object()) {}

    const Json* get(const char* key) {
        if (!m_ok) return nullptr;
        const auto found = m_json.find(key);
        if (found == m_json.end()) return nullptr;
        m_seen.insert(key);
        return &*found;
    }
    void fail() { m_ok = false; }
    bool finished() const { return m_ok && m_seen.size() == m_json.size(); }

    void text(const char* key, std::string& out, bool required = false) {
        const Json* value = get(key);
        if (value == nullptr) {
            if (required) fail();
        } else if (value->is_string()) {
            out = value->get<std::string>();
        } else {
            fail();
        }
    }
    void flag(const char* key, bool& out) {
        const Json* value = get(key);
        if (value == nullptr) return;
        value->is_boolean() ? void(out = value->get<bool>()) : fail();
    }
    void whole(const char* key, int& out) {
        const Json* value = get(key);
        if (value == nullptr) return;
        if (!value->is_number_integer()) return fail();
        const auto wide = value->get<std::int64_t>();
        if (wide < std::numeric_limits<int>::min() || wide > std::numeric_limits<int>::max()) return fail();
        out = static_cast<int>(wide);
    }
    template <class Value, class Parse>
    void parsed(const char* key, Value& out, Parse parse, bool required = false) {
        const Json* value = get(key);
        if (value == nullptr) {
            if (required) fail();
            return;
        }
        if (!value->is_string()) return fail();
        const auto result = parse(value->get_ref<const std::string&>());
        result ? void(out = *result) : fail();
    }
    template <class Value, class Read>
    void object(const char* key, Value& out, Read read, bool required = false) {
        const Json* value = get(key);
        if (value == nullptr) {
            if (required) fail();
            return;
        }
        auto result = read(*value);
        result ? void(out = std::move(*result)) : fail();
    }
    template <class Value, class Read>
    void list(const char* key, std::vector<Value>& out, Read read, bool required = false) {
        const Json* value = get(key);
        if (value == nullptr) {
            if (required) fail();
            return;
        }
        if (!value->is_array()) return fail();
        for (const Json& entry : *value) {
            auto result = read(entry);
            if (!result) return fail();
            out.push_back(std::move(*result));
        }
    }

  private:
    const Json& m_json;
    bool m_ok;
    std::set<std::string> m_seen;
};

std::optional<double> decimalFromText(const std::string& text) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value))
        return std::nullopt;
    return value;
}

std::optional<Measured> measuredFrom(const Json& json) {
    ObjectReader reader(json);
    Measured measured;
    std::optional<Rational> exact, low, high;
    reader.parsed("exact", exact, Rational::fromText);
    reader.parsed("low", low, Rational::fromText);
    reader.parsed("high", high, Rational::fromText);
    reader.parsed("measure", measured.measure, quantity::measureFromId);
    reader.parsed("times", measured.multiplier, Rational::fromText);
    if (exact && !low && !high)
        measured.amount = Amount::exact(*exact);
    else if (!exact && low && high)
        measured.amount = Amount::range(*low, *high);
    else if (exact || low || high)
        return std::nullopt;
    if (!reader.finished()) return std::nullopt;
    return measured;
}

std::optional<Alternative> alternativeFrom(const Json& json) {
    ObjectReader reader(json);
    Alternative alternative;
    reader.object("amount", alternative.measured, measuredFrom, true);
    reader.text("name", alternative.name, true);
    reader.parsed("ingredient", alternative.ingredient, base::IngredientId::fromText);
    if (!reader.finished()) return std::nullopt;
    return alternative;
}

std::optional<Line> lineFrom(const Json& json) {
    ObjectReader reader(json);
    Line line;
    reader.text("written", line.written, true);
    reader.text("name", line.name, true);
    reader.parsed("ingredient", line.ingredient, base::IngredientId::fromText);
    reader.object("poured", line.poured, measuredFrom, true);
    reader.object("retained", line.retained, measuredFrom);
    reader.parsed("qualifier", line.qualifier, qualifierFromId);
    reader.flag("juice_of", line.juiceOf);
    reader.flag("optional", line.optional);
    reader.flag("to_taste", line.toTaste);
    reader.list("or", line.alternatives, alternativeFrom);
    reader.parsed("role", line.role, roleFromId, true);
    reader.text("note", line.note);
    reader.parsed("temperature_c", line.temperatureC, decimalFromText);
    reader.object("size_stated", line.sizeStated, measuredFrom);
    reader.parsed("abv_stated", line.abvStated, decimalFromText);
    reader.whole("before_step", line.beforeStep);
    if (!reader.finished()) return std::nullopt;
    return line;
}

std::optional<Step> stepFrom(const Json& json) {
    ObjectReader reader(json);
    Step step;
    reader.parsed("kind", step.kind, stepKindFromId, true);
    reader.parsed("minutes", step.minutes, decimalFromText);
    reader.parsed("celsius", step.celsius, decimalFromText);
    reader.parsed("water_lost_g", step.waterLostG, decimalFromText);
    reader.parsed("water_lost_g_per_minute", step.waterLostGPerMinute, decimalFromText);
    reader.parsed("water_gained_g", step.waterGainedG, decimalFromText);
    reader.parsed("held_back_ml", step.heldBackMl, decimalFromText);
    reader.parsed("yield_share", step.yieldShare, decimalFromText);
    reader.parsed("got_ml", step.gotMl, decimalFromText);
    reader.parsed("got_g", step.gotG, decimalFromText);
    reader.parsed("co2_g_per_l", step.co2GPerL, decimalFromText);
    reader.parsed("overrun", step.overrun, decimalFromText);
    reader.text("note", step.note);
    if (!reader.finished()) return std::nullopt;
    return step;
}

std::optional<DilutionEntry> dilutionFrom(const Json& json) {
    ObjectReader reader(json);
    DilutionEntry entry;
    reader.parsed("ratio", entry.ratio, decimalFromText, true);
    reader.parsed(
        "origin", entry.origin, [](std::string_view id) { return fromIdOf(kOrigins, id); }, true);
    reader.text("how", entry.how);
    if (!reader.finished()) return std::nullopt;
    return entry;
}

std::optional<Method> methodFrom(const Json& json) {
    ObjectReader reader(json);
    Method method;
    reader.text("text", method.text);
    reader.parsed("technique", method.technique, techniqueFromId, true);
    reader.flag("dry_shake", method.dryShake);
    reader.flag("strained", method.strained);
    reader.parsed("seconds", method.seconds, Rational::fromText);
    reader.object("dilution", method.dilution, dilutionFrom);
    reader.text("ice", method.ice);
    reader.whole("drinks_per_shake", method.drinksPerShake);
    reader.parsed("dilution_model", method.dilutionModel, dilutionModelFromId);
    reader.parsed("ice_g", method.iceGrams, decimalFromText);
    reader.parsed("ice_c", method.iceC, decimalFromText);
    reader.parsed("ice_wet_share", method.iceWetShare, decimalFromText);
    reader.text("vessel", method.vessel);
    reader.parsed("vessel_g", method.vesselGrams, decimalFromText);
    reader.parsed("start_c", method.startC, decimalFromText);
    if (!reader.finished()) return std::nullopt;
    return method;
}

std::optional<Spec> specFrom(const Json& json) {
    ObjectReader reader(json);
    Spec spec;
    reader.list("lines", spec.lines, lineFrom, true);
    reader.object("method", spec.method, methodFrom, true);
    reader.text("glass", spec.glass);
    reader.text("glass_profile", spec.glassProfile);
    reader.text("garnish", spec.garnish);
    reader.whole("serves", spec.serves);
    reader.parsed("part_target_ml", spec.partTargetMl, decimalFromText);
    reader.parsed("yield_ml", spec.yieldMl, decimalFromText);
    reader.parsed("ice_in_glass_g", spec.iceInGlassG, decimalFromText);
    reader.parsed("glass_g", spec.glassGrams, decimalFromText);
    reader.flag("preheated_glass", spec.preheatedGlass);
    reader.list("steps", spec.steps, stepFrom);
    if (!reader.finished()) return std::nullopt;
    return spec;
}

// Deeper than any spec goes; a text nested further is not one.
constexpr int kDeepest = 8;

} // namespace

std::string Spec::canonicalJson() const {
    Json json{{"method", toJson(method)}, {"serves", serves}};
    Json list = Json::array();
    for (const Line& line : lines)
        list.push_back(toJson(line));
    json["lines"] = std::move(list);
    if (!glass.empty()) json["glass"] = glass;
    if (!glassProfile.empty()) json["glass_profile"] = glassProfile;
    if (!garnish.empty()) json["garnish"] = garnish;
    if (partTargetMl) json["part_target_ml"] = base::shortestDecimal(*partTargetMl);
    if (yieldMl) json["yield_ml"] = base::shortestDecimal(*yieldMl);
    putIfStated(json, "ice_in_glass_g", iceInGlassG);
    putIfStated(json, "glass_g", glassGrams);
    if (preheatedGlass) json["preheated_glass"] = true;
    if (!steps.empty()) {
        Json done = Json::array();
        for (const Step& step : steps)
            done.push_back(toJson(step));
        json["steps"] = std::move(done);
    }
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::optional<Spec> Spec::fromCanonicalJson(std::string_view text) {
    bool tooDeep = false;
    const auto guard = [&tooDeep](int depth, Json::parse_event_t, Json&) {
        tooDeep = tooDeep || depth > kDeepest;
        return !tooDeep;
    };
    const Json json = Json::parse(text.begin(), text.end(), guard, false);
    if (tooDeep || json.is_discarded()) return std::nullopt;
    return specFrom(json);
}

std::string_view roleId(Role role) {
    return idOf(kRoles, role);
}
std::optional<Role> roleFromId(std::string_view id) {
    return fromIdOf(kRoles, id);
}
std::string_view techniqueId(Technique technique) {
    return idOf(kTechniques, technique);
}
std::optional<Technique> techniqueFromId(std::string_view id) {
    return fromIdOf(kTechniques, id);
}
std::string_view dilutionModelId(DilutionModel model) {
    return idOf(kModels, model);
}
std::optional<DilutionModel> dilutionModelFromId(std::string_view id) {
    return fromIdOf(kModels, id);
}
std::string_view qualifierId(Qualifier qualifier) {
    return idOf(kQualifiers, qualifier);
}
std::optional<Qualifier> qualifierFromId(std::string_view id) {
    return fromIdOf(kQualifiers, id);
}

} // namespace stillroom::spec
