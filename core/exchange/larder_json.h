#pragma once

#include "core/larder/ingredient.h"
#include "core/larder/price_history.h"

#include <nlohmann/json_fwd.hpp>
#include <tl/expected.hpp>

#include <string>
#include <vector>

namespace stillroom::exchange {

// What stands beside an ingredient's facts, as JSON. Exact numbers (shares, tax, yields) are a number or a
// text like "17/20"; written as text. The error says which key could not be understood; unknown keys are
// errors.
//
//     "price": {"amount": "12.50", "currency": "EUR", "for_ml" | "for_g" | "for_pieces": 700,
//               "on": "2026-11-02", "supplier": "…", "tax_percent": 20}   or a list of these, newest last
//     "got_from": {"of": "lime, whole fruit", "of_unit": "piece", "unit": "ml", "per_unit": 30,
//                  "price_share": 1}                           units: ml, g, piece
//     "stock": {"state": "have" | "low" | "out", "amount": 2100, "unit": "ml", "off": true,
//               "counted_on": "2026-11-24"}
//     "lots": [{"on": "2026-11-20", "use_by": "2026-12-04", "abv_percent": 46.2, "sugar_g_per_l": 0,
//               "acid_g_per_l": 0, "density_kg_per_m3": 950, "source": "hydrometer", "got_ml": 940,
//               "note": "…", "used_up": true, "in_use": true, "revision": "1"}]   of what is made here
//                                                                 of a book with ids also "id", "facts"
//     In a book with ids a price has "id", "place", "added" and, once another took its place, "dropped":
//     milliseconds since 1970, UTC.
//     "rates": [{"from": "GBP", "to": "EUR", "per_unit": "1.17", "on": "2026-11-01"}]      of a book
struct WrittenLot {
    larder::Lot lot; // id and ingredient are given on import
    bool inUse = false;
    std::string revision; // number of the revision it was made from; empty: not said
    friend bool operator==(const WrittenLot&, const WrittenLot&) = default;
};

struct WrittenPack {
    larder::Pack pack;
    std::int64_t place = 0; // among the ingredient's
    std::int64_t addedMs = 0;
    std::optional<std::int64_t> droppedMs;
    friend bool operator==(const WrittenPack&, const WrittenPack&) = default;
};

template <class T>
using ReadJson = tl::expected<T, std::string>;

// What says when it was added goes into `paid`, the rest into the result with new ids.
ReadJson<std::vector<larder::Pack>> packsFromJson(const nlohmann::json& json, std::vector<WrittenPack>& paid);
ReadJson<larder::GotFrom> gotFromFromJson(const nlohmann::json& json, std::string& ofName);
ReadJson<larder::Stock> stockFromJson(const nlohmann::json& json);
ReadJson<std::vector<WrittenLot>> lotsFromJson(const nlohmann::json& json);
ReadJson<std::vector<larder::ExchangeRate>> ratesFromJson(const nlohmann::json& json);
ReadJson<quantity::Rational> shareFromJson(const nlohmann::json& json); // above 0, at most 1

nlohmann::json packsJson(const std::vector<larder::Pack>& packs);
nlohmann::json paidJson(const std::vector<WrittenPack>& paid);
nlohmann::json gotFromJson(const larder::GotFrom& got, const std::string& ofName);
nlohmann::json stockJson(const larder::Stock& stock);
nlohmann::json lotsJson(const std::vector<WrittenLot>& lots);
nlohmann::json ratesJson(const std::vector<larder::ExchangeRate>& rates);

} // namespace stillroom::exchange
