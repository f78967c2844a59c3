#include "core/spec/edit.h"
#include "tests/support/catch.h"
#include "tests/ui/support.h"
#include "ui/models/readings_model.h"
#include "ui/models/shelf_model.h"
#include "ui/models/spec_model.h"

#include <QAbstractItemModelTester>
#include <QSignalSpy>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

constexpr auto kFatal = QAbstractItemModelTester::FailureReportingMode::Fatal;

} // namespace

TEST_CASE("The sheet's model keeps its word through every edit", "[ui][models]") {
    TempBook book;
    auto& session = book.drink("Ox Skerry", sourLines());
    SpecModel model;
    const QAbstractItemModelTester tester(&model, kFatal);
    model.setSession(&session);
    CHECK(model.rowCount() == 4); // three lines and the one to come
    CHECK(model.isOpenRow(3));
    CHECK(model.write(3, QStringLiteral("2 dashes orange bitters")).outcome == SpecModel::Written::Added);
    CHECK(model.rowCount() == 5);
    CHECK(model.openRowAbove(1) == 1);
    CHECK(model.rowCount() == 6);
    CHECK(model.lineAt(2) == 1);
    CHECK(model.write(1, QStringLiteral("20 ml simple syrup")).outcome == SpecModel::Written::Added);
    CHECK(session.spec().lines[1].name == "simple syrup");
    model.moveLine(0, 1);
    model.splitLine(2);
    model.removeLine(0);
    model.setRole(0, spec::Role::Floated);
    model.toggleOptional(1);
    while (session.undoStack().canUndo())
        session.undoStack().undo();
    while (session.undoStack().canRedo())
        session.undoStack().redo();
    CHECK(model.rowCount() == static_cast<int>(session.spec().lines.size()) + 1);
    model.setSession(nullptr);
    CHECK(model.rowCount() == 0);
}

TEST_CASE("An amount that changes announces its own row and never resets", "[ui][models]") {
    TempBook book;
    auto& session = book.drink("Ox Skerry", sourLines());
    SpecModel model;
    model.setSession(&session);
    QSignalSpy changed(&model, &QAbstractItemModel::dataChanged);
    QSignalSpy reset(&model, &QAbstractItemModel::modelReset);
    model.typeAmount(1, QStringLiteral("20"), session.newMergeKey());
    CHECK(reset.isEmpty());
    REQUIRE_FALSE(changed.isEmpty());
    for (const auto& signal : changed)
        CHECK(signal.at(0).toModelIndex().row() == 1);
    changed.clear();
    model.typeAmount(1, QStringLiteral("20 ml"), session.newMergeKey()); // the same amount
    CHECK(changed.isEmpty());
}

TEST_CASE("The margin says what a line was in the revision below", "[ui][models]") {
    TempBook book;
    auto& session = book.drink("Ox Skerry", sourLines());
    REQUIRE(session.keep(QStringLiteral("first")));
    SpecModel model;
    model.setSession(&session);
    session.apply(spec::withAmount(session.spec(), 2, ml(20)), QStringLiteral("lemon"));
    CHECK(model.sheetRow(2)->margin.struck == QStringLiteral("22.5"));
    CHECK(model.sheetRow(2)->margin.difference == QStringLiteral("\u22122.5"));
    CHECK(model.sheetRow(2)->margin.direction == -1);
    CHECK(model.sheetRow(0)->margin.isEmpty());
    session.apply(spec::withoutLine(session.spec(), 1), QStringLiteral("gentian"));
    CHECK(model.total().takenOut.contains(QStringLiteral("gentian liqueur")));
}

TEST_CASE("The readings keep their rows and mark changed digits", "[ui][models]") {
    TempBook book;
    auto& session = book.drink("Ox Skerry", sourLines());
    session.keep(QStringLiteral("first"));
    ReadingsModel model;
    const QAbstractItemModelTester tester(&model, kFatal);
    model.setSession(&session);
    QSignalSpy reset(&model, &QAbstractItemModel::modelReset);
    const int rows = model.rowCount();
    session.apply(spec::withAmount(session.spec(), 0, ml(60)), QStringLiteral("gin"));
    CHECK(model.rowCount() == rows);
    CHECK(reset.isEmpty());
    CHECK(model.row(0).quantity == spec::Quantity::Volume);
    CHECK(model.row(0).changedFrom >= 0);
    CHECK(model.row(0).direction == 1);
    CHECK(model.index(0, ReadingsModel::Since).data().toString().startsWith(QLatin1Char('+')));
}

TEST_CASE("A fact nobody knows is shown as a gap and never as nought", "[ui][models]") {
    TempBook book;
    auto& session = book.drink("Ox Skerry", {"45 ml London dry gin", "20 ml tincture of nobody knows"});
    SpecModel model;
    model.setSession(&session);
    CHECK(model.sheetRow(1)->alcohol.number == QStringLiteral("?"));
    CHECK(model.sheetRow(1)->sugar.number == QStringLiteral("?"));
    CHECK(model.sheetRow(1)->gap);
    CHECK(model.total().alcohol.gap);
}

TEST_CASE("The shelf filters by words and keeps its headings", "[ui][models]") {
    TempBook book;
    for (const auto* name : {"Ox Skerry", "Quill Point", "Crème Ledge"})
        book.drink(name, {"45 ml London dry gin"});
    ShelfModel model;
    const QAbstractItemModelTester tester(&model, kFatal);
    model.setBook(book.desk.book());
    CHECK(model.rowCount() == 4); // three and their heading
    CHECK(model.row(0).sort == ShelfModel::Sort::Heading);
    model.setFilter(QStringLiteral("creme"));
    REQUIRE(model.rowCount() == 2);
    CHECK(model.row(1).name == QStringLiteral("Crème Ledge"));
    model.setFilter(QStringLiteral("nobody"));
    CHECK(model.rowCount() == 0);
    model.setFilter({});
    CHECK(model.rowCount() == 4);
    const auto id = book.desk.draft()->drink().id;
    REQUIRE(model.rowOf(id) > 0);
    CHECK(model.row(model.rowOf(id)).draftDiffers);
    book.desk.draft()->keep(QStringLiteral("first"));
    CHECK_FALSE(model.row(model.rowOf(id)).draftDiffers);
    CHECK(model.row(model.rowOf(id)).kept);
}
