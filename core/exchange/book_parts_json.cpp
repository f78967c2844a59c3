#include "core/exchange/book_parts_json.h"

#include "core/base/exact_time.h"
#include "core/base/hash.h"
#include "core/exchange/base64.h"
#include "core/exchange/json_object.h"
#include "core/tasting/panel_fault.h"

#include <fmt/format.h>

namespace stillroom::exchange {

ScriptedTasting tastingFrom(const json& value) {
    const Object object(value, {"by", "when", "verdict", "scores", "circumstances", "note", "try_next",
                                "amends", "photos", "id"});
    ScriptedTasting result;
    result.id = object.id<base::TastingId>("id");
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
        constexpr int kMostPoints = 15; // no scale has more
        for (const auto& [scale, points] : object.at("scores").items())
            if (points.is_number_integer() && (points < 0 || points > kMostPoints))
                throw Misread(fmt::format("\"{}\" must lie between 0 and {}", scale, kMostPoints));
        const auto scores = tasting::Scores::fromCanonicalJson(object.at("scores").dump());
        if (!scores) throw Misread("\"scores\" are whole points on their scale");
        result.scores = *scores;
    }
    if (object.has("circumstances")) {
        const auto said = tasting::Circumstances::fromCanonicalJson(object.at("circumstances").dump());
        if (!said) throw Misread("\"circumstances\" cannot be read");
        result.circumstances = *said;
    }
    result.amends = static_cast<int>(object.number("amends", 1, 1e6).value_or(0));
    result.photos = photosFrom(object.list("photos"));
    return result;
}

json tastingJson(const ScriptedTasting& tasted) {
    json object{{"by", tasted.initials}, {"when", base::exactIsoText(tasted.when)}};
    putIfSaid(object, "note", tasted.note);
    putIfSaid(object, "try_next", tasted.tryNext);
    if (tasted.verdict != tasting::Verdict::None) object["verdict"] = tasting::verdictId(tasted.verdict);
    if (!tasted.scores.byScale.empty()) object["scores"] = json::parse(tasted.scores.canonicalJson());
    if (!tasted.circumstances.isEmpty())
        object["circumstances"] = json::parse(tasted.circumstances.canonicalJson());
    if (tasted.amends > 0) object["amends"] = tasted.amends;
    if (!tasted.photos.empty()) object["photos"] = photosJson(tasted.photos);
    if (!tasted.id.isNull()) object["id"] = tasted.id.text();
    return object;
}

std::vector<ScriptedPhoto> photosFrom(const json& list) {
    return readEach(list, "photo", [](const json& value) {
        const Object object(value, {"hash", "caption", "id", "when", "hidden"});
        ScriptedPhoto photo;
        photo.hash = object.required("hash");
        photo.caption = object.text("caption");
        photo.id = object.id<base::PhotoLinkId>("id");
        if (object.has("when")) photo.when = object.instant("when");
        photo.hidden = object.flag("hidden");
        return photo;
    });
}

json photosJson(const std::vector<ScriptedPhoto>& photos) {
    json list = json::array();
    for (const ScriptedPhoto& photo : photos) {
        json object{{"hash", photo.hash}};
        putIfSaid(object, "caption", photo.caption);
        if (!photo.id.isNull()) {
            object["id"] = photo.id.text();
            object["when"] = base::exactIsoText(photo.when);
            if (photo.hidden) object["hidden"] = true;
        }
        list.push_back(std::move(object));
    }
    return list;
}

std::string specFrom(const json& value) {
    const auto spec = spec::Spec::fromCanonicalJson(value.dump());
    if (!spec) throw Misread("\"spec\" cannot be read");
    return spec->canonicalJson();
}

ScriptedTry tryFrom(const json& value) {
    const Object object(value, {"name", "based_on", "spec", "when", "set_aside", "id", "version", "binned"});
    ScriptedTry one;
    one.name = object.text("name");
    one.basedOn = object.text("based_on");
    if (!object.has("spec")) throw Misread("\"spec\" is missing");
    one.specJson = specFrom(object.at("spec"));
    one.when = object.instant("when");
    one.setAside = object.flag("set_aside");
    one.binned = object.flag("binned");
    one.id = object.id<base::DraftId>("id");
    one.version = object.whole("version").value_or(1);
    return one;
}

json tryJson(const ScriptedTry& one) {
    json object{{"spec", json::parse(one.specJson)}, {"when", base::exactIsoText(one.when)}};
    putIfSaid(object, "name", one.name);
    putIfSaid(object, "based_on", one.basedOn);
    if (one.setAside) object["set_aside"] = true;
    if (one.binned) object["binned"] = true;
    if (!one.id.isNull()) {
        object["id"] = one.id.text();
        object["version"] = one.version;
    }
    return object;
}

void checkTries(const ScriptedDrink& drink) {
    for (const ScriptedTry& one : drink.tries) {
        bool stands = one.basedOn.empty();
        for (std::size_t i = 1; i <= drink.revisions.size(); ++i)
            stands = stands || one.basedOn == std::to_string(i);
        if (!stands)
            throw Misread(fmt::format("a try is based on revision {}, which is not there", one.basedOn));
    }
    if (!drink.tries.empty() && !drink.revisions.empty() && drink.revisions.back().reason.empty() &&
        !drink.revisions.back().kept)
        throw Misread("a drink with \"tries\" has no revision without a \"reason\"");
}

void readAfter(const json& value, ScriptedDrink& drink) {
    const Object object(value, {"drink", "revision", "person", "place", "year", "work"});
    drink.afterDrink = object.text("drink");
    drink.afterRevision = object.text("revision");
    drink.drink.after.source = {object.text("person"), object.text("place"), object.text("year"),
                                object.text("work")};
}

json afterJson(const ScriptedDrink& drink) {
    json object = json::object();
    putIfSaid(object, "drink", drink.afterDrink);
    putIfSaid(object, "revision", drink.afterRevision);
    const auto& source = drink.drink.after.source;
    putIfSaid(object, "person", source.person);
    putIfSaid(object, "place", source.place);
    putIfSaid(object, "year", source.year);
    putIfSaid(object, "work", source.work);
    return object;
}

std::vector<std::string> textsFrom(const json& list, const char* what) {
    std::vector<std::string> texts;
    for (const json& text : list) {
        if (!text.is_string()) throw Misread(fmt::format("\"{}\" must be a list of texts", what));
        texts.push_back(text.get<std::string>());
    }
    return texts;
}

tasting::ScaleSet scalesFrom(const json& list) {
    const auto set = tasting::ScaleSet::fromCanonicalJson(list.dump());
    if (!set) throw Misread("\"scales\" cannot be read");
    return *set;
}

std::map<std::string, std::string> namesFrom(const json& value) {
    if (!value.is_object()) throw Misread("\"names\" must be an object");
    std::map<std::string, std::string> names;
    for (const auto& [id, name] : value.items()) {
        if (!base::IngredientId::fromText(id) || !name.is_string())
            throw Misread("\"names\" must say what ingredient ids are called");
        names[id] = name.get<std::string>();
    }
    return names;
}

ScriptedPanel panelFrom(const json& value) {
    const Object object(
        value, {"name", "when", "panel", "products", "tasters", "binned", "id", "poured", "closed", "said"});
    ScriptedPanel result;
    result.name = object.text("name");
    result.when = object.instant("when");
    if (!object.has("panel")) throw Misread("\"panel\" is missing");
    const auto panel = tasting::Panel::fromCanonicalJson(object.at("panel").dump());
    result.tasters = textsFrom(object.list("tasters"), "tasters");
    if (!panel) {
        const auto fault = tasting::panelFault(object.at("panel").dump());
        throw Misread(fmt::format("the panel does not fit together: {}",
                                  tasting::inWords(fault.value_or(tasting::PanelFault{}), result.tasters)));
    }
    result.panel = *panel;
    for (const json& product : object.list("products")) {
        const auto pair = product.is_array() ? textsFrom(product, "products") : std::vector<std::string>{};
        if (pair.size() != 2) throw Misread("\"products\" are pairs of a drink and a number");
        result.products.push_back({pair[0], pair[1]});
    }
    result.binned = object.flag("binned");
    result.id = object.id<base::PanelId>("id");
    if (object.has("poured")) result.poured = object.instant("poured");
    if (object.has("closed")) result.closed = object.instant("closed");
    result.said = saidFrom(object.list("said"));
    if (result.products.size() != panel->design.products.size() ||
        result.tasters.size() != panel->design.tasters.size())
        throw Misread("the panel has other products or tasters than it names");
    return result;
}

json panelJson(const ScriptedPanel& panel) {
    json object{{"name", panel.name},
                {"when", base::exactIsoText(panel.when)},
                {"panel", json::parse(panel.panel.canonicalJson())},
                {"products", json::array()},
                {"tasters", panel.tasters}};
    for (const auto& product : panel.products)
        object["products"].push_back({product.drink, product.revision});
    if (panel.binned) object["binned"] = true;
    if (!panel.id.isNull()) object["id"] = panel.id.text();
    if (panel.poured) object["poured"] = base::exactIsoText(*panel.poured);
    if (panel.closed) object["closed"] = base::exactIsoText(*panel.closed);
    if (!panel.said.empty()) object["said"] = saidJson(panel.said);
    return object;
}

ScriptedSearch searchFrom(const json& value) {
    const Object object(value, {"name", "request", "id"});
    if (!object.has("request") || !object.at("request").is_object())
        throw Misread("\"request\" must be an object");
    return {object.has("id") ? object.text("name") : object.required("name"), object.at("request").dump(),
            object.id<base::SavedSearchId>("id")};
}

std::map<std::string, std::string> photoBytesFrom(const json& value) {
    if (!value.is_object()) throw Misread("\"photos\" must be an object");
    std::map<std::string, std::string> photos;
    for (const auto& [hash, text] : value.items()) {
        if (!text.is_string()) throw Misread("a photo must be base64");
        auto bytes = fromBase64(text.get_ref<const std::string&>());
        if (!bytes || base::sha256Hex(*bytes) != hash)
            throw Misread(fmt::format("photo {}: its bytes are not those", hash));
        photos[hash] = *std::move(bytes);
    }
    return photos;
}

json photoBytesJson(const std::map<std::string, std::string>& photos) {
    json object = json::object();
    for (const auto& [hash, bytes] : photos)
        object[hash] = toBase64(bytes);
    return object;
}

} // namespace stillroom::exchange
