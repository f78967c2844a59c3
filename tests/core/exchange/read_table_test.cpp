#include "tests/support/catch.h"

#include "core/exchange/columns.h"

using namespace stillroom;
using exchange::ColumnUse;
using quantity::Amount;

TEST_CASE("Rows of a sheet are told by their header", "[read]") {
    const auto table = exchange::readColumns(
        "Ingredient\tAmount\tUnit\nGin\t60\tml\nLemon juice\t22,5\tml\nBitters\t2\tdashes\n");
    REQUIRE(table);
    CHECK(table->firstRowIsHeader);
    CHECK(table->uses == std::vector<ColumnUse>{ColumnUse::Name, ColumnUse::Amount, ColumnUse::Measure});
    const exchange::ReadResult read = exchange::readTable(*table);
    REQUIRE(read.drinks.size() == 1);
    const auto& lines = read.drinks.front().lines;
    REQUIRE(lines.size() == 3);
    CHECK(lines[1].line.name == "Lemon juice");
    CHECK(lines[1].line.poured.amount == Amount::exact(*quantity::Rational::make(45, 2)));
    CHECK(lines[2].unit == "dash");
    CHECK(read.every.size() == 4);
    CHECK(read.every[1].raw == "Gin\t60\tml");
}

TEST_CASE("Rows without a header are told by what the cells hold", "[read]") {
    const auto table =
        exchange::readColumns("Night Post\n60\tml\tgin\n22,5\tml\tlemon juice\n1\t\tegg white\n");
    REQUIRE(table);
    CHECK_FALSE(table->firstRowIsHeader);
    const exchange::ReadResult read = exchange::readTable(*table);
    REQUIRE(read.drinks.size() == 1);
    CHECK(read.drinks.front().name == "Night Post");
    REQUIRE(read.drinks.front().lines.size() == 3);
    CHECK(read.drinks.front().lines[2].unit == "piece");
}

TEST_CASE("A column set to ignore is left out", "[read]") {
    auto table = exchange::readColumns("60\tml\tgin\tcheap\n20\tml\tlime juice\tfresh\n");
    REQUIRE(table);
    CHECK(table->uses.back() == ColumnUse::Note);
    CHECK(exchange::readTable(*table).drinks.front().lines.front().line.note == "cheap");
    table->uses.back() = ColumnUse::Ignore;
    CHECK(exchange::readTable(*table).drinks.front().lines.front().line.note.empty());
}

TEST_CASE("A text with a stray tab is no table", "[read]") {
    CHECK_FALSE(exchange::readColumns("2\toz\tgin"));
    CHECK_FALSE(exchange::readColumns("A drink\n60 ml gin\n20 ml\tlime juice\nShake.\n"));
}
