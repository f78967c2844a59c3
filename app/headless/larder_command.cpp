#include "app/headless/command.h"
#include "app/headless/files.h"
#include "app/headless/json_out.h"
#include "app/headless/larder_doubts.h"
#include "app/headless/text_out.h"
#include "core/base/text.h"
#include "core/exchange/larder_json.h"
#include "core/exchange/shopping_text.h"
#include "core/exchange/stock_entry.h"
#include "core/larder/allergens.h"
#include "core/larder/listing.h"
#include "core/preparation/edit_impact.h"
#include "core/store/stock_board.h"
#include "core/store/where_used.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <ostream>

namespace stillroom::headless {

namespace {

using larder::Ingredient;
using nlohmann::ordered_json;
using store::StockBoard;

larder::PriceQuestion question(const StockBoard& board) {
    return {board.rules.currency, {}, &board.rules.rates};
}

const char* sortId(larder::IngredientSort sort) {
    switch (sort) {
    case larder::IngredientSort::Bottle:
        return "bottle";
    case larder::IngredientSort::Preparation:
        return "preparation";
    case larder::IngredientSort::Kind:
        break;
    }
    return "kind";
}

std::string perText(const larder::UnitPrice& price) {
    if (price.unit == larder::PackUnit::Piece) return "each";
    return fmt::format("per {} {}", price.of, larder::packUnitId(price.unit));
}

ordered_json priceJson(const larder::UnitPrice& price, const StockBoard& board) {
    return {{"amount", price.major},
            {"of", price.of},
            {"unit", larder::packUnitId(price.unit)},
            {"currency", board.rules.currency.text()}};
}

// What a person may write for it: exactly its name, or one that only it answers to.
const Ingredient& named(const StockBoard& board, const std::string& name) {
    const larder::NameMatch match = board.larder.match(name);
    const Ingredient* found = board.larder.find(match.ingredient);
    if (match.quality == larder::MatchQuality::Ambiguous)
        throw FileProblem(fmt::format("\"{}\" is the name of several things in the larder.", name));
    if (found == nullptr) throw FileProblem(fmt::format("the larder has nothing called \"{}\".", name));
    return *found;
}

// --price "26.90/700 ml": what is paid, in the book's currency or a named one, for how much.
larder::Pack packFrom(const StockBoard& board, const Ingredient& of, const std::string& written) {
    const auto fail = [&](const std::string& why) {
        return FileProblem(fmt::format("--price \"{}\": {}.", written, why));
    };
    const std::size_t slash = written.find('/');
    if (slash == std::string::npos) throw fail("write what is paid for how much, as in \"26.90/700 ml\"");
    std::string paid(base::trimmed(written.substr(0, slash)));
    quantity::Currency currency = board.rules.currency;
    if (const std::size_t space = paid.find_last_of(' '); space != std::string::npos) {
        const auto named = quantity::Currency::fromCode(paid.substr(space + 1));
        if (!named) throw fail(fmt::format("\"{}\" is not a currency of ISO 4217", paid.substr(space + 1)));
        currency = *named;
        paid = std::string(base::trimmed(paid.substr(0, space)));
    }
    const auto money = quantity::Money::fromText(paid, currency);
    if (!money) throw fail(fmt::format("\"{}\" is not an amount of {}", paid, currency.text()));
    if (money->minor < 0) throw fail("a price cannot be below zero");
    const auto size = exchange::readStockAmount(written.substr(slash + 1), of);
    if (!size) {
        using P = exchange::StockEntryProblem;
        if (size.error() == P::BelowZero) throw fail("a pack cannot hold less than nothing");
        if (size.error() == P::TooLarge) throw fail("a pack larger than a thousand cubic metres");
        throw fail("the size is in ml, l, g, kg or pieces");
    }
    if (!(size->amount > 0)) throw fail("a pack that holds nothing has no price per ml");
    larder::Pack pack;
    pack.id = base::PackId::random();
    pack.price = *money;
    if (size->unit == larder::PackUnit::Ml) pack.forMl = size->amount;
    if (size->unit == larder::PackUnit::Gram) pack.forG = size->amount;
    if (size->unit == larder::PackUnit::Piece) pack.forPieces = size->amount;
    if (const auto rate = larder::costRate(pack); !rate)
        throw fail("no cost comes of it: " + noCost(rate.error()));
    return pack;
}

bool isMade(const Ingredient& ingredient) {
    return ingredient.sort == larder::IngredientSort::Preparation;
}

// --fact abv_percent=45
void takeFact(Ingredient& of, const std::string& written) {
    const std::size_t equals = written.find('=');
    const std::string key(base::trimmed(written.substr(0, equals)));
    std::string keys;
    for (const larder::FactKey& known : larder::factKeys()) {
        keys += keys.empty() ? "" : ", ";
        keys += known.id;
        if (known.id != key || equals == std::string::npos) continue;
        const std::string text(base::trimmed(written.substr(equals + 1)));
        const auto value = quantity::Rational::fromText(text);
        const double highest = key == "abv_percent" ? 100 : 20000;
        if (!value || value->isNegative() || value->toDouble() > highest)
            throw FileProblem(
                fmt::format("--fact {}: \"{}\" is not a number from 0 to {}.", key, text, highest));
        of.facts.*known.member =
            larder::Fact::single(value->toDouble(), larder::SourceKind::Assumed, "tried");
        return;
    }
    throw FileProblem(fmt::format("--fact \"{}\": write KEY=NUMBER; keys are {}.", written, keys));
}

// --usable 17/20: what of a purchase is used.
void takeUsable(Ingredient& of, const std::string& text) {
    const auto share = quantity::Rational::fromText(text);
    if (!share || !(quantity::Rational(0) < *share))
        throw FileProblem(fmt::format("--usable \"{}\": nothing would come of it; a share above 0.", text));
    if (quantity::Rational(1) < *share)
        throw FileProblem(fmt::format("--usable \"{}\": more than was bought; at most 1.", text));
    of.usableShare = *share;
}

struct Used {
    std::string name;
    std::vector<base::IngredientId> through;
};

std::vector<Used> usedBy(const store::Workbook& book, const StockBoard& board,
                         base::IngredientId ingredient) {
    const preparation::Followers followers(board.larder, board.preparations);
    std::vector<Used> found;
    for (const preparation::Use& use :
         store::whereUsed(book, ingredient, followers.of({ingredient}), followers).by)
        if (const auto drink = book.drink(use.by)) found.push_back({drink->name, use.through});
    return found;
}

constexpr std::array<const char*, preparation::kCompared.size()> kComparedIds{"strength", "sugar", "acid",
                                                                              "cost"};

struct Shown {
    const StockBoard& board;
    Ingredient ingredient;
    std::vector<Used> uses;
    std::optional<preparation::EditImpact> impact;
    std::vector<std::string> doubts; // of it as it would be
};

preparation::EditImpact impactOf(const StockBoard& board, const Ingredient& edited) {
    std::vector<preparation::ImpactSubject> subjects;
    for (const store::BoardDrink& drink : board.drinks)
        subjects.push_back({&drink.spec, nullptr});
    return preparation::editImpact({board.larder, board.rules}, {edited}, board.preparations, subjects);
}

// Refused where it could not be saved so.
std::vector<std::string> lookedThrough(const StockBoard& board, const Ingredient& as) {
    larder::Larder larder = board.larder;
    larder.put(as);
    const auto found = preparation::findings(larder, as.id, board.preparations, question(board));
    auto doubts = doubtsOf(found, as, larder);
    if (const auto* stored = board.larder.find(as.id);
        preparation::refuses(found) && !(stored != nullptr && *stored == as))
        throw FileProblem(fmt::format("{}: {}.", as.name, fmt::join(doubts, "; ")));
    return doubts;
}

ordered_json optionalJson(const std::optional<double>& value) {
    return value ? ordered_json(*value) : ordered_json(nullptr);
}

ordered_json impactJson(const Shown& shown) {
    const preparation::EditImpact& impact = *shown.impact;
    ordered_json json;
    json["cost_before"] = optionalJson(impact.costBefore);
    json["cost_after"] = optionalJson(impact.costAfter);
    json["drinks"] = ordered_json::array();
    for (const preparation::Impact& each : impact.drinks.changed) {
        const store::BoardDrink& drink = shown.board.drinks[each.subject];
        ordered_json one{{"name", drink.name}};
        for (std::size_t i = 0; i < kComparedIds.size(); ++i) {
            const spec::Quantity quantity = preparation::kCompared[i];
            const std::string unit = quantity == spec::Quantity::Cost
                                         ? std::string(shown.board.rules.currency.text())
                                         : std::string(spec::quantityUnit(quantity));
            one[kComparedIds[i]] = {{"before", readingJson(drink.spec, each.before[quantity], unit)},
                                    {"after", readingJson(drink.spec, each.after[quantity], unit)}};
        }
        one["allergens_gained"] = each.allergensGained;
        one["allergens_lost"] = each.allergensLost;
        json["drinks"].push_back(std::move(one));
    }
    json["made"] = ordered_json::array();
    for (const preparation::MadeChange& made : impact.made)
        json["made"].push_back({{"name", shown.board.larder.find(made.ingredient)->name},
                                {"cost_before", optionalJson(made.costBefore)},
                                {"cost_after", optionalJson(made.costAfter)}});
    json["too_small_to_see"] = impact.drinks.tooSmallToSee;
    json["unchanged"] = impact.drinks.unchanged + impact.drinks.untouched;
    return json;
}

ordered_json oneJson(const Shown& shown) {
    const Ingredient& of = shown.ingredient;
    const auto price = larder::unitPrice(shown.board.larder, of, question(shown.board));
    ordered_json json{{"name", of.name}, {"sort", sortId(of.sort)}, {"maker", of.maker}};
    json["facts"] = ordered_json::object();
    for (const larder::FactKey& key : larder::factKeys())
        if (const auto& fact = of.facts.*key.member)
            json["facts"][std::string(key.id)] = {{"value", fact->typical},
                                                  {"low", fact->low},
                                                  {"high", fact->high},
                                                  {"source", fact->source},
                                                  {"on", fact->on}};
    json["allergens"] = of.facts.allergens ? ordered_json(*of.facts.allergens) : ordered_json(nullptr);
    json["allergens_complete"] = larder::allergensOf(of.facts).complete;
    json["tags"] = of.facts.tags;
    // What a batch costs is worked out, and stands as a pack only to be computed with.
    json["packs"] = isMade(of) ? ordered_json::array() : ordered_json(exchange::packsJson(of.packs));
    json["price"] = price ? priceJson(*price, shown.board) : ordered_json(nullptr);
    json["no_price"] =
        price ? ordered_json(nullptr) : ordered_json(larder::costProblemId(price.error().problem));
    json["usable_share"] = of.usableShare.text();
    json["stock"] = ordered_json(exchange::stockJson(of.stock));
    json["keep_days"] = of.keepDays ? ordered_json(*of.keepDays) : ordered_json(nullptr);
    json["lots"] = ordered_json::array();
    for (const larder::Lot& lot : shown.board.larder.lots(of.id))
        json["lots"].push_back({{"on", lot.on},
                                {"use_by", lot.useBy},
                                {"got_ml", optionalJson(lot.gotMl)},
                                {"note", lot.note},
                                {"used_up", lot.usedUp},
                                {"in_use", of.lotInUse == lot.id}});
    json["used_by"] = ordered_json::array();
    for (const Used& used : shown.uses) {
        ordered_json through = ordered_json::array();
        for (const base::IngredientId id : used.through)
            if (const Ingredient* step = shown.board.larder.find(id)) through.push_back(step->name);
        json["used_by"].push_back({{"name", used.name}, {"through", std::move(through)}});
    }
    json["doubts"] = shown.doubts;
    if (shown.impact) json["impact"] = impactJson(shown);
    return json;
}

void writeImpact(std::ostream& out, const Shown& shown) {
    const preparation::EditImpact& impact = *shown.impact;
    out << "\nWith this edit (nothing is written)\n";
    std::vector<std::vector<std::string>> rows{{"", "% vol", "sugar", "acid", "cost"}};
    for (const preparation::Impact& each : impact.drinks.changed) {
        std::vector<std::string> row{clean(shown.board.drinks[each.subject].name)};
        for (const spec::Quantity quantity : preparation::kCompared) {
            const std::string before = readingText(quantity, each.before[quantity]);
            const std::string after = readingText(quantity, each.after[quantity]);
            row.push_back(before == after ? before : before + " → " + after);
        }
        rows.push_back(std::move(row));
    }
    if (impact.drinks.changed.empty())
        out << "  no drink in use reads otherwise\n";
    else
        writeTable(out, rows, 1);
    for (const preparation::Impact& each : impact.drinks.changed)
        for (const std::string& gained : each.allergensGained)
            out << "  ! " << clean(shown.board.drinks[each.subject].name) << " then contains " << gained
                << "\n";
    for (const preparation::MadeChange& made : impact.made) {
        std::string line = "made here: " + clean(shown.board.larder.find(made.ingredient)->name);
        if (made.costBefore && made.costAfter)
            line +=
                fmt::format(", {:.2f} → {:.2f} {} {}", *made.costBefore, *made.costAfter,
                            shown.board.rules.currency.text(), made.after.dry ? "per 100 g" : "per 100 ml");
        writeParagraph(out, line, 2);
    }
}

void writeOne(std::ostream& out, const Shown& shown) {
    const Ingredient& of = shown.ingredient;
    out << clean(of.name) << "  (" << sortId(of.sort) << ")\n";
    std::vector<std::vector<std::string>> rows;
    for (const larder::FactKey& key : larder::factKeys())
        if (const auto& fact = of.facts.*key.member)
            rows.push_back({std::string(key.id), base::shortestDecimal(fact->typical), clean(fact->source)});
    writeTable(out, rows, 1);
    const auto price = larder::unitPrice(shown.board.larder, of, question(shown.board));
    if (price)
        out << fmt::format("  {:.4f} {} {}\n", price->major, shown.board.rules.currency.text(),
                           perText(*price));
    else
        out << "  no cost: " << noCost(price.error().problem) << "\n";
    for (const larder::Pack& pack : isMade(of) ? std::vector<larder::Pack>() : of.packs)
        out << clean(fmt::format("  pack of {}: {} {}{}{}\n", exchange::packSizeText(pack), pack.price.text(),
                                 pack.price.currency.text(),
                                 pack.pricedOn.empty() ? "" : " of " + pack.pricedOn,
                                 pack.supplier.empty() ? "" : ", " + pack.supplier));
    const larder::AllergenReading allergens = larder::allergensOf(of.facts);
    std::vector<std::string> contains = allergens.eu;
    contains.insert(contains.end(), allergens.other.begin(), allergens.other.end());
    out << "  allergens: "
        << (contains.empty() ? "none on record" : clean(fmt::format("{}", fmt::join(contains, ", "))))
        << (allergens.complete ? "" : "; others not stated") << "\n";
    const std::string counted = exchange::stockAmountText(of.stock);
    out << "  shelf: " << (of.stock.off ? "off" : larder::onShelfId(of.stock.state))
        << (counted.empty() ? "" : ", ") << counted << "\n";
    for (const std::string& doubt : shown.doubts)
        writeParagraph(out, "! " + clean(doubt), 2);
    if (!shown.uses.empty()) out << "\nUsed by\n";
    for (const Used& used : shown.uses) {
        std::string line = clean(used.name);
        for (std::size_t i = 1; i < used.through.size(); ++i)
            if (const Ingredient* step = shown.board.larder.find(used.through[i]))
                line += (i == 1 ? " by way of " : ", ") + clean(step->name);
        writeParagraph(out, line, 2);
    }
    if (shown.impact) writeImpact(out, shown);
}

ordered_json listJson(const StockBoard& board) {
    ordered_json all = ordered_json::array();
    for (const larder::Listed& row : larder::listed(board.larder, question(board))) {
        if (!row.own) continue;
        all.push_back({{"name", row.name},
                       {"sort", sortId(row.sort)},
                       {"kind", row.kind},
                       {"abv_percent", optionalJson(row.abvPercent)},
                       {"price", row.price ? priceJson(*row.price, board) : ordered_json(nullptr)},
                       {"no_price", row.noPrice ? ordered_json(larder::costProblemId(*row.noPrice))
                                                : ordered_json(nullptr)},
                       {"stock", ordered_json(exchange::stockJson(row.stock))}});
    }
    return all;
}

void writeList(std::ostream& out, const StockBoard& board) {
    std::vector<std::vector<std::string>> rows{{"", "", "% vol", "price", "shelf"}};
    for (const larder::Listed& row : larder::listed(board.larder, question(board))) {
        if (!row.own) continue;
        rows.push_back({clean(row.name), sortId(row.sort),
                        row.abvPercent ? base::shortestDecimal(*row.abvPercent) : "?",
                        row.price ? fmt::format("{:.2f} {}", row.price->major, perText(*row.price)) : "?",
                        row.stock.off ? "off" : std::string(larder::onShelfId(row.stock.state))});
    }
    if (rows.size() == 1)
        out << "Nothing of its own in the larder yet.\n";
    else
        writeTable(out, rows, 2);
    for (const preparation::Circle& circle : board.circles)
        writeParagraph(out, "! made of itself: " + clean(preparation::namesOf(circle, board.larder)), 2);
}

} // namespace

int runLarder(const Options& options, Streams& streams) {
    const base::SystemClock clock;
    const auto book = store::Workbook::open(options.plain.front(), store::OpenMode::ReadOnly, clock);
    const StockBoard board = store::stockBoard(*book);
    const bool tries = options.has("--price") || options.has("--fact") || options.has("--usable");
    if (!options.has("--name")) {
        if (tries) throw FileProblem("--price, --fact and --usable need --name: of what.");
        if (options.has("--json"))
            writeJson(streams.out,
                      {{"currency", board.rules.currency.text()}, {"ingredients", listJson(board)}});
        else
            writeList(streams.out, board);
        return kDone;
    }
    const Ingredient& found = named(board, options.value("--name"));
    Shown shown{board, found, usedBy(*book, board, found.id), std::nullopt, lookedThrough(board, found)};
    if (tries) {
        Ingredient edited = found;
        if (options.has("--price")) edited.packs.push_back(packFrom(board, edited, options.value("--price")));
        if (options.has("--fact") && isMade(edited))
            throw FileProblem(
                fmt::format("--fact: {} is made here, and its facts are worked out from its own "
                            "spec. Edit that, or enter what a lot measured.",
                            clean(edited.name)));
        if (options.has("--fact")) takeFact(edited, options.value("--fact"));
        if (options.has("--usable")) takeUsable(edited, options.value("--usable"));
        if (const auto price = larder::unitPrice(board.larder, edited, question(board));
            !price && options.has("--price"))
            throw FileProblem("--price: no cost comes of it: " + noCost(price.error().problem) + ".");
        shown.doubts = lookedThrough(board, edited);
        shown.impact = impactOf(board, edited);
    }
    if (options.has("--json"))
        writeJson(streams.out, oneJson(shown));
    else
        writeOne(streams.out, shown);
    return kDone;
}

} // namespace stillroom::headless
