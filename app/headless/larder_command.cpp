#include "app/headless/command.h"
#include "app/headless/fact_words.h"
#include "app/headless/files.h"
#include "app/headless/json_out.h"
#include "app/headless/larder_doubts.h"
#include "app/headless/larder_edit.h"
#include "app/headless/larder_impact.h"
#include "app/headless/text_out.h"
#include "core/base/text.h"
#include "core/exchange/larder_json.h"
#include "core/exchange/shopping_text.h"
#include "core/exchange/stock_entry.h"
#include "core/larder/allergens.h"
#include "core/larder/listing.h"
#include "core/preparation/part_dates.h"
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

bool isMade(const Ingredient& ingredient) {
    return ingredient.sort == larder::IngredientSort::Preparation;
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

struct Shown {
    const StockBoard& board;
    Ingredient ingredient;
    std::vector<Used> uses;
    std::optional<BookImpact> impact;
    std::vector<std::string> doubts; // of it as it would be
};

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

std::optional<std::string> lastDay(const larder::Lot& lot, const StockBoard& board) {
    return preparation::lastDayOf(lot, board.larder, board.preparations, board.rules);
}

ordered_json lastDayJson(const larder::Lot& lot, const StockBoard& board) {
    const auto day = lastDay(lot, board);
    return day ? ordered_json(*day) : ordered_json(nullptr);
}

void writeLots(std::ostream& out, const Ingredient& of, const StockBoard& board) {
    const std::string today = base::isoText(base::SystemClock().now()).substr(0, 10);
    for (const larder::Lot& lot : board.larder.lots(of.id)) {
        if (lot.usedUp) continue;
        const auto day = lastDay(lot, board);
        std::string line = fmt::format("lot of {}: {}", lot.on,
                                       day ? "use by " + *day : "nobody has said how long it keeps");
        if (day && *day < today) line = "! " + line + ", past its day";
        if (of.lotInUse == lot.id) line += "; poured from";
        writeParagraph(out, clean(line), 2);
    }
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
                                {"last_day", lastDayJson(lot, shown.board)},
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
    if (shown.impact) json["impact"] = impactJson(*shown.impact, shown.board);
    return json;
}

void writeOne(std::ostream& out, const Shown& shown) {
    const Ingredient& of = shown.ingredient;
    out << clean(of.name) << "  (" << sortId(of.sort) << ")\n";
    for (const larder::FactKey& key : larder::factKeys())
        if (const auto& fact = of.facts.*key.member)
            writeParagraph(out,
                           fmt::format("{}: {} ({})", factLabel(key.id).name, factText(key.id, fact->typical),
                                       clean(fact->source)),
                           2);
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
    out << "  shelf: " << shelfWords(of.stock) << (counted.empty() ? "" : ", ") << counted << "\n";
    writeLots(out, of, shown.board);
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
    if (shown.impact) writeImpact(out, *shown.impact, shown.board);
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
                        row.abvPercent ? shownNumber(*row.abvPercent, 2) : "?",
                        row.price ? fmt::format("{:.2f} {}", row.price->major, perText(*row.price)) : "?",
                        std::string(shelfWords(row.stock))});
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
    const bool tries = triesAnEdit(options);
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
        const Ingredient edited = asEdited(board, found, options);
        shown.doubts = lookedThrough(board, edited);
        shown.impact = impactOn(*book, board, edited);
    }
    if (options.has("--json"))
        writeJson(streams.out, oneJson(shown));
    else
        writeOne(streams.out, shown);
    return kDone;
}

} // namespace stillroom::headless
