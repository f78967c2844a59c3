#include "core/exchange/read_text.h"

#include "core/base/text.h"

#include <string_view>

namespace stillroom::exchange {

namespace {

// A name that several things share is read as the house's first choice where it has one: what it was taken
// for is shown beside the line, with how sure that is.
std::optional<base::IngredientId> matched(const larder::Larder& larder, const std::string& name) {
    const larder::NameMatch match = larder.match(name);
    if (match.ingredient.isNull()) return std::nullopt;
    return match.ingredient;
}

// A citrus fruit measured by volume: the line means its juice.
std::optional<base::IngredientId> juiceOfPoured(const spec::Line& line, const larder::Larder& larder) {
    if (!line.poured.measure) return std::nullopt;
    if (quantity::measureInfo(*line.poured.measure).dimension != quantity::Dimension::Volume)
        return std::nullopt;
    const auto kind = matched(larder, line.name);
    const larder::Ingredient* fruit = kind ? larder.find(*kind) : nullptr;
    if (fruit == nullptr) return std::nullopt;
    constexpr std::string_view kSqueezed[] = {"lemon", "lime", "orange", "grapefruit"};
    for (const std::string_view name : kSqueezed) {
        if (fruit->handbookId != std::string(name) + "_fruit") continue;
        return matched(larder, std::string(name) + " juice");
    }
    return std::nullopt;
}

} // namespace

std::optional<base::IngredientId> ingredientOf(const spec::Line& line, const larder::Larder& larder) {
    if (line.name.empty()) return std::nullopt;
    if (const auto juice = juiceOfPoured(line, larder)) return juice;
    if (line.juiceOf)
        if (auto juice = matched(larder, line.name + " juice")) return juice;
    return matched(larder, line.name);
}

namespace {

// "whipped cream, on top" is laid on the drink, not mixed into it.
bool saysOnTop(const std::string& note) {
    return base::fold(note).find("on top") != std::string::npos;
}

void addLine(spec::Spec& spec, const ReadLine& read, const larder::Larder& larder) {
    switch (read.kind) {
    case ReadKind::Fused:
        for (const ReadLine& part : read.parts)
            addLine(spec, part, larder);
        return;
    case ReadKind::Ingredient:
    case ReadKind::Garnish: {
        spec::Line line = read.line;
        if (line.role == spec::Role::Mixed && saysOnTop(line.note)) line.role = spec::Role::Floated;
        line.ingredient = ingredientOf(line, larder);
        for (spec::Alternative& other : line.alternatives)
            other.ingredient = matched(larder, other.name);
        spec.lines.push_back(std::move(line));
        return;
    }
    case ReadKind::Unread: {
        // the words stay, without a number nobody could read
        spec::Line line;
        line.written = read.line.written;
        line.name = read.line.name.empty() ? read.line.written : read.line.name;
        spec.lines.push_back(std::move(line));
        return;
    }
    default:
        return; // a refused line has no amount anybody could pour
    }
}

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
    std::string all;
    for (const std::string& part : parts) {
        if (!all.empty()) all += between;
        all += part;
    }
    return all;
}

} // namespace

spec::Spec toSpec(const ReadRecipe& recipe, const larder::Larder& larder) {
    spec::Spec spec;
    for (const ReadLine& line : recipe.lines)
        addLine(spec, line, larder);
    spec.method = readMethod(joined(recipe.method, "\n"));
    if (const auto technique = spec::techniqueFromId(recipe.technique)) spec.method.technique = *technique;
    spec.glass = recipe.glass;
    spec.garnish = joined(recipe.garnish, "; ");
    const bool drinks = recipe.yield && recipe.yieldUnit == "drink" && recipe.yield->denominator() == 1;
    constexpr std::int64_t kMostServes = 100'000;
    if (drinks && recipe.yield->numerator() >= 1 && recipe.yield->numerator() <= kMostServes)
        spec.serves = static_cast<int>(recipe.yield->numerator());
    return spec;
}

} // namespace stillroom::exchange
