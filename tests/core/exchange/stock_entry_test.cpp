#include "core/exchange/stock_entry.h"

#include "tests/support/catch.h"

using namespace stillroom;
using exchange::readStockAmount;
using exchange::StockEntry;
using exchange::StockEntryProblem;
using larder::PackUnit;

namespace {

larder::Ingredient bottle(std::optional<double> ml) {
    larder::Ingredient ingredient;
    ingredient.name = "gin";
    larder::Pack pack;
    pack.price = {2450, {}};
    pack.forMl = ml;
    ingredient.packs = {pack};
    return ingredient;
}

void reads(std::string_view text, double amount, PackUnit unit, const larder::Ingredient& of = bottle(700)) {
    INFO(text);
    const auto entry = readStockAmount(text, of);
    REQUIRE(entry);
    CHECK(entry->amount == Approx(amount));
    CHECK(entry->unit == unit);
}

void refuses(std::string_view text, StockEntryProblem problem, const larder::Ingredient& of = bottle(700)) {
    INFO(text);
    const auto entry = readStockAmount(text, of);
    REQUIRE_FALSE(entry);
    CHECK(entry.error() == problem);
}

} // namespace

TEST_CASE("a count of the shelf is read as people type it", "[stock]") {
    reads("350", 350, PackUnit::Ml);
    reads("350 ml", 350, PackUnit::Ml);
    reads("1.5 l", 1500, PackUnit::Ml);
    reads("0,7 l", 700, PackUnit::Ml);
    reads("70cl", 700, PackUnit::Ml);
    reads("2 bottles", 1400, PackUnit::Ml);
    reads("½ bottle", 350, PackUnit::Ml);
    reads("2 kg", 2000, PackUnit::Gram);
    reads("0", 0, PackUnit::Ml);
    larder::Ingredient limes;
    limes.facts.dry = true;
    reads("400", 400, PackUnit::Gram, limes);
    limes.stock = {larder::OnShelf::Have, 12, PackUnit::Piece, false, {}};
    reads("9", 9, PackUnit::Piece, limes);
}

TEST_CASE("a count that cannot be is named", "[stock]") {
    refuses("", StockEntryProblem::NotAnAmount);
    refuses("plenty", StockEntryProblem::NotAnAmount);
    refuses("2-3", StockEntryProblem::NotAnAmount);
    refuses("-5", StockEntryProblem::BelowZero);
    refuses("\u22125 ml", StockEntryProblem::BelowZero);
    refuses("2000000 l", StockEntryProblem::TooLarge);
    refuses("2 parts", StockEntryProblem::UnitUnclear);
    refuses("2 bottles", StockEntryProblem::NoPack, bottle({}));
}

TEST_CASE("what was counted reads in the unit it is large in", "[stock]") {
    const auto text = [](double amount, PackUnit unit) {
        return exchange::stockAmountText({larder::OnShelf::Have, amount, unit, false, {}});
    };
    CHECK(text(350, PackUnit::Ml) == "350 ml");
    CHECK(text(1400, PackUnit::Ml) == "1.4 l");
    CHECK(text(1500, PackUnit::Gram) == "1.5 kg");
    CHECK(text(18, PackUnit::Piece) == "18");
    CHECK(exchange::stockAmountText({}).empty());
}
