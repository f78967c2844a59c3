#include "tests/support/catch.h"
#include "tests/ui/panels/ways_room.h"
#include "ui/dialogs/pick_dialog.h"
#include "ui/panels/larder/larder_page.h"
#include "ui/panels/measuring/ingredient_button.h"
#include "ui/panels/measuring/measuring_page.h"
#include "ui/panels/tasting/tasting_page.h"
#include "ui/session/larder_edit.h"

#include <QListWidget>
#include <QPushButton>
#include <QTableWidget>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;
using namespace Qt::Literals::StringLiterals;

namespace {

// A sour on the bench, and the page opened by its key.
struct Scales : WaysRoom<MeasuringPage> {
    Scales() {
        newDrink(u"Ox Skerry"_s);
        write({u"45 ml London dry gin"_s, u"15 ml gentian liqueur"_s, u"22.5 ml lemon juice"_s});
        press(Qt::Key_Escape);
        open();
    }
    void open() { openBy(Qt::Key_F); }
    // As a person chooses: Alt S, Enter, part of the name, Enter.
    void choose(const QString& part) {
        press(Qt::Key_S, Qt::AltModifier);
        REQUIRE(page().of().button().hasFocus());
        press(Qt::Key_Return);
        auto* pick = window.findChild<PickDialog*>();
        REQUIRE(pick != nullptr);
        QApplication::setActiveWindow(pick);
        pick->filter().setFocus();
        QTest::keyClicks(&pick->filter(), part);
        QTest::keyClick(&pick->filter(), Qt::Key_Return);
        REQUIRE(QTest::qWaitFor([this] { return window.findChild<PickDialog*>() == nullptr; }));
        QApplication::setActiveWindow(&window);
    }
};

} // namespace

TEST_CASE("A liqueur is weighed and its sugar kept and taken back by keys alone", "[ui][measuring]") {
    Scales scales;
    CHECK(scales.page().list().hasFocus());
    CHECK(scales.headline() == u"Nothing measured yet"_s);
    CHECK_FALSE(scales.page().keep().isEnabled());
    scales.choose(u"gentian liqueur"_s);
    const auto before = scales.known("gentian liqueur").facts.sugarGPerL;
    scales.page().list().setFocus();
    press(Qt::Key_Return); // into the form
    REQUIRE(scales.field("volume").hasFocus());
    type(u"100"_s);
    CHECK(scales.detail().contains(u"weight"_s)); // what is missing
    press(Qt::Key_Return);
    REQUIRE(scales.field("net").hasFocus());
    type(u"105,8"_s);
    scales.fill("abv", u"20"_s);
    CHECK(scales.headline().startsWith(u"Sugar "_s));
    CHECK(scales.headline().contains(u"give or take"_s));
    CHECK(scales.page().values().rowCount() == 5);
    CHECK(scales.page().keep().isEnabled());
    press(Qt::Key_Return, Qt::ControlModifier);
    const auto kept = scales.known("gentian liqueur").facts.sugarGPerL;
    REQUIRE(kept);
    CHECK(kept->sourceKind == larder::SourceKind::Measured);
    CHECK(kept->source == "100 ml weighed 105.8 g at 20 °C, labelled 20 % vol");
    CHECK(kept->on.size() == 10);
    CHECK(kept->low < kept->typical);
    CHECK(kept->high > kept->typical);
    CHECK(scales.detail().contains(u"measured here"_s));
    CHECK(scales.field("abv").hasFocus()); // the hands stay where they were
    // It is in the file, and the drink on the bench follows it.
    const auto stored = scales.window.desk().book()->book().larder().find(scales.known("gentian liqueur").id);
    REQUIRE(stored);
    CHECK(stored->facts.sugarGPerL == kept);
    scales.page().list().setFocus();
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(scales.known("gentian liqueur").facts.sugarGPerL == before);
    press(Qt::Key_Escape);
    CHECK(scales.window.page() == nullptr);
}

TEST_CASE("Rubbish in a measuring is named where it stands and never kept", "[ui][measuring]") {
    Scales scales;
    scales.choose(u"gentian liqueur"_s);
    scales.fill("volume", u"100"_s);
    scales.fill("net", u"105,8"_s);
    scales.fill("abv", u"20"_s);
    REQUIRE(scales.page().keep().isEnabled());
    for (const auto& rubbish : {u"heavy"_s, u"-5"_s, u"1e9"_s, u"0"_s, u"12,3,4"_s, u"50 °Bx"_s, u"nan"_s}) {
        scales.fill("net", rubbish);
        INFO(rubbish.toStdString());
        CHECK_FALSE(scales.page().keep().isEnabled());
        CHECK_FALSE(scales.page().form().problemAt("net").isEmpty());
        CHECK(scales.headline() == u"Not found yet"_s);
        press(Qt::Key_Return, Qt::ControlModifier);
    }
    scales.fill("net", {});
    CHECK_FALSE(scales.page().keep().isEnabled());
    CHECK(scales.page().form().problemAt("net").isEmpty()); // not typed yet is no mistake
    scales.fill("net", u"60"_s);                            // lighter than any spirit
    CHECK(scales.page().form().problemAt("net").contains(u"Lighter"_s));
    CHECK_FALSE(scales.window.desk().book()->larderEdit().undoStack().canUndo());
    scales.fill("net", u"105.8"_s);
    CHECK(scales.page().keep().isEnabled());
}

TEST_CASE("A shake weighed before and after becomes the draft's water and is undone on the bench",
          "[ui][measuring]") {
    Scales scales;
    const auto plain = scales.draft().spec();
    scales.page().chooseMeasuring("shake");
    CHECK_FALSE(scales.page().of().isVisible());
    scales.fill("before", u"82"_s);
    scales.fill("after", u"70"_s);
    CHECK(scales.page().form().problemAt("after").contains(u"Lighter"_s));
    scales.fill("after", u"118"_s);
    CHECK(scales.headline() == u"Water taken up 36.0 g, give or take 0.1"_s);
    CHECK(scales.detail().contains(u"Ox Skerry"_s));
    press(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE(scales.draft().spec().method.dilution);
    CHECK(scales.draft().spec().method.dilution->origin == spec::DilutionOrigin::Measured);
    CHECK(scales.draft().spec().method.dilution->how == "weighed 82.0 g before and 118.0 g after");
    CHECK(scales.draft().spec().method.dilution->ratio == Approx(0.43).margin(0.02));
    press(Qt::Key_Escape);
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(scales.draft().spec() == plain);
}

TEST_CASE("A shake's weight goes into the tasting of what is kept", "[ui][measuring]") {
    Scales scales;
    scales.page().chooseMeasuring("shake");
    CHECK_FALSE(scales.page().toTasting().isVisible()); // nothing is kept to hang a tasting on
    press(Qt::Key_Escape);
    scales.keep(u"first pour"_s);
    scales.open();
    scales.page().chooseMeasuring("shake");
    REQUIRE(scales.page().toTasting().isVisible());
    CHECK_FALSE(scales.page().toTasting().isEnabled());
    scales.fill("before", u"82"_s);
    scales.fill("after", u"118,4"_s);
    press(Qt::Key_W, Qt::AltModifier);
    const auto tasted = [&] { return qobject_cast<TastingPage*>(scales.window.page()); };
    REQUIRE(QTest::qWaitFor([&] { return tasted() != nullptr; })); // a key lets the button spring back first
    auto* tasting = tasted();
    CHECK(tasting->input().circumstances.weight == u"118.4"_s);
}

TEST_CASE("Every way of measuring answers and keeps where it belongs", "[ui][measuring]") {
    Scales scales;
    scales.choose(u"lemon juice"_s);
    scales.page().chooseMeasuring("titration");
    scales.fill("sample", u"10"_s);
    scales.fill("base", u"93,7"_s);
    CHECK(scales.headline().startsWith(u"Acid, as citric 60.0 g/l"_s));
    press(Qt::Key_Return, Qt::ControlModifier);
    CHECK(scales.known("lemon juice").facts.acidGPerL->typical == Approx(60.01).margin(0.01));
    scales.page().chooseMeasuring("squeezed");
    scales.fill("got", u"430"_s);
    scales.fill("pieces", u"10"_s);
    CHECK(scales.headline() == u"Juice of one 43.0 ml, give or take 0.5"_s);
    CHECK(scales.detail().contains(u"as a lot"_s)); // the larder does not say of what
    press(Qt::Key_Return, Qt::ControlModifier);
    const auto lots = scales.window.desk().book()->larder().lots(scales.known("lemon juice").id);
    REQUIRE(lots.size() == 1);
    CHECK(lots[0].note == "10 squeezed to 430 ml: 43.0 ml each (42.5 to 43.5)");
    scales.page().list().setFocus();
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(scales.window.desk().book()->larder().lots(scales.known("lemon juice").id).empty());
    scales.page().chooseMeasuring("hydrometer");
    scales.fill("brix", u"50"_s);
    scales.fill("t", u"20"_s);
    CHECK(scales.headline().startsWith(u"Sugar, at 20 °C 615 g/l"_s));
    scales.page().chooseMeasuring("refractometer");
    scales.fill("brix", u"35"_s);
    scales.fill("abv", u"0"_s);
    CHECK(scales.headline().startsWith(u"Sugar 4"_s));
}

TEST_CASE("An edit waiting in the larder is not accepted behind a measuring's back", "[ui][measuring]") {
    Scales scales;
    press(Qt::Key_Escape);
    press(Qt::Key_L, Qt::ControlModifier | Qt::ShiftModifier);
    REQUIRE(qobject_cast<LarderPage*>(scales.window.page()) != nullptr);
    auto& edit = scales.window.desk().book()->larderEdit();
    edit.choose(scales.known("gentian liqueur").id);
    auto next = edit.now();
    next.maker = "somewhere";
    edit.set(next);
    scales.open();
    CHECK(scales.page().of().chosen() == next.id); // what was in hand in the larder
    scales.fill("volume", u"100"_s);
    scales.fill("net", u"105.8"_s);
    scales.fill("abv", u"20"_s);
    CHECK_FALSE(scales.page().keep().isEnabled());
    CHECK(scales.detail().contains(u"nobody accepted"_s));
    press(Qt::Key_Escape);
    CHECK(qobject_cast<LarderPage*>(scales.window.page()) != nullptr); // and back to it
}
