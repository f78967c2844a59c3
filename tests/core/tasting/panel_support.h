#pragma once

#include "core/tasting/panel_result.h"

#include <string>

// Panels for tests, answered by products and not by codes.
namespace stillroom::tasting::test {

inline PanelDesign designOf(PanelKind kind, std::size_t tasters, std::size_t products = 2,
                            std::uint64_t seed = 5) {
    PanelDesign design;
    design.kind = kind;
    design.attribute = "sweetness";
    for (std::size_t i = 0; i < products; ++i)
        design.products.push_back(base::RevisionId::derivedFrom("product " + std::to_string(i)));
    for (std::size_t i = 0; i < tasters; ++i)
        design.tasters.push_back(base::PersonId::derivedFrom("taster " + std::to_string(i)));
    design.seed = seed;
    return design;
}

// Marks by product, as marks by code; 0 is no mark.
inline std::map<int, int> marksOf(const Panel& panel, std::size_t taster, const std::vector<int>& byProduct) {
    std::map<int, int> marks;
    for (const Cup& cup : panel.servings.at(taster).cups)
        if (byProduct.at(cup.product) != 0) marks[cup.code] = byProduct.at(cup.product);
    return marks;
}

// One row of marks for each of the first tasters; the others say nothing.
inline PanelResult closedMarks(const PanelDesign& design, const std::vector<std::vector<int>>& rows,
                               std::map<int, int> Answer::*marks) {
    Panel panel = startPouring(designPanel(design).value()).value();
    for (std::size_t i = 0; i < rows.size(); ++i) {
        Answer answer;
        answer.*marks = marksOf(panel, i, rows[i]);
        panel = withAnswer(panel, design.tasters.at(i), answer).value();
    }
    return result(closePanel(panel).value()).value();
}

// The code of the right cup: the odd one, that like the reference, or in pairs that of `product`.
inline int rightCode(const Panel& panel, std::size_t taster, std::size_t product) {
    const Serving& serving = panel.servings.at(taster);
    std::map<std::size_t, std::vector<int>> codes;
    for (const Cup& cup : serving.cups)
        codes[cup.product].push_back(cup.code);
    if (panel.design.kind == PanelKind::Triangle) return codes[codes[0].size() == 1 ? 0 : 1].front();
    return codes[serving.reference.value_or(product)].front();
}

// The first `answering` tasters choose a cup: the first `count` of them the right one, the rest another.
inline PanelResult closedChoice(const PanelDesign& design, int count, int answering,
                                std::size_t product = 0) {
    Panel panel = startPouring(designPanel(design).value()).value();
    for (int i = 0; i < answering; ++i) {
        const auto index = static_cast<std::size_t>(i);
        const int right = rightCode(panel, index, product);
        Answer answer;
        for (const Cup& cup : panel.servings.at(index).cups)
            if ((cup.code == right) == (i < count)) answer.chosen = cup.code;
        panel = withAnswer(panel, design.tasters.at(index), answer).value();
    }
    return result(closePanel(panel).value()).value();
}

} // namespace stillroom::tasting::test
