#include "core/larder/at_least.h"
#include "core/physics/ethanol_water.h"
#include "core/physics/glass_profile.h"
#include "core/spec/evaluate.h"
#include "core/spec/scenario.h"

#include <algorithm>

namespace stillroom::spec {

namespace {

double half(Quantity q) {
    double value = 0.5;
    for (int i = 0; i < quantityDecimals(q); ++i)
        value /= 10;
    return value;
}

// Whether a missing fact of this many ml in a drink of `totalMl` could be seen in any reading.
struct Visible {
    double ml = 0;      // of the line, whole
    double totalMl = 0; // of the drink, whole
    int serves = 1;

    double share() const { return totalMl > 0 ? std::min(ml / totalMl, 1.0) : 1; }
    bool strength() const {
        const double ethanolG = ml * kLargestStrengthPercent / 100 * physics::kEthanolKgPerM3At20 / 1000;
        return share() * kLargestStrengthPercent >= half(Quantity::Strength) ||
               ethanolG / serves >= half(Quantity::Ethanol);
    }
    bool sugar() const { return share() * kLargestSugarGPerL / 10 >= half(Quantity::Sugar); }
    bool acid() const { return share() * kLargestAcidGPerL / 10 >= half(Quantity::Acid); }
};

class GapList {
  public:
    explicit GapList(const Spec& spec, const Bindings& bindings) : m_spec(spec), m_bindings(bindings) {}

    void add(GapCode code, std::size_t line, std::string detail = {}) {
        const auto* poured = m_bindings.poured(line);
        const std::string& written = m_spec.lines[line].name;
        gaps.push_back({code, static_cast<int>(line), poured != nullptr ? poured->name : written, 0, 0,
                        std::move(detail)});
    }
    void addContradiction(const std::array<double, 2>& by, std::size_t line) {
        add(GapCode::FactsContradict, line);
        gaps.back().densityOffKgPerM3 = by[0];
        gaps.back().asSugarGPerL = by[1];
    }
    void addWhole(GapCode code) { gaps.push_back({code, -1, {}, 0, 0, {}}); }

    std::vector<Gap> gaps;

  private:
    const Spec& m_spec;
    const Bindings& m_bindings;
};

void amountGap(const Line& line, const Portion& portion, bool dry, std::size_t i, GapList& list) {
    switch (portion.sizing) {
    case Sizing::Sized:
    case Sizing::Negligible:
        return;
    case Sizing::Solid:
        list.add(GapCode::SolidShareUnknown, i);
        return;
    case Sizing::Unstated:
        if (line.role == Role::Rinse && !line.retained && !dry) {
            list.add(GapCode::RinseByTheHouse, i);
            return;
        }
        // "to top" names how, not how much.
        list.add(line.poured.measure ? GapCode::MeasureHasNoSize : GapCode::AmountNotStated, i);
        return;
    case Sizing::NoSize:
        list.add(GapCode::MeasureHasNoSize, i);
        return;
    case Sizing::NoDensity:
        list.add(GapCode::DensityUnknown, i);
        return;
    }
}

void factGaps(const PreparedFacts& facts, const Visible& visible, std::size_t i, GapList& list) {
    if ((facts.unknown & kStrengthFact) != 0 && visible.strength()) list.add(GapCode::StrengthUnknown, i);
    if ((facts.unknown & kSugarFact) != 0 && visible.sugar()) list.add(GapCode::SugarUnknown, i);
    if ((facts.unknown & kAcidFact) != 0 && visible.acid()) list.add(GapCode::AcidUnknown, i);
}

GapCode codeOf(larder::CostProblem problem) {
    switch (problem) {
    case larder::CostProblem::NoPrice:
        return GapCode::PriceUnknown;
    case larder::CostProblem::CurrencyDiffers:
        return GapCode::PriceCurrency;
    case larder::CostProblem::UnitsDiffer:
        return GapCode::PriceUnit;
    case larder::CostProblem::YieldNotAbove0:
    case larder::CostProblem::YieldAbove1:
        return GapCode::PriceYield;
    case larder::CostProblem::NegativePrice:
        return GapCode::PriceNegative;
    default:
        return GapCode::PriceWrong;
    }
}

void priceGap(const BoundLine& bound, bool open, const larder::Larder& larder, std::size_t i, GapList& list) {
    const auto lacking =
        bound.poured != nullptr ? larder::unpricedParts(bound.poured->facts) : std::vector<std::string>();
    const bool noPrice = bound.price.fault && bound.price.fault->problem == larder::CostProblem::NoPrice;
    if (!lacking.empty() && (bound.price.atLeast || noPrice)) {
        std::string names;
        for (const std::string& name : lacking)
            names.append(names.empty() ? "" : ", ").append(name);
        list.add(GapCode::PriceUnknown, i, std::move(names));
        return;
    }
    if (bound.price.unit != UnitPrice::Per::None) {
        if (!open && !bound.price.atLeast) list.add(GapCode::PriceUnit, i);
        return;
    }
    if (!bound.price.fault) return;
    const larder::CostFault& fault = *bound.price.fault;
    const GapCode code = codeOf(fault.problem);
    std::string detail;
    if (code == GapCode::PriceCurrency)
        detail = fault.currency.text();
    else if (code == GapCode::PriceWrong)
        detail = larder::costProblemId(fault.problem);
    else if (const auto* at = larder.find(fault.at); at != nullptr && at->id != bound.poured->id)
        detail = at->name;
    list.add(code, i, std::move(detail));
}

// Of what is in no sum of the drink the price alone can be missing.
void unpaidGap(const Line& line, const Portion& poured, const BoundLine& bound, const Bindings::Data& data,
               std::size_t i, GapList& list) {
    if (bound.ice || bound.facts->plainWater) return;
    const bool guessed = isPaidByGuess(line);
    const Portion bought = guessed ? Portion{Sizing::NoSize, 0, 0} : poured;
    if (costOf(paidFor(line), true, bought, bound, data).priced == Priced::Yes) return;
    if (!bound.known)
        list.add(GapCode::IngredientUnknown, i);
    else
        priceGap(bound, false, data.larder, i, list);
}

} // namespace

std::vector<Gap> gaps(const Spec& spec, const Bindings& bindings) {
    const Bindings::Data& data = bindings.data();
    const Pass read = pass(spec, data, {});
    const double totalMl = read.volumeMl[static_cast<std::size_t>(Stage::Measured)];
    const int serves = std::max(spec.serves, 1);
    GapList list(spec, bindings);
    for (std::size_t i = 0; i < spec.lines.size(); ++i) {
        const Line& line = spec.lines[i];
        if (line.optional) list.add(GapCode::OptionalLeftOut, i);
        if (line.toTaste) list.add(GapCode::ToTasteLeftOut, i);
        if (line.optional || line.toTaste) continue;
        BoundLine bound;
        bound.facts = &nothingKnown();
        if (i < data.lines.size()) bound = data.lines[i];
        constexpr double kNominalPartMl = 30;
        const Portion poured =
            portionOf(line.poured, amountOf(line.poured, true), bound, data, kNominalPartMl, 0);
        if (line.role == Role::Garnish || poured.sizing == Sizing::Negligible) {
            unpaidGap(line, poured, bound, data, i, list);
            continue;
        }
        amountGap(line, poured, bound.facts->dry, i, list);
        const bool open = poured.sizing != Sizing::Sized;
        if (!open && !(poured.units > 0)) continue;
        if (!bound.known) {
            list.add(GapCode::IngredientUnknown, i);
        } else {
            const bool rinse = line.role == Role::Rinse && !line.retained;
            const double unstatedMl = rinse ? data.rinseRetainedMl : totalMl;
            const double ml = open ? unstatedMl : poured.pouredMl;
            // Of a solid the share that is drunk is asked first; its facts say nothing without it.
            if (poured.sizing != Sizing::Solid) factGaps(*bound.facts, {ml, totalMl, serves}, i, list);
            if (bound.facts->contradiction) list.addContradiction(*bound.facts->contradiction, i);
        }
        const LineCost cost = costOf(line.poured, true, poured, bound, data);
        if ((cost.priced == Priced::No || bound.price.atLeast) && bound.known)
            priceGap(bound, open, data.larder, i, list);
    }
    if (read.questions.unknownIce) list.addWhole(GapCode::DilutionUnknown);
    if (read.questions.partsWithoutTarget) list.addWhole(GapCode::PartTargetMissing);
    const bool shapeKnown = physics::glassProfile(spec.glassProfile) != nullptr ||
                            physics::glassProfileFor(spec.glass) != nullptr;
    if (!spec.glass.empty() && !shapeKnown) list.addWhole(GapCode::GlassUnknown);
    // Of no line, so that nobody looks for its facts: it is words alone.
    if (hasGarnishInWords(spec))
        list.gaps.push_back({GapCode::PriceUnknown, -1, "the garnish, " + spec.garnish, 0, 0, {}});
    return std::move(list.gaps);
}

} // namespace stillroom::spec
