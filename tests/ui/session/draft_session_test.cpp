#include "core/spec/edit.h"
#include "tests/support/catch.h"
#include "tests/ui/support.h"
#include "ui/models/readings_model.h"

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

struct Heard {
    explicit Heard(DraftSession& session) {
        QObject::connect(&session, &DraftSession::changed, &session, [this](const DraftChange& change) {
            ++changes;
            lastOrigin = change.origin;
        });
    }
    int changes = 0;
    QObject* lastOrigin = nullptr;
};

spec::Spec withFirst(const DraftSession& session, std::int64_t n, std::int64_t d = 1) {
    return spec::withAmount(session.spec(), 0, ml(n, d));
}

} // namespace

TEST_CASE("One edit is one step one evaluation one signal and one save", "[ui][session]") {
    TempBook book;
    auto& session = book.drink("Ox Skerry", sourLines());
    Heard heard(session);
    const int evaluations = session.evaluations();
    const int bindings = session.bindingsBuilt();
    QObject origin;
    CHECK(session.apply(withFirst(session, 50), QStringLiteral("gin"), DraftSession::kNoMerge, &origin));
    CHECK(session.evaluations() == evaluations + 1);
    CHECK(session.bindingsBuilt() == bindings); // amounts change under the same bindings
    CHECK(heard.changes == 1);
    CHECK(heard.lastOrigin == &origin);
    CHECK(session.undoStack().count() == 1);
    CHECK(book.desk.book()->book().draft(session.draft().id)->spec == session.spec());
}

TEST_CASE("An equal spec is no edit", "[ui][session]") {
    TempBook book;
    auto& session = book.drink("Ox Skerry", sourLines());
    Heard heard(session);
    const int evaluations = session.evaluations();
    CHECK_FALSE(session.apply(session.spec(), QStringLiteral("nothing")));
    CHECK_FALSE(session.applyWords(session.now().words, QStringLiteral("nothing")));
    CHECK(session.evaluations() == evaluations);
    CHECK(heard.changes == 0);
    CHECK(session.undoStack().count() == 0);
}

TEST_CASE("Typing in one field is one step and coming back to the start is none", "[ui][session]") {
    TempBook book;
    auto& session = book.drink("Ox Skerry", sourLines());
    const auto start = session.spec();
    const int evaluations = session.evaluations();
    const int key = session.newMergeKey();
    session.apply(withFirst(session, 5), QStringLiteral("gin"), key);
    session.apply(withFirst(session, 50), QStringLiteral("gin"), key);
    CHECK(session.undoStack().count() == 1);
    CHECK(session.evaluations() == evaluations + 2); // one per distinct value, none for merging
    session.apply(withFirst(session, 45), QStringLiteral("gin"), key);
    CHECK(session.undoStack().count() == 0);
    CHECK(session.spec() == start);
    session.apply(withFirst(session, 50), QStringLiteral("gin"), session.newMergeKey());
    session.apply(withFirst(session, 55), QStringLiteral("gin"), session.newMergeKey());
    CHECK(session.undoStack().count() == 2);
    session.undoStack().undo();
    CHECK(session.spec().lines[0].poured == ml(50));
    session.undoStack().undo();
    CHECK(session.spec() == start);
    CHECK(book.desk.book()->book().draft(session.draft().id)->spec == start);
}

TEST_CASE("Naming another ingredient binds anew", "[ui][session]") {
    TempBook book;
    auto& session = book.drink("Ox Skerry", sourLines());
    const int bindings = session.bindingsBuilt();
    auto line =
        renamed(session.spec().lines[0], QStringLiteral("tequila blanco"), book.desk.book()->larder());
    session.apply(spec::withLineReplaced(session.spec(), 0, line), QStringLiteral("name"));
    CHECK(session.bindingsBuilt() == bindings + 1);
}

TEST_CASE("Nobody edits in answer to a change", "[ui][session]") {
    TempBook book;
    auto& session = book.drink("Ox Skerry", sourLines());
    bool tried = false;
    bool applied = true;
    QObject::connect(&session, &DraftSession::changed, &session, [&](const DraftChange&) {
        if (tried) return;
        tried = true;
#ifdef NDEBUG
        applied = session.apply(withFirst(session, 99), QStringLiteral("echo"));
#else
        applied = false; // a debug build stops here
#endif
    });
    session.apply(withFirst(session, 50), QStringLiteral("gin"));
    CHECK(tried);
    CHECK_FALSE(applied);
    CHECK(session.spec().lines[0].poured == ml(50));
}

TEST_CASE("Name and brief are edits too and need no evaluation", "[ui][session]") {
    TempBook book;
    auto& session = book.drink("Ox Skerry", sourLines());
    const int evaluations = session.evaluations();
    auto words = session.now().words;
    words.name = "Ox Skerry, late";
    CHECK(session.applyWords(words, QStringLiteral("name")));
    CHECK(session.evaluations() == evaluations);
    CHECK(book.desk.book()->book().drink(session.drink().id)->name == "Ox Skerry, late");
    CHECK(book.desk.book()->summary(session.drink().id)->name == "Ox Skerry, late");
    session.undoStack().undo();
    CHECK(book.desk.book()->book().drink(session.drink().id)->name == "Ox Skerry");
}

TEST_CASE("Keeping fixes a revision and leaves undo alone", "[ui][session]") {
    TempBook book;
    auto& session = book.drink("Ox Skerry", sourLines());
    session.apply(withFirst(session, 50), QStringLiteral("gin"));
    const auto kept = session.keep(QStringLiteral("more gin"));
    REQUIRE(kept);
    CHECK(session.base()->id == kept->id);
    CHECK(session.undoStack().canUndo());
    CHECK(session.undoStack().isClean());
    CHECK(session.now().difference.isEmpty());
    CHECK_FALSE(session.keep(QStringLiteral("again"))); // no difference, no revision
    session.apply(withFirst(session, 45), QStringLiteral("gin"));
    CHECK_FALSE(session.now().difference.isEmpty());
    CHECK(session.changesInWords().contains(QStringLiteral("50")));
    CHECK(book.desk.book()->summary(session.drink().id)->draftDiffers);
    CHECK(session.restore(*kept));
    CHECK(session.spec() == kept->spec);
    session.undoStack().undo();
    CHECK(session.spec().lines[0].poured == ml(45));
}

TEST_CASE("A new fact rereads the open draft", "[ui][session]") {
    TempBook book;
    auto& session = book.drink("Ox Skerry", {"45 ml London dry gin", "15 ml tincture of nobody knows"});
    const auto strength = [&] {
        return session.now().readings[spec::Stage::Measured][spec::Quantity::Strength];
    };
    CHECK(strength().bound != spec::Bound::Exact);
    larder::Ingredient ingredient;
    ingredient.id = base::IngredientId::random();
    ingredient.name = "tincture of nobody knows";
    const auto fact = [](double value) {
        return larder::Fact{value, value, value, larder::SourceKind::Label, "label"};
    };
    ingredient.facts.abvPercent = fact(60);
    ingredient.facts.sugarGPerL = fact(0);
    ingredient.facts.acidGPerL = fact(0);
    book.desk.book()->saveIngredient(ingredient);
    auto line = session.spec().lines[1];
    line.ingredient = ingredient.id;
    session.apply(spec::withLineReplaced(session.spec(), 1, line), QStringLiteral("choose"));
    CHECK(strength().bound == spec::Bound::Exact);
    const auto before = strength().value;
    ingredient.facts.abvPercent = fact(20);
    book.desk.book()->saveIngredient(ingredient);
    CHECK(strength().value < before);
}

TEST_CASE("What a name was taken for is remembered for the next line and undone with the edit",
          "[ui][session]") {
    TempBook book;
    auto& session = book.drink("Ox Skerry", {"45 ml the usual gin", "20 ml lemon juice"});
    auto& desk = *book.desk.book();
    const auto tequila = desk.larder().match("tequila blanco").ingredient;
    REQUIRE_FALSE(tequila.isNull());
    const auto before = session.spec().lines[0].ingredient;
    REQUIRE(before != tequila);
    const int evaluations = session.evaluations();
    REQUIRE(session.applyChoice(0, "the usual gin", tequila, QStringLiteral("name")));
    CHECK(session.evaluations() == evaluations + 1); // remembering reads nothing anew
    CHECK(session.spec().lines[0].ingredient == tequila);
    CHECK(session.spec().lines[0].name == "the usual gin");
    CHECK(book.spec({"30 ml the usual gin"}).lines[0].ingredient == tequila);
    CHECK(desk.book().larder().match("The Usual Gin").ingredient == tequila);

    session.undoStack().undo();
    CHECK(session.spec().lines[0].ingredient == before);
    CHECK_FALSE(book.spec({"30 ml the usual gin"}).lines[0].ingredient == tequila);
    CHECK(desk.book().larder().remembered().empty());
    session.undoStack().redo();
    CHECK(session.spec().lines[0].ingredient == tequila);

    book.desk.closeBook();
    REQUIRE(book.desk.openBook(book.path()));
    CHECK(book.spec({"30 ml the usual gin"}).lines[0].ingredient == tequila);
}

TEST_CASE("A choice the larder would have made itself is not written down", "[ui][session]") {
    TempBook book;
    auto& session = book.drink("Ox Skerry", {"45 ml the usual gin"});
    const auto tequila = book.desk.book()->larder().match("tequila blanco").ingredient;
    REQUIRE(session.applyChoice(0, "tequila blanco", tequila, QStringLiteral("name")));
    CHECK(session.spec().lines[0].name == "tequila blanco");
    CHECK(book.desk.book()->larder().remembered().empty());
}

TEST_CASE("A drink brought back from the bin stays out of it when its name is changed", "[ui][session]") {
    TempBook book;
    const auto id = book.drink("Ox Skerry", sourLines()).drink().id;
    REQUIRE(book.desk.binDrink(id, true));
    CHECK(book.desk.draft() == nullptr);
    REQUIRE(book.desk.openDrink(id));
    REQUIRE(book.desk.draft()->drink().binned);
    REQUIRE(book.desk.binDrink(id, false));
    CHECK_FALSE(book.desk.draft()->drink().binned);
    DrinkWords words = book.desk.draft()->now().words;
    words.name = "Quill Point";
    book.desk.draft()->applyWords(words, QStringLiteral("name"));
    CHECK_FALSE(book.desk.book()->summary(id)->binned);
    CHECK_FALSE(book.desk.book()->book().drink(id)->binned);
}

TEST_CASE("A measured dilution that is kept moves the prediction of every draft", "[ui][session][made]") {
    TempBook book;
    auto& other = book.drink("Quill Point", sourLines());
    auto stirred = other.spec();
    stirred.method.technique = spec::Technique::Stir;
    REQUIRE(other.apply(stirred, QStringLiteral("Stir")));
    const auto id = other.drink().id;
    const auto dilution = [](const DraftSession& session) {
        return session.now().readings[spec::Stage::Mixed][spec::Quantity::Dilution].value;
    };
    const double predicted = dilution(other);
    REQUIRE(predicted > 0);
    auto& session = book.drink("Ox Skerry", sourLines());
    auto measured = stirred;
    measured.method.dilution =
        spec::DilutionEntry{predicted * 1.25, spec::DilutionOrigin::Measured, "weighed"};
    REQUIRE(session.apply(measured, QStringLiteral("Measured")));
    CHECK_FALSE(book.desk.book()->houseRules().bench); // a draft is not kept yet
    REQUIRE(session.keep(QStringLiteral("weighed")));
    REQUIRE(book.desk.book()->houseRules().bench);
    CHECK(dilution(session) == Approx(predicted * 1.25)); // measured stays as it was measured
    REQUIRE(book.desk.openDrink(id));
    CHECK(dilution(*book.desk.draft()) == Approx(predicted * 1.25));
    ReadingsModel model;
    model.setSession(book.desk.draft());
    QStringList tips;
    for (int row = 0; row < model.rowCount(); ++row)
        tips << model.index(row, ReadingsModel::Name).data(Qt::ToolTipRole).toString();
    tips.removeAll(QString());
    REQUIRE(tips.size() == 1);
    CHECK(tips[0] ==
          QStringLiteral("Water: predicted by the published curve, moved by one of this bench's own "
                         "measurements: ×1.25"));
}
