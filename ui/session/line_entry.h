#pragma once

#include "core/exchange/read_text.h"
#include "core/larder/larder.h"
#include "core/spec/spec.h"

#include <QString>

#include <optional>
#include <vector>

namespace stillroom::ui {

// What a person typed, on its way into a spec. The same reading as for pasted text.
struct LineEntry {
    exchange::ReadLine read;
    std::vector<spec::Line> lines; // one, or several when lines ran together; empty: not a line
    bool asks = false;             // a number or measure needs the person's word first
};
LineEntry readEntry(const QString& text, const exchange::ReadOptions& options, const larder::Larder& larder);
// Names matched against the larder, as for a pasted spec.
std::vector<spec::Line> matched(const exchange::ReadLine& read, const larder::Larder& larder);

// The amount cell: what was typed, over what stood there. A bare number keeps the measure; nothing typed
// is no amount. nullopt: not an amount.
std::optional<spec::Measured> readAmountOver(const QString& typed, const spec::Measured& before);

// A line given another name; the larder is asked anew.
spec::Line renamed(const spec::Line& line, const QString& name, const larder::Larder& larder);

} // namespace stillroom::ui
