#pragma once

#include "core/exchange/read_text.h"
#include "core/exchange/tokens.h"

#include <optional>
#include <string>
#include <vector>

namespace stillroom::exchange {

// Marks that some write between thousands and others before decimals.
enum class GroupMark : std::uint8_t { None, Comma, Point, Space };

struct NumberRead {
    quantity::Amount amount; // none with `vague`, or when refused
    std::size_t next = 0;    // the token after the number
    bool article = false;    // "a", "ein": 1 without a figure
    bool vague = false;
    std::string vagueWord;                // "few"
    std::optional<Doubt> refusal;         // it is a number nobody can use
    std::vector<Doubt> doubts;            // those of weight Ask make the line unsure
    std::vector<quantity::Amount> others; // other amounts the same figures could be
    // "1,000" and "1.000": `amount` is the likelier, `grouped` and `decimal` are both; the measure decides.
    GroupMark groupMark = GroupMark::None;
    quantity::Rational grouped;
    quantity::Rational decimal;
    // "6/8" as written, for measures that are counted
    std::optional<std::pair<std::int64_t, std::int64_t>> slash;
};

// The number that starts at token `at`: figures, fractions, ranges, words. nullopt: none starts there.
std::optional<NumberRead> readNumber(const TokenLine& line, std::size_t at);
// "1,000.5", "1.000,5": a comma and a point in one number. Asked about, never guessed.
bool mixesMarks(const NumberRead& number);
// "100 %", "2:1", "8-year-old", "151 proof": figures that describe and do not measure.
bool figureDescribes(const TokenLine& line, std::size_t afterNumber);

} // namespace stillroom::exchange
