#include "app/headless/command.h"
#include "app/headless/files.h"
#include "app/headless/json_out.h"
#include "app/headless/text_out.h"
#include "app/headless/words.h"
#include "core/base/text.h"
#include "core/exchange/plain_number.h"
#include "core/exchange/shopping_text.h"
#include "core/store/stock_board.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <ostream>

namespace stillroom::headless {

namespace {

using nlohmann::ordered_json;
using preparation::Quantum;
using store::BoardDrink;
using store::StockBoard;

StockBoard boardOf(const Options& options, const base::Clock& clock) {
    return store::stockBoard(*store::Workbook::open(options.plain.front(), store::OpenMode::ReadOnly, clock));
}

std::string nameOf(const StockBoard& board, base::IngredientId id) {
    const larder::Ingredient* known = board.larder.find(id);
    return known != nullptr ? known->name : std::string();
}

template <class Ids>
ordered_json namesJson(const StockBoard& board, const Ids& ids) {
    ordered_json names = ordered_json::array();
    for (const base::IngredientId id : ids)
        names.push_back(nameOf(board, id));
    return names;
}

template <class Ids>
std::string namesText(const StockBoard& board, const Ids& ids) {
    std::string names;
    for (const base::IngredientId id : ids) {
        if (!names.empty()) names += ", ";
        const std::string name = nameOf(board, id);
        names += name.empty() ? "something the larder does not know" : clean(name);
    }
    return names;
}

ordered_json drinkNamesJson(const StockBoard& board, const std::vector<std::size_t>& drinks) {
    ordered_json names = ordered_json::array();
    for (const std::size_t drink : drinks)
        names.push_back(board.drinks[drink].name);
    return names;
}

const char* stateId(const preparation::DrinkReach& reach) {
    if (!reach.off.empty()) return "off";
    if (!reach.unknownLines.empty()) return "unknown";
    if (reach.within()) return "within";
    return reach.oneShort() ? "one_short" : "short";
}

ordered_json drinkJson(const StockBoard& board, const BoardDrink& drink) {
    ordered_json unknown = ordered_json::array();
    for (const int line : drink.reach.unknownLines)
        unknown.push_back(drink.spec.lines[static_cast<std::size_t>(line)].name);
    return {{"name", drink.name},
            {"menu", drink.menu},
            {"state", stateId(drink.reach)},
            {"lacks", namesJson(board, drink.reach.lacks)},
            {"off", namesJson(board, drink.reach.off)},
            {"low", namesJson(board, drink.reach.low)},
            {"make_first", namesJson(board, drink.reach.toMake)},
            {"unknown", std::move(unknown)}};
}

ordered_json circlesJson(const StockBoard& board) {
    ordered_json circles = ordered_json::array();
    for (const preparation::Circle& circle : board.circles)
        circles.push_back(namesJson(board, circle.path));
    return circles;
}

void writeCircles(std::ostream& out, const StockBoard& board) {
    for (const preparation::Circle& circle : board.circles)
        writeParagraph(out, "! made of itself: " + clean(preparation::namesOf(circle, board.larder)), 2);
}

ordered_json reachJson(const StockBoard& board) {
    ordered_json json;
    json["drinks"] = ordered_json::array();
    for (const BoardDrink& drink : board.drinks)
        json["drinks"].push_back(drinkJson(board, drink));
    json["purchases"] = ordered_json::array();
    for (const preparation::Purchase& purchase : board.purchases)
        json["purchases"].push_back({{"ingredient", nameOf(board, purchase.ingredient)},
                                     {"brings", drinkNamesJson(board, purchase.opens)},
                                     {"helps", drinkNamesJson(board, purchase.helps)}});
    json["off"] = ordered_json::array();
    for (const preparation::Fallen& fallen : board.fallen)
        json["off"].push_back(
            {{"ingredient", nameOf(board, fallen.off)}, {"drinks", drinkNamesJson(board, fallen.drinks)}});
    json["circles"] = circlesJson(board);
    return json;
}

std::string standing(const StockBoard& board, const BoardDrink& drink) {
    const preparation::DrinkReach& reach = drink.reach;
    if (!reach.off.empty()) return "off: " + namesText(board, reach.off);
    if (!reach.unknownLines.empty()) return "names what the larder does not know";
    if (!reach.within()) return "short of " + namesText(board, reach.lacks);
    std::string words = "within reach";
    if (!reach.toMake.empty()) words += "; make first: " + namesText(board, reach.toMake);
    if (!reach.low.empty()) words += "; low: " + namesText(board, reach.low);
    return words;
}

void writeReach(std::ostream& out, const StockBoard& board) {
    std::vector<std::vector<std::string>> rows;
    for (const BoardDrink& drink : board.drinks)
        rows.push_back({clean(drink.name), standing(board, drink)});
    writeTable(out, rows, 2);
    if (board.drinks.empty()) out << "No drinks yet.\n";
    if (!board.purchases.empty()) out << "\nOne purchase brings\n";
    for (const preparation::Purchase& purchase : board.purchases) {
        std::string line = clean(nameOf(board, purchase.ingredient)) + ": ";
        for (std::size_t i = 0; i < purchase.opens.size(); ++i)
            line += (i > 0 ? ", " : "") + clean(board.drinks[purchase.opens[i]].name);
        if (purchase.opens.empty()) line += "alone none";
        if (!purchase.helps.empty()) line += fmt::format("; one of what {} more lack", purchase.helps.size());
        writeParagraph(out, line, 2);
    }
    writeCircles(out, board);
}

// "Grey Tolland=40"
store::DrinkWish wishFrom(const StockBoard& board, const std::string& written) {
    const std::size_t equals = written.rfind('=');
    if (equals == std::string::npos)
        throw FileProblem(
            fmt::format("\"{}\": write a drink and how many, as in \"Ox Skerry=40\".", written));
    const std::string name(base::trimmed(written.substr(0, equals)));
    const std::string number(base::trimmed(written.substr(equals + 1)));
    constexpr double kMost = 100000;
    const auto serves = exchange::plainRational(number);
    if (!serves && serves.error() != exchange::NumberProblem::NotANumber)
        throw FileProblem(fmt::format("{}: {}.", name, numberProblemWords(serves.error(), number)));
    if (!serves || !(quantity::Rational(0) < *serves) || serves->toDouble() > kMost)
        throw FileProblem(
            fmt::format("{}: \"{}\" is not a number of serves above 0 and up to 100000.", name, number));
    for (const BoardDrink& drink : board.drinks)
        if (base::fold(drink.name) == base::fold(name)) return {drink.id, serves->toDouble()};
    throw FileProblem(fmt::format("there is no drink called \"{}\" in the book.", name));
}

ordered_json quantumJson(const Quantum& quantum) {
    return {{"amount", quantum.amount}, {"unit", larder::packUnitId(quantum.unit)}};
}

ordered_json itemJson(const StockBoard& board, const preparation::ShoppingItem& item) {
    ordered_json json;
    json["ingredient"] = nameOf(board, item.ingredient);
    json["needed"] = quantumJson(item.needed);
    json["on_shelf"] = item.onShelf;
    json["to_buy"] = item.toBuy;
    json["with_margin"] = item.withMargin;
    json["packs"] = item.pack ? ordered_json(item.packs) : ordered_json(nullptr);
    json["pack"] = item.pack ? ordered_json(exchange::packSizeText(*item.pack)) : ordered_json(nullptr);
    json["price"] = item.price ? ordered_json(item.price->text()) : ordered_json(nullptr);
    json["currency"] = item.price ? ordered_json(item.price->currency.text()) : ordered_json(nullptr);
    json["unit_unclear"] = item.unitUnclear;
    return json;
}

ordered_json listJson(const StockBoard& board, const preparation::ShoppingList& list) {
    ordered_json json;
    json["suppliers"] = ordered_json::array();
    for (const preparation::SupplierGroup& group : list.groups) {
        ordered_json items = ordered_json::array();
        for (const preparation::ShoppingItem& item : group.items)
            items.push_back(itemJson(board, item));
        json["suppliers"].push_back({{"supplier", group.supplier}, {"items", std::move(items)}});
    }
    json["totals"] = ordered_json::array();
    for (const auto& [currency, minor] : list.totals)
        json["totals"].push_back(
            {{"amount", quantity::Money{minor, currency}.text()}, {"currency", currency.text()}});
    json["to_make"] = ordered_json::array();
    for (const preparation::ToMake& made : list.toMake)
        json["to_make"].push_back({{"ingredient", nameOf(board, made.ingredient)},
                                   {"needed", quantumJson(made.needed)},
                                   {"batches", made.batches}});
    json["covered"] = ordered_json::array();
    for (std::size_t i = 0; i < list.covered.size(); ++i)
        json["covered"].push_back(
            {{"ingredient", nameOf(board, list.coveredBy[i])}, {"needed", quantumJson(list.covered[i])}});
    json["not_counted"] = namesJson(board, list.notCounted);
    json["off"] = namesJson(board, list.off);
    json["open"] = ordered_json::array();
    for (const auto& open : list.open)
        json["open"].push_back(open.name);
    json["circles"] = circlesJson(board);
    return json;
}

} // namespace

int runReach(const Options& options, Streams& streams) {
    const base::SystemClock clock;
    const StockBoard board = boardOf(options, clock);
    if (options.has("--json"))
        writeJson(streams.out, reachJson(board));
    else
        writeReach(streams.out, board);
    return kDone;
}

int runBuy(const Options& options, Streams& streams) {
    const base::SystemClock clock;
    const StockBoard board = boardOf(options, clock);
    std::vector<store::DrinkWish> wishes;
    for (std::size_t i = 1; i < options.plain.size(); ++i)
        wishes.push_back(wishFrom(board, options.plain[i]));
    preparation::ShoppingOptions how;
    how.useShelf = !options.has("--whole");
    if (options.has("--margin")) {
        const std::string text = options.value("--margin");
        const auto percent = exchange::plainRational(text);
        if (!percent)
            throw FileProblem(fmt::format("--margin: {}.", numberProblemWords(percent.error(), text)));
        constexpr double kMost = 200;
        if (percent->isNegative() || percent->toDouble() > kMost)
            throw FileProblem(fmt::format("--margin \"{}\": per cent from 0 to 200.", text));
        how.fruitMargin = percent->toDouble() / 100;
    }
    const auto list = store::shoppingFor(board, wishes, how);
    if (options.has("--json"))
        writeJson(streams.out, listJson(board, list));
    else
        streams.out << base::withoutControls(exchange::shoppingText(list, board.larder));
    return kDone;
}

} // namespace stillroom::headless
