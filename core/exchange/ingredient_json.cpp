#include "core/exchange/ingredient_json.h"

#include "core/base/text.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <set>

namespace stillroom::exchange {

namespace {

using nlohmann::json;
using Failure = tl::unexpected<std::string>;

constexpr std::size_t kLargestFile = 16U * 1024 * 1024;

struct Figure {
    const char* key;
    std::optional<larder::Fact> larder::FactState::*fact;
    double highest; // above it a figure is a slip of the pen: 100 % vol, pure sugar, pure acid, mercury
};

constexpr std::array<Figure, 4> kFigures{{
    {"abv_percent", &larder::FactState::abvPercent, 100.0},
    {"sugar_g_per_l", &larder::FactState::sugarGPerL, 1600.0},
    {"acid_g_per_l", &larder::FactState::acidGPerL, 1700.0},
    {"density_kg_per_m3", &larder::FactState::densityKgPerM3, 14000.0},
}};

bool isStated(const json& object, const char* key) {
    const auto found = object.find(key);
    return found != object.end() && !found->is_null();
}

tl::expected<std::string, std::string> textAt(const json& object, const char* key) {
    if (!isStated(object, key)) return std::string{};
    if (!object[key].is_string()) return Failure(fmt::format("\"{}\" must be a text", key));
    return object[key].get<std::string>();
}

tl::expected<std::vector<std::string>, std::string> textsAt(const json& object, const char* key) {
    std::vector<std::string> texts;
    if (!isStated(object, key)) return texts;
    if (!object[key].is_array()) return Failure(fmt::format("\"{}\" must be a list of texts", key));
    for (const json& entry : object[key]) {
        if (!entry.is_string()) return Failure(fmt::format("\"{}\" must be a list of texts", key));
        texts.push_back(entry.get<std::string>());
    }
    return texts;
}

std::optional<std::string> strangeKey(const json& object, std::initializer_list<std::string_view> known) {
    for (const auto& [key, value] : object.items())
        if (std::find(known.begin(), known.end(), key) == known.end()) return key;
    return std::nullopt;
}

std::optional<larder::SourceKind> basisFromId(const std::string& id) {
    if (id.empty() || id == "label") return larder::SourceKind::Label;
    if (id == "measured") return larder::SourceKind::Measured;
    if (id == "assumed") return larder::SourceKind::Assumed;
    return std::nullopt;
}

const char* basisId(larder::SourceKind basis) {
    switch (basis) {
    case larder::SourceKind::Measured:
        return "measured";
    case larder::SourceKind::Assumed:
        return "assumed";
    default:
        return "label";
    }
}

std::optional<std::string> takeFigures(const json& object, larder::SourceKind basis,
                                       const std::string& source, WrittenIngredient& written) {
    for (const Figure& figure : kFigures) {
        if (!isStated(object, figure.key)) continue;
        const json& value = object[figure.key];
        if (!value.is_number()) return fmt::format("\"{}\" must be a number", figure.key);
        const double number = value.get<double>();
        if (!(number >= 0 && number <= figure.highest))
            return fmt::format("\"{}\" must lie between 0 and {}", figure.key, figure.highest);
        written.ingredient.facts.*figure.fact = larder::Fact{number, number, number, basis, source};
        written.statesFacts = true;
    }
    return std::nullopt;
}

// Every fact with its range and source, as a book stores them: instead of the four figures.
std::optional<std::string> takeWholeState(const json& object, WrittenIngredient& written) {
    if (!isStated(object, "facts")) return std::nullopt;
    const auto state = larder::FactState::fromCanonicalJson(object["facts"].dump());
    if (!state) return "\"facts\" cannot be read";
    written.ingredient.facts = *state;
    written.statesFacts = true;
    written.wholeState = true;
    return std::nullopt;
}

template <class Target, class Result>
std::optional<std::string> take(Target& target, Result read) {
    if (!read) return read.error();
    target = *std::move(read);
    return std::nullopt;
}

// What it is bought as, what stands on the shelf, lots.
std::optional<std::string> takeTerms(const json& object, WrittenIngredient& written) {
    larder::Ingredient& ingredient = written.ingredient;
    std::optional<std::string> problem;
    const auto each = [&](const char* key, auto read) {
        if (!problem && isStated(object, key)) problem = read(object[key]);
    };
    each("price",
         [&](const json& value) { return take(ingredient.packs, packsFromJson(value, written.paid)); });
    each("maker", [&](const json&) { return take(ingredient.maker, textAt(object, "maker")); });
    each("usable_share",
         [&](const json& value) { return take(ingredient.usableShare, shareFromJson(value)); });
    each("got_from", [&](const json& value) {
        return take(ingredient.gotFrom, gotFromFromJson(value, written.gotFromName));
    });
    each("stock", [&](const json& value) { return take(ingredient.stock, stockFromJson(value)); });
    each("lots", [&](const json& value) { return take(written.lots, lotsFromJson(value)); });
    each("keep_days", [&](const json& value) -> std::optional<std::string> {
        constexpr int kMostDays = 36500;
        const bool fits = value.is_number_integer() && value >= 0 && value <= kMostDays;
        if (!fits) return fmt::format("\"keep_days\" is whole days, at most {}", kMostDays);
        ingredient.keepDays = value.get<int>();
        return std::nullopt;
    });
    return problem;
}

// Who it is, and whom it names, in a book with ids.
std::optional<std::string> takeIds(const json& object, WrittenIngredient& written) {
    larder::Ingredient& ingredient = written.ingredient;
    std::optional<std::string> problem;
    const auto each = [&](const char* key, auto put) {
        if (problem || !isStated(object, key)) return;
        const auto text = textAt(object, key);
        if (!text || !put(*text)) problem = fmt::format("\"{}\" must be an id", key);
    };
    const auto into = [](auto& target) {
        return [&target](const std::string& text) {
            using IdType = typename std::decay_t<decltype(target)>::value_type;
            target = IdType::fromText(text);
            return target.has_value();
        };
    };
    each("id", [&](const std::string& text) {
        ingredient.id = base::IngredientId::fromText(text).value_or(base::IngredientId{});
        return !ingredient.id.isNull();
    });
    each("kind_id", into(ingredient.kind));
    each("pours", into(ingredient.houseBottle));
    each("made_by", into(ingredient.madeBy));
    each("lot_in_use", into(ingredient.lotInUse));
    each("got_from_id", [&](const std::string& text) {
        const auto id = base::IngredientId::fromText(text);
        if (id && ingredient.gotFrom) ingredient.gotFrom->of = *id;
        return id && ingredient.gotFrom;
    });
    each("handbook_id", [&](const std::string& text) {
        ingredient.handbookId = text;
        return true;
    });
    if (isStated(object, "binned")) {
        if (!object["binned"].is_boolean()) return "\"binned\" must be true or false";
        written.binned = object["binned"].get<bool>();
    }
    return problem;
}

void replaceInLarder(larder::Larder& larder, const WrittenIngredient& entry, base::IngredientId id) {
    larder::Ingredient ingredient = entry.ingredient;
    ingredient.id = id;
    if (const larder::Ingredient* known = larder.find(id)) {
        ingredient.sort = known->sort;
        ingredient.handbookId = known->handbookId;
        ingredient.aliases.insert(ingredient.aliases.end(), known->aliases.begin(), known->aliases.end());
        ingredient.aliases.push_back(known->name);
        if (ingredient.facts.group.empty()) ingredient.facts.group = known->facts.group;
        if (ingredient.facts.tags.empty()) ingredient.facts.tags = known->facts.tags;
        if (!ingredient.facts.allergens) ingredient.facts.allergens = known->facts.allergens;
        ingredient.facts.dry = known->facts.dry;
        ingredient.facts.soluble = known->facts.soluble;
        ingredient.facts.carbonated = known->facts.carbonated;
    }
    larder.put(ingredient);
    larder.remember(entry.ingredient.name, id);
}

} // namespace

tl::expected<WrittenIngredient, std::string> ingredientFromJson(const json& object) {
    if (!object.is_object()) return Failure("an ingredient must be an object");
    const auto name = textAt(object, "name");
    if (!name) return Failure(name.error());
    if (base::trimmed(*name).empty()) return Failure("an ingredient needs a \"name\"");
    const auto failed = [&](const std::string& what) { return Failure(fmt::format("{}: {}", *name, what)); };
    if (const auto strange = strangeKey(object, {"name",         "sort",
                                                 "kind",         "aliases",
                                                 "abv_percent",  "sugar_g_per_l",
                                                 "acid_g_per_l", "density_kg_per_m3",
                                                 "basis",        "source",
                                                 "allergens",    "tags",
                                                 "group",        "price",
                                                 "facts",        "maker",
                                                 "usable_share", "got_from",
                                                 "stock",        "keep_days",
                                                 "lots",         "id",
                                                 "kind_id",      "pours",
                                                 "got_from_id",  "made_by",
                                                 "handbook_id",  "binned",
                                                 "lot_in_use"}))
        return failed(fmt::format("unknown key \"{}\"", *strange));

    WrittenIngredient written;
    written.ingredient.name = std::string(base::trimmed(*name));
    const auto sort = textAt(object, "sort");
    const auto kind = textAt(object, "kind");
    const auto group = textAt(object, "group");
    const auto basis = textAt(object, "basis");
    const auto source = textAt(object, "source");
    for (const auto* text : {&sort, &kind, &group, &basis, &source})
        if (!*text) return failed(text->error());
    if (*sort == "bottle")
        written.ingredient.sort = larder::IngredientSort::Bottle;
    else if (*sort == "preparation" && isStated(object, "made_by"))
        written.ingredient.sort = larder::IngredientSort::Preparation;
    else if (!sort->empty() && *sort != "kind")
        return failed("\"sort\" is \"kind\" or \"bottle\"");
    written.kindName = *kind;
    written.ingredient.facts.group = *group;

    const auto aliases = textsAt(object, "aliases");
    const auto tags = textsAt(object, "tags");
    const auto allergens = textsAt(object, "allergens");
    for (const auto* texts : {&aliases, &tags, &allergens})
        if (!*texts) return failed(texts->error());
    written.ingredient.aliases = *aliases;
    written.ingredient.facts.tags = *tags;
    std::sort(written.ingredient.facts.tags.begin(), written.ingredient.facts.tags.end());
    if (isStated(object, "allergens")) written.ingredient.facts.allergens = *allergens;

    const auto rests = basisFromId(*basis);
    if (!rests) return failed("\"basis\" is \"label\", \"measured\" or \"assumed\"");
    const std::string says = !source->empty() ? *source : basis->empty() ? "label" : *basis;
    if (const auto problem = takeFigures(object, *rests, says, written)) return failed(*problem);
    if (const auto problem = takeWholeState(object, written)) return failed(*problem);
    if (const auto problem = takeTerms(object, written)) return failed(*problem);
    if (const auto problem = takeIds(object, written)) return failed(*problem);
    if (!written.ingredient.id.isNull()) written.ingredient.name = *name;
    return written;
}

namespace {

void putFigures(json& object, const larder::FactState& facts) {
    for (const Figure& figure : kFigures) {
        const auto& fact = facts.*figure.fact;
        if (!fact) continue;
        object[figure.key] = fact->typical;
        object["basis"] = basisId(fact->sourceKind);
        object["source"] = fact->source;
    }
}

void putIds(json& object, const WrittenIngredient& written) {
    const larder::Ingredient& ingredient = written.ingredient;
    object["id"] = ingredient.id.text();
    if (ingredient.kind) object["kind_id"] = ingredient.kind->text();
    if (ingredient.houseBottle) object["pours"] = ingredient.houseBottle->text();
    if (ingredient.madeBy) object["made_by"] = ingredient.madeBy->text();
    if (ingredient.lotInUse) object["lot_in_use"] = ingredient.lotInUse->text();
    if (ingredient.gotFrom) object["got_from_id"] = ingredient.gotFrom->of.text();
    if (!ingredient.handbookId.empty()) object["handbook_id"] = ingredient.handbookId;
    if (written.binned) object["binned"] = true;
}

} // namespace

json ingredientJson(const WrittenIngredient& written) {
    const larder::Ingredient& ingredient = written.ingredient;
    json object{{"name", ingredient.name}};
    if (ingredient.sort == larder::IngredientSort::Bottle) object["sort"] = "bottle";
    if (ingredient.sort == larder::IngredientSort::Preparation) object["sort"] = "preparation";
    if (!written.kindName.empty()) object["kind"] = written.kindName;
    if (!ingredient.aliases.empty()) object["aliases"] = ingredient.aliases;
    if (written.wholeState) {
        object["facts"] = json::parse(ingredient.facts.canonicalJson());
    } else {
        putFigures(object, ingredient.facts);
        if (ingredient.facts.allergens) object["allergens"] = *ingredient.facts.allergens;
        if (!ingredient.facts.tags.empty()) object["tags"] = ingredient.facts.tags;
        if (!ingredient.facts.group.empty()) object["group"] = ingredient.facts.group;
    }
    if (!ingredient.packs.empty()) object["price"] = packsJson(ingredient.packs);
    if (!written.paid.empty()) object["price"] = paidJson(written.paid);
    if (!ingredient.maker.empty()) object["maker"] = ingredient.maker;
    if (ingredient.usableShare != quantity::Rational(1))
        object["usable_share"] = ingredient.usableShare.text();
    if (ingredient.gotFrom) object["got_from"] = gotFromJson(*ingredient.gotFrom, written.gotFromName);
    if (ingredient.stock != larder::Stock{}) object["stock"] = stockJson(ingredient.stock);
    if (ingredient.keepDays) object["keep_days"] = *ingredient.keepDays;
    if (!written.lots.empty()) object["lots"] = lotsJson(written.lots);
    if (!ingredient.id.isNull()) putIds(object, written);
    return object;
}

std::string ingredientText(const WrittenIngredient& written) {
    return ingredientJson(written).dump(-1, ' ', false, json::error_handler_t::replace);
}

tl::expected<std::vector<WrittenIngredient>, std::string> larderFileFromJson(std::string_view text) {
    if (text.size() > kLargestFile) return Failure("the file is larger than 16 MiB");
    const json document = json::parse(text, nullptr, false);
    if (document.is_discarded()) return Failure("not JSON");
    if (!document.is_object() || !document.contains("ingredients") || !document["ingredients"].is_array())
        return Failure("needs {\"ingredients\": [ … ]}");
    std::vector<WrittenIngredient> entries;
    for (const json& object : document["ingredients"]) {
        auto entry = ingredientFromJson(object);
        if (!entry) return Failure(fmt::format("ingredient {}: {}", entries.size() + 1, entry.error()));
        entries.push_back(std::move(*entry));
    }
    return entries;
}

void putOver(larder::Larder& larder, const std::vector<WrittenIngredient>& entries) {
    // An entry that bears a kind's own name has the first claim on it, before one that bears a by-name.
    std::set<base::IngredientId> taken;
    std::vector<const WrittenIngredient*> later;
    const auto claim = [&](const WrittenIngredient& entry, bool ownNameOnly) {
        const larder::NameMatch match = larder.match(entry.ingredient.name);
        if (match.quality != larder::MatchQuality::Exact || taken.count(match.ingredient) > 0) return false;
        const larder::Ingredient* known = larder.find(match.ingredient);
        if (!known) return false;
        if (ownNameOnly && base::fold(known->name) != base::fold(entry.ingredient.name)) return false;
        taken.insert(match.ingredient);
        replaceInLarder(larder, entry, match.ingredient);
        return true;
    };
    for (const WrittenIngredient& entry : entries)
        if (!claim(entry, true)) later.push_back(&entry);
    for (const WrittenIngredient* entry : later)
        if (!claim(*entry, false))
            replaceInLarder(
                larder, *entry,
                base::IngredientId::derivedFrom("larder file: " + base::fold(entry->ingredient.name)));
}

} // namespace stillroom::exchange
