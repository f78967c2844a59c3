#include "core/exchange/shopping_text.h"

#include "core/base/text.h"

#include <fmt/format.h>

#include <cmath>

namespace stillroom::exchange {

namespace {

using larder::PackUnit;
using preparation::Quantum;
using preparation::ShoppingItem;
using preparation::ShoppingList;

std::string nameOf(base::IngredientId id, const larder::Larder& larder) {
    const auto* ingredient = larder.find(id);
    return ingredient != nullptr && !ingredient->name.empty() ? ingredient->name : "(no name)";
}

// Up, so that what is bought is never less than what is needed: to three figures, or to the whole unit.
double roundedUp(double amount) {
    if (!(amount > 0) || !std::isfinite(amount)) return 0;
    const double digit = std::pow(10, std::floor(std::log10(amount)) - 2);
    const double step = std::min(digit, 1.0);
    return std::ceil(amount / step - 1e-9) * step;
}

std::string number(double value) {
    return base::shortestDecimal(std::round(value * 1e6) / 1e6);
}

} // namespace

std::string boughtAmountText(const Quantum& amount) {
    switch (amount.unit) {
    case PackUnit::Piece:
        return number(roundedUp(amount.amount));
    case PackUnit::Gram:
        return amount.amount >= 1000 ? number(roundedUp(amount.amount / 1000)) + " kg"
                                     : number(roundedUp(amount.amount)) + " g";
    case PackUnit::Ml:
        break;
    }
    return amount.amount >= 1000 ? number(roundedUp(amount.amount / 1000)) + " l"
                                 : number(roundedUp(amount.amount)) + " ml";
}

std::string packSizeText(const larder::Pack& pack) {
    if (pack.forMl) return number(*pack.forMl) + " ml";
    if (pack.forG) return number(*pack.forG) + " g";
    return pack.forPieces ? number(*pack.forPieces) + " pieces" : std::string("no size");
}

namespace {

std::string itemText(const ShoppingItem& item, const larder::Larder& larder) {
    std::string line = fmt::format("- {}: {}", nameOf(item.ingredient, larder),
                                   boughtAmountText({item.toBuy, item.needed.unit}));
    if (item.withMargin) line += " (with a margin)";
    if (item.unitUnclear)
        line += "; its pack is counted in another unit";
    else if (!item.pack)
        line += "; no pack on record";
    if (item.pack) line += fmt::format(" = {} x {}", item.packs, packSizeText(*item.pack));
    if (item.price) line += fmt::format(", {} {}", item.price->currency.text(), item.price->text());
    return line + "\n";
}

std::string names(std::string_view title, const std::vector<base::IngredientId>& ids,
                  const larder::Larder& larder) {
    if (ids.empty()) return {};
    std::string text = fmt::format("\n{}\n", title);
    for (const base::IngredientId id : ids)
        text += fmt::format("- {}\n", nameOf(id, larder));
    return text;
}

} // namespace

std::string shoppingText(const ShoppingList& list, const larder::Larder& larder) {
    std::string text = "To buy\n";
    if (list.groups.empty()) text += "- nothing\n";
    for (const auto& group : list.groups) {
        const bool alone = list.groups.size() == 1 && group.supplier.empty();
        if (!alone)
            text += fmt::format("\n{}\n", group.supplier.empty() ? "No supplier on record" : group.supplier);
        for (const ShoppingItem& item : group.items)
            text += itemText(item, larder);
    }
    for (const auto& [currency, minor] : list.totals)
        text += fmt::format("\nTogether {} {}\n", currency.text(), quantity::Money{minor, currency}.text());
    if (!list.toMake.empty()) text += "\nTo make\n";
    for (auto made = list.toMake.rbegin(); made != list.toMake.rend(); ++made)
        text += fmt::format("- {}: {} ({} of its batch)\n", nameOf(made->ingredient, larder),
                            boughtAmountText(made->needed), number(roundedUp(made->batches)));
    if (!list.covered.empty()) text += "\nOn the shelf\n";
    for (std::size_t i = 0; i < list.covered.size(); ++i)
        text +=
            fmt::format("- {}: {}\n", nameOf(list.coveredBy[i], larder), boughtAmountText(list.covered[i]));
    text += names("On the shelf, not counted", list.notCounted, larder);
    text += names("Off until further notice", list.off, larder);
    if (!list.open.empty()) text += "\nWithout an amount: look yourself\n";
    for (const auto& open : list.open)
        text += fmt::format("- {}\n", open.name);
    if (list.circle) text += names("Made of each other, so not counted down", list.circle->path, larder);
    return text;
}

} // namespace stillroom::exchange
