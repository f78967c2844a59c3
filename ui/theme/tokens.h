#pragma once

#include <QStringView>

#include <array>
#include <cstddef>
#include <optional>

namespace stillroom::ui {

enum class Mode : unsigned char { Light, Dark };

// Every colour has one of these jobs and no other; values are in resources/theme/tokens.json.
enum class Token : unsigned char {
    Surface, // around the pages: shelf, menu bar, status
    Page,
    Well, // the served column, the field of a plot
    Rule, // a guide; never the only carrier of meaning
    RuleStrong,
    Ink,
    Ink2,
    Ink3,
    Intent, // focus, selection edge, aim, the one act
    IntentSoft,
    OnIntent,
    ChangeUp,
    ChangeUpSoft,
    ChangeDown,
    ChangeDownSoft,
    Gap,
    GapSoft,
    Caution,
    CautionSoft,
    OnCaution,
    Error,
    ErrorSoft,
    OnError,
    Focus,
    StageMeasured,
    StageMixed,
    StageServed,
    StageHeld,
    LiquidBody,
    LiquidFloat,
    Ice,
    GlassLine,
    StyleRegion,
    Cloud,
    Aim,
    Selection,
};
inline constexpr std::size_t kTokenCount = 36;

// Two voices: hand for what a person wrote, gauge for what the bench computed and for controls.
enum class Type : unsigned char {
    Title,         // hand
    Line,          // hand
    Amount,        // hand
    Body,          // hand
    Reason,        // hand italic
    Reading,       // gauge
    ReadingServed, // gauge 700
    Delta,         // gauge 600
    Control,       // gauge
    Heading,       // gauge 600
    Unit,          // gauge
    Caption,       // gauge
    Axis,          // gauge, never smaller
    BarLine,       // hand, read from two metres
    BarAmount,     // gauge
    BarTimer,      // gauge
};
inline constexpr std::size_t kTypeCount = 16;

QStringView tokenId(Token token); // "change-up": the key in tokens.json
QStringView typeId(Type type);

} // namespace stillroom::ui
