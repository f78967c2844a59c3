#pragma once

// The distributions a tasting panel needs, computed rather than looked up. Probabilities are plain numbers
// from 0 to 1. Nothing here knows of tasters or drinks, and nothing keeps state (std::lgamma does).
namespace stillroom::tasting {

// ln Gamma(x) for x > 0, to about 15 digits (Stirling's series after shifting x upwards).
double logGamma(double x);

// I_x(a, b), the regularized incomplete beta function, for a, b > 0 and 0 <= x <= 1.
double regularizedBeta(double a, double b, double x);

double normalUpperTail(double z);
double normalQuantile(double probability); // z with P(Z <= z) = probability, 0 < probability < 1

// P(T >= t). The degrees of freedom may be a fraction, as Welch's are.
double studentUpperTail(double t, double degrees);
double studentQuantile(double probability, double degrees); // 0 < probability < 1

double chiSquareUpperTail(double x, int degrees);    // P(X >= x)
double chiSquareCritical(double alpha, int degrees); // x with P(X >= x) = alpha

} // namespace stillroom::tasting
