#include "core/physics/mixture.h"
#include "core/spec/calibration.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using spec::DilutionOrigin;
using spec::DilutionSource;
using spec::Quantity;
using spec::Stage;
using spec::Technique;

namespace {

Shelf shelf() {
    Shelf s;
    s.put("gin", {{45}, {0}, {0}}).put("vermouth", {{16.5}, {150}, {4.5}});
    return s;
}

spec::Spec stirred() {
    return drink({line("gin", 60), line("vermouth", 30)}, Technique::Stir);
}

double predicted(const Shelf& s, const spec::Spec& d, const spec::HouseRules& rules) {
    return spec::evaluate(d, spec::Bindings(d, s.larder, rules))[Stage::Mixed][Quantity::Dilution].value;
}

spec::Spec measuredAt(double ratio) {
    auto d = stirred();
    d.method.dilution = spec::DilutionEntry{ratio, DilutionOrigin::Measured, "weighed"};
    return d;
}

} // namespace

TEST_CASE("weights before and after give the dilution they were made with", "[spec][calibration]") {
    const Shelf s = shelf();
    const auto d = stirred();
    const spec::Bindings bindings(d, s.larder, s.rules());
    const auto mixed = spec::compositionOf(d, bindings, Stage::Measured);
    const double ml = physics::volumeAt20(mixed).ml();
    const double before = mixed.totalGrams();
    const double water = 0.4 * ml * 0.9982;
    const auto entry = spec::dilutionFromWeights(d, bindings, quantity::Mass::fromGrams(before),
                                                 quantity::Mass::fromGrams(before + water));
    REQUIRE(entry);
    CHECK(entry->ratio == Approx(0.4));
    CHECK(entry->origin == DilutionOrigin::Measured);
    CHECK_FALSE(entry->how.empty());
    const auto alone = spec::dilutionFromWeight(d, bindings, quantity::Mass::fromGrams(before + water));
    REQUIRE(alone);
    CHECK(alone->ratio == Approx(0.4));
    // The same drink read in a graduate.
    auto after = mixed;
    after[physics::Substance::Water] += water;
    const auto graduate = spec::dilutionFromVolume(d, bindings, physics::volumeAt20(after));
    REQUIRE(graduate);
    CHECK(graduate->ratio == Approx(0.4).epsilon(1e-4));
    // Less than went in is no dilution.
    CHECK_FALSE(spec::dilutionFromWeights(d, bindings, quantity::Mass::fromGrams(100),
                                          quantity::Mass::fromGrams(90)));
    CHECK_FALSE(spec::dilutionFromWeight(d, bindings, quantity::Mass::fromGrams(before - 5)));
}

TEST_CASE("measured dilutions move the prediction of their technique and no other", "[spec][calibration]") {
    const Shelf s = shelf();
    spec::HouseRules rules = s.rules();
    const double plain = predicted(s, stirred(), rules);
    const std::vector<spec::Spec> kept{measuredAt(1.2 * plain), measuredAt(1.0 * plain),
                                       measuredAt(1.1 * plain)};
    const auto seen = spec::dilutionObservations(kept, s.larder, rules);
    REQUIRE(seen.size() == 3);
    CHECK(seen[0].predicted == Approx(plain));
    rules.bench = spec::benchCalibration(seen);
    const auto& stir = rules.bench->of(Technique::Stir);
    CHECK(stir.measurements == 3);
    CHECK(stir.factor == Approx(1.1));
    CHECK(stir.low == Approx(1.0));
    CHECK(stir.high == Approx(1.2));
    CHECK(stir.standardDeviation == Approx(0.1));
    CHECK(predicted(s, stirred(), rules) == Approx(1.1 * plain));
    auto shaken = stirred();
    shaken.method.technique = Technique::Shake;
    CHECK(predicted(s, shaken, rules) == predicted(s, shaken, s.rules()));
    // The measured ones themselves stay as measured, and the observations as they were.
    CHECK(predicted(s, kept[0], rules) == Approx(1.2 * plain));
    CHECK(spec::dilutionObservations(kept, s.larder, rules)[1].predicted == Approx(plain));
}

TEST_CASE("a typed dilution calibrates nothing", "[spec][calibration]") {
    const Shelf s = shelf();
    auto typed = measuredAt(0.5);
    typed.method.dilution->origin = DilutionOrigin::Typed;
    CHECK(spec::dilutionObservations(std::vector{typed}, s.larder, s.rules()).empty());
    CHECK(spec::benchCalibration({}).isEmpty());
}

TEST_CASE("the source of a dilution is named", "[spec][calibration]") {
    const Shelf s = shelf();
    const auto kindOf = [&](const spec::Spec& d, const spec::HouseRules& rules) {
        return spec::dilutionSource(d, spec::Bindings(d, s.larder, rules));
    };
    CHECK(kindOf(stirred(), s.rules()).kind == DilutionSource::Kind::Curve);
    CHECK(kindOf(measuredAt(0.3), s.rules()).kind == DilutionSource::Kind::Measured);
    auto balance = stirred();
    balance.method.dilutionModel = spec::DilutionModel::Balance;
    CHECK(kindOf(balance, s.rules()).kind == DilutionSource::Kind::HeatBalance);
    auto thrown = stirred();
    thrown.method.technique = Technique::Throw;
    CHECK(kindOf(thrown, s.rules()).kind == DilutionSource::Kind::FixedFigure);
    CHECK_FALSE(kindOf(stirred(), s.rules()).calibration);
    spec::HouseRules rules = s.rules();
    rules.bench = spec::benchCalibration(std::vector<spec::DilutionObservation>{{Technique::Stir, 0.4, 0.5}});
    const auto source = kindOf(stirred(), rules);
    REQUIRE(source.calibration);
    CHECK(source.calibration->measurements == 1);
    CHECK(source.ratio == Approx(1.25 * source.predictedRatio));
}
