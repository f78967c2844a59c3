#include "tests/support/catch.h"
#include "tests/ui/panels/ways_room.h"
#include "ui/dialogs/pick_dialog.h"
#include "ui/panels/measuring/ingredient_button.h"
#include "ui/panels/measuring/target_page.h"

#include <QClipboard>
#include <QComboBox>
#include <QListWidget>
#include <QPushButton>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;
using namespace Qt::Literals::StringLiterals;

namespace {

struct Pot : WaysRoom<TargetPage> {
    void preparation(const QStringList& lines) {
        trigger(Act::NewPreparation);
        type(u"Heather syrup"_s);
        press(Qt::Key_Return);
        press(Qt::Key_Return);
        write(lines);
        press(Qt::Key_Escape);
    }
    void open() { openBy(Qt::Key_T); }
    base::IngredientId named(std::string_view name) { return known(name).id; }
};

} // namespace

TEST_CASE("A syrup is brought to its Brix by keys and the draft has it as one edit", "[ui][target]") {
    Pot pot;
    pot.preparation({u"400 g white sugar"_s, u"600 g water"_s});
    const auto plain = pot.draft().spec();
    pot.open();
    REQUIRE(pot.page().list().hasFocus());
    press(Qt::Key_Down);
    press(Qt::Key_Return);
    REQUIRE(pot.field("brix").hasFocus());
    CHECK(pot.detail().contains(u"Brix wanted"_s)); // what is missing
    type(u"50,0"_s);
    CHECK(pot.headline().startsWith(u"Add 20"_s));
    CHECK(pot.headline().contains(u"white sugar"_s));
    CHECK(pot.page().form().field("amount") == nullptr); // it has its own amount
    CHECK(pot.detail().contains(u"0.1 g"_s));
    press(Qt::Key_Return, Qt::ControlModifier);
    CHECK(pot.window.page() == nullptr);
    REQUIRE(pot.draft().spec().lines.size() == 3);
    CHECK(pot.draft().spec().lines[2].name == "white sugar");
    REQUIRE(pot.draft().now().made);
    CHECK(*pot.draft().now().made->brix == Approx(50).margin(0.02));
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(pot.draft().spec() == plain);
    // Or by boiling, as a step.
    pot.open();
    pot.page().chooseTarget("brix");
    pot.fill("brix", u"50"_s);
    pot.page().form().field("by")->setFocus();
    press(Qt::Key_Down);
    CHECK(pot.headline().startsWith(u"Boil off 20"_s));
    press(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE(pot.draft().spec().steps.size() == 1);
    CHECK(pot.draft().spec().steps[0].kind == spec::StepKind::Simmer);
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(pot.draft().spec() == plain);
}

TEST_CASE("A juice brought to lime becomes a preparation of its own and is copied as text", "[ui][target]") {
    Pot pot;
    pot.newDrink(u"Ox Skerry"_s);
    pot.write({u"30 ml orange juice"_s, u"45 ml London dry gin"_s});
    press(Qt::Key_Escape);
    press(Qt::Key_Up);
    press(Qt::Key_Up);
    press(Qt::Key_Up);
    pot.open();
    CHECK(pot.page().of().chosen() == pot.named("orange juice")); // the line in hand
    CHECK(pot.page().like().chosen() == pot.named("lime juice"));
    CHECK_FALSE(pot.page().what().isVisible());
    CHECK(pot.headline().startsWith(u"Add "_s)); // of a litre, unless another amount is written
    const QString ofLitre = pot.headline();
    pot.fill("amount", u"100"_s);
    CHECK(pot.headline() != ofLitre);
    CHECK(pot.detail().contains(u"There are 100 ml: too little for the scale."_s));
    press(Qt::Key_C, Qt::ControlModifier | Qt::ShiftModifier);
    const QString text = QApplication::clipboard()->text();
    CHECK(text.startsWith(u"Bring to a target: orange juice, fresh\n"_s));
    CHECK(text.contains(pot.headline()));
    CHECK(text.contains(u"lime juice"_s));
    CHECK(text.contains(u"round figure"_s));
    press(Qt::Key_Return, Qt::ControlModifier);
    CHECK(pot.draft().drink().form == history::DrinkForm::Preparation);
    CHECK(pot.draft().now().words.name == "orange juice, fresh, adjusted");
    REQUIRE(pot.draft().now().made);
    CHECK(pot.draft().now().made->facts.acidGPerL->typical == Approx(60).epsilon(0.01));
}

TEST_CASE("Rubbish and what cannot be reached is said and never written", "[ui][target]") {
    Pot pot;
    pot.preparation({u"400 g white sugar"_s, u"600 g water"_s});
    const auto plain = pot.draft().spec();
    pot.open();
    pot.page().chooseTarget("cordial");
    pot.fill("sugar", u"400"_s);
    for (const auto& rubbish : {u"sour"_s, u"-3"_s, u"1e9"_s, u"3,4,5"_s, u"12 °C"_s, QString()}) {
        INFO(rubbish.toStdString());
        pot.fill("acid", rubbish);
        CHECK_FALSE(pot.page().take().isEnabled());
        CHECK(pot.page().form().problemAt("acid").isEmpty() == rubbish.isEmpty());
        press(Qt::Key_Return, Qt::ControlModifier);
        CHECK(pot.draft().spec() == plain);
    }
    pot.fill("acid", u"20"_s);
    CHECK(pot.detail().contains(u"nothing takes it out"_s)); // 40 Brix is more than 400 g/l
    CHECK_FALSE(pot.page().take().isEnabled());
    pot.fill("sugar", u"500,5"_s);
    CHECK(pot.page().take().isEnabled());
    CHECK(pot.headline().contains(u"citric acid"_s));
    // Stronger than what is added, then no strength to reach.
    pot.page().chooseTarget("strength");
    pot.fill("abv", u"96"_s);
    CHECK(pot.detail().contains(u"no stronger"_s));
    pot.fill("abv", u"20"_s);
    CHECK(pot.headline().startsWith(u"Add "_s));
    press(Qt::Key_Escape);
    CHECK(pot.window.page() == nullptr);
    CHECK(pot.draft().spec() == plain);
}

TEST_CASE("An empty preparation says what to do before it is brought anywhere", "[ui][target]") {
    Pot pot;
    pot.preparation({});
    pot.open();
    CHECK(pot.detail().contains(u"nothing in it"_s));
    CHECK_FALSE(pot.page().take().isEnabled());
    CHECK_FALSE(pot.page().copyButton().isEnabled());
    pot.page().what().setFocus();
    press(Qt::Key_Down); // something of the larder instead
    CHECK(pot.page().of().isVisible());
    // Something that can be brought there stands there already.
    CHECK(pot.page().of().chosen() == pot.named("orange juice"));
    CHECK(pot.headline().startsWith(u"Add "_s));
}

TEST_CASE("The page opens with a juice whatever is in hand and takes the difference from the trade apart",
          "[ui][target]") {
    Pot pot;
    pot.newDrink(u"Quill Point"_s);
    pot.write({u"45 ml London dry gin"_s, u"22.5 ml lime juice"_s});
    press(Qt::Key_Escape);
    for (const int up : {3, 1}) { // gin, then lime juice
        for (int i = 0; i < 3; ++i)
            press(Qt::Key_Up);
        for (int i = up; i < 3; ++i)
            press(Qt::Key_Down);
        pot.open();
        CHECK(pot.page().of().chosen() == pot.named("orange juice"));
        CHECK(pot.page().like().chosen() == pot.named("lime juice"));
        CHECK(pot.headline().startsWith(u"Add "_s));
        press(Qt::Key_Escape);
    }
    pot.open();
    const QString text = pot.page().values().asText();
    // A litre: 32 and 20 g, and each part of what is more or less than that, with its sign.
    for (const auto& part : {u"round figure: 32.00"_s, u"round figure: 20.00"_s, u"counted as citric"_s,
                             u"own figures"_s, u"room that the added acid takes"_s, u"+0.61"_s, u"−3.2"_s}) {
        INFO(part.toStdString() << " in " << text.toStdString());
        CHECK(text.contains(part));
    }
    CHECK(pot.detail().contains(u"0.1 g apart"_s));
    CHECK(pot.detail().contains(u"one of 1 g from"_s));
    // The button offers no spirit for a juice, and for a strength nothing else.
    pot.page().of().button().setFocus();
    press(Qt::Key_Return);
    auto* dialog = pot.window.findChild<PickDialog*>();
    REQUIRE(dialog != nullptr);
    QApplication::setActiveWindow(dialog);
    type(u"vodka"_s);
    CHECK(dialog->findChild<QListWidget*>()->count() == 0);
    press(Qt::Key_Escape);
    QApplication::setActiveWindow(&pot.window);
    pot.page().chooseTarget("strength");
    const auto* strong = pot.window.desk().book()->larder().find(*pot.page().of().chosen());
    CHECK(strong->facts.abvPercent->typical > 15);
}
