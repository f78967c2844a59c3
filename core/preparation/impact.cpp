#include "core/preparation/impact.h"

#include <algorithm>
#include <cmath>
#include <thread>
#include <unordered_set>

namespace stillroom::preparation {

using base::IngredientId;
using spec::Bound;
using spec::Quantity;
using spec::Reading;
using spec::Stage;
using spec::StageReadings;

namespace {

using Differing = std::unordered_set<IngredientId>;

bool says(const Reading& reading) {
    return reading.bound != Bound::Unknown && reading.bound != Bound::NotApplicable;
}

double shownHalf(Quantity quantity) {
    return 0.5 * std::pow(10.0, -spec::quantityDecimals(quantity));
}

// How two ends differ: by how much, and whether that can be seen.
struct Moved {
    double relative = 0;
    bool seen = false;
};

Moved moved(double before, double after, double half) {
    const double apart = std::abs(after - before);
    const double larger = std::max(std::abs(before), std::abs(after));
    return {larger > 0 ? apart / larger : 0, apart >= half};
}

Moved moved(const Reading& before, const Reading& after, Quantity quantity) {
    if (says(before) != says(after)) return {1, true};
    if (!says(before)) return {};
    const double half = shownHalf(quantity);
    const auto top = [](const Reading& r) { return r.bound == Bound::Between ? r.upper : r.value; };
    const Moved low = moved(before.value, after.value, half);
    const Moved high = moved(top(before), top(after), half);
    return {std::max(low.relative, high.relative), low.seen || high.seen};
}

bool sameNumber(const Reading& a, const Reading& b) {
    return a.bound == b.bound && a.value == b.value && a.upper == b.upper;
}

std::vector<std::string> without(const std::vector<std::string>& all, const std::vector<std::string>& some) {
    std::vector<std::string> rest;
    for (const std::string& one : all)
        if (std::find(some.begin(), some.end(), one) == some.end()) rest.push_back(one);
    return rest;
}

bool allergensDiffer(const larder::FactState& a, const larder::FactState& b) {
    return a.allergens != b.allergens || a.tags != b.tags;
}

bool sameBench(const std::optional<spec::BenchCalibration>& a,
               const std::optional<spec::BenchCalibration>& b) {
    if (!a || !b) return a.has_value() == b.has_value();
    return std::equal(a->byTechnique.begin(), a->byTechnique.end(), b->byTechnique.begin(),
                      [](const physics::Calibration& x, const physics::Calibration& y) {
                          return x.measurements == y.measurements && x.factor == y.factor;
                      });
}

bool rulesDiffer(const spec::HouseRules& a, const spec::HouseRules& b) {
    return !(a.measures == b.measures && a.currency == b.currency && a.pricesOn == b.pricesOn &&
             a.rates == b.rates && a.standardDrinkGrams == b.standardDrinkGrams &&
             sameBench(a.bench, b.bench));
}

// What two larders and their rules differ in.
struct Question {
    bool everything = false; // the rules differ: no drink is left out
    bool allergens = false;
    Differing ingredients;
};

Question questionOf(const Side& before, const Side& after) {
    Question question;
    question.everything = rulesDiffer(before.rules, after.rules);
    for (const IngredientId id : differing(before.larder, after.larder)) {
        question.ingredients.insert(id);
        const auto* was = before.larder.poured(id);
        const auto* is = after.larder.poured(id);
        question.allergens |= was == nullptr || is == nullptr || allergensDiffer(was->facts, is->facts);
    }
    return question;
}

class Reader {
  public:
    Reader(const Side& before, const Side& after, const Question& question)
        : m_before(before.larder, before.rules),
          m_after(after.larder, after.rules),
          m_question(question) {}

    void read(std::size_t index, const ImpactSubject& subject, Impacts& into) const {
        if (subject.spec == nullptr) {
            ++into.unread;
            return;
        }
        // A stored reading may be of another program or of facts long gone: it is always compared.
        if (subject.stored == nullptr && !touches(*subject.spec)) {
            ++into.untouched;
            return;
        }
        compare(index, subject, into);
    }

  private:
    bool touches(const spec::Spec& spec) const {
        if (m_question.everything) return true;
        return std::any_of(spec.lines.begin(), spec.lines.end(), [this](const spec::Line& line) {
            return line.ingredient && m_question.ingredients.count(*line.ingredient) > 0;
        });
    }

    void compare(std::size_t index, const ImpactSubject& subject, Impacts& into) const {
        const spec::Spec& drink = *subject.spec;
        const spec::Bindings before(drink, m_before);
        const spec::Bindings after(drink, m_after);
        Impact found;
        found.subject = index;
        found.before = subject.stored != nullptr ? (*subject.stored)[Stage::Served]
                                                 : spec::evaluate(drink, before)[Stage::Served];
        found.after = spec::evaluate(drink, after)[Stage::Served];
        bool seen = false;
        bool same = true;
        for (const Quantity quantity : kCompared) {
            const Moved one = moved(found.before[quantity], found.after[quantity], quantity);
            found.size = std::max(found.size, one.relative);
            seen |= one.seen;
            same &= sameNumber(found.before[quantity], found.after[quantity]);
        }
        if (m_question.allergens) seen |= compareAllergens(drink, before, after, found);
        if (seen)
            into.changed.push_back(std::move(found));
        else
            ++(same ? into.unchanged : into.tooSmallToSee);
    }

    static bool compareAllergens(const spec::Spec& drink, const spec::Bindings& before,
                                 const spec::Bindings& after, Impact& found) {
        const auto was = spec::allergens(drink, before);
        const auto is = spec::allergens(drink, after);
        found.allergensGained = without(is.contains, was.contains);
        found.allergensLost = without(was.contains, is.contains);
        found.unknownAllergensBefore = static_cast<int>(was.unknownLines.size());
        found.unknownAllergensAfter = static_cast<int>(is.unknownLines.size());
        return !found.allergensGained.empty() || !found.allergensLost.empty() ||
               was.unknownLines != is.unknownLines;
    }

    spec::BindingHouse m_before, m_after;
    const Question& m_question;
};

bool isSet(const std::atomic<bool>* cancel) {
    return cancel != nullptr && cancel->load(std::memory_order_relaxed);
}

// work(first, last, part) over parts of 0…count, on all cores; `part` numbers them in order.
template <class Work>
void inParts(std::size_t count, std::size_t parts, const Work& work) {
    const std::size_t each = (count + parts - 1) / parts;
    std::vector<std::thread> others;
    for (std::size_t part = 1; part < parts; ++part)
        others.emplace_back(
            [&, part] { work(std::min(part * each, count), std::min((part + 1) * each, count), part); });
    work(0, std::min(each, count), 0);
    for (std::thread& other : others)
        other.join();
}

std::size_t partsFor(std::size_t count) {
    constexpr std::size_t kWorthAThread = 500; // specs: a few milliseconds of work
    const std::size_t cores = std::clamp(std::thread::hardware_concurrency(), 1u, 8u);
    return std::clamp<std::size_t>(count / kWorthAThread, 1, cores);
}

bool isFirst(const Impact& a, const Impact& b) {
    const auto gainedOrLost = [](const Impact& i) {
        return !i.allergensGained.empty() || !i.allergensLost.empty();
    };
    if (gainedOrLost(a) != gainedOrLost(b)) return gainedOrLost(a);
    return a.size != b.size ? a.size > b.size : a.subject < b.subject;
}

void append(Impacts& all, Impacts&& part) {
    all.changed.insert(all.changed.end(), std::make_move_iterator(part.changed.begin()),
                       std::make_move_iterator(part.changed.end()));
    all.tooSmallToSee += part.tooSmallToSee;
    all.unchanged += part.unchanged;
    all.untouched += part.untouched;
    all.unread += part.unread;
    all.complete &= part.complete;
}

} // namespace

std::vector<IngredientId> differing(const larder::Larder& before, const larder::Larder& after) {
    std::vector<IngredientId> found;
    // Both larders as a rule share what neither changed: then no fact needs to be compared. A price may have
    // moved where it is got from another, to any depth.
    std::unordered_set<IngredientId> seen;
    const auto differs = [&](IngredientId id) {
        const auto* was = before.poured(id);
        const auto* is = after.poured(id);
        if (was == is) return false;
        return was == nullptr || is == nullptr || *was != *is;
    };
    for (const larder::Larder* side : {&before, &after})
        for (const larder::Ingredient* each : side->all())
            if (seen.insert(each->id).second && differs(each->id)) found.push_back(each->id);
    std::unordered_set<IngredientId> known(found.begin(), found.end());
    for (std::size_t next = 0; next < found.size(); ++next)
        for (const larder::Larder* side : {&before, &after})
            for (const larder::Ingredient* taker : side->gotFrom(found[next]))
                if (known.insert(taker->id).second) found.push_back(taker->id);
    return found;
}

Impacts impact(const Side& before, const Side& after, const std::vector<ImpactSubject>& subjects,
               const std::atomic<bool>* cancel) {
    const Question question = questionOf(before, after);
    const std::size_t parts = partsFor(subjects.size());
    std::vector<Impacts> results(parts);
    inParts(subjects.size(), parts, [&](std::size_t first, std::size_t last, std::size_t part) {
        const Reader reader(before, after, question);
        for (std::size_t i = first; i < last; ++i) {
            if (isSet(cancel)) {
                results[part].complete = false;
                return;
            }
            reader.read(i, subjects[i], results[part]);
        }
    });
    Impacts all;
    for (Impacts& part : results)
        append(all, std::move(part));
    std::sort(all.changed.begin(), all.changed.end(), isFirst);
    return all;
}

CautionChange cautionChange(const Side& before, const Side& after, const spec::Spec& drink) {
    const auto of = [&](const Side& side) {
        const spec::Bindings bindings(drink, side.larder, side.rules);
        return spec::cautions(drink, bindings, spec::evaluateWithTemperatures(drink, bindings));
    };
    const auto missing = [](const std::vector<spec::Caution>& from, const std::vector<spec::Caution>& in) {
        std::vector<spec::Caution> rest;
        for (const spec::Caution& one : from)
            if (std::none_of(in.begin(), in.end(), [&](const spec::Caution& c) { return c.id == one.id; }))
                rest.push_back(one);
        return rest;
    };
    const auto was = of(before);
    const auto is = of(after);
    return {missing(is, was), missing(was, is)};
}

std::vector<std::optional<spec::Spec>> readSpecs(const std::vector<std::string>& texts,
                                                 const std::atomic<bool>* cancel) {
    std::vector<std::optional<spec::Spec>> specs(texts.size());
    inParts(texts.size(), partsFor(texts.size()), [&](std::size_t first, std::size_t last, std::size_t) {
        for (std::size_t i = first; i < last && !isSet(cancel); ++i)
            specs[i] = spec::Spec::fromCanonicalJson(texts[i]);
    });
    return specs;
}

} // namespace stillroom::preparation
