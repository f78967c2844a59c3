#include "ui/panels/stock/stock_words.h"

#include "ui/text/border.h"
#include "ui/text/words.h"

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

template <class Ids>
QString names(const store::StockBoard& board, const Ids& ids) {
    QStringList all;
    for (const base::IngredientId id : ids)
        all << ingredientName(board, id);
    all.sort(Qt::CaseInsensitive);
    return all.join(u", "_s);
}

QString drinkNames(const store::StockBoard& board, const std::vector<std::size_t>& drinks) {
    constexpr std::size_t kNamed = 4;
    QStringList all;
    for (std::size_t i = 0; i < std::min(drinks.size(), kNamed); ++i)
        all << fromCore(board.drinks[drinks[i]].name);
    const auto rest = static_cast<int>(drinks.size()) - static_cast<int>(all.size());
    const QString named = all.join(u", "_s);
    return rest > 0 ? u"%1 and %2 more"_s.arg(named).arg(rest) : named;
}

} // namespace

QString ingredientName(const store::StockBoard& board, base::IngredientId id) {
    const larder::Ingredient* known = board.larder.find(id);
    return known != nullptr && !known->name.empty() ? fromCore(known->name) : u"not in the larder"_s;
}

QString shelfWord(const larder::Stock& stock) {
    if (stock.off) return u"off"_s;
    switch (stock.state) {
    case larder::OnShelf::Have:
        return u"have"_s;
    case larder::OnShelf::Low:
        return u"low"_s;
    case larder::OnShelf::Out:
        return u"out"_s;
    case larder::OnShelf::NotSaid:
        break;
    }
    if (stock.amount) return *stock.amount > 0 ? u"have"_s : u"out"_s;
    return u"not said"_s;
}

QString stockProblem(exchange::StockEntryProblem problem) {
    using P = exchange::StockEntryProblem;
    switch (problem) {
    case P::NotAnAmount:
        return u"That is not an amount. Write 350 ml, 1.5 l, 2 bottles or 12."_s;
    case P::BelowZero:
        return u"Less than nothing cannot stand on a shelf. Write 0 for none."_s;
    case P::TooLarge:
        return u"That is more than a thousand cubic metres: a slip of the pen?"_s;
    case P::UnitUnclear:
        return u"A shelf is counted in ml, g, pieces or bottles."_s;
    case P::NoPack:
        return u"No pack of it has a size yet, so bottles say nothing. Write ml, g or pieces."_s;
    }
    return {};
}

Nearness nearnessOf(const preparation::DrinkReach& reach) {
    if (!reach.off.empty()) return Nearness::Off;
    if (!reach.unknownLines.empty()) return Nearness::Unknown;
    if (reach.within()) return Nearness::Within;
    return reach.oneShort() ? Nearness::OneShort : Nearness::Short;
}

QString standingWords(const store::StockBoard& board, const store::BoardDrink& drink) {
    const auto& reach = drink.reach;
    switch (nearnessOf(reach)) {
    case Nearness::Within: {
        QString words = u"within reach"_s;
        if (!reach.toMake.empty()) words += u"; make first: %1"_s.arg(names(board, reach.toMake));
        if (!reach.low.empty()) words += u"; low: %1"_s.arg(names(board, reach.low));
        return words;
    }
    case Nearness::OneShort:
        return u"one short: %1"_s.arg(names(board, reach.lacks));
    case Nearness::Short:
        return u"%1 short: %2"_s.arg(reach.lacks.size()).arg(names(board, reach.lacks));
    case Nearness::Off:
        return u"off: %1"_s.arg(names(board, reach.off));
    case Nearness::Unknown:
        break;
    }
    QStringList lines;
    for (const int line : reach.unknownLines)
        lines << fromCore(drink.spec.lines[static_cast<std::size_t>(line)].name);
    return u"the larder does not know: %1"_s.arg(lines.join(u", "_s));
}

QString purchaseWords(const store::StockBoard& board, const preparation::Purchase& purchase) {
    const QString name = ingredientName(board, purchase.ingredient);
    const int helps = static_cast<int>(purchase.helps.size());
    if (purchase.opens.empty())
        return u"%1: alone brings none; one of what %2 lack"_s.arg(name,
                                                                   counted(helps, u"drink"_s, u"drinks"_s));
    QString words = u"%1: brings %2"_s.arg(name, drinkNames(board, purchase.opens));
    if (helps > 0) words += u"; one of what %1 more lack"_s.arg(helps);
    return words;
}

QString fallenWords(const store::StockBoard& board, const preparation::Fallen& fallen) {
    const QString name = ingredientName(board, fallen.off);
    if (fallen.drinks.empty()) return u"%1 is off; no drink falls with it"_s.arg(name);
    return u"%1 is off, and with it %2"_s.arg(name, drinkNames(board, fallen.drinks));
}

QString boardWords(const store::StockBoard& board) {
    const auto count = [&](Nearness nearness) {
        return std::count_if(board.drinks.begin(), board.drinks.end(),
                             [&](const auto& drink) { return nearnessOf(drink.reach) == nearness; });
    };
    QString words = u"%1 of %2 within reach"_s.arg(count(Nearness::Within))
                        .arg(counted(static_cast<int>(board.drinks.size()), u"drink"_s, u"drinks"_s));
    if (const auto one = count(Nearness::OneShort); one > 0) words += u" · %1 one short"_s.arg(one);
    if (const auto off = count(Nearness::Off); off > 0) words += u" · %1 off"_s.arg(off);
    return words;
}

} // namespace stillroom::ui
