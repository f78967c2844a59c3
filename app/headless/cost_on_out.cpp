#include "app/headless/cost_on_out.h"

#include "app/headless/command.h"
#include "app/headless/files.h"
#include "app/headless/json_out.h"
#include "app/headless/text_out.h"
#include "core/larder/price_history.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace stillroom::headless {

std::string dayAsked(const std::string& text) {
    if (!larder::isCivilDate(text))
        throw FileProblem(fmt::format("\"{}\" is no day: write it as 2026-03-01.", text));
    return text;
}

std::string costOnText(const CostOn& cost, const quantity::Currency& currency) {
    return fmt::format("{} {} on {}", readingText(spec::Quantity::Cost, cost.cost), currency.text(),
                       cost.day);
}

nlohmann::ordered_json costOnJson(const CostOn& cost, const spec::Spec& spec,
                                  const quantity::Currency& currency) {
    auto json = readingJson(spec, cost.cost, currency.text());
    json["on"] = cost.day;
    return json;
}

} // namespace stillroom::headless
