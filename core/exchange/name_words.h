#pragma once

#include "core/exchange/tokens.h"
#include "core/larder/larder.h"

#include <string_view>

namespace stillroom::exchange {

// What a name sounds like, as far as reading an amount needs to know.
enum class NameForm : std::uint8_t {
    Unknown,
    Liquid,    // poured
    Thick,     // honey, jam, purée: poured by some and weighed by others
    Solid,     // weighed or counted
    Countable, // a whole thing: lime, egg, clove, espresso
};

struct NameSense {
    NameForm form = NameForm::Unknown;
    bool bitters = false;
    bool herb = false;       // light leaves
    bool strong = false;     // a spirit
    bool plural = false;     // its last word looks plural
    bool pourable = false;   // a countable that is also poured: egg white, espresso
    bool citrus = false;     // "1 oz lime" may mean its juice
    bool fruitJuice = false; // "lime juice": a fruit's name before "juice"
};

// The sense of tokens [first, last). The larder, when given, knows more names.
NameSense senseOf(const TokenLine& line, std::size_t first, std::size_t last);
NameSense senseOf(std::string_view name);
// Of the ingredient itself, by its facts: a dense solid without strength or water. Unknown when not matched.
NameForm formInLarder(std::string_view name, const larder::Larder& larder);

bool isFruit(std::string_view folded);     // "lime", "oranges", "zitrone"
bool isDescriber(std::string_view folded); // an adjective that waits for its noun: "fresh", "ripe"

} // namespace stillroom::exchange
