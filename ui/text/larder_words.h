#pragma once

#include "core/larder/allergens.h"
#include "core/larder/fact_changes.h"
#include "core/larder/larder.h"
#include "core/larder/listing.h"
#include "core/preparation/findings.h"

#include <QString>

#include <optional>

namespace stillroom::ui {

// The larder in words: core says what it found in codes.
QString sortWord(const larder::Ingredient& ingredient,
                 bool fromHandbook);              // "bottle", "kind, from the handbook"
QString factName(std::string_view key);           // "Strength"
QString factUnit(std::string_view key, bool dry); // "% vol", "g/l"
int factDecimals(std::string_view key);
QString sayerWord(larder::SourceKind kind); // "measured here"
QString packUnitWord(larder::PackUnit unit);
QString sizeText(const larder::Pack& pack);    // "700 ml"
QString stockWord(const larder::Stock& stock); // "low", "1,400 ml", "off"; empty: nobody said
// "€ 3.00 / 100 ml"; "?" where nobody knows.
QString unitPriceText(const std::optional<larder::UnitPrice>& price, const quantity::Currency& currency);
QString unitPricePer(const larder::UnitPrice& price); // "100 ml"
QString costProblemSentence(larder::CostProblem problem, const QString& currency = {});
// What is wrong or doubtful, with its numbers. `larder` names what stands in a circle.
QString factDoubtSentence(const larder::FoundDoubt& doubt, const QString& name);
QString findingSentence(const preparation::Finding& finding, const larder::Ingredient& of,
                        const larder::Larder& larder);
// "Contains milk, eggs. US list: milk, eggs.": unknown is said, never left out.
QString allergenSentence(const larder::FactState& facts);
// "strength 40 → 43 % vol; says: label → measured here"
QString changesInWords(const larder::Ingredient& before, const larder::Ingredient& after,
                       const larder::Larder& larder);

} // namespace stillroom::ui
