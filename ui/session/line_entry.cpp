#include "ui/session/line_entry.h"

#include "ui/text/border.h"

namespace stillroom::ui {

std::vector<spec::Line> matched(const exchange::ReadLine& read, const larder::Larder& larder) {
    exchange::ReadRecipe recipe;
    recipe.lines.push_back(read);
    return exchange::toSpec(recipe, larder).lines;
}

LineEntry readEntry(const QString& text, const exchange::ReadOptions& options, const larder::Larder& larder) {
    using Kind = exchange::ReadKind;
    LineEntry entry;
    entry.read = exchange::readLine(toCore(text.trimmed()), options);
    const auto kind = entry.read.kind;
    if (kind != Kind::Ingredient && kind != Kind::Garnish && kind != Kind::Fused) return entry;
    entry.asks = entry.read.unsure;
    for (const auto& part : entry.read.parts)
        entry.asks = entry.asks || part.unsure;
    entry.lines = matched(entry.read, larder);
    return entry;
}

std::optional<spec::Measured> readAmountOver(const QString& typed, const spec::Measured& before) {
    if (typed.trimmed().isEmpty()) {
        spec::Measured none;
        none.measure = before.measure;
        return none;
    }
    auto read = exchange::readAmount(toCore(typed.trimmed()));
    if (!read) return std::nullopt;
    if (!read->measure) read->measure = before.measure;
    return read;
}

spec::Line renamed(const spec::Line& line, const QString& name, const larder::Larder& larder) {
    spec::Line next = line;
    next.name = toCore(name.trimmed());
    if (next.name == line.name) return next;
    next.ingredient = exchange::ingredientOf(next, larder);
    next.abvStated = exchange::strengthWritten(next, larder);
    return next;
}

} // namespace stillroom::ui
