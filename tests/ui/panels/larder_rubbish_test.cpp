// What people paste by mistake, and names nobody foresaw.
#include "tests/ui/panels/open_larder.h"
#include "ui/panels/larder/facts_model.h"
#include "ui/panels/larder/impact_strip.h"
#include "ui/panels/larder/packs_model.h"
#include "ui/panels/larder/terms_form.h"

#include <QClipboard>
#include <QScrollArea>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

struct Rubbish : OpenLarder {
    void paste(const QString& text) {
        QApplication::clipboard()->setText(text);
        press(Qt::Key_V, Qt::ControlModifier);
    }
    void pasteOver(EntryField& field, const QString& text) {
        QApplication::setActiveWindow(&window);
        field.setFocus(Qt::TabFocusReason);
        field.selectAll();
        paste(text);
        if (auto* list = QApplication::activePopupWidget()) {
            list->hide();
            QApplication::setActiveWindow(&window);
        }
        press(Qt::Key_Return);
    }
    void typeCell(EntryTable& table, int row, int column, const QString& text) {
        QApplication::setActiveWindow(&window);
        table.setFocus(Qt::TabFocusReason);
        REQUIRE(table.hasFocus());
        table.setCurrentIndex(table.model()->index(row, column));
        press(Qt::Key_F2);
        REQUIRE(table.isEditing());
        if (auto* cell = qobject_cast<QLineEdit*>(QApplication::focusWidget())) {
            cell->selectAll();
            paste(text);
        }
        press(Qt::Key_Return);
        REQUIRE(QTest::qWaitFor([&] { return !table.isEditing(); }));
        QApplication::processEvents();
    }
    int widest() { // of the sheet, beside its page
        auto* area = page->findChild<QScrollArea*>();
        return area->widget()->width() - area->viewport()->width();
    }
};

QStringList heaps() {
    return {u"\u202e\u0007'; DROP TABLE ingredient; --"_s,
            u"9e999"_s,
            u"NaN"_s,
            u"-0"_s,
            u"١٢٣"_s,
            QString(5000, u'9'),
            u"a\nb\tc"_s,
            u"💥💥💥"_s,
            u"%1 %2 %n"_s,
            u"<b>1</b>"_s};
}

} // namespace

TEST_CASE("Rubbish pasted into every field is refused or kept as typed and nothing is written",
          "[larder-page]") {
    Rubbish bar;
    bar.choose(u"london dry"_s);
    const larder::Ingredient stored = bar.gin();
    auto& sheet = bar.page->sheet();
    auto& terms = sheet.terms();
    for (const auto& heap : heaps()) {
        INFO(heap.left(40).toStdString());
        for (auto* field : {&terms.lost(), &terms.gotFrom(), &terms.pours(), &terms.keeps(), &terms.amount(),
                            &terms.counted(), &sheet.maker(), &sheet.aliases()}) {
            INFO(field->accessibleName().toStdString());
            bar.pasteOver(*field, heap);
        }
        CHECK(bar.edit().isPending());
        CHECK_FALSE(bar.edit().canAccept());
        CHECK(bar.page->strip().doubts().size() < 3000);
        QApplication::processEvents();
        CHECK(bar.widest() <= 0);
        press(Qt::Key_Return, Qt::ControlModifier);
        CHECK(bar.gin() == stored);
        bar.edit().leave();
        CHECK_FALSE(bar.edit().isPending());
        CHECK(bar.edit().now() == stored);
        CHECK_FALSE(terms.lost().isUnreadable());
    }
    sheet.facts().setFocus(Qt::TabFocusReason);
    for (const auto& heap : {u"9e999"_s, u"NaN"_s, u"💥"_s, u"-1"_s}) {
        INFO(heap.toStdString());
        bar.typeCell(sheet.facts(), 0, FactsModel::Value, heap);
        CHECK_FALSE(bar.edit().canAccept());
        bar.edit().leave();
        sheet.packs().setFocus(Qt::TabFocusReason);
        bar.typeCell(sheet.packs(), 0, PacksModel::Price, heap);
        bar.typeCell(sheet.packs(), 0, PacksModel::Holds, u"700 ml"_s);
        CHECK_FALSE(bar.edit().canAccept());
        bar.edit().leave();
        sheet.facts().setFocus(Qt::TabFocusReason);
    }
    CHECK(bar.gin() == stored);
}

TEST_CASE("A price of nothing is a price and costs nothing", "[larder-page]") {
    Rubbish bar;
    bar.choose(u"london dry"_s);
    auto& packs = bar.page->sheet().packs();
    packs.setFocus(Qt::TabFocusReason);
    bar.typeCell(packs, 0, PacksModel::Holds, u"700 ml"_s);
    bar.typeCell(packs, 0, PacksModel::Price, u"0"_s);
    REQUIRE(bar.edit().now().packs.size() == 1);
    CHECK(bar.edit().canAccept());
    CHECK(packs.model()->index(0, PacksModel::Each).data().toString().startsWith(u"0.00"_s));
}

TEST_CASE("Names of 200 letters and from right to left stand on the page and come back whole",
          "[larder-page]") {
    Rubbish bar;
    const QString longest = QString(200, u'W');
    const QString hebrew = u"ליקר שקדים 28 %"_s;
    for (const auto& name : {longest, hebrew}) {
        bar.choose(u"london dry"_s);
        press(Qt::Key_Escape);
        press(Qt::Key_Insert);
        REQUIRE(bar.page->sheet().name().hasFocus());
        bar.paste(name);
        press(Qt::Key_Return);
        press(Qt::Key_Return);
        REQUIRE_FALSE(bar.edit().isPending());
        CHECK(fromCore(bar.edit().stored().name) == name);
        QApplication::processEvents();
        CHECK(bar.widest() <= 0);
        const int row = bar.page->list().model().rowOf(bar.edit().chosen());
        REQUIRE(row >= 0);
        CHECK(bar.page->list().model().row(row).name == name);
        // A bottle of it, and the page is no wider for that.
        bar.fill(bar.page->sheet().terms().keeps(), u"9"_s);
        CHECK(bar.widest() <= 0);
        press(Qt::Key_Escape); // leaves the edit
        press(Qt::Key_Escape); // and the field
    }
}

TEST_CASE("A new thing with its strength and price is in the larder by keys alone", "[larder-page]") {
    Rubbish bar;
    REQUIRE(bar.page->list().table().hasFocus());
    bar.edit().choose({});
    int keys = 0;
    const auto hit = [&](Qt::Key key, Qt::KeyboardModifiers with = Qt::NoModifier) {
        ++keys;
        press(key, with);
        QApplication::processEvents(); // a cell that was left has closed
    };
    hit(Qt::Key_Insert);
    REQUIRE(bar.page->sheet().name().hasFocus());
    type(u"Sea buckthorn cordial"_s);
    hit(Qt::Key_Return);
    for (int i = 0; i < 3; ++i) // maker, other names, facts
        hit(Qt::Key_Tab);
    auto& sheet = bar.page->sheet();
    REQUIRE(sheet.facts().hasFocus());
    type(u"0"_s);
    hit(Qt::Key_Return);
    hit(Qt::Key_Down);
    for (const QChar letter : u"310"_s)
        type(QString(letter));
    hit(Qt::Key_Return);
    hit(Qt::Key_Tab);
    REQUIRE(sheet.packs().hasFocus());
    sheet.packs().setCurrentIndex(sheet.packs().model()->index(0, PacksModel::Holds));
    for (const QChar letter : u"500 ml"_s)
        type(QString(letter));
    hit(Qt::Key_Return);
    hit(Qt::Key_Right);
    for (const QChar letter : u"4.80"_s)
        type(QString(letter));
    hit(Qt::Key_Return);
    QApplication::processEvents();
    hit(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE_FALSE(bar.edit().isPending());
    const auto& made = bar.named("sea buckthorn cordial");
    REQUIRE(made.facts.abvPercent);
    REQUIRE(made.facts.sugarGPerL);
    CHECK(made.facts.abvPercent->typical == 0);
    CHECK(made.facts.sugarGPerL->typical == 310);
    REQUIRE(made.packs.size() == 1);
    CHECK(made.packs[0].price.minor == 480);
    CHECK(keys <= 14); // beside the letters of what is said
}
