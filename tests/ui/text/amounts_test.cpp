#include "core/exchange/read_text.h"
#include "tests/support/catch.h"
#include "ui/session/line_entry.h"
#include "ui/text/amounts.h"
#include "ui/text/border.h"

using namespace stillroom;
using namespace stillroom::ui;
using quantity::Amount;
using quantity::Measure;
using quantity::Rational;

namespace {

spec::Measured measured(std::int64_t n, std::int64_t d, std::optional<Measure> measure) {
    spec::Measured m;
    m.amount = Amount::exact(*Rational::make(n, d));
    m.measure = measure;
    return m;
}

} // namespace

TEST_CASE("Amounts are written as their measure is", "[ui][text]") {
    const auto c = QLocale::c();
    CHECK(amountNumber(measured(3, 4, Measure::FlozUs), c) == QStringLiteral("¾"));
    CHECK(amountNumber(measured(3, 2, Measure::FlozUs), c) == QStringLiteral("1 ½"));
    CHECK(amountNumber(measured(45, 2, Measure::Ml), c) == QStringLiteral("22.5"));
    CHECK(amountNumber(measured(45, 2, Measure::Ml), QLocale(QLocale::German)) == QStringLiteral("22,5"));
    CHECK(amountNumber(measured(1, 7, Measure::FlozUs), c) == QStringLiteral("1/7"));
    CHECK(amountUnit(measured(1, 1, Measure::Dash)) == QStringLiteral("dash"));
    CHECK(amountUnit(measured(2, 1, Measure::Dash)) == QStringLiteral("dashes"));
    CHECK(amountUnit(measured(3, 4, Measure::Ml)) == QStringLiteral("ml"));
}

TEST_CASE("What an amount cell opens with reads back as the same amount", "[ui][text]") {
    for (const auto& locale : {QLocale::c(), QLocale(QLocale::German, QLocale::Germany)}) {
        for (const auto& info : quantity::measures()) {
            if (info.dimension != quantity::Dimension::Volume && info.dimension != quantity::Dimension::Mass)
                continue;
            for (const auto& [n, d] : {std::pair(3, 4), std::pair(45, 2), std::pair(2, 1), std::pair(1, 3)}) {
                const auto before = measured(n, d, info.measure);
                const auto text = amountForEditing(before, locale);
                INFO(text.toStdString() << " as " << info.id);
                const auto read = readAmountOver(text, before);
                REQUIRE(read);
                CHECK(read->amount == before.amount);
                CHECK(read->measure == before.measure); // national spoons and cups keep their size too
            }
        }
    }
}

TEST_CASE("An amount cell takes the ways people write", "[ui][text]") {
    const auto before = measured(20, 1, Measure::Ml);
    const auto read = [&](const char* text) { return readAmountOver(QString::fromUtf8(text), before); };
    CHECK(read("3/4")->amount == Amount::exact(*Rational::make(3, 4)));
    CHECK(read("¾")->amount == Amount::exact(*Rational::make(3, 4)));
    CHECK(read("0,75")->amount == Amount::exact(*Rational::make(3, 4)));
    CHECK(read("22.5 ml")->amount == Amount::exact(*Rational::make(45, 2)));
    CHECK(read("22,5")->amount == Amount::exact(*Rational::make(45, 2)));
    CHECK(read("1 1/2")->amount == Amount::exact(*Rational::make(3, 2)));
    CHECK(read("2 dashes")->measure == Measure::Dash);
    CHECK(read("25")->measure == Measure::Ml); // a bare number keeps the measure
    CHECK(read("")->amount == Amount::none());
    CHECK_FALSE(read("a lot of it"));
}
