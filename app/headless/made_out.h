#pragma once

#include "core/preparation/keeping.h"
#include "core/preparation/preparation.h"
#include "core/preparation/stretched.h"

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

// Both syrups that a ratio written in parts may be; nothing where its basis is said.
void writeRatio(std::ostream& out, const spec::Spec& spec, const spec::Bindings& bindings,
                const larder::Larder& larder);
// "acid 8.8 g/100 ml as citric (9.35 % by the rule of the peel), 1.5 times lime juice (6.0): half as sour
// again"
std::string stretchedWords(const preparation::Stretched& stretched, const std::string& juice);
nlohmann::ordered_json stretchedJson(const preparation::Stretched& stretched);

} // namespace stillroom::headless
