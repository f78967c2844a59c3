#pragma once

#include "core/exchange/line_draft.h"

#include <optional>
#include <string>
#include <vector>

namespace stillroom::exchange {

// Reads one ingredient from left to right, each step taking what it knows and leaving the rest. How a line
// opens (asides, roles, "juice of", qualifiers) is in line_grammar.cpp; its amounts are in line_amounts.cpp.
class Grammar {
  public:
    Grammar(const TokenLine& line, std::size_t first, std::size_t last, const ReadOptions& options)
        : m_line(line),
          m_at(first),
          m_last(last),
          m_options(options) {}
    LineDraft read();

  private:
    const Token& tok(std::size_t i) const { return i < m_last ? m_line.at(i) : m_end; }
    void takeLeadingAsides();
    void takeRolePrefix();
    bool startsCount(std::size_t i) const;
    bool takeJuiceOf();
    bool takeEggPart();
    void takeEqualParts();
    void takeLeadIn();
    void takeQualifiers(bool needUnit);
    bool startsNumber(std::size_t i) const { return startsCount(i); }
    std::size_t wordQualifier(std::size_t i, spec::Qualifier& found, std::vector<std::string>& notes,
                              bool needUnit) const;
    void takeAmount();
    bool isNameFigure(const NumberRead& number) const;
    void takeNumbered(NumberRead number);
    bool takeLength();
    bool takeMultiplied();
    void takeBracketBeforeUnit();
    void takeUnit();
    bool refusesUnit(const UnitRead& unit) const;
    void takeOrTwo();
    void takeEach();
    void takeAfterUnit();
    static bool isFillWord(std::string_view w);
    void takeBareUnit();
    bool isLinkAt(std::size_t i) const;

    struct Container {
        NumberRead count;
        NumberRead size;
        UnitRead sizeUnit;
        UnitRead unit;
        std::size_t sizeFirst = 0;
        std::size_t sizeLast = 0;
    };
    std::optional<Container> containerAt(std::size_t at) const;
    void applyContainer(const Container& c);
    void takeSecondMeasures();
    void takeVesselWord();
    bool takeSlashEquivalent();
    bool takeUnitRange();
    bool takeSum();
    bool addWithin(const AmountRead& second);
    void skipLinks();
    bool takeTrailingAmount();
    void adoptBracket();

    const TokenLine& m_line;
    std::size_t m_at;
    std::size_t m_numberAt = 0;
    std::size_t m_last;
    const ReadOptions& m_options;
    LineDraft m_draft;
    bool m_prefixRole = false;
    Token m_end;
};

} // namespace stillroom::exchange
