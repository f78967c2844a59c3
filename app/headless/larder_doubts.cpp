#include "app/headless/larder_doubts.h"

#include "app/headless/fact_words.h"

#include <fmt/format.h>

#include <cmath>

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
    case P::NoSize:
        return "its pack says no size, or more than one";
    case P::SizeNotAbove0:
        return "the size of its pack is not above zero";
    case P::SizeTooLarge:
        return "its pack is larger than a million litres, kilograms or pieces: a slip of the pen";
    case P::NegativePrice:
        return "its price is below zero";
    case P::YieldNotAbove0:
        return "nothing usable comes out of it";
    case P::YieldAbove1:
        return "more would come out of it than was bought";
    case P::BadTax:
        return "the tax in its price is below zero";
    case P::BadShares:
        return "what is got from its purchase takes more than its whole price";
    case P::UnitsDiffer:
        return "it is poured in another unit than it is priced in, and its density is not known";
    case P::CurrencyDiffers:
        return "it is paid in another currency and the book has no exchange rate for it";
    case P::TooLarge:
        return "the sum is too large to hold";
    case P::NoPrice:
        return "no price is on record";
    case P::Cycle:
        break;
    }
    return "it is got from itself";
}

namespace {

std::string apartWords(const spec::Contradiction& apart) {
    if (!(apart.computedKgPerM3 > 0))
        return "its strength and what is dissolved in it do not fit in a litre together";
    return fmt::format("strength, sugar and density cannot all be true: its density is {:.1f} kg/m³ {} what "
                       "the other two make it",
                       std::abs(apart.offKgPerM3()), apart.offKgPerM3() > 0 ? "above" : "below");
}

std::string nameDoubtWords(const larder::FoundDoubt& found) {
    using D = larder::FactDoubt;
    const bool strength = found.doubt == D::StrengthBelowName;
    const char* key = strength ? "abv_percent" : "sugar_g_per_l";
    const char* side = found.doubt == D::SugarAboveName ? "below" : "at least";
    return fmt::format("\"{}\" promises {} of {} {}, and {} stands here (source: {})", found.term,
                       strength ? "a strength" : "sugar", side, factText(key, found.limit),
                       factText(key, found.stated), found.source);
}

} // namespace

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
            all.push_back(fmt::format("{} cannot lie below zero", factLabel(finding.key).name));
            break;
        case FindingCode::FigureAbovePossible:
            all.push_back(fmt::format("{} of {} cannot be: {} is the most there is",
                                      factLabel(finding.key).name, factText(finding.key, finding.stated),
                                      factText(finding.key, finding.limit)));
            break;
        case FindingCode::RangeUpsideDown:
            all.push_back(
                fmt::format("{}: its usual value lies outside its range", factLabel(finding.key).name));
            break;
        case FindingCode::Contradiction:
            all.push_back(apartWords(*finding.contradiction));
            break;
        case FindingCode::Doubt:
            all.push_back(nameDoubtWords(*finding.doubt));
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
