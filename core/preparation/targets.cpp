#include "core/preparation/targets.h"

#include "core/physics/blending.h"
#include "core/physics/mixture.h"
#include "core/physics/sucrose_water.h"
#include "core/physics/titratable_acid.h"

#include <algorithm>
#include <cmath>

namespace stillroom::preparation {

using physics::Composition;
using physics::Substance;
using quantity::Mass;
using quantity::MassFraction;
using quantity::Strength;
using quantity::Volume;

namespace {

constexpr int kRounds = 200; // each shrinks the error to less than two thirds

bool isWet(const Composition& c) {
    return c.isSound() && physics::volumeAt20(c).ml() > 0;
}

} // namespace

std::optional<AcidAdjustment> acidToMatch(const Composition& juice, const Composition& target) {
    if (!isWet(juice) || !isWet(target)) return std::nullopt;
    const double targetMl = physics::volumeAt20(target).ml();
    const double juiceMl = physics::volumeAt20(juice).ml();
    Composition made = juice;
    double before = 0;
    for (int round = 0; round < kRounds; ++round) {
        const double ml = physics::volumeAt20(made).ml();
        if (std::abs(ml - before) < 1e-10 * ml) break;
        before = ml;
        for (auto i = static_cast<std::size_t>(Substance::Citric);
             i <= static_cast<std::size_t>(Substance::Succinic); ++i)
            made.grams[i] = std::max(juice.grams[i], target.grams[i] / targetMl * ml);
    }
    AcidAdjustment adjustment;
    adjustment.finished = physics::volumeAt20(made);
    if (!(adjustment.finished.ml() < 2 * juiceMl)) return std::nullopt;
    for (auto i = static_cast<std::size_t>(Substance::Citric);
         i <= static_cast<std::size_t>(Substance::Succinic); ++i) {
        const auto acid = static_cast<Substance>(i);
        const double plain = target.grams[i] / targetMl * juiceMl - juice.grams[i];
        if (plain < 0) adjustment.over.push_back(acid);
        if (plain > 0) adjustment.byDifference.emplace_back(acid, Mass::fromGrams(plain));
        const double added = made.grams[i] - juice.grams[i];
        if (added > 0) adjustment.add.emplace_back(acid, Mass::fromGrams(added));
    }
    return adjustment;
}

std::optional<ToBrix> toBrix(const Composition& syrup, MassFraction target) {
    if (!isWet(syrup) || !(target.fraction() > 0 && target.fraction() < 1)) return std::nullopt;
    const double total = syrup.totalGrams();
    const double have = syrup.sugarGrams() / total;
    ToBrix way;
    if (std::abs(have - target.fraction()) < 1e-12) return way;
    if (have > target.fraction()) {
        way.addWater = physics::waterToReachBrix(syrup, target);
        return way;
    }
    way.addSugar = physics::sugarToReach(syrup, target);
    const double off = total - syrup.sugarGrams() / target.fraction();
    if (off <= syrup[Substance::Water]) way.boilOff = Mass::fromGrams(off);
    return way;
}

std::optional<ToStrength> toStrength(const Composition& infusion, Strength target,
                                     const Composition& stronger) {
    if (!isWet(infusion) || !(target.fraction() > 0 && target.fraction() < 1)) return std::nullopt;
    ToStrength way;
    const auto now = physics::strengthAt20(infusion);
    if (!now) return std::nullopt;
    if (*now >= target) {
        Composition watered = infusion;
        const Mass water = physics::waterToReach(infusion, target).value_or(Mass());
        watered[Substance::Water] += water.grams();
        way.addWater = water;
        way.finished = physics::volumeAt20(watered);
        return way;
    }
    if (!isWet(stronger)) return std::nullopt;
    const auto blend = physics::blendToStrength(infusion, stronger, target, Volume::fromMl(1000));
    if (!blend || !(blend->first.ml() > 0)) return std::nullopt;
    const double scale = physics::volumeAt20(infusion) / blend->first;
    way.addSpirit = blend->second * scale;
    way.finished = Volume::fromMl(1000) * scale;
    return way;
}

std::optional<ToCordial> toSugarAndAcid(const Composition& base, double sugarGPerL, double acidAsCitricGPerL,
                                        Substance acid) {
    const double perCitric = physics::gramsPerGramCitric(acid);
    if (!isWet(base) || !(perCitric > 0)) return std::nullopt;
    if (!(sugarGPerL >= 0 && sugarGPerL < 1000) || !(acidAsCitricGPerL >= 0 && acidAsCitricGPerL < 1000))
        return std::nullopt;
    const double haveSugar = base.sugarGrams();
    const double haveAcid = physics::titratableAcidAsCitric(base).grams();
    double sugar = 0;
    double sour = 0;
    const auto with = [&] {
        Composition made = base;
        made[Substance::Sucrose] += sugar;
        made[acid] += sour;
        return physics::volumeAt20(made).ml();
    };
    double ml = with();
    const double start = ml;
    double least = 0; // what is there already may be too much for as long as the other has not thinned it
    for (int round = 0; round < kRounds; ++round) {
        const double moreSugar = sugarGPerL * ml / 1000 - haveSugar;
        const double moreSour = (acidAsCitricGPerL * ml / 1000 - haveAcid) * perCitric;
        least = std::min(moreSugar, moreSour);
        sugar = std::max(moreSugar, 0.0);
        sour = std::max(moreSour, 0.0);
        const double next = with();
        if (!(next < 100 * start)) return std::nullopt;
        if (std::abs(next - ml) < 1e-10 * next) break;
        ml = next;
    }
    if (least < -1e-9 * start) return std::nullopt;
    return ToCordial{Mass::fromGrams(sugar), Mass::fromGrams(sour), Volume::fromMl(ml)};
}

std::optional<Volume> smallestBatch(const std::vector<double>& gramsPerLitre, Mass lastDigit, double share) {
    if (gramsPerLitre.empty() || !(lastDigit.grams() > 0) || !(share > 0)) return std::nullopt;
    double litres = 0;
    for (const double dose : gramsPerLitre) {
        if (!(dose > 0)) return std::nullopt;
        litres = std::max(litres, 0.5 * lastDigit.grams() / share / dose);
    }
    return Volume::fromLitres(litres);
}

std::optional<StretchedAcid> stretchedAcid(const StretchedJuice& made) {
    const double poured = made.water.ml() + made.juice.ml();
    const double powder = made.citric.grams() + made.malic.grams();
    if (!(poured > 0) || !(powder >= 0) || !(made.juiceAcidShare >= 0)) return std::nullopt;
    const double inJuice = made.juice.ml() * made.juiceAcidShare;
    const double waterGPerMl = physics::waterDensity(quantity::Temperature::fromCelsius(20)).gPerMl();
    Composition c;
    // The juice as the water and the acid in so much volume; its few per cent of sugar change nothing here.
    c[Substance::Citric] = made.citric.grams() + inJuice;
    c[Substance::Malic] = made.malic.grams();
    Composition juiceAcid;
    juiceAcid[Substance::Citric] = inJuice;
    const double acidMl = physics::volumeTermsAt20(juiceAcid).otherSolutes.ml();
    c[Substance::Water] = (poured - acidMl) * waterGPerMl;
    StretchedAcid result;
    result.byPeelRulePercent = 100 * (powder + inJuice) / poured;
    result.finished = physics::volumeAt20(c);
    result.asCitricGPer100Ml = 100 * physics::titratableAcidAsCitric(c).grams() / result.finished.ml();
    return result;
}

} // namespace stillroom::preparation
