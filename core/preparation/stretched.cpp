#include "core/preparation/stretched.h"

namespace stillroom::preparation {

using quantity::Dimension;

namespace {

struct Amount {
    double value = 0; // ml or g
    Dimension dimension = Dimension::Volume;
};

std::optional<Amount> amountOf(const spec::Line& line, const spec::HouseRules& rules) {
    const auto& poured = line.poured;
    if (poured.amount.kind != quantity::Amount::Kind::Exact || !poured.measure) return std::nullopt;
    const auto dimension = quantity::measureInfo(*poured.measure).dimension;
    const auto size = dimension == Dimension::Volume ? rules.measures.ml(*poured.measure)
                      : dimension == Dimension::Mass ? rules.measures.grams(*poured.measure)
                                                     : std::nullopt;
    if (!size) return std::nullopt;
    return Amount{poured.amount.low.toDouble() * poured.multiplier.toDouble() * *size, dimension};
}

// A fruit's juice that is sour by itself: lime and lemon, not orange.
bool isSourJuice(const larder::FactState& facts) {
    constexpr double kSour = 30; // g/l as citric: lemon and lime hold 46 and more, orange 8
    return !facts.dry && facts.group == "juice" && facts.acidGPerL && facts.acidGPerL->typical >= kSour;
}

bool isAcid(const larder::FactState& facts) {
    constexpr double kPowder = 500; // g/kg
    return facts.dry && facts.acidGPerL && facts.acidGPerL->typical >= kPowder;
}

bool isMalic(const larder::FactState& facts) {
    return !facts.acidShares.parts.empty() &&
           facts.acidShares.parts.front().first == physics::Substance::Malic;
}

} // namespace

std::optional<Stretched> stretchedOf(const spec::Spec& spec, const spec::Bindings& bindings,
                                     const Made& made) {
    Stretched found;
    StretchedJuice in;
    int juices = 0;
    double citric = 0, malic = 0, water = 0, juice = 0;
    for (std::size_t i = 0; i < spec.lines.size(); ++i) {
        const auto* poured = bindings.poured(i);
        if (poured == nullptr || spec.lines[i].optional || spec.lines[i].toTaste) continue;
        const auto& facts = poured->facts;
        const bool sour = isSourJuice(facts);
        const bool plain = facts.group == "water" && !facts.dry;
        if (!sour && !plain && !isAcid(facts)) continue;
        const auto amount = amountOf(spec.lines[i], bindings.rules());
        if (!amount) return std::nullopt;
        if (sour) {
            if (amount->dimension != Dimension::Volume) return std::nullopt;
            found.juice = i;
            found.juiceGPer100Ml = facts.acidGPerL->typical / 10;
            juice = amount->value;
            ++juices;
        } else if (plain) {
            water += amount->value; // a gram of it is a millilitre here
        } else if (amount->dimension == Dimension::Mass) {
            (isMalic(facts) ? malic : citric) += amount->value;
        }
    }
    if (juices != 1 || !(citric + malic > 0) || !(water > 0)) return std::nullopt;
    in.citric = quantity::Mass::fromGrams(citric);
    in.malic = quantity::Mass::fromGrams(malic);
    in.water = quantity::Volume::fromMl(water);
    in.juice = quantity::Volume::fromMl(juice);
    in.juiceAcidShare = found.juiceGPer100Ml / 100;
    const auto rule = stretchedAcid(in);
    if (!rule || !(found.juiceGPer100Ml > 0)) return std::nullopt;
    found.byPeelRulePercent = rule->byPeelRulePercent;
    found.atLeast = !made.facts.acidGPerL;
    const auto gPerL =
        made.facts.acidGPerL ? std::optional(made.facts.acidGPerL->typical) : made.least.acidGPerL;
    found.madeGPer100Ml = gPerL ? *gPerL / 10 : rule->asCitricGPer100Ml;
    found.timesAsSour = found.madeGPer100Ml / found.juiceGPer100Ml;
    return found;
}

} // namespace stillroom::preparation
