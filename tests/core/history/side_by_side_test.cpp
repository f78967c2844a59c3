#include "core/history/side_by_side.h"
#include "core/larder/larder.h"
#include "core/spec/evaluate.h"
#include "tests/core/history/random_spec.h"
#include "tests/support/catch.h"

using namespace stillroom;
using history::Per;
using quantity::HouseMeasures;
using spec::Bound;
using spec::Quantity;
using spec::Reading;
using spec::Stage;

namespace {

spec::Line ml(const char* name, std::int64_t amount) {
    spec::Line line;
    line.name = name;
    line.poured = {quantity::Amount::exact(amount), quantity::Measure::Ml, 1};
    line.ingredient = larder::Larder().match(name).ingredient;
    return line;
}

spec::Readings reading(Quantity quantity, Reading value) {
    spec::Readings readings;
    readings[Stage::Served][quantity] = value;
    return readings;
}

} // namespace

TEST_CASE("readings per 100 ml and per standard drink are the serve scaled", "[side]") {
    spec::Spec spec;
    spec.lines = {ml("London dry gin", 50), ml("lemon juice", 25), ml("simple syrup", 20)};
    spec.method.technique = spec::Technique::Shake;
    const auto serve = spec::evaluate(spec, larder::Larder(), {});
    const auto& of = serve[Stage::Served];
    CHECK(history::scaled(serve, Per::Serve) == serve);
    const auto hundred = history::scaled(serve, Per::HundredMl);
    CHECK(hundred[Stage::Served][Quantity::Volume].value == 100);
    CHECK(hundred[Stage::Served][Quantity::Strength] == of[Quantity::Strength]);
    // g in 100 ml is % vol times the density of ethanol at 20 °C, 0.78924 g/ml (OIML R 22).
    CHECK(hundred[Stage::Served][Quantity::Ethanol].value ==
          Approx(of[Quantity::Strength].value * 0.78924).epsilon(1e-6));
    CHECK(hundred[Stage::Measured][Quantity::Volume].value == 100); // each stage by its own
    const auto drink = history::scaled(serve, Per::StandardDrink);
    CHECK(drink[Stage::Served][Quantity::StandardDrinks].value == 1);
    CHECK(drink[Stage::Served][Quantity::Ethanol].value == serve.standardDrinkGrams);
    CHECK(drink[Stage::Served][Quantity::Volume].value ==
          Approx(of[Quantity::Volume].value / of[Quantity::StandardDrinks].value));
    const auto gin = history::pouredPer(spec, 0, serve, Per::HundredMl, HouseMeasures::defaults());
    REQUIRE(gin);
    CHECK(gin->value == Approx(50 * 100 / of[Quantity::Volume].value));
    spec.serves = 2;
    CHECK(history::pouredPer(spec, 0, serve, Per::Serve, HouseMeasures::defaults())->value == Approx(25));
    CHECK_FALSE(history::pouredPer(spec, 9, serve, Per::Serve, HouseMeasures::defaults()));
}

TEST_CASE("bounds stay bounds when they are scaled", "[side]") {
    const auto costPer100 = [](Reading cost, Reading volume) {
        auto readings = reading(Quantity::Cost, cost);
        readings[Stage::Served][Quantity::Volume] = volume;
        return history::scaled(readings, Per::HundredMl)[Stage::Served][Quantity::Cost];
    };
    CHECK(costPer100({1, 0, Bound::Exact}, {80, 0, Bound::Exact}) == Reading{1.25, 0, Bound::Exact});
    CHECK(costPer100({1, 0, Bound::Exact}, {80, 0, Bound::AtLeast}) == Reading{1.25, 0, Bound::AtMost});
    CHECK(costPer100({1, 0, Bound::Exact}, {80, 0, Bound::AtMost}) == Reading{1.25, 0, Bound::AtLeast});
    CHECK(costPer100({1, 2, Bound::Between}, {80, 100, Bound::Between}) == Reading{1, 2.5, Bound::Between});
    CHECK(costPer100({1, 0, Bound::AtLeast}, {80, 0, Bound::AtLeast}).bound == Bound::Unknown);
    CHECK(costPer100({1, 0, Bound::AtLeast}, {80, 0, Bound::Exact, true}).estimate);
    CHECK(costPer100({0, 0, Bound::Unknown}, {80, 0, Bound::Exact}).bound == Bound::Unknown);
    CHECK(costPer100({1, 0, Bound::Exact}, {0, 0, Bound::Exact}).bound == Bound::NotApplicable);
    CHECK(costPer100({0, 0, Bound::NotApplicable}, {80, 0, Bound::Exact}).bound == Bound::NotApplicable);
    // Nothing to drink in it: there is no standard drink to state anything for.
    auto dry = reading(Quantity::Cost, {1, 0, Bound::Exact});
    dry[Stage::Served][Quantity::StandardDrinks] = {0, 0, Bound::Exact};
    CHECK(history::scaled(dry, Per::StandardDrink)[Stage::Served][Quantity::Cost].bound ==
          Bound::NotApplicable);
    CHECK(history::scaled({}, Per::StandardDrink) == spec::Readings{});
}

TEST_CASE("every line of every column stands in exactly one aligned row", "[side][property]") {
    tests::RandomSpecs random(21);
    for (int round = 0; round < 800; ++round) {
        std::vector<spec::Spec> specs{random.spec()};
        while (specs.size() < 2 + random.below(3))
            specs.push_back(random.near(specs.back()));
        std::vector<const spec::Spec*> columns;
        for (const auto& spec : specs)
            columns.push_back(&spec);
        const std::size_t base = random.below(specs.size());
        const auto rows = history::alignLines(columns, base, HouseMeasures::defaults());
        for (std::size_t c = 0; c < columns.size(); ++c) {
            std::vector<int> seen(specs[c].lines.size());
            for (const auto& row : rows) {
                if (row.line[c] >= 0) ++seen[static_cast<std::size_t>(row.line[c])];
                REQUIRE(row.differences[c].has_value() ==
                        (c != base && (row.line[c] >= 0 || row.line[base] >= 0)));
            }
            REQUIRE(std::all_of(seen.begin(), seen.end(), [](int n) { return n == 1; }));
        }
        int last = -1; // the base keeps its own order
        for (const auto& row : rows)
            if (row.line[base] >= 0) {
                REQUIRE(row.line[base] == last + 1);
                last = row.line[base];
            }
    }
    CHECK(history::alignLines({}, 0, HouseMeasures::defaults()).empty());
}

TEST_CASE("what is gained and lost is told from the base", "[side]") {
    const auto changed = history::gainedLost({"eggs", "milk"}, {"milk", "sulphites"});
    CHECK(changed.gained == std::vector<std::string>{"sulphites"});
    CHECK(changed.lost == std::vector<std::string>{"eggs"});
    CHECK(history::gainedLost({"eggs"}, {"eggs"}).isEmpty());
}

TEST_CASE("a table is copied as tabs or as aligned text", "[side]") {
    const std::vector<std::vector<std::string>> rows{
        {"Ox Skerry", "r2", "r4"}, {"lemon juice", "22.5 ml", "20 ml"}, {"Säure | acid", "0.88", "−"}};
    CHECK(history::asTabbed(rows) ==
          "Ox Skerry\tr2\tr4\nlemon juice\t22.5 ml\t20 ml\nSäure | acid\t0.88\t−\n");
    CHECK(history::asMarkdown(rows) == "| Ox Skerry     | r2      | r4    |\n"
                                       "| ------------- | ------- | ----- |\n"
                                       "| lemon juice   | 22.5 ml | 20 ml |\n"
                                       "| Säure \\| acid | 0.88    | −     |\n");
    CHECK(history::asMarkdown({{"x", "n"}, {"a", "1.5"}, {"b", "—"}}) == "| x   |   n |\n"
                                                                         "| --- | --: |\n"
                                                                         "| a   | 1.5 |\n"
                                                                         "| b   |   — |\n");
    CHECK(history::asTabbed({{"two\nlines", "a\tb"}}) == "two lines\ta b\n");
    CHECK(history::asMarkdown({}).empty());
}
