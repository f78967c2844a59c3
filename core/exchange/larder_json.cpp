#include "core/exchange/larder_json.h"

#include "core/base/text.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <stdexcept>

namespace stillroom::exchange {

namespace {

using nlohmann::json;
using quantity::Rational;

constexpr double kLargest = 1e9; // ml, g, pieces: from it on a slip of the pen

// Thrown and caught in this file only.
struct Misread : std::runtime_error {
    using std::runtime_error::runtime_error;
};

class Fields {
  public:
    Fields(const json& value, const char* what, std::initializer_list<std::string_view> keys)
        : m_value(value),
          m_what(what) {
        if (!value.is_object()) throw Misread(fmt::format("\"{}\" must be an object", what));
        for (const auto& [key, ignored] : value.items())
            if (std::find(keys.begin(), keys.end(), key) == keys.end())
                throw Misread(fmt::format("\"{}\" has an unknown key \"{}\"", what, key));
    }

    const json* find(const char* key) const {
        const auto found = m_value.find(key);
        return found == m_value.end() || found->is_null() ? nullptr : &*found;
    }
    std::string text(const char* key) const {
        const json* value = find(key);
        if (value == nullptr) return {};
        if (!value->is_string()) fail(key, "must be a text");
        return value->get<std::string>();
    }
    bool flag(const char* key) const {
        const json* value = find(key);
        if (value == nullptr) return false;
        if (!value->is_boolean()) fail(key, "must be true or false");
        return value->get<bool>();
    }
    std::optional<double> number(const char* key, double lowest, double highest) const {
        const json* value = find(key);
        if (value == nullptr) return std::nullopt;
        const double amount = value->is_number() ? value->get<double>() : -1;
        if (!value->is_number()) fail(key, "must be a number");
        if (!(amount >= lowest && amount <= highest))
            fail(key, fmt::format("must lie between {} and {}", lowest, highest).c_str());
        return amount;
    }
    Rational exact(const char* key, const Rational& otherwise) const {
        const json* value = find(key);
        if (value == nullptr) return otherwise;
        std::optional<Rational> read;
        if (value->is_string()) read = Rational::fromText(value->get<std::string>());
        if (value->is_number()) read = Rational::fromText(base::shortestDecimal(value->get<double>()));
        if (!read) fail(key, "must be a number or a fraction like 17/20");
        return *read;
    }
    std::string day(const char* key) const {
        std::string on = text(key);
        if (!on.empty() && !larder::isCivilDate(on)) fail(key, "must be a day like 2026-11-02");
        return on;
    }
    std::optional<std::int64_t> whole(const char* key) const {
        const json* value = find(key);
        if (value == nullptr) return std::nullopt;
        if (!value->is_number_integer()) fail(key, "must be a whole number");
        return value->get<std::int64_t>();
    }
    template <class IdType>
    IdType id(const char* key) const {
        const auto read = IdType::fromText(text(key));
        if (!read) fail(key, "must be an id");
        return *read;
    }
    larder::PackUnit unit(const char* key, larder::PackUnit otherwise) const {
        const std::string id = text(key);
        if (id.empty()) return otherwise;
        const auto read = larder::packUnitFromId(id);
        if (!read) fail(key, "is ml, g or piece");
        return *read;
    }
    [[noreturn]] void fail(const char* key, const char* why) const {
        throw Misread(fmt::format("\"{}\" of \"{}\" {}", key, m_what, why));
    }

  private:
    const json& m_value;
    const char* m_what;
};

// What `read` misread, as a value.
template <class Read>
auto guarded(Read read) -> ReadJson<decltype(read())> {
    try {
        return read();
    } catch (const Misread& problem) {
        return tl::unexpected<std::string>(problem.what());
    }
}

template <class Read>
auto eachOf(const json& list, const char* what, Read read) {
    if (!list.is_array()) throw Misread(fmt::format("\"{}\" must be a list", what));
    std::vector<decltype(read(list))> all;
    for (const json& one : list)
        all.push_back(read(one));
    return all;
}

WrittenPack packFrom(const json& value) {
    const Fields fields(value, "price",
                        {"amount", "currency", "for_ml", "for_g", "for_pieces", "on", "supplier",
                         "tax_percent", "id", "place", "added", "dropped"});
    const std::string code = fields.text("currency");
    const auto currency = quantity::Currency::fromCode(code);
    if (!currency) throw Misread(fmt::format("\"{}\" is not a currency of ISO 4217", code));
    const json* stated = fields.find("amount");
    std::string amount;
    if (stated != nullptr && stated->is_string()) amount = stated->get<std::string>();
    if (stated != nullptr && stated->is_number()) amount = base::shortestDecimal(stated->get<double>());
    const auto money = quantity::Money::fromText(amount, *currency);
    if (!money || money->minor < 0)
        throw Misread(fmt::format("\"{}\" is not an amount of {}", amount, currency->text()));
    WrittenPack written;
    larder::Pack& pack = written.pack;
    pack.id = base::PackId::random();
    if (fields.find("id") != nullptr) pack.id = fields.id<base::PackId>("id");
    written.place = fields.whole("place").value_or(0);
    written.addedMs = fields.whole("added").value_or(0);
    written.droppedMs = fields.whole("dropped");
    pack.price = *money;
    pack.forMl = fields.number("for_ml", 0, kLargest);
    pack.forG = fields.number("for_g", 0, kLargest);
    pack.forPieces = fields.number("for_pieces", 0, kLargest);
    int sizes = 0;
    for (const auto* size : {&pack.forMl, &pack.forG, &pack.forPieces})
        sizes += *size && **size > 0 ? 1 : *size ? 2 : 0;
    if (sizes != 1) throw Misread("\"price\" needs one of for_ml, for_g, for_pieces, above 0");
    for (const auto* size : {&pack.forMl, &pack.forG, &pack.forPieces})
        if (*size && **size >= kLargest)
            throw Misread("\"price\" is of a pack too large to be one: below 1000000000");
    pack.pricedOn = fields.day("on");
    pack.supplier = fields.text("supplier");
    pack.taxPercent = fields.exact("tax_percent", 0);
    if (pack.taxPercent.isNegative()) fields.fail("tax_percent", "cannot be below 0");
    return written;
}

struct LotFigure {
    const char* key;
    std::optional<larder::Fact> larder::Lot::*fact;
    double highest;
};
constexpr std::array<LotFigure, 4> kLotFigures{
    {{"abv_percent", &larder::Lot::abvPercent, 100.0},
     {"sugar_g_per_l", &larder::Lot::sugarGPerL, 1600.0},
     {"acid_g_per_l", &larder::Lot::acidGPerL, 1700.0},
     {"density_kg_per_m3", &larder::Lot::densityKgPerM3, 14000.0}}};

WrittenLot lotFrom(const json& value) {
    const Fields fields(value, "lots",
                        {"on", "use_by", "abv_percent", "sugar_g_per_l", "acid_g_per_l", "density_kg_per_m3",
                         "source", "got_ml", "note", "used_up", "in_use", "revision", "id", "facts"});
    WrittenLot written;
    if (fields.find("id") != nullptr) written.lot.id = fields.id<base::LotId>("id");
    written.lot.on = fields.day("on");
    written.lot.useBy = fields.day("use_by");
    const std::string source = fields.text("source");
    for (const LotFigure& figure : kLotFigures)
        if (const auto number = fields.number(figure.key, 0, figure.highest))
            written.lot.*figure.fact =
                larder::Fact{*number, *number, *number, larder::SourceKind::Measured, source, written.lot.on};
    if (const json* figures = fields.find("facts")) {
        const auto state = larder::FactState::fromCanonicalJson(figures->dump());
        if (!state) fields.fail("facts", "cannot be read");
        written.lot.abvPercent = state->abvPercent;
        written.lot.sugarGPerL = state->sugarGPerL;
        written.lot.acidGPerL = state->acidGPerL;
        written.lot.densityKgPerM3 = state->densityKgPerM3;
    }
    written.lot.gotMl = fields.number("got_ml", 0, kLargest);
    written.lot.note = fields.text("note");
    written.lot.usedUp = fields.flag("used_up");
    written.inUse = fields.flag("in_use");
    written.revision = fields.text("revision");
    return written;
}

larder::ExchangeRate rateFrom(const json& value) {
    const Fields fields(value, "rates", {"from", "to", "per_unit", "on"});
    const auto from = quantity::Currency::fromCode(fields.text("from"));
    const auto to = quantity::Currency::fromCode(fields.text("to"));
    if (!from) fields.fail("from", "is not a currency of ISO 4217");
    if (!to) fields.fail("to", "is not a currency of ISO 4217");
    larder::ExchangeRate rate{*from, *to, fields.exact("per_unit", 0), fields.day("on")};
    if (!(Rational(0) < rate.perUnit)) fields.fail("per_unit", "must be above 0");
    if (rate.on.empty()) fields.fail("on", "is missing");
    return rate;
}

void putIfSaid(json& object, const char* key, const std::string& text) {
    if (!text.empty()) object[key] = text;
}

void putIfSaid(json& object, const char* key, const std::optional<double>& number) {
    if (number) object[key] = *number;
}

json packJson(const larder::Pack& pack) {
    json one{{"amount", pack.price.text()}, {"currency", pack.price.currency.text()}};
    putIfSaid(one, "for_ml", pack.forMl);
    putIfSaid(one, "for_g", pack.forG);
    putIfSaid(one, "for_pieces", pack.forPieces);
    putIfSaid(one, "on", pack.pricedOn);
    putIfSaid(one, "supplier", pack.supplier);
    if (!pack.taxPercent.isZero()) one["tax_percent"] = pack.taxPercent.text();
    return one;
}

// The figures of a lot with their ranges and sources; they stand in a lot of a book with ids.
json figuresJson(const larder::Lot& lot) {
    larder::FactState figures;
    figures.abvPercent = lot.abvPercent;
    figures.sugarGPerL = lot.sugarGPerL;
    figures.acidGPerL = lot.acidGPerL;
    figures.densityKgPerM3 = lot.densityKgPerM3;
    return json::parse(figures.canonicalJson());
}

} // namespace

ReadJson<std::vector<larder::Pack>> packsFromJson(const json& value, std::vector<WrittenPack>& paid) {
    return guarded([&] {
        std::vector<larder::Pack> packs;
        const auto all =
            value.is_array() ? eachOf(value, "price", packFrom) : std::vector<WrittenPack>{packFrom(value)};
        for (const WrittenPack& one : all)
            if (one.addedMs != 0)
                paid.push_back(one);
            else
                packs.push_back(one.pack);
        return packs;
    });
}

ReadJson<larder::GotFrom> gotFromFromJson(const json& value, std::string& ofName) {
    return guarded([&] {
        const Fields fields(value, "got_from", {"of", "of_unit", "unit", "per_unit", "price_share"});
        larder::GotFrom got;
        ofName = fields.text("of");
        if (ofName.empty()) fields.fail("of", "is missing");
        got.ofUnit = fields.unit("of_unit", larder::PackUnit::Piece);
        got.unit = fields.unit("unit", larder::PackUnit::Ml);
        got.perUnit = fields.exact("per_unit", 1);
        got.priceShare = fields.exact("price_share", 1);
        if (!(Rational(0) < got.perUnit)) fields.fail("per_unit", "must be above 0");
        if (got.priceShare.isNegative() || Rational(1) < got.priceShare)
            fields.fail("price_share", "must lie between 0 and 1");
        return got;
    });
}

ReadJson<larder::Stock> stockFromJson(const json& value) {
    return guarded([&] {
        const Fields fields(value, "stock", {"state", "amount", "unit", "off", "counted_on"});
        larder::Stock stock;
        const std::string state = fields.text("state");
        const auto said = larder::onShelfFromId(state.empty() ? "not_said" : state);
        if (!said) fields.fail("state", "is have, low or out");
        stock.state = *said;
        stock.amount = fields.number("amount", 0, kLargest);
        stock.unit = fields.unit("unit", larder::PackUnit::Ml);
        stock.off = fields.flag("off");
        stock.countedOn = fields.day("counted_on");
        return stock;
    });
}

ReadJson<std::vector<WrittenLot>> lotsFromJson(const json& value) {
    return guarded([&] { return eachOf(value, "lots", lotFrom); });
}

ReadJson<std::vector<larder::ExchangeRate>> ratesFromJson(const json& value) {
    return guarded([&] { return eachOf(value, "rates", rateFrom); });
}

ReadJson<Rational> shareFromJson(const json& value) {
    return guarded([&] {
        const json object{{"usable_share", value}};
        const Fields fields(object, "usable_share", {"usable_share"});
        const Rational share = fields.exact("usable_share", 1);
        if (!(Rational(0) < share) || Rational(1) < share)
            throw Misread("\"usable_share\" must be above 0 and at most 1");
        return share;
    });
}

json packsJson(const std::vector<larder::Pack>& packs) {
    json all = json::array();
    for (const larder::Pack& pack : packs)
        all.push_back(packJson(pack));
    return all;
}

json paidJson(const std::vector<WrittenPack>& paid) {
    json all = json::array();
    for (const WrittenPack& written : paid) {
        json one = packJson(written.pack);
        one["id"] = written.pack.id.text();
        one["place"] = written.place;
        one["added"] = written.addedMs;
        if (written.droppedMs) one["dropped"] = *written.droppedMs;
        all.push_back(std::move(one));
    }
    return all;
}

json gotFromJson(const larder::GotFrom& got, const std::string& ofName) {
    return {{"of", ofName},
            {"of_unit", larder::packUnitId(got.ofUnit)},
            {"unit", larder::packUnitId(got.unit)},
            {"per_unit", got.perUnit.text()},
            {"price_share", got.priceShare.text()}};
}

json stockJson(const larder::Stock& stock) {
    json object{{"state", larder::onShelfId(stock.state)}, {"unit", larder::packUnitId(stock.unit)}};
    putIfSaid(object, "amount", stock.amount);
    if (stock.off) object["off"] = true;
    putIfSaid(object, "counted_on", stock.countedOn);
    return object;
}

json lotsJson(const std::vector<WrittenLot>& lots) {
    json all = json::array();
    for (const WrittenLot& written : lots) {
        json one = json::object();
        putIfSaid(one, "on", written.lot.on);
        putIfSaid(one, "use_by", written.lot.useBy);
        for (const LotFigure& figure : kLotFigures)
            if (const auto& fact = written.lot.*figure.fact) {
                one[figure.key] = fact->typical;
                putIfSaid(one, "source", fact->source);
            }
        if (!written.lot.id.isNull()) {
            one["id"] = written.lot.id.text();
            one["facts"] = figuresJson(written.lot);
        }
        putIfSaid(one, "got_ml", written.lot.gotMl);
        putIfSaid(one, "note", written.lot.note);
        if (written.lot.usedUp) one["used_up"] = true;
        if (written.inUse) one["in_use"] = true;
        putIfSaid(one, "revision", written.revision);
        all.push_back(std::move(one));
    }
    return all;
}

json ratesJson(const std::vector<larder::ExchangeRate>& rates) {
    json all = json::array();
    for (const larder::ExchangeRate& rate : rates)
        all.push_back({{"from", rate.from.text()},
                       {"to", rate.to.text()},
                       {"per_unit", rate.perUnit.text()},
                       {"on", rate.on}});
    return all;
}

} // namespace stillroom::exchange
