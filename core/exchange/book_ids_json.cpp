#include "core/exchange/book_parts_json.h"

#include "core/base/exact_time.h"
#include "core/exchange/json_object.h"

namespace stillroom::exchange {

namespace {

void takeFact(const std::string& text, const json& value, history::RevisionFacts& facts) {
    const auto ingredient = base::IngredientId::fromText(text);
    if (!ingredient) throw Misread(fmt::format("\"{}\" must be an id", text));
    const Object object(value, {"state", "pours", "made", "lot"});
    facts.states[*ingredient] = object.required("state");
    if (object.has("pours")) facts.pours[*ingredient] = object.id<base::IngredientId>("pours");
    if (object.has("made")) facts.preparations[*ingredient] = object.id<base::RevisionId>("made");
    if (object.has("lot")) facts.lots[*ingredient] = object.id<base::LotId>("lot");
}

json factsJson(const history::RevisionFacts& facts) {
    json all = json::object();
    for (const auto& [ingredient, state] : facts.states)
        all[ingredient.text()]["state"] = state;
    for (const auto& [ingredient, bottle] : facts.pours)
        all[ingredient.text()]["pours"] = bottle.text();
    for (const auto& [ingredient, revision] : facts.preparations)
        all[ingredient.text()]["made"] = revision.text();
    for (const auto& [ingredient, lot] : facts.lots)
        all[ingredient.text()]["lot"] = lot.text();
    return all;
}

} // namespace

KeptWith keptFrom(const json& value, base::RevisionId id) {
    const Object object(value,
                        {"number", "facts", "measures", "currency", "readings", "calc_version", "hash"});
    KeptWith kept;
    kept.id = id;
    kept.number = static_cast<int>(object.number("number", 1, 1e9).value_or(0));
    kept.calcVersion = static_cast<int>(object.number("calc_version", 1, 1e6).value_or(0));
    if (id.isNull() || kept.number == 0 || kept.calcVersion == 0)
        throw Misread("what was \"kept\" has an \"id\", a \"number\" and a \"calc_version\"");
    kept.measures = object.required("measures");
    kept.hash = object.required("hash");
    const auto currency = quantity::Currency::fromCode(object.required("currency"));
    if (!currency) throw Misread("\"currency\" is not a currency of ISO 4217");
    kept.currency = *currency;
    if (!object.has("readings") || !history::readingsFromJson(object.at("readings").dump()))
        throw Misread("\"readings\" cannot be read");
    kept.readings = object.at("readings").dump();
    if (object.has("facts")) {
        if (!object.at("facts").is_object()) throw Misread("\"facts\" must be an object");
        for (const auto& [ingredient, fact] : object.at("facts").items())
            takeFact(ingredient, fact, kept.facts);
    }
    return kept;
}

json keptJson(const KeptWith& kept) {
    return {{"number", kept.number},
            {"facts", factsJson(kept.facts)},
            {"measures", kept.measures},
            {"currency", kept.currency.text()},
            {"readings", json::parse(kept.readings)},
            {"calc_version", kept.calcVersion},
            {"hash", kept.hash}};
}

std::vector<ScriptedPanel::Said> saidFrom(const json& list) {
    return readEach(list, "answer", [](const json& value) {
        const Object object(value, {"id", "by", "when", "answer"});
        ScriptedPanel::Said said;
        const auto id = base::Bits128::fromHex(object.required("id"));
        if (!id) throw Misread("\"id\" must be an id");
        said.id = *id;
        said.initials = object.required("by");
        said.when = object.instant("when");
        const auto answer = object.has("answer")
                                ? tasting::Answer::fromCanonicalJson(object.at("answer").dump())
                                : std::nullopt;
        if (!answer) throw Misread("\"answer\" cannot be read");
        said.answer = *answer;
        return said;
    });
}

json saidJson(const std::vector<ScriptedPanel::Said>& said) {
    json list = json::array();
    for (const auto& one : said)
        list.push_back({{"id", one.id.hex()},
                        {"by", one.initials},
                        {"when", base::exactIsoText(one.when)},
                        {"answer", json::parse(one.answer.canonicalJson())}});
    return list;
}

std::vector<larder::FactState> statesFrom(const json& list) {
    return readEach(list, "state", [](const json& value) {
        const auto state = larder::FactState::fromCanonicalJson(value.dump());
        if (!state) throw Misread("cannot be read");
        return *state;
    });
}

quantity::HouseMeasures measuresFrom(const json& value) {
    const auto measures = quantity::HouseMeasures::fromJsonText(value.dump());
    if (!measures) throw Misread("house measures cannot be read");
    return *measures;
}

std::map<std::string, base::IngredientId> rememberedFrom(const json& value) {
    if (!value.is_object()) throw Misread("\"remembered\" must be an object");
    std::map<std::string, base::IngredientId> remembered;
    for (const auto& [name, id] : value.items()) {
        const auto read = id.is_string() ? base::IngredientId::fromText(id.get<std::string>()) : std::nullopt;
        if (!read) throw Misread("\"remembered\" must say which ingredient a name means");
        remembered[name] = *read;
    }
    return remembered;
}

} // namespace stillroom::exchange
