#include "core/tasting/statistics/ranking.h"

#include "core/base/check.h"
#include "core/tasting/statistics/distributions.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <numeric>
#include <unordered_map>

namespace stillroom::tasting {

namespace {

// Ranks doubled are whole numbers, ties or not.
using Doubled = std::vector<int>;

// Rank sums of up to six products, sorted (products are alike when nobody can tell), ten bits each.
using Packed = std::uint64_t;
constexpr int kBits = 10;
constexpr std::size_t kMostExactProducts = 6;
constexpr int kLargestSum = (1 << kBits) - 1;
constexpr std::size_t kMostSteps = 4'000'000; // additions of one order to one set of sums

using Sums = std::unordered_map<Packed, double>; // rank sums -> their probability

Packed packed(const Doubled& sorted) {
    Packed key = 0;
    for (const int sum : sorted)
        key = (key << kBits) | static_cast<Packed>(sum);
    return key;
}

void unpack(Packed key, Doubled& sums) {
    for (std::size_t i = sums.size(); i-- > 0; key >>= kBits)
        sums[i] = static_cast<int>(key & static_cast<Packed>(kLargestSum));
}

Doubled doubledOf(const Ranks& ranks) {
    Doubled result(ranks.size());
    std::transform(ranks.begin(), ranks.end(), result.begin(),
                   [](double rank) { return static_cast<int>(std::lround(rank * 2)); });
    std::sort(result.begin(), result.end());
    return result;
}

std::vector<Doubled> ordersOf(Doubled sorted) {
    std::vector<Doubled> orders;
    do
        orders.push_back(sorted);
    while (std::next_permutation(sorted.begin(), sorted.end()));
    return orders;
}

// Adds one more assessor, each of whose orders is equally likely.
Sums withOneMore(const Sums& before, const std::vector<Doubled>& orders) {
    Sums after;
    const double each = 1.0 / static_cast<double>(orders.size());
    Doubled base(orders.front().size());
    Doubled sums(base.size());
    for (const auto& [key, probability] : before) {
        unpack(key, base);
        for (const Doubled& order : orders) {
            std::transform(base.begin(), base.end(), order.begin(), sums.begin(), std::plus<>());
            std::sort(sums.begin(), sums.end());
            after[packed(sums)] += probability * each;
        }
    }
    return after;
}

// Every set of rank sums with its probability; nothing where that would take too long.
std::optional<Sums> distributionOf(const std::vector<Doubled>& rows) {
    const std::size_t products = rows.front().size();
    if (products > kMostExactProducts) return std::nullopt;
    if (rows.size() * 2 * products > static_cast<std::size_t>(kLargestSum)) return std::nullopt;
    Sums sums{{packed(rows.front()), 1.0}};
    std::size_t steps = 0;
    for (std::size_t i = 1; i < rows.size(); ++i) {
        const auto orders = ordersOf(rows[i]);
        steps += sums.size() * orders.size();
        if (steps > kMostSteps) return std::nullopt;
        sums = withOneMore(sums, orders);
    }
    return sums;
}

// With assessors and products given, F grows with this alone, and it is a whole number.
std::int64_t sumOfSquares(const Doubled& sums) {
    return std::accumulate(sums.begin(), sums.end(), std::int64_t{0}, [](std::int64_t total, int sum) {
        return total + static_cast<std::int64_t>(sum) * sum;
    });
}

std::map<std::int64_t, double> bySquares(const Sums& sums, std::size_t products) {
    std::map<std::int64_t, double> result;
    Doubled each(products);
    for (const auto& [key, probability] : sums) {
        unpack(key, each);
        result[sumOfSquares(each)] += probability;
    }
    return result;
}

double statisticOf(double sumOfSquaredSums, double assessors, double products) {
    return 12 / (assessors * products * (products + 1)) * sumOfSquaredSums - 3 * assessors * (products + 1);
}

// E of ISO 8587: t^3 - t over every group of t tied products of every assessor.
double tieSum(const std::vector<Doubled>& rows) {
    double sum = 0;
    for (const Doubled& row : rows) {
        for (auto begin = row.begin(); begin != row.end();) {
            const auto end = std::upper_bound(begin, row.end(), *begin);
            const auto tied = static_cast<double>(end - begin);
            sum += tied * tied * tied - tied;
            begin = end;
        }
    }
    return sum;
}

std::vector<double> rankSumsOf(const std::vector<Ranks>& rows) {
    std::vector<double> sums(rows.front().size());
    for (const Ranks& row : rows)
        std::transform(row.begin(), row.end(), sums.begin(), sums.begin(), std::plus<>());
    return sums;
}

bool isTable(const std::vector<Ranks>& rows) {
    return !rows.empty() && rows.front().size() >= 2 &&
           std::all_of(rows.begin(), rows.end(),
                       [&](const Ranks& row) { return row.size() == rows.front().size(); });
}

constexpr std::size_t kMostExactPageProducts = 7;

// How likely each doubled L is for one assessor with these ranks.
std::map<int, double> pageOfOne(Doubled sorted) {
    std::map<int, double> result;
    const auto orders = ordersOf(std::move(sorted));
    for (const Doubled& order : orders) {
        int weighed = 0;
        for (std::size_t i = 0; i < order.size(); ++i)
            weighed += static_cast<int>(i + 1) * order[i];
        result[weighed] += 1.0 / static_cast<double>(orders.size());
    }
    return result;
}

// How likely each doubled L is for all of them.
std::map<int, double> pageOfAll(const std::vector<Ranks>& rows) {
    std::map<int, double> total{{0, 1.0}};
    std::map<Doubled, std::map<int, double>> known; // by ranks in rising order: most rows have the same
    for (const Ranks& row : rows) {
        const Doubled sorted = doubledOf(row);
        if (known.count(sorted) == 0) known[sorted] = pageOfOne(sorted);
        const auto& one = known[sorted];
        std::map<int, double> next;
        for (const auto& [sum, probability] : total)
            for (const auto& [more, chance] : one)
                next[sum + more] += probability * chance;
        total = std::move(next);
    }
    return total;
}

double exactPageChance(const std::vector<Ranks>& rows, int doubledStatistic) {
    const auto total = pageOfAll(rows);
    return std::min(1.0, std::accumulate(total.lower_bound(doubledStatistic), total.end(), 0.0,
                                         [](double sum, const auto& item) { return sum + item.second; }));
}

// What F is divided by for ties: 1 where there are none, 0 where everyone tied everything.
double untiedShare(const std::vector<Doubled>& rows) {
    const auto assessors = static_cast<double>(rows.size());
    const auto products = static_cast<double>(rows.front().size());
    return 1 - tieSum(rows) / (assessors * products * (products * products - 1));
}

constexpr double kAllTied = 1e-12;

std::vector<Doubled> doubledRows(const std::vector<Ranks>& rows) {
    std::vector<Doubled> doubled;
    for (const Ranks& row : rows)
        doubled.push_back(doubledOf(row));
    return doubled;
}

FriedmanCritical criticalOf(const std::vector<Doubled>& rows, double alpha) {
    const auto assessors = static_cast<double>(rows.size());
    const auto products = static_cast<double>(rows.front().size());
    const double untied = untiedShare(rows);
    if (untied <= kAllTied) return {std::nullopt, true};
    const auto sums = distributionOf(rows);
    if (!sums) return {chiSquareCritical(alpha, static_cast<int>(rows.front().size()) - 1), false};
    FriedmanCritical critical{std::nullopt, true};
    double tail = 0;
    const auto squares = bySquares(*sums, rows.front().size());
    for (auto it = squares.rbegin(); it != squares.rend(); ++it) {
        tail += it->second;
        if (tail > alpha) break;
        critical.statistic = statisticOf(static_cast<double>(it->first) / 4, assessors, products) / untied;
    }
    return critical;
}

} // namespace

Ranks midranks(const std::vector<double>& order) {
    std::vector<double> sorted = order;
    std::sort(sorted.begin(), sorted.end());
    Ranks ranks(order.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        const auto [first, last] = std::equal_range(sorted.begin(), sorted.end(), order[i]);
        ranks[i] =
            (static_cast<double>(first - sorted.begin()) + 1 + static_cast<double>(last - sorted.begin())) /
            2;
    }
    return ranks;
}

double friedmanStatistic(int assessors, const std::vector<double>& rankSums) {
    STILLROOM_CHECK(assessors > 0 && rankSums.size() >= 2, return 0);
    const double squares = std::inner_product(rankSums.begin(), rankSums.end(), rankSums.begin(), 0.0);
    return statisticOf(squares, assessors, static_cast<double>(rankSums.size()));
}

Friedman friedman(const std::vector<Ranks>& rows) {
    STILLROOM_CHECK(isTable(rows), return {});
    const std::vector<Doubled> doubled = doubledRows(rows);

    Friedman result;
    result.assessors = static_cast<int>(rows.size());
    result.rankSums = rankSumsOf(rows);
    const double untied = untiedShare(doubled);
    if (untied <= kAllTied) { // everyone tied everything: nothing can be seen
        result.exact = true;
        return result;
    }
    result.statistic = friedmanStatistic(result.assessors, result.rankSums) / untied;
    if (const auto sums = distributionOf(doubled)) {
        Doubled found(result.rankSums.size());
        std::transform(result.rankSums.begin(), result.rankSums.end(), found.begin(),
                       [](double sum) { return static_cast<int>(std::lround(sum * 2)); });
        const auto squares = bySquares(*sums, found.size());
        result.exact = true;
        result.chance = 0;
        // From the rarest on, as friedmanCritical() adds them: the two agree to the last bit.
        const std::int64_t least = sumOfSquares(found);
        for (auto it = squares.rbegin(); it != squares.rend() && it->first >= least; ++it)
            result.chance += it->second;
        result.chance = std::min(1.0, result.chance);
    } else {
        result.chance = chiSquareUpperTail(result.statistic, static_cast<int>(rows.front().size()) - 1);
    }
    return result;
}

FriedmanCritical friedmanCritical(int assessors, int products, double alpha) {
    STILLROOM_CHECK(assessors > 0 && products >= 2 && alpha > 0 && alpha < 1, return {});
    Doubled order(static_cast<std::size_t>(products));
    for (std::size_t i = 0; i < order.size(); ++i)
        order[i] = static_cast<int>(2 * (i + 1));
    return criticalOf(std::vector<Doubled>(static_cast<std::size_t>(assessors), order), alpha);
}

FriedmanCritical friedmanCritical(const std::vector<Ranks>& rows, double alpha) {
    STILLROOM_CHECK(isTable(rows) && alpha > 0 && alpha < 1, return {});
    return criticalOf(doubledRows(rows), alpha);
}

bool hasTies(const std::vector<Ranks>& rows) {
    STILLROOM_CHECK(isTable(rows), return false);
    return tieSum(doubledRows(rows)) > 0;
}

double leastRankDifference(int assessors, int products, double alpha) {
    STILLROOM_CHECK(assessors > 0 && products >= 2 && alpha > 0 && alpha < 1, return 0);
    return normalQuantile(1 - alpha / 2) * std::sqrt(assessors * products * (products + 1) / 6.0);
}

Page page(const std::vector<Ranks>& rows) {
    STILLROOM_CHECK(isTable(rows), return {});
    const auto sums = rankSumsOf(rows);
    Page result;
    for (std::size_t i = 0; i < sums.size(); ++i)
        result.statistic += static_cast<double>(i + 1) * sums[i];
    const auto j = static_cast<double>(rows.size());
    const auto p = static_cast<double>(sums.size());
    result.normalForm =
        (12 * result.statistic - 3 * j * p * (p + 1) * (p + 1)) / (p * (p + 1) * std::sqrt(j * (p - 1)));
    result.exact = sums.size() <= kMostExactPageProducts;
    result.chance = result.exact ? exactPageChance(rows, static_cast<int>(std::lround(2 * result.statistic)))
                                 : normalUpperTail(result.normalForm);
    return result;
}

PageCritical pageCritical(int assessors, int products, double alpha) {
    STILLROOM_CHECK(assessors > 0 && products >= 2 && alpha > 0 && alpha < 1, return {});
    Ranks order(static_cast<std::size_t>(products));
    std::iota(order.begin(), order.end(), 1.0);
    const std::vector<Ranks> rows(static_cast<std::size_t>(assessors), order);
    if (order.size() > kMostExactPageProducts) {
        // L' of ISO 8587 turned round, up to the next whole L.
        const double j = assessors;
        const double p = products;
        const double needed = normalQuantile(1 - alpha);
        const double level =
            (needed * p * (p + 1) * std::sqrt(j * (p - 1)) + 3 * j * p * (p + 1) * (p + 1)) / 12;
        const double most = j * p * (p + 1) * (2 * p + 1) / 6;
        const double least = std::ceil(level - 1e-9);
        return {least <= most ? std::optional(least) : std::nullopt, false};
    }
    PageCritical critical{std::nullopt, true};
    const auto total = pageOfAll(rows);
    double tail = 0;
    for (auto it = total.rbegin(); it != total.rend(); ++it) {
        tail += it->second;
        if (tail > alpha) break;
        critical.statistic = it->first / 2.0;
    }
    return critical;
}

} // namespace stillroom::tasting
