#include "core/store/sample_book.h"
#include "tests/support/catch.h"
#include "tests/ui/desktop.h"
#include "ui/panels/stock/shopping_paper.h"
#include "ui/panels/stock/stock_model.h"
#include "ui/panels/stock/stock_page.h"
#include "ui/panels/stock/stock_table.h"
#include "ui/panels/stock/wish_model.h"
#include "ui/theme/banner.h"

#include <QClipboard>
#include <QFile>
#include <QLineEdit>
#include <QListWidget>
#include <QPrinter>
#include <QTextBrowser>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

QString latin(const char* text);

// Key by key: the first opens a cell, and the rest go where the keyboard is by then.
void typeKeys(const QString& text) {
    for (const QChar letter : text)
        QTest::keyClicks(QApplication::focusWidget(), QString(letter));
}

// A cell's editor hands over what was typed once its key is done with.
void enter() {
    press(Qt::Key_Return);
    QApplication::processEvents();
}

// The sample on the desk, the page open by its key.
struct Room : Desktop {
    Room() {
        REQUIRE(window.desk().makeBook(dir.filePath(QStringLiteral("sample.stillroom")),
                                       store::createSampleBook));
        press(Qt::Key_B, Qt::ControlModifier | Qt::ShiftModifier);
        page = qobject_cast<StockPage*>(window.page());
        REQUIRE(page != nullptr);
    }
    int rowOf(const char* name) {
        auto& table = page->shelf();
        for (int row = 0; row < table.model()->rowCount(); ++row)
            if (table.model()->index(row, StockModel::Name).data().toString() == QLatin1String(name))
                return row;
        FAIL(name);
        return -1;
    }
    std::string cell(const char* name, int column) {
        return page->shelf().model()->index(rowOf(name), column).data().toString().toStdString();
    }
    void stand(const char* name) {
        page->shelf().setFocus();
        page->shelf().goTo(rowOf(name));
    }
    std::string near(const char* drink) {
        auto& table = page->wishes();
        for (int row = 0; row < table.model()->rowCount(); ++row)
            if (table.model()->index(row, WishModel::Drink).data().toString() == QLatin1String(drink))
                return table.model()->index(row, WishModel::Standing).data().toString().toStdString();
        FAIL(drink);
        return {};
    }
    void want(const char* drink, const char* serves) {
        auto& table = page->wishes();
        table.setFocus();
        for (int row = 0; row < table.model()->rowCount(); ++row)
            if (table.model()->index(row, WishModel::Drink).data().toString() == QLatin1String(drink))
                table.goTo(row);
        typeKeys(QString::fromLatin1(serves));
        enter();
    }
    StockPage* page = nullptr;
};

QString latin(const char* text) {
    return QString::fromUtf8(text);
}

} // namespace

TEST_CASE("the page opens by its key and says what is within reach", "[ui][stock]") {
    Room room;
    CHECK(room.page->shelf().hasFocus());
    CHECK(room.page->about().toStdString() ==
          std::string("5 of 9 drinks within reach · 3 one short · 1 off"));
    CHECK(room.near("Quill Point") == "one short: overproof rum");
    CHECK(room.near("Ox Skerry") == "within reach; low: London dry gin");
    CHECK(room.near("Pellow Head").rfind("off: sherry-type, amontillado", 0) == 0);
    QStringList brings;
    for (int i = 0; i < room.page->brings().count(); ++i)
        brings << room.page->brings().item(i)->text();
    CHECK(brings.contains(latin("overproof rum: brings Quill Point")));
    CHECK(brings.contains(latin("sherry-type, amontillado is off, and with it Pellow Head")));
    press(Qt::Key_Escape);
    CHECK(room.window.page() == nullptr);
}

TEST_CASE("stock is entered by letters and numbers and taken back", "[ui][stock]") {
    Room room;
    room.stand("Overproof rum, 63 %");
    press(Qt::Key_H);
    CHECK(room.cell("Overproof rum, 63 %", StockModel::State) == "have");
    CHECK(room.near("Quill Point") == "within reach");
    CHECK(room.page->about().startsWith(latin("6 of 9")));
    room.stand("Overproof rum, 63 %");
    typeKeys(latin("2 bottles"));
    enter();
    CHECK(room.cell("Overproof rum, 63 %", StockModel::Amount) == "1.4 l");
    room.stand("London dry gin, 47 %");
    press(Qt::Key_X);
    CHECK(room.near("Ox Skerry") == "off: London dry gin, 47 %");
    CHECK(room.near("Maiden Ledge").rfind("off: ", 0) == 0);
    // Three steps; each is in the book at once, and so is each taken back.
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(room.near("Ox Skerry") == "within reach; low: London dry gin");
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(room.cell("Overproof rum, 63 %", StockModel::Amount).empty());
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(room.near("Quill Point") == "one short: overproof rum");
    press(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
    CHECK(room.near("Quill Point") == "within reach");
    const auto& book = room.window.desk().book()->book();
    const auto rum = book.larder().match("Overproof rum, 63 %").ingredient;
    CHECK(book.larder().find(rum)->stock.state == larder::OnShelf::Have);
    // The page may be left and come back to: the steps stay.
    press(Qt::Key_Escape);
    press(Qt::Key_B, Qt::ControlModifier | Qt::ShiftModifier);
    room.page = qobject_cast<StockPage*>(room.window.page());
    REQUIRE(room.page != nullptr);
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(room.near("Quill Point") == "one short: overproof rum");
}

TEST_CASE("a count that cannot be is named and changes nothing", "[ui][stock]") {
    Room room;
    for (const char* typed : {"-5", "9 parts", "3000000 l"}) {
        INFO(typed);
        room.stand("London dry gin, 47 %");
        typeKeys(latin(typed));
        enter();
        CHECK(room.cell("London dry gin, 47 %", StockModel::Amount) == "350 ml");
        CHECK(room.page->banner().isVisible());
        CHECK(room.page->banner().text().fact.contains(latin(typed)));
    }
    room.stand("London dry gin, 47 %");
    typeKeys(latin("0"));
    enter();
    CHECK(room.cell("London dry gin, 47 %", StockModel::State) == "out");
    CHECK(room.near("Ox Skerry") == "one short: London dry gin");
}

TEST_CASE("the filter finds what no drink names yet", "[ui][stock]") {
    Room room;
    room.page->filter().setFocus();
    type(latin("tonic"));
    REQUIRE(room.page->shelf().model()->rowCount() > 0);
    press(Qt::Key_Return);
    CHECK(room.page->shelf().hasFocus());
    const QString name = room.page->shelf().model()->index(0, StockModel::Name).data().toString();
    CHECK(name.contains(latin("tonic")));
    press(Qt::Key_H);
    room.page->filter().clear();
    CHECK(room.cell(name.toUtf8().constData(), StockModel::State) == "have");
}

TEST_CASE("a list for so many serves is shown, copied, saved and printed", "[ui][stock]") {
    Room room;
    CHECK(room.page->paper().toPlainText().contains(latin("Write how many serves")));
    room.want("Grey Tolland", "40");
    room.want("Quill Point", "12");
    const QString paper = room.page->paper().toPlainText();
    for (const char* part : {"Quayside Cellars", "Apple brandy, 42 %", "2 × 700 ml", "57.40 EUR",
                             "Harbour market", "lemon, whole fruit", "To make", "Heather-honey syrup"}) {
        INFO(part);
        CHECK(paper.contains(latin(part)));
    }
    room.page->copyList();
    CHECK(QApplication::clipboard()->text() == room.page->listAsText());
    CHECK(room.page->listAsText().contains(latin("Apple brandy, 42 %: 1 l = 2 x 700 ml, EUR 57.40")));
    const QString file = room.dir.filePath(latin("to-buy.txt"));
    REQUIRE(room.page->saveList(file));
    QFile saved(file);
    REQUIRE(saved.open(QIODevice::ReadOnly));
    CHECK(QString::fromUtf8(saved.readAll()) == room.page->listAsText());
    CHECK_FALSE(room.page->saveList(room.dir.filePath(latin("none/to-buy.txt"))));
    CHECK(room.page->banner().isVisible());
    QPrinter printer;
    printer.setOutputFormat(QPrinter::PdfFormat);
    printer.setOutputFileName(room.dir.filePath(latin("to-buy.pdf")));
    preparation::ShoppingList list;
    list.groups = {{"Harbour market", {}}};
    REQUIRE(printShopping(list, room.window.desk().book()->larder(), latin("To buy"), printer));
    QFile pdf(room.dir.filePath(latin("to-buy.pdf")));
    REQUIRE(pdf.open(QIODevice::ReadOnly));
    CHECK(pdf.read(5) == "%PDF-");
    room.want("Grey Tolland", "1e9");
    CHECK(room.page->banner().text().fact.contains(latin("not a number of serves")));
    CHECK(room.page->paper().toPlainText().toStdString() == paper.toStdString());
}

TEST_CASE("a purchase leads to its row by keyboard", "[ui][stock]") {
    Room room;
    auto& brings = room.page->brings();
    brings.setFocus();
    for (int i = 0; i < brings.count(); ++i)
        if (brings.item(i)->text().startsWith(latin("overproof rum"))) brings.setCurrentRow(i);
    press(Qt::Key_Return);
    CHECK(room.page->shelf().hasFocus());
    CHECK(room.page->shelf().currentRow() == room.rowOf("Overproof rum, 63 %"));
}

TEST_CASE("an empty book says what to do first", "[ui][stock]") {
    Desktop desktop;
    press(Qt::Key_B, Qt::ControlModifier | Qt::ShiftModifier);
    auto* page = qobject_cast<StockPage*>(desktop.window.page());
    REQUIRE(page != nullptr);
    CHECK(page->shelf().model()->rowCount() == 0);
    REQUIRE(page->brings().count() == 1);
    CHECK(page->brings().item(0)->text().startsWith(latin("Write a drink first")));
    press(Qt::Key_H); // of nothing
    press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(desktop.window.page() == page);
}
