#include "ui/panels/side_by_side/side_table.h"

#include "core/base/text.h"
#include "ui/text/amounts.h"
#include "ui/text/border.h"
#include "ui/text/difference_text.h"
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

// What a taster or a guest would ask about, of the stage in view; at every stage, everything.
constexpr std::array kCompared{
    Quantity::Volume,         Quantity::Strength,   Quantity::Sugar,       Quantity::Acid,
    Quantity::SugarAcidRatio, Quantity::Dilution,   Quantity::Temperature, Quantity::Ethanol,
    Quantity::StandardDrinks, Quantity::EnergyKcal, Quantity::Cost};
constexpr std::array kEvery{
    Quantity::PouredVolume, Quantity::Volume,     Quantity::Strength,       Quantity::Ethanol,
    Quantity::Sugar,        Quantity::Brix,       Quantity::Acid,           Quantity::SugarAcidRatio,
    Quantity::Mass,         Quantity::Density,    Quantity::Dilution,       Quantity::Temperature,
    Quantity::EnergyKj,     Quantity::EnergyKcal, Quantity::StandardDrinks, Quantity::Cost};

QString countWord(qsizetype count) {
    static const QStringList words{u"no"_s,  u"one"_s,   u"two"_s,   u"three"_s, u"four"_s, u"five"_s,
                                   u"six"_s, u"seven"_s, u"eight"_s, u"nine"_s,  u"ten"_s};
    return count < words.size() ? words[count] : QString::number(count);
}

QString joinedWithAnd(const QStringList& parts) {
    if (parts.size() < 2) return parts.join(QString());
    return parts.mid(0, parts.size() - 1).join(u", "_s) + u" and "_s + parts.last();
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

// Decimals that do not come and go, so that the column holds still.
QString scaledNumber(double value) {
    return number(value, std::abs(value) < 1 ? 2 : 1);
}

// Amounts are shown in one measure when they are not those of the serve as written.
void scaleCell(SideCell& cell, const history::AlignedLine& row, const SideBySideValues& values,
               std::size_t column) {
    const auto sizeIn = [&](std::size_t c) -> std::optional<history::PouredSize> {
        if (row.line[c] < 0) return std::nullopt;
        const auto& of = values.columns[c];
        return history::pouredPer(of.spec, static_cast<std::size_t>(row.line[c]), of.readings, values.per,
                                  values.measures);
    };
    const auto size = sizeIn(column);
    if (!size) {
        cell.number = u"?"_s;
        cell.unit.clear();
        cell.gap = true;
        return;
    }
    cell.number = scaledNumber(size->value);
    cell.sign = size->estimate ? QString(kNearly) : QString();
    cell.unit = fromCore(quantity::measureInfo(size->measure).shown);
    const auto base = sizeIn(values.base);
    if (column == values.base || !base || base->measure != size->measure) return;
    const double change = size->value - base->value;
    const double unit = std::abs(size->value) < 1 ? 100 : 10;
    if (std::round(size->value * unit) == std::round(base->value * unit)) {
        cell.difference = size->estimate || base->estimate ? u"≈ same"_s : u"same"_s;
        cell.change = SideChange::Same;
    } else {
        cell.difference = signedNumber(change, unit > 10 ? 2 : 1);
        if (size->estimate || base->estimate) cell.difference.prepend(QString(kNearly) + u' ');
        cell.change = change > 0 ? SideChange::Up : SideChange::Down;
    }
}

SideCell lineCell(const history::AlignedLine& row, const SideBySideValues& values, std::size_t column) {
    SideCell cell;
    const int baseLine = row.line[values.base];
    const int here = row.line[column];
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
    if (column == values.base) {
        if (values.per != history::Per::Serve) scaleCell(cell, row, values, column);
        return cell;
    }
    if (baseLine < 0) {
        if (values.per != history::Per::Serve) scaleCell(cell, row, values, column);
        cell.difference = u"only here"_s;
        cell.change = SideChange::Up;
        return cell;
    }
    if (values.per != history::Per::Serve) {
        scaleCell(cell, row, values, column);
        return cell;
    }
    const auto& difference = row.differences[column];
    if (!difference || difference->same) {
        cell.difference = u"same"_s;
        cell.change = SideChange::Same;
        return cell;
    }
    const auto& base = lineOf(values.columns[values.base], baseLine);
    if (difference->measureOnly) {
        cell.difference = u"same pour"_s;
        cell.change = SideChange::Same;
    } else if (difference->amount)
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

void addLines(SideTable& table, const SideBySideValues& values) {
    std::vector<const spec::Spec*> specs;
    for (const auto& column : values.columns)
        specs.push_back(&column.spec);
    for (const auto& row : history::alignLines(specs, values.base, values.measures)) {
        SideRow out;
        out.kind = SideRowKind::Line;
        std::size_t named = values.base;
        if (row.line[named] < 0)
            named = static_cast<std::size_t>(
                std::find_if(row.line.begin(), row.line.end(), [](int index) { return index >= 0; }) -
                row.line.begin());
        const auto& line = lineOf(values.columns[named], row.line[named]);
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
        const QString base = wordsOf(values.columns[values.base]);
        bool any = false;
        for (std::size_t column = 0; column < values.columns.size(); ++column) {
            SideCell cell;
            const QString text = wordsOf(values.columns[column]);
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
    add(u"method"_s, [](const SideColumn& column) { return fromCore(column.spec.method.text); });
    add(u"glass"_s, [](const SideColumn& column) { return fromCore(column.spec.glass); });
    add(u"garnish"_s, [](const SideColumn& column) { return fromCore(column.spec.garnish); });
    add(u"credit"_s, [](const SideColumn& column) { return column.credit; });
}

SideCell readingCell(const SideBySideValues& values, const std::vector<spec::Readings>& readings,
                     std::size_t column, spec::Stage stage, Quantity quantity) {
    const auto& reading = readings[column][stage][quantity];
    const auto text = readingText(reading, quantity);
    SideCell cell;
    cell.sign = text.sign;
    cell.number = text.number;
    cell.gap = text.gap;
    cell.unit = quantityUnitShown(quantity, values.currency, readings[column].standardDrinkGrams);
    if (column == values.base) return cell;
    const auto& before = readings[values.base][stage][quantity];
    const auto difference = differenceText(before, reading, quantity);
    cell.difference = difference.text;
    cell.openDifference = difference.bound;
    if (!difference.moved) {
        // "≥ same": the floors are; what lies above them nobody knows.
        if (!text.sign.isEmpty()) cell.difference = text.sign + u" same"_s;
        if (!difference.bound && text.sign.isEmpty()) cell.difference = u"same"_s;
        cell.change = SideChange::Same;
    } else if (difference.direction != 0) {
        cell.change = difference.direction > 0 ? SideChange::Up : SideChange::Down;
    } else {
        cell.change = SideChange::Other;
    }
    return cell;
}

template <class Quantities>
void addStage(SideTable& table, const SideBySideValues& values, const std::vector<spec::Readings>& readings,
              spec::Stage stage, const Quantities& quantities, const QString& note) {
    for (const auto quantity : quantities) {
        SideRow row;
        row.kind = SideRowKind::Reading;
        row.name = quantityName(quantity);
        if (quantity == Quantity::Volume) row.note = note;
        bool says = false;
        for (std::size_t column = 0; column < values.columns.size(); ++column) {
            says |= readings[column][stage][quantity].bound != spec::Bound::NotApplicable;
            row.cells.push_back(readingCell(values, readings, column, stage, quantity));
            const auto change = row.cells.back().change;
            row.differs |= change != SideChange::None && change != SideChange::Same;
        }
        if (says) table.rows.push_back(std::move(row));
    }
}

void addReadings(SideTable& table, const SideBySideValues& values) {
    std::vector<spec::Readings> readings;
    for (const auto& column : values.columns)
        readings.push_back(history::scaled(column.readings, values.per));
    if (values.stage) {
        const bool served = *values.stage == Stage::Served;
        addStage(table, values, readings, *values.stage, kCompared,
                 served ? u"as served"_s : stageName(*values.stage));
        return;
    }
    for (const auto stage : {Stage::Measured, Stage::Mixed, Stage::Served}) {
        SideRow heading;
        heading.kind = SideRowKind::Heading;
        heading.name = stageName(stage);
        const std::size_t at = table.rows.size();
        table.rows.push_back(std::move(heading));
        addStage(table, values, readings, stage, kEvery, {});
        for (std::size_t row = at + 1; row < table.rows.size(); ++row)
            table.rows[at].differs |= table.rows[row].differs;
    }
}

std::vector<history::FactSwap> swapsBetween(const SideBySideValues& values, const SideColumn& a,
                                            const SideColumn& b) {
    return history::factSwaps(a.spec, a.facts, b.spec, b.facts,
                              [&](const std::string& hash) -> const larder::FactState* {
                                  const auto found = values.states.find(hash);
                                  return found == values.states.end() ? nullptr : &found->second;
                              });
}

SideFinding findingBetween(const SideBySideValues& values, const SideColumn& earlier,
                           const SideColumn& later) {
    if (earlier.drink != later.drink)
        return {false, u"%1 and %2 are two drinks."_s.arg(earlier.label, later.label),
                u"Lines of the same ingredient stand beside each other."_s};
    const auto difference = history::difference(earlier.spec, later.spec, values.measures);
    const auto swaps = swapsBetween(values, earlier, later);
    const auto things = history::changedThings(difference, earlier.spec, later.spec, swaps);
    const QString from = earlier.label + u" to "_s + later.label;
    if (things.empty())
        return {false, u"%1 and %2 are the same drink."_s.arg(earlier.label, later.label),
                difference.isEmpty() ? u"Spec and facts are the same; only prices may differ."_s
                                     : u"What differs is how it is written: %1."_s.arg(
                                           fromCore(history::inWords(difference, earlier.spec, later.spec)))};
    if (const auto one = history::singleChange(things)) {
        QString fact = u"%1: one thing changed, %2."_s.arg(from, fromCore(one->name));
        if (!swaps.empty())
            fact = u"%1: only the facts changed: %2."_s.arg(from, fromCore(history::inWords(swaps)));
        return {false, fact, u"If tasters tell them apart, it was that."_s};
    }
    QStringList names;
    for (const auto& thing : things)
        names << fromCore(thing.name);
    return {true, u"%1 changed %2 things at once:"_s.arg(from, countWord(names.size())),
            u"%1. No score between them can be laid to one."_s.arg(joinedWithAnd(names))};
}

void addFindings(SideTable& table, const SideBySideValues& values) {
    const auto& base = values.columns[values.base];
    for (std::size_t column = 0; column < values.columns.size(); ++column) {
        if (column == values.base) continue;
        const auto& other = values.columns[column];
        table.findings.push_back(column < values.base ? findingBetween(values, other, base)
                                                      : findingBetween(values, base, other));
    }
}

std::vector<std::string> coreList(const QStringList& list) {
    std::vector<std::string> all;
    for (const auto& one : list)
        all.push_back(toCore(one));
    return all;
}

QStringList shownList(const std::vector<std::string>& list) {
    QStringList all;
    for (const auto& one : list)
        all << fromCore(one);
    return all;
}

void addAllergens(SideTable& table, const SideBySideValues& values) {
    const auto& base = values.columns[values.base];
    for (std::size_t column = 0; column < values.columns.size(); ++column) {
        if (column == values.base) continue;
        const auto& here = values.columns[column];
        const auto allergens = history::gainedLost(coreList(base.allergens), coreList(here.allergens));
        if (!allergens.gained.empty())
            table.allergens << u"%1 gains %2 over %3."_s.arg(
                here.label, joinedWithAnd(shownList(allergens.gained)), base.label);
        if (!allergens.lost.empty())
            table.allergens << u"%1 loses %2 of %3."_s.arg(
                here.label, joinedWithAnd(shownList(allergens.lost)), base.label);
        const auto cautions = history::gainedLost(coreList(base.cautions), coreList(here.cautions));
        for (const auto& caution : shownList(cautions.gained))
            table.cautions << u"%1 gains over %2: %3"_s.arg(here.label, base.label, caution);
        for (const auto& caution : shownList(cautions.lost))
            table.cautions << u"%1 loses of %2: %3"_s.arg(here.label, base.label, caution);
    }
    if (table.allergens.isEmpty()) table.allergens << u"None gained or lost among those stated."_s;
    QStringList unknown;
    for (const auto& column : values.columns)
        for (const auto& name : column.allergensUnknown)
            if (!unknown.contains(name)) unknown << name;
    if (!unknown.isEmpty()) table.allergens << u"Not stated: %1."_s.arg(joinedWithAnd(unknown));
}

} // namespace

QString perWord(history::Per per) {
    switch (per) {
    case history::Per::Serve:
        return u"per serve"_s;
    case history::Per::HundredMl:
        return u"per 100\u202fml"_s;
    case history::Per::StandardDrink:
        return u"per standard drink"_s;
    }
    return {};
}

SideTable sideTable(const SideBySideValues& values) {
    SideTable table;
    if (values.columns.empty() || values.base >= values.columns.size()) return table;
    addLines(table, values);
    addWords(table, values);
    addReadings(table, values);
    addFindings(table, values);
    addAllergens(table, values);
    return table;
}

QList<QStringList> sideRows(const SideBySideValues& values, const SideTable& table, bool onlyDifferences) {
    QStringList head{values.per == history::Per::Serve
                         ? values.drink
                         : QString(values.drink + u", "_s + perWord(values.per))};
    for (std::size_t column = 0; column < values.columns.size(); ++column) {
        head << values.columns[column].label << u"unit"_s;
        if (column != values.base) head << u"against %1"_s.arg(values.columns[values.base].label);
    }
    QList<QStringList> rows{head};
    for (const auto& row : table.rows) {
        if (onlyDifferences && !row.differs) continue;
        if (row.kind == SideRowKind::Heading) {
            QStringList cells{row.name};
            while (cells.size() < head.size())
                cells << QString();
            rows << cells;
            continue;
        }
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
