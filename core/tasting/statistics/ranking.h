#pragma once

#include <optional>
#include <vector>

// Ranking tests after ISO 8587: every assessor puts all products in order.
namespace stillroom::tasting {

using Ranks = std::vector<double>; // one assessor's, by product; ties share the middle of their places

// Any order of numbers as ranks from 1, ties as midranks: 1, 2, 2, 9 -> 1, 2.5, 2.5, 4.
Ranks midranks(const std::vector<double>& order);

// Friedman's F of rows of equal length (P >= 2 products), divided for ties as ISO 8587 says.
struct Friedman {
    int assessors = 0;
    std::vector<double> rankSums;
    double statistic = 0;
    double chance = 1;  // of an F this large or larger when nobody can tell
    bool exact = false; // every order enumerated, the ties as they fell; else chi-square with P - 1 degrees
    friend bool operator==(const Friedman&, const Friedman&) = default;
};
Friedman friedman(const std::vector<Ranks>& rows);
// Without ties, from rank sums alone.
double friedmanStatistic(int assessors, const std::vector<double>& rankSums);

// The smallest attainable F (no ties) that comes by chance in no more than alpha; nullopt where none does.
// `exact` is false where enumeration would be too long and the chi-square value is given.
struct FriedmanCritical {
    std::optional<double> statistic;
    bool exact = false;
    friend bool operator==(const FriedmanCritical&, const FriedmanCritical&) = default;
};
FriedmanCritical friedmanCritical(int assessors, int products, double alpha);
// The same with the ties of these rows, whoever tied what: F reaches it exactly where friedman(rows).chance
// is no more than alpha.
FriedmanCritical friedmanCritical(const std::vector<Ranks>& rows, double alpha);
bool hasTies(const std::vector<Ranks>& rows);

// Two rank sums this far apart differ, where Friedman's test says that anything does.
double leastRankDifference(int assessors, int products, double alpha);

// Page's test of an order foretold before pouring; rows' columns stand in that order, least first.
struct Page {
    double statistic = 0;  // L = sum of place times rank sum
    double normalForm = 0; // L' of ISO 8587, large means as foretold
    double chance = 1;     // of an L this large or larger
    bool exact = false;    // up to seven products, ties as they fell; else from the normal form
    friend bool operator==(const Page&, const Page&) = default;
};
Page page(const std::vector<Ranks>& rows);
// The smallest L (no ties) that comes by chance in no more than alpha.
struct PageCritical {
    std::optional<double> statistic; // none: not even everyone as foretold would do
    bool exact = false;
    friend bool operator==(const PageCritical&, const PageCritical&) = default;
};
PageCritical pageCritical(int assessors, int products, double alpha);

} // namespace stillroom::tasting
