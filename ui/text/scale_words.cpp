#include "ui/text/scale_words.h"

#include "core/tasting/sheet_words.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"

#include <QCoreApplication>
#include <QStringList>

#include <array>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using tasting::CircumstanceError;
using tasting::ScaleKind;

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("Scales", text);
}

constexpr std::array<const char*, 5> kJustRight{"too little", "a bit under", "right", "a bit over",
                                                "too much"};

} // namespace

QString scaleKindHint(ScaleKind kind) {
    switch (kind) {
    case ScaleKind::FifteenPoint:
        return say("0 to 15: 0 none, 15 as much as can be");
    case ScaleKind::JustAboutRight:
        return say("1 to 5: 1 too little, 3 right, 5 too much");
    case ScaleKind::NinePoint:
        return say("1 to 9: 1 dislike extremely, 5 neither, 9 like extremely");
    }
    return {};
}

QString scaleKindName(ScaleKind kind) {
    switch (kind) {
    case ScaleKind::FifteenPoint:
        return say("how much, 0 to 15");
    case ScaleKind::JustAboutRight:
        return say("just about right, 1 to 5");
    case ScaleKind::NinePoint:
        return say("liking, 1 to 9");
    }
    return {};
}

QString scoreWord(ScaleKind kind, int value) {
    if (value < tasting::lowestScore(kind) || value > tasting::highestScore(kind)) return {};
    const auto index = static_cast<std::size_t>(value - 1);
    if (kind == ScaleKind::JustAboutRight) return say(kJustRight[index]);
    if (kind == ScaleKind::NinePoint) return fromCore(tasting::likingWords()[index]);
    return {};
}

QString scoresInWords(const tasting::Scores& scores, const std::vector<tasting::ScaleDefinition>& scales) {
    QStringList parts;
    for (const auto& scale : scales) {
        const auto score = scores.of(scale.id);
        if (!score || score->kind != scale.kind) continue;
        const auto word = scoreWord(score->kind, score->value);
        const bool jar = score->kind == ScaleKind::JustAboutRight;
        parts << fromCore(scale.name) + u' ' + (jar ? word : QString::number(score->value));
    }
    return parts.join(u", "_s);
}

QString circumstancesInWords(const tasting::Circumstances& circumstances) {
    QStringList where;
    if (circumstances.glassAgeMinutes)
        where << (*circumstances.glassAgeMinutes == 0
                      ? say("at once")
                      : say("%1 min in the glass").arg(*circumstances.glassAgeMinutes));
    if (!circumstances.place.empty()) where << fromCore(circumstances.place);
    QStringList measured;
    const auto& m = circumstances.measured;
    const auto with = [](double value, const QString& unit) -> QString {
        return trimmedNumber(value, 2) + kNarrowSpace + unit;
    };
    if (m.volume) measured << with(m.volume->ml(), u"ml"_s);
    if (m.weight) measured << with(m.weight->grams(), u"g"_s);
    if (m.temperature) measured << with(m.temperature->celsius(), u"°C"_s);
    if (m.brixRead) measured << say("refractometer %1").arg(trimmedNumber(m.brixRead->percent(), 2));
    QStringList parts;
    if (!where.isEmpty()) parts << where.join(u", "_s);
    if (!measured.isEmpty()) parts << measured.join(u", "_s);
    return parts.join(u"; "_s);
}

QString circumstanceProblem(CircumstanceError error) {
    switch (error) {
    case CircumstanceError::GlassAge:
        return say("Minutes in the glass are a whole number, up to a week (10 080).");
    case CircumstanceError::Place:
        return say("The place is longer than 200 characters.");
    case CircumstanceError::Volume:
        return say("The volume is a number of ml above 0, up to 100 000.");
    case CircumstanceError::Weight:
        return say("The weight is a number of g above 0, up to 100 000.");
    case CircumstanceError::Temperature:
        return say("The temperature is a number of °C between −60 and 110.");
    case CircumstanceError::Brix:
        return say("The refractometer reads a number between 0 and 100.");
    }
    return {};
}

} // namespace stillroom::ui
