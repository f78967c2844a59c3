#include "ui/text/us_allergens.h"

#include "core/larder/us_allergens.h"
#include "ui/text/border.h"
#include "ui/text/words.h"

#include <QCoreApplication>
#include <QStringList>

namespace stillroom::ui {

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("UsAllergens", text);
}

QString named(const std::vector<std::string>& ids) {
    QStringList names;
    for (const auto& id : ids)
        names << allergenName(fromCore(id));
    return names.join(QStringLiteral(", "));
}

} // namespace

QString usAllergens(const std::vector<std::string>& euIds) {
    const auto us = larder::usWhereItDiffers(euIds);
    if (!us) return {};
    const QString sure = us->contains.empty() ? say("none of its nine on record") : named(us->contains);
    if (us->mayContain.empty()) return say("US: %1.").arg(sure);
    return say("US: %1; perhaps %2.").arg(sure, named(us->mayContain));
}

} // namespace stillroom::ui
