#include "core/exchange/method_roles.h"
#include "core/exchange/pack_stated.h"
#include "core/exchange/read_text.h"
#include "core/exchange/weighed_shake.h"

#include "core/base/text.h"
#include "core/larder/ratio_syrup.h"
#include "core/larder/written_name.h"
#include "core/spec/calibration.h"

#include <algorithm>

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

// "57 % vol" among the notes of a line: a note that says a strength and nothing else.
std::optional<std::string> strengthNote(const std::string& note) {
    std::string_view rest = note;
    while (!rest.empty()) {
        const std::size_t end = std::min(rest.find_first_of(";,"), rest.size());
        const larder::WrittenName read = larder::readNameStripped(rest.substr(0, end));
        if (read.statedAbv && read.folded.empty()) return std::string(rest.substr(0, end));
        rest.remove_prefix(std::min(end + 1, rest.size()));
    }
    return std::nullopt;
}

// "simple syrup" beside "1:1 by volume", "2:1 simple syrup" beside "by volume": the note is part of which
// syrup it is, unless the house has one of that name.
std::optional<base::IngredientId> byRatioNoted(const spec::Line& line, const larder::Larder& larder) {
    const std::string whole = line.name + " (" + line.note + ")";
    if (line.note.empty() || !larder::ratioWords(whole)) return std::nullopt;
    const auto plain = matched(larder, line.name);
    const larder::Ingredient* known = plain ? larder.find(*plain) : nullptr;
    if (known != nullptr && known->handbookId.empty()) return std::nullopt;
    const auto words = *larder::ratioWords(whole);
    std::string name = words.rest + " " + words.ratio();
    if (words.basis == larder::SyrupBasis::Mass) name += " by mass";
    if (words.basis == larder::SyrupBasis::Volume) name += " by volume";
    return matched(larder, name);
}

} // namespace

std::optional<base::IngredientId> ingredientOf(const spec::Line& line, const larder::Larder& larder) {
    if (line.name.empty()) return std::nullopt;
    if (const auto juice = juiceOfPoured(line, larder)) return juice;
    if (line.juiceOf)
        if (auto juice = matched(larder, line.name + " juice")) return juice;
    if (auto syrup = byRatioNoted(line, larder)) return syrup;
    if (auto named = matched(larder, line.name)) return named;
    // "rum (63 %)": the strength tells which
    if (const auto strength = strengthNote(line.note)) return matched(larder, line.name + " " + *strength);
    return std::nullopt;
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
        line.abvStated = strengthWritten(line, larder);
        if (auto size = packStated(line, larder)) line.sizeStated = std::move(size);
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

std::optional<double> strengthWritten(const spec::Line& line, const larder::Larder& larder) {
    constexpr double kAlcoholFree = 0.5; // % vol, the most that is still sold as without alcohol
    if (line.name.empty() || line.juiceOf) return std::nullopt;
    const larder::Ingredient* known = line.ingredient ? larder.find(*line.ingredient) : nullptr;
    if (known != nullptr) {
        const auto& usual = known->facts.abvPercent;
        if (known->facts.dry || (usual && std::max(usual->typical, usual->high) <= kAlcoholFree))
            return std::nullopt;
    }
    if (const auto stated = larder.match(line.name).statedAbv) return stated;
    if (const auto note = strengthNote(line.note)) return larder::readNameStripped(*note).statedAbv;
    return std::nullopt;
}

namespace {

// A mug or glass filled with hot water first.
bool saysPreheated(const std::string& text) {
    const std::string folded = base::fold(text);
    for (const std::string_view words : {"preheated", "pre heated", "warmed mug", "warmed glass", "warm mug",
                                         "warm glass", "heated mug", "heated glass"})
        if (folded.find(words) != std::string::npos) return true;
    return false;
}

// The usual sizes of dashes and spoons are near enough for the volume a weighed drink had: a house's own move
// it by a part in a hundred.
void takeWeights(spec::Spec& spec, const larder::Larder& larder) {
    if (spec.method.dilution) return;
    const auto weights = weighedShake(spec.method.text);
    if (!weights) return;
    const spec::HouseRules usual;
    spec.method.dilution =
        spec::dilutionFromWeights(spec, spec::Bindings(spec, larder, usual), weights->before, weights->after);
}

} // namespace

spec::Spec toSpec(const ReadRecipe& recipe, const larder::Larder& larder) {
    spec::Spec spec;
    for (const ReadLine& line : recipe.lines)
        addLine(spec, line, larder);
    spec.method = readMethod(joined(recipe.method, "\n"));
    if (const auto technique = spec::techniqueFromId(recipe.technique)) spec.method.technique = *technique;
    applyMethodRoles(spec);
    spec.glass = recipe.glass;
    spec.preheatedGlass = saysPreheated(spec.method.text) || saysPreheated(spec.glass);
    spec.garnish = joined(recipe.garnish, "; ");
    takeWeights(spec, larder);
    const bool drinks = recipe.yield && recipe.yieldUnit == "drink" && recipe.yield->denominator() == 1;
    constexpr std::int64_t kMostServes = 100'000;
    if (drinks && recipe.yield->numerator() >= 1 && recipe.yield->numerator() <= kMostServes)
        spec.serves = static_cast<int>(recipe.yield->numerator());
    return spec;
}

} // namespace stillroom::exchange
