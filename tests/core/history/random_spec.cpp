#include "tests/core/history/random_spec.h"

#include <algorithm>
#include <array>

namespace stillroom::tests {

using quantity::Amount;
using quantity::Measure;
using quantity::Rational;
using spec::Line;
using spec::Measured;
using spec::Method;
using spec::Spec;

namespace {

constexpr std::array kNames{
    "gin",           "London dry gin", "lemon juice", "fresh lemon juice", "lime juice", "simple syrup",
    "sugar syrup",   "honey syrup",    "dark rum",    "amber rum",         "rum",        "coconut milk",
    "coconut cream", "orange bitters", "soda water",  "egg white",         "",           "marashino liquor",
    "cherry liqueur"};
constexpr std::array kMeasures{Measure::Ml,     Measure::Cl,    Measure::FlozUs, Measure::Barspoon,
                               Measure::Dash,   Measure::G,     Measure::Piece,  Measure::Can,
                               Measure::OzMass, Measure::Splash};

} // namespace

Rational RandomSpecs::rational() {
    return *Rational::make(static_cast<std::int64_t>(below(24)), static_cast<std::int64_t>(below(4)) + 1);
}

Measured RandomSpecs::measured() {
    Measured m;
    if (oneIn(10)) return m;
    const Rational low = rational();
    m.amount = oneIn(8) ? Amount::range(low, *Rational::make(25, 1)) : Amount::exact(low);
    if (!oneIn(8)) m.measure = kMeasures[below(kMeasures.size())];
    if (oneIn(8)) m.multiplier = 2;
    return m;
}

Line RandomSpecs::line() {
    Line line;
    const auto name = below(kNames.size());
    line.name = kNames[name];
    if (oneIn(2)) line.ingredient = base::IngredientId::derivedFrom("kind " + std::to_string(name % 8));
    line.poured = measured();
    line.written = line.name + std::to_string(below(3));
    if (oneIn(5)) line.role = static_cast<spec::Role>(below(5));
    if (oneIn(10)) line.retained = measured();
    if (oneIn(10)) line.optional = true;
    if (oneIn(10)) line.note = "cold";
    if (oneIn(12)) line.temperatureC = 4;
    if (oneIn(12)) line.sizeStated = measured();
    if (oneIn(12)) line.abvStated = 40 + static_cast<double>(below(3));
    if (oneIn(12)) line.juiceOf = true;
    if (oneIn(12)) line.beforeStep = static_cast<int>(below(3));
    if (oneIn(12)) line.alternatives.push_back({measured(), "vodka", {}});
    if (oneIn(12))
        line.alternatives.push_back({measured(), "house cordial", base::IngredientId::derivedFrom("made")});
    if (oneIn(12)) line.qualifier = static_cast<spec::Qualifier>(below(4));
    if (oneIn(12)) line.toTaste = true;
    return line;
}

void RandomSpecs::fillMethod(Method& method) {
    method.technique = static_cast<spec::Technique>(below(11));
    if (oneIn(2)) method.seconds = rational();
    if (oneIn(4)) method.text = "Shake hard.";
    if (oneIn(6)) method.iceGrams = 120;
    if (oneIn(6)) method.dilution = spec::DilutionEntry{0.25, spec::DilutionOrigin::Measured, "weighed"};
    method.dryShake = oneIn(5);
    method.strained = !oneIn(6);
    method.dilutionModel = oneIn(6) ? spec::DilutionModel::Balance : spec::DilutionModel::Curve;
    if (oneIn(6)) method.ice = "120 g of wet cubes";
    if (oneIn(6)) method.drinksPerShake = 2;
    if (oneIn(8)) method.iceC = -8;
    if (oneIn(8)) method.iceWetShare = 0.05;
    if (oneIn(8)) method.vessel = "tin_on_tin";
    if (oneIn(8)) method.vesselGrams = 310;
    if (oneIn(8)) method.startC = 5;
}

void RandomSpecs::fillRest(Spec& spec) {
    if (oneIn(3)) spec.glass = "coupe";
    if (oneIn(4)) spec.glassProfile = "coupe";
    if (oneIn(3)) spec.garnish = "cherry";
    spec.serves = static_cast<int>(below(3)) + 1;
    if (oneIn(6)) spec.partTargetMl = 90;
    if (oneIn(6)) spec.yieldMl = 700;
    if (oneIn(6)) spec.iceInGlassG = 100;
    if (oneIn(6)) spec.glassGrams = 240;
    spec.preheatedGlass = oneIn(8);
    spec.steps.clear();
    for (std::size_t n = below(3); n > 0; --n)
        spec.steps.push_back(step());
}

spec::Step RandomSpecs::step() {
    spec::Step step;
    step.kind = static_cast<spec::StepKind>(below(14));
    for (auto figure : {&spec::Step::minutes, &spec::Step::celsius, &spec::Step::waterLostG,
                        &spec::Step::waterLostGPerMinute, &spec::Step::waterGainedG, &spec::Step::heldBackMl,
                        &spec::Step::yieldShare, &spec::Step::gotMl, &spec::Step::gotG, &spec::Step::co2GPerL,
                        &spec::Step::overrun})
        if (oneIn(4)) step.*figure = static_cast<double>(below(20)) / 20;
    if (oneIn(5)) step.note = "through cloth";
    return step;
}

Spec RandomSpecs::spec() {
    Spec spec;
    for (std::size_t n = below(8); n > 0; --n)
        spec.lines.push_back(line());
    fillMethod(spec.method);
    fillRest(spec);
    return spec;
}

Spec RandomSpecs::near(const Spec& spec) {
    Spec next = spec;
    for (std::size_t edits = below(4); edits > 0; --edits) {
        const std::size_t count = next.lines.size();
        switch (below(7)) {
        case 0:
            next.lines.insert(next.lines.begin() + static_cast<std::ptrdiff_t>(below(count + 1)), line());
            break;
        case 1:
            if (count > 0) next.lines.erase(next.lines.begin() + static_cast<std::ptrdiff_t>(below(count)));
            break;
        case 2:
            if (count > 0) next.lines[below(count)].poured = measured();
            break;
        case 3:
            if (count > 0) std::swap(next.lines[below(count)], next.lines[below(count)]);
            break;
        case 4:
            if (count > 0) next.lines[below(count)] = line();
            break;
        case 5:
            fillMethod(next.method);
            break;
        default:
            fillRest(next);
        }
    }
    return next;
}

} // namespace stillroom::tests
