#include "core/exchange/line_draft.h"

#include "core/exchange/name_words.h"

namespace stillroom::exchange {

namespace {

using quantity::Dimension;

// Beyond these a figure is kept, but somebody should look: common sense, no source.
constexpr double kMostMl = 1e6;    // a tonne of liquid
constexpr double kLeastMl = 0.01;  // a fifth of a drop
constexpr double kMostGrams = 1e6; // a tonne
constexpr double kSlip = 1e9;      // ml or g, as of packs and pots: a slip of the pen
constexpr double kLeastGrams = 0.0005;
constexpr double kMostCounted = 5000; // dashes, leaves, pieces
constexpr double kMostBittersMl = 14; // half an ounce of bitters is already rare
constexpr double kMostBittersDashes = 12;
constexpr double kMostHerbGrams = 50; // a large bunch of mint
constexpr double kMostHerbLeaves = 60;

bool aboutStrength(const TokenLine& line, std::size_t first, std::size_t last) {
    for (std::size_t i = first; i < last; ++i)
        if (line.at(i).isWord("abv") || line.at(i).isWord("vol") || line.at(i).isWord("alc") ||
            line.at(i).isWord("alcohol") || line.at(i).isWord("alkohol"))
            return true;
    return false;
}

// "at 140% ABV": no liquid is stronger than pure alcohol.
bool strengthImpossible(const TokenLine& line, std::size_t first, std::size_t last, bool strong) {
    for (std::size_t i = first; i < last; ++i) {
        if (line.at(i).kind != TokenKind::Digits) continue;
        const auto number = readNumber(line, i);
        if (!number || number->refusal || number->next > last) continue;
        const Token& after = line.at(number->next);
        const double value = number->amount.high.toDouble();
        if ((after.isMark("%") || after.isWord("percent")) && value > 100 &&
            (strong || aboutStrength(line, first, last)))
            return true;
        const Token& word = line.at(after.isMark("-") ? number->next + 1 : number->next);
        if (word.isWord("proof") && value > 200) return true;
    }
    return false;
}

class Judge {
  public:
    Judge(const NameSense& sense, std::string written, ReadLine& out)
        : m_sense(sense),
          m_written(std::move(written)),
          m_out(out) {}

    void run() {
        const spec::Measured& poured = m_out.line.poured;
        if (!poured.amount.isStated()) return;
        m_value = poured.amount.high.toDouble() * poured.multiplier.toDouble();
        if (m_value == 0) {
            warn(DoubtCode::TooSmall);
            return;
        }
        if (!poured.measure) return;
        const auto& info = quantity::measureInfo(*poured.measure);
        if (info.exactMicrolitres)
            judgeMl(m_value * info.exactMicrolitres->toDouble() / 1e3);
        else if (info.exactMicrograms)
            judgeGrams(m_value * info.exactMicrograms->toDouble() / 1e6);
        else
            judgeCount(*poured.measure);
    }

  private:
    void warn(DoubtCode code) { m_out.doubts.push_back({code, DoubtWeight::Warn, m_out.line.name}); }

    // Kept as written, and nothing takes it without asking.
    void askWhether() {
        m_out.unsure = true;
        m_out.doubts.push_back({DoubtCode::TooLarge, DoubtWeight::Ask, m_written});
    }

    void judgeMl(double ml) {
        if (ml >= kSlip) return askWhether();
        if (ml > kMostMl) warn(DoubtCode::TooLarge);
        if (ml < kLeastMl) warn(DoubtCode::TooSmall);
        if ((m_sense.bitters && ml > kMostBittersMl && ml < kMostMl)) warn(DoubtCode::AmountAbsurd);
    }

    void judgeGrams(double grams) {
        if (grams >= kSlip) return askWhether();
        if (grams > kMostGrams) warn(DoubtCode::TooLarge);
        if (grams < kLeastGrams) warn(DoubtCode::TooSmall);
        if (m_sense.herb && grams > kMostHerbGrams) warn(DoubtCode::AmountAbsurd);
    }

    void judgeCount(quantity::Measure measure) {
        if (m_value > kMostCounted) warn(DoubtCode::TooLarge);
        const bool dashes = measure == quantity::Measure::Dash && m_sense.bitters;
        const bool leaves = measure == quantity::Measure::Leaf && m_sense.herb;
        if ((dashes && m_value > kMostBittersDashes) || (leaves && m_value > kMostHerbLeaves))
            warn(DoubtCode::AmountAbsurd);
    }

    const NameSense& m_sense;
    std::string m_written;
    ReadLine& m_out;
    double m_value = 0;
};

} // namespace

void judgePlausibility(const TokenLine& line, std::size_t first, std::size_t last, ReadLine& out) {
    if (out.kind != ReadKind::Ingredient && out.kind != ReadKind::Garnish) return;
    const NameSense sense = senseOf(out.line.name);
    if (strengthImpossible(line, first, last, sense.strong)) {
        out.kind = ReadKind::Refused;
        out.unsure = true;
        out.doubts.push_back({DoubtCode::StrengthAbove100, DoubtWeight::Refuse, line.slice(first, last)});
        out.line.poured = {};
        out.unit.clear();
        return;
    }
    Judge(sense, line.slice(first, last), out).run();
}

} // namespace stillroom::exchange
