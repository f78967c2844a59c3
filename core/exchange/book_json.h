#pragma once

#include "core/exchange/ingredient_json.h"
#include "core/history/history.h"
#include "core/tasting/tasting.h"

#include <tl/expected.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace stillroom::exchange {

// A book's content as values, in the order it happened: what sample-data/ holds and what import applies.
// Lines are written as people write them and read by read_text.h, so that import is the code users use.
//
//     {"format": "stillroom-book/1", "name": "The Low Lamp", "currency": "EUR", "zone": "Europe/Dublin",
//      "region": "metric",                              for spoons and ounces; default "US"
//      "rates": [ … ],                                  exchange rates, larder_json.h
//      "people": [{"initials": "IB", "name": "…"}],
//      "ingredients": [ … ],                            ingredient_json.h; one that states no figure only
//                                                       adds its price and by-names to the handbook's kind
//      "drinks": [                                      preparations first: drinks use them
//        {"name": "…", "form": "drink" | "preparation", "menu": "…", "brief": "…", "notes": "…",
//         "credit": "…",
//         "larder": { … },                           of a preparation: stock, keep_days, lots, price… as in
//                                                    ingredient_json.h, without a name
//         "revisions": [
//           {"text": ["45 ml London dry gin", "Method: …", "Glass: …", "Garnish: …"],
//            "when": "2026-11-06T21:10:00+00:00",
//            "reason": "…",                             absent: the working draft, must come last
//            "based_on": "3",                           default: the revision before; another one: a branch
//            "house": true,                             the revision in use
//            "part_ml": 90,                             what one serve in parts measures before ice
//            "steps": [{"kind": "simmer", "water_lost_g": "200"}, …], "before_step": [0, 0, 1],
//                                                    of a preparation, as spec.h writes them; the second
//                                                    says before which step each line goes in
//            "dilution": {"ratio": 0.42, "origin": "measured" | "typed", "how": "weighed …"},
//            "tastings": [{"by": "IB", "when": "…", "verdict": "keep" | "change" | "drop",
//                          "scores": {"sweet": 5, "sour": 9, "strong": 8, "bitter": 5, "length": 6},
//                          "note": "…", "try_next": "…"}]}]}]}
struct ScriptedTasting {
    std::string initials;
    base::Instant when;
    std::array<std::optional<int>, tasting::kScaleCount> scores{};
    std::string note;
    tasting::Verdict verdict = tasting::Verdict::None;
    std::string tryNext;
    friend bool operator==(const ScriptedTasting&, const ScriptedTasting&) = default;
};

struct ScriptedRevision {
    std::string text;   // the whole spec as text: lines, then "Method:", "Glass:", "Garnish:"
    std::string reason; // empty: stays a draft, must be last
    base::Instant when;
    std::string basedOn; // number of an earlier revision, "" for the one before
    bool house = false;
    std::optional<double> partMl;
    std::optional<spec::DilutionEntry> dilution;
    std::vector<spec::Step> steps;
    std::vector<int> beforeStep; // of each line; those after the last: 0
    std::vector<ScriptedTasting> tastings;
    friend bool operator==(const ScriptedRevision&, const ScriptedRevision&) = default;
};

struct ScriptedDrink {
    history::Drink drink;
    std::vector<ScriptedRevision> revisions;
    std::optional<WrittenIngredient> larder; // of a preparation: what the larder says of it beside its facts
    friend bool operator==(const ScriptedDrink&, const ScriptedDrink&) = default;
};

struct ScriptedBook {
    std::string name;
    std::string currency;
    std::string zone;
    std::string region;
    std::vector<tasting::Person> people;
    std::vector<WrittenIngredient> ingredients;
    std::vector<ScriptedDrink> drinks; // preparations first: drinks use them
    std::vector<larder::ExchangeRate> rates;
    friend bool operator==(const ScriptedBook&, const ScriptedBook&) = default;
};

// The error says which key of which drink could not be understood.
tl::expected<ScriptedBook, std::string> bookFromJson(std::string_view json);
// The same again.
std::string bookJson(const ScriptedBook& book);

} // namespace stillroom::exchange
