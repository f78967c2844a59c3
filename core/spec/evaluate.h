#pragma once

#include "core/larder/larder.h"
#include "core/larder/price_history.h"
#include "core/physics/composition.h"
#include "core/spec/bench_calibration.h"
#include "core/spec/reading.h"
#include "core/spec/spec.h"

#include <memory>
#include <vector>

namespace stillroom::spec {

// What a house decides once: measures, the currency it counts in, whose standard drink it names.
struct HouseRules {
    quantity::HouseMeasures measures = quantity::HouseMeasures::defaults();
    quantity::Currency currency;
    double standardDrinkGrams = 10; // resources/handbook/servings.json
    // Moves predicted dilutions (calibration.h); typed and measured ones stay as they are.
    std::optional<BenchCalibration> bench = std::nullopt;
    std::string pricesOn = {};                    // civil date that cost is read at; empty: the newest prices
    std::vector<larder::ExchangeRate> rates = {}; // into `currency`, dated
};

// An ingredient's facts turned into masses per ml (per gram when dry), once per fact state, so that an
// evaluation only adds. Defined in prepared_facts.h.
struct PreparedFacts;

// One larder and one house's rules for many specs: what is looked up for an ingredient or a name is looked up
// once. It grows as it is used, so each thread takes its own; the specs may go, what is bound keeps what it
// needs of it.
class BindingHouse {
  public:
    BindingHouse(const larder::Larder& larder, const HouseRules& rules);

    struct Data; // bindings.cpp
    const std::shared_ptr<Data>& data() const { return m_data; }

  private:
    std::shared_ptr<Data> m_data;
};

// A spec bound to the facts of what it pours: the lookups and allocations that evaluation must not do.
// Rebuild when lines name other ingredients or when the larder changes; amounts may change freely.
class Bindings {
  public:
    Bindings(const Spec& spec, const larder::Larder& larder, const HouseRules& rules);
    Bindings(const Spec& spec, const BindingHouse& house);
    Bindings(Bindings&&) noexcept;
    Bindings& operator=(Bindings&&) noexcept;
    ~Bindings();
    const HouseRules& rules() const;
    const PreparedFacts* facts(std::size_t line) const; // nullptr: nothing in the larder answers to it
    const larder::Ingredient* poured(std::size_t line) const;

    struct Data; // bindings.h, for the evaluation's own files
    const Data& data() const { return *m_data; }

  private:
    std::unique_ptr<Data> m_data;
};

// Pure: the same spec and facts give the same readings. No allocation, no words, no lookups by name.
//
// What is counted, and how a reading becomes a bound:
// - Measured: the mixed lines as poured. Mixed: with the water of the method. Served: with what is topped
//   and floated and what stays of a rinse. Cost counts what is poured, at every stage.
// - Optional lines, lines to taste and lines without an amount are in no sum. An amount nobody stated makes
//   sums AtLeast; a concentration becomes AtLeast or AtMost when more of that line could move it one way
//   only, and Unknown when it could move it both ways.
// - A fact nobody stated (strength, sugar, acid) is tried at zero and at the largest it may plausibly be
//   (prepared_facts.h), ranges of amounts at both ends. The spread decides: below half the last digit shown
//   the reading is Exact; from ranges alone Between; from missing facts AtLeast or AtMost, on the side of
//   which is sure, and sugar:acid with both missing Unknown. A fact that a reading needs only for the volume
//   model (sugar for a strength) marks it an estimate while it moves it by less than 2 %.
// - More than six ranged lines: concentrations are bounded by numerator over volume, each at its own end,
//   which is wider than what can really happen.
// - Parts without a target: concentrations hold, sums are Unknown. Another measured line beside them is
//   then weighed against 90 ml of parts a serve, and marked an estimate.
// - Built is over ice unless its words (layered ones too), its glass or a hot line say otherwise: then no
//   water is added.
// - Predicted dilution by Method::dilutionModel: the published curve, or the heat balance of the lines with
//   the ice (an estimate unless shaken with temperatures, mass and wetness of the ice all stated). The
//   bench's own calibration moves either. A balance nobody can strike falls back to the curve, as an
//   estimate.
// - No technique and no ice: no water, Dilution is NotApplicable. Ice without a technique: Unknown.
// Temperature stays Unknown here: it costs more than everything else together. What people see comes from
// evaluateWithTemperatures().
Readings evaluate(const Spec& spec, const Bindings& bindings);
// And the temperature at each stage (temperature.h says how).
Readings evaluateWithTemperatures(const Spec& spec, const Bindings& bindings);
// Binding and reading in one, temperatures included, for callers that read a spec once.
Readings evaluate(const Spec& spec, const larder::Larder& larder, const HouseRules& rules);

// The masses behind the readings of a stage, whole and not per serve, by substance: unknown facts and open
// amounts left out, ranges at their upper end.
physics::Composition compositionOf(const Spec& spec, const Bindings& bindings, Stage stage);

// What one line brings to the whole spec as written (not per serve), for the columns beside it. Unknown
// stays unknown; a range reads Between; what is in no sum (optional, to taste, a garnish but for its price)
// is NotApplicable.
struct Contribution {
    Reading volumeMl, ethanolMl, sugarG, acidG, costMajor;
};
std::vector<Contribution> contributions(const Spec& spec, const Bindings& bindings);

// The words' raw material: which facts are missing, line by line, in line order.
std::vector<Gap> gaps(const Spec& spec, const Bindings& bindings);

} // namespace stillroom::spec
