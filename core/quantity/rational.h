#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace stillroom::quantity {

// An amount as written: an exact fraction of int64s, lowest terms, denominator above zero.
// Intermediates are 128 bits wide; a result that does not fit is nullopt, never a wrap.
class Rational {
  public:
    constexpr Rational() = default;
    constexpr Rational(std::int64_t whole) : m_num(whole) {} // NOLINT: 2 is 2/1
    static std::optional<Rational> make(std::int64_t numerator, std::int64_t denominator);
    // "3/4", "22.5", "2": exact, locale-neutral, what text() writes. Nothing else is read here; people's
    // ways of writing amounts are read in core/exchange.
    static std::optional<Rational> fromText(std::string_view text);

    std::int64_t numerator() const { return m_num; }
    std::int64_t denominator() const { return m_den; }
    double toDouble() const { return static_cast<double>(m_num) / static_cast<double>(m_den); }
    std::string text() const;
    bool isZero() const { return m_num == 0; }
    bool isNegative() const { return m_num < 0; }

    std::optional<Rational> plus(const Rational& other) const;
    std::optional<Rational> minus(const Rational& other) const;
    std::optional<Rational> times(const Rational& other) const;
    std::optional<Rational> over(const Rational& other) const; // nullopt on zero as well

    friend bool operator==(const Rational&, const Rational&) = default;
    friend bool operator<(const Rational& a, const Rational& b) { return lessThan(a, b); }

  private:
    static bool lessThan(const Rational& a, const Rational& b);
    std::int64_t m_num = 0;
    std::int64_t m_den = 1;
};

} // namespace stillroom::quantity
