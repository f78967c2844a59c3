#include "ui/text/lot_words.h"

#include "core/larder/facts.h"
#include "ui/text/border.h"
#include "ui/text/larder_words.h"
#include "ui/text/numbers.h"
#include "ui/text/preparation_words.h"

#include <QCoreApplication>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("LotWords", text);
}

QString figure(std::string_view key, const std::optional<larder::Fact>& fact, bool dry) {
    if (!fact) return {};
    QString words = factName(key).toLower() + u' ' + trimmedNumber(fact->typical, factDecimals(key)) +
                    kNarrowSpace + factUnit(key, dry);
    if (!fact->source.empty() && fact->source != larder::sourceKindId(fact->sourceKind))
        words += u" ("_s + fromCore(fact->source) + u')';
    return words;
}

} // namespace

QString measuredLotSentence(const larder::Larder& larder, base::IngredientId id, const std::string& today) {
    const auto* of = larder.find(id);
    if (of == nullptr || !of->lotInUse) return {};
    for (const auto& lot : larder.lots(id)) {
        if (lot.id != *of->lotInUse) continue;
        QStringList said;
        for (const auto& words : {figure("abv_percent", lot.abvPercent, of->facts.dry),
                                  figure("sugar_g_per_l", lot.sugarGPerL, of->facts.dry),
                                  figure("acid_g_per_l", lot.acidGPerL, of->facts.dry),
                                  figure("density_kg_per_m3", lot.densityKgPerM3, of->facts.dry)})
            if (!words.isEmpty()) said << words;
        if (said.isEmpty()) return {};
        return say("Measured wins: drinks count the lot in use, of %1: %2.")
            .arg(civilDayText(lot.on, today), said.join(u", "_s));
    }
    return {};
}

} // namespace stillroom::ui
