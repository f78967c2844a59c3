#include "core/exchange/columns.h"

#include "core/exchange/clean_text.h"
#include "core/exchange/measure_words.h"
#include "core/exchange/number_reader.h"
#include "core/exchange/recipe_reader.h"

#include "core/base/text.h"

#include <algorithm>

namespace stillroom::exchange {

namespace {

// A pasted sheet has at least this many rows of several cells.
constexpr std::size_t kFewestRows = 2;

std::vector<std::string> cellsOf(std::string_view row) {
    std::vector<std::string> cells;
    for (std::size_t begin = 0; begin <= row.size();) {
        const std::size_t end = std::min(row.find('\t', begin), row.size());
        cells.emplace_back(base::trimmed(row.substr(begin, end - begin)));
        begin = end + 1;
    }
    return cells;
}

bool isUnitCell(const std::string& cell) {
    const TokenLine line(cleanLine(cell).text);
    const auto unit = readUnit(line, 0);
    return unit && unit->next == line.size();
}

enum class CellSort : std::uint8_t { Empty, Number, Measured, Unit, Words };

CellSort sortOf(const std::string& cell) {
    if (base::trimmed(cell).empty()) return CellSort::Empty;
    if (isUnitCell(cell)) return CellSort::Unit;
    const auto amount = readAmount(cell);
    if (!amount) return CellSort::Words;
    return amount->measure ? CellSort::Measured : CellSort::Number;
}

// What header words announce.
std::optional<ColumnUse> headerUse(const std::string& cell) {
    const std::string word = base::fold(cell);
    const auto any = [&](std::initializer_list<std::string_view> list) {
        return std::find(list.begin(), list.end(), word) != list.end();
    };
    if (any({"amount", "qty", "quantity", "menge", "quantite", "cantidad", "quantita", "how much", "volume",
             "ml"}))
        return ColumnUse::Amount;
    if (any({"unit", "units", "measure", "uom", "einheit", "unite", "unidad", "unita"}))
        return ColumnUse::Measure;
    if (any({"ingredient", "ingredients", "name", "item", "what", "zutat", "ingrediente", "product"}))
        return ColumnUse::Name;
    if (any({"note", "notes", "comment", "remark", "notiz", "brand", "preparation", "method"}))
        return ColumnUse::Note;
    return std::nullopt;
}

struct Tally {
    std::size_t empty = 0;
    std::size_t number = 0;
    std::size_t measured = 0;
    std::size_t unit = 0;
    std::size_t words = 0;
    std::size_t filled() const { return number + measured + unit + words; }
};

Tally tallyOf(const ColumnTable& table, std::size_t column) {
    Tally tally;
    for (std::size_t row = table.firstRowIsHeader ? 1 : 0; row < table.rows.size(); ++row) {
        const auto& cells = table.rows[row];
        switch (column < cells.size() ? sortOf(cells[column]) : CellSort::Empty) {
        case CellSort::Empty:
            ++tally.empty;
            break;
        case CellSort::Number:
            ++tally.number;
            break;
        case CellSort::Measured:
            ++tally.measured;
            break;
        case CellSort::Unit:
            ++tally.unit;
            break;
        case CellSort::Words:
            ++tally.words;
            break;
        }
    }
    return tally;
}

void guessUses(ColumnTable& table) {
    std::size_t width = 0;
    for (const auto& row : table.rows)
        width = std::max(width, row.size());
    table.uses.assign(width, ColumnUse::Ignore);
    if (table.firstRowIsHeader)
        for (std::size_t c = 0; c < table.rows.front().size(); ++c)
            if (const auto use = headerUse(table.rows.front()[c])) table.uses[c] = *use;
    const auto has = [&](ColumnUse use) {
        return std::find(table.uses.begin(), table.uses.end(), use) != table.uses.end();
    };
    for (std::size_t c = 0; c < width; ++c) {
        if (table.uses[c] != ColumnUse::Ignore) continue;
        const Tally tally = tallyOf(table, c);
        if (tally.filled() == 0) continue;
        if (2 * (tally.number + tally.measured) >= tally.filled() && !has(ColumnUse::Amount))
            table.uses[c] = ColumnUse::Amount;
        else if (2 * tally.unit >= tally.filled() && !has(ColumnUse::Measure))
            table.uses[c] = ColumnUse::Measure;
        else if (2 * tally.words >= tally.filled())
            table.uses[c] = has(ColumnUse::Name) ? ColumnUse::Note : ColumnUse::Name;
    }
}

std::string lineOf(const ColumnTable& table, const std::vector<std::string>& row) {
    std::string amount;
    std::string measure;
    std::string name;
    std::string note;
    for (std::size_t c = 0; c < row.size() && c < table.uses.size(); ++c) {
        if (row[c].empty()) continue;
        switch (table.uses[c]) {
        case ColumnUse::Amount:
            amount = row[c];
            break;
        case ColumnUse::Measure:
            measure = row[c];
            break;
        case ColumnUse::Name:
            name = row[c];
            break;
        case ColumnUse::Note:
            if (!note.empty()) note += "; ";
            note += row[c];
            break;
        case ColumnUse::WholeLine:
            name = row[c];
            break;
        case ColumnUse::Ignore:
            break;
        }
    }
    std::string line = amount;
    for (const std::string* part : {&measure, &name}) {
        if (part->empty()) continue;
        if (!line.empty()) line.push_back(' ');
        line += *part;
    }
    if (!note.empty() && !line.empty()) line.append(", ").append(note);
    return line;
}

std::string rawOf(const std::vector<std::string>& row) {
    std::string raw;
    for (std::size_t c = 0; c < row.size(); ++c) {
        if (c > 0) raw.push_back('\t');
        raw += row[c];
    }
    return raw;
}

bool isSingleCell(const std::vector<std::string>& row) {
    return std::count_if(row.begin(), row.end(), [](const std::string& cell) { return !cell.empty(); }) == 1;
}

} // namespace

std::optional<ColumnTable> readColumns(std::string_view text) {
    ColumnTable table;
    std::size_t several = 0;
    std::size_t filled = 0;
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find_first_of("\r\n", begin), text.size());
        const std::string_view row = text.substr(begin, end - begin);
        begin = end + 1;
        if (base::trimmed(row).empty()) continue;
        constexpr std::size_t kLongestRow = 4000;
        if (row.size() > kLongestRow) return std::nullopt;
        table.rows.push_back(cellsOf(row));
        ++filled;
        several += isSingleCell(table.rows.back()) ? 0 : 1;
    }
    // mostly rows of several cells, or it is a text that happens to hold tabs
    if (several < kFewestRows || several * 3 < filled * 2) return std::nullopt;
    const auto& first = table.rows.front();
    table.firstRowIsHeader = std::count_if(first.begin(), first.end(), [](const std::string& cell) {
                                 return headerUse(cell).has_value();
                             }) >= 2;
    guessUses(table);
    return table;
}

ReadResult readTable(const ColumnTable& table, const ReadOptions& options) {
    std::vector<SourceLine> lines;
    std::vector<std::string> raws;
    for (std::size_t r = 0; r < table.rows.size(); ++r) {
        const auto& row = table.rows[r];
        SourceLine line;
        line.number = static_cast<int>(r) + 1;
        const bool title = r == 0 && isSingleCell(row);
        if (title || isSingleCell(row)) {
            line.text = base::trimmed(rawOf(row));
            line.hint = title ? LineHint::Title : LineHint::None;
        } else if (r == 0 && table.firstRowIsHeader) {
            line.text = rawOf(row);
            line.hint = LineHint::Note;
        } else {
            line.text = lineOf(table, row);
            line.hint = LineHint::Ingredient;
        }
        if (base::trimmed(line.text).empty()) line.text = rawOf(row);
        lines.push_back(std::move(line));
        raws.push_back(rawOf(row));
    }
    RecipeRead read = readRecipe(lines, options);
    // the preview shows the row as pasted
    for (ReadLine& line : read.every)
        if (line.sourceLine > 0 && static_cast<std::size_t>(line.sourceLine) <= raws.size())
            line.raw = raws[static_cast<std::size_t>(line.sourceLine) - 1];
    if (table.firstRowIsHeader) {
        auto& notes = read.recipe.notes;
        if (!notes.empty()) notes.erase(notes.begin());
    }
    ReadResult result;
    result.every = std::move(read.every);
    result.drinks.push_back(std::move(read.recipe));
    return result;
}

} // namespace stillroom::exchange
