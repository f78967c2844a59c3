#include "tests/support/catch.h"
#include "tests/ui/desktop.h"
#include "ui/panels/stand_in/stand_in_dialog.h"

#include <QComboBox>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QTableWidget>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;
using namespace Qt::Literals::StringLiterals;

namespace {

struct Counter : Desktop {
    Counter() {
        newDrink(u"Ox Skerry"_s);
        write({u"60 ml London dry gin"_s, u"30 ml simple syrup (1:1)"_s, u"30 ml lemon juice"_s,
               u"salt to taste"_s});
        press(Qt::Key_Escape);
    }
    void toLine(int line) {
        table().setFocus();
        table().setCurrentIndex(table().model()->index(line, SpecModel::Amount));
    }
    StandInDialog& open(int line) {
        toLine(line);
        press(Qt::Key_U, Qt::ControlModifier);
        auto* dialog = window.findChild<StandInDialog*>();
        REQUIRE(dialog != nullptr);
        QApplication::setActiveWindow(dialog);
        dialog->filter().setFocus();
        return *dialog;
    }
    void gone() {
        REQUIRE(QTest::qWaitFor([this] { return window.findChild<StandInDialog*>() == nullptr; }));
        QApplication::setActiveWindow(&window);
    }
    QString cell(StandInDialog& dialog, int row, int column) {
        return dialog.changes().item(row, column)->text();
    }
};

} // namespace

TEST_CASE("Honey stands in for syrup by keys and is taken back in one step", "[ui][stand-in]") {
    Counter counter;
    const auto plain = counter.draft().spec();
    const QString strength = counter.served(spec::Quantity::Strength);
    auto& dialog = counter.open(1);
    CHECK(dialog.list().count() > 3);
    QTest::keyClicks(&dialog.filter(), u"honey"_s);
    REQUIRE(dialog.list().count() >= 1);
    CHECK(dialog.headline().contains(u"honey"_s));
    CHECK(dialog.headline().contains(u"ml water"_s)); // honey is drier than syrup
    CHECK(counter.cell(dialog, 0, 1) == strength);
    CHECK_FALSE(counter.cell(dialog, 2, 3).isEmpty()); // sugar: same or a change
    const QString bySugar = dialog.headline();
    dialog.keep().setFocus();
    QTest::keyClick(&dialog.keep(), Qt::Key_Down);
    CHECK(dialog.headline() != bySugar); // as sweet is another amount than as much sugar
    QTest::keyClick(&dialog.keep(), Qt::Key_Up);
    CHECK(dialog.headline() == bySugar);
    dialog.filter().setFocus();
    QTest::keyClick(&dialog.filter(), Qt::Key_Return);
    counter.gone();
    REQUIRE(counter.draft().spec().lines.size() == 5);
    CHECK(fromCore(counter.draft().spec().lines[1].name).contains(u"honey"_s));
    CHECK(counter.draft().spec().lines[2].name == "water");
    CHECK(counter.served(spec::Quantity::Strength) == strength); // the water was made up
    counter.table().setFocus();
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(counter.draft().spec() == plain);
}

TEST_CASE("A stronger spirit keeps the alcohol and its water and rubbish finds nothing", "[ui][stand-in]") {
    Counter counter;
    const auto plain = counter.draft().spec();
    auto& dialog = counter.open(0);
    for (const auto& rubbish : {u"zzzz"_s, u"-5"_s, u"1e9"_s, u"1,5,5"_s, u"%"_s}) {
        dialog.filter().selectAll();
        QTest::keyClicks(&dialog.filter(), rubbish);
        INFO(rubbish.toStdString());
        if (dialog.list().count() > 0) continue; // a name may hold it
        CHECK(dialog.headline() == u"Nothing of that name"_s);
        CHECK_FALSE(dialog.acceptButton().isEnabled());
        QTest::keyClick(&dialog.filter(), Qt::Key_Return);
        CHECK(counter.draft().spec() == plain);
    }
    dialog.filter().selectAll();
    QTest::keyClicks(&dialog.filter(), u"overproof"_s);
    REQUIRE(dialog.list().count() >= 1);
    CHECK(dialog.acceptButton().isEnabled());
    CHECK(dialog.headline().contains(u"and"_s));
    CHECK(dialog.headline().contains(u"water"_s));
    CHECK(counter.cell(dialog, 0, 3) == u"same"_s); // strength
    QTest::keyClick(&dialog.filter(), Qt::Key_Down);
    QTest::keyClick(&dialog, Qt::Key_Escape);
    counter.gone();
    CHECK(counter.draft().spec() == plain);
}

TEST_CASE("What nothing stands in for says why", "[ui][stand-in]") {
    Counter counter;
    auto& dialog = counter.open(2);
    CHECK(dialog.headline() == u"Nothing stands in for it"_s);
    CHECK(dialog.note().contains(u"neither sweet nor strong"_s));
    CHECK_FALSE(dialog.acceptButton().isEnabled());
    QTest::keyClick(&dialog, Qt::Key_Escape);
    counter.gone();
    // On the open row there is no line, and the key does nothing.
    counter.toLine(4);
    CHECK_FALSE(counter.window.actions().at(Act::StandIn)->isEnabled());
}
