#include "app/headless/glass_out.h"

#include "app/headless/command.h"
#include "app/headless/text_out.h"
#include "core/base/text.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <ostream>

namespace stillroom::headless {

namespace {

using nlohmann::ordered_json;
using spec::FillDoubtCode;
using spec::GlassFilling;

std::string nameOf(const spec::Spec& drink, int line) {
    if (line < 0 || static_cast<std::size_t>(line) >= drink.lines.size()) return {};
    return drink.lines[static_cast<std::size_t>(line)].name;
}

std::string namesOf(const spec::Spec& drink, const std::vector<std::size_t>& lines) {
    std::string names;
    for (const std::size_t line : lines)
        names += (names.empty() ? "" : ", ") + nameOf(drink, static_cast<int>(line));
    return names;
}

ordered_json placesJson(const std::vector<std::size_t>& lines, const std::vector<int>& lineOf) {
    ordered_json list = ordered_json::array();
    for (const std::size_t line : lines)
        if (line < lineOf.size() && lineOf[line] >= 0) list.push_back(lineOf[line]);
    return list;
}

double rounded(double value, double step) {
    return std::round(value / step) * step;
}

std::string_view layerWords(spec::GlassLayerKind kind) {
    switch (kind) {
    case spec::GlassLayerKind::Drink:
        break;
    case spec::GlassLayerKind::Poured:
        return "layer";
    case spec::GlassLayerKind::Float:
        return "float";
    }
    return "drink";
}

std::string washWords(const GlassFilling& filling) {
    switch (filling.wash) {
    case spec::WashLine::Short:
        return "looks short: the wash line is 85-90 % of the brim";
    case spec::WashLine::High:
        return "above the wash line of 85-90 %: hard to carry";
    case spec::WashLine::Spills:
        return fmt::format("spills: {:.0f} ml more than it holds", filling.overMl);
    case spec::WashLine::Within:
        return "at the wash line";
    case spec::WashLine::NotPoured:
        return "such a glass is poured well below its brim";
    case spec::WashLine::Unknown:
        break;
    }
    return {};
}

} // namespace

std::string fillDoubtWords(const spec::FillDoubt& doubt, const spec::Spec& drink) {
    const std::string name = nameOf(drink, doubt.line);
    switch (doubt.code) {
    case FillDoubtCode::FloatSinks:
        return fmt::format("{} is no lighter than what it is floated on: it sinks and mixes in", name);
    case FillDoubtCode::PouredOutOfOrder:
        return fmt::format("{} is heavier than what it is poured on: it goes below", name);
    case FillDoubtCode::OrderUnknown:
        return fmt::format("{}: too little is known to say whether it stays on top", name);
    case FillDoubtCode::AmountOpen:
        return fmt::format("{}: no size, so there is more in the glass than counted", name);
    case FillDoubtCode::VolumeUnknown:
        return "Parts need a volume to aim at before they fill a glass";
    case FillDoubtCode::IceNotCounted:
        return "Over ice of no stated size: it is not counted, and lifts the line";
    case FillDoubtCode::IceDoesNotPass:
        return "A piece of this ice is wider than the mouth of the glass";
    case FillDoubtCode::HeadAssumed:
        return "How far the head rises is common practice, not measured";
    case FillDoubtCode::HeadOverBrim:
        return "The head stands above the brim";
    case FillDoubtCode::GlassUnknown:
        return "The glass has no known shape";
    }
    return {};
}

ordered_json glassFillJson(const GlassFilling& filling, const spec::Spec& drink,
                           const std::vector<int>& lineOf) {
    const auto orNull = [&](double value) {
        return filling.glassKnown ? ordered_json(rounded(value, 0.01)) : ordered_json(nullptr);
    };
    ordered_json json;
    json["glass"] = filling.glassKnown ? ordered_json(filling.glass.name) : ordered_json(nullptr);
    json["brim"] = orNull(filling.brimMl);
    json["liquid"] = rounded(filling.liquidMl, 0.01);
    json["at_least"] = filling.atLeast;
    json["share"] =
        filling.shareOfBrim ? ordered_json(rounded(*filling.shareOfBrim, 1e-4)) : ordered_json(nullptr);
    json["height"] = orNull(filling.fillMm);
    json["top"] = orNull(filling.topMm);
    json["over"] = orNull(filling.overMl);
    json["wash_line"] = spec::washLineId(filling.wash);
    json["layers"] = ordered_json::array();
    for (const spec::GlassLayer& layer : filling.layers)
        json["layers"].push_back(
            {{"kind", spec::glassLayerKindId(layer.kind)},
             {"volume", rounded(layer.volumeMl, 0.01)},
             {"stands", rounded(layer.standsMl, 0.01)},
             {"temperature", rounded(layer.celsius, 0.1)},
             {"density", layer.densityKgPerM3 ? ordered_json(rounded(*layer.densityKgPerM3, 0.1))
                                              : ordered_json(nullptr)},
             {"density_range", {rounded(layer.lowKgPerM3, 0.1), rounded(layer.highKgPerM3, 0.1)}},
             {"at_least", layer.atLeast},
             {"lines", placesJson(layer.lines, lineOf)}});
    json["heads"] = ordered_json::array();
    for (const spec::GlassHead& head : filling.heads)
        json["heads"].push_back({{"kind", spec::glassHeadKindId(head.kind)},
                                 {"volume", rounded(head.volumeMl, 0.01)},
                                 {"liquid", rounded(head.liquidMl, 0.01)},
                                 {"assumed", head.assumed},
                                 {"lines", placesJson(head.lines, lineOf)}});
    json["ice"] = nullptr;
    if (filling.ice)
        json["ice"] = {{"mass", rounded(filling.ice->pieces.grams, 0.01)},
                       {"volume", rounded(filling.ice->volumeMl, 0.01)},
                       {"displaced", rounded(filling.ice->displacedMl, 0.01)},
                       {"floats", filling.ice->floats}};
    json["doubts"] = ordered_json::array();
    for (const spec::FillDoubt& doubt : filling.doubts) {
        const bool placed = doubt.line >= 0 && static_cast<std::size_t>(doubt.line) < lineOf.size() &&
                            lineOf[static_cast<std::size_t>(doubt.line)] >= 0;
        json["doubts"].push_back({{"code", spec::fillDoubtId(doubt.code)},
                                  {"line", placed ? ordered_json(lineOf[static_cast<std::size_t>(doubt.line)])
                                                  : ordered_json(nullptr)},
                                  {"says", fillDoubtWords(doubt, drink)}});
    }
    return json;
}

void writeGlassFill(std::ostream& out, const GlassFilling& filling, const spec::Spec& drink) {
    if (filling.layers.empty() && filling.heads.empty()) return;
    out << "\nIn the glass\n";
    std::string line = filling.glassKnown ? filling.glass.name : std::string("a glass of no known shape");
    if (filling.shareOfBrim)
        line += fmt::format(": {}{:.0f} % of the brim ({:.0f} ml)", filling.atLeast ? "at least " : "",
                            *filling.shareOfBrim * 100, filling.brimMl);
    if (const std::string wash = washWords(filling); !wash.empty()) line += "; " + wash;
    writeParagraph(out, clean(line), 2);
    std::vector<std::vector<std::string>> rows;
    for (auto head = filling.heads.rbegin(); head != filling.heads.rend(); ++head)
        rows.push_back({"", head->kind == spec::GlassHeadKind::Cream ? "cream head" : "foam",
                        clean(base::elided(namesOf(drink, head->lines), 50)),
                        fmt::format("≈ {:.0f} ml", head->volumeMl), ""});
    for (auto layer = filling.layers.rbegin(); layer != filling.layers.rend(); ++layer)
        rows.push_back({"", std::string(layerWords(layer->kind)),
                        clean(base::elided(namesOf(drink, layer->lines), 50)),
                        fmt::format("{}{:.1f} ml", layer->atLeast ? "≥ " : "", layer->volumeMl),
                        layer->densityKgPerM3
                            ? fmt::format("{:.0f} kg/m³", *layer->densityKgPerM3)
                            : fmt::format("{:.0f}–{:.0f} kg/m³", layer->lowKgPerM3, layer->highKgPerM3)});
    writeTable(out, rows, 3);
    if (filling.ice)
        writeParagraph(
            out,
            fmt::format("{:.0f} g of ice {} and takes the room of {:.0f} ml.", filling.ice->pieces.grams,
                        filling.ice->floats ? "floats" : "stands on the floor", filling.ice->displacedMl),
            2);
    for (const spec::FillDoubt& doubt : filling.doubts)
        writeParagraph(out, clean("! " + fillDoubtWords(doubt, drink)), 2);
}

} // namespace stillroom::headless
