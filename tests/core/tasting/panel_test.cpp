#include "core/tasting/panel.h"

#include "core/tasting/panel_fault.h"

#include "core/tasting/panel_result.h"
#include "core/tasting/panel_sheets.h"
#include "core/tasting/serving_order.h"
#include "tests/core/tasting/panel_support.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <set>

using namespace stillroom;
using namespace stillroom::tasting;
using base::PersonId;
using base::RevisionId;
using stillroom::tasting::test::designOf;

namespace {

constexpr PanelKind kAllKinds[] = {
    PanelKind::Triangle, PanelKind::DuoTrio, PanelKind::PairedDifference, PanelKind::PairedPreference,
    PanelKind::Ranking,  PanelKind::Hedonic, PanelKind::JustAboutRight,   PanelKind::Intensity};

Panel pouring(const PanelDesign& design) {
    const auto panel = designPanel(design);
    REQUIRE(panel);
    return startPouring(*panel).value();
}

std::size_t productsFor(PanelKind kind) {
    return kind <= PanelKind::PairedPreference ? 2 : 4;
}

Answer someAnswer(const Panel& panel, std::size_t taster) {
    Answer answer;
    int mark = 1;
    for (const Cup& cup : panel.servings[taster].cups) {
        switch (panel.design.kind) {
        case PanelKind::Ranking:
            answer.ranks[cup.code] = mark++;
            break;
        case PanelKind::JustAboutRight:
            answer.justRight[cup.code] = mark;
            answer.scores[cup.code] = 9 - mark++;
            break;
        case PanelKind::Hedonic:
        case PanelKind::Intensity:
            answer.scores[cup.code] = mark++;
            break;
        default:
            answer.chosen = cup.code;
        }
    }
    answer.note = "citrus – \"sharp\" \xF0\x9F\x8D\x8B";
    return answer;
}

} // namespace

TEST_CASE("Every kind of panel is dealt whole and the same again from its seed", "[tasting][panel]") {
    for (const PanelKind kind : kAllKinds) {
        CAPTURE(panelKindId(kind));
        CHECK(panelKindFromId(panelKindId(kind)) == kind);
        for (const std::size_t tasters : {1U, 5U, 12U}) {
            const auto design = designOf(kind, tasters, productsFor(kind));
            const auto panel = designPanel(design);
            REQUIRE(panel);
            CHECK_FALSE(problemOf(*panel));
            CHECK(panel->servings.size() == tasters);
            CHECK(designPanel(design) == panel);
            auto other = design;
            other.seed = 6;
            CHECK(designPanel(other)->servings != panel->servings);
            std::set<int> codes;
            std::size_t cups = 0;
            for (const Serving& serving : panel->servings) {
                for (const Cup& cup : serving.cups)
                    codes.insert(cup.code);
                cups += serving.cups.size();
            }
            CHECK(codes.size() == cups);
        }
    }
}

TEST_CASE("Twelve in a triangle have each order twice", "[tasting][panel]") {
    const auto panel = pouring(designOf(PanelKind::Triangle, 12));
    std::map<std::vector<std::size_t>, int> orders;
    for (const Serving& serving : panel.servings) {
        std::vector<std::size_t> order;
        for (const Cup& cup : serving.cups)
            order.push_back(cup.product);
        ++orders[order];
    }
    CHECK(orders.size() == 6);
    for (const auto& [order, count] : orders)
        CHECK(count == 2);
    CHECK(cupsOfEach(panel) == std::vector<int>{18, 18});
}

TEST_CASE("A design that cannot be served is refused with its reason", "[tasting][panel]") {
    const auto refused = [](PanelDesign design, auto change) {
        change(design);
        const auto panel = designPanel(design);
        REQUIRE_FALSE(panel);
        return panel.error();
    };
    const auto triangle = designOf(PanelKind::Triangle, 6);
    const auto ranking = designOf(PanelKind::Ranking, 6, 3);
    CHECK(refused(triangle, [](auto& d) { d.products.push_back(RevisionId::derivedFrom("third")); }) ==
          PanelError::ProductCount);
    CHECK(refused(designOf(PanelKind::Hedonic, 6, 9), [](auto&) {}) == PanelError::ProductCount);
    CHECK(refused(designOf(PanelKind::Hedonic, 6, 1), [](auto&) {}) == PanelError::ProductCount);
    CHECK(refused(triangle, [](auto& d) { d.products[1] = d.products[0]; }) == PanelError::RepeatedProduct);
    CHECK(refused(triangle, [](auto& d) { d.tasters.clear(); }) == PanelError::NoTasters);
    CHECK(refused(triangle, [](auto& d) { d.tasters[5] = d.tasters[0]; }) == PanelError::RepeatedTaster);
    CHECK(refused(designOf(PanelKind::Hedonic, 80, 8), [](auto&) {}) == PanelError::TooManyCups);
    CHECK(refused(triangle, [](auto& d) { d.foretold = {0}; }) == PanelError::BadForetold);
    CHECK(refused(ranking, [](auto& d) { d.foretold = {0, 1}; }) == PanelError::BadForetold);
    CHECK(refused(ranking, [](auto& d) { d.foretold = {0, 1, 1}; }) == PanelError::BadForetold);
    CHECK(refused(triangle, [](auto& d) { d.alpha = 0; }) == PanelError::BadAlpha);
}

TEST_CASE("A panel goes from designed to pouring to closed and never back", "[tasting][panel]") {
    const auto designed = designPanel(designOf(PanelKind::Triangle, 3)).value();
    const PersonId first = designed.design.tasters[0];
    CHECK(closePanel(designed).error() == PanelError::WrongState);
    CHECK(withAnswer(designed, first, {}).error() == PanelError::WrongState);
    const auto open = startPouring(designed).value();
    CHECK(startPouring(open).error() == PanelError::WrongState);
    const auto answered = withAnswer(open, first, someAnswer(open, 0)).value();
    CHECK(answered.answers[0] == someAnswer(open, 0));
    CHECK(withAnswer(answered, first, {}).value() == open); // taken back
    const auto closed = closePanel(answered).value();
    CHECK(withAnswer(closed, first, {}).error() == PanelError::WrongState);
    CHECK(startPouring(closed).error() == PanelError::WrongState);
    CHECK(closePanel(closed).error() == PanelError::WrongState);
}

TEST_CASE("Answers fit the cups and scales of the taster or are refused", "[tasting][panel]") {
    const auto triangle = pouring(designOf(PanelKind::Triangle, 2));
    const auto& tasters = triangle.design.tasters;
    const auto error = [](const Panel& panel, std::size_t taster, const Answer& answer) {
        return withAnswer(panel, panel.design.tasters[taster], answer).error();
    };
    Answer others;
    others.chosen = triangle.servings[1].cups[0].code;
    CHECK(error(triangle, 0, others) == PanelError::UnknownCup);
    CHECK(withAnswer(triangle, tasters[1], others));
    CHECK(withAnswer(triangle, PersonId::derivedFrom("a stranger"), others).error() ==
          PanelError::UnknownTaster);
    Answer scored;
    scored.scores[triangle.servings[0].cups[0].code] = 5;
    CHECK(error(triangle, 0, scored) == PanelError::BadScore);

    const auto hedonic = pouring(designOf(PanelKind::Hedonic, 2, 3));
    for (const int bad : {0, 10, -1}) {
        Answer answer;
        answer.scores[hedonic.servings[0].cups[0].code] = bad;
        CHECK(error(hedonic, 0, answer) == PanelError::BadScore);
    }
    const auto intensity = pouring(designOf(PanelKind::Intensity, 1, 2));
    for (const int good : {0, 15}) {
        Answer answer;
        answer.scores[intensity.servings[0].cups[0].code] = good;
        CHECK(withAnswer(intensity, intensity.design.tasters[0], answer));
    }
    Answer chosen;
    chosen.chosen = hedonic.servings[0].cups[0].code;
    CHECK(error(hedonic, 0, chosen) == PanelError::BadScore);
}

TEST_CASE("A panel's JSON reads back whole at every state", "[tasting][panel]") {
    for (const PanelKind kind : kAllKinds) {
        CAPTURE(panelKindId(kind));
        auto design = designOf(kind, 5, productsFor(kind), 0xfedcba9876543210ULL);
        if (kind == PanelKind::PairedDifference) design.foretold = {1};
        if (kind == PanelKind::Ranking) design.foretold = {2, 0, 1, 3};
        if (kind == PanelKind::Hedonic) design.alpha = 0.1;
        Panel panel = designPanel(design).value();
        CHECK(Panel::fromCanonicalJson(panel.canonicalJson()) == panel);
        panel = startPouring(panel).value();
        CHECK(Panel::fromCanonicalJson(panel.canonicalJson()) == panel);
        panel = withAnswer(panel, design.tasters[3], someAnswer(panel, 3)).value();
        panel = closePanel(panel).value();
        const std::string text = panel.canonicalJson();
        CHECK(Panel::fromCanonicalJson(text) == panel);
        CHECK(Panel::fromCanonicalJson(text)->canonicalJson() == text);
    }
}

TEST_CASE("Defaults stay out of a panel's JSON", "[tasting][panel]") {
    auto design = designOf(PanelKind::Triangle, 2);
    design.attribute.clear();
    const auto json = nlohmann::json::parse(designPanel(design)->canonicalJson());
    for (const char* key : {"alpha", "answers", "attribute", "foretold", "state"})
        CHECK_FALSE(json.contains(key));
}

TEST_CASE("The share thought able to tell stays with the plan and out of sight of the tasters",
          "[tasting][panel]") {
    auto design = designOf(PanelKind::Triangle, 3);
    CHECK(designPanel(design)->canonicalJson().find("share") ==
          std::string::npos); // older plans keep their hash
    design.share = 0.6;
    const auto panel = designPanel(design);
    REQUIRE(panel);
    CHECK(panel->canonicalJson().find("\"share\":\"0.6\"") != std::string::npos);
    CHECK(Panel::fromCanonicalJson(panel->canonicalJson()) == *panel);
    CHECK(publicView(*panel).find("share") == std::string::npos);
    for (const double wrong : {0.0, -0.1, 1.01}) {
        design.share = wrong;
        CHECK(designPanel(design).error() == PanelError::BadForetold);
    }
}

TEST_CASE("Broken panel JSON is refused", "[tasting][panel]") {
    using nlohmann::json;
    Panel panel = pouring(designOf(PanelKind::Triangle, 3));
    panel = withAnswer(panel, panel.design.tasters[0], someAnswer(panel, 0)).value();
    const json whole = json::parse(panel.canonicalJson());
    REQUIRE(Panel::fromCanonicalJson(whole.dump()));
    const auto refused = [&](auto change) {
        json changed = whole;
        change(changed);
        return !Panel::fromCanonicalJson(changed.dump());
    };
    CHECK(refused([](json& j) { j["winner"] = "A"; }));
    CHECK(refused([](json& j) { j["servings"][0]["extra"] = 1; }));
    CHECK(refused([](json& j) { j["answers"][0]["guess"] = 1; }));
    CHECK(refused([](json& j) { j.erase("seed"); }));
    CHECK(refused([](json& j) { j["seed"] = 5; }));
    CHECK(refused([](json& j) { j["seed"] = "xyz"; }));
    CHECK(refused([](json& j) { j["kind"] = "quartet"; }));
    CHECK(refused([](json& j) { j["state"] = "designed"; })); // with an answer in it
    CHECK(refused([](json& j) { j["tasters"][0] = "nobody"; }));
    CHECK(refused([](json& j) { j["products"].push_back(j["products"][0]); }));
    CHECK(refused([](json& j) { j["servings"].erase(0); }));
    CHECK(refused([](json& j) { j["servings"][0]["cups"][0][0] = j["servings"][1]["cups"][0][0]; }));
    CHECK(refused([](json& j) { j["servings"][0]["cups"][0][1] = 2; }));
    CHECK(refused([](json& j) { j["servings"][0]["cups"][0][1] = -1; }));
    CHECK(refused([](json& j) { j["servings"][0]["cups"][0][0] = 1e300; }));
    CHECK(refused([](json& j) { j["servings"][0]["reference"] = 0; }));
    CHECK(refused([](json& j) { j["answers"][0]["chosen"] = 1; }));
    CHECK(refused([](json& j) { j["answers"][0]["scores"] = 7; }));
    CHECK(refused([](json& j) { j["alpha"] = "nan"; }));
    CHECK(refused([](json& j) { j["alpha"] = "0.9"; }));
    CHECK(refused([](json& j) { j = json::array(); }));
    CHECK_FALSE(Panel::fromCanonicalJson(""));
    CHECK_FALSE(Panel::fromCanonicalJson(std::string(200000, '[')));
    const std::string text = whole.dump();
    for (std::size_t length = 0; length < text.size(); length += 7)
        CHECK_FALSE(Panel::fromCanonicalJson(text.substr(0, length)));
}

TEST_CASE("Damaged panel JSON is refused or still a whole panel", "[tasting][panel]") {
    Dealer damage(11);
    for (const PanelKind kind : kAllKinds) {
        Panel panel = pouring(designOf(kind, 3, productsFor(kind)));
        panel = withAnswer(panel, panel.design.tasters[1], someAnswer(panel, 1)).value();
        const std::string whole = panel.canonicalJson();
        for (int i = 0; i < 1500; ++i) {
            std::string text = whole;
            for (std::size_t hits = damage.below(3) + 1; hits > 0; --hits)
                text[damage.below(text.size())] = "0123456789[]{}\",:-abz\x80"[damage.below(23)];
            const auto read = Panel::fromCanonicalJson(text);
            if (!read) continue;
            CHECK_FALSE(problemOf(*read));
            CHECK(Panel::fromCanonicalJson(read->canonicalJson()) == read);
            const auto closed = closePanel(*read); // a closed or designed one stays as it is
            CHECK(result(closed ? *closed : *read).has_value() ==
                  (closed || read->state == PanelState::Closed));
        }
    }
}

TEST_CASE("The pourer's key names every cup and the sheets name none", "[tasting][panel]") {
    for (const PanelKind kind : kAllKinds) {
        CAPTURE(panelKindId(kind));
        const Panel panel = pouring(designOf(kind, 6, productsFor(kind)));
        const auto key = pourersKey(panel);
        REQUIRE(key.size() == 6);
        std::size_t cups = 0;
        for (std::size_t i = 0; i < key.size(); ++i) {
            const auto sheet = tasterSheet(panel, key[i].taster).value();
            REQUIRE(sheet.codes.size() == key[i].cups.size());
            CHECK(sheet.hasReference == (kind == PanelKind::DuoTrio));
            CHECK(sheet.hasReference == key[i].reference.has_value());
            for (std::size_t c = 0; c < sheet.codes.size(); ++c) {
                CHECK(key[i].cups[c].code == sheet.codes[c]);
                CHECK(key[i].cups[c].product == panel.design.products[panel.servings[i].cups[c].product]);
            }
            cups += sheet.codes.size() + (sheet.hasReference ? 1 : 0);
        }
        std::size_t needed = 0;
        for (const int count : cupsOfEach(panel))
            needed += static_cast<std::size_t>(count);
        CHECK(needed == cups);
    }
    CHECK(tasterSheet(pouring(designOf(PanelKind::Triangle, 2)), PersonId::derivedFrom("stranger")).error() ==
          PanelError::UnknownTaster);
}

// Two panels that differ only in which product is which look alike to everyone but the pourer. So do panels
// of quite other drinks. What cannot be told from the view cannot be learned from it.
TEST_CASE("Nothing handed out depends on what is in the cups", "[tasting][panel]") {
    for (const PanelKind kind : kAllKinds) {
        for (std::uint64_t seed = 0; seed < 20; ++seed) {
            auto design = designOf(kind, 7, productsFor(kind), seed);
            if (kind == PanelKind::PairedDifference) design.foretold = {0};
            const Panel panel = pouring(design);
            auto swapped = design;
            std::reverse(swapped.products.begin(), swapped.products.end());
            auto others = design;
            for (RevisionId& product : others.products)
                product = RevisionId::random();
            const std::string view = publicView(panel);
            CHECK(publicView(pouring(swapped)) == view);
            CHECK(publicView(pouring(others)) == view);
            CHECK(pourersKey(pouring(swapped)) != pourersKey(panel));
            for (const PersonId& taster : design.tasters)
                CHECK(tasterSheet(pouring(swapped), taster) == tasterSheet(panel, taster));
            for (const RevisionId& product : design.products)
                CHECK(view.find(product.text()) == std::string::npos);
            CHECK(view.find("seed") == std::string::npos);
            CHECK(view.find("foretold") == std::string::npos);
            const Panel told = withAnswer(panel, design.tasters[2], someAnswer(panel, 2)).value();
            const auto json = nlohmann::json::parse(publicView(told));
            CHECK(json["tasters"][2]["answered"] == true);
            CHECK(json["tasters"][1]["answered"] == false);
            CHECK(json["tasters"][2].size() == 4); // and nothing of what was said
        }
    }
}

// A code must not hint at its product by being high or low, nor at being the odd one.
TEST_CASE("Codes of different products are alike over many sessions", "[tasting][panel]") {
    double sums[2] = {0, 0};
    int counts[2] = {0, 0};
    int highestIsOdd = 0;
    int servings = 0;
    for (std::uint64_t seed = 0; seed < 500; ++seed) {
        const Panel panel = designPanel(designOf(PanelKind::Triangle, 12, 2, seed)).value();
        for (const Serving& serving : panel.servings) {
            const auto highest = std::max_element(serving.cups.begin(), serving.cups.end(),
                                                  [](const Cup& a, const Cup& b) { return a.code < b.code; });
            highestIsOdd += std::count_if(serving.cups.begin(), serving.cups.end(), [&](const Cup& cup) {
                                return cup.product == highest->product;
                            }) == 1;
            ++servings;
            for (const Cup& cup : serving.cups) {
                sums[cup.product] += cup.code;
                ++counts[cup.product];
            }
        }
    }
    // 9,000 codes each with a deviation of about 260: the means differ by less than five standard errors.
    CHECK(std::abs(sums[0] / counts[0] - sums[1] / counts[1]) < 5 * 260 * std::sqrt(2.0 / 9000));
    // One in three of 6,000, within five deviations.
    CHECK(std::abs(highestIsOdd - servings / 3.0) < 5 * std::sqrt(servings * 2.0 / 9));
}

TEST_CASE("A panel that does not fit says whose answer and which cup", "[tasting][panel][fault]") {
    auto design = designOf(PanelKind::Triangle, 3);
    Panel panel = startPouring(designPanel(design).value()).value();
    Answer answer;
    answer.chosen = panel.servings[1].cups[0].code;
    panel = withAnswer(panel, design.tasters[1], answer).value();
    CHECK_FALSE(panelFault(panel.canonicalJson()));
    const std::vector<std::string> tasters{"IB", "MK", "TO"};
    const auto words = [&](const Panel& broken) {
        const auto fault = panelFault(broken.canonicalJson());
        return fault ? inWords(*fault, tasters) : std::string("none");
    };
    auto strange = panel;
    strange.answers[1].chosen = panel.servings[2].cups[0].code;
    CHECK(words(strange) == "the answer of MK names cup " + std::to_string(*strange.answers[1].chosen) +
                                ", which was not before that taster");
    auto scored = panel;
    scored.answers[1].chosen.reset();
    scored.answers[1].scores[panel.servings[1].cups[0].code] = 5;
    CHECK(words(scored) == "the answer of MK has a mark that this panel does not ask for");
    auto twice = panel;
    twice.servings[2].cups[0].code = panel.servings[0].cups[0].code;
    CHECK(words(twice) ==
          "cup " + std::to_string(panel.servings[0].cups[0].code) + " of TO has another cup's code");
    auto same = panel;
    same.design.tasters[2] = same.design.tasters[0];
    CHECK(words(same) == "a taster stands in it twice");
    auto fewer = panel;
    fewer.servings.pop_back();
    CHECK(words(fewer) == "it has other servings or answers than tasters");
    CHECK(inWords(*panelFault("{}"), tasters) == "a key is missing, unknown or not of its sort");
}
