#include "core/tasting/measured_drink.h"

#include "core/larder/larder.h"
#include "core/physics/mixture.h"
#include "core/preparation/measured_facts.h"
#include "tests/support/catch.h"

#include <cmath>

using namespace stillroom;
using namespace stillroom::tasting;
using quantity::Mass;
using quantity::Temperature;
using quantity::Volume;

namespace {

const larder::Larder& handbook() {
    static const larder::Larder known;
    return known;
}

spec::Line line(const std::string& name, int ml, spec::Role role = spec::Role::Mixed) {
    spec::Line made;
    made.name = name;
    made.ingredient = handbook().match(name).ingredient;
    made.written = std::to_string(ml) + " ml " + name;
    made.poured = {quantity::Amount::exact(ml), quantity::Measure::Ml};
    made.role = role;
    return made;
}

spec::Spec shaken() {
    spec::Spec spec;
    spec.lines = {line("London dry gin", 60)};
    spec.method.technique = spec::Technique::Shake;
    return spec;
}

Circumstances weighed(double grams) {
    Circumstances said;
    said.measured.weight = Mass::fromGrams(grams);
    return said;
}

} // namespace

TEST_CASE("The water is what the glass weighs more than went in", "[tasting][measured]") {
    const spec::Bindings bindings(shaken(), handbook(), {});
    const auto mixed = spec::compositionOf(shaken(), bindings, spec::Stage::Measured);
    const double before = mixed.totalGrams();
    REQUIRE(before > 50);
    const auto entry = dilutionMeasured(shaken(), bindings, weighed(before + 30));
    REQUIRE(entry);
    CHECK(entry->origin == spec::DilutionOrigin::Measured);
    // 30 g of water are 30/0.9982 ml, over the volume of what went in.
    CHECK(entry->ratio == Approx(30 / 0.9982 / physics::volumeAt20(mixed).ml()));
    CHECK(dilutionMeasured(shaken(), bindings, weighed(before - 1)).error() == NotCounted::LessThanWentIn);
    CHECK(dilutionMeasured(shaken(), bindings, weighed(9000)).error() == NotCounted::TooMuch);
    CHECK(dilutionMeasured(shaken(), bindings, {}).error() == NotCounted::NothingMeasured);
}

TEST_CASE("One serve of several is weighed and what was poured on top is taken off", "[tasting][measured]") {
    auto spec = shaken();
    spec.lines[0] = line("London dry gin", 120);
    spec.serves = 2;
    spec.lines.push_back(line("soda water", 100, spec::Role::Topped));
    const spec::Bindings bindings(spec, handbook(), {});
    const auto mixed = spec::compositionOf(spec, bindings, spec::Stage::Measured);
    const double onTop = spec::compositionOf(spec, bindings, spec::Stage::Served).totalGrams() -
                         spec::compositionOf(spec, bindings, spec::Stage::Mixed).totalGrams();
    REQUIRE(onTop == Approx(100).margin(2));
    const auto entry = dilutionMeasured(spec, bindings, weighed((mixed.totalGrams() + 60 + onTop) / 2));
    REQUIRE(entry);
    CHECK(entry->ratio == Approx(60 / 0.9982 / physics::volumeAt20(mixed).ml()));
    Circumstances poured;
    poured.measured.volume = Volume::fromMl(140);
    CHECK(dilutionMeasured(spec, bindings, poured).error() == NotCounted::ToppedVolume);
}

TEST_CASE("A volume is brought to twenty degrees by the temperature measured with it",
          "[tasting][measured]") {
    const spec::Bindings bindings(shaken(), handbook(), {});
    auto whole = spec::compositionOf(shaken(), bindings, spec::Stage::Measured);
    const double went = physics::volumeAt20(whole).ml();
    whole[physics::Substance::Water] += 30;
    const auto cold = Temperature::fromCelsius(-4);
    const auto there = physics::volumeAt(whole, cold);
    REQUIRE(there);
    REQUIRE(there->value.ml() < physics::volumeAt20(whole).ml()); // it shrinks
    Circumstances said;
    said.measured.volume = there->value;
    const auto asWarm = dilutionMeasured(shaken(), bindings, said);
    said.measured.temperature = cold;
    const auto corrected = dilutionMeasured(shaken(), bindings, said);
    REQUIRE(asWarm);
    REQUIRE(corrected);
    CHECK(corrected->ratio == Approx(30 / 0.9982 / went).epsilon(1e-4));
    CHECK(asWarm->ratio < corrected->ratio);
    CHECK(asWarm->how.find("taken as read at 20") != std::string::npos);
}

TEST_CASE("What stood on ice counts only at once", "[tasting][measured]") {
    auto spec = shaken();
    spec.glass = "rocks glass over ice";
    const spec::Bindings bindings(spec, handbook(), {});
    auto said = weighed(90);
    CHECK(dilutionMeasured(spec, bindings, said).error() == NotCounted::StoodOnIce);
    said.glassAgeMinutes = 5;
    CHECK(dilutionMeasured(spec, bindings, said).error() == NotCounted::StoodOnIce);
    said.glassAgeMinutes = 0;
    CHECK(dilutionMeasured(spec, bindings, said));
}

TEST_CASE("What went in must be known before water can be told from it", "[tasting][measured]") {
    auto spec = shaken();
    spec::Line open;
    open.name = open.written = "lemon juice";
    spec.lines.push_back(open);
    const spec::Bindings bindings(spec, handbook(), {});
    CHECK(dilutionMeasured(spec, bindings, weighed(90)).error() == NotCounted::OpenAmounts);
    spec.lines.pop_back();
    spec.method.technique = spec::Technique::Hot;
    const spec::Bindings hot(spec, handbook(), {});
    CHECK(dilutionMeasured(spec, hot, weighed(90)).error() == NotCounted::NoMethod);
}

TEST_CASE("A refractometer tells the water of a drink whose lines are known", "[tasting][measured]") {
    auto spec = shaken();
    spec.lines.push_back(line("simple syrup", 30));
    const spec::Bindings bindings(spec, handbook(), {});
    const auto mixed = spec::compositionOf(spec, bindings, spec::Stage::Measured);
    const auto showing = [&](double water) {
        auto wetter = mixed;
        wetter[physics::Substance::Water] += water;
        return quantity::MassFraction::fromPercent(preparation::refractometerShows(wetter).value());
    };
    Circumstances said;
    said.measured.brixRead = showing(40);
    const auto entry = dilutionMeasured(spec, bindings, said);
    REQUIRE(entry);
    CHECK(entry->ratio == Approx(40 / 0.9982 / physics::volumeAt20(mixed).ml()).epsilon(1e-4));
    CHECK(entry->how.find("°Bx when tasted, good to ±0.") == 5); // after "28.9 "
    // A weight beside it is believed instead.
    said.measured.weight = Mass::fromGrams(mixed.totalGrams() + 20);
    CHECK(dilutionMeasured(spec, bindings, said)->ratio ==
          Approx(20 / 0.9982 / physics::volumeAt20(mixed).ml()));
    said.measured.weight.reset();
    said.measured.brixRead = quantity::MassFraction::fromPercent(showing(0).percent() + 1);
    CHECK(dilutionMeasured(spec, bindings, said).error() == NotCounted::LessThanWentIn);
    said.measured.brixRead = quantity::MassFraction::fromPercent(0.2);
    CHECK(dilutionMeasured(spec, bindings, said).error() == NotCounted::TooMuch);
    // What is poured on top thins it too and is no melted ice.
    auto topped = spec;
    topped.lines.push_back(line("soda water", 50, spec::Role::Topped));
    const spec::Bindings more(topped, handbook(), {});
    const auto served = spec::compositionOf(topped, more, spec::Stage::Served);
    const auto before = spec::compositionOf(topped, more, spec::Stage::Mixed);
    said.measured.brixRead = showing(40 + served.totalGrams() - before.totalGrams());
    CHECK(dilutionMeasured(topped, more, said)->ratio == Approx(entry->ratio).epsilon(0.01));
}

TEST_CASE("A refractometer is not believed through cream or where nothing is dissolved",
          "[tasting][measured]") {
    Circumstances said;
    said.measured.brixRead = quantity::MassFraction::fromPercent(8);
    auto creamy = shaken();
    creamy.lines.push_back(line("heavy cream", 30));
    const spec::Bindings cream(creamy, handbook(), {});
    CHECK(dilutionMeasured(creamy, cream, said).error() == NotCounted::Cloudy);
    auto thin = shaken();
    thin.lines = {line("beer", 100), line("soda water", 60)};
    const spec::Bindings weak(thin, handbook(), {});
    CHECK(dilutionMeasured(thin, weak, said).error() == NotCounted::TooThin);
    CHECK(notCountedId(NotCounted::TooThin) == "too_thin");
}

TEST_CASE("A temperature is read against the one predicted at that age", "[tasting][measured]") {
    const spec::Bindings bindings(shaken(), handbook(), {});
    Circumstances said;
    said.measured.temperature = Temperature::fromCelsius(5);
    CHECK(temperatureMeasured(shaken(), bindings, said).error() == NotCounted::AgeNotSaid);
    said.glassAgeMinutes = 0;
    const auto atOnce = temperatureMeasured(shaken(), bindings, said);
    said.glassAgeMinutes = 10;
    const auto later = temperatureMeasured(shaken(), bindings, said);
    REQUIRE(atOnce);
    REQUIRE(later);
    CHECK(later->predicted.celsius() > atOnce->predicted.celsius()); // it warms as it stands
    CHECK(later->warmer() == Approx(5 - later->predicted.celsius()));
}

TEST_CASE("The bench of temperatures is a mean with its spread", "[tasting][measured]") {
    const auto found = [](double measured, double predicted) {
        return TemperatureFound{Temperature::fromCelsius(measured), Temperature::fromCelsius(predicted)};
    };
    const std::vector<TemperatureFound> three{found(-2, -3), found(-1, -3), found(1, -2)};
    const auto bench = temperatureBench(three);
    CHECK(bench.measurements == 3);
    CHECK(bench.warmer == Approx(2));            // 1, 2 and 3
    CHECK(bench.standardDeviation == Approx(1)); // squares 1, 0, 1 over two
    CHECK(temperatureBench({}) == TemperatureBench{});
    CHECK(temperatureBench(std::vector{found(0, -1)}).standardDeviation == 0);
}
