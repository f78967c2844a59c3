#include "ui/text/terms_words.h"

#include "core/larder/got_from.h"
#include "core/larder/listing.h"
#include "core/preparation/keeping.h"
#include "ui/text/border.h"
#include "ui/text/larder_words.h"
#include "ui/text/numbers.h"
#include "ui/text/preparation_words.h"

#include <QCoreApplication>
#include <QStringList>

#include <algorithm>

namespace stillroom::ui {

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("Terms", text);
}

QString percentOf(const quantity::Rational& share) {
    const auto percent = larder::percentOfShare(share);
    return percent ? percentText(*percent) : QStringLiteral("?");
}

} // namespace

QString shortened(const QString& typed) {
    constexpr qsizetype kMost = 40;
    const QString plain = typed.simplified();
    return plain.size() <= kMost ? plain : QString(plain.left(kMost - 1).trimmed() + QChar(0x2026));
}

QString percentText(const quantity::Rational& percent) {
    return trimmedNumber(percent.toDouble(), 4);
}

QString usedSentence(const larder::Ingredient& ingredient) {
    if (ingredient.usableShare == quantity::Rational(1)) return say("All that is bought is used.");
    return say("%1 % of what is bought is used.").arg(percentOf(ingredient.usableShare));
}

QString takersSentence(const larder::Larder& larder, const larder::Ingredient& ingredient) {
    if (!ingredient.gotFrom) return say("Bought as it is.");
    if (!ingredient.packs.empty()) return say("It has a price of its own, and that one counts.");
    QStringList others;
    for (const auto* taker : larder.gotFrom(ingredient.gotFrom->of))
        if (taker->id != ingredient.id)
            others << say("%1 %2 %").arg(fromCore(taker->name), percentOf(taker->gotFrom->priceShare));
    QString words =
        others.isEmpty() ? QString() : say("Also from it: %1.").arg(others.join(QStringLiteral(", ")));
    const auto faults = larder::shareFaults(larder);
    const auto fault = std::find_if(faults.begin(), faults.end(), [&](const auto& each) {
        return each.purchase == ingredient.gotFrom->of;
    });
    if (fault == faults.end()) return words;
    if (!words.isEmpty()) words += QLatin1Char(' ');
    return QString(words + say("Together they take %1 % of its price.").arg(percentOf(fault->shares)));
}

QString comesToSentence(const larder::Larder& larder, const larder::Ingredient& ingredient,
                        const larder::PriceQuestion& question) {
    const auto price = larder::unitPrice(larder, ingredient, question);
    if (price) return say("Comes to %1.").arg(unitPriceText(*price, question.currency));
    if (price.error().problem == larder::CostProblem::NoPrice) {
        const auto* at = larder.find(price.error().at);
        return say("No price of %1 is on record.")
            .arg(at != nullptr ? fromCore(at->name) : say("what it is got from"));
    }
    return costProblemSentence(price.error().problem, fromCore(price.error().currency.text()));
}

QString usesSentence(int by, int drafts, int revisions) {
    const auto count = [](int n, const char* one, const char* many) {
        return n == 1 ? say(one) : say(many).arg(n);
    };
    return say("%1, in %2 and %3.")
        .arg(count(by, "One drink or preparation", "%1 drinks and preparations"),
             count(drafts, "one draft", "%1 drafts"),
             count(revisions, "one kept revision", "%1 kept revisions"));
}

QString publishedKeeping(const larder::Ingredient& ingredient) {
    const auto* entry = preparation::keepingEntryOf(ingredient, preparation::KeepingTable::builtIn());
    if (entry == nullptr) return {};
    preparation::Keeping keeping;
    keeping.basis =
        entry->shortestDays ? preparation::Keeping::Basis::OwnEntry : preparation::Keeping::Basis::NoLimit;
    keeping.shortestDays = entry->shortestDays;
    keeping.longestDays = entry->longestDays;
    keeping.storage = entry->storage;
    keeping.mustRefrigerate = entry->mustRefrigerate;
    return say("Published for %1: %2").arg(fromCore(entry->item), keepingSentence(keeping));
}

} // namespace stillroom::ui
