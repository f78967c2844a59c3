#include "core/larder/consistency.h"

#include "core/base/text.h"
#include "core/physics/ethanol_water.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

namespace stillroom::larder {

namespace {

constexpr double kNoLimit = -1;

// A term of law: words of the name, in this order, and the group it speaks of.
struct Term {
    std::string_view group, words;
    double leastSugar, sugarBelow, leastAbv; // g/l, g/l (not reached), % vol; kNoLimit: none
    std::string_view source;
    bool verified;
};

constexpr std::string_view kAromatised = "Regulation (EU) 251/2014, as summarised by a wine-education page";
constexpr std::string_view kSparkling = "Regulation (EU) 2019/33 Annex III part A";
constexpr std::string_view kSpirits = "Regulation (EU) 2019/787 Annex I";

// The first that fits speaks: the narrower term before the wider one.
constexpr std::array kTerms{
    Term{"aromatised wine", "extra dry", kNoLimit, 30, 15, kAromatised, true},
    Term{"aromatised wine", "semi dry", 50, 90, kNoLimit, kAromatised, true},
    Term{"aromatised wine", "semi sweet", 90, 130, kNoLimit, kAromatised, true},
    Term{"aromatised wine", "dry", kNoLimit, 50, 16, kAromatised, true},
    Term{"aromatised wine", "sweet", 130, kNoLimit, kNoLimit, kAromatised, true},
    Term{"sparkling", "brut nature", kNoLimit, 3, kNoLimit, kSparkling, true},
    Term{"sparkling", "extra brut", kNoLimit, 6, kNoLimit, kSparkling, true},
    Term{"sparkling", "brut", kNoLimit, 12, kNoLimit, kSparkling, true},
    Term{"sparkling", "extra dry", 12, 17, kNoLimit, kSparkling, true},
    Term{"sparkling", "demi sec", 32, 50, kNoLimit, kSparkling, true},
    Term{"sparkling", "sec", 17, 32, kNoLimit, kSparkling, true},
    Term{"sparkling", "doux", 50, kNoLimit, kNoLimit, kSparkling, true},
    Term{"liqueur", "creme de cassis", 400, kNoLimit, 15, kSpirits, false},
    Term{"liqueur", "creme de", 250, kNoLimit, 15, kSpirits, true},
    Term{"liqueur", "cherry liqueur", 70, kNoLimit, 15, kSpirits, true},
    Term{"liqueur", "gentian liqueur", 80, kNoLimit, 15, kSpirits, true},
    Term{"liqueur", "liqueur", 100, kNoLimit, 15, kSpirits, true},
};

// Of sparkling wine the figure may be off by so much (Regulation (EU) 2019/33 Annex III).
constexpr double kSparklingTolerance = 3;

const Term* termOf(const Ingredient& ingredient) {
    std::string name = " ";
    name.append(base::fold(ingredient.name)).append(" ");
    std::replace_if(
        name.begin(), name.end(), [](char c) { return c == ',' || c == '(' || c == ')' || c == '.'; }, ' ');
    for (const Term& term : kTerms) {
        if (term.group != ingredient.facts.group) continue;
        std::string words = " ";
        words.append(term.words).append(" ");
        if (name.find(words) != std::string::npos) return &term;
    }
    return nullptr;
}

bool isSound(double value, double low, double high) {
    return value >= low && value <= high;
}

} // namespace

std::string_view factDoubtId(FactDoubt doubt) {
    switch (doubt) {
    case FactDoubt::SugarAboveName:
        return "sugar_above_name";
    case FactDoubt::SugarBelowName:
        return "sugar_below_name";
    case FactDoubt::StrengthBelowName:
        return "strength_below_name";
    case FactDoubt::EthanolNotOfStrength:
        return "ethanol_not_of_strength";
    case FactDoubt::EthanolOfUnsweetened:
        return "ethanol_of_unsweetened";
    }
    return "";
}

std::vector<FoundDoubt> doubtsOfName(const Ingredient& ingredient) {
    std::vector<FoundDoubt> found;
    const Term* term = termOf(ingredient);
    if (term == nullptr) return found;
    const FactState& facts = ingredient.facts;
    const double slack = term->group == "sparkling" ? kSparklingTolerance : 0;
    if (facts.sugarGPerL) {
        const double sugar = facts.sugarGPerL->typical;
        if (term->sugarBelow > 0 && sugar >= term->sugarBelow + slack)
            found.push_back({FactDoubt::SugarAboveName, sugar, term->sugarBelow, term->words, term->source,
                             term->verified});
        if (term->leastSugar > 0 && sugar < term->leastSugar - slack)
            found.push_back({FactDoubt::SugarBelowName, sugar, term->leastSugar, term->words, term->source,
                             term->verified});
    }
    if (facts.abvPercent && term->leastAbv > 0 && facts.abvPercent->typical < term->leastAbv)
        found.push_back({FactDoubt::StrengthBelowName, facts.abvPercent->typical, term->leastAbv, term->words,
                         term->source, term->verified});
    return found;
}

std::optional<quantity::Strength> strengthOfRow(const FoodRow& row) {
    if (!isSound(row.ethanolGPer100G, 0, 100) || !isSound(row.gramsPerMl, 0.5, 2)) return std::nullopt;
    const double ethanolGPerMl = row.ethanolGPer100G / 100 * row.gramsPerMl;
    const double fraction = ethanolGPerMl / (physics::kEthanolKgPerM3At20 / 1000);
    if (fraction > 1) return std::nullopt;
    return quantity::Strength::fromFraction(fraction);
}

std::optional<FoundDoubt> doubtOfRow(const FoodRow& row, quantity::Strength label) {
    constexpr double kLetPass = 0.5; // % vol
    constexpr double kAlike = 0.02;  // of the ethanol's share: a table prints three figures
    constexpr double kSweet = 5;     // g/100 g
    const auto computed = strengthOfRow(row);
    if (!computed) return std::nullopt;
    if (std::abs(computed->percentVol() - label.percentVol()) <= kLetPass) return std::nullopt;
    FoundDoubt found{
        FactDoubt::EthanolNotOfStrength, label.percentVol(), computed->percentVol(), {}, {}, true};
    const auto unsweetened = physics::massFractionOf(label);
    const double stated = row.ethanolGPer100G / 100;
    if (unsweetened && row.sugarGPer100G >= kSweet &&
        std::abs(stated - unsweetened->fraction()) <= kAlike * unsweetened->fraction())
        found.doubt = FactDoubt::EthanolOfUnsweetened;
    return found;
}

} // namespace stillroom::larder
