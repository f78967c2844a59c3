#include "tests/support/catch.h"
#include "tests/ui/panels/kitchen.h"
#include "ui/panels/preparation/batch_dialog.h"
#include "ui/panels/preparation/line_entry_row.h"
#include "ui/panels/preparation/preparation_panel.h"
#include "ui/panels/preparation/preparation_uses.h"
#include "ui/panels/preparation/preparation_values.h"
#include "ui/panels/preparation/print_label.h"
#include "ui/panels/preparation/ratio_row.h"
#include "ui/panels/preparation/step_form.h"
#include "ui/panels/preparation/step_pane.h"
#include "ui/panels/trail_panel.h"
#include "ui/plots/keeping_ruler.h"
#include "ui/plots/label_drawing.h"
#include "ui/plots/stand_grid.h"
#include "ui/plots/step_bars.h"
#include "ui/text/numbers.h"
#include "ui/widgets/choice_tabs.h"
#include "ui/widgets/number_edit.h"

#include <QClipboard>
#include <QComboBox>
#include <QFile>
#include <QPdfWriter>
#include <QPushButton>
#include <QTableWidget>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;
using namespace Qt::Literals::StringLiterals;

TEST_CASE("A preparation shows its steps and readings and a drink its instruments", "[ui][preparation]") {
    Kitchen kitchen;
    CHECK(kitchen.panel().isVisible());
    CHECK_FALSE(kitchen.window.bench().gauges().isVisible());
    CHECK(kitchen.pane().isVisible());
    REQUIRE(kitchen.bars().values().bars.size() == 2);
    CHECK(kitchen.bars().values().bars[0].inside == u"1000 g"_s);
    // Brix of one to one by weight; the handbook's white sugar is not sugar alone.
    CHECK(kitchen.usable().cells[1].toDouble() == Approx(50).margin(0.15));
    kitchen.newDrink(u"Ox Skerry"_s);
    CHECK_FALSE(kitchen.panel().isVisible());
    CHECK(kitchen.window.bench().gauges().isVisible());
    CHECK_FALSE(kitchen.pane().isVisible());
}

TEST_CASE("Steps are added and measured and moved and taken out by keys and undone", "[ui][preparation]") {
    Kitchen kitchen;
    auto& draft = kitchen.draft();
    const auto plain = draft.spec();
    kitchen.bars().setFocus();
    press(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE(draft.spec().steps.size() == 1);
    CHECK(draft.spec().steps[0].kind == spec::StepKind::Dissolve);
    CHECK(kitchen.form().kind().hasFocus());
    press(Qt::Key_Down); // the next kind
    CHECK(draft.spec().steps[0].kind == spec::StepKind::Simmer);
    CHECK(kitchen.usable().cells[1].startsWith(kAtLeast)); // water boiled off and nobody said how much

    const int steps = draft.undoStack().count();
    kitchen.figure(&spec::Step::gotG);
    type(u"976"_s);
    CHECK(draft.spec().steps[0].gotG == 976.0);
    CHECK(draft.undoStack().count() == steps + 1); // one visit, one step of undo
    CHECK(kitchen.bars().values().bars[1].beside.contains(u"24"_s));
    CHECK(kitchen.bars().values().bars[1].beside.contains(u"steam"_s));
    CHECK(kitchen.usable().cells[1].toDouble() == Approx(100 * 500 / 976.0).margin(0.15));
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK_FALSE(draft.spec().steps[0].gotG);
    CHECK(kitchen.form().field(&spec::Step::gotG)->text().isEmpty());
    press(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
    CHECK(draft.spec().steps[0].gotG == 976.0);

    press(Qt::Key_Escape); // back among the steps
    REQUIRE(kitchen.bars().hasFocus());
    press(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE(draft.spec().steps.size() == 2);
    CHECK(draft.spec().steps[1].kind == spec::StepKind::Strain);
    kitchen.figure(&spec::Step::yieldShare);
    type(u"5"_s); // per cent lost
    REQUIRE(draft.spec().steps[1].yieldShare);
    CHECK(*draft.spec().steps[1].yieldShare == Approx(0.95));
    press(Qt::Key_Escape);
    press(Qt::Key_Up, Qt::AltModifier);
    CHECK(draft.spec().steps[0].kind == spec::StepKind::Strain);
    CHECK(kitchen.bars().cursor() == 1);
    CHECK(draft.spec().lines == plain.lines); // Alt and an arrow moved the step, not a line
    press(Qt::Key_Delete, Qt::ControlModifier);
    REQUIRE(draft.spec().steps.size() == 1);
    CHECK(draft.spec().steps[0].kind == spec::StepKind::Simmer);
    CHECK(draft.spec().lines == plain.lines);
    while (draft.undoStack().canUndo() && draft.spec() != plain)
        press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(draft.spec() == plain);
    // What is on the screen is in the book.
    CHECK(kitchen.window.desk().book()->book().draft(draft.draft().id)->spec == plain);
}

TEST_CASE("Figures that cannot be are framed or explained and never taken", "[ui][preparation]") {
    Kitchen kitchen;
    auto& draft = kitchen.draft();
    kitchen.bars().setFocus();
    press(Qt::Key_Return, Qt::ControlModifier);
    auto& lost = kitchen.figure(&spec::Step::waterLostG);
    type(u"-5"_s);
    CHECK(lost.isUnreadable());
    CHECK_FALSE(draft.spec().steps[0].waterLostG);
    lost.selectAll();
    type(u"9000"_s);
    CHECK(draft.spec().steps[0].waterLostG == 9000.0);
    REQUIRE(draft.now().made);
    CHECK(draft.now().made->process.faults.size() == 1); // more than the pot holds: counts for nothing
    CHECK(kitchen.bars().values().bars[1].grams == Approx(1000));
}

TEST_CASE("A measured yield wins and says so", "[ui][preparation]") {
    Kitchen kitchen;
    auto& draft = kitchen.draft();
    kitchen.bars().setFocus();
    CHECK(kitchen.bars().cursor() == 1); // nothing but the yield to edit
    press(Qt::Key_Return);
    REQUIRE(kitchen.form().yield().hasFocus());
    type(u"700"_s);
    CHECK(draft.spec().yieldMl == 700.0);
    CHECK(kitchen.usable().cells[3] == u"700"_s);
    CHECK(yieldSentence(draft.now()) == u"Yield measured, not predicted."_s);
    CHECK(kitchen.bars().values().bars[1].inside == u"700 ml"_s);
}

TEST_CASE("Fermenting says that it is not modelled", "[ui][preparation]") {
    Kitchen kitchen;
    auto next = kitchen.draft().spec();
    spec::Step step;
    step.kind = spec::StepKind::Ferment;
    next.steps = {step};
    kitchen.draft().apply(next, u"Ferment"_s);
    CHECK(kitchen.usable().cells[0] == u"?"_s);
    CHECK(kitchen.usable().cells[4] == u"?"_s);
    CHECK(kitchen.bars().values().bars[1].beside.contains(u"not modelled"_s));
}

TEST_CASE("The list of who uses it names the drink and how often a batch serves it", "[ui][preparation]") {
    Kitchen kitchen;
    kitchen.keep(u"first"_s);
    kitchen.newDrink(u"Ox Skerry"_s);
    kitchen.write({u"60 ml London dry gin"_s, u"20 ml Heather syrup"_s});
    press(Qt::Key_Escape);
    auto& desk = kitchen.window.desk();
    base::DrinkId syrup;
    for (const auto& row : desk.book()->shelf())
        if (row.name == "Heather syrup") syrup = row.id;
    REQUIRE(desk.openDrink(syrup));
    const auto& uses = kitchen.panel().record().uses;
    REQUIRE(uses.size() == 1);
    CHECK(uses[0].name == u"Ox Skerry"_s);
    CHECK(uses[0].amount == u"20 ml"_s);
    REQUIRE(kitchen.panel().uses().rowCount() == 1);
    // 1000 g of 50 °Bx are 813 ml: forty times 20 ml.
    CHECK(kitchen.panel().uses().item(0, 3)->text() == u"40"_s);
    kitchen.panel().uses().setFocus();
    kitchen.panel().uses().setCurrentCell(0, 0);
    press(Qt::Key_Return);
    CHECK(desk.draft()->now().words.name == "Ox Skerry");
}

TEST_CASE("The label says what may hurt and copies and prints as it stands", "[ui][preparation]") {
    Kitchen kitchen;
    kitchen.panel().copyLabel();
    const auto text = QGuiApplication::clipboard()->text();
    CHECK(text.startsWith(u"Heather syrup"_s));
    CHECK(text.contains(u"Allergens"_s));
    CHECK(text.contains(u"50 Bx"_s));
    QTemporaryDir folder;
    const auto path = folder.filePath(u"label.pdf"_s);
    {
        QPdfWriter pdf(path);
        pdf.setPageSize(QPageSize(QPageSize::A4));
        CHECK(drawLabels(pdf, kitchen.panel().label().values(), 4) == 4);
        CHECK(drawLabels(pdf, kitchen.panel().label().values(), 1, 900) == 0); // wider than the page
    }
    QFile file(path);
    REQUIRE(file.open(QIODevice::ReadOnly));
    CHECK(file.read(4) == QByteArray("%PDF"));
}

TEST_CASE("A revision of a preparation is read as it was and nothing in it can be edited",
          "[ui][preparation]") {
    Kitchen kitchen;
    kitchen.keep(u"first"_s);
    auto next = kitchen.draft().spec();
    next.yieldMl = 700;
    kitchen.draft().apply(next, u"Yield"_s);
    CHECK(kitchen.usable().cells[3] == u"700"_s);
    kitchen.window.bench().trail().setFocus();
    kitchen.window.bench().trail().choose(kitchen.window.bench().history().revisions().front().id);
    kitchen.trigger(Act::OpenRevision);
    CHECK(kitchen.usable().cells[3] == u"813"_s);
    kitchen.bars().setFocus();
    press(Qt::Key_Return, Qt::ControlModifier);
    CHECK(kitchen.draft().spec() == next);
    kitchen.trigger(Act::BackToDraft);
    CHECK(kitchen.usable().cells[3] == u"700"_s);
}

TEST_CASE("Bars share one scale and losses stand at their end", "[ui][preparation]") {
    StepBarsValues values;
    values.bars = {{u"in the pan"_s, 1012, 0, u"1012 g"_s, {}, false, false},
                   {u"heated"_s, 988, 24, u"988 g"_s, u"−24 g steam"_s, true, true}};
    const auto look = Look::of(Mode::Light);
    const auto geometry = stepBarsGeometry(values, QSizeF(560, 80), look);
    REQUIRE(geometry.bars.size() == 2);
    CHECK(geometry.bars[0].bar.width() / 1012 == Approx(geometry.bars[1].bar.width() / 988));
    CHECK(geometry.bars[1].lost.left() == Approx(geometry.bars[1].bar.right()));
    CHECK(geometry.bars[1].lost.right() == Approx(geometry.bars[0].bar.right()));
    CHECK(geometry.bars[0].bar.left() > geometry.nameRight);
    CHECK(geometry.bars[1].textX < 560);
}

TEST_CASE("The keeping ruler counts the making day and marks today", "[ui][preparation]") {
    KeepingValues values;
    values.lastDay = 14;
    values.today = 3;
    values.drawn = true;
    const auto look = Look::of(Mode::Light);
    const auto geometry = keepingGeometry(values, QSizeF(532, 80), look);
    CHECK(geometry.gone.width() == Approx(geometry.ruler.width() * 3 / 14));
    CHECK(geometry.ticks.size() == 15);
    CHECK(geometry.weeks.size() == 3);
    values.today = 20; // past its day: nothing is drawn outside the ruler
    CHECK(keepingGeometry(values, QSizeF(532, 80), look).gone.right() <= geometry.ruler.right() + 1e-9);
    values.lastDay = 1000;
    CHECK(keepingGeometry(values, QSizeF(532, 80), look).ticks.empty());
}

TEST_CASE("A batch by the output wanted goes into the draft as one step of undo", "[ui][preparation]") {
    Kitchen kitchen;
    auto& draft = kitchen.draft();
    const auto plain = draft.spec();
    auto& dialog = openBatch(kitchen);
    dialog.outputMl().setFocus();
    dialog.outputMl().selectAll();
    type(u"1626"_s); // 813 ml a batch
    CHECK(dialog.factor() == Approx(2).epsilon(0.002));
    CHECK(dialog.comesTo().contains(u"1626"_s));
    dialog.have().setFocus();
    type(u"250"_s); // g of sugar there are
    CHECK(dialog.factor() == Approx(0.5));
    CHECK(dialog.outputMl().value().value_or(0) == Approx(406.5).margin(1));
    dialog.times().setFocus();
    dialog.times().selectAll();
    type(u"0"_s);
    CHECK_FALSE(dialog.take().isEnabled());
    CHECK_FALSE(dialog.note().isEmpty());
    dialog.times().selectAll();
    type(u"3"_s);
    CHECK(dialog.lines().item(0, 0)->text() == u"1500 g"_s);
    QTest::mouseClick(&dialog.take(), Qt::LeftButton);
    waitBatchClosed(kitchen);
    CHECK(draft.spec().lines[0].poured.amount.low == quantity::Rational(1500));
    draft.undoStack().undo();
    CHECK(draft.spec() == plain);
}

TEST_CASE("A scale too coarse for a small batch is said and the smallest is found", "[ui][preparation]") {
    Kitchen kitchen;
    auto& dialog = openBatch(kitchen);
    dialog.times().setFocus();
    dialog.times().selectAll();
    type(u"0.001"_s); // half a gram of sugar on a scale of 0.1 g
    CHECK(dialog.note().contains(u"2 %"_s));
    QTest::mouseClick(&dialog.smallest(), Qt::LeftButton);
    CHECK(dialog.factor() == Approx(2.5 / 500));
    CHECK(dialog.note().isEmpty());
    press(Qt::Key_Escape);
    waitBatchClosed(kitchen);
}

TEST_CASE("A batch noted as made stands on the ruler and the label and in the book", "[ui][preparation]") {
    Kitchen kitchen;
    kitchen.keep(u"first"_s);
    auto& dialog = openBatch(kitchen);
    dialog.madeOn().setFocus();
    dialog.madeOn().selectAll();
    type(u"soon"_s);
    CHECK_FALSE(dialog.keep().isEnabled());
    dialog.madeOn().selectAll();
    type(u"2026-11-22"_s);
    dialog.gotMl().setFocus();
    type(u"790"_s);
    REQUIRE(dialog.keep().isEnabled());
    QTest::mouseClick(&dialog.keep(), Qt::LeftButton);
    waitBatchClosed(kitchen);
    auto& book = *kitchen.window.desk().book();
    const auto& record = kitchen.panel().record();
    REQUIRE(record.lot);
    CHECK(record.lot->on == "2026-11-22");
    CHECK(record.lot->gotMl == 790.0);
    CHECK(record.lot->madeFrom == kitchen.draft().base()->id);
    CHECK(book.larder().find(*record.ingredient)->lotInUse == record.lot->id);
    CHECK(book.book().larder().lots(*record.ingredient).size() == 1);
    CHECK_FALSE(kitchen.panel().keeping().values().assumed);
    REQUIRE_FALSE(kitchen.panel().label().values().days.empty());
    CHECK(kitchen.panel().label().values().days[0].second.startsWith(u"22"_s));
}

TEST_CASE("A line is sent in before another step by keys and taken back", "[ui][preparation]") {
    Kitchen kitchen;
    auto& draft = kitchen.draft();
    auto& entry = kitchen.pane().entry();
    CHECK_FALSE(entry.isVisible()); // nothing to go in before
    kitchen.bars().setFocus();
    press(Qt::Key_Return, Qt::ControlModifier);
    press(Qt::Key_Escape);
    press(Qt::Key_Return, Qt::ControlModifier);
    press(Qt::Key_Escape);
    REQUIRE(draft.spec().steps.size() == 2);
    kitchen.table().setFocus();
    kitchen.table().setCurrentIndex(kitchen.table().model()->index(1, SpecModel::Amount));
    REQUIRE(entry.isVisible());
    CHECK(entry.words() == u"water goes in before 1, dissolved"_s);
    const auto plain = draft.spec();
    press(Qt::Key_G, Qt::AltModifier);
    REQUIRE(entry.place().hasFocus());
    press(Qt::Key_Down);
    CHECK(draft.spec().lines[1].beforeStep == 1);
    CHECK(entry.words() == u"water goes in before 2, strained"_s);
    CHECK(kitchen.bars().values().bars[0].grams == Approx(500)); // sugar alone in the pan now
    press(Qt::Key_Down);
    CHECK(draft.spec().lines[1].beforeStep == 2);
    CHECK(entry.words() == u"water goes in after all of them"_s);
    press(Qt::Key_Z, Qt::ControlModifier);
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(draft.spec() == plain);
}

TEST_CASE("A ratio says its basis and the other one is a key away", "[ui][preparation]") {
    Kitchen kitchen;
    auto& ratio = kitchen.panel().ratio();
    REQUIRE(ratio.isVisible());
    CHECK(ratio.sentence().startsWith(u"1:1 by weight: 49.9 °Bx. By cup it would be 4"_s));
    CHECK(ratio.sentence().contains(u"less sugar in the same pour"_s));
    CHECK(kitchen.panel().label().values().about.contains(u"1:1 by weight"_s));
    const auto plain = kitchen.draft().spec();
    ratio.basis().setFocus();
    press(Qt::Key_Right);
    CHECK(kitchen.draft().spec().lines[0].poured.measure == quantity::Measure::Ml);
    CHECK(ratio.sentence().startsWith(u"1:1 by cup: 4"_s));
    CHECK(kitchen.usable().cells[1].toDouble() < 47);
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(kitchen.draft().spec() == plain);
    CHECK(ratio.sentence().startsWith(u"1:1 by weight"_s));
    // In parts nobody said of what: both are shown, and one is chosen.
    kitchen.trigger(Act::NewPreparation);
    type(u"Rich syrup"_s);
    press(Qt::Key_Return);
    press(Qt::Key_Return);
    kitchen.write({u"2 parts white sugar"_s, u"1 part water"_s});
    press(Qt::Key_Escape);
    REQUIRE(ratio.isVisible());
    CHECK(ratio.sentence().startsWith(
        u"2:1 in parts, and nobody said of what: by weight 66.5 °Bx, by cup 62."_s));
    ratio.basis().setFocus();
    press(Qt::Key_Right);
    CHECK(ratio.sentence().startsWith(u"2:1 by weight: 66.5 °Bx"_s));
    CHECK(kitchen.draft().spec().lines[0].poured.amount.low == quantity::Rational(200));
}

TEST_CASE("One unknown line leaves the grid with at least so much", "[ui][preparation]") {
    Kitchen kitchen;
    kitchen.table().editLastRow();
    kitchen.write({u"100 ml harbour moss tincture"_s}); // in nobody's larder
    press(Qt::Key_Escape);
    CHECK(kitchen.usable().cells[6] == u"?"_s); // nothing priced at all
    kitchen.table().setFocus();
    const QString sugar = kitchen.usable().cells[0];
    CHECK((sugar.startsWith(kAtLeast) || sugar == u"?"_s));
    CHECK(kitchen.window.bench().trail().isVisible());
    // Sugar is nobody's secret in a liqueur whose label says its strength alone.
    auto& book = *kitchen.window.desk().book();
    larder::Ingredient bottle;
    bottle.id = base::IngredientId::random();
    bottle.sort = larder::IngredientSort::Bottle;
    bottle.name = "harbour moss tincture";
    bottle.facts.abvPercent = larder::Fact::single(30, larder::SourceKind::Label, "label");
    bottle.facts.acidGPerL = larder::Fact::single(0, larder::SourceKind::Assumed, "assumed");
    book.saveIngredient(bottle);
    auto spec = kitchen.draft().spec();
    spec.lines.back().ingredient = bottle.id;
    REQUIRE(kitchen.draft().apply(spec, u"named"_s));
    CHECK(kitchen.usable().cells[0].startsWith(kAtLeast));
    CHECK(kitchen.usable().cells[1].startsWith(kAtLeast));
}

TEST_CASE("A preparation's revisions are p1 and p2 and a drink's r1", "[ui][preparation]") {
    Kitchen kitchen;
    kitchen.keep(u"first pot"_s);
    REQUIRE_FALSE(kitchen.window.bench().trail().values().marks.empty());
    CHECK(kitchen.window.bench().trail().values().marks[0].number == u"p1"_s);
    kitchen.newDrink(u"Ox Skerry"_s);
    kitchen.write({u"45 ml London dry gin"_s});
    press(Qt::Key_Escape);
    kitchen.keep(u"first pour"_s);
    CHECK(kitchen.window.bench().trail().values().marks[0].number == u"r1"_s);
}

TEST_CASE("A mixture made of a lot past its day is dated by it and says so", "[ui][preparation]") {
    Desktop desktop;
    const auto prepare = [&](const QString& name, const QStringList& lines) {
        desktop.trigger(Act::NewPreparation);
        type(name);
        press(Qt::Key_Return);
        press(Qt::Key_Return);
        desktop.write(lines);
        press(Qt::Key_Escape);
    };
    const auto openDialog = [&]() -> BatchDialog& {
        press(Qt::Key_M, Qt::ControlModifier);
        auto* dialog = desktop.window.findChild<BatchDialog*>();
        REQUIRE(dialog != nullptr);
        QApplication::setActiveWindow(dialog);
        return *dialog;
    };
    const auto madeOn = [](BatchDialog& dialog, const QString& day) {
        dialog.madeOn().setFocus();
        dialog.madeOn().selectAll();
        type(day);
    };
    prepare(u"Ember syrup"_s, {u"300 ml pumpkin puree"_s, u"500 g white sugar"_s, u"400 g water"_s});
    desktop.keep(u"first"_s);
    auto& first = openDialog();
    madeOn(first, u"2026-11-22"_s);
    QTest::mouseClick(&first.keep(), Qt::LeftButton);
    REQUIRE(QTest::qWaitFor([&] { return desktop.window.findChild<BatchDialog*>() == nullptr; }));
    QApplication::setActiveWindow(&desktop.window);
    // As a lot that came in with a book: nobody wrote a date on it.
    auto& book = *desktop.window.desk().book();
    auto lot = *desktop.window.bench().preparation().record().lot;
    lot.useBy.clear();
    book.saveLot(lot, true);

    prepare(u"Hearth cream"_s, {u"150 ml Ember syrup"_s, u"60 ml gold rum"_s});
    auto& second = openDialog();
    madeOn(second, u"2026-11-25"_s);
    CHECK(second.useBy().contains(u"24 Nov"_s));
    CHECK(second.note().contains(u"Ember syrup is past its day"_s));
    madeOn(second, u"2026-11-24"_s);
    CHECK(second.useBy().contains(u"24 Nov"_s));
    CHECK_FALSE(second.note().contains(u"past its day"_s));
    press(Qt::Key_Escape);

    const auto& draft = *desktop.window.desk().draft();
    const auto parts =
        preparation::partDates(draft.spec(), draft.bindings(), book.larder(), preparationSpecs(book));
    REQUIRE(parts.size() == 1);
    const auto late = keepingValuesOf(draft.now(), {{}, {}, parts, "2026-11-25"});
    CHECK_FALSE(late.drawn);
    CHECK(late.warning.contains(u"use by 24 Nov"_s));
    const auto inTime = keepingValuesOf(draft.now(), {{}, {}, parts, "2026-11-23"});
    CHECK(inTime.warning.isEmpty());
    CHECK(inTime.useBy == u"use by 24 Nov"_s);
    CHECK(inTime.words.contains(u"Ember syrup in it ends"_s));
    const auto label = labelValuesOf(draft.now(), draft.bindings(), {{}, {}, parts, "2026-11-25"});
    CHECK(label.cautions.join(u' ').contains(u"past its day"_s));
    const auto dated = labelValuesOf(draft.now(), draft.bindings(), {"2026-11-23", {}, parts, "2026-11-25"});
    REQUIRE(dated.days.size() == 2);
    CHECK(dated.days[1].second == u"24 Nov"_s);
}
