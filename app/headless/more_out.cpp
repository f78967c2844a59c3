#include "app/headless/more_out.h"

#include "app/headless/json_out.h"
#include "app/headless/text_out.h"
#include "app/headless/words.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <ostream>

namespace stillroom::headless {

namespace {

using nlohmann::ordered_json;
using spec::FurtherReadings;
using spec::More;

spec::Reading plain(double value) {
    spec::Reading reading;
    reading.value = value;
    reading.bound = spec::Bound::Exact;
    return reading;
}

std::string fixed(double value, int decimals) {
    return readingText(plain(value), decimals);
}

ordered_json coldJson(const FurtherReadings::Cold& cold) {
    ordered_json json;
    const auto& state = cold.state;
    json["state"] = state ? ordered_json(spec::coldStateId(state->state)) : ordered_json(nullptr);
    json["ice_share"] = state ? ordered_json(state->iceShare) : ordered_json(nullptr);
    json["liquid_strength"] =
        state ? ordered_json(state->liquidStrength.percentVol()) : ordered_json(nullptr);
    json["stays_liquid_from"] =
        cold.staysLiquid ? ordered_json(cold.staysLiquid->percentVol()) : ordered_json(nullptr);
    json["at_most"] = cold.atMost;
    return json;
}

std::string coldText(const FurtherReadings::Cold& cold) {
    if (!cold.state) return "?";
    if (cold.state->state == physics::ColdState::Liquid) return "liquid";
    return fmt::format("{}, {}{:.0f} % ice", spec::coldStateId(cold.state->state), cold.atMost ? "≤ " : "",
                       100 * cold.state->iceShare);
}

std::vector<std::string> moreRow(const FurtherReadings& further, More more) {
    std::vector<std::string> row{std::string(moreWords(more)), std::string(spec::moreUnit(more))};
    for (const spec::MoreStage& stage : further.more.stages)
        row.push_back(readingText(stage[more], spec::moreDecimals(more)));
    return row;
}

// What is told of each: a note once, however many readings it holds for.
void writeNotes(std::ostream& out) {
    std::vector<std::string_view> told;
    for (std::size_t m = 0; m < spec::kMoreCount; ++m) {
        const auto more = static_cast<More>(m);
        const std::string_view note = spec::moreNote(more);
        if (note.empty() || std::count(told.begin(), told.end(), note) != 0) continue;
        told.push_back(note);
        writeParagraph(out, fmt::format("{}: {}.", moreWords(more), moreNoteWords(note)), 2);
    }
}

// The curve as asked for by default, and the point of it at each minute told.
struct Held {
    std::optional<spec::HeldCurve> curve;
    spec::HeldAsk ask;
    std::vector<spec::HeldReading> told;
};

Held heldOf(const spec::Spec& spec, const spec::Bindings& bindings) {
    Held held;
    held.ask.in = spec::usualHeldIn(spec);
    held.curve = spec::heldReadings(spec, bindings, held.ask);
    if (!held.curve) return held;
    for (const spec::HeldReading& at : held.curve->points)
        if (std::any_of(std::begin(kHeldMinutes), std::end(kHeldMinutes),
                        [&](int minute) { return std::abs(at.minutes - minute) < 0.25; }))
            held.told.push_back(at);
    return held;
}

} // namespace

ordered_json moreJson(const spec::Spec& spec, const FurtherReadings& further) {
    ordered_json json;
    for (std::size_t s = 0; s < spec::kStageCount; ++s) {
        ordered_json& stage = json["stages"][std::string(spec::stageId(static_cast<spec::Stage>(s)))];
        for (std::size_t m = 0; m < spec::kMoreCount; ++m) {
            const auto more = static_cast<More>(m);
            ordered_json reading = readingJson(spec, further.more.stages[s][more], spec::moreUnit(more));
            reading["note"] =
                spec::moreNote(more).empty() ? ordered_json(nullptr) : ordered_json(spec::moreNote(more));
            stage[std::string(spec::moreId(more))] = std::move(reading);
        }
    }
    json["freezer"]["celsius"] = further.freezer.celsius();
    for (std::size_t s = 0; s < spec::kStageCount; ++s)
        json["freezer"][std::string(spec::stageId(static_cast<spec::Stage>(s)))] = coldJson(further.cold[s]);
    json["standard_drinks"] = ordered_json::array();
    for (const spec::StandardDrinks& country : further.countries)
        json["standard_drinks"].push_back({{"code", country.code},
                                           {"name", country.name},
                                           {"grams_each", country.grams},
                                           {"count", readingJson(spec, country.count, "")}});
    return json;
}

void writeMore(std::ostream& out, const FurtherReadings& further) {
    out << "\nMore readings\n";
    std::vector<std::vector<std::string>> rows{{"", "", "measured", "mixed", "served"}};
    for (std::size_t m = 0; m < spec::kMoreCount; ++m)
        rows.push_back(moreRow(further, static_cast<More>(m)));
    std::vector<std::string> state{fmt::format("At {} °C", fixed(further.freezer.celsius(), 0)), ""};
    std::vector<std::string> needed{"  stays liquid from", "% vol"};
    for (const FurtherReadings::Cold& cold : further.cold) {
        state.push_back(coldText(cold));
        needed.push_back(
            !cold.staysLiquid ? "—" : (cold.atMost ? "≤ " : "") + fixed(cold.staysLiquid->percentVol(), 1));
    }
    rows.push_back(std::move(state));
    rows.push_back(std::move(needed));
    writeTable(out, rows, 2);
    writeNotes(out);
    writeParagraph(out, "Slush and solid: words for a share of ice; no source.", 2);
    if (further.countries.empty()) return;
    out << "\nStandard drinks a serve\n";
    std::vector<std::vector<std::string>> countries;
    for (const spec::StandardDrinks& country : further.countries)
        countries.push_back({std::string(country.name), fmt::format("of {:g} g", country.grams),
                             readingText(country.count, 1)});
    writeTable(out, countries, 2);
}

ordered_json heldJson(const spec::Spec& spec, const spec::Bindings& bindings) {
    const Held held = heldOf(spec, bindings);
    if (!held.curve) return nullptr;
    ordered_json json;
    json["in"] = spec::heldInId(held.ask.in);
    json["room_celsius"] = held.curve->roomC;
    json["room_w_per_k"] = held.curve->roomWPerK;
    json["transfer_assumed"] = held.curve->transferAssumed;
    json["ice_assumed"] = held.curve->iceAssumed;
    json["start_assumed"] = held.curve->startAssumed;
    json["strength_bound"] = spec::boundId(held.curve->strengthBound);
    json["temperature_bound"] = spec::boundId(held.curve->temperatureBound);
    json["points"] = ordered_json::array();
    for (const spec::HeldReading& at : held.told)
        json["points"].push_back({{"minutes", at.minutes},
                                  {"strength", at.strengthPercent},
                                  {"dilution", at.dilution},
                                  {"temperature", at.celsius},
                                  {"volume", at.volumeMl},
                                  {"ice", at.iceG}});
    return json;
}

void writeHeld(std::ostream& out, const spec::Spec& spec, const spec::Bindings& bindings) {
    const Held held = heldOf(spec, bindings);
    out << "\nHeld\n";
    if (!held.curve) {
        writeParagraph(out, "Its served temperature or its volume is not known, so it cannot be followed.",
                       2);
        return;
    }
    const bool ice = held.ask.in != spec::HeldIn::GlassWithoutIce;
    std::vector<std::vector<std::string>> rows{{"min", "% vol", "water, % of start", "°C", "ml", "g ice"}};
    for (const spec::HeldReading& at : held.told)
        rows.push_back({fixed(at.minutes, 0), fixed(at.strengthPercent, 1), fixed(100 * at.dilution, 0),
                        fixed(at.celsius, 1), fixed(at.volumeMl, 0), ice ? fixed(at.iceG, 0) : "—"});
    writeTable(out, rows, 0);
    writeParagraph(
        out,
        fmt::format("{} in a room at {:.0f} °C. Heat transfer is assumed, {:.2f} W/K, no source; a "
                    "temperature measured in the glass sets it right, in the window.",
                    ice ? "With ice," : "Without ice,", held.curve->roomC, held.curve->roomWPerK),
        2);
    if (held.curve->iceAssumed)
        writeParagraph(
            out, fmt::format("Nobody said how much ice: {:.0f} g assumed.", held.curve->iceAtStartG), 2);
    if (held.curve->startAssumed)
        writeParagraph(out, "The served temperature it starts from is an estimate.", 2);
    if (held.curve->strengthBound != spec::Bound::Exact)
        writeParagraph(out, "Its strength as served is a bound, and so is the strength here.", 2);
    if (held.curve->temperatureBound != spec::Bound::Exact)
        writeParagraph(out, "Its temperature as served is a bound, and so is the temperature here.", 2);
}

} // namespace stillroom::headless
