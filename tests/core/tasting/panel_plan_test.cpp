#include "core/tasting/panel_plan.h"

#include "core/tasting/panel_words.h"
#include "tests/support/catch.h"

using namespace stillroom::tasting;

namespace {

PanelPlan planOf(PanelKind kind, int tasters, int products = 2) {
    PanelWish wish;
    wish.kind = kind;
    wish.tasters = tasters;
    wish.products = products;
    return planPanel(wish).value();
}

} // namespace

TEST_CASE("Before pouring five tasters are told that they cannot show a preference", "[tasting][panel]") {
    const auto words = inWords(planOf(PanelKind::PairedPreference, 5));
    REQUIRE(words.size() == 2);
    CHECK(words[0] ==
          "5 tasters cannot show a preference at 5 %, two-sided, however they answer: it takes 6 or more.");
    CHECK(words[1] == "10 cups to pour; orders are fully balanced for 2, 4, … tasters.");
}

TEST_CASE("Before pouring twelve in a triangle are told what they need", "[tasting][panel]") {
    const auto plan = planOf(PanelKind::Triangle, 12);
    CHECK(plan.cups == 36);
    CHECK(plan.fullBlock == 6);
    const auto words = inWords(plan);
    REQUIRE(words.size() == 3);
    CHECK(words[0] == "12 tasters: 8 right needed at 5 %.");
    CHECK(words[1] == "80 % power only if about 60 % of people perceive it.");
    CHECK(words[2] == "36 cups to pour.");
}

TEST_CASE("An assumed share says how many tasters it takes", "[tasting][panel]") {
    PanelWish wish;
    wish.share = 0.3;
    const auto words = inWords(planPanel(wish).value());
    REQUIRE(words.size() == 4);
    CHECK(words[2].find("80 % need 42 tasters") != std::string::npos);
    wish.share = 0.01;
    CHECK(inWords(planPanel(wish).value())[2].find("not even 3000 tasters") != std::string::npos);
}

TEST_CASE("A ranking plan knows which panels are too small", "[tasting][panel]") {
    const auto two = std::get<RankingPlan>(planOf(PanelKind::Ranking, 2, 3).plan);
    CHECK_FALSE(two.critical.statistic);
    CHECK(two.fewest == 3);
    // Ranking two products is the two-sided preference again.
    CHECK(std::get<RankingPlan>(planOf(PanelKind::Ranking, 5, 2).plan).fewest == 6);
    CHECK(inWords(planOf(PanelKind::Ranking, 2, 3))[0] ==
          "2 tasters cannot show that 3 products differ at 5 %, however they rank them: it takes 3 or more.");
    CHECK(inWords(planOf(PanelKind::Ranking, 8, 5))[0].find("F must reach") != std::string::npos);
}

TEST_CASE("An order foretold is planned for", "[tasting][panel]") {
    PanelWish wish;
    wish.kind = PanelKind::Ranking;
    wish.tasters = 2;
    wish.products = 3;
    wish.foretold = true;
    // Two agreeing rankings are one chance in 36, and one pair swapped by one of them 5 in 36.
    const auto plan = std::get<RankingPlan>(planPanel(wish).value().plan);
    REQUIRE(plan.foretold);
    CHECK(plan.foretold->statistic == 28);
    CHECK(inWords(planPanel(wish).value())[1].find("from L = 28 on, of at most 28") != std::string::npos);
    wish.tasters = 1; // one chance in six
    CHECK_FALSE(std::get<RankingPlan>(planPanel(wish).value().plan).foretold->statistic);
    CHECK(inWords(planPanel(wish).value())[1] ==
          "Not even all of them in the order foretold would show it at 5 %.");
    wish.foretold = false;
    CHECK_FALSE(std::get<RankingPlan>(planPanel(wish).value().plan).foretold);
}

TEST_CASE("A liking plan says how wide the mean will be", "[tasting][panel]") {
    CHECK(inWords(planOf(PanelKind::Hedonic, 6, 3))[0] ==
          "6 tasters: a mean will be known to about ±1.9 (95 %), if scores spread as usual (deviation 1.8).");
    CHECK(inWords(planOf(PanelKind::Hedonic, 1, 3))[0] ==
          "One taster's score says nothing of anyone else's.");
}

TEST_CASE("A wish that no panel can be is refused", "[tasting][panel]") {
    const auto refused = [](auto change) {
        PanelWish wish;
        change(wish);
        const auto plan = planPanel(wish);
        REQUIRE_FALSE(plan);
        return plan.error();
    };
    CHECK(refused([](PanelWish& w) { w.products = 3; }) == PanelError::ProductCount);
    CHECK(refused([](PanelWish& w) { w.tasters = 0; }) == PanelError::NoTasters);
    CHECK(refused([](PanelWish& w) { w.alpha = 0.9; }) == PanelError::BadAlpha);
    CHECK(refused([](PanelWish& w) { w.foretold = true; }) == PanelError::BadForetold);
    CHECK(refused([](PanelWish& w) { w.share = 1.5; }) == PanelError::BadForetold);
}

TEST_CASE("Every plan has words for every kind and size", "[tasting][panel]") {
    for (int kind = 0; kind < 8; ++kind) {
        for (const int tasters : {1, 2, 5, 40}) {
            const auto words = inWords(planOf(static_cast<PanelKind>(kind), tasters));
            CHECK(words.size() >= 2);
            for (const std::string& sentence : words)
                CHECK(sentence.back() == '.');
        }
    }
}
