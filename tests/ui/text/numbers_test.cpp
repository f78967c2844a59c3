#include "tests/support/catch.h"
#include "ui/text/numbers.h"

#include <QLocale>

using namespace stillroom;
using namespace stillroom::ui;

namespace {

const QLocale kGerman(QLocale::German, QLocale::Germany);

spec::Reading reading(spec::Bound bound, double value, double upper = 0) {
    spec::Reading r;
    r.bound = bound;
    r.value = value;
    r.upper = upper;
    return r;
}

} // namespace

TEST_CASE("Numbers carry a true minus and never a minus nought", "[ui][text]") {
    CHECK(number(-2.5, 1, QLocale::c()) == QStringLiteral("\u22122.5"));
    CHECK(number(-0.01, 1, QLocale::c()) == QStringLiteral("0.0"));
    CHECK(signedNumber(0.3, 1, QLocale::c()) == QStringLiteral("+0.3"));
    CHECK(signedNumber(-0.04, 1, QLocale::c()) == QStringLiteral("0.0"));
    CHECK(number(1234.5, 1, QLocale(QLocale::English)) == QStringLiteral("1234.5"));
    CHECK(trimmedNumber(22.50, 2, QLocale::c()) == QStringLiteral("22.5"));
    CHECK(trimmedNumber(20, 2, QLocale::c()) == QStringLiteral("20"));
    CHECK(trimmedNumber(100, 0, QLocale::c()) == QStringLiteral("100"));
}

TEST_CASE("Numbers follow the locale on screen", "[ui][text]") {
    CHECK(number(2.5, 1, kGerman) == QStringLiteral("2,5"));
    CHECK(trimmedNumber(22.50, 2, kGerman) == QStringLiteral("22,5"));
    CHECK(number(1234.5, 1, kGerman) == QStringLiteral("1234,5"));
}

TEST_CASE("A typed point and a typed comma both mark decimals in every locale", "[ui][text]") {
    const QLocale before;
    for (const auto& locale : {QLocale::c(), kGerman, QLocale(QLocale::English)}) {
        QLocale::setDefault(locale);
        CHECK(typedNumber(QStringLiteral("2.5")) == 2.5); // 25 would be a ten-fold dose
        CHECK(typedNumber(QStringLiteral("2,5")) == 2.5);
        CHECK(typedNumber(QStringLiteral(" 0,75 ")) == 0.75);
        CHECK(typedNumber(QStringLiteral("\u22122")) == -2);
        CHECK_FALSE(typedNumber(QStringLiteral("1.234,5")));
        CHECK_FALSE(typedNumber(QStringLiteral("2.5.1")));
        CHECK_FALSE(typedNumber(QStringLiteral("1e9")));
        CHECK_FALSE(typedNumber(QString()));
        CHECK_FALSE(typedNumber(QStringLiteral("about 2")));
    }
    QLocale::setDefault(before);
}

TEST_CASE("A bound is part of a reading's text", "[ui][text]") {
    using spec::Bound;
    using Q = spec::Quantity;
    const auto text = [](const spec::Reading& r) { return readingText(r, Q::Sugar, QLocale::c()).plain(); };
    CHECK(text(reading(Bound::Exact, 7.24)) == QStringLiteral("7.2"));
    auto estimate = reading(Bound::Exact, 7.24);
    estimate.estimate = true;
    CHECK(text(estimate) == QStringLiteral("\u2248 7.2"));
    CHECK_FALSE(readingText(estimate, Q::Sugar).gap);
    CHECK(text(reading(Bound::AtLeast, 7.1)) == QStringLiteral("\u2265 7.1"));
    CHECK(text(reading(Bound::AtMost, 7.1)) == QStringLiteral("\u2264 7.1"));
    CHECK(text(reading(Bound::Between, 7.1, 8.0)) == QStringLiteral("7.1\u20138.0"));
    CHECK(text(reading(Bound::Unknown, 0)) == QStringLiteral("?"));
    CHECK(text(reading(Bound::NotApplicable, 0)) == QStringLiteral("\u2014"));
    CHECK(readingText(reading(Bound::Exact, 0.535), Q::Dilution, QLocale::c()).plain() ==
          QStringLiteral("53.5"));
}

TEST_CASE("Changed digits are counted from the first one that differs", "[ui][text]") {
    CHECK(firstDifference(QStringLiteral("17.4"), QStringLiteral("17.7")) == 3);
    CHECK(firstDifference(QStringLiteral("9.9"), QStringLiteral("10.0")) == 0);
    CHECK(firstDifference(QStringLiteral("9.9"), QStringLiteral("9.9")) == -1);
}
