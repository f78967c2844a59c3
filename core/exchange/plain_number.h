#pragma once

#include "core/quantity/rational.h"

#include <tl/expected.hpp>

#include <cstdint>
#include <string>
#include <string_view>

namespace stillroom::exchange {

enum class NumberProblem : std::uint8_t {
    NotANumber,
    CommaAndPoint,  // "1,000.5": which of them stands before decimals is a guess
    CommaAmbiguous, // "1,000": a thousand or one
};

// One number as people type it into a field, with a point before its decimals and "-" for a minus: "26.90" of
// "26,90", "1/3", "-4". Figures that two people would read differently are refused.
tl::expected<std::string, NumberProblem> plainNumber(std::string_view typed);
tl::expected<quantity::Rational, NumberProblem> plainRational(std::string_view typed);
// How it could be written so that it is read: "1000.5" of "1,000.5", "1000 or 1.000" of "1,000". Empty where
// nothing was seen that is one.
std::string plainlyWritten(std::string_view typed);

} // namespace stillroom::exchange
