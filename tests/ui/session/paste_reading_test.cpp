#include "tests/support/catch.h"
#include "tests/ui/support.h"
#include "ui/session/paste_reading.h"

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

int rowOf(const PasteReading& reading, const char* raw) {
    for (std::size_t i = 0; i < reading.rows().size(); ++i)
        if (fromCore(reading.rows()[i].read.raw).contains(QLatin1String(raw))) return static_cast<int>(i);
    return -1;
}

const spec::Line* lineNamed(const spec::Spec& spec, const char* name) {
    for (const auto& line : spec.lines)
        if (line.name.find(name) != std::string::npos) return &line;
    return nullptr;
}

} // namespace

TEST_CASE("Pasted lines that can be read two ways are asked and not guessed", "[ui][paste]") {
    TempBook book;
    PasteReading reading(*book.desk.book());
    reading.read(QStringLiteral("Grey Tolland\n\n1 1/2 oz navy rum\n6/8 mint leaves\n2 tsp sugar\n"));
    CHECK(reading.name() == QStringLiteral("Grey Tolland"));
    const int mint = rowOf(reading, "mint");
    REQUIRE(mint >= 0);
    CHECK(reading.rows()[static_cast<std::size_t>(mint)].asks);
    CHECK(reading.openQuestions() == 1);
    const auto* open = lineNamed(reading.spec(), "mint");
    REQUIRE(open != nullptr);
    CHECK_FALSE(open->poured.amount.isStated()); // a gap, until it is answered
    CHECK(lineNamed(reading.spec(), "rum")->poured.amount ==
          quantity::Amount::exact(*quantity::Rational::make(3, 2)));

    REQUIRE(reading.rows()[static_cast<std::size_t>(mint)].choices.size() >= 2);
    reading.answer(static_cast<std::size_t>(mint), 1);
    CHECK(reading.openQuestions() == 0);
    const auto chosen = reading.rows()[static_cast<std::size_t>(mint)].choices[1];
    CHECK(lineNamed(reading.spec(), "mint")->poured == chosen.poured);
}

TEST_CASE("A raw line written anew is read anew and other answers stand", "[ui][paste]") {
    TempBook book;
    PasteReading reading(*book.desk.book());
    reading.read(QStringLiteral("45 ml gin\n6/8 mint leaves\n2 ml lemn juice\n"));
    const int mint = rowOf(reading, "mint");
    REQUIRE(mint >= 0);
    reading.answer(static_cast<std::size_t>(mint), 0);
    const int lemon = rowOf(reading, "lemn");
    REQUIRE(lemon >= 0);
    reading.rewrite(static_cast<std::size_t>(lemon), QStringLiteral("20 ml lemon juice"));
    CHECK(reading.openQuestions() == 0);
    REQUIRE(lineNamed(reading.spec(), "lemon"));
    CHECK(lineNamed(reading.spec(), "lemon")->poured == ml(20));
}

TEST_CASE("Rows of a spreadsheet show what each column is taken for", "[ui][paste]") {
    TempBook book;
    PasteReading reading(*book.desk.book());
    reading.read(QStringLiteral("45\tml\tLondon dry gin\n20\tml\tlemon juice\n"));
    REQUIRE(reading.columns() != nullptr);
    CHECK(reading.columns()->uses.size() == 3);
    CHECK(reading.spec().lines.size() == 2);
    CHECK(reading.spec().lines[0].poured == ml(45));
    reading.setColumnUse(1, exchange::ColumnUse::Ignore);
    CHECK(reading.spec().lines[0].poured.measure != quantity::Measure::Ml);
}

TEST_CASE("Nothing of a paste is in the book", "[ui][paste]") {
    TempBook book;
    PasteReading reading(*book.desk.book());
    reading.read(QStringLiteral("45 ml gin\n20 ml lemon juice"));
    CHECK(reading.spec().lines.size() == 2);
    CHECK(book.desk.book()->shelf().empty());
    CHECK(book.desk.book()->book().summaries().empty());
}

TEST_CASE("Two lines that say the same are asked and answered one by one", "[ui][paste]") {
    TempBook book;
    PasteReading reading(*book.desk.book());
    reading.read(QStringLiteral("45 ml gin\n6/8 mint leaves\n6/8 mint leaves\n"));
    std::vector<std::size_t> asked;
    for (std::size_t i = 0; i < reading.rows().size(); ++i)
        if (reading.rows()[i].asks) asked.push_back(i);
    REQUIRE(asked.size() == 2);
    reading.answer(asked[0], 0);
    CHECK(reading.openQuestions() == 1);
    CHECK_FALSE(reading.rows()[asked[1]].answered);
    reading.answer(asked[1], 1);
    CHECK(reading.openQuestions() == 0);
    const auto spec = reading.spec();
    REQUIRE(spec.lines.size() == 3);
    CHECK(spec.lines[1].poured == reading.rows()[asked[0]].choices[0].poured);
    CHECK(spec.lines[2].poured == reading.rows()[asked[1]].choices[1].poured);
    CHECK_FALSE(spec.lines[1].poured == spec.lines[2].poured);
}

TEST_CASE("Of two lines that say the same the one meant is written anew", "[ui][paste]") {
    TempBook book;
    PasteReading reading(*book.desk.book());
    reading.read(QStringLiteral("45 ml gin\r\n20 ml lemon juice\n20 ml lemon juice"));
    REQUIRE(reading.rows().size() == 3);
    reading.rewrite(2, QStringLiteral("15 ml honey"));
    const auto spec = reading.spec();
    REQUIRE(spec.lines.size() == 3);
    CHECK(spec.lines[1].name == "lemon juice");
    CHECK(spec.lines[2].name == "honey");
}
