#include "core/spec/portion.h"

#include <cmath>
#include <limits>

namespace stillroom::spec {

using quantity::Amount;
using quantity::Dimension;
using quantity::Measure;
using quantity::Rational;

namespace {

__extension__ using Wide = __int128;

Measure measureOf(const Measured& measured) noexcept {
    return measured.measure.value_or(Measure::Piece);
}

// Parts of a plant that flavour and are not drunk by the millilitre.
bool isNegligible(Measure measure) noexcept {
    switch (measure) {
    case Measure::Leaf:
    case Measure::Sprig:
    case Measure::Slice:
    case Measure::Wedge:
    case Measure::Handful:
        return true;
    default:
        return false;
    }
}

const MeasureSize& sizeOf(Measure measure, const BoundLine& line, const Bindings::Data& data) noexcept {
    return line.stated ? *line.stated : data.sizes[static_cast<std::size_t>(measure)];
}

// Herbs and spices flavour; only weighed or poured by the spoon is there enough of them to be seen.
bool isSolid(const Measured& measured, double amount, const BoundLine& line, const Bindings::Data& data,
             double partMl) noexcept {
    const Measure measure = measureOf(measured);
    const bool handful = measure == Measure::Handful;
    if (line.cut || (isNegligible(measure) && !handful)) return false;
    if (!line.facts->flavouring) return true;
    if (handful || measured.amount.kind == Amount::Kind::None) return false;
    constexpr double kSeen = 6; // ml or g: more than a teaspoon; a choice, no source
    const MeasureSize& size = data.sizes[static_cast<std::size_t>(measure)];
    if (size.dimension == Dimension::Part) return amount * partMl > kSeen;
    return size.dimension != Dimension::Count && amount * size.size > kSeen;
}

Portion ofVolume(double ml, const PreparedFacts& facts) noexcept {
    if (!facts.dry) return {Sizing::Sized, ml, ml};
    if (facts.bulkGPerMl <= 0) return {Sizing::NoDensity, 0, 0};
    const double grams = ml * facts.bulkGPerMl;
    return {Sizing::Sized, grams, grams * facts.dissolvedMl};
}

Portion ofMass(double grams, const PreparedFacts& facts, std::uint8_t atLargest) noexcept {
    if (facts.dry) return {Sizing::Sized, grams, grams * facts.dissolvedMl};
    const double density = atLargest == 0 ? facts.densityGPerMl : facts.totals[atLargest].massG;
    const double ml = grams / density;
    return {Sizing::Sized, ml, ml};
}

Portion ofCount(double count, Measure measure, const BoundLine& line) noexcept {
    const bool cubes = measure == Measure::Cube;
    const double ml = cubes ? line.cubeMl : line.pieceMl;
    const double g = cubes ? line.cubeG : line.pieceG;
    if (line.facts->dry ? g > 0 : (ml <= 0 && g > 0)) return ofMass(count * g, *line.facts, 0);
    if (ml > 0) return ofVolume(count * ml, *line.facts);
    return {Sizing::NoSize, 0, 0};
}

std::int64_t halfEven(Wide numerator, Wide denominator) noexcept {
    const Wide whole = numerator / denominator;
    const Wide twice = 2 * (numerator - whole * denominator);
    const bool up = twice > denominator || (twice == denominator && whole % 2 != 0);
    return static_cast<std::int64_t>(whole + (up ? 1 : 0));
}

std::int64_t rounded(double millionths) noexcept {
    constexpr double kTop = 9e18;
    if (!(std::abs(millionths) < kTop)) return std::numeric_limits<std::int64_t>::max();
    return static_cast<std::int64_t>(std::nearbyint(millionths));
}

// As it is bought, for what is not drunk or whose share that is drunk nobody knows.
Portion asBought(const Measured& measured, double amount, const BoundLine& line,
                 const Bindings::Data& data) noexcept {
    const Measure measure = measureOf(measured);
    const PreparedFacts& facts = *line.facts;
    const MeasureSize& size = sizeOf(measure, line, data);
    if (isNegligible(measure) || !(amount >= 0)) return {Sizing::NoSize, 0, 0};
    if (size.dimension == Dimension::Mass && facts.dry && size.size > 0)
        return {Sizing::Sized, amount * size.size, 0};
    if (size.dimension == Dimension::Volume && size.size > 0) return ofVolume(amount * size.size, facts);
    if (size.dimension == Dimension::Count) return ofCount(amount, measure, line);
    return {Sizing::NoSize, 0, 0};
}

} // namespace

double amountOf(const Measured& measured, bool high) noexcept {
    const Rational& amount = high ? measured.amount.high : measured.amount.low;
    double value = amount.denominator() == 1 ? static_cast<double>(amount.numerator()) : amount.toDouble();
    if (measured.multiplier.numerator() != 1 || measured.multiplier.denominator() != 1)
        value *= measured.multiplier.toDouble();
    return value;
}

bool isPaidByGuess(const Line& line) noexcept {
    return line.role == Role::Garnish && line.poured.amount.kind == Amount::Kind::None &&
           !line.poured.measure;
}

Measured paidFor(const Line& line) {
    if (!isPaidByGuess(line)) return line.poured;
    Measured one = line.poured;
    one.amount = Amount::exact(1);
    one.measure = Measure::Piece;
    return one;
}

bool hasGarnishInWords(const Spec& spec) noexcept {
    const std::string& words = spec.garnish;
    return !words.empty() && words != "-" && words != "none" && words != "None";
}

bool isRanged(const Measured& measured, Qualifier qualifier) noexcept {
    if (measured.amount.kind == Amount::Kind::Range) return measured.amount.low != measured.amount.high;
    return qualifier == Qualifier::UpTo && measured.amount.kind == Amount::Kind::Exact;
}

Portion portionOf(const Measured& measured, double amount, const BoundLine& line, const Bindings::Data& data,
                  double partMl, std::uint8_t atLargest) noexcept {
    const PreparedFacts& facts = *line.facts;
    const Measure measure = measureOf(measured);
    if (line.ice) return {};
    if (facts.dry && !facts.soluble) {
        if (!isSolid(measured, amount, line, data, partMl)) return {};
        if (measured.amount.kind == Amount::Kind::None || !(amount >= 0)) return {Sizing::Unstated, 0, 0};
        return {amount > 0 ? Sizing::Solid : Sizing::Negligible, 0, 0};
    }
    if (isNegligible(measure)) return {};
    if (measured.amount.kind == Amount::Kind::None || !(amount >= 0)) return {Sizing::Unstated, 0, 0};
    const MeasureSize& size = sizeOf(measure, line, data);
    switch (size.dimension) {
    case Dimension::Volume:
        if (size.size <= 0) return {Sizing::NoSize, 0, 0};
        return ofVolume(amount * size.size, facts);
    case Dimension::Mass:
        if (size.size <= 0) return {Sizing::NoSize, 0, 0};
        return ofMass(amount * size.size, facts, atLargest);
    case Dimension::Part:
        return ofVolume(amount * partMl, facts);
    case Dimension::Count:
        break;
    }
    return ofCount(amount, measure, line);
}

Portion largestSolid(const Measured& measured, double amount, const BoundLine& line,
                     const Bindings::Data& data, double partMl) noexcept {
    constexpr double kPieceG = 300; // a large fruit
    const MeasureSize& size = data.sizes[static_cast<std::size_t>(measureOf(measured))];
    double each = 0; // g; a solid fills no more than water would
    if (size.dimension == Dimension::Part)
        each = partMl;
    else if (size.dimension != Dimension::Count)
        each = size.size;
    else
        each = line.pieceG;
    if (!(each > 0)) each = kPieceG;
    return {Sizing::Sized, amount * each, amount * each};
}

Portion largestPortion(Sizing sizing, double amount, const BoundLine& line, int serves) noexcept {
    constexpr double kPieceMl = 100;     // a small fruit
    constexpr double kUnstatedMl = 1000; // a serve
    constexpr double kUnstatedG = 500;
    double units = 0;
    switch (sizing) {
    case Sizing::Sized:
    case Sizing::Solid:
    case Sizing::Negligible:
        return {};
    case Sizing::NoSize:
    case Sizing::NoDensity:
        units = kPieceMl * std::max(amount, 1.0);
        break;
    case Sizing::Unstated:
        units = (line.facts->dry ? kUnstatedG : kUnstatedMl) * serves;
        break;
    }
    return {Sizing::Sized, units, line.facts->dry ? units * line.facts->dissolvedMl : units};
}

LineCost costOf(const Measured& measured, bool high, const Portion& portion, const BoundLine& line,
                const Bindings::Data& data) noexcept {
    const UnitPrice& price = line.price;
    if (price.unit == UnitPrice::Per::None) return {line.facts->plainWater ? Priced::Yes : Priced::No, 0};
    if (price.millionths == 0 && price.per > 0) return {Priced::Yes, 0}; // a by-product: however much
    if (measured.amount.kind == Amount::Kind::None) return {Priced::No, 0};

    const Measure measure = measureOf(measured);
    const MeasureSize& size = price.unit == UnitPrice::Per::Piece
                                  ? data.sizes[static_cast<std::size_t>(measure)]
                                  : sizeOf(measure, line, data);
    const Rational& amount = high ? measured.amount.high : measured.amount.low;
    const bool alike =
        price.per > 0 &&
        ((price.unit == UnitPrice::Per::Microlitre && size.dimension == Dimension::Volume && size.num > 0) ||
         (price.unit == UnitPrice::Per::Microgram && size.dimension == Dimension::Mass && size.num > 0) ||
         (price.unit == UnitPrice::Per::Piece && size.dimension == Dimension::Count &&
          !isNegligible(measure)));
    if (alike) {
        const bool counted = size.dimension == Dimension::Count;
        const std::int64_t sizeNum = counted ? 1 : size.num;
        const std::int64_t sizeDen = counted ? 1 : size.den;
        const double top = static_cast<double>(price.millionths) * static_cast<double>(amount.numerator()) *
                           static_cast<double>(measured.multiplier.numerator()) *
                           static_cast<double>(sizeNum);
        const double bottom = static_cast<double>(price.per) * static_cast<double>(amount.denominator()) *
                              static_cast<double>(measured.multiplier.denominator()) *
                              static_cast<double>(sizeDen);
        constexpr double kFits = 8e37; // half of what 128 bits hold
        if (top < kFits && bottom < kFits && top >= 0 && top / bottom < 9e18) {
            const Wide numerator =
                Wide{price.millionths} * amount.numerator() * measured.multiplier.numerator() * sizeNum;
            const Wide denominator =
                Wide{price.per} * amount.denominator() * measured.multiplier.denominator() * sizeDen;
            return {Priced::Yes, halfEven(numerator, denominator)};
        }
        return {Priced::Yes, rounded(top / bottom)};
    }
    const bool notDrunk = portion.sizing == Sizing::Negligible || portion.sizing == Sizing::Solid;
    const Portion bought =
        notDrunk && !line.ice ? asBought(measured, amountOf(measured, high), line, data) : portion;
    if (bought.sizing != Sizing::Sized) return {Priced::No, 0};
    const PreparedFacts& facts = *line.facts;
    double inPriced = bought.units; // as ml or g of the facts, turned into what the pack is sold by
    if (price.unit == UnitPrice::Per::Microlitre && facts.dry) {
        if (facts.bulkGPerMl <= 0) return {Priced::No, 0};
        inPriced /= facts.bulkGPerMl;
    } else if (price.unit == UnitPrice::Per::Microlitre) {
        if (size.dimension == Dimension::Mass && !facts.densityKnown) return {Priced::No, 0};
    } else if (price.unit == UnitPrice::Per::Microgram && !facts.dry) {
        if (!facts.densityKnown) return {Priced::No, 0};
        inPriced *= facts.densityGPerMl;
    } else if (price.unit == UnitPrice::Per::Piece) {
        const double perPiece = facts.dry ? line.pieceG : line.pieceMl;
        if (perPiece <= 0) return {Priced::No, 0};
        inPriced /= perPiece;
    }
    return {Priced::Yes, rounded(inPriced * price.major * 1e6)};
}

} // namespace stillroom::spec
