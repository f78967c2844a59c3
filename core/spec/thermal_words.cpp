#include "core/spec/thermal_words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace stillroom::spec {

namespace {

using physics::kIceGPerMl;

char lower(char c) noexcept {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}
bool isLetter(char c) noexcept {
    return lower(c) >= 'a' && lower(c) <= 'z';
}
bool isDigit(char c) noexcept {
    return c >= '0' && c <= '9';
}

bool alike(std::string_view word, std::string_view plain) noexcept {
    if (word.size() != plain.size()) return false;
    for (std::size_t i = 0; i < word.size(); ++i)
        if (lower(word[i]) != plain[i]) return false;
    return true;
}
template <std::size_t N>
bool isAnyOf(std::string_view word, const std::array<std::string_view, N>& list) noexcept {
    for (const std::string_view entry : list)
        if (alike(word, entry)) return true;
    return false;
}

// A word, a number or one other byte at a time; blanks pass.
class Scanner {
  public:
    explicit Scanner(std::string_view text) : m_rest(text) {}

    struct Token {
        std::string_view word; // letters
        std::optional<double> number;
        bool degree = false; // U+00B0
        bool ended = false;
    };
    Token next() noexcept {
        while (!m_rest.empty() && !isLetter(m_rest[0]) && !isDigit(m_rest[0]) && !startsDegree())
            m_rest.remove_prefix(1);
        Token token;
        if (m_rest.empty()) {
            token.ended = true;
        } else if (startsDegree()) {
            token.degree = true;
            m_rest.remove_prefix(2);
        } else if (isLetter(m_rest[0])) {
            std::size_t n = 1;
            while (n < m_rest.size() && isLetter(m_rest[n]))
                ++n;
            token.word = m_rest.substr(0, n);
            m_rest.remove_prefix(n);
        } else {
            token.number = number();
        }
        return token;
    }

  private:
    bool startsDegree() const noexcept { return m_rest.substr(0, 2) == "\xC2\xB0"; }
    double number() noexcept {
        double value = 0;
        double place = 0;
        std::size_t n = 0;
        for (; n < m_rest.size(); ++n) {
            const char c = m_rest[n];
            const bool point =
                (c == '.' || c == ',') && place == 0 && n + 1 < m_rest.size() && isDigit(m_rest[n + 1]);
            if (point) {
                place = 1;
            } else if (isDigit(c)) {
                value = 10 * value + (c - '0');
                place *= 10;
            } else {
                break;
            }
        }
        m_rest.remove_prefix(n);
        return place > 0 ? value / place : value;
    }

    std::string_view m_rest;
};

// Of a thing, not of a temperature, when this word follows.
bool namesAThing(std::string_view following) noexcept {
    constexpr std::array<std::string_view, 18> kThings{
        "sauce",   "pepper", "peppers", "honey",    "chilli",  "chili",  "chile",   "brew", "brewed",
        "pressed", "press",  "drip",    "infusion", "infused", "smoked", "process", "foam", "spice"};
    return isAnyOf(following, kThings);
}

double countNamed(std::string_view word) noexcept {
    constexpr std::array<std::string_view, 6> kNames{"one", "two", "three", "four", "five", "six"};
    for (std::size_t i = 0; i < kNames.size(); ++i)
        if (alike(word, kNames[i])) return static_cast<double>(i + 1);
    return 0;
}

bool isCube(std::string_view word) noexcept {
    constexpr std::array<std::string_view, 6> kCubes{"cube", "cubes", "block", "blocks", "rock", "rocks"};
    return isAnyOf(word, kCubes);
}
bool isSphere(std::string_view word) noexcept {
    constexpr std::array<std::string_view, 4> kSpheres{"sphere", "spheres", "ball", "balls"};
    return isAnyOf(word, kSpheres);
}

} // namespace

namespace {

// Of one word, with the one before it; most words are none of these, and their first letter says so.
std::optional<double> celsiusOfWord(std::string_view word, std::string_view before) noexcept {
    constexpr std::array<std::string_view, 4> kNearly{"near", "nearly", "almost", "off"};
    switch (lower(word[0])) {
    case 'b':
        if (alike(word, "boiling")) return isAnyOf(before, kNearly) ? 92 : 97;
        break;
    case 'h':
        if (alike(word, "hot")) return 80;
        break;
    case 'w':
        if (alike(word, "warm") || alike(word, "warmed")) return 45;
        break;
    case 'c':
        if (alike(word, "chilled") || alike(word, "cold")) return 5;
        if (alike(word, "cream") && alike(before, "ice")) return -15;
        break;
    case 'r':
        if (alike(word, "refrigerated")) return 5;
        break;
    case 'f':
        if (alike(word, "frozen")) return -15;
        break;
    default:
        break;
    }
    return std::nullopt;
}

} // namespace

std::optional<double> celsiusOfWords(std::string_view text) noexcept {
    Scanner scanner(text);
    std::string_view before;
    for (auto token = scanner.next(); !token.ended;) {
        const auto said = token.word.empty() ? std::nullopt : celsiusOfWord(token.word, before);
        const auto following = scanner.next();
        if (said && !namesAThing(following.word)) return said;
        before = token.word;
        token = following;
    }
    return std::nullopt;
}

std::optional<double> celsiusWritten(std::string_view text) noexcept {
    Scanner scanner(text);
    for (auto token = scanner.next(); !token.ended;) {
        auto following = scanner.next();
        if (token.number) {
            const double value = *token.number;
            if (following.degree) following = scanner.next();
            if (alike(following.word, "c")) return value;
            if (alike(following.word, "f")) return (value - 32) / 1.8;
        }
        token = following;
    }
    return std::nullopt;
}

std::optional<physics::IceInGlass> iceOfWords(std::string_view text) noexcept {
    Scanner scanner(text);
    double count = 1;
    double edgeCm = 0;
    const auto pieces = [&](bool sphere) {
        const double volume = std::pow(edgeCm, 3) * (sphere ? std::numbers::pi / 6 : 1.0);
        const double most = std::clamp(count, 1.0, 1e3);
        return physics::IceInGlass{count * volume * kIceGPerMl, edgeCm * 10, static_cast<int>(most), sphere};
    };
    for (auto token = scanner.next(); !token.ended;) {
        auto following = scanner.next();
        if (token.number) {
            if (alike(following.word, "mm"))
                edgeCm = *token.number / 10;
            else if (alike(following.word, "cm"))
                edgeCm = *token.number;
            else if (alike(following.word, "g") || alike(following.word, "grams"))
                return physics::IceInGlass{*token.number};
            else
                count = *token.number;
        } else if (const double named = countNamed(token.word); named > 0) {
            count = named;
        } else if (edgeCm > 0 && isCube(token.word)) {
            return pieces(false);
        } else if (edgeCm > 0 && isSphere(token.word)) {
            return pieces(true);
        }
        token = following;
    }
    return std::nullopt;
}

std::optional<double> barWritten(std::string_view text) noexcept {
    constexpr double kBarPerPsi = 0.0689475729;
    Scanner scanner(text);
    for (auto token = scanner.next(); !token.ended;) {
        const auto following = scanner.next();
        if (token.number && alike(following.word, "bar")) return *token.number;
        if (token.number && alike(following.word, "psi")) return *token.number * kBarPerPsi;
        token = following;
    }
    return std::nullopt;
}

std::optional<double> iceGramsOfWords(std::string_view text) noexcept {
    const auto ice = iceOfWords(text);
    return ice ? std::optional(ice->grams) : std::nullopt;
}

bool namesIce(std::string_view text) noexcept {
    Scanner scanner(text);
    for (auto token = scanner.next(); !token.ended; token = scanner.next())
        if (alike(token.word, "ice") || isCube(token.word) || isSphere(token.word)) return true;
    return false;
}

} // namespace stillroom::spec
