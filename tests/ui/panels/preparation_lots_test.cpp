#include "core/store/where_used.h"
#include "tests/support/catch.h"
#include "tests/ui/panels/kitchen.h"
#include "ui/panels/preparation/preparation_uses.h"
#include "ui/panels/preparation/preparation_values.h"
#include "ui/plots/keeping_ruler.h"

#include <QAbstractButton>
#include <QHBoxLayout>
#include <QKeySequence>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QSet>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;
using namespace Qt::Literals::StringLiterals;

TEST_CASE("Every label of a batch has a key of its own that leads to its field", "[ui][preparation]") {
    Kitchen kitchen;
    auto& dialog = openBatch(kitchen);
    QStringList keys;
    const auto take = [&](const QString& text) {
        const auto key = QKeySequence::mnemonic(text).toString();
        if (!key.isEmpty()) keys << key;
    };
    for (const auto* label : dialog.findChildren<QLabel*>()) {
        INFO(label->text().toStdString());
        // Without a field of its own a label shows its & as it is written.
        CHECK((label->buddy() != nullptr || !label->text().contains(u'&')));
        if (label->buddy() != nullptr) take(label->text());
    }
    for (const auto* button : dialog.findChildren<QAbstractButton*>())
        if (button->isVisible()) take(button->text());
    CHECK(keys.size() >= 10);
    CHECK(QSet<QString>(keys.begin(), keys.end()).size() == keys.size());
    press(Qt::Key_A, Qt::AltModifier);
    CHECK(dialog.madeOn().hasFocus());
    press(Qt::Key_Y, Qt::AltModifier);
    CHECK(dialog.gotMl().hasFocus());
    press(Qt::Key_T, Qt::AltModifier);
    CHECK(dialog.times().hasFocus());
    for (const auto* row : dialog.findChildren<QHBoxLayout*>())
        for (int i = 1; i < row->count(); ++i) {
            const auto* before = row->itemAt(i - 1)->widget();
            const auto* unit = qobject_cast<QLabel*>(row->itemAt(i)->widget());
            if (before == nullptr || unit == nullptr || unit->text().isEmpty()) continue;
            INFO(unit->text().toStdString());
            CHECK(unit->x() - (before->x() + before->width()) >= 4);
        }
    press(Qt::Key_Escape);
    waitBatchClosed(kitchen);
}

TEST_CASE("Who uses it names a drink whose draft alone pours it and what is poured through another",
          "[ui][preparation]") {
    Kitchen kitchen;
    kitchen.keep(u"first"_s);
    kitchen.newDrink(u"Long Candle"_s);
    kitchen.write({u"40 ml gold rum"_s});
    press(Qt::Key_Escape);
    kitchen.keep(u"rum alone"_s);
    auto& desk = kitchen.window.desk();
    auto spec = desk.draft()->spec();
    const auto& book = *desk.book();
    for (const auto& line : readEntry(u"30 ml Heather syrup"_s, book.readOptions(), book.larder()).lines)
        spec.lines.push_back(line);
    REQUIRE(desk.draft()->apply(spec, u"syrup"_s));
    const auto idOf = [&](const std::string& name) {
        for (const auto& row : desk.book()->shelf())
            if (row.name == name) return row.id;
        throw std::runtime_error("not on the shelf: " + name);
    };
    REQUIRE(desk.openDrink(idOf("Heather syrup")));
    const auto& uses = kitchen.panel().record().uses;
    REQUIRE(uses.size() == 1);
    CHECK(uses[0].name == u"Long Candle"_s);
    CHECK(uses[0].revision == u"draft"_s);
    CHECK(uses[0].amount == u"30 ml"_s);
    CHECK_FALSE(kitchen.panel().words().contains(u"Nothing pours it yet"_s));
    // The larder's answer is the same one.
    const auto& larder = desk.book()->larder();
    const preparation::Followers followers(larder, preparationSpecs(*desk.book()));
    const auto id = *kitchen.panel().record().ingredient;
    const auto found = store::whereUsed(desk.book()->book(), id, followers.of({id}), followers);
    REQUIRE(found.by.size() == 1);
    CHECK(found.by[0].by == uses[0].drink);
    // In the bin it pours nothing.
    auto candle = *desk.book()->book().drink(uses[0].drink);
    candle.binned = true;
    desk.book()->book().saveDrink(candle);
    CHECK(store::whereUsed(desk.book()->book(), id, followers.of({id}), followers).by.empty());
}

TEST_CASE("What was measured on the lot in use is said on the preparation's page", "[ui][preparation]") {
    Kitchen kitchen;
    kitchen.keep(u"first"_s);
    auto& dialog = openBatch(kitchen);
    dialog.madeOn().setFocus();
    dialog.madeOn().selectAll();
    type(u"2026-11-22"_s);
    QTest::mouseClick(&dialog.keep(), Qt::LeftButton);
    waitBatchClosed(kitchen);
    CHECK_FALSE(kitchen.panel().words().contains(u"Measured wins"_s)); // nobody measured anything of it
    auto& book = *kitchen.window.desk().book();
    auto lot = *kitchen.panel().record().lot;
    lot.sugarGPerL = larder::Fact::single(632, larder::SourceKind::Measured, "refractometer, strained");
    book.saveLot(lot, true);
    const QString said = kitchen.panel().words();
    CHECK(said.contains(u"Measured wins"_s));
    CHECK(said.contains(u"22 Nov"_s));
    CHECK(said.contains(u"632"_s));
    CHECK(said.contains(u"refractometer, strained"_s));
    CHECK_FALSE(yieldSentence(kitchen.draft().now()).contains(u"nobody"_s));
}

TEST_CASE("At 1024 by 700 with the shelf open nothing of the preparation page is cut", "[ui][preparation]") {
    Kitchen kitchen;
    kitchen.keep(u"first"_s);
    kitchen.bars().setFocus();
    press(Qt::Key_Return, Qt::ControlModifier);
    press(Qt::Key_Down); // simmered: the kind with the most fields
    press(Qt::Key_Escape);
    kitchen.window.resize(1024, 700);
    kitchen.table().setFocus();
    press(Qt::Key_Slash);
    QApplication::processEvents();
    REQUIRE(kitchen.window.bench().isShelfShown());
    auto& sheet = kitchen.window.bench().sheet();
    auto& panel = kitchen.panel();
    if (const auto picture = qEnvironmentVariable("STILLROOM_TEST_PICTURE"); !picture.isEmpty())
        kitchen.window.grab().save(picture);
    for (QScrollArea* area : std::initializer_list<QScrollArea*>{&sheet, &panel}) {
        INFO(area->accessibleName().toStdString());
        CHECK(area->widget()->width() <= area->viewport()->width());
        for (auto* widget : area->widget()->findChildren<QWidget*>()) {
            const bool words = qobject_cast<QAbstractButton*>(widget) != nullptr ||
                               qobject_cast<QLabel*>(widget) != nullptr ||
                               qobject_cast<QLineEdit*>(widget) != nullptr;
            if (!words || !widget->isVisible()) continue;
            INFO(widget->accessibleName().toStdString());
            const int right = widget->mapTo(area->widget(), QPoint(widget->width(), 0)).x();
            CHECK(right <= area->viewport()->width());
            if (const auto* button = qobject_cast<QAbstractButton*>(widget))
                CHECK(button->width() >= button->minimumSizeHint().width());
        }
    }
    const auto& keeping = panel.keeping();
    CHECK(keeping.height() >= keeping.heightForWidth(keeping.width()));
}
