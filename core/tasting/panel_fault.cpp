#include "core/tasting/panel_fault.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace stillroom::tasting {

std::optional<Panel> readPanelUnchecked(std::string_view text); // panel_json.cpp

namespace {

bool isBefore(const Serving& serving, int code) {
    return std::any_of(serving.cups.begin(), serving.cups.end(),
                       [code](const Cup& cup) { return cup.code == code; });
}

// A code that the taster was not given, of all that an answer names.
std::optional<int> strangeCode(const Serving& serving, const Answer& answer) {
    if (answer.chosen && !isBefore(serving, *answer.chosen)) return answer.chosen;
    for (const auto* marks : {&answer.ranks, &answer.scores, &answer.justRight})
        for (const auto& [code, mark] : *marks)
            if (!isBefore(serving, code)) return code;
    return std::nullopt;
}

// With this taster's serving and answer alone, is there still something wrong?
std::optional<PanelError> problemOfOne(const Panel& panel, std::size_t taster) {
    Panel one = panel;
    one.design.tasters = {panel.design.tasters[taster]};
    one.servings = {panel.servings[taster]};
    one.answers = {panel.answers[taster]};
    return problemOf(one);
}

PanelFault faultOf(const Panel& panel, PanelError error) {
    PanelFault fault{error, {}, {}};
    const std::size_t tasters = panel.design.tasters.size();
    if (panel.servings.size() != tasters || panel.answers.size() != tasters) return fault;
    std::set<int> codes;
    for (std::size_t i = 0; i < tasters; ++i) {
        for (const Cup& cup : panel.servings[i].cups)
            if (!codes.insert(cup.code).second) return {PanelError::Malformed, i, cup.code};
        if (const auto own = problemOfOne(panel, i)) {
            fault.error = own;
            const bool ofDesign = *own != PanelError::Malformed && *own != PanelError::UnknownCup &&
                                  *own != PanelError::BadScore;
            if (ofDesign) return fault;
            fault.taster = i;
            fault.code = strangeCode(panel.servings[i], panel.answers[i]);
            return fault;
        }
    }
    return fault;
}

std::string designWords(PanelError error) {
    switch (error) {
    case PanelError::ProductCount:
        return "two products are asked for, or two to eight where they are ranked or scored";
    case PanelError::RepeatedProduct:
        return "a product stands in it twice";
    case PanelError::NoTasters:
        return "it has no tasters";
    case PanelError::RepeatedTaster:
        return "a taster stands in it twice";
    case PanelError::BadForetold:
        return "what is foretold is not of its products";
    case PanelError::BadAlpha:
        return "its risk is above 0.5 or not above 0";
    default:
        return "it has other servings or answers than tasters";
    }
}

} // namespace

std::optional<PanelFault> panelFault(std::string_view json) {
    const auto panel = readPanelUnchecked(json);
    if (!panel) return PanelFault{};
    const auto error = problemOf(*panel);
    if (!error) return std::nullopt;
    return faultOf(*panel, *error);
}

std::string inWords(const PanelFault& fault, const std::vector<std::string>& tasters) {
    if (!fault.error) return "a key is missing, unknown or not of its sort";
    if (!fault.taster) return designWords(*fault.error);
    const std::string who = *fault.taster < tasters.size() && !tasters[*fault.taster].empty()
                                ? tasters[*fault.taster]
                                : fmt::format("taster {}", *fault.taster + 1);
    if (*fault.error == PanelError::UnknownCup)
        return fmt::format("the answer of {} names cup {}, which was not before that taster", who,
                           fault.code.value_or(0));
    if (*fault.error == PanelError::BadScore)
        return fmt::format("the answer of {} has a mark that this panel does not ask for", who);
    if (fault.code) return fmt::format("cup {} of {} has another cup's code", *fault.code, who);
    return fmt::format(
        "the cups of {} are not those of such a panel, or it was answered before it was poured", who);
}

} // namespace stillroom::tasting
