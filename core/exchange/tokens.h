#pragma once

#include "core/quantity/rational.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::exchange {

enum class TokenKind : std::uint8_t { Digits, Vulgar, Word, Mark, Symbol };
enum class Gap : std::uint8_t { None, Space, NoBreak }; // what stands before a token

struct Token {
    TokenKind kind = TokenKind::Mark;
    Gap gap = Gap::None;
    std::size_t begin = 0; // bytes in the text
    std::size_t end = 0;
    // Words: lower case without accents. Marks: one character, with every hyphen "-", every long dash "–",
    // the minus sign "−", every slash "/", every apostrophe "'", every times sign "×".
    std::string folded;
    quantity::Rational vulgar; // "¾" is 3/4

    bool isWord(std::string_view word) const { return kind == TokenKind::Word && folded == word; }
    bool isMark(std::string_view mark) const { return kind == TokenKind::Mark && folded == mark; }
    bool isTight() const { return gap == Gap::None; }
};

// A clean line and its tokens. Indices beyond the end give an empty mark, so readers need no bounds checks.
class TokenLine {
  public:
    explicit TokenLine(std::string cleanText);
    const std::string& text() const { return m_text; }
    std::size_t size() const { return m_tokens.size(); }
    const Token& at(std::size_t i) const { return i < m_tokens.size() ? m_tokens[i] : m_none; }
    std::string_view raw(std::size_t i) const;
    std::string slice(std::size_t first, std::size_t last) const; // tokens [first, last) as written

  private:
    std::string m_text;
    std::vector<Token> m_tokens;
    Token m_none;
};

} // namespace stillroom::exchange
