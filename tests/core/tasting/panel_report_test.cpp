#include "core/tasting/panel_report.h"
#include "core/tasting/panel_texts.h"
#include "core/tasting/panel_words.h"
#include "core/tasting/statistics/choice_test.h"
#include "panel_support.h"
#include "tests/support/catch.h"

#include <numeric>

using namespace stillroom;
using namespace stillroom::tasting;
using namespace stillroom::tasting::test;

namespace {

const std::vector<std::string> kProducts{"Ox Skerry r4", "Ox Skerry r5", "Quill Point r2", "Maiden Ledge r1"};

PanelNames namesFor(std::size_t tasters) {
    PanelNames names{"Thursday", kProducts, {}};
    for (std::size_t i = 0; i < tasters; ++i)
        names.tasters.push_back("T" + std::to_string(i + 1));
    return names;
}

// A ranking of four by eight tasters who mark by product.
Panel rankedPanel(const std::vector<std::vector<int>>& rows) {
    const auto design = designOf(PanelKind::Ranking, rows.size(), 4);
    Panel panel = startPouring(designPanel(design).value()).value();
    for (std::size_t i = 0; i < rows.size(); ++i) {
        Answer answer;
        answer.ranks = marksOf(panel, i, rows[i]);
        panel = withAnswer(panel, design.tasters[i], answer).value();
    }
    return closePanel(panel).value();
}

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("Chance bars sum to one and their tail is the chance of the result", "[tasting][panel][report]") {
    for (const auto kind : {PanelKind::Triangle, PanelKind::DuoTrio, PanelKind::PairedPreference})
        for (const int count : {6, 8, 11}) {
            const auto found = closedChoice(designOf(kind, 12), count, 12);
            const auto bars = chanceBars(found);
            REQUIRE(bars);
            CHECK(bars->chance.size() == 13);
            CHECK(std::accumulate(bars->chance.begin(), bars->chance.end(), 0.0) == Approx(1));
            const auto& choice = std::get<ChoiceResult>(found.found);
            CHECK(std::accumulate(bars->chance.begin() + bars->count, bars->chance.end(), 0.0) ==
                  Approx(choice.chance));
            CHECK(bars->needed == choice.needed);
            CHECK(bars->count == choice.count);
        }
}

TEST_CASE("A panel in which nobody chose has no bars and no scale", "[tasting][panel][report]") {
    CHECK_FALSE(chanceBars(closedChoice(designOf(PanelKind::Triangle, 12), 0, 0)));
    const auto design = designOf(PanelKind::Hedonic, 4, 3);
    CHECK_FALSE(productScale(closedMarks(design, {}, &Answer::scores)));
    CHECK_FALSE(productScale(closedMarks(designOf(PanelKind::Ranking, 4, 3), {}, &Answer::ranks)));
    CHECK_FALSE(chanceBars(closedMarks(design, {}, &Answer::scores)));
}

TEST_CASE("The headline follows the finding", "[tasting][panel][report]") {
    const auto triangle = designOf(PanelKind::Triangle, 12);
    CHECK(headline(closedChoice(triangle, 8, 12), kProducts) == "They can tell them apart.");
    CHECK(headline(closedChoice(triangle, 7, 12), kProducts) == "A difference is not shown.");
    CHECK(headline(closedChoice(triangle, 2, 2), kProducts) == "Too few answers to show a difference.");
    CHECK(headline(closedChoice(triangle, 0, 0), kProducts) == "No result.");
    // Eight who all score alike are not too few.
    const auto same = closedMarks(designOf(PanelKind::Hedonic, 8), std::vector<std::vector<int>>(8, {6, 6}),
                                  &Answer::scores);
    CHECK(headline(same, kProducts) == "Scores too much alike to test a difference.");
    CHECK(inWords(same, kProducts)[0] ==
          "Ox Skerry r5 over Ox Skerry r4 by 0.0 from 8 tasters: all by the same, "
          "which leaves nothing for an interval.");
    CHECK(headline(closedMarks(designOf(PanelKind::Hedonic, 8), {{6, 7}}, &Answer::scores), kProducts) ==
          "Too few scores to show a difference.");
    const auto preference = designOf(PanelKind::PairedPreference, 12);
    CHECK(headline(closedChoice(preference, 12, 12, 1), kProducts) == "They prefer Ox Skerry r5.");
    CHECK(headline(closedChoice(preference, 6, 12), kProducts) == "A preference is not shown.");
    CHECK(headline(closedChoice(designOf(PanelKind::PairedPreference, 5), 5, 5), kProducts) ==
          "Too few answers to show a preference.");
    CHECK(headline(closedChoice(designOf(PanelKind::PairedDifference, 12), 12, 12), kProducts) ==
          "They find more sweetness in Ox Skerry r4.");
    const auto liking = designOf(PanelKind::Hedonic, 4);
    CHECK(headline(closedMarks(liking, {{3, 8}, {2, 8}, {3, 9}, {4, 8}}, &Answer::scores), kProducts) ==
          "They like Ox Skerry r5 more.");
    CHECK(headline(closedMarks(liking, {{5, 6}, {6, 5}, {4, 7}, {7, 4}}, &Answer::scores), kProducts) ==
          "A difference is not shown.");
    CHECK(headline(closedMarks(designOf(PanelKind::JustAboutRight, 12),
                               std::vector<std::vector<int>>(12, {3, 5}), &Answer::justRight),
                   kProducts) == "Too much sweetness in Ox Skerry r5.");
}

TEST_CASE("A scale holds every product and the best comes first", "[tasting][panel][report]") {
    const std::vector<std::vector<int>> rows(8, {4, 1, 1, 3});
    const auto found = result(rankedPanel(rows)).value();
    const auto scale = productScale(found);
    REQUIRE(scale);
    CHECK(scale->from == 8);
    CHECK(scale->to == 32);
    REQUIRE(scale->products.size() == 4);
    CHECK(scale->products[0] == OnScale{1, 12, {}, {}}); // two share places 1 and 2
    CHECK(scale->products[1] == OnScale{2, 12, {}, {}});
    CHECK(scale->products[2] == OnScale{3, 24, {}, {}});
    CHECK(scale->products[3] == OnScale{0, 32, {}, {}});
    CHECK(scale->leastDifference == Approx(std::get<RankingResult>(found.found).leastDifference));
    CHECK(headline(found, kProducts) == "Their order is more than chance.");

    const auto liked =
        closedMarks(designOf(PanelKind::Hedonic, 3), {{3, 8}, {2, 8}, {4, 0}}, &Answer::scores);
    const auto means = productScale(liked);
    REQUIRE(means);
    CHECK(means->from == 1);
    CHECK(means->to == 9);
    CHECK(means->products[0].product == 1);
    CHECK(means->products[0].value == Approx(8));
    CHECK_FALSE(means->products[0].low); // all alike is no interval
    CHECK(means->products[1].value == Approx(3));
    CHECK(means->products[1].low);
}

TEST_CASE("Answers open only when the panel is closed", "[tasting][panel][report]") {
    const auto design = designOf(PanelKind::Triangle, 3);
    Panel panel = startPouring(designPanel(design).value()).value();
    Answer right;
    right.chosen = rightCode(panel, 0, 0);
    right.note = "longer";
    panel = withAnswer(panel, design.tasters[0], right).value();
    CHECK(openedAnswers(panel).error() == PanelError::NotClosed);
    CHECK(resultText(panel, namesFor(3)).empty());
    panel = closePanel(panel).value();
    const auto opened = openedAnswers(panel).value();
    REQUIRE(opened.size() == 3);
    CHECK(opened[0].right == true);
    CHECK(opened[0].note == "longer");
    CHECK(opened[0].standing == AnswerStanding::Whole);
    CHECK(opened[1].standing == AnswerStanding::Missing);
    CHECK_FALSE(opened[1].right);
    for (std::size_t cup = 0; cup < 3; ++cup) {
        CHECK(opened[0].cups[cup].code == panel.servings[0].cups[cup].code);
        CHECK(opened[0].cups[cup].product == panel.servings[0].cups[cup].product);
    }
    CHECK(answerText(PanelKind::Triangle, opened[1], namesFor(3)) == "no answer");
    CHECK(holds(answerText(PanelKind::Triangle, opened[0], namesFor(3)), ", right; longer"));
}

TEST_CASE("Entering and taking back marks leaves the other marks alone", "[tasting][panel][report]") {
    const auto design = designOf(PanelKind::Ranking, 2, 4);
    Panel panel = startPouring(designPanel(design).value()).value();
    const auto asked = askedMark(design.kind, 4);
    CHECK(asked == AskedMark{MarkSort::Rank, 1, 4});
    const auto& cups = panel.servings[0].cups;
    Answer answer;
    answer = withMark(answer, asked.sort, cups[0].code, 2);
    answer = withMark(answer, asked.sort, cups[1].code, 2);
    answer = withMark(answer, asked.sort, cups[2].code, 4);
    panel.answers[0] = answer;
    CHECK(standingOf(panel, 0) == AnswerStanding::Partial);
    answer = withMark(answer, asked.sort, cups[3].code, 1);
    panel.answers[0] = answer;
    CHECK(standingOf(panel, 0) == AnswerStanding::Whole);
    CHECK(markOn(answer, asked.sort, cups[1].code) == 2);
    answer = withMark(answer, asked.sort, cups[1].code, {});
    CHECK_FALSE(markOn(answer, asked.sort, cups[1].code));
    CHECK(markOn(answer, asked.sort, cups[0].code) == 2);
    panel.answers[0] = answer;
    CHECK(countStandings(panel) == StandingCount{0, 1, 1});
    Answer chosen = withMark({}, MarkSort::Chosen, 417, 1);
    chosen = withMark(chosen, MarkSort::Chosen, 352, 1);
    CHECK(chosen.chosen == 352);
    CHECK(withMark(chosen, MarkSort::Chosen, 417, {}).chosen == 352);
    CHECK_FALSE(withMark(chosen, MarkSort::Chosen, 352, {}).chosen);
    CHECK(withMark({}, MarkSort::Score, 417, 7).scores == std::map<int, int>{{417, 7}});
}

TEST_CASE("Sheets hold every code and no product while the key holds both", "[tasting][panel][report]") {
    for (const auto kind :
         {PanelKind::Triangle, PanelKind::DuoTrio, PanelKind::Ranking, PanelKind::Hedonic}) {
        const bool two = kind == PanelKind::Triangle || kind == PanelKind::DuoTrio;
        const auto panel = designPanel(designOf(kind, 5, two ? 2 : 4)).value();
        auto names = namesFor(5);
        names.session = "r4 against r5";
        const std::string sheets = sheetsText(panel, names);
        const std::string key = keyText(panel, names);
        for (std::size_t i = 0; i < 5; ++i) {
            CHECK(holds(sheets, names.tasters[i]));
            for (const Cup& cup : panel.servings[i].cups) {
                CHECK(holds(sheets, std::to_string(cup.code)));
                CHECK(holds(key, std::to_string(cup.code) + " " + kProducts[cup.product]));
            }
        }
        for (const auto& product : kProducts)
            CHECK_FALSE(holds(sheets, product));
        CHECK_FALSE(holds(sheets, names.session));
        CHECK(holds(key, "Not for anyone who tastes"));
        CHECK(holds(key, "allergens"));
    }
}

TEST_CASE("The result as text says verdict and numbers and who said what", "[tasting][panel][report]") {
    const auto design = designOf(PanelKind::Triangle, 12);
    Panel panel = startPouring(designPanel(design).value()).value();
    for (std::size_t i = 0; i < 11; ++i) {
        Answer answer;
        const int right = rightCode(panel, i, 0);
        for (const Cup& cup : panel.servings[i].cups)
            if ((cup.code == right) == (i < 7)) answer.chosen = cup.code;
        panel = withAnswer(panel, design.tasters[i], answer).value();
    }
    const std::string text = resultText(closePanel(panel).value(), namesFor(12));
    CHECK(holds(text, "Thursday\nTriangle: Ox Skerry r4, Ox Skerry r5. 12 tasters, blind, tested at 5 %."));
    CHECK(holds(text, "They can tell them apart.\n7 of 11 found the odd one; 7 are needed at 5 %"));
    CHECK(holds(text, "1 of 12 tasters gave no answer: left out, not guessed."));
    CHECK(holds(text, "T12: no answer"));
    CHECK(holds(text, "T1: chose "));
    CHECK(holds(text, ", not right"));
}

TEST_CASE("Every kind of panel has a name and a question", "[tasting][panel][report]") {
    for (int kind = 0; kind <= static_cast<int>(PanelKind::Intensity); ++kind) {
        CHECK_FALSE(kindName(static_cast<PanelKind>(kind)).empty());
        CHECK_FALSE(kindQuestion(static_cast<PanelKind>(kind)).empty());
    }
}
