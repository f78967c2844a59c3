#include "core/spec/spread.h"

#include "core/spec/bounds.h"
#include "core/spec/more_values.h"
#include "core/spec/temperature.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

namespace stillroom::spec {

using larder::Fact;
using larder::FactState;
using quantity::HouseSize;
using quantity::Measure;

namespace {

constexpr double kCurveMayBeOff = 0.1;
constexpr double kNothing = std::numeric_limits<double>::quiet_NaN();

// What evaluation reads of a binding, to be changed at will; the ingredients stay with the original.
Bindings::Data changeable(const Bindings::Data& data) {
    Bindings::Data copy;
    copy.rules = data.rules;
    copy.lines = data.lines;
    copy.sizes = data.sizes;
    copy.rinseRetainedMl = data.rinseRetainedMl;
    return copy;
}

using ValueOf = std::function<double(const Spec&, const Bindings::Data&)>;

class Spreader {
  public:
    Spreader(const Spec& spec, const Bindings& bindings, ValueOf valueOf)
        : m_spec(spec),
          m_data(bindings.data()),
          m_valueOf(std::move(valueOf)) {
        m_central = m_valueOf(m_spec, m_data);
    }

    double central() const { return m_central; }
    std::vector<SpreadSource> sources;

    void facts() {
        for (std::size_t i = 0; i < m_spec.lines.size() && i < m_data.lines.size(); ++i) {
            const larder::Ingredient* poured = m_data.lines[i].poured;
            if (poured == nullptr || firstLineOf(poured) != i) continue;
            for (const larder::FactKey& key : larder::factKeys()) {
                const auto& fact = poured->facts.*key.member;
                if (fact && fact->high > fact->low) factEnds(poured, key, *fact);
            }
        }
    }

    void houseMeasures() {
        for (const auto* sizes : {&m_data.rules->measures.volumesMl, &m_data.rules->measures.massesG})
            for (const auto& [measure, size] : *sizes) {
                const auto lines = linesMeasuredIn(measure);
                if (lines.empty() || !(size.high > size.low)) continue;
                measureEnds(measure, size, lines);
            }
        for (std::size_t i = 0; i < m_spec.lines.size() && i < m_data.lines.size(); ++i)
            countEnds(i);
        rinseEnds();
    }

    void dilution() {
        const Pass read = pass(m_spec, m_data, {});
        const bool predicted = read.waterBasis == WaterBasis::Curve || read.waterBasis == WaterBasis::Fixed ||
                               read.waterBasis == WaterBasis::Balance;
        if (!predicted) return;
        double off = kCurveMayBeOff;
        std::string source = "a real drink may differ by 0.1; from memory";
        if (read.calibrated) {
            const auto& bench = m_data.rules->bench->of(m_spec.method.technique);
            if (bench.measurements > 1) {
                off = read.dilution / bench.factor * bench.standardDeviation;
                source = "this bench's own measurements";
            }
        }
        SpreadSource one{
            {}, "dilution", source, std::max(0.0, read.dilution - off), read.dilution, read.dilution + off};
        const auto at = [&](double ratio) {
            Spec typed = m_spec;
            typed.method.dilution = DilutionEntry{ratio, DilutionOrigin::Typed, ""};
            return m_valueOf(typed, m_data);
        };
        keep(std::move(one), at(one.low), at(one.high));
    }

  private:
    std::size_t firstLineOf(const larder::Ingredient* poured) const {
        std::size_t i = 0;
        while (m_data.lines[i].poured != poured)
            ++i;
        return i;
    }

    std::vector<int> linesOf(const larder::Ingredient* poured) const {
        std::vector<int> lines;
        for (std::size_t i = 0; i < m_data.lines.size(); ++i)
            if (m_data.lines[i].poured == poured) lines.push_back(static_cast<int>(i));
        return lines;
    }

    std::vector<int> linesMeasuredIn(Measure measure) const {
        std::vector<int> lines;
        for (std::size_t i = 0; i < m_spec.lines.size(); ++i) {
            const Line& line = m_spec.lines[i];
            const bool uses =
                line.poured.measure == measure || (line.retained && line.retained->measure == measure);
            if (uses && line.poured.amount.isStated()) lines.push_back(static_cast<int>(i));
        }
        return lines;
    }

    void keep(SpreadSource one, double atLow, double atHigh) {
        one.atLow = atLow;
        one.atHigh = atHigh;
        one.central = m_central;
        const double least = 1e-9 * std::max(1.0, std::abs(m_central));
        if (std::isfinite(atLow) && std::isfinite(atHigh) && one.moves() > least)
            sources.push_back(std::move(one));
    }

    double withFact(const larder::Ingredient* poured, const larder::FactKey& key, double value) const {
        FactState state = poured->facts;
        Fact& fact = *(state.*key.member);
        fact.low = fact.typical = fact.high = value;
        const PreparedFacts prepared = prepare(state);
        Bindings::Data data = changeable(m_data);
        for (BoundLine& line : data.lines)
            if (line.poured == poured) line.facts = &prepared;
        return m_valueOf(m_spec, data);
    }

    void factEnds(const larder::Ingredient* poured, const larder::FactKey& key, const Fact& fact) {
        SpreadSource one{linesOf(poured), std::string(key.id), fact.source,
                         fact.low,        fact.typical,        fact.high};
        keep(std::move(one), withFact(poured, key, fact.low), withFact(poured, key, fact.high));
    }

    void measureEnds(Measure measure, const HouseSize& size, const std::vector<int>& lines) {
        const auto at = [&](double value) {
            Bindings::Data data = changeable(m_data);
            MeasureSize& changed = data.sizes[static_cast<std::size_t>(measure)];
            changed.size = value;
            changed.num = static_cast<std::int64_t>(
                std::llround(static_cast<double>(changed.num) * value / size.typical));
            return m_valueOf(m_spec, data);
        };
        SpreadSource one{lines,        "measure:" + std::string(quantity::measureInfo(measure).id),
                         size.source,  size.low,
                         size.typical, size.high};
        keep(std::move(one), at(size.low), at(size.high));
    }

    // "2 egg whites", "juice of a lime": how much one gives.
    void countEnds(std::size_t i) {
        const Measured& poured = m_spec.lines[i].poured;
        const BoundLine& line = m_data.lines[i];
        if (!poured.amount.isStated()) return;
        const Measure measure = poured.measure.value_or(Measure::Piece);
        if (quantity::measureInfo(measure).dimension != quantity::Dimension::Count) return;
        const HouseSize* size = measure == Measure::Cube ? line.cube : line.piece;
        if (size == nullptr || !(size->high > size->low) || !(size->typical > 0)) return;
        const auto at = [&](double value) {
            Bindings::Data data = changeable(m_data);
            BoundLine& changed = data.lines[i];
            const double factor = value / size->typical;
            for (double* each : {&changed.pieceMl, &changed.pieceG, &changed.cubeMl, &changed.cubeG})
                *each *= factor;
            return m_valueOf(m_spec, data);
        };
        SpreadSource one{{static_cast<int>(i)}, "count", size->source, size->low, size->typical, size->high};
        keep(std::move(one), at(size->low), at(size->high));
    }

    void rinseEnds() {
        const HouseSize& size = m_data.rules->measures.rinseRetainedMl;
        std::vector<int> lines;
        for (std::size_t i = 0; i < m_spec.lines.size(); ++i)
            if (m_spec.lines[i].role == Role::Rinse && !m_spec.lines[i].retained)
                lines.push_back(static_cast<int>(i));
        if (lines.empty() || !(size.high > size.low)) return;
        const auto at = [&](double value) {
            Bindings::Data data = changeable(m_data);
            data.rinseRetainedMl = value;
            return m_valueOf(m_spec, data);
        };
        SpreadSource one{lines, "rinse", size.source, size.low, size.typical, size.high};
        keep(std::move(one), at(size.low), at(size.high));
    }

    const Spec& m_spec;
    const Bindings::Data& m_data;
    ValueOf m_valueOf;
    double m_central = 0;
};

} // namespace

double SpreadSource::moves() const {
    return std::max(std::abs(atLow - central), std::abs(atHigh - central));
}

namespace {

Spread spreadOf(const Spec& spec, const Bindings& bindings, const Reading& reading, ValueOf valueOf,
                const SpreadAsk& ask) {
    Spread result;
    result.reading = reading;
    if (result.reading.bound == Bound::Unknown || result.reading.bound == Bound::NotApplicable) return result;
    Spreader spreader(spec, bindings, std::move(valueOf));
    result.central = result.low = result.high = spreader.central();
    if (!std::isfinite(result.central)) return result;
    result.applies = true;
    spreader.facts();
    spreader.houseMeasures();
    if (ask.dilution) spreader.dilution();
    double below = 0;
    double above = 0;
    for (const SpreadSource& one : spreader.sources) {
        const double down = std::min({one.atLow, one.atHigh, result.central}) - result.central;
        const double up = std::max({one.atLow, one.atHigh, result.central}) - result.central;
        below += down * down;
        above += up * up;
    }
    result.low -= std::sqrt(below);
    result.high += std::sqrt(above);
    result.sources = std::move(spreader.sources);
    std::stable_sort(result.sources.begin(), result.sources.end(),
                     [](const SpreadSource& a, const SpreadSource& b) { return a.moves() > b.moves(); });
    return result;
}

} // namespace

Spread spread(const Spec& spec, const Bindings& bindings, Quantity quantity, Stage stage,
              const SpreadAsk& ask) {
    const auto s = static_cast<std::size_t>(stage);
    if (quantity == Quantity::Temperature)
        return spreadOf(
            spec, bindings, evaluateWithTemperatures(spec, bindings)[stage][quantity],
            [s](const Spec& tried, const Bindings::Data& data) {
                return traceTemperatures(tried, data, {}).stages[s].celsius.value_or(kNothing);
            },
            ask);
    return spreadOf(
        spec, bindings, evaluate(spec, bindings)[stage][quantity],
        [s, quantity](const Spec& tried, const Bindings::Data& data) {
            const RawStages raw =
                rawReadings(pass(tried, data, {}), std::max(tried.serves, 1), data.rules->standardDrinkGrams);
            return raw[s][static_cast<std::size_t>(quantity)];
        },
        ask);
}

Spread spread(const Spec& spec, const Bindings& bindings, More more, Stage stage, const SpreadAsk& ask) {
    return spreadOf(
        spec, bindings, moreReadings(spec, bindings, stage)[more],
        [stage, more](const Spec& tried, const Bindings::Data& data) {
            return moreValues(tried, data, {}, stage)[static_cast<std::size_t>(more)].value.value_or(
                kNothing);
        },
        ask);
}

} // namespace stillroom::spec
