#pragma once

#include <string>
#include <string_view>

namespace stillroom::exchange {

// Whether a line tells somebody to do something, in the languages the reader knows.
bool soundsLikeMethod(std::string_view text);
// Whether its first word is such a verb: "Shake with ice".
bool startsWithVerb(std::string_view text);
// The glass a method names: "strain into a chilled coupe" -> "coupe". Empty: none.
std::string glassIn(std::string_view text);
// A glass by its own words: "rocks glass" -> "rocks", "Nick & Nora" as written.
std::string glassNamed(std::string_view text);

} // namespace stillroom::exchange
