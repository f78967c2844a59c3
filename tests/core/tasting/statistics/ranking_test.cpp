#include "core/tasting/statistics/ranking.h"

#include "core/tasting/statistics/distributions.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace stillroom::tasting;

namespace {

// Goes through every order of every assessor, ties kept: slow, plain, and by another route.
template <class Statistic>
double chanceByBruteForce(const std::vector<Ranks>& rows, Statistic statistic) {
    const double found = statistic(rows);
    long atLeast = 0;
    long all = 0;
    std::vector<Ranks> now = rows;
    for (auto& row : now)
        std::sort(row.begin(), row.end());
    for (;;) {
        ++all;
        if (statistic(now) >= found - 1e-9) ++atLeast;
        std::size_t i = 0;
        while (i < now.size() && !std::next_permutation(now[i].begin(), now[i].end()))
            ++i;
        if (i == now.size()) break;
    }
    return static_cast<double>(atLeast) / static_cast<double>(all);
}

double squares(const std::vector<Ranks>& rows) {
    double total = 0;
    for (std::size_t product = 0; product < rows.front().size(); ++product) {
        double sum = 0;
        for (const Ranks& row : rows)
            sum += row[product];
        total += sum * sum;
    }
    return total;
}

const std::vector<std::vector<Ranks>> kPanels{
    {{1, 2, 3}, {1, 3, 2}, {1, 2, 3}, {2, 1, 3}},
    {{1, 2.5, 2.5}, {1, 3, 2}, {1.5, 1.5, 3}, {2, 2, 2}, {1, 2, 3}},
    {{1, 2, 3, 4}, {2, 1, 4, 3}, {1, 2.5, 2.5, 4}},
    {{1, 2}, {1, 2}, {2, 1}, {1, 2}, {1, 2}},
};

} // namespace

TEST_CASE("Friedman's chance equals a count over every order with ties", "[tasting][statistics]") {
    for (const auto& rows : kPanels) {
        const Friedman result = friedman(rows);
        CHECK(result.exact);
        CHECK(result.chance == Approx(chanceByBruteForce(rows, squares)).epsilon(1e-12));
    }
}

TEST_CASE("Page's chance equals a count over every order with ties", "[tasting][statistics]") {
    for (const auto& rows : kPanels) {
        const Page result = page(rows);
        CHECK(result.exact);
        CHECK(result.chance == Approx(chanceByBruteForce(rows, [](const auto& now) {
                                   return page(now).statistic;
                               })).epsilon(1e-12));
    }
}

TEST_CASE("Ties raise Friedman's F and full ties show nothing", "[tasting][statistics]") {
    const auto tied = friedman({{1, 2.5, 2.5}, {1, 2.5, 2.5}, {1, 2.5, 2.5}});
    // F = 4.5 by the plain formula and 6 once the ties are taken out: all of the order there is.
    CHECK(friedmanStatistic(3, tied.rankSums) == Approx(4.5));
    CHECK(tied.statistic == Approx(6));
    CHECK(tied.chance == Approx(1.0 / 9));
    const auto nothing = friedman({{2, 2, 2}, {2, 2, 2}});
    CHECK(nothing.statistic == 0);
    CHECK(nothing.chance == 1);
}

TEST_CASE("Beyond what can be enumerated chi-square serves and says so", "[tasting][statistics]") {
    std::vector<Ranks> rows(40, Ranks{1, 2, 3, 4, 5, 6, 7});
    for (std::size_t i = 0; i < rows.size(); ++i)
        std::rotate(rows[i].begin(), rows[i].begin() + static_cast<long>(i % 3), rows[i].end());
    const auto result = friedman(rows);
    CHECK_FALSE(result.exact);
    CHECK(result.chance == Approx(chiSquareUpperTail(result.statistic, 6)));
    const auto critical = friedmanCritical(40, 7, 0.05);
    CHECK_FALSE(critical.exact);
    REQUIRE(critical.statistic);
    CHECK(*critical.statistic == Approx(12.592).margin(5e-4));
    // Where both exist they are near each other.
    const auto exact = friedmanCritical(30, 3, 0.05);
    CHECK(exact.exact);
    CHECK(exact.statistic.value_or(0) == Approx(chiSquareCritical(0.05, 2)).margin(0.3));
}

TEST_CASE("Two assessors can never show that three products differ", "[tasting][statistics]") {
    const auto critical = friedmanCritical(2, 3, 0.05);
    CHECK(critical.exact);
    CHECK_FALSE(critical.statistic);
}

TEST_CASE("Any numbers become ranks with ties in the middle", "[tasting][statistics]") {
    CHECK(midranks({1, 2, 2, 9}) == Ranks{1, 2.5, 2.5, 4});
    CHECK(midranks({30, 10, 20}) == Ranks{3, 1, 2});
    CHECK(midranks({5, 5, 5}) == Ranks{2, 2, 2});
}

TEST_CASE("Eight tasters and five products are still enumerated", "[tasting][statistics]") {
    const auto critical = friedmanCritical(8, 5, 0.05);
    CHECK(critical.exact);
    REQUIRE(critical.statistic);
    CHECK(*critical.statistic < chiSquareCritical(0.05, 4)); // chi-square asks a little too much
}
