#include "core/tasting/panel_result.h"

#include "core/tasting/panel_entry.h"

#include <algorithm>
#include <array>

namespace stillroom::tasting {

namespace {

constexpr double kPower = 0.8;
// So few by guessing in one panel of ten or fewer: a bound on tellers would then come out near nobody.
constexpr double kTooFewForABound = 0.1;

constexpr std::array<std::string_view, 4> kFindings{"shown", "not_shown", "cannot_be_shown", "no_answers"};

std::size_t productOf(const Serving& serving, int code) {
    return std::find_if(serving.cups.begin(), serving.cups.end(),
                        [code](const Cup& cup) { return cup.code == code; })
        ->product; // problemOf() has seen that it is there
}

std::optional<int> markOf(const std::map<int, int>& marks, int code) {
    const auto found = marks.find(code);
    return found == marks.end() ? std::nullopt : std::optional(found->second);
}

// Marks of one taster by product.
std::vector<std::optional<int>> byProduct(const Serving& serving, const std::map<int, int>& marks) {
    std::vector<std::optional<int>> result(serving.cups.size());
    for (const Cup& cup : serving.cups)
        result[cup.product] = markOf(marks, cup.code);
    return result;
}

bool isRight(PanelKind kind, const Serving& serving, int chosen) {
    const std::size_t product = productOf(serving, chosen);
    if (kind == PanelKind::DuoTrio) return product == serving.reference;
    return 1 == std::count_if(serving.cups.begin(), serving.cups.end(),
                              [product](const Cup& cup) { return cup.product == product; });
}

ChoiceTest testOf(const PanelDesign& design) {
    if (design.kind == PanelKind::Triangle) return ChoiceTest::Triangle;
    if (design.kind == PanelKind::DuoTrio) return ChoiceTest::DuoTrio;
    return design.foretold.empty() ? ChoiceTest::PairedEither : ChoiceTest::PairedForetold;
}

void countPaired(const Panel& panel, ChoiceResult& result) {
    result.byProduct.assign(panel.design.products.size(), 0);
    for (std::size_t i = 0; i < panel.answers.size(); ++i)
        if (panel.answers[i].chosen)
            ++result.byProduct[productOf(panel.servings[i], *panel.answers[i].chosen)];
    const std::size_t ahead = result.byProduct[1] > result.byProduct[0] ? 1 : 0;
    if (!panel.design.foretold.empty())
        result.more = panel.design.foretold.front();
    else if (result.byProduct[0] != result.byProduct[1])
        result.more = ahead;
    result.count = result.byProduct[result.more.value_or(0)];
}

void addShare(ChoiceResult& result) {
    result.belowChance = result.count < result.answers * chanceOfGuessing(result.test) - 1e-9;
    if (result.belowChance) result.soFew = chanceOfSoFew(result.test, result.answers, result.count);
    const bool otherWay = result.test == ChoiceTest::PairedForetold && result.belowChance;
    if (otherWay || result.soFew <= kTooFewForABound) return;
    result.share = shareThatCanTell(result.test, result.answers, result.count);
}

ChoiceResult choiceResult(const Panel& panel) {
    ChoiceResult result;
    result.test = testOf(panel.design);
    for (std::size_t i = 0; i < panel.answers.size(); ++i) {
        const auto& chosen = panel.answers[i].chosen;
        if (!chosen) continue;
        ++result.answers;
        if (isRight(panel.design.kind, panel.servings[i], *chosen)) ++result.count;
    }
    const bool paired = result.test == ChoiceTest::PairedEither || result.test == ChoiceTest::PairedForetold;
    if (paired) countPaired(panel, result);
    if (result.answers == 0) return result;
    const double alpha = panel.design.alpha;
    result.needed = countNeeded(result.test, result.answers, alpha);
    result.chance = chanceOfCount(result.test, result.answers, result.count);
    result.shareFound = shareFoundBy(result.test, result.answers, alpha, kPower);
    if (!isTwoSided(result.test)) addShare(result);
    result.finding = !result.needed                   ? Finding::CannotBeShown
                     : result.count >= *result.needed ? Finding::Shown
                                                      : Finding::NotShown;
    return result;
}

// Whole rankings only, as ranks by product.
std::vector<Ranks> rankRows(const Panel& panel) {
    std::vector<Ranks> rows;
    for (std::size_t i = 0; i < panel.answers.size(); ++i) {
        const auto marks = byProduct(panel.servings[i], panel.answers[i].ranks);
        std::vector<double> order;
        for (const auto& mark : marks)
            if (mark) order.push_back(*mark);
        if (order.size() == marks.size()) rows.push_back(midranks(order));
    }
    return rows;
}

std::vector<RankPair> rankPairs(const RankingResult& result) {
    const auto& sums = result.friedman.rankSums;
    std::vector<RankPair> pairs;
    for (std::size_t a = 0; a < sums.size(); ++a) {
        for (std::size_t b = a + 1; b < sums.size(); ++b) {
            RankPair pair{a, b, sums[b] - sums[a], false};
            if (pair.difference < 0) pair = {b, a, -pair.difference, false};
            pair.differs = result.finding == Finding::Shown && pair.difference >= result.leastDifference;
            pairs.push_back(pair);
        }
    }
    return pairs;
}

// How rare the least likely of all outcomes is: everyone as foretold.
Page bestPage(std::size_t assessors, std::size_t products) {
    Ranks order(products);
    for (std::size_t i = 0; i < products; ++i)
        order[i] = static_cast<double>(i + 1);
    return page(std::vector<Ranks>(assessors, order));
}

void addPage(const std::vector<Ranks>& rows, const PanelDesign& design, RankingResult& result) {
    std::vector<Ranks> columns;
    for (const Ranks& row : rows) {
        Ranks ordered;
        for (const std::size_t product : design.foretold)
            ordered.push_back(row[product]);
        columns.push_back(std::move(ordered));
    }
    result.page = page(columns);
    if (result.page->chance <= design.alpha)
        result.asForetold = Finding::Shown;
    else if (bestPage(rows.size(), design.products.size()).chance > design.alpha)
        result.asForetold = Finding::CannotBeShown;
    else
        result.asForetold = Finding::NotShown;
}

RankingResult rankingResult(const Panel& panel) {
    RankingResult result;
    const auto rows = rankRows(panel);
    if (rows.empty()) return result;
    const auto assessors = static_cast<int>(rows.size());
    const auto products = static_cast<int>(panel.design.products.size());
    const double alpha = panel.design.alpha;
    result.friedman = friedman(rows);
    result.critical = friedmanCritical(rows, alpha);
    result.tied = hasTies(rows);
    result.leastDifference = leastRankDifference(assessors, products, alpha);
    result.finding = result.friedman.chance <= alpha ? Finding::Shown
                     : result.critical.statistic     ? Finding::NotShown
                                                     : Finding::CannotBeShown;
    result.pairs = rankPairs(result);
    if (!panel.design.foretold.empty()) addPage(rows, panel.design, result);
    return result;
}

using Table = std::vector<std::vector<std::optional<int>>>; // by taster, then by product

Table scoreTable(const Panel& panel) {
    Table table;
    for (std::size_t i = 0; i < panel.answers.size(); ++i)
        table.push_back(byProduct(panel.servings[i], panel.answers[i].scores));
    return table;
}

ScorePair scorePair(const Table& table, std::size_t first, std::size_t second, double alpha) {
    std::vector<double> a;
    std::vector<double> b;
    for (const auto& row : table) {
        if (!row[first] || !row[second]) continue;
        a.push_back(*row[first]);
        b.push_back(*row[second]);
    }
    ScorePair pair{first, second, pairedScores(a, b, 1 - alpha), alpha, Finding::NoAnswers};
    if (a.empty()) return pair;
    pair.finding = !pair.scores.chance            ? Finding::CannotBeShown
                   : *pair.scores.chance <= alpha ? Finding::Shown
                                                  : Finding::NotShown;
    return pair;
}

ScoreResult scoreResult(const Panel& panel) {
    const Table table = scoreTable(panel);
    const std::size_t products = panel.design.products.size();
    const double alpha = panel.design.alpha;
    ScoreResult result;
    for (std::size_t product = 0; product < products; ++product) {
        std::vector<double> scores;
        for (const auto& row : table)
            if (row[product]) scores.push_back(*row[product]);
        result.means.push_back(meanScore(scores, 1 - alpha));
    }
    const double part = alpha / (static_cast<double>(products * (products - 1)) / 2);
    for (std::size_t a = 0; a < products; ++a)
        for (std::size_t b = a + 1; b < products; ++b)
            result.pairs.push_back(scorePair(table, a, b, part));
    return result;
}

Finding sidesFinding(const JustRight& answers, double alpha) {
    if (answers.answers == 0) return Finding::NoAnswers;
    if (answers.chance <= alpha) return Finding::Shown;
    const int sides = answers.weak.count + answers.strong.count;
    return countNeeded(ChoiceTest::PairedEither, sides, alpha) ? Finding::NotShown : Finding::CannotBeShown;
}

JustRightResult justRightResult(const Panel& panel) {
    std::vector<std::vector<RightAnswer>> answers(panel.design.products.size());
    for (std::size_t i = 0; i < panel.answers.size(); ++i) {
        for (const Cup& cup : panel.servings[i].cups) {
            const auto right = markOf(panel.answers[i].justRight, cup.code);
            if (!right) continue;
            const auto liking = markOf(panel.answers[i].scores, cup.code);
            answers[cup.product].push_back({*right, liking ? std::optional<double>(*liking) : std::nullopt});
        }
    }
    JustRightResult result;
    for (const auto& each : answers) {
        const JustRight sides = justRight(each);
        result.products.push_back({sides, sidesFinding(sides, panel.design.alpha)});
    }
    const bool scored = std::any_of(panel.answers.begin(), panel.answers.end(),
                                    [](const Answer& answer) { return !answer.scores.empty(); });
    if (scored) result.liking = scoreResult(panel);
    return result;
}

// Liking beside just-about-right is not asked for.
void countAnswers(const Panel& panel, PanelResult& result) {
    const StandingCount count = countStandings(panel);
    result.tasters = static_cast<int>(panel.answers.size());
    result.whole = count.whole;
    result.partial = count.partial;
    result.missing = count.missing;
}

} // namespace

std::string_view findingId(Finding finding) {
    return kFindings[static_cast<std::size_t>(finding)];
}

tl::expected<PanelResult, PanelError> result(const Panel& panel) {
    if (panel.state != PanelState::Closed) return tl::unexpected(PanelError::NotClosed);
    if (const auto problem = problemOf(panel)) return tl::unexpected(*problem);
    PanelResult made;
    made.kind = panel.design.kind;
    made.attribute = panel.design.attribute;
    made.alpha = panel.design.alpha;
    made.products = panel.design.products;
    countAnswers(panel, made);
    switch (panel.design.kind) {
    case PanelKind::Triangle:
    case PanelKind::DuoTrio:
    case PanelKind::PairedDifference:
    case PanelKind::PairedPreference:
        made.found = choiceResult(panel);
        break;
    case PanelKind::Ranking:
        made.found = rankingResult(panel);
        break;
    case PanelKind::Hedonic:
    case PanelKind::Intensity:
        made.found = scoreResult(panel);
        break;
    case PanelKind::JustAboutRight:
        made.found = justRightResult(panel);
        break;
    }
    return made;
}

} // namespace stillroom::tasting
