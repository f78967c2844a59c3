#include "core/exchange/book_json.h"

#include "core/base/exact_time.h"
#include "core/exchange/book_parts_json.h"
#include "core/exchange/json_object.h"

namespace stillroom::exchange {

namespace {

tasting::Person personFrom(const json& value) {
    const Object object(value, {"initials", "name", "removed", "id", "own_initials"});
    tasting::Person person;
    person.id = object.id<base::PersonId>("id");
    person.initials = object.required("initials");
    person.name = object.text("name");
    return person;
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
    const Object object(value, {"text", "spec", "when", "reason", "based_on", "house", "published",
                                "set_aside", "part_ml", "dilution", "steps", "before_step", "tastings",
                                "photos", "id", "kept", "set_aside_on"});
    ScriptedRevision revision;
    if (object.has("kept")) revision.kept = keptFrom(object.at("kept"), object.id<base::RevisionId>("id"));
    if (object.has("set_aside_on")) revision.setAsideOn = object.instant("set_aside_on");
    if (object.has("spec"))
        revision.specJson = specFrom(object.at("spec"));
    else
        revision.text = object.lines("text");
    revision.when = object.instant("when");
    revision.reason = object.text("reason");
    revision.basedOn = object.text("based_on");
    revision.house = object.flag("house");
    revision.published = object.flag("published");
    if (object.has("set_aside")) revision.setAside = object.text("set_aside");
    revision.photos = photosFrom(object.list("photos"));
    revision.partMl = object.number("part_ml", 1, 100000);
    if (object.has("dilution")) revision.dilution = dilutionFrom(object.at("dilution"));
    if (object.has("steps")) revision.steps = stepsFrom(object.list("steps"));
    revision.beforeStep = placesFrom(object.list("before_step"));
    revision.tastings = readEach(object.list("tastings"), "tasting", tastingFrom);
    for (std::size_t i = 0; i < revision.tastings.size(); ++i)
        if (revision.tastings[i].amends > static_cast<int>(i))
            throw Misread(fmt::format("tasting {}: amends one that does not stand before it", i + 1));
    if (revision.reason.empty() && !revision.kept &&
        (revision.house || revision.published || !revision.tastings.empty()))
        throw Misread("a draft is neither tasted nor the house's: give it a \"reason\"");
    return revision;
}

// A branch starts from a number that already stands.
void checkOrder(const std::vector<ScriptedRevision>& revisions) {
    for (std::size_t i = 0; i < revisions.size(); ++i) {
        const bool isDraft = revisions[i].reason.empty() && !revisions[i].kept;
        if (isDraft && i + 1 != revisions.size())
            throw Misread(fmt::format("revision {}: only the last may lack a \"reason\"", i + 1));
        if (revisions[i].basedOn.empty()) continue;
        bool stands = revisions[i].basedOn == "0"; // from nothing
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
    const Object object(value, {"name", "form", "menu", "brief", "notes", "credit", "tags", "after", "binned",
                                "revisions", "tries", "larder", "id", "created", "own_name"});
    ScriptedDrink result;
    result.drink.id = object.id<base::DrinkId>("id");
    if (object.has("own_name")) result.ownName = object.text("own_name");
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
        result.tries = readEach(object.list("tries"), "try", tryFrom);
        if (result.revisions.empty() && result.tries.empty()) throw Misread("no revisions");
        checkOrder(result.revisions);
        checkTries(result);
        result.drink.tags = textsFrom(object.list("tags"), "tags");
        result.drink.binned = object.flag("binned");
        if (object.has("after")) readAfter(object.at("after"), result);
        result.drink.created = object.has("created")      ? object.instant("created")
                               : result.revisions.empty() ? result.tries.front().when
                                                          : result.revisions.front().when;
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

bool isKnown(const ScriptedBook& book, const std::string& initials) {
    return std::any_of(book.people.begin(), book.people.end(),
                       [&](const tasting::Person& person) { return person.initials == initials; });
}

void checkTasters(const ScriptedBook& book) {
    for (const ScriptedDrink& drink : book.drinks)
        for (const ScriptedRevision& revision : drink.revisions)
            for (const ScriptedTasting& tasted : revision.tastings)
                if (!isKnown(book, tasted.initials))
                    throw Misread(
                        fmt::format("{}: no person signs as \"{}\"", drink.drink.name, tasted.initials));
    for (const ScriptedPanel& panel : book.panels)
        for (const std::string& taster : panel.tasters)
            if (!isKnown(book, taster))
                throw Misread(fmt::format("panel {}: no person signs as \"{}\"", panel.name, taster));
}

ScriptedBook bookFrom(const json& document) {
    const Object object(
        document,
        {"format", "name",     "currency",         "zone",         "region", "people",        "ingredients",
         "drinks", "rates",    "scales",           "names",        "panels", "searches",      "photos",
         "ids",    "measures", "standard_drink_g", "scale_step_g", "states", "kept_measures", "remembered"});
    if (object.text("format") != "stillroom-book/1") throw Misread("\"format\" must be \"stillroom-book/1\"");
    ScriptedBook book;
    book.hasIds = object.flag("ids");
    book.name = book.hasIds ? object.text("name") : object.required("name");
    book.currency = object.required("currency");
    if (!quantity::Currency::fromCode(book.currency))
        throw Misread(fmt::format("\"{}\" is not a currency of ISO 4217", book.currency));
    book.zone = object.has("zone") ? object.required("zone") : "UTC";
    book.region = object.has("region") ? object.required("region") : "US";
    if (object.has("measures")) book.measures = measuresFrom(object.at("measures"));
    book.standardDrinkG = object.number("standard_drink_g", 1, 100);
    book.scaleStepG = object.number("scale_step_g", 1e-6, 1000);
    book.states = statesFrom(object.list("states"));
    book.keptMeasures = readEach(object.list("kept_measures"), "kept measures", measuresFrom);
    if (object.has("remembered")) book.remembered = rememberedFrom(object.at("remembered"));
    book.people = readEach(object.list("people"), "person", personFrom);
    for (const json& person : object.list("people")) {
        const auto initials = person["initials"].get<std::string>();
        if (person.value("removed", false)) book.removed.push_back(initials);
        if (person.contains("own_initials"))
            book.ownInitials[initials] = person.value("own_initials", std::string());
    }
    book.ingredients = readEach(object.list("ingredients"), "ingredient", writtenIngredientFrom);
    book.drinks = readEach(object.list("drinks"), "drink", drinkFrom);
    if (object.has("rates")) {
        auto rates = ratesFromJson(object.at("rates"));
        if (!rates) throw Misread(rates.error());
        book.rates = *std::move(rates);
    }
    if (object.has("scales")) book.scales = scalesFrom(object.list("scales"));
    if (object.has("names")) book.names = namesFrom(object.at("names"));
    book.panels = readEach(object.list("panels"), "panel", panelFrom);
    book.searches = readEach(object.list("searches"), "search", searchFrom);
    if (object.has("photos")) book.photos = photoBytesFrom(object.at("photos"));
    checkTasters(book);
    return book;
}

json revisionJson(const ScriptedRevision& revision) {
    json object{{"when", base::exactIsoText(revision.when)}};
    if (revision.specJson.empty())
        object["text"] = revision.text;
    else
        object["spec"] = json::parse(revision.specJson);
    putIfSaid(object, "reason", revision.reason);
    putIfSaid(object, "based_on", revision.basedOn);
    if (revision.house) object["house"] = true;
    if (revision.published) object["published"] = true;
    if (revision.setAside) object["set_aside"] = *revision.setAside;
    if (revision.kept) {
        object["id"] = revision.kept->id.text();
        object["kept"] = keptJson(*revision.kept);
        if (revision.setAside) object["set_aside_on"] = base::exactIsoText(revision.setAsideOn);
    }
    if (!revision.photos.empty()) object["photos"] = photosJson(revision.photos);
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
    if (!script.drink.tags.empty()) object["tags"] = script.drink.tags;
    if (script.drink.binned) object["binned"] = true;
    if (!script.drink.id.isNull()) {
        object["id"] = script.drink.id.text();
        object["created"] = base::exactIsoText(script.drink.created);
        if (script.ownName) object["own_name"] = *script.ownName;
    }
    if (auto after = afterJson(script); !after.empty()) object["after"] = std::move(after);
    if (script.larder) object["larder"] = ingredientJson(*script.larder);
    object["revisions"] = json::array();
    for (const ScriptedRevision& revision : script.revisions)
        object["revisions"].push_back(revisionJson(revision));
    for (const ScriptedTry& one : script.tries)
        object["tries"].push_back(tryJson(one));
    return object;
}

void putSettings(json& object, const ScriptedBook& book) {
    if (book.measures) object["measures"] = json::parse(book.measures->toJsonText());
    if (book.standardDrinkG) object["standard_drink_g"] = *book.standardDrinkG;
    if (book.scaleStepG) object["scale_step_g"] = *book.scaleStepG;
    if (!book.hasIds) return;
    object["ids"] = true;
    object["states"] = json::array();
    for (const larder::FactState& state : book.states)
        object["states"].push_back(json::parse(state.canonicalJson()));
    object["kept_measures"] = json::array();
    for (const quantity::HouseMeasures& measures : book.keptMeasures)
        object["kept_measures"].push_back(json::parse(measures.toJsonText()));
    for (const auto& [name, id] : book.remembered)
        object["remembered"][name] = id.text();
}

} // namespace

tl::expected<ScriptedBook, std::string> bookFromJson(std::string_view text) {
    constexpr std::size_t kLargest = 1024U * 1024 * 1024; // photos are in it
    if (text.size() > kLargest) return tl::unexpected<std::string>("the file is larger than 1 GiB");
    constexpr int kDeepest = 64;
    bool tooDeep = false;
    const auto guard = [&tooDeep](int depth, json::parse_event_t, json&) {
        tooDeep = tooDeep || depth > kDeepest;
        return !tooDeep;
    };
    const json document = json::parse(text.begin(), text.end(), guard, false);
    if (tooDeep) return tl::unexpected<std::string>("nested too deeply");
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
    putSettings(object, book);
    if (!book.rates.empty()) object["rates"] = ratesJson(book.rates);
    if (book.scales) object["scales"] = json::parse(book.scales->canonicalJson());
    if (!book.names.empty()) object["names"] = book.names;
    for (const ScriptedPanel& panel : book.panels)
        object["panels"].push_back(panelJson(panel));
    for (const ScriptedSearch& search : book.searches) {
        object["searches"].push_back({{"name", search.name}, {"request", json::parse(search.request)}});
        if (!search.id.isNull()) object["searches"].back()["id"] = search.id.text();
    }
    if (!book.photos.empty()) object["photos"] = photoBytesJson(book.photos);
    for (const tasting::Person& person : book.people) {
        object["people"].push_back({{"initials", person.initials}, {"name", person.name}});
        if (!person.id.isNull()) object["people"].back()["id"] = person.id.text();
        if (const auto own = book.ownInitials.find(person.initials); own != book.ownInitials.end())
            object["people"].back()["own_initials"] = own->second;
    }
    for (json& person : object["people"])
        if (std::find(book.removed.begin(), book.removed.end(), person["initials"]) != book.removed.end())
            person["removed"] = true;
    for (const WrittenIngredient& ingredient : book.ingredients)
        object["ingredients"].push_back(ingredientJson(ingredient));
    for (const ScriptedDrink& drink : book.drinks)
        object["drinks"].push_back(drinkJson(drink));
    return object.dump(1, ' ', false, json::error_handler_t::replace);
}

} // namespace stillroom::exchange
