#include "core/store/bench_rules.h"

#include "core/spec/calibration.h"
#include "core/store/measured_tastings.h"
#include "core/store/workbook.h"
#include "tests/core/store/store_support.h"
#include "tests/support/catch.h"

#include <cmath>

using namespace stillroom;
using namespace stillroom::test;
using store::Workbook;

namespace {

spec::Spec shakenGin() {
    spec::Line line;
    line.written = "60 ml London dry gin";
    line.name = "London dry gin";
    line.poured = {quantity::Amount::exact(60), quantity::Measure::Ml};
    spec::Spec spec;
    spec.lines.push_back(line);
    spec.method.technique = spec::Technique::Shake;
    return spec;
}

spec::Spec knownGin(const Workbook& book) {
    auto spec = shakenGin();
    spec.lines[0].ingredient = book.larder().match("London dry gin").ingredient;
    return spec;
}

} // namespace

TEST_CASE("three measured revisions move the prediction of drafts and of nothing kept", "[store][bench]") {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    auto book = Workbook::create(folder.file("low-lamp.stillroom"), lowLamp(), clock);
    CHECK_FALSE(store::benchRules(*book, book->larder()).bench);

    history::Drink drink;
    drink.id = base::DrinkId::random();
    drink.name = "Ox Skerry";
    const auto draft = book->addDrink(drink, shakenGin());
    const auto plain = book->keep(draft.id, "as predicted");
    REQUIRE(plain);
    const double predicted = plain->readings[spec::Stage::Mixed][spec::Quantity::Dilution].value;
    REQUIRE(predicted > 0);
    CHECK_FALSE(store::benchRules(*book, book->larder()).bench);

    const std::vector<double> measured{0.50, 0.56, 0.59};
    for (const double ratio : measured) {
        auto spec = shakenGin();
        spec.method.dilution = spec::DilutionEntry{ratio, spec::DilutionOrigin::Measured, "weighed"};
        book->saveDraft(draft.id, spec);
        REQUIRE(book->keep(draft.id, "weighed again"));
    }
    const auto rules = store::benchRules(*book, book->larder());
    REQUIRE(rules.bench);
    const auto& shaken = rules.bench->of(spec::Technique::Shake);
    CHECK(shaken.measurements == 3);
    CHECK(shaken.factor == Approx(0.55 / predicted)); // (0.50 + 0.56 + 0.59) / 3
    CHECK(shaken.low == Approx(0.50 / predicted));
    CHECK(shaken.high == Approx(0.59 / predicted));
    // Deviations -0.05, 0.01 and 0.04: squares 0.0042 over two.
    CHECK(shaken.standardDeviation == Approx(std::sqrt(0.0021) / predicted));
    CHECK(rules.bench->of(spec::Technique::Stir).measurements == 0);

    const auto moved = spec::evaluate(shakenGin(), book->larder(), rules);
    CHECK(moved[spec::Stage::Mixed][spec::Quantity::Dilution].value == Approx(0.55));
    const auto kept = book->revision(plain->id);
    REQUIRE(kept);
    CHECK(kept->readings[spec::Stage::Mixed][spec::Quantity::Dilution].value == Approx(predicted));
    CHECK_FALSE(book->settings().rules.bench); // of the drafts, not of the settings
}

TEST_CASE("a revision is kept with the water its draft was seen to take", "[store][bench]") {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    auto book = Workbook::create(folder.file("low-lamp.stillroom"), lowLamp(), clock);
    const auto draft = book->addDrink(drinkNamed("Ox Skerry"), shakenGin());
    const auto before = book->keep(draft.id, "as predicted");
    REQUIRE(before);
    auto spec = shakenGin();
    spec.method.dilution = spec::DilutionEntry{0.60, spec::DilutionOrigin::Measured, "weighed"};
    book->saveDraft(draft.id, spec);
    REQUIRE(book->keep(draft.id, "weighed"));

    spec = shakenGin();
    spec.glass = "a larger coupe";
    book->saveDraft(draft.id, spec);
    const auto rules = store::benchRules(*book, book->larder());
    const auto seen = spec::evaluate(spec, book->larder(), rules);
    const auto kept = book->keep(draft.id, "predicted again, at this bench");
    REQUIRE(kept);
    CHECK(kept->readings == seen);
    const auto dilution = [](const history::Revision& revision) {
        return revision.readings[spec::Stage::Mixed][spec::Quantity::Dilution].value;
    };
    CHECK(dilution(*kept) == Approx(0.60));
    CHECK(dilution(*book->revision(before->id)) == dilution(*before)); // history stands
    CHECK(dilution(*before) != Approx(0.60));
    // A drink nobody kept yet stands on the shelf as its page will read.
    auto other = shakenGin();
    other.lines[0].poured.amount = quantity::Amount::exact(45);
    book->addDrink(drinkNamed("Quill Point"), other);
    const auto served =
        spec::evaluate(other, book->larder(), rules)[spec::Stage::Served][spec::Quantity::Strength];
    for (const auto& summary : book->summaries())
        if (summary.name == "Quill Point") CHECK(summary.servedStrength == served);
}

TEST_CASE("a measurement that later revisions carry along counts once", "[store][bench]") {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    auto book = Workbook::create(folder.file("low-lamp.stillroom"), lowLamp(), clock);
    const auto shakes = [&] {
        const auto rules = store::benchRules(*book, book->larder());
        return rules.bench ? rules.bench->of(spec::Technique::Shake).measurements : 0;
    };
    auto spec = shakenGin();
    spec.method.dilution = spec::DilutionEntry{0.60, spec::DilutionOrigin::Measured, "weighed"};
    const auto draft = book->addDrink(drinkNamed("Ox Skerry"), spec);
    REQUIRE(book->keep(draft.id, "weighed"));
    CHECK(shakes() == 1);
    for (const char* glass : {"small coupe", "large coupe"}) {
        spec.glass = glass;
        book->saveDraft(draft.id, spec);
        REQUIRE(book->keep(draft.id, "another glass"));
    }
    CHECK(shakes() == 1);
    spec.method.dilution->how = "weighed again";
    book->saveDraft(draft.id, spec);
    REQUIRE(book->keep(draft.id, "weighed again"));
    CHECK(shakes() == 2);
    // Two drinks that happened to take up the same are two.
    const auto other = book->addDrink(drinkNamed("Mull Head"), spec);
    REQUIRE(book->keep(other.id, "weighed"));
    CHECK(shakes() == 3);
}

TEST_CASE("a weight taken while tasting counts for its method until it is corrected away", "[store][bench]") {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    auto book = Workbook::create(folder.file("low-lamp.stillroom"), lowLamp(), clock);
    const auto shaken = [&] {
        const auto rules = store::benchRules(*book, book->larder());
        return rules.bench ? rules.bench->of(spec::Technique::Shake) : physics::Calibration{};
    };
    const auto draft = book->addDrink(drinkNamed("Ox Skerry"), knownGin(*book));
    const auto kept = book->keep(draft.id, "the idea");
    REQUIRE(kept);
    const spec::Bindings bindings(kept->spec, book->larderOf(*kept), book->rulesOf(*kept));
    const double before = spec::compositionOf(kept->spec, bindings, spec::Stage::Measured).totalGrams();
    const double predicted = kept->readings[spec::Stage::Mixed][spec::Quantity::Dilution].value;

    tasting::Tasting tasting;
    tasting.revision = kept->id;
    tasting.taster = book->addPerson("Mara Kell", "MK");
    tasting.note = "as it came";
    tasting.circumstances.measured.weight = quantity::Mass::fromGrams(std::round(before) + 35);
    const auto first = book->addTasting(tasting);
    REQUIRE(shaken().measurements == 1);
    const double one = shaken().factor * predicted;
    // So many grams of water over the volume that 60 ml of gin have by themselves.
    CHECK(one == Approx((std::round(before) + 35 - before) / 0.9982 / 60).epsilon(0.001));
    tasting.circumstances.measured.weight = quantity::Mass::fromGrams(std::round(before) + 41);
    book->addTasting(tasting);
    CHECK(shaken().measurements == 2);
    CHECK(shaken().standardDeviation > 0);

    // A slip put right: the weight was of another glass.
    auto amended = first;
    amended.id = {};
    amended.amends = first.id;
    amended.circumstances = {};
    book->addTasting(amended);
    CHECK(shaken().measurements == 1);
    // The next draft reads by it, and what is kept is what was seen.
    auto spec = knownGin(*book);
    spec.glass = "a larger coupe";
    book->saveDraft(draft.id, spec);
    const auto seen = spec::evaluate(spec, book->larder(), store::benchRules(*book, book->larder()));
    const auto again = book->keep(draft.id, "another glass");
    REQUIRE(again);
    CHECK(again->readings == seen);
    CHECK(store::temperatureBench(*book, spec::Technique::Shake).measurements == 0);
    tasting.circumstances = {};
    tasting.circumstances.glassAgeMinutes = 1;
    tasting.circumstances.measured.temperature = quantity::Temperature::fromCelsius(2);
    book->addTasting(tasting);
    CHECK(store::temperatureBench(*book, spec::Technique::Shake).measurements == 1);
    CHECK(store::temperatureBench(*book, spec::Technique::Stir).measurements == 0);
}

TEST_CASE("the weight that a revision was made by counts once when it is noted at tasting too",
          "[store][bench]") {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    auto book = Workbook::create(folder.file("low-lamp.stillroom"), lowLamp(), clock);
    auto spec = knownGin(*book);
    const spec::Bindings bindings(spec, book->larder(), book->settings().rules);
    const double before = spec::compositionOf(spec, bindings, spec::Stage::Measured).totalGrams();
    spec.method.dilution =
        spec::dilutionFromWeight(spec, bindings, quantity::Mass::fromGrams(std::round(before) + 35));
    REQUIRE(spec.method.dilution);
    const auto draft = book->addDrink(drinkNamed("Ox Skerry"), spec);
    const auto kept = book->keep(draft.id, "weighed");
    REQUIRE(kept);
    tasting::Tasting tasting;
    tasting.revision = kept->id;
    tasting.taster = book->addPerson("Mara Kell", "MK");
    tasting.circumstances.measured.weight = quantity::Mass::fromGrams(std::round(before) + 35);
    book->addTasting(tasting);
    CHECK(book->measuredSpecs().size() == 1);
    tasting.circumstances.measured.weight = quantity::Mass::fromGrams(std::round(before) + 40);
    book->addTasting(tasting);
    CHECK(book->measuredSpecs().size() == 2);
}
