#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace stillroom::base {

// All text in core is UTF-8. These are thin wrappers over ICU, so that no other file includes it.
bool isValidUtf8(std::string_view text);
std::string toNfkc(std::string_view text);
std::string toNfc(std::string_view text);
// For comparing what people wrote: NFKC, case folded, accents removed, hyphens and slashes read as
// spaces, runs of space made one, ends trimmed. "Crème-de Violette " -> "creme de violette".
std::string fold(std::string_view text);
std::string toLower(std::string_view text);
// The words of fold(text).
std::vector<std::string> foldedWords(std::string_view text);
std::string_view trimmed(std::string_view text);
// Order for lists shown to people (ICU root collation): -1, 0, 1.
int compareForPeople(std::string_view a, std::string_view b);
// Bytes that compare as compareForPeople() does: for sorting a long list without reading each name again.
std::string sortKeyForPeople(std::string_view text);
// Whole code points, so that a cut never splits one; adds "…" when something was cut.
std::string elided(std::string_view text, std::size_t maxCodePoints);
// Control and bidirectional-override characters made visible or removed; joiners are kept.
std::string withoutControls(std::string_view text);
// Levenshtein distance over code points, stopping early above `limit` (returns limit + 1).
std::size_t editDistance(std::string_view a, std::string_view b, std::size_t limit);
// The shortest decimal that reads back as the same double, '.' as the point, never an exponent for
// 1e-6 <= |value| < 1e15. This is how numbers enter canonical JSON.
std::string shortestDecimal(double value);

} // namespace stillroom::base
