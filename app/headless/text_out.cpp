#include "app/headless/text_out.h"

#include "app/headless/command.h"
#include "app/headless/words.h"
#include "core/larder/allergens.h"
#include "core/larder/us_allergens.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ostream>

namespace stillroom::headless {

namespace {

constexpr std::size_t kTextWidth = 92;

// Columns taken on a terminal, near enough: one per code point, none for joiners and combining marks.
std::size_t width(const std::string& text) {
    std::size_t columns = 0;
    for (const char c : text)
        if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++columns;
    return columns;
}

std::string fixed(double value, int decimals) {
    std::string text = fmt::format("{:.{}f}", std::abs(value), decimals);
    const bool zero = text.find_first_of("123456789") == std::string::npos;
    return value < 0 && !zero ? "−" + text : text;
}

// An amount as a person would write it: whole and decimal numbers so, thirds and the like as fractions.
std::string numberText(const quantity::Rational& number) {
    std::int64_t rest = number.denominator();
    int decimals = 0;
    for (const std::int64_t prime : {std::int64_t{2}, std::int64_t{5}}) {
        int power = 0;
        while (rest % prime == 0) {
            rest /= prime;
            ++power;
        }
        decimals = std::max(decimals, power);
    }
    if (rest == 1 && decimals <= 3) return fixed(number.toDouble(), decimals);
    const std::int64_t whole = number.numerator() / number.denominator();
    if (whole == 0 || number.isNegative()) return number.text();
    return fmt::format("{} {}/{}", whole, number.numerator() % number.denominator(), number.denominator());
}

std::string unitText(spec::Quantity quantity, const spec::Readings& readings,
                     const quantity::Currency& currency) {
    switch (quantity) {
    case spec::Quantity::Cost:
        return std::string(currency.text());
    case spec::Quantity::Dilution:
        return std::string("%");
    case spec::Quantity::StandardDrinks:
        return fmt::format("of {:g} g", readings.standardDrinkGrams);
    default:
        return std::string(spec::quantityUnit(quantity));
    }
}

} // namespace

std::string readingText(spec::Quantity quantity, const spec::Reading& reading) {
    // A dilution is stored as a ratio and read as a percentage.
    const bool percent = quantity == spec::Quantity::Dilution;
    const double scale = percent ? 100.0 : 1.0;
    const int decimals =
        percent ? std::max(0, spec::quantityDecimals(quantity) - 2) : spec::quantityDecimals(quantity);
    return readingText(reading, decimals, scale);
}

std::string readingText(const spec::Reading& reading, int decimals, double scale) {
    const auto number = [&](double value) { return fixed(value * scale, decimals); };
    const std::string near = reading.estimate ? "≈ " : "";
    switch (reading.bound) {
    case spec::Bound::Exact:
        return near + number(reading.value);
    case spec::Bound::AtLeast:
        return "≥ " + number(reading.value);
    case spec::Bound::AtMost:
        return "≤ " + number(reading.value);
    case spec::Bound::Between:
        return near + number(reading.value) + "–" + number(reading.upper);
    case spec::Bound::NotApplicable:
        return "—";
    case spec::Bound::Unknown:
        break;
    }
    return "?";
}

std::string amountText(const spec::Measured& measured) {
    if (!measured.amount.isStated()) return "";
    std::string text = numberText(measured.amount.low);
    if (measured.amount.kind == quantity::Amount::Kind::Range) text += "–" + numberText(measured.amount.high);
    if (!(measured.multiplier == quantity::Rational(1)))
        text = numberText(measured.multiplier) + " × " + text;
    if (measured.measure && *measured.measure != quantity::Measure::Piece) { // "1 egg white" says it already
        const quantity::MeasureInfo& info = quantity::measureInfo(*measured.measure);
        const bool one = measured.amount.high == quantity::Rational(1);
        text += " ";
        text += one ? info.shown : info.plural;
    }
    return text;
}

std::string lineText(const spec::Line& line) {
    const std::string amount = amountText(line.poured);
    std::string text = amount.empty() ? line.name : amount + " " + line.name;
    if (!line.note.empty()) text += ", " + line.note;
    return clean(text);
}

void writeTable(std::ostream& out, const std::vector<std::vector<std::string>>& rows, std::size_t left) {
    std::vector<std::size_t> widths;
    for (const auto& row : rows)
        for (std::size_t i = 0; i < row.size(); ++i) {
            if (widths.size() <= i) widths.push_back(0);
            widths[i] = std::max(widths[i], width(row[i]));
        }
    for (const auto& row : rows) {
        std::string line;
        for (std::size_t i = 0; i < row.size(); ++i) {
            const std::string pad(widths[i] - width(row[i]), ' ');
            line += "  ";
            line += i < left ? row[i] + pad : pad + row[i];
        }
        line.erase(line.find_last_not_of(' ') + 1);
        out << line << "\n";
    }
}

void writeParagraph(std::ostream& out, const std::string& text, std::size_t indent) {
    std::string line;
    const auto flush = [&] {
        if (!line.empty()) out << std::string(indent, ' ') << line << "\n";
        line.clear();
    };
    for (std::size_t begin = 0; begin < text.size();) {
        std::size_t end = std::min(text.find(' ', begin), text.size());
        std::string word = text.substr(begin, end - begin);
        if ((word == "≥" || word == "≤" || word == "≈") && end < text.size()) { // never apart from its number
            end = std::min(text.find(' ', end + 1), text.size());
            word = text.substr(begin, end - begin);
        }
        if (!line.empty() && indent + width(line) + 1 + width(word) > kTextWidth) flush();
        if (!word.empty()) line += (line.empty() ? "" : " ") + word;
        begin = end + 1;
    }
    flush();
}

void writeReadings(std::ostream& out, const spec::Readings& readings, const quantity::Currency& currency) {
    std::vector<std::vector<std::string>> rows{{"", "", "measured", "mixed", "served"}};
    for (std::size_t q = 0; q < spec::kQuantityCount; ++q) {
        const auto quantity = static_cast<spec::Quantity>(q);
        std::vector<std::string> row{std::string(quantityWords(quantity)),
                                     unitText(quantity, readings, currency)};
        for (const spec::StageReadings& stage : readings.stages)
            row.push_back(readingText(quantity, stage[quantity]));
        rows.push_back(std::move(row));
    }
    out << (readings.serves > 1 ? fmt::format("Per serve, of {}:\n", readings.serves) : std::string());
    writeTable(out, rows, 2);
    bool estimates = false;
    for (const spec::StageReadings& stage : readings.stages)
        for (const spec::Reading& reading : stage.of)
            estimates = estimates || (reading.estimate && reading.bound == spec::Bound::Exact);
    if (estimates) out << "  ≈ a formula outside its range, or a figure nobody has measured\n";
}

void writeGaps(std::ostream& out, const std::vector<spec::Gap>& gaps) {
    if (gaps.empty()) return;
    out << "\nMissing\n";
    for (const spec::Gap& gap : gaps)
        writeParagraph(out, clean(gapWords(gap)), 2);
}

namespace {

std::string usNames(const std::vector<std::string>& ids) {
    std::vector<std::string_view> names;
    for (const larder::AllergenClass& each : larder::usAllergenClasses())
        if (std::find(ids.begin(), ids.end(), each.id) != ids.end()) names.push_back(each.name);
    return fmt::format("{}", fmt::join(names, ", "));
}

} // namespace

void writeAllergens(std::ostream& out, const spec::AllergenSummary& allergens, const spec::Spec& spec) {
    if (spec.lines.empty()) return;
    out << "\nAllergens\n";
    std::string words = allergens.contains.empty() ? "none on record"
                                                   : fmt::format("{}", fmt::join(allergens.contains, ", "));
    std::vector<std::string> unknown;
    for (const int line : allergens.unknownLines)
        unknown.push_back(spec.lines[static_cast<std::size_t>(line)].name);
    if (allergens.garnishNotStated) unknown.emplace_back("the garnish");
    if (!unknown.empty()) words += fmt::format("; not stated for {}", fmt::join(unknown, ", "));
    writeParagraph(out, clean(words), 2);
    if (const auto us = larder::usWhereItDiffers(allergens.contains)) {
        std::string list = us->contains.empty() ? "none of its nine on record" : usNames(us->contains);
        if (!us->mayContain.empty()) list += "; perhaps " + usNames(us->mayContain);
        writeParagraph(out, clean("US: " + list), 2);
    }
}

void writeCautions(std::ostream& out, const std::vector<spec::Caution>& cautions) {
    bool headed = false;
    std::string standing;
    for (const spec::Caution& caution : cautions) {
        if (caution.standing) {
            standing += (standing.empty() ? "" : " ") + caution.text;
            continue;
        }
        if (!headed) out << "\nCautions\n";
        headed = true;
        writeParagraph(out,
                       clean(fmt::format("{}: {}{}", severityWords(caution.severity), caution.text,
                                         caution.source.empty() ? "" : " [" + caution.source + "]")),
                       2);
    }
    out << "\n";
    if (!standing.empty()) writeParagraph(out, clean(standing), 0);
    writeParagraph(out, clean(spec::deferenceText()), 0);
}

} // namespace stillroom::headless
