#pragma once

#include <cstdint>
#include <string_view>

namespace stillroom::exchange {

// Numbers that people spell, in English, German, French, Spanish and Italian, with the commonest Dutch and
// Portuguese ones.
enum class NumberWordKind : std::uint8_t {
    None,
    Article,  // a, ein, une: 1 before a noun, nothing before a fraction
    Cardinal, // value
    Fraction, // 1 / value: half, third, quarter
    Mixed,    // (2 · value + 1) / 2: anderthalb, zweieinhalb
    Dozen,
    Couple,
    Vague, // few, several: a number is meant but not said
    And,
};

struct NumberWord {
    NumberWordKind kind = NumberWordKind::None;
    std::int64_t value = 0;
};

NumberWord numberWord(std::string_view folded);

} // namespace stillroom::exchange
