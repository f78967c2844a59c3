#include "core/spec/scenario.h"

#include "core/physics/dilution.h"
#include "core/physics/ethanol_water.h"
#include "core/spec/heat_parts.h"
#include "core/spec/method_water.h"

#include <algorithm>
#include <iterator>
#include <string_view>

namespace stillroom::spec {

using quantity::Amount;
using quantity::Measure;
using quantity::Strength;

namespace {

// What parts of an unknown size are weighed against, a serve.
constexpr double kNominalServeMl = 90;

std::uint64_t bitOf(std::size_t line) noexcept {
    return std::uint64_t{1} << std::min<std::size_t>(line, 63);
}

bool isLeftOut(const Line& line) noexcept {
    return line.optional || line.toTaste;
}

// Nobody says how much stays in the glass, so the house does.
bool isRinseByTheHouse(const Line& line) noexcept {
    return line.role == Role::Rinse && !line.retained;
}

// The ends of ranges that this scenario has chosen, asked line by line in order.
class Ends {
  public:
    explicit Ends(const Scenario& scenario) : m_bits(scenario.rangesHigh) {}
    struct End {
        bool high = false;
        bool none = false; // "up to": the low end is nothing
    };
    End of(const Measured& measured, Qualifier qualifier) noexcept {
        if (!isRanged(measured, qualifier)) return {true, false};
        const bool high = (m_bits >> std::min(m_seen, kCornerLines) & 1U) != 0;
        ++m_seen;
        return {high, !high && qualifier == Qualifier::UpTo};
    }
    int seen() const { return m_seen; }

  private:
    std::uint32_t m_bits;
    int m_seen = 0;
};

double endAmount(const Measured& measured, Ends::End end) noexcept {
    return end.none ? 0.0 : amountOf(measured, end.high);
}

// The ml of one part of the whole spec.
double partSize(const Spec& spec, const Scenario& scenario, int serves, Questions& questions) noexcept {
    Ends ends(scenario);
    double parts = 0;
    for (const Line& line : spec.lines) {
        if (isLeftOut(line) || line.role == Role::Garnish) continue;
        const auto end = ends.of(line.poured, line.qualifier);
        if (line.poured.measure == Measure::Part && line.poured.amount.isStated())
            parts += endAmount(line.poured, end);
        if (line.retained) ends.of(*line.retained, line.qualifier);
    }
    if (!(parts > 0)) return 0;
    questions.partsWithoutTarget = !(spec.partTargetMl && *spec.partTargetMl > 0);
    const double target = questions.partsWithoutTarget ? kNominalServeMl : *spec.partTargetMl;
    return target * serves / parts;
}

bool usesParts(const Spec& spec) noexcept {
    return std::any_of(spec.lines.begin(), spec.lines.end(),
                       [](const Line& line) { return line.poured.measure == Measure::Part; });
}

struct Counted {
    Portion portion;
    std::uint8_t atLargest = 0;
    bool open = false;  // its amount is not known
    bool solid = false; // its amount is, but not how much of it is drunk
};

class LinePass {
  public:
    LinePass(const Spec& spec, const Bindings::Data& data, const Scenario& scenario, Pass& out,
             LineListener* listener, HeatParts* parts)
        : m_method(spec.method),
          m_parts(parts),
          m_data(data),
          m_scenario(scenario),
          m_out(out),
          m_listener(listener),
          m_ends(scenario),
          m_serves(std::max(spec.serves, 1)) {
        if (usesParts(spec)) m_partMl = partSize(spec, scenario, m_serves, out.questions);
        for (std::size_t i = 0; i < spec.lines.size(); ++i)
            if (!isLeftOut(spec.lines[i])) add(spec.lines[i], i);
        out.questions.ranged = m_ends.seen();
    }

    StageSums mixed, later;
    bool assumedTemperature = false; // of a part

  private:
    const BoundLine& boundLine(std::size_t i) const noexcept {
        static const BoundLine unbound = [] {
            BoundLine line;
            line.facts = &nothingKnown();
            return line;
        }();
        return i < m_data.lines.size() ? m_data.lines[i] : unbound;
    }

    Counted counted(const Measured& measured, Ends::End end, const BoundLine& bound) const noexcept {
        Counted c;
        c.atLargest = static_cast<std::uint8_t>(bound.facts->unknown & m_scenario.factsAtLargest);
        const double amount = endAmount(measured, end);
        c.portion = portionOf(measured, amount, bound, m_data, m_partMl, c.atLargest);
        c.open = c.portion.sizing != Sizing::Sized && c.portion.sizing != Sizing::Negligible;
        if (!c.open) return c;
        // A counted piece nobody knows the size of is solid: it brings no alcohol.
        if (c.portion.sizing == Sizing::NoSize)
            c.atLargest = static_cast<std::uint8_t>(c.atLargest & ~kStrengthFact);
        c.solid = c.portion.sizing == Sizing::Solid;
        if (m_scenario.unstatedLarge && c.solid)
            c.portion = largestSolid(measured, amount, bound, m_data, m_partMl);
        else if (m_scenario.unstatedLarge)
            c.portion = largestPortion(c.portion.sizing, amount, bound, m_serves);
        return c;
    }

    // Of a rinse that says nothing else, what the house finds stays in the glass.
    Counted rinseRemains(const Counted& poured, const BoundLine& bound) const noexcept {
        Counted stays = poured;
        if (bound.facts->dry) return stays;
        stays.open = false;
        const bool less = poured.portion.sizing == Sizing::Sized && !poured.open &&
                          poured.portion.units < m_data.rinseRetainedMl;
        if (!less) stays.portion = {Sizing::Sized, m_data.rinseRetainedMl, m_data.rinseRetainedMl};
        return stays;
    }

    void add(const Line& line, std::size_t i) {
        const BoundLine& bound = boundLine(i);
        const auto end =
            line.role == Role::Garnish ? Ends::End{true, false} : m_ends.of(line.poured, line.qualifier);
        const Counted poured = counted(line.poured, end, bound);
        if (line.role == Role::Garnish) {
            payGarnish(line, i, poured, end.none, bound);
            return;
        }
        const LineCost cost = costOf(line.poured, end.high, poured.portion, bound, m_data);
        const std::int64_t millionths = end.none ? 0 : cost.millionths;
        Counted stays = poured;
        if (line.retained)
            stays = counted(*line.retained, m_ends.of(*line.retained, line.qualifier), bound);
        else if (isRinseByTheHouse(line))
            stays = rinseRemains(poured, bound);
        const bool isMixed = line.role == Role::Mixed;
        StageSums& sums = isMixed ? mixed : later;
        sums.totals.addScaled(bound.facts->totals[stays.atLargest], stays.portion.units);
        if (m_listener != nullptr) m_listener->stays(i, stays.portion.units);
        if (m_parts != nullptr && isMixed) addPart(line, bound, stays);
        const bool asTheHouseFinds = isRinseByTheHouse(line) && poured.open && !stays.open;
        if (asTheHouseFinds)
            sums.pouredMl += stays.portion.pouredMl;
        else if (!poured.open)
            sums.pouredMl += poured.portion.pouredMl;
        else if (m_scenario.unstatedLarge)
            sums.pouredMl += poured.portion.pouredMl;
        if (!poured.open || poured.solid) {
            sums.costMillionths += millionths;
            if (m_listener != nullptr) m_listener->pours(i, poured.portion.pouredMl, millionths);
        }
        ask(line, i, poured, stays, cost, bound, isMixed);
    }

    // Not in the drink, and paid for all the same.
    void payGarnish(const Line& line, std::size_t i, const Counted& poured, bool none,
                    const BoundLine& bound) {
        if (bound.ice) return;
        const bool guessed = isPaidByGuess(line);
        const LineCost cost = guessed ? costOf(paidFor(line), true, {Sizing::NoSize, 0, 0}, bound, m_data)
                                      : costOf(line.poured, true, poured.portion, bound, m_data);
        Questions& q = m_out.questions;
        if (cost.priced != Priced::Yes) {
            q.all.price |= bitOf(i);
            return;
        }
        const std::int64_t millionths = none ? 0 : cost.millionths;
        later.costMillionths += millionths;
        if (m_listener != nullptr) m_listener->pours(i, 0, millionths);
        q.pricedAll |= bound.price.unit != UnitPrice::Per::None;
        q.guessedCost |= guessed && millionths > 0;
    }

    void addPart(const Line& line, const BoundLine& bound, const Counted& stays) noexcept {
        const LineTemperature t = lineTemperature(line, m_method, bound);
        assumedTemperature |= t.assumed;
        if (stays.atLargest == 0)
            m_parts->add(bound.facts->perUnit, stays.portion.units, t.celsius);
        else
            m_parts->add(unitComposition(*bound.facts, stays.atLargest), stays.portion.units, t.celsius);
    }

    void ask(const Line& line, std::size_t i, const Counted& poured, const Counted& stays,
             const LineCost& cost, const BoundLine& bound, bool isMixed) noexcept {
        Questions& q = m_out.questions;
        const std::uint64_t bit = bitOf(i);
        OpenLines open;
        const bool inDrink = stays.open || stays.portion.units > 0;
        if (inDrink) {
            const std::uint8_t unknown = bound.facts->unknown;
            q.unknownFacts |= unknown;
            if ((unknown & kStrengthFact) != 0) open.strength = bit;
            if ((unknown & kSugarFact) != 0) open.sugar = bit;
            if ((unknown & kAcidFact) != 0) open.acid = bit;
        }
        if (stays.open) open.amount = bit;
        const bool negligible = poured.portion.sizing == Sizing::Negligible;
        const bool inCost = poured.open || poured.portion.units > 0;
        // A leaf or a stick is in no sum of the drink, and was paid for.
        const bool paidFor = inCost || (negligible && !bound.ice);
        if (paidFor && (cost.priced != Priced::Yes || (poured.open && !poured.solid)) &&
            !bound.facts->plainWater)
            open.price = bit;
        if (inCost && !negligible && bound.price.atLeast) open.price = bit;
        // A rinse without an amount: the drink knows what stays, the till does not know what was poured.
        const bool priced = cost.priced == Priced::Yes && bound.price.unit != UnitPrice::Per::None;
        const bool byTheHouse = isRinseByTheHouse(line) && poured.open && !stays.open;
        const bool assumed = (bound.facts->assumed || byTheHouse) && inDrink;
        q.measuredBesideParts |=
            m_partMl > 0 && inDrink && line.poured.measure != Measure::Part && stays.portion.units > 0;
        const auto note = [&](OpenLines& lines, bool& assumedHere, bool& pricedHere, bool& countedHere) {
            lines.strength |= open.strength;
            lines.sugar |= open.sugar;
            lines.acid |= open.acid;
            lines.price |= open.price;
            lines.amount |= open.amount;
            assumedHere |= assumed;
            pricedHere |= priced;
            countedHere |= inCost && !negligible;
        };
        note(q.all, q.assumedAll, q.pricedAll, q.countedAll);
        if (isMixed) note(q.mixed, q.assumedMixed, q.pricedMixed, q.countedMixed);
    }

    const Method& m_method;
    HeatParts* m_parts; // nullptr: no heat balance is asked for
    const Bindings::Data& m_data;
    const Scenario& m_scenario;
    Pass& m_out;
    LineListener* m_listener;
    Ends m_ends;
    int m_serves;
    double m_partMl = 0;
};

Strength strengthOf(const Totals& totals, double ml) noexcept {
    if (!(ml > 0)) return {};
    return Strength::fromFraction(totals.ethanolG * 1000 / physics::kEthanolKgPerM3At20 / ml);
}

} // namespace

double predictedDilution(const Spec& spec, Strength before) noexcept {
    Questions unused;
    if (isStated(spec.method)) return spec.method.dilution->ratio;
    return predictedWater(spec, before, {}, unused).ratio;
}

Pass pass(const Spec& spec, const Bindings::Data& data, const Scenario& scenario) noexcept {
    return pass(spec, data, scenario, nullptr);
}

namespace {

void addWater(const Water& water, Pass& out) noexcept {
    StageSums& mixed = out.stages[1];
    out.dilution = water.ratio;
    out.waterApplies = water.applies;
    out.waterEstimate = water.estimate;
    out.waterBasis = water.basis;
    out.chilledC = water.chilledC;
    out.allIceG = water.allIceG;
    if (!(water.ratio > 0)) return;
    const double grams =
        physics::waterFromDilution(water.ratio, quantity::Volume::fromMl(out.volumeMl[0])).grams();
    mixed.totals.waterG += grams;
    mixed.totals.massG += grams;
    out.volumeMl[1] = volumeMl(mixed.totals);
}

// What this bench measured against the same prediction moves it.
void calibrate(Water& water, const Method& method, const Bindings::Data& data, Pass& out) noexcept {
    const bool predicted = water.basis == WaterBasis::Curve || water.basis == WaterBasis::Fixed ||
                           water.basis == WaterBasis::Balance;
    if (!predicted || !data.rules->bench) return;
    const physics::Calibration& bench = data.rules->bench->of(method.technique);
    if (bench.measurements == 0 || !(bench.factor > 0)) return;
    out.calibrated = true;
    out.benchFactor = bench.factor;
    water.ratio *= bench.factor;
}

} // namespace

Pass pass(const Spec& spec, const Bindings::Data& data, const Scenario& scenario, LineListener* listener) {
    Pass out;
    const Method& method = spec.method;
    const bool stated = isStated(method);
    const bool balance = method.dilutionModel == DilutionModel::Balance && !stated && meetsIce(spec);
    std::optional<HeatParts> parts;
    if (balance) parts.emplace();
    const LinePass lines(spec, data, scenario, out, listener, parts ? &*parts : nullptr);

    StageSums& measured = out.stages[0];
    measured = lines.mixed;
    out.volumeMl[0] = volumeMl(measured.totals);

    StageSums& mixed = out.stages[1];
    mixed = measured;
    out.volumeMl[1] = out.volumeMl[0];
    if (out.volumeMl[0] > 0) {
        Water water;
        if (stated) {
            water = statedWater(*method.dilution);
        } else if (const auto blended = blendedWater(spec, data, out.volumeMl[0])) {
            water = *blended;
        } else {
            const auto struck =
                parts ? balancedWater(spec, *parts, lines.assumedTemperature, out.volumeMl[0]) : std::nullopt;
            water = struck ? *struck
                           : predictedWater(spec, strengthOf(measured.totals, out.volumeMl[0]), scenario,
                                            out.questions);
            water.estimate = water.estimate || (balance && !struck);
            calibrate(water, method, data, out);
        }
        addWater(water, out);
    }

    StageSums& served = out.stages[2];
    served = mixed;
    served.totals.addScaled(lines.later.totals, 1);
    served.pouredMl += lines.later.pouredMl;
    served.costMillionths += lines.later.costMillionths;
    const bool more = lines.later.totals.massG > 0;
    out.volumeMl[2] = more ? volumeMl(served.totals) : out.volumeMl[1];
    return out;
}

} // namespace stillroom::spec
