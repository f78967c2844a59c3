#include "core/store/sample_book.h"
#include "tests/support/catch.h"
#include "tests/ui/desktop.h"
#include "ui/panels/search/filter_form.h"
#include "ui/panels/search/names_edit.h"
#include "ui/panels/search/results_list.h"
#include "ui/panels/search/results_model.h"
#include "ui/panels/search/saved_searches.h"
#include "ui/panels/search/search_page.h"
#include "ui/panels/search/search_reading.h"
#include "ui/panels/shelf_panel.h"
#include "ui/panels/trail_panel.h"
#include "ui/theme/banner.h"
#include "ui/widgets/number_edit.h"
#include "ui/widgets/pick_many.h"

#include <QComboBox>
#include <QLineEdit>
#include <QListWidget>
#include <QMenu>
#include <QPushButton>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

// The sample on the desk, the page open by its key.
struct Finding : Desktop {
    Finding() {
        REQUIRE(window.desk().makeBook(dir.filePath(QStringLiteral("sample.stillroom")),
                                       store::createSampleBook));
        open();
    }
    void open() {
        press(Qt::Key_F, Qt::ControlModifier);
        page = qobject_cast<SearchPage*>(window.page());
        REQUIRE(page != nullptr);
        REQUIRE(page->words().hasFocus());
    }
    QStringList names() const {
        QStringList found;
        for (int row = 0; row < page->results().rowCount(); ++row)
            found << page->results().row(row).name;
        return found;
    }
    static QString marked(const QString& text, const std::vector<ResultsModel::Stretch>& marks) {
        QStringList words;
        for (const auto& mark : marks)
            words << text.mid(mark.start, mark.length);
        return words.join(QLatin1Char('|'));
    }
    // The page answers after its own event is done.
    void settle() {
        REQUIRE(QTest::qWaitFor([this] { return window.page() == nullptr; }));
    }
    SearchPage* page = nullptr;
};

} // namespace

TEST_CASE("A drink is found by a word with a slip and opened by Enter", "[ui][search]") {
    Finding desk;
    CHECK(desk.page->emptyText().contains(QStringLiteral("Type what you remember")));
    type(QStringLiteral("skery")); // a letter short
    REQUIRE(desk.names().contains(QStringLiteral("Ox Skerry")));
    CHECK(desk.page->told().contains(QStringLiteral("“skery” is not in the book; looked for skerry")));
    const auto& row = desk.page->results().row(0);
    CHECK(row.name == QStringLiteral("Ox Skerry"));
    CHECK(Finding::marked(row.name, row.nameMarks) == QStringLiteral("Skerry"));
    press(Qt::Key_Return);
    desk.settle();
    CHECK(desk.draft().drink().name == "Ox Skerry");
    CHECK_FALSE(desk.window.showsRevision());
}

TEST_CASE("What a reason says opens the revision it was said of", "[ui][search]") {
    Finding desk;
    press(Qt::Key_Escape); // an empty field: the page closes
    desk.settle();
    desk.newDrink(QStringLiteral("Fulmar Stack"));
    desk.write({QStringLiteral("45 ml London dry gin"), QStringLiteral("20 ml lemon juice")});
    press(Qt::Key_Escape);
    REQUIRE(desk.window.keepNow(QStringLiteral("the idéa of a zephyrous morning")));
    desk.table().editCell(0, SpecModel::Amount);
    type(QStringLiteral("50"));
    press(Qt::Key_Return);
    press(Qt::Key_Escape);
    desk.keep(QStringLiteral("more gin"));
    const auto fulmar = desk.draft().drink().id;
    desk.window.desk().openDrink(desk.window.desk().book()->shelf().front().id);
    desk.open();
    type(QStringLiteral("idea zephyr")); // without its accent, and not to its end
    REQUIRE(desk.names() == QStringList{QStringLiteral("Fulmar Stack")});
    const auto& row = desk.page->results().row(0);
    CHECK(row.where == QStringLiteral("reason of r1"));
    CHECK(Finding::marked(row.said, row.saidMarks) == QStringLiteral("idéa|zephyrous"));
    press(Qt::Key_Return);
    desk.settle();
    CHECK(desk.draft().drink().id == fulmar);
    REQUIRE(desk.window.showsRevision());
    REQUIRE(desk.window.chosenRevision());
    CHECK(desk.window.bench().history().revision(*desk.window.chosenRevision())->number == 1);
}

TEST_CASE("Filters narrow what is found and say what does not count", "[ui][search]") {
    Finding desk;
    auto& form = desk.page->filters();
    CHECK(desk.names().isEmpty()); // nothing asked, nothing listed
    form.strengthFrom().setFocus();
    type(QStringLiteral("18"));
    const auto strong = desk.names();
    REQUIRE_FALSE(strong.isEmpty());
    for (int row = 0; row < desk.page->results().rowCount(); ++row) {
        const auto* summary = desk.window.desk().book()->summary(desk.page->results().row(row).drink);
        REQUIRE((summary != nullptr && summary->servedStrength));
        CHECK(summary->servedStrength->value >= 18);
    }
    // A number that is none is framed and not asked.
    type(QStringLiteral("x"));
    CHECK(form.strengthFrom().isUnreadable());
    CHECK(desk.page->request().filters.isEmpty());
    press(Qt::Key_Backspace);
    CHECK(desk.names() == strong);

    // With an ingredient by its name; a name that may be several is said.
    form.with().setFocus();
    type(QStringLiteral("London dry gin"));
    press(Qt::Key_Escape); // the offers
    for (const auto& name : desk.names())
        CHECK(strong.contains(name));
    form.with().setFocus();
    form.with().selectAll();
    type(QStringLiteral("quartz dust"));
    CHECK(form.with().problem().contains(QStringLiteral("quartz dust")));
    CHECK(desk.names() == strong);

    form.clearing().setFocus();
    press(Qt::Key_Space);
    CHECK(desk.names().isEmpty());
    CHECK(form.strengthFrom().text().isEmpty());

    // States from a list that stays open while one ticks.
    form.states().setFocus();
    press(Qt::Key_Down);
    REQUIRE(QApplication::activePopupWidget() != nullptr);
    auto* list = QApplication::activePopupWidget();
    QTest::keyClick(list, Qt::Key_Down);
    QTest::keyClick(list, Qt::Key_Down);
    QTest::keyClick(list, Qt::Key_Space); // house
    CHECK(list->isVisible());
    QTest::keyClick(list, Qt::Key_Return);
    CHECK_FALSE(list->isVisible());
    CHECK(form.states().chosen() == QStringList{QStringLiteral("house")});
    REQUIRE_FALSE(desk.names().isEmpty());
    for (int row = 0; row < desk.page->results().rowCount(); ++row)
        CHECK(desk.window.desk().book()->summary(desk.page->results().row(row).drink)->hasHouse);
    // A day that is none.
    form.changedFrom().setFocus();
    type(QStringLiteral("2026-13-40"));
    CHECK_FALSE(desk.page->request().filters.changedFrom);
}

TEST_CASE("A drink that a taster calls too sweet is found by that", "[ui][search]") {
    Finding desk;
    auto& book = desk.window.desk().book()->book();
    const auto shelf = desk.window.desk().book()->shelf();
    const auto ox =
        std::find_if(shelf.begin(), shelf.end(), [](const auto& s) { return s.name == "Ox Skerry"; });
    REQUIRE(ox != shelf.end());
    auto& too = desk.page->filters().tooMuch();
    too.setFocus();
    const int sweet = too.findText(QStringLiteral("too sweet"));
    REQUIRE(sweet > 0);
    too.setCurrentIndex(sweet);
    const auto before = desk.names();
    tasting::Tasting tasting;
    tasting.revision = book.revisions(ox->id).back().id;
    tasting.taster = book.addPerson("Ines Brandt", "IB");
    tasting.note = "Too sweet at the back.";
    book.addTasting(tasting);
    too.setCurrentIndex(0);
    too.setCurrentIndex(sweet);
    auto after = desk.names();
    CHECK(after.contains(QStringLiteral("Ox Skerry")));
    CHECK(after.size() >= before.size());
}

TEST_CASE("A search is saved under a name, run again, removed and brought back", "[ui][search]") {
    Finding desk;
    CHECK_FALSE(desk.page->saved().name().isEnabled()); // nothing is asked yet
    type(QStringLiteral("lemon"));
    desk.page->filters().strengthTo().setFocus();
    type(QStringLiteral("20"));
    const auto found = desk.names();
    REQUIRE_FALSE(found.isEmpty());
    desk.page->saved().name().setFocus();
    type(QStringLiteral("light and sharp"));
    press(Qt::Key_Return);
    REQUIRE(desk.page->saved().list().count() == 1);
    desk.page->words().setFocus();
    press(Qt::Key_Escape); // the words go first
    REQUIRE(desk.window.page() == desk.page);
    press(Qt::Key_Escape); // then the page
    desk.settle();
    desk.open();
    // What was asked last stands there again; the saved one replaces it.
    CHECK(desk.page->request().filters.strengthAtMost == 20);
    desk.page->filters().clearing().click();
    CHECK(desk.names().isEmpty());
    desk.page->saved().list().setFocus();
    press(Qt::Key_Return);
    CHECK(desk.page->words().text() == QStringLiteral("lemon"));
    CHECK(desk.names() == found);
    desk.page->saved().list().setFocus();
    press(Qt::Key_Delete);
    CHECK(desk.page->saved().list().count() == 0);
    CHECK(desk.window.desk().book()->book().savedSearches().empty());
    REQUIRE(desk.page->banner().isVisible());
    CHECK(desk.page->banner().text().act == QStringLiteral("Undo"));
    const_cast<Banner&>(desk.page->banner()).setFocus();
    press(Qt::Key_Return);
    REQUIRE(desk.page->saved().list().count() == 1);
    CHECK(desk.window.desk().book()->book().savedSearches().front().request.words == "lemon");
}

TEST_CASE("Nothing found says what to do and many are listed as one walks on", "[ui][search]") {
    Finding desk;
    type(QStringLiteral("xylophonequartz"));
    CHECK(desk.names().isEmpty());
    CHECK(desk.page->told() == QStringLiteral("nothing found"));
    CHECK(desk.page->emptyText().contains(QStringLiteral("No drink has all of “xylophonequartz”.")));
    press(Qt::Key_Return); // nothing to open
    CHECK(desk.window.page() == desk.page);
    press(Qt::Key_Escape);
    press(Qt::Key_Escape);
    desk.settle();

    auto& session = *desk.window.desk().book();
    const auto spec = desk.draft().spec();
    for (int i = 0; i < 120; ++i) {
        history::Drink drink;
        drink.name = "Cormorant " + std::to_string(i);
        session.book().addDrink(drink, spec);
    }
    session.reloadShelf();
    // Read a bit at a time while nobody types.
    auto* reading = desk.window.findChild<SearchReading*>();
    REQUIRE(reading != nullptr);
    REQUIRE(QTest::qWaitFor([&] { return reading->isDone(); }, 20000));
    desk.open();
    type(QStringLiteral("cormor"));
    CHECK(desk.page->results().answer().total == 120);
    CHECK(desk.page->results().rowCount() == 50);
    CHECK(desk.page->told() == QStringLiteral("120 drinks, the first 50 listed"));
    press(Qt::Key_Down);
    CHECK(desk.page->list().hasFocus());
    CHECK(desk.page->list().currentIndex().row() == 1);
    press(Qt::Key_End);
    REQUIRE(QTest::qWaitFor([&] { return desk.page->results().rowCount() == 120; }));
    CHECK(desk.page->told() == QStringLiteral("120 drinks"));
    press(Qt::Key_Home);
    press(Qt::Key_Up);
    CHECK(desk.page->words().hasFocus());
}

TEST_CASE("What is in the bin is found when it is asked for", "[ui][search]") {
    Finding desk;
    auto& session = *desk.window.desk().book();
    const auto& shelf = session.shelf();
    const auto ox =
        std::find_if(shelf.begin(), shelf.end(), [](const auto& s) { return s.name == "Ox Skerry"; });
    REQUIRE(ox != shelf.end());
    REQUIRE(desk.window.desk().binDrink(ox->id, true));
    desk.page->words().setFocus();
    type(QStringLiteral("skerry"));
    CHECK_FALSE(desk.names().contains(QStringLiteral("Ox Skerry")));
    store::SearchRequest request;
    request.words = "skerry";
    request.filters.states = {store::SearchState::Binned};
    desk.page->ask(request);
    REQUIRE(desk.names() == QStringList{QStringLiteral("Ox Skerry")});
    CHECK(desk.page->results().row(0).binned);
}
