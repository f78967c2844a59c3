#include "core/store/book_export.h"
#include "core/store/book_import.h"
#include "tests/core/store/store_support.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <filesystem>

using namespace stillroom;
using namespace stillroom::test;
using store::OpenMode;
using store::StoreErrorKind;
using store::Workbook;

namespace {

// An orange syrup, and a cream made with it.
struct House {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    std::string path = folder.file("low-lamp.stillroom");
    std::unique_ptr<Workbook> book = Workbook::create(path, lowLamp(), clock);
    larder::Ingredient water = bottleOf("well water", 0);
    history::Draft syrup, cream;

    House() {
        book->saveIngredient(water);
        syrup = preparation("orange syrup", {line("well water", 500, water.id)});
        cream = preparation("orange cream", {line("orange syrup", 500, madeBy(syrup.drink))});
    }
    history::Draft preparation(const std::string& name, std::vector<spec::Line> lines) const {
        history::Drink drink = drinkNamed(name);
        drink.form = history::DrinkForm::Preparation;
        spec::Spec spec;
        spec.lines = std::move(lines);
        return book->addDrink(drink, spec);
    }
    base::IngredientId madeBy(base::DrinkId drink) const {
        for (const larder::Ingredient* ingredient : book->larder().all())
            if (ingredient->madeBy == drink) return ingredient->id;
        return {};
    }
    spec::Spec ofCream() const {
        spec::Spec spec;
        spec.lines = {line("orange cream", 500, madeBy(cream.drink))};
        return spec;
    }
    std::vector<std::string> namedCircles() const {
        std::vector<std::string> names;
        for (const auto& circle : book->circles())
            names.push_back(preparation::namesOf(circle, book->larder()));
        return names;
    }
};

template <class Work>
std::string pathRefused(Work&& work) {
    try {
        work();
    } catch (const store::StoreError& error) {
        CHECK(error.kind() == StoreErrorKind::Circle);
        return error.what();
    }
    return "nothing was refused";
}

// A circle begins anywhere: which of the two is first hangs on their ids.
bool namesBoth(const std::string& path) {
    return path == "orange syrup > orange cream > orange syrup" ||
           path == "orange cream > orange syrup > orange cream";
}

} // namespace

TEST_CASE("a draft that closes a circle is saved and the larder names the path", "[store][circle]") {
    House h;
    CHECK(h.book->circles().empty());
    CHECK(h.book->preparations().size() == 2);
    h.book->saveDraft(h.syrup.id, h.ofCream());
    REQUIRE(h.namedCircles().size() == 1);
    CHECK(namesBoth(h.namedCircles()[0]));
    h.book.reset();
    h.book = Workbook::open(h.path, OpenMode::ReadWrite, h.clock);
    CHECK(h.book->draft(h.syrup.id)->spec == h.ofCream()); // nothing typed is lost
    REQUIRE(h.namedCircles().size() == 1);
    h.book->saveDraft(h.syrup.id, h.syrup.spec);
    CHECK(h.book->circles().empty());
}

TEST_CASE("keeping a circle is refused with the path named and nothing is lost", "[store][circle]") {
    House h;
    REQUIRE(h.book->keep(h.cream.id, "with the syrup"));
    h.book->saveDraft(h.syrup.id, h.ofCream());
    CHECK(namesBoth(pathRefused([&] { (void)h.book->keep(h.syrup.id, "round and round"); })));
    CHECK(h.book->revisions(h.syrup.drink).empty());
    CHECK(h.book->draft(h.syrup.id)->spec == h.ofCream());
    // A drink of a preparation that stands in a circle is still kept.
    const auto drink = h.book->addDrink(drinkNamed("Ox Skerry"), sour(20, h.madeBy(h.syrup.drink)));
    CHECK(h.book->keep(drink.id, "as it stands"));
    h.book->saveDraft(h.syrup.id, h.syrup.spec);
    CHECK(h.book->keep(h.syrup.id, "water again"));
}

TEST_CASE("making a revision of the house one is refused where it closes a circle", "[store][circle]") {
    House h;
    const auto plain = h.book->keep(h.syrup.id, "plain");
    auto drink = *h.book->drink(h.cream.drink);
    const auto withSyrup = h.book->keep(h.cream.id, "with the syrup");
    spec::Spec water;
    water.lines = {line("well water", 400, h.water.id)};
    h.book->saveDraft(h.cream.id, water);
    const auto withWater = h.book->keep(h.cream.id, "without it");
    REQUIRE((plain && withSyrup && withWater));
    h.book->saveDraft(h.syrup.id, h.ofCream());
    REQUIRE(h.book->keep(h.syrup.id, "of the cream that holds no syrup"));
    drink.house = withSyrup->id;
    CHECK(namesBoth(pathRefused([&] { h.book->saveDrink(drink); })));
    CHECK_FALSE(h.book->drink(h.cream.drink)->house);
}

TEST_CASE("a bottle that closes a circle is not chosen for its kind", "[store][circle]") {
    House h;
    larder::Ingredient kind;
    kind.id = base::IngredientId::random();
    kind.name = "citrus syrup";
    h.book->saveIngredient(kind);
    spec::Spec spec;
    spec.lines = {line("citrus syrup", 500, kind.id)};
    h.book->saveDraft(h.syrup.id, spec);
    kind.houseBottle = h.madeBy(h.cream.drink);
    // The kind between them is named too: nothing else shows where to mend it.
    const std::string path = pathRefused([&] { h.book->saveIngredient(kind); });
    CHECK(path.find("citrus syrup (poured: orange cream)") != std::string::npos);
    CHECK(path.find("orange syrup") != std::string::npos);
    CHECK_FALSE(h.book->larder().find(kind.id)->houseBottle);
    CHECK(h.book->circles().empty());
    kind.houseBottle = h.water.id;
    h.book->saveIngredient(kind);
    CHECK(h.book->larder().find(kind.id)->houseBottle == h.water.id);
}

TEST_CASE("an edit that would close a circle is told before it is saved", "[store][circle]") {
    House h;
    const auto larder = h.book->larder();
    const auto specs = h.book->preparations();
    const auto circle = preparation::circleWith(h.syrup.drink, h.ofCream(), specs, larder);
    REQUIRE(circle);
    CHECK(namesBoth(preparation::namesOf(*circle, larder)));
    CHECK_FALSE(preparation::circleWith(h.syrup.drink, h.syrup.spec, specs, larder));
    CHECK_FALSE(preparation::circleWith(h.cream.drink, h.cream.spec, specs, larder));
    CHECK_FALSE(preparation::circleWith(base::DrinkId::random(), h.ofCream(), specs, larder));
    spec::Spec itself;
    itself.lines = {line("orange syrup", 10, h.madeBy(h.syrup.drink))};
    const auto own = preparation::circleWith(h.syrup.drink, itself, specs, larder);
    REQUIRE(own);
    CHECK(preparation::namesOf(*own, larder) == "orange syrup > orange syrup");
}

TEST_CASE("a book with a circle in it is not imported and the path is named", "[store][circle][import]") {
    House h;
    h.book->saveDraft(h.syrup.id, h.ofCream());
    const auto exported = store::exportBook(*h.book);
    const std::string path = h.folder.file("again.stillroom");
    CHECK(namesBoth(pathRefused([&] { store::createBook(path, exported); })));
    CHECK_FALSE(std::filesystem::exists(path));
}
