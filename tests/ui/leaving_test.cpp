#include "tests/support/catch.h"
#include "tests/ui/support.h"
#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/tasting/tasting_page.h"
#include "ui/theme/banner.h"

#include <QLabel>
#include <QMessageBox>
#include <QPushButton>
#include <QTimer>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

// A window on a book of two drinks, the first kept and on the bench.
struct Room {
    Room() {
        REQUIRE(window.desk().createBook(dir.filePath(QStringLiteral("book.stillroom")), {}));
        window.show();
        QApplication::setActiveWindow(&window);
        REQUIRE(QTest::qWaitFor([this] { return window.isActiveWindow(); }));
        window.desk().newDrink(history::DrinkForm::Drink, QStringLiteral("Quill Point"), {});
        other = window.desk().draft()->drink().id;
        spec::Spec spec;
        spec::Line line;
        line.name = line.written = "lime juice";
        spec.lines = {line};
        window.desk().newDrink(history::DrinkForm::Drink, QStringLiteral("Ox Skerry"), spec);
        drink = window.desk().draft()->drink().id;
        REQUIRE(window.keepNow(QStringLiteral("the idea")));
    }
    // By keys: a score, and a note.
    void writeTasting() {
        press(Qt::Key_T, Qt::ControlModifier);
        REQUIRE(tasting() != nullptr);
        type(QStringLiteral("MK"));
        press(Qt::Key_Return);
        type(QStringLiteral("9"));
        for (int i = 0; i < 7; ++i)
            press(Qt::Key_Return);
        type(QStringLiteral("thin at the end"));
    }
    TastingPage* tasting() { return qobject_cast<TastingPage*>(window.page()); }
    std::vector<tasting::Tasting> tastings() {
        const auto& book = window.desk().book()->book();
        return book.tastings(book.revisions(drink).back().id);
    }
    // Presses a button of the question that comes next, by its key.
    void willAnswer(const QString& button) {
        QTimer::singleShot(0, &window, [this, button] {
            auto* box = qobject_cast<QMessageBox*>(QApplication::activeModalWidget());
            asked = box != nullptr;
            if (box == nullptr) return;
            for (auto* choice : box->buttons())
                if (choice->text() == button) {
                    choice->setFocus();
                    QTest::keyClick(choice, Qt::Key_Space);
                    return;
                }
            box->reject();
        });
    }

    QTemporaryDir dir;
    MainWindow window;
    base::DrinkId drink;
    base::DrinkId other;
    bool asked = false;
};

} // namespace

TEST_CASE("A tasting left unsaved waits under its revision", "[ui][tasting][leaving]") {
    Room room;
    room.writeTasting();
    SECTION("left by key") {
        press(Qt::Key_Left, Qt::AltModifier);
    }
    SECTION("left by Esc") {
        press(Qt::Key_Escape);
    }
    SECTION("another drink chosen") {
        REQUIRE(room.window.desk().openDrink(room.other));
        REQUIRE(room.window.desk().openDrink(room.drink));
    }
    CHECK(room.tasting() == nullptr);
    CHECK(room.tastings().empty());
    press(Qt::Key_T, Qt::ControlModifier);
    REQUIRE(room.tasting() != nullptr);
    CHECK(room.tasting()->input().scores.first()[0] == 9);
    CHECK(room.tasting()->input().note == QStringLiteral("thin at the end"));
    press(Qt::Key_Return, Qt::ControlModifier);
    CHECK(room.tasting() == nullptr);
    REQUIRE(room.tastings().size() == 1);
    CHECK(room.tastings()[0].note == "thin at the end");
    // Once written it waits no more.
    press(Qt::Key_T, Qt::ControlModifier);
    REQUIRE(room.tasting() != nullptr);
    CHECK_FALSE(room.tasting()->holdsUnsaved());
    press(Qt::Key_Q, Qt::ControlModifier);
    CHECK_FALSE(room.window.isVisible());
    CHECK(room.tastings().size() == 1);
}

TEST_CASE("Closing with a tasting unsaved asks and does what is answered", "[ui][tasting][leaving]") {
    Room room;
    room.writeTasting();
    SECTION("saved from the page") {
        room.willAnswer(QStringLiteral("&Save"));
        press(Qt::Key_Q, Qt::ControlModifier);
        CHECK_FALSE(room.window.isVisible());
        REQUIRE(room.tastings().size() == 1);
        CHECK(room.tastings()[0].scores.first()[0] == 9);
    }
    SECTION("kept on the page") {
        room.willAnswer(QStringLiteral("&Keep editing"));
        press(Qt::Key_Q, Qt::ControlModifier);
        CHECK(room.window.isVisible());
        REQUIRE(room.tasting() != nullptr);
        CHECK(room.tasting()->input().note == QStringLiteral("thin at the end"));
        CHECK(room.tastings().empty());
    }
    SECTION("put by before and brought back") {
        press(Qt::Key_Left, Qt::AltModifier);
        room.willAnswer(QStringLiteral("&Keep editing"));
        press(Qt::Key_Q, Qt::ControlModifier);
        CHECK(room.window.isVisible());
        REQUIRE(room.tasting() != nullptr);
        CHECK(room.tasting()->input().scores.first()[0] == 9);
    }
    SECTION("thrown away") {
        room.willAnswer(QStringLiteral("&Throw away"));
        press(Qt::Key_Q, Qt::ControlModifier);
        CHECK_FALSE(room.window.isVisible());
        CHECK(room.tastings().empty());
    }
    CHECK(room.asked);
}

TEST_CASE("A tasting nobody signed is not saved by closing but asked for", "[ui][tasting][leaving]") {
    Room room;
    press(Qt::Key_T, Qt::ControlModifier);
    press(Qt::Key_Return); // over the taster
    type(QStringLiteral("9"));
    room.willAnswer(QStringLiteral("&Save"));
    press(Qt::Key_Q, Qt::ControlModifier);
    CHECK(room.asked);
    CHECK(room.window.isVisible());
    REQUIRE(room.tasting() != nullptr);
    CHECK(room.tasting()->input().scores.first()[0] == 9);
    CHECK(room.tastings().empty());
}

TEST_CASE("After binning a drink the bench says what next and Enter takes it back", "[ui][leaving]") {
    Room room;
    press(Qt::Key_Delete, Qt::ControlModifier | Qt::ShiftModifier);
    REQUIRE(room.window.desk().draft() == nullptr);
    const auto labels = room.window.bench().findChildren<QLabel*>(Qt::FindDirectChildrenOnly);
    REQUIRE(labels.size() == 1);
    CHECK(labels[0]->isVisible());
    CHECK(labels[0]->text().contains(QStringLiteral("Ctrl+N")));
    CHECK(room.window.banner().text().fact.contains(QStringLiteral("Ox Skerry")));
    SECTION("taken back") {
        press(Qt::Key_Return); // on the banner's act
        REQUIRE(room.window.desk().draft() != nullptr);
        CHECK(room.window.desk().draft()->drink().id == room.drink);
        CHECK_FALSE(room.window.desk().book()->summary(room.drink)->binned);
    }
    SECTION("gone on to another") {
        REQUIRE(room.window.desk().openDrink(room.other));
        CHECK(room.window.desk().book()->summary(room.drink)->binned);
    }
    CHECK_FALSE(room.window.banner().isVisible());
    CHECK_FALSE(labels[0]->isVisible());
}
