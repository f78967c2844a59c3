#include "core/base/embedded.h"
#include "core/exchange/book_json.h"
#include "tests/support/catch.h"

#include <string>

using namespace stillroom;
using exchange::bookFromJson;

namespace {

std::string bookWith(const std::string& drinks) {
    return R"({"format": "stillroom-book/1", "name": "Shed", "currency": "EUR",
               "people": [{"initials": "AB", "name": "A. Bell"}], "drinks": [)" +
           drinks + "]}";
}

std::string drinkWith(const std::string& revisions) {
    return bookWith(R"({"name": "Tern", "revisions": [)" + revisions + "]}");
}

constexpr const char* kFirst = R"({"text": ["45 ml gin", "Glass: coupe"], "when": "2026-11-06T21:10:00+01:00",
    "reason": "first", "tastings": [{"by": "AB", "when": "2026-11-06T21:20:00+01:00", "verdict": "change",
    "scores": {"sour": 9}, "note": "sharp", "try_next": "less lemon"}]})";

} // namespace

TEST_CASE("a book in JSON is read into values in its order", "[book-json]") {
    const auto book = bookFromJson(drinkWith(
        std::string(kFirst) +
        R"(, {"text": "50 ml gin", "when": "2026-11-07T21:10:00+01:00", "based_on": "1", "part_ml": 90,
             "dilution": {"ratio": 0.41, "origin": "measured", "how": "weighed"}})"));
    REQUIRE(book);
    CHECK(book->name == "Shed");
    CHECK(book->zone == "UTC");
    REQUIRE(book->drinks.size() == 1);
    const auto& revisions = book->drinks[0].revisions;
    REQUIRE(revisions.size() == 2);
    CHECK(revisions[0].text == "45 ml gin\nGlass: coupe\n");
    CHECK(revisions[0].when.offsetMinutes == 60);
    REQUIRE(revisions[0].tastings.size() == 1);
    CHECK(revisions[0].tastings[0].verdict == tasting::Verdict::Change);
    CHECK(revisions[0].tastings[0].scores.of("sour")->value == 9);
    CHECK_FALSE(revisions[0].tastings[0].scores.of("sweet").has_value());
    CHECK(revisions[1].reason.empty());
    CHECK(revisions[1].basedOn == "1");
    CHECK(revisions[1].partMl == 90.0);
    REQUIRE(revisions[1].dilution);
    CHECK(revisions[1].dilution->origin == spec::DilutionOrigin::Measured);
}

TEST_CASE("what cannot be understood in a book is named with its place", "[book-json]") {
    const auto problem = [](const std::string& text) {
        const auto book = bookFromJson(text);
        return book ? std::string("(read)") : book.error();
    };
    CHECK(problem("{") == "not JSON");
    CHECK(problem("[]") == "must be an object");
    CHECK(problem(R"({"format": "stillroom-book/2"})") == "\"format\" must be \"stillroom-book/1\"");
    CHECK(problem(drinkWith(R"({"text": "x", "when": "yesterday"})")) ==
          "drink 1: Tern: revision 1: \"when\" must be a time like 2026-11-06T21:10:00+00:00");
    CHECK(problem(drinkWith(R"({"txet": "x", "when": "2026-11-06T21:10:00+00:00"})")) ==
          "drink 1: Tern: revision 1: unknown key \"txet\"");
    CHECK(problem(drinkWith(R"({"text": "x", "when": "2026-11-06T21:10:00+00:00", "house": true})")) ==
          "drink 1: Tern: revision 1: a draft is neither tasted nor the house's: give it a \"reason\"");
    CHECK(problem(drinkWith(R"({"text": "x", "when": "2026-11-06T21:10:00+00:00", "reason": "r",
                               "based_on": "1"})")) == "drink 1: Tern: revision 1: no revision 1 before it");
    CHECK(problem(drinkWith(R"({"text": "x", "when": "2026-11-06T21:10:00+00:00", "reason": "r", "tastings":
        [{"by": "ZZ", "when": "2026-11-06T21:20:00+00:00"}]})")) == "Tern: no person signs as \"ZZ\"");
    CHECK(problem(drinkWith(R"({"text": "x", "when": "2026-11-06T21:10:00+00:00", "reason": "r", "tastings":
        [{"by": "AB", "when": "2026-11-06T21:20:00+00:00", "scores": {"sour": 16}}]})")) ==
          "drink 1: Tern: revision 1: tasting 1: \"sour\" must lie between 0 and 15");
}

TEST_CASE("the sample that the program carries is a book of nine drinks and three preparations",
          "[book-json]") {
    const auto book = bookFromJson(base::embedded("sample-data/nine-lights.json"));
    REQUIRE(book);
    int drinks = 0;
    int preparations = 0;
    int withSeveralRevisions = 0;
    for (const auto& scripted : book->drinks) {
        scripted.drink.form == history::DrinkForm::Drink ? ++drinks : ++preparations;
        if (scripted.revisions.size() >= 2) ++withSeveralRevisions;
    }
    CHECK(drinks == 9);
    CHECK(preparations == 3);
    CHECK(withSeveralRevisions >= 5);
}
