#include "core/history/what_changed.h"
#include "tests/support/catch.h"

using namespace stillroom;
using history::changedThings;
using history::difference;
using quantity::Amount;
using quantity::HouseMeasures;
using quantity::Measure;
using quantity::Rational;
using spec::Bound;
using spec::Quantity;
using spec::Spec;
using spec::Stage;

namespace {

spec::Line line(const char* name, Rational amount, Measure measure = Measure::Ml) {
    spec::Line l;
    l.name = name;
    l.poured = {Amount::exact(amount), measure, 1};
    return l;
}

Spec sour() {
    Spec s;
    s.lines = {line("gin", 45), line("lemon juice", *Rational::make(45, 2)), line("honey syrup", 20)};
    s.method.technique = spec::Technique::Shake;
    s.method.seconds = 12;
    return s;
}

std::string words(const Spec& a, const Spec& b) {
    return inWords(difference(a, b, HouseMeasures::defaults()), a, b);
}

std::vector<std::string> things(const Spec& a, const Spec& b) {
    std::vector<std::string> names;
    for (const auto& thing : changedThings(difference(a, b, HouseMeasures::defaults()), a, b))
        names.push_back(thing.name);
    return names;
}

} // namespace

// 3/4 US fluid ounce is 22.18 ml (29.5735 ml an ounce by definition): 0.32 ml under 22.5.
TEST_CASE("another measure for the same pour is no change of drink", "[diff]") {
    Spec a = sour();
    a.lines[1].poured = {Amount::exact(*Rational::make(3, 4)), Measure::FlozUs, 1};
    const auto d = difference(a, sour(), HouseMeasures::defaults());
    CHECK(d.lines[1].amount);
    CHECK(d.lines[1].unit);
    CHECK(d.lines[1].measureOnly);
    CHECK_FALSE(d.lines[1].changesDrink());
    CHECK_FALSE(d.isEmpty()); // it is said, as what it is
    CHECK(*d.lines[1].after - *d.lines[1].before == Approx(0.3199).margin(1e-4));
    CHECK(words(a, sour()) == "lemon juice 0.75 floz → 22.5 ml (only the measure, 0.3 ml more)");
    CHECK(words(sour(), a) == "lemon juice 22.5 ml → 0.75 floz (only the measure, 0.3 ml less)");
    CHECK(things(a, sour()).empty());
    a.lines[1].poured.amount = Amount::exact(1); // 29.57 ml: that is another drink
    CHECK_FALSE(difference(a, sour(), HouseMeasures::defaults()).lines[1].measureOnly);
    CHECK(things(a, sour()) == std::vector<std::string>{"lemon juice"});
    // The same measure, a little less: somebody meant it.
    Spec c = sour();
    c.lines[0].poured.amount = Amount::exact(*Rational::make(445, 10));
    CHECK_FALSE(difference(sour(), c, HouseMeasures::defaults()).lines[0].measureOnly);
}

TEST_CASE("one thing in the place of another is one change", "[diff]") {
    Spec b = sour();
    b.lines[1].name = "lime juice";
    const auto d = difference(sour(), b, HouseMeasures::defaults());
    CHECK(words(sour(), b) == "lemon juice → lime juice 22.5 ml");
    CHECK(things(sour(), b) == std::vector<std::string>{"lime juice for lemon juice"});
    CHECK(singleChange(changedThings(d, sour(), b))->name == "lime juice for lemon juice");
    b.lines[1].poured.amount = Amount::exact(20);
    CHECK(words(sour(), b) == "lemon juice 22.5 ml → lime juice 20 ml");
    // Nothing about pisco says gin; the pour says it.
    b = sour();
    b.lines[0].name = "pisco";
    CHECK(words(sour(), b) == "gin → pisco 45 ml");
    b.lines[0].poured.amount = Amount::exact(60);
    CHECK(things(sour(), b) == std::vector<std::string>{"gin", "pisco"});
    b = sour();
    b.lines[0].name = "dark rum";
    Spec a = sour();
    a.lines[0].name = "amber rum";
    CHECK(difference(a, b, HouseMeasures::defaults()).lines[0].substituted);
}

TEST_CASE("several changes at once are counted and one alone is named", "[diff]") {
    Spec b = sour();
    CHECK(things(sour(), b).empty());
    CHECK_FALSE(history::singleChange({}));
    b.method.seconds = 10;
    CHECK(things(sour(), b) == std::vector<std::string>{"the method"});
    CHECK(words(sour(), b) == "shaken 12 s → 10 s");
    b.lines[0].poured.amount = Amount::exact(50);
    b.glass = "coupe";
    b.garnish = "lemon twist";
    const auto all = changedThings(difference(sour(), b, HouseMeasures::defaults()), sour(), b);
    REQUIRE(all.size() == 4);
    CHECK(all[0].kind == history::ThingKind::Line);
    CHECK(all[1].kind == history::ThingKind::Method);
    CHECK_FALSE(history::singleChange(all));
    // Order alone is no variable.
    b = sour();
    std::swap(b.lines[0], b.lines[2]);
    CHECK(things(sour(), b).empty());
    CHECK(words(sour(), b) == "honey syrup moved; lemon juice moved");
}

TEST_CASE("ice and temperatures are told by their figures", "[diff]") {
    Spec a = sour();
    Spec b = sour();
    a.method.iceGrams = 120;
    b.method.iceGrams = 150;
    a.method.iceC = 0;
    b.method.iceC = -18;
    b.method.startC = 5;
    CHECK(words(a, b) == "ice 120 → 150 g; ice 0 → -18 °C; liquids at unsaid → 5 °C");
    b = a;
    b.method.vessel = "tin";
    CHECK(words(a, b) == "vessel unsaid → tin");
}

TEST_CASE("the steps of a preparation differ by what changed in them", "[diff]") {
    Spec a = sour();
    spec::Step simmer;
    simmer.kind = spec::StepKind::Simmer;
    simmer.minutes = 10;
    a.steps = {simmer};
    Spec b = a;
    b.steps[0].minutes = 12;
    CHECK(difference(a, b, HouseMeasures::defaults()).steps);
    CHECK(words(a, b) == "simmer 10 → 12 min");
    b.steps.push_back({});
    b.steps[1].kind = spec::StepKind::Strain;
    CHECK(words(a, b) == "steps simmer → simmer, strain");
    CHECK(things(a, b) == std::vector<std::string>{"how it is made"});
}

TEST_CASE("what a change did is told by the readings that moved", "[diff]") {
    spec::Readings before, after;
    const auto set = [](spec::Readings& of, Quantity q, double value, Bound bound = Bound::Exact) {
        of[Stage::Served][q] = {value, 0, bound, false, 0};
    };
    set(before, Quantity::Strength, 18.41);
    set(after, Quantity::Strength, 19.06);
    set(before, Quantity::SugarAcidRatio, 7.9);
    set(after, Quantity::SugarAcidRatio, 8.62);
    set(before, Quantity::Volume, 150);
    set(after, Quantity::Volume, 140);
    CHECK(history::effectInWords(before, after) == "18.4 → 19.1 % vol, sugar:acid 7.9 → 8.6");
    set(after, Quantity::Strength, 18.44); // less than is shown
    CHECK(history::effectInWords(before, after) == "sugar:acid 7.9 → 8.6, 150.0 → 140.0 ml");
    set(before, Quantity::SugarAcidRatio, 7, Bound::AtLeast);
    CHECK(history::effectInWords(before, after) == "sugar:acid ≥ 7.0 → 8.6, 150.0 → 140.0 ml");
    set(before, Quantity::SugarAcidRatio, 0, Bound::Unknown); // an unknown moves nothing that can be told
    CHECK(history::effectInWords(before, after) == "150.0 → 140.0 ml");
    CHECK(history::effectInWords(after, after).empty());
    CHECK_FALSE(history::readingChange(before[Stage::Served][Quantity::SugarAcidRatio],
                                       after[Stage::Served][Quantity::SugarAcidRatio],
                                       Quantity::SugarAcidRatio));
    CHECK(*history::readingChange(before[Stage::Served][Quantity::Volume],
                                  after[Stage::Served][Quantity::Volume], Quantity::Volume) == Approx(-10));
}

TEST_CASE("how warm a line is poured is a change of its own", "[diff]") {
    Spec a = sour();
    a.lines.push_back(line("black tea", 90));
    a.lines.back().temperatureC = 90;
    Spec b = a;
    b.lines.back().temperatureC = 50;
    const auto d = difference(a, b, HouseMeasures::defaults());
    CHECK(d.lines.back().temperature);
    CHECK(d.lines.back().changesDrink());
    CHECK_FALSE(d.isEmpty());
    CHECK(words(a, b) == "black tea 90 → 50 °C");
    CHECK(words(b, a) == "black tea 50 → 90 °C");
    CHECK(things(a, b) == std::vector<std::string>{"how warm the black tea is"});
    const auto changed = changedThings(d, a, b);
    REQUIRE(history::singleChange(changed));
    CHECK(history::singleChange(changed)->kind == history::ThingKind::Temperature);
    // With another amount they are two, and a figure that comes or goes is told.
    b.lines.back().poured.amount = Amount::exact(120);
    CHECK(things(a, b) == std::vector<std::string>{"black tea", "how warm the black tea is"});
    CHECK(words(a, b) == "black tea 90 → 120 ml 90 → 50 °C");
    Spec c = a;
    c.lines.back().temperatureC.reset();
    CHECK(words(a, c) == "black tea 90 °C → as it comes");
    CHECK(words(c, a) == "black tea as it comes → 90 °C");
}

TEST_CASE("a heaping spoon and another way out are changes of the drink", "[diff]") {
    Spec a = sour();
    a.lines[2].qualifier = spec::Qualifier::Scant;
    Spec b = sour();
    b.lines[2].qualifier = spec::Qualifier::Heaping;
    CHECK(words(a, b) == "honey syrup scant → heaping");
    CHECK(things(a, b) == std::vector<std::string>{"honey syrup"});
    CHECK(words(sour(), b) == "honey syrup as measured → heaping");
    // "About" and "level" pour what the figure says.
    Spec about = sour();
    about.lines[2].qualifier = spec::Qualifier::About;
    CHECK(things(sour(), about).empty());
    CHECK(words(sour(), about) == "honey syrup (note)");

    Spec offered = sour();
    offered.lines[1].alternatives.push_back({{}, "lime juice", {}});
    CHECK(words(sour(), offered) == "lemon juice (or lime juice)");
    CHECK(words(offered, sour()) == "lemon juice (nothing else in its place)");
    CHECK(things(sour(), offered) == std::vector<std::string>{"lemon juice"});
}
