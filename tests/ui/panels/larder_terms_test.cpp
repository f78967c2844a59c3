#include "tests/ui/panels/open_larder.h"
#include "ui/panels/larder/impact_model.h"
#include "ui/panels/larder/impact_strip.h"
#include "ui/panels/larder/lots_model.h"
#include "ui/panels/larder/packs_model.h"
#include "ui/panels/larder/terms_form.h"
#include "ui/plots/price_steps.h"
#include "ui/text/numbers.h"

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

spec::Spec specOf(const WorkbookSession& book, const QStringList& lines) {
    spec::Spec spec;
    for (const auto& text : lines)
        for (const auto& line : readEntry(text, book.readOptions(), book.larder()).lines)
            spec.lines.push_back(line);
    return spec;
}

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

TEST_CASE("A lot is entered with its figures and poured from while it is in use", "[larder-page]") {
    OpenTerms bar;
    const auto acid = [&] { return bar.served(spec::Quantity::Acid); };
    const QString before = acid();
    bar.take("lemon juice");
    auto& lots = bar.page->sheet().lots();
    const auto put = [&](int column, const QString& text) {
        lots.setCurrentIndex(lots.model()->index(0, column));
        for (const QChar letter : text)
            type(QString(letter));
        press(Qt::Key_Return);
        REQUIRE(QTest::qWaitFor([&] { return !lots.isEditing(); }));
        QApplication::processEvents();
        REQUIRE(lots.hasFocus());
    };
    lots.setFocus(Qt::TabFocusReason);
    REQUIRE(lots.model()->rowCount() == 1);
    put(LotsModel::On, u"today"_s);
    CHECK(lots.model()->index(0, LotsModel::On).data(UnreadableRole).toBool());
    CHECK(bar.doubts().contains(u"“today” is no day"_s));
    put(LotsModel::On, u"2026-11-24"_s);
    REQUIRE(lots.model()->rowCount() == 2);
    put(LotsModel::Acid, u"-5"_s);
    CHECK(bar.doubts().contains(u"“-5”"_s));
    put(LotsModel::Acid, u"48,5"_s);
    put(LotsModel::UseBy, u"2026-11-26"_s);
    CHECK(bar.edit().canAccept());
    // In use: chosen from the list of words by keyboard.
    lots.setCurrentIndex(lots.model()->index(0, LotsModel::State));
    press(Qt::Key_F2);
    auto* words = lots.findChild<QComboBox*>();
    REQUIRE(words != nullptr);
    words->setFocus();
    press(Qt::Key_Down);
    REQUIRE(QTest::qWaitFor([&] { return bar.edit().now().lotInUse.has_value(); }));
    bar.waitForImpact();
    CHECK(bar.page->strip().model().rowCount() == 1);
    press(Qt::Key_Return, Qt::ControlModifier);
    if (bar.edit().isPending()) press(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE_FALSE(bar.edit().isPending());
    const auto kept = bar.window.desk().book()->larder().lots(bar.edit().chosen());
    REQUIRE(kept.size() == 1);
    CHECK(kept[0].useBy == "2026-11-26");
    CHECK(kept[0].acidGPerL->typical == 48.5);
    CHECK(kept[0].acidGPerL->sourceKind == larder::SourceKind::Measured);
    CHECK(acid() != before);
    bar.trigger(Act::Undo);
    CHECK(acid() == before);
    CHECK(bar.window.desk().book()->larder().lots(bar.edit().chosen()).empty());
    bar.trigger(Act::Redo);
    CHECK(acid() != before);
    CHECK(bar.window.desk().book()->larder().lots(bar.edit().chosen()) == kept);
}

TEST_CASE("A second price draws how the cost went and the drawing says it in words", "[larder-page]") {
    OpenTerms bar;
    larder::Ingredient gin = bar.gin();
    larder::Pack pack;
    pack.id = base::PackId::random();
    pack.price = {2100, bar.window.desk().book()->houseRules().currency};
    pack.forMl = 700;
    pack.pricedOn = "2026-01-10";
    gin.packs = {pack};
    bar.window.desk().book()->saveIngredient(gin);
    bar.choose(u"london dry"_s);
    auto& sheet = bar.page->sheet();
    CHECK_FALSE(sheet.prices().isVisible()); // one price is no history
    auto& packs = sheet.packs();
    packs.setFocus(Qt::TabFocusReason);
    const auto put = [&](int row, int column, const QString& text) {
        packs.setCurrentIndex(packs.model()->index(row, column));
        for (const QChar letter : text)
            type(QString(letter));
        press(Qt::Key_Return);
        REQUIRE(QTest::qWaitFor([&] { return !packs.isEditing(); }));
        QApplication::processEvents();
    };
    put(1, PacksModel::Price, u"23.10"_s); // of the same bottle: one number
    REQUIRE(bar.edit().now().packs.size() == 2);
    CHECK(sheet.prices().isVisible());
    CHECK(sheet.prices().words().contains(u"3.30"_s));
    CHECK(sheet.prices().words().contains(u"+10.0"_s));
    // A price in money the book has no rate for is said and stands on no line.
    put(1, PacksModel::Currency, u"GBP"_s);
    CHECK_FALSE(sheet.prices().isVisible());
}

TEST_CASE("A price in other money without a rate is said and summed with nothing", "[larder-page]") {
    OpenTerms bar;
    const auto cost = [&] { return bar.served(spec::Quantity::Cost); };
    const auto priced = [&](const char* name, const char* currency) {
        larder::Ingredient bought = bar.named(name);
        larder::Pack pack;
        pack.id = base::PackId::random();
        pack.price = {2100, *quantity::Currency::fromCode(currency)};
        pack.forMl = 700;
        bought.packs = {pack};
        bar.window.desk().book()->saveIngredient(bought);
    };
    priced("lemon juice", "EUR");
    priced("simple syrup", "EUR");
    priced("London dry gin", "EUR");
    const QString all = cost();
    REQUIRE_FALSE(all.isEmpty());
    CHECK_FALSE(all.contains(kAtLeast));
    bar.choose(u"london dry"_s);
    auto& sheet = bar.page->sheet();
    auto& packs = sheet.packs();
    packs.setFocus(Qt::TabFocusReason);
    packs.setCurrentIndex(packs.model()->index(0, PacksModel::Currency));
    for (const QChar letter : u"USD"_s)
        type(QString(letter));
    press(Qt::Key_Return);
    REQUIRE(QTest::qWaitFor([&] { return !packs.isEditing(); }));
    CHECK(sheet.doubts().contains(u"The price is in USD, and the book has no rate from it"_s));
    bar.waitForImpact();
    // What it would do is shown: the cost becomes a floor, not a sum of two moneys.
    const auto& impact = bar.page->strip().model();
    REQUIRE(impact.rowCount() == 1);
    CHECK(impact.index(0, ImpactModel::Cost).data().toString().contains(kAtLeast));
    press(Qt::Key_Return);
    REQUIRE_FALSE(bar.edit().isPending());
    CHECK(bar.gin().packs[0].price.currency.text() == "USD");
    CHECK(bar.gin().packs[0].price.minor == 2100);
    CHECK(cost() != all);
    CHECK(cost().contains(kAtLeast));
    bar.trigger(Act::Undo);
    CHECK(cost() == all);
}

TEST_CASE("A bottle that is made of the kind it would be poured for is refused with the path named",
          "[larder-page]") {
    OpenTerms bar;
    press(Qt::Key_Escape);
    REQUIRE(QTest::qWaitFor([&] { return bar.window.page() == nullptr; }));
    auto& desk = bar.window.desk();
    REQUIRE(desk.newDrink(history::DrinkForm::Preparation, u"Juniper syrup"_s,
                          specOf(*desk.book(), {u"100 ml London dry gin"_s, u"100 ml simple syrup"_s})));
    desk.book()->reloadLarder();
    press(Qt::Key_L, Qt::ControlModifier | Qt::ShiftModifier);
    bar.page = qobject_cast<LarderPage*>(bar.window.page());
    REQUIRE(bar.page != nullptr);
    bar.choose(u"london dry"_s);
    bar.fill(bar.terms().pours(), u"Juniper syrup"_s);
    REQUIRE(QTest::qWaitFor([&] { return bar.doubts().contains(u"made of itself"_s); }));
    INFO(bar.doubts().toStdString());
    CHECK(bar.doubts().contains(u" → "_s));
    CHECK(bar.doubts().contains(u"Juniper syrup → "_s));
    CHECK_FALSE(bar.page->strip().acceptButton().isEnabled());
    press(Qt::Key_Return, Qt::ControlModifier);
    CHECK(bar.gin().houseBottle == std::nullopt);
    CHECK(bar.edit().isPending()); // nothing was lost
    press(Qt::Key_Escape);
    CHECK_FALSE(bar.edit().isPending());
}

TEST_CASE("A lot says its last day by how long the thing keeps and that it is past", "[larder-page]") {
    OpenTerms bar;
    bar.take("lemon juice");
    auto kept = bar.named("lemon juice");
    kept.keepDays = 2;
    larder::Lot old;
    old.id = base::LotId::random();
    old.ingredient = kept.id;
    old.on = "2020-03-01";
    auto fresh = old;
    fresh.id = base::LotId::random();
    fresh.on = bar.edit().today();
    auto written = old;
    written.id = base::LotId::random();
    written.on = "2020-02-01";
    written.useBy = "2020-02-10";
    REQUIRE(bar.window.desk().attempt([&] {
        bar.window.desk().book()->saveIngredients({kept}, {}, {old, fresh, written});
    }));
    const auto& lots = *bar.page->sheet().lots().model();
    const auto rowOf = [&](const std::string& on) {
        for (int row = 0; row < lots.rowCount(); ++row)
            if (lots.index(row, LotsModel::On).data(Qt::EditRole).toString() == fromCore(on)) return row;
        return -1;
    };
    const auto cell = [&](const std::string& on, int column, int role = Qt::DisplayRole) {
        return lots.index(rowOf(on), column).data(role);
    };
    // The making day is day 1: two days end on the next.
    CHECK(cell("2020-03-01", LotsModel::UseBy).toString() == u"2020-03-02"_s);
    CHECK(cell("2020-03-01", LotsModel::UseBy, QuietRole).toBool());
    CHECK(cell("2020-03-01", LotsModel::UseBy, Qt::EditRole).toString().isEmpty()); // nobody wrote it
    CHECK(cell("2020-03-01", LotsModel::State).toString().contains(u"past"_s));
    CHECK(cell("2020-03-01", LotsModel::State, DoubtRole).toBool());
    CHECK(cell("2020-02-01", LotsModel::UseBy).toString() == u"2020-02-10"_s); // as written
    CHECK(cell("2020-02-01", LotsModel::State).toString().contains(u"past"_s));
    CHECK_FALSE(cell(fresh.on, LotsModel::State).toString().contains(u"past"_s));
    CHECK_FALSE(bar.edit().isPending());
}
