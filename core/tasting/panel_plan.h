#pragma once

#include "core/tasting/panel.h"
#include "core/tasting/statistics/choice_test.h"
#include "core/tasting/statistics/ranking.h"

#include <variant>

// What can be known of a session before a drop is poured.
namespace stillroom::tasting {

struct RankingPlan {
    FriedmanCritical critical; // what F must reach; none: never shown by so few
    double leastDifference = 0;
    std::optional<int> fewest;            // assessors; nullopt where none up to 20 could be found exactly
    std::optional<PageCritical> foretold; // what L must reach, where the order is said before
    friend bool operator==(const RankingPlan&, const RankingPlan&) = default;
};

struct ScorePlan {
    double deviation = 0;            // of one taster's score, taken as usual: see kUsualLikingDeviation
    std::optional<double> halfWidth; // of a mean's 95 % interval; none for one taster
    friend bool operator==(const ScorePlan&, const ScorePlan&) = default;
};

struct PanelPlan {
    PanelKind kind = PanelKind::Triangle;
    int tasters = 0;
    int products = 2;
    double alpha = 0.05;
    int fullBlock = 0; // orders are balanced over any multiple of this many tasters
    int cups = 0;      // to pour, references included
    // Just about right is planned as its two sides, all tasters on one of them: the best case.
    std::variant<ChoicePlan, RankingPlan, ScorePlan> plan;
    friend bool operator==(const PanelPlan&, const PanelPlan&) = default;
};

struct PanelWish {
    PanelKind kind = PanelKind::Triangle;
    int tasters = 12;
    int products = 2;
    bool foretold = false; // paired difference: the direction is said before; ranking: the order
    double alpha = 0.05;
    std::optional<double> share; // of people thought able to tell
};
// ProductCount, NoTasters, BadAlpha, BadForetold (foretold where it means nothing, or a share outside 0 to
// 1).
tl::expected<PanelPlan, PanelError> planPanel(const PanelWish& wish);

} // namespace stillroom::tasting
