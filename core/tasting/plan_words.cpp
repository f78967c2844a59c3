#include "core/tasting/panel_words.h"
#include "core/tasting/phrases.h"

#include <fmt/format.h>

namespace stillroom::tasting {

namespace {

using Sentences = std::vector<std::string>;

class Planner {
  public:
    explicit Planner(const PanelPlan& plan) : m_plan(plan) {}

    Sentences write() {
        std::visit([this](const auto& plan) { say(plan); }, m_plan.plan);
        sayPouring();
        return std::move(m_sentences);
    }

  private:
    void add(std::string sentence) { m_sentences.push_back(std::move(sentence)); }

    std::string_view sought() const {
        if (m_plan.kind == PanelKind::PairedPreference) return "preference";
        if (m_plan.kind == PanelKind::JustAboutRight) return "lean to one side";
        return "difference";
    }

    std::string_view agreeing() const {
        switch (m_plan.kind) {
        case PanelKind::Triangle:
        case PanelKind::DuoTrio:
            return "right";
        case PanelKind::JustAboutRight:
            return "on one side";
        default:
            return "agreeing";
        }
    }

    void say(const ChoicePlan& plan) {
        const std::string level = percent(plan.alpha);
        const std::string_view sides = isTwoSided(plan.test) ? ", two-sided" : "";
        if (!plan.needed)
            add(fmt::format("{} cannot show a {} at {}{}, however they answer: it takes {} or more.",
                            counted(plan.tasters, "taster", "tasters"), sought(), level, sides, plan.fewest));
        else
            add(fmt::format("{}: {} {} needed at {}{}.", counted(plan.tasters, "taster", "tasters"),
                            *plan.needed, agreeing(), level, sides));
        if (plan.needed) sayPower(plan);
        if (plan.assumedShare) sayAssumed(plan);
    }

    void sayPower(const ChoicePlan& plan) {
        const std::string power = percent(plan.wantedPower);
        if (!plan.shareFound)
            return add(
                fmt::format("Even if everyone perceives it, they show it in less than {} of panels.", power));
        if (isTwoSided(plan.test))
            return add(fmt::format("They show it in {} of panels only if about {} of people choose alike.",
                                   power, percent(chanceOfRightAnswer(plan.test, *plan.shareFound))));
        add(fmt::format("{} power only if about {} of people perceive it.", power,
                        percent(*plan.shareFound)));
    }

    void sayAssumed(const ChoicePlan& plan) {
        std::string text = fmt::format("If {} of people can tell, this panel shows it {} of the time",
                                       percent(*plan.assumedShare), percent(plan.powerAtAssumed.value_or(0)));
        if (plan.neededAtAssumed)
            text +=
                fmt::format("; {} need {} tasters", percent(plan.wantedPower), plan.neededAtAssumed->steady);
        else
            text += fmt::format("; not even {} tasters reach {}", kLargestPanel, percent(plan.wantedPower));
        add(text + ".");
    }

    void say(const RankingPlan& plan) {
        sayDiffer(plan);
        if (plan.foretold) sayForetold(*plan.foretold);
    }

    // L runs from everyone against the order foretold to everyone as foretold.
    void sayForetold(const PageCritical& critical) {
        const std::string level = percent(m_plan.alpha);
        const int p = m_plan.products;
        if (!critical.statistic)
            return add(fmt::format("Not even all of them in the order foretold would show it at {}.", level));
        add(fmt::format("The order foretold is shown at {} from L = {:g} on, of at most {}: one-sided, so it "
                        "takes less than showing that they differ at all.",
                        level, *critical.statistic, m_plan.tasters * p * (p + 1) * (2 * p + 1) / 6));
    }

    void sayDiffer(const RankingPlan& plan) {
        const std::string level = percent(m_plan.alpha);
        if (!plan.critical.statistic) {
            std::string text =
                fmt::format("{} cannot show that {} products differ at {}, however they rank them",
                            counted(m_plan.tasters, "taster", "tasters"), m_plan.products, level);
            if (plan.fewest) text += fmt::format(": it takes {} or more", *plan.fewest);
            return add(text + ".");
        }
        add(fmt::format("{} ranking {} products: F must reach {:.2f} at {}{}.",
                        counted(m_plan.tasters, "taster", "tasters"), m_plan.products,
                        *plan.critical.statistic, level, plan.critical.exact ? "" : " (chi-square)"));
        add(fmt::format("Two rank sums must then lie {:.1f} apart, of at most {}.", plan.leastDifference,
                        m_plan.tasters * (m_plan.products - 1)));
    }

    void say(const ScorePlan& plan) {
        if (!plan.halfWidth) return add("One taster's score says nothing of anyone else's.");
        add(fmt::format(
            "{}: a mean will be known to about ±{:.1f} (95 %), if scores spread as usual (deviation {:.1f}).",
            counted(m_plan.tasters, "taster", "tasters"), *plan.halfWidth, plan.deviation));
    }

    void sayPouring() {
        std::string text = fmt::format("{} to pour", counted(m_plan.cups, "cup", "cups"));
        if (m_plan.tasters % m_plan.fullBlock != 0)
            text += fmt::format("; orders are fully balanced for {}, {}, … tasters", m_plan.fullBlock,
                                2 * m_plan.fullBlock);
        add(text + ".");
    }

    const PanelPlan& m_plan;
    Sentences m_sentences;
};

} // namespace

std::vector<std::string> inWords(const PanelPlan& plan) {
    return Planner(plan).write();
}

} // namespace stillroom::tasting
