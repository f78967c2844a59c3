#include "core/history/side_by_side.h"

#include <algorithm>

namespace stillroom::history {

namespace {

using Rows = std::vector<std::vector<std::string>>;

// Code points, near enough to columns for the scripts that names are written in.
std::size_t width(const std::string& text) {
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string oneLine(std::string text) {
    std::replace_if(
        text.begin(), text.end(), [](char c) { return c == '\t' || c == '\n' || c == '\r'; }, ' ');
    return text;
}

std::string withoutBars(std::string text) {
    text = oneLine(std::move(text));
    for (std::size_t at = text.find('|'); at != std::string::npos; at = text.find('|', at + 2))
        text.replace(at, 1, "\\|");
    return text;
}

bool looksLikeNumber(const std::string& text) {
    return text.find_first_of("0123456789") != std::string::npos &&
           std::none_of(text.begin(), text.end(), [](char c) { return c >= 'A' && c <= 'z'; });
}

bool isNumbers(const Rows& rows, std::size_t column) {
    bool any = false;
    for (std::size_t row = 1; row < rows.size(); ++row) {
        if (column >= rows[row].size() || rows[row][column].empty()) continue;
        const std::string& text = rows[row][column];
        const bool blank = text == "—" || text == "?" || text == "same";
        if (!blank && !looksLikeNumber(text)) return false;
        any |= !blank;
    }
    return any;
}

} // namespace

std::string asMarkdown(const Rows& given) {
    if (given.empty()) return {};
    Rows rows;
    for (const auto& row : given) {
        rows.emplace_back();
        for (const auto& cell : row)
            rows.back().push_back(withoutBars(cell));
        rows.back().resize(given.front().size());
    }
    const std::size_t columns = rows.front().size();
    std::vector<std::size_t> widths(columns, 3);
    std::vector<bool> right(columns);
    for (std::size_t c = 0; c < columns; ++c) {
        right[c] = isNumbers(rows, c);
        for (const auto& row : rows)
            widths[c] = std::max(widths[c], width(row[c]));
    }
    std::string text;
    for (std::size_t r = 0; r < rows.size(); ++r) {
        text += '|';
        for (std::size_t c = 0; c < columns; ++c) {
            const std::string pad(widths[c] - width(rows[r][c]), ' ');
            text += ' ';
            text += right[c] ? pad + rows[r][c] : rows[r][c] + pad;
            text += " |";
        }
        text += '\n';
        if (r > 0) continue;
        text += '|';
        for (std::size_t c = 0; c < columns; ++c) {
            text += ' ';
            text.append(widths[c] - 1, '-');
            text += right[c] ? ": |" : "- |";
        }
        text += '\n';
    }
    return text;
}

std::string asTabbed(const Rows& rows) {
    std::string text;
    for (const auto& row : rows) {
        for (std::size_t c = 0; c < row.size(); ++c) {
            if (c > 0) text += '\t';
            text += oneLine(row[c]);
        }
        text += '\n';
    }
    return text;
}

} // namespace stillroom::history
