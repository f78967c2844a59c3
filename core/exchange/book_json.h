#pragma once

#include "core/exchange/ingredient_json.h"
#include "core/history/history.h"
#include "core/tasting/panel.h"
#include "core/tasting/tasting.h"

#include <tl/expected.hpp>

#include <map>
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
//
// Beside these, as export writes them (core/store/book_export.h):
//     book      "scales": [{"id", "name", "kind"}], "names": {"<id>": "…"}, "photos": {"<hash>": "<base64>"},
//               "panels": [{"name", "when", "panel": { … }, "products": [["Tern", "2"]], "tasters": ["IB"],
//               "binned"}], "searches": [{"name", "request": { … }}]
//     drink     "tags": ["…"], "after": {"drink", "revision", "person", "place", "year", "work"}, "binned",
//               "tries": [{"name", "based_on", "spec": { … }, "when", "set_aside"}]
//     revision  "spec": { … } instead of "text", "published", "set_aside": "why", "photos": [{"hash",
//     "caption"}] tasting   scores on other kinds as {"kind", "value"}, "circumstances": { … }, "amends": 1,
//     "photos"
// A person who was removed from the book signs with a name of the file's own and "removed": true.
//
// A book that says "ids": true holds each thing under the id it has in the book it came from, and import
// makes that very book again: what was kept stands as it was kept, and is refused where its hash no longer
// holds (core/store/book_record.h). Then there are, beside the above,
//     book       "measures", "standard_drink_g", "scale_step_g"  (also without ids; absent: the usual ones),
//                "states": [fact states], "kept_measures": [house measures of revisions],
//                "remembered": {"<name>": "<ingredient>"}
//     everything "id"; where the file tells two of one name apart by a number, "own_name", "own_initials"
//     drink      "created"
//     revision   "kept": {"number", "facts": {"<ingredient>": {"state", "pours", "made", "lot"}}, "measures",
//                "currency", "readings", "calc_version", "hash"}, "set_aside_on"
//     try        "version", "binned"
//     photo      "when", "hidden"
//     ingredient as ingredient_json.h says; what is made here stands among them, with "made_by"
//     panel      "poured", "closed", "said": [{"id", "by", "when", "answer"}]: each answer, in order
struct ScriptedPhoto {
    std::string hash; // of its bytes, which stand in the book's photos
    std::string caption;
    base::PhotoLinkId id; // null: not said
    base::Instant when;   // attached; of a book with ids
    bool hidden = false;
    friend bool operator==(const ScriptedPhoto&, const ScriptedPhoto&) = default;
};

struct ScriptedTasting {
    std::string initials;
    base::Instant when;
    tasting::Scores scores;
    tasting::Circumstances circumstances;
    std::string note;
    tasting::Verdict verdict = tasting::Verdict::None;
    std::string tryNext;
    int amends = 0; // which of the revision's tastings before it, counted from 1; 0: none
    std::vector<ScriptedPhoto> photos;
    base::TastingId id; // null: not said
    friend bool operator==(const ScriptedTasting&, const ScriptedTasting&) = default;
};

// What a revision was kept with, beside its spec, reason and time.
struct KeptWith {
    base::RevisionId id;
    int number = 0;
    history::RevisionFacts facts;
    std::string measures; // the hash of their JSON
    quantity::Currency currency;
    std::string readings; // history::readingsToJson()
    int calcVersion = 0;
    std::string hash;
    friend bool operator==(const KeptWith&, const KeptWith&) = default;
};

struct ScriptedRevision {
    std::string text;     // the whole spec as text: lines, then "Method:", "Glass:", "Garnish:"
    std::string specJson; // instead of the text: Spec::canonicalJson(), nothing of it left to reading
    std::string reason;   // empty: stays a draft, must be last
    base::Instant when;
    std::string basedOn; // number of an earlier revision, "" for the one before, "0" for none
    bool house = false;
    bool published = false;
    std::optional<std::string> setAside; // why; may be empty
    base::Instant setAsideOn;            // of a book with ids
    std::optional<KeptWith> kept;        // likewise
    std::vector<ScriptedPhoto> photos;
    std::optional<double> partMl;
    std::optional<spec::DilutionEntry> dilution;
    std::vector<spec::Step> steps;
    std::vector<int> beforeStep; // of each line; those after the last: 0
    std::vector<ScriptedTasting> tastings;
    friend bool operator==(const ScriptedRevision&, const ScriptedRevision&) = default;
};

// A draft: all there are, so that none is left from the way to the revisions.
struct ScriptedTry {
    std::string name;
    std::string basedOn; // number of a revision; empty: of none
    std::string specJson;
    base::Instant when;
    bool setAside = false;
    bool binned = false;
    base::DraftId id; // null: not said
    std::int64_t version = 1;
    friend bool operator==(const ScriptedTry&, const ScriptedTry&) = default;
};

struct ScriptedDrink {
    history::Drink drink; // `after` holds the outside source; the drink it comes after stands below
    std::string afterDrink;
    std::string afterRevision;          // its number; empty: none is meant
    std::optional<std::string> ownName; // where drink.name is the file's own
    std::vector<ScriptedRevision> revisions;
    std::vector<ScriptedTry> tries;
    std::optional<WrittenIngredient> larder; // of a preparation: what the larder says of it beside its facts
    friend bool operator==(const ScriptedDrink&, const ScriptedDrink&) = default;
};

// A blind session. The ids inside the panel are another book's; who and what they are stands beside them.
struct ScriptedPanel {
    std::string name;
    base::Instant when;
    tasting::Panel panel;
    struct Product {
        std::string drink;
        std::string revision; // its number
        friend bool operator==(const Product&, const Product&) = default;
    };
    std::vector<Product> products;    // in the design's order
    std::vector<std::string> tasters; // initials, likewise
    bool binned = false;
    base::PanelId id; // null: not said; then the following are empty too
    std::optional<base::Instant> poured, closed;
    struct Said {
        base::Bits128 id;
        std::string initials;
        base::Instant when;
        tasting::Answer answer;
        friend bool operator==(const Said&, const Said&) = default;
    };
    std::vector<Said> said; // also those that another took the place of
    friend bool operator==(const ScriptedPanel&, const ScriptedPanel&) = default;
};

struct ScriptedSearch {
    std::string name;
    std::string request;    // canonical JSON (core/store/search_of_book.h)
    base::SavedSearchId id; // null: not said
    friend bool operator==(const ScriptedSearch&, const ScriptedSearch&) = default;
};

struct ScriptedBook {
    std::string name;
    std::string currency;
    std::string zone;
    std::string region;
    bool hasIds = false;                             // what stands in it is known by the ids it had
    std::optional<quantity::HouseMeasures> measures; // none: the usual ones
    std::optional<double> standardDrinkG, scaleStepG;
    std::vector<larder::FactState> states;                // of revisions
    std::vector<quantity::HouseMeasures> keptMeasures;    // likewise
    std::map<std::string, base::IngredientId> remembered; // chosen for a folded name
    std::map<std::string, std::string> ownInitials;       // of people the file tells apart by others
    std::vector<tasting::Person> people;                  // known in the book by their initials
    std::vector<std::string> removed;                     // initials of those who are to leave no name
    std::vector<WrittenIngredient> ingredients;
    std::vector<ScriptedDrink> drinks; // preparations first: drinks use them
    std::vector<larder::ExchangeRate> rates;
    std::optional<tasting::ScaleSet> scales; // none: the usual ones
    std::map<std::string, std::string>
        names; // ingredient ids in specs and searches, and what they are called
    std::vector<ScriptedPanel> panels;
    std::vector<ScriptedSearch> searches;
    std::map<std::string, std::string> photos; // bytes by their SHA-256
    friend bool operator==(const ScriptedBook&, const ScriptedBook&) = default;
};

// The error says which key of which drink could not be understood.
tl::expected<ScriptedBook, std::string> bookFromJson(std::string_view json);
// The same again.
std::string bookJson(const ScriptedBook& book);

} // namespace stillroom::exchange
