#pragma once

#include "core/exchange/read_text.h"
#include "core/spec/caution.h"
#include "core/spec/reading.h"
#include "core/spec/spec.h"

#include <iosfwd>
#include <string>
#include <vector>

namespace stillroom::headless {

// Plain text for a terminal, one shape per thing; everything from outside goes through `clean`.

// "≥ 7.2", "≤ 7.2", "7.2–8.4", "?", "—"; "≈ 24.0" where a formula is stretched or a figure assumed.
std::string readingText(spec::Quantity quantity, const spec::Reading& reading);
std::string readingText(const spec::Reading& reading, int decimals, double scale = 1);
std::string amountText(const spec::Measured& measured); // "22.5 ml", "2–3 dashes", "" when none is stated
std::string lineText(const spec::Line& line);           // "22.5 ml lemon juice"

// Rows: quantities. Columns: measured, mixed, served, unit.
void writeReadings(std::ostream& out, const spec::Readings& readings, const quantity::Currency& currency);
void writeGaps(std::ostream& out, const std::vector<spec::Gap>& gaps);
// Most dangerous first; standing notes once at the end, then who to ask.
// What is in it and what is not stated, which is never none. The spec names what the summary counts.
void writeAllergens(std::ostream& out, const spec::AllergenSummary& allergens, const spec::Spec& spec);
void writeCautions(std::ostream& out, const std::vector<spec::Caution>& cautions);
// Rows of cells in columns wide enough; all but the first `left` columns are set to the right.
void writeTable(std::ostream& out, const std::vector<std::vector<std::string>>& rows, std::size_t left);
// Wrapped at 92 characters, each line after `indent` spaces.
void writeParagraph(std::ostream& out, const std::string& text, std::size_t indent);

} // namespace stillroom::headless
