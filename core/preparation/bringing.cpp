#include "core/preparation/bringing.h"

#include "core/physics/blending.h"
#include "core/physics/conversions/conversion_kit.h"
#include "core/physics/mixture.h"
#include "core/physics/solubility.h"
#include "core/physics/sucrose_water.h"
#include "core/physics/titratable_acid.h"
#include "core/preparation/adding.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace stillroom::preparation {

using physics::Composition;
using physics::GivenValues;
using physics::Substance;
using quantity::Mass;
using quantity::MassFraction;
using quantity::Strength;
using quantity::Volume;
using N = physics::InputNeed;

namespace {

physics::Outcome checked(const GivenValues&) {
    return physics::Answer();
}

physics::ConversionInput amountInput() {
    return {"amount", "So much of it", "ml", N::Optional, 0, 1e6, true, 1000.0};
}
physics::ConversionInput scaleInput() {
    return {"scale", "The scale tells apart", "g", N::Optional, 0, 100, true, 0.1};
}

std::vector<Bringing> all() {
    std::vector<Bringing> list;
    list.push_back(
        {{"acid",
          "A juice to the acid of another",
          {amountInput(), scaleInput()},
          {},
          "conservation of mass; volumes from ICUMSA SPS-4 and published densities of the acids",
          "Acid by acid, so that the finished liquid holds as much of each per litre. The trade subtracts "
          "round "
          "figures, by weight (lime 40 g citric and 20 g malic, orange 8 g citric); here acid is counted as "
          "citric, of which 60 g/l in lime are 40.6 g citric and 20.3 g malic by weight; and what is added "
          "takes room of its own and thins the rest.",
          checked},
         Target::Acid});
    list.push_back({{"brix",
                     "A syrup to a Brix",
                     {{"brix", "Brix wanted", "°Bx", N::Required, 0, 85, true},
                      {"by",
                       "Upwards by",
                       "",
                       N::Optional,
                       0,
                       0,
                       false,
                       std::nullopt,
                       {{"sugar", "adding sugar"}, {"boiling", "boiling water off"}},
                       "sugar"},
                      amountInput(),
                      scaleInput()},
                     {},
                     "conservation of mass",
                     "Downwards always with water. Above 67 °Bx sugar comes out again in the cold.",
                     checked},
                    Target::Brix});
    list.push_back(
        {{"strength",
          "An infusion to a strength",
          {{"abv", "Strength wanted", "% vol", N::Required, 0, 97, true}, amountInput(), scaleInput()},
          {},
          "OIML R 22: what is mixed shrinks, so volumes alone do not say it",
          "Downwards with water, upwards with something stronger. At 20 °C.",
          checked},
         Target::Strength});
    list.push_back({{"cordial",
                     "A cordial to its sugar and its acid at once",
                     {{"sugar", "Sugar wanted", "g/l", N::Required, 0, 999},
                      {"acid", "Acid wanted, as citric", "g/l", N::Required, 0, 300},
                      {"powder",
                       "Made sour with",
                       "",
                       N::Optional,
                       0,
                       0,
                       false,
                       std::nullopt,
                       {{"citric", "citric acid"},
                        {"malic", "malic acid"},
                        {"tartaric", "tartaric acid"},
                        {"lactic", "lactic acid"}},
                       "citric"},
                      amountInput(),
                      scaleInput()},
                     {},
                     "conservation of mass; acids by their equivalents",
                     "Both at once, since each thins the other. White sugar.",
                     checked},
                    Target::SugarAndAcid});
    return list;
}

class Bringer {
  public:
    Bringer(const GivenValues& given, const BringAsk& ask, const larder::Larder& larder,
            const spec::HouseRules& rules)
        : m_given(given),
          m_ask(ask),
          m_larder(larder),
          m_rules(rules) {}

    tl::expected<Brought, BringProblem> to(Target target) {
        const auto before = made(m_ask.base);
        if (!before || !(before->mass.grams() > 0)) return refused(BringProblem::NothingThere);
        if (before->facts.dry || !(before->yield.ml() > 0)) return refused(BringProblem::Dry);
        m_brought.before = *before;
        if (const auto problem = work(target)) return refused(*problem);
        if (!put()) return refused(BringProblem::NoPowder);
        const auto after = made(m_brought.spec);
        if (!after) return refused(BringProblem::OutOfReach);
        m_brought.after = *after;
        if (physics::neverDissolved(after->composition)) return refused(BringProblem::OutOfReach);
        m_brought.crystals = physics::undissolvedRemark(after->composition);
        weigh();
        return m_brought;
    }

  private:
    using Problem = std::optional<BringProblem>;
    static tl::unexpected<BringProblem> refused(BringProblem problem) { return tl::unexpected(problem); }

    std::optional<Made> made(const spec::Spec& spec) const {
        return make(spec, spec::Bindings(spec, m_larder, m_rules), yieldOf(spec));
    }
    const Composition& from() const { return m_brought.before.composition; }

    Problem work(Target target) {
        switch (target) {
        case Target::Acid:
            return acid();
        case Target::Brix:
            return brix();
        case Target::Strength:
            return strength();
        case Target::SugarAndAcid:
            return cordial();
        }
        return std::nullopt;
    }

    void powder(Substance substance, Mass mass, std::optional<double> byDifference = std::nullopt) {
        m_powders.push_back({substance, mass, byDifference});
    }

    Problem acid() {
        if (!m_brought.before.facts.acidGPerL) return BringProblem::AcidUnknown;
        if (!m_ask.like) return BringProblem::NoLike;
        const auto* like = m_larder.poured(*m_ask.like);
        if (like == nullptr || !like->facts.acidGPerL || !(like->facts.acidGPerL->typical > 0))
            return BringProblem::LikeUnknown;
        const auto target = compositionOfIngredient(*m_ask.like, m_larder, m_rules);
        if (!target) return BringProblem::LikeUnknown;
        const auto way = acidToMatch(from(), *target);
        if (!way) return BringProblem::OutOfReach;
        m_brought.over = way->over;
        m_brought.thereAlready = way->add.empty();
        for (const auto& [substance, mass] : way->add) {
            std::optional<double> plain;
            for (const auto& [other, difference] : way->byDifference)
                if (other == substance) plain = difference.grams();
            powder(substance, mass, plain);
        }
        return std::nullopt;
    }

    Problem brix() {
        if (!m_brought.before.facts.sugarGPerL) return BringProblem::SugarUnknown;
        const auto way = toBrix(from(), m_given.percent("brix"));
        if (!way) return BringProblem::OutOfReach;
        if (way->addWater) {
            m_water = way->addWater;
        } else if (m_given.word("by") == "boiling" && way->addSugar) {
            if (!way->boilOff) return BringProblem::OutOfReach;
            m_brought.boilOff = way->boilOff;
        } else if (way->addSugar) {
            powder(Substance::Sucrose, *way->addSugar);
        } else {
            m_brought.thereAlready = true;
        }
        return std::nullopt;
    }

    Problem strength() {
        if (!m_brought.before.facts.abvPercent) return BringProblem::StrengthUnknown;
        const auto target = m_given.strength("abv");
        const auto now = physics::strengthAt20(from());
        if (!now) return BringProblem::StrengthUnknown;
        Composition stronger;
        if (*now < target) {
            if (!m_ask.stronger) return BringProblem::NoStronger;
            const auto* known = m_larder.poured(*m_ask.stronger);
            const auto holds = compositionOfIngredient(*m_ask.stronger, m_larder, m_rules);
            if (known == nullptr || !holds || !known->facts.abvPercent) return BringProblem::StrongerUnknown;
            if (!(known->facts.abvPercent->typical > target.percentVol())) return BringProblem::NotStronger;
            stronger = *holds;
            m_strongerName = known->name;
        }
        const auto way = toStrength(from(), target, stronger);
        if (!way) return BringProblem::OutOfReach;
        m_water = way->addWater;
        m_spirit = way->addSpirit;
        m_brought.thereAlready = m_water && m_water->grams() < kLeast;
        return std::nullopt;
    }

    Problem cordial() {
        if (!m_brought.before.facts.sugarGPerL) return BringProblem::SugarUnknown;
        if (!m_brought.before.facts.acidGPerL) return BringProblem::AcidUnknown;
        const auto sour = larder::substanceFromId(m_given.word("powder"));
        if (!sour) return BringProblem::NoPowder;
        const double litres = m_brought.before.yield.ml() / 1000;
        const auto& facts = m_brought.before.facts;
        const double sugar = m_given["sugar"];
        const double acid = m_given["acid"];
        const auto way = toSugarAndAcid(from(), sugar, acid, *sour);
        if (!way) {
            const bool more = facts.sugarGPerL->typical > sugar || facts.acidGPerL->typical > acid;
            return more && litres > 0 ? BringProblem::MoreThanThat : BringProblem::OutOfReach;
        }
        if (way->sugar.grams() >= kLeast) powder(Substance::Sucrose, way->sugar);
        if (way->acid.grams() >= kLeast) powder(*sour, way->acid);
        m_brought.thereAlready = m_powders.empty();
        return std::nullopt;
    }

    // Writes it all into the spec. False: there is no such thing in the larder.
    bool put() {
        std::vector<spec::Line> lines;
        const auto take = [&](spec::Line line, double amount, bool liquid,
                              std::optional<double> byDifference) {
            const double hundredths = std::round(amount * 100) / 100;
            m_brought.doses.push_back({line.name, hundredths, liquid, byDifference});
            lines.push_back(std::move(line));
        };
        for (Powder& each : m_powders) {
            const auto name = nameOfSubstance(each.substance);
            const auto pure = purity(m_larder.match(name).ingredient, each.substance);
            if (!pure) return false;
            each.mass = each.mass * (1 / *pure);
            if (each.byDifference) *each.byDifference /= *pure;
            take(dryLine(name, each.mass, m_larder), each.mass.grams(), false, each.byDifference);
        }
        if (m_water && m_water->grams() >= kLeast) {
            const auto ml = *m_water / physics::waterDensity(quantity::Temperature::fromCelsius(20));
            take(liquidLine("water", ml, m_larder), ml.ml(), true, std::nullopt);
        }
        if (m_spirit) {
            auto line = liquidLine(m_strongerName, *m_spirit, m_larder);
            line.ingredient = m_ask.stronger;
            take(std::move(line), m_spirit->ml(), true, std::nullopt);
        }
        m_brought.spec =
            m_brought.boilOff ? withBoiledOff(m_ask.base, *m_brought.boilOff) : withAdded(m_ask.base, lines);
        return true;
    }

    // Of so many g of what is weighed, the share that is the substance: lactic acid is sold as a solution.
    std::optional<double> purity(base::IngredientId id, Substance substance) const {
        const auto* known = m_larder.poured(id);
        if (known == nullptr) return std::nullopt;
        const auto& facts = known->facts;
        const auto& fact = substance == Substance::Sucrose ? facts.sugarGPerL : facts.acidGPerL;
        if (!fact || !(facts.dry || facts.densityKgPerM3)) return std::nullopt;
        const double perKg = facts.dry ? fact->typical : fact->typical / facts.densityKgPerM3->typical * 1000;
        const double factor = substance == Substance::Sucrose ? 1 : physics::gramsPerGramCitric(substance);
        const double share = perKg / 1000 * factor;
        constexpr double kThinnest = 0.05; // below that it is no powder or concentrate of it
        return share >= kThinnest ? std::optional(std::min(share, 1.0)) : std::nullopt;
    }

    void weigh() {
        std::vector<double> perLitre;
        for (const Powder& each : m_powders)
            perLitre.push_back(each.mass.grams() / (m_brought.before.yield.ml() / 1000));
        if (perLitre.empty()) return; // liquids are measured, not weighed
        m_brought.smallest = smallestBatch(perLitre, Mass::fromGrams(m_given["scale"]));
        m_brought.smallestAtTenthGram = smallestBatch(perLitre, Mass::fromGrams(0.1));
        m_brought.smallestAtGram = smallestBatch(perLitre, Mass::fromGrams(1));
    }

    static constexpr double kLeast = 0.005; // g: rounds to nothing
    struct Powder {
        Substance substance;
        Mass mass;
        std::optional<double> byDifference;
    };
    const GivenValues& m_given;
    const BringAsk& m_ask;
    const larder::Larder& m_larder;
    const spec::HouseRules& m_rules;
    std::vector<Powder> m_powders;
    std::optional<Mass> m_water;
    std::optional<Volume> m_spirit;
    std::string m_strongerName;
    Brought m_brought;
};

} // namespace

const std::vector<Bringing>& bringings() {
    static const std::vector<Bringing> list = all();
    return list;
}

Bringing bringingFor(const Bringing& bringing, bool ownAmount, Mass scaleStep) {
    Bringing own = bringing;
    auto& inputs = own.form.inputs;
    if (ownAmount) std::erase_if(inputs, [](const auto& input) { return input.key == "amount"; });
    for (auto& input : inputs)
        if (input.key == "scale" && scaleStep.grams() > 0 && scaleStep.grams() <= input.high)
            input.standing = scaleStep.grams();
    return own;
}

spec::Spec baseOf(base::IngredientId ingredient, Volume amount, const larder::Larder& larder) {
    spec::Spec base;
    if (const auto* known = larder.find(ingredient)) {
        base.lines = {liquidLine(known->name, amount, larder)};
        base.lines[0].ingredient = ingredient; // of that name there may be another
    }
    return base;
}

tl::expected<Brought, BringProblem> bring(const Bringing& bringing, const physics::ConversionValues& values,
                                          const BringAsk& ask, const larder::Larder& larder,
                                          const spec::HouseRules& rules) {
    if (!physics::convert(bringing.form, values)) return tl::unexpected(BringProblem::OutOfReach);
    return Bringer(GivenValues(bringing.form, values), ask, larder, rules).to(bringing.target);
}

std::string_view bringProblemId(BringProblem problem) {
    static constexpr std::array<std::string_view, 13> kIds{
        "nothing_there",  "dry",          "acid_unknown", "sugar_unknown",    "strength_unknown",
        "no_like",        "like_unknown", "no_stronger",  "stronger_unknown", "not_stronger",
        "more_than_that", "out_of_reach", "no_powder"};
    return kIds[static_cast<std::size_t>(problem)];
}

} // namespace stillroom::preparation
