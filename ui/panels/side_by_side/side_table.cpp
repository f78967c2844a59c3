#include "ui/panels/side_by_side/side_table.h"

#include "core/base/text.h"
#include "ui/text/amounts.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/text/words.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using spec::Quantity;
using spec::Stage;

namespace {

constexpr std::array<Quantity, 8> kCompared = {
    Quantity::Volume,         Quantity::Strength, Quantity::Sugar,          Quantity::Acid,
    Quantity::SugarAcidRatio, Quantity::Dilution, Quantity::StandardDrinks, Quantity::Cost};

QString countWord(qsizetype count) {
    static const QStringList words{u"no"_s,  u"one"_s,   u"two"_s,   u"three"_s, u"four"_s, u"five"_s,
                                   u"six"_s, u"seven"_s, u"eight"_s, u"nine"_s,  u"ten"_s};
    return count < words.size() ? words[count] : QString::number(count);
}

QString joinedWithAnd(const QStringList& parts) {
    if (parts.size() < 2) return parts.join(QString());
    return parts.mid(0, parts.size() - 1).join(u", "_s) + u" and "_s + parts.last();
}

// Where each base line, and each line the base lacks, stands in every column.
struct AlignedLine {
    std::vector<int> index;                                 // by column; −1: not in it
    std::vector<const history::LineDifference*> difference; // against the base; nullptr for the base
};

std::vector<AlignedLine> aligned(const SideBySideValues& values,
                                 const std::vector<history::SpecDifference>& differences) {
    const auto columns = values.columns.size();
    const auto& base = values.columns[values.base].spec;
    std::vector<AlignedLine> rows;
    for (std::size_t i = 0; i < base.lines.size(); ++i) {
        AlignedLine row{std::vector<int>(columns, -1), std::vector<const history::LineDifference*>(columns)};
        row.index[values.base] = static_cast<int>(i);
        rows.push_back(std::move(row));
    }
    const auto rowOfBase = [&](int line) {
        return std::find_if(rows.begin(), rows.end(),
                            [&](const AlignedLine& row) { return row.index[values.base] == line; });
    };
    for (std::size_t column = 0; column < columns; ++column) {
        if (column == values.base) continue;
        auto after = rows.begin();
        for (const auto& line : differences[column].lines) {
            auto row = rows.end();
            if (line.a >= 0) {
                row = rowOfBase(line.a);
            } else {
                // The same addition in two columns is one row.
                const auto& added = values.columns[column].spec.lines[static_cast<std::size_t>(line.b)];
                row = std::find_if(rows.begin(), rows.end(), [&](const AlignedLine& other) {
                    if (other.index[values.base] >= 0 || other.index[column] >= 0) return false;
                    for (std::size_t c = 0; c < columns; ++c)
                        if (other.index[c] >= 0)
                            return history::likeness(
                                       values.columns[c].spec.lines[static_cast<std::size_t>(other.index[c])],
                                       added) >= 1.0;
                    return false;
                });
                if (row == rows.end())
                    row = rows.insert(after, {std::vector<int>(columns, -1),
                                              std::vector<const history::LineDifference*>(columns)});
            }
            if (row == rows.end()) continue;
            row->index[column] = line.b;
            row->difference[column] = &line;
            after = row + 1;
        }
    }
    return rows;
}

const spec::Line& lineOf(const SideColumn& column, int index) {
    return column.spec.lines[static_cast<std::size_t>(index)];
}

// Both exact, in one measure: the difference in that measure. Else as a share, where it is known.
void sayAmountChange(SideCell& cell, const spec::Line& base, const spec::Line& here,
                     const history::LineDifference& difference) {
    const auto single = [](const spec::Measured& measured) {
        return measured.amount.kind == quantity::Amount::Kind::Exact &&
               measured.multiplier == quantity::Rational(1);
    };
    if (single(base.poured) && single(here.poured) && base.poured.measure == here.poured.measure) {
        const double change = here.poured.amount.low.toDouble() - base.poured.amount.low.toDouble();
        int decimals = 0;
        while (decimals < 2 &&
               std::abs(std::round(change * std::pow(10, decimals)) / std::pow(10, decimals) - change) > 1e-6)
            ++decimals;
        cell.difference = signedNumber(change, decimals);
        cell.change = change > 0 ? SideChange::Up : SideChange::Down;
    } else if (difference.relative) {
        cell.difference = signedNumber(*difference.relative * 100, 0) + kNarrowSpace + u'%';
        cell.change = *difference.relative > 0 ? SideChange::Up : SideChange::Down;
    } else {
        cell.difference = u"other amount"_s;
        cell.change = SideChange::Other;
    }
}

SideCell lineCell(const AlignedLine& row, const SideBySideValues& values, std::size_t column) {
    SideCell cell;
    const int baseLine = row.index[values.base];
    const int here = row.index[column];
    if (here < 0) {
        cell.number = kEmDash;
        if (column != values.base) {
            cell.difference = baseLine >= 0 ? u"not in it"_s : u"same"_s;
            cell.change = baseLine >= 0 ? SideChange::Down : SideChange::Same;
        }
        return cell;
    }
    const auto& line = lineOf(values.columns[column], here);
    cell.number = amountNumber(line.poured);
    cell.unit = amountUnit(line.poured);
    if (cell.number.isEmpty() && cell.unit.isEmpty()) cell.number = kEmDash;
    if (column == values.base) return cell;
    if (baseLine < 0) {
        cell.difference = u"only here"_s;
        cell.change = SideChange::Up;
        return cell;
    }
    const auto* difference = row.difference[column];
    if (!difference || difference->same) {
        cell.difference = u"same"_s;
        cell.change = SideChange::Same;
        return cell;
    }
    const auto& base = lineOf(values.columns[values.base], baseLine);
    if (difference->amount)
        sayAmountChange(cell, base, line, *difference);
    else if (difference->renamed) {
        cell.difference = u"as %1"_s.arg(fromCore(line.name));
        cell.change = SideChange::Other;
    } else if (difference->place) {
        cell.difference = roleName(line.role);
        cell.change = SideChange::Other;
    } else {
        cell.difference = difference->moved ? u"moved"_s : u"noted anew"_s;
        cell.change = SideChange::Other;
    }
    return cell;
}

void addLines(SideTable& table, const SideBySideValues& values,
              const std::vector<history::SpecDifference>& differences) {
    for (const auto& row : aligned(values, differences)) {
        SideRow out;
        out.kind = SideRowKind::Line;
        std::size_t named = values.base;
        if (row.index[named] < 0)
            named = static_cast<std::size_t>(
                std::find_if(row.index.begin(), row.index.end(), [](int index) { return index >= 0; }) -
                row.index.begin());
        const auto& line = lineOf(values.columns[named], row.index[named]);
        out.name = fromCore(line.name.empty() ? line.written : line.name);
        if (line.role != spec::Role::Mixed) out.note = roleName(line.role);
        for (std::size_t column = 0; column < values.columns.size(); ++column) {
            out.cells.push_back(lineCell(row, values, column));
            out.differs |=
                out.cells.back().change != SideChange::None && out.cells.back().change != SideChange::Same;
        }
        table.rows.push_back(std::move(out));
    }
}

void addWords(SideTable& table, const SideBySideValues& values) {
    const auto add = [&](const QString& name, auto&& wordsOf) {
        SideRow row;
        row.kind = SideRowKind::Words;
        row.name = name;
        const QString base = wordsOf(values.columns[values.base].spec);
        bool any = false;
        for (std::size_t column = 0; column < values.columns.size(); ++column) {
            SideCell cell;
            const QString text = wordsOf(values.columns[column].spec);
            any |= !text.isEmpty();
            const bool same = text == base;
            row.differs |= !same;
            if (column != values.base && same && !text.isEmpty()) {
                cell.text = u"same"_s;
                cell.change = SideChange::Same;
            } else {
                cell.text = text.isEmpty() ? QString(kEmDash) : text;
                if (!same) cell.change = SideChange::Other;
            }
            row.cells.push_back(cell);
        }
        if (any) table.rows.push_back(std::move(row));
    };
    add(u"method"_s, [](const spec::Spec& spec) { return fromCore(spec.method.text); });
    add(u"glass"_s, [](const spec::Spec& spec) { return fromCore(spec.glass); });
    add(u"garnish"_s, [](const spec::Spec& spec) { return fromCore(spec.garnish); });
}

void addReadings(SideTable& table, const SideBySideValues& values) {
    const auto& base = values.columns[values.base];
    for (const auto quantity : kCompared) {
        SideRow row;
        row.kind = SideRowKind::Reading;
        row.name = quantityName(quantity);
        if (quantity == Quantity::Volume) row.note = u"as served"_s;
        const auto& before = base.readings[Stage::Served][quantity];
        for (std::size_t column = 0; column < values.columns.size(); ++column) {
            const auto& here = values.columns[column];
            const auto& reading = here.readings[Stage::Served][quantity];
            const auto text = readingText(reading, quantity);
            SideCell cell;
            cell.sign = text.sign;
            cell.number = text.number;
            cell.gap = text.gap;
            cell.unit = quantityUnitShown(quantity, values.currency, here.readings.standardDrinkGrams);
            if (column != values.base) {
                const auto change = readingDifference(reading, before, quantity);
                const auto was = readingText(before, quantity);
                const int decimals = shownDecimals(quantity);
                if (text == was && text.number != u"?"_s) {
                    cell.difference = u"same"_s;
                    cell.change = SideChange::Same;
                } else if (change && std::abs(*change) >= 0.5 * std::pow(10.0, -decimals)) {
                    cell.difference = signedNumber(*change, decimals);
                    cell.change = *change > 0 ? SideChange::Up : SideChange::Down;
                } else if (text != was) {
                    cell.change = SideChange::Other;
                }
            }
            row.differs |= cell.change != SideChange::None && cell.change != SideChange::Same;
            row.cells.push_back(std::move(cell));
        }
        table.rows.push_back(std::move(row));
    }
}

void addFindings(SideTable& table, const SideBySideValues& values) {
    const auto& base = values.columns[values.base];
    for (std::size_t column = 0; column < values.columns.size(); ++column) {
        if (column == values.base) continue;
        const auto& earlier = column < values.base ? values.columns[column] : base;
        const auto& later = column < values.base ? base : values.columns[column];
        const auto difference = history::difference(earlier.spec, later.spec, values.measures);
        const auto things = changedThings(difference, earlier.spec, later.spec);
        const QString from = earlier.label + u" to "_s + later.label;
        if (things.isEmpty())
            table.findings.push_back({false,
                                      u"%1 and %2 are the same spec."_s.arg(earlier.label, later.label),
                                      u"If the numbers differ, it is the facts behind them that changed."_s});
        else if (things.size() == 1)
            table.findings.push_back({false, u"%1: one thing changed, %2."_s.arg(from, things.front()),
                                      u"If tasters tell them apart, it was that."_s});
        else
            table.findings.push_back(
                {true, u"%1 changed %2 things at once:"_s.arg(from, countWord(things.size())),
                 u"%1. No score between them can be laid to one."_s.arg(joinedWithAnd(things))});
    }
}

void addAllergens(SideTable& table, const SideBySideValues& values) {
    const auto& base = values.columns[values.base];
    const auto without = [](const QStringList& all, const QStringList& gone) {
        QStringList left;
        for (const auto& one : all)
            if (!gone.contains(one)) left << one;
        return left;
    };
    for (std::size_t column = 0; column < values.columns.size(); ++column) {
        if (column == values.base) continue;
        const auto& here = values.columns[column];
        const auto gained = without(here.allergens, base.allergens);
        const auto lost = without(base.allergens, here.allergens);
        if (!gained.isEmpty())
            table.allergens << u"%1 gains %2 over %3."_s.arg(here.label, joinedWithAnd(gained), base.label);
        if (!lost.isEmpty())
            table.allergens << u"%1 loses %2 of %3."_s.arg(here.label, joinedWithAnd(lost), base.label);
    }
    if (table.allergens.isEmpty()) table.allergens << u"None gained or lost among those stated."_s;
    QStringList unknown;
    for (const auto& column : values.columns)
        for (const auto& name : column.allergensUnknown)
            if (!unknown.contains(name)) unknown << name;
    if (!unknown.isEmpty()) table.allergens << u"Not stated: %1."_s.arg(joinedWithAnd(unknown));
}

} // namespace

QStringList changedThings(const history::SpecDifference& difference, const spec::Spec& a,
                          const spec::Spec& b) {
    QStringList things;
    for (const auto& line : difference.lines) {
        // Written elsewhere or otherwise, it is still the same drink.
        if (line.same || !(line.amount || line.renamed || line.place || line.added || line.removed)) continue;
        const auto& named = line.b >= 0 ? b.lines[static_cast<std::size_t>(line.b)]
                                        : a.lines[static_cast<std::size_t>(line.a)];
        things << fromCore(named.name.empty() ? named.written : named.name);
    }
    if (difference.method) things << u"the method"_s;
    if (difference.glass) things << u"the glass"_s;
    if (difference.garnish) things << u"the garnish"_s;
    if (difference.serves) things << u"how many it serves"_s;
    if (difference.target) things << u"the size of a part"_s;
    return things;
}

SideTable sideTable(const SideBySideValues& values) {
    SideTable table;
    if (values.columns.empty() || values.base >= values.columns.size()) return table;
    std::vector<history::SpecDifference> differences;
    for (const auto& column : values.columns)
        differences.push_back(
            history::difference(values.columns[values.base].spec, column.spec, values.measures));
    addLines(table, values, differences);
    addWords(table, values);
    addReadings(table, values);
    addFindings(table, values);
    addAllergens(table, values);
    return table;
}

QList<QStringList> sideRows(const SideBySideValues& values, const SideTable& table, bool onlyDifferences) {
    QStringList head{values.drink};
    for (std::size_t column = 0; column < values.columns.size(); ++column) {
        head << values.columns[column].label << u"unit"_s;
        if (column != values.base) head << u"against %1"_s.arg(values.columns[values.base].label);
    }
    QList<QStringList> rows{head};
    for (const auto& row : table.rows) {
        if (onlyDifferences && !row.differs) continue;
        QStringList cells{row.note.isEmpty() ? row.name : QString(row.name + u", "_s + row.note)};
        for (std::size_t column = 0; column < row.cells.size(); ++column) {
            const auto& cell = row.cells[column];
            QString shown = cell.text.isEmpty() ? cell.number : cell.text;
            if (!cell.sign.isEmpty()) shown = cell.sign + u' ' + shown;
            cells << shown << cell.unit;
            if (column != values.base) cells << cell.difference;
        }
        rows << cells;
    }
    return rows;
}

} // namespace stillroom::ui
