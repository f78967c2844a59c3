#pragma once

#include "core/preparation/bringing.h"

#include <vector>

// Why the acid that brings one juice to another is not the round figure the trade gives for the two.
namespace stillroom::preparation {

// g of one acid to add, by where they come from. What the trade adds is the difference of two round figures
// per litre; everything else is what it leaves out. The parts sum up to `added`.
struct AcidPart {
    physics::Substance acid = physics::Substance::Citric;
    double traded = 0;       // lime as 40 g citric and 20 g malic less orange as 8 g citric: 32 and 20
    double byReference = 0;  // acid is counted here as citric, which so many g of a mixture are not
    double byOwnFigures = 0; // these juices hold more or less than the round figures say
    double byRoom = 0;       // what is added takes room of its own and thins the rest
    double byPowder = 0;     // what is weighed is not all acid
    double added = 0;
};

// Of citric and malic acid, for a juice of the larder brought to another, where the trade has figures for
// both; empty for others and for what is mixed already. By `brought`, as bring() answered.
std::vector<AcidPart> acidParts(const BringAsk& ask, const Brought& brought, const larder::Larder& larder,
                                const spec::HouseRules& rules);

} // namespace stillroom::preparation
