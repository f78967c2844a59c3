#include "ui/text/larder_words.h"

#include "ui/text/amounts.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/text/words.h"

#include <QCoreApplication>
#include <QStringList>

#include <array>

namespace stillroom::ui {

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("Larder", text);
}

struct FactWords {
    const char* name;
    const char* wet;
    const char* dry;
    int decimals;
};

const FactWords& wordsOf(std::string_view key) {
    static const std::array<std::pair<std::string_view, FactWords>, 11> all{{
        {"abv_percent", {"Strength", "% vol", "% vol", 2}},
        {"sugar_g_per_l", {"Sugar", "g/l", "g/kg", 1}},
        {"acid_g_per_l", {"Acid, as citric", "g/l", "g/kg", 2}},
        {"density_kg_per_m3", {"Density", "kg/m³", "kg/m³", 1}},
        {"fat_g_per_l", {"Fat", "g/l", "g/kg", 1}},
        {"protein_g_per_l", {"Protein", "g/l", "g/kg", 1}},
        {"carbohydrate_g_per_l", {"Other carbohydrate", "g/l", "g/kg", 1}},
        {"other_solids_g_per_l", {"Other solids", "g/l", "g/kg", 1}},
        {"salt_g_per_l", {"Salt", "g/l", "g/kg", 2}},
        {"caffeine_mg_per_l", {"Caffeine", "mg/l", "mg/kg", 0}},
        {"co2_g_per_l", {"Carbon dioxide", "g/l", "g/kg", 2}},
    }};
    for (const auto& [id, words] : all)
        if (id == key) return words;
    return all[0].second;
}

QString figure(const std::optional<larder::Fact>& fact, std::string_view key) {
    if (!fact) return say("not known");
    const int decimals = factDecimals(key);
    if (fact->low < fact->high)
        return say("%1 (%2 to %3)")
            .arg(trimmedNumber(fact->typical, decimals), trimmedNumber(fact->low, decimals),
                 trimmedNumber(fact->high, decimals));
    return trimmedNumber(fact->typical, decimals);
}

QString wordsText(const std::optional<std::vector<std::string>>& words, std::string_view key) {
    if (!words) return say("not stated");
    if (words->empty()) return say("none");
    QStringList all;
    for (const auto& word : *words)
        all << (key == "allergens" ? allergenName(fromCore(word)) : fromCore(word));
    return all.join(QStringLiteral(", "));
}

QString priceOf(const larder::Pack& pack) {
    return say("%1 %2 for %3")
        .arg(fromCore(pack.price.currency.text()), fromCore(pack.price.text()), sizeText(pack));
}

QString nameIn(const larder::Larder& larder, base::IngredientId id) {
    const auto* known = larder.find(id);
    return known != nullptr ? fromCore(known->name) : say("something unknown");
}

QString gotText(const std::optional<larder::GotFrom>& from, const larder::Larder& larder) {
    if (!from) return say("bought as it is");
    return say("%1 %2 from one %3 of %4")
        .arg(rationalText(from->perUnit, false), packUnitWord(from->unit), packUnitWord(from->ofUnit),
             nameIn(larder, from->of));
}

} // namespace

QString sortWord(const larder::Ingredient& ingredient, bool fromHandbook) {
    if (ingredient.madeBy || ingredient.sort == larder::IngredientSort::Preparation) return say("made here");
    if (ingredient.sort == larder::IngredientSort::Bottle) return say("bottle");
    return fromHandbook ? say("kind, from the handbook") : say("kind");
}

QString factName(std::string_view key) {
    return say(wordsOf(key).name);
}
QString factUnit(std::string_view key, bool dry) {
    return say(dry ? wordsOf(key).dry : wordsOf(key).wet);
}
int factDecimals(std::string_view key) {
    return wordsOf(key).decimals;
}

QString sayerWord(larder::SourceKind kind) {
    switch (kind) {
    case larder::SourceKind::Label:
        return say("label");
    case larder::SourceKind::Measured:
        return say("measured here");
    case larder::SourceKind::Handbook:
        return say("handbook");
    case larder::SourceKind::Assumed:
        return say("assumed");
    }
    return {};
}

QString packUnitWord(larder::PackUnit unit) {
    switch (unit) {
    case larder::PackUnit::Ml:
        return say("ml");
    case larder::PackUnit::Gram:
        return say("g");
    case larder::PackUnit::Piece:
        return say("piece");
    }
    return {};
}

QString sizeText(const larder::Pack& pack) {
    if (pack.forMl) return say("%1 ml").arg(trimmedNumber(*pack.forMl, 3));
    if (pack.forG) return say("%1 g").arg(trimmedNumber(*pack.forG, 3));
    if (pack.forPieces)
        return *pack.forPieces == 1 ? say("1 piece")
                                    : say("%1 pieces").arg(trimmedNumber(*pack.forPieces, 3));
    return {};
}

QString stockWord(const larder::Stock& stock) {
    if (stock.off) return say("off");
    if (stock.amount && stock.state != larder::OnShelf::Out && stock.unit == larder::PackUnit::Piece)
        return say("%1 pcs").arg(trimmedNumber(*stock.amount, 0));
    if (stock.amount && stock.state != larder::OnShelf::Out)
        return QString(trimmedNumber(*stock.amount, 0) + kNarrowSpace + packUnitWord(stock.unit));
    switch (stock.state) {
    case larder::OnShelf::Have:
        return say("have");
    case larder::OnShelf::Low:
        return say("low");
    case larder::OnShelf::Out:
        return say("out");
    case larder::OnShelf::NotSaid:
        break;
    }
    return {};
}

QString unitPricePer(const larder::UnitPrice& price) {
    if (price.unit == larder::PackUnit::Piece) return say("piece");
    return QStringLiteral("%1 %2").arg(price.of).arg(packUnitWord(price.unit));
}

QString unitPriceText(const std::optional<larder::UnitPrice>& price, const quantity::Currency& currency) {
    if (!price) return QStringLiteral("?");
    return QString(currencySign(currency) + kNarrowSpace + number(price->major, currency.exponent) +
                   QStringLiteral(" / ") + unitPricePer(*price));
}

QString costProblemSentence(larder::CostProblem problem, const QString& currency) {
    using larder::CostProblem;
    switch (problem) {
    case CostProblem::NoSize:
        return say("A price needs the size of one pack: how many ml, g or pieces.");
    case CostProblem::SizeNotAbove0:
        return say("A pack holds more than nothing.");
    case CostProblem::SizeTooLarge:
        return say("A pack of a million litres or more is a slip of the pen.");
    case CostProblem::NegativePrice:
        return say("A price cannot lie below zero. What comes back on a deposit is left out.");
    case CostProblem::YieldNotAbove0:
        return say("Nothing usable would come out of it: the usable share lies above 0 %.");
    case CostProblem::YieldAbove1:
        return say("More would come out than was bought: the usable share is 100 % at most.");
    case CostProblem::BadTax:
        return say("Tax in a price cannot lie below 0 %.");
    case CostProblem::BadShares:
        return say("What is got from one purchase takes more than its whole price together; the shares come "
                   "to 1 at most.");
    case CostProblem::UnitsDiffer:
        return say("It is counted in a unit its purchase is not sold in, and no density turns one into the "
                   "other. Enter a density, or price it by the other unit.");
    case CostProblem::CurrencyDiffers:
        return say("The price is in %1, and the book has no rate from it. Drinks show their cost without it.")
            .arg(currency);
    case CostProblem::TooLarge:
        return say("This price for this size is beyond what can be counted.");
    case CostProblem::NoPrice:
        return say("Nobody has entered a price.");
    case CostProblem::Cycle:
        return say("It is got from itself.");
    }
    return {};
}

QString factDoubtSentence(const larder::FoundDoubt& doubt, const QString& name) {
    const QString term = fromCore(doubt.term);
    const QString source = fromCore(doubt.source);
    const QString standing = doubt.verified ? QString() : say(" (from memory)");
    const QString stated = trimmedNumber(doubt.stated, 1);
    const QString limit = trimmedNumber(doubt.limit, 1);
    switch (doubt.doubt) {
    case larder::FactDoubt::SugarAboveName:
        return say("“%1” may hold less than %2 g/l of sugar; %3 g/l is entered. One of the two is wrong. "
                   "Source: %4%5.")
            .arg(term, limit, stated, source, standing);
    case larder::FactDoubt::SugarBelowName:
        return say("“%1” holds at least %2 g/l of sugar; %3 g/l is entered. Source: %4%5.")
            .arg(term, limit, stated, source, standing);
    case larder::FactDoubt::StrengthBelowName:
        return say("“%1” has at least %2 % vol; %3 is entered. Source: %4%5.")
            .arg(term, limit, stated, source, standing);
    case larder::FactDoubt::EthanolNotOfStrength:
        return say("The table's ethanol makes %1 % vol, %2 says %3.").arg(limit, name, stated);
    case larder::FactDoubt::EthanolOfUnsweetened:
        return say("The table's ethanol makes %1 % vol, not the %3 of %2: it is that of a spirit of this "
                   "strength without any sugar. Take the strength from the label.")
            .arg(limit, name, stated);
    }
    return {};
}

QString findingSentence(const preparation::Finding& finding, const larder::Ingredient& of,
                        const larder::Larder& larder) {
    using preparation::FindingCode;
    const QString what = finding.key.empty() ? QString() : factName(finding.key);
    const auto value = [](double v) { return trimmedNumber(v, 3); };
    const QString pack =
        finding.pack ? say("Pack of %1: ").arg(sizeText(of.packs[*finding.pack])) : QString();
    switch (finding.code) {
    case FindingCode::NoName:
        return say("It needs a name.");
    case FindingCode::FigureBelowZero:
        return say("%1 cannot lie below zero; %2 stands there.").arg(what, value(finding.stated));
    case FindingCode::FigureAbovePossible:
        return say("%1 of %2 %4 cannot be: %3 is the most there is.")
            .arg(what, value(finding.stated), value(finding.limit), factUnit(finding.key, of.facts.dry));
    case FindingCode::RangeUpsideDown:
        return say("%1: the usual value lies outside its range of %2 to %3.")
            .arg(what, value(finding.stated), value(finding.limit));
    case FindingCode::DateUnreadable:
        return QString(pack + (what.isEmpty() ? QString() : QString(what + QStringLiteral(": "))) +
                       say("a date is written 2026-11-25."));
    case FindingCode::StockBelowZero:
        return say("There cannot be less than nothing on the shelf.");
    case FindingCode::Purchase:
        return QString(pack + costProblemSentence(finding.problem, fromCore(finding.currency.text())));
    case FindingCode::MadeOfItself: {
        QStringList names;
        for (const auto id : finding.path)
            names << nameIn(larder, id);
        return say("It would be made of itself: %1.").arg(names.join(QStringLiteral(" → ")));
    }
    case FindingCode::PricedByTheGram:
        return of.facts.dry
                   ? say("It is priced by the millilitre and weighed out: without its density no drink has "
                         "its cost. Enter a density.")
                   : say("It is priced by the gram and poured by the millilitre: without its density, or its "
                         "strength and sugar, no drink has its cost.");
    case FindingCode::Contradiction:
        return say("Strength, sugar and density cannot all be true: %1.")
            .arg(contradictionInWords(finding.contradiction->offKgPerM3(),
                                      finding.contradiction->asSugarGPerL));
    case FindingCode::Doubt:
        return factDoubtSentence(*finding.doubt, fromCore(of.name));
    }
    return {};
}

QString allergenSentence(const larder::FactState& facts) {
    const auto reading = larder::allergensOf(facts);
    const auto names = [](const std::vector<std::string>& ids) {
        QStringList all;
        for (const auto& id : ids)
            all << allergenName(fromCore(id));
        return all.join(QStringLiteral(", "));
    };
    QString text;
    if (!reading.eu.empty() || !reading.other.empty()) {
        QStringList all{names(reading.eu)};
        if (!reading.other.empty()) all << names(reading.other);
        all.removeAll(QString());
        text = say("Contains %1.").arg(all.join(QStringLiteral(", ")));
        if (!reading.us.empty()) text += say(" US list: %1.").arg(names(reading.us));
        if (!reading.usMayBe.empty()) text += say(" US list, perhaps: %1.").arg(names(reading.usMayBe));
    }
    if (!reading.complete)
        text += QString(text.isEmpty() ? say("Not stated. That is unknown, not none.")
                                       : say(" Others are not stated: unknown, not none."));
    else if (text.isEmpty())
        text = say("None of the fourteen, nor of the US nine.");
    if (const auto exempt = larder::exemptionOf(facts))
        text += say(" Exempt in EU law: %1.").arg(fromCore(*exempt));
    return text;
}

QString changesInWords(const larder::Ingredient& before, const larder::Ingredient& after,
                       const larder::Larder& larder) {
    QStringList changes;
    const auto changed = [&](const QString& what, const QString& was, const QString& is) {
        if (was != is) changes << say("%1 %2 → %3").arg(what, was, is);
    };
    const auto orNone = [](const std::string& text) { return text.empty() ? say("none") : fromCore(text); };
    changed(say("name"), orNone(before.name), orNone(after.name));
    changed(say("maker"), orNone(before.maker), orNone(after.maker));
    if (before.aliases != after.aliases) changes << say("other names");
    const auto facts = larder::factChanges(before.facts, after.facts);
    for (const auto& change : facts.figures) {
        const QString what = factName(change.key).toLower();
        if (!change.sameNumbers())
            changed(what, figure(change.before, change.key), figure(change.after, change.key));
        else
            changes << say("who says the %1").arg(what);
    }
    for (const auto& change : facts.words)
        changed(fromCore(change.key).replace(QLatin1Char('_'), QLatin1Char(' ')),
                wordsText(change.before, change.key), wordsText(change.after, change.key));
    for (const auto& pack : after.packs)
        if (std::find(before.packs.begin(), before.packs.end(), pack) == before.packs.end())
            changes << say("price %1").arg(priceOf(pack));
    for (const auto& pack : before.packs)
        if (std::find_if(after.packs.begin(), after.packs.end(),
                         [&](const auto& other) { return other.id == pack.id; }) == after.packs.end())
            changes << say("without the price %1").arg(priceOf(pack));
    if (before.usableShare != after.usableShare)
        changed(say("usable"), say("%1 %").arg(trimmedNumber(before.usableShare.toDouble() * 100, 2)),
                say("%1 %").arg(trimmedNumber(after.usableShare.toDouble() * 100, 2)));
    changed(say("got"), gotText(before.gotFrom, larder), gotText(after.gotFrom, larder));
    if (before.gotFrom && after.gotFrom)
        changed(say("share of the price"), rationalText(before.gotFrom->priceShare, false),
                rationalText(after.gotFrom->priceShare, false));
    if (!(before.stock == after.stock)) {
        const auto stock = [](const larder::Stock& s) {
            const auto word = stockWord(s);
            return word.isEmpty() ? say("nobody said") : word;
        };
        if (stock(before.stock) == stock(after.stock))
            changes << say("stock looked at");
        else
            changed(say("stock"), stock(before.stock), stock(after.stock));
    }
    if (before.lotInUse != after.lotInUse) changes << say("another lot in use");
    const auto poured = [&](const std::optional<base::IngredientId>& id) {
        return id ? nameIn(larder, *id) : say("itself");
    };
    changed(say("the house pours"), poured(before.houseBottle), poured(after.houseBottle));
    changed(say("keeps"), before.keepDays ? say("%1 days").arg(*before.keepDays) : say("by the handbook"),
            after.keepDays ? say("%1 days").arg(*after.keepDays) : say("by the handbook"));
    return changes.join(QStringLiteral("; "));
}

} // namespace stillroom::ui
