#pragma once

namespace stillroom::tasting {

// X right answers of `trials`, each right with `probability`. Summed term by term from logarithms, the
// smaller side first, so that a tail of 1e-30 keeps its digits; good for a few thousand trials.
double binomialExactly(int trials, int count, double probability);
double binomialAtLeast(int trials, int count, double probability); // P(X >= count)
double binomialAtMost(int trials, int count, double probability);  // P(X <= count)

// The smallest count with P(X >= count) <= alpha: trials + 1 where even all of them would not do.
int binomialCritical(int trials, double probability, double alpha);

// Exact (Clopper-Pearson) one-sided bounds of the probability behind `count` right answers.
double binomialLowerBound(int trials, int count, double confidence);
double binomialUpperBound(int trials, int count, double confidence);

} // namespace stillroom::tasting
