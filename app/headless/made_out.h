#pragma once

#include "core/preparation/keeping.h"
#include "core/preparation/preparation.h"

#include <nlohmann/json_fwd.hpp>

#include <iosfwd>
#include <string>

namespace stillroom::headless {

// What a preparation comes to, step by step: `made` of `show`.
nlohmann::ordered_json madeJson(const preparation::Made& made, const preparation::Keeping& keeping,
                                const quantity::Currency& currency);
void writeMade(std::ostream& out, const preparation::Made& made, const preparation::Keeping& keeping,
               const quantity::Currency& currency);

std::string stepRemarkWords(preparation::StepRemark remark);
std::string stepProblemWords(preparation::StepProblem problem);

} // namespace stillroom::headless
