#include "tests/support/catch.h"
#include "tests/ui/desktop.h"
#include "ui/dialogs/made_dialog.h"
#include "ui/panels/spec_fields.h"
#include "ui/widgets/number_edit.h"
#include "ui/widgets/prose_edit.h"

#include <QPointer>
#include <QPushButton>

#include <memory>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

void writeShakenSour(Desktop& desktop) {
    desktop.newDrink(QStringLiteral("Ox Skerry"));
    desktop.write({QStringLiteral("60 ml London dry gin"), QStringLiteral("30 ml lemon juice"),
                   QStringLiteral("22.5 ml simple syrup")});
    press(Qt::Key_Escape);
    auto shaken = desktop.draft().spec();
    shaken.method.technique = spec::Technique::Shake;
    REQUIRE(desktop.draft().apply(shaken, QStringLiteral("Shake")));
}

MadeDialog& openMade(Desktop& desktop) {
    press(Qt::Key_M, Qt::ControlModifier | Qt::ShiftModifier);
    auto* dialog = desktop.window.findChild<MadeDialog*>();
    REQUIRE(dialog != nullptr);
    QApplication::setActiveWindow(dialog);
    dialog->before().setFocus();
    return *dialog;
}

void waitClosed(Desktop& desktop) {
    REQUIRE(QTest::qWaitFor([&] { return desktop.window.findChild<MadeDialog*>() == nullptr; }));
    QApplication::setActiveWindow(&desktop.window);
    desktop.table().setFocus();
}

} // namespace

TEST_CASE("Two weights typed become the measured water of the draft in one step", "[ui][made]") {
    Desktop desktop;
    writeShakenSour(desktop);
    auto& draft = desktop.draft();
    const auto before = desktop.served(spec::Quantity::Dilution);
    const auto stood = draft.spec();
    const int steps = draft.undoStack().count();
    auto& dialog = openMade(desktop);
    CHECK(dialog.source().startsWith(QStringLiteral("Predicted by the published curve")));
    type(QStringLiteral("121.4"));
    CHECK_FALSE(dialog.ok().isEnabled()); // half a measurement is none
    press(Qt::Key_Tab);
    type(QStringLiteral("176"));
    REQUIRE(dialog.ok().isEnabled());
    CHECK(dialog.water().contains(QStringLiteral("of the volume before ice")));
    CHECK(dialog.water().contains(QStringLiteral("of the finished volume")));
    CHECK(dialog.source().startsWith(QStringLiteral("Measured: weighed")));
    press(Qt::Key_Return);
    waitClosed(desktop);
    REQUIRE(draft.spec().method.dilution);
    CHECK(draft.spec().method.dilution->origin == spec::DilutionOrigin::Measured);
    // 54.6 g of water to 121.4 g in the tin, in proportion to what the lines weigh; water is 0.9982 g/ml.
    const double grams =
        spec::compositionOf(draft.spec(), draft.bindings(), spec::Stage::Measured).totalGrams();
    const double ml = draft.now().readings[spec::Stage::Measured][spec::Quantity::Volume].value;
    const double ratio = 54.6 / 121.4 * grams / 0.9982 / ml;
    CHECK(draft.now().readings[spec::Stage::Mixed][spec::Quantity::Dilution].value ==
          Approx(ratio).epsilon(1e-4));
    CHECK(desktop.served(spec::Quantity::Dilution) != before);
    CHECK(draft.undoStack().count() == steps + 1);
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(draft.spec() == stood);
    CHECK(desktop.served(spec::Quantity::Dilution) == before);
}

TEST_CASE("Figures that lose water are explained and cannot be taken", "[ui][made]") {
    Desktop desktop;
    writeShakenSour(desktop);
    auto& dialog = openMade(desktop);
    type(QStringLiteral("176"));
    press(Qt::Key_Tab);
    type(QStringLiteral("121.4"));
    CHECK_FALSE(dialog.ok().isEnabled());
    CHECK(dialog.note().contains(QStringLiteral("weighs less than before ice")));
    const auto stood = desktop.draft().spec();
    press(Qt::Key_Return);
    CHECK(desktop.draft().spec() == stood);
    // Only the strained weight, and less than the lines weigh.
    dialog.before().clear();
    dialog.strained().setText(QStringLiteral("80"));
    CHECK_FALSE(dialog.ok().isEnabled());
    CHECK(dialog.note().contains(QStringLiteral("The lines together weigh")));
    dialog.strained().clear();
    dialog.strainedMl().setText(QStringLiteral("100"));
    CHECK_FALSE(dialog.ok().isEnabled());
    dialog.strainedMl().setText(QStringLiteral("160"));
    CHECK(dialog.ok().isEnabled());
    dialog.onIce().setText(QStringLiteral("-4"));
    CHECK_FALSE(dialog.ok().isEnabled());
    CHECK(dialog.note().contains(QStringLiteral("Fill in one")));
    dialog.strainedMl().clear();
    CHECK(dialog.ok().isEnabled());
    dialog.onIce().setText(QStringLiteral("cold"));
    CHECK_FALSE(dialog.ok().isEnabled());
    QTest::keyClick(&dialog, Qt::Key_Escape);
    waitClosed(desktop);
    CHECK(desktop.draft().spec() == stood);
}

TEST_CASE("Ice and glass are taken with the water and the prediction comes back by a button", "[ui][made]") {
    Desktop desktop;
    writeShakenSour(desktop);
    auto measured = desktop.draft().spec();
    measured.method.dilution = spec::DilutionEntry{0.5, spec::DilutionOrigin::Measured, "weighed"};
    REQUIRE(desktop.draft().apply(measured, QStringLiteral("Measured")));
    auto& dialog = openMade(desktop);
    CHECK(dialog.source() == QStringLiteral("Measured: weighed."));
    CHECK(dialog.water() ==
          QStringLiteral("Water added: 0.50 of the volume before ice (0.33 of the finished volume)"));
    QTest::keyClicks(&dialog.iceGrams(), QStringLiteral("140"));
    QTest::keyClicks(&dialog.iceC(), QStringLiteral("-8"));
    QTest::mouseClick(&dialog.backToPredicted(), Qt::LeftButton);
    CHECK(dialog.source().startsWith(QStringLiteral("Predicted")));
    QTest::mouseClick(&dialog.ok(), Qt::LeftButton);
    waitClosed(desktop);
    const auto& method = desktop.draft().spec().method;
    CHECK_FALSE(method.dilution);
    CHECK(method.iceGrams == 140.0);
    CHECK(method.iceC == -8.0);
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(desktop.draft().spec() == measured);
}

TEST_CASE("A window that goes takes an open dialog with it", "[ui][made]") {
    auto desktop = std::make_unique<Desktop>();
    writeShakenSour(*desktop);
    const QPointer<MadeDialog> dialog(&openMade(*desktop));
    type(QStringLiteral("176"));
    desktop.reset();
    CHECK(dialog.isNull());
}

TEST_CASE("Other words for the method keep the figures of how it was made", "[ui][made]") {
    Desktop desktop;
    writeShakenSour(desktop);
    auto& draft = desktop.draft();
    auto stood = draft.spec();
    auto& method = stood.method;
    method.iceGrams = 180;
    method.iceC = -7;
    method.iceWetShare = 0.1;
    method.vessel = "steel_tins";
    method.vesselGrams = 412;
    method.startC = 18;
    method.drinksPerShake = 2;
    method.dilutionModel = spec::DilutionModel::Balance;
    REQUIRE(draft.apply(stood, QStringLiteral("How it was made")));
    desktop.window.bench().sheet().fields().method().setFocus();
    type(QStringLiteral("Stir for 20 s."));
    auto expected = stood.method;
    expected.text = draft.spec().method.text;
    expected.technique = spec::Technique::Stir;
    expected.seconds = draft.spec().method.seconds;
    CHECK(draft.spec().method == expected);
    CHECK(expected.text == "Stir for 20 s.");
    CHECK(expected.seconds == quantity::Rational(20));
}
