#pragma once

#include "core/history/history.h"

#include <string>

namespace stillroom::history {

// What a card says under the name: "after Ox Skerry; after M. Halloran, the Low Lamp, 2019, Nine Lights;
// with thanks to the morning shift". `afterName` is the name of the book's own drink, where there is one.
// Empty when nothing is known. English.
std::string creditInWords(const Drink& drink, const std::string& afterName);
std::string sourceInWords(const Source& source); // "M. Halloran, the Low Lamp, 2019, Nine Lights"

// The revision that cards and menus should carry: the published one, else the house one.
std::optional<base::RevisionId> currentRevision(const Drink& drink);
// A card or menu that carries `shown` is out of date: readers or the bar have another. False while neither is
// named, since there is nothing to be behind.
bool isStale(const Drink& drink, base::RevisionId shown);

// The reason the program proposes for a draft: what changed, in words, at most 200 code points. Empty when
// nothing did.
std::string proposedReason(const spec::Spec& before, const spec::Spec& after,
                           const quantity::HouseMeasures& measures);

} // namespace stillroom::history
