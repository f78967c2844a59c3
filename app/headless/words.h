#pragma once

#include "core/exchange/plain_number.h"
#include "core/exchange/read_text.h"
#include "core/history/history.h"
#include "core/spec/caution.h"
#include "core/spec/more_readings.h"
#include "core/store/error.h"
#include "core/tasting/tasting.h"

#include <string>
#include <string_view>

namespace stillroom::headless {

// The words for core's codes. English, for terminals; the window has its own in ui/text.
std::string_view readKindId(exchange::ReadKind kind); // "ingredient": the key of `read --json`
std::string_view readProblemId(exchange::ReadProblem problem);
std::string_view readProblemWords(exchange::ReadProblem problem);
std::string_view doubtId(exchange::DoubtCode code); // "ounce_of_solid"
std::string_view doubtWeightId(exchange::DoubtWeight weight);
// What was seen and what to write: "\"1,000.5\" has a comma and a point: write 1000.5".
std::string numberProblemWords(exchange::NumberProblem problem, std::string_view typed);
std::string
doubtWords(const exchange::Doubt& doubt);   // "ounces of something solid: poured or weighed? (3 oz mint)"
std::string gapWords(const spec::Gap& gap); // "Gentian liqueur: sugar is not known"
std::string_view matchQualityId(larder::MatchQuality quality);
std::string_view quantityWords(spec::Quantity quantity); // "Strength"
std::string_view moreWords(spec::More more);             // "Freezing begins"
std::string_view moreNoteWords(std::string_view note);   // of spec::moreNote; "" for none
std::string_view severityWords(spec::Severity severity); // "DANGER"
std::string_view verdictWords(tasting::Verdict verdict);
std::string storeErrorWords(const store::StoreError& error); // what happened, what was kept, what to do

} // namespace stillroom::headless
