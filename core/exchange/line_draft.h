#pragma once

#include "core/exchange/measure_words.h"
#include "core/exchange/number_reader.h"
#include "core/exchange/read_text.h"
#include "core/exchange/tokens.h"

#include <optional>
#include <string>
#include <vector>

namespace stillroom::exchange {

// A second statement of the amount, beside the first: "(45 ml)", "/ 60 ml".
struct Equivalent {
    quantity::Amount amount;
    UnitRead unit;
};

// What the grammar has found of one ingredient so far.
struct LineDraft {
    std::optional<NumberRead> number;
    std::optional<UnitRead> unit;
    quantity::Rational multiplier = 1;
    std::string roleWord; // "top", "rinse", "float": where it enters
    spec::Role role = spec::Role::Mixed;
    spec::Qualifier qualifier = spec::Qualifier::None;
    bool juiceOf = false;
    bool partOf = false; // zest of, rinds of
    bool equalParts = false;
    bool optional = false;
    bool toTaste = false;
    bool garnish = false;
    bool unreadable = false;
    bool numberMissing = false; // "a little", "dashes of": a measure without a count
    std::string name;
    std::size_t nameFirst = 0; // tokens of the name, for its sense
    std::size_t nameLast = 0;
    std::vector<std::string> notes;
    std::vector<Equivalent> equivalents;
    std::optional<Equivalent> eachHolds; // "(375 ml) bottle", "330 ml cans": of one, not of all
    std::vector<spec::Alternative> alternatives;
    std::vector<Doubt> doubts;

    void note(std::string text) {
        if (!text.empty()) notes.push_back(std::move(text));
    }
    void doubt(DoubtCode code, DoubtWeight weight, std::string detail) {
        doubts.push_back({code, weight, std::move(detail)});
    }
};

// One line among others, where what stands around it says what it is: readLine without that judgement.
ReadLine readLineInText(std::string_view text, const ReadOptions& options);
// The name and all that follows it: brackets, commas, "or", "to taste", "floated". Fills the draft.
void readNamePart(const TokenLine& line, std::size_t first, std::size_t last, LineDraft& draft,
                  const ReadOptions& options);
// The grammar of one ingredient in tokens [first, last).
LineDraft readIngredient(const TokenLine& line, std::size_t first, std::size_t last,
                         const ReadOptions& options);
// "45 ml", "2 oz": a number and a measure that fill [first, last) from its start. Returns the token after.
struct AmountRead {
    NumberRead number;
    UnitRead unit;
    std::size_t next = 0;
};
std::optional<AmountRead> readAmountAt(const TokenLine& line, std::size_t first, std::size_t last);

// Decides measure, unit id, certainty and other readings, and fills a ReadLine.
void settle(const TokenLine& line, LineDraft draft, const ReadOptions& options, ReadLine& out);
// Grammar right, barkeeping odd; too large, too small; a strength no liquid has.
void judgePlausibility(const TokenLine& line, std::size_t first, std::size_t last, ReadLine& out);
// A syrup by a ratio that does not say whether by weight or by the cup: the doubt's detail is the ratio
// (preparation/ratio.h shows what each would be), with the name where it is not of sugar: "2:1 honey syrup".
void judgeRatio(ReadLine& out);

// The borders of several ingredients run together in [first, last); empty when it is one.
std::vector<std::pair<std::size_t, std::size_t>> fusedParts(const TokenLine& line, std::size_t first,
                                                            std::size_t last);

// Words that change no number: scant, heaping, small. Returns None for other words.
spec::Qualifier qualifierOf(std::string_view folded);
bool isQualifierWord(std::string_view folded); // also those without a value of their own: thin, generous

} // namespace stillroom::exchange
