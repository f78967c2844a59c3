#include "tests/support/catch.h"
#include "tests/ui/desktop.h"
#include "ui/dialogs/paste_page.h"
#include "ui/models/shelf_model.h"
#include "ui/panels/shelf_panel.h"
#include "ui/panels/spec_fields.h"
#include "ui/panels/trail_panel.h"
#include "ui/widgets/prose_edit.h"

#include <QClipboard>
#include <QListView>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

const QStringList kTwo{QStringLiteral("45 ml London dry gin"), QStringLiteral("20 ml lemon juice")};

void paste(Desktop& desktop, const QString& text) {
    QApplication::clipboard()->setText(text);
    press(Qt::Key_V, Qt::ControlModifier | Qt::ShiftModifier);
    REQUIRE(qobject_cast<PastePage*>(desktop.window.page()) != nullptr);
}

} // namespace

TEST_CASE("A name taken for another ingredient is so for the next line and after reopening", "[ui][jobs]") {
    Desktop desktop;
    desktop.newDrink(QStringLiteral("Ox Skerry"));
    desktop.write({QStringLiteral("45 ml house pour"), QStringLiteral("20 ml lemon juice")});
    press(Qt::Key_Escape);
    auto& draft = desktop.draft();
    REQUIRE(draft.spec().lines.size() == 2);
    const auto before = draft.spec().lines[0].ingredient;
    desktop.table().setCurrentIndex(desktop.table().lines().index(0, SpecModel::Name));
    press(Qt::Key_I, Qt::ControlModifier);
    REQUIRE(desktop.table().openEditor() != nullptr);
    type(QStringLiteral("tequila blan")); // looks for it; it is no new name
    desktop.pressIntoList(Qt::Key_Down);
    desktop.pressIntoList(Qt::Key_Return);
    const auto chosen = draft.spec().lines[0].ingredient;
    REQUIRE(chosen.has_value());
    CHECK(chosen == desktop.window.desk().book()->larder().match("tequila blanco").ingredient);
    CHECK(chosen != before);
    CHECK(draft.spec().lines[0].name == "house pour");

    press(Qt::Key_Escape);
    desktop.table().editLastRow();
    desktop.write({QStringLiteral("10 ml House Pour")});
    REQUIRE(draft.spec().lines.size() == 3);
    CHECK(draft.spec().lines[2].ingredient == chosen);

    desktop.trigger(Act::CloseBook);
    REQUIRE(desktop.window.desk().openBook(desktop.path()));
    paste(desktop, QStringLiteral("Quill Point\n\n30 ml house pour\n15 ml honey\n"));
    press(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE(desktop.draft().spec().lines.size() == 2);
    CHECK(desktop.draft().now().words.name == "Quill Point");
    CHECK(desktop.draft().spec().lines[0].ingredient == chosen);
}

TEST_CASE("Undoing what a name was taken for makes the book forget it", "[ui][jobs]") {
    Desktop desktop;
    desktop.newDrink(QStringLiteral("Ox Skerry"));
    desktop.write({QStringLiteral("45 ml house pour")});
    press(Qt::Key_Escape);
    desktop.table().setCurrentIndex(desktop.table().lines().index(0, SpecModel::Name));
    press(Qt::Key_I, Qt::ControlModifier);
    type(QStringLiteral("tequila blan"));
    desktop.pressIntoList(Qt::Key_Down);
    desktop.pressIntoList(Qt::Key_Return);
    REQUIRE(desktop.draft().spec().lines[0].ingredient.has_value());
    CHECK(desktop.window.desk().book()->larder().remembered().size() == 1);
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK_FALSE(desktop.draft().spec().lines[0].ingredient.has_value());
    CHECK(desktop.window.desk().book()->larder().remembered().empty());
}

TEST_CASE("A pasted spec is asked about by number and enters only when accepted", "[ui][jobs]") {
    Desktop desktop;
    paste(desktop, QStringLiteral("Grey Tolland\n\n45 ml navy rum\n6/8 mint leaves\n20 ml lime juice\n"));
    auto& page = *qobject_cast<PastePage*>(desktop.window.page());
    CHECK(page.openQuestions() == 1);
    press(Qt::Key_Return, Qt::ControlModifier); // a question stands open
    CHECK(desktop.window.page() == &page);
    CHECK(desktop.window.desk().book()->shelf().empty());
    press(Qt::Key_2);
    REQUIRE(QTest::qWaitFor([&] { return page.openQuestions() == 0; }));
    const auto wanted = page.acceptedSpec();
    press(Qt::Key_Return, Qt::ControlModifier);
    CHECK(desktop.window.page() == nullptr);
    REQUIRE(desktop.window.desk().draft() != nullptr);
    CHECK(desktop.draft().now().words.name == "Grey Tolland");
    CHECK(desktop.draft().spec() == wanted);
    CHECK(desktop.draft().spec().lines[1].poured.amount.isStated());

    // Closed with Esc, a paste leaves nothing behind.
    paste(desktop, QStringLiteral("Hollow Bell\n\n45 ml gin\n"));
    press(Qt::Key_Escape);
    CHECK(desktop.window.page() == nullptr);
    CHECK(desktop.window.desk().book()->shelf().size() == 1);
}

TEST_CASE("A spec pasted for a drink of that name is one edit of its draft", "[ui][jobs]") {
    Desktop desktop;
    desktop.newDrink(QStringLiteral("Grey Tolland"));
    desktop.write(kTwo);
    press(Qt::Key_Escape);
    const auto before = desktop.draft().spec();
    paste(desktop, QStringLiteral("Grey Tolland\n\n60 ml navy rum\n20 ml lime juice\n5 ml honey\n"));
    press(Qt::Key_Return, Qt::ControlModifier);
    CHECK(desktop.window.desk().book()->shelf().size() == 1);
    CHECK(desktop.draft().spec().lines.size() == 3);
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(desktop.draft().spec() == before);
}

TEST_CASE("A revision is read as it was and restored as one edit", "[ui][jobs]") {
    Desktop desktop;
    desktop.newDrink(QStringLiteral("Ox Skerry"));
    desktop.write(kTwo);
    press(Qt::Key_Escape);
    auto& draft = desktop.draft();
    desktop.keep(QStringLiteral("the idea"));
    REQUIRE(draft.base());
    const auto first = *draft.base();
    const auto servedThen = desktop.served(spec::Quantity::Volume);
    desktop.table().editCell(0, SpecModel::Amount);
    type(QStringLiteral("60"));
    press(Qt::Key_Return);
    press(Qt::Key_Escape);
    const auto changed = draft.spec();
    const auto servedNow = desktop.served(spec::Quantity::Volume);
    REQUIRE(servedNow != servedThen);

    auto& trail = desktop.window.bench().trail();
    trail.setFocus();
    press(Qt::Key_Home);
    REQUIRE(trail.chosen() != nullptr);
    CHECK(trail.chosen()->id == first.id);
    press(Qt::Key_E, Qt::ControlModifier);
    CHECK(desktop.window.bench().sheet().showsRevision());
    CHECK(desktop.served(spec::Quantity::Volume) == servedThen);
    CHECK(desktop.table().lines().rowCount() == 2); // no open row: nothing can be typed into it
    CHECK_FALSE(desktop.table().lines().flags(desktop.table().lines().index(0, SpecModel::Amount)) &
                Qt::ItemIsEditable);
    CHECK(draft.spec() == changed);
    press(Qt::Key_Left, Qt::AltModifier);
    CHECK_FALSE(desktop.window.bench().sheet().showsRevision());
    CHECK(desktop.served(spec::Quantity::Volume) == servedNow);

    trail.setFocus();
    press(Qt::Key_Home);
    press(Qt::Key_R, Qt::ControlModifier);
    CHECK(draft.spec() == first.spec);
    CHECK(desktop.served(spec::Quantity::Volume) == servedThen);
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(draft.spec() == changed);
}

TEST_CASE("A drink put in the bin is brought back by the same action", "[ui][jobs]") {
    Desktop desktop;
    desktop.newDrink(QStringLiteral("Ox Skerry"));
    desktop.write(kTwo);
    press(Qt::Key_Escape);
    const auto id = desktop.draft().drink().id;
    const auto spec = desktop.draft().spec();
    press(Qt::Key_Delete, Qt::ControlModifier | Qt::ShiftModifier);
    CHECK(desktop.window.desk().draft() == nullptr);
    CHECK(desktop.window.desk().book()->summary(id)->binned);

    // It is still listed, under the bin, and opens from there.
    auto& shelf = desktop.window.bench().shelf();
    const int row = shelf.model().rowOf(id);
    REQUIRE(row >= 0);
    CHECK(shelf.model().row(row).binned);
    shelf.list().setFocus();
    press(Qt::Key_Down);
    REQUIRE(desktop.window.desk().draft() != nullptr);
    CHECK(desktop.draft().drink().id == id);
    CHECK(desktop.window.actions().at(Act::BinDrink)->text().contains(QStringLiteral("Bring back")));
    press(Qt::Key_Delete, Qt::ControlModifier | Qt::ShiftModifier);
    CHECK_FALSE(desktop.window.desk().book()->summary(id)->binned);
    CHECK(desktop.draft().spec() == spec);
    CHECK(desktop.window.actions().at(Act::BinDrink)->text().contains(QStringLiteral("Put in")));
}

TEST_CASE("A spec in parts asks for the size of one serve and reads with it", "[ui][jobs]") {
    Desktop desktop;
    desktop.newDrink(QStringLiteral("Thirds"));
    auto& size = desktop.window.bench().sheet().fields().partTarget();
    CHECK_FALSE(size.isVisible());
    desktop.write({QStringLiteral("1 part London dry gin"), QStringLiteral("1 part red vermouth"),
                   QStringLiteral("1 part bitter aperitif")});
    press(Qt::Key_Escape);
    REQUIRE(desktop.draft().spec().lines.size() == 3);
    CHECK(size.isVisible());
    const auto poured = [&] {
        return desktop.draft().now().readings[spec::Stage::Measured][spec::Quantity::PouredVolume];
    };
    CHECK_FALSE(poured().bound == spec::Bound::Exact);
    size.setFocus();
    type(QStringLiteral("90 ml"));
    CHECK(desktop.draft().spec().partTargetMl == 90.0);
    CHECK(poured().bound == spec::Bound::Exact);
    CHECK(poured().value == Approx(90));
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK_FALSE(desktop.draft().spec().partTargetMl.has_value());
}

TEST_CASE("Tab goes from amount to name to the next line and out at the end", "[ui][jobs]") {
    Desktop desktop;
    desktop.newDrink(QStringLiteral("Ox Skerry"));
    desktop.write(kTwo);
    press(Qt::Key_Escape);
    auto& table = desktop.table();
    table.editCell(0, SpecModel::Amount);
    const auto at = [&] { return std::pair(table.currentIndex().row(), table.currentIndex().column()); };
    press(Qt::Key_Tab);
    CHECK(at() == std::pair(0, static_cast<int>(SpecModel::Name)));
    press(Qt::Key_Tab);
    CHECK(at() == std::pair(1, static_cast<int>(SpecModel::Amount)));
    press(Qt::Key_Backtab, Qt::ShiftModifier);
    CHECK(at() == std::pair(0, static_cast<int>(SpecModel::Name)));
    for (int i = 0; i < 3; ++i)
        press(Qt::Key_Tab);
    CHECK(at() == std::pair(2, static_cast<int>(SpecModel::Amount))); // the open row
    press(Qt::Key_Tab);
    CHECK(table.openEditor() == nullptr);
    auto& fields = desktop.window.bench().sheet().fields();
    CHECK(QApplication::focusWidget() == &fields.method());
    for (auto* next : {&fields.glass(), &fields.garnish(), &fields.serves(), &fields.notes()}) {
        press(Qt::Key_Tab);
        CHECK(QApplication::focusWidget() == next);
    }
    press(Qt::Key_Backtab, Qt::ShiftModifier);
    CHECK(QApplication::focusWidget() == &fields.serves());
}

TEST_CASE("The house spec wears its mark on the shelf", "[ui][jobs]") {
    Desktop desktop;
    desktop.newDrink(QStringLiteral("Ox Skerry"));
    desktop.write(kTwo);
    press(Qt::Key_Escape);
    desktop.keep(QStringLiteral("the idea"));
    auto& model = desktop.window.bench().shelf().model();
    const auto house = [&] { return model.row(model.rowOf(desktop.draft().drink().id)).hasHouse; };
    CHECK_FALSE(house());
    auto& trail = desktop.window.bench().trail();
    trail.setFocus();
    press(Qt::Key_Home);
    press(Qt::Key_H, Qt::ControlModifier);
    CHECK(house());
}
