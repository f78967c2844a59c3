#pragma once

#include "core/tasting/panel.h"

// What is handed out. A taster's sheet and the public view hold nothing from which a product could be
// learned: codes in the order of tasting, and what is asked. Only the pourer's key says what is in the cups.
namespace stillroom::tasting {

struct TasterSheet {
    PanelKind kind = PanelKind::Triangle;
    std::string attribute;
    bool hasReference = false; // a cup marked R is tasted first
    std::vector<int> codes;    // in the order of tasting
    friend bool operator==(const TasterSheet&, const TasterSheet&) = default;
};
tl::expected<TasterSheet, PanelError> tasterSheet(const Panel& panel, const base::PersonId& taster);

struct KeyCup {
    int code = 0;
    base::RevisionId product;
    friend bool operator==(const KeyCup&, const KeyCup&) = default;
};
struct KeyRow {
    base::PersonId taster;
    std::optional<base::RevisionId> reference;
    std::vector<KeyCup> cups;
    friend bool operator==(const KeyRow&, const KeyRow&) = default;
};
std::vector<KeyRow> pourersKey(const Panel& panel);

// How many cups of each product the pourer needs, references included; in the order of the products.
std::vector<int> cupsOfEach(const Panel& panel);

// JSON for everyone, at every state: kind, attribute, state, number of products, and for each taster the
// codes and whether an answer came in. No product, no seed, nothing foretold, no answer.
std::string publicView(const Panel& panel);

} // namespace stillroom::tasting
