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

TEST_CASE("With any ties F is enough exactly where its chance is", "[tasting][statistics]") {
    // Every way three products can be put in order with ties: 13.
    std::vector<Ranks> orders;
    for (int code = 0; code < 27; ++code) {
        const Ranks ranks = midranks({code % 3 + 0.0, code / 3 % 3 + 0.0, code / 9 + 0.0});
        if (std::find(orders.begin(), orders.end(), ranks) == orders.end()) orders.push_back(ranks);
    }
    REQUIRE(orders.size() == 13);
    int panels = 0;
    int contradictions = 0;
    int shown = 0;
    // Who ranked how does not matter: every multiset of 4 and of 5 assessors.
    for (const std::size_t assessors : {std::size_t{4}, std::size_t{5}}) {
        std::vector<std::size_t> chosen(assessors, 0);
        for (;;) {
            std::vector<Ranks> rows;
            for (const std::size_t index : chosen)
                rows.push_back(orders[index]);
            const Friedman found = friedman(rows);
            const auto critical = friedmanCritical(rows, 0.05);
            const bool rare = found.chance <= 0.05;
            const bool enough = critical.statistic && found.statistic >= *critical.statistic;
            ++panels;
            shown += rare ? 1 : 0;
            contradictions += rare != enough ? 1 : 0;
            std::size_t at = 0;
            while (at < assessors && chosen[at] == orders.size() - 1)
                ++at;
            if (at == assessors) break;
            const std::size_t next = chosen[at] + 1;
            for (std::size_t i = 0; i <= at; ++i)
                chosen[i] = next;
        }
    }
    CHECK(panels == 1820 + 6188); // 16 over 4 and 17 over 5
    CHECK(shown > 100);
    CHECK(contradictions == 0);
}

TEST_CASE("Without ties the critical F is the published table's", "[tasting][statistics]") {
    // ISO 8587, table 2: 3 products, 5 %: 4 assessors 6.50, 5 assessors 6.40.
    const auto of = [](std::size_t assessors) {
        return *friedmanCritical(std::vector<Ranks>(assessors, {1, 2, 3}), 0.05).statistic;
    };
    CHECK(of(4) == Approx(6.5));
    CHECK(of(5) == Approx(6.4));
    CHECK(of(4) == *friedmanCritical(4, 3, 0.05).statistic);
    CHECK_FALSE(hasTies({{1, 2, 3}, {2, 1, 3}}));
    CHECK(hasTies({{1, 2, 3}, {1.5, 1.5, 3}}));
}

TEST_CASE("Page's critical L is the smallest that is rare enough", "[tasting][statistics]") {
    // Page 1963, three treatments at 5 %: 3 blocks 41, 4 blocks 54, 5 blocks 66.
    CHECK(pageCritical(3, 3, 0.05).statistic == 41);
    CHECK(pageCritical(4, 3, 0.05).statistic == 54);
    CHECK(pageCritical(5, 3, 0.05).statistic == 66);
    CHECK_FALSE(pageCritical(1, 3, 0.05).statistic);
    const auto many = pageCritical(12, 8, 0.05);
    CHECK_FALSE(many.exact);
    REQUIRE(many.statistic);
    CHECK(*many.statistic > 12 * 8 * 81 / 4.0);
}
