#include "core/spec/caution.h"

#include "core/larder/allergens.h"
#include "core/spec/more_readings.h"
#include "core/spec/safety_match.h"
#include "core/spec/safety_rules.h"
#include "core/spec/safety_view.h"

#include <algorithm>
#include <array>
#include <limits>

namespace stillroom::spec {

namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
// Pure ethanol at 20 °C, g/ml: OIML R 22, as in resources/handbook/servings.json.
constexpr double kEthanolGPerMl = 0.78924;
constexpr double kMlOfAUkUnit = 10;

std::optional<KnownRange> rangeOf(const Reading& reading) {
    switch (reading.bound) {
    case Bound::Exact:
        return KnownRange{reading.value, reading.value};
    case Bound::AtLeast:
        return KnownRange{reading.value, kInfinite};
    case Bound::AtMost:
        return KnownRange{-kInfinite, reading.value};
    case Bound::Between:
        return KnownRange{reading.value, reading.upper};
    case Bound::Unknown:
    case Bound::NotApplicable:
        return std::nullopt;
    }
    return std::nullopt;
}

// Grams of a dry good, where it was weighed; the smaller end of a range.
std::optional<double> weighedGrams(const Measured& measured) {
    if (!measured.amount.isStated() || !measured.measure) return std::nullopt;
    const auto& unit = quantity::measureInfo(*measured.measure);
    if (!unit.exactMicrograms) return std::nullopt;
    return measured.amount.low.toDouble() * measured.multiplier.toDouble() *
           unit.exactMicrograms->toDouble() / 1e6;
}

// mg in one serve. Lines whose caffeine nobody states add nothing, so this is a lower end.
double caffeineMg(const Spec& spec, const Bindings& bindings) {
    const std::vector<Contribution> lines = contributions(spec, bindings);
    double mg = 0;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const larder::Ingredient* poured = bindings.poured(i);
        if (poured == nullptr || !poured->facts.caffeineMgPerL) continue;
        const double perLitre = poured->facts.caffeineMgPerL->typical; // per kg when dry
        if (poured->facts.dry) {
            if (const auto grams = weighedGrams(spec.lines[i].poured)) mg += perLitre * *grams / 1000;
        } else if (const auto ml = rangeOf(lines[i].volumeMl)) {
            mg += perLitre * std::max(0.0, ml->low) / 1000;
        }
    }
    return mg / std::max(1, spec.serves);
}

std::optional<KnownRange> scaled(std::optional<KnownRange> range, double factor) {
    if (range) range = KnownRange{range->low * factor, range->high * factor};
    return range;
}

class Quantities {
  public:
    Quantities(const Spec& spec, const Bindings& bindings, const Readings& readings,
               const CautionContext& context)
        : m_spec(spec),
          m_bindings(bindings),
          m_served(readings[Stage::Served]),
          m_context(context),
          m_caffeineMg(caffeineMg(spec, bindings)),
          m_alcoholic(hasAlcoholicLine(spec, bindings)) {}

    std::optional<KnownRange> operator()(std::string_view name) const {
        if (name == "abv_percent") return ofAlcohol(Quantity::Strength);
        if (name == "serving_ethanol_g") return ofAlcohol(Quantity::Ethanol);
        if (name == "serving_uk_units")
            return scaled(ofAlcohol(Quantity::Ethanol), 1 / (kEthanolGPerMl * kMlOfAUkUnit));
        if (name == "serving_temp_C") return servingTemperature();
        if (name == "brix") return rangeOf(m_served[Quantity::Brix]);
        if (name == "caffeine_mg") return KnownRange{m_caffeineMg, kInfinite};
        if (name == "caffeine_mg_per_l") return caffeinePerLitre();
        if (name == "ph") return m_context.ph ? single(m_context.ph) : estimatedPh();
        if (name == "water_activity")
            return m_context.waterActivity ? single(m_context.waterActivity) : estimatedActivity();
        return std::nullopt;
    }

  private:
    static std::optional<KnownRange> single(std::optional<double> value) {
        return value ? std::optional(KnownRange{*value, *value}) : std::nullopt;
    }
    // How much may be open; that it is more than none is not, where a line that may be poured is alcoholic.
    std::optional<KnownRange> ofAlcohol(Quantity quantity) const {
        auto range = rangeOf(m_served[quantity]);
        if (!m_alcoholic) return range;
        constexpr double kSome = std::numeric_limits<double>::min();
        if (!range) return KnownRange{kSome, kInfinite};
        return KnownRange{std::max(range->low, kSome), std::max(range->high, kSome)};
    }
    // An estimate warns of what could be so: the ends stand the wrong way round, so that "above" is asked of
    // the highest it may be and "below" of the lowest.
    static KnownRange couldBe(double lowest, double highest) { return {highest, lowest}; }

    // At most so hot, and nobody knows how much less: it could be so hot.
    std::optional<KnownRange> servingTemperature() const {
        const Reading& served = m_served[Quantity::Temperature];
        if (served.bound == Bound::AtMost) return couldBe(-kInfinite, served.value);
        return rangeOf(served);
    }
    // Without acid on record the pH is that of its water, 5 to 8 (common knowledge, no source).
    std::optional<KnownRange> estimatedPh() const {
        const Reading& acid = m_served[Quantity::Acid];
        if (acid.bound != Bound::Exact && acid.bound != Bound::Between) return std::nullopt;
        const Reading& ph = more()[More::Ph];
        if (ph.bound == Bound::NotApplicable) return couldBe(5, 8);
        if (ph.bound == Bound::Exact) return couldBe(ph.value, ph.value); // acid in water, unbuffered
        if (ph.bound == Bound::Between) return couldBe(ph.value, ph.upper);
        if (ph.bound == Bound::AtLeast) return couldBe(ph.value, 7); // buffered away entirely
        return std::nullopt;
    }
    // The usual error of multiplied activities is 0.01 to 0.02 (physics/water_activity.h).
    std::optional<KnownRange> estimatedActivity() const {
        constexpr double kError = 0.02;
        const auto known = rangeOf(more()[More::WaterActivity]);
        if (!known || known->high == kInfinite) return std::nullopt;
        return couldBe(known->low - kError, known->high + kError);
    }
    const MoreStage& more() const {
        if (!m_more) m_more = moreReadings(m_spec, m_bindings, Stage::Served);
        return *m_more;
    }
    std::optional<KnownRange> caffeinePerLitre() const {
        const auto volume = rangeOf(m_served[Quantity::Volume]);
        if (!volume || !(volume->high > 0) || volume->high == kInfinite) return std::nullopt;
        return KnownRange{m_caffeineMg / volume->high * 1000, kInfinite};
    }

    const Spec& m_spec;
    const Bindings& m_bindings;
    const StageReadings& m_served;
    mutable std::optional<MoreStage> m_more; // read when a rule first asks
    const CautionContext& m_context;
    double m_caffeineMg;
    bool m_alcoholic;
};

// About a glass as it is handed over: of what is kept, the whole is no serving and its heat is gone.
bool isOfOneServing(std::string_view id) {
    constexpr std::array<std::string_view, 7> kOfServing{"scald_65",       "scald_time",   "served_hot",
                                                         "glass_shock",    "strong_total", "strong_total_uk",
                                                         "hidden_strength"};
    return std::find(kOfServing.begin(), kOfServing.end(), id) != kOfServing.end();
}

// What may be served to somebody who takes no alcohol: at most 0.5 % vol, common practice, no source.
bool isAlcoholFree(const Readings& readings) {
    constexpr double kMostPercent = 0.5;
    const Reading& strength = readings[Stage::Served][Quantity::Strength];
    return strength.bound == Bound::Exact && strength.value <= kMostPercent;
}

} // namespace

std::vector<Caution> cautions(const Spec& spec, const Bindings& bindings, const Readings& readings,
                              const CautionContext& context) {
    SafetyView view = viewOf(spec, bindings);
    view.context = context;
    if (isAlcoholFree(readings)) view.context.flags.emplace_back("alcohol_free");
    view.quantity = Quantities(spec, bindings, readings, view.context);
    auto fired = firedCautions(view, SafetyRules::builtIn());
    if (context.stored) std::erase_if(fired, [](const Caution& each) { return isOfOneServing(each.id); });
    return fired;
}

std::vector<Caution> cautions(const Spec& spec, const Bindings& bindings, const Readings& readings) {
    return cautions(spec, bindings, readings, CautionContext());
}

AllergenSummary allergens(const Spec& spec, const Bindings& bindings) {
    AllergenSummary summary;
    std::vector<larder::AllergenReading> parts;
    for (std::size_t i = 0; i < spec.lines.size(); ++i) {
        const larder::Ingredient* poured = bindings.poured(i);
        if (poured == nullptr) {
            summary.unknownLines.push_back(static_cast<int>(i));
            continue;
        }
        parts.push_back(larder::allergensOf(poured->facts));
        if (!parts.back().complete) summary.unknownLines.push_back(static_cast<int>(i));
        if (larder::exemptionOf(poured->facts)) summary.exemptLines.push_back(static_cast<int>(i));
    }
    larder::FactState said;
    said.allergens = allergensSaid(viewOf(spec, bindings), summary.unknownLines, SafetyRules::builtIn());
    parts.push_back(larder::allergensOf(said));
    summary.garnishNotStated = !spec.garnish.empty();
    larder::AllergenReading all = larder::together(parts);
    summary.contains = std::move(all.eu);
    // What a user wrote beyond the list is not lost.
    summary.contains.insert(summary.contains.end(), all.other.begin(), all.other.end());
    summary.containsUs = std::move(all.us);
    summary.mayContainUs = std::move(all.usMayBe);
    const auto& eu = summary.contains;
    summary.sulphitesUnmeasured = std::find(eu.begin(), eu.end(), "sulphites") != eu.end();
    return summary;
}

} // namespace stillroom::spec
