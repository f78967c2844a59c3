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

Tasting scored(const std::string& by, int sweet) {
    Tasting tasting = said(by, "");
    tasting.scores.byScale["sweet"] = {sweet, ScaleKind::FifteenPoint};
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

TEST_CASE("What is denied or compared is no wish", "[tasting][asks][wishes]") {
    for (const char* note : {"Not too sweet. Lovely.",
                             "never too sweet",
                             "isn't too sweet",
                             "isn’t too sweet",
                             "not at all too sweet",
                             "no longer too sweet",
                             "I do not find it too sweet",
                             "nobody found it too sweet",
                             "not too strong or too sweet",
                             "not a bit too sweet",
                             "hardly too sweet",
                             "less sweet than r3",
                             "tastes less sweet now",
                             "it is a little less sweet",
                             "no less sweet",
                             "sweet",
                             "Less sweet this time",
                             "wouldn't call it too sweet",
                             "too\nsweet",
                             "not quite too sweet"}) {
        INFO(note);
        CHECK_FALSE(saysTooMuch(said("MK", note), "sweet", "sweet"));
    }
    for (const char* note :
         {"too sweet", "Too sweet, not sour", "not bad, too sweet", "not bad but too sweet", "far too sweet",
          "a touch too sweet", "Less sweet, please.", "could be less sweet", "not sour; too sweet",
          "too much sweet", "nice - too sweet", "No. Too sweet.", "never mind the ice: too sweet"}) {
        INFO(note);
        CHECK(saysTooMuch(said("MK", note), "sweet", "sweet"));
    }
    Tasting next = said("MK", "");
    next.tryNext = "less sweet than r3"; // asked for, and no report
    CHECK(saysTooMuch(next, "sweet", "sweet"));
    for (const char* note :
         {"not too little sweet", "more sweet than r2", "is more sweet now", "no more sweet"}) {
        INFO(note);
        CHECK_FALSE(saysTooLittle(said("MK", note), "sweet", "sweet"));
    }
    for (const char* note : {"isn't sweet enough", "never quite sweet enough", "nowhere near sweet enough"}) {
        INFO(note);
        CHECK(saysTooLittle(said("MK", note), "sweet", "sweet"));
    }
}

TEST_CASE("A wish for more or less of a line is heard by its name", "[tasting][asks][wishes]") {
    const auto spec = drink({line("London dry gin", 45), line("sweet vermouth", 20), line("lemon juice", 20),
                             line("honey syrup", 10), line("simple syrup", 5)},
                            spec::Technique::Shake);
    const auto heard = [&](const std::string& note, const std::string& next = "") {
        Tasting tasting = said("MK", note);
        tasting.tryNext = next;
        std::string words;
        for (const Ask& ask : asksOf({tasting}, {kSweet, kSourScale}, spec))
            words += (words.empty() ? "" : "; ") + std::string(ask.wish == AskFor::Less ? "less " : "more ") +
                     ask.scale.name + (ask.line ? "" : " (scale)");
        return words;
    };
    CHECK(heard("", "Lemon down, nothing else") == "less lemon juice");
    CHECK(heard("Smoke, then lemon with its elbows out.", "More honey under it.") == "more honey syrup");
    CHECK(heard("Half the gin.") == "less London dry gin");
    CHECK(heard("too much lemon") == "less lemon juice");
    CHECK(heard("needs a touch more lemon") == "more lemon juice");
    CHECK(heard("up the honey, lemon a little down") == "less lemon juice; more honey syrup");
    CHECK(heard("less sweet vermouth") == "less sweet vermouth"); // and nothing of sweetness
    CHECK(heard("too sweet, less vermouth") == "less sweet (scale); less sweet vermouth");
    CHECK(heard("not enough lemon") == "more lemon juice");
    // Of two lines none, of denials and reports none.
    CHECK(heard("more syrup").empty());
    CHECK(heard("not too much lemon").empty());
    CHECK(heard("no more lemon").empty());
    CHECK(heard("more lemon than r2").empty());
    CHECK(heard("more dry").empty());
    CHECK(heard("lemon first, then honey").empty());
    // The change to try is one step of that line.
    const auto asks = asksOf({said("MK", "lemon down")}, {kSweet}, sour());
    REQUIRE(asks.size() == 1);
    const auto s = shelf();
    const auto found = candidatesFor(asks[0], sour(), spec::Bindings(sour(), s.larder, s.rules()));
    REQUIRE(found.size() == 1);
    CHECK(found[0].line == 2);
    CHECK(found[0].after.amount == quantity::Amount::exact(*quantity::Rational::make(35, 2)));
}

TEST_CASE("Every next change to try is kept as it was written", "[tasting][asks]") {
    Tasting first = said("MK", "fine");
    first.tryNext = "Lemon down, nothing else";
    Tasting second = said("TO", "thin");
    second.tryNext = "  ";
    CHECK(nextChanges({first, second, first}) ==
          std::vector<NextChange>{{first.taster, "Lemon down, nothing else"},
                                  {first.taster, "Lemon down, nothing else"}});
}

TEST_CASE("Too bitter turns what is bitter by its name or its group", "[tasting][asks]") {
    auto s = shelf();
    s.put("gentian liqueur", {{20}, {150}, {0}}).put("amaro", {{28}, {200}, {0}});
    const auto spec =
        drink({line("gin", 45), line("gentian liqueur", 20), line("amaro", 10), line("syrup", 5)},
              spec::Technique::Stir);
    const auto found = candidatesFor({{"bitter", "bitter", {}}, AskFor::Less, 1, 0}, spec,
                                     spec::Bindings(spec, s.larder, s.rules()));
    REQUIRE(found.size() == 2);
    CHECK(found[0].line == 1);
    CHECK(found[1].line == 2);
    CHECK(found[0].direction == -1);
}

TEST_CASE("Means of one step are of the tasters who scored both", "[tasting][course]") {
    history::Revision first, second;
    first.spec = sour();
    second.spec = sour();
    second.spec.lines[1] = line("syrup", 15);
    const auto none = [](const std::string&) -> const larder::FactState* { return nullptr; };
    const auto course = scoreCourse({{&first, {scored("MK", 12), scored("TO", 4)}},
                                     {&second, {scored("MK", 10), scored("IB", 3), scored("JW", 3)}}},
                                    {kSweet}, none);
    REQUIRE(course.steps.size() == 1);
    const auto& step = course.steps[0];
    CHECK(step.tasters == StepTasters{1, 1, 2});
    CHECK(step.before[0] == ScoreMean{12, 1}); // and not the mean of 12 and 4
    CHECK(step.after[0] == ScoreMean{10, 1});
    CHECK(course.means[0][0] == ScoreMean{8, 2}); // the chart shows everyone
    // Others altogether: told as such.
    const auto others =
        scoreCourse({{&first, {scored("MK", 12)}}, {&second, {scored("IB", 3)}}}, {kSweet}, none);
    CHECK(others.steps[0].isOfOthers());
    CHECK(others.steps[0].before[0] == ScoreMean{12, 1});
    // Twice at the same glass is one person.
    const auto twice = scoreCourse(
        {{&first, {scored("MK", 12), scored("MK", 10)}}, {&second, {scored("MK", 7)}}}, {kSweet}, none);
    CHECK(twice.steps[0].before[0] == ScoreMean{11, 1});
}

TEST_CASE("How long a drink stood is a variable like any other", "[tasting][course]") {
    history::Revision first, second;
    first.spec = second.spec = sour();
    const auto none = [](const std::string&) -> const larder::FactState* { return nullptr; };
    const auto aged = [](int minutes) {
        Tasting tasting = scored("MK", 8);
        tasting.circumstances.glassAgeMinutes = minutes;
        return tasting;
    };
    const auto stepOf = [&](const Tasting& a, const Tasting& b) {
        return scoreCourse({{&first, {a}}, {&second, {b}}}, {kSweet}, none).steps.at(0);
    };
    REQUIRE(stepOf(aged(1), aged(15)).single);
    CHECK(stepOf(aged(1), aged(15)).single->name == "how long it stood (1 → 15 min)");
    CHECK(stepOf(aged(1), aged(3)).things.empty());         // as good as the same
    CHECK(stepOf(aged(1), scored("MK", 8)).things.empty()); // not said
    second.spec.lines[1] = line("syrup", 15);
    CHECK(stepOf(aged(1), aged(15)).isMuddled());
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
    const auto none = [](const std::string&) -> const larder::FactState* { return nullptr; };
    const auto course = scoreCourse({{&first, {scored("MK", 12), scored("TO", 10)}},
                                     {&second, {scored("MK", 8)}},
                                     {&third, {scored("MK", 7)}}},
                                    {kSweet}, none);
    REQUIRE(course.steps.size() == 2);
    CHECK(course.means[0][0] == ScoreMean{11, 2});
    REQUIRE(course.steps[0].single);
    CHECK(course.steps[0].single->name == "syrup");
    CHECK_FALSE(course.steps[0].isMuddled());
    CHECK(course.steps[1].isMuddled());
    CHECK_FALSE(course.steps[1].single);
    CHECK(course.steps[1].things.size() == 2);
    // One that nobody tasted is passed over, and its change is told with the next.
    const auto over = scoreCourse({{&first, {scored("MK", 12)}}, {&second, {}}, {&third, {scored("MK", 7)}}},
                                  {kSweet}, none);
    REQUIRE(over.steps.size() == 1);
    CHECK(over.steps[0].things.size() == 3);
    CHECK(over.steps[0].before[0]->mean == 12);
    CHECK(over.steps[0].after[0]->mean == 7);
}
