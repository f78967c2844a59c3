#include "ui/session/paste_reading.h"

#include "core/base/text.h"
#include "ui/session/line_entry.h"
#include "ui/text/border.h"

#include <algorithm>

namespace stillroom::ui {

namespace {

using exchange::DoubtWeight;
using exchange::ReadKind;
using exchange::ReadLine;

bool isOfDrink(const ReadLine& read) {
    return read.kind == ReadKind::Ingredient || read.kind == ReadKind::Garnish ||
           read.kind == ReadKind::Fused;
}

bool isUnsure(const ReadLine& read) {
    return read.unsure || std::any_of(read.parts.begin(), read.parts.end(),
                                      [](const ReadLine& part) { return part.unsure; });
}

} // namespace

void PasteReading::read(const QString& text) {
    m_text = text;
    m_answers.clear();
    m_imperial = m_book.readOptions().imperial;
    m_columns = exchange::readColumns(toCore(text));
    reread();
}

void PasteReading::setImperial(bool imperial) {
    m_imperial = imperial;
    reread();
}

void PasteReading::setColumnUse(std::size_t column, exchange::ColumnUse use) {
    if (!m_columns || column >= m_columns->uses.size()) return;
    m_columns->uses[column] = use;
    reread();
}

void PasteReading::setHeaderRow(bool header) {
    if (!m_columns) return;
    m_columns->firstRowIsHeader = header;
    reread();
}

void PasteReading::reread() {
    auto options = m_book.readOptions();
    options.imperial = m_imperial;
    m_result =
        m_columns ? exchange::readTable(*m_columns, options) : exchange::readText(toCore(m_text), options);
    m_rows.clear();
    for (const auto& read : m_result.every) {
        Row row;
        row.read = read;
        row.asks = isOfDrink(read) && isUnsure(read);
        row.doubtful = std::any_of(read.doubts.begin(), read.doubts.end(), [](const exchange::Doubt& doubt) {
            return doubt.weight == DoubtWeight::Warn && doubt.code == exchange::DoubtCode::AmountAbsurd;
        });
        if (row.asks || !read.otherReadings.empty()) {
            row.choices.push_back(read.line);
            row.choices.insert(row.choices.end(), read.otherReadings.begin(), read.otherReadings.end());
        }
        if (const auto found = m_answers.find(placeOf(read)); found != m_answers.end()) {
            row.answered = true;
            row.choice = std::min(found->second, std::max(0, static_cast<int>(row.choices.size()) - 1));
        }
        m_rows.push_back(std::move(row));
    }
}

void PasteReading::answer(std::size_t row, int choice) {
    if (row >= m_rows.size() || choice < 0 || static_cast<std::size_t>(choice) >= m_rows[row].choices.size())
        return;
    m_answers[placeOf(m_rows[row].read)] = choice;
    reread();
}

void PasteReading::rewrite(std::size_t row, const QString& text) {
    if (row >= m_rows.size()) return;
    const auto raw = fromCore(m_rows[row].read.raw);
    qsizetype from = 0;
    for (int line = 1; line < m_rows[row].read.sourceLine; ++line) {
        const auto end = m_text.indexOf(QLatin1Char('\n'), from);
        if (end < 0) break;
        from = end + 1;
    }
    auto at = m_text.indexOf(raw, from);
    if (at < 0) at = m_text.indexOf(raw); // its lines are not the text's, as in markup
    if (raw.isEmpty() || at < 0) return;
    m_text.replace(at, raw.size(), text);
    m_columns = exchange::readColumns(toCore(m_text));
    reread();
}

int PasteReading::openQuestions() const {
    return static_cast<int>(std::count_if(m_rows.begin(), m_rows.end(),
                                          [](const Row& row) { return row.asks && !row.answered; }));
}

int PasteReading::doubtful() const {
    return static_cast<int>(std::count_if(m_rows.begin(), m_rows.end(),
                                          [](const Row& row) { return row.doubtful && !row.answered; }));
}

int PasteReading::refused() const {
    return static_cast<int>(std::count_if(m_rows.begin(), m_rows.end(),
                                          [](const Row& row) { return row.read.kind == ReadKind::Refused; }));
}

int PasteReading::notUnderstood() const {
    return static_cast<int>(std::count_if(m_rows.begin(), m_rows.end(),
                                          [](const Row& row) { return row.read.kind == ReadKind::Unread; }));
}

QString PasteReading::notes() const {
    QStringList notes;
    if (!m_result.drinks.empty())
        for (const auto& note : m_result.drinks.front().notes)
            notes << fromCore(note);
    for (const auto& row : m_rows)
        if (row.read.kind == ReadKind::Refused || row.read.kind == ReadKind::Unread)
            if (const auto raw = fromCore(row.read.raw).trimmed(); !raw.isEmpty())
                notes << QStringLiteral("Not read: %1").arg(raw);
    return notes.join(QLatin1Char('\n'));
}

QString PasteReading::name() const {
    return m_result.drinks.empty() ? QString() : fromCore(m_result.drinks.front().name);
}

std::optional<base::DrinkId> PasteReading::drinkOfThatName() const {
    const auto folded = base::fold(toCore(name()));
    if (folded.empty()) return std::nullopt;
    for (const auto& summary : m_book.shelf())
        if (!summary.binned && base::fold(summary.name) == folded) return summary.id;
    return std::nullopt;
}

ReadLine PasteReading::settled(const ReadLine& read) const {
    ReadLine line = read;
    if (!isUnsure(read) && !m_answers.contains(placeOf(read))) return line;
    const auto found = m_answers.find(placeOf(read));
    if (found == m_answers.end()) {
        line.line.poured.amount = quantity::Amount::none();
        for (auto& part : line.parts)
            if (part.unsure) part.line.poured.amount = quantity::Amount::none();
    } else if (found->second > 0 && static_cast<std::size_t>(found->second) <= read.otherReadings.size()) {
        line.line = read.otherReadings[static_cast<std::size_t>(found->second - 1)];
    }
    line.unsure = false;
    return line;
}

spec::Spec PasteReading::spec() const {
    if (m_result.drinks.empty()) return {};
    exchange::ReadRecipe recipe = m_result.drinks.front();
    for (auto& line : recipe.lines)
        line = settled(line);
    return exchange::toSpec(recipe, m_book.larder());
}

std::optional<spec::Line> PasteReading::lineOf(const Row& row) const {
    if (!isOfDrink(row.read)) return std::nullopt;
    auto read = row.answered ? settled(row.read) : row.read;
    const auto lines = matched(read, m_book.larder());
    return lines.empty() ? std::nullopt : std::optional<spec::Line>(lines.front());
}

} // namespace stillroom::ui
