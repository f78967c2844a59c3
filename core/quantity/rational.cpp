#include "core/quantity/rational.h"

#include <charconv>
#include <limits>
#include <numeric>

namespace stillroom::quantity {

namespace {

__extension__ using Wide = __int128;

Wide gcd(Wide a, Wide b) {
    while (b != 0) {
        const Wide rest = a % b;
        a = b;
        b = rest;
    }
    return a < 0 ? -a : a;
}

struct Narrowed {
    std::int64_t num = 0;
    std::int64_t den = 1;
};

std::optional<Narrowed> reduced(Wide num, Wide den) {
    if (den == 0) return std::nullopt;
    if (den < 0) {
        num = -num;
        den = -den;
    }
    if (const Wide divisor = gcd(num, den); divisor > 1) {
        num /= divisor;
        den /= divisor;
    }
    constexpr Wide top = std::numeric_limits<std::int64_t>::max();
    if (num > top || num < -top || den > top) return std::nullopt;
    return Narrowed{static_cast<std::int64_t>(num), static_cast<std::int64_t>(den)};
}

std::optional<std::int64_t> wholeFrom(std::string_view text) {
    std::int64_t value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || text.empty()) return std::nullopt;
    return value;
}

} // namespace

std::optional<Rational> Rational::make(std::int64_t numerator, std::int64_t denominator) {
    const auto narrowed = reduced(numerator, denominator);
    if (!narrowed) return std::nullopt;
    Rational r;
    r.m_num = narrowed->num;
    r.m_den = narrowed->den;
    return r;
}

std::optional<Rational> Rational::fromText(std::string_view text) {
    if (const auto slash = text.find('/'); slash != std::string_view::npos) {
        const auto num = wholeFrom(text.substr(0, slash));
        const auto den = wholeFrom(text.substr(slash + 1));
        if (!num || !den) return std::nullopt;
        return make(*num, *den);
    }
    const auto point = text.find('.');
    if (point == std::string_view::npos) {
        const auto whole = wholeFrom(text);
        if (!whole) return std::nullopt;
        return Rational(*whole);
    }
    const bool negative = !text.empty() && text.front() == '-';
    const std::string_view wholeText = text.substr(negative ? 1 : 0, point - (negative ? 1 : 0));
    const std::string_view decimals = text.substr(point + 1);
    if (decimals.empty() || decimals.size() > 18 || decimals.front() == '-' || decimals.front() == '+')
        return std::nullopt;
    std::int64_t scale = 1;
    for (std::size_t i = 0; i < decimals.size(); ++i)
        scale *= 10;
    const auto whole = wholeText.empty() ? std::optional<std::int64_t>(0) : wholeFrom(wholeText);
    const auto part = wholeFrom(decimals);
    if (!whole || !part || *whole < 0) return std::nullopt;
    const Wide num = static_cast<Wide>(*whole) * scale + *part;
    const auto narrowed = reduced(negative ? -num : num, scale);
    if (!narrowed) return std::nullopt;
    return make(narrowed->num, narrowed->den);
}

std::string Rational::text() const {
    return m_den == 1 ? std::to_string(m_num) : std::to_string(m_num) + "/" + std::to_string(m_den);
}

std::optional<Rational> Rational::plus(const Rational& other) const {
    const auto n = reduced(static_cast<Wide>(m_num) * other.m_den + static_cast<Wide>(other.m_num) * m_den,
                           static_cast<Wide>(m_den) * other.m_den);
    return n ? make(n->num, n->den) : std::nullopt;
}

std::optional<Rational> Rational::minus(const Rational& other) const {
    const auto n = reduced(static_cast<Wide>(m_num) * other.m_den - static_cast<Wide>(other.m_num) * m_den,
                           static_cast<Wide>(m_den) * other.m_den);
    return n ? make(n->num, n->den) : std::nullopt;
}

std::optional<Rational> Rational::times(const Rational& other) const {
    const auto n = reduced(static_cast<Wide>(m_num) * other.m_num, static_cast<Wide>(m_den) * other.m_den);
    return n ? make(n->num, n->den) : std::nullopt;
}

std::optional<Rational> Rational::over(const Rational& other) const {
    const auto n = reduced(static_cast<Wide>(m_num) * other.m_den, static_cast<Wide>(m_den) * other.m_num);
    return n ? make(n->num, n->den) : std::nullopt;
}

bool Rational::lessThan(const Rational& a, const Rational& b) {
    return static_cast<Wide>(a.m_num) * b.m_den < static_cast<Wide>(b.m_num) * a.m_den;
}

} // namespace stillroom::quantity
