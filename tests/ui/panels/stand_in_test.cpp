#include "tests/support/catch.h"
#include "tests/ui/desktop.h"
#include "ui/panels/stand_in/stand_in_dialog.h"

#include <QCheckBox>
#include <QComboBox>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QTableWidget>

#include <cmath>

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
    StandInDialog& open(int line, bool exactly = false) {
        toLine(line);
        press(Qt::Key_U, Qt::ControlModifier);
        auto* dialog = window.findChild<StandInDialog*>();
        REQUIRE(dialog != nullptr);
        QApplication::setActiveWindow(dialog);
        dialog->filter().setFocus();
        if (exactly) {
            dialog->asMeasured().setFocus();
            QTest::keyClick(&dialog->asMeasured(), Qt::Key_Space);
            CHECK_FALSE(dialog->asMeasured().isChecked());
            dialog->filter().setFocus();
        }
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
    auto& dialog = counter.open(1, true);
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
    auto& dialog = counter.open(0, true);
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
    auto& dialog = counter.open(3);
    CHECK(dialog.headline() == u"Nothing stands in for it"_s);
    CHECK(dialog.note().contains(u"neither sweet nor strong"_s));
    CHECK_FALSE(dialog.acceptButton().isEnabled());
    QTest::keyClick(&dialog, Qt::Key_Escape);
    counter.gone();
    // On the open row there is no line, and the key does nothing.
    counter.toLine(4);
    CHECK_FALSE(counter.window.actions().at(Act::StandIn)->isEnabled());
}

TEST_CASE("A stand-in is poured on the marks of the jigger with the exact amount beside it",
          "[ui][stand-in]") {
    Counter counter;
    auto& dialog = counter.open(1);
    QTest::keyClicks(&dialog.filter(), u"rich syrup 2:1"_s);
    REQUIRE(dialog.list().count() >= 1);
    // 30 ml of 1:1 hold 18.4 g of sugar: 20.85 ml of 2:1 and 9.24 ml of water (needs, 4); marks lie 2.5 ml
    // apart.
    CHECK(dialog.headline().startsWith(u"20\u202f"_s));
    CHECK(dialog.headline().contains(u"and 10"_s));
    CHECK(dialog.beside().contains(u"Exactly 20."_s));
    const QString onMarks = dialog.headline();
    dialog.asMeasured().setFocus();
    QTest::keyClick(&dialog.asMeasured(), Qt::Key_Space); // by key
    CHECK(dialog.headline().startsWith(u"20."_s));
    CHECK(dialog.beside().contains(onMarks));
    QTest::keyClick(&dialog.asMeasured(), Qt::Key_Space);
    CHECK(dialog.headline() == onMarks);
    dialog.filter().setFocus();
    QTest::keyClick(&dialog.filter(), Qt::Key_Return);
    counter.gone();
    REQUIRE(counter.draft().spec().lines.size() == 5);
    CHECK(counter.draft().spec().lines[1].poured == ml(20));
    CHECK(counter.draft().spec().lines[2].poured == ml(10));
}

TEST_CASE("Lime and stretched juice stand in for lemon by their acid", "[ui][stand-in]") {
    Counter counter;
    auto& dialog = counter.open(2);
    REQUIRE(dialog.list().count() > 3);
    CHECK(dialog.keep().currentText() == u"as much acid"_s);
    for (const auto& name : {u"lime juice, fresh"_s, u"extended lime"_s}) {
        dialog.filter().selectAll();
        QTest::keyClicks(&dialog.filter(), name);
        INFO(name.toStdString() << ": " << dialog.headline().toStdString());
        REQUIRE(dialog.list().count() >= 1);
        CHECK(dialog.acceptButton().isEnabled());
        CHECK(dialog.headline().contains(u"ml "_s));
    }
    // 30 ml at 60 g/l of acid as citric stand for 30 ml of the same.
    dialog.filter().selectAll();
    QTest::keyClicks(&dialog.filter(), u"lime juice, fresh"_s);
    const auto& larder = counter.window.desk().book()->larder();
    const auto acid = [&](const char* name) {
        return larder.find(larder.match(name).ingredient)->facts.acidGPerL->typical;
    };
    const double exact = 30 * acid("lemon juice") / acid("lime juice");
    const double marks = std::round(exact / 2.5) * 2.5;
    CHECK(dialog.headline().startsWith(QString::number(marks)));
    QTest::keyClick(&dialog.filter(), Qt::Key_Return);
    counter.gone();
    CHECK(counter.draft().spec().lines[2].name == "lime juice, fresh");
}
