#include "ui/panels/larder/finding_place.h"

namespace stillroom::ui {

FindingPlace placeOfFinding(const preparation::Finding& finding, const larder::Ingredient& of) {
    using larder::CostProblem;
    using preparation::FindingCode;
    switch (finding.code) {
    case FindingCode::NoName:
        return FindingPlace::Name;
    case FindingCode::FigureBelowZero:
    case FindingCode::FigureAbovePossible:
    case FindingCode::RangeUpsideDown:
    case FindingCode::Contradiction:
    case FindingCode::Doubt:
        return FindingPlace::Facts;
    case FindingCode::DateUnreadable:
        return !finding.key.empty() ? FindingPlace::Facts
               : finding.pack       ? FindingPlace::Packs
                                    : FindingPlace::Shelf;
    case FindingCode::StockBelowZero:
        return FindingPlace::Shelf;
    case FindingCode::MadeOfItself:
        return FindingPlace::Kinship;
    case FindingCode::PricedByTheGram:
        return FindingPlace::Packs;
    case FindingCode::Purchase:
        break;
    }
    if (finding.pack) return FindingPlace::Packs;
    switch (finding.problem) {
    case CostProblem::YieldNotAbove0:
    case CostProblem::YieldAbove1:
        return of.gotFrom && quantity::Rational(0) < of.usableShare &&
                       !(quantity::Rational(1) < of.usableShare)
                   ? FindingPlace::Gives
                   : FindingPlace::Lost;
    case CostProblem::BadShares:
        return FindingPlace::Share;
    case CostProblem::Cycle:
        return FindingPlace::Kinship;
    default:
        return FindingPlace::Packs;
    }
}

} // namespace stillroom::ui
