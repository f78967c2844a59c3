#include "tests/support/catch.h"
#include "ui/plots/held_curve.h"
#include "ui/theme/theme.h"

using namespace stillroom::ui;
using namespace Qt::Literals::StringLiterals;

namespace {

HeldValues warming() {
    HeldValues values;
    HeldStrip strength{u"Strength"_s, u"% vol"_s, 1, 4, {}, {}, false};
    HeldStrip celsius{u"Temperature"_s, u"°C"_s, 1, 4, {}, {}, false};
    for (int minute = 0; minute <= 30; ++minute) {
        values.minutes.push_back(minute);
        strength.values.push_back(22);
        celsius.values.push_back(-4 + 0.5 * minute);
    }
    values.strips = {strength, celsius};
    values.basis = u"Assumed heat transfer."_s;
    return values;
}

} // namespace

TEST_CASE("Held strips stand over one axis of minutes and each to its own printed scale", "[plots][held]") {
    const auto values = warming();
    const auto look = Look::of(Mode::Light);
    const auto geometry = heldGeometry(values, QSizeF(600, 300), look);
    REQUIRE(geometry.strips.size() == 2);
    CHECK(geometry.x(0) == Approx(geometry.left));
    CHECK(geometry.x(30) == Approx(geometry.right));
    CHECK(geometry.minuteAt(geometry.x(12)) == Approx(12));
    REQUIRE(geometry.minutes.size() == 7); // every five minutes
    CHECK(geometry.minutes[2].text == u"10");
    CHECK(geometry.right < 600);
    CHECK(geometry.axisY < 300);

    const auto& celsius = geometry.strips[1];
    REQUIRE(celsius.line.size() == 31);
    // −4 to 11 °C in steps of 10: the scale runs from −10 to 20.
    CHECK(celsius.low == Approx(-10));
    CHECK(celsius.high == Approx(20));
    CHECK(celsius.y(celsius.low) == Approx(celsius.field.bottom()));
    CHECK(celsius.y(celsius.high) == Approx(celsius.field.top()));
    CHECK(celsius.line[20].x() == Approx(geometry.x(20)));
    CHECK((celsius.field.bottom() - celsius.line[20].y()) / celsius.field.height() == Approx(16.0 / 30));
    CHECK(celsius.field.top() > geometry.strips[0].field.bottom());
    CHECK(celsius.ticks.front().text == u"−10"_s);

    // What does not move is a flat line in the middle of its least span, not noise blown up.
    const auto& strength = geometry.strips[0];
    CHECK(strength.high - strength.low >= 4);
    CHECK(strength.line.first().y() == Approx(strength.line.last().y()));
}

TEST_CASE("A measured temperature stays inside the scale it is drawn on", "[plots][held]") {
    auto values = warming();
    values.strips[1].measured = QPointF(10, 26);
    const auto geometry = heldGeometry(values, QSizeF(600, 300), Look::of(Mode::Light));
    CHECK(geometry.strips[1].high >= 26);
}

TEST_CASE("Held values are read along the line and end with it", "[plots][held]") {
    const auto values = warming();
    CHECK(heldValueAt(values, values.strips[1], 10.5) == Approx(1.25));
    CHECK(heldValueAt(values, values.strips[1], -3) == Approx(-4));
    CHECK(heldValueAt(values, values.strips[1], 99) == Approx(11));
}

TEST_CASE("The held curve says in words and rows what it draws", "[plots][held]") {
    HeldCurve curve;
    curve.setValues(warming());
    CHECK(curve.minute() == 10);
    CHECK(
        curve.words().contains(u"Temperature: −4.0 °C at the start, 1.0 after 10 minutes, 11.0 after 30."_s));
    CHECK(curve.words().endsWith(u"Assumed heat transfer."_s));
    const auto rows = curve.rows();
    REQUIRE(rows.size() == 32);
    CHECK(rows[0] == QStringList{u"minute"_s, u"Strength, % vol"_s, u"Temperature, °C"_s});
    CHECK(rows[11] == QStringList{u"10"_s, u"22.0"_s, u"1.0"_s});
    curve.setMinute(500);
    CHECK(curve.minute() == 30);
}
