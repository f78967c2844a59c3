#include "ui/models/sheet_row.h"

#include "core/base/text.h"
#include "core/spec/contribution_total.h"
#include "ui/text/amounts.h"
#include "ui/text/border.h"
#include "ui/text/difference_text.h"
#include "ui/text/revision_label.h"
#include "ui/text/words.h"

#include <QCoreApplication>

#include <algorithm>

namespace stillroom::ui {

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("Sheet", text);
}

// In a column of sums a plain nought reads faster than "0.00", and a cell that a line cannot fill is empty.
ReadingText columnText(const spec::Reading& reading, int decimals) {
    ReadingText text = readingText(reading, decimals);
    if (reading.bound == spec::Bound::NotApplicable) text.number.clear();
    if (reading.bound == spec::Bound::Exact && reading.value == 0) {
        text.sign.clear();
        text.number = number(0, 0);
    }
    // "At least nothing" says nothing.
    if (reading.bound == spec::Bound::AtLeast && reading.value == 0) {
        text.sign.clear();
        text.number = QStringLiteral("?");
    }
    return text;
}

QString strengthHint(const larder::FactState& facts) {
    // What matters most about it: its strength, else its acid, else its sugar. Below these it says nothing.
    if (facts.abvPercent && facts.abvPercent->typical >= 0.5)
        return trimmedNumber(facts.abvPercent->typical, 1) + kNarrowSpace + QLatin1Char('%');
    if (facts.dry) return {};
    if (facts.acidGPerL && facts.acidGPerL->typical >= 10)
        return say("%1 % acid").arg(trimmedNumber(facts.acidGPerL->typical / 10.0, 1));
    if (facts.sugarGPerL && facts.sugarGPerL->typical >= 100)
        return say("%1 g/l sugar").arg(number(facts.sugarGPerL->typical, 0));
    return {};
}

QString hintOf(const spec::Line& line, const larder::Ingredient* poured) {
    if (poured == nullptr) return say("new to this book");
    const QString facts = strengthHint(poured->facts);
    // Only what the larder's name adds: "lemon juice" taken for "Lemon juice, fresh" adds "fresh".
    const auto written = base::foldedWords(line.name);
    QStringList added;
    for (const auto& word : fromCore(poured->name).split(QLatin1Char(' '), Qt::SkipEmptyParts)) {
        QString bare = word; // "Gin, London dry" says "gin"
        while (bare.endsWith(QLatin1Char(',')))
            bare.chop(1);
        const auto folded = base::foldedWords(toCore(bare));
        const bool said = std::all_of(folded.begin(), folded.end(), [&](const std::string& part) {
            return std::find(written.begin(), written.end(), part) != written.end();
        });
        // The strength stands among the facts.
        const bool strength = !bare.isEmpty() && (bare.front().isDigit() || bare == QStringLiteral("%"));
        if (!said && !strength) added << word;
    }
    QString name = added.join(QLatin1Char(' '));
    while (name.endsWith(QLatin1Char(',')))
        name.chop(1);
    if (name.isEmpty()) return facts;
    return facts.isEmpty() ? name : QString(name + QStringLiteral(", ") + facts);
}

bool isOpen(const spec::Reading& reading) {
    return reading.bound != spec::Bound::Exact && reading.bound != spec::Bound::NotApplicable;
}

MarginNote amountNote(const spec::Measured& before, const spec::Measured& now) {
    MarginNote note;
    note.struck = before.measure == now.measure ? amountNumber(before) : amountForEditing(before);
    if (note.struck.isEmpty()) note.struck = kEmDash;
    if (before.measure != now.measure || before.amount.kind != quantity::Amount::Kind::Exact ||
        now.amount.kind != quantity::Amount::Kind::Exact || before.multiplier != now.multiplier)
        return note;
    const auto difference = now.amount.low.minus(before.amount.low);
    if (!difference) return note;
    note.direction = difference->isNegative() ? -1 : 1;
    const auto magnitude = difference->isNegative() ? quantity::Rational(0).minus(*difference) : difference;
    spec::Measured shown = now;
    shown.multiplier = 1;
    shown.amount = quantity::Amount::exact(magnitude.value_or(quantity::Rational(0)));
    note.difference = (note.direction < 0 ? QString(kMinus) : QStringLiteral("+")) + amountNumber(shown);
    return note;
}

MarginNote marginOf(std::size_t line, const DraftReading& now, const std::optional<history::Revision>& base) {
    if (!base) return {};
    for (const auto& row : now.difference.lines) {
        if (row.b != static_cast<int>(line)) continue;
        if (row.added) return {{}, say("new"), 0};
        if (row.a < 0 || static_cast<std::size_t>(row.a) >= base->spec.lines.size()) return {};
        const auto& was = base->spec.lines[static_cast<std::size_t>(row.a)];
        if (row.amount) return amountNote(was.poured, now.spec.lines[line].poured);
        if (row.renamed) return {fromCore(was.name), {}, 0};
        if (row.moved) return {{}, say("moved"), 0};
        return {};
    }
    return {};
}

} // namespace

QString SheetRow::inWords() const {
    QString words = amount;
    if (!unit.isEmpty()) words += QLatin1Char(' ') + unit;
    words += QLatin1Char(' ') + name;
    if (!hint.isEmpty()) words += QStringLiteral(", ") + hint;
    if (role != spec::Role::Mixed) words += QStringLiteral(", ") + roleName(role);
    return words.trimmed();
}

std::vector<SheetRow> sheetRows(const DraftReading& now, const spec::Bindings& bindings,
                                const std::optional<history::Revision>& base) {
    std::vector<SheetRow> rows(now.spec.lines.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const auto& line = now.spec.lines[i];
        auto& row = rows[i];
        row.role = line.role;
        row.firstOfRole = i == 0 || now.spec.lines[i - 1].role != line.role;
        row.optional = line.optional;
        row.amount = amountNumber(line.poured);
        row.unit = amountUnit(line.poured);
        row.name = fromCore(line.name);
        row.hint = hintOf(line, bindings.poured(i));
        if (line.optional)
            row.hint = row.hint.isEmpty() ? say("optional") : QString(say("optional, ") + row.hint);
        if (i < now.contributions.size()) {
            const auto& brings = now.contributions[i];
            row.alcohol = columnText(brings.ethanolMl, 1);
            row.sugar = columnText(brings.sugarG, 1);
            row.acid = columnText(brings.acidG, 2);
            row.cost = columnText(brings.costMajor, 2);
            row.gap = isOpen(brings.ethanolMl) || isOpen(brings.sugarG) || isOpen(brings.acidG);
        }
        row.margin = marginOf(i, now, base);
    }
    return rows;
}

SheetTotal sheetTotal(const DraftReading& now, const std::optional<history::Revision>& base,
                      history::DrinkForm form) {
    SheetTotal total;
    const auto sum = spec::total(now.contributions);
    total.alcohol = columnText(sum.ethanolMl, 1);
    total.sugar = columnText(sum.sugarG, 1);
    total.acid = columnText(sum.acidG, 2);
    total.cost = columnText(sum.costMajor, 2);
    const auto poured = sum.volumeMl;
    total.poured = readingText(poured, 1).plain();
    total.unit = QStringLiteral("ml");
    total.words = say("poured");
    if (now.made) {
        const double put = now.made->process.put.totalGrams();
        total.poured = trimmedNumber(put, put < 100 ? 1 : 0);
        total.unit = QStringLiteral("g");
        const bool later = std::any_of(now.spec.lines.begin(), now.spec.lines.end(),
                                       [](const spec::Line& line) { return line.beforeStep > 0; });
        total.words = later ? say("goes in, all steps together") : say("in the pan");
    }
    spec::Reading floated;
    floated.bound = spec::Bound::NotApplicable;
    for (std::size_t i = 0; i < now.contributions.size() && i < now.spec.lines.size(); ++i)
        if (now.spec.lines[i].role == spec::Role::Floated)
            floated = spec::sumOf(floated, now.contributions[i].volumeMl);
    if (floated.bound == spec::Bound::Exact)
        total.words = say("poured, %1 of it floated").arg(trimmedNumber(floated.value, 1));
    if (!base) return total;
    const auto served = [](const spec::Readings& readings) {
        return readings[spec::Stage::Served][spec::Quantity::PouredVolume];
    };
    if (const auto difference =
            differenceText(served(base->readings), served(now.readings), spec::Quantity::PouredVolume);
        difference.moved && !now.made) {
        total.difference = difference.text;
        total.direction = difference.direction;
    }
    QStringList gone;
    for (const auto& row : now.difference.lines)
        if (row.removed && row.a >= 0 && static_cast<std::size_t>(row.a) < base->spec.lines.size())
            gone << lineInWords(base->spec.lines[static_cast<std::size_t>(row.a)]);
    if (!gone.isEmpty())
        total.takenOut = say("Taken out since %1: %2.")
                             .arg(revisionLabel(form, base->number), gone.join(QStringLiteral("; ")));
    return total;
}

} // namespace stillroom::ui
