#include "core/tasting/sheet_words.h"

#include <algorithm>
#include <fmt/format.h>

namespace stillroom::tasting {

namespace {

using Anchors = std::vector<SheetWords::Anchor>;

std::string codeList(const std::vector<int>& codes) {
    return fmt::format("{}", fmt::join(codes, ", "));
}

std::string question(const TasterSheet& sheet) {
    const std::string& what = sheet.attribute;
    switch (sheet.kind) {
    case PanelKind::Triangle:
        return "Two of the three are the same. Which is the odd one?";
    case PanelKind::DuoTrio:
        return "One of the two is the same as R. Which?";
    case PanelKind::PairedDifference:
        return what.empty() ? "Which has more of it?" : fmt::format("Which has more {}?", what);
    case PanelKind::PairedPreference:
        return "Which do you prefer?";
    case PanelKind::Ranking:
        return what.empty() ? "Put them in order: 1 for the one you like best."
                            : fmt::format("Put them in order of {}: 1 for the most.", what);
    case PanelKind::Hedonic:
        return "How much do you like each?";
    case PanelKind::JustAboutRight:
        return fmt::format("Is the {} of each right, and how much do you like it?",
                           what.empty() ? "taste" : what);
    case PanelKind::Intensity:
        return fmt::format("How strong is the {} of each?", what.empty() ? "taste" : what);
    }
    return {};
}

bool choosesOne(PanelKind kind) {
    return kind <= PanelKind::PairedPreference;
}

std::vector<std::string> steps(const TasterSheet& sheet) {
    std::vector<std::string> list;
    list.push_back(fmt::format("Taste {}in this order: {}.", sheet.hasReference ? "R first, then " : "",
                               codeList(sheet.codes)));
    list.push_back("Rinse with water before each.");
    if (choosesOne(sheet.kind)) list.push_back("Choose one even if you are not sure: a guess is an answer.");
    list.push_back("Do not talk about it until all sheets are in.");
    return list;
}

Anchors rightAnchors() {
    return {{1, "much too weak"},
            {2, "too weak"},
            {3, "just about right"},
            {4, "too strong"},
            {5, "much too strong"}};
}

Anchors likingAnchors() {
    Anchors anchors;
    for (const std::string& words : likingWords())
        anchors.push_back({static_cast<int>(anchors.size()) + 1, words});
    return anchors;
}

} // namespace

const std::vector<std::string>& likingWords() {
    static const std::vector<std::string> words{
        "dislike extremely", "dislike very much",        "dislike moderately",
        "dislike slightly",  "neither like nor dislike", "like slightly",
        "like moderately",   "like very much",           "like extremely"};
    return words;
}

SheetWords inWords(const TasterSheet& sheet) {
    SheetWords words{question(sheet), steps(sheet), {}, {}};
    if (sheet.kind == PanelKind::Hedonic) words.anchors = likingAnchors();
    if (sheet.kind == PanelKind::Intensity) words.anchors = {{0, "none"}, {15, "extreme"}};
    if (sheet.kind == PanelKind::JustAboutRight) {
        words.anchors = rightAnchors();
        words.likingAnchors = likingAnchors();
    }
    return words;
}

// AS 2542.2.2 (adoption of ISO 4120), 5.2 to 5.7, for the first two; duo-trio for lingering tastes: Peryam &
// Swartz 1950, as quoted in teaching. Volumes, water, spitting: common practice, no source.
std::vector<std::string> pouringAdvice(const Panel& panel) {
    std::vector<std::string> advice{
        "Pour all cups of a set alike: same volume, same temperature, same vessel, marked with the code "
        "only.",
        "If a colour gives a drink away and is not the question, hide it: dark cups or dim light."};
    if (panel.design.kind == PanelKind::Triangle)
        advice.push_back("If the taste lingers, duo-trio asks less of the palate than a triangle.");
    std::size_t most = 0;
    for (const Serving& serving : panel.servings)
        most = std::max(most, serving.cups.size() + (serving.reference ? 1 : 0));
    advice.push_back(fmt::format(
        "Each taster gets up to {} cups. Strong drinks tire and intoxicate: 10 to 20 ml a cup, water "
        "and plain bread between, and a cup to spit into.",
        most));
    advice.push_back(
        "Tell every taster before pouring that the drinks hold alcohol and which allergens are in them. "
        "Nobody who must not or will not drink, or who has to drive, tastes.");
    return advice;
}

} // namespace stillroom::tasting
