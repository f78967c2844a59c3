#include "core/physics/acid_ph.h"
#include "core/physics/blending.h"
#include "core/physics/carbonation.h"
#include "core/physics/dilution.h"
#include "core/physics/ethanol_water.h"
#include "core/physics/facts_to_masses.h"
#include "core/physics/food_energy.h"
#include "core/physics/freezing.h"
#include "core/physics/glass_profile.h"
#include "core/physics/heat.h"
#include "core/physics/held.h"
#include "core/physics/hydrometer.h"
#include "core/physics/ice_balance.h"
#include "core/physics/measured_dilution.h"
#include "core/physics/mixture.h"
#include "core/physics/proof.h"
#include "core/physics/refraction.h"
#include "core/physics/sucrose_water.h"
#include "core/physics/sweetness.h"
#include "core/physics/titratable_acid.h"
#include "core/physics/water_activity.h"
#include "tests/support/catch.h"

#include <cmath>
#include <limits>
#include <random>
#include <vector>

// Every public function of core/physics that may refuse, over random and extreme arguments: it answers with
// finite numbers inside the domain its header states, and refuses outside, NaN and infinities included. (The
// conversions have the same test of their own, over the ranges they list.)

using namespace stillroom::physics;
using namespace stillroom::quantity;

namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();
const double kNan = std::numeric_limits<double>::quiet_NaN();
constexpr double kTiny = std::numeric_limits<double>::min();

// Numbers that break things, beside `count` ordinary ones about the range.
std::vector<double> numbers(double low, double high, std::uint64_t seed, int count = 40) {
    std::vector<double> all{kNan,
                            kInf,
                            -kInf,
                            0.0,
                            -0.0,
                            kTiny,
                            -kTiny,
                            1e-300,
                            1e300,
                            -1e300,
                            low,
                            high,
                            std::nextafter(low, -kInf),
                            std::nextafter(low, kInf),
                            std::nextafter(high, -kInf),
                            std::nextafter(high, kInf)};
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> about(low - 0.2 * (high - low), high + 0.2 * (high - low));
    for (int i = 0; i < count; ++i)
        all.push_back(about(random));
    return all;
}

bool within(double x, double low, double high) {
    return x >= low && x <= high; // false for NaN
}

// Whether answering was right, and the answer a number.
void answers(const char* what, std::initializer_list<double> arguments, bool has, double value, bool must) {
    if (has == must && (!has || std::isfinite(value))) return;
    std::string with;
    for (const double a : arguments)
        with += " " + std::to_string(a);
    INFO(what << " of" << with << (must ? " must answer" : " must refuse") << (has ? ", said " : ", refused ")
              << value);
    CHECK(has == must);
    CHECK((!has || std::isfinite(value)));
}

constexpr double number(double x) {
    return x;
}
double number(MassFraction x) {
    return x.fraction();
}
double number(Strength x) {
    return x.fraction();
}
double number(Density x) {
    return x.kgPerM3();
}
double number(Volume x) {
    return x.ml();
}
double number(Mass x) {
    return x.grams();
}
double number(Temperature x) {
    return x.celsius();
}
double number(UsProof x) {
    return x.degrees();
}
double number(UkProof x) {
    return x.degrees();
}
double number(Fizz x) {
    return x.gPerL();
}
double number(GaugePressure x) {
    return x.bar();
}
template <class T>
double number(const Marked<T>& x) {
    return number(x.value);
}

template <class T>
void answers(const char* what, std::initializer_list<double> arguments, const std::optional<T>& answer,
             bool must) {
    answers(what, arguments, answer.has_value(), answer ? number(*answer) : 0, must);
}
// Where the domain is a matter of physics and not of a range: no promise but a finite number.
template <class T>
void finite(const char* what, std::initializer_list<double> arguments, const std::optional<T>& answer) {
    answers(what, arguments, answer, answer.has_value());
}

Composition mixture(std::mt19937_64& random) {
    std::uniform_real_distribution<double> grams(0, 100);
    Composition c;
    c[Substance::Water] = 0.1 + grams(random);
    if (random() % 3 != 0) c[Substance::Ethanol] = grams(random);
    for (std::size_t i = 2; i < kSubstanceCount; ++i)
        if (random() % 4 == 0) c.grams[i] = grams(random) / 5;
    return c;
}

// A mixture that is no mixture: one figure of it is none.
std::vector<Composition> unsound() {
    std::vector<Composition> all;
    for (const Substance s :
         {Substance::Ethanol, Substance::Water, Substance::Sucrose, Substance::Citric, Substance::Fat})
        for (const double bad : {kNan, kInf, -kInf}) {
            Composition c;
            c[Substance::Water] = 60;
            c[Substance::Ethanol] = 30;
            c[Substance::Sucrose] = 10;
            c[s] = bad;
            all.push_back(c);
        }
    return all;
}

} // namespace

TEST_CASE("densities and strengths answer over their domain and refuse outside", "[physics][totality]") {
    for (const double p : numbers(0, 1, 1)) {
        const auto share = MassFraction::fromFraction(p);
        const bool inside = within(p, 0, 1);
        answers("strengthOf", {p}, strengthOf(share), inside);
        answers("massFractionOf", {p}, massFractionOf(Strength::fromFraction(p)), inside);
        answers("usProofOf", {p}, usProofOf(share), inside);
        answers("ukProofOf", {p}, ukProofOf(share), inside);
        answers("usProofOf strength", {p}, usProofOf(Strength::fromFraction(p)), inside);
        answers("ukProofOf strength", {p}, ukProofOf(Strength::fromFraction(p)), inside);
        for (const double t : numbers(-60, 110, 2, 12))
            answers("ethanolWaterDensity", {p, t}, ethanolWaterDensity(share, Temperature::fromCelsius(t)),
                    inside && within(t, -60, 110));
        for (const double t : numbers(-20, 110, 3, 12))
            answers("sucroseWaterDensity", {p, t}, sucroseWaterDensity(share, Temperature::fromCelsius(t)),
                    inside && within(t, -20, 110));
        answers("refractiveIndex", {p}, refractiveIndex(share), within(share.percent(), 0, 85));
    }
    for (const double degrees : numbers(0, 200, 4)) {
        answers("massFractionOf US", {degrees}, massFractionOf(UsProof::fromDegrees(degrees)),
                within(degrees, 0, 200));
        answers("strengthOf US", {degrees}, strengthOf(UsProof::fromDegrees(degrees)),
                within(degrees, 0, 200));
        finite("massFractionOf UK", {degrees}, massFractionOf(UkProof::fromDegrees(degrees)));
        finite("strengthOf UK", {degrees}, strengthOf(UkProof::fromDegrees(degrees)));
        answers("densityFromBaume", {degrees}, densityFromBaume(degrees), degrees >= 0 && degrees < 145);
    }
    for (const double t : numbers(-60, 110, 5))
        CHECK(std::isfinite(waterDensity(Temperature::fromCelsius(std::isnan(t) ? 20 : t)).kgPerM3()));
    for (const double rho : numbers(700, 1500, 6)) {
        const auto density = Density::fromKgPerM3(rho);
        answers("baume", {rho}, baume(density), std::isfinite(rho) && rho >= 998.2);
        for (const double t : numbers(-60, 110, 7, 8)) {
            const auto at = Temperature::fromCelsius(t);
            finite("massFractionFromDensity", {rho, t}, massFractionFromDensity(density, at));
            finite("brixFromDensity", {rho, t}, brixFromDensity(density, at));
            if (!std::isfinite(rho) || !std::isfinite(t)) {
                CHECK_FALSE(massFractionFromDensity(density, at));
                CHECK_FALSE(brixFromDensity(density, at));
            }
        }
    }
    for (const double n : numbers(1.333, 1.504, 8))
        answers("brixFromRefractiveIndex", {n}, brixFromRefractiveIndex(n),
                brixFromRefractiveIndex(n).has_value() && n > 1.33 && n < 1.51);
}

TEST_CASE("hydrometers and facts answer over their domain and refuse outside", "[physics][totality]") {
    for (const double shown : numbers(0, 1, 11, 20))
        for (const double t : numbers(-60, 110, 12, 10)) {
            const auto at = Temperature::fromCelsius(t);
            finite("trueStrength", {shown, t}, trueStrength(Strength::fromFraction(shown), at));
            finite("trueProof", {200 * shown, t}, trueProof(UsProof::fromDegrees(200 * shown), at));
            const bool readable = within(shown, 0.01, 0.95) && within(t, 10, 30);
            if (readable) CHECK(trueStrength(Strength::fromFraction(shown), at));
            if (!within(shown, 0, 1) || !within(t, -60, 110)) {
                CHECK_FALSE(trueStrength(Strength::fromFraction(shown), at));
                CHECK_FALSE(trueProof(UsProof::fromDegrees(200 * shown), at));
            }
        }
    for (const double strength : numbers(0, 1, 13, 20))
        for (const double sugar : numbers(0, 900, 14, 20)) {
            const auto abv = Strength::fromFraction(strength);
            finite("obscuration", {strength, sugar}, obscuration(abv, sugar));
            LiquidFacts facts;
            facts.strength = abv;
            facts.gramsPerLitre[Substance::Sucrose] = sugar;
            const auto masses = massesPerMl(facts);
            // A litre has room for this much in any case.
            if (within(strength, 0, 0.6) && within(sugar, 0, 500)) CHECK(masses);
            if (!within(strength, 0, 1) || !(sugar >= 0) || std::isinf(sugar)) {
                CHECK_FALSE(masses);
                CHECK_FALSE(obscuration(abv, sugar));
            }
            if (!masses) continue;
            CHECK(std::isfinite(masses->perMl.totalGrams()));
            CHECK(std::isfinite(masses->modelDensity.kgPerM3()));
            facts.measuredDensity = Density::fromKgPerM3(sugar);
            if (const auto measured = massesPerMl(facts)) {
                CHECK(std::isfinite(measured->perMl.totalGrams()));
                CHECK(std::isfinite(measured->contradiction->kgPerM3()));
            }
        }
    for (const double strength : numbers(0, 1, 15, 12))
        for (const double rho : numbers(780, 1400, 16, 12)) {
            const auto sugar = sugarGPerLFrom(Strength::fromFraction(strength), Density::fromKgPerM3(rho));
            finite("sugarGPerLFrom", {strength, rho}, sugar);
            if (!within(strength, 0, 1) || !std::isfinite(rho)) CHECK_FALSE(sugar);
        }
}

TEST_CASE("mixtures answer when they are mixtures and refuse when a figure is none", "[physics][totality]") {
    std::mt19937_64 random(21);
    const auto everything = [](const Composition& c, bool sound) {
        answers("strengthAt20", {}, strengthAt20(c), sound);
        answers("densityAt20", {}, densityAt20(c), sound);
        answers("brix", {}, brix(c), sound);
        answers("freezing", {}, freezing(c).has_value(), freezing(c) ? freezing(c)->onset.celsius() : 0,
                sound);
        answers("pH", {}, pH(c), sound);
        answers("fizzAtMost", {}, fizzAtMost(c), sound);
        for (const double t : numbers(-60, 110, 22, 6))
            answers("volumeAt", {t}, volumeAt(c, Temperature::fromCelsius(t)), sound && within(t, -60, 110));
        for (const double t : numbers(0, 40, 23, 6))
            answers("waterActivity", {t}, waterActivity(c, Temperature::fromCelsius(t)),
                    sound && within(t, 0, 40));
        for (const double t : numbers(-45, 40, 24, 6)) {
            const auto cold = atTemperature(c, Temperature::fromCelsius(t));
            answers("atTemperature", {t}, cold.has_value(), cold ? cold->ice.grams() : 0,
                    sound && within(t, -45, 40));
            if (cold) {
                CHECK(std::isfinite(cold->liquidStrength.fraction()));
                CHECK(within(cold->iceShare, 0, 1));
                CHECK(std::isfinite(cold->marginK));
            }
            finite("strengthToStayLiquid", {t}, strengthToStayLiquid(c, Temperature::fromCelsius(t)));
            if (!sound) CHECK_FALSE(strengthToStayLiquid(c, Temperature::fromCelsius(t)));
        }
        for (const double x : numbers(0, 1, 25, 6)) {
            finite("waterToReach", {x}, waterToReach(c, Strength::fromFraction(x)));
            finite("sugarToReach", {x}, sugarToReach(c, MassFraction::fromFraction(x)));
            finite("waterToReachBrix", {x}, waterToReachBrix(c, MassFraction::fromFraction(x)));
            finite("waterFromStrength", {x}, waterFromStrength(c, Strength::fromFraction(x)));
            finite("waterFromWeight", {300 * x}, waterFromWeight(c, Mass::fromGrams(300 * x)));
            finite("waterFromVolume", {300 * x}, waterFromVolume(c, Volume::fromMl(300 * x)));
            finite("waterFromTemperature", {-20 * x},
                   waterFromTemperature(c, Temperature::fromCelsius(-20 * x)));
            finite("pH with alkali", {x}, pH(c, x));
            finite("alkaliForPh", {10 * x}, alkaliForPh(c, 10 * x));
            if (!sound || !std::isfinite(x)) {
                CHECK_FALSE(waterToReach(c, Strength::fromFraction(x)));
                CHECK_FALSE(sugarToReach(c, MassFraction::fromFraction(x)));
                CHECK_FALSE(waterFromWeight(c, Mass::fromGrams(300 * x)));
                CHECK_FALSE(waterFromVolume(c, Volume::fromMl(300 * x)));
                CHECK_FALSE(alkaliForPh(c, 10 * x));
            }
        }
    };
    for (int i = 0; i < 60; ++i)
        everything(mixture(random), true);
    for (const Composition& c : unsound())
        everything(c, false);
}

TEST_CASE("sums over sound mixtures are finite", "[physics][totality]") {
    std::mt19937_64 random(31);
    for (int i = 0; i < 300; ++i) {
        const Composition c = mixture(random);
        CHECK(volumeAt20(c).ml() > 0);
        const VolumeTerms terms = volumeTermsAt20(c);
        CHECK(std::isfinite((terms.ethanolWater + terms.sugar + terms.otherSolutes).ml()));
        CHECK(ethanolVolumeAt20(c).ml() >= 0);
        CHECK(std::isfinite(foodEnergy(c).kj + foodEnergy(c).kcal));
        CHECK(titratableAcidAsCitric(c).grams() >= 0);
        const auto sweet = sucroseEquivalent(c);
        CHECK(sweet.low <= sweet.typical);
        CHECK(sweet.typical <= sweet.high);
        CHECK(mixingHeatJ(c) <= 0);
        const Composition parts[] = {c, mixture(random)};
        CHECK(std::isfinite(contractionAt20(parts).ml()));
        for (const double t : {-45.0, 0.0, 40.0, 100.0}) {
            CHECK(heatCapacityJPerK(c, Temperature::fromCelsius(t)).value > 0);
            CHECK(std::isfinite(liquidEnthalpyJ(c, Temperature::fromCelsius(t)).value));
        }
        CHECK(freezingOnset(c).value.celsius() <= 0);
    }
    for (std::size_t s = 0; s < kSubstanceCount; ++s) {
        CHECK(gramsPerGramCitric(static_cast<Substance>(s)) >= 0);
        CHECK(relativeSweetness(static_cast<Substance>(s)).low <=
              relativeSweetness(static_cast<Substance>(s)).high);
    }
    for (const double a : {0.0, 0.1, 0.15, 0.45, 0.5, 1.0})
        for (const IceMethod method : {IceMethod::Stirred, IceMethod::Shaken, IceMethod::Built}) {
            const double ratio = dilutionRatio(method, Strength::fromFraction(a)).value;
            CHECK(within(ratio, 0.2, 0.8));
            CHECK(shareOfFinished(ratio) < 0.5);
        }
    for (const double t : {-60.0, -20.0, 0.0, 20.0}) {
        const double ln = lnWaterActivityOverIce(Temperature::fromCelsius(t));
        CHECK(ln <= 0);
        CHECK(iceEquilibrium(ln).celsius() == Approx(std::min(t, 0.0)).margin(1e-6));
    }
    for (const double p : {0.0, 0.3, 0.6, 1.0})
        for (const double t : {-60.0, -20.0, 40.0, 100.0})
            CHECK(within(ethanolWaterCp(MassFraction::fromFraction(p), Temperature::fromCelsius(t)).value, 2,
                         5));
    for (int m = 0; m <= static_cast<int>(Material::Porcelain); ++m)
        CHECK(within(materialCp(static_cast<Material>(m)), 0.2, 1.5));
    for (const double rho : {780.0, 1000.0, 1400.0})
        CHECK(densityFromAir(apparentDensityInAir(Density::fromKgPerM3(rho))).kgPerM3() == Approx(rho));
}

TEST_CASE("gas answers over its domain and refuses outside", "[physics][totality]") {
    for (const double t : numbers(0, 40, 41, 15))
        for (const double bar : numbers(0, 10, 42, 15))
            for (const double abv : {kNan, -0.01, -0.0, 0.0, 0.15, 0.30, 0.31, kInf}) {
                const bool inside = within(t, 0, 40) && within(abv, 0, 0.30);
                const auto at = Temperature::fromCelsius(t);
                answers("dissolvedAt", {bar, t, abv},
                        dissolvedAt(GaugePressure::fromBar(bar), at, Strength::fromFraction(abv)),
                        inside && within(bar, 0, 10));
                const auto pressure = pressureFor(Fizz::fromVolumes(bar), at, Strength::fromFraction(abv));
                finite("pressureFor", {bar, t, abv}, pressure);
                if (!inside || !std::isfinite(bar)) CHECK_FALSE(pressure);
                if (pressure) CHECK(within(pressure->value.bar(), 0, 10));
            }
    for (const double t : numbers(0, 100, 43))
        answers("sucroseSolubility", {t}, sucroseSolubility(Temperature::fromCelsius(t)), within(t, 0, 100));
}

TEST_CASE("heat balances answer with finite numbers and refuse what is none", "[physics][totality]") {
    std::mt19937_64 random(51);
    for (int i = 0; i < 40; ++i) {
        const Composition c = mixture(random);
        for (const double t : numbers(-20, 90, 52, 3))
            for (const double iceC : {kNan, -30.0, -0.0, 0.0, 0.1})
                for (const double grams : {kNan, -1.0, 0.0, 1.0, 500.0, kInf}) {
                    const LiquidPart parts[] = {{c, Temperature::fromCelsius(t)}};
                    IceLoad load;
                    load.mass = Mass::fromGrams(grams);
                    load.t = Temperature::fromCelsius(iceC);
                    load.wetShare = 0.1;
                    const auto cold = chill(parts, load);
                    if (!std::isfinite(t) || !(iceC <= 0) || !(grams >= 0) || std::isinf(grams))
                        CHECK_FALSE(cold);
                    if (!cold) continue;
                    CHECK(std::isfinite(cold->melted.grams() + cold->iceLeft.grams()));
                    CHECK(within(cold->t.celsius(), -45, 100));
                    CHECK(std::isfinite(cold->drink.totalGrams()));
                }
        for (const double t : numbers(-20, 90, 53, 5)) {
            const LiquidPart parts[] = {{c, Temperature::fromCelsius(t)}};
            const auto together = mixedTemperature(parts);
            answers("mixedTemperature", {t}, together, within(t, -20, 90) || together.has_value());
            if (together) CHECK(together->value.celsius() == Approx(t).margin(1e-5));
        }
        HeldStart start;
        start.liquid = c;
        for (const double t : {kNan, -31.0, -5.0, 60.0, 101.0, kInf})
            for (const double ice : {kNan, -1.0, 0.0, 80.0}) {
                start.t = Temperature::fromCelsius(t);
                start.ice = Mass::fromGrams(ice);
                const auto curve = heldCurve(start);
                CHECK(curve.empty() != (within(t, -30, 100) && ice >= 0));
                for (const HeldPoint& p : curve)
                    CHECK(
                        std::isfinite(p.t.celsius() + p.ice.grams() + p.strength.fraction() + p.volume.ml()));
            }
    }
    for (const Composition& c : unsound()) {
        const LiquidPart parts[] = {{c, Temperature::fromCelsius(20)}};
        CHECK_FALSE(chill(parts, {}));
        CHECK_FALSE(mixedTemperature(parts));
        HeldStart start;
        start.liquid = c;
        start.t = Temperature::fromCelsius(5);
        CHECK(heldCurve(start).empty());
        const auto blend =
            blendToStrength(c, mixture(random), Strength::fromPercentVol(20), Volume::fromMl(100));
        CHECK_FALSE(blend);
    }
    for (const double a : numbers(-1, 1, 54, 5)) {
        const HeatStore stores[] = {{a, Temperature::fromCelsius(20)}, {1.0, Temperature::fromCelsius(a)}};
        finite("balancedTemperature", {a}, balancedTemperature(stores));
        const PredictedAndMeasured pairs[] = {{a, 0.4}, {0.4, a}, {0.4, 0.5}};
        CHECK(std::isfinite(calibrated(pairs).factor));
        CHECK(std::isfinite(calibrated(pairs).standardDeviation));
    }
    for (const GlassProfile& glass : glassProfiles())
        for (const double x : numbers(0, 400, 55, 10)) {
            if (std::isnan(x)) continue;
            CHECK(within(glass.volumeTo(x).ml(), 0, glass.brim().ml()));
            CHECK(within(glass.heightOf(Volume::fromMl(x)), 0, glass.rimHeightMm() * (1 + 1e-12)));
            CHECK(glass.radiusAt(x) >= 0);
        }
}
