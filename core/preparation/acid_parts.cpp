#include "core/preparation/acid_parts.h"

#include "core/larder/handbook.h"
#include "core/physics/mixture.h"
#include "core/physics/titratable_acid.h"
#include "core/preparation/adding.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

namespace stillroom::preparation {

using physics::Composition;
using physics::Substance;

namespace {

// The trade's round figures, g per litre: common practice, no source.
struct TradeJuice {
    std::string_view id; // of the handbook
    double citric, malic;
};
constexpr std::array kTrade{TradeJuice{"lime_juice", 40, 20}, TradeJuice{"lemon_juice", 60, 0},
                            TradeJuice{"orange_juice", 8, 0}, TradeJuice{"pineapple_juice", 8, 0},
                            TradeJuice{"grapefruit_juice", 13, 7}};

const TradeJuice* tradeOf(base::IngredientId id, const larder::Larder& larder) {
    const auto* known = larder.find(id);
    const auto kind = known != nullptr && known->kind ? *known->kind : id;
    const auto found = std::find_if(kTrade.begin(), kTrade.end(), [&](const TradeJuice& juice) {
        return larder::Handbook::idOf(juice.id) == kind;
    });
    return found == kTrade.end() ? nullptr : &*found;
}

double gramsOf(const std::vector<Dose>& doses, Substance acid) {
    for (const auto& [substance, mass] : doses)
        if (substance == acid) return mass.grams();
    return 0;
}

double tradeGrams(const TradeJuice& juice, Substance acid) {
    return acid == Substance::Citric ? juice.citric : juice.malic;
}

// So many g by weight, read as g counted as citric: how many g by weight that is of the same mixture, less
// what was read.
double byReference(const TradeJuice& juice, Substance acid) {
    Composition mixture;
    mixture[Substance::Citric] = juice.citric;
    mixture[Substance::Malic] = juice.malic;
    const double weighed = juice.citric + juice.malic;
    return tradeGrams(juice, acid) * (weighed / physics::titratableAcidAsCitric(mixture).grams() - 1);
}

} // namespace

std::vector<AcidPart> acidParts(const BringAsk& ask, const Brought& brought, const larder::Larder& larder,
                                const spec::HouseRules& rules) {
    if (!ask.like || ask.base.lines.size() != 1 || !ask.base.lines[0].ingredient || !ask.base.steps.empty())
        return {};
    const auto* from = tradeOf(*ask.base.lines[0].ingredient, larder);
    const auto* to = tradeOf(*ask.like, larder);
    const auto target = compositionOfIngredient(*ask.like, larder, rules);
    if (from == nullptr || to == nullptr || from == to || !target) return {};
    const Composition& juice = brought.before.composition;
    const auto way = acidToMatch(juice, *target);
    if (!way) return {};
    const double litres = brought.before.yield.ml() / 1000;
    std::vector<AcidPart> parts;
    for (const auto acid : {Substance::Citric, Substance::Malic}) {
        const double net = gramsOf(way->add, acid);
        const auto dose = std::find_if(brought.doses.begin(), brought.doses.end(), [&](const DoseLine& each) {
            return each.name == nameOfSubstance(acid);
        });
        const double plain = gramsOf(way->byDifference, acid);
        if (dose == brought.doses.end() || !(plain > 0)) continue;
        AcidPart part;
        part.acid = acid;
        part.added = dose->amount;
        part.traded = (tradeGrams(*to, acid) - tradeGrams(*from, acid)) * litres;
        part.byReference = (byReference(*to, acid) - byReference(*from, acid)) * litres;
        part.byOwnFigures = plain - part.traded - part.byReference;
        part.byRoom = net - plain;
        part.byPowder = part.added - net;
        parts.push_back(part);
    }
    return parts;
}

} // namespace stillroom::preparation
