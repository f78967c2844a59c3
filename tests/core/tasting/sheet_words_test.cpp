#include "core/tasting/sheet_words.h"

#include "tests/core/tasting/panel_support.h"
#include "tests/reference/published.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace stillroom;
using namespace stillroom::tasting;
using namespace stillroom::tasting::test;

namespace {

SheetWords wordsOf(const PanelDesign& design) {
    const Panel panel = designPanel(design).value();
    return inWords(tasterSheet(panel, design.tasters[0]).value());
}

} // namespace

TEST_CASE("A sheet asks its question and gives the order of tasting", "[tasting][panel]") {
    const auto design = designOf(PanelKind::DuoTrio, 1);
    const auto sheet = tasterSheet(designPanel(design).value(), design.tasters[0]).value();
    const auto words = inWords(sheet);
    CHECK(words.question == "One of the two is the same as R. Which?");
    CHECK(words.steps[0] == "Taste R first, then in this order: " + std::to_string(sheet.codes[0]) + ", " +
                                std::to_string(sheet.codes[1]) + ".");
    CHECK(std::count(words.steps.begin(), words.steps.end(),
                     "Choose one even if you are not sure: a guess is an answer.") == 1);
    CHECK(words.anchors.empty());
    CHECK(wordsOf(designOf(PanelKind::Ranking, 1, 3)).question ==
          "Put them in order of sweetness: 1 for the most.");
    CHECK(wordsOf(designOf(PanelKind::JustAboutRight, 1)).anchors.size() == 5);
    CHECK(wordsOf(designOf(PanelKind::JustAboutRight, 1)).likingAnchors.size() == 9);
}

TEST_CASE("The scale of liking has its nine published words", "[tasting][panel]") {
    const auto& published = reference::dataset("sensory", "hedonic_nine_point")["words"];
    CHECK(published.get<std::vector<std::string>>() == likingWords());
    CHECK(wordsOf(designOf(PanelKind::Hedonic, 1)).anchors[4] ==
          SheetWords::Anchor{5, "neither like nor dislike"});
}

TEST_CASE("Whoever pours is told about alcohol and allergens", "[tasting][panel]") {
    for (int kind = 0; kind < 8; ++kind) {
        const auto advice = pouringAdvice(designPanel(designOf(static_cast<PanelKind>(kind), 3)).value());
        CHECK(advice.back().find("allergens") != std::string::npos);
    }
    const auto duoTrio = pouringAdvice(designPanel(designOf(PanelKind::DuoTrio, 3)).value());
    CHECK(std::any_of(duoTrio.begin(), duoTrio.end(),
                      [](const std::string& s) { return s.find("up to 3 cups") != std::string::npos; }));
}
