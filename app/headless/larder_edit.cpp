#include "app/headless/larder_edit.h"

#include "app/headless/command.h"
#include "app/headless/fact_words.h"
#include "app/headless/files.h"
#include "app/headless/larder_doubts.h"
#include "app/headless/words.h"
#include "core/base/text.h"
#include "core/exchange/plain_number.h"
#include "core/exchange/stock_entry.h"
#include "core/larder/listing.h"

#include <fmt/format.h>

namespace stillroom::headless {

namespace {

using larder::Ingredient;
using store::StockBoard;

// What is paid for how much: at the last slash, for "26.90/700 ml" and not for "26.90 EUR".
struct PricePerSize {
    std::string paid, size;
    quantity::Currency currency;
};

PricePerSize parted(const std::string& written, const StockBoard& board) {
    const std::size_t slash = written.find('/');
    if (slash == std::string::npos)
        throw FileProblem(
            fmt::format("--price \"{}\": write what is paid for how much, as in \"26.90/700 ml\".", written));
    PricePerSize parts{std::string(base::trimmed(written.substr(0, slash))), written.substr(slash + 1),
                       board.rules.currency};
    const std::size_t space = parts.paid.find_last_of(' ');
    if (space == std::string::npos) return parts;
    const std::string code = parts.paid.substr(space + 1);
    const auto named = quantity::Currency::fromCode(code);
    if (!named)
        throw FileProblem(
            fmt::format("--price \"{}\": \"{}\" is not a currency of ISO 4217.", written, code));
    parts.currency = *named;
    parts.paid = std::string(base::trimmed(parts.paid.substr(0, space)));
    return parts;
}

larder::Pack packFrom(const StockBoard& board, const Ingredient& of, const std::string& written) {
    const auto fail = [&](const std::string& why) {
        return FileProblem(fmt::format("--price \"{}\": {}.", written, why));
    };
    const PricePerSize parts = parted(written, board);
    const auto figures = exchange::plainNumber(parts.paid);
    if (!figures) throw fail(numberProblemWords(figures.error(), parts.paid));
    const auto money = quantity::Money::fromText(*figures, parts.currency);
    if (!money)
        throw fail(fmt::format("\"{}\" is not an amount of {}, which has {} decimals", parts.paid,
                               parts.currency.text(), parts.currency.exponent));
    if (money->minor < 0) throw fail("a price cannot be below zero");
    const auto size = exchange::readStockAmount(parts.size, of);
    if (!size) {
        using P = exchange::StockEntryProblem;
        if (size.error() == P::BelowZero) throw fail("a pack cannot hold less than nothing");
        if (size.error() == P::TooLarge) throw fail("a pack larger than a thousand cubic metres");
        const std::string plainly = exchange::plainlyWritten(parts.size.substr(0, parts.size.find(' ')));
        throw fail("the size is in ml, l, g, kg or pieces" +
                   (plainly.empty() ? "" : ", its number plainly: " + plainly));
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

// --fact abv_percent=45
void takeFact(Ingredient& of, const std::string& written) {
    const std::size_t equals = written.find('=');
    const std::string key(base::trimmed(written.substr(0, equals)));
    std::string keys;
    for (const larder::FactKey& known : larder::factKeys()) {
        keys += keys.empty() ? "" : ", ";
        keys += fmt::format("{} ({})", known.id, factLabel(known.id).unit);
        if (known.id != key || equals == std::string::npos) continue;
        const std::string text(base::trimmed(written.substr(equals + 1)));
        const auto value = exchange::plainRational(text);
        if (!value)
            throw FileProblem(fmt::format("--fact {}: {}.", key, numberProblemWords(value.error(), text)));
        const double highest = key == "abv_percent" ? 100 : 20000;
        if (value->isNegative() || value->toDouble() > highest)
            throw FileProblem(
                fmt::format("--fact {}: \"{}\" is not a number from 0 to {}.", key, text, highest));
        of.facts.*known.member =
            larder::Fact::single(value->toDouble(), larder::SourceKind::Assumed, "tried");
        return;
    }
    throw FileProblem(fmt::format("--fact \"{}\": write KEY=NUMBER; keys are {}.", written, keys));
}

// --usable 17/20, 0.85 or 85 %: what of a purchase is used.
void takeUsable(Ingredient& of, const std::string& written) {
    std::string text(base::trimmed(written));
    const bool percent = !text.empty() && text.back() == '%';
    if (percent) text = std::string(base::trimmed(std::string_view(text).substr(0, text.size() - 1)));
    const auto fail = [&](const std::string& why) {
        return FileProblem(fmt::format("--usable \"{}\": {}.", written, why));
    };
    const auto number = exchange::plainRational(text);
    if (!number)
        throw fail(numberProblemWords(number.error(), text) + "; write a share, as in 17/20, 0.85 or 85%");
    const auto share = percent ? number->over(100) : *number;
    if (!share || !(quantity::Rational(0) < *share)) throw fail("nothing would come of it; a share above 0");
    if (quantity::Rational(1) < *share)
        throw fail(percent ? "more than was bought; at most 100%"
                           : "more than was bought; at most 1, or 100%");
    of.usableShare = *share;
}

} // namespace

bool triesAnEdit(const Options& options) {
    return options.has("--price") || options.has("--fact") || options.has("--usable");
}

Ingredient asEdited(const StockBoard& board, const Ingredient& of, const Options& options) {
    Ingredient edited = of;
    const bool made = of.sort == larder::IngredientSort::Preparation;
    if (options.has("--price")) edited.packs.push_back(packFrom(board, edited, options.value("--price")));
    if (options.has("--fact") && made)
        throw FileProblem(fmt::format("--fact: {} is made here, and its facts are worked out from its own "
                                      "spec. Edit that, or enter what a lot measured.",
                                      clean(edited.name)));
    if (options.has("--fact")) takeFact(edited, options.value("--fact"));
    if (options.has("--usable")) takeUsable(edited, options.value("--usable"));
    if (options.has("--price")) {
        const auto price =
            larder::unitPrice(board.larder, edited, {board.rules.currency, {}, &board.rules.rates});
        if (!price) throw FileProblem("--price: no cost comes of it: " + noCost(price.error().problem) + ".");
    }
    return edited;
}

} // namespace stillroom::headless
