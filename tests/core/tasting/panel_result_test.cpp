#include "core/tasting/panel_result.h"

#include "core/tasting/panel_words.h"
#include "core/tasting/serving_order.h"
#include "tests/core/tasting/panel_support.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>

using namespace stillroom;
using namespace stillroom::tasting;
using namespace stillroom::tasting::test;

namespace {

const std::vector<std::string> kNames{"draft one", "draft two", "draft three", "draft four", "draft five"};

// The sentence at `index`, or what there is instead.
std::string sentence(const PanelResult& found, std::size_t index) {
    const auto all = inWords(found, kNames);
    return index < all.size() ? all[index] : "only " + std::to_string(all.size()) + " sentences";
}

std::string lastSentence(const PanelResult& found) {
    return inWords(found, kNames).back();
}

} // namespace

TEST_CASE("A result is refused until the panel is closed", "[tasting][panel]") {
    const auto designed = designPanel(designOf(PanelKind::Triangle, 12)).value();
    CHECK(result(designed).error() == PanelError::NotClosed);
    const auto open = startPouring(designed).value();
    CHECK(result(open).error() == PanelError::NotClosed);
    CHECK(result(closePanel(open).value()));
    auto broken = closePanel(open).value();
    broken.servings.pop_back();
    CHECK(result(broken).error() == PanelError::Malformed);
}

TEST_CASE("Seven of twelve do not find the odd one and eight do", "[tasting][panel]") {
    for (const int right : {7, 8}) {
        const auto found = closedChoice(designOf(PanelKind::Triangle, 12), right, 12);
        const auto& choice = std::get<ChoiceResult>(found.found);
        CHECK(choice.answers == 12);
        CHECK(choice.count == right);
        CHECK(choice.needed == 8);
        CHECK(choice.finding == (right == 8 ? Finding::Shown : Finding::NotShown));
        CHECK(found.whole == 12);
        CHECK(found.missing == 0);
    }
    const auto seven = closedChoice(designOf(PanelKind::Triangle, 12), 7, 12);
    CHECK(sentence(seven, 0) == "7 of 12 found the odd one; 8 are needed at 5 %: a difference is not shown. "
                                "That is not the same as no difference.");
    CHECK(sentence(seven, 1) == "Chance alone would do as much in 6.6 % of such panels.");
    CHECK(sentence(seven, 2) == "Up to 73 % of people may still be able to tell (95 % certainty).");
    CHECK(sentence(seven, 3) ==
          "So few find a difference reliably (80 % power) only if about 60 % of people perceive it.");
    const auto eight = closedChoice(designOf(PanelKind::Triangle, 12), 8, 12);
    CHECK(sentence(eight, 0) == "8 of 12 found the odd one; 8 are needed at 5 %: a difference is shown.");
}

TEST_CASE("Missing answers are counted and never guessed", "[tasting][panel]") {
    const auto found = closedChoice(designOf(PanelKind::Triangle, 12), 6, 9);
    const auto& choice = std::get<ChoiceResult>(found.found);
    CHECK(choice.answers == 9);
    CHECK(choice.needed == 6); // of nine, not of twelve
    CHECK(choice.finding == Finding::Shown);
    CHECK(found.tasters == 12);
    CHECK(found.whole == 9);
    CHECK(found.missing == 3);
    CHECK(lastSentence(found) == "3 of 12 tasters gave no answer: left out, not guessed.");
    const auto none = closedChoice(designOf(PanelKind::Triangle, 4), 0, 0);
    CHECK(std::get<ChoiceResult>(none.found).finding == Finding::NoAnswers);
    CHECK(sentence(none, 0) == "No answer came in, so nothing can be said.");
    const auto two = closedChoice(designOf(PanelKind::Triangle, 4), 2, 2);
    CHECK(std::get<ChoiceResult>(two.found).finding == Finding::CannotBeShown);
}

TEST_CASE("Duo-trio counts the cups like the reference", "[tasting][panel]") {
    const auto found = closedChoice(designOf(PanelKind::DuoTrio, 40), 21, 40);
    const auto& choice = std::get<ChoiceResult>(found.found);
    CHECK(choice.count == 21);
    CHECK(choice.needed == 26); // the published example
    CHECK(choice.finding == Finding::NotShown);
}

TEST_CASE("A preference is two-sided and five tasters cannot show one", "[tasting][panel]") {
    auto design = designOf(PanelKind::PairedPreference, 5);
    const auto five = closedChoice(design, 5, 5, 1);
    const auto& all = std::get<ChoiceResult>(five.found);
    CHECK(all.byProduct == std::vector<int>{0, 5});
    CHECK(all.more == 1U);
    CHECK(all.chance == Approx(0.0625));
    CHECK(all.finding == Finding::CannotBeShown);
    CHECK(sentence(five, 0) == "5 of 5 preferred draft two; 5 answers cannot show a preference at 5 %, "
                               "two-sided, however they fall: it takes 6 or more.");
    design = designOf(PanelKind::PairedPreference, 12);
    CHECK(std::get<ChoiceResult>(closedChoice(design, 9, 12).found).finding == Finding::NotShown);
    CHECK(std::get<ChoiceResult>(closedChoice(design, 10, 12).found).finding == Finding::Shown);
    const auto even = closedChoice(design, 6, 12);
    CHECK_FALSE(std::get<ChoiceResult>(even.found).more);
    CHECK(std::get<ChoiceResult>(even.found).chance == 1);
    CHECK(sentence(even, 0).find("6 each") != std::string::npos);
}

TEST_CASE("A foretold difference is one-sided and counts the foretold product", "[tasting][panel]") {
    auto design = designOf(PanelKind::PairedDifference, 12);
    design.foretold = {1};
    const auto found = closedChoice(design, 10, 12, 1);
    CHECK(std::get<ChoiceResult>(found.found).test == ChoiceTest::PairedForetold);
    CHECK(std::get<ChoiceResult>(found.found).needed == 10);
    CHECK(sentence(found, 0) ==
          "10 of 12 found more sweetness in draft two; 10 are needed at 5 %: a difference is shown.");
    // Everyone the other way is not what was foretold.
    const auto other = closedChoice(design, 12, 12, 0);
    CHECK(std::get<ChoiceResult>(other.found).count == 0);
    CHECK(std::get<ChoiceResult>(other.found).finding == Finding::NotShown);
}

TEST_CASE("A count below chance is named and bounds nobody's ability", "[tasting][panel]") {
    const auto holds = [](const PanelResult& result, const std::string& part) {
        const auto words = inWords(result, kNames);
        return std::any_of(words.begin(), words.end(),
                           [&](const std::string& text) { return text.find(part) != std::string::npos; });
    };
    auto design = designOf(PanelKind::PairedDifference, 12);
    design.foretold = {1};
    const auto reversed = closedChoice(design, 2, 12, 1);
    CHECK(std::get<ChoiceResult>(reversed.found).belowChance);
    CHECK_FALSE(std::get<ChoiceResult>(reversed.found).share);
    CHECK(holds(reversed, "10 of 12 found more sweetness in draft one: not what was foretold"));
    CHECK_FALSE(holds(reversed, "may still be able to tell"));
    // At or above chance nothing is reversed and the bound stands.
    const auto even = closedChoice(design, 6, 12, 1);
    CHECK_FALSE(std::get<ChoiceResult>(even.found).belowChance);
    CHECK_FALSE(holds(even, "foretold"));
    CHECK(holds(even, "may still be able to tell"));
    // Too few to show anything, and the other way: both are said.
    auto few = designOf(PanelKind::PairedDifference, 4);
    few.foretold = {1};
    CHECK(holds(closedChoice(few, 0, 4, 1), "4 of 4 found more sweetness in draft one"));

    // In a triangle one right of fifteen comes by guessing in 1.9 % of panels: (2/3)^15 +
    // 15 (1/3)(2/3)^14 = 0.0194.
    const auto misled = closedChoice(designOf(PanelKind::Triangle, 15), 1, 15);
    CHECK(std::get<ChoiceResult>(misled.found).soFew == Approx(0.019411).epsilon(1e-3));
    CHECK_FALSE(std::get<ChoiceResult>(misled.found).share);
    CHECK(holds(misled, "fewer than guessing gives (5.0 of 15)"));
    CHECK_FALSE(holds(misled, "may still be able to tell"));
    // Four of fifteen is what guessing often gives: the bound is what a similarity test goes by.
    const auto usual = closedChoice(designOf(PanelKind::Triangle, 15), 4, 15);
    CHECK(std::get<ChoiceResult>(usual.found).belowChance);
    CHECK(std::get<ChoiceResult>(usual.found).share);
    CHECK(holds(usual, "may still be able to tell"));
    CHECK(holds(closedChoice(designOf(PanelKind::DuoTrio, 12), 1, 12),
                "fewer than guessing gives (6.0 of 12)"));
    // And no bound of any one-sided panel is a share of nobody.
    for (const auto kind : {PanelKind::Triangle, PanelKind::DuoTrio})
        for (int count = 0; count <= 12; ++count) {
            const auto found = std::get<ChoiceResult>(closedChoice(designOf(kind, 12), count, 12).found);
            CHECK((!found.share || found.share->high > 0.01));
        }
}

TEST_CASE("A ranking with ties asks for no other F than its verdict goes by", "[tasting][panel]") {
    // Two of four tie: F = 6 is enough, and the table without ties would have asked for 6.5.
    const auto found = closedMarks(designOf(PanelKind::Ranking, 4, 3),
                                   {{1, 2, 3}, {1, 2, 3}, {1, 2, 2}, {1, 1, 3}}, &Answer::ranks);
    const auto& ranking = std::get<RankingResult>(found.found);
    CHECK(ranking.tied);
    REQUIRE(ranking.critical.statistic);
    CHECK((ranking.finding == Finding::Shown) == (ranking.friedman.statistic >= *ranking.critical.statistic));
    CHECK(sentence(found, 0).find("needed with these ties") != std::string::npos);
    const auto allTied = closedMarks(designOf(PanelKind::Ranking, 4, 3),
                                     std::vector<std::vector<int>>(4, {1, 1, 1}), &Answer::ranks);
    CHECK(std::get<RankingResult>(allTied.found).finding == Finding::CannotBeShown);
    CHECK(sentence(allTied, 0).find("with so many ties cannot show") != std::string::npos);
}

TEST_CASE("A ranking panel gives the published example's verdict", "[tasting][panel]") {
    // Eight orders whose rank sums are those published: 17 31 32 23 17.
    const std::vector<std::vector<int>> ranks{{1, 4, 5, 3, 2}, {2, 5, 1, 3, 4}, {1, 4, 5, 3, 2},
                                              {3, 4, 5, 1, 2}, {5, 2, 4, 1, 3}, {2, 5, 3, 4, 1},
                                              {1, 4, 5, 3, 2}, {2, 3, 4, 5, 1}};
    auto design = designOf(PanelKind::Ranking, 9, 5);
    const auto found = closedMarks(design, ranks, &Answer::ranks);
    const auto& ranking = std::get<RankingResult>(found.found);
    CHECK(ranking.friedman.assessors == 8);
    CHECK(found.missing == 1);
    CHECK(ranking.friedman.rankSums == std::vector<double>{17, 31, 32, 23, 17});
    CHECK(ranking.friedman.statistic == Approx(10.6));
    CHECK(ranking.friedman.exact);
    CHECK(ranking.leastDifference == Approx(12.4).margin(0.05));
    CHECK(ranking.finding == Finding::Shown);
    for (const RankPair& pair : ranking.pairs)
        CHECK(pair.differs == (pair.difference >= ranking.leastDifference));
    CHECK(ranking.pairs.size() == 10);
    CHECK(std::count_if(ranking.pairs.begin(), ranking.pairs.end(),
                        [](const RankPair& p) { return p.differs; }) == 4);
}

TEST_CASE("Two rankings cannot show a difference and unfinished ones are left out", "[tasting][panel]") {
    auto design = designOf(PanelKind::Ranking, 3, 3);
    design.foretold = {0, 1, 2};
    const auto found = closedMarks(design, {{1, 2, 3}, {1, 2, 3}, {1, 2, 0}}, &Answer::ranks);
    const auto& ranking = std::get<RankingResult>(found.found);
    CHECK(ranking.friedman.assessors == 2);
    CHECK(found.whole == 2);
    CHECK(found.partial == 1);
    CHECK(ranking.finding == Finding::CannotBeShown);
    for (const RankPair& pair : ranking.pairs)
        CHECK_FALSE(pair.differs);
    // But with the order said before, two agreeing rankings are one chance in 36.
    REQUIRE(ranking.page);
    CHECK(ranking.page->statistic == 28);
    CHECK(ranking.page->chance == Approx(1.0 / 36));
    CHECK(ranking.asForetold == Finding::Shown);
    const auto none = closedMarks(design, {}, &Answer::ranks);
    CHECK(std::get<RankingResult>(none.found).finding == Finding::NoAnswers);
    CHECK(sentence(none, 0) == "No whole ranking came in, so nothing can be said.");
}

TEST_CASE("Liking is compared taster by taster and missing scores stay missing", "[tasting][panel]") {
    const auto found = closedMarks(designOf(PanelKind::Hedonic, 6, 2),
                                   {{5, 6}, {4, 6}, {7, 7}, {6, 7}, {8, 9}, {9, 0}}, &Answer::scores);
    const auto& scores = std::get<ScoreResult>(found.found);
    CHECK(scores.means[0].count == 6);
    CHECK(scores.means[1].count == 5);
    CHECK(scores.means[1].mean == Approx(7));
    REQUIRE(scores.pairs.size() == 1);
    CHECK(scores.pairs[0].scores.difference.count == 5); // who scored both
    CHECK(scores.pairs[0].scores.difference.mean == Approx(1));
    CHECK(scores.pairs[0].finding == Finding::Shown);
    CHECK(found.partial == 1);
    CHECK(sentence(found, 0) ==
          "draft two over draft one by 1.0 (95 % certain between 0.1 and 1.9): a difference is shown.");
    CHECK(lastSentence(found) == "1 of 6 tasters answered in part; what they gave is counted.");
}

TEST_CASE("Several pairs share the risk between them", "[tasting][panel]") {
    const auto found =
        closedMarks(designOf(PanelKind::Intensity, 5, 3),
                    {{5, 6, 9}, {4, 6, 9}, {7, 7, 12}, {6, 7, 15}, {8, 9, 9}}, &Answer::scores);
    const auto& scores = std::get<ScoreResult>(found.found);
    REQUIRE(scores.pairs.size() == 3);
    CHECK(scores.pairs[0].alpha == Approx(0.05 / 3));
    CHECK(scores.pairs[0].scores.difference.confidence == Approx(1 - 0.05 / 3));
    CHECK(scores.pairs[0].scores.chance.value_or(0) < 0.05); // alone it would have been shown
    CHECK(scores.pairs[0].finding == Finding::NotShown);
}

TEST_CASE("Just about right names the side and its penalty", "[tasting][panel]") {
    auto design = designOf(PanelKind::JustAboutRight, 8, 2);
    const std::vector<std::vector<int>> right{{4, 3}, {4, 3}, {5, 3}, {4, 2}, {5, 4}, {4, 3}, {3, 3}, {3, 3}};
    const std::vector<std::vector<int>> liking{{5, 7}, {6, 8}, {4, 7}, {5, 6},
                                               {4, 6}, {6, 8}, {8, 7}, {7, 8}};
    Panel panel = startPouring(designPanel(design).value()).value();
    for (std::size_t i = 0; i < right.size(); ++i) {
        Answer answer;
        answer.justRight = marksOf(panel, i, right[i]);
        answer.scores = marksOf(panel, i, liking[i]);
        panel = withAnswer(panel, design.tasters[i], answer).value();
    }
    const auto found = result(closePanel(panel).value()).value();
    const auto& products = std::get<JustRightResult>(found.found).products;
    CHECK(products[0].answers.strong.count == 6);
    CHECK(products[0].answers.weak.count == 0);
    CHECK(products[0].finding == Finding::Shown); // 6 of 6 on one side: 3.1 %
    CHECK(products[0].answers.strong.drop.value_or(0) == Approx(2.5));
    CHECK(products[1].answers.right == 6);
    CHECK(products[1].finding == Finding::CannotBeShown);
    CHECK(sentence(found, 0) ==
          "draft one: sweetness is just right for 2 of 8, too weak for 0, too strong for 6; "
          "too strong is shown at 5 %.");
    CHECK(sentence(found, 1).find("likes it 2.5 less") != std::string::npos);
}

TEST_CASE("An upper bound and a similarity test say the same", "[tasting][panel]") {
    for (const int tasters : {30, 60}) {
        for (const double share : {0.2, 0.3, 0.4}) {
            const int most = mostForSimilarity(ChoiceTest::Triangle, tasters, share, 0.05).value_or(-1);
            REQUIRE(most > 0);
            CHECK(shareThatCanTell(ChoiceTest::Triangle, tasters, most).high <= share + 1e-9);
            CHECK(shareThatCanTell(ChoiceTest::Triangle, tasters, most + 1).high > share);
        }
    }
}

// The whole chain from dealing to verdict: people who guess are called tellers no oftener than alpha allows,
// and panels in which a share of people can tell are found as often as the power promised.
TEST_CASE("Guessers are seldom believed and tellers as often as promised", "[tasting][panel]") {
    constexpr int kPanels = 500;
    for (const PanelKind kind : {PanelKind::Triangle, PanelKind::DuoTrio, PanelKind::PairedPreference}) {
        for (const double share : {0.0, 0.6}) {
            int shown = 0;
            ChoiceTest test = ChoiceTest::Triangle;
            for (int session = 0; session < kPanels; ++session) {
                const auto design = designOf(kind, 12, 2, static_cast<std::uint64_t>(session));
                Dealer people(static_cast<std::uint64_t>(session) + 1'000'000);
                Panel panel = startPouring(designPanel(design).value()).value();
                for (std::size_t i = 0; i < panel.servings.size(); ++i) {
                    const bool tells = static_cast<double>(people.below(1000)) < share * 1000;
                    Answer answer;
                    const auto& cups = panel.servings[i].cups;
                    answer.chosen = tells ? rightCode(panel, i, 0) : cups[people.below(cups.size())].code;
                    panel = withAnswer(panel, design.tasters[i], answer).value();
                }
                const auto found = result(closePanel(panel).value()).value();
                const auto& choice = std::get<ChoiceResult>(found.found);
                test = choice.test;
                if (choice.finding == Finding::Shown) ++shown;
            }
            const double promised = share > 0 ? powerOf(test, 12, share, 0.05)
                                              : chanceOfCount(test, 12, countNeeded(test, 12, 0.05).value());
            CAPTURE(panelKindId(kind), share, shown, promised);
            if (share <= 0) CHECK(promised <= 0.05);
            const double deviation = std::sqrt(kPanels * promised * (1 - promised));
            CHECK(std::abs(shown - kPanels * promised) < 4.5 * deviation);
        }
    }
}
