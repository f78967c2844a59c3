#pragma once

#include "core/exchange/number_reader.h"
#include "core/exchange/number_words.h"

#include <initializer_list>
#include <optional>
#include <string_view>
#include <utility>

// Internal to the reading of numbers (number_reader.cpp).
namespace stillroom::exchange {

bool isOneOf(const Token& token, std::initializer_list<std::string_view> words);

// One number, before ranges: a figure, a fraction, a spelled number.
struct SingleNumber {
    SingleNumber() = default;
    SingleNumber(quantity::Rational v, std::size_t after) : value(v), next(after) {}
    quantity::Rational value;
    std::size_t next = 0;
    bool whole = false; // plain figures: may start a mixed number
    bool article = false;
    bool vague = false;
    bool doubtful = false;
    GroupMark groupMark = GroupMark::None;
    quantity::Rational grouped;
    quantity::Rational decimal;
    std::optional<std::pair<std::int64_t, std::int64_t>> slash;
};

struct SingleRead {
    std::optional<SingleNumber> number; // none: none starts there, or a problem
    std::optional<DoubtCode> problem;   // it is a number nobody can use
};
SingleRead readSingle(const TokenLine& line, std::size_t at);
bool startsFigure(const TokenLine& line, std::size_t at);
// The number word at `i`; a quart is a quarter only in French.
NumberWord numberWordAt(const TokenLine& line, std::size_t i);

} // namespace stillroom::exchange
