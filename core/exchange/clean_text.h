#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace stillroom::exchange {

// A line made fit for reading: one kind of digit, one kind of space, nothing invisible. Names are cut out of
// it, so everything a person would see stays.
struct CleanLine {
    std::string text;
    bool hadControls = false;     // control characters or terminal sequences were taken out
    bool hadBidiControls = false; // direction overrides were taken out: the shown order may have lied
};

inline constexpr std::string_view kNoBreakSpace = "\u00A0";

// Digits of any script become 0-9, full-width forms their plain ones, spaces " " (between digits, a no-break
// or thin space stays as U+00A0, since there it groups thousands), runs of spaces one.
CleanLine cleanLine(std::string_view raw);

} // namespace stillroom::exchange
