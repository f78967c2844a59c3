#include "tests/ui/panels/open_larder.h"
#include "ui/panels/larder/impact_strip.h"
#include "ui/panels/larder/terms_form.h"

#include <QCheckBox>
#include <QComboBox>
#include <QPushButton>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

struct OpenTerms : OpenLarder {
    TermsForm& terms() { return page->sheet().terms(); }
    void take(const char* name) {
        edit().choose(named(name).id);
        REQUIRE(edit().hasChosen());
    }
    void price(const char* name, std::int64_t minor, double pieces) {
        larder::Ingredient bought = named(name);
        larder::Pack pack;
        pack.id = base::PackId::random();
        pack.price = {minor, window.desk().book()->houseRules().currency};
        pack.forPieces = pieces;
        bought.packs = {pack};
        window.desk().book()->saveIngredient(bought);
    }
    QString doubts() { return page->strip().doubts(); }
};

} // namespace

TEST_CASE("Juice is charged by the ml one lime gives and its peel is not charged twice", "[larder-page]") {
    OpenTerms bar;
    bar.price("lime, whole fruit", 600, 20); // 0.30 each
    bar.take("lime juice");
    auto& terms = bar.terms();
    const auto stored = bar.named("lime juice");
    bar.fill(terms.gotFrom(), u"lime, whole fruit"_s);
    // The purchase alone says no price: it waits for what one gives.
    CHECK_FALSE(bar.edit().now().gotFrom);
    CHECK_FALSE(terms.gotFrom().isUnreadable());
    CHECK(bar.doubts().contains(u"Say what one of lime, whole fruit gives"_s));
    CHECK_FALSE(bar.page->strip().acceptButton().isEnabled());
    bar.fill(terms.gives(), u"30 ml"_s);
    REQUIRE(bar.edit().now().gotFrom);
    CHECK(bar.edit().now().gotFrom->perUnit == quantity::Rational(30));
    CHECK(bar.edit().now().gotFrom->ofUnit == larder::PackUnit::Piece);
    CHECK(bar.edit().now().gotFrom->priceShare == quantity::Rational(1));
    CHECK(terms.wordsBeside(terms.gives()).contains(u"1.00 / 100 ml"_s));
    bar.waitForImpact();
    press(Qt::Key_Return); // accepts
    CHECK_FALSE(bar.edit().isPending());
    CHECK(bar.named("lime juice").gotFrom->of == bar.named("lime, whole fruit").id);

    // The peel takes what the juice left of the price: nothing.
    bar.take("lime peel");
    bar.fill(terms.gotFrom(), u"lime, whole fruit"_s);
    bar.fill(terms.gives(), u"2 pieces"_s);
    CHECK(bar.edit().now().gotFrom->priceShare == quantity::Rational(0));
    CHECK(terms.wordsBeside(terms.gotFrom()).contains(u"lime juice"_s));
    CHECK(terms.wordsBeside(terms.gives()).contains(u"0.00"_s));
    // Half the price for each would charge half of it twice: refused in words.
    bar.fill(terms.priceShare(), u"50"_s);
    CHECK(bar.doubts().contains(u"more than its whole price"_s));
    CHECK_FALSE(bar.edit().canAccept());
    bar.fill(terms.priceShare(), u"0"_s);
    CHECK(bar.edit().canAccept());
    press(Qt::Key_Return, Qt::ControlModifier);
    CHECK(bar.named("lime peel").gotFrom->priceShare == quantity::Rational(0));
    // Both are taken back, the last one first.
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK_FALSE(bar.named("lime peel").gotFrom);
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(bar.named("lime juice").gotFrom == stored.gotFrom);
}

TEST_CASE("Waste makes what is used dearer and a yield of nothing is refused", "[larder-page]") {
    OpenTerms bar;
    bar.price("lime, whole fruit", 600, 20);
    bar.take("lime, whole fruit");
    auto& terms = bar.terms();
    CHECK(terms.lost().text() == u"0"_s);
    bar.fill(terms.lost(), u"12,5 %"_s);
    CHECK(bar.edit().now().usableShare == quantity::Rational::make(7, 8));
    CHECK(terms.wordsBeside(terms.lost()) == u"87.5 % of what is bought is used."_s);
    bar.fill(terms.lost(), u"100"_s);
    CHECK(bar.doubts().contains(u"Nothing usable"_s));
    bar.fill(terms.lost(), u"-5"_s);
    CHECK(bar.doubts().contains(u"More would come out"_s));
    bar.fill(terms.lost(), u"some"_s);
    CHECK(terms.lost().isUnreadable());
    CHECK(terms.lost().text() == u"some"_s);
    CHECK(bar.doubts().contains(u"“some”"_s));
    CHECK_FALSE(bar.edit().canAccept());
    bar.fill(terms.lost(), u"20"_s);
    CHECK_FALSE(terms.lost().isUnreadable());
    press(Qt::Key_Return);
    CHECK(bar.named("lime, whole fruit").usableShare == quantity::Rational::make(4, 5));
}

TEST_CASE("The bottle the house pours is named by keyboard on the kind or on the bottle", "[larder-page]") {
    OpenTerms bar;
    bar.choose(u"london dry"_s);
    press(Qt::Key_Escape); // nothing is pending: back to the list
    REQUIRE(bar.page->list().table().hasFocus());
    press(Qt::Key_Insert); // a new bottle of the kind in hand
    REQUIRE(bar.page->sheet().name().hasFocus());
    type(u"London dry gin, 47 %"_s);
    press(Qt::Key_Return);
    auto& terms = bar.terms();
    CHECK(terms.bottleOf().text() == u"London dry gin"_s);
    press(Qt::Key_Return); // accepts
    REQUIRE_FALSE(bar.edit().isPending());
    const auto bottle = bar.edit().chosen();
    CHECK(bar.gin().houseBottle == std::nullopt);

    terms.pouredForIt().setFocus(Qt::TabFocusReason);
    press(Qt::Key_Space);
    CHECK(bar.edit().isPending());
    CHECK(bar.page->strip().isVisible());
    press(Qt::Key_Return);
    CHECK_FALSE(bar.edit().isPending());
    const auto kind = bar.edit().now().kind;
    REQUIRE(kind);
    const auto poured = [&] { return bar.window.desk().book()->larder().find(*kind)->houseBottle; };
    CHECK(poured() == bottle);

    bar.edit().choose(*kind);
    CHECK(terms.pours().text() == u"London dry gin, 47 %"_s);
    bar.fill(terms.pours(), u"lemon juice"_s); // a kind is not poured for a kind
    CHECK(terms.pours().isUnreadable());
    CHECK_FALSE(bar.edit().canAccept());
    bar.fill(terms.pours(), {});
    press(Qt::Key_Return);
    CHECK(poured() == std::nullopt);
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(poured() == bottle);
}

TEST_CASE("Stock, keeping time and dry are entered by keyboard and nonsense stays as typed",
          "[larder-page]") {
    OpenTerms bar;
    bar.choose(u"london dry"_s);
    auto& terms = bar.terms();
    bar.fill(terms.amount(), u"3 parsecs"_s);
    CHECK(terms.amount().isUnreadable());
    CHECK(bar.doubts().contains(u"“3 parsecs”"_s));
    bar.fill(terms.amount(), u"-2 l"_s);
    CHECK(bar.doubts().contains(u"Less than nothing"_s));
    bar.fill(terms.amount(), u"1.4 l"_s);
    CHECK_FALSE(terms.amount().isUnreadable());
    CHECK(bar.edit().now().stock.amount == 1400);
    CHECK(bar.edit().now().stock.state == larder::OnShelf::Have);
    CHECK(terms.counted().text() == fromCore(bar.edit().today()));
    terms.onShelf().setFocus(Qt::TabFocusReason);
    press(Qt::Key_Down);
    CHECK(bar.edit().now().stock.state == larder::OnShelf::Low);
    press(Qt::Key_Down);
    CHECK(bar.edit().now().stock.state == larder::OnShelf::Out);
    CHECK_FALSE(bar.edit().now().stock.amount);
    CHECK(terms.amount().text().isEmpty());
    bar.fill(terms.counted(), u"yesterday"_s);
    CHECK(bar.doubts().contains(u"a date is written"_s));
    bar.fill(terms.counted(), u"2026-11-20"_s);
    bar.fill(terms.keeps(), u"0"_s);
    CHECK(terms.keeps().isUnreadable());
    bar.fill(terms.keeps(), u"2 weeks"_s);
    CHECK(bar.edit().now().keepDays == 14);
    CHECK(terms.keeps().text() == u"14"_s);
    terms.dry().setFocus(Qt::TabFocusReason);
    press(Qt::Key_Space);
    CHECK(bar.edit().now().facts.dry);
    press(Qt::Key_Space);
    CHECK_FALSE(bar.edit().now().facts.dry);
    terms.off().setFocus(Qt::TabFocusReason);
    press(Qt::Key_Space);
    press(Qt::Key_Return); // Enter accepts from any control of the form
    REQUIRE_FALSE(bar.edit().isPending());
    CHECK(bar.gin().stock.off);
    CHECK(bar.gin().stock.state == larder::OnShelf::Out);
    CHECK(bar.gin().stock.countedOn == "2026-11-20");
    CHECK(bar.gin().keepDays == 14);
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK_FALSE(bar.gin().stock.off);
    CHECK_FALSE(bar.gin().keepDays);
}

TEST_CASE("What a draft needs or something leans on is not put in the bin and the rest comes back",
          "[larder-page]") {
    OpenTerms bar;
    auto& sheet = bar.page->sheet();
    bar.choose(u"london dry"_s);
    press(Qt::Key_Escape);
    REQUIRE(bar.page->list().table().hasFocus());
    press(Qt::Key_Delete);
    REQUIRE(QTest::qWaitFor([&] { return !sheet.refusal().isEmpty(); }));
    CHECK(sheet.refusal().contains(u"handbook's, not this book's"_s));
    const auto gin = bar.gin().id;
    bar.fill(bar.terms().keeps(), u"300"_s); // the book's own from here on
    press(Qt::Key_Return);
    CHECK(sheet.refusal().isEmpty());
    press(Qt::Key_Escape);
    REQUIRE(bar.page->list().table().hasFocus());
    press(Qt::Key_Delete);
    REQUIRE(QTest::qWaitFor([&] { return !sheet.refusal().isEmpty(); }));
    CHECK(sheet.refusal().contains(u"drafts of Quill Point name it"_s));

    press(Qt::Key_Insert);
    type(u"London dry gin, 47 %"_s);
    press(Qt::Key_Return);
    press(Qt::Key_Return);
    const auto bottle = bar.edit().chosen();
    REQUIRE_FALSE(bar.edit().isPending());
    CHECK(sheet.refusal().isEmpty());
    const auto stands = [&] { return bar.window.desk().book()->larder().find(bottle) != nullptr; };
    // The kind has a bottle now: it leans on it too.
    bar.edit().choose(gin);
    bar.trigger(Act::BinIngredient);
    REQUIRE(QTest::qWaitFor([&] { return !sheet.refusal().isEmpty(); }));
    CHECK(sheet.refusal().contains(u"47 %"_s));
    // The bottle nobody pours goes, from the menu's key, and comes back.
    bar.edit().choose(bottle);
    press(Qt::Key_Backspace, Qt::ControlModifier | Qt::ShiftModifier);
    REQUIRE(QTest::qWaitFor([&] { return !stands(); }));
    CHECK_FALSE(bar.edit().hasChosen());
    CHECK(bar.window.actions().at(Act::Undo)->isEnabled());
    bar.trigger(Act::Undo);
    CHECK(stands());
    CHECK(bar.window.actions().at(Act::Redo)->isEnabled());
    bar.trigger(Act::Redo);
    CHECK_FALSE(stands());
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(stands());
    // Poured by the house it stays.
    bar.edit().choose(bottle);
    bar.terms().pouredForIt().setFocus(Qt::TabFocusReason);
    press(Qt::Key_Space);
    press(Qt::Key_Return);
    REQUIRE_FALSE(bar.edit().isPending());
    bar.trigger(Act::BinIngredient);
    REQUIRE(QTest::qWaitFor([&] { return !sheet.refusal().isEmpty(); }));
    CHECK(sheet.refusal().contains(u"pours it for London dry gin"_s));
    CHECK(stands());
}

TEST_CASE("The menu takes back what was done in the larder and leaves the draft alone", "[larder-page]") {
    OpenTerms bar;
    const auto lines = bar.draft().spec().lines.size();
    REQUIRE(bar.draft().undoStack().canUndo());
    CHECK_FALSE(bar.window.actions().at(Act::Undo)->isEnabled()); // nothing was done here yet
    bar.choose(u"london dry"_s);
    bar.fill(bar.terms().keeps(), u"30"_s);
    press(Qt::Key_Return);
    CHECK(bar.gin().keepDays == 30);
    REQUIRE(bar.window.actions().at(Act::Undo)->isEnabled());
    bar.trigger(Act::Undo);
    CHECK_FALSE(bar.gin().keepDays);
    CHECK(bar.draft().spec().lines.size() == lines);
    // An edit that waits is not swept away unseen.
    bar.trigger(Act::Redo);
    bar.fill(bar.terms().keeps(), u"40"_s);
    bar.trigger(Act::Undo);
    CHECK(bar.gin().keepDays == 30);
    CHECK(bar.edit().now().keepDays == 40);
    press(Qt::Key_Escape);
    bar.trigger(Act::Undo);
    CHECK_FALSE(bar.gin().keepDays);
    press(Qt::Key_Escape); // to the list
    press(Qt::Key_Escape); // and out of the larder
    REQUIRE(QTest::qWaitFor([&] { return bar.window.page() == nullptr; }));
    CHECK(bar.window.actions().at(Act::Undo)->isEnabled()); // the draft's again
}
