#include "core/tasting/panel_texts.h"

#include "core/tasting/panel_words.h"
#include "core/tasting/phrases.h"
#include "core/tasting/sheet_words.h"

#include <algorithm>
#include <array>
#include <fmt/format.h>

namespace stillroom::tasting {

namespace {

constexpr std::array<std::string_view, 8> kNames{"Triangle",          "Duo-trio", "Paired difference",
                                                 "Paired preference", "Ranking",  "Liking",
                                                 "Just about right",  "Intensity"};
constexpr std::array<std::string_view, 8> kQuestions{
    "Three cups, two alike: which is the odd one?",
    "A reference and two cups: which is like it?",
    "Two cups: which has more of something?",
    "Two cups: which is preferred?",
    "Two to eight cups in order, 1 for the most or the best; ties are allowed.",
    "Two to eight cups, each on the nine-point scale of liking.",
    "Something in each cup, from much too weak to much too strong.",
    "Something in each cup, from 0 to 15."};

std::string named(const std::vector<std::string>& names, std::size_t at) {
    if (at < names.size() && !names[at].empty()) return names[at];
    return std::string(1, static_cast<char>('A' + at % 26));
}

std::string taster(const PanelNames& names, std::size_t at) {
    if (at < names.tasters.size() && !names.tasters[at].empty()) return names.tasters[at];
    return fmt::format("Taster {}", at + 1);
}

std::string blank(const AskedMark& asked) {
    if (asked.sort == MarkSort::Chosen) return "[ ]";
    return fmt::format("____  ({} to {})", asked.low, asked.high);
}

std::string sheet(const Panel& panel, const PanelNames& names, std::size_t at) {
    const auto made = tasterSheet(panel, panel.design.tasters[at]);
    if (!made) return {};
    const SheetWords words = inWords(*made);
    std::string text = fmt::format("{}\n{}\n", taster(names, at), words.question);
    for (const std::string& step : words.steps)
        text += fmt::format("- {}\n", step);
    for (const auto& anchor : words.anchors)
        text += fmt::format("  {} {}\n", anchor.mark, anchor.words);
    const AskedMark asked = askedMark(made->kind, made->codes.size());
    for (const int code : made->codes)
        text += fmt::format("{}  {}\n", code, blank(asked));
    for (const std::string& caution : names.cautions)
        text += fmt::format("! {}\n", caution);
    return text + "Note:\n";
}

std::string cupsOf(const KeyRow& row, const Panel& panel, const PanelNames& names) {
    const auto& products = panel.design.products;
    const auto nameOf = [&](const base::RevisionId& id) {
        return named(names.products, static_cast<std::size_t>(
                                         std::find(products.begin(), products.end(), id) - products.begin()));
    };
    std::string text;
    if (row.reference) text = "R " + nameOf(*row.reference);
    for (const KeyCup& cup : row.cups)
        text += fmt::format("{}{} {}", text.empty() ? "" : ", ", cup.code, nameOf(cup.product));
    return text;
}

std::string join(const std::vector<std::string>& all) {
    std::string text;
    for (const std::string& each : all)
        text += each + "\n";
    return text;
}

std::string marksText(const OpenedAnswer& answer, const PanelNames& names) {
    std::string text;
    for (const OpenedCup& cup : answer.cups) {
        text += fmt::format("{}{} ({}) {}", text.empty() ? "" : ", ", cup.code,
                            named(names.products, cup.product),
                            cup.mark ? fmt::format("{}", *cup.mark) : "no mark");
        if (cup.liking) text += fmt::format(" and liking {}", *cup.liking);
    }
    return text;
}

std::string chosenText(const OpenedAnswer& answer, const PanelNames& names) {
    const auto chosen = std::find_if(answer.cups.begin(), answer.cups.end(),
                                     [](const OpenedCup& cup) { return cup.mark.has_value(); });
    if (chosen == answer.cups.end()) return "no answer";
    std::string text = fmt::format("chose {} ({})", chosen->code, named(names.products, chosen->product));
    if (answer.right) text += *answer.right ? ", right" : ", not right";
    return text;
}

} // namespace

std::string_view kindName(PanelKind kind) {
    return kNames[static_cast<std::size_t>(kind)];
}

std::string_view kindQuestion(PanelKind kind) {
    return kQuestions[static_cast<std::size_t>(kind)];
}

std::string sheetsText(const Panel& panel, const PanelNames& names) {
    std::string text;
    for (std::size_t at = 0; at < panel.servings.size(); ++at) {
        if (at > 0) text += "\n";
        text += sheet(panel, names, at);
    }
    return text;
}

std::string keyText(const Panel& panel, const PanelNames& names) {
    std::string text =
        fmt::format("Pourer's key: {}\nNot for anyone who tastes or takes answers down.\n\n", names.session);
    const auto cups = cupsOfEach(panel);
    for (std::size_t product = 0; product < cups.size(); ++product)
        text +=
            fmt::format("{}: {}\n", named(names.products, product), counted(cups[product], "cup", "cups"));
    text += "\n";
    const auto rows = pourersKey(panel);
    for (std::size_t at = 0; at < rows.size(); ++at)
        text += fmt::format("{}: {}\n", taster(names, at), cupsOf(rows[at], panel, names));
    return text + "\n" + join(pouringAdvice(panel)) + join(names.cautions);
}

std::string answerText(PanelKind kind, const OpenedAnswer& answer, const PanelNames& names) {
    std::string text;
    if (answer.standing == AnswerStanding::Missing)
        text = "no answer";
    else if (askedMark(kind, answer.cups.size()).sort == MarkSort::Chosen)
        text = chosenText(answer, names);
    else
        text = marksText(answer, names);
    if (answer.reference) text += fmt::format("; R was {}", named(names.products, *answer.reference));
    if (!answer.note.empty()) text += "; " + answer.note;
    return text;
}

std::string resultText(const Panel& panel, const PanelNames& names) {
    const auto found = result(panel);
    const auto answers = openedAnswers(panel);
    if (!found || !answers) return {};
    std::string text = fmt::format("{}\n{}: ", names.session, kindName(panel.design.kind));
    for (std::size_t product = 0; product < panel.design.products.size(); ++product)
        text += fmt::format("{}{}", product == 0 ? "" : ", ", named(names.products, product));
    text += fmt::format(". {}, blind, tested at {}.\n\n{}\n", counted(found->tasters, "taster", "tasters"),
                        percent(found->alpha), headline(*found, names.products));
    text += join(inWords(*found, names.products)) + "\n";
    for (std::size_t at = 0; at < answers->size(); ++at)
        text +=
            fmt::format("{}: {}\n", taster(names, at), answerText(panel.design.kind, (*answers)[at], names));
    return text;
}

} // namespace stillroom::tasting
