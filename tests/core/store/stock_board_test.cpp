#include "core/store/stock_board.h"

#include "core/base/text.h"
#include "core/exchange/shopping_text.h"
#include "core/store/sample_book.h"
#include "tests/core/store/store_support.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace stillroom;
using namespace stillroom::test;
using store::StockBoard;

namespace {

// The sample's shelf of 24 November: overproof rum, wormwood spirit and the sparkling wine are out, the
// amontillado is off, the gin is low.
struct Sample {
    TempFolder folder;
    base::SystemClock clock;
    std::unique_ptr<store::Workbook> book;

    Sample() {
        store::createSampleBook(folder.file("sample.stillroom"));
        book = store::Workbook::open(folder.file("sample.stillroom"), store::OpenMode::ReadWrite, clock);
    }
};

const store::BoardDrink& named(const StockBoard& board, const std::string& name) {
    const auto found = std::find_if(board.drinks.begin(), board.drinks.end(),
                                    [&](const auto& drink) { return drink.name == name; });
    REQUIRE(found != board.drinks.end());
    return *found;
}

std::string nameOf(const StockBoard& board, base::IngredientId id) {
    return board.larder.find(id)->name;
}

} // namespace

TEST_CASE("a book's shelf says what is within reach and what one is short of", "[store][stock]") {
    const Sample sample;
    const StockBoard board = store::stockBoard(*sample.book);
    CHECK(board.drinks.size() == 9);
    for (const char* within : {"Hallan Stack", "Ox Skerry", "Grey Tolland", "Long Candle", "Bittern Light"}) {
        INFO(within);
        CHECK(named(board, within).reach.within());
    }
    CHECK(named(board, "Ox Skerry").reach.low.size() == 1); // the gin
    const auto& quill = named(board, "Quill Point").reach;
    REQUIRE(quill.oneShort());
    CHECK(nameOf(board, *quill.lacks.begin()) == "overproof rum");
    const auto& pellow = named(board, "Pellow Head").reach;
    CHECK_FALSE(pellow.within());
    CHECK_FALSE(pellow.oneShort()); // no purchase mends what is off
    REQUIRE(board.fallen.size() == 1);
    CHECK(nameOf(board, board.fallen[0].off).find("amontillado") != std::string::npos);
    REQUIRE(board.fallen[0].drinks.size() == 1);
    CHECK(board.drinks[board.fallen[0].drinks[0]].name == "Pellow Head");
    REQUIRE(board.purchases.size() == 3);
    for (const auto& purchase : board.purchases)
        CHECK(purchase.opens.size() == 1);
    CHECK(std::is_sorted(board.stocked.begin(), board.stocked.end(), [&](auto a, auto b) {
        return base::compareForPeople(nameOf(board, a), nameOf(board, b)) < 0;
    }));
    CHECK(std::count_if(board.stocked.begin(), board.stocked.end(), [&](auto id) {
              return nameOf(board, id) == "lime, whole fruit";
          }) == 1); // bought for its juice
}

TEST_CASE("a list for chosen drinks counts packs through a preparation by supplier", "[store][stock]") {
    const Sample sample;
    const StockBoard board = store::stockBoard(*sample.book);
    const auto list = store::shoppingFor(
        board, {{named(board, "Grey Tolland").id, 40}, {named(board, "Quill Point").id, 12}});
    std::map<std::string, std::map<std::string, preparation::ShoppingItem>> bought;
    for (const auto& group : list.groups)
        for (const auto& item : group.items)
            bought[group.supplier][nameOf(board, item.ingredient)] = item;
    // 40 x 60 ml of apple brandy, 1,400 ml on the shelf: 1,000 ml short, two bottles of 700 ml.
    const auto& brandy = bought["Quayside Cellars"]["Apple brandy, 42 %"];
    CHECK(brandy.needed.amount == Approx(2400));
    CHECK(brandy.toBuy == Approx(1000));
    CHECK(brandy.packs == 2);
    CHECK(brandy.price->minor == 5740);
    // 40 x 22.5 ml of lemon juice: 20 lemons and a quarter of that, for those on the shelf may run low as
    // well: 25, 18 are there, 7 of a crate.
    const auto& lemons = bought["Harbour market"]["lemon, whole fruit"];
    CHECK(lemons.withMargin);
    CHECK(lemons.needed.amount == Approx(20));
    CHECK(lemons.toBuy == Approx(7));
    CHECK(lemons.packs == 1);
    // 12 x 20 ml of lime: 8 limes, 10 with the margin, 9 are there.
    REQUIRE(bought["Harbour market"].count("lime, whole fruit") == 1);
    CHECK(bought["Harbour market"]["lime, whole fruit"].toBuy == Approx(1));
    // 40 x 25 ml of honey syrup: 620 ml there, so 380 ml to make.
    REQUIRE(list.toMake.size() == 1);
    CHECK(nameOf(board, list.toMake[0].ingredient) == "Heather-honey syrup");
    CHECK(list.toMake[0].needed.amount == Approx(380));
    const std::string text = exchange::shoppingText(list, board.larder);
    for (const char* part :
         {"Quayside Cellars", "Apple brandy, 42 %: 1 l = 2 x 700 ml, EUR 57.40",
          "lemon, whole fruit: 7 (with a margin)", "To make", "Heather-honey syrup: 380 ml"}) {
        INFO(part);
        CHECK(text.find(part) != std::string::npos);
    }
}

TEST_CASE("stock that changes is another board and saving it stores no computed price", "[store][stock]") {
    Sample sample;
    StockBoard board = store::stockBoard(*sample.book);
    auto rum = *board.larder.find(*named(board, "Quill Point").reach.lacks.begin());
    rum.stock.state = larder::OnShelf::Have;
    sample.book->saveIngredient(rum);
    board = store::stockBoard(*sample.book);
    CHECK(named(board, "Quill Point").reach.within());
    const auto syrup = board.larder.match("Heather-honey syrup").ingredient;
    auto counted = *board.larder.find(syrup);
    REQUIRE(counted.packs.size() == 1); // what making it cost
    counted.stock.amount = 100;
    sample.book->saveIngredient(counted);
    auto honey = *board.larder.find(board.larder.match("Heather honey").ingredient);
    honey.packs.back().price.minor *= 2;
    honey.packs.back().id = base::PackId::random();
    const auto before = sample.book->larder().find(syrup)->packs.at(0).price.minor;
    sample.book->saveIngredient(honey);
    CHECK(sample.book->larder().find(syrup)->packs.at(0).price.minor == 2 * before);
}
