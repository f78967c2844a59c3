#include "core/tasting/asks.h"

#include "core/tasting/score_course.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::tasting;
using namespace stillroom::test;
using spec::Quantity;
using spec::Stage;

namespace {

Shelf shelf() {
    Shelf s;
    s.put("gin", {{45}, {0}, {0}}).put("syrup", {{0}, {615}, {0}}).put("lemon", {{0}, {20}, {60}});
    return s;
}

spec::Spec sour() {
    return drink({line("gin", 45), line("syrup", 20), line("lemon", 20)}, spec::Technique::Shake);
}

const ScaleDefinition kSweet{"sweet", "sweet", ScaleKind::FifteenPoint};
const ScaleDefinition kSourScale{"sour", "sour", ScaleKind::FifteenPoint};
const ScaleDefinition kStrong{"strong", "strong", ScaleKind::FifteenPoint};

Tasting said(const std::string& by, const std::string& note) {
    Tasting tasting;
    tasting.taster = base::PersonId::derivedFrom(by);
    tasting.note = note;
    return tasting;
}

double served(const spec::Readings& readings, Quantity quantity) {
    return readings[Stage::Served][quantity].value;
}

} // namespace

TEST_CASE("Wishes are counted by person and the most asked for come first", "[tasting][asks]") {
    auto right = said("IB", "");
    right.scores.byScale["sour"] = {2, ScaleKind::JustAboutRight};
    auto changed = said("MK", "too sour now");
    const auto asks = asksOf({said("MK", "too sweet"), said("TO", "Less sweet, please."), right,
                              said("JW", "a little more sweet"), changed, said("MK", "still too sweet")},
                             {kSweet, kSourScale, kStrong});
    REQUIRE(asks.size() == 4);
    CHECK(asks[0] == Ask{kSweet, AskFor::Less, 2, 1}); // MK and TO; MK twice is one person
    CHECK(asks[1] == Ask{kSweet, AskFor::More, 1, 2});
    CHECK(asks[2] == Ask{kSourScale, AskFor::Less, 1, 1});
    CHECK(asks[3] == Ask{kSourScale, AskFor::More, 1, 1}); // a two of five is too little
}

TEST_CASE("Too little is asked for in words too", "[tasting][asks]") {
    for (const char* note : {"more sweet", "not sweet enough", "too little sweet.", "Not SWEET enough!"}) {
        INFO(note);
        CHECK(saysTooLittle(said("MK", note), "sweet", "sweet"));
    }
    for (const char* note : {"not sweet", "sweet enough", "too sweet", "nothing more", ""}) {
        INFO(note);
        CHECK_FALSE(saysTooLittle(said("MK", note), "sweet", "sweet"));
    }
}

TEST_CASE("Too sweet becomes less syrup or more acid with what each does", "[tasting][asks]") {
    const auto s = shelf();
    const spec::Bindings bindings(sour(), s.larder, s.rules());
    const auto now = s.read(sour());
    const auto found = candidatesFor({kSweet, AskFor::Less, 1, 0}, sour(), bindings);
    REQUIRE(found.size() == 2);
    CHECK(found[0].line == 1);
    CHECK(found[0].lever == Lever::Itself);
    CHECK(found[0].direction == -1);
    CHECK(found[0].after.amount == quantity::Amount::exact(*quantity::Rational::make(35, 2))); // 17.5 ml
    CHECK(found[1].line == 2);
    CHECK(found[1].lever == Lever::Against);
    CHECK(found[1].after.amount == quantity::Amount::exact(*quantity::Rational::make(45, 2)));
    for (const auto& candidate : found) {
        // As evaluated, nothing guessed.
        const spec::Bindings fresh(candidate.spec, s.larder, s.rules());
        CHECK(candidate.readings == spec::evaluate(candidate.spec, fresh));
        CHECK(served(candidate.readings, Quantity::SugarAcidRatio) < served(now, Quantity::SugarAcidRatio));
        // One line alone is another.
        for (std::size_t i = 0; i < candidate.spec.lines.size(); ++i)
            CHECK((candidate.spec.lines[i].poured == sour().lines[i].poured) == (i != candidate.line));
    }
    CHECK(served(found[0].readings, Quantity::Sugar) < served(now, Quantity::Sugar));
    CHECK(served(found[0].readings, Quantity::Strength) > served(now, Quantity::Strength));
}

TEST_CASE("The other wishes turn the other way", "[tasting][asks]") {
    const auto s = shelf();
    const spec::Bindings bindings(sour(), s.larder, s.rules());
    const auto now = s.read(sour());
    const auto less = candidatesFor({kSourScale, AskFor::Less, 1, 0}, sour(), bindings);
    REQUIRE(less.size() == 2);
    CHECK(less[0].line == 2);
    CHECK(less[0].direction == -1);
    CHECK(less[1].line == 1);
    CHECK(less[1].direction == 1);
    const auto weaker = candidatesFor({kStrong, AskFor::Less, 1, 0}, sour(), bindings);
    REQUIRE(weaker.size() == 1);
    CHECK(weaker[0].line == 0);
    CHECK(served(weaker[0].readings, Quantity::Strength) < served(now, Quantity::Strength));
    const auto stronger = candidatesFor({kStrong, AskFor::More, 1, 0}, sour(), bindings);
    REQUIRE(stronger.size() == 1);
    CHECK(served(stronger[0].readings, Quantity::Strength) > served(now, Quantity::Strength));
    CHECK(candidatesFor({{"aroma", "aroma", {}}, AskFor::More, 1, 0}, sour(), bindings).empty());
}

TEST_CASE("A scale of the house's own turns the line it is called after", "[tasting][asks]") {
    const auto s = shelf();
    const spec::Bindings bindings(sour(), s.larder, s.rules());
    const ScaleDefinition lemon{"lemon", "Lemon", ScaleKind::JustAboutRight};
    const auto found = candidatesFor({lemon, AskFor::Less, 1, 0}, sour(), bindings);
    REQUIRE(found.size() == 1);
    CHECK(found[0].line == 2);
    CHECK(found[0].lever == Lever::NamedLine);
    CHECK(found[0].direction == -1);
}

TEST_CASE("Optional lines and open amounts are no lever", "[tasting][asks]") {
    const auto s = shelf();
    auto spec = sour();
    spec.lines[1].optional = true;
    spec.lines[2].poured.amount = {};
    const spec::Bindings bindings(spec, s.larder, s.rules());
    CHECK(candidatesFor({kSweet, AskFor::Less, 1, 0}, spec, bindings).empty());
}

TEST_CASE("A score is laid to the one thing that changed and to nothing when several did",
          "[tasting][course]") {
    history::Revision first, second, third;
    first.spec = sour();
    second.spec = spec::Spec(sour());
    second.spec.lines[1] = line("syrup", 15);
    third.spec = second.spec;
    third.spec.lines[2] = line("lemon", 25);
    third.spec.glass = "a coupe";
    const auto scored = [](int sweet) {
        Scores scores;
        scores.byScale["sweet"] = {sweet, ScaleKind::FifteenPoint};
        return scores;
    };
    const auto none = [](const std::string&) -> const larder::FactState* { return nullptr; };
    const auto course = scoreCourse(
        {{&first, {scored(12), scored(10)}}, {&second, {scored(8)}}, {&third, {scored(7)}}}, {kSweet}, none);
    REQUIRE(course.steps.size() == 2);
    CHECK(course.means[0][0] == ScoreMean{11, 2});
    REQUIRE(course.steps[0].single);
    CHECK(course.steps[0].single->name == "syrup");
    CHECK_FALSE(course.steps[0].isMuddled());
    CHECK(course.steps[1].isMuddled());
    CHECK_FALSE(course.steps[1].single);
    CHECK(course.steps[1].things.size() == 2);
    // One that nobody tasted is passed over, and its change is told with the next.
    const auto over =
        scoreCourse({{&first, {scored(12)}}, {&second, {}}, {&third, {scored(7)}}}, {kSweet}, none);
    REQUIRE(over.steps.size() == 1);
    CHECK(over.steps[0].things.size() == 3);
    CHECK(over.steps[0].before[0]->mean == 12);
    CHECK(over.steps[0].after[0]->mean == 7);
}
