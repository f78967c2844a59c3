#include "core/exchange/line_draft.h"

#include "core/exchange/name_words.h"

#include "core/spec/thermal_words.h"

#include <algorithm>
#include <cmath>

namespace stillroom::exchange {

namespace {

using quantity::Amount;
using quantity::Measure;
using quantity::Rational;

// Two statements of one amount may round; beyond this share they disagree.
constexpr double kEquivalentSpread = 0.25;

double middle(const Amount& amount) {
    return (amount.low.toDouble() + amount.high.toDouble()) / 2.0;
}

class Settler {
  public:
    Settler(const TokenLine& line, LineDraft draft, const ReadOptions& options, ReadLine& out)
        : m_line(line),
          m_draft(std::move(draft)),
          m_options(options),
          m_out(out) {
        m_sense = senseOf(m_line, m_draft.nameFirst, m_draft.nameLast);
        if (m_sense.form == NameForm::Unknown && m_options.larder != nullptr && !m_draft.name.empty())
            m_sense.form = formInLarder(m_draft.name, *m_options.larder);
    }

    void settle() {
        m_out.kind = m_draft.garnish ? ReadKind::Garnish : ReadKind::Ingredient;
        if (m_draft.number && m_draft.number->refusal) {
            refuse();
            return;
        }
        if (m_draft.unreadable || m_draft.name.empty()) {
            unread();
            return;
        }
        takeDoubts();
        chooseMeasure();
        chooseAmount();
        checkEquivalents();
        chooseSize();
        chooseRole();
        fillLine();
        finish();
    }

  private:
    void refuse() {
        m_out.kind = ReadKind::Refused;
        m_out.doubts.push_back(*m_draft.number->refusal);
        m_out.line.name = m_draft.name;
        m_out.unsure = true;
    }

    void unread() {
        m_out.kind = ReadKind::Unread;
        m_out.doubts.push_back({DoubtCode::NumberUnclear, DoubtWeight::Ask, m_line.text()});
        m_out.line.name = m_line.text();
        m_out.unsure = true;
    }

    void ask(DoubtCode code, std::string detail) {
        m_out.doubts.push_back({code, DoubtWeight::Ask, std::move(detail)});
    }

    void takeDoubts() {
        for (Doubt& doubt : m_draft.doubts)
            m_out.doubts.push_back(std::move(doubt));
        if (m_draft.number)
            for (const Doubt& doubt : m_draft.number->doubts)
                m_out.doubts.push_back(doubt);
    }

    bool equivalentIs(std::initializer_list<UnitWord> words) const {
        return std::any_of(m_draft.equivalents.begin(), m_draft.equivalents.end(), [&](const Equivalent& e) {
            return std::find(words.begin(), words.end(), e.unit.word) != words.end();
        });
    }

    void chooseMeasure() {
        if (m_draft.unit && m_draft.unit->word == UnitWord::Ounce) {
            chooseOunce();
        } else if (m_draft.unit && m_draft.unit->word == UnitWord::Unsized) {
            chooseUnsized();
        } else if (m_draft.unit) {
            m_measure = measureOf(*m_draft.unit, false, m_options);
            if (m_draft.unit->guessed) ask(DoubtCode::MeasureGuessed, std::string(unitId(*m_measure)));
        } else if (m_draft.number && !m_draft.number->vague) {
            chooseForBareNumber();
        }
    }

    // Plain ounces: poured of a liquid, weighed of a food, asked of what could be either.
    void chooseOunce() {
        const bool saysMass = equivalentIs({UnitWord::G, UnitWord::Kg, UnitWord::Mg, UnitWord::Lb});
        const bool saysVolume = equivalentIs({UnitWord::Ml, UnitWord::Cl, UnitWord::Dl, UnitWord::L});
        const NameForm form = m_sense.form;
        const bool food =
            form == NameForm::Solid || (form == NameForm::Countable && !m_sense.pourable && !m_sense.citrus);
        const bool either =
            food || form == NameForm::Thick || (form == NameForm::Countable && m_sense.citrus);
        const bool solid = saysMass || (food && !saysVolume);
        m_measure = measureOf(*m_draft.unit, solid, m_options);
        if (saysMass || saysVolume || !either || m_draft.unit->system != UnitSystem::Unsaid) return;
        ask(DoubtCode::OunceOfSolid, m_draft.name);
        m_otherMeasures.push_back(measureOf(*m_draft.unit, !solid, m_options));
    }

    void chooseUnsized() {
        const std::size_t end = m_draft.unit->next;
        std::size_t first = end;
        while (first > 0 && first + 2 > end && m_line.at(first - 1).kind != TokenKind::Digits)
            --first;
        ask(DoubtCode::MeasureGuessed, m_line.slice(first, end));
        m_draft.note(m_line.slice(first, end));
    }

    // "2 limes" counts; "3/4 sherry" is a share of something unsaid; "2 gin" needs a word.
    void chooseForBareNumber() {
        const bool fraction = m_draft.number->amount.high < Rational(1);
        switch (m_sense.form) {
        case NameForm::Countable:
            m_measure = Measure::Piece;
            return;
        case NameForm::Liquid:
        case NameForm::Thick:
            ask(fraction ? DoubtCode::RatioBasisUnstated : DoubtCode::MeasureGuessed, m_draft.name);
            m_otherMeasures.push_back(Measure::Part);
            return;
        case NameForm::Solid:
        case NameForm::Unknown:
            m_measure = Measure::Piece;
            if (!m_sense.plural) ask(DoubtCode::MeasureGuessed, m_draft.name);
            return;
        }
    }

    void chooseAmount() {
        if (!m_draft.number || m_draft.number->vague) return;
        m_amount = m_draft.number->amount;
        chooseGrouping();
        chooseSlash();
    }

    // "1,000 ml" is a thousand (a comma and three figures with ml or g); elsewhere it is asked.
    void chooseGrouping() {
        const NumberRead& number = *m_draft.number;
        if (number.groupMark == GroupMark::None) return;
        const bool small = m_measure == Measure::Ml || m_measure == Measure::G || m_measure == Measure::Mg;
        const bool whole = !m_measure ||
                           quantity::measureInfo(*m_measure).dimension == quantity::Dimension::Count ||
                           quantity::measureInfo(*m_measure).house;
        const bool comma = number.groupMark == GroupMark::Comma;
        if (comma && small) {
            m_amount = Amount::exact(number.grouped);
            m_out.doubts.push_back({DoubtCode::CommaAmbiguous, DoubtWeight::Note, number.grouped.text()});
            return;
        }
        if (!comma && !small && !whole) {
            m_amount = Amount::exact(number.decimal);
            return;
        }
        m_amount = Amount::exact(whole ? number.grouped : number.decimal);
        m_otherAmounts.push_back(Amount::exact(whole ? number.decimal : number.grouped));
        ask(DoubtCode::CommaAmbiguous, m_amount.low.text());
    }

    // "6/8 mint leaves" is six to eight; "2/3 dashes" may be.
    void chooseSlash() {
        const NumberRead& number = *m_draft.number;
        if (!number.slash) return;
        const auto [a, b] = *number.slash;
        const bool counted =
            m_measure && (!m_draft.unit || isCounted(m_draft.unit->word)) && *m_measure != Measure::Part;
        const bool close = b > a && b - a <= 2;
        if (a > b) ask(DoubtCode::RangeOrFraction, std::to_string(a) + "/" + std::to_string(b));
        if (!counted || !close) return;
        const bool plural = m_draft.unit ? m_draft.unit->plural : m_sense.plural;
        const Amount range = Amount::range(Rational(a), Rational(b));
        if (a >= 5 && b >= 5) {
            m_otherAmounts.push_back(m_amount);
            m_amount = range;
        } else if (plural || a > 1) {
            if (!plural && m_measure == Measure::Piece) return; // "3/4 lemon"
            m_otherAmounts.push_back(range);
        } else {
            return;
        }
        ask(DoubtCode::RangeOrFraction, std::to_string(a) + "/" + std::to_string(b));
    }

    static std::optional<double> sizeOf(const std::optional<Measure>& measure, bool volume) {
        if (!measure) return std::nullopt;
        const auto& info = quantity::measureInfo(*measure);
        const auto& exact = volume ? info.exactMicrolitres : info.exactMicrograms;
        return exact ? std::optional(exact->toDouble()) : std::nullopt;
    }

    void checkEquivalents() {
        if (!m_amount.isStated()) return;
        for (const Equivalent& e : m_draft.equivalents) {
            if (!e.amount.isStated()) continue;
            for (const bool volume : {true, false}) {
                const auto own = sizeOf(m_measure, volume);
                const auto other = sizeOf(measureOf(e.unit, !volume, m_options), volume);
                if (!own || !other || *own * middle(m_amount) <= 0) continue;
                const double share = *other * middle(e.amount) / (*own * middle(m_amount)) - 1.0;
                if (std::abs(share) > kEquivalentSpread) ask(DoubtCode::NumberUnclear, m_line.text());
            }
        }
    }

    // What one can, shot or barspoon holds, when the line says it. A bracket after several shots states them
    // all ("2 dashes (2 ml)"); after cans and bottles it states one.
    void chooseSize() {
        if (!m_amount.isStated() || !m_measure) return;
        const auto& own = quantity::measureInfo(*m_measure);
        if (own.exactMicrolitres || own.exactMicrograms || own.dimension == quantity::Dimension::Part) return;
        const bool container = m_draft.unit && isContainer(m_draft.unit->word);
        if (m_draft.eachHolds) {
            takeSize(*m_draft.eachHolds, Rational(1));
        } else if (!m_draft.equivalents.empty()) {
            const bool one = container || m_amount == Amount::exact(Rational(1));
            if (one)
                takeSize(m_draft.equivalents.front(), Rational(1));
            else if (m_amount.kind == Amount::Kind::Exact)
                takeSize(m_draft.equivalents.front(), m_amount.low);
        }
    }

    void takeSize(const Equivalent& holds, const Rational& among) {
        if (holds.amount.kind != Amount::Kind::Exact) return;
        const auto measure = measureOf(holds.unit, m_sense.form == NameForm::Solid, m_options);
        if (!measure) return;
        const bool volume = sizeOf(measure, true).has_value();
        // the weight of a fruit is not the weight of its juice
        if (!volume && (m_draft.juiceOf || !sizeOf(measure, false))) return;
        if (const auto each = holds.amount.low.over(among))
            m_out.line.sizeStated = spec::Measured{Amount::exact(*each), measure, 1};
    }

    void chooseRole() {
        if (m_draft.roleWord.empty()) return;
        if (m_draft.number || m_draft.unit) {
            const bool said =
                std::any_of(m_draft.notes.begin(), m_draft.notes.end(), [&](const std::string& n) {
                    return n.find(m_draft.roleWord) != std::string::npos;
                });
            if (!said) m_draft.note(m_draft.roleWord);
        } else {
            m_out.unit = m_draft.roleWord;
        }
    }

    std::string joinedNotes() const {
        std::string all;
        for (const std::string& note : m_draft.notes) {
            if (!all.empty()) all += "; ";
            all += note;
        }
        return all;
    }

    void fillLine() {
        spec::Line& line = m_out.line;
        line.name = m_draft.name;
        line.poured = {m_amount, m_measure, m_draft.multiplier};
        line.qualifier = m_draft.qualifier;
        line.juiceOf = m_draft.juiceOf;
        line.optional = m_draft.optional;
        line.toTaste = m_draft.toTaste;
        line.alternatives = m_draft.alternatives;
        line.role = m_draft.garnish ? spec::Role::Garnish : m_draft.role;
        line.note = joinedNotes();
        line.temperatureC = temperatureIn(line.name);
        if (!line.temperatureC) line.temperatureC = temperatureIn(line.note);
        if (m_measure) m_out.unit = unitId(*m_measure);
    }

    // "90 C"; a small figure without its sign may be cups.
    static std::optional<double> temperatureIn(const std::string& text) {
        constexpr double kMostCups = 20;
        const auto celsius = spec::celsiusWritten(text);
        const bool isSigned = text.find("\u00b0") != std::string::npos;
        return celsius && (isSigned || *celsius > kMostCups) ? celsius : std::nullopt;
    }

    void finish() {
        m_out.unsure = std::any_of(m_out.doubts.begin(), m_out.doubts.end(),
                                   [](const Doubt& d) { return d.weight == DoubtWeight::Ask; });
        for (const auto& measure : m_otherMeasures) {
            spec::Line other = m_out.line;
            other.poured.measure = measure;
            m_out.otherReadings.push_back(std::move(other));
        }
        for (const Amount& amount : m_otherAmounts) {
            spec::Line other = m_out.line;
            other.poured.amount = amount;
            m_out.otherReadings.push_back(std::move(other));
        }
        if (m_draft.juiceOf && m_measure == Measure::Piece && m_out.unsure && m_draft.number->slash) {
            spec::Line other = m_out.line; // "1/2 lime juice" as a share of lime juice
            other.name = m_draft.name + " juice";
            other.juiceOf = false;
            other.poured.measure.reset();
            m_out.otherReadings.push_back(std::move(other));
        }
    }

    const TokenLine& m_line;
    LineDraft m_draft;
    const ReadOptions& m_options;
    ReadLine& m_out;
    NameSense m_sense;
    std::optional<Measure> m_measure;
    Amount m_amount;
    std::vector<std::optional<Measure>> m_otherMeasures;
    std::vector<Amount> m_otherAmounts;
};

} // namespace

void settle(const TokenLine& line, LineDraft draft, const ReadOptions& options, ReadLine& out) {
    Settler(line, std::move(draft), options, out).settle();
}

} // namespace stillroom::exchange
