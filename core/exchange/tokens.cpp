#include "core/exchange/tokens.h"

#include "core/base/code_points.h"
#include "core/exchange/clean_text.h"

#include <array>
#include <optional>

namespace stillroom::exchange {

namespace {

struct VulgarForm {
    char32_t c;
    std::int64_t over;
    std::int64_t under;
};
// Unicode "Number Forms" and Latin-1
constexpr std::array<VulgarForm, 19> kVulgar{{{0xBC, 1, 4},
                                              {0xBD, 1, 2},
                                              {0xBE, 3, 4},
                                              {0x2150, 1, 7},
                                              {0x2151, 1, 9},
                                              {0x2152, 1, 10},
                                              {0x2153, 1, 3},
                                              {0x2154, 2, 3},
                                              {0x2155, 1, 5},
                                              {0x2156, 2, 5},
                                              {0x2157, 3, 5},
                                              {0x2158, 4, 5},
                                              {0x2159, 1, 6},
                                              {0x215A, 5, 6},
                                              {0x215B, 1, 8},
                                              {0x215C, 3, 8},
                                              {0x215D, 5, 8},
                                              {0x215E, 7, 8},
                                              {0x2189, 0, 3}}};

std::optional<quantity::Rational> vulgarValue(char32_t c) {
    if (c < 0xBC) return std::nullopt;
    for (const VulgarForm& form : kVulgar)
        if (form.c == c) return quantity::Rational::make(form.over, form.under);
    return std::nullopt;
}

// One spelling for marks that mean the same.
std::string_view plainMark(char32_t c) {
    switch (c) {
    case 0x2010:
    case 0x2011:
        return "-";
    case 0x2012:
    case 0x2013:
    case 0x2014:
    case 0x2015:
        return "–";
    case 0x2212:
        return "−";
    case 0x2044:
    case 0x2215:
        return "/";
    case 0x2018:
    case 0x2019:
    case 0x02BC:
    case 0x00B4:
    case '`':
        return "'";
    case 0x00D7:
    case 0x2715:
        return "×";
    case 0x301C:
    case 0x223C:
        return "~";
    case 0x3001:
        return ",";
    case 0x3002:
        return ".";
    default:
        return {};
    }
}

bool isApostrophe(char32_t c) {
    return c == '\'' || plainMark(c) == "'";
}
bool isJoiner(char32_t c) {
    return c == 0x200D || c == 0x200C || (c >= 0xFE00 && c <= 0xFE0F);
}
bool isPlainDigit(char32_t c) {
    return c >= '0' && c <= '9';
}

// French and Italian articles that lose their vowel stand as words of their own: d'amers, l'eau.
bool isElidedArticle(std::string_view folded) {
    return folded == "d" || folded == "l" || folded == "dell" || folded == "all";
}

class Scanner {
  public:
    explicit Scanner(std::string_view text) : m_text(text) {}

    std::vector<Token> run() {
        std::vector<Token> tokens;
        tokens.reserve(m_text.size() / 4 + 4);
        while (m_at < m_text.size()) {
            if (skipSpace()) continue;
            Token token = next();
            token.gap = m_gap;
            m_gap = Gap::None;
            tokens.push_back(std::move(token));
        }
        return tokens;
    }

  private:
    bool skipSpace() {
        if (m_text[m_at] == ' ') {
            m_gap = Gap::Space;
            ++m_at;
            return true;
        }
        if (m_text.substr(m_at, kNoBreakSpace.size()) == kNoBreakSpace) {
            m_gap = Gap::NoBreak;
            m_at += kNoBreakSpace.size();
            return true;
        }
        return false;
    }

    Token next() {
        Token token;
        token.begin = m_at;
        const auto [c, size] = base::codePointAt(m_text, m_at);
        if (isPlainDigit(c)) {
            token.kind = TokenKind::Digits;
            while (m_at < m_text.size() && isPlainDigit(static_cast<unsigned char>(m_text[m_at])))
                ++m_at;
        } else if (const auto vulgar = vulgarValue(c)) {
            token.kind = TokenKind::Vulgar;
            token.vulgar = *vulgar;
            m_at += size;
        } else if (base::isLetter(c) && !isApostrophe(c)) { // U+02BC is both
            scanWord(token);
        } else if (base::isPictograph(c)) {
            token.kind = TokenKind::Symbol;
            scanSymbol();
        } else {
            token.kind = TokenKind::Mark;
            const std::string_view plain = plainMark(c);
            token.folded = plain.empty() ? m_text.substr(m_at, size) : plain;
            m_at += size;
        }
        token.end = m_at;
        return token;
    }

    void scanWord(Token& token) {
        token.kind = TokenKind::Word;
        while (m_at < m_text.size()) {
            const auto [c, size] = base::codePointAt(m_text, m_at);
            if (isApostrophe(c)) {
                const std::size_t after = m_at + size;
                const bool letterFollows =
                    after < m_text.size() && base::isLetter(base::codePointAt(m_text, after).value);
                if (!letterFollows || isElidedArticle(token.folded)) return;
                token.folded.push_back('\'');
            } else if (base::isLetter(c)) {
                base::appendFolded(token.folded, c);
            } else if (!isJoiner(c)) {
                return;
            }
            m_at += size;
        }
    }

    // A family of pictures joined by joiners and skin tones is one symbol.
    void scanSymbol() {
        bool joined = true;
        while (m_at < m_text.size()) {
            const auto [c, size] = base::codePointAt(m_text, m_at);
            const bool modifier = c >= 0x1F3FB && c <= 0x1F3FF;
            if (!isJoiner(c) && !modifier && !(joined && base::isPictograph(c))) return;
            joined = c == 0x200D;
            m_at += size;
        }
    }

    std::string_view m_text;
    std::size_t m_at = 0;
    Gap m_gap = Gap::None;
};

} // namespace

TokenLine::TokenLine(std::string cleanText) : m_text(std::move(cleanText)), m_tokens(Scanner(m_text).run()) {}

std::string_view TokenLine::raw(std::size_t i) const {
    if (i >= m_tokens.size()) return {};
    return std::string_view(m_text).substr(m_tokens[i].begin, m_tokens[i].end - m_tokens[i].begin);
}

std::string TokenLine::slice(std::size_t first, std::size_t last) const {
    if (first >= last || last > m_tokens.size()) return {};
    const std::string_view written = std::string_view(m_text).substr(
        m_tokens[first].begin, m_tokens[last - 1].end - m_tokens[first].begin);
    std::string out;
    out.reserve(written.size());
    for (std::size_t i = 0; i < written.size(); ++i) {
        const bool noBreak = written.substr(i, kNoBreakSpace.size()) == kNoBreakSpace;
        out.push_back(noBreak ? ' ' : written[i]);
        if (noBreak) i += kNoBreakSpace.size() - 1;
    }
    return out;
}

} // namespace stillroom::exchange
