#include "core/spec/held_readings.h"
#include "tests/support/catch.h"
#include "tests/ui/support.h"
#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/gauges_panel.h"
#include "ui/panels/held_pane.h"
#include "ui/panels/more_pane.h"
#include "ui/panels/sheet_panel.h"
#include "ui/panels/spec_fields.h"
#include "ui/panels/working_pane.h"
#include "ui/plots/glass_drawing.h"
#include "ui/plots/held_curve.h"
#include "ui/widgets/more_table.h"
#include "ui/widgets/number_edit.h"
#include "ui/widgets/readings_table.h"
#include "ui/widgets/spec_table.h"

#include <QClipboard>
#include <QPushButton>
#include <QTableWidget>
#include <QTemporaryDir>
#include <QTextBrowser>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

// A stirred drink on the bench, with the hand on its readings.
struct StirredDrink {
    StirredDrink() {
        REQUIRE(window.desk().createBook(dir.filePath(QStringLiteral("book.stillroom")), {}));
        window.show();
        QApplication::setActiveWindow(&window);
        REQUIRE(QTest::qWaitFor([this] { return window.isActiveWindow(); }));
        auto* book = window.desk().book();
        spec::Spec spec;
        for (const char* text : {"50 ml London dry gin", "25 ml sweet vermouth", "10 ml lime juice"})
            for (const auto& line :
                 readEntry(QString::fromUtf8(text), book->readOptions(), book->larder()).lines)
                spec.lines.push_back(line);
        spec.method.technique = spec::Technique::Stir;
        REQUIRE(window.desk().newDrink(history::DrinkForm::Drink, QStringLiteral("Ox Skerry"), spec));
        grid().setFocus();
    }
    GaugesPanel& gauges() { return window.bench().gauges(); }
    ReadingsTable& grid() { return gauges().table(); }
    WorkingPane& working() { return gauges().working(); }
    HeldPane& held() { return gauges().held(); }
    MorePane& more() { return gauges().more(); }
    MoreTable& moreTable() { return more().table(); }
    DraftSession& draft() { return *window.desk().draft(); }
    QString cell() { return grid().currentIndex().data().toString(); }
    QString clipboard() { return QApplication::clipboard()->text(); }

    QTemporaryDir dir;
    MainWindow window;
};

} // namespace

TEST_CASE("Space opens the working of the reading under the hand and Esc leads back", "[ui][working]") {
    StirredDrink bench;
    CHECK(bench.grid().currentIndex().column() == ReadingsModel::Served);
    CHECK(bench.grid().readings().row(bench.grid().readingRow()).quantity == spec::Quantity::Strength);
    const QString served = bench.cell();
    REQUIRE(served.toDouble() > 10);
    press(Qt::Key_Space);
    REQUIRE(bench.working().isVisible());
    CHECK_FALSE(bench.gauges().glass().isVisible());
    CHECK(bench.working().text().hasFocus());
    CHECK(bench.working().text().accessibleName().contains(served));

    // Every line is named with its source, and the last number is the grid's.
    const QString text = bench.working().text().toPlainText();
    for (const char* name : {"London dry gin", "Vermouth, sweet red", "OIML R 22"})
        CHECK(text.contains(QString::fromUtf8(name), Qt::CaseInsensitive));
    const auto working = spec::working(bench.draft().spec(), bench.draft().bindings(),
                                       spec::Quantity::Strength, spec::Stage::Served);
    REQUIRE_FALSE(working.steps.empty());
    CHECK(number(working.steps.back().result, 1) == served);
    CHECK(text.contains(number(working.steps.back().result, working.steps.back().decimals)));

    press(Qt::Key_C, Qt::ControlModifier);
    CHECK(bench.clipboard() == bench.working().plain());
    CHECK(bench.clipboard().contains(served));
    CHECK(bench.clipboard().contains(QString::fromStdString(spec::workingText(working))));

    press(Qt::Key_Escape);
    CHECK_FALSE(bench.working().isVisible());
    CHECK(bench.gauges().glass().isVisible());
    CHECK(bench.grid().hasFocus());
}

TEST_CASE("The working follows the grid's cell and every edit", "[ui][working]") {
    StirredDrink bench;
    press(Qt::Key_Space);
    bench.grid().setFocus();
    press(Qt::Key_Left); // mixed
    CHECK(bench.grid().readingStage() == spec::Stage::Mixed);
    press(Qt::Key_Up); // volume
    CHECK(bench.working().text().accessibleName().startsWith(QStringLiteral("Working of Volume, mixed")));
    CHECK(bench.working().text().accessibleName().contains(bench.cell()));
    const QString before = bench.working().text().toPlainText();
    auto spec = bench.draft().spec();
    spec.lines[0].poured = ml(60);
    REQUIRE(bench.draft().apply(spec, QStringLiteral("amount")));
    CHECK(QTest::qWaitFor([&] { return bench.working().text().toPlainText() != before; }));
    CHECK(bench.working().text().accessibleName().contains(bench.cell()));

    press(Qt::Key_C, Qt::ControlModifier); // in the grid: the reading itself
    CHECK(bench.clipboard() == bench.grid().readingText());
    press(Qt::Key_Escape); // from the grid as well
    CHECK_FALSE(bench.working().isVisible());
    CHECK(bench.grid().hasFocus());
}

TEST_CASE("The spread names what moves a reading most and a bound is said in words", "[ui][working]") {
    StirredDrink bench;
    const auto view = workingView(bench.draft().spec(), bench.draft().bindings(), spec::Quantity::Acid,
                                  spec::Stage::Served, QStringLiteral("g/100 ml"));
    REQUIRE(view.spread.applies);
    REQUIRE_FALSE(view.spread.sources.empty());
    const auto sentences = spreadWords(view);
    REQUIRE(sentences.size() >= 2);
    CHECK(sentences[0].contains(number(view.spread.low, 2)));
    CHECK(sentences[0].contains(number(view.spread.high, 2)));
    CHECK(sentences[1].startsWith(QStringLiteral("What moves it most: acid of ")));
    CHECK(sentences[1].contains(QStringLiteral("lime juice"), Qt::CaseInsensitive));
    // The dilution is the curve's, so what that may be off is told as well.
    CHECK(sentences.last().contains(QStringLiteral("predicted")));

    auto open = bench.draft().spec();
    open.lines[2].poured = {};
    REQUIRE(bench.draft().apply(open, QStringLiteral("amount")));
    const auto least = workingView(bench.draft().spec(), bench.draft().bindings(), spec::Quantity::Ethanol,
                                   spec::Stage::Served, QStringLiteral("g"));
    const auto unsure = workingView(bench.draft().spec(), bench.draft().bindings(), spec::Quantity::Volume,
                                    spec::Stage::Served, QStringLiteral("ml"));
    CHECK(boundWords(least).isEmpty()); // lime juice brings no alcohol
    CHECK(unsure.working.reading.bound == spec::Bound::AtLeast);
    CHECK(boundWords(unsure).startsWith(QStringLiteral("At least this")));
}

TEST_CASE("The held curve opens by key and a measured temperature sets it right", "[ui][held]") {
    StirredDrink bench;
    press(Qt::Key_G, Qt::ControlModifier);
    REQUIRE(bench.held().isVisible());
    auto& curve = bench.held().curve();
    CHECK(curve.hasFocus());
    CHECK(bench.held().choice(spec::HeldIn::GlassWithoutIce).isChecked()); // no ice was named
    CHECK(bench.held().basis().startsWith(QStringLiteral("Assumed heat transfer")));
    REQUIRE(curve.values().strips.size() == 3);
    const auto core = spec::heldReadings(bench.draft().spec(), bench.draft().bindings(),
                                         {.in = spec::HeldIn::GlassWithoutIce});
    REQUIRE(core);
    CHECK(curve.values().minutes.back() == 30);
    CHECK(curve.values().strips[2].values.back() == Approx(core->points.back().celsius));
    CHECK(curve.values().strips[0].values.front() == Approx(core->points.front().strengthPercent));

    press(Qt::Key_Right);
    CHECK(curve.minute() == 11);
    press(Qt::Key_End);
    CHECK(curve.minute() == 30);
    press(Qt::Key_C, Qt::ControlModifier);
    CHECK(bench.clipboard() == curve.tableText());

    // With ice it gets weaker; without, it keeps its strength.
    const double plain = curve.values().strips[0].values.back();
    CHECK(plain == Approx(curve.values().strips[0].values.front()).margin(0.01));
    bench.held().choice(spec::HeldIn::GlassWithIce).click();
    CHECK(curve.values().strips[0].values.back() < plain - 0.5);
    CHECK(bench.held().basis().contains(QStringLiteral("100 g assumed")));

    bench.held().choice(spec::HeldIn::GlassWithoutIce).click();
    bench.held().measuredC().setFocus();
    type(QStringLiteral("10"));
    CHECK(bench.held().basis().contains(QStringLiteral("measured")));
    CHECK(heldValueAt(curve.values(), curve.values().strips[2], 10) == Approx(10).margin(0.05));
    type(QStringLiteral("0")); // 100 °C: no room does that
    CHECK(bench.held().basis().contains(QStringLiteral("stands without it")));
    press(Qt::Key_Escape);
    CHECK_FALSE(bench.held().isVisible());
    CHECK(bench.grid().hasFocus());
}

TEST_CASE("Further readings open by key and are walked by reading and not by note", "[ui][more]") {
    StirredDrink bench;
    CHECK(bench.moreTable().further().rowCount() == 0); // nothing is computed while the pane is shut
    press(Qt::Key_G, Qt::ControlModifier | Qt::ShiftModifier);
    REQUIRE(bench.more().isVisible());
    CHECK_FALSE(bench.gauges().glass().isVisible());
    REQUIRE(bench.moreTable().hasFocus());
    auto& model = bench.moreTable().further();
    const auto core = spec::moreReadings(bench.draft().spec(), bench.draft().bindings());
    CHECK(model.row(bench.moreTable().readingRow()).more == spec::More::FreezingOnset);
    CHECK(bench.moreTable().currentIndex().data().toString().contains(
        number(core[spec::Stage::Served][spec::More::FreezingOnset].value, 1)));

    // Every stop is a reading; pH, CO2 and water activity carry what to know before using them.
    QStringList words;
    for (int row = 0; row < model.rowCount(); ++row)
        words << model.row(row).name;
    for (const char* note :
         {"estimate; juices are buffered, measure", "at most: nothing lost in pouring, shaking or blending",
          "no source", "never the ground of a safety decision", "Australia", "United Kingdom"})
        CHECK(words.filter(QString::fromUtf8(note)).size() >= 1);
    int stops = 1;
    for (int row = bench.moreTable().readingRow();; ++stops) {
        press(Qt::Key_Down);
        if (bench.moreTable().readingRow() == row) break;
        row = bench.moreTable().readingRow();
        CHECK(model.row(row).kind == MoreModel::Kind::Reading);
        REQUIRE(stops < 100);
    }
    CHECK(stops > 30);
    press(Qt::Key_Escape);
    CHECK_FALSE(bench.more().isVisible());
    CHECK(bench.gauges().glass().isVisible());
    CHECK(bench.grid().hasFocus());
}

TEST_CASE("A further reading opens its working and Esc leads back to it", "[ui][more][working]") {
    StirredDrink bench;
    press(Qt::Key_G, Qt::ControlModifier | Qt::ShiftModifier);
    auto& model = bench.moreTable().further();
    while (model.row(bench.moreTable().readingRow()).more != spec::More::Ph)
        press(Qt::Key_Down);
    press(Qt::Key_Left); // mixed
    const int row = bench.moreTable().readingRow();
    press(Qt::Key_Space);
    REQUIRE(bench.working().isVisible());
    CHECK_FALSE(bench.more().isVisible());
    const auto working =
        spec::working(bench.draft().spec(), bench.draft().bindings(), spec::More::Ph, spec::Stage::Mixed);
    press(Qt::Key_C, Qt::ControlModifier);
    CHECK(bench.clipboard().contains(QString::fromStdString(spec::workingText(working))));
    CHECK(bench.clipboard().startsWith(QStringLiteral("pH, mixed")));
    CHECK(bench.clipboard().contains(QStringLiteral("juices are buffered, measure")));
    // It follows an edit.
    auto spec = bench.draft().spec();
    spec.lines[2].poured = ml(30);
    REQUIRE(bench.draft().apply(spec, QStringLiteral("amount")));
    CHECK(bench.working().plain() != bench.clipboard());

    press(Qt::Key_Escape);
    REQUIRE(bench.more().isVisible());
    CHECK(bench.moreTable().hasFocus());
    CHECK(bench.moreTable().readingRow() == row);
    press(Qt::Key_Escape);
    CHECK_FALSE(bench.more().isVisible());
    CHECK(bench.grid().hasFocus());

    // From the grid the working is the grid's again.
    press(Qt::Key_Space);
    CHECK(bench.working().text().accessibleName().startsWith(QStringLiteral("Working of Strength")));
}

TEST_CASE("The freezer's temperature is typed and a wrong one explains itself", "[ui][more]") {
    StirredDrink bench;
    press(Qt::Key_G, Qt::ControlModifier | Qt::ShiftModifier);
    auto& model = bench.moreTable().further();
    const auto rowNamed = [&](const QString& start) {
        for (int row = 0; row < model.rowCount(); ++row)
            if (model.row(row).name.startsWith(start)) return row;
        return -1;
    };
    const auto served = static_cast<std::size_t>(spec::Stage::Served);
    REQUIRE(rowNamed(QStringLiteral("At −18")) >= 0);
    CHECK(model.row(rowNamed(QStringLiteral("At −18"))).stages[served].number == QStringLiteral("slush"));
    press(Qt::Key_Tab);
    REQUIRE(bench.more().freezer().hasFocus());
    bench.more().freezer().selectAll();
    type(QStringLiteral("-5"));
    CHECK(bench.more().says().isEmpty());
    REQUIRE(rowNamed(QStringLiteral("At −5")) >= 0);
    CHECK(model.row(rowNamed(QStringLiteral("At −5"))).stages[served].number == QStringLiteral("liquid"));
    bench.more().freezer().selectAll();
    type(QStringLiteral("-80"));
    CHECK(bench.more().says().contains(QStringLiteral("−45 to 0 °C")));
    CHECK(rowNamed(QStringLiteral("At −8")) >= 0); // the last that could be used, typed on the way
}

TEST_CASE("The held table says the curve's own numbers and a cold measurement is taken", "[ui][held]") {
    StirredDrink bench;
    press(Qt::Key_G, Qt::ControlModifier);
    REQUIRE(bench.held().table().isVisible());
    const auto cell = [&](int row, int column) { return bench.held().table().item(row, column)->text(); };
    const auto core = spec::heldReadings(bench.draft().spec(), bench.draft().bindings(),
                                         {.in = spec::HeldIn::GlassWithoutIce});
    REQUIRE(core);
    const int minutes[] = {0, 5, 10, 15, 20, 30};
    for (int row = 0; row < 6; ++row) {
        const auto& at = core->points[static_cast<std::size_t>(minutes[row])];
        CHECK(cell(row, 0) == QString::number(minutes[row]));
        CHECK(cell(row, 1) == number(at.strengthPercent, 1));
        CHECK(cell(row, 3) == number(at.celsius, 1));
        CHECK(cell(row, 4) == number(at.volumeMl, 0));
    }
    const QString before = cell(5, 3);
    bench.held().measuredC().setFocus();
    type(QStringLiteral("-2"));
    CHECK_FALSE(bench.held().measuredC().isUnreadable());
    CHECK(bench.held().basis().contains(QStringLiteral("measured")));
    CHECK(cell(5, 3) != before);
    CHECK(cell(2, 3) == number(-2, 1)); // after 10 minutes, as measured
}

TEST_CASE("The held curve starts from the temperature that was measured when it was tasted", "[ui][held]") {
    StirredDrink bench;
    const auto kept = bench.draft().keep(QStringLiteral("the idea"));
    REQUIRE(kept);
    auto& book = bench.window.desk().book()->book();
    tasting::Tasting tasted;
    tasted.revision = kept->id;
    tasted.taster = book.addPerson("Ines Brandt", "IB");
    tasted.circumstances.glassAgeMinutes = 8;
    tasted.circumstances.measured.temperature = quantity::Temperature::fromCelsius(4.5);
    book.addTasting(tasted);
    press(Qt::Key_G, Qt::ControlModifier);
    REQUIRE(bench.held().isVisible());
    CHECK(bench.held().measuredC().value() == 4.5);
    CHECK(bench.held().measuredMinutes().value() == 8.0);
    CHECK(bench.held().basis().startsWith(
        QStringLiteral("Heat transfer from 4.5 °C after 8 minutes, measured")));
    const auto& values = bench.held().curve().values();
    CHECK(heldValueAt(values, values.strips[2], 8) == Approx(4.5).margin(0.05));
}

TEST_CASE("The water is said to be moved by what this bench measured", "[ui][held]") {
    StirredDrink bench;
    auto spec = bench.draft().spec();
    spec.method.text = "Stir on ice.";
    const auto& readings = bench.draft().now().readings;
    CHECK(dilutionInWords(spec, readings, {})
              .endsWith(QStringLiteral("Predicted; nobody has weighed this one yet.")));
    physics::Calibration measured;
    measured.measurements = 3;
    measured.factor = 1.083;
    CHECK(dilutionInWords(spec, readings, measured)
              .contains(QStringLiteral("Predicted, ×1.08 by 3 measured at this bench")));
}
