#include "tests/support/catch.h"
#include "tests/ui/desktop.h"
#include "ui/panels/side_by_side/side_by_side_page.h"
#include "ui/panels/tasting/tasting_page.h"

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

const QStringList kSix{QStringLiteral("45 ml London dry gin"),    QStringLiteral("15 ml gentian liqueur"),
                       QStringLiteral("22.5 ml lemon juice"),     QStringLiteral("20 ml simple syrup"),
                       QStringLiteral("2 dashes orange bitters"), QStringLiteral("1 barspoon absinthe")};

} // namespace

TEST_CASE("A spec goes in by keyboard and is kept tasted compared and found again", "[ui][path]") {
    Desktop desktop;
    desktop.newDrink(QStringLiteral("Ox Skerry"));
    for (const auto& line : kSix) {
        type(line);
        press(Qt::Key_Return);
    }
    auto& draft = desktop.draft();
    REQUIRE(draft.spec().lines.size() == 6);
    CHECK(draft.now().words.name == "Ox Skerry");
    CHECK(draft.now().words.brief == "Smoke first, then honey.");
    CHECK(draft.evaluations() == 1 + 6); // the empty page, then one per line

    // An amount changes and the grid follows with every key.
    const auto before = desktop.served(spec::Quantity::Volume);
    desktop.table().editCell(0, SpecModel::Amount);
    const int evaluations = draft.evaluations();
    type(QStringLiteral("50 ml")); // "5", "50"; the rest says the same
    CHECK(draft.spec().lines[0].poured == ml(50));
    CHECK(draft.evaluations() == evaluations + 2);
    const auto after = desktop.served(spec::Quantity::Volume);
    CHECK(after != before);
    press(Qt::Key_Return);
    CHECK(draft.evaluations() == evaluations + 2); // leaving the cell is no edit
    CHECK(desktop.table().currentIndex().row() == 1);

    // Undo with the next cell's editor open.
    REQUIRE(desktop.table().openEditor() != nullptr);
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(draft.spec().lines[0].poured == ml(45));
    CHECK(desktop.served(spec::Quantity::Volume) == before);
    press(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
    CHECK(draft.spec().lines[0].poured == ml(50));
    press(Qt::Key_Escape);

    desktop.keep(QStringLiteral("the idea, nothing more"));
    REQUIRE(draft.base());
    CHECK(draft.base()->reason == "the idea, nothing more");

    // Taste what was kept.
    press(Qt::Key_T, Qt::ControlModifier);
    auto* tasting = desktop.window.findChild<TastingPage*>();
    REQUIRE(tasting != nullptr);
    type(QStringLiteral("Mara Kell"));
    press(Qt::Key_Return);
    for (const auto& score :
         {QStringLiteral("8"), QStringLiteral("12"), QStringLiteral("0"), QStringLiteral("15"),
          QStringLiteral("7"), QStringLiteral("6"), QStringLiteral("11")}) {
        type(score);
        press(Qt::Key_Return);
    }
    type(QStringLiteral("Sharp at the back."));
    press(Qt::Key_Tab);
    type(QStringLiteral("c")); // change it, and on to what to try
    type(QStringLiteral("lemon 20"));
    press(Qt::Key_Return, Qt::ControlModifier);
    const auto tastings = desktop.window.desk().book()->book().tastings(draft.base()->id);
    REQUIRE(tastings.size() == 1);
    CHECK(tastings[0].note == "Sharp at the back.");
    CHECK(tastings[0].scores.first() == std::array<std::optional<int>, 5>{8, 12, 0, 15, 7});
    CHECK(tastings[0].verdict == tasting::Verdict::Change);
    CHECK(tastings[0].tryNext == "lemon 20");
    const auto people = desktop.window.desk().book()->book().people();
    REQUIRE(people.size() == 1);
    CHECK(people[0].initials == "MK");
    CHECK(desktop.window.page() == nullptr);

    // One thing changes; the two stand side by side.
    desktop.table().editCell(2, SpecModel::Amount);
    type(QStringLiteral("20"));
    press(Qt::Key_Return);
    press(Qt::Key_Escape);
    CHECK(draft.spec().lines[2].poured == ml(20)); // a bare number keeps its measure
    CHECK(draft.now().difference.isEmpty() == false);
    press(Qt::Key_D, Qt::ControlModifier);
    CHECK(qobject_cast<SideBySidePage*>(desktop.window.page()) != nullptr);
    press(Qt::Key_Escape);
    CHECK(desktop.window.page() == nullptr);

    // Closed and opened again: the same.
    const auto spec = draft.spec();
    const auto readings = draft.now().readings;
    desktop.trigger(Act::CloseBook);
    CHECK(desktop.window.desk().draft() == nullptr);
    REQUIRE(desktop.window.desk().openBook(desktop.path()));
    REQUIRE(desktop.window.desk().draft() != nullptr);
    CHECK(desktop.draft().spec() == spec);
    CHECK(desktop.draft().now().readings == readings);
    CHECK(desktop.draft().base()->reason == "the idea, nothing more");
}

TEST_CASE("A cell left as it was is no edit and Esc takes typing back", "[ui][path]") {
    Desktop desktop;
    desktop.newDrink(QStringLiteral("Quill Point"));
    type(QStringLiteral("45 ml tequila blanco"));
    press(Qt::Key_Return);
    press(Qt::Key_Escape);
    auto& draft = desktop.draft();
    const int evaluations = draft.evaluations();
    const int steps = draft.undoStack().count();
    desktop.table().editCell(0, SpecModel::Amount);
    press(Qt::Key_Return);
    press(Qt::Key_Escape);
    CHECK(draft.evaluations() == evaluations);
    CHECK(draft.undoStack().count() == steps);
    desktop.table().editCell(0, SpecModel::Amount);
    type(QStringLiteral("60"));
    CHECK(draft.spec().lines[0].poured == ml(60));
    press(Qt::Key_Escape);
    CHECK(draft.spec().lines[0].poured == ml(45));
    CHECK(draft.undoStack().count() == steps);
}

TEST_CASE("Text that is no amount is marked and changes nothing", "[ui][path]") {
    Desktop desktop;
    desktop.newDrink(QStringLiteral("Quill Point"));
    type(QStringLiteral("45 ml tequila blanco"));
    press(Qt::Key_Return);
    desktop.table().editCell(0, SpecModel::Amount);
    type(QStringLiteral("plenty"));
    auto* editor = desktop.table().openEditor();
    REQUIRE(editor != nullptr);
    CHECK(editor->isUnreadable());
    press(Qt::Key_Return);
    CHECK(desktop.table().openEditor() == editor); // it stays until it says something
    CHECK(desktop.draft().spec().lines[0].poured == ml(45));
}

TEST_CASE("A word in an amount counts only when the cell is left", "[ui][path]") {
    Desktop desktop;
    desktop.newDrink(QStringLiteral("Quill Point"));
    type(QStringLiteral("45 ml tequila blanco"));
    press(Qt::Key_Return);
    auto& draft = desktop.draft();
    const int evaluations = draft.evaluations();
    desktop.table().editCell(0, SpecModel::Amount);
    type(QStringLiteral("abc"));
    CHECK(draft.spec().lines[0].poured == ml(45));
    press(Qt::Key_Return);
    CHECK(draft.spec().lines[0].poured == ml(45));
    CHECK(draft.evaluations() == evaluations);
    press(Qt::Key_Escape);
    desktop.table().editCell(0, SpecModel::Amount);
    type(QStringLiteral("half"));
    CHECK(draft.spec().lines[0].poured == ml(45));
    press(Qt::Key_Tab);
    CHECK(draft.spec().lines[0].poured == ml(1, 2));
}

TEST_CASE("Lines are inserted moved split and deleted by key", "[ui][path]") {
    Desktop desktop;
    desktop.newDrink(QStringLiteral("Ox Skerry"));
    for (const auto& line : {QStringLiteral("45 ml London dry gin"), QStringLiteral("20 ml lemon juice")}) {
        type(line);
        press(Qt::Key_Return);
    }
    press(Qt::Key_Escape);
    auto& draft = desktop.draft();
    desktop.table().editCell(1, SpecModel::Amount);
    press(Qt::Key_Return, Qt::ControlModifier);
    type(QStringLiteral("15 ml gentian liqueur"));
    press(Qt::Key_Return);
    REQUIRE(draft.spec().lines.size() == 3);
    CHECK(draft.spec().lines[1].name == "gentian liqueur");
    desktop.table().editCell(1, SpecModel::Amount);
    press(Qt::Key_Up, Qt::AltModifier);
    CHECK(draft.spec().lines[0].name == "gentian liqueur");
    CHECK(desktop.table().currentLine() == 0);
    desktop.trigger(Act::SplitLine);
    REQUIRE(draft.spec().lines.size() == 4);
    CHECK(draft.spec().lines[0].poured == ml(15, 2));
    desktop.trigger(Act::DeleteLine);
    CHECK(draft.spec().lines.size() == 3);
    while (draft.undoStack().canUndo())
        draft.undoStack().undo();
    CHECK(draft.spec().lines.empty());
    while (draft.undoStack().canRedo())
        draft.undoStack().redo();
    CHECK(draft.spec().lines.size() == 3);
}

TEST_CASE("Up and down in an amount step on the jigger", "[ui][path]") {
    Desktop desktop;
    desktop.newDrink(QStringLiteral("Ox Skerry"));
    type(QStringLiteral("20 ml lemon juice"));
    press(Qt::Key_Return);
    desktop.table().editCell(0, SpecModel::Amount);
    press(Qt::Key_Up);
    CHECK(desktop.draft().spec().lines[0].poured == ml(45, 2));
    press(Qt::Key_Down);
    press(Qt::Key_Down);
    CHECK(desktop.draft().spec().lines[0].poured == ml(35, 2));
}

TEST_CASE("Under a decimal comma a typed point is still a point", "[ui][path]") {
    const QLocale before;
    QLocale::setDefault(QLocale(QLocale::German, QLocale::Germany));
    {
        Desktop desktop;
        desktop.newDrink(QStringLiteral("Ox Skerry"));
        type(QStringLiteral("20 ml lemon juice"));
        press(Qt::Key_Return);
        desktop.table().editCell(0, SpecModel::Amount);
        type(QStringLiteral("2.5"));
        CHECK(desktop.draft().spec().lines[0].poured == ml(5, 2)); // 25 would be a ten-fold dose
        press(Qt::Key_Escape);
        desktop.table().editCell(0, SpecModel::Amount);
        type(QStringLiteral("0,75"));
        CHECK(desktop.draft().spec().lines[0].poured == ml(3, 4));
        press(Qt::Key_Return);
        desktop.table().editCell(0, SpecModel::Amount);
        CHECK(desktop.table().openEditor()->text() == QStringLiteral("0,75 ml"));
        press(Qt::Key_Return);
        CHECK(desktop.draft().spec().lines[0].poured == ml(3, 4));
    }
    QLocale::setDefault(before);
}

TEST_CASE("A line that can be read two ways asks before it enters", "[ui][path]") {
    Desktop desktop;
    desktop.newDrink(QStringLiteral("Grey Tolland"));
    type(QStringLiteral("6/8 mint leaves"));
    press(Qt::Key_Return);
    CHECK(desktop.draft().spec().lines.empty());
    press(Qt::Key_1);
    REQUIRE(desktop.draft().spec().lines.size() == 1);
    CHECK(desktop.draft().spec().lines[0].poured.amount.isStated());
}
