#include "core/preparation/process.h"

#include "core/physics/dilution.h"
#include "core/physics/mixture.h"
#include "core/physics/titratable_acid.h"
#include "core/preparation/pot.h"
#include "core/spec/scenario.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace stillroom::preparation {

using physics::Composition;
using physics::Substance;
using quantity::Cost;
using quantity::Mass;
using quantity::Volume;
using spec::Bound;
using spec::Quantity;
using spec::Spec;
using spec::Step;
using spec::StepKind;

namespace {

// What each line brings, whole.
struct Brought : spec::LineListener {
    Brought(const spec::Bindings::Data& bound, std::size_t lines)
        : data(bound),
          masses(lines),
          cost(lines, 0) {}
    void stays(std::size_t line, double units) override {
        masses[line].addScaled(data.lines[line].facts->perUnit, units);
    }
    void pours(std::size_t line, double, std::int64_t millionths) override { cost[line] += millionths; }
    const spec::Bindings::Data& data;
    std::vector<Composition> masses;
    std::vector<std::int64_t> cost;
};

bool isSolid(const spec::BoundLine& line) {
    return line.facts->dry && !line.facts->soluble && !line.facts->flavouring;
}

// Which step a line goes in before; the number of steps: after all.
std::size_t entersAt(const spec::Line& line, std::size_t steps) {
    return std::min(static_cast<std::size_t>(std::max(line.beforeStep, 0)), steps);
}

bool isKnown(const spec::Reading& reading) {
    return reading.bound == Bound::Exact || reading.bound == Bound::Between ||
           reading.bound == Bound::NotApplicable;
}

// The figures of a step that can be so.
class Stated {
  public:
    Stated(const Step& step, std::size_t index, std::vector<StepFault>& faults)
        : m_index(index),
          m_faults(faults),
          waterLostG(amount(step.waterLostG, "water_lost_g")),
          rate(amount(step.waterLostGPerMinute, "water_lost_g_per_minute")),
          minutes(amount(step.minutes, "minutes")),
          waterGainedG(amount(step.waterGainedG, "water_gained_g")),
          heldBackMl(amount(step.heldBackMl, "held_back_ml")),
          yieldShare(share(step.yieldShare)),
          gotMl(got(step.gotMl, "got_ml")),
          gotG(got(step.gotG, "got_g")),
          co2(amount(step.co2GPerL, "co2_g_per_l")),
          overrun(amount(step.overrun, "overrun")) {}

    void fault(StepProblem problem, std::string_view field) { m_faults.push_back({problem, m_index, field}); }

  private:
    std::size_t m_index;
    std::vector<StepFault>& m_faults;

    std::optional<double> amount(const std::optional<double>& value, std::string_view field) {
        constexpr double kTooLarge = 1e9;
        if (!value) return std::nullopt;
        if (!std::isfinite(*value)) return fault(StepProblem::NotANumber, field), std::nullopt;
        if (*value < 0) return fault(StepProblem::Negative, field), std::nullopt;
        if (*value >= kTooLarge) return fault(StepProblem::TooLarge, field), std::nullopt;
        return value;
    }
    std::optional<double> got(const std::optional<double>& value, std::string_view field) {
        const auto sound = amount(value, field);
        if (sound && *sound == 0) return fault(StepProblem::YieldNotAbove0, field), std::nullopt;
        return sound;
    }
    std::optional<double> share(const std::optional<double>& value) {
        const auto sound = got(value, "yield_share");
        if (sound && *sound > 1) return fault(StepProblem::YieldAbove1, "yield_share"), std::nullopt;
        return sound;
    }

  public:
    std::optional<double> waterLostG, rate, minutes, waterGainedG, heldBackMl, yieldShare, gotMl, gotG, co2,
        overrun;
};

class Run {
  public:
    Run(const Spec& spec, const spec::Bindings& bindings)
        : m_spec(spec),
          m_bindings(bindings),
          m_brought(bindings.data(), spec.lines.size()) {
        spec::Scenario upperEnds;
        upperEnds.rangesHigh = ~std::uint32_t{0};
        const spec::Pass read = spec::pass(spec, bindings.data(), upperEnds, &m_brought);
        m_ranged = std::any_of(spec.lines.begin(), spec.lines.end(), [](const spec::Line& line) {
            return line.poured.amount.kind == quantity::Amount::Kind::Range;
        });
        m_methodWaterG = physics::waterFromDilution(read.dilution, Volume::fromMl(read.volumeMl[0])).grams();
    }

    Process run() {
        for (std::size_t i = 0; i < m_spec.steps.size(); ++i) {
            linesIn(i);
            if (i == 0) m_p.start = noted(0);
            take(i);
        }
        linesIn(m_spec.steps.size());
        if (m_spec.steps.empty()) m_p.start = noted(0);
        put(Substance::Water, m_methodWaterG, m_p.put);
        knownAfter(m_spec.steps.size());
        return std::move(m_p);
    }

  private:
    void put(Substance s, double grams, Composition& from) {
        m_p.pot[s] += grams;
        from[s] += grams;
    }
    void linesIn(std::size_t step) {
        for (std::size_t i = 0; i < m_spec.lines.size(); ++i) {
            if (entersAt(m_spec.lines[i], m_spec.steps.size()) != step) continue;
            m_p.pot += m_brought.masses[i];
            m_p.put += m_brought.masses[i];
            m_cost += m_brought.cost[i];
            const spec::Line& line = m_spec.lines[i];
            const bool counts = !line.optional && !line.toTaste && i < m_brought.data.lines.size();
            if (counts && isSolid(m_brought.data.lines[i])) m_solidsIn = true;
        }
    }
    void become(const Composition& next) {
        for (std::size_t i = 0; i < physics::kSubstanceCount; ++i) {
            const double change = next.grams[i] - m_p.pot.grams[i];
            (change < 0 ? m_p.lost : m_p.gained).grams[i] += std::abs(change);
        }
        m_p.pot = next;
    }
    void leave(Substance s) {
        Composition next = m_p.pot;
        next[s] = 0;
        become(next);
    }
    double volumeMl() const { return physics::volumeAt20(m_p.pot).ml(); }
    void remark(StepRemark remark) { m_trace.remarks.push_back(remark); }

    void take(std::size_t index) {
        const Step& step = m_spec.steps[index];
        Stated stated(step, index, m_p.faults);
        m_trace = {};
        m_trace.step = index;
        m_trace.kind = step.kind;
        const bool measured = stated.gotMl || stated.gotG;
        gain(step.kind, stated, measured);
        lose(step.kind, stated, measured);
        hold(step.kind, stated, measured);
        if (measured) fit(step.kind, stated);
        finish(step.kind, stated);
        m_p.steps.push_back(noted(index));
    }

    void gain(StepKind kind, const Stated& stated, bool measured) {
        if (stated.waterGainedG) {
            put(Substance::Water, *stated.waterGainedG, m_p.gained);
            m_solidsExplained = true;
        } else if (kind == StepKind::Steep && m_solidsIn && !measured) {
            remark(StepRemark::WaterGainedNotStated);
        }
    }

    void lose(StepKind kind, Stated& stated, bool measured) {
        std::optional<double> lost = stated.waterLostG;
        if (!lost && stated.rate && stated.minutes) {
            lost = *stated.rate * *stated.minutes;
            remark(StepRemark::WaterLostByRate);
        }
        if (lost && *lost > m_p.pot[Substance::Water]) {
            stated.fault(StepProblem::MoreThanThere, "water_lost_g");
            lost.reset();
        }
        if (lost && !(measured && kind == StepKind::Simmer)) {
            Composition next = m_p.pot;
            next[Substance::Water] -= *lost;
            become(next);
        }
        if (kind != StepKind::Simmer) return;
        if (m_p.pot[Substance::Ethanol] > 0) {
            remark(StepRemark::AlcoholLossNotModelled);
            m_p.strengthKnown = false;
        }
        if (lost || measured) return;
        remark(StepRemark::WaterLostNotStated);
        m_p.sugarKnown = m_p.acidKnown = false; // of water alone the strength stays none
        if (m_p.pot[Substance::Ethanol] > 0) m_p.strengthKnown = false;
        m_p.atMost = true;
    }

    static bool losesLiquid(StepKind kind) {
        constexpr std::array kLosing{StepKind::Steep,   StepKind::Strain,      StepKind::Press,
                                     StepKind::FatWash, StepKind::MilkClarify, StepKind::AgarClarify};
        return std::find(kLosing.begin(), kLosing.end(), kind) != kLosing.end();
    }

    // What is taken out first takes nothing else with it; then liquid stays behind in sieve, fruit or curd.
    void hold(StepKind kind, Stated& stated, bool measured) {
        if (kind == StepKind::FatWash) {
            leave(Substance::Fat);
            remark(StepRemark::FatLeavesWhole);
        }
        if (kind == StepKind::MilkClarify) {
            leave(Substance::Fat);
            leave(Substance::Protein);
            remark(StepRemark::CurdTakesFatAndProtein);
        }
        const double now = volumeMl();
        if (stated.heldBackMl && !(*stated.heldBackMl < now)) {
            stated.fault(StepProblem::MoreThanThere, "held_back_ml");
            stated.heldBackMl.reset();
        }
        if (measured) return;
        if (stated.yieldShare && stated.heldBackMl) remark(StepRemark::TwoLossesStated);
        if (stated.yieldShare) {
            // Of the liquid: butter is none, and curd is none any more, so neither counts as what was kept.
            remark(StepRemark::ShareAssumed);
            if (now > 0) become(shareOf(m_p.pot, *stated.yieldShare));
        } else if (stated.heldBackMl) {
            become(shareOf(m_p.pot, 1 - *stated.heldBackMl / now));
        } else if (losesLiquid(kind) && !(kind == StepKind::Steep && !m_solidsIn)) {
            remark(StepRemark::LossNotStated);
            m_p.atMost = true;
        }
    }

    void fit(StepKind kind, const Stated& stated) {
        remark(StepRemark::MeasuredResult);
        m_p.atMost = false;
        const double mass = m_p.pot.totalGrams();
        const double volume = volumeMl();
        if (!(mass > 0) || !(volume > 0)) return;
        const double wanted = stated.gotMl ? *stated.gotMl : *stated.gotG;
        const double have = stated.gotMl ? volume : mass;
        if (wanted > have) {
            if (wanted > have * kReadsAlike) remark(StepRemark::MoreThanWentIn);
            Composition next = m_p.pot;
            if (stated.gotMl)
                next = wateredUp(next, Volume::fromMl(wanted));
            else
                next[Substance::Water] += wanted - have;
            become(next);
        } else if (kind == StepKind::Simmer) {
            Composition next = m_p.pot;
            if (stated.gotMl)
                next = boiledDown(next, Volume::fromMl(wanted));
            else
                next[Substance::Water] = std::max(0.0, next[Substance::Water] - (have - wanted));
            become(next);
        } else {
            become(shareOf(m_p.pot, wanted / have));
        }
    }

    void finish(StepKind kind, const Stated& stated) {
        switch (kind) {
        case StepKind::Ferment:
            remark(StepRemark::NotModelled);
            m_p.fermented = true;
            m_p.strengthKnown = m_p.sugarKnown = m_p.acidKnown = m_p.fizzKnown = false;
            break;
        case StepKind::Carbonate:
            m_p.carbonated = true;
            m_p.fizzKnown = stated.co2.has_value();
            if (stated.co2) {
                Composition next = m_p.pot;
                next[Substance::CarbonDioxide] = *stated.co2 * volumeMl() / 1000;
                become(next);
            } else {
                remark(StepRemark::FizzNotStated);
            }
            break;
        case StepKind::Whip:
            remark(stated.overrun ? StepRemark::FoamNotLiquid : StepRemark::OverrunNotStated);
            if (stated.overrun) m_p.foam = Volume::fromMl(volumeMl() * (1 + *stated.overrun));
            break;
        default:
            break;
        }
    }

    enum class How : std::uint8_t { Known, AtLeast, Unknown };
    struct Knowing {
        How strength, sugar, acid, brix, cost;
    };
    // A bound of what went in holds for what is in the pot where its lines are of one amount, and no fruit
    // gave water that nobody weighed.
    How how(const spec::Reading& reading) const {
        if (isKnown(reading)) return How::Known;
        return reading.bound == Bound::AtLeast && !m_ranged && (!m_solidsIn || m_solidsExplained)
                   ? How::AtLeast
                   : How::Unknown;
    }
    // And what the steps did: water boiled off that nobody weighed makes it stronger, never weaker.
    static How after(How before, bool known, bool bounded) {
        if (known || before == How::Unknown) return before;
        return bounded ? How::AtLeast : How::Unknown;
    }
    // Of what has gone in before this step, by the evaluation's own rules. Fruit whose water is stated leaves
    // the strength known: it holds none.
    Knowing knowing(std::size_t before) const {
        Spec so = m_spec;
        for (spec::Line& line : so.lines)
            if (entersAt(line, m_spec.steps.size()) > before) line.optional = true;
        const auto read = spec::evaluate(so, m_bindings)[spec::Stage::Served];
        How strength = isKnown(read[Quantity::Ethanol]) ? how(read[Quantity::Strength])
                       : read[Quantity::Ethanol].bound == Bound::AtLeast
                           ? std::max(how(read[Quantity::Strength]), How::AtLeast)
                           : How::Unknown;
        if (strength != How::Known && m_solidsExplained) {
            for (std::size_t i = 0; i < so.lines.size(); ++i)
                if (isSolid(m_brought.data.lines[i])) so.lines[i].optional = true;
            const auto without = spec::evaluate(so, m_bindings)[spec::Stage::Served];
            if (isKnown(without[Quantity::Strength])) strength = How::Known;
        }
        return {after(strength, m_p.strengthKnown, false),
                after(how(read[Quantity::Sugar]), m_p.sugarKnown, !m_p.fermented),
                after(how(read[Quantity::Acid]), m_p.acidKnown, !m_p.fermented),
                after(how(read[Quantity::Brix]), m_p.sugarKnown, !m_p.fermented),
                read[Quantity::Cost].bound == Bound::Exact     ? How::Known
                : read[Quantity::Cost].bound == Bound::AtLeast ? How::AtLeast
                                                               : How::Unknown};
    }
    void knownAfter(std::size_t step) {
        const Knowing k = knowing(step);
        m_p.strengthKnown = k.strength == How::Known;
        m_p.sugarKnown = k.sugar == How::Known;
        m_p.acidKnown = k.acid == How::Known;
        m_p.strengthLeast = k.strength == How::AtLeast;
        m_p.sugarLeast = k.sugar == How::AtLeast;
        m_p.acidLeast = k.acid == How::AtLeast;
        m_p.brixLeast = k.brix == How::AtLeast;
        m_p.costLeast = k.cost == How::AtLeast;
        m_p.costSoFar = Cost{m_cost};
    }

    StepTrace noted(std::size_t index) {
        const Knowing k = knowing(index);
        const double ml = volumeMl();
        m_trace.mass = Mass::fromGrams(m_p.pot.totalGrams());
        m_trace.volume = Volume::fromMl(ml);
        const double in = m_p.put.totalGrams() + m_p.gained.totalGrams();
        const double out = m_p.lost.totalGrams();
        m_trace.entered = Mass::fromGrams(in - m_in);
        m_trace.left = Mass::fromGrams(out - m_out);
        m_in = in;
        m_out = out;
        m_trace.atMost = m_p.atMost;
        const auto tell = [](How how, auto value, auto& figure, auto& least) {
            if (how == How::Known) figure = value;
            if (how == How::AtLeast) least = value;
        };
        auto& least = m_trace.least;
        tell(k.cost, Cost{m_cost}, m_trace.cost, least.cost);
        if (ml > 0) {
            const double sugar = m_p.pot.sugarGrams();
            tell(k.strength, 100 * physics::ethanolVolumeAt20(m_p.pot).ml() / ml, m_trace.strengthPercent,
                 least.strengthPercent);
            tell(k.sugar, 1000 * sugar / ml, m_trace.sugarGPerL, least.sugarGPerL);
            tell(k.acid, 1000 * physics::titratableAcidAsCitric(m_p.pot).grams() / ml, m_trace.acidGPerL,
                 least.acidGPerL);
            tell(k.brix, 100 * sugar / m_p.pot.totalGrams(), m_trace.brix, least.brix);
            // As in Made: a density of what is not known whole would be a guess.
            if (k.strength == How::Known && k.sugar == How::Known && k.acid == How::Known)
                m_trace.densityKgPerM3 = 1000 * m_p.pot.totalGrams() / ml;
        }
        return std::exchange(m_trace, {});
    }

    static constexpr double kReadsAlike = 1.000001;
    const Spec& m_spec;
    const spec::Bindings& m_bindings;
    Brought m_brought;
    double m_methodWaterG = 0;
    Process m_p;
    StepTrace m_trace;
    std::int64_t m_cost = 0;
    double m_in = 0, m_out = 0; // grams, up to the last trace
    bool m_ranged = false;      // a line says "20 to 25 ml"
    bool m_solidsIn = false;
    bool m_solidsExplained = false;
};

} // namespace

Process process(const Spec& spec, const spec::Bindings& bindings) {
    return Run(spec, bindings).run();
}

std::string_view stepRemarkId(StepRemark remark) {
    switch (remark) {
    case StepRemark::MeasuredResult:
        return "measured_result";
    case StepRemark::MoreThanWentIn:
        return "more_than_went_in";
    case StepRemark::WaterLostByRate:
        return "water_lost_by_rate";
    case StepRemark::WaterLostNotStated:
        return "water_lost_not_stated";
    case StepRemark::AlcoholLossNotModelled:
        return "alcohol_loss_not_modelled";
    case StepRemark::WaterGainedNotStated:
        return "water_gained_not_stated";
    case StepRemark::ShareAssumed:
        return "share_assumed";
    case StepRemark::LossNotStated:
        return "loss_not_stated";
    case StepRemark::FatLeavesWhole:
        return "fat_leaves_whole";
    case StepRemark::CurdTakesFatAndProtein:
        return "curd_takes_fat_and_protein";
    case StepRemark::NotModelled:
        return "not_modelled";
    case StepRemark::FizzNotStated:
        return "fizz_not_stated";
    case StepRemark::OverrunNotStated:
        return "overrun_not_stated";
    case StepRemark::FoamNotLiquid:
        return "foam_not_liquid";
    case StepRemark::TwoLossesStated:
        return "two_losses_stated";
    }
    return "";
}

std::string_view stepProblemId(StepProblem problem) {
    switch (problem) {
    case StepProblem::NotANumber:
        return "not_a_number";
    case StepProblem::Negative:
        return "negative";
    case StepProblem::YieldNotAbove0:
        return "yield_not_above_0";
    case StepProblem::YieldAbove1:
        return "yield_above_1";
    case StepProblem::TooLarge:
        return "too_large";
    case StepProblem::MoreThanThere:
        return "more_than_there";
    }
    return "";
}

} // namespace stillroom::preparation
