#include "tests/support/catch.h"
#include "tests/ui/desktop.h"
#include "ui/dialogs/pick_dialog.h"
#include "ui/panels/side_by_side/print.h"
#include "ui/panels/side_by_side/side_by_side_page.h"
#include "ui/panels/side_by_side/side_view.h"
#include "ui/panels/trail_panel.h"

#include <QClipboard>
#include <QListWidget>
#include <QMimeData>
#include <QPdfWriter>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

void setAmount(Desktop& desktop, int row, const char* amount) {
    desktop.table().editCell(row, SpecModel::Amount);
    type(QString::fromLatin1(amount));
    press(Qt::Key_Return);
    press(Qt::Key_Escape);
}

// Two revisions: gin 45, then 50.
void keepTwo(Desktop& desktop) {
    desktop.newDrink(QStringLiteral("Ox Skerry"));
    desktop.write({QStringLiteral("45 ml London dry gin"), QStringLiteral("20 ml lemon juice"),
                   QStringLiteral("20 ml simple syrup")});
    press(Qt::Key_Escape);
    desktop.keep(QStringLiteral("the idea"));
    setAmount(desktop, 0, "50");
    desktop.keep(QStringLiteral("more gin"));
}

PickDialog& pickDialog(Desktop& desktop) {
    auto* dialog = desktop.window.findChild<PickDialog*>();
    REQUIRE(dialog != nullptr);
    QApplication::setActiveWindow(dialog);
    dialog->filter().setFocus();
    return *dialog;
}

} // namespace

TEST_CASE("A branch is a further draft and the one before waits unharmed", "[ui][history]") {
    Desktop desktop;
    keepTwo(desktop);
    setAmount(desktop, 1, "22.5");
    const auto before = desktop.draft().draft().id;
    const auto specBefore = desktop.draft().spec();
    auto& trail = desktop.window.bench().trail();
    trail.setFocus();
    press(Qt::Key_Home);
    REQUIRE(trail.chosen() != nullptr);
    const auto first = *trail.chosen();
    CHECK(first.number == 1);
    press(Qt::Key_B, Qt::ControlModifier);

    CHECK(desktop.draft().draft().id != before);
    CHECK(desktop.draft().spec() == first.spec);
    REQUIRE(desktop.draft().base());
    CHECK(desktop.draft().base()->id == first.id);
    // Both drafts are on the trail: the new one branches off r1.
    const auto& marks = trail.values().marks;
    REQUIRE(marks.size() == 4);
    CHECK(marks[2].state == StateMark::Draft);
    CHECK(marks[2].parent == 1);
    CHECK(marks[2].changed == QStringLiteral("lemon juice 20 → 22.5 ml"));
    CHECK(marks[3].state == StateMark::Draft);
    CHECK(marks[3].parent == 0);

    // What is typed now goes into the new draft alone.
    setAmount(desktop, 2, "15");
    CHECK(desktop.window.desk().book()->book().draft(before)->spec == specBefore);
    const auto branched = desktop.draft().draft().id;

    // Back to the other by its mark on the trail.
    trail.setFocus();
    trail.setCursor(2);
    press(Qt::Key_Return);
    CHECK(desktop.draft().draft().id == before);
    CHECK(desktop.draft().spec() == specBefore);

    // And to the branch again from the list of drafts, by part of what it says.
    press(Qt::Key_D, Qt::ControlModifier | Qt::ShiftModifier);
    auto& dialog = pickDialog(desktop);
    CHECK(dialog.list().count() == 2);
    QTest::keyClicks(&dialog.filter(), QStringLiteral("syrup"));
    CHECK(dialog.list().count() == 1);
    QTest::keyClick(&dialog.filter(), Qt::Key_Return);
    QApplication::setActiveWindow(&desktop.window);
    CHECK(desktop.draft().draft().id == branched);
    // Its undo steps came along.
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(desktop.draft().spec() == first.spec);

    // Kept, it is a revision whose parent is the one it branched from.
    press(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
    desktop.keep(QStringLiteral("drier"));
    const auto kept = *desktop.draft().base();
    CHECK(kept.number == 3);
    CHECK(kept.parent == first.id);
}

TEST_CASE("A restored revision can be undone on a branch too", "[ui][history]") {
    Desktop desktop;
    keepTwo(desktop);
    auto& trail = desktop.window.bench().trail();
    trail.setFocus();
    press(Qt::Key_Home);
    press(Qt::Key_B, Qt::ControlModifier);
    setAmount(desktop, 2, "10");
    const auto mine = desktop.draft().spec();
    trail.setFocus();
    press(Qt::Key_Home);
    press(Qt::Key_Right);
    REQUIRE(trail.chosen() != nullptr);
    CHECK(trail.chosen()->number == 2);
    const auto second = trail.chosen()->spec;
    press(Qt::Key_R, Qt::ControlModifier);
    CHECK(desktop.draft().spec() == second);
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(desktop.draft().spec() == mine);
    press(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
    CHECK(desktop.draft().spec() == second);
    // The undone and redone restore is what the book holds.
    CHECK(desktop.window.desk().book()->book().draft(desktop.draft().draft().id)->spec == second);
}

TEST_CASE("A drink opens on the draft worked on last and renaming reaches every draft", "[ui][history]") {
    Desktop desktop;
    keepTwo(desktop);
    const auto first = desktop.draft().draft().id;
    const auto drink = desktop.draft().drink().id;
    press(Qt::Key_B, Qt::ControlModifier);
    const auto second = desktop.draft().draft().id;
    REQUIRE(second != first);
    press(Qt::Key_F2);
    type(QStringLiteral("Hallan Stack"));
    press(Qt::Key_Return);
    CHECK(desktop.draft().now().words.name == "Hallan Stack");
    REQUIRE(desktop.window.desk().openDraft(first));
    CHECK(desktop.draft().now().words.name == "Hallan Stack");
    setAmount(desktop, 0, "40");
    CHECK(desktop.window.desk().book()->book().drink(drink)->name == "Hallan Stack");
    desktop.trigger(Act::NewDrink);
    REQUIRE(desktop.window.desk().openDrink(drink));
    CHECK(desktop.draft().draft().id == first);
}

TEST_CASE("A bottle changed in the larder is told on the trail as its own kind of change", "[ui][history]") {
    Desktop desktop;
    keepTwo(desktop);
    auto& book = *desktop.window.desk().book();
    const auto* gin = desktop.draft().bindings().poured(0);
    REQUIRE(gin != nullptr);
    auto weaker = *gin;
    const double was = weaker.facts.abvPercent->typical;
    weaker.facts.abvPercent = larder::Fact::single(was - 4, larder::SourceKind::Label, "label");
    book.saveIngredient(weaker);
    CHECK(desktop.draft().now().difference.isEmpty());
    REQUIRE(desktop.draft().now().swaps.size() == 1);
    CHECK(desktop.draft().changesInWords().contains(QStringLiteral("% vol")));
    desktop.keep(QStringLiteral("the weaker gin"));
    const auto& marks = desktop.window.bench().trail().values().marks;
    REQUIRE(marks.size() == 4);
    CHECK(marks[2].changed.startsWith(QStringLiteral("London dry gin ")));
    CHECK(marks[2].changed.contains(QStringLiteral("% vol")));
    CHECK(marks[2].did.contains(QStringLiteral("% vol")));
    CHECK(desktop.draft().now().swaps.empty()); // kept: the draft stands on what it pours
}

TEST_CASE("A draft that says nothing of its own is no mark and is taken again", "[ui][history]") {
    Desktop desktop;
    keepTwo(desktop);
    const auto plain = desktop.draft().draft().id; // equals r2
    auto& trail = desktop.window.bench().trail();
    trail.setFocus();
    press(Qt::Key_Home);
    press(Qt::Key_B, Qt::ControlModifier);
    const auto onFirst = desktop.draft().draft().id;
    CHECK(onFirst != plain);
    CHECK(trail.values().marks.size() == 3); // two revisions and the draft in hand
    press(Qt::Key_D, Qt::ControlModifier | Qt::ShiftModifier);
    auto& dialog = pickDialog(desktop);
    CHECK(dialog.list().count() == 2); // it is still there to go back to
    QTest::keyClick(&dialog.filter(), Qt::Key_Escape);
    QApplication::setActiveWindow(&desktop.window);
    setAmount(desktop, 2, "15");
    trail.setFocus();
    press(Qt::Key_Home);
    press(Qt::Key_Right);
    REQUIRE(trail.chosen() != nullptr);
    CHECK(trail.chosen()->number == 2);
    press(Qt::Key_B, Qt::ControlModifier);
    CHECK(desktop.draft().draft().id == plain);
    const auto drink = desktop.draft().drink().id;
    CHECK(desktop.window.desk().book()->book().drafts(drink).size() == 2);
}

TEST_CASE("Four are compared by keys and the base can be branched from", "[ui][history]") {
    Desktop desktop;
    keepTwo(desktop);
    setAmount(desktop, 1, "22.5");
    desktop.keep(QStringLiteral("sharper"));
    setAmount(desktop, 2, "15");
    // Another drink, to stand beside it.
    const auto skerry = desktop.draft().drink().id;
    desktop.trigger(Act::NewDrink);
    type(QStringLiteral("Quill Point"));
    press(Qt::Key_Return);
    press(Qt::Key_Return);
    desktop.write({QStringLiteral("60 ml navy rum"), QStringLiteral("20 ml lemon juice")});
    press(Qt::Key_Escape);
    REQUIRE(desktop.window.desk().openDrink(skerry));

    press(Qt::Key_D, Qt::ControlModifier);
    auto* page = qobject_cast<SideBySidePage*>(desktop.window.page());
    REQUIRE(page != nullptr);
    auto& view = page->view();
    REQUIRE(view.values().columns.size() == 2);
    CHECK(view.values().columns[0].label == QStringLiteral("r3"));
    CHECK(view.values().columns[1].label == QStringLiteral("draft"));

    const auto add = [&](const QString& words) {
        QApplication::setActiveWindow(&desktop.window);
        view.setFocus();
        press(Qt::Key_Plus);
        auto* dialog = page->findChild<PickDialog*>();
        REQUIRE(dialog != nullptr);
        QApplication::setActiveWindow(dialog);
        QTest::keyClicks(&dialog->filter(), words);
        REQUIRE(dialog->list().count() == 1);
        QTest::keyClick(&dialog->filter(), Qt::Key_Return);
        REQUIRE(QTest::qWaitFor([&] { return page->findChild<PickDialog*>() == nullptr; }));
        QApplication::setActiveWindow(&desktop.window);
        view.setFocus();
    };
    add(QStringLiteral("quill"));
    add(QStringLiteral("r1 the idea"));
    REQUIRE(view.values().columns.size() == 4);
    CHECK(view.values().columns[2].label == QStringLiteral("Quill Point draft"));
    CHECK(view.values().columns[3].label == QStringLiteral("r1"));
    press(Qt::Key_Plus); // no fifth
    CHECK(page->findChild<PickDialog*>() == nullptr);

    // r1 as the base: the others are read against it, and what changed at once is warned of.
    for (int i = 0; i < 3; ++i)
        press(Qt::Key_Right);
    CHECK(view.values().base == 3);
    const auto findings = [&] {
        QStringList all;
        for (const auto& finding : view.table().findings)
            all << finding.fact;
        return all.join(QLatin1Char('|'));
    };
    CHECK(findings().contains(QStringLiteral("two drinks")));
    CHECK(findings().contains(QStringLiteral("changed three things at once:")));

    const auto cell = [&](const QString& name, std::size_t column) -> SideCell {
        for (const auto& row : view.table().rows)
            if (row.name == name) return row.cells[column];
        FAIL("no row " << name.toStdString());
        throw 0;
    };
    CHECK(cell(QStringLiteral("London dry gin"), 0).difference == QStringLiteral("+5"));
    press(Qt::Key_P); // per 100 ml
    CHECK(cell(QStringLiteral("Volume"), 0).number == QStringLiteral("100.0"));
    CHECK(cell(QStringLiteral("Volume"), 2).difference == QStringLiteral("same"));
    CHECK(cell(QStringLiteral("London dry gin"), 3).number != QStringLiteral("45"));
    press(Qt::Key_P);
    press(Qt::Key_P);
    const auto served = view.table().rows.size();
    press(Qt::Key_4); // every stage
    CHECK(view.table().rows.size() > served + 20);
    press(Qt::Key_1);
    CHECK(view.values().stage == spec::Stage::Measured);
    press(Qt::Key_3);
    press(Qt::Key_D);
    press(Qt::Key_O, Qt::ControlModifier | Qt::ShiftModifier);
    const auto* copied = QApplication::clipboard()->mimeData();
    CHECK(copied->text() == view.tableText());
    CHECK(copied->text().count(QLatin1Char('\n')) == view.rows().size());
    CHECK(copied->html().contains(QStringLiteral("<th>r3</th>")));

    const QTemporaryDir dir;
    QPdfWriter paper(dir.filePath(QStringLiteral("side.pdf")));
    paper.setPageOrientation(QPageLayout::Landscape);
    CHECK(printSideBySide(paper, view.values(), false) >= 1);

    // One column goes, and then a draft is branched off the base.
    press(Qt::Key_Left);
    press(Qt::Key_Delete);
    CHECK(view.values().columns.size() == 3);
    for (int i = 0; i < 3; ++i)
        press(Qt::Key_Right);
    CHECK(view.values().columns[view.values().base].label == QStringLiteral("r1"));
    press(Qt::Key_B, Qt::ControlModifier);
    CHECK(desktop.window.page() == nullptr);
    REQUIRE(desktop.draft().base());
    CHECK(desktop.draft().base()->number == 1);
}

TEST_CASE("A revision read with the facts of today stands beside its own numbers", "[ui][history]") {
    Desktop desktop;
    keepTwo(desktop);
    auto& book = *desktop.window.desk().book();
    auto weaker = *desktop.draft().bindings().poured(0);
    weaker.facts.abvPercent =
        larder::Fact::single(weaker.facts.abvPercent->typical - 4, larder::SourceKind::Label, "label");
    book.saveIngredient(weaker);
    auto& trail = desktop.window.bench().trail();
    trail.setFocus();
    press(Qt::Key_Home);
    press(Qt::Key_D, Qt::ControlModifier);
    auto* page = qobject_cast<SideBySidePage*>(desktop.window.page());
    REQUIRE(page != nullptr);
    press(Qt::Key_Plus);
    auto* dialog = page->findChild<PickDialog*>();
    REQUIRE(dialog != nullptr);
    QApplication::setActiveWindow(dialog);
    QTest::keyClicks(&dialog->filter(), QStringLiteral("r1 today"));
    REQUIRE(dialog->list().count() == 1);
    QTest::keyClick(&dialog->filter(), Qt::Key_Return);
    REQUIRE(QTest::qWaitFor([&] { return page->findChild<PickDialog*>() == nullptr; }));
    const auto& values = page->view().values();
    REQUIRE(values.columns.size() == 3);
    CHECK(values.columns[0].label == QStringLiteral("r1"));
    CHECK(values.columns[2].label == QStringLiteral("r1 today"));
    const auto strength = [&](std::size_t column) {
        return values.columns[column].readings[spec::Stage::Served][spec::Quantity::Strength].value;
    };
    CHECK(strength(2) < strength(0));
    QApplication::setActiveWindow(&desktop.window);
    page->view().setFocus();
    press(Qt::Key_Left);
    REQUIRE(page->view().values().base == 0);
    CHECK(page->view().table().findings.back().fact.contains(QStringLiteral("only the facts changed")));
}

// Nobody knows what is in the cordial: what is known of the drink is a bound.
TEST_CASE("A bound is seen as one on the bench and side by side and along the trail", "[ui][history]") {
    Desktop desktop;
    desktop.newDrink(QStringLiteral("Ox Skerry"));
    desktop.write({QStringLiteral("45 ml London dry gin"), QStringLiteral("15 ml harbour cordial"),
                   QStringLiteral("20 ml lemon juice"), QStringLiteral("10 ml simple syrup")});
    press(Qt::Key_Escape);
    desktop.keep(QStringLiteral("the idea"));
    setAmount(desktop, 3, "15");

    auto& grid = desktop.window.bench().gauges().table().readings();
    // A bare number, signed or not, would say that it is known.
    const auto known = [](QString text) { return typedNumber(text.remove(QLatin1Char('+'))).has_value(); };
    QString since;
    for (int row = 0; row < grid.rowCount(); ++row)
        if (grid.row(row).quantity == spec::Quantity::Sugar) since = grid.row(row).since;
    CHECK(known(since) == false);

    const auto& marks = desktop.window.bench().trail().values().marks;
    REQUIRE(marks.back().strength);
    CHECK(marks.back().strength->kind != TrailReading::Kind::Exact);
    CHECK(marks.back().strength->kind != TrailReading::Kind::Estimate);
    CHECK(known(marks.back().strength->text) == false);

    press(Qt::Key_D, Qt::ControlModifier);
    auto* page = qobject_cast<SideBySidePage*>(desktop.window.page());
    REQUIRE(page != nullptr);
    bool seen = false;
    QString difference;
    for (const auto& row : page->view().table().rows) {
        if (row.name != QStringLiteral("Sugar")) continue;
        seen = true;
        CHECK(row.cells[0].gap);
        CHECK(row.cells[1].gap);
        const auto& apart = row.cells[1 - page->view().values().base];
        CHECK(known(apart.difference) == false);
        CHECK(apart.openDifference);
        difference = apart.difference;
    }
    CHECK(seen);
    press(Qt::Key_O, Qt::ControlModifier | Qt::ShiftModifier);
    CHECK(QApplication::clipboard()->mimeData()->text().contains(difference));
}
