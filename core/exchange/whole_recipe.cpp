#include "core/exchange/whole_recipe.h"

#include "core/exchange/method_words.h"
#include "core/exchange/recipe_text.h"

#include "core/base/text.h"

#include <algorithm>
#include <set>

namespace stillroom::exchange {

namespace {

// More than this in one drink is a batch whose number of serves is not said. Common sense, no source.
constexpr double kMostOfOneDrinkMl = 1000.0;

void chooseTechnique(ReadRecipe& recipe) {
    if (!recipe.technique.empty() || recipe.method.empty()) return;
    std::string all;
    for (const std::string& step : recipe.method) {
        all += step;
        all += "\n";
    }
    const spec::Technique technique = readMethod(all).technique;
    if (technique != spec::Technique::None) recipe.technique = spec::techniqueId(technique);
}

double roughMl(const ReadLine& line) {
    if (!line.line.poured.measure || !line.line.poured.amount.isStated()) return 0;
    const auto& info = quantity::measureInfo(*line.line.poured.measure);
    if (!info.exactMicrolitres) return 0;
    return line.line.poured.amount.high.toDouble() * line.line.poured.multiplier.toDouble() *
           info.exactMicrolitres->toDouble() / 1000.0;
}

void chooseYield(ReadRecipe& recipe) {
    if (recipe.yield || (recipe.lines.empty() && recipe.method.empty())) return;
    if (base::fold(recipe.name).substr(0, 10) == "bottle of ") {
        recipe.yield = quantity::Rational(1);
        recipe.yieldUnit = "bottle";
        return;
    }
    double ml = 0;
    for (const ReadLine& line : recipe.lines)
        ml += roughMl(line);
    if (ml > kMostOfOneDrinkMl) return;
    recipe.yield = quantity::Rational(1);
    recipe.yieldUnit = "drink";
}

void flagDuplicates(ReadRecipe& recipe, std::vector<ReadLine>& every) {
    std::set<std::string> seen;
    bool any = false;
    for (ReadLine& line : recipe.lines) {
        const std::string key = base::fold(line.raw.substr(0, 400));
        if (seen.insert(key).second) continue;
        any = true;
        const Doubt doubt{DoubtCode::Duplicate, DoubtWeight::Warn, line.line.written};
        line.doubts.push_back(doubt);
        for (ReadLine& shown : every)
            if (shown.sourceLine == line.sourceLine && shown.raw == line.raw) shown.doubts.push_back(doubt);
    }
    if (any) recipe.doubts.push_back({DoubtCode::Duplicate, DoubtWeight::Warn, recipe.name});
}

// A strong drink for one of this size is odd, though somebody may mean it. Common sense, no source.
void judgeSize(ReadRecipe& recipe) {
    constexpr double kMostSpiritMl = 150;
    if (!recipe.yield || recipe.yieldUnit != "drink" || !(*recipe.yield == quantity::Rational(1))) return;
    double spirit = 0;
    for (const ReadLine& line : recipe.lines)
        if (isSpiritName(line.line.name)) spirit += roughMl(line);
    if (spirit > kMostSpiritMl)
        recipe.doubts.push_back({DoubtCode::AmountAbsurd, DoubtWeight::Warn, recipe.name});
}

void judgeWhole(ReadRecipe& recipe) {
    const bool parts = std::any_of(recipe.lines.begin(), recipe.lines.end(),
                                   [](const ReadLine& line) { return line.unit == "part"; });
    if (parts) recipe.doubts.push_back({DoubtCode::RatioBasisUnstated, DoubtWeight::Note, recipe.name});
    judgeSize(recipe);
}

} // namespace

void settleWhole(RecipeRead& read) {
    ReadRecipe& recipe = read.recipe;
    flagDuplicates(recipe, read.every);
    if (recipe.glass.empty())
        for (const std::string& step : recipe.method)
            if (recipe.glass.empty()) recipe.glass = glassIn(step);
    chooseTechnique(recipe);
    for (ReadRecipe& part : recipe.subRecipes)
        chooseTechnique(part);
    chooseYield(recipe);
    judgeWhole(recipe);
}

} // namespace stillroom::exchange
