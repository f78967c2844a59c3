#include "core/tasting/panel_sheets.h"

#include "core/base/check.h"
#include "core/tasting/guarded_json.h"

#include <algorithm>

namespace stillroom::tasting {

namespace {

using Json = nlohmann::json;

std::vector<int> codesOf(const Serving& serving) {
    std::vector<int> codes;
    for (const Cup& cup : serving.cups)
        codes.push_back(cup.code);
    return codes;
}

} // namespace

tl::expected<TasterSheet, PanelError> tasterSheet(const Panel& panel, const base::PersonId& taster) {
    const auto& tasters = panel.design.tasters;
    const auto found = std::find(tasters.begin(), tasters.end(), taster);
    if (found == tasters.end()) return tl::unexpected(PanelError::UnknownTaster);
    const auto index = static_cast<std::size_t>(found - tasters.begin());
    STILLROOM_CHECK(index < panel.servings.size(), return tl::unexpected(PanelError::Malformed));
    const Serving& serving = panel.servings[index];
    return TasterSheet{panel.design.kind, panel.design.attribute, serving.reference.has_value(),
                       codesOf(serving)};
}

std::vector<KeyRow> pourersKey(const Panel& panel) {
    const auto& products = panel.design.products;
    std::vector<KeyRow> rows;
    for (std::size_t i = 0; i < panel.servings.size(); ++i) {
        const Serving& serving = panel.servings[i];
        KeyRow row;
        row.taster = panel.design.tasters.at(i);
        if (serving.reference) row.reference = products.at(*serving.reference);
        for (const Cup& cup : serving.cups)
            row.cups.push_back({cup.code, products.at(cup.product)});
        rows.push_back(std::move(row));
    }
    return rows;
}

std::vector<int> cupsOfEach(const Panel& panel) {
    std::vector<int> cups(panel.design.products.size(), 0);
    for (const Serving& serving : panel.servings) {
        if (serving.reference) ++cups.at(*serving.reference);
        for (const Cup& cup : serving.cups)
            ++cups.at(cup.product);
    }
    return cups;
}

std::string publicView(const Panel& panel) {
    Json tasters = Json::array();
    for (std::size_t i = 0; i < panel.servings.size(); ++i) {
        const Serving& serving = panel.servings[i];
        tasters.push_back({{"taster", panel.design.tasters.at(i).text()},
                           {"answered", !panel.answers.at(i).isEmpty()},
                           {"codes", codesOf(serving)},
                           {"reference", serving.reference.has_value()}});
    }
    const Json view{{"kind", panelKindId(panel.design.kind)},
                    {"attribute", panel.design.attribute},
                    {"state", panelStateId(panel.state)},
                    {"products", panel.design.products.size()},
                    {"tasters", std::move(tasters)}};
    return canonicalText(view);
}

} // namespace stillroom::tasting
