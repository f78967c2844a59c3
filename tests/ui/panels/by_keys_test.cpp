// The whole jobs of larder, shopping and preparation with the keyboard alone: nothing here gives a widget the
// focus or presses a button but keys do.
#include "tests/support/catch.h"

#include "tests/ui/panels/kitchen.h"
#include "tests/ui/panels/open_larder.h"
#include "ui/panels/larder/facts_model.h"
#include "ui/panels/larder/packs_model.h"
#include "ui/panels/larder/terms_form.h"
#include "ui/panels/stock/stock_page.h"
#include "ui/panels/stock/stock_table.h"
#include "ui/panels/stock/wish_model.h"

#include <QAbstractButton>
#include <QPrintDialog>
#include <QPushButton>
#include <QTextBrowser>
#include <QTimer>

#include <functional>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

// Tab until somebody has the focus.
void tabTo(const std::function<bool(QWidget*)>& wanted) {
    for (int i = 0; i < 60; ++i) {
        if (QApplication::focusWidget() != nullptr && wanted(QApplication::focusWidget())) return;
        press(Qt::Key_Tab);
    }
    FAIL("Tab does not lead there");
}
void tabTo(const QWidget& widget) {
    tabTo([&](QWidget* focus) { return focus == &widget || focus->focusProxy() == &widget; });
}
void tabToButton(const QString& words) {
    tabTo([&](QWidget* focus) {
        const auto* button = qobject_cast<QAbstractButton*>(focus);
        return button != nullptr && button->text().remove(u'&').contains(words);
    });
}
void letters(const QString& text) {
    for (const QChar letter : text) // the first one opens a cell, the others go into it
        type(QString(letter));
}
void over(const QString& text) {
    press(Qt::Key_A, Qt::ControlModifier);
    letters(text);
}
void pressKeysOf(MainWindow& window, Act act) {
    const auto keys = window.actions().at(act)->shortcut();
    REQUIRE_FALSE(keys.isEmpty());
    press(keys[0].key(), keys[0].keyboardModifiers());
}
// A printer's dialog stops everything else: it is answered from within.
bool cancelsPrinting(const std::function<void()>& asks) {
    bool asked = false;
    QTimer timer;
    QObject::connect(&timer, &QTimer::timeout, &timer, [&] {
        auto* dialog = QApplication::activeModalWidget();
        if (dialog == nullptr) return;
        asked = asked || qobject_cast<QPrintDialog*>(dialog) != nullptr;
        QTest::keyClick(dialog, Qt::Key_Escape);
    });
    timer.start(1);
    asks();
    CHECK(QTest::qWaitFor([&] { return asked && QApplication::activeModalWidget() == nullptr; }));
    return asked;
}

} // namespace

TEST_CASE("From a new bottle with facts and price to a printed list by keys alone",
          "[by-keys][larder-page]") {
    OpenLarder bar;
    auto& sheet = bar.page->sheet();
    press(Qt::Key_Slash);
    type(u"london dry"_s);
    press(Qt::Key_Return);
    press(Qt::Key_Insert); // a bottle of the kind in hand
    type(u"Harbour gin, 47 %"_s);
    press(Qt::Key_Return);
    tabTo(sheet.facts());
    letters(u"47"_s);
    press(Qt::Key_Return);
    QApplication::processEvents();
    for (int column = FactsModel::Value; column < FactsModel::Source; ++column)
        press(Qt::Key_Right);
    letters(u"label of 2026"_s);
    press(Qt::Key_Return);
    QApplication::processEvents();
    press(Qt::Key_Tab);
    tabTo(sheet.packs());
    letters(u"700 ml"_s);
    press(Qt::Key_Return);
    QApplication::processEvents();
    press(Qt::Key_Right);
    letters(u"24.50"_s);
    press(Qt::Key_Return);
    QApplication::processEvents();
    tabToButton(u"the house pours it"_s);
    press(Qt::Key_Space);
    tabTo([](QWidget* focus) { return focus->accessibleName() == u"On the shelf"_s; });
    press(Qt::Key_Down);
    press(Qt::Key_Return, Qt::ControlModifier);
    QApplication::processEvents();
    if (bar.edit().isPending()) press(Qt::Key_Return, Qt::ControlModifier); // a field was open
    REQUIRE_FALSE(bar.edit().isPending());
    const auto gin = bar.named("Harbour gin, 47 %");
    CHECK(gin.facts.abvPercent->typical == 47);
    CHECK(gin.facts.abvPercent->source == "label of 2026");
    REQUIRE(gin.packs.size() == 1);
    CHECK(gin.packs[0].price.minor == 2450);
    CHECK(gin.stock.state == larder::OnShelf::Have);
    CHECK(bar.gin().houseBottle == gin.id);

    // What is within reach, and what to buy for twelve.
    press(Qt::Key_B, Qt::ControlModifier | Qt::ShiftModifier);
    auto* page = qobject_cast<StockPage*>(bar.window.page());
    REQUIRE(page != nullptr);
    REQUIRE(page->shelf().hasFocus());
    for (const auto& name : {u"lemon juice"_s, u"simple syrup"_s}) {
        press(Qt::Key_F, Qt::AltModifier);
        over(name);
        press(Qt::Key_Return);
        REQUIRE(page->shelf().hasFocus());
        press(Qt::Key_H);
    }
    CHECK(page->wishes().model()->index(0, WishModel::Standing).data().toString() == u"within reach"_s);
    tabTo(page->wishes());
    letters(u"12"_s);
    press(Qt::Key_Return);
    QApplication::processEvents();
    tabToButton(u"less the shelf"_s);
    press(Qt::Key_Space); // all of it is bought
    CHECK(page->paper().toPlainText().contains(u"Harbour gin, 47 %"_s));
    CHECK(page->paper().toPlainText().contains(u"24.50"_s));
    tabToButton(u"Print"_s);
    CHECK(cancelsPrinting([] { press(Qt::Key_Space); }));
}

TEST_CASE("From the first line of a preparation to its batch and label by keys alone",
          "[by-keys][ui][preparation]") {
    Kitchen kitchen; // a syrup, written by keys
    auto& draft = kitchen.draft();
    for (int i = 0; i < 8 && !kitchen.bars().hasFocus(); ++i)
        press(Qt::Key_F6);
    if (!kitchen.bars().hasFocus()) tabTo(kitchen.bars());
    press(Qt::Key_Return, Qt::ControlModifier); // a step
    REQUIRE(draft.spec().steps.size() == 1);
    press(Qt::Key_Down);
    CHECK(draft.spec().steps[0].kind == spec::StepKind::Simmer);
    tabTo(*kitchen.form().field(&spec::Step::gotG));
    type(u"976"_s);
    CHECK(draft.spec().steps[0].gotG == 976.0);
    press(Qt::Key_Escape);
    press(Qt::Key_S, Qt::ControlModifier);
    auto* keeping = kitchen.window.findChild<KeepDialog*>();
    REQUIRE(keeping != nullptr);
    QApplication::setActiveWindow(keeping);
    over(u"simmered to 976 g"_s);
    press(Qt::Key_Return);
    REQUIRE(QTest::qWaitFor([&] { return kitchen.window.findChild<KeepDialog*>() == nullptr; }));
    QApplication::setActiveWindow(&kitchen.window);
    REQUIRE(draft.base());
    CHECK(draft.base()->reason == "simmered to 976 g");

    pressKeysOf(kitchen.window, Act::MakeBatch);
    auto* batch = kitchen.window.findChild<BatchDialog*>();
    REQUIRE(batch != nullptr);
    QApplication::setActiveWindow(batch);
    press(Qt::Key_A, Qt::AltModifier);
    over(u"2026-11-22"_s);
    press(Qt::Key_Y, Qt::AltModifier);
    over(u"790"_s);
    tabTo(batch->keep());
    press(Qt::Key_Space);
    waitBatchClosed(kitchen);
    const auto& record = kitchen.panel().record();
    REQUIRE(record.lot);
    CHECK(record.lot->on == "2026-11-22");
    CHECK(record.lot->gotMl == 790.0);
    CHECK(cancelsPrinting([&] { pressKeysOf(kitchen.window, Act::PrintLabel); }));
}
