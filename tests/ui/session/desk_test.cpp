#include "tests/support/catch.h"
#include "tests/ui/support.h"

#include <QFile>
#include <QFileInfo>

#include <algorithm>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

struct Failures {
    explicit Failures(Desk& desk) {
        QObject::connect(&desk, &Desk::failed, &desk,
                         [this](const Sentence& sentence) { said << sentence.fact; });
    }
    QStringList said;
};

} // namespace

TEST_CASE("A book opened again is the same", "[ui][desk]") {
    TempBook book;
    auto& session = book.drink("Ox Skerry", sourLines());
    session.keep(QStringLiteral("the idea, nothing more"));
    const auto spec = session.spec();
    const auto readings = session.now().readings;
    book.desk.closeBook();
    CHECK(book.desk.book() == nullptr);
    CHECK(book.desk.draft() == nullptr);
    REQUIRE(book.desk.openBook(book.path()));
    REQUIRE(book.desk.draft() != nullptr);
    CHECK(book.desk.draft()->spec() == spec);
    CHECK(book.desk.draft()->now().readings == readings);
    CHECK(book.desk.draft()->base()->reason == "the idea, nothing more");
    CHECK(Desk::recentBooks().first() == QFileInfo(book.path()).absoluteFilePath());
}

TEST_CASE("A file that is no book is refused in words and the open book stays", "[ui][desk]") {
    TempBook book;
    book.drink("Ox Skerry", sourLines());
    Failures failures(book.desk);
    QFile other(book.pathOf(QStringLiteral("letter.stillroom")));
    REQUIRE(other.open(QIODevice::WriteOnly));
    other.write(QByteArray(4096, 'x'));
    other.close();
    CHECK_FALSE(book.desk.openBook(other.fileName()));
    CHECK_FALSE(book.desk.openBook(book.pathOf(QStringLiteral("missing.stillroom"))));
    CHECK(failures.said.size() == 2);
    REQUIRE(book.desk.book() != nullptr);
    CHECK(book.desk.draft() != nullptr);
}

TEST_CASE("A read only book takes no edit and loses none", "[ui][desk]") {
    TempBook book;
    book.drink("Ox Skerry", sourLines());
    book.desk.closeBook();
    Failures failures(book.desk);
    REQUIRE(book.desk.openBook(book.path(), store::OpenMode::ReadOnly));
    auto& session = *book.desk.draft();
    bool told = false;
    QObject::connect(&session, &DraftSession::saveFailed, &session, [&](const Sentence&) { told = true; });
    auto next = session.spec();
    next.garnish = "lemon";
    session.apply(next, QStringLiteral("garnish"));
    CHECK(told);
    CHECK(session.spec().garnish == "lemon"); // what was typed is still in the window
    CHECK(book.desk.book()->book().draft(session.draft().id)->spec.garnish.empty());
}

TEST_CASE("Drafts keep their steps while another drink is in hand", "[ui][desk]") {
    TempBook book;
    auto& first = book.drink("Ox Skerry", sourLines());
    const auto id = first.drink().id;
    auto next = first.spec();
    next.garnish = "lemon";
    first.apply(next, QStringLiteral("garnish"));
    book.drink("Quill Point", {"45 ml tequila blanco"});
    REQUIRE(book.desk.openDrink(id));
    CHECK(book.desk.draft()->undoStack().canUndo());
    CHECK(book.desk.binDrink(id, true));
    CHECK(book.desk.draft() == nullptr);
    CHECK(book.desk.book()->summary(id)->binned);
}

TEST_CASE("A saved copy opens and says the same", "[ui][desk]") {
    TempBook book;
    const auto spec = book.drink("Ox Skerry", sourLines()).spec();
    const auto copy = book.pathOf(QStringLiteral("copy.stillroom"));
    REQUIRE(book.desk.saveCopy(copy));
    Desk other;
    REQUIRE(other.openBook(copy));
    CHECK(other.draft()->spec() == spec);
}

TEST_CASE("The bench warns of what is poured from a lot past its day", "[ui][desk]") {
    TempBook book;
    auto& session = book.drink("Ox Skerry", sourLines());
    const auto past = [&] {
        const auto& all = session.now().cautions;
        return std::count_if(all.begin(), all.end(),
                             [](const auto& c) { return c.id == "part_past_use_by"; });
    };
    CHECK(past() == 0);
    larder::Lot lot;
    lot.id = base::LotId::random();
    lot.ingredient = book.desk.book()->larder().poured(*session.spec().lines[2].ingredient)->id;
    lot.on = "2020-01-01";
    lot.useBy = "2020-01-03";
    book.desk.book()->saveIngredients({}, {}, {lot});
    CHECK(past() == 1);
    book.desk.book()->saveIngredients({}, {}, {}, {lot.id});
    CHECK(past() == 0);
}
