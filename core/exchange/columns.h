#pragma once

#include "core/exchange/read_text.h"

namespace stillroom::exchange {

// Rows pasted from a spreadsheet, before they are lines: which column is what, for the preview.
enum class ColumnUse : std::uint8_t { Ignore, Amount, Measure, Name, Note, WholeLine };

struct ColumnTable {
    std::vector<std::vector<std::string>> rows;
    std::vector<ColumnUse> uses; // guessed; the user may change them
    bool firstRowIsHeader = false;
};

std::optional<ColumnTable> readColumns(std::string_view text); // nullopt: not tab-separated
ReadResult readTable(const ColumnTable& table, const ReadOptions& options = {});

} // namespace stillroom::exchange
