#include "app/headless/larder_doubts.h"

#include <fmt/format.h>

namespace stillroom::headless {

namespace {

using preparation::FindingCode;

std::string circleText(const std::vector<base::IngredientId>& path, const larder::Larder& larder) {
    std::string names;
    for (const auto id : path) {
        if (!names.empty()) names += " → ";
        const auto* known = larder.find(id);
        names += known != nullptr ? known->name : "something unknown";
    }
    return names;
}

} // namespace

std::string noCost(larder::CostProblem problem) {
    using P = larder::CostProblem;
    switch (problem) {
    case P::CurrencyDiffers:
        return "it is paid in another currency and the book has no exchange rate for it";
    case P::UnitsDiffer:
        return "it is poured in another unit and its density is not known";
    case P::YieldNotAbove0:
        return "nothing usable comes out of it";
    case P::Cycle:
        return "it is got from itself";
    case P::NoPrice:
        return "no price is on record";
    default:
        return std::string(larder::costProblemId(problem));
    }
}

std::vector<std::string> doubtsOf(const std::vector<preparation::Finding>& findings,
                                  const larder::Ingredient& of, const larder::Larder& larder) {
    std::vector<std::string> all;
    for (const auto& finding : findings) {
        switch (finding.code) {
        case FindingCode::PricedByTheGram:
            all.push_back(of.facts.dry
                              ? "it is priced by the ml and weighed out: without its density what is weighed "
                                "has no cost"
                              : "it is priced by the gram and poured by the ml: without its density, or its "
                                "strength and sugar, what is poured has no cost");
            break;
        case FindingCode::Purchase:
            all.push_back("no cost comes of it: " + noCost(finding.problem));
            break;
        case FindingCode::MadeOfItself:
            all.push_back("it would be made of itself: " + circleText(finding.path, larder));
            break;
        case FindingCode::FigureBelowZero:
            all.push_back(fmt::format("{} cannot lie below zero", finding.key));
            break;
        case FindingCode::FigureAbovePossible:
            all.push_back(fmt::format("{} of {} cannot be: {} is the most there is", finding.key,
                                      finding.stated, finding.limit));
            break;
        case FindingCode::RangeUpsideDown:
            all.push_back(fmt::format("{}: its usual value lies outside its range", finding.key));
            break;
        case FindingCode::Contradiction:
            all.push_back(fmt::format("strength, sugar and density cannot all be true: they are {:.0f} kg/m³ "
                                      "apart",
                                      finding.contradiction->offKgPerM3()));
            break;
        case FindingCode::Doubt:
            all.push_back(fmt::format("\"{}\" stands against {} as entered; {} is the limit (source: {})",
                                      finding.doubt->term, finding.doubt->stated, finding.doubt->limit,
                                      finding.doubt->source));
            break;
        case FindingCode::NoName:
        case FindingCode::DateUnreadable:
        case FindingCode::StockBelowZero:
            break; // cannot come of what is tried here
        }
    }
    return all;
}

} // namespace stillroom::headless
