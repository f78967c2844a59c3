#include "core/tasting/panel_plan.h"

#include "core/tasting/serving_order.h"
#include "core/tasting/statistics/liking.h"

namespace stillroom::tasting {

namespace {

constexpr int kMostSearched = 20; // assessors

bool choosesOne(PanelKind kind) {
    return kind <= PanelKind::PairedPreference;
}

std::optional<PanelError> problemOf(const PanelWish& wish) {
    const int most = choosesOne(wish.kind) ? 2 : static_cast<int>(kMostPanelProducts);
    if (wish.products < 2 || wish.products > most) return PanelError::ProductCount;
    if (wish.tasters < 1) return PanelError::NoTasters;
    if (!(wish.alpha > 0 && wish.alpha <= 0.5)) return PanelError::BadAlpha;
    if (wish.foretold && wish.kind != PanelKind::PairedDifference && wish.kind != PanelKind::Ranking)
        return PanelError::BadForetold;
    if (wish.share && !(*wish.share > 0 && *wish.share <= 1)) return PanelError::BadForetold;
    return std::nullopt;
}

ChoiceTest testOf(const PanelWish& wish) {
    if (wish.kind == PanelKind::Triangle) return ChoiceTest::Triangle;
    if (wish.kind == PanelKind::DuoTrio) return ChoiceTest::DuoTrio;
    return wish.foretold ? ChoiceTest::PairedForetold : ChoiceTest::PairedEither;
}

RankingPlan planRanking(const PanelWish& wish) {
    RankingPlan plan{friedmanCritical(wish.tasters, wish.products, wish.alpha),
                     leastRankDifference(wish.tasters, wish.products, wish.alpha),
                     {},
                     {}};
    if (wish.foretold) plan.foretold = pageCritical(wish.tasters, wish.products, wish.alpha);
    for (int assessors = 1; assessors <= kMostSearched && !plan.fewest; ++assessors) {
        const auto critical = friedmanCritical(assessors, wish.products, wish.alpha);
        if (!critical.exact) break;
        if (critical.statistic) plan.fewest = assessors;
    }
    return plan;
}

int fullBlockOf(const PanelWish& wish) {
    if (wish.kind == PanelKind::Triangle) return static_cast<int>(triangleOrders().size());
    if (wish.kind == PanelKind::DuoTrio) return static_cast<int>(duoTrioOrders().size());
    return static_cast<int>(williamsDesign(static_cast<std::size_t>(wish.products)).size());
}

int cupsOf(const PanelWish& wish) {
    const bool three = wish.kind == PanelKind::Triangle || wish.kind == PanelKind::DuoTrio;
    return wish.tasters * (three ? 3 : wish.products);
}

} // namespace

tl::expected<PanelPlan, PanelError> planPanel(const PanelWish& wish) {
    if (const auto problem = problemOf(wish)) return tl::unexpected(*problem);
    PanelPlan plan{wish.kind,         wish.tasters, wish.products, wish.alpha,
                   fullBlockOf(wish), cupsOf(wish), ChoicePlan{}};
    if (wish.kind == PanelKind::Ranking)
        plan.plan = planRanking(wish);
    else if (wish.kind == PanelKind::Hedonic)
        plan.plan = ScorePlan{kUsualLikingDeviation, expectedHalfWidth(wish.tasters)};
    else if (wish.kind == PanelKind::Intensity)
        plan.plan =
            ScorePlan{kUsualIntensityDeviation, expectedHalfWidth(wish.tasters, kUsualIntensityDeviation)};
    else
        plan.plan = planChoice(testOf(wish), wish.tasters, wish.alpha, wish.share);
    return plan;
}

} // namespace stillroom::tasting
